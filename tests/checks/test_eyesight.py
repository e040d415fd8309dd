"""The reader's eye against figures that others published: charts, illumination, contrast, letters that are confused."""

from __future__ import annotations

import string

import numpy as np
import pytest
import shapely
from scipy.special import j1
from shapely import affinity

from panelart.checks import eyesight, spectra
from panelart.checks.shadows import Eye
from panelart.geometry import Point
from panelart.lettering.fonts import open_font
from panelart.model.panel import Sight
from tests.benchmarks import confusability

WHITE_PAPER = 0.8
"""Reflectance of paper, common practice."""


# --- the letters of a chart, drawn here on Sloan's grid: five units high and wide, strokes one unit


def _ring(x, y, outer):
    middle = shapely.Point(x, y)
    return middle.buffer(outer, 64) - middle.buffer(outer - 1, 64)


def _sloan():
    bar = shapely.box
    poly = shapely.Polygon
    big = _ring(2.5, 2.5, 2.5)
    s = shapely.union_all(
        [
            _ring(1.5, 3.5, 1.5) & bar(-1, 2, 1.5, 6),
            _ring(3.5, 1.5, 1.5) & bar(3.5, -1, 6, 3),
            bar(1.5, 4, 3.5, 5),
            bar(1.5, 2, 3.5, 3),
            bar(1.5, 0, 3.5, 1),
            _ring(3.5, 3.5, 1.5) & bar(3.5, 3.7, 6, 6),
            _ring(1.5, 1.5, 1.5) & bar(-1, -1, 1.5, 1.3),
        ]
    )
    letters = {
        "C": big - bar(2.5, 2, 6, 3),
        "D": shapely.union_all([bar(0, 0, 1, 5), bar(1, 4, 2.5, 5), bar(1, 0, 2.5, 1), big & bar(2.5, 0, 5, 5)]),
        "H": shapely.union_all([bar(0, 0, 1, 5), bar(4, 0, 5, 5), bar(1, 2, 4, 3)]),
        "K": shapely.union_all(
            [
                bar(0, 0, 1, 5),
                poly([(1, 1.6), (3.6, 5), (5, 5), (1, 1.2)]),
                poly([(1.9, 2.6), (2.8, 3.4), (5, 0), (3.7, 0)]),
            ]
        ),
        "N": shapely.union_all([bar(0, 0, 1, 5), bar(4, 0, 5, 5), poly([(0, 5), (1.3, 5), (5, 0), (3.7, 0)])]),
        "O": big,
        "R": shapely.union_all(
            [
                bar(0, 0, 1, 5),
                bar(1, 4, 3.5, 5),
                bar(1, 2, 3.5, 3),
                _ring(3.5, 3.5, 1.5) & bar(3.5, 0, 6, 6),
                poly([(2.3, 2), (3.6, 2), (5, 0), (3.7, 0)]),
            ]
        ),
        "S": s,
        "V": poly([(0, 5), (1.1, 5), (2.5, 1.4), (3.9, 5), (5, 5), (3, 0), (2, 0)]),
        "Z": shapely.union_all([bar(0, 0, 5, 1), bar(0, 4, 5, 5), poly([(0, 1), (3.6, 4), (5, 4), (1.4, 1)])]),
    }
    small = {name: affinity.scale(ground, 0.2, 0.2, origin=(0, 0)) for name, ground in letters.items()}
    return {name: affinity.translate(ground, -0.5, -0.5) for name, ground in small.items()}


SLOAN = _sloan()
FIELD, COUNTS = spectra._field()
GLYPHS = {name: spectra.spectrum(ground, FIELD) for name, ground in SLOAN.items()}


def images(size, contrast=1.0, slip=0.0):
    """The ten letters as an eye has them: rows of independent numbers, each with noise of 1 times NOISE."""
    spread = eyesight.BLUR / size
    passed = np.exp(-2 * np.pi**2 * spread**2 * (FIELD**2).sum(1)) * np.sqrt(COUNTS) * size * contrast
    shown = np.array(list(GLYPHS.values())) * passed * np.exp(2j * np.pi * FIELD[:, 0] * slip / size)
    return np.concatenate([shown.real, shown.imag], axis=1)


def share_read(size, contrast=1.0, trials=3000):
    """Of the ten letters, shown with noise and matched with all ten at every slip, the share that is named right."""
    slips = np.linspace(-eyesight.SLIP, eyesight.SLIP, 9)
    known = np.concatenate([images(size, contrast, slip) for slip in slips])
    basis, _ = np.linalg.qr(known.T)
    known = known @ basis
    shown = images(size, contrast) @ basis
    rng = np.random.default_rng(7)
    right = 0.0
    for number, one in enumerate(shown):
        got = one + eyesight.NOISE * rng.standard_normal((trials, len(one)))
        far = (known**2).sum(1)[None] - 2 * got @ known.T
        right += (far.reshape(trials, len(slips), len(shown)).min(1).argmin(1) == number).mean()
    return right / len(shown)


def test_a_letter_of_five_times_what_is_resolved_is_at_the_limit_of_a_chart():
    """Half way from guessing (one in ten) to all: 55 percent."""
    assert share_read(5.0) == pytest.approx(0.55, abs=0.02)


def test_a_line_of_a_chart_more_or_less():
    """Two lines (0.2 log) up nearly all letters are read, two lines down hardly any (common practice of optometry)."""
    assert share_read(5.0 * 10**0.2) > 0.9
    assert share_read(5.0 * 10**-0.2) < 0.3


def test_letters_on_displays_in_the_field():
    """Smith, Letter size and legibility, Human Factors 21 (1979): of 300 displays and 2000 measures the mean height at
    the limit is 0.0019 rad, over 90 percent are read at 0.003 and virtually all at 0.007."""
    resolved = 1.0 / Sight().acuity * eyesight.ARCMIN
    assert eyesight.ARCMIN * 5.0 / Sight().acuity == pytest.approx(0.0019, rel=0.1)
    assert share_read(0.003 / resolved) > 0.9
    assert share_read(0.007 / resolved) > 0.999


@pytest.mark.full
def test_less_contrast_needs_larger_letters_as_measured():
    """Height at the limit goes with contrast to a power of -0.32 at best (Ikeda and others) and -0.53 (Howett, NBS
    Technical Note 1180, from memory)."""

    def limit(contrast):
        low, high = 4.0, 30.0
        for _ in range(8):
            middle = np.sqrt(low * high)
            low, high = (low, middle) if share_read(middle, contrast, 1500) > 0.55 else (middle, high)
        return np.sqrt(low * high)

    full = limit(1.0)
    powers = [np.log(limit(contrast) / full) / -np.log(contrast) for contrast in (0.5, 0.25, 0.1)]
    assert all(0.32 < power < 0.54 for power in powers)


def nearest(glyphs, size=6.0):
    """For each character the others, nearest first."""
    names = list(glyphs)
    rows = np.array(list(glyphs.values()))
    found = {}
    for name, glyph in glyphs.items():
        far = spectra.apart(glyph, rows, np.eye(2) * size**2, eyesight.BLUR, eyesight.SLIP)
        found[name] = [names[number] for number in np.argsort(far) if names[number] != name]
    return found


def test_round_letters_of_a_chart_are_the_hard_ones():
    """Am. J. Ophthalmology 116 (1993) 735: of 3,710 subjects C, O, S and D were harder than Z, N, H, V, R and K; Sloan
    letters by refractive error (OSA 2001): Z, V and N easy, C, O and D most difficult."""
    size = 5.0
    rows = np.array(list(GLYPHS.values()))
    least = {}
    for name, glyph in GLYPHS.items():
        far = np.sort(spectra.apart(glyph, rows, np.eye(2) * size**2, eyesight.BLUR, eyesight.SLIP))
        least[name] = far[1]
    assert np.mean([least[name] for name in "COSD"]) < 0.6 * np.mean([least[name] for name in "ZNHVRK"])
    assert max(least[name] for name in "COD") < min(least[name] for name in "ZVN")


@pytest.mark.parametrize("face", ["plain-medium", "plain-bold"])
def test_what_patients_say_for_a_letter_is_among_the_nearest(face):
    """Analysis of errors in letter acuity measurements (1996), 400 people: P for F, Y for V, F for P, H for N, N for
    H, O for D, B and R for E, P for R. Six are the nearest or the next of 25 other capitals. Those for E and R are only
    in the nearer half: the model compares ink and knows no strokes."""
    font = open_font(face)
    glyphs = {name: spectra.of_glyph(face, font.number(name), 0.0) for name in string.ascii_uppercase}
    near = nearest(glyphs)
    ranks = {pair: near[pair[0]].index(pair[1]) for pair in ("FP", "VY", "PF", "NH", "HN", "DO", "EB", "ER", "RP")}
    assert all(ranks[pair] <= 1 for pair in ("FP", "VY", "PF", "NH", "HN", "DO")), ranks
    assert all(ranks[pair] < 12 for pair in ("EB", "ER", "RP")), ranks


# --- light, age, place


def test_acuity_in_little_light():
    """Rice, Visual acuity with lights of different colors and intensities (1912): three quarters of daylight acuity at
    8 to 10 metre-candles, all of it from 40 to 50; below, acuity falls fast."""

    def acuity(lux):
        return eyesight.acuity_in(lux * WHITE_PAPER / np.pi)

    assert acuity(9) / acuity(45) == pytest.approx(0.75, abs=0.03)
    assert acuity(1) / acuity(45) < 0.5


def test_acuity_by_light_is_between_two_others():
    """log MAR per doubling of luminance between 40 and 600 cd/m²: 0.02, a letter of a line of five (Sheedy, Bailey and
    Raasch 1984); by Howett's power of -0.213 (from memory) 0.064."""
    doublings = np.log2(600 / 40)
    slope = np.log10(eyesight.acuity_in(600) / eyesight.acuity_in(40)) / doublings
    assert 0.02 < slope < 0.064


def test_light_in_an_older_eye():
    """Weale (1961): at 60 a third of what a retina has at 20."""
    assert eyesight.light_kept(60) / eyesight.light_kept(20) == pytest.approx(1 / 3)
    assert eyesight.light_kept(10) == 1.0


def test_the_acuity_that_is_stated_is_that_at_a_chart():
    for acuity, age in ((0.5, 20), (1.0, 60), (1.25, 80)):
        assert eyesight.resolved(Sight(acuity=acuity, age=age), eyesight.CHART) == pytest.approx(1 / acuity)
    dim = [eyesight.resolved(Sight(acuity=1.0, age=age), 1.0) for age in (20, 40, 60, 80)]
    assert dim == sorted(dim)
    assert eyesight.resolved(Sight(), 0.0) == np.inf


@pytest.mark.parametrize("eye", [(100, 50, 600), (350, 400, 500), (-200, -100, 300)])
def test_small_angles_against_the_angle_between_two_sight_lines(eye):
    at, step = np.array((80.0, 30.0, 0.0)), 0.01
    metric = eyesight.metric(Eye(*eye), Point(80, 30))
    for turn in np.radians((0, 30, 90, 135)):
        way = np.array((np.cos(turn), np.sin(turn)))
        one, other = at - np.array(eye), at + step * np.append(way, 0.0) - np.array(eye)
        crossed = np.linalg.norm(np.cross(one, other))
        expected = np.arctan2(crossed, one @ other) / step
        assert np.sqrt(way @ metric @ way) == pytest.approx(expected, rel=1e-4)


def test_a_label_seen_under_45_degrees_is_lower_by_the_sine():
    """NUREG-0700 Rev. 2, 11.1: apparent height is height times the sine of the angle to the face (from memory)."""
    level = eyesight.metric(Eye(0, 0, 500), Point(0, 0))
    slanting = eyesight.metric(Eye(0, 500 * np.sqrt(0.5), 500 * np.sqrt(0.5)), Point(0, 0))
    assert np.sqrt(slanting[1, 1] / level[1, 1]) == pytest.approx(np.sin(np.radians(45)))
    assert slanting[0, 0] == pytest.approx(level[0, 0])


# --- spectra


def test_the_spectrum_of_a_rectangle_and_of_a_disc():
    """A product of sines, and Bessel's function of the first order."""
    wide, high = 0.7, 0.4
    x, y = FIELD.T
    expected = wide * high * np.sinc(wide * x) * np.sinc(high * y)
    assert np.allclose(spectra.spectrum(shapely.box(-0.35, -0.2, 0.35, 0.2), FIELD), expected, atol=1e-12)
    radius = 0.3
    rho = np.maximum(np.hypot(x, y), 1e-9)
    expected = radius * j1(2 * np.pi * radius * rho) / rho
    found = spectra.spectrum(shapely.Point(0, 0).buffer(radius, 256), FIELD)
    assert np.allclose(found, expected, atol=2e-5)


def test_a_hole_is_taken_out_and_a_place_turns_the_phase():
    ring = shapely.Point(0.2, 0.1).buffer(0.4, 64) - shapely.Point(0.2, 0.1).buffer(0.2, 64)
    parts = [spectra.spectrum(shapely.Point(0, 0).buffer(radius, 64), FIELD) for radius in (0.4, 0.2)]
    moved = np.exp(-2j * np.pi * (FIELD @ (0.2, 0.1)))
    assert np.allclose(spectra.spectrum(ring, FIELD), (parts[0] - parts[1]) * moved, atol=1e-12)


@pytest.mark.few(6)
@pytest.mark.parametrize("pair", [*confusability.PAIRS, "69", "17", "EB", "HK"])
@pytest.mark.parametrize("face", ["Light", "Bold", "NarrowLight"])
def test_against_pictures_that_another_library_draws_and_blurs(face, pair):
    """FreeType paints, scipy blurs, pixels are subtracted: the benchmark of the face."""
    name = {"Light": "plain-light", "Bold": "plain-bold", "NarrowLight": "plain-light-narrow"}[face]
    drawn = confusability.Face(confusability.BUILT / f"PanelartPlain-{face}.ttf")
    pictures = [drawn.seen(character) for character in pair]
    # Pictures stand on whole pixels, a sixth of a minute: that is how well their greatest slip is known.
    near, far_off = (slipped(*pictures, step) for step in (1, -1))
    font = open_font(name)
    one, other = (spectra.of_glyph(name, font.number(character), 0.0) for character in pair)
    metric = np.eye(2) * confusability.CAP_ARCMIN**2

    def far(glyph, to):
        how = (metric, confusability.BLUR_ARCMIN, confusability.REACH_ARCMIN)
        return float(spectra.apart(glyph, np.array([to]), *how)[0])

    energy = far(one, np.zeros_like(one)) + far(other, np.zeros_like(other))
    assert 0.96 * near - 0.1 <= 100 * far(one, other) / energy <= 1.04 * far_off + 0.1


def slipped(one, other, steps):
    """`confusability.apart` with so many pixels more of slip."""
    reach = round(confusability.REACH_ARCMIN * confusability.FINE) + steps
    energy = float((one**2).sum() + (other**2).sum())
    shifted = (np.roll(other, by, axis=1) for by in range(-reach, reach + 1))
    return min(100 * float(((one - each) ** 2).sum()) / energy for each in shifted)


def test_ink_that_spreads_closes_what_is_open():
    """Spread ink makes 8 and B, 3 and 8 more alike."""
    font = open_font("plain-light")
    for pair in ("8B", "38"):
        far = []
        for spread in (0.0, 0.06):
            one, other = (spectra.of_glyph("plain-light", font.number(character), spread) for character in pair)
            own = spectra.apart(one, np.array([other, np.zeros_like(one)]), np.eye(2) * 64, 1.2, 1.0)
            far.append(own[0] / own[1])
        assert far[1] < far[0]


def test_one_of_two_that_are_alike_is_a_toss():
    assert eyesight.taken_for(0.0) == 0.5
    assert eyesight.taken_for(2 * 1.959964) == pytest.approx(0.025, abs=1e-6)  # the normal distribution's table
