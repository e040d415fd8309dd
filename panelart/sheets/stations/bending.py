"""The press brake: flanges in their order."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.cutouts.blank import bent
from panelart.cutouts.tolerances import ANGLE
from panelart.drawing.blanklayer import bend_direction
from panelart.messages import Message, Said
from panelart.messages import sheets as common
from panelart.messages import sheets_stations as said
from panelart.model.layout import Layout
from panelart.sheets.listing import Listing
from panelart.sheets.stations.figures import (
    BLANK_CELL,
    deviation,
    figure_column,
    mm,
    text_column,
)
from panelart.sheets.stations.station import Given, Section, Station, View

_CORNERS = ({"top", "left"}, {"top", "right"}, {"bottom", "left"}, {"bottom", "right"})


def _bend(given: Given) -> Section:
    layout = given.layout
    blank, panel = layout.blank, layout.panel
    assert blank is not None, "only a bent panel comes here"
    lengths: dict[str, float] = {}
    for worked in bent(panel, layout.cut_outline).values():
        lengths[worked.flange.edge.value] = worked.length
        lengths[f"{worked.flange.edge.value} return"] = worked.second_length
    rows: list[tuple[Said, ...]] = []
    for bend in blank.bends:
        upright = abs(bend.start.x - bend.end.x) < 1e-6
        at = f"x {mm(bend.start.x)}" if upright else f"y {mm(bend.start.y)}"
        length = lengths[bend.name]
        rows.append(
            (
                str(bend.step),
                bend.name,
                at,
                said.bend_angle(angle=bend.angle, tolerance=ANGLE),
                bend_direction(bend),
                said.radius(radius=bend.radius),
                mm(bend.allowance),
                f"{mm(length)} {deviation(length, panel)}",
                BLANK_CELL,
            )
        )
    edges = {flange.edge.value for flange in panel.flanges}
    return Section(
        name=said.bend(),
        steps=tuple(_bend_steps(layout)),
        listings=(
            Listing(
                title=said.bends(),
                columns=(
                    text_column(said.column_step(), 12),
                    text_column(said.column_bend(), 26),
                    text_column(said.column_bend_line(), 26),
                    text_column(common.column_angle(), 22),
                    text_column(said.column_direction(), 20),
                    text_column(said.column_inside_radius(), 26),
                    figure_column(said.column_bend_allowance(), 28),
                    text_column(said.column_outside_length(), 32),
                    text_column(said.column_first_piece(), 26),
                ),
                rows=tuple(rows),
                remark=said.bends_remark(),
            ),
        ),
        cautions=(said.last_bends(),) if len(panel.flanges) > 2 or edges in _CORNERS else (),
        views=(View.BLANK, View.BENT),
        files=("blank.pdf",),
    )


def _bend_steps(layout: Layout) -> Iterator[Message]:
    panel, box = layout.panel, layout.cut_outline.bounds
    yield common.paragraph(sentences=(said.bend_in_order(), said.bend_directions()))
    yield common.paragraph(sentences=(said.springback(), said.protect_from_die()))
    yield said.outside_size(width=box.width, height=box.height)
    if panel.bending is not None and panel.bending.die is not None:
        yield said.die_opening(opening=panel.bending.die)


BEND = Station(key="bend", there=lambda given: given.layout.blank is not None, told=_bend)
