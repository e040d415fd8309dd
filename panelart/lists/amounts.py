"""Cells that hold amounts: how many, the sides of a knob, the ends of a scale; what they mean is asked of `texts`."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from typing import Final, TypeAlias

from panelart.catalogue.asked import HELD_BY, spelled
from panelart.catalogue.vocabulary import known_words, pieces, vocabulary
from panelart.lists.words import words
from panelart.texts.parse import parse
from panelart.texts.quantities import Alternatives, Number, Quantity, Range, Ratio, Size
from panelart.texts.runs import Meaning, Positions, Text, Unsure
from panelart.texts.units import UNITS

_COUNTED: Final = (
    "pieces", "pcs.", "stk.", "pcs", "pc.", "off", "stk", "st.", "pc", "st", "adet", "szt.", "szt", "ks", "uds.", "uds",
    "ud.", "ud", "pz.", "pz", "個", "x", "×",
)  # fmt: skip
_LENGTH: Final = UNITS["m"].dimension
End: TypeAlias = tuple[float, str | None]
"""A value and the symbol of its unit, None where none is written."""

_BY: Final = ("x", "X", "×", "*", "/", "Ø", "ø", "o")


_LONGEST: Final = 5
"""Words of the longest count in words: a pair of the same."""


def counted(text: str) -> int | None:
    """How many a cell says: 4, 4 pcs, x4, 4,0, three more, ein Paar; None for what is no whole number."""
    return _in_figures(text) if any(map(str.isdecimal, text)) else _in_words(pieces(text))


def counted_first(text: str, named: Collection[str]) -> int | None:
    """How many the beginning of a description says, in words or as 3x; None where it says nothing.

    `named` are the words that name the part, in the vocabulary's spelling. A number of something else is none: two
    positions, ten segments.
    """
    first, _, rest = text.strip().partition(" ")
    if first[:1].isdecimal():
        unit, _, behind = rest.partition(" ")
        is_count = first[-1:] in ("x", "×") or (first.isdecimal() and behind and unit.casefold() in _COUNTED)
        return _in_figures(first) if is_count else None
    said = pieces(text)
    length = next((at for at, word in enumerate(said) if not _counts(word)), len(said))
    return _in_words(said[:length]) if said[length:] and _is_counted(said, length, named) else None


def _is_counted(said: Sequence[str], at: int, named: Collection[str]) -> bool:
    """Whether the words before a place count what is named behind it: the next word, or one in the plural."""
    if said[at] in vocabulary().counts or said[at] in HELD_BY or said[at - 1] not in words().numerals:
        return said[at - 1] not in words().numerals and said[at] not in vocabulary().counts
    plural = (word for word in said[at:] if word.endswith("s") and word not in known_words())
    return not set(named).isdisjoint(spelled(said[at])) or any(
        not set(named).isdisjoint(spelled(one)) for one in plural
    )


def _counts(word: str) -> bool:
    """Whether a word may stand in a count in words: a pair of, three more, noch zwei."""
    return word in words().numerals or word in words().silent or word in vocabulary().concepts


def _in_words(said: Sequence[str]) -> int | None:
    """The number that words are, one by one of them a numeral: two pairs; None for other words."""
    numbers = [words().numerals[word] for word in said if word in words().numerals]
    if not numbers or len(said) > _LONGEST or not all(map(_counts, said)):
        return None
    return math.prod(numbers)


def _in_figures(text: str) -> int | None:
    bare = "".join(text.casefold().split())
    for word in _COUNTED:
        if bare.endswith(word):
            bare = bare.removesuffix(word)
            break
    whole, _, rest = bare.removeprefix("x").removeprefix("×").replace(",", ".").partition(".")
    return int(whole) if whole.isdecimal() and not rest.strip("0") else None


def sides(text: str) -> tuple[float, float | None]:
    """The diameter and the height in mm of a knob, 22 or 22 x 16 mm; 0 where the cell says no such thing."""
    read = parse(" ".join(text.removeprefix("o").replace("mm", " ").split()))
    found: list[float] = []
    for run in read.runs:
        size = _lengths(run.means)
        if not size and read.written(run).strip() and read.written(run) not in _BY:
            return 0.0, None
        found += size
    if len(found) not in (1, 2):
        return 0.0, None
    return found[0], found[1] if len(found) == 2 else None


def _lengths(means: Meaning) -> list[float]:
    """Millimetres; what has no unit is in millimetres."""
    match means:
        case Number(value=value, prefix=""):
            return [float(value)]
        case Ratio(first=first, second=second):
            return [float(first), float(second)]
        case Quantity(dimension=dimension, count=count) if dimension == _LENGTH and count == 1:
            return [means.base * 1000.0]
        case Size(sides=each, unit=unit):
            share = 1.0 if unit is None else unit.factor * 1000.0
            return [round(float(side) * share, 9) for side in each]
        case _:
            return []


def ends(text: str) -> tuple[float, float, str] | None:
    """The ends of a scale and its unit as it is written; None for what has no two ends, or two units."""
    found = _two_ends(parse(text))
    if found is None:
        return None
    (low, first), (high, second) = found
    return None if first is not None and second not in (None, first) else (low, high, _unit(text))


def _two_ends(read: Text) -> tuple[End, End] | None:
    """The only two values of a text, if something joins them and nothing stands before."""
    found: list[End] = []
    joined = False
    for run in read.runs:
        values, written = _values(run.means), read.written(run)
        if not values and not _may_stand(written, len(found)):
            return None
        joined = joined or len(values) == 2 or (len(found) == 1 and _joins(written))
        found += values
    return (found[0], found[1]) if joined and len(found) == 2 else None


def _may_stand(written: str, behind: int) -> bool:
    """Whether what is no value may stand behind so many values: no figures, and nothing but blanks before the first."""
    return not any(map(str.isdecimal, written)) and (behind > 0 or not written.strip())


def _joins(written: str) -> bool:
    return written.strip("-–—….,/~") != written or written in ("to", "bis")


def _values(means: Meaning) -> list[End]:
    """The values of a run with their units."""
    match means:
        case Unsure(readings=readings):
            return next((values for each in readings if (values := _values(each))), [])
        case Number(value=value):
            return [(float(value), None)]
        case Quantity(value=value, unit=unit, count=1):
            return [(float(value), unit.symbol)]
        case Positions(names=(first, second)) if (first + second).isdecimal():
            return [(float(first), None), (float(second), None)]
        case Range(low=low, high=high):
            return [*_values(low), *_values(high)]
        case Alternatives(values=(low, high)):
            return [*_values(low), *_values(high)]
        case Ratio(first=first, second=second, sign="/"):
            return [(float(first), None), (float(second), None)]
        case _:
            return []


def _unit(text: str) -> str:
    """What stands behind the last figure, else behind the first number."""
    last = max(at for at, character in enumerate(text) if character.isdecimal())
    behind = text[last + 1 :].strip()
    if behind:
        return behind
    first = text.lstrip("+-−0123456789.,").lstrip()
    stop = min((at for sign in " \u00a0-–—….,/~" if (at := first.find(sign)) >= 0), default=len(first))
    unit = first[:stop]
    return "" if unit in ("to", "bis") or any(map(str.isdecimal, unit)) else unit
