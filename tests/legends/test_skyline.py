"""How far shapes reach over a stretch, against shapely's own clipping."""

from __future__ import annotations

from math import inf

import numpy as np
import pytest
import shapely

from panelart.legends.skyline import Skyline


def shapes(seed: int) -> shapely.Geometry:
    """Circles, rings and slanted bars, some of them apart from the others."""
    chance = np.random.default_rng(seed)
    made = []
    for _ in range(int(chance.integers(1, 6))):
        at = shapely.Point(*chance.uniform(-20, 20, 2))
        radius = float(chance.uniform(1, 9))
        kind = chance.integers(3)
        if kind == 0:
            made.append(at.buffer(radius))
        elif kind == 1:
            made.append(at.buffer(radius).difference(at.buffer(radius / 2)))
        else:
            made.append(
                shapely.LineString([at, (at.x + radius, at.y + chance.uniform(-9, 9))]).buffer(0.4, quad_segs=4)
            )
    return shapely.union_all(made)


@pytest.mark.few(10)
@pytest.mark.parametrize("axis", [0, 1])
@pytest.mark.parametrize("seed", range(40))
def test_the_reach_over_a_stretch_is_that_of_the_clipped_shape(seed: int, axis: int) -> None:
    area = shapes(seed)
    skyline = Skyline(area, axis)
    chance = np.random.default_rng(seed + 1000)
    for low, width in zip(chance.uniform(-35, 35, 40), chance.uniform(0.01, 30, 40), strict=True):
        high = low + width
        sides = (low, -99, high, 99) if axis == 0 else (-99, low, 99, high)
        clipped = shapely.clip_by_rect(area, *sides)
        up, down = skyline.reach(low, high, up=True), skyline.reach(low, high, up=False)
        if clipped.is_empty:
            assert (up, down) == (-inf, -inf)
        else:
            assert up == pytest.approx(clipped.bounds[3 - axis], abs=1e-9)
            assert down == pytest.approx(-clipped.bounds[1 - axis], abs=1e-9)
