"""Small fonts made for tests with fontTools: a variable one, one with small capitals and ligatures; and kept ones."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen

FONTS = Path("/usr/share/fonts")


def installed(path: str, package: str) -> str:
    """A font file of a Debian package; the test is skipped where it is not installed."""
    if not (FONTS / path).is_file():
        pytest.skip(f"the Debian package {package} is not installed")
    return str(FONTS / path)


def _box(left: int, bottom: int, right: int, top: int):
    pen = TTGlyphPen(None)
    pen.moveTo((left, bottom))
    pen.lineTo((left, top))
    pen.lineTo((right, top))
    pen.lineTo((right, bottom))
    pen.closePath()
    return pen.glyph()


def boxes(letters: dict[str, tuple[int, int, int, int]], features: str = "", fs_type: int = 0, **more) -> bytes:
    """A font of 1000 units an em whose letters are boxes (left, bottom, right, top), each 600 wide.

    A name of more than one character is a glyph without a character, for features.
    """
    names = {name: name if len(name) > 1 else f"uni{ord(name):04X}" for name in letters}
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder([".notdef", *names.values()])
    builder.setupCharacterMap({ord(name): glyph for name, glyph in names.items() if len(name) == 1})
    builder.setupGlyf({".notdef": _box(0, 0, 500, 700)} | {names[name]: _box(*box) for name, box in letters.items()})
    widths = {".notdef": (600, 0)} | {names[name]: (600, box[0]) for name, box in letters.items()}
    builder.setupHorizontalMetrics(widths)
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupNameTable({"familyName": "Boxes", "styleName": "Regular"})
    builder.setupOS2(sCapHeight=700, fsType=fs_type)
    builder.setupPost()
    if more.get("wide"):
        from fontTools.ttLib.tables.TupleVariation import TupleVariation

        builder.setupFvar([("wght", 100, 400, 900, "Weight")], [])
        moves = [(0, 0), (0, 0), (200, 0), (200, 0), (0, 0), (200, 0), (0, 0), (0, 0)]
        variations = {names[name]: [TupleVariation({"wght": (0.0, 1.0, 1.0)}, moves)] for name in letters}
        builder.setupGvar(variations | {".notdef": []})
    if features:
        builder.addOpenTypeFeatures(features)
    file = BytesIO()
    builder.save(file)
    return file.getvalue()
