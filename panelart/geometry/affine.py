"""Affine maps of the panel face: what a printer with a slightly wrong scale, or a skewed bed, does to a drawing."""

from __future__ import annotations

import math

from panelart.canonical import Struct
from panelart.geometry.points import Point, Vector
from panelart.geometry.transforms import Transform


class Affine(Struct, frozen=True):
    """The map x' = a x + c y + e, y' = b x + d y + f (the order of PDF and SVG matrices).

    Unlike a Transform it may stretch and shear. Raises ValueError when it is not finite or flattens the plane.
    """

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def __post_init__(self) -> None:
        if not all(map(math.isfinite, self.matrix)) or self.area == 0.0:
            raise ValueError("a map that is not finite, or leaves no area, places nothing")

    @staticmethod
    def of(motion: Transform) -> Affine:
        """A rigid motion as a map."""
        return Affine(motion.a, motion.b, motion.c, motion.d, motion.e, motion.f)

    @property
    def matrix(self) -> tuple[float, float, float, float, float, float]:
        """a, b, c, d, e, f."""
        return self.a, self.b, self.c, self.d, self.e, self.f

    @property
    def area(self) -> float:
        """By how much areas grow; negative when left and right are exchanged."""
        return self.a * self.d - self.b * self.c

    @property
    def turn_deg(self) -> float:
        """Direction, after the map, of what pointed to the right."""
        return Vector(self.a, self.b).deg

    @property
    def stretch(self) -> tuple[float, float]:
        """By how much lengths along x grow, and along y, measured across the sheared sides."""
        across = math.hypot(self.a, self.b)
        return across, self.area / across

    @property
    def shear_deg(self) -> float:
        """How far, in degrees, the angle between x and y has closed."""
        return math.degrees(math.atan2(self.a * self.c + self.b * self.d, self.area))

    def apply(self, point: Point) -> Point:
        """Where a point comes to lie."""
        return Point(self.a * point.x + self.c * point.y + self.e, self.b * point.x + self.d * point.y + self.f)

    def then(self, other: Affine) -> Affine:
        """This map first, the other after it."""
        return Affine(
            other.a * self.a + other.c * self.b,
            other.b * self.a + other.d * self.b,
            other.a * self.c + other.c * self.d,
            other.b * self.c + other.d * self.d,
            *other.apply(Point(self.e, self.f)),
        )

    def inverse(self) -> Affine:
        """The map that takes everything back."""
        area = self.area
        return Affine(
            self.d / area,
            -self.b / area,
            -self.c / area,
            self.a / area,
            (self.c * self.f - self.d * self.e) / area,
            (self.b * self.e - self.a * self.f) / area,
        )
