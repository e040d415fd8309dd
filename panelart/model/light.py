"""How light a colour is. Colours are `#RRGGBB` in sRGB: what is shown on screen stands for what is printed."""

from __future__ import annotations

from typing import TypeAlias

Triple: TypeAlias = tuple[float, float, float]


def linear(colour: str) -> Triple:
    """Red, green and blue light of a colour, 0 to 1."""
    red, green, blue = (int(colour[start : start + 2], 16) / 255.0 for start in (1, 3, 5))
    return (_light(red), _light(green), _light(blue))


def _light(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


def luminance(colour: str) -> float:
    """Relative luminance, 0 (black) to 1 (white): WCAG 2, definition of relative luminance."""
    red, green, blue = linear(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def lightness(colour: str) -> float:
    """L* of CIELAB, 0 (black) to 100 (white): CIE 15."""
    light = luminance(colour)
    root = light ** (1.0 / 3.0) if light > (6.0 / 29.0) ** 3 else light * (29.0 / 6.0) ** 2 / 3.0 + 4.0 / 29.0
    return 116.0 * float(root) - 16.0
