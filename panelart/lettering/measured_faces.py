"""Our own fonts measured with the shaper, for the index that is built with the package."""

from __future__ import annotations

import io
import struct
from collections.abc import Iterable, Iterator
from typing import Any, Final

import numpy as np
import uharfbuzz as hb
from fontTools.ttLib import TTFont
from msgspec.structs import replace

from panelart.lettering.fonts import shaper_font
from panelart.lettering.own_faces import (
    CLOSE,
    FOLDER,
    KEPT,
    LINE,
    MOVE,
    NOT_KERNED,
    PLAIN,
    QUADRATIC,
    SYMBOLS,
    Measured,
    OwnFace,
)
from panelart.source.built import Row


def own_face_of_file(name: str) -> OwnFace:
    """One of our fonts as it is in its file, whatever the index knows."""
    return OwnFace.of(_measured(name))


def _rows() -> Iterator[Row]:
    for name, file in (PLAIN | SYMBOLS).items():
        yield name, f"{FOLDER}/{file}", _measured(name)


def _measured(name: str) -> Measured:
    font = shaper_font(name)
    face = font.face.face
    many = range(face.glyph_count)
    characters = "" if font.symbols else "".join(map(chr, sorted(face.unicodes)))
    boxes = [font.box(number) for number in many]
    sides = [(np.nan,) * 4 if box is None else (box.left, box.bottom, box.right, box.top) for box in boxes]
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
        boxes=np.array(sides, dtype="<f8").tobytes(),
        drawn=b"".join(drawn),
        starts=np.cumsum([0, *map(len, drawn)]).astype("<u4").tobytes(),
    )


class _Recorder:
    """Writes down the steps by which an outline is drawn."""

    def __init__(self) -> None:
        self.steps = bytearray()

    def note(self, step: int, *coordinates: float) -> None:
        self.steps.append(step)
        self.steps += struct.pack(f"<{len(coordinates)}h", *map(int, coordinates))


def _strokes(font: Any, number: int) -> bytes:
    functions = hb.DrawFuncs()
    recorder = _Recorder()
    functions.set_move_to_func(lambda x, y, to: to.note(MOVE, x, y))
    functions.set_line_to_func(lambda x, y, to: to.note(LINE, x, y))
    functions.set_quadratic_to_func(lambda cx, cy, x, y, to: to.note(QUADRATIC, cx, cy, x, y))
    functions.set_close_path_func(lambda to: to.note(CLOSE))
    font.draw_glyph(number, functions, recorder)
    return bytes(recorder.steps)


def _kerning(data: bytes, count: int) -> tuple[bytes, bytes, bytes]:
    """The classes of each glyph as first and second of a pair, and what pairs of classes are moved by."""
    font = TTFont(io.BytesIO(data))
    if "GPOS" not in font:
        return b"", b"", b""
    (lookup,) = font["GPOS"].table.LookupList.Lookup
    (pairs,) = lookup.SubTable
    order = font.getGlyphOrder()
    covered = frozenset(pairs.Coverage.glyphs)
    classes = pairs.ClassDef1.classDefs
    before = bytes(classes.get(name, 0) if name in covered else NOT_KERNED for name in order[:count])
    behind = bytes(pairs.ClassDef2.classDefs.get(name, 0) for name in order[:count])
    return before, behind, _matrix(pairs.Class1Record, max(behind) + 1)


def _matrix(records: Iterable[Any], columns: int) -> bytes:
    moved = [[record.Value1.XAdvance for record in row.Class2Record[:columns]] for row in records]
    return np.array(moved, dtype="<i2").tobytes()


BUILT: Final = replace(KEPT, make=_rows)
