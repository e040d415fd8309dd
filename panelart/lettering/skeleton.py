"""The centre lines of our own face: what an engraver's cutter follows, and what the fonts are grown from.

``load`` takes a style name to a ``Skeleton``: for a character its strokes as lines and arcs, its advance, and the
kerning of a pair; ``strokes`` sets a line of text as open pen paths in millimetres. Lengths inside are in d, a tenth
of the capital height h, until a capital height is given (ISO 3098-0 type B: d = h / 10).
"""

from __future__ import annotations

import functools
from collections.abc import Mapping
from pathlib import Path as FilePath

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.lettering.cuts import NAMED, Cut, cut_named
from panelart.lettering.face import spacing
from panelart.lettering.face.curves import Arc, Line, Path, Piece, Spot, Stroke
from panelart.lettering.face.source import GlyphSource, Source, SourceError, read_folder

__all__ = [
    "CAP_HEIGHT",
    "DRAWN",
    "SOURCE",
    "STYLES",
    "Arc",
    "Glyph",
    "Line",
    "NoSuchGlyphError",
    "NoSuchStyleError",
    "Piece",
    "Skeleton",
    "SourceError",
    "Spot",
    "Stroke",
    "Style",
    "load",
    "load_symbols",
    "style_of",
]

#: Where the strokes are written down: inside the installed package, beside it in a source tree.
SOURCE = next(
    (
        folder
        for folder in (FilePath(__file__).resolve().parents[up] / "fonts" / "source" for up in (1, 2))
        if folder.is_dir()
    ),
    FilePath(__file__).resolve().parents[2] / "fonts" / "source",
)

#: Height of the flat capitals as drawn, pen included, in d.
CAP_HEIGHT = 10.0


class NoSuchGlyphError(LookupError):
    """The face has no such glyph; the message names the character and its code point."""


class NoSuchStyleError(LookupError):
    """There is no such style; the message names those there are."""


class Style(Struct, frozen=True, kw_only=True):
    """A weight and width: the pen and the gap between two stems in d, and the share of width kept."""

    name: str
    pen: float
    widen: float
    gap: float

    def place(self, spot: Spot, pen: float, *, form_kept: bool) -> Spot:
        """Where a place of the regular drawing goes, so that a capital's ink stays 10 d high under the pen.

        With ``form_kept`` the width goes with the height: a circle stays one.
        """
        heighten = (CAP_HEIGHT - pen) / (CAP_HEIGHT - 1)
        return Spot(spot.x * (heighten if form_kept else self.widen), pen / 2 + (spot.y - 0.5) * heighten)


#: What was drawn: ISO 3098-0 type B, pen d, gap 2 d.
DRAWN = Style(name="light", pen=1.0, widen=1.0, gap=2.0)
#: What a drawing is widened by, and the gap of two stems, for every d that the pen is wider. Our choice.
WIDER, FARTHER = 0.12, 0.75
#: The widest pen of a symbol: under a wider one their gaps close in print at the size of a legend.
WIDEST_OF_SYMBOLS = 1.5
#: The space of words as drawn, e of ISO 3098-0 type B less the gap of two stems.
WORD_SPACE = 4.0
#: How much of the gap the narrowest cut takes away for every share of its width that it gives up. Our choice.
CLOSER = 1.25


def style_of(cut: Cut) -> Style:
    """The pen, the width and the gap of a cut: a wider pen needs wider counters to stay as open."""
    pen = CAP_HEIGHT / cut.weight
    return Style(
        name=cut.name,
        pen=pen,
        widen=cut.width * (DRAWN.widen + WIDER * (pen - DRAWN.pen)),
        gap=DRAWN.gap + FARTHER * (pen - DRAWN.pen) - CLOSER * (1.0 - cut.width),
    )


#: The styles that are built, by the names of their cuts.
STYLES: Mapping[str, Style] = {cut.name: style_of(cut) for cut in NAMED}


class Glyph(Struct, frozen=True, kw_only=True):
    """One glyph in d: the pen's paths with the origin at the left of its advance, and the advance.

    ``pen`` is the diameter of the widest pen that draws it; ``left`` and ``right`` are where its ink begins and ends,
    both 0 for a space.
    """

    key: str
    strokes: tuple[Stroke, ...]
    advance: float
    pen: float
    left: float
    right: float


class Skeleton:
    """The face in one style; glyphs are drawn when asked for and kept."""

    def __init__(self, source: Source, style: Style) -> None:
        self.style = style
        self._source = source
        self._glyphs: dict[str, Glyph] = {}
        self._profiles: dict[str, spacing.Profile] = {}
        self._kerns: dict[tuple[str, str], float] = {}

    @property
    def keys(self) -> tuple[str, ...]:
        """Keys of all glyphs: characters, and names of forms that have no character of their own."""
        return tuple(self._source.glyphs)

    @property
    def pen(self) -> float:
        """Diameter of the pen in d."""
        return self.style.pen

    def has(self, key: str) -> bool:
        """Whether the face has this character or form."""
        return key in self._source.glyphs

    def glyph(self, key: str) -> Glyph:
        """The strokes and the advance of a character or form. Raises ``NoSuchGlyphError``."""
        if key not in self._glyphs:
            self._glyphs[key] = self._draw(self._written(key))
        return self._glyphs[key]

    def base(self, key: str) -> str:
        """The glyph whose kerning this one follows: a for á; itself where it stands alone."""
        return self._written(key).kern_like

    def kerning(self, first: str, second: str) -> float:
        """What to add to the advance of ``first`` before ``second``, in d. Raises ``NoSuchGlyphError``."""
        one, other = self._written(first), self._written(second)
        if not (one.kerned and other.kerned):
            return 0.0
        pair = one.kern_like, other.kern_like
        if pair not in self._kerns:
            self._kerns[pair] = self._kern(*pair)
        return self._kerns[pair]

    def strokes(self, text: str, cap_height: float) -> tuple[Stroke, ...]:
        """A line of text as pen paths in millimetres, kerned, from x = 0 on the base line y = 0.

        ``cap_height`` is the height of the flat capitals in mm, cutter width included: the cutter that belongs to
        it has the diameter ``cap_height * pen / 10``. Raises ``NoSuchGlyphError``.
        """
        scale = cap_height / CAP_HEIGHT
        placed: list[Stroke] = []
        x = 0.0
        for index, character in enumerate(text):
            glyph = self.glyph(character)
            if index > 0:
                x += self.kerning(text[index - 1], character)
            placed.extend(stroke.moved(Spot(x * scale, 0.0), scale) for stroke in glyph.strokes)
            x += glyph.advance
        return tuple(placed)

    def _written(self, key: str) -> GlyphSource:
        try:
            return self._source.glyphs[key]
        except KeyError:
            code = f" (U+{ord(key):04X})" if len(key) == 1 else ""
            raise NoSuchGlyphError(f"Panelart Plain has no glyph for {key!r}{code}") from None

    def _raw(self, written: GlyphSource) -> tuple[Stroke, ...]:
        def drawn(path: Path) -> Stroke:
            pen = min(self.style.pen * path.pen_share, path.pen)
            placed = path.mapped(lambda spot: self.style.place(spot, pen, form_kept=written.form_kept))
            return replace(placed.stroke(), pen=pen)

        return tuple(drawn(path) for path in written.paths)

    def _profile(self, key: str) -> spacing.Profile:
        if key not in self._profiles:
            lower = len(key) == 1 and key.islower()
            written = self._written(key)
            self._profiles[key] = spacing.profile(self._raw(written), 7.0 if lower else CAP_HEIGHT)
        return self._profiles[key]

    def _bearings(self, written: GlyphSource) -> tuple[float, float]:
        """Side bearings of a glyph that has ink and no advance of its own."""
        left, right = spacing.bearings(self._profile(written.kern_like), self.style.gap, self.style.pen)
        share = self.style.gap / DRAWN.gap
        fixed_left, fixed_right = written.sides
        return (
            left if fixed_left is None else fixed_left * share,
            right if fixed_right is None else fixed_right * share,
        )

    def _draw(self, written: GlyphSource) -> Glyph:
        strokes = self._raw(written)
        advance = (
            None
            if written.advance is None
            else ((written.advance - DRAWN.pen - DRAWN.gap) * self.style.widen + self.style.pen + self.style.gap)
        )
        if not strokes:
            return Glyph(
                key=written.key,
                strokes=(),
                advance=self._blank(written, advance),
                pen=self.style.pen,
                left=0.0,
                right=0.0,
            )
        shape = self._profile(written.key)
        if advance is not None:
            return _set(
                written.key,
                strokes,
                shape,
                (advance - (shape.right - shape.left)) / 2 + written.shift,
                advance,
            )
        left, right = self._bearings(written)
        base = self._profile(written.kern_like)
        # A mark wider than its letter must not stick out of the advance.
        minimum = spacing.MIN_BEARING * self.style.gap / 2.0
        before = max(left + shape.left - base.left, minimum)
        after = max(right + base.right - shape.right, minimum)
        return _set(written.key, strokes, shape, before, before + (shape.right - shape.left) + after)

    def _blank(self, written: GlyphSource, advance: float | None) -> float:
        """The width of a space: a thin one is the same share of that of words under every pen."""
        if written.advance is None or advance is None:
            return 0.0
        word = self.style.widen * (WORD_SPACE - DRAWN.pen - DRAWN.gap) + self.style.pen + self.style.gap
        return min(advance, written.advance / WORD_SPACE * word)

    def _kern(self, first: str, second: str) -> float:
        one, other = self._written(first), self._written(second)
        if not one.paths or not other.paths:
            return 0.0
        before, after = self._profile(first), self._profile(second)
        one_drawn, other_drawn = self.glyph(first), self.glyph(second)
        apart = one_drawn.advance - one_drawn.right + other_drawn.left
        return spacing.kerning(before, after, apart, self.style.gap, self.style.pen)


def _set(key: str, strokes: tuple[Stroke, ...], shape: spacing.Profile, left: float, advance: float) -> Glyph:
    """A glyph whose ink begins at ``left``."""
    by = Spot(left - shape.left, 0.0)
    return Glyph(
        key=key,
        strokes=tuple(stroke.moved(by) for stroke in strokes),
        advance=advance,
        pen=max(stroke.pen for stroke in strokes),
        left=left,
        right=left + shape.right - shape.left,
    )


@functools.cache
def load(style: str = "light", source: FilePath = SOURCE) -> Skeleton:
    """The face in one cut, by its name. Raises ``NoSuchStyleError``, ``SourceError``, ``FileNotFoundError``."""
    cut = cut_named(style)
    if cut is None:
        raise NoSuchStyleError(
            f"no style {style!r} of Panelart Plain; there are {', '.join(STYLES)} and others by h/8-0.9"
        )
    return Skeleton(_read(source), style_of(cut))


@functools.cache
def load_symbols(weight: str = "light") -> Skeleton:
    """The symbols by name, with the pen of a weight (``bold``, ``h/8``): they keep their width, a circle stays one.

    Raises as ``load`` does.
    """
    style = load(weight).style
    return Skeleton(_read(SOURCE / "symbols"), replace(style, widen=DRAWN.widen, pen=min(style.pen, WIDEST_OF_SYMBOLS)))


@functools.cache
def _read(source: FilePath) -> Source:
    return read_folder(source)
