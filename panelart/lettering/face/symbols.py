"""The fonts of symbols, built from the strokes in `fonts/source/symbols` with the pens of the lettering.

Glyphs have names and no characters. Each stands in a square of 10 d on the base line, which is kept as the height of
the capitals; the pen is d, and in bold 1.5 d where the gaps of a symbol allow it.
"""

from __future__ import annotations

import io

from fontTools.fontBuilder import FontBuilder
from fontTools.misc.timeTools import timestampFromString

from panelart.lettering import skeleton
from panelart.lettering.face import truetype
from panelart.lettering.face.expand import outline
from panelart.lettering.face.source import read_folder
from panelart.lettering.symbols import SYMBOLS, glyph_name

FAMILY = "Panelart Symbols"
SOURCE = skeleton.SOURCE / "symbols"

WIDEN = 1.0
"""Symbols keep their width in bold: a circle stays one."""


def drawn(*, bold: bool = False) -> skeleton.Skeleton:
    """The strokes of the symbols by name. Raises as `skeleton.load` does."""
    style = skeleton.STYLES["bold" if bold else "regular"]
    return skeleton.Skeleton(
        read_folder(SOURCE),
        skeleton.Style(name=style.name, pen=style.pen, widen=WIDEN, gap=style.gap),
    )


def build(*, bold: bool) -> bytes:
    """The font of symbols in one weight. Raises as `drawn` does, and NoSuchGlyphError for one that is not drawn."""
    face = drawn(bold=bold)
    style_name = "Bold" if bold else "Regular"
    units = truetype.UNITS
    glyphs = {glyph_name(symbol): face.glyph(symbol) for symbol in SYMBOLS}
    outlines = {name: truetype.glyph(outline(glyph.strokes, glyph.pen, units)) for name, glyph in glyphs.items()}
    outlines[".notdef"] = truetype.notdef(face.pen)
    order = [".notdef", *glyphs]
    builder = FontBuilder(truetype.UNITS_PER_EM, isTTF=True)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap({})
    builder.setupGlyf(outlines)
    advances = {name: round(glyph.advance * units) for name, glyph in glyphs.items()} | {".notdef": 7 * units}
    builder.setupHorizontalMetrics({name: (advances[name], builder.font["glyf"][name].xMin) for name in order})
    builder.setupHorizontalHeader(ascent=truetype.ASCENT, descent=truetype.DESCENT, lineGap=0)
    builder.setupNameTable(
        {
            "copyright": truetype.COPYRIGHT,
            "familyName": FAMILY,
            "styleName": style_name,
            "uniqueFontIdentifier": f"{truetype.VERSION};{truetype.VENDOR};PanelartSymbols-{style_name}",
            "fullName": f"{FAMILY} {style_name}",
            "version": f"Version {truetype.VERSION}",
            "psName": f"PanelartSymbols-{style_name}",
            "manufacturer": "panelart",
            "designer": "the panelart authors",
            "licenseDescription": truetype.LICENCE,
            "licenseInfoURL": truetype.LICENCE_URL,
        },
        mac=False,
    )
    builder.setupOS2(
        version=4,
        usWeightClass=700 if bold else 400,
        usWidthClass=5,
        achVendID=truetype.VENDOR,
        fsType=0,
        fsSelection=(0x20 if bold else 0x40) | 0x80,
        sTypoAscender=truetype.ASCENT,
        sTypoDescender=truetype.DESCENT,
        sTypoLineGap=0,
        usWinAscent=truetype.ASCENT,
        usWinDescent=-truetype.DESCENT,
        sCapHeight=round(skeleton.CAP_HEIGHT * units),
        sxHeight=round(skeleton.CAP_HEIGHT * units),
    )
    builder.setupPost(keepGlyphNames=True)
    made = timestampFromString(truetype.MADE)
    builder.setupHead(
        unitsPerEm=truetype.UNITS_PER_EM,
        fontRevision=float(truetype.VERSION),
        created=made,
        modified=made,
        macStyle=1 if bold else 0,
        flags=0b1011,
        lowestRecPPEM=8,
    )
    builder.font.recalcTimestamp = False
    written = io.BytesIO()
    builder.save(written)
    return written.getvalue()
