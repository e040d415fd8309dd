"""Where lines and arcs meet, and whether a contour meets itself."""

from __future__ import annotations

import math
from collections.abc import Iterator

from panelart.geometry.contour import Arc, Contour, Line, Segment, nearest_on
from panelart.geometry.points import TOLERANCE, Point, Vector

_HUGGING = 1e-8
"""Neighbours nearer than this many millimetres on the way to a meeting run along each other."""


def crossings(first: Segment, second: Segment) -> tuple[Point, ...]:
    """The points that two segments share, to within TOLERANCE.

    Segments that touch share a point as well; of segments that run along each other the ends of the common
    part are given.
    """
    found: list[Point] = []
    for point in (
        *carrier_crossings(first, second),
        first.start,
        first.end,
        second.start,
        second.end,
    ):
        if (
            distance_to(first, point) <= TOLERANCE
            and distance_to(second, point) <= TOLERANCE
            and all(point.distance(other) > TOLERANCE for other in found)
        ):
            found.append(point)
    return tuple(found)


def carrier_crossings(first: Segment, second: Segment) -> tuple[Point, ...]:
    """Where the endless lines and whole circles on which two segments lie meet: none, one or two points.

    None when they are parallel or the same.
    """
    if isinstance(first, Line) and isinstance(second, Line):
        return _line_with_line(first, second)
    if isinstance(first, Line):
        assert isinstance(second, Arc)
        return _line_with_circle(first, second)
    if isinstance(second, Line):
        return _line_with_circle(second, first)
    return _circle_with_circle(first, second)


def distance_to(segment: Segment, point: Point) -> float:
    """Millimetres from a point to the nearest point of a segment."""
    return nearest_on(segment, point).distance(point)


def self_crossing(contour: Contour) -> Point | None:
    """The first point, in the order of the segments, where a contour crosses or touches itself."""
    segments = contour.segments
    boxes = [segment.bounds for segment in segments]
    for index, first in enumerate(segments):
        for other in range(index + 1, len(segments)):
            if boxes[index].gap(boxes[other]) > TOLERANCE:
                continue
            second = segments[other]
            shared = tuple(_common_corners(index, other, segments))
            for point in crossings(first, second):
                if not any(_belongs_to_corner(corner, first, second, point) for corner in shared):
                    return point
    return None


def simple(contour: Contour) -> bool:
    """Whether a contour nowhere crosses or touches itself."""
    return self_crossing(contour) is None


def _common_corners(index: int, other: int, segments: tuple[Segment, ...]) -> Iterator[tuple[Point, Vector, Vector]]:
    """Corner and directions of travel on either side of it, for segments that follow one another."""
    count = len(segments)
    for before, after in ((index, other), (other, index)):
        if (before + 1) % count == after:
            yield segments[before].end, segments[before].tangent_at(1.0), segments[after].tangent_at(0.0)


def _belongs_to_corner(corner: tuple[Point, Vector, Vector], first: Segment, second: Segment, point: Point) -> bool:
    at, before, after = corner
    if point.distance(at) <= TOLERANCE:
        return True
    # A smooth corner with a kink in the last digits: the neighbours part so slowly that they still count as
    # meeting.
    halfway = nearest_on(first, point.middle(at))
    return before.dot(after) > 0.0 and distance_to(second, halfway) <= _HUGGING


def _line_with_line(first: Line, second: Line) -> tuple[Point, ...]:
    along, other = first.end.minus(first.start), second.end.minus(second.start)
    cross = along.cross(other)
    if abs(cross) <= 1e-14 * along.length * other.length:
        return ()
    share = second.start.minus(first.start).cross(other) / cross
    return (first.start.moved(along.scaled(share)),)


def _line_with_circle(line: Line, arc: Arc) -> tuple[Point, ...]:
    along = line.end.minus(line.start).unit
    aside = along.perpendicular
    height = line.start.minus(arc.centre).dot(aside)
    foot = arc.centre.moved(aside.scaled(height))
    if abs(height) > arc.radius + TOLERANCE:
        return ()
    if abs(abs(height) - arc.radius) <= TOLERANCE:
        return (foot,)
    reach = math.sqrt((arc.radius - height) * (arc.radius + height))
    return foot.moved(along.scaled(-reach)), foot.moved(along.scaled(reach))


def _circle_with_circle(first: Arc, second: Arc) -> tuple[Point, ...]:
    apart = second.centre.minus(first.centre)
    distance = apart.length
    if distance <= TOLERANCE:
        return ()
    towards = apart.scaled(1.0 / distance)
    outer, inner = first.radius + second.radius, abs(first.radius - second.radius)
    if distance > outer + TOLERANCE or distance < inner - TOLERANCE:
        return ()
    if abs(distance - outer) <= TOLERANCE:
        return (first.centre.moved(towards.scaled(first.radius)),)
    if abs(distance - inner) <= TOLERANCE:
        side = 1.0 if first.radius > second.radius else -1.0
        return (first.centre.moved(towards.scaled(side * first.radius)),)
    along = (distance**2 + (first.radius - second.radius) * outer) / (2 * distance)
    up = math.sqrt(max((first.radius - along) * (first.radius + along), 0.0))
    foot = first.centre.moved(towards.scaled(along))
    aside = towards.perpendicular
    return foot.moved(aside.scaled(up)), foot.moved(aside.scaled(-up))
