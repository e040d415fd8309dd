"""The form to measure parts by before cutting: a sketch of each cutout with its dimensions, and blanks to write in."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from panelart.checks.measuring import PartToMeasure
from panelart.drawing.layers import DIMENSIONS, NOTES, PARTS
from panelart.drawing.representation import Drawing
from panelart.geometry import Point
from panelart.messages import sheets_measuring as said
from panelart.model.component import Component
from panelart.model.panel import Panel
from panelart.sheets.measure_table import dimension_cells, refs_in
from panelart.sheets.pages import MARGIN, WIDTH, Pages
from panelart.sheets.paper import (
    BLACK,
    GREY,
    HEADING,
    HEAVY,
    LINE_PITCH,
    MEDIUM,
    TEXT,
    Column,
    lines_of,
    paragraph,
    paragraph_height,
    rule,
    table,
    table_height,
    unshortened,
    width_of,
    words,
)
from panelart.sheets.part_picture import PartPicture, part_picture

SKETCH: Final = (52.0, 40.0)
"""What a sketch takes with its dimensions, mm on paper."""

SCALES: Final = ((2, 1), (1, 1), (1, 2), (1, 5), (1, 10), (1, 20))
"""Scales of ISO 5455, the largest first."""

COLUMNS: Final = (
    Column(heading=said.dimension(), width=46.0),
    Column(heading=said.figure_used(), width=20.0),
    Column(heading=said.range_met(), width=24.0),
    Column(heading=said.measured(), width=30.0),
)


def measure_form(panel: Panel, parts: Sequence[PartToMeasure], made_by: str) -> tuple[Drawing, ...]:
    """The pages, A4 upright: a block for each kind of part, in the order of the panel."""
    page = Pages()
    page.add(NOTES, [words(said.form_title(), page.at(HEADING), height=HEADING, bold=True).item])
    page.down(HEADING * LINE_PITCH + 1.0)
    for line in lines_of(" · ".join(text for text in (panel.title, panel.number, panel.revision) if text), page.width):
        page.add(NOTES, [words(line, page.at(TEXT), paint=GREY).item])
        page.down(TEXT * LINE_PITCH)
    page.add(NOTES, [rule(Point(MARGIN, page.top), Point(WIDTH - MARGIN, page.top), width=HEAVY)])
    page.down(3.0)
    page.add(NOTES, paragraph(said.form_remark(), Point(MARGIN, page.top), page.width))
    page.down(paragraph_height(said.form_remark(), page.width) + 9.0)
    for label, x, long in ((said.measured_by(), 0.0, 70.0), (said.measured_on(), 95.0, 40.0)):
        base = page.at(0.0, x)
        page.add(NOTES, [words(label, base).item])
        begin = base.x + width_of(label) + 3.0
        page.add(NOTES, [rule(Point(begin, base.y - 0.8), Point(begin + long, base.y - 0.8), paint=BLACK)])
    page.down(9.0)
    for part in parts:
        _block(part, page)
    return tuple(page.drawings(str(said.form_name(panel=panel.title)), str(said.form_title()), made_by))


def _block(part: PartToMeasure, page: Pages) -> None:
    """One kind of part: its name over the sketch of its cutout and the table of its blanks."""
    picture = _sketch(part.component)
    rows = [(*dimension_cells(dimension)[:3], "") for dimension in part.dimensions]
    columns, broken = unshortened(COLUMNS, rows, page.width - SKETCH[0])
    lines = [line for row in broken for line in row]
    tall = max(0.0 if picture is None else picture.box.height, table_height(len(lines)))
    page.need(HEADING + 8.0 + tall + 6.0)
    page.add(NOTES, [rule(Point(MARGIN, page.top), Point(WIDTH - MARGIN, page.top), width=MEDIUM)])
    page.down(2.4)
    title = lines_of(part.component.title, page.width * 0.62, HEADING)[0]
    head = words(title, page.at(HEADING), height=HEADING, bold=True)
    page.add(NOTES, [head.item])
    about = said.part_and_refs(part=part.component.name, refs=refs_in(part.refs, 60.0))
    page.add(NOTES, [words(about, Point(head.box.right + 3.0, page.top - HEADING), paint=GREY).item])
    page.down(HEADING + 4.0)
    if picture is not None:
        placed = picture.moved(Point(MARGIN + SKETCH[0] / 2, page.top - tall / 2))
        page.add(PARTS, list(placed.items))
    left = Point(WIDTH - MARGIN - math.fsum(column.width for column in columns), page.top)
    page.add(DIMENSIONS, table(columns, lines, left))
    page.down(tall + 6.0)


def _sketch(component: Component) -> PartPicture | None:
    """The cutout with its dimensions, as large as there is room for; None for a part that needs none."""
    if not component.openings:
        return None
    cutout = replace(component, front=(), rear=(), shaft=None)
    pictures = (part_picture(cutout, drawn / real) for drawn, real in SCALES)
    found = None
    for found in pictures:
        if found.box.width <= SKETCH[0] and found.box.height <= SKETCH[1]:
            break
    return found
