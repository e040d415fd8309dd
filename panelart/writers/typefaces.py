"""Fonts as PDF keeps them: composite fonts whose codes are glyph numbers, with what each glyph says.

ISO 32000-1, 9.7 (composite fonts) and 9.10.3 (ToUnicode).
"""

from __future__ import annotations

import hashlib
import struct
from collections.abc import Iterator
from itertools import groupby
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.drawing.representation import Lettered
from panelart.geometry import Point, Vector, direction
from panelart.lettering.embedding import glyphs_alone, may_embed
from panelart.lettering.fonts import Font, open_font
from panelart.lettering.setting import Letter
from panelart.writers.pdf_content import Content
from panelart.writers.pdf_objects import Entries, Name, ObjectFile, Ref, Value

_SYMBOLIC: Final = 4  # font flags, ISO 32000-1, table 123: the glyphs are those of the font's own
_MAX_MAPPED: Final = 100  # entries of one bfchar section


class Typefaces(Struct, kw_only=True):
    """The faces that pages have text in, in the order in which they were met, with the glyphs used and their text."""

    used: dict[str, dict[int, str]] = field(default_factory=dict)

    def takes(self, words: Lettered) -> bool:
        """Whether words are written as text."""
        return can_be_text(words)

    def write(self, words: Lettered, content: Content) -> None:
        """The letters of set words as text, in millimetres; bars are not letters."""
        content.begin_text()
        face = ""
        for (font_name, scale, turn, y), group in groupby(
            words.setting.letters, key=lambda letter: (letter.font, letter.scale, letter.turn, letter.y)
        ):
            name = self._name(font_name)
            if name != face:
                content.face(name)
                face = name
            letters = list(group)
            em = scale * open_font(font_name).units_per_em * words.scale
            along = direction(turn + words.turn).scaled(em)
            content.text_place(place(words, letters[0].x, y), along)
            content.show(self._row(letters, em / words.scale))
        content.end_text()

    def put(self, file: ObjectFile) -> Entries:
        """Write the faces; they are font resources, by resource name."""
        return {self._name(face): _font(file, face, glyphs) for face, glyphs in self.used.items()}

    def _name(self, face: str) -> str:
        """The resource name of a face."""
        self.used.setdefault(face, {})
        return f"F{list(self.used).index(face)}"

    def _row(self, letters: list[Letter], em: float) -> Iterator[str | float]:
        """One row of glyphs, moved from where their advances would put them to where they are set."""
        codes = ""
        pen = letters[0].x
        for letter in letters:
            self._say(letter)
            # Thousandths of an em, to a tenth: less than 0.001 mm for letters of 10 mm.
            off = round((pen - letter.x) / em * 1000.0, 1)
            if off:
                if codes:
                    yield codes
                yield off
                codes = ""
                pen -= off * em / 1000.0
            codes += f"{letter.number:04X}"
            pen += advance(letter.font, letter.number) * em / 1000.0
        yield codes

    def _say(self, letter: Letter) -> None:
        """Note a glyph and what it stands for."""
        glyphs = self.used[letter.font]
        if not glyphs.get(letter.number):
            glyphs[letter.number] = letter.text


def can_be_text(words: Lettered) -> bool:
    """Whether words can be written as text: not where they are left out of a field, nor in a font that forbids it."""
    setting = words.setting
    return setting.plate is None and all(
        may_embed(open_font(face), to_change=False) for face in dict.fromkeys(l.font for l in setting.letters)
    )


def place(words: Lettered, x: float, y: float) -> Point:
    """Where a point of a setting lies in the drawing."""
    return words.at.moved(Vector(x * words.scale, y * words.scale).turned(words.turn))


def advance(face: str, number: int) -> int:
    """A glyph's advance as the file states it: whole thousandths of an em, since some readers round it to that.

    What it strays from the true advance is made up for between the letters.
    """
    font = open_font(face)
    return round(font.advance(number) * 1000.0 / font.units_per_em)


def _font(file: ObjectFile, face: str, glyphs: dict[int, str]) -> Ref:
    font = open_font(face)
    data = glyphs_alone(font, glyphs)
    tables = _tables(data)
    tag = "".join(chr(ord("A") + byte % 26) for byte in hashlib.sha256(data).digest()[:6])
    name = Name(f"{tag}+{_plain(font.ps_name)}")
    outlines = "CFF " in tables
    kind = Name("CIDFontType0" if outlines else "CIDFontType2")
    widths: list[Value] = []
    for number in sorted(glyphs):
        widths += [number, [advance(face, number)]]
    inner: dict[str, Value] = {
        "Type": Name("Font"),
        "Subtype": kind,
        "BaseFont": name,
        "CIDSystemInfo": {"Registry": "Adobe", "Ordering": "Identity", "Supplement": 0},
        "FontDescriptor": file.put({**_described(font, tables, name), **_program(file, data, tables)}),
        "W": widths,
    }
    if not outlines:
        inner["CIDToGIDMap"] = Name("Identity")
    return file.put(
        {
            "Type": Name("Font"),
            "Subtype": Name("Type0"),
            "BaseFont": name,
            "Encoding": Name("Identity-H"),
            "DescendantFonts": [file.put(inner)],
            "ToUnicode": file.stream(_to_unicode(glyphs)),
        }
    )


def _program(file: ObjectFile, data: bytes, tables: dict[str, bytes]) -> Entries:
    """The font itself: the outlines alone where they are those of PostScript, else the whole file."""
    if "CFF " in tables:
        return {"FontFile3": file.stream(tables["CFF "], {"Subtype": Name("CIDFontType0C")})}
    return {"FontFile2": file.stream(data)}


def _described(font: Font, tables: dict[str, bytes], name: Name) -> Entries:
    """What a reader needs to know that has to take another font."""
    upem = font.units_per_em
    box = [round(side * 1000 / upem) for side in struct.unpack(">4h", tables["head"][36:44])]
    ascent, descent = (round(side * 1000 / upem) for side in struct.unpack(">2h", tables["hhea"][4:8]))
    return {
        "Type": Name("FontDescriptor"),
        "FontName": name,
        "Flags": _SYMBOLIC,
        "FontBBox": box,
        "ItalicAngle": 0,
        "Ascent": ascent,
        "Descent": descent,
        "CapHeight": round(font.cap_units * 1000 / upem),
        "StemV": round(100 * font.cap_units / upem),
    }


def _plain(name: str) -> str:
    return "".join(letter for letter in name if letter.isascii() and (letter.isalnum() or letter in "-_")) or "Font"


def _tables(data: bytes) -> dict[str, bytes]:
    """The tables of a font file by tag (OpenType, table directory)."""
    (count,) = struct.unpack(">H", data[4:6])
    found: dict[str, bytes] = {}
    for index in range(count):
        tag, _, start, length = struct.unpack(">4sLLL", data[12 + 16 * index : 28 + 16 * index])
        found[tag.decode("ascii")] = data[start : start + length]
    return found


def _to_unicode(glyphs: dict[int, str]) -> bytes:
    said = [(number, words) for number, words in sorted(glyphs.items()) if words]
    lines = [
        "/CIDInit /ProcSet findresource begin",
        "12 dict begin",
        "begincmap",
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
        "/CMapName /Adobe-Identity-UCS def",
        "/CMapType 2 def",
        "1 begincodespacerange",
        "<0000> <FFFF>",
        "endcodespacerange",
    ]
    for start in range(0, len(said), _MAX_MAPPED):
        part = said[start : start + _MAX_MAPPED]
        lines.append(f"{len(part)} beginbfchar")
        lines += [f"<{number:04X}> <{words.encode('utf-16-be').hex().upper()}>" for number, words in part]
        lines.append("endbfchar")
    lines += ["endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end"]
    return "\n".join(lines).encode("ascii")
