"""Words as open centre lines of our own face: what a cutter or a plotter follows, made of lines and arcs only."""

from __future__ import annotations

from panelart.geometry import Arc, Line, Point
from panelart.lettering.face.curves import Arc as PenArc
from panelart.lettering.outline import Loop, Shape
from panelart.lettering.skeleton import load


def centre_lines(text: str, at: Point, cap_height: float) -> Shape:
    """One line of text with its base line starting at a point; capitals `cap_height` mm high, pen width included.

    Raises NoSuchGlyph.
    """

    def here(x: float, y: float) -> Point:
        return Point(at.x + x, at.y + y)

    loops: list[Loop] = []
    for stroke in load("regular").strokes(text, cap_height):
        curves: list[Line | Arc] = []
        for piece in stroke.pieces:
            if isinstance(piece, PenArc):
                curves.append(Arc(here(*piece.centre), piece.radius, piece.start_deg, piece.sweep_deg))
            else:
                curves.append(Line(here(*piece.start), here(*piece.end)))
        loops.append(Loop(tuple(curves), closed=False))
    return tuple(loops)
