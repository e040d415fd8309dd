"""Positions, displacements and upright boxes on the panel face: millimetres, x right, y up."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final, NamedTuple, Protocol

from panelart.canonical import Struct

TOLERANCE: Final = 1e-9
"""Two positions nearer than this many millimetres are the same position."""


class Vector(NamedTuple):
    """A displacement in millimetres."""

    x: float
    y: float

    @property
    def length(self) -> float:
        """Length in millimetres."""
        return math.hypot(self.x, self.y)

    @property
    def deg(self) -> float:
        """Direction in degrees from the x axis, within (-180, 180]."""
        return math.degrees(math.atan2(self.y, self.x))

    @property
    def unit(self) -> Vector:
        """The same direction with length 1. Raises ValueError for a displacement of nothing."""
        length = self.length
        if length == 0.0:
            raise ValueError("a displacement of length 0 has no direction")
        return Vector(self.x / length, self.y / length)

    @property
    def perpendicular(self) -> Vector:
        """Turned by a quarter counter-clockwise: what lies on the left hand."""
        return Vector(-self.y, self.x)

    def scaled(self, by: float) -> Vector:
        """The same direction, longer or shorter."""
        return Vector(self.x * by, self.y * by)

    def turned(self, deg: float) -> Vector:
        """Turned counter-clockwise."""
        cos, sin = direction(deg)
        return Vector(self.x * cos - self.y * sin, self.x * sin + self.y * cos)

    def plus(self, other: Vector) -> Vector:
        """One displacement after the other."""
        return Vector(self.x + other.x, self.y + other.y)

    def dot(self, other: Vector) -> float:
        """Scalar product: positive when both lead the same way."""
        return self.x * other.x + self.y * other.y

    def cross(self, other: Vector) -> float:
        """Positive when `other` lies to the left of this direction."""
        return self.x * other.y - self.y * other.x


class PointMap(Protocol):
    """What takes every point to another place."""

    def apply(self, point: Point) -> Point:
        """Where a point comes to lie."""


class Point(NamedTuple):
    """A position on the panel face in millimetres, y up."""

    x: float
    y: float

    def moved(self, by: Vector) -> Point:
        """Moved without turning."""
        return Point(self.x + by.x, self.y + by.y)

    def minus(self, other: Point) -> Vector:
        """The displacement that leads from `other` to here."""
        return Vector(self.x - other.x, self.y - other.y)

    def distance(self, other: Point) -> float:
        """Millimetres from here to there."""
        return math.hypot(self.x - other.x, self.y - other.y)

    def middle(self, other: Point) -> Point:
        """Half way from here to there."""
        return Point((self.x + other.x) / 2, (self.y + other.y) / 2)

    def turned(self, deg: float, about: Point | None = None) -> Point:
        """Turned counter-clockwise about a point, the origin when none is given."""
        centre = ORIGIN if about is None else about
        return centre.moved(self.minus(centre).turned(deg))

    def mirrored(self, about_x: float = 0.0) -> Point:
        """Left and right exchanged about the upright line at x = `about_x`."""
        return Point(2 * about_x - self.x, self.y)

    def transformed(self, by: PointMap) -> Point:
        """Where it comes to lie."""
        return by.apply(self)


ORIGIN: Final = Point(0.0, 0.0)


_QUARTERS: Final = {
    0.0: Vector(1.0, 0.0),
    90.0: Vector(0.0, 1.0),
    180.0: Vector(-1.0, 0.0),
    270.0: Vector(0.0, -1.0),
}


def direction(deg: float) -> Vector:
    """Length 1 in a direction, exact at quarter turns, so that rectangles stay upright."""
    within = deg % 360.0
    quarter = _QUARTERS.get(within)
    if quarter is not None:
        return quarter
    angle = math.radians(within)
    return Vector(math.cos(angle), math.sin(angle))


class Box(Struct, frozen=True):
    """An upright rectangle, by its sides. It may have no width or no height, but not less.

    Raises ValueError when left > right, bottom > top, or a side is not finite.
    """

    left: float
    bottom: float
    right: float
    top: float

    def __post_init__(self) -> None:
        if not all(map(math.isfinite, (self.left, self.bottom, self.right, self.top))):
            raise ValueError("a box has finite sides")
        if self.left > self.right or self.bottom > self.top:
            raise ValueError(f"a box {self.width:g} wide and {self.height:g} high does not exist")

    @staticmethod
    def around(items: Iterable[Point | Box]) -> Box:
        """The smallest box that holds all the points and boxes. Raises ValueError when there are none."""
        points: list[tuple[float, float]] = []
        for item in items:
            if isinstance(item, Box):
                points += ((item.left, item.bottom), (item.right, item.top))
            else:
                points.append(item)
        if not points:
            raise ValueError("there is no box around nothing")
        across, up = zip(*points, strict=True)
        if not all(map(math.isfinite, (*across, *up))):
            raise ValueError("a box has finite sides")
        return Box(min(across), min(up), max(across), max(up))

    @property
    def width(self) -> float:
        """Size from left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Size from bottom to top."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """The point in the middle."""
        return Point((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Counter-clockwise from the lower left."""
        return (
            Point(self.left, self.bottom),
            Point(self.right, self.bottom),
            Point(self.right, self.top),
            Point(self.left, self.top),
        )

    def grown(self, by: float) -> Box:
        """Every side moved outwards; inwards when `by` is negative. ValueError when nothing is left."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def moved(self, by: Vector) -> Box:
        """Moved without turning."""
        return Box(self.left + by.x, self.bottom + by.y, self.right + by.x, self.top + by.y)

    def union(self, other: Box) -> Box:
        """The smallest box that holds both."""
        return Box.around((self, other))

    def contains(self, item: Point | Box) -> bool:
        """Whether the point or the whole box lies inside or on a side, to within TOLERANCE."""
        box = item if isinstance(item, Box) else Box(item.x, item.y, item.x, item.y)
        return (
            self.left - TOLERANCE <= box.left
            and box.right <= self.right + TOLERANCE
            and self.bottom - TOLERANCE <= box.bottom
            and box.top <= self.top + TOLERANCE
        )

    def gap(self, other: Box) -> float:
        """The distance between the two boxes, 0 when they touch or overlap."""
        across = max(other.left - self.right, self.left - other.right, 0.0)
        up = max(other.bottom - self.top, self.bottom - other.top, 0.0)
        return math.hypot(across, up)

    def overlaps(self, other: Box, gap: float = 0.0) -> bool:
        """Whether the boxes share more than a side or, with a gap, lie nearer to each other than it."""
        if gap > 0.0:
            return self.gap(other) < gap - TOLERANCE
        return (
            min(self.right, other.right) - max(self.left, other.left) > TOLERANCE
            and min(self.top, other.top) - max(self.bottom, other.bottom) > TOLERANCE
        )
