"""Which map is taken, and the error stated of it: against SciPy, and on made-up pieces whose truth is known."""

from __future__ import annotations

import math

import numpy as np
import pytest

from panelart.geometry import Point, Vector
from panelart.press.fitting import Model, Sight, fitted
from panelart.press.plausible import STRONG, candidates, chosen, criterion, plausible, within
from tests.effort import examples
from tests.press.pieces_on_bed import CORNERS, HIGH, HOLES, MEASURED, SIGMA, WIDE, held

stats = pytest.importorskip("scipy.stats", reason="SciPy is the oracle here")


@pytest.mark.parametrize("radius", [0.01, 0.05, 0.1, 0.4])
@pytest.mark.parametrize("off", [0.0, 0.02, 0.09, 0.3])
@pytest.mark.parametrize("deviation", [0.01, 0.03, 0.2])
def test_the_share_within_a_circle_is_that_of_the_noncentral_chi_square(radius, off, deviation) -> None:
    """SciPy: the squared distance of a normal scatter about a point `off` the middle."""
    theirs = stats.ncx2.cdf((radius / deviation) ** 2, 2, (off / deviation) ** 2)
    assert within(*np.array([[radius], [off], [deviation]]))[0] == pytest.approx(theirs, abs=2e-3)


def seen(features, linear=((1.0, 0.0), (0.0, 1.0)), growth=0.0, noise=0.0, seed=3) -> list[Sight]:
    rng = np.random.default_rng(seed)
    return [
        Sight(
            at=Point(*at),
            seen=Point(*(np.array(linear) @ (np.array(at) + growth * np.array(grows)) + rng.normal(0, noise, 2))),
            grows=Vector(*grows),
        )
        for at, grows in features
    ]


@pytest.mark.parametrize(
    ("linear", "growth", "model", "grown"),
    [
        (((1, 0), (0, 1)), 0.0, Model.RIGID, False),
        (((1, 0), (0, 1)), 0.15, Model.RIGID, True),
        (((1.001, 0), (0, 1.001)), 0.0, Model.SIMILARITY, False),
        (((1.001, 0.0005), (0, 0.999)), 0.0, Model.AFFINE, False),
        (((1.001, 0.001), (0, 0.9995)), 0.15, Model.AFFINE, True),
    ],
)
@pytest.mark.parametrize("seed", range(5))
def test_the_map_that_was_made_is_the_map_that_is_found(linear, growth, model, grown, seed) -> None:
    """A stretch of 0.1 % with a skew is no growth."""
    fit = chosen(candidates(seen((*CORNERS, *HOLES), linear, growth, 0.01, seed), SIGMA), SIGMA)
    assert (fit.model, fit.grown) == (model, grown)


def test_the_criterion_is_that_of_schwarz() -> None:
    """Worked with numpy's least squares on the plain equations of an affine map, apart from the fit."""
    sights = seen((*CORNERS, *HOLES), ((1.001, 0.0005), (0, 0.999)), 0.0, 0.02)
    here = np.array([[*sight.at, 1.0] for sight in sights])
    there = np.array([sight.seen for sight in sights])
    _, squares, _, _ = np.linalg.lstsq(here, there, rcond=None)
    expected = squares.sum() / SIGMA**2 + 6 * math.log(there.size)
    assert criterion(fitted(sights, Model.AFFINE), SIGMA) == pytest.approx(expected)


def test_maps_that_strong_evidence_speaks_against_do_not_count() -> None:
    maps = candidates(seen((*CORNERS, *HOLES), ((1.001, 0.0005), (0, 0.999)), 0.0, 0.01), SIGMA)
    least = min(criterion(fit, SIGMA) for fit in maps)
    near = plausible(maps, SIGMA)
    assert {id(fit) for fit in near} == {id(fit) for fit in maps if criterion(fit, SIGMA) - least <= STRONG}
    assert all(fit.model is Model.AFFINE for fit in near)


def test_growth_that_corners_cannot_tell_from_a_stretch_is_reckoned_with() -> None:
    """A rectangle's corners move by growth as by a scale each way: the middle of an edge tells, nothing else."""
    fits = candidates(seen(CORNERS, ((1.002, 0), (0, 0.999)), 0.0, 0.005), SIGMA)
    assert {round(fit.growth, 3) for fit in fits if fit.model is Model.AFFINE} == {-0.05, 0.0, 0.05}
    corner = max(fit.map.apply(Point(WIDE, HIGH)).distance(fits[0].map.apply(Point(WIDE, HIGH))) for fit in fits)
    assert corner > 0.04


@pytest.mark.parametrize("features", MEASURED.values(), ids=MEASURED)
def test_the_stated_error_holds_whatever_the_truth_is(features) -> None:
    assert held(features, examples(400), 1) >= 0.95
