"""The widths of glyphs, each measured once, and the weight of a face; a variable font brought to that of another."""

from __future__ import annotations

import math
import statistics
from functools import lru_cache
from typing import Final

from panelart.geometry import Point
from panelart.lettering.cuts import is_symbols
from panelart.lettering.fonts import MEASURED, Axis, Font, face_name, file_of, open_font, with_content
from panelart.lettering.glyph_widths import stored_widths
from panelart.lettering.medial import CHORD, Measured, ink, measured, stays_open
from panelart.lettering.motion import Motion, moved

_LARGEST: Final = 40.0
"""Glyphs wider or higher than so many cap heights are not measured: the longest ligatures of Arabic have about 15."""

_KNOWN: Final = 0.002
"""Of the cap height: so much a measured width may be off, and to so much it is rounded."""

_WELL_KNOWN: Final = 0.03
"""Finer widths than that are not rounded."""

_TELLING: Final = "HEnou"
"""Letters whose pens are those of a face."""

_WEIGHT: Final = "wght"
_STEPS: Final = 7
"""Halvings of the axis: to a hundredth of it."""


@lru_cache(maxsize=4096)
def glyph_measured(font_name: str, number: int) -> Measured:
    """The widths of one glyph over the cap height, measured on its outline."""
    font = open_font(font_name)
    box = font.box(number)
    if box is None or max(box.width, box.height) > _LARGEST * font.cap_units:
        return Measured(stroke=math.inf, gap=math.inf, pen=math.inf)
    outline = moved(font.outline(number), Motion(Point(0.0, 0.0), 0.0, 1.0 / font.cap_units))
    found = measured(outline)
    gap = found.gap
    if is_symbols(font_name) and not math.isinf(gap):
        # Nobody knows what a sign should be, as they do of a letter: a pocket between its strokes must not close.
        gap = stays_open(ink(outline, CHORD), gap)
    return Measured(stroke=_told(found.stroke), gap=_told(gap), pen=found.pen)


def _told(width: float) -> float:
    """A width as well as it is known: a stroke of 0.0997 is one of 0.1, and 0.25 mm at 2.5 mm."""
    return width if math.isinf(width) or width < _WELL_KNOWN else round(width / _KNOWN) * _KNOWN


def glyph_pen(font_name: str, number: int) -> float:
    """The width of a glyph's pen over the cap height; letters of our own are drawn with one."""
    kept = stored_widths(font_name).get(number)
    return glyph_measured(font_name, number).pen if kept is None else kept[0]


def face_pen(font_name: str, letters: str = _TELLING) -> float | None:
    """The width of a face's pen over its cap height, None for a face with none of the letters."""
    font = open_font(font_name)
    numbers = [number for letter in letters if (number := font.number(letter))]
    return statistics.median(glyph_pen(font_name, number) for number in numbers) if numbers else None


@lru_cache(maxsize=64)
def of_the_weight_of(font_name: str, main: str) -> str:
    """The instance of a variable font whose pen is as wide as that of the main font, as near as its axis goes.

    The font as it is where it is not variable, where the spec says its weight, and where either has no letter that
    tells it.
    """
    font = open_font(font_name)
    if font.own is not None:
        return font_name
    axis = next((axis for axis in font.axes if axis.tag == _WEIGHT), None)
    wanted = face_pen(main)
    if axis is None or wanted is None or _WEIGHT in dict(font.instance):
        return font_name
    letters = _TELLING if face_pen(font_name) is not None else MEASURED
    return _named(font, _weight(font, axis, wanted, letters))


def _weight(font: Font, axis: Axis, wanted: float, letters: str) -> float:
    low, high = axis.minimum, axis.maximum
    for _ in range(_STEPS):
        middle = (low + high) / 2
        pen = face_pen(_named(font, middle), letters)
        low, high = (middle, high) if pen is not None and pen < wanted else (low, middle)
    return float(round((low + high) / 2))


def _named(font: Font, weight: float) -> str:
    """The name of a font at a weight, with what is in its file if its own name has that."""
    whole, content = file_of(font.name), font.name != file_of(font.name)
    name = face_name(whole, {_WEIGHT: weight})
    return with_content(name, font.data) if content else name
