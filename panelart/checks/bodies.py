"""Convex outer forms, and two measures on them: how far they reach into each other, and past an edge."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.geometry import Contour
from panelart.geometry.polygons import polygon

Numbers: TypeAlias = NDArray[np.float64]

_STEP = 0.25
"""How far apart, in mm, a thing that reaches past an edge is looked at."""


class Body(Struct, frozen=True, eq=False):
    """All that lies within `radius` mm of the convex hull `core`: a circle is a point with a radius."""

    core: shapely.Geometry
    radius: float = 0.0

    @property
    def corners(self) -> Numbers:
        """Corners of the core, one row each."""
        rows: Numbers = shapely.get_coordinates(self.core)
        return rows[:-1] if isinstance(self.core, shapely.Polygon) else rows

    def reach(self, ways: Numbers) -> Numbers:
        """How far the body reaches in each of the directions of length 1, measured from the origin."""
        reached: Numbers = (self.corners @ ways.T).max(axis=0) + self.radius
        return reached


def body_of(contour: Contour) -> Body:
    """The outer form of a contour: exact for circles and straight sides, on the large side of other arcs."""
    round_ = contour.circle
    if round_ is not None:
        return Body(shapely.Point(round_[0]), round_[1])
    return hull(polygon(contour, side="outside"))


def hull(ground: shapely.Geometry) -> Body:
    """The outer form of any ground that is not empty."""
    return Body(shapely.convex_hull(ground))


def depth(first: Body, second: Body) -> float:
    """The shortest straight move, in mm, that separates two bodies; negative: how far they are apart.

    Exact for convex forms; for hollow ones that overlap it may be more than is needed, never less.
    """
    apart = float(shapely.distance(first.core, second.core))
    radii = first.radius + second.radius
    ways = np.concatenate([outward(first), -outward(second)])
    if apart > 0.0 or not len(ways):
        return radii - apart
    return float((first.reach(ways) + second.reach(-ways)).min())


def outward(body: Body) -> Numbers:
    """Directions of length 1 square to each side of the core; both sides of a line, none of a point."""
    if isinstance(body.core, shapely.Point):
        return np.empty((0, 2))
    corners = body.corners
    if len(corners) == 2:
        along = np.array([corners[1] - corners[0], corners[0] - corners[1]])
    else:
        along = np.roll(corners, -1, axis=0) - corners
        if not shapely.is_ccw(body.core.exterior):
            along = -along
    square = np.column_stack([along[:, 1], -along[:, 0]])
    ways: Numbers = square / np.linalg.norm(square, axis=1, keepdims=True)
    return ways


class Edge:
    """The line round a face, to measure how far inside it things stay."""

    def __init__(self, outline: Contour) -> None:
        self.ground = polygon(outline, side="inside")
        self._convex = bool(np.isclose(self.ground.area, shapely.convex_hull(self.ground).area, rtol=1e-9, atol=0.0))
        around = Body(self.ground)
        self._ways = outward(around)
        self._reach = around.reach(self._ways)

    def margin(self, body: Body, ground: shapely.Geometry) -> float:
        """The distance from a thing inside to the edge, in mm; negative: how far it reaches past the edge.

        `body` is the outer form of `ground`. Exact where the outline is convex, apart from arcs of the outline,
        which are taken up to CHORD_TOLERANCE too far inside.
        """
        if self._convex:
            return float((self._reach - body.reach(self._ways)).min())
        if shapely.covers(self.ground, ground):
            return float(shapely.distance(self.ground.exterior, ground))
        # What spans a notch has no corner in it: the lines across are looked at step by step.
        beyond = shapely.segmentize(shapely.difference(ground, self.ground), _STEP)
        outer = shapely.points(shapely.get_coordinates(beyond))
        return -float(shapely.distance(self.ground, outer).max()) if len(outer) else 0.0

    def surely_inside(self, boxes: Numbers, margin: float) -> NDArray[np.bool_]:
        """Whether each box (left, bottom, right, top) is farther than a margin from the edge, all over."""
        if not self._convex:
            squares = shapely.box(*boxes.T)
            away = shapely.distance(self.ground.exterior, squares) > margin
            clear: NDArray[np.bool_] = away & shapely.covers(self.ground, squares)
            return clear
        slack = np.full(len(boxes), np.inf)
        for across, up in ((0, 1), (2, 1), (2, 3), (0, 3)):
            corner = boxes[:, [across, up]]
            slack = np.minimum(slack, (self._reach - corner @ self._ways.T).min(axis=1))
        inside: NDArray[np.bool_] = slack > margin
        return inside
