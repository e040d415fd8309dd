"""The fonts of symbols, built from the strokes in `fonts/source/symbols` with the pens of the lettering.

Glyphs are asked for by name; for other programs each has a character too. Each stands in a square of 10 d on the base
line, which is kept as the height of the capitals; the pen is that of the lettering, or what the gaps of a symbol allow.
"""

from __future__ import annotations

import io

from fontTools.fontBuilder import FontBuilder
from fontTools.misc.timeTools import timestampFromString
from fontTools.ttLib.tables.O_S_2f_2 import Panose

from panelart.lettering import skeleton
from panelart.lettering.cuts import BOLD, SIGNS, ps_name
from panelart.lettering.face import truetype
from panelart.lettering.face.characters import CHARACTERS
from panelart.lettering.face.edges import UNITS, UNITS_PER_EM
from panelart.lettering.face.expand import outline
from panelart.lettering.symbols import SYMBOLS, glyph_name

FAMILY = "Panelart Symbols"

PICTORIAL = 5
"""The family of symbols in PANOSE (OS/2, bFamilyType)."""

PROPORTIONAL = 2
"""Widths of their own, in the PANOSE digit for the spacing of symbols; it stands where letters have the proportion."""

BLANKS = {"space": " ", "uni00A0": "\N{NO-BREAK SPACE}"}
"""Glyphs without ink, behind all symbols, and their characters."""

BLANK = 4
"""The advance of a blank in d, as that of the lettering as drawn."""

CLIPPED = 300
"""How far below the base line nothing of a symbol is clipped: more than any pen reaches, alike in all weights."""

SYMBOL_CODE_PAGE = 1 << 31
"""The bit of OS/2 for a set of symbols, which is of no code page."""


def build(weight: str) -> bytes:
    """The font of symbols of one weight. Raises as `load_symbols` does; NoSuchGlyphError for one not drawn."""
    face = skeleton.load_symbols(weight)
    bold = weight == BOLD.name
    style_name = truetype.style_name(weight)
    called = ps_name(f"{SIGNS}-{weight}")
    glyphs = {glyph_name(symbol): face.glyph(symbol) for symbol in SYMBOLS}
    outlines = {name: truetype.glyph(outline(glyph.strokes, UNITS)) for name, glyph in glyphs.items()}
    outlines[".notdef"] = truetype.notdef(face.pen)
    outlines |= dict.fromkeys(BLANKS, truetype.glyph(()))
    order = [".notdef", *glyphs, *BLANKS]
    builder = FontBuilder(UNITS_PER_EM, isTTF=True)
    builder.setupGlyphOrder(order)
    characters = {CHARACTERS[symbol]: glyph_name(symbol) for symbol in SYMBOLS}
    builder.setupCharacterMap(characters | {ord(character): name for name, character in BLANKS.items()})
    builder.setupGlyf(outlines)
    advances = {name: round(glyph.advance * UNITS) for name, glyph in glyphs.items()} | {".notdef": 7 * UNITS}
    advances |= dict.fromkeys(BLANKS, BLANK * UNITS)
    glyf = builder.font["glyf"]
    builder.setupHorizontalMetrics({name: (advances[name], getattr(glyf[name], "xMin", 0)) for name in order})
    builder.setupHorizontalHeader(ascent=truetype.ASCENT, descent=truetype.DESCENT, lineGap=0)
    builder.setupNameTable(
        {
            "copyright": truetype.COPYRIGHT,
            "familyName": FAMILY if bold else f"{FAMILY} {style_name}",
            "styleName": "Bold" if bold else "Regular",
            "uniqueFontIdentifier": f"{truetype.VERSION};{truetype.VENDOR};{called}",
            "fullName": f"{FAMILY} {style_name}",
            "version": f"Version {truetype.VERSION}",
            "psName": called,
            "manufacturer": "panelart",
            "designer": "the panelart authors",
            "licenseDescription": truetype.LICENCE,
            "licenseInfoURL": truetype.LICENCE_URL,
            **({} if bold else {"typographicFamily": FAMILY, "typographicSubfamily": style_name}),
        },
        mac=False,
    )
    builder.setupOS2(
        version=4,
        usWeightClass=truetype.weight_class(face.style),
        usWidthClass=5,
        panose=Panose(bFamilyType=PICTORIAL, bProportion=PROPORTIONAL),
        ulCodePageRange1=SYMBOL_CODE_PAGE,
        achVendID=truetype.VENDOR,
        fsType=0,
        fsSelection=(0x20 if bold else 0x40) | 0x80,
        sTypoAscender=truetype.ASCENT,
        sTypoDescender=truetype.DESCENT,
        sTypoLineGap=0,
        usWinAscent=truetype.ASCENT,
        usWinDescent=CLIPPED,
        sCapHeight=round(skeleton.CAP_HEIGHT * UNITS),
        sxHeight=round(skeleton.CAP_HEIGHT * UNITS),
    )
    builder.font["OS/2"].recalcUnicodeRanges(builder.font)
    builder.setupPost(underlinePosition=-2 * UNITS, underlineThickness=UNITS, keepGlyphNames=True)
    made = timestampFromString(truetype.MADE)
    builder.setupHead(
        unitsPerEm=UNITS_PER_EM,
        fontRevision=float(truetype.VERSION),
        created=made,
        modified=made,
        macStyle=1 if bold else 0,
        flags=0b1011,
        lowestRecPPEM=8,
    )
    builder.font["gasp"] = truetype.smoothed()
    builder.font["prep"] = truetype.whole_strokes()
    builder.font.recalcTimestamp = False
    written = io.BytesIO()
    builder.save(written)
    return written.getvalue()
