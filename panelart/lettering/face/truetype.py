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

from panelart.lettering.face.edges import Contour
from panelart.lettering.face.expand import outline
from panelart.lettering.skeleton import CAP_HEIGHT, Skeleton, Style

UNITS_PER_EM = 2048
#: Font units to a d: capitals of 1440 units, 0.703 em.
UNITS = 144
FAMILY = "Panelart Plain"
VERSION = "1.000"
VENDOR = "PNLA"
#: Ascent and descent in font units: 14.5 d and 4.5 d, together the line pitch b1 = 19 d, and no further line gap.
ASCENT, DESCENT = 2088, -648
#: The moment every build of this version says it was made.
MADE = "Thu Jan  1 00:00:00 2026"
COPYRIGHT = "Copyright 2026 the panelart authors"
LICENCE = (
    "Permission is hereby granted, free of charge, to any person obtaining a copy of this font, to deal in it "
    "without restriction under the terms of the MIT License, which comes with it. It is provided as is, "
    "without warranty of any kind."
)
LICENCE_URL = "https://opensource.org/license/mit"

_STYLE_NAMES: Mapping[str, tuple[str, str, int, int]] = {
    # style: style name, family of the four-style grouping, weight class, width class
    "regular": ("Regular", FAMILY, 400, 5),
    "bold": ("Bold", FAMILY, 700, 5),
    "narrow": ("Narrow", f"{FAMILY} Narrow", 400, 3),
}


def file_name(style: str) -> str:
    """Name of the font file of a style."""
    return f"PanelartPlain-{_STYLE_NAMES[style][0]}.ttf"


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
    keys = tuple(key for key in skeleton.keys if _of_character(key))
    names = glyph_names(keys)
    contours = {key: outline(skeleton.glyph(key).strokes, skeleton.glyph(key).pen, UNITS) for key in keys}
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
        macStyle=1 if style.name == "bold" else 0,
        flags=0b1011,
        lowestRecPPEM=8,
    )
    builder.font["gasp"] = _smoothed()
    builder.font["prep"] = _whole_strokes()
    addOpenTypeFeaturesFromString(builder.font, features(skeleton, names))
    builder.font.recalcTimestamp = False
    written = io.BytesIO()
    builder.save(written)
    return written.getvalue()


def _of_character(key: str) -> bool:
    """Whether a key is a character or another form of one."""
    return len(key) == 1 or (len(key.partition(".")[0]) == 1 and "." in key)


def _name_table(style: Style) -> dict[str, str]:
    """What a font of this style says of itself in words."""
    style_name, grouped, _, _ = _STYLE_NAMES[style.name]
    return {
        "copyright": COPYRIGHT,
        "familyName": grouped,
        "styleName": "Regular" if style.name == "narrow" else style_name,
        "uniqueFontIdentifier": f"{VERSION};{VENDOR};PanelartPlain-{style_name}",
        "fullName": f"{FAMILY} {style_name}",
        "version": f"Version {VERSION}",
        "psName": f"PanelartPlain-{style_name}",
        "manufacturer": "panelart",
        "designer": "the panelart authors",
        "description": "Single-stroke panel lettering on the proportions of ISO 3098-0 type B.",
        "licenseDescription": LICENCE,
        "licenseInfoURL": LICENCE_URL,
        **({"typographicFamily": FAMILY, "typographicSubfamily": style_name} if style.name == "narrow" else {}),
    }


def _measures(style: Style) -> dict[str, int | str]:
    """Classes and measures of a style as OS/2 has them, but for those that are taken from its glyphs."""
    _, _, weight, width = _STYLE_NAMES[style.name]
    pen = round(style.pen * UNITS)
    bold = style.name == "bold"
    return {
        "version": 4,
        "usWeightClass": weight,
        "usWidthClass": width,
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
    zeros = "".join(f"  sub {names[key]} from [{names['0.zero']} {names['0.dotted']}];\n" for key in ("0", "0.pnum"))
    systems = "".join(f"languagesystem {alphabet} dflt;\n" for alphabet in ("DFLT", "latn", "grek", "cyrl"))
    kerning = "\n".join(_kerning(skeleton, names))
    return systems + "\n".join(
        f"feature {name} {{\n{rules}\n}} {name};"
        for name, rules in (("pnum", figures), ("tnum", back), ("zero", zeros), ("kern", kerning))
    )


def _kerning(skeleton: Skeleton, names: Mapping[str, str]) -> list[str]:
    families = _families(skeleton, names)
    table = _kerns(skeleton, families)
    lefts = _alike(families, lambda base: tuple(table.get((base, other), 0) for other in families))
    rights = _alike(families, lambda base: tuple(table.get((other, base), 0) for other in families))
    lines: list[str] = []
    for letter, classes in (("L", lefts), ("R", rights)):
        lines.extend(
            f"  @{letter}{index} = [{' '.join(names[key] for base in bases for key in families[base])}];"
            for index, bases in enumerate(classes)
        )
    for (first, left), (second, right) in itertools.product(enumerate(lefts), enumerate(rights)):
        change = table.get((left[0], right[0]), 0)
        if change:
            lines.append(f"  pos @L{first} @R{second} {change};")
    return lines


def _families(skeleton: Skeleton, keys: Iterable[str]) -> dict[str, list[str]]:
    """The glyphs that kern as one base does, by the base."""
    families: dict[str, list[str]] = {}
    for key in keys:
        if not key.endswith((".zero", ".dotted")):
            families.setdefault(skeleton.base(key), []).append(key)
    return families


def _kerns(skeleton: Skeleton, families: Mapping[str, Iterable[str]]) -> dict[tuple[str, str], int]:
    """The kerning of each two bases that may stand side by side, in font units."""
    # Letters of two alphabets never stand side by side; a drawing may serve several, as A does.
    scripts = {base: {script(key) for key in members} for base, members in families.items()}
    return {
        (first, second): round(skeleton.kerning(first, second) * UNITS)
        for first, second in itertools.product(families, families)
        if scripts[first] & scripts[second] or "" in scripts[first] | scripts[second]
    }


def _alike(families: Iterable[str], kerns: Callable[[str], tuple[int, ...]]) -> list[list[str]]:
    """Bases that kern alike, together; those that never kern are left out."""
    groups: dict[tuple[int, ...], list[str]] = {}
    for base in families:
        row = kerns(base)
        if any(row):
            groups.setdefault(row, []).append(base)
    return list(groups.values())


def script(key: str) -> str:
    """The alphabet of a letter, or nothing for figures and signs."""
    character = key[0]
    if not character.isalpha():
        return ""
    code = ord(character)
    if 0x370 <= code <= 0x3FF:
        return "grek"
    return "cyrl" if 0x400 <= code <= 0x52F else "latn"


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


def _smoothed() -> object:
    """Symmetric grey smoothing at every size; there are no instructions to fit."""
    table = newTable("gasp")
    table.version = 1
    table.gaspRange = {0xFFFF: 0b1010}
    return table


def _whole_strokes() -> object:
    """The one instruction of an unhinted font: keep thin strokes whole at small sizes (smart dropout control)."""
    table = newTable("prep")
    table.program = ttProgram.Program()
    table.program.fromBytecode(bytes((0xB8, 0x01, 0xFF, 0x85, 0xB0, 0x04, 0x8D)))
    return table


def _height(contours: tuple[Contour, ...]) -> int:
    return max(edge.end[1] for contour in contours for edge in contour)
