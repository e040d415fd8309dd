"""Inside corners of an opening that a round cutter cannot reach, and reliefs that let it."""

from __future__ import annotations

import math

from panelart.geometry.contour import Arc, Contour, Line, Segment

_TANGENT = 1e-4
"""Radians: smaller turns between two pieces of a line are no corner."""


def tightest_corner(contour: Contour) -> float | None:
    """The least radius of the inside corners of an opening, 0 for sharp ones; None where it has none."""
    around = contour.ccw()
    radii = [
        0.0
        for before, after in zip(around.segments, (*around.segments[1:], around.segments[0]), strict=True)
        if _turn(before, after) > _TANGENT
    ]
    radii += [arc.radius for arc in around.segments if isinstance(arc, Arc) and arc.sweep_deg > 0]
    return min(radii, default=None)


def _turn(before: Segment, after: Segment) -> float:
    """How far the way turns to the left from one piece to the next, in radians."""
    leaving, entering = before.tangent_at(1.0), after.tangent_at(0.0)
    return math.atan2(leaving.cross(entering), leaving.dot(entering))


def relieved(contour: Contour, radius: float) -> Contour:
    """The opening with its sharp corners between straight sides cut out by a round of a radius, in mm.

    The cutter runs along the bisector until its edge touches the corner, so that a part with square corners goes in and
    nothing more is taken away than that. Corners too near each other for their reliefs are left as they are.
    """
    around = contour.ccw()
    segments = list(around.segments)
    count = len(segments)
    bites = [_bite(segments[index - 1], segments[index], radius) for index in range(count)]
    for index, segment in enumerate(segments):
        # A side must be longer than what the reliefs at its two ends take of it.
        here, there = bites[index], bites[(index + 1) % count]
        if (0.0 if here is None else here[0]) + (0.0 if there is None else there[0]) >= segment.length - _TANGENT:
            bites[index] = bites[(index + 1) % count] = None
    made: list[Segment] = []
    for index, segment in enumerate(segments):
        here, there = bites[index], bites[(index + 1) % count]
        if here is not None:
            made.append(here[1])
        if isinstance(segment, Line):
            start = segment.start if here is None else here[1].end
            end = segment.end if there is None else there[1].start
            made.append(Line(start, end))
        else:
            made.append(segment)
    return Contour(tuple(made))


def _bite(before: Segment, after: Segment, radius: float) -> tuple[float, Arc] | None:
    """How much of each side a relief takes at the corner between two sides, and its arc; None for no sharp corner."""
    if not (isinstance(before, Line) and isinstance(after, Line)):
        return None
    turn = _turn(before, after)
    if turn <= _TANGENT:
        return None
    leaving, entering, corner = before.tangent_at(1.0), after.tangent_at(0.0), after.start
    half = (math.pi - turn) / 2  # between a side and the bisector
    taken = 2 * radius * math.cos(half)
    inwards = leaving.scaled(-1.0).plus(entering)
    centre = corner.moved(inwards.scaled(radius / inwards.length))
    start, end = corner.moved(leaving.scaled(-taken)), corner.moved(entering.scaled(taken))
    begin = start.minus(centre).deg
    sweep = (end.minus(centre).deg - begin) % 360.0
    return taken, Arc(centre, radius, begin, sweep)
