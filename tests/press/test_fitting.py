"""Least squares against published figures and against general solvers that are not ours."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.geometry import Affine, Point, Transform, Vector
from panelart.press.fitting import SURE, Model, Sight, TooFewError, fitted, mirrored_fit, umeyama

linalg = pytest.importorskip("scipy.linalg", reason="SciPy is the oracle here")
optimize = pytest.importorskip("scipy.optimize", reason="SciPy is the oracle here")

CORNERS = [(5, 5), (295, 5), (295, 125), (5, 125)]
FOUND = [(5.412, 4.713), (295.447, 5.236), (295.221, 125.262), (5.203, 124.741)]


def seen(panel, bed) -> list[Sight]:
    return [Sight(at=Point(*p), seen=Point(*q)) for p, q in zip(panel, bed, strict=True)]


def test_the_example_of_the_paper() -> None:
    """Umeyama, IEEE TPAMI 13(4), 1991, section IV: R = [.832 .555; -.555 .832], c = .721, t = (-.8, .4)."""
    panel, bed = [(0, 0), (1, 0), (0, 2)], [(0, 0), (-1, 0), (0, 2)]
    map_ = umeyama([(Point(*p), Point(*q)) for p, q in zip(panel, bed, strict=True)], scaled=True)
    scale = map_.stretch[0]
    assert scale == pytest.approx(0.721, abs=5e-4)
    assert (map_.a / scale, map_.b / scale, map_.c / scale) == pytest.approx((0.832, -0.555, 0.555), abs=5e-4)
    assert (map_.e, map_.f) == pytest.approx((-0.8, 0.4), abs=1e-12)


@pytest.mark.parametrize(
    ("model", "rms", "worst", "scatter", "spare"),
    [
        (Model.RIGID, 0.019635, 0.022713, 0.017562, 5),
        (Model.SIMILARITY, 0.008583, 0.009971, 0.008583, 4),
        (Model.AFFINE, 0.004279, 0.004279, 0.006052, 2),
    ],
)
def test_a_worked_set(model, rms, worst, scatter, spare) -> None:
    """Worked beforehand with numpy's own least squares and the formulas of the paper, apart from this program."""
    fit = fitted(seen(CORNERS, FOUND), model)
    assert (fit.rms, fit.worst, fit.scatter) == pytest.approx((rms, worst, scatter), abs=1e-6)
    assert fit.spare == spare
    if model is Model.RIGID:
        assert fit.map.turn_deg == pytest.approx(0.103225545, abs=1e-8)
        assert (fit.map.e, fit.map.f) == pytest.approx((0.438099042, -0.282138209), abs=1e-8)
    if model is Model.SIMILARITY:
        assert fit.map.stretch == pytest.approx((1.000112537, 1.000112537), abs=1e-8)
        assert fit.map.apply(Point(150, 65)) == pytest.approx((150.32075, 64.988), abs=1e-6)
        assert fit.map.apply(Point(40, 100)) == pytest.approx((40.245486, 99.793681), abs=1e-6)
    if model is Model.AFFINE:
        assert fit.map.matrix == pytest.approx((1.000091379, 0.0018, -0.0018125, 1.000225, 0.424855603, -0.296625))
        assert fit.map.shear_deg == pytest.approx(-0.000702, abs=1e-6)


places = st.tuples(st.floats(0, 300), st.floats(0, 150))
offs = st.tuples(st.floats(-0.5, 0.5), st.floats(-0.5, 0.5))


@given(st.lists(st.tuples(places, offs), min_size=4, max_size=9), st.floats(-179, 179), places)
def test_no_general_minimiser_finds_better(points, turn, move) -> None:
    panel = np.array([at for at, _ in points])
    if np.linalg.svd(panel - panel.mean(axis=0), compute_uv=False)[-1] < 5:
        return
    motion = Transform.turn(turn).then(Transform.move(*move))
    bed = np.array([motion.apply(Point(*at)) for at, _ in points]) + np.array([off for _, off in points])
    sights = seen(panel, bed)
    rigid = fitted(sights, Model.RIGID)
    turned, _ = linalg.orthogonal_procrustes(panel - panel.mean(axis=0), bed - bed.mean(axis=0))
    if np.linalg.det(turned) > 0:  # scipy's own may also reflect
        assert (rigid.map.a, rigid.map.b) == pytest.approx((turned[0, 0], turned[0, 1]), abs=1e-9)
    affine = fitted(sights, Model.AFFINE)
    ours = np.array(affine.map.matrix).reshape(3, 2)
    theirs = np.linalg.lstsq(np.hstack((panel, np.ones((len(panel), 1)))), bed, rcond=None)[0]
    assert ours == pytest.approx(theirs, abs=1e-7)


def test_edges_and_growth_against_a_general_minimiser() -> None:
    """Two touches below, one at the left, one hole and three corners, with an outline 0.06 mm too large."""
    rng = np.random.default_rng(7)
    truth = Transform.turn(1.7).then(Transform.move(31.0, -12.0))
    wide, high, grown = 260.0, 110.0, 0.06
    sights = []
    for at, across in (((40, 0), (0, -1)), ((220, 0), (0, -1)), ((0, 50), (-1, 0)), ((260, 20), (1, 0))):
        out = Vector(*across)
        touched = Point(*at).moved(out.scaled(grown)).moved(out.perpendicular.scaled(rng.normal(0, 5)))
        noisy = truth.apply(touched).moved(Vector(*rng.normal(0, 0.01, 2)))
        sights.append(Sight(at=Point(*at), seen=noisy, across=out, grows=out))
    for at, grows in (((100.0, 60.0), (0, 0)), ((wide, high), (1, 1)), ((0.0, high), (-1, 1))):
        place = Point(*at).moved(Vector(*grows).scaled(grown))
        noisy = truth.apply(place).moved(Vector(*rng.normal(0, 0.01, 2)))
        sights.append(Sight(at=Point(*at), seen=noisy, grows=Vector(*grows)))
    fit = fitted(sights, Model.RIGID, growth=True)

    def offs(params):
        motion = Transform.turn(math.degrees(params[0])).then(Transform.move(params[1], params[2]))
        for sight in sights:
            at = sight.at.moved(sight.grows.scaled(params[3]))
            off = sight.seen.minus(motion.apply(at))
            if sight.across is None:
                yield from off
            else:
                yield off.dot(motion.apply_to_vector(sight.across))

    other = optimize.least_squares(
        lambda params: list(offs(params)), [0, 30, -10, 0], xtol=1e-15, ftol=1e-15, gtol=1e-15
    )
    assert math.radians(fit.map.turn_deg) == pytest.approx(other.x[0], abs=1e-8)
    assert (fit.map.e, fit.map.f, fit.growth) == pytest.approx(other.x[1:], abs=1e-6)
    assert fit.growth == pytest.approx(grown, abs=0.02)


def test_edges_alone_locate_a_panel() -> None:
    """Three touches of two edges, as a part is set against three pins (3-2-1 location, common practice)."""
    truth = Transform.turn(2.0).then(Transform.move(50.0, 40.0))
    touches = [((30, 0), (0, -1)), ((240, 0), (0, -1)), ((0, 60), (-1, 0))]
    sights = [
        Sight(at=Point(100, 0) if b else Point(0, 30), seen=truth.apply(Point(*at)), across=Vector(a, b))
        for at, (a, b) in touches
    ]
    fit = fitted(sights, Model.RIGID)
    assert fit.map.apply(Point(260, 110)) == pytest.approx(truth.apply(Point(260, 110)), abs=1e-8)


@pytest.mark.few(1)
@pytest.mark.parametrize("model", list(Model))
def test_the_stated_error_is_the_error_found(model) -> None:
    """2,000 pieces with a scatter of 0.03 mm: how far a far corner is out, against what the covariance says."""
    rng = np.random.default_rng(3)
    panel = np.array(CORNERS, dtype=float)
    fit = fitted(seen(CORNERS, CORNERS), model)
    corner = Point(0.0, 0.0)
    off = np.empty((2000, 2))
    for piece in range(len(off)):
        bed = panel + rng.normal(0.0, 0.03, panel.shape)
        off[piece] = fitted(seen(panel, bed), model).map.apply(corner)
    worst = math.sqrt(np.linalg.eigvalsh(np.cov(off.T))[-1])
    assert worst == pytest.approx(0.03 * fit.deviation_at(corner), rel=0.06)


def test_the_circle_that_holds_95_in_100() -> None:
    rng = np.random.default_rng(1)
    far = np.hypot(*rng.normal(0, 1, (2, 200_000)))
    assert np.mean(far < SURE) == pytest.approx(0.95, abs=0.002)


@pytest.mark.parametrize(
    ("panel", "model"),
    [
        ([(0, 0)], Model.RIGID),
        ([(5, 5), (5, 5)], Model.RIGID),
        ([(0, 0), (10, 10)], Model.AFFINE),
        ([(0, 0), (10, 0), (20, 0), (30, 0)], Model.AFFINE),
    ],
)
def test_what_leaves_the_map_open_is_refused(panel, model) -> None:
    with pytest.raises(TooFewError):
        fitted(seen(panel, panel), model)


def test_parallel_edges_leave_the_panel_free_to_slide() -> None:
    down, up = Vector(0, -1), Vector(0, 1)
    sights = [
        Sight(at=Point(0, 0), seen=Point(0, 0), across=down),
        Sight(at=Point(0, 0), seen=Point(90, 0), across=down),
        Sight(at=Point(0, 50), seen=Point(30, 50), across=up),
    ]
    with pytest.raises(TooFewError, match="do not determine"):
        fitted(sights, Model.RIGID)


def test_a_mirror_image_is_never_fitted_but_told() -> None:
    bed = [(-x, y) for x, y in CORNERS]
    assert fitted(seen(CORNERS, bed), Model.RIGID).rms > 80
    flipped = mirrored_fit(seen(CORNERS, bed))
    assert flipped is not None
    assert flipped.area < 0
    assert flipped.apply(Point(295, 5)) == pytest.approx((-295, 5), abs=1e-9)


def test_a_map_and_its_inverse() -> None:
    one = Affine(1.001, 0.02, -0.03, 0.998, 12.0, -7.0)
    assert one.then(one.inverse()).matrix == pytest.approx((1, 0, 0, 1, 0, 0), abs=1e-12)
    assert one.inverse().apply(one.apply(Point(33, 44))) == pytest.approx((33, 44))
    with pytest.raises(ValueError, match="no area"):
        Affine(1.0, 1.0, 1.0, 1.0)
