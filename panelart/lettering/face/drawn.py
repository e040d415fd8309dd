"""A cut that is not built, drawn from the strokes as its letters are asked for: as the built ones in every figure.

A word takes a few glyphs and pairs of some nine hundred; only when a program wants the font itself, to embed it or to
shape what is not plain, is all of it written.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from panelart.geometry import Box
from panelart.lettering.cuts import Cut
from panelart.lettering.face.edges import UNITS, Contour, Edge
from panelart.lettering.face.expand import outline
from panelart.lettering.face.kerning import FORMS, alphabets, families, kern, keys_of
from panelart.lettering.own_faces import Pen, stands_alone
from panelart.lettering.skeleton import CAP_HEIGHT, Skeleton, load, load_symbols
from panelart.lettering.symbols import SYMBOLS, glyph_name

_EMPTY: Final = ".notdef"
"""What the first glyph of a font is called, which stands for none of ours."""


class DrawnFace:
    """One cut of letters, or of symbols, ready to set lines of plain characters, as `OwnFace`."""

    def __init__(self, cut: Cut, *, symbols: bool) -> None:
        self._strokes: Skeleton = load_symbols(cut.weight_name) if symbols else load(cut.name)
        self._keys = (_EMPTY, *(SYMBOLS if symbols else keys_of(self._strokes)))
        self._contours: dict[int, tuple[Contour, ...]] = {0: ()}
        self.cap_units = CAP_HEIGHT * UNITS
        numbered = tuple(enumerate(self._keys))[1:]
        self.numbers: Mapping[str, int] = {} if symbols else {key: at for at, key in numbered if len(key) == 1}
        self.names: Mapping[str, int] = {glyph_name(key): at for at, key in numbered} if symbols else {}

    def box(self, number: int) -> Box | None:
        """The bounds of a glyph's ink in font units, None where it has none."""
        edges = [edge for contour in self.contours(number) for edge in contour]
        if not edges:
            return None
        xs = [reach for edge in edges for reach in _reach(edge, 0)]
        ys = [reach for edge in edges for reach in _reach(edge, 1)]
        return Box(min(xs), min(ys), max(xs), max(ys))

    def sets(self, text: str) -> bool:
        """Whether a line is set by adding widths: every character has its glyph and stands for itself."""
        return all(letter in self.numbers and stands_alone(letter) for letter in text)

    def step(self, first: int, second: int) -> int:
        """How far it is from a glyph to the one after it."""
        return self.advance(first) + self._kern(first, second)

    def set(self, text: str) -> Iterator[tuple[int, int]]:
        """The glyph of each character and how far it is from there to the next one."""
        numbers = [self.numbers[letter] for letter in text]
        for number, following in zip(numbers, (*numbers[1:], None), strict=True):
            yield number, self.advance(number) if following is None else self.step(number, following)

    def draw(self, number: int, pen: Pen) -> None:
        """Draw a glyph's outline with a pen."""
        for contour in self.contours(number):
            pen.move(*map(float, contour[0].start))
            for edge in contour:
                if edge.control is None:
                    pen.line(*map(float, edge.end))
                else:
                    pen.quadratic(*map(float, (*edge.control, *edge.end)))
            pen.close()

    def contours(self, number: int) -> tuple[Contour, ...]:
        """The outline of a glyph in whole font units."""
        if number not in self._contours:
            self._contours[number] = outline(self._strokes.glyph(self._keys[number]).strokes, UNITS)
        return self._contours[number]

    def advance(self, number: int) -> int:
        """How far it is from a glyph to whatever follows it, unless the two are kerned."""
        return round(self._strokes.glyph(self._keys[number]).advance * UNITS)

    def _kern(self, first: int, second: int) -> int:
        one, other = self._keys[first], self._keys[second]
        if self.names or one.endswith(FORMS) or other.endswith(FORMS):
            return 0
        return kern(self._strokes, self._strokes.base(one), self._strokes.base(other), self._alphabets)

    @cached_property
    def _alphabets(self) -> Mapping[str, frozenset[str]]:
        return alphabets(families(self._strokes, self._keys[1:]))


def _reach(edge: Edge, axis: int) -> Iterator[float]:
    """Where a piece of outline begins, ends and turns along an axis."""
    start, end = float(edge.start[axis]), float(edge.end[axis])
    yield from (start, end)
    if edge.control is None:
        return
    middle = float(edge.control[axis])
    bend = start - 2.0 * middle + end
    share = 0.0 if bend == 0.0 else (start - middle) / bend
    if 0.0 < share < 1.0:
        yield start + share * (2.0 * (middle - start) + share * bend)


@dataclass(frozen=True, eq=False)
class DrawnSource:
    """The font file of a cut, or of symbols, written when it is asked for."""

    cut: Cut
    face: DrawnFace
    symbols: bool

    @cached_property
    def whole(self) -> bytes:
        """All of it."""
        from panelart.lettering.face import symbols as signs  # fontTools takes long to load
        from panelart.lettering.face import truetype

        return signs.build(self.cut.weight_name) if self.symbols else truetype.build(load(self.cut.name))

    def alone(self, numbers: Iterable[int]) -> bytes:
        """The glyphs of these numbers, which keep them: some hundred times as fast as all of it."""
        from panelart.lettering.face import truetype

        asked = sorted({0, *numbers})
        return truetype.outlines_alone(
            {number: self.face.contours(number) for number in asked},
            {number: self.face.advance(number) for number in asked if number},
        )
