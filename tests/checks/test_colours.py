"""Luminance, contrast and colour difference against figures printed elsewhere and against the library colorspacious."""

from __future__ import annotations

import numpy as np
import pytest

from panelart.checks.colours import (
    _SEEN,
    Eyes,
    _lab,
    ciede2000,
    contrast_percent,
    contrast_ratio,
    linear,
    luminance,
    seen_by,
)

colorspacious = pytest.importorskip("colorspacious", reason="colorspacious is the oracle here")
cspace_convert = colorspacious.cspace_convert
machado_et_al_2009_matrix = pytest.importorskip("colorspacious.cvd").machado_et_al_2009_matrix

COLOURS = ["#000000", "#FFFFFF", "#C03030", "#6A6A20", "#2B3036", "#F2A53A", "#6EC3D8", "#0000FF", "#123456"]


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        # WCAG 2 defines black on white as 21; a textbook page prints blue on white 8.59 and blue on red 2.15.
        ("#000000", "#FFFFFF", 21.0),
        ("#0000FF", "#FFFFFF", 8.59),
        ("#0000FF", "#FF0000", 2.15),
        # The lightest greys on white that pass 4.5 and 3, and the next ones, which fail.
        ("#767676", "#FFFFFF", 4.54),
        ("#777777", "#FFFFFF", 4.48),
        ("#949494", "#FFFFFF", 3.03),
        ("#959595", "#FFFFFF", 2.995),
    ],
)
def test_contrast_ratios_that_are_printed(one, other, ratio):
    assert contrast_ratio(one, other) == pytest.approx(ratio, abs=0.005)
    assert contrast_ratio(other, one) == contrast_ratio(one, other)


def test_contrast_of_reflectances():
    # ADAAG's form: of 80 and 24 percent, 70 is lost. Grey #E7E7E7 is near 80 percent, #878787 near 24.
    lighter, darker = luminance("#E7E7E7"), luminance("#878787")
    assert contrast_percent("#E7E7E7", "#878787") == pytest.approx(100 * (1 - darker / lighter))
    assert contrast_percent("#000000", "#000000") == 0.0


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        # Sharma, Wu and Dalal 2005, table 1: pairs 1, 2, 4, 7, 9, 11, 13, 17 to 21, as remembered.
        ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
        ((50, 3.1571, -77.2803), (50, 0, -82.7485), 2.8615),
        ((50, -1.3802, -84.2814), (50, 0, -82.7485), 1.0000),
        ((50, 0, 0), (50, -1, 2), 2.3669),
        ((50, 2.49, -0.001), (50, -2.49, 0.0009), 7.1792),
        ((50, 2.49, -0.001), (50, -2.49, 0.0011), 7.2195),
        ((50, -0.001, 2.49), (50, 0.0009, -2.49), 4.8045),
        ((50, 2.5, 0), (50, 0, -2.5), 4.3065),
        ((50, 2.5, 0), (73, 25, -18), 27.1492),
        ((50, 2.5, 0), (61, -5, 29), 22.8977),
        ((50, 2.5, 0), (56, -27, -3), 31.9030),
        ((50, 2.5, 0), (58, 24, 15), 19.4535),
    ],
)
def test_ciede2000_of_the_published_pairs(one, other, expected):
    assert ciede2000(one, other) == pytest.approx(expected, abs=5e-5)
    assert ciede2000(other, one) == pytest.approx(expected, abs=5e-5)


@pytest.mark.parametrize(
    ("eyes", "name"), [(Eyes.PROTAN, "protanomaly"), (Eyes.DEUTAN, "deuteranomaly"), (Eyes.TRITAN, "tritanomaly")]
)
def test_defects_of_colour_vision_are_those_of_colorspacious(eyes, name):
    matrix = machado_et_al_2009_matrix(name, 100)
    assert np.allclose(_SEEN[eyes], matrix, atol=1e-6)
    for colour in COLOURS:
        expected = np.clip(matrix @ np.array(linear(colour)), 0, 1)
        assert np.allclose(seen_by(colour, eyes), expected, atol=1e-9)


@pytest.mark.parametrize("colour", COLOURS)
def test_lightness_and_colour_are_those_of_colorspacious(colour):
    rgb = [int(colour[start : start + 2], 16) for start in (1, 3, 5)]
    assert np.allclose(linear(colour), cspace_convert(rgb, "sRGB255", "sRGB1-linear"), atol=1e-9)
    # colorspacious has the matrix of sRGB to more places than IEC 61966-2-1 prints.
    assert np.allclose(_lab(linear(colour)), cspace_convert(rgb, "sRGB255", "CIELab"), atol=0.05)
