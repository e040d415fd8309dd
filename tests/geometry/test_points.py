"""Positions, displacements, boxes and rigid motions."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.geometry import ORIGIN, Box, Point, Transform, Vector, direction

COORDINATES = st.floats(-1000, 1000)
POINTS = st.builds(Point, COORDINATES, COORDINATES)
ANGLES = st.one_of(st.sampled_from([0.0, 90.0, 180.0, 270.0, 360.0, -90.0]), st.floats(-720, 720))
MOTIONS = st.builds(
    lambda deg, about, x, y, mirrored: (
        Transform.turn(deg, about).then(Transform.move(x, y)).then(Transform.mirror_x(x) if mirrored else Transform())
    ),
    ANGLES,
    POINTS,
    COORDINATES,
    COORDINATES,
    st.booleans(),
)


def close(first: Point, second: Point, within: float = 1e-9) -> bool:
    return first.distance(second) <= within


@pytest.mark.parametrize(
    ("deg", "x", "y"),
    [(0, 1, 0), (90, 0, 1), (180, -1, 0), (270, 0, -1), (-90, 0, -1), (720, 1, 0)],
)
def test_quarter_turns_are_exact(deg: float, x: float, y: float) -> None:
    assert direction(deg) == (x, y)
    assert Point(3.0, 7.0).turned(deg) == Point(3.0 * x - 7.0 * y, 3.0 * y + 7.0 * x)


def test_the_triangle_of_3_4_5() -> None:
    assert Point(0, 0).distance(Point(3, 4)) == 5
    assert Vector(3, 4).length == 5
    assert Vector(3, 4).unit == Vector(0.6, 0.8)
    assert Vector(3, 4).perpendicular == Vector(-4, 3)
    assert Vector(3, 4).cross(Vector(3, 4).perpendicular) == 25
    assert Point(5, 5).minus(Point(2, 1)) == Vector(3, 4)


def test_mirroring_exchanges_left_and_right_only() -> None:
    assert Point(3, 7).mirrored() == Point(-3, 7)
    assert Point(3, 7).mirrored(10) == Point(17, 7)


def test_a_displacement_of_nothing_has_no_direction() -> None:
    with pytest.raises(ValueError, match="no direction"):
        _ = Vector(0, 0).unit


@given(POINTS, COORDINATES)
def test_mirroring_twice_changes_nothing(point: Point, about: float) -> None:
    assert close(point.mirrored(about).mirrored(about), point)


@given(MOTIONS, POINTS, POINTS)
def test_a_rigid_motion_keeps_distances(motion: Transform, first: Point, second: Point) -> None:
    kept = motion.apply(first).distance(motion.apply(second))
    assert kept == pytest.approx(first.distance(second), abs=1e-9)


@given(MOTIONS, POINTS)
def test_the_inverse_takes_a_motion_back(motion: Transform, point: Point) -> None:
    assert close(motion.inverse().apply(motion.apply(point)), point)
    assert close(motion.then(motion.inverse()).apply(point), point)


@given(MOTIONS, MOTIONS, POINTS)
def test_then_is_one_motion_after_the_other(first: Transform, second: Transform, point: Point) -> None:
    assert close(first.then(second).apply(point), second.apply(first.apply(point)))


@given(ANGLES, POINTS, POINTS)
def test_a_point_turns_as_its_transform_does(deg: float, about: Point, point: Point) -> None:
    assert close(Transform.turn(deg, about).apply(point), point.turned(deg, about))
    assert close(Transform.turn(deg, about).apply(about), about)


@pytest.mark.parametrize(
    "matrix", [(2, 0, 0, 1, 0, 0), (1, 0, 0.5, 1, 0, 0), (1, 0, 0, 0.999, 0, 0), (1, 0, 0, 1, math.nan, 0)]
)
def test_a_matrix_that_is_not_rigid_is_refused(matrix: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="stretches, shears or is not finite"):
        Transform(*matrix)


def test_only_an_odd_number_of_mirrors_mirrors() -> None:
    assert Transform.mirror_x(4).mirrors
    assert not Transform.mirror_x(4).then(Transform.mirror_x(9)).mirrors
    assert not Transform.turn(33).mirrors


def test_a_box_and_its_sides() -> None:
    box = Box(1, 2, 11, 7)
    assert (box.width, box.height, box.centre) == (10, 5, Point(6, 4.5))
    assert box.grown(1) == Box(0, 1, 12, 8)
    assert box.grown(-2.5) == Box(3.5, 4.5, 8.5, 4.5)
    assert box.moved(Vector(1, -1)) == Box(2, 1, 12, 6)
    assert box.union(Box(-1, 3, 0, 20)) == Box(-1, 2, 11, 20)
    assert Box.around([Point(3, 1), Box(0, 0, 1, 1), Point(-2, 5)]) == Box(-2, 0, 3, 5)


@pytest.mark.parametrize("sides", [(1, 0, 0, 1), (0, 1, 1, 0), (0, 0, math.inf, 1), (math.nan, 0, 1, 1)])
def test_a_box_inside_out_is_refused(sides: tuple[float, float, float, float]) -> None:
    with pytest.raises(ValueError, match="box"):
        Box(*sides)


def test_there_is_no_box_around_nothing() -> None:
    with pytest.raises(ValueError, match="around nothing"):
        Box.around([])


@pytest.mark.parametrize(
    ("other", "gap", "overlaps"),
    [
        (Box(10, 0, 20, 10), 0.0, False),  # side to side
        (Box(9.9, 0, 20, 10), 0.0, True),
        (Box(13, 14, 20, 20), 5.0, False),  # corner to corner, 3 across and 4 up
        (Box(2, 2, 3, 3), 0.0, True),  # one within the other
        (Box(12, 0, 20, 10), 2.0, False),
    ],
)
def test_gap_and_overlap_of_boxes(other: Box, gap: float, *, overlaps: bool) -> None:
    box = Box(0, 0, 10, 10)
    assert box.gap(other) == other.gap(box) == gap
    assert box.overlaps(other) == other.overlaps(box) == overlaps
    assert not box.overlaps(other, gap) or overlaps  # a gap that is kept exactly is kept
    assert box.overlaps(other, gap + 0.001)


def test_a_box_holds_its_sides() -> None:
    box = Box(0, 0, 10, 10)
    assert box.contains(Point(10, 0))
    assert box.contains(box)
    assert not box.contains(Point(10.001, 5))
    assert not box.contains(Box(5, 5, 11, 6))


@given(st.lists(POINTS, min_size=1, max_size=8))
def test_the_box_around_points_holds_them_all_and_its_middle(points: list[Point]) -> None:
    box = Box.around(points)
    assert all(box.contains(point) for point in points)
    assert box.contains(box.centre)
    assert all(box.contains(corner) for corner in box.corners)


def test_the_origin_stays_when_turned() -> None:
    assert ORIGIN.turned(123.4) == ORIGIN


@pytest.mark.parametrize("odd", [float("nan"), float("inf"), float("-inf")])
@pytest.mark.parametrize("behind", [True, False])
def test_there_is_no_box_around_what_is_nowhere(odd: float, *, behind: bool) -> None:
    points = [Point(0.0, 0.0), Point(1.0, odd)]
    with pytest.raises(ValueError, match="finite"):
        Box.around(points if behind else points[::-1])
