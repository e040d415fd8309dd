"""Words set in a font at a true cap height: outlines in millimetres, and the measures of their ink."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from panelart.geometry import Box, Line, Point, Transform
from panelart.lettering.fonts import Font, open_font
from panelart.lettering.outline import Cubic, Curve, Loop, Shape, bounds, transformed

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
class Setting:
    """Set words. The first line's base line starts at (0, 0); `box` bounds the ink, `cap_height` is in mm.

    `baselines` are the heights of the base lines, the first is 0. An empty box stands for words with no ink.
    """

    text: str
    font: str
    cap_height: float
    shape: Shape
    box: Box
    baselines: tuple[float, ...]

    def placed(self, at: Point, turn: float = 0.0) -> Shape:
        """The outlines with the first base line's start at `at`, turned about it by `turn` degrees."""
        motion = Transform.move(at.x, at.y)
        return transformed(self.shape, Transform.turn(turn).then(motion) if turn else motion)


@lru_cache(maxsize=4096)
def set_words(text: str, font_name: str, cap_height: float, align: Align = Align.CENTRE) -> Setting:
    """Set one or more lines (parted by line breaks) so that the drawn capitals are `cap_height` mm high.

    Raises MissingGlyphError and UnknownFontError, and ValueError when nothing in the text leaves ink.
    """
    font = open_font(font_name)
    scale = cap_height / font.cap_units
    lines = [_line(line, font, scale) for line in text.split("\n")]
    pitch = cap_height * _line_pitch(text)
    inked = [bounds(line) for line in lines if line]
    if not inked:
        raise ValueError("there is nothing to letter")
    left = min(box.left for box in inked)
    right = max(box.right for box in inked)
    loops: list[Loop] = []
    for number, line in enumerate(lines):
        if not line:
            continue
        box = bounds(line)
        shift = {
            Align.LEFT: left - box.left,
            Align.RIGHT: right - box.right,
            Align.CENTRE: (left + right - box.left - box.right) / 2,
        }[align]
        loops.extend(transformed(line, Transform.move(shift, -number * pitch)))
    shape = tuple(loops)
    baselines = tuple(-number * pitch for number in range(len(lines)))
    return Setting(text, font_name, cap_height, shape, bounds(shape), baselines)


def _line_pitch(text: str) -> float:
    if any(ord(letter) > 0x7F and letter.isupper() and _has_mark(letter) for letter in text):
        return LINE_PITCH_ACCENTS
    return LINE_PITCH_MIXED if any(letter.islower() for letter in text) else LINE_PITCH_CAPITALS


def _has_mark(letter: str) -> bool:
    import unicodedata

    return bool(unicodedata.decomposition(letter))


def _line(line: str, font: Font, scale: float) -> Shape:
    glyphs, _ = font.shape(line)
    return tuple(
        _scaled(loop, scale, glyph.x, glyph.y) for glyph in glyphs for loop in font.outline(glyph.number)
    )


def _scaled(loop: Loop, scale: float, dx: float, dy: float) -> Loop:
    def at(point: Point) -> Point:
        return Point((point.x + dx) * scale, (point.y + dy) * scale)

    curves: list[Curve] = []
    for curve in loop.curves:
        match curve:
            case Line(start=a, end=b):
                curves.append(Line(at(a), at(b)))
            case Cubic(start=a, first=c, second=d, end=b):
                curves.append(Cubic(at(a), at(c), at(d), at(b)))
            case _:
                raise TypeError("fonts draw lines and cubics only")
    return Loop(tuple(curves), loop.closed)
