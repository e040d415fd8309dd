"""Arcs cut into pieces that each format can carry exactly or nearly so."""

from __future__ import annotations

import math
from collections.abc import Iterator

from panelart.geometry import Arc, Point, direction
from panelart.lettering.outline import Loop


def pieces(arc: Arc, maximum_deg: float) -> Iterator[Arc]:
    """Equal arcs, end to end, none of which sweeps more than `most_deg` degrees."""
    # The allowance keeps a quarter that came out of a turn as 90.00000000000001 degrees in one piece.
    count = max(1, math.ceil(abs(arc.sweep_deg) / maximum_deg - 1e-9))
    sweep = arc.sweep_deg / count
    for index in range(count):
        yield Arc(arc.centre, arc.radius, arc.start_deg + index * sweep, sweep)


def control_points(arc: Arc) -> tuple[Point, Point]:
    """The inner control points of the cubic from the arc's start to its end.

    k = 4/3 tan(sweep/4) puts the middle of the cubic on the arc; at 45 degrees its greatest error is
    4.2e-6 of the radius, at 90 degrees 2.7e-4.
    """
    handle = 4.0 / 3.0 * math.tan(math.radians(arc.sweep_deg) / 4.0) * arc.radius
    leaving, arriving = direction(arc.start_deg), direction(arc.start_deg + arc.sweep_deg)
    start, end = arc.start, arc.end
    return (
        Point(start.x - handle * leaving.y, start.y + handle * leaving.x),
        Point(end.x + handle * arriving.y, end.y - handle * arriving.x),
    )


def whole_circle(loop: Loop) -> Arc | None:
    """The arc of a loop that is one full circle, else None."""
    if len(loop.curves) != 1:
        return None
    (only,) = loop.curves
    return only if isinstance(only, Arc) and only.full else None
