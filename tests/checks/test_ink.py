"""Ink as polygons: areas against closed formulas, and against skia-pathops as an independent library."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from panelart.checks.bodies import body_of, depth, hull
from panelart.checks.ink import filled, strokes
from panelart.geometry import Line, Path, Point, circle, rectangle
from panelart.lettering.outline import Cubic, Loop, open_shape, shape_of

pathops = pytest.importorskip("pathops", reason="skia-pathops is the oracle here")

K = 4.0 / 3.0 * (math.sqrt(2.0) - 1.0)  # control length of the usual cubic quarter circle


def _round_letter(r: float) -> Loop:
    """A circle of four cubics, as fonts draw an O; within 0.03 % of the true circle (common knowledge of the trade)."""
    k = K * r
    corners = [(r, 0), (0, r), (-r, 0), (0, -r)]
    curves = []
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        curves.append(
            Cubic(
                Point(ax, ay),
                Point(ax - k * ay / r, ay + k * ax / r),
                Point(bx + k * by / r, by - k * bx / r),
                Point(bx, by),
            )
        )
    return Loop(tuple(curves))


def _reversed(loop: Loop) -> Loop:
    return Loop(tuple(Cubic(c.end, c.second, c.first, c.start) for c in reversed(loop.curves)))


def _skia_area(*loops: Loop) -> float:
    path = pathops.Path(fillType=pathops.FillType.WINDING)
    pen = path.getPen()
    for loop in loops:
        pen.moveTo(loop.curves[0].start)
        for curve in loop.curves:
            pen.curveTo(curve.first, curve.second, curve.end)
        pen.closePath()
    path.simplify(fix_winding=True)
    return abs(path.area)


def test_a_round_letter_has_the_area_of_a_circle():
    assert filled((_round_letter(2.0),)).area == pytest.approx(math.pi * 4.0, rel=0.003)


def test_a_counter_is_cut_out():
    outer, inner = _round_letter(2.0), _reversed(_round_letter(1.0))
    assert filled((outer, inner)).area == pytest.approx(_skia_area(outer, inner), rel=0.003)
    assert filled((outer, inner)).area == pytest.approx(math.pi * 3.0, rel=0.003)


def test_strokes_of_one_sense_that_overlap_paint_once():
    first, second = rectangle(4, 1), rectangle(1, 4)
    assert filled(shape_of(first, second)).area == pytest.approx(7.0)


def test_chords_stay_within_the_tolerance_of_the_curve():
    loop = _round_letter(5.0)
    ground = filled((loop,))
    ends = [curve.point_at(step / 40) for curve in loop.curves for step in range(41)]
    distances = shapely.distance(shapely.points(ends), ground.exterior)
    assert float(distances.max()) <= 0.005 + 1e-9


def test_a_stroke_covers_its_length_times_its_width():
    path = Path((Line(Point(0, 0), Point(10, 0)), Line(Point(10, 0), Point(10, 5))))
    pieces = strokes(open_shape(path), 0.4)
    assert [piece.area for piece in pieces] == pytest.approx([4.0, 2.0])


@pytest.mark.parametrize(
    ("one", "two", "expected"),
    [
        (circle(10), circle(6, Point(7, 0)), 1.0),
        (circle(10), circle(6, Point(0, 0)), 8.0),
        (circle(10), circle(6, Point(9, 0)), -1.0),
        (rectangle(10, 10), rectangle(10, 10, Point(9, 1)), 1.0),
        (rectangle(10, 10), circle(4, Point(6, 0)), 1.0),
        (rectangle(10, 10), circle(4, Point(8, 9)), 2.0 - 5.0),
        (rectangle(10, 10), circle(2, Point(0, 1)), 5.0),
    ],
)
def test_depth_is_the_least_move_that_parts_two_bodies(one, two, expected):
    assert depth(body_of(one), body_of(two)) == pytest.approx(expected)
    assert depth(body_of(two), body_of(one)) == pytest.approx(expected)


def test_a_move_by_the_depth_clears_and_less_does_not_for_slanted_forms():
    # Checked by shapely: of all directions, the least move that parts the two is the depth.
    first = shapely.Polygon([(0, 0), (8, 1), (9, 6), (2, 7)])
    second = shapely.Polygon([(6, 4), (12, 3), (13, 9), (7, 10)])
    minimum = min(_clearing(first, second, math.radians(deg / 2)) for deg in range(720))
    assert depth(hull(first), hull(second)) == pytest.approx(minimum, rel=0.001)


def _clearing(first, second, angle):
    low, high = 0.0, 40.0
    for _ in range(40):
        middle = (low + high) / 2
        moved = shapely.transform(second, lambda at, m=middle: np.add(at, [m * math.cos(angle), m * math.sin(angle)]))
        low, high = (middle, high) if shapely.intersection(first, moved).area > 1e-12 else (low, middle)
    return high
