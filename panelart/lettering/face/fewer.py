"""Fewer points on curves: runs of short quadratics drawn as longer ones that stay within a stated distance.

Two convex curves that begin and end in the same directions are as far apart as their tangents of equal direction at
most, so the distance is measured exactly there: one division a sample, no search.
"""

from __future__ import annotations

import math

from panelart.lettering.face.edges import Contour, Edge, Whole

#: Furthest a longer quadratic may lie from the short ones it stands for, in font units (a unit is h / 1440).
DISTANCE = 1.5
#: Joins that turn by more than this are corners and stay, radians.
CORNER = math.radians(4.0)
#: A longer quadratic turns by no more than this, radians.
TURN = math.radians(60.0)

Step = tuple[float, float]


def fewer(contour: Contour) -> Contour:
    """The contour with runs of quadratics between corners, lines, extremes and inflections drawn as few as can be."""
    count = len(contour)
    start = next((index for index in range(count) if not _runs_on(contour[index - 1], contour[index])), 0)
    edges = [contour[(start + index) % count] for index in range(count)]
    drawn: list[Edge] = []
    index = 0
    while index < count:
        best, length = edges[index], 1
        run = [edges[index]]
        for following in edges[index + 1 :]:
            if not _runs_on(run[-1], following):
                break
            run.append(following)
            longer = _one_for(run)
            if longer is not None:
                best, length = longer, len(run)
            elif len(run) - length > 1:
                break
        drawn.append(best)
        index += length
    return tuple(drawn)


def _runs_on(before: Edge, after: Edge) -> bool:
    """Whether two edges are curves that meet smoothly, turn the same way, and meet at no extreme."""
    if before.control is None or after.control is None:
        return False
    leaving, entering = _step(before.control, before.end), _step(after.start, after.control)
    if abs(_angle(leaving, entering)) > CORNER or 0 in (*entering, *leaving):
        return False
    first = _cross(_step(before.start, before.control), leaving)
    second = _cross(entering, _step(after.control, after.end))
    extreme = any(one * other <= 0 for one, other in zip(leaving, entering, strict=True))
    return first * second > 0 and not extreme


def _one_for(run: list[Edge]) -> Edge | None:
    """One quadratic for a run of them, or None when it would stray or turn too far."""
    begin, finish = run[0], run[-1]
    assert begin.control is not None
    assert finish.control is not None
    setting_off, arriving = _step(begin.start, begin.control), _step(finish.control, finish.end)
    if not 0.0 < abs(_angle(setting_off, arriving)) <= TURN:
        return None
    denominator = _cross(setting_off, arriving)
    share = _cross(_step(begin.start, finish.end), arriving) / denominator
    if share <= 0:
        return None
    control = (round(begin.start[0] + share * setting_off[0]), round(begin.start[1] + share * setting_off[1]))
    longer = Edge(start=begin.start, control=control, end=finish.end)
    return longer if all(_stray(longer, edge) <= DISTANCE for edge in run) else None


def _stray(longer: Edge, edge: Edge) -> float:
    """How far the longer quadratic lies from a short one, measured at the short one's ends and middle."""
    assert longer.control is not None
    assert edge.control is not None
    one, two = _step(edge.start, edge.control), _step(edge.control, edge.end)
    first, second = _step(longer.start, longer.control), _step(longer.control, longer.end)
    maximum = 0.0
    for t in (0.0, 0.5, 1.0):
        way = (one[0] + t * (two[0] - one[0]), one[1] + t * (two[1] - one[1]))
        from_first, from_second = _cross(first, way), _cross(second, way)
        if from_first == from_second:
            continue
        at = min(1.0, max(0.0, from_first / (from_first - from_second)))
        here, there = _point(edge, t), _point(longer, at)
        length = math.hypot(*way)
        maximum = max(maximum, abs(_cross(way, (there[0] - here[0], there[1] - here[1]))) / length)
    return maximum


def _point(edge: Edge, t: float) -> Step:
    assert edge.control is not None
    a, b, c = (1 - t) ** 2, 2 * t * (1 - t), t * t
    return (
        a * edge.start[0] + b * edge.control[0] + c * edge.end[0],
        a * edge.start[1] + b * edge.control[1] + c * edge.end[1],
    )


def _step(start: Whole, end: Whole) -> Step:
    return (end[0] - start[0], end[1] - start[1])


def _cross(one: Step, other: Step) -> float:
    return one[0] * other[1] - one[1] * other[0]


def _angle(one: Step, other: Step) -> float:
    return math.atan2(_cross(one, other), one[0] * other[0] + one[1] * other[1])
