"""Symbols of units in wrong letters: Khz for kHz, Mbar for mbar, where a quantity or brackets show a unit.

A u for µ is what a keyboard has, and means the same: `signs` offers the sign.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from panelart.texts.characters import LETTER
from panelart.texts.quantities import Alternatives, Quantity, Range
from panelart.texts.ratings import SupplyRating
from panelart.texts.runs import LoneUnit, Run, Text, Unsure
from panelart.texts.unit_reading import exact, loose
from panelart.texts.units import FOLDED, NAMES, PREFIXES, UNITS, Unit
from panelart.texts.words import EITHER, PLAIN

_BEHIND: Final = re.compile(rf"(?<=\d)[ \u00a0\u2009\u202f]?({LETTER}+(?:/{LETTER}+)?)(?!\w)")
_COUNTED: Final = frozenset({"PH", "Ph"})
"""What counts in a rating and measures nothing: 3 PH are three phases."""

_MEASURED: Final = (Quantity, Range, Alternatives, SupplyRating)


def unit_meant(word: str) -> str | None:
    """The symbol that a misspelt one stands for: kHz for Khz, µF for uF; None for what is right or no symbol.

    Symbols of small letters alone count only where they have a prefix and the word is not all in capitals, since it may
    be a word otherwise: Mbar and Kg, but neither MIN nor Bar. Names of units are words: ohm, volts, sec; a capital K
    before one is none of them, and degC is no name. DIV is a division of a screen in capitals as well.
    """
    if _is_right(word):
        return None
    unit = _unit_of(word)
    if unit is None or unit.symbol in (word, word.replace("/DIV", "/div")):
        return None
    marked = any(letter.isupper() or letter in "Ωµ°" for letter in unit.symbol)
    prefixed = not word.isupper() and word.lower() not in EITHER | PLAIN and bool(unit.parts[0].prefix)
    return unit.symbol if marked or prefixed else None


def _is_right(word: str) -> bool:
    """Whether a word is a unit in its proper form, of one factor or of several, or the name of one."""
    proper = exact(word, 0)
    named = word.lower() in NAMES and not _is_stand_in(word)
    return word in UNITS or named or (proper is not None and proper[0] == len(word))


def _is_stand_in(word: str) -> bool:
    """Whether a name is no word but stands for a symbol: KOHM, degC."""
    return word[:1] == "K" or word.lower() in ("degc", "degf")


def _unit_of(word: str) -> Unit | None:
    found = loose(word, 0, counted=True)
    return None if found is None or found[0] != len(word) else found[1][0]


def mistakable(written: str, meant: str) -> bool:
    """Whether a symbol in wrong letters may be taken for another: Mhz for mHz, Mbar for a million bars; Khz is kHz."""
    pairs = zip(written.split("/"), meant.split("/"), strict=False)
    return any(_may_be_another(one, other) for one, other in pairs if one != other)


def _may_be_another(written: str, meant: str) -> bool:
    unit = UNITS.get(meant)
    prefix = "" if unit is None else unit.parts[0].prefix
    another = not written.isupper() and bool(prefix) and written[0] in PREFIXES and written[0] != prefix[0]
    alike = {each.parts[0].prefix for each in FOLDED.get(written.lower(), ())}
    return another or {"m", "M"} <= alike


def misspelt(text: Text) -> tuple[tuple[str, str], ...]:
    """Symbols in wrong letters with those that are meant, each once."""
    pairs = ((word, unit_meant(word)) for word in dict.fromkeys(_symbols(text)))
    return tuple((word, meant) for word, meant in pairs if meant is not None)


def _symbols(text: Text) -> Iterator[str]:
    """What stands as a unit: behind the numbers of quantities, and within brackets."""
    for run in text.runs:
        means = run.means.readings[0] if isinstance(run.means, Unsure) else run.means
        if isinstance(means, _MEASURED):
            counted = _COUNTED if isinstance(means, SupplyRating) else frozenset()
            yield from (word for word in _behind_numbers(text, run) if word not in counted)
        elif isinstance(means, LoneUnit) and text.bracketed(run):
            yield text.written(run)


def _behind_numbers(text: Text, run: Run) -> Iterator[str]:
    """What stands behind the numbers of a run.

    One small letter is as often a revision or a wire count, unless the run is all that is said.
    """
    written = text.written(run)
    alone = written.strip(" =~") == text.text.strip(" =~")
    for word in _BEHIND.findall(written):
        if alone or len(word) > 1 or word.isupper() or word == "v":
            yield word
