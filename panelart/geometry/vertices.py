"""Corners of a polygon that stands in for a contour, with arcs replaced by chords to a tolerance."""

from __future__ import annotations

import math
from typing import Final, Literal, TypeAlias

from panelart.geometry.contour import Arc, Contour, Line
from panelart.geometry.points import Point, direction

ChordSide: TypeAlias = Literal["inside", "outside", "middle"]

CHORD_TOLERANCE: Final = 0.005
"""Millimetres between an arc and the chords that replace it, at most."""

_COARSEST_DEG: Final = 45.0
"""The largest step along an arc, so that a small circle still looks like one."""


def vertices(contour: Contour, tolerance: float = CHORD_TOLERANCE, side: ChordSide = "inside") -> tuple[Point, ...]:
    """The corners of a polygon that lies within `tolerance` of the contour and runs the same way round.

    `inside`: the polygon lies within the contour; `outside`: it holds the contour; `middle`: it strays to
    either side equally. The first corner is not repeated. Raises ValueError when the tolerance is not
    positive.
    """
    if not tolerance > 0.0:
        raise ValueError(f"a chord tolerance of {tolerance:g} mm cannot be kept; it must be more than 0")
    counter_clockwise = contour.area > 0.0
    found: list[Point] = []
    for segment in contour.segments:
        found.append(segment.start)
        if isinstance(segment, Line):
            continue
        hollow = (segment.sweep_deg > 0) != counter_clockwise
        first, turn, count, reach = corners_of_arc(segment, tolerance, side_of_arc(side, hollow=hollow))
        found.extend(segment.centre.moved(direction(first + turn * step).scaled(reach)) for step in range(count))
    return tuple(found)


def side_of_arc(side: ChordSide, *, hollow: bool) -> ChordSide:
    """Where the chords go as seen from the centre of the arc: within a hollow is outside the contour."""
    if side == "middle" or not hollow:
        return side
    return "outside" if side == "inside" else "inside"


def corners_of_arc(arc: Arc, tolerance: float, side: ChordSide) -> tuple[float, float, int, float]:
    """Where the corners between the two ends of an arc lie.

    The first's direction and the step in degrees, how many there are, and how far they are from the centre.
    """
    if side == "inside":
        steps = _steps(arc, math.acos(max(1.0 - tolerance / arc.radius, 0.0)))
        turn = arc.sweep_deg / steps
        return arc.start_deg + turn, turn, steps - 1, arc.radius
    steps = _steps(arc, math.acos(arc.radius / (arc.radius + tolerance)))
    turn = arc.sweep_deg / steps
    half = direction(turn / 2).x
    reach = arc.radius * (1.0 / half if side == "outside" else 2.0 / (1.0 + half))
    return arc.start_deg + turn / 2, turn, steps, reach


def _steps(arc: Arc, half_step: float) -> int:
    step = min(math.degrees(2 * half_step), _COARSEST_DEG)
    return max(math.ceil(abs(arc.sweep_deg) / step - 1e-9), 1)
