"""Parallel curves with answers known beforehand: shapes keep their form, fall apart, vanish or close.

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
    Vector,
    chamfered_rectangle,
    circle,
    d_hole,
    double_d,
    hexagon,
    keyed_circle,
    offset,
    polygon,
    rectangle,
    simple,
    slot,
    trapezoid,
)
from panelart.reprs import in_full


def outline(*corners: tuple[float, float]) -> Contour:
    return polygon([Point(*corner) for corner in corners])


def dumbbell(neck: float) -> Contour:
    """Two squares of 20 joined by a neck 10 long."""
    low, high = 10 - neck / 2, 10 + neck / 2
    return outline(
        (0, 0), (20, 0), (20, low), (30, low), (30, 0), (50, 0),
        (50, 20), (30, 20), (30, high), (20, high), (20, 20), (0, 20),
    )  # fmt: skip


def bracket(mouth: float) -> Contour:
    """A square of 40 with a cavity of 32 x 32 that opens to the right through a mouth."""
    low, high = 20 - mouth / 2, 20 + mouth / 2
    return outline(
        (0, 0), (40, 0), (40, low), (36, low), (36, 4), (4, 4),
        (4, 36), (36, 36), (36, high), (40, high), (40, 40), (0, 40),
    )  # fmt: skip


def only(found: tuple[Contour, ...]) -> Contour:
    assert len(found) == 1
    return found[0]


def same_line(first: Contour, second: Contour, within: float = 1e-9) -> bool:
    """Whether two contours have the same segments, wherever they start."""
    if len(first.segments) != len(second.segments):
        return False
    count = len(first.segments)
    return any(
        all(
            type(here) is type(there)
            and here.start.distance(there.start) <= within
            and here.point_at(0.5).distance(there.point_at(0.5)) <= within
            for here, there in zip(first.segments, second.segments[turn:] + second.segments[:turn], strict=True)
        )
        for turn in range(count)
    )


# A film on the edge of an opening grows every size over all by twice its thickness and keeps the form.
@pytest.mark.parametrize("film", [0.08, 1.0, -0.08, -0.9])
@pytest.mark.parametrize(
    ("shape", "sizes"),
    [
        (circle, (22.3,)),
        (rectangle, (92.0, 45.0)),
        (slot, (10.3, 6.8)),
        (d_hole, (9.7, 8.9)),
        (double_d, (12.2, 11.0)),
        (hexagon, (8.0,)),
    ],
)
def test_a_shape_stays_the_shape_with_every_size_changed_by_twice_the_film(
    shape: object, sizes: tuple[float, ...], film: float
) -> None:
    at = Point(131.7, -42.25)
    coated = only(offset(shape(*sizes, at=at), film))
    assert same_line(coated, shape(*(size + 2 * film for size in sizes), at=at))


def test_radii_and_angles_follow_the_film() -> None:
    grown = only(offset(rectangle(20, 10, corner=2), 0.5))
    assert same_line(grown, rectangle(21, 11, corner=2.5))
    shrunk = only(offset(rectangle(20, 10, corner=2), -0.5))
    assert same_line(shrunk, rectangle(19, 9, corner=1.5))
    keyed = only(offset(keyed_circle(22.3, 3.2, 24.1), 0.08))
    assert same_line(keyed, keyed_circle(22.46, 3.36, 24.26))
    # The wide side to sharp corners grows by d at the bottom corner angle: d (1 / cos a + tan a) a side.
    a = math.radians(10)
    body = only(offset(trapezoid(20.5, 11.4, 10, 2.6), 0.1))
    wide = 20.5 + 2 * 0.1 * (1 / math.cos(a) + math.tan(a))
    assert same_line(body, trapezoid(wide, 11.6, 10, 2.7))


def test_round_joins_have_the_radius_of_the_distance() -> None:
    grown = only(offset(rectangle(20, 10), 1.5, "round"))
    assert same_line(grown, rectangle(23, 13, corner=1.5))
    assert same_line(only(offset(grown, -1.5)), rectangle(20, 10))


def test_chamfers_keep_their_angle() -> None:
    shape = chamfered_rectangle(28, 20, 5)
    assert same_line(only(offset(shape, 1)), chamfered_rectangle(30, 22, 5 + 2 - math.sqrt(2)))


def test_a_corner_too_sharp_for_a_mitre_stays_round() -> None:
    blunt, needle = outline((0, 0), (10, 0), (10, 6)), outline((0, 0), (30, 0), (30, 5))
    # A point of angle a stands off by d / sin(a / 2): 3.75 d for 31.0 degrees, 12.1 d for 9.5 degrees.
    assert not any(isinstance(segment, Arc) for segment in only(offset(blunt, 1)).segments)
    assert sum(isinstance(segment, Arc) for segment in only(offset(needle, 1)).segments) == 1


def test_corners_whose_mitres_would_run_into_each_other_stay_round() -> None:
    # Two fangs of 53 degrees face each other 10 apart. Grown by 3 the round tips stay 4 apart, the mitres, which
    # reach 3 / sin 26.6 = 6.7 each, would cross.
    jaw = outline((0, 0), (30, 0), (30, 4), (24, 4), (20, 12), (16, 4), (4, 4), (4, 30), (16, 30), (20, 22), (24, 30),
                  (30, 30), (30, 34), (0, 34))  # fmt: skip
    grown = only(offset(jaw, 3))
    assert simple(grown)
    tips = [segment for segment in grown.segments if isinstance(segment, Arc)]
    assert {tip.centre for tip in tips} <= {Point(20, 12), Point(20, 22)}
    assert len(tips) == 1  # the first fang is carried on, and leaves no room for the second
    assert only(offset(jaw, 1)).area == pytest.approx(only(offset(jaw, 1, "round")).area, rel=0.02)
    assert not any(isinstance(segment, Arc) for segment in only(offset(jaw, 1)).segments)


def test_a_rounded_corner_shrinks_to_a_sharp_one_and_then_the_sides_meet() -> None:
    rounded = rectangle(20, 10, corner=3)
    assert same_line(only(offset(rounded, -3)), rectangle(14, 4))
    assert same_line(only(offset(rounded, -4)), rectangle(12, 2))


@pytest.mark.parametrize(
    ("shape", "reach"),
    [
        (circle(10), 5),
        (rectangle(20, 10), 5),
        (rectangle(10, 10, corner=3), 5),
        (slot(20, 10), 5),
        (hexagon(8), 4),
        (hexagon(8, turned=17), 4),
    ],
)
def test_nothing_is_left_when_the_distance_reaches_the_middle(shape: Contour, reach: float) -> None:
    moved = shape.moved(Vector(311.1, 77.7))
    assert offset(moved, -reach) == ()
    assert offset(moved, -reach - 1) == ()
    assert only(offset(moved, -reach + 0.01)).area > 0


@pytest.mark.parametrize("neck", [4.0, 4.000000001, 3.999999999, 3.0])
def test_a_dumbbell_whose_neck_closes_falls_into_two(neck: float) -> None:
    left, right = offset(dumbbell(neck), -2)
    assert left.area == pytest.approx(right.area)
    assert {round(found.bounds.centre.x) for found in (left, right)} in ({10, 40}, {11, 39})
    assert simple(left)
    assert simple(right)


def test_a_dumbbell_whose_neck_stays_open_is_one() -> None:
    found = only(offset(dumbbell(4.0), -1))
    assert found.area == pytest.approx(2 * 18 * 18 + 12 * 2)


@pytest.mark.parametrize("join", ["sharp", "round"])
def test_a_bracket_that_closes_as_it_grows_leaves_a_hole(join: str) -> None:
    outer, hole = sorted(offset(bracket(4), 2.5, join), key=lambda found: -found.area)
    assert outer.area > 40 * 40
    assert hole.area < 0
    # The cavity of 32 x 32 loses 2.5 a side, and bulges by what two discs of 2.5 at the mouth leave between them.
    assert hole.bounds.width == pytest.approx(27 + 2.5 - math.sqrt(2.5**2 - 2**2))
    assert hole.bounds.height == pytest.approx(27)


def test_a_bracket_that_stays_open_is_one() -> None:
    assert only(offset(bracket(4), 1.5)).area == pytest.approx(43 * 43 - 29 * 29 - 7 * 1)


def test_a_hollow_corner_goes_when_its_radius_is_used_up() -> None:
    hollow = polygon([Point(*xy) for xy in [(0, 0), (20, 0), (20, 8), (8, 8), (8, 20), (0, 20)]], 2.0)
    assert sum(isinstance(segment, Arc) for segment in only(offset(hollow, 1.0)).segments) == 6
    assert sum(isinstance(segment, Arc) for segment in only(offset(hollow, 2.0)).segments) == 5
    assert sum(isinstance(segment, Arc) for segment in only(offset(hollow, 3.0)).segments) == 5


def test_cusps_are_gone_round() -> None:
    # Half a disc of 10 with a half disc of 5 cut from it and one added: points at both ends, as hollow as full.
    claw = Contour(
        (
            Arc(Point(0, 0), 10.0, 0.0, 180.0),
            Arc(Point(-5, 0), 5.0, 180.0, -180.0),
            Arc(Point(5, 0), 5.0, 180.0, -180.0),
        )
    )
    grown, shrunk = only(offset(claw, 0.5, "round")), only(offset(claw, -0.5, "round"))
    assert simple(grown)
    assert simple(shrunk)
    assert shrunk.area < claw.area < grown.area


def test_a_distance_of_nothing_changes_nothing() -> None:
    shape = d_hole(9.7, 8.9)
    assert offset(shape, 0.0) == (shape,)
    assert only(offset(shape.mirrored(), 0.0)).area > 0


def test_the_direction_of_the_contour_makes_no_difference() -> None:
    shape = keyed_circle(22.3, 3.2, 24.1)
    assert same_line(only(offset(shape.reversed(), 0.3)), only(offset(shape, 0.3)))


def test_lines_and_arcs_stay_lines_and_arcs() -> None:
    grown = only(offset(double_d(12.2, 11.0), 0.1))
    arcs = [segment for segment in grown.segments if isinstance(segment, Arc)]
    assert {(arc.centre, arc.radius) for arc in arcs} == {(Point(0, 0), 6.1 + 0.1)}
    assert sum(isinstance(segment, Line) for segment in grown.segments) == 2


def test_two_runs_give_the_same_digits() -> None:
    assert in_full(offset(bracket(4), 2.5)) == in_full(offset(bracket(4), 2.5))


def test_what_cannot_be_asked_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot be offset"):
        offset(circle(10), math.nan)
    with pytest.raises(ValueError, match="accepted: sharp, round"):
        offset(circle(10), 1, "bevel")
