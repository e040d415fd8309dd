"""Words set in a font at a true cap height: outlines in millimetres, and the measures of their ink."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from panelart.geometry import ORIGIN, Box, Line, Point, Vector, direction
from panelart.lettering.fonts import Font, Glyph, open_font
from panelart.lettering.outline import Cubic, Curve, Loop, Shape

LINE_PITCH_CAPITALS = 1.3
LINE_PITCH_MIXED = 1.5
LINE_PITCH_ACCENTS = 1.9
"""Base-line pitch over cap height: b3, b2 and b1 of DIN EN ISO 3098-0:1998-04, lettering type B (1.3, 1.5, 1.9)."""


class Align(Enum):
    """How the lines of a legend stand to each other."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class _Letter:
    """A glyph on its line: its number in the font, and its origin in mm from the start of the first base line."""

    number: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Setting:
    """Set words. The first line's base line starts at (0, 0); `box` bounds the ink, `cap_height` is in mm.

    `baselines` are the heights of the base lines, the first is 0.
    """

    text: str
    font: str
    cap_height: float
    box: Box
    baselines: tuple[float, ...]
    letters: tuple[_Letter, ...]

    def placed(self, at: Point, turn: float = 0.0) -> Shape:
        """The outlines with the first base line's start at `at`, turned about it by `turn` degrees."""
        font = open_font(self.font)
        scale = self.cap_height / font.cap_units
        along, across = direction(turn).scaled(scale), direction(turn + 90.0).scaled(scale)
        loops: list[Loop] = []
        for letter in self.letters:
            dx, dy = letter.x / scale, letter.y / scale

            def here(point: Point, dx: float = dx, dy: float = dy) -> Point:
                x, y = point.x + dx, point.y + dy
                return Point(at.x + x * along.x + y * across.x, at.y + x * along.y + y * across.y)

            loops += [_moved(loop, here) for loop in font.outline(letter.number)]
        return tuple(loops)

    @property
    def shape(self) -> Shape:
        """The outlines where they were set."""
        return self.placed(ORIGIN)


@lru_cache(maxsize=4096)
def set_words(text: str, font_name: str, cap_height: float, align: Align = Align.CENTRE) -> Setting:
    """Set one or more lines (parted by line breaks) so that the drawn capitals are `cap_height` mm high.

    Raises MissingGlyphError and UnknownFontError, and ValueError when nothing in the text leaves ink.
    """
    font = open_font(font_name)
    scale = cap_height / font.cap_units
    lines = [_line(line, font, scale) for line in text.split("\n")]
    pitch = cap_height * _line_pitch(text)
    inked = [box for _, box in lines if box is not None]
    if not inked:
        raise ValueError("there is nothing to letter")
    left = min(box.left for box in inked)
    right = max(box.right for box in inked)
    letters: list[_Letter] = []
    boxes: list[Box] = []
    for number, (glyphs, box) in enumerate(lines):
        if box is None:
            continue
        shift = {
            Align.LEFT: left - box.left,
            Align.RIGHT: right - box.right,
            Align.CENTRE: (left + right - box.left - box.right) / 2,
        }[align]
        drop = -number * pitch
        letters += [_Letter(glyph.number, glyph.x * scale + shift, glyph.y * scale + drop) for glyph in glyphs]
        boxes.append(box.moved(Vector(shift, drop)))
    baselines = tuple(-number * pitch for number in range(len(lines)))
    return Setting(text, font_name, cap_height, Box.around(boxes), baselines, tuple(letters))


def _line_pitch(text: str) -> float:
    if any(ord(letter) > 0x7F and letter.isupper() and _has_mark(letter) for letter in text):
        return LINE_PITCH_ACCENTS
    return LINE_PITCH_MIXED if any(letter.islower() for letter in text) else LINE_PITCH_CAPITALS


def _has_mark(letter: str) -> bool:
    return bool(unicodedata.decomposition(letter))


def _line(line: str, font: Font, scale: float) -> tuple[tuple[Glyph, ...], Box | None]:
    """A line's glyphs in font units and the bounds of its ink in mm."""
    glyphs, _ = font.shape(line)
    boxes = [
        Box(
            (box.left + glyph.x) * scale,
            (box.bottom + glyph.y) * scale,
            (box.right + glyph.x) * scale,
            (box.top + glyph.y) * scale,
        )
        for glyph in glyphs
        if (box := font.box(glyph.number)) is not None
    ]
    return glyphs, Box.around(boxes) if boxes else None


def _moved(loop: Loop, here: Callable[[Point], Point]) -> Loop:
    curves: list[Curve] = []
    for curve in loop.curves:
        match curve:
            case Line(start=a, end=b):
                curves.append(Line(here(a), here(b)))
            case Cubic(start=a, first=c, second=d, end=b):
                curves.append(Cubic(here(a), here(c), here(d), here(b)))
            case _:
                raise TypeError("fonts draw lines and cubics only")
    return Loop(tuple(curves), loop.closed)
