"""What of a finished panel can be found on a printer's bed: corners, edges, and the middles of openings."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from panelart.canonical import Struct
from panelart.geometry import Arc, Contour, Line, Point, Vector
from panelart.model.layout import CutOpening, Layout
from panelart.press.fitting import UNMOVED

EDGES: Final[Mapping[str, Vector]] = {
    "left": Vector(-1.0, 0.0),
    "right": Vector(1.0, 0.0),
    "top": Vector(0.0, 1.0),
    "bottom": Vector(0.0, -1.0),
}
"""The edges by name, each with its outward normal."""

CORNERS: Final = {
    "lower-left": ("bottom", "left"),
    "lower-right": ("bottom", "right"),
    "upper-right": ("top", "right"),
    "upper-left": ("top", "left"),
}
"""The corners by name: where two edges would meet if the corner were sharp."""

STRAIGHT: Final = 0.25
"""The least share of a side that must be one straight edge for the side to be touched, or a corner built on it."""

_ROUND: Final = 180.0
"""An arc longer than this, in degrees, is what finds the middle of an opening: its key or flat does not."""


class Feature(Struct, frozen=True, kw_only=True):
    """One thing to measure: `at` on the finished panel; an edge has its outward normal `across`.

    `grows` is how it moves when the outline grows by 1 mm all round; `seen` tells that it is found well by eye or by a
    camera: a corner, a round hole.
    """

    name: str
    at: Point
    across: Vector | None = None
    grows: Vector = UNMOVED
    seen: bool = False


def features(layout: Layout) -> dict[str, Feature]:
    """All of a panel by name: corners, edges, then openings, at finished size."""
    found = {feature.name: feature for feature in _outline(layout.panel.outline)}
    for opening in layout.openings:
        found.setdefault(opening.name, _middle(opening))
    return found


def _outline(outline: Contour) -> list[Feature]:
    edges = {name: place for name in EDGES if (place := _edge(outline, name)) is not None}
    found: list[Feature] = []
    for name, (level, upright) in CORNERS.items():
        if level in edges and upright in edges and _meet(outline, level, upright):
            grows = Vector(EDGES[upright].x, EDGES[level].y)
            at = Point(edges[upright].x, edges[level].y)
            found.append(Feature(name=name, at=at, grows=grows, seen=True))
    found += [Feature(name=name, at=at, across=EDGES[name], grows=EDGES[name]) for name, at in edges.items()]
    return found


def _edge(outline: Contour, name: str) -> Point | None:
    """The middle of the straight edge on one side of the panel, None where that side is not straight."""
    number = _straight(outline, name)
    if number is None:
        return None
    segment = outline.segments[number]
    middle = segment.start.middle(segment.end)
    return Point(round(middle.x, 9), round(middle.y, 9))


def _straight(outline: Contour, name: str) -> int | None:
    """Which segment of the outline is the straight edge on one side."""
    box, out = outline.bounds, EDGES[name]
    side = box.height if out.x else box.width
    on_side = max if out.x + out.y > 0 else min
    limit = on_side((box.left, box.right) if out.x else (box.bottom, box.top))
    for number, segment in enumerate(outline.segments):
        if isinstance(segment, Line) and segment.length >= STRAIGHT * side:
            ends = (segment.start, segment.end)
            if all(abs((end.x if out.x else end.y) - limit) < 1e-6 for end in ends):
                return number
    return None


def _meet(outline: Contour, one: str, other: str) -> bool:
    """Whether two edges are neighbours, with no more than a rounding or a chamfer between them."""
    first, second = _straight(outline, one), _straight(outline, other)
    count = len(outline.segments)
    return first is not None and second is not None and min((first - second) % count, (second - first) % count) <= 2


def _middle(opening: CutOpening) -> Feature:
    arcs = [segment for segment in opening.finished.segments if isinstance(segment, Arc)]
    longest = max(arcs, key=lambda arc: abs(arc.sweep_deg), default=None)
    if longest is not None and abs(longest.sweep_deg) > _ROUND:
        return Feature(name=opening.name, at=longest.centre, seen=True)
    return Feature(name=opening.name, at=opening.finished.bounds.centre)
