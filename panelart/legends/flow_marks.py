"""Lines of flow as they are drawn: cut back under their arrows, with dots where branches meet them.

Arrows and dots are sized by the line, so that they are seen on a line of any width.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from panelart.canonical import Struct
from panelart.geometry import Box, Line, Point, circle, polygon
from panelart.lettering.outline import Shape, bounds, open_shape, shape_of
from panelart.model.layout import Mark
from panelart.model.panel import Arrow, FlowLine, Panel

STROKE = 0.125
"""Width of a line over the cap height of names."""

HEAD = 5.0
"""Length of an arrow over the width of its line, and SLIM its width over its length. Common practice."""
SLIM = 0.75

STUB = 2.0
"""Length of what is seen of a line before its first bend, over its width. Common practice."""

DOT = 4.0
"""Diameter of the dot where a branch meets a line, over the width of the line. Common practice: more than three, so
that it is no thick bend."""

CLEAR = 1.2
"""mm of the white beside a line that its arrow may take. What the arrow of a wide line is wider keeps clear with it."""

LINE = "flow-line"
ARROW = "flow-arrow"
DOT_KIND = "flow-dot"
"""Kinds of the marks that lines of flow consist of."""

_TINY = 1e-6


def line_width(line: FlowLine, panel: Panel) -> float:
    """The width that a line is drawn with, mm."""
    usual = max(STROKE * panel.marking.styles["name"].cap_height, panel.marking.process.line_minimum.value)
    return usual if line.width is None else line.width


def run_of(line: FlowLine, panel: Panel, *, arrow: bool) -> float:
    """How far a line goes straight where it leaves or enters a part, mm: its arrow if it has one, and a little more."""
    widths = HEAD if arrow else STUB
    return widths * line_width(line, panel) + 0.25 * panel.marking.styles["name"].cap_height


def half_of(line: FlowLine, panel: Panel) -> float:
    """How far what stands is kept from the middle of a line, besides white and register, mm."""
    width = line_width(line, panel)
    arrow = 0.0 if line.arrow is Arrow.NONE else SLIM * HEAD * width / 2 - CLEAR
    return max(width / 2, arrow)


def drawn_way(
    name: str, line: FlowLine, way: Sequence[Point], panel: Panel, *, arrows: tuple[bool, bool]
) -> list[Mark]:
    """A way of a line, cut back under its arrows, and the arrows; `arrows` says which of its ends have one."""
    width = line_width(line, panel)
    head = HEAD * width
    points = list(way)
    heads: list[Mark] = []
    if arrows[1]:
        heads.append(_head(name, line, way[-2], way[-1], head))
        points[-1] = _short(way[-2], way[-1], 0.9 * head)
    if arrows[0]:
        heads.append(_head(name, line, way[1], way[0], head))
        points[0] = _short(way[1], points[0], 0.9 * head)
    shape = open_shape(tuple(Line(a, b) for a, b in pairwise(points) if a.distance(b) > _TINY))
    return [Mark(ref=name, kind=LINE, shape=shape, width=width, ink=line.ink, where=line.where), *heads]


def drawn_dots(name: str, line: FlowLine, branches: Iterable[Sequence[Point]], panel: Panel) -> list[Mark]:
    """A dot where each branch meets its line; lines that only cross have none."""
    width = line_width(line, panel)
    places = dict.fromkeys(Point(round(way[-1].x, 6), round(way[-1].y, 6)) for way in branches)
    return [_filled(name, DOT_KIND, line, shape_of(circle(DOT * width, place))) for place in places]


class Stretch(Struct, frozen=True):
    """What a line of flow covers somewhere: a straight piece of it, which frames may cross, or an arrow or a dot."""

    box: Box
    is_line: bool = True

    @property
    def level(self) -> bool:
        """Whether no level line of a frame may cross it."""
        return not self.is_line or self.box.width >= self.box.height

    @property
    def upright(self) -> bool:
        """Whether no upright line of a frame may cross it."""
        return not self.is_line or self.box.height >= self.box.width


def stretches(marks: Iterable[Mark]) -> list[Stretch]:
    """What lines of flow cover: each straight piece with its width, each arrow and each dot."""
    found = [
        Stretch(Box.around((curve.start, curve.end)).grown(mark.width / 2))
        for mark in marks
        if mark.kind == LINE
        for curve in mark.shape[0].curves
    ]
    return found + [Stretch(bounds(mark.shape), is_line=False) for mark in marks if mark.kind in (ARROW, DOT_KIND)]


def _short(start: Point, end: Point, by: float) -> Point:
    far = start.distance(end)
    return end.moved(start.minus(end).scaled(min(by, 0.9 * far) / far))


def _head(name: str, line: FlowLine, start: Point, end: Point, head: float) -> Mark:
    way = end.minus(start).unit
    side = way.perpendicular.scaled(SLIM * head / 2)
    foot = end.moved(way.scaled(-head))
    corners = [end, foot.moved(side), foot.moved(side.scaled(-1.0))]
    return _filled(name, ARROW, line, shape_of(polygon(corners)))


def _filled(name: str, kind: str, line: FlowLine, shape: Shape) -> Mark:
    return Mark(ref=name, kind=kind, shape=shape, width=0.0, ink=line.ink, where=line.where, filled=True)
