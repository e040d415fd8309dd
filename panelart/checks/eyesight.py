"""What an eye makes of ink: blur, light, contrast and noise, each by a published figure.

The model is that of template matching: the eye's image is the ink blurred by a Gaussian, with noise in it, and of all
characters that could stand there the reader takes the one whose own blurred image is nearest. Blur and noise are in
units of what the reader resolves, so that a letter of five times that is at the limit for every reader, which is what
acuity means. A published model of the kind is that of Watson and Ahumada, Journal of Vision 8(4):17 (2008).
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from panelart.checks.bodies import Numbers
from panelart.checks.colours import contrast_percent, luminance
from panelart.checks.shadows import Eye
from panelart.geometry import Point
from panelart.model.panel import Sight

ARCMIN: Final = math.radians(1.0 / 60.0)

BLUR: Final = 1.2
"""Standard deviation of the blur over the resolved angle (from memory): about a quarter of the smallest letter read.

An eye of acuity 1 so passes a tenth of the contrast at 0.29 periods a minute of arc, one and a half a letter.
"""

NOISE: Final = 0.2
"""Of the contrast, in what the eye sees of the square of the resolved angle.

Found so that of the ten letters of Sloan, five times the resolved angle high, black on white, 55 percent are read:
half way from guessing to all, where a chart's last line is. tests/checks/test_eyesight.py finds it anew.
"""

BOTH_EYES: Final = math.sqrt(2.0)
"""How much more noise one eye has than two: Campbell and Green, Nature 208 (1965), from memory."""

SLIP: Final = 1.0
"""How far sideways, over the resolved angle, a letter may lie from where it would be expected."""

CHART: Final = 160.0
"""Luminance at which acuity is measured, cd/m² (ISO 8596, 80 to 320, from memory)."""

HALF_LIGHT_AGE: Final = (20.0, 60.0, 3.0)
"""At the second age the retina has one third of the light that it has at the first.

Source: Weale, Retinal illumination and age, Trans. Illum. Eng. Soc. 26 (1961), as its abstract says.
"""


def luminance_of(colour: str, illuminance: float) -> float:
    """Luminance of a matt surface of a colour in light of so many lux, in cd/m²: E times reflectance over pi."""
    return illuminance * luminance(colour) / math.pi


def acuity_in(light: float) -> float:
    """Acuity of a young eye in a field of `light` cd/m², black on white.

    Source: Ikeda, Noda and Yamaguchi, acuity for Landolt rings as a function of contrast and adapting luminance, as a
    page of calculations prints it: L / (1.6293 C^-0.3234 (0.8034 C^-0.1876 + L^(1/4))^4), C in percent, here 100.
    """
    root = light**0.25
    return float(root**4 / (1.6293 * 100.0**-0.3234 * (0.8034 * 100.0**-0.1876 + root) ** 4)) if light > 0.0 else 0.0


def light_kept(age: float) -> float:
    """Light on the retina over that at 20 years of age, 1 below; falls by a constant share a year."""
    young, old, times = HALF_LIGHT_AGE
    return float(times ** (-max(age - young, 0.0) / (old - young)))


def resolved(sight: Sight, light: float) -> float:
    """The angle that a reader resolves in a field of `light` cd/m², minutes of arc.

    The acuity is as measured at the light of a chart; an older eye is as far from its best as a young one in the light
    that still reaches the older retina.
    """
    kept = light_kept(sight.age)
    share = acuity_in(light * kept) / acuity_in(CHART * kept)
    return 1.0 / (sight.acuity * share) if share > 0.0 else math.inf


def contrast(ink: str, ground: str) -> float:
    """Share of the lighter light that the darker lacks, 0 to 1."""
    return contrast_percent(ink, ground) / 100.0


def metric(eye: Eye, at: Point) -> Numbers:
    """The squared angle, in rad², that a small step on the face at a place covers: a 2 by 2 matrix, per mm²."""
    way = np.array([at.x - eye.x, at.y - eye.y, -eye.z])
    distance = math.sqrt(float(way @ way))
    flat = way[:2] / distance
    found: Numbers = (np.eye(2) - np.outer(flat, flat)) / distance**2
    return found


def taken_for(apart: float) -> float:
    """The chance that one of two characters is taken for the other, whose images are `apart` noise from each other.

    Half for 0: the normal distribution beyond half the distance.
    """
    return 0.5 * math.erfc(apart / 2.0 / math.sqrt(2.0))
