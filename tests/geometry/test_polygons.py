"""Polygons that stand in for contours: how far they stray, and to which side."""

from __future__ import annotations

import math
import subprocess
import sys

import pytest
import shapely

from panelart.geometry import Contour, Point, circle, d_hole, keyed_circle, polygon, rectangle, slot, vertices
from panelart.geometry.polygons import polygon as shapely_polygon

HOLLOW = polygon([Point(*xy) for xy in [(0, 0), (20, 0), (20, 8), (8, 8), (8, 20), (0, 20)]], 3.0)
SHAPES = [
    circle(22.3),
    circle(0.4),
    slot(10, 4),
    d_hole(9.7, 8.9),
    keyed_circle(22.3, 3.2, 24.1),
    HOLLOW,
    HOLLOW.mirrored(),
]


@pytest.mark.parametrize("tolerance", [0.005, 0.1])
@pytest.mark.parametrize("contour", SHAPES)
def test_outside_holds_middle_holds_inside(contour: Contour, tolerance: float) -> None:
    exact = shapely_polygon(contour, 1e-6, "middle")
    inside, outside = (shapely_polygon(contour, tolerance, side) for side in ("inside", "outside"))
    assert inside.is_valid
    assert outside.is_valid
    # 1e-6 mm is how far the stand-in for the exact shape may itself stray.
    assert inside.difference(exact.buffer(2e-6)).is_empty
    assert exact.difference(outside.buffer(2e-6)).is_empty
    assert inside.area <= exact.area <= outside.area


@pytest.mark.parametrize("tolerance", [0.005, 0.02])
@pytest.mark.parametrize("side", ["inside", "outside", "middle"])
@pytest.mark.parametrize("contour", SHAPES)
def test_the_tolerance_is_kept(contour: Contour, side: str, tolerance: float) -> None:
    exact = shapely_polygon(contour, 1e-6, "middle").exterior
    apart = shapely_polygon(contour, tolerance, side).exterior.hausdorff_distance(exact)
    assert apart <= tolerance + 2e-6


def test_no_more_corners_than_the_tolerance_asks_for() -> None:
    # A chord of half angle a leaves r (1 - cos a): 0.005 of 11.15 allows a = 1.716 degrees, so 105 chords.
    assert len(vertices(circle(22.3), 0.005)) == math.ceil(180 / math.degrees(math.acos(1 - 0.005 / 11.15))) == 105
    assert len(vertices(rectangle(10, 5))) == 4
    assert len(vertices(circle(0.01), 0.005)) == 8  # a small circle still looks like one


def test_vertices_run_as_the_contour_runs() -> None:
    shape = d_hole(9.7, 8.9)
    assert shapely.LinearRing(vertices(shape)).is_ccw
    assert not shapely.LinearRing(vertices(shape.reversed())).is_ccw


@pytest.mark.parametrize("tolerance", [0.0, -0.1, math.nan])
def test_a_tolerance_that_cannot_be_kept_is_refused(tolerance: float) -> None:
    with pytest.raises(ValueError, match="chord tolerance"):
        vertices(circle(3), tolerance)


def test_geometry_is_imported_without_shapely() -> None:
    asked = "import sys, panelart.geometry; print([name for name in ('shapely', 'numpy') if name in sys.modules])"
    told = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"
