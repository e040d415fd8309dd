"""Fonts made small for embedding: one instance, the glyphs that are used, and nothing that is not needed."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from panelart.lettering.fonts import Embedding, Font

if TYPE_CHECKING:
    import uharfbuzz as hb

_LAYOUT: Final = ("GSUB", "GPOS", "GDEF", "kern", "morx", "mort", "kerx", "BASE", "JSTF", "MATH")
_NEVER_NEEDED: Final = ("DSIG", "gasp", "meta", "VDMX", "hdmx", "LTSH", "PCLT", "FFTM")


def may_embed(font: Font, *, to_change: bool) -> bool:
    """Whether a font's maker lets it be embedded in a file, `to_change` in one that can be edited."""
    if to_change:
        return font.embedding is Embedding.FREE
    return font.embedding is not Embedding.NEVER


def glyphs_alone(font: Font, numbers: Iterable[int]) -> bytes:
    """A font with the glyphs of these numbers, which keep them; no layout, no characters.

    All glyphs stay where the font's maker allows no subsets (fsType bit 8). The same glyphs give the same bytes.
    """
    return _glyphs_alone(font, tuple(sorted(set(numbers))))


@lru_cache(maxsize=64)
def _glyphs_alone(font: Font, numbers: tuple[int, ...]) -> bytes:
    if not isinstance(font.source, bytes):
        return font.source.alone(numbers)
    import uharfbuzz as hb

    wanted = _input(font)
    wanted.flags |= hb.SubsetFlags.NOTDEF_OUTLINE | hb.SubsetFlags.NO_LAYOUT_CLOSURE | hb.SubsetFlags.NO_HINTING
    wanted.glyph_set.update(set(numbers) if font.may_be_subset else set(range(font.face.face.glyph_count)))
    wanted.unicode_set.clear()
    wanted.drop_table_tag_set.update(_tags(*_LAYOUT, *_NEVER_NEEDED, "cmap", "post", "OS/2", "name"))
    return bytes(wanted.subset(font.face.face).blob.data)


def characters_alone(font: Font, text: str) -> bytes:
    """A font with what is needed to set the characters of a text, as other programs do it by themselves."""
    wanted = _input(font)
    if font.may_be_subset:
        wanted.unicode_set.update({ord(letter) for letter in text})
    else:
        wanted.unicode_set.invert()
    wanted.drop_table_tag_set.update(_tags(*_NEVER_NEEDED))
    return bytes(wanted.subset(font.face.face).blob.data)


def _tags(*names: str) -> set[int]:
    """Names of tables as the numbers that they are in a file."""
    return {int.from_bytes(name.ljust(4).encode("ascii"), "big") for name in names}


def _input(font: Font) -> hb.SubsetInput:
    import uharfbuzz as hb

    wanted = hb.SubsetInput()
    wanted.flags = hb.SubsetFlags.RETAIN_GIDS | hb.SubsetFlags.DOWNGRADE_CFF2
    if font.axes:
        wanted.pin_all_axes_to_default(font.face.face)
        for tag, place in font.instance:
            wanted.pin_axis_location(font.face.face, tag, place)
    return wanted
