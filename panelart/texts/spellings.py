"""Symbols of units in wrong letters: Khz for kHz, uF for µF, where a quantity or brackets show that a unit is meant."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from panelart.texts.characters import LETTER
from panelart.texts.quantities import Alternatives, Quantity, Range
from panelart.texts.ratings import SupplyRating
from panelart.texts.runs import LoneUnit, Text, Unsure
from panelart.texts.unit_reading import loose
from panelart.texts.units import NAMES, UNITS

_BEHIND: Final = re.compile(rf"(?<=\d)[ \u00a0\u2009\u202f]?({LETTER}+)(?!\w)")
_COUNTED: Final = frozenset({"PH", "Ph"})
"""What counts and measures nothing: 3 PH are three phases."""
_MEASURED: Final = (Quantity, Range, Alternatives, SupplyRating)


def unit_meant(word: str) -> str | None:
    """The symbol that a misspelt one stands for: kHz for Khz, µF for uF; None for what is right or no symbol.

    Only symbols with a capital, Ω or µ count: small letters alone may be a word in capitals.
    """
    unit = UNITS.get(word)
    if unit is not None:
        return unit.symbol if word.startswith("u") and unit.symbol.startswith("µ") else None
    found = None if word.lower() in NAMES or word in _COUNTED else loose(word, 0, counted=True)
    if found is None or found[0] != len(word):
        return None
    symbol = found[1][0].symbol
    return symbol if symbol != word and any(letter.isupper() or letter in "Ωµ" for letter in symbol) else None


def misspelt(text: Text) -> tuple[tuple[str, str], ...]:
    """Symbols in wrong letters with those that are meant, each once."""
    pairs = ((word, unit_meant(word)) for word in dict.fromkeys(_symbols(text)))
    return tuple((word, meant) for word, meant in pairs if meant is not None)


def _symbols(text: Text) -> Iterator[str]:
    """What stands as a unit: behind the numbers of quantities, and within brackets."""
    for run in text.runs:
        means = run.means.readings[0] if isinstance(run.means, Unsure) else run.means
        if isinstance(means, _MEASURED):
            found = _BEHIND.findall(text.written(run))
            # One small letter behind a number is as often a revision or a wire count, unless it is all that is said.
            alone = text.written(run).strip(" =~") == text.text.strip(" =~")
            yield from (word for word in found if alone or len(word) > 1 or word.isupper() or word == "v")
        elif isinstance(means, LoneUnit) and text.bracketed(run):
            yield text.written(run)
