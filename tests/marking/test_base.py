"""The base under inks: drawn in truly, never in openings, and by its rule where ink is thin.

Expected sizes are elementary geometry: a rectangle drawn in by c is smaller by 2 c in both directions; rounded outer
corners of an offset add nothing to an inset of a convex shape.
"""

from __future__ import annotations

import math

import pytest
import shapely

from panelart.geometry import Point, circle, rectangle
from panelart.lettering.outline import shape_of
from panelart.marking.areas import area_of, line_area, parted
from panelart.marking.base import base_under
from panelart.model.printing import Thin

EVERYWHERE = shapely.box(-1000, -1000, 1000, 1000)


def laid(*inks: shapely.Geometry, choke: float = 0.1, hold: float = 0.0, thin: Thin = Thin.FULL, free=EVERYWHERE):
    return base_under(inks, choke=choke, hold=hold, thin=thin, free=free)


def test_a_field_is_drawn_in_all_round() -> None:
    base = laid(shapely.box(0, 0, 20, 10), choke=0.15).ground
    assert base.bounds == pytest.approx((0.15, 0.15, 19.85, 9.85), abs=1e-9)
    assert base.area == pytest.approx(19.7 * 9.7, rel=1e-6)


def test_a_hole_in_the_ink_grows_in_the_base() -> None:
    ink = shapely.box(0, 0, 20, 20) - shapely.Point(10, 10).buffer(3, quad_segs=64)
    base = laid(ink, choke=0.2).ground
    assert base.area == pytest.approx(19.6**2 - math.pi * 3.2**2, rel=1e-3)


def test_no_seam_is_left_where_two_inks_meet() -> None:
    base = laid(shapely.box(0, 0, 10, 10), shapely.box(10, 0, 20, 10)).ground
    assert base.geom_type == "Polygon"
    assert base.area == pytest.approx(19.8 * 9.8, rel=1e-6)


@pytest.mark.parametrize(("width", "thin", "expected"), [
    (0.19, Thin.FULL, 0.19),  # thinner than twice the choke: as wide as the ink
    (0.19, Thin.NONE, 0.0),   # or no base at all
    (0.21, Thin.FULL, 0.01),  # not thinner: choked like everything
    (1.0, Thin.NONE, 0.8),
])  # fmt: skip
def test_lines_thinner_than_twice_the_choke(width: float, thin: Thin, expected: float) -> None:
    line = shapely.box(0, 0, 20, width)
    base = laid(line, thin=thin).ground
    assert base.area == pytest.approx(20 * expected, abs=0.25)


@pytest.mark.parametrize(("width", "expected"), [(0.29, 0.29), (0.31, 0.11)])
def test_the_narrowest_line_of_base_counts_as_well(width: float, expected: float) -> None:
    base = laid(shapely.box(0, 0, 20, width), hold=0.1).ground
    assert base.area == pytest.approx(20 * expected, rel=0.02)


def test_a_thin_line_out_of_a_field_is_widened_and_the_field_choked() -> None:
    ink = shapely.box(0, 0, 10, 10) | shapely.box(10, 4.925, 20, 5.075)
    base = laid(ink).ground
    assert base.intersection(shapely.box(12, 0, 20, 10)).area == pytest.approx(8 * 0.15, rel=1e-3)
    assert base.intersection(shapely.box(0, 0, 9, 10)).bounds == pytest.approx((0.1, 0.1, 9, 9.9), abs=1e-9)


def test_sharp_corners_are_not_thin_lines() -> None:
    # A star of ten corners; widened tips would reach the ink's own edge.
    points = [Point(*(r * f(math.radians(18 + 36 * k)) for f in (math.cos, math.sin))) for k in range(10)
              for r in ((5.0, 2.5)[k % 2],)]  # fmt: skip
    star = shapely.Polygon(points)
    base = laid(star).ground
    assert laid(star).thin.is_empty
    assert shapely.distance(shapely.Point(points[0]), base) > 0.1


def test_base_is_never_in_an_opening() -> None:
    opening = shapely.Point(5, 5).buffer(2)
    free = EVERYWHERE - opening.buffer(0.5)
    base = laid(shapely.box(0, 0, 10, 10), free=free).ground
    assert shapely.distance(base, opening) == pytest.approx(0.5, abs=1e-3)


def test_a_dot_too_small_for_a_choked_base() -> None:
    dot = shapely.Point(0, 0).buffer(0.09)
    assert laid(dot, thin=Thin.NONE).ground.is_empty
    assert laid(dot, thin=Thin.FULL).ground.area == pytest.approx(dot.area)


def test_without_ink_there_is_no_base() -> None:
    assert laid().ground.is_empty
    assert laid(shapely.Polygon()).ground.is_empty


def test_parted_keeps_all_of_the_area() -> None:
    ink = shapely.box(0, 0, 5, 5) | shapely.box(5, 2, 9, 2.1)
    wide, narrow = parted(ink, 0.2)
    assert wide.area + narrow.area == pytest.approx(ink.area)
    assert narrow.area == pytest.approx(0.4, abs=0.02)


def test_an_island_in_a_hole_is_ink() -> None:
    # A ring with a bar in it, as a symbol has: by the non-zero rule both are painted.
    ring = shape_of(circle(10), circle(8).reversed(), rectangle(1, 4))
    assert area_of(ring).area == pytest.approx(math.pi * (25 - 16) + 4, rel=1e-3)
    # The same drawn the other way round, as TrueType draws it.
    other = shape_of(circle(10).reversed(), circle(8), rectangle(1, 4).reversed())
    assert area_of(other).area == pytest.approx(area_of(ring).area)


def test_a_stroked_ring_covers_its_width() -> None:
    assert line_area(shape_of(circle(10)), 0.5).area == pytest.approx(math.pi * 10 * 0.5, rel=1e-3)
