"""Which glyphs a font has of what is drawn, and what each two of them are moved by, in whole font units."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping

from panelart.lettering.face.edges import UNITS
from panelart.lettering.skeleton import Skeleton

FORMS = (".zero", ".dotted", ".numr", ".dnom")
"""What the keys of forms end with that are never kerned."""


def keys_of(skeleton: Skeleton) -> tuple[str, ...]:
    """The keys of the glyphs of a font in its order: characters, and forms of characters (``1.pnum``)."""
    return tuple(key for key in skeleton.keys if _of_character(key))


def _of_character(key: str) -> bool:
    return len(key) == 1 or (len(key.partition(".")[0]) == 1 and "." in key)


def families(skeleton: Skeleton, keys: Iterable[str]) -> dict[str, list[str]]:
    """The glyphs that kern as one base does, by the base."""
    found: dict[str, list[str]] = {}
    for key in keys:
        if not key.endswith(FORMS):
            found.setdefault(skeleton.base(key), []).append(key)
    return found


def alphabets(of_bases: Mapping[str, Iterable[str]]) -> dict[str, frozenset[str]]:
    """The alphabets that each base stands in; a drawing may serve several, as A does."""
    return {base: frozenset(map(script, members)) for base, members in of_bases.items()}


def kern(skeleton: Skeleton, first: str, second: str, scripts: Mapping[str, frozenset[str]]) -> int:
    """What two bases are moved by; letters of two alphabets never stand side by side."""
    one, other = scripts[first], scripts[second]
    return round(skeleton.kerning(first, second) * UNITS) if one & other or "" in one | other else 0


def kerns(skeleton: Skeleton, of_bases: Mapping[str, Iterable[str]]) -> dict[tuple[str, str], int]:
    """The kerning of each two bases."""
    scripts = alphabets(of_bases)
    return {
        (first, second): kern(skeleton, first, second, scripts)
        for first, second in itertools.product(of_bases, of_bases)
    }


def script(key: str) -> str:
    """The alphabet of a letter, or nothing for figures and signs."""
    character = key[0]
    if not character.isalpha():
        return ""
    code = ord(character)
    if 0x370 <= code <= 0x3FF:
        return "grek"
    return "cyrl" if 0x400 <= code <= 0x52F else "latn"
