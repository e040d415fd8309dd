"""Reliefs for a round cutter, held against shapely: a square part goes in, and no more is taken than one round."""

from __future__ import annotations

import math

import pytest
import shapely

from panelart.geometry import circle, polygon, rectangle, slot
from panelart.geometry.corners import relieved, tightest_corner
from panelart.geometry.points import Point
from panelart.geometry.polygons import polygon as ground


@pytest.mark.parametrize("turn", [0.0, 30.0])
def test_a_square_part_goes_into_a_relieved_opening(turn: float) -> None:
    """Each corner gains the part of a round beyond the two sides: half of it and a bit; pi / 2 - 1 of the radius
    squared on either... summed over the four corners of a right angle: 4 (pi / 2 - 1) r^2."""
    asked = rectangle(20, 10, Point(3, 4)).turned(turn)
    cut = relieved(asked, 1.5)
    assert shapely.covers(ground(cut, side="outside").buffer(1e-6), ground(asked))
    assert cut.area == pytest.approx(200 + 4 * (math.pi / 2 - 1) * 1.5**2)
    assert tightest_corner(cut) == pytest.approx(1.5)
    assert tightest_corner(asked) == 0.0


@pytest.mark.parametrize("opening", [circle(8), slot(12, 4), rectangle(20, 10, corner=2)])
def test_what_has_no_sharp_corner_stays_as_it_is(opening) -> None:
    assert relieved(opening, 1.5).segments == opening.ccw().segments


def test_a_sharp_corner_that_points_inwards_needs_no_relief() -> None:
    ell = polygon([Point(0, 0), Point(20, 0), Point(20, 10), Point(10, 10), Point(10, 20), Point(0, 20)])
    cut = relieved(ell, 1.0)
    assert cut.area == pytest.approx(300 + 5 * (math.pi / 2 - 1))


def test_reliefs_without_room_are_left_out() -> None:
    narrow = rectangle(20, 2)
    assert relieved(narrow, 1.5).area == pytest.approx(40)


def test_an_acute_corner() -> None:
    """60 degrees: the round is tangent to nothing, but its rim passes through the corner."""
    triangle = polygon([Point(0, 0), Point(30, 0), Point(15, 15 * math.sqrt(3))])
    cut = relieved(triangle, 2.0)
    assert shapely.covers(ground(cut, side="outside").buffer(1e-6), ground(triangle))
    for corner in (Point(0, 0), Point(30, 0), Point(15, 15 * math.sqrt(3))):
        assert ground(cut).exterior.distance(shapely.Point(corner)) == pytest.approx(0.0, abs=0.01)
