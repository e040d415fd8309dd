"""The centre lines of our own face: what an engraver's cutter follows, and what the fonts are grown from.

``load`` takes a style name to a ``Skeleton``: for a character its strokes as lines and arcs, its advance, and the
kerning of a pair; ``strokes`` sets a line of text as open pen paths in millimetres. Lengths inside are in d, a tenth
of the capital height h, until a capital height is given (ISO 3098-0 type B: d = h / 10).
"""

from __future__ import annotations

import functools
from collections.abc import Mapping
from pathlib import Path as FilePath

from panelart.canonical import Struct
from panelart.lettering.face import spacing
from panelart.lettering.face.curves import Arc, Line, Piece, Spot, Stroke
from panelart.lettering.face.source import GlyphSource, Source, SourceError, read_folder

__all__ = [
    "CAP_HEIGHT",
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


#: Regular follows ISO 3098-0 type B: pen d, gap 2 d. The others are ours.
STYLES: Mapping[str, Style] = {
    "regular": Style(name="regular", pen=1.0, widen=1.0, gap=2.0),
    "bold": Style(name="bold", pen=1.5, widen=1.06, gap=2.2),
    "narrow": Style(name="narrow", pen=1.0, widen=0.76, gap=1.7),
}


class Glyph(Struct, frozen=True, kw_only=True):
    """One glyph in d: the pen's paths with the origin at the left of its advance, and the advance.

    ``pen`` is the diameter of the pen that draws it; ``left`` and ``right`` are where its ink begins and ends, both
    0 for a space.
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
        pen = self._pen(written)

        def placed(spot: Spot) -> Spot:
            return self.style.place(spot, pen, form_kept=written.form_kept)

        return tuple(path.mapped(placed).stroke() for path in written.paths)

    def _pen(self, written: GlyphSource) -> float:
        return min(self.style.pen * written.pen_share, written.pen)

    def _profile(self, key: str) -> spacing.Profile:
        if key not in self._profiles:
            lower = len(key) == 1 and key.islower()
            written = self._written(key)
            self._profiles[key] = spacing.profile(self._raw(written), self._pen(written), 7.0 if lower else CAP_HEIGHT)
        return self._profiles[key]

    def _bearings(self, written: GlyphSource) -> tuple[float, float]:
        """Side bearings of a glyph that has ink and no advance of its own."""
        left, right = spacing.bearings(self._profile(written.kern_like), self.style.gap, self.style.pen)
        share = self.style.gap / STYLES["regular"].gap
        fixed_left, fixed_right = written.sides
        return (
            left if fixed_left is None else fixed_left * share,
            right if fixed_right is None else fixed_right * share,
        )

    def _draw(self, written: GlyphSource) -> Glyph:
        strokes = self._raw(written)
        regular = STYLES["regular"]
        advance = (
            None
            if written.advance is None
            else ((written.advance - regular.pen - regular.gap) * self.style.widen + self.style.pen + self.style.gap)
        )
        if not strokes:
            return Glyph(key=written.key, strokes=(), advance=advance or 0.0, pen=self.style.pen, left=0.0, right=0.0)
        shape = self._profile(written.key)
        if advance is not None:
            return _set(
                written.key,
                strokes,
                shape,
                self._pen(written),
                (advance - (shape.right - shape.left)) / 2 + written.shift,
                advance,
            )
        left, right = self._bearings(written)
        base = self._profile(written.kern_like)
        # A mark wider than its letter must not stick out of the advance.
        minimum = spacing.MIN_BEARING * self.style.gap / 2.0
        before = max(left + shape.left - base.left, minimum)
        after = max(right + base.right - shape.right, minimum)
        return _set(
            written.key, strokes, shape, self._pen(written), before, before + (shape.right - shape.left) + after
        )

    def _kern(self, first: str, second: str) -> float:
        one, other = self._written(first), self._written(second)
        if not one.paths or not other.paths:
            return 0.0
        before, after = self._profile(first), self._profile(second)
        one_drawn, other_drawn = self.glyph(first), self.glyph(second)
        apart = one_drawn.advance - one_drawn.right + other_drawn.left
        return spacing.kerning(before, after, apart, self.style.gap, self.style.pen)


def _set(
    key: str, strokes: tuple[Stroke, ...], shape: spacing.Profile, pen: float, left: float, advance: float
) -> Glyph:
    """A glyph whose ink begins at ``left``."""
    by = Spot(left - shape.left, 0.0)
    return Glyph(
        key=key,
        strokes=tuple(stroke.moved(by) for stroke in strokes),
        advance=advance,
        pen=pen,
        left=left,
        right=left + shape.right - shape.left,
    )


@functools.cache
def load(style: str = "regular", source: FilePath = SOURCE) -> Skeleton:
    """The face in one style. Raises ``NoSuchStyleError``, ``SourceError``, ``FileNotFoundError``."""
    if style not in STYLES:
        raise NoSuchStyleError(f"no style {style!r} of Panelart Plain; there are {', '.join(STYLES)}")
    return Skeleton(_read(source), STYLES[style])


@functools.cache
def _read(source: FilePath) -> Source:
    return read_folder(source)
