"""What a file draws, as its readers give it back: painted loops with layer and plate, in mm, y up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.geometry import Box, Point

STEPS: Final = 48
"""Points along each curve. A quarter of a circle is then off its area by 2 in 10,000 at most."""

CLOSED: Final = 1e-3
"""Ends of a loop nearer than this meet, mm: files have three to four decimals."""

Unclosed = Sequence[complex]


class Loop(Struct, frozen=True, kw_only=True):
    """One painted loop: points along it, its layer, its plate ('' for none), its line's width or 0 where it is filled.

    `group` numbers what is painted at once: loops of one group leave holes in each other.
    """

    points: tuple[Point, ...]
    layer: str
    plate: str = ""
    width: float = 0.0
    group: int = 0

    @property
    def closed(self) -> bool:
        """Whether it ends where it begins."""
        return len(self.points) > 2 and self.points[0].distance(self.points[-1]) < CLOSED

    @property
    def box(self) -> Box:
        """The box round its points."""
        return Box.around(self.points)

    @property
    def area(self) -> float:
        """What it encloses, mm²."""
        pairs = zip(self.points, (*self.points[1:], self.points[0]), strict=True)
        return abs(math.fsum(one.x * other.y - other.x * one.y for one, other in pairs)) / 2.0


def cubic(a: complex, b: complex, c: complex, d: complex) -> list[complex]:
    """Points along a cubic Bézier curve behind its first."""
    found = []
    for step in range(1, STEPS + 1):
        t = step / STEPS
        u = 1.0 - t
        found.append(u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d)
    return found


def arc(centre: complex, radius: float, start: float, sweep: float) -> list[complex]:
    """Points along an arc behind its first; angles in radians, counter-clockwise."""
    count = max(2, math.ceil(abs(sweep) / (math.pi / 2) * STEPS))
    return [
        centre + radius * complex(math.cos(start + sweep * step / count), math.sin(start + sweep * step / count))
        for step in range(1, count + 1)
    ]


def points(along: Sequence[complex]) -> tuple[Point, ...]:
    """Complex numbers as places."""
    return tuple(Point(at.real, at.imag) for at in along)
