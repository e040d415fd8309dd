"""Distances between contours and whether they cover the same ground: exact, arcs and all."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from panelart.geometry.contour import Arc, Contour, Line, Segment, nearest_on
from panelart.geometry.crossings import crossings, distance_to
from panelart.geometry.points import TOLERANCE, Point

_PIECE = 1e-7
"""Pieces shorter than this many millimetres say nothing about an overlap."""


class Gap(NamedTuple):
    """The shortest way from one shape to another: its length in millimetres and its two ends."""

    distance: float
    here: Point
    there: Point


def gap(first: Contour, second: Contour) -> Gap:
    """The shortest way between the lines of two contours, from the first to the second.

    It is 0 where the lines cross or touch. A contour that lies inside another has a gap too, from line to
    line: ask `overlaps` whether two contours cover the same ground.
    """
    boxes = [(segment.bounds, segment) for segment in second.segments]
    best: Gap | None = None
    for here in first.segments:
        around = here.bounds
        for box, there in boxes:
            if best is not None and around.gap(box) > best.distance:
                continue
            found = segment_gap(here, there)
            if best is None or found.distance < best.distance:
                best = found
    assert best is not None  # a contour has at least one segment
    return best


def point_gap(point: Point, contour: Contour) -> Gap:
    """The shortest way from a point to the line of a contour, whether the point lies inside or outside."""
    there = min((nearest_on(segment, point) for segment in contour.segments), key=point.distance)
    return Gap(point.distance(there), point, there)


def segment_gap(first: Segment, second: Segment) -> Gap:
    """The shortest way between two lines or arcs, 0 where they meet."""
    shared = crossings(first, second)
    if shared:
        return Gap(0.0, shared[0], shared[0])
    ways = [
        *((point, nearest_on(second, point)) for point in (first.start, first.end)),
        *((nearest_on(first, point), point) for point in (second.start, second.end)),
        *_ways_between_insides(first, second),
    ]
    here, there = min(ways, key=lambda way: way[0].distance(way[1]))
    return Gap(here.distance(there), here, there)


def overlaps(first: Contour, second: Contour) -> bool:
    """Whether the insides of two contours share any ground. Contours that only touch do not overlap."""
    if not first.bounds.overlaps(second.bounds):
        return False
    return _runs_inside(first, second) or _runs_inside(second, first)


def _ways_between_insides(first: Segment, second: Segment) -> Iterator[tuple[Point, Point]]:
    """Ways that stand square on both segments somewhere between their ends, where an arc takes part."""
    if isinstance(first, Line) and isinstance(second, Line):
        return  # the shortest way between two lines that do not cross starts or ends at an end
    if isinstance(first, Line):
        assert isinstance(second, Arc)
        foot = nearest_on(first, second.centre)
        yield foot, nearest_on(second, foot)
    elif isinstance(second, Line):
        foot = nearest_on(second, first.centre)
        yield nearest_on(first, foot), foot
    else:
        apart = second.centre.minus(first.centre)
        if apart.length > TOLERANCE:
            away = apart.unit
            for here in (first.radius, -first.radius):
                for there in (second.radius, -second.radius):
                    yield (
                        nearest_on(first, first.centre.moved(away.scaled(here))),
                        nearest_on(second, second.centre.moved(away.scaled(there))),
                    )


def _runs_inside(first: Contour, second: Contour) -> bool:
    """Whether a piece of the first line lies inside the second contour, or along it, insides together."""
    first, second = first.ccw(), second.ccw()
    for segment in first.segments:
        around = segment.bounds
        cuts = sorted(
            segment.share_of(point)
            for other in second.segments
            if around.gap(other.bounds) <= TOLERANCE
            for point in crossings(segment, other)
        )
        shares = [0.0, *cuts, 1.0]
        for start, end in pairwise(shares):
            if (end - start) * segment.length <= _PIECE:
                continue
            middle = (start + end) / 2
            point = segment.point_at(middle)
            along = min(second.segments, key=lambda other: distance_to(other, point))
            if distance_to(along, point) > TOLERANCE:
                if second.contains(point):
                    return True
            elif segment.tangent_at(middle).dot(along.tangent_at(along.share_of(point))) > 0.0:
                return True
    return False
