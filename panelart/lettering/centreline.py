"""Words and symbols as open centre lines of our own face: what a cutter or plotter follows, of lines and arcs only."""

from __future__ import annotations

from collections.abc import Iterable

from panelart.geometry import Arc, Line, Point
from panelart.lettering.face.curves import Arc as PenArc
from panelart.lettering.face.curves import Spot, Stroke
from panelart.lettering.outline import Loop, Shape
from panelart.lettering.skeleton import CAP_HEIGHT, SOURCE, load


def centre_lines(text: str, at: Point, cap_height: float) -> Shape:
    """One line of text with its base line starting at a point; capitals `cap_height` mm high, pen width included.

    Raises NoSuchGlyphError.
    """
    return _loops(load("regular").strokes(text, cap_height), at)


def symbol_centre_lines(symbol: str, at: Point, height: float) -> Shape:
    """A symbol whose square, `height` mm high, stands on a base line; it lies where the font of symbols draws it.

    Raises NoSuchGlyphError.
    """
    strokes = load("regular", SOURCE / "symbols").glyph(symbol).strokes
    return _loops((stroke.moved(Spot(0.0, 0.0), height / CAP_HEIGHT) for stroke in strokes), at)


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
