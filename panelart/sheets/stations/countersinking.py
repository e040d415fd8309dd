"""Cones for heads that end flush."""

from __future__ import annotations

from panelart.cutouts.describe import coat_thickness, size_of
from panelart.messages import sheets as common
from panelart.messages import sheets_stations as said
from panelart.sheets.listing import Listing
from panelart.sheets.stations.figures import (
    BLANK_CELL,
    countersinks,
    figure_column,
    mm,
    text_column,
)
from panelart.sheets.stations.station import Given, Section, Station, View


def _countersink(given: Given) -> Section:
    layout = given.layout
    cones = list(countersinks(layout))
    panel = layout.panel
    rows = tuple(
        (
            opening.name,
            opening.on,
            mm(at.x),
            mm(at.y),
            cone.side.value,
            f"Ø{cone.cut:.2f}",
            f"{cone.angle:g}°",
            mm(cone.depth),
            str(size_of(opening.cut)),
            BLANK_CELL,
        )
        for opening, cone, at in cones
    )
    return Section(
        name=said.countersink(),
        steps=(
            said.countersink_to_diameter(),
            said.head_below_face(thickness=coat_thickness(panel.coat)) if panel.coat.build else said.head_flush(),
            said.no_burr_behind(),
        ),
        listings=(
            Listing(
                title=said.countersinks(),
                columns=(
                    text_column(common.column_hole(), 18),
                    text_column(common.column_surface(), 22),
                    figure_column("x", 16),
                    figure_column("y", 16),
                    text_column(common.column_side(), 18),
                    text_column(said.column_diameter(), 20),
                    text_column(common.column_angle(), 14),
                    figure_column(common.column_depth(), 16),
                    text_column(said.column_hole_size(), 22),
                    text_column(said.column_first_piece(), 26),
                ),
                rows=rows,
                remark=said.countersinks_remark(thickness=panel.sheet.thickness),
            ),
        ),
        views=(View.FACE if layout.blank is None else View.BLANK,),
        marked=frozenset(opening.name for opening, *_ in cones),
    )


COUNTERSINK = Station(
    key="countersink", there=lambda given: any(True for _ in countersinks(given.layout)), told=_countersink
)
