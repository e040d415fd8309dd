"""What is wrong with the bytes of a font file, before they are given to the shaper, which takes much for a font.

The form is that of OpenType 1.9.1, "The OpenType font file": a header, a directory of tables with places, lengths and
checksums, and the tables. All that is read here is bounded by the size of the file.
"""

from __future__ import annotations

import struct
from collections.abc import Mapping
from typing import Final

from panelart.canonical import Struct
from panelart.messages import Message
from panelart.messages import lettering as said

COLLECTION: Final = b"ttcf"

_FONTS: Final = frozenset({b"\x00\x01\x00\x00", b"OTTO", b"true"})
"""How a single font begins (OpenType 1.9.1, table directory, sfntVersion; `true` for fonts of Apple's)."""

_OTHER_FORMS: Final = (
    (b"wOFF", said.form_woff),
    (b"wOF2", said.form_woff),
    (b"PK\x03\x04", said.form_zip),
    (b"PK\x05\x06", said.form_zip),
    (b"\x1f\x8b", said.form_gzip),
    (b"%PDF", said.form_pdf),
    (b"%!", said.form_type_1),
    (b"\x80\x01", said.form_type_1),
    (b"\x89PNG", said.form_image),
    (b"\xff\xd8\xff", said.form_image),
    (b"GIF8", said.form_image),
    (b"version https://git-lfs", said.form_pointer),
)
"""How files begin that are met with under the name of a font."""

_PAGES: Final = (b"<!doctype html", b"<html", b"<?xml", b"<svg", b"<!--", b"<head")

_NEEDED: Final = ("cmap", "head", "hhea", "hmtx", "maxp")
"""Tables without which no text is set (OpenType 1.9.1, required tables; OS/2, name and post are not needed here)."""

_OUTLINES: Final = (("glyf", "loca"), ("CFF ",), ("CFF2",))
"""Tables that hold the outlines, any of which will do."""

_ENTRY: Final = struct.Struct(">4sLLL")
_HEADER: Final = 12
_MAGIC: Final = 0x5F0F3CF5
_ITSELF: Final = slice(8, 12)
"""Where the head table keeps a sum of the whole file, which is not in its own."""

_SHORTEST: Final = {"head": 54, "hhea": 36, "maxp": 6, "cmap": 4, "hmtx": 4}
"""Bytes that a table has at least (OpenType 1.9.1)."""


class _Table(Struct, frozen=True):
    start: int
    length: int
    checksum: int


def count_of_faces(data: bytes) -> int:
    """How many fonts a collection says it holds; 0 for a file that is no collection."""
    return int.from_bytes(data[8:12], "big") if data[:4] == COLLECTION else 0


def fault_of(data: bytes, font: str, index: int = 0) -> Message | None:
    """What is wrong with a font file, the font of this index in a collection; None where nothing is seen.

    `font` is the name by which it is told.
    """
    if not data:
        return said.font_empty(font=font)
    start = 0
    if data[:4] == COLLECTION:
        count = count_of_faces(data)
        if not 0 < count <= (len(data) - _HEADER) // 4:
            return said.font_cut_off_at_once(font=font, size=len(data))
        if index >= count:
            return said.no_face_of_collection(font=font, index=index, last=count - 1)
        start = int.from_bytes(data[_HEADER + 4 * index : _HEADER + 4 * index + 4], "big")
    if data[start : start + 4] not in _FONTS:
        return _another_form(data, font)
    return _fault_of_tables(data, start, font)


def _another_form(data: bytes, font: str) -> Message:
    for begins, form in _OTHER_FORMS:
        if data.startswith(begins):
            return said.font_of_another_form(font=font, form=form())
    if data[:1024].lstrip(b"\xef\xbb\xbf \t\r\n").lower().startswith(_PAGES):
        return said.font_of_another_form(font=font, form=said.form_page())
    if not data[:1024].strip(b"\0"):
        return said.font_of_zeros(font=font)
    return said.not_a_font(font=font)


def _fault_of_tables(data: bytes, start: int, font: str) -> Message | None:
    count = int.from_bytes(data[start + 4 : start + 6], "big")
    first = start + _HEADER
    if first + _ENTRY.size * count > len(data):
        return said.font_cut_off_at_once(font=font, size=len(data))
    tables: dict[str, _Table] = {}
    for tag, checksum, begin, length in _ENTRY.iter_unpack(data[first : first + _ENTRY.size * count]):
        tables[tag.decode("latin-1")] = _Table(begin, length, checksum)
    for tag, table in tables.items():
        if table.start + table.length > len(data):
            end = table.start + table.length
            return said.font_cut_off(font=font, table=tag.strip(), end=end, size=len(data))
    return _lacking(tables, font) or _damaged(data, tables, font)


def _lacking(tables: Mapping[str, _Table], font: str) -> Message | None:
    lacking = [tag for tag in _NEEDED if tag not in tables]
    if lacking:
        return said.font_lacks_tables(font=font, tables=lacking)
    if not any(all(tag in tables for tag in outlines) for outlines in _OUTLINES):
        return said.font_without_outlines(font=font)
    return None


def _damaged(data: bytes, tables: Mapping[str, _Table], font: str) -> Message | None:
    for tag in sorted({*_NEEDED, *(tag for outlines in _OUTLINES for tag in outlines)} & tables.keys()):
        table = tables[tag]
        content = data[table.start : table.start + table.length]
        if tag == "head":
            content = content[: _ITSELF.start] + bytes(4) + content[_ITSELF.stop :]
        if len(content) < _SHORTEST.get(tag, 1) or _sum(content) != table.checksum:
            return said.font_table_damaged(font=font, table=tag.strip())
    head, maxp = tables["head"].start, tables["maxp"].start
    if int.from_bytes(data[head + 12 : head + 16], "big") != _MAGIC:
        return said.font_table_damaged(font=font, table="head")
    if int.from_bytes(data[maxp + 4 : maxp + 6], "big") == 0:
        return said.font_without_glyphs(font=font)
    return None


def _sum(content: bytes) -> int:
    """The checksum of a table (OpenType 1.9.1, calculating checksums)."""
    import numpy as np

    padded = content + bytes(-len(content) % 4)
    return int(np.frombuffer(padded, dtype=">u4").sum(dtype=np.uint64)) & 0xFFFFFFFF
