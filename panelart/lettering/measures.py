"""The thinnest stroke and the narrowest gap of set words, and the heights of a font's letters.

Strokes, and gaps within letters, are measured along the middle of each (`medial.py`), those of a glyph once for all its
sizes. The gap between two letters is the smallest distance that their outlines keep to each other, or less, over two
widths of the pen: where a corner comes near a stroke, as between r and y, the ink that could join them is as small as
kerning makes it, and not the row of them that two stems side by side would lose.
"""

from __future__ import annotations

import math
import struct
from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from itertools import pairwise, product
from typing import Any, Final

import shapely

from panelart.canonical import Struct
from panelart.geometry import Box, Point
from panelart.lettering.flat import flattened
from panelart.lettering.fonts import Font, open_font
from panelart.lettering.glyph_widths import stored_widths
from panelart.lettering.medial import CHORD, Standing, between, ink, stood
from panelart.lettering.motion import Motion, moved
from panelart.lettering.outline import bounds
from panelart.lettering.own_faces import FOLDER, PLAIN, own_face
from panelart.lettering.pens import glyph_measured, glyph_pen
from panelart.lettering.setting import Letter, Setting
from panelart.source.built import Row, Table

_DECIMALS: Final = 3
"""To so many decimals of a font unit the places of letters to each other are told apart."""


class Widths(Struct, frozen=True, kw_only=True):
    """The thinnest stroke of ink and the narrowest gap in it, in mm or as shares of the cap height; inf for none."""

    stroke: float
    gap: float

    def scaled(self, by: float) -> Widths:
        """The widths at another size."""
        return Widths(stroke=self.stroke * by, gap=self.gap * by)

    def minimum(self, other: Widths) -> Widths:
        """The narrower of each."""
        return Widths(stroke=min(self.stroke, other.stroke), gap=min(self.gap, other.gap))


NONE: Final = Widths(stroke=math.inf, gap=math.inf)


class Heights(Struct, frozen=True, kw_only=True):
    """Heights of a font's letters over its cap height; None for what it does not have."""

    figures: float | None
    small: float | None
    ascender: float | None
    descender: float | None


def heights(font: Font) -> Heights:
    """Measured on the outlines of 1, x, l and p (tail), all flat at the ends that count in most faces."""
    number = font.number("p")
    tail = None if number is None else font.box(number)
    return Heights(
        figures=font.height_of("1"),
        small=font.height_of("x"),
        ascender=font.height_of("l"),
        descender=None if tail is None else -tail.bottom / font.cap_units,
    )


def widths(setting: Setting) -> Widths:
    """The thinnest stroke and the narrowest gap of words as they are set, in mm, before any field is taken off.

    For words left out of a field the strokes are what stays bare, and the gaps the ink between.
    """
    found = NONE
    for letter in setting.letters:
        found = found.minimum(_glyph_widths(letter.font, letter.number).scaled(_size(letter)))
    inked = _inked(setting)
    found = found.minimum(Widths(stroke=math.inf, gap=_narrowest(inked, found.gap)))
    for loop in setting.strokes:
        box = bounds((loop,))
        bar = shapely.Polygon(flattened(loop))
        under = [_ground(letter) for letter in inked if _span_meets(letter, box)]
        gap = min((float(shapely.distance(bar, ground)) for ground in under), default=math.inf)
        found = found.minimum(Widths(stroke=_bar_width(loop_area=bar), gap=gap))
    return found


def gap_within(setting: Setting) -> float:
    """The narrowest gap inside one letter, in mm, which no letter spacing widens; inf for none."""
    return min((_glyph_widths(each.font, each.number).gap * _size(each) for each in setting.letters), default=math.inf)


def gap_between(setting: Setting) -> float:
    """The narrowest gap between neighbouring letters, in mm; inf for none."""
    return _narrowest(_inked(setting), math.inf)


def smallest_cap_height(setting: Setting, *, stroke_minimum: float, gap_minimum: float) -> float:
    """The cap height from which on these words in this font keep both least widths, in mm."""
    found = widths(setting)
    return setting.cap_height * max(stroke_minimum / found.stroke, gap_minimum / found.gap)


def _inked(setting: Setting) -> list[Letter]:
    return [letter for letter in setting.letters if open_font(letter.font).box(letter.number) is not None]


def _narrowest(inked: list[Letter], known: float) -> float:
    """The narrowest gap between neighbours, or the one that is known where that is narrower."""
    for at_least, one, other in sorted(_with_least_gaps(inked), key=lambda pair: pair[0]):
        if at_least > known:
            break
        known = min(known, _apart(one, other))
    return known


def _size(letter: Letter) -> float:
    return letter.scale * open_font(letter.font).cap_units


def _bar_width(loop_area: Any) -> float:
    # A long strip, straight or bent: twice its area over its outline, less its ends, is its width.
    length = shapely.length(loop_area) / 2
    area = shapely.area(loop_area)
    return float((length - math.sqrt(max(length * length - 4 * area, 0.0))) / 2)


def _span_meets(letter: Letter, box: Box) -> bool:
    font = open_font(letter.font)
    ink = font.box(letter.number)
    if ink is None or letter.turn:
        return ink is not None
    return letter.x + ink.left * letter.scale < box.right and letter.x + ink.right * letter.scale > box.left


def _neighbours(letters: list[Letter]) -> list[tuple[Letter, Letter]]:
    """Letters next to each other, and a mark with the one after it: those one or two places apart on a line."""
    pairs = list(pairwise(letters))
    pairs += list(zip(letters, letters[2:], strict=False))
    return pairs


def _with_least_gaps(letters: list[Letter]) -> Iterator[tuple[float, Letter, Letter]]:
    """Neighbours with what is at least between them, as far as the boxes of their ink tell it."""
    for one, other in _neighbours(letters):
        first, second = _box(one), _box(other)
        apart = 0.0 if first is None or second is None else first.gap(second)
        yield apart - 2 * 10**-_DECIMALS * max(one.scale, other.scale), one, other


def _box(letter: Letter) -> Box | None:
    """The box of a letter's ink, None for one that is turned."""
    ink = open_font(letter.font).box(letter.number)
    if ink is None or letter.turn:
        return None
    x, y, scale = letter.x, letter.y, letter.scale
    return Box(x + ink.left * scale, y + ink.bottom * scale, x + ink.right * scale, y + ink.top * scale)


def _apart(one: Letter, other: Letter) -> float:
    """The gap between two letters; inf where they meet, since letters that join are one."""
    if one.font == other.font and one.scale == other.scale and not one.turn and not other.turn:
        scale = one.scale
        dx, dy = round((other.x - one.x) / scale, _DECIMALS), round((other.y - one.y) / scale, _DECIMALS)
        return _pair_gap(one.font, one.number, other.number, dx, dy) * scale
    size = max(_size(one), _size(other))
    first, second = (
        stood(
            shapely.transform(_ground(each), lambda p: p / size), glyph_pen(each.font, each.number) * _size(each) / size
        )
        for each in (one, other)
    )
    return between(first, second, (0.0, 0.0)) * size


@lru_cache(maxsize=8192)
def _pair_gap(font_name: str, one: int, other: int, dx: float, dy: float) -> float:
    """The gap between two glyphs of a font, the other's origin at (dx, dy), in font units."""
    own = own_face(font_name)
    if own is not None and dy == 0.0 and dx == own.step(one, other):
        kept = _kept_gaps(font_name).get((one, other))
        if kept is not None:
            return kept
    return _measured_gap(font_name, one, other, dx, dy)


_COMMON: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,:/+-"
"""Characters whose gaps to each other, as they follow each other in our own fonts, are kept in the index."""


@cache
def _kept_gaps(font_name: str) -> Mapping[tuple[int, int], float]:
    """The gaps between common glyphs in font units, by first and second; none where the index knows none."""
    own, kept = own_face(font_name), GAPS.get(font_name)
    if own is None or kept is None:
        return {}
    numbers = [own.numbers[letter] for letter in _COMMON]
    return dict(zip(product(numbers, numbers), struct.unpack(f"<{len(kept) // 8}d", kept), strict=True))


def _gap_rows() -> Iterator[Row]:
    from panelart.lettering.measured_faces import own_face_of_file  # it loads what a check does not need

    for name, file in PLAIN.items():
        own = own_face(name) or own_face_of_file(name)
        numbers = [own.numbers[letter] for letter in _COMMON]
        gaps = [
            _measured_gap(name, one, other, float(own.step(one, other)), 0.0)
            for one, other in product(numbers, numbers)
        ]
        yield name, f"{FOLDER}/{file}", struct.pack(f"<{len(gaps)}d", *gaps)


GAPS: Final = Table(
    name="gaps",
    type=bytes,
    code=tuple(
        f"lettering/{module}.py"
        for module in ("flat", "fonts", "measured_faces", "measures", "medial", "outline", "own_faces", "pens")
    ),
    make=_gap_rows,
)


def _measured_gap(font_name: str, one: int, other: int, dx: float, dy: float) -> float:
    units = open_font(font_name).cap_units
    first, second = _standing(font_name, one), _standing(font_name, other)
    return between(first, second, (dx / units, dy / units)) * units


@lru_cache(maxsize=2048)
def _standing(font_name: str, number: int) -> Standing:
    font = open_font(font_name)
    outline = moved(font.outline(number), Motion(Point(0.0, 0.0), 0.0, 1.0 / font.cap_units))
    return stood(ink(outline, CHORD), glyph_pen(font_name, number))


def _ground(letter: Letter) -> Any:
    motion = Motion(Point(letter.x, letter.y), letter.turn, letter.scale)
    return ink(moved(open_font(letter.font).outline(letter.number), motion), CHORD * _size(letter))


def _glyph_widths(font_name: str, number: int) -> Widths:
    """Of one glyph, over the cap height: as kept for fonts of our own, else measured."""
    kept = stored_widths(font_name).get(number)
    return measured_glyph(font_name, number) if kept is None else Widths(stroke=kept[0], gap=kept[1])


def measured_glyph(font_name: str, number: int) -> Widths:
    """The widths of one glyph over the cap height, measured on its outline."""
    found = glyph_measured(font_name, number)
    return Widths(stroke=found.stroke, gap=found.gap)
