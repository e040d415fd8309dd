"""What is measured on our own fonts, from the index that is built with the package: letters without a shaper.

Our fonts have kerning of pairs and nothing else that happens unasked, so that a line of plain characters is set by
adding widths. `tests/lettering/test_own_faces.py` holds all of it to what HarfBuzz says.
"""

from __future__ import annotations

import math
import struct
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Final, Protocol

from panelart.canonical import Struct
from panelart.geometry import Box
from panelart.lettering.cuts import NAMED, built
from panelart.source.built import Table

FOLDER: Final = "fonts/built"

PLAIN: Final = {
    cut.font: f"PanelartPlain-{'Narrow' if cut.width < 1.0 else ''}{cut.weight_name.capitalize()}.ttf" for cut in NAMED
}
"""Our fonts of letters that are built, by name, and the file of each."""

SYMBOLS: Final = {cut.symbols: f"PanelartSymbols-{cut.weight_name.capitalize()}.ttf" for cut in built()}
"""Our fonts of symbols that are built, whose glyphs are asked for by name."""

NOT_KERNED: Final = 255
MOVE, LINE, QUADRATIC, CLOSE = range(4)
_COORDINATES: Final = {MOVE: 2, LINE: 2, QUADRATIC: 4, CLOSE: 0}


class Pen(Protocol):
    """What draws an outline, step by step, in font units."""

    def move(self, x: float, y: float) -> None:
        """Begin a contour."""

    def line(self, x: float, y: float) -> None:
        """A straight line from where it stands."""

    def quadratic(self, control_x: float, control_y: float, x: float, y: float) -> None:
        """A curve with one control point."""

    def close(self) -> None:
        """End the contour."""


class Face(Protocol):
    """One of our fonts, built or drawn as it is asked for: lines of plain characters are set without a shaper."""

    @property
    def cap_units(self) -> float:
        """The height of the capitals, of symbols that of their square, in font units."""

    @property
    def numbers(self) -> Mapping[str, int]:
        """The glyph of each character."""

    @property
    def names(self) -> Mapping[str, int]:
        """The glyph of each symbol, by what it is called in the font."""

    def box(self, number: int) -> Box | None:
        """The bounds of a glyph's ink in font units, None where it has none."""

    def sets(self, text: str) -> bool:
        """Whether a line is set by adding widths."""

    def advance(self, number: int) -> int:
        """How far it is from a glyph to whatever follows it, unless the two are kerned."""

    def step(self, first: int, second: int) -> int:
        """How far it is from a glyph to the one after it."""

    def set(self, text: str) -> Iterator[tuple[int, int]]:
        """The glyph of each character and how far it is from there to the next one."""

    def draw(self, number: int, pen: Pen) -> None:
        """Draw a glyph's outline with a pen."""


class Measured(Struct, frozen=True, kw_only=True):
    """A font as it is kept, numbers packed in the order of the glyphs; in font units but for `widths`.

    `cap_units` is the height of the capitals, of symbols that of their square. `characters` are those the font has,
    `numbers` the glyph of each; `names` are the glyphs of a font of symbols. `before` and `behind` are the classes of a
    glyph as the first and as the second of a pair, `kerning` what each pair of classes is moved by. `boxes` are the
    sides of the ink, not a number where there is none. `drawn` is how each outline is drawn, `starts` where in it each
    begins.
    """

    cap_units: float
    characters: str
    numbers: bytes
    names: tuple[str, ...]
    advances: bytes
    before: bytes
    behind: bytes
    kerning: bytes
    boxes: bytes
    drawn: bytes
    starts: bytes


@dataclass(frozen=True, slots=True, eq=False)
class OwnFace:
    """One of our fonts, ready to set lines of plain characters."""

    cap_units: float
    numbers: Mapping[str, int]
    names: Mapping[str, int]
    _kept: Measured = field(repr=False)
    _advances: tuple[int, ...] = field(repr=False)

    @staticmethod
    def of(kept: Measured) -> OwnFace:
        """A face from what is kept of it."""
        numbers = struct.unpack(f"<{len(kept.characters)}H", kept.numbers)
        return OwnFace(
            cap_units=kept.cap_units,
            numbers=dict(zip(kept.characters, numbers, strict=True)),
            names={name: number for number, name in enumerate(kept.names)},
            _kept=kept,
            _advances=struct.unpack(f"<{len(kept.advances) // 2}h", kept.advances),
        )

    def box(self, number: int) -> Box | None:
        """The bounds of a glyph's ink in font units, None where it has none."""
        left, bottom, right, top = struct.unpack_from("<4d", self._kept.boxes, 32 * number)
        return None if math.isnan(left) else Box(left, bottom, right, top)

    def sets(self, text: str) -> bool:
        """Whether a line is set by adding widths: every character has its glyph and stands for itself."""
        return all(letter in self.numbers and stands_alone(letter) for letter in text)

    def advance(self, number: int) -> int:
        """How far it is from a glyph to whatever follows it, unless the two are kerned."""
        return self._advances[number]

    def step(self, first: int, second: int) -> int:
        """How far it is from a glyph to the one after it."""
        return self._advances[first] + self._kern(first, second)

    def set(self, text: str) -> Iterator[tuple[int, int]]:
        """The glyph of each character and how far it is from there to the next one."""
        numbers = [self.numbers[letter] for letter in text]
        for number, following in zip(numbers, (*numbers[1:], None), strict=True):
            yield number, self._advances[number] + (0 if following is None else self._kern(number, following))

    def _kern(self, first: int, second: int) -> int:
        kept = self._kept
        if not kept.kerning or kept.before[first] == NOT_KERNED:
            return 0
        columns = max(kept.behind) + 1
        moved: int = struct.unpack_from("<h", kept.kerning, 2 * (kept.before[first] * columns + kept.behind[second]))[0]
        return moved

    def draw(self, number: int, pen: Pen) -> None:
        """Draw a glyph's outline with a pen."""
        first, end = struct.unpack_from("<2I", self._kept.starts, 4 * number)
        drawn = self._kept.drawn
        steps = (pen.move, pen.line, pen.quadratic, pen.close)
        while first < end:
            step = drawn[first]
            count = _COORDINATES[step]
            steps[step](*map(float, struct.unpack_from(f"<{count}h", drawn, first + 1)))
            first += 1 + 2 * count


@cache
def stands_alone(letter: str) -> bool:
    """Whether a character is neither put onto the one before it nor unseen."""
    return unicodedata.category(letter)[0] not in "MC"


@cache
def own_face(name: str) -> OwnFace | None:
    """One of our fonts by name; None for another font, and when the index knows none that can be relied on."""
    kept: Measured | None = KEPT.get(name)
    return None if kept is None else OwnFace.of(kept)


KEPT: Final = Table(
    name="fonts",
    type=Measured,
    code=(
        "lettering/cuts.py",
        "lettering/own_faces.py",
        "lettering/measured_faces.py",
        "lettering/fonts.py",
        "lettering/outline.py",
    ),
)
"""What is kept; `measured_faces.py` makes its rows, with the shaper."""
