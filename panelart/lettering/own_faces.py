"""What is measured on our own fonts, from the index that is built with the package: letters without a shaper.

Our fonts have kerning of pairs and nothing else that happens unasked, so that a line of plain characters is set by
adding widths. `tests/lettering/test_own_faces.py` holds all of it to what HarfBuzz says.
"""

from __future__ import annotations

import math
import struct
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any, Final

from panelart.canonical import Struct
from panelart.geometry import Box
from panelart.source.built import Row, Table

if TYPE_CHECKING:
    from panelart.lettering.fonts import Pen

FOLDER: Final = "fonts/built"

PLAIN: Final = {
    "plain": "PanelartPlain-Regular.ttf",
    "plain-bold": "PanelartPlain-Bold.ttf",
    "plain-narrow": "PanelartPlain-Narrow.ttf",
}
"""Our fonts of letters by name, and the file of each."""

SYMBOLS: Final = {"symbols": "PanelartSymbols-Regular.ttf", "symbols-bold": "PanelartSymbols-Bold.ttf"}
"""Our fonts of symbols, whose glyphs are asked for by name."""

_NOT_KERNED: Final = 255
_MOVE, _LINE, _QUADRATIC, _CLOSE = range(4)
_COORDINATES: Final = {_MOVE: 2, _LINE: 2, _QUADRATIC: 4, _CLOSE: 0}


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
        return all(letter in self.numbers and _stands_alone(letter) for letter in text)

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
        if not kept.kerning or kept.before[first] == _NOT_KERNED:
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
def _stands_alone(letter: str) -> bool:
    """Whether a character is neither put onto the one before it nor unseen."""
    return unicodedata.category(letter)[0] not in "MC"


@cache
def own_face(name: str) -> OwnFace | None:
    """One of our fonts by name; None for another font, and when the index knows none that can be relied on."""
    kept: Measured | None = BUILT.get(name)
    return None if kept is None else OwnFace.of(kept)


# --- when the index is built


def own_face_of_file(name: str) -> OwnFace:
    """One of our fonts as it is in its file, whatever the index knows."""
    return OwnFace.of(_measured(name))


def _rows() -> Iterator[Row]:
    for name, file in (PLAIN | SYMBOLS).items():
        yield name, f"{FOLDER}/{file}", _measured(name)


def _measured(name: str) -> Measured:
    from itertools import accumulate

    from panelart.lettering.fonts import shaper_font

    font = shaper_font(name)
    face = font.face.face
    many = range(face.glyph_count)
    characters = "" if font.symbols else "".join(map(chr, sorted(face.unicodes)))
    boxes = [font.box(number) for number in many]
    sides = [(math.nan,) * 4 if box is None else (box.left, box.bottom, box.right, box.top) for box in boxes]
    drawn = [_strokes(font.face, number) for number in many]
    before, behind, kerning = _kerning(font.data, len(many))
    return Measured(
        cap_units=font.cap_units,
        characters=characters,
        numbers=struct.pack(f"<{len(characters)}H", *map(font.number, characters)),
        names=tuple(font.face.glyph_to_string(number) for number in many) if font.symbols else (),
        advances=struct.pack(f"<{len(many)}h", *map(font.face.get_glyph_h_advance, many)),
        before=before,
        behind=behind,
        kerning=kerning,
        boxes=b"".join(struct.pack("<4d", *four) for four in sides),
        drawn=b"".join(drawn),
        starts=struct.pack(f"<{len(drawn) + 1}I", 0, *accumulate(map(len, drawn))),
    )


class _Recorder:
    """Writes down the steps by which an outline is drawn."""

    def __init__(self) -> None:
        self.steps = bytearray()

    def note(self, step: int, *coordinates: float) -> None:
        self.steps.append(step)
        self.steps += struct.pack(f"<{len(coordinates)}h", *map(int, coordinates))


def _strokes(font: Any, number: int) -> bytes:
    import uharfbuzz as hb

    functions = hb.DrawFuncs()
    recorder = _Recorder()
    functions.set_move_to_func(lambda x, y, to: to.note(_MOVE, x, y))
    functions.set_line_to_func(lambda x, y, to: to.note(_LINE, x, y))
    functions.set_quadratic_to_func(lambda cx, cy, x, y, to: to.note(_QUADRATIC, cx, cy, x, y))
    functions.set_close_path_func(lambda to: to.note(_CLOSE))
    font.draw_glyph(number, functions, recorder)
    return bytes(recorder.steps)


def _kerning(data: bytes, count: int) -> tuple[bytes, bytes, bytes]:
    """The classes of each glyph as first and second of a pair, and what pairs of classes are moved by."""
    import io

    from fontTools.ttLib import TTFont

    font = TTFont(io.BytesIO(data))
    if "GPOS" not in font:
        return b"", b"", b""
    (lookup,) = font["GPOS"].table.LookupList.Lookup
    (pairs,) = lookup.SubTable
    order = font.getGlyphOrder()
    covered = frozenset(pairs.Coverage.glyphs)
    classes = pairs.ClassDef1.classDefs
    before = bytes(classes.get(name, 0) if name in covered else _NOT_KERNED for name in order[:count])
    behind = bytes(pairs.ClassDef2.classDefs.get(name, 0) for name in order[:count])
    return before, behind, _matrix(pairs.Class1Record, max(behind) + 1)


def _matrix(records: Iterable[Any], columns: int) -> bytes:
    moved = [[record.Value1.XAdvance for record in row.Class2Record[:columns]] for row in records]
    return b"".join(struct.pack(f"<{columns}h", *row) for row in moved)


BUILT: Final = Table(
    name="fonts",
    type=Measured,
    code=("lettering/own_faces.py", "lettering/fonts.py", "lettering/outline.py"),
    make=_rows,
)
