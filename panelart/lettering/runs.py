"""A line of text as glyphs: directions, scripts and fonts told apart, each run shaped, and the runs put in order.

Everything is in shares of the cap height, from the start of the base line.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate, groupby
from typing import Final

from panelart.canonical import Struct
from panelart.lettering.bidi import Stretches, edges, levels, order_of_runs, runs_right_to_left
from panelart.lettering.fonts import Font, MissingGlyphError
from panelart.lettering.look import Zero
from panelart.lettering.spans import Manner, Span, manners_at

REDUCED: Final = 0.7
"""Size of superscripts and subscripts over that of the text: one step of the row of heights of ISO 3098-0, which
grows by the root of 2 (from memory)."""

RAISED: Final = 0.4
LOWERED: Final = 0.2
"""How far the base line of a superscript is raised, and that of a subscript lowered, over the cap height of the text
it belongs to, so that a superscript stands out above the capitals by a tenth, as the signs ² and ³ of our fonts do. Our
choice."""

FRACTION_SIZE: Final = 0.62
"""Size of the figures of a fraction over that of the text. Our choice: with half, a stroke of a tenth is too thin."""

_NO_GAPS: Final = frozenset(
    {"Arab", "Syrc", "Nkoo", "Mong", "Mand", "Adlm", "Rohg", "Deva", "Beng", "Guru", "Gujr", "Orya", "Modi", "Sharada"}
)
"""Scripts whose letters join; spacing them out would tear words."""


class SetGlyph(Struct, frozen=True):
    """One glyph of a line: its origin and its size in shares of the cap height, and what it stands for.

    `index` is the place in the line of the first of its characters, `text` those characters; '' for the further
    glyphs of one cluster.
    """

    font: Font
    number: int
    x: float
    y: float
    size: float
    index: int
    text: str


class Typesetting(Struct, frozen=True):
    """What shaping a line depends on besides the text and its spans."""

    fonts: tuple[Font, ...]
    tracking: float
    ligatures: bool
    language: str
    right_to_left: bool | None
    zero: Zero = Zero.PLAIN


class _Kind(Struct, frozen=True):
    """What characters of one run have in common."""

    level: int
    font: Font
    script: str
    manners: tuple[Manner, ...]


def shaped_line(line: str, spans: Sequence[Span], how: Typesetting, isolated: Stretches = ()) -> list[SetGlyph]:
    """The glyphs of a line from left to right; in a font of symbols the line is the name of one.

    `isolated` are the stretches that run from the left whatever stands about them.

    Raises MissingGlyphError, and ValueError for an unknown symbol.
    """
    if not line:
        return []
    if how.fonts[0].symbols:
        return [SetGlyph(how.fonts[0], how.fonts[0].symbol(line), 0.0, 0.0, 1.0, 0, line)]
    base = runs_right_to_left(line, isolated) if how.right_to_left is None else how.right_to_left
    found = levels(line, right_to_left=base, isolated=isolated)
    at_edges = edges(line, right_to_left=base, isolated=isolated)
    kinds = [
        _Kind(*each)
        for each in zip(
            found,
            _fonts_of(line, how.fonts),
            _scripts_of(line),
            manners_at(spans, len(line)),
            strict=True,
        )
    ]
    runs: list[tuple[_Kind, int, int]] = []
    start = 0
    pieces = accumulate(place in at_edges for place in range(len(line)))
    for (kind, _), members in groupby(zip(kinds, pieces, strict=True)):
        stop = start + len(list(members))
        runs.append((kind, start, stop))
        start = stop
    glyphs: list[SetGlyph] = []
    pen = 0.0
    for number in order_of_runs([start for _, start, _ in runs], found, at_edges):
        kind, start, stop = runs[number]
        for piece in _pieces(line[start:stop], start, kind):
            pen = _shape(piece, kind, how, pen, glyphs)
    return glyphs


class _Piece(Struct, frozen=True):
    """Characters that are shaped together, `index` where they stand in the line."""

    text: str
    spoken: str
    index: int
    size: float
    rise: float


def _pieces(text: str, index: int, kind: _Kind) -> Iterator[_Piece]:
    size, rise = 1.0, 0.0
    for manner in kind.manners:
        if manner is Manner.SUPER:
            rise += RAISED * size
        elif manner is Manner.SUB:
            rise -= LOWERED * size
        if manner in (Manner.SUPER, Manner.SUB):
            size *= REDUCED
    if Manner.FRACTION not in kind.manners or "/" not in text:
        sign = _as_signs(text, kind)
        yield _Piece(text, text, index, size, rise) if sign is None else _Piece(sign, sign, index, 1.0, 0.0)
        return
    whole = _FRACTIONS.get(text)
    if whole is not None and kind.font.has(whole):
        yield _Piece(whole, text, index, size, rise)
        return
    upper, _, lower = text.partition("/")
    figure = FRACTION_SIZE * size
    solidus = "\N{FRACTION SLASH}" if kind.font.has("\N{FRACTION SLASH}") else "/"
    yield _Piece(upper, upper, index, figure, rise + size - figure)
    yield _Piece(solidus, "/", index + len(upper), size, rise)
    yield _Piece(lower, lower, index + len(upper) + 1, figure, rise)


_RAISED_SIGNS: Final = str.maketrans("0123456789+-\N{MINUS SIGN}=()n", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻⁻⁼⁽⁾ⁿ")
_LOWERED_SIGNS: Final = str.maketrans("0123456789+-\N{MINUS SIGN}=()", "₀₁₂₃₄₅₆₇₈₉₊₋₋₌₍₎")
_SIGNS: Final = {Manner.SUPER: _RAISED_SIGNS, Manner.SUB: _LOWERED_SIGNS}
"""Raised and lowered figures that are characters of their own."""


def _as_signs(text: str, kind: _Kind) -> str | None:
    """A raised or lowered text as signs drawn for it, where the font has them all: so is `m{super 2}` as m²."""
    off_the_line = [manner for manner in kind.manners if manner in _SIGNS]
    if len(off_the_line) != 1:
        return None
    signs = _SIGNS[off_the_line[0]]
    if not all(ord(letter) in signs for letter in text) or not all(kind.font.has(chr(sign)) for sign in signs.values()):
        return None
    return text.translate(signs)


_FRACTIONS: Final = {
    unicodedata.normalize("NFKC", sign).replace("\N{FRACTION SLASH}", "/"): sign
    for sign in map(chr, (0xBC, 0xBD, 0xBE, *range(0x2150, 0x215F)))
}


def _shape(piece: _Piece, kind: _Kind, how: Typesetting, pen: float, onto: list[SetGlyph]) -> float:
    """Add a piece's glyphs; the place where the next piece starts."""
    font = kind.font
    glyphs, advance = font.shaped(
        piece.text,
        right_to_left=bool(kind.level % 2),
        script=kind.script,
        language=how.language,
        features=_features(how, kind, piece.text),
    )
    unit = piece.size / font.cap_units
    gap = 0.0 if kind.script in _NO_GAPS else how.tracking * piece.size
    texts = _texts(piece, [glyph.cluster for glyph in glyphs])
    told: set[int] = set()
    gaps = 0
    for place, glyph in enumerate(glyphs):
        if place and glyph.cluster != glyphs[place - 1].cluster:
            gaps += 1
        onto.append(
            SetGlyph(
                font=font,
                number=glyph.number,
                x=pen + glyph.x * unit + gaps * gap,
                y=piece.rise + glyph.y * unit,
                size=piece.size,
                index=piece.index + min(glyph.cluster, len(piece.spoken) - 1),
                text="" if glyph.cluster in told else texts[glyph.cluster],
            )
        )
        told.add(glyph.cluster)
    return pen + advance * unit + (gaps + 1) * gap


def _features(how: Typesetting, kind: _Kind, text: str) -> Mapping[str, int]:
    features: dict[str, int] = {}
    if how.ligatures and not how.tracking:
        features |= {"liga": True, "clig": True}
    if Manner.SMALL in kind.manners:
        features["smcp"] = True
    if how.zero is not Zero.PLAIN and "0" in text:
        features["zero"] = how.zero.feature
    return features


def _texts(piece: _Piece, clusters: Sequence[int]) -> dict[int, str]:
    """The characters of each cluster. A fraction that became one sign stands for all of its characters."""
    if piece.text != piece.spoken:
        return dict.fromkeys(clusters, piece.spoken)
    starts = sorted(set(clusters))
    ends = [*starts[1:], len(piece.text)]
    return {start: piece.text[start:end] for start, end in zip(starts, ends, strict=True)}


def _clusters(line: str) -> Iterator[str]:
    """Characters with the marks that stand on them, and with what is joined to them."""
    cluster = ""
    for letter in line:
        joins = cluster and (unicodedata.category(letter)[0] == "M" or "\u200d" in (letter, cluster[-1]))
        if cluster and not joins:
            yield cluster
            cluster = ""
        cluster += letter
    if cluster:
        yield cluster


def _fonts_of(line: str, fonts: Sequence[Font]) -> list[Font]:
    """For each character the first font that has it and the marks on it. Raises MissingGlyphError."""
    main = fonts[0]
    if line.isascii() and all(main.has(letter) for letter in line):
        return [main] * len(line)
    found: list[Font] = []
    for cluster in _clusters(line):
        font = next((font for font in fonts if _covers(font, cluster)), None)
        if font is None:
            lacking = next((c for c in cluster if not any(font.has(c) for font in fonts)), cluster[0])
            raise MissingGlyphError(lacking, *(font.name for font in fonts))
        found += [font] * len(cluster)
    return found


def _covers(font: Font, cluster: str) -> bool:
    """Whether a font can draw a cluster as written, composed or taken apart; unseen characters need no glyph."""
    forms = (cluster, unicodedata.normalize("NFC", cluster), unicodedata.normalize("NFD", cluster))
    return any(all(font.has(letter) or _unseen(letter) for letter in form) for form in forms)


def _unseen(letter: str) -> bool:
    return unicodedata.category(letter) == "Cf" or "\ufe00" <= letter <= "\ufe0f"


_SHARED: Final = "Zyyy"
_SCRIPTS: Final = (
    ("\u038e", "\u03a1", "Grek"),
    ("\u03a3", "\u03e1", "Grek"),
    ("\u200e", "\u2064", _SHARED),
    ("\u20a0", "\u20c0", _SHARED),
    ("\u2126", "\u2126", "Grek"),
    ("\u2190", "\u2429", _SHARED),
    ("\u2460", "\u27ff", _SHARED),
)
"""The scripts of signs and letters that are met with on panels in Latin letters (Unicode, Scripts.txt)."""


def _script(letter: str) -> str:
    """The script of a character as its ISO 15924 tag, Zyyy for what is of many scripts, of none or not known."""
    if letter < "\u0250":
        return "Latn" if letter.isalpha() and letter != "\u00b5" else _SHARED
    known = next((script for first, last, script in _SCRIPTS if first <= letter <= last), "")
    if known:
        return known
    import uharfbuzz as hb  # few legends need it

    buffer = hb.Buffer()
    buffer.add_codepoints([ord(letter)])
    buffer.guess_segment_properties()
    return buffer.script or _SHARED


def _scripts_of(line: str) -> list[str]:
    """The script of each character as its ISO 15924 tag; what belongs to no script takes that of its neighbour."""
    if all(letter < "\u0250" for letter in line):
        return ["Latn"] * len(line)
    found = [_script(letter) for letter in line]
    current = next((script for script in found if script != _SHARED), "Latn")
    for place, script in enumerate(found):
        current = current if script == _SHARED else script
        found[place] = current
    return found
