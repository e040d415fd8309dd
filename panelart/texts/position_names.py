"""What the names of positions say beside figures and brackets, and which of two is more: OFF and ON 24 V, OFF (O)."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from typing import Final

from panelart.texts.characters import folded
from panelart.texts.opposites import Opposite, at_rest, is_middle, opposite
from panelart.texts.quantities import Alternatives, Factor, Number, Quantity, Range, Ratio, Size
from panelart.texts.ratings import SupplyRating
from panelart.texts.runs import Mark, Run, Space, Text

_AMOUNTS: Final = Number | Quantity | Range | Alternatives | Size | Ratio | Factor | SupplyRating
_OPENING: Final = "(["
_CLOSING: Final = ")]"
_ON_AND_OFF: Final = ("I", "O")
"""IEC 60417-5007 and -5008, as letters are typed for them."""


def opposite_names(first: Text, second: Text, language: str = "") -> tuple[Opposite, int] | None:
    """The pair that the names of two positions are, as `opposite` has it, whatever else stands with them.

    The names as they are written come first, then without what is in brackets, without amounts, and without the words
    that both have: Pump on, Pump off; Hi-Z, Lo-Z.
    """
    for one, other in itertools.product(_forms(first), _forms(second)):
        found = opposite(one, other, language)
        if found is not None:
            return found
    apart = _told_apart(_words(first), _words(second))
    return None if apart is None else opposite(*apart, language)


def rests(name: Text) -> bool:
    """Whether a position of this name is the one at rest: OFF (O)."""
    return any(map(at_rest, _forms(name)))


def lies_between(name: Text) -> bool:
    """Whether a position of this name lies between less and more: Med (5 s)."""
    return any(map(is_middle, _forms(name)))


def _forms(name: Text) -> tuple[str, ...]:
    """A name as it is written, without what is in brackets, and in words alone."""
    outside = "".join(name.written(run) for run in _outside(name)).strip()
    return tuple(form for form in dict.fromkeys((name.text, outside, " ".join(_words(name)))) if form)


def _outside(name: Text) -> Iterator[Run]:
    """The runs that no brackets hold."""
    depth = 0
    for run in name.runs:
        written = name.written(run) if isinstance(run.means, Mark) else ""
        depth += sum(sign in _OPENING for sign in written)
        if depth == 0:
            yield run
        depth -= sum(sign in _CLOSING for sign in written)


def _words(name: Text) -> list[str]:
    """What is said outside brackets besides amounts, signs and the marks of on and off."""
    said = [name.written(run) for run in _outside(name) if not isinstance(run.means, Space | Mark | _AMOUNTS)]
    words = [each for each in said if any(map(str.isalpha, each)) and each not in _ON_AND_OFF]
    return words or said


def _told_apart(first: Sequence[str], second: Sequence[str]) -> tuple[str, str] | None:
    """What is left of two names without the words of both; None where that is nothing, or letters that are names."""
    pieces = [[folded(piece) for word in words for piece in word.split("-")] for words in (first, second)]
    shared = set(pieces[0]) & set(pieces[1])
    left = [" ".join(piece for piece in each if piece not in shared) for each in pieces]
    if not shared or not all(_is_word(each) for each in left):
        return None
    return left[0], left[1]


def _is_word(text: str) -> bool:
    """Whether a text is no letter or figure of a series, as those of Bank I and Bank O are."""
    return len(text) > 1 or (text.isalpha() and not text.isascii())
