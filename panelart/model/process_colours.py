"""The colours of four-colour presses, whose names belong to plates of the press in every PDF.

ISO 32000-1, 8.6.6.4: a Separation called Cyan, Magenta, Yellow or Black names the process colorant; programs differ in
whether capitals count. An ink of such a name, in any capitals, is therefore that colour and goes to its plate.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from panelart.model.light import lightness, linear

PROCESS_PLATES: Final[Mapping[str, str]] = {name.casefold(): name for name in ("Cyan", "Magenta", "Yellow", "Black")}
"""The plate by its name in small letters."""

_HUES: Final = {"Cyan": 233.0, "Magenta": 358.0, "Yellow": 93.0}
"""Hue angles in CIELAB, degrees: the solids of ISO 12647-2 on coated paper (55 -37 -50, 48 74 -3, 89 -5 93; memory)."""

HUE_APART: Final = 45.0
"""How far the hue of a colour on screen may be from that of the process colour whose name it has."""

BLACK_LIGHT: Final = 45.0
"""How light, in L*, a colour called black may be."""


def process_plate(name: str) -> str | None:
    """The plate of the press that an ink of this name goes to, None for a spot colour."""
    return PROCESS_PLATES.get(name.casefold())


def is_like(colour: str, plate: str) -> bool:
    """Whether a colour `#RRGGBB` can be meant by the process colour of a plate."""
    if plate == "Black":
        return lightness(colour) <= BLACK_LIGHT
    away = abs((_hue(colour) - _HUES[plate] + 180.0) % 360.0 - 180.0)
    return away <= HUE_APART


def _hue(colour: str) -> float:
    """The hue angle in CIELAB, degrees; IEC 61966-2-1 for the matrix, D65 white."""
    red, green, blue = linear(colour)
    x = (0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505
    y = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    z = (0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.0890
    fx, fy, fz = (_root(value) for value in (x, y, z))
    return math.degrees(math.atan2(200.0 * (fy - fz), 500.0 * (fx - fy))) % 360.0


def _root(value: float) -> float:
    return float(value ** (1.0 / 3.0)) if value > (6.0 / 29.0) ** 3 else value * (29.0 / 6.0) ** 2 / 3.0 + 4.0 / 29.0
