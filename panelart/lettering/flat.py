"""Loops as rings of chords, for areas, overlaps and widths."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final

from panelart.geometry import Arc, Line, Point
from panelart.lettering.outline import Cubic, Curve, Loop

CHORD: Final = 0.001
"""How far chords stray from the curves where ink is measured or cut out, mm."""


def flattened(loop: Loop, tolerance: float = CHORD) -> list[Point]:
    """The corners of a loop with its curves replaced by chords; the first corner is not repeated at the end."""
    run = [loop.curves[0].start]
    for curve in loop.curves:
        count = _steps(curve, tolerance)
        run += [curve.point_at(step / count) for step in range(1, count)]
        run.append(curve.end)
    if len(run) > 1 and run[0].distance(run[-1]) < 1e-9:
        run.pop()
    return run


def _steps(curve: Curve, tolerance: float) -> int:
    match curve:
        case Cubic(start=a, first=b, second=c, end=d):
            # A chord over a share h of a cubic strays by at most h^2/8 of the largest second derivative.
            bend = 6.0 * max(_bend(a, b, c), _bend(b, c, d))
            return max(math.ceil(math.sqrt(bend / (8.0 * tolerance))), 1)
        case Arc(radius=radius, sweep_deg=sweep):
            half = math.degrees(math.acos(max(1.0 - tolerance / radius, 0.0)))
            return max(math.ceil(abs(sweep) / min(2.0 * half, 45.0)), 1)
        case _:
            return 1


def _bend(first: Point, middle: Point, last: Point) -> float:
    return math.hypot(first.x - 2.0 * middle.x + last.x, first.y - 2.0 * middle.y + last.y)


def signed_area(ring: Sequence[Point]) -> float:
    """The area inside a ring in mm2, negative when it runs clockwise."""
    onward: Iterable[tuple[Point, Point]] = zip(ring, (*ring[1:], *ring[:1]), strict=True)
    return math.fsum(a.x * b.y - b.x * a.y for a, b in onward) / 2.0


def reversed_loop(loop: Loop) -> Loop:
    """The same loop run the other way."""
    return Loop(tuple(_reversed(curve) for curve in reversed(loop.curves)), loop.closed)


def _reversed(curve: Curve) -> Curve:
    match curve:
        case Line(start=a, end=b):
            return Line(b, a)
        case Cubic(start=a, first=b, second=c, end=d):
            return Cubic(d, c, b, a)
        case Arc(centre=centre, radius=radius, start_deg=start, sweep_deg=sweep):
            return Arc(centre, radius, start + sweep, -sweep)
