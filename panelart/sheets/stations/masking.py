"""What stays bare is masked, threads are plugged."""

from __future__ import annotations

from collections.abc import Sequence

from panelart.cutouts.describe import size_of
from panelart.cutouts.hardware import from_datum
from panelart.cutouts.masks import Plugs, plugs
from panelart.messages import sheets as common
from panelart.messages import sheets_stations as said
from panelart.model.layout import FACE, Layout, PlacedMask
from panelart.model.panel import Panel, Side
from panelart.sheets.listing import Listing
from panelart.sheets.stations.figures import (
    datum_told,
    figure_column,
    listed,
    mm,
    text_column,
)
from panelart.sheets.stations.station import Given, Section, Station, View


def _mask(given: Given) -> Section:
    layout = given.layout
    panel = layout.panel
    plugged = plugs(panel)
    listings = [_masks_listed(layout)] if layout.masks else []
    if plugged:
        listings.append(_plugs_listed(plugged))
    behind = plugged or any(mask.side is Side.REAR for mask in layout.masks)
    return Section(
        name=said.clean_and_mask(),
        steps=(said.degrease(), said.place_masks()),
        listings=tuple(listings),
        views=(View.BEHIND if behind else View.FACE,),
        marked=frozenset((*(mask.name for mask in layout.masks), *(ref for one in plugged for ref in one.refs))),
        files=_mask_files(layout),
    )


def _masks_listed(layout: Layout) -> Listing:
    panel = layout.panel
    files = _mask_files(layout)
    in_files = (said.mask_files(files=files),) if files else ()
    return Listing(
        title=said.masks(),
        columns=(
            text_column(said.column_mask(), 18),
            text_column(common.column_surface(), 22),
            text_column(common.column_side(), 16),
            figure_column("x", 18),
            figure_column("y", 18),
            text_column(said.column_size(), 40),
            text_column(said.column_reason(), 110),
        ),
        rows=tuple(_mask_row(panel, mask) for mask in layout.masks),
        remark=common.paragraph(sentences=(datum_told(panel), *in_files)),
    )


def _plugs_listed(plugged: Sequence[Plugs]) -> Listing:
    return Listing(
        title=said.plugs(),
        columns=(
            figure_column(common.column_quantity(), 20),
            text_column(said.column_thread(), 40),
            text_column(common.column_refs(), 150),
        ),
        rows=tuple((str(len(one.refs)), one.thread, listed(one.refs)) for one in plugged),
        remark=said.plugs_remark(),
    )


def _mask_files(layout: Layout) -> tuple[str, ...]:
    sides = sorted({mask.side.value for mask in layout.masks if mask.on == FACE})
    return tuple(f"mask-{side}.dxf" for side in sides)


def _mask_row(panel: Panel, mask: PlacedMask) -> tuple[str, ...]:
    size = size_of(mask.contour)
    at = from_datum(panel, mask.on, size.centre)
    return (mask.name, mask.on, mask.side.value, mm(at.x), mm(at.y), str(size), mask.why)


def _is_masked(given: Given) -> bool:
    panel = given.layout.panel
    return panel.coat.kind != "none" and bool(given.layout.masks or plugs(panel))


MASK = Station(key="mask", there=_is_masked, told=_mask)
