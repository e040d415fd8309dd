"""A line of text as glyphs: directions, scripts and fonts told apart, each run shaped, and the runs put in order.

Everything is in shares of the cap height, from the start of the base line.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from itertools import accumulate, groupby
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import Box
from panelart.lettering.bidi import Stretches, edges, levels, order_of_runs, runs_right_to_left
from panelart.lettering.cuts import WEIGHTS, Cut, cut_of, nearest_weight
from panelart.lettering.fallback import fonts_of
from panelart.lettering.fonts import Font, open_font
from panelart.lettering.look import Zero
from panelart.lettering.scripts import scripts_of
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
"""Size of the figures of a fraction over that of the text, in other people's fonts. Our choice: with half, a stroke of
a tenth is too thin."""

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
            fonts_of(line, how.fonts),
            scripts_of(line),
            manners_at((*spans, *_written_fractions(line)), len(line)),
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


def _written_fractions(line: str) -> Iterator[Span]:
    """Figures about a fraction slash, which are to be set as one fraction (The Unicode Standard, 6.2)."""
    at = line.find(_FRACTION_SLASH)
    while at >= 0:
        start, stop = at, at + 1
        while start and _is_figure(line[start - 1]):
            start -= 1
        while stop < len(line) and _is_figure(line[stop]):
            stop += 1
        if start < at and stop > at + 1:
            yield Span(start, stop, Manner.FRACTION)
        at = line.find(_FRACTION_SLASH, at + 1)


def _is_figure(letter: str) -> bool:
    return letter.isascii() and letter.isdigit()


def _solidus_in(text: str) -> int:
    """Where the first solidus or fraction slash is, -1 for none."""
    return min((at for at in (text.find("/"), text.find(_FRACTION_SLASH)) if at >= 0), default=-1)


class _Piece(Struct, frozen=True):
    """Characters that are shaped together, `index` where they stand in the line.

    `form` is the OpenType feature of figures drawn for their place, '' for none; `back` how far they are moved towards
    what stands before them, over the cap height.
    """

    text: str
    spoken: str
    index: int
    size: float
    rise: float
    form: str = ""
    back: float = 0.0


def _pieces(text: str, index: int, kind: _Kind) -> Iterator[_Piece]:
    size, rise = 1.0, 0.0
    for manner in kind.manners:
        if manner is Manner.SUPER:
            rise += RAISED * size
        elif manner is Manner.SUB:
            rise -= LOWERED * size
        if manner in (Manner.SUPER, Manner.SUB):
            size *= REDUCED
    if Manner.FRACTION not in kind.manners or _solidus_in(text) < 0:
        sign = _as_signs(text, kind)
        yield _Piece(text, text, index, size, rise) if sign is None else _Piece(sign, sign, index, 1.0, 0.0)
        return
    yield from _fraction(text, index, size, rise, kind.font)


def _fraction(text: str, index: int, size: float, rise: float, font: Font) -> Iterator[_Piece]:
    """A fraction as the one sign that a font has for it, or as figures over and under a solidus."""
    at = _solidus_in(text)
    upper, between, lower = text[:at], text[at], text[at + 1 :]
    whole = _FRACTIONS.get(f"{upper}/{lower}")
    if whole is not None and font.has(whole):
        yield _Piece(whole, text, index, size, rise)
        return
    solidus = _FRACTION_SLASH if font.has(_FRACTION_SLASH) else "/"
    over = _figures(upper, index, size, rise, font, _NUMERATOR)
    under = _figures(lower, index + len(upper) + 1, size, rise, font, _DENOMINATOR)
    slash = _Piece(solidus, between, index + len(upper), size, rise)
    yield over
    yield replace(slash, back=_tucked(over, slash, font) * size)
    yield replace(under, back=_tucked(slash, under, font) * size)


def _tucked(before: _Piece, after: _Piece, font: Font) -> float:
    """How far solidus and figures of our own fonts are moved towards each other, over the cap height.

    In ½ the middle of the figure's outermost stroke is in line with the end of the solidus: their inks are over each
    other by one pen. A narrow figure before the solidus keeps the room of the widest.
    """
    cut = cut_of(font.name)
    if cut is None or not (before.form or after.form):
        return 0.0
    last, advance = _alone(before, before.text[-1], font)
    first, _ = _alone(after, after.text[0], font)
    room = last.width if not before.form else max(last.width, _alone(before, _WIDEST, font)[0].width)
    return (advance - last.left - room + first.left) / font.cap_units + min(_KEPT / cut.weight, _HELD)


def _alone(piece: _Piece, letter: str, font: Font) -> tuple[Box, float]:
    """The ink of one letter in the form of a piece, and its advance, in font units."""
    (glyph, *_), advance = font.shaped(letter, features={piece.form: 1} if piece.form else {})
    ink = font.box(glyph.number)
    return Box(0.0, 0.0, advance, 0.0) if ink is None else ink, advance


_WIDEST: Final = "8"
"""The widest figure of our own fonts."""

_FRACTION_SLASH: Final = "\N{FRACTION SLASH}"

_NUMERATOR: Final = "numr"
_DENOMINATOR: Final = "dnom"


def _figures(text: str, index: int, size: float, rise: float, font: Font, form: str) -> _Piece:
    """The figures over or under the solidus: those of our own fonts are drawn for it, others are made smaller."""
    if cut_of(font.name) is not None and text.isascii() and text.isdigit():
        return _Piece(text, text, index, size, rise, form)
    figure = FRACTION_SIZE * size
    return _Piece(text, text, index, figure, rise + size - figure if form == _NUMERATOR else rise)


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
    unicodedata.normalize("NFKC", sign).replace(_FRACTION_SLASH, "/"): sign
    for sign in map(chr, (0xBC, 0xBD, 0xBE, *range(0x2150, 0x215F)))
}


def _shape(piece: _Piece, kind: _Kind, how: Typesetting, pen: float, onto: list[SetGlyph]) -> float:
    """Add a piece's glyphs; the place where the next piece starts."""
    font = _as_heavy(kind.font, piece.size)
    glyphs, advance = font.shaped(
        piece.text,
        right_to_left=bool(kind.level % 2),
        script=kind.script,
        language=how.language,
        features=_features(how, kind, piece.text) | ({piece.form: 1} if piece.form else {}),
    )
    unit = piece.size / font.cap_units
    gap = 0.0 if kind.script in _NO_GAPS else how.tracking * piece.size
    texts = _texts(piece, [glyph.cluster for glyph in glyphs])
    told: set[int] = set()
    gaps = 0
    pen -= piece.back
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


_KEPT: Final = 0.85
"""Share of the pen that raised and lowered figures of our fonts are drawn with (`fonts/source`)."""

_HELD: Final = 0.11
"""The widest pen of the figures of a fraction over the cap height, there too."""


def _as_heavy(font: Font, size: float) -> Font:
    """The font for letters made smaller: of our own cuts the named one whose pen is then nearest to that of figures."""
    cut = cut_of(font.name)
    if size == 1.0 or cut is None or font.symbols:
        return font
    weight = nearest_weight(cut.weight * size / _KEPT)
    return open_font(Cut(min(cut.weight, WEIGHTS[weight]), cut.width).font)


def _features(how: Typesetting, kind: _Kind, text: str) -> dict[str, int]:
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
