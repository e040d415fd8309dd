"""The ground that ink covers, as polygons for tests of overlap and distance.

Cubics and arcs become chords that stray at most CHORD_TOLERANCE from the curve.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

import shapely

from panelart.geometry import CHORD_TOLERANCE, Arc, Point
from panelart.lettering.outline import Cubic, Curve, Loop, Shape


def filled(shape: Shape) -> shapely.Geometry:
    """The ground inside closed loops by the non-zero rule.

    Loops of one sense of rotation paint, those of the other cut out of them. A loop that cuts where two others
    overlap would by the letter of the rule leave ink; fonts are not drawn so, and here it leaves none.
    """
    senses: dict[bool, list[shapely.Geometry]] = {True: [], False: []}
    for loop in shape:
        ring = chords(loop)
        if len(ring) >= 3:
            ground = shapely.Polygon(ring)
            senses[_signed_area(ring) > 0].append(ground if ground.is_valid else shapely.make_valid(ground))
    one, other = (shapely.union_all(grounds) for grounds in senses.values())
    if one.is_empty or other.is_empty:
        return one if other.is_empty else other
    return shapely.symmetric_difference(one, other)


def strokes(shape: Shape, width: float) -> tuple[shapely.Geometry, ...]:
    """The ground under each line of a stroked shape, one polygon a straight piece, ends cut square."""
    pieces = [pair for loop in shape for pair in pairwise(_run(loop))]
    if not pieces:
        return ()
    return tuple(shapely.buffer(shapely.linestrings(pieces), width / 2, cap_style="flat"))


def chords(loop: Loop) -> list[Point]:
    """The corners of a loop with its curves replaced by chords; the first corner is not repeated."""
    run = _run(loop)
    return run[:-1] if loop.closed and len(run) > 1 and run[0].distance(run[-1]) < CHORD_TOLERANCE else run


def _run(loop: Loop) -> list[Point]:
    run = [loop.curves[0].start]
    for curve in loop.curves:
        run.extend(_onward(curve))
    return run


def _onward(curve: Curve) -> Iterator[Point]:
    steps = _steps(curve)
    return (curve.point_at(step / steps) for step in range(1, steps + 1))


def _steps(curve: Curve) -> int:
    if isinstance(curve, Cubic):
        # A chord over a share h of a cubic strays by at most h^2/8 of the largest second derivative.
        bend = 6.0 * max(_bend(curve.start, curve.first, curve.second), _bend(curve.first, curve.second, curve.end))
        return max(math.ceil(math.sqrt(bend / (8.0 * CHORD_TOLERANCE))), 1)
    if isinstance(curve, Arc):
        half_step = math.degrees(math.acos(max(1.0 - CHORD_TOLERANCE / curve.radius, 0.0)))
        return max(math.ceil(abs(curve.sweep_deg) / min(2.0 * half_step, 45.0)), 1)
    return 1


def _bend(first: Point, middle: Point, last: Point) -> float:
    return math.hypot(first.x - 2.0 * middle.x + last.x, first.y - 2.0 * middle.y + last.y)


def _signed_area(ring: Iterable[Point]) -> float:
    points = list(ring)
    onward = zip(points, points[1:] + points[:1], strict=True)
    return math.fsum(here.x * there.y - there.x * here.y for here, there in onward) / 2.0
