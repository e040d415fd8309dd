"""Shapes of openings, against figures worked out apart from this code.

AREAS, BOXES and the rest are the `derived` figures of the project's reference table of panel cutouts: plane geometry
from the sizes in the same row, worked out by another program and rounded to 0.001. Whether a part really has these
sizes does not matter here.
"""

from __future__ import annotations

import math

import pytest

from panelart.geometry import (
    CORNERS,
    SIDES,
    Arc,
    Box,
    Contour,
    Line,
    Point,
    chamfered_rectangle,
    circle,
    d_hole,
    double_d,
    gap,
    hexagon,
    keyed_circle,
    polygon,
    rectangle,
    simple,
    slot,
    trapezoid,
)

DERIVED = [
    # shape, area, width and height of the box around it
    (rectangle(29.5, 21.5, corner=2.0), 630.816, (29.5, 21.5)),
    (rectangle(27.5, 31.5, corner=1.5), 864.319, (27.5, 31.5)),
    (rectangle(7.0, 13.0, corner=1.0), 90.142, (7.0, 13.0)),
    (rectangle(92.0, 22.2), 2042.4, (92.0, 22.2)),
    (circle(22.3), 390.571, (22.3, 22.3)),
    (circle(9.7), 73.898, (9.7, 9.7)),
    (circle(134.0), 14102.609, (134.0, 134.0)),
    (slot(9.4, 3.6), 31.059, (9.4, 3.6)),
    (slot(12.75, 6.9), 77.758, (12.75, 6.9)),
    (d_hole(9.7, 8.9), 71.001, (9.7, 8.9)),
    (d_hole(16.1, 14.9), 196.71, (16.1, 14.9)),
    (d_hole(6.5, 5.9), 31.648, (6.5, 5.9)),
    (d_hole(12.2, 10.5), 107.019, (12.2, 10.5)),
    (d_hole(12.7, 11.9), 123.342, (12.7, 11.9)),
    (double_d(12.2, 11.0, "x"), 112.634, (11.0, 12.2)),
    (double_d(8.0, 6.7, "x"), 46.411, (6.7, 8.0)),
    (double_d(12.7, 11.5, "x"), 122.323, (11.5, 12.7)),
    (double_d(16.0, 15.3, "x"), 198.868, (15.3, 16.0)),
    (keyed_circle(22.3, 3.2, 24.1), 396.453, (22.3, 24.1)),
    (keyed_circle(30.5, 4.8, 33.0), 742.92, (30.5, 33.0)),
    (keyed_circle(16.2, 1.7, 17.9), 209.035, (16.2, 17.9)),
    (keyed_circle(7.0, 1.1, 8.2), 39.82, (7.0, 8.2)),
    (keyed_circle(6.4, 0.9, 7.0), 32.719, (6.4, 7.0)),
    (keyed_circle(12.2, 1.9, 13.1), 118.656, (12.2, 13.1)),
    (keyed_circle(20.2, 2.2, 21.2), 322.718, (20.2, 21.2)),
    (chamfered_rectangle(28.0, 20.5, 5.0, ("top-left", "top-right")), 549.0, (28.0, 20.5)),
    (chamfered_rectangle(27.5, 20.0, 5.5, ("top-left", "top-right")), 519.75, (27.5, 20.0)),
    (trapezoid(20.5, 11.4, 10, 2.6), 204.565, (19.503, 11.4)),
    (trapezoid(22.2, 13.0, 10, 2.6), 252.581, (21.203, 13.0)),
    (trapezoid(20.53, 11.97, 10, 1.6), 218.124, (19.916, 11.97)),
    (trapezoid(18.94, 10.38, 10, 2.59), 171.427, (17.947, 10.38)),
    (trapezoid(42.5, 11.4, 10, 2.6), 455.365, (41.503, 11.4)),
    (trapezoid(56.7, 14.1, 10, 2.6), 758.194, (55.703, 14.1)),
]

TRAPEZOIDS = [
    # wide side, height, corner, fixing centre from the middle, narrow side to sharp corners, web to a 3.1 fixing hole
    (20.5, 11.4, 2.6, 12.495, 16.48, 1.651),
    (22.2, 13.0, 2.6, 12.495, 17.615, 0.953),
    (20.53, 11.97, 1.6, 12.495, 16.309, 1.685),
    (28.8, 11.4, 2.6, 16.66, 24.78, 1.665),
    (28.76, 11.97, 1.6, 16.66, 24.539, 1.735),
    (42.5, 11.4, 2.6, 23.52, 38.48, 1.675),
    (44.3, 13.0, 2.6, 23.52, 39.715, 0.928),
]

ALL = [shape for shape, _, _ in DERIVED]


@pytest.mark.parametrize(("shape", "area", "size"), DERIVED)
def test_area_and_box_of_the_derived_figures(shape: Contour, area: float, size: tuple[float, float]) -> None:
    assert shape.area == pytest.approx(area, abs=0.00051)
    assert (shape.bounds.width, shape.bounds.height) == pytest.approx(size, abs=0.00051)


@pytest.mark.parametrize(("w", "h", "corner", "fixing", "narrow", "web"), TRAPEZOIDS)
def test_narrow_side_and_web_of_the_derived_figures(
    w: float, h: float, corner: float, fixing: float, narrow: float, web: float
) -> None:
    sharp = trapezoid(w, h, 10)
    assert min(side.length for side in sharp.segments if side.tangent_at(0).y == 0) == pytest.approx(
        narrow, abs=0.00051
    )
    body, hole = trapezoid(w, h, 10, corner), circle(3.1, Point(fixing, 0))
    assert gap(body, hole).distance == pytest.approx(web, abs=0.00051)


# The `flat_chord` of the same table: length of a flat.
@pytest.mark.parametrize(
    ("shape", "chord"),
    [
        (d_hole(9.7, 8.9), 5.337),
        (d_hole(16.1, 14.9), 8.457),
        (d_hole(12.7, 11.9), 6.171),
        (double_d(12.2, 11.0), 5.276),
        (double_d(12.0, 11.0), 4.796),
    ],
)
def test_the_length_of_a_flat(shape: Contour, chord: float) -> None:
    for flat in shape.segments:
        if isinstance(flat, Line):
            assert flat.length == pytest.approx(chord, abs=0.00051)


@pytest.mark.parametrize("shape", ALL)
def test_shapes_run_counter_clockwise_and_nowhere_cross_themselves(shape: Contour) -> None:
    assert shape.area > 0
    assert simple(shape)


def test_closed_formulas() -> None:
    assert rectangle(10, 4, corner=1.5).area == pytest.approx(40 - (4 - math.pi) * 1.5**2, rel=1e-14)
    assert rectangle(10, 4, corner=1.5).perimeter == pytest.approx(28 - (8 - 2 * math.pi) * 1.5, rel=1e-14)
    assert slot(10, 4).perimeter == pytest.approx(12 + 4 * math.pi, rel=1e-14)
    assert hexagon(8).area == pytest.approx(2 * math.sqrt(3) * 4**2, rel=1e-14)
    assert hexagon(8).perimeter == pytest.approx(6 * 8 / math.sqrt(3), rel=1e-14)


@pytest.mark.parametrize(
    ("side", "bounds"),
    [
        ("top", Box(-6, -6, 6, 5)),
        ("bottom", Box(-6, -5, 6, 6)),
        ("left", Box(-5, -6, 6, 6)),
        ("right", Box(-6, -6, 5, 6)),
    ],
)
def test_a_flat_lies_on_the_side_asked_for(side: str, bounds: Box) -> None:
    found = d_hole(12, 11, side, at=Point(0, 0)).bounds
    for name in ("left", "bottom", "right", "top"):
        assert getattr(found, name) == pytest.approx(getattr(bounds, name), abs=1e-12)


@pytest.mark.parametrize(("side", "x", "y"), [("top", 0, 1), ("bottom", 0, -1), ("left", -1, 0), ("right", 1, 0)])
def test_a_key_lies_on_the_side_asked_for(side: str, x: float, y: float) -> None:
    shape = keyed_circle(10, 2, 11, side, at=Point(100, 50))
    assert shape.contains(Point(100 + 5.9 * x, 50 + 5.9 * y))
    assert not shape.contains(Point(100 - 5.1 * x, 50 - 5.1 * y))


def test_flats_are_measured_along_the_axis_asked_for() -> None:
    assert double_d(12, 11, "x").bounds.width == pytest.approx(11)
    assert double_d(12, 11, "y").bounds.height == pytest.approx(11)
    assert double_d(12, 11, "y").bounds.width == pytest.approx(12)


def test_the_wide_side_of_a_trapezoid() -> None:
    assert trapezoid(20, 10, 10, wide_side="top").contains(Point(9.5, 4.9))
    assert not trapezoid(20, 10, 10, wide_side="bottom").contains(Point(9.5, 4.9))
    assert trapezoid(20, 10, 10, at=Point(7, 8)).bounds.centre == Point(7, 8)


def test_chamfers_and_radii_share_the_corners_out() -> None:
    shape = chamfered_rectangle(28, 20, 5, ("top-left", "top-right"), 2.0)
    assert shape.area == pytest.approx(560 - 25 - 2 * (4 - math.pi), rel=1e-14)
    assert sum(isinstance(segment, Arc) for segment in shape.segments) == 2
    assert not shape.contains(Point(13.9, 7))
    assert shape.contains(Point(13.9, -7))
    whole = chamfered_rectangle(10, 10, 2, CORNERS)
    assert whole.area == pytest.approx(100 - 8, rel=1e-14)


def test_a_slot_as_high_as_wide_is_a_circle() -> None:
    assert slot(4, 4, Point(1, 2)).circle is not None
    assert rectangle(6, 6, corner=3).circle is not None
    assert len(slot(10, 4).segments) == 4


def test_the_turn_of_a_hexagon() -> None:
    assert hexagon(8).bounds.height == pytest.approx(8)
    assert hexagon(8, turned=30).bounds.width == pytest.approx(8)


def test_a_polygon_may_be_given_either_way_round() -> None:
    corners = [Point(0, 0), Point(10, 0), Point(10, 3), Point(3, 3), Point(3, 10), Point(0, 10)]
    assert polygon(corners).area == polygon(corners[::-1]).area == 51
    # An L has five corners that turn left and one that turns right: the radii take 5 and give 1 back.
    assert polygon(corners, 1.0).area == pytest.approx(51 - 4 * (1 - math.pi / 4), rel=1e-13)


@pytest.mark.parametrize("side", SIDES)
def test_a_mirrored_shape_is_the_shape_of_the_other_side(side: str) -> None:
    other = {"left": "right", "right": "left"}.get(side, side)
    mirrored, meant = d_hole(9.7, 8.9, side).mirrored().ccw(), d_hole(9.7, 8.9, other)
    assert mirrored.area == pytest.approx(meant.area)
    for name in ("left", "bottom", "right", "top"):
        assert getattr(mirrored.bounds, name) == pytest.approx(getattr(meant.bounds, name), abs=1e-12)


@pytest.mark.parametrize(
    ("shape", "figures"),
    [
        (circle, (0,)),
        (circle, (math.nan,)),
        (rectangle, (10, 0)),
        (rectangle, (-10, 5)),
        (d_hole, (10, 10)),
        (d_hole, (10, 0)),
        (d_hole, (10, 9, "north")),
        (double_d, (10, 10.5)),
        (double_d, (10, 9, "z")),
        (keyed_circle, (10, 10, 12)),
        (keyed_circle, (10, 2, 10)),
        (trapezoid, (10, 5, 90)),
        (trapezoid, (10, 40, 10)),
        (trapezoid, (10, 5, 10, 0, "left")),
        (chamfered_rectangle, (10, 8, 4.1)),
        (chamfered_rectangle, (10, 8, 2, ("upper",))),
        (hexagon, (0,)),
        (polygon, ([Point(0, 0), Point(1, 1)],)),
        (polygon, ([Point(0, 0), Point(0, 0), Point(1, 1)],)),
        (polygon, ([Point(0, 0), Point(10, 0), Point(0, 10)], -1)),
    ],
)
def test_figures_that_make_no_shape_are_refused(shape: object, figures: tuple[object, ...]) -> None:
    with pytest.raises(ValueError, match=r"."):
        shape(*figures)


def test_corners_larger_than_the_sides_are_refused_with_their_size() -> None:
    with pytest.raises(ValueError, match=r"corner radii take 5\.2 mm of a side that is 5 mm long"):
        rectangle(10, 5, corner=2.6)
