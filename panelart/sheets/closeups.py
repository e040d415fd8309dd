"""Small conflicts enlarged: a window of the panel round each finding that is too small to be seen on the picture."""

from __future__ import annotations

import math
from collections.abc import Iterator

import shapely

from panelart.canonical import Struct
from panelart.checks import Finding, Inspection
from panelart.checks.registry import WAIVER_RULES
from panelart.checks.survey import Stroke, Survey, survey
from panelart.diagnostics import Severity
from panelart.drawing.layers import ground_of
from panelart.drawing.representation import Item, Paint
from panelart.drawing.scaling import Scaling
from panelart.geometry import Box, Point
from panelart.messages import Message, figures
from panelart.messages import sheets_proof as said
from panelart.model.layout import Layout
from panelart.sheets.grounds import shape_of_ground
from panelart.sheets.paper import LINE_PITCH, MEDIUM, TEXT, panel_box, paragraph
from panelart.sheets.picture import DARK

WINDOW = 30.0
"""Side of a window on paper, mm."""

CAPTION = 1.2 + TEXT * (1.0 + LINE_PITCH)
"""Room for two lines of words under a window, mm."""

LARGEST = 9.0
"""What is larger than this can be seen on the picture itself, mm."""

HARDWARE_LINE = Paint(colour="#5B8DEF")
"""Hardware as lines, so that holes and ink under it are seen; light enough on dark coats, dark enough on light."""

ROUND = 2.5
"""Panel shown at least on each side of the middle of a conflict, mm."""


class Closeup(Struct, frozen=True, kw_only=True):
    """One window: the finding's number, how many times it is enlarged, and what is shown of the panel."""

    number: int
    finding: Finding
    times: int
    shown: Box


def closeups(inspection: Inspection) -> tuple[Closeup, ...]:
    """A window for each error and warning whose place is small, in the order of the findings."""
    found: list[Closeup] = []
    for number, finding in enumerate(inspection.findings, start=1):
        if finding.rule in WAIVER_RULES:
            continue  # there is nothing on the panel to be seen
        box = _box(finding)
        size = max(box.width, box.height)
        if finding.severity is Severity.NOTE or size > LARGEST:
            continue
        times = max(math.floor(WINDOW / (2 * ROUND + size)), 1)
        half = WINDOW / times / 2
        middle = box.centre
        shown = Box(middle.x - half, middle.y - half, middle.x + half, middle.y + half)
        found.append(Closeup(number=number, finding=finding, times=times, shown=shown))
    return tuple(found)


def _box(finding: Finding) -> Box:
    """Its place; the first of its places where several parts have the trouble by themselves."""
    place = finding.each[0].place if finding.each else finding.place
    return place if isinstance(place, Box) else Box(place.x, place.y, place.x, place.y)


class Window:
    """Draws windows of one panel; what is on it is made ready once."""

    def __init__(self, layout: Layout) -> None:
        self._survey: Survey = survey(layout)

    def items(self, closeup: Closeup, corner: Point, paint: Paint) -> list[Item]:
        """A window with its lower-left corner at a point of the paper, its place boxed, its words under it."""
        shown, times = closeup.shown, float(closeup.times)
        scaling = Scaling(times, Point(corner.x - shown.left * times, corner.y - shown.bottom * times))
        pane = shapely.box(shown.left, shown.bottom, shown.right, shown.top)
        items = [scaling.item(item) for item in self._inside(pane)]
        items.append(panel_box(scaling.box(_box(closeup.finding)).grown(0.8), stroke=paint, width=MEDIUM))
        items.append(panel_box(Box(corner.x, corner.y, corner.x + WINDOW, corner.y + WINDOW), width=MEDIUM))
        items += paragraph(_caption(closeup), Point(corner.x, corner.y - 1.2), WINDOW)
        return items

    def _inside(self, pane: shapely.Geometry) -> Iterator[Item]:
        """What lies in a pane, cut off at its edges, in painting order."""
        looked = self._survey
        yield _cut(shapely.intersection(looked.edge.ground, pane), fill=ground_of(looked.panel))
        for opening in looked.openings:
            yield _cut(shapely.intersection(opening.ground, pane), fill=DARK)
        for ink in (*looked.fields, *looked.legends, *looked.frame_lines):
            thing = ink.mark if isinstance(ink, Stroke) else ink.legend
            if thing.left_out:
                continue
            made = thing.ink
            if shapely.box(ink.box.left, ink.box.bottom, ink.box.right, ink.box.top).intersects(pane):
                yield _cut(shapely.intersection(ink.ground, pane), fill=Paint(colour=made.colour))
        for solid in looked.front:
            yield _cut(shapely.intersection(solid.ground, pane), fill=None, stroke=HARDWARE_LINE, width=0.06)


def _cut(ground: shapely.Geometry, *, fill: Paint | None, stroke: Paint | None = None, width: float = 0.0) -> Item:
    return Item(shape=shape_of_ground(ground), fill=fill, stroke=stroke, width=width)


def _caption(closeup: Closeup) -> Message:
    finding, scale = closeup.finding, (closeup.times, 1)
    if finding.measured is None:
        return said.window(number=closeup.number, scale=scale)
    measured = figures.measured(finding.measured, finding.unit)
    return said.window_measured(number=closeup.number, scale=scale, measured=measured)
