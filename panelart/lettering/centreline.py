"""Words and symbols as open centre lines of our own face: what a cutter or plotter follows, of lines and arcs only."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from panelart.geometry import Arc, Line, Point
from panelart.lettering.cuts import LIGHT, Cut, cut_of, is_symbols
from panelart.lettering.face.curves import Arc as PenArc
from panelart.lettering.face.curves import Spot, Stroke
from panelart.lettering.face.kerning import keys_of
from panelart.lettering.fonts import open_font
from panelart.lettering.motion import Motion, moved
from panelart.lettering.outline import Loop, Shape
from panelart.lettering.setting import Letter
from panelart.lettering.skeleton import CAP_HEIGHT, Skeleton, load, load_symbols
from panelart.lettering.symbols import SYMBOLS


def centre_lines(text: str, at: Point, cap_height: float, cut: Cut = LIGHT) -> Shape:
    """One line of text with its base line starting at a point; capitals `cap_height` mm high, pen width included.

    The pen is that of `cut`. Raises NoSuchGlyphError.
    """
    return _loops(load(cut.name).strokes(text, cap_height), at)


def symbol_centre_lines(symbol: str, at: Point, height: float) -> Shape:
    """A symbol whose square, `height` mm high, stands on a base line; it lies where the font of symbols draws it.

    Raises NoSuchGlyphError.
    """
    strokes = load_symbols().glyph(symbol).strokes
    return _loops((stroke.moved(Spot(0.0, 0.0), height / CAP_HEIGHT) for stroke in strokes), at)


def letter_lines(letter: Letter) -> tuple[tuple[Shape, float], ...] | None:
    """The centre lines of a set letter, where it is set, each pen's with its width in mm; None for others' fonts.

    A letter of our own fonts is drawn by a pen, so that a cutter of that width makes the letter itself; marks over a
    letter may have a finer one.
    """
    keys = _keys(letter.font)
    if keys is None or not 0 < letter.number <= len(keys):
        return None
    face = _face(letter.font)
    glyph = face.glyph(keys[letter.number - 1])
    scale = letter.scale * open_font(letter.font).cap_units / CAP_HEIGHT
    where = Motion(Point(letter.x, letter.y), letter.turn, scale)
    return tuple(
        (moved(_loops((stroke for stroke in glyph.strokes if stroke.pen == pen), Point(0.0, 0.0)), where), pen * scale)
        for pen in sorted({stroke.pen for stroke in glyph.strokes}, reverse=True)
    )


@cache
def _keys(font: str) -> tuple[str, ...] | None:
    """What the glyphs of one of our fonts are called in its source, by number from 1."""
    if is_symbols(font):
        return SYMBOLS
    cut = cut_of(font)
    if cut is None:
        return None
    return keys_of(load(cut.name))


@cache
def _face(font: str) -> Skeleton:
    cut = cut_of(font)
    assert cut is not None, "only our fonts have keys"
    return load_symbols(cut.weight_name) if is_symbols(font) else load(cut.name)


def _loops(strokes: Iterable[Stroke], at: Point) -> Shape:
    def here(x: float, y: float) -> Point:
        return Point(at.x + x, at.y + y)

    loops: list[Loop] = []
    for stroke in strokes:
        curves: list[Line | Arc] = []
        for piece in stroke.pieces:
            if isinstance(piece, PenArc):
                curves.append(Arc(here(*piece.centre), piece.radius, piece.start_deg, piece.sweep_deg))
            else:
                curves.append(Line(here(*piece.start), here(*piece.end)))
        loops.append(Loop(tuple(curves), closed=False))
    return tuple(loops)
