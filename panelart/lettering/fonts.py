"""Fonts: one opened face, its glyphs as curves in font units, and the true height of its capitals.

Fonts come from the package's own `fonts/` or from a file that the spec names; never from the system.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache, lru_cache
from pathlib import Path

import uharfbuzz as hb

from panelart.geometry import Box, Line, Point
from panelart.lettering.outline import Cubic, Curve, Loop, Shape, bounds

OWN_FONTS = {
    "plain": "PanelartPlain-Regular.ttf",
    "plain-bold": "PanelartPlain-Bold.ttf",
    "plain-narrow": "PanelartPlain-Narrow.ttf",
}
"""The names a spec may use, and the file that each stands for."""

_FEATURES = {"kern": True, "liga": False, "clig": False}


class MissingGlyphError(Exception):
    """The font has no glyph for a character; there is no substitute."""

    def __init__(self, character: str, font: str) -> None:
        self.character = character
        self.font = font
        super().__init__(f"font '{font}' has no glyph for '{character}' (U+{ord(character):04X})")


class UnknownFontError(Exception):
    """No font of that name, or the file is not a font."""


@dataclass(frozen=True, slots=True)
class Glyph:
    """One shaped glyph: its number in the font and where its origin stands, in font units."""

    number: int
    x: float
    y: float


@dataclass(frozen=True, slots=True, eq=False)
class Font:
    """An opened face. `cap_units` is the height of the drawn H in font units, measured on its outline."""

    name: str
    face: hb.Font = field(repr=False)
    cap_units: float
    _drawn: dict[int, Shape] = field(default_factory=dict, repr=False)
    _boxes: dict[int, Box | None] = field(default_factory=dict, repr=False)

    @staticmethod
    def from_bytes(name: str, data: bytes) -> Font:
        """Open a TrueType or CFF font. Raises UnknownFontError when it is none, or has no H to measure."""
        face = hb.Face(data)
        if face.upem <= 0 or face.glyph_count == 0:
            raise UnknownFontError(f"'{name}' is not a TrueType or OpenType font")
        font = hb.Font(face)
        h = font.get_nominal_glyph(ord("H"))
        if h is None:
            raise UnknownFontError(f"font '{name}' has no H, so the height of its capitals cannot be measured")
        return Font(name, font, bounds(_draw(font, h)).height)

    def shape(self, line: str) -> tuple[tuple[Glyph, ...], float]:
        """One line of text as glyphs with kerning, and its advance, in font units.

        Raises MissingGlyphError naming the first character that the font lacks.
        """
        for character in line:
            if self.face.get_nominal_glyph(ord(character)) is None:
                raise MissingGlyphError(character, self.name)
        buffer = hb.Buffer()
        buffer.add_str(line)
        buffer.guess_segment_properties()
        hb.shape(self.face, buffer, _FEATURES)
        glyphs: list[Glyph] = []
        x = 0.0
        for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
            glyphs.append(Glyph(info.codepoint, x + position.x_offset, float(position.y_offset)))
            x += position.x_advance
        return tuple(glyphs), x

    def outline(self, number: int) -> Shape:
        """A glyph's loops in font units, drawn once and kept."""
        if number not in self._drawn:
            self._drawn[number] = _draw(self.face, number)
        return self._drawn[number]

    def box(self, number: int) -> Box | None:
        """The bounds of a glyph's ink in font units, None where it has none."""
        if number not in self._boxes:
            shape = self.outline(number)
            self._boxes[number] = bounds(shape) if shape else None
        return self._boxes[number]


@lru_cache(maxsize=32)
def open_font(name: str) -> Font:
    """One of our own fonts by name, or a font file by path. Raises UnknownFontError."""
    path = fonts_folder() / "built" / OWN_FONTS[name] if name in OWN_FONTS else Path(name)
    try:
        data = path.read_bytes()
    except OSError as error:
        accepted = ", ".join(OWN_FONTS)
        raise UnknownFontError(f"no font '{name}': use one of {accepted}, or the path of a font file") from error
    return Font.from_bytes(name, data)


@cache
def fonts_folder() -> Path:
    """Where our own fonts are: inside the installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "fonts"
    return inside if inside.is_dir() else package.parent / "fonts"


class _Pen:
    """Receives a glyph's curves and keeps them as loops; quadratics become cubics exactly."""

    def __init__(self) -> None:
        self.loops: list[Loop] = []
        self.curves: list[Curve] = []
        self.here = Point(0.0, 0.0)
        self.begun = self.here

    def move(self, x: float, y: float, _: object) -> None:
        self.here = self.begun = Point(x, y)

    def line(self, x: float, y: float, _: object) -> None:
        there = Point(x, y)
        if there != self.here:
            self.curves.append(Line(self.here, there))
            self.here = there

    def quadratic(self, cx: float, cy: float, x: float, y: float, _: object) -> None:
        a, b = self.here, Point(x, y)
        first = Point(a.x + 2 / 3 * (cx - a.x), a.y + 2 / 3 * (cy - a.y))
        second = Point(b.x + 2 / 3 * (cx - b.x), b.y + 2 / 3 * (cy - b.y))
        self.curves.append(Cubic(a, first, second, b))
        self.here = b

    def cubic(self, ax: float, ay: float, bx: float, by: float, x: float, y: float, _: object) -> None:
        there = Point(x, y)
        self.curves.append(Cubic(self.here, Point(ax, ay), Point(bx, by), there))
        self.here = there

    def close(self, _: object) -> None:
        self.line(self.begun.x, self.begun.y, None)
        if self.curves:
            self.loops.append(Loop(tuple(self.curves)))
        self.curves = []


def _draw(font: hb.Font, number: int) -> Shape:
    pen = _Pen()
    functions = hb.DrawFuncs()
    functions.set_move_to_func(pen.move)
    functions.set_line_to_func(pen.line)
    functions.set_quadratic_to_func(pen.quadratic)
    functions.set_cubic_to_func(pen.cubic)
    functions.set_close_path_func(pen.close)
    font.draw_glyph(number, functions, None)
    return tuple(pen.loops)
