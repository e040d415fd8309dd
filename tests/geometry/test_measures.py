"""Distances and overlaps with answers known from plane geometry.

Random contours are compared with shapely in test_laws.
"""

from __future__ import annotations

import math

import pytest

from panelart.geometry import (
    Arc,
    Contour,
    Line,
    Point,
    Segment,
    Vector,
    circle,
    crossings,
    d_hole,
    double_d,
    gap,
    overlaps,
    point_gap,
    polygon,
    rectangle,
    segment_gap,
    self_crossing,
    simple,
    slot,
)

R2 = math.sqrt(0.5)


def line(x1: float, y1: float, x2: float, y2: float) -> Line:
    return Line(Point(x1, y1), Point(x2, y2))


def arc(x: float, y: float, radius: float, start: float, sweep: float) -> Arc:
    return Arc(Point(x, y), radius, start, sweep)


@pytest.mark.parametrize(
    ("first", "second", "points"),
    [
        (line(0, 0, 10, 10), line(0, 10, 10, 0), [(5, 5)]),
        (line(0, 0, 10, 0), line(5, 0, 5, 8), [(5, 0)]),  # end on the side
        (line(0, 0, 10, 0), line(10, 0, 20, 5), [(10, 0)]),  # end on end
        (line(0, 0, 10, 0), line(0, 1, 10, 1), []),  # parallel
        (line(0, 0, 10, 0), line(12, 0, 20, 0), []),  # in line
        (line(0, 0, 10, 0), line(4, 0, 20, 0), [(10, 0), (4, 0)]),  # along each other
        (line(0, 0, 4, 4), line(0, 10, 10, 0), []),  # would meet further on
        (line(-10, 3, 10, 3), arc(0, 0, 5, 0, 360), [(-4, 3), (4, 3)]),
        (line(-10, 3, 10, 3), arc(0, 0, 5, 0, 90), [(4, 3)]),
        (line(-10, 5, 10, 5), arc(0, 0, 5, 0, 360), [(0, 5)]),  # touches
        (line(-10, 5.001, 10, 5.001), arc(0, 0, 5, 0, 360), []),
        (line(0, 0, 1, 1), arc(0, 0, 5, 0, 360), []),  # within
        (arc(0, 0, 5, 0, 360), arc(6, 0, 5, 0, 360), [(3, 4), (3, -4)]),
        (arc(0, 0, 5, 0, 180), arc(6, 0, 5, 0, 360), [(3, 4)]),
        (arc(0, 0, 5, 0, 360), arc(8, 0, 3, 0, 360), [(5, 0)]),  # touch from outside
        (arc(0, 0, 5, 0, 360), arc(-2, 0, 3, 0, 360), [(-5, 0)]),  # touch from inside
        (arc(0, 0, 3, 0, 360), arc(2, 0, 5, 0, 360), [(-3, 0)]),
        (arc(0, 0, 5, 0, 360), arc(0, 0, 4, 0, 360), []),  # one middle
        (arc(0, 0, 5, 0, 90), arc(0, 0, 5, 90, 90), [(0, 5)]),  # one circle, end on end
        (arc(0, 0, 5, 0, 90), arc(0, 0, 5, 180, 90), []),
    ],
)
def test_where_two_segments_meet(first: Segment, second: Segment, points: list[tuple[float, float]]) -> None:
    for here, there in ((first, second), (second, first)):
        found = crossings(here, there)
        assert len(found) == len(points)
        for point in found:
            assert min(math.hypot(point.x - x, point.y - y) for x, y in points) <= 1e-9


@pytest.mark.parametrize(
    ("first", "second", "distance"),
    [
        (line(0, 0, 10, 0), line(13, 4, 20, 9), 5),
        (line(0, 0, 10, 0), line(5, 2, 5, 8), 2),
        (line(0, 0, 10, 0), line(5, -2, 5, 8), 0),
        (line(-10, 8, 10, 8), arc(0, 0, 5, 0, 180), 3),
        (line(-10, 8, 10, 8), arc(0, 0, 5, 180, 180), 8),  # from the ends of the arc
        (line(-1, 0, 1, 0), arc(0, 0, 5, 0, 360), 4),  # from within
        (line(1, 8, 10, 8), arc(0, 0, 5, 0, 180), math.hypot(1, 8) - 5),
        (arc(0, 0, 5, 0, 360), arc(12, 5, 3, 0, 360), 5),
        (arc(0, 0, 5, 0, 360), arc(1, 0, 2, 0, 360), 2),  # one in the other
        (arc(0, 0, 5, 0, 360), arc(0, 0, 3, 40, 20), 2),  # one middle
        (arc(0, 0, 5, 90, 180), arc(12, 0, 3, -90, 180), math.hypot(12, 2)),  # turned away: from end to end
        (arc(0, 0, 1, 135, 90), arc(10, 0, 12, 135, 90), 1),  # into the hollow: from (-1, 0) to (-2, 0)
        (arc(0, 0, 1, -45, 90), arc(10, 0, 12, 135, 90), 12 - math.hypot(10 - R2, R2)),  # turned away in the hollow
    ],
)
def test_the_shortest_way_between_two_segments(first: Segment, second: Segment, distance: float) -> None:
    for here, there in ((first, second), (second, first)):
        found = segment_gap(here, there)
        assert found.distance == pytest.approx(distance, abs=1e-9)
        assert found.here.distance(found.there) == pytest.approx(found.distance, abs=1e-12)


def test_the_web_between_two_holes() -> None:
    found = gap(circle(22.3), circle(3.2, Point(20, 0)))
    assert found.distance == pytest.approx(20 - 11.15 - 1.6)
    assert found.here.distance(Point(11.15, 0)) < 1e-9
    assert found.there.distance(Point(18.4, 0)) < 1e-9


def test_a_hole_in_a_face_has_its_distance_to_the_edge() -> None:
    face, hole = rectangle(260, 110, Point(130, 55), corner=3), circle(12.2, Point(30, 55))
    assert gap(hole, face).distance == pytest.approx(30 - 6.1)
    assert overlaps(hole, face)


def test_the_gap_of_shapes_that_cross_or_touch_is_0() -> None:
    assert gap(circle(10), circle(10, Point(5, 0))).distance == 0
    assert gap(circle(10), rectangle(4, 4, Point(7, 0))).distance == pytest.approx(0, abs=1e-12)


def test_the_way_from_a_point() -> None:
    assert point_gap(Point(0, 0), circle(10)).distance == 5
    assert point_gap(Point(8, 0), circle(10)) == (3, Point(8, 0), Point(5, 0))
    assert point_gap(Point(0, -10), d_hole(10, 9)).distance == pytest.approx(6)


SQUARE = rectangle(10, 10)


@pytest.mark.parametrize(
    ("first", "second", "shares"),
    [
        (SQUARE, rectangle(10, 10, Point(10, 0)), False),  # side on side
        (SQUARE, rectangle(10, 10, Point(10, 10)), False),  # corner on corner
        (SQUARE, rectangle(10, 10, Point(9.999, 0)), True),
        (SQUARE, rectangle(10, 10, Point(10.001, 0)), False),
        (SQUARE, SQUARE, True),
        (SQUARE, SQUARE.mirrored(), True),
        (SQUARE, SQUARE.turned(90), True),
        (SQUARE, rectangle(4, 4), True),  # within
        (SQUARE, rectangle(4, 4, Point(3, 0)), True),  # within, along a side
        (SQUARE, rectangle(4, 4, Point(7, 0)), False),  # outside, along a side
        (SQUARE, rectangle(30, 4), True),  # right across
        (SQUARE, SQUARE.turned(45), True),
        (SQUARE, circle(10, Point(10, 0)), False),  # touches
        (SQUARE, circle(10.002, Point(10, 0)), True),
        (circle(10), circle(10), True),
        (circle(10), circle(10, Point(10, 0)), False),
        (circle(10), circle(10, Point(6, 8)), False),  # touch in a direction without round figures
        (circle(10), circle(4, Point(3, 0)), True),  # touches from within
        (circle(12), double_d(12, 11), True),  # shares arcs with it
        (slot(10, 4), slot(10, 4, Point(0, 4)), False),
    ],
)
def test_what_covers_the_same_ground(first: Contour, second: Contour, *, shares: bool) -> None:
    by = Vector(123.45, -67.89)
    for here, there in ((first, second), (second, first), (first.reversed(), second)):
        assert overlaps(here, there) == shares
        assert overlaps(here.moved(by), there.moved(by)) == shares


def test_a_hole_that_fills_a_notch_does_not_overlap() -> None:
    notched = polygon(
        [Point(*xy) for xy in [(0, 0), (30, 0), (30, 20), (20, 20), (20, 10), (10, 10), (10, 20), (0, 20)]]
    )
    assert not overlaps(notched, rectangle(10, 10, Point(15, 15)))
    assert overlaps(notched, rectangle(10, 10.01, Point(15, 15)))


def test_a_figure_of_eight_crosses_itself() -> None:
    corners = [Point(0, 0), Point(10, 10), Point(10, 0), Point(0, 10)]
    eight = Contour(tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))
    assert self_crossing(eight) == Point(5, 5)
    assert not simple(eight)


def test_a_contour_that_touches_itself_is_not_simple() -> None:
    corners = [Point(*xy) for xy in [(0, 0), (10, 0), (5, 5), (10, 10), (0, 10), (5, 5)]]
    bow = Contour(tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))
    assert self_crossing(bow) == Point(5, 5)


def test_a_contour_that_runs_back_on_itself_is_not_simple() -> None:
    corners = [Point(*xy) for xy in [(0, 0), (10, 0), (5, 0), (5, 10)]]
    spike = Contour(tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))
    assert not simple(spike)


@pytest.mark.parametrize("shape", [circle(3), slot(10, 4), rectangle(10, 4, corner=1), d_hole(9.7, 8.9), SQUARE])
def test_shapes_are_simple_wherever_they_lie(shape: Contour) -> None:
    for deg in (0, 33.3, 90):
        assert simple(shape.turned(deg).moved(Vector(-712.3, 455.1)))
        assert simple(shape.turned(deg).mirrored(99.9))
