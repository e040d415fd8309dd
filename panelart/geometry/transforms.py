"""Rigid motions of the panel face: turn, mirror, move. Nothing is stretched, so an arc stays an arc."""

from __future__ import annotations

import math

from panelart.canonical import Struct
from panelart.geometry.points import ORIGIN, TOLERANCE, Point, Vector, direction


class Transform(Struct, frozen=True):
    """The motion x' = a x + c y + e, y' = b x + d y + f (the order of PDF and SVG matrices).

    Raises ValueError when the matrix stretches or shears, or is not finite.
    """

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def __post_init__(self) -> None:
        strain = max(
            abs(math.hypot(self.a, self.b) - 1.0),
            abs(math.hypot(self.c, self.d) - 1.0),
            abs(self.a * self.c + self.b * self.d),
        )
        if not (strain <= TOLERANCE and math.isfinite(self.e) and math.isfinite(self.f)):
            raise ValueError("a transform turns, mirrors and moves; this matrix stretches, shears or is not finite")

    @staticmethod
    def move(x: float, y: float) -> Transform:
        """Moved right and up, without turning."""
        return Transform(e=x, f=y)

    @staticmethod
    def turn(deg: float, about: Point = ORIGIN) -> Transform:
        """Counter-clockwise about a point."""
        cos, sin = direction(deg)
        return Transform(
            cos,
            sin,
            -sin,
            cos,
            about.x - cos * about.x + sin * about.y,
            about.y - sin * about.x - cos * about.y,
        )

    @staticmethod
    def mirror_x(about_x: float = 0.0) -> Transform:
        """Left and right exchanged about the upright line at x = `about_x`: the front seen from the rear."""
        return Transform(a=-1.0, e=2 * about_x)

    @property
    def mirrors(self) -> bool:
        """Whether left and right hand are exchanged."""
        return self.a * self.d - self.b * self.c < 0.0

    @property
    def turn_deg(self) -> float:
        """Direction, after the motion, of what pointed to the right."""
        return Vector(self.a, self.b).deg

    def apply(self, point: Point) -> Point:
        """Where a point comes to lie."""
        return Point(
            self.a * point.x + self.c * point.y + self.e,
            self.b * point.x + self.d * point.y + self.f,
        )

    def apply_to_vector(self, vector: Vector) -> Vector:
        """A displacement turns and mirrors with the motion, but does not move."""
        return Vector(self.a * vector.x + self.c * vector.y, self.b * vector.x + self.d * vector.y)

    def then(self, other: Transform) -> Transform:
        """This motion first, the other after it."""
        across = other.apply_to_vector(Vector(self.a, self.b))
        up = other.apply_to_vector(Vector(self.c, self.d))
        move = other.apply(Point(self.e, self.f))
        return Transform(across.x, across.y, up.x, up.y, move.x, move.y)

    def inverse(self) -> Transform:
        """The motion that takes everything back."""
        return Transform(
            self.a,
            self.c,
            self.b,
            self.d,
            -(self.a * self.e + self.b * self.f),
            -(self.c * self.e + self.d * self.f),
        )
