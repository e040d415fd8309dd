"""The fonts, written from the strokes with fontTools; the same source gives the same bytes.

``build`` takes a skeleton to the bytes of a TrueType font: outlines, widths, class kerning and figure forms, names,
and vertical measures taken from the line pitch b1 = 1.9 h of ISO 3098-0 type B.
"""

from __future__ import annotations

import io
import itertools
from collections.abc import Callable, Iterable, Mapping

from fontTools import agl
from fontTools.feaLib.builder import addOpenTypeFeaturesFromString
from fontTools.fontBuilder import FontBuilder
from fontTools.misc.timeTools import timestampFromString
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import newTable
from fontTools.ttLib.tables import ttProgram
from fontTools.ttLib.tables._g_l_y_f import Glyph as OutlineGlyph

from panelart.lettering.cuts import BOLD, Cut, cut_named, ps_name
from panelart.lettering.face.edges import UNITS, UNITS_PER_EM, Contour
from panelart.lettering.face.expand import outline
from panelart.lettering.face.kerning import families, kerns, keys_of
from panelart.lettering.skeleton import CAP_HEIGHT, DRAWN, Skeleton, Style

FAMILY = "Panelart Plain"
VERSION = "1.000"
VENDOR = "PNLA"
#: Ascent and descent in font units: 15.26 d, which two marks over a capital need, and 3.74 d; together the line pitch
#: b1 = 19 d, and no further line gap.
ASCENT, DESCENT = 2198, -538
#: The moment every build of this version says it was made.
MADE = "Thu Jan  1 00:00:00 2026"
COPYRIGHT = "Copyright 2026 the panelart authors"
LICENCE = (
    "Permission is hereby granted, free of charge, to any person obtaining a copy of this font, to deal in it "
    "without restriction under the terms of the MIT License, which comes with it. It is provided as is, "
    "without warranty of any kind."
)
LICENCE_URL = "https://opensource.org/license/mit"

#: Weight class of OS/2 at the pen as drawn, and for every d that it is wider: 300, 500 and 700 for the named weights.
WEIGHT_CLASS, HEAVIER = 300, 600


def style_name(style: str) -> str:
    """What a style is called in a font."""
    return _cut(style).title


def file_name(style: str) -> str:
    """Name of the font file of a style."""
    return f"{ps_name(_cut(style).font)}.ttf"


def _cut(style: str) -> Cut:
    cut = cut_named(style)
    assert cut is not None, "every style is a cut"
    return cut


def weight_class(style: Style) -> int:
    """The class of OS/2 that a pen belongs to."""
    return max(100, min(900, round(WEIGHT_CLASS + HEAVIER * (style.pen - DRAWN.pen))))


def glyph_names(keys: tuple[str, ...]) -> dict[str, str]:
    """PostScript names of the glyphs by key: as the Adobe glyph list has them, else from the code point."""
    names = {}
    for key in keys:
        first, _, form = key.partition(".") if len(key) > 1 else (key, "", "")
        names[key] = _name(first) + (f".{form}" if form else "")
    return names


def _name(character: str) -> str:
    code = ord(character)
    known = agl.UV2AGL.get(code)
    # The list names only part of what it maps by unique names; a name must lead back to its own code.
    if known is not None and agl.toUnicode(known) == character:
        return str(known)
    return f"uni{code:04X}" if code <= 0xFFFF else f"u{code:05X}"


def build(skeleton: Skeleton) -> bytes:
    """The font of one style."""
    style = skeleton.style
    keys = keys_of(skeleton)
    names = glyph_names(keys)
    contours = {key: outline(skeleton.glyph(key).strokes, UNITS) for key in keys}
    order = [".notdef", *(names[key] for key in keys)]
    outlines = {names[key]: glyph(contours[key]) for key in keys} | {".notdef": notdef(style.pen)}
    advances = {names[key]: round(skeleton.glyph(key).advance * UNITS) for key in keys} | {".notdef": 7 * UNITS}

    builder = FontBuilder(UNITS_PER_EM, isTTF=True)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap({ord(key): names[key] for key in keys if len(key) == 1})
    builder.setupGlyf(outlines)
    glyf = builder.font["glyf"]
    builder.setupHorizontalMetrics({name: (advances[name], getattr(glyf[name], "xMin", 0) or 0) for name in order})
    builder.setupHorizontalHeader(ascent=ASCENT, descent=DESCENT, lineGap=0)
    builder.setupNameTable(_name_table(style), mac=False)
    builder.setupOS2(**_measures(style), sCapHeight=_height(contours["H"]), sxHeight=_height(contours["x"]))
    builder.font["OS/2"].recalcUnicodeRanges(builder.font)
    builder.font["OS/2"].recalcCodePageRanges(builder.font)
    builder.setupPost(underlinePosition=-2 * UNITS, underlineThickness=UNITS, keepGlyphNames=True)
    builder.setupHead(
        unitsPerEm=UNITS_PER_EM,
        fontRevision=float(VERSION),
        created=timestampFromString(MADE),
        modified=timestampFromString(MADE),
        macStyle=1 if _is_bold(style) else 0,
        flags=0b1011,
        lowestRecPPEM=8,
    )
    builder.font["gasp"] = smoothed()
    builder.font["prep"] = whole_strokes()
    addOpenTypeFeaturesFromString(builder.font, features(skeleton, names))
    builder.font.recalcTimestamp = False
    written = io.BytesIO()
    builder.save(written)
    return written.getvalue()


def outlines_alone(contours: Mapping[int, tuple[Contour, ...]], advances: Mapping[int, int]) -> bytes:
    """A font with these glyphs by their numbers and nothing but what draws them; the others are empty."""
    order = [f"glyph{number}" for number in range(max(contours, default=0) + 1)]
    builder = FontBuilder(UNITS_PER_EM, isTTF=True)
    builder.setupGlyphOrder([".notdef", *order[1:]])
    names = builder.font.getGlyphOrder()
    builder.setupGlyf({name: glyph(contours.get(number, ())) for number, name in enumerate(names)})
    glyf = builder.font["glyf"]
    builder.setupHorizontalMetrics(
        {name: (advances.get(number, 0), getattr(glyf[name], "xMin", 0) or 0) for number, name in enumerate(names)}
    )
    builder.setupHorizontalHeader(ascent=ASCENT, descent=DESCENT, lineGap=0)
    made = timestampFromString(MADE)
    builder.setupHead(
        unitsPerEm=UNITS_PER_EM, fontRevision=float(VERSION), created=made, modified=made, flags=0b1011, lowestRecPPEM=8
    )
    builder.font.recalcTimestamp = False
    written = io.BytesIO()
    builder.save(written)
    return written.getvalue()


def _name_table(style: Style) -> dict[str, str]:
    """What a font of this style says of itself in words."""
    called, full = ps_name(_cut(style.name).font), f"{FAMILY} {style_name(style.name)}"
    # Programs that know four styles of a family are given bold alone; the others are families by themselves.
    plain_bold = _is_bold(style)
    return {
        "copyright": COPYRIGHT,
        "familyName": FAMILY if plain_bold else full,
        "styleName": "Bold" if plain_bold else "Regular",
        "uniqueFontIdentifier": f"{VERSION};{VENDOR};{called}",
        "fullName": full,
        "version": f"Version {VERSION}",
        "psName": called,
        "manufacturer": "panelart",
        "designer": "the panelart authors",
        "description": "Single-stroke panel lettering on the proportions of ISO 3098-0 type B.",
        "licenseDescription": LICENCE,
        "licenseInfoURL": LICENCE_URL,
        **({} if plain_bold else {"typographicFamily": FAMILY, "typographicSubfamily": style_name(style.name)}),
    }


def _is_bold(style: Style) -> bool:
    """Whether a style is the bold one of a family of four."""
    return style.name == BOLD.name


def _width_class(style: str) -> int:
    """The class of OS/2 that a width belongs to: normal, semi-condensed, condensed."""
    cut = _cut(style)
    return 5 if cut.width == 1.0 else 4 if cut.width > 0.85 else 3


def _measures(style: Style) -> dict[str, int | str]:
    """Classes and measures of a style as OS/2 has them, but for those that are taken from its glyphs."""
    pen = round(style.pen * UNITS)
    bold = _is_bold(style)
    return {
        "version": 4,
        "usWeightClass": weight_class(style),
        "usWidthClass": _width_class(style.name),
        "achVendID": VENDOR,
        "fsType": 0,
        "fsSelection": (0x20 if bold else 0x40) | 0x80,
        "sTypoAscender": ASCENT,
        "sTypoDescender": DESCENT,
        "sTypoLineGap": 0,
        "usWinAscent": ASCENT,
        "usWinDescent": -DESCENT,
        "yStrikeoutPosition": round(3.5 * UNITS) + pen // 2,
        "yStrikeoutSize": pen,
        "ySubscriptXSize": 6 * UNITS,
        "ySubscriptYSize": 6 * UNITS,
        "ySubscriptXOffset": 0,
        "ySubscriptYOffset": 2 * UNITS,
        "ySuperscriptXSize": 6 * UNITS,
        "ySuperscriptYSize": 6 * UNITS,
        "ySuperscriptXOffset": 0,
        "ySuperscriptYOffset": round(4.5 * UNITS),
        "usDefaultChar": 0,
        "usBreakChar": 32,
        "usMaxContext": 2,
    }


def features(skeleton: Skeleton, names: Mapping[str, str]) -> str:
    """The feature source: figures in other forms, and kerning between classes of letters on one base."""
    figures = "".join(
        f"  sub {names[key.partition('.')[0]]} by {names[key]};\n" for key in names if key.endswith(".pnum")
    )
    back = "".join(f"  sub {names[key]} by {names[key.partition('.')[0]]};\n" for key in names if key.endswith(".pnum"))
    # The first form is what a program gives that knows of no further ones.
    parts = {
        tag: "".join(
            f"  sub {names[key.partition('.')[0]]} by {names[key]};\n" for key in names if key.endswith(f".{tag}")
        )
        for tag in ("numr", "dnom")
    }
    zeros = "".join(f"  sub {names[key]} from [{names['0.zero']} {names['0.dotted']}];\n" for key in ("0", "0.pnum"))
    systems = "".join(f"languagesystem {alphabet} dflt;\n" for alphabet in ("DFLT", "latn", "grek", "cyrl"))
    kerning = "\n".join(_kerning(skeleton, names))
    return systems + "\n".join(
        f"feature {name} {{\n{rules}\n}} {name};"
        for name, rules in (("pnum", figures), ("tnum", back), ("zero", zeros), *parts.items(), ("kern", kerning))
    )


def _kerning(skeleton: Skeleton, names: Mapping[str, str]) -> list[str]:
    bases = families(skeleton, names)
    table = kerns(skeleton, bases)
    lefts = _alike(bases, lambda base: tuple(table[base, other] for other in bases))
    rights = _alike(bases, lambda base: tuple(table[other, base] for other in bases))
    lines: list[str] = []
    for letter, classes in (("L", lefts), ("R", rights)):
        lines.extend(
            f"  @{letter}{index} = [{' '.join(names[key] for base in alike for key in bases[base])}];"
            for index, alike in enumerate(classes)
        )
    for (first, left), (second, right) in itertools.product(enumerate(lefts), enumerate(rights)):
        change = table.get((left[0], right[0]), 0)
        if change:
            lines.append(f"  pos @L{first} @R{second} {change};")
    return lines


def _alike(bases: Iterable[str], moved: Callable[[str], tuple[int, ...]]) -> list[list[str]]:
    """Bases that kern alike, together; those that never kern are left out."""
    groups: dict[tuple[int, ...], list[str]] = {}
    for base in bases:
        row = moved(base)
        if any(row):
            groups.setdefault(row, []).append(base)
    return list(groups.values())


def glyph(contours: tuple[Contour, ...]) -> OutlineGlyph:
    """The outline of a glyph as the font keeps it."""
    pen = TTGlyphPen(None)
    for contour in contours:
        pen.moveTo(contour[0].start)
        for edge in contour:
            if edge.control is None:
                if edge is not contour[-1]:
                    pen.lineTo(edge.end)
            else:
                pen.qCurveTo(edge.control, edge.end)
        pen.closePath()
    return pen.glyph()


def notdef(pen: float) -> OutlineGlyph:
    """An empty box."""
    thick, wide, high = round(pen * UNITS), 6 * UNITS, round(CAP_HEIGHT * UNITS)
    drawn = TTGlyphPen(None)
    for corners in (
        [(UNITS, 0), (UNITS, high), (wide, high), (wide, 0)],
        [(UNITS + thick, thick), (wide - thick, thick), (wide - thick, high - thick), (UNITS + thick, high - thick)],
    ):
        drawn.moveTo(corners[0])
        for corner in corners[1:]:
            drawn.lineTo(corner)
        drawn.closePath()
    return drawn.glyph()


def smoothed() -> object:
    """Symmetric grey smoothing at every size; there are no instructions to fit."""
    table = newTable("gasp")
    table.version = 1
    table.gaspRange = {0xFFFF: 0b1010}
    return table


def whole_strokes() -> object:
    """The one instruction of an unhinted font: keep thin strokes whole at small sizes (smart dropout control)."""
    table = newTable("prep")
    table.program = ttProgram.Program()
    table.program.fromBytecode(bytes((0xB8, 0x01, 0xFF, 0x85, 0xB0, 0x04, 0x8D)))
    return table


def _height(contours: tuple[Contour, ...]) -> int:
    return max(edge.end[1] for contour in contours for edge in contour)
