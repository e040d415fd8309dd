"""Colours as the eye has them: luminance, contrast, and how far apart two colours look to different eyes.

Colours are `#RRGGBB` in sRGB. What is shown on screen is taken for what is printed: a measured reflectance would be
better and is not known here.
"""

from __future__ import annotations

import math
from enum import Enum
from typing import Final

from panelart.model.light import Triple, linear, luminance

__all__ = ["Eyes", "ciede2000", "contrast_percent", "contrast_ratio", "difference", "linear", "luminance", "seen_by"]


class Eyes(Enum):
    """How people see colours; the deficiencies are the complete forms."""

    COMMON = "normal"
    PROTAN = "protanopia"
    DEUTAN = "deuteranopia"
    TRITAN = "tritanopia"


# Machado, Oliveira and Fernandes 2009, severity 1.0, on linear sRGB; compared with the library colorspacious in tests.
_SEEN: Final[dict[Eyes, tuple[Triple, Triple, Triple]]] = {
    Eyes.COMMON: ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    Eyes.PROTAN: (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    Eyes.DEUTAN: (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    Eyes.TRITAN: (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}

# IEC 61966-2-1: linear sRGB to CIE XYZ for the white point D65, and that white.
_XYZ: Final = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
_WHITE: Final = (0.95047, 1.0, 1.08883)


def contrast_ratio(one: str, other: str) -> float:
    """Contrast of two colours, 1 to 21: WCAG 2, (lighter + 0.05) / (darker + 0.05)."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def contrast_percent(one: str, other: str) -> float:
    """Contrast of two reflectances, 0 to 100: ADAAG (1991), A4.30.5, 100 (lighter - darker) / lighter."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return 100.0 * (lighter - darker) / lighter if lighter > 0.0 else 0.0


def seen_by(colour: str, eyes: Eyes) -> Triple:
    """Red, green and blue light that looks to normal colour vision as the colour looks to these eyes."""
    light = linear(colour)
    red, green, blue = (min(max(_dot(row, light), 0.0), 1.0) for row in _SEEN[eyes])
    return (red, green, blue)


def difference(one: str, other: str, eyes: Eyes = Eyes.COMMON) -> float:
    """How far apart two colours look: CIEDE2000, about 1 where a difference can just be seen."""
    return ciede2000(_lab(seen_by(one, eyes)), _lab(seen_by(other, eyes)))


def hue(colour: str) -> tuple[float, float]:
    """Hue angle in degrees and chroma of a colour in CIELAB; a chroma near 0 is a grey, whose hue says nothing."""
    _, a, b = _lab(linear(colour))
    return _hue(a, b), math.hypot(a, b)


def _lab(light: Triple) -> Triple:
    """CIELAB of linear sRGB light (CIE 15)."""
    x, y, z = (_root(_dot(row, light) / white) for row, white in zip(_XYZ, _WHITE, strict=True))
    return (116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z))


def _root(value: float) -> float:
    return float(value ** (1.0 / 3.0)) if value > (6.0 / 29.0) ** 3 else value * (29.0 / 6.0) ** 2 / 3.0 + 4.0 / 29.0


def _dot(row: Triple, light: Triple) -> float:
    return row[0] * light[0] + row[1] * light[1] + row[2] * light[2]


def ciede2000(one: Triple, other: Triple) -> float:
    """The colour difference of CIE 142 (2001) between two CIELAB colours, all weights 1."""
    (l1, a1, b1), (l2, a2, b2) = one, other
    chroma = (math.hypot(a1, b1) + math.hypot(a2, b2)) / 2.0
    stretch = 1.0 + 0.5 * (1.0 - math.sqrt(chroma**7 / (chroma**7 + 25.0**7)))
    c1, c2 = math.hypot(stretch * a1, b1), math.hypot(stretch * a2, b2)
    h1, h2 = _hue(stretch * a1, b1), _hue(stretch * a2, b2)
    turn = 0.0 if c1 * c2 == 0.0 else (h2 - h1 + 180.0) % 360.0 - 180.0
    along_l, along_c = l2 - l1, c2 - c1
    along_h = 2.0 * math.sqrt(c1 * c2) * math.sin(math.radians(turn / 2.0))
    mid_l, mid_c = (l1 + l2) / 2.0, (c1 + c2) / 2.0
    if c1 * c2 == 0.0:
        mid_h = h1 + h2
    elif abs(h1 - h2) <= 180.0:
        mid_h = (h1 + h2) / 2.0
    else:
        mid_h = (h1 + h2 + (360.0 if h1 + h2 < 360.0 else -360.0)) / 2.0
    tone = (
        1.0
        - 0.17 * _cos(mid_h - 30.0)
        + 0.24 * _cos(2.0 * mid_h)
        + 0.32 * _cos(3.0 * mid_h + 6.0)
        - 0.20 * _cos(4.0 * mid_h - 63.0)
    )
    weight_l = 1.0 + 0.015 * (mid_l - 50.0) ** 2 / math.sqrt(20.0 + (mid_l - 50.0) ** 2)
    weight_c, weight_h = 1.0 + 0.045 * mid_c, 1.0 + 0.015 * mid_c * tone
    rotation = 60.0 * math.exp(-(((mid_h - 275.0) / 25.0) ** 2))
    cross = -2.0 * math.sqrt(mid_c**7 / (mid_c**7 + 25.0**7)) * math.sin(math.radians(rotation))
    l_, c_, h_ = along_l / weight_l, along_c / weight_c, along_h / weight_h
    return math.sqrt(l_ * l_ + c_ * c_ + h_ * h_ + cross * c_ * h_)


def _hue(a: float, b: float) -> float:
    return math.degrees(math.atan2(b, a)) % 360.0 if a or b else 0.0


def _cos(degrees: float) -> float:
    return math.cos(math.radians(degrees))
