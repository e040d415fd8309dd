"""The figures that words state: lengths, sizes, threads, and what is counted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.items import Item, items_of
from panelart.catalogue.vocabulary import Vocabulary, vocabulary

SAME: Final = 0.06
"""Millimetres by which a size may be rounded when it is said."""

_NUMBER_WORDS: Final[Mapping[str, int]] = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "ten": 10, "twelve": 12,
    "zwei": 2, "drei": 3, "deux": 2, "trois": 3, "dos": 2, "tres": 3, "due": 2, "tre": 3, "twee": 2, "drie": 3,
}  # fmt: skip


def is_count(word: str) -> bool:
    """Whether a word is a whole number, in figures or letters."""
    return word.isdecimal() or word in _NUMBER_WORDS


class Stated(Struct, frozen=True, kw_only=True):
    """The figures of some words, in mm: `lengths` with a unit, bare `numbers`, `sizes` of two sides, `threads`.

    `bodies` are lengths of the body behind the panel, of parts that are called by it, `elsewhere` those of a shaft, a
    sheet, a pitch. `exact` sizes have a unit or are too large to be a count. `counts` are numbers by what they may
    count (positions, poles, ways, digits, turns). `amps` are currents.
    """

    lengths: tuple[float, ...] = ()
    numbers: tuple[float, ...] = ()
    sizes: tuple[tuple[float, float, bool], ...] = ()
    threads: tuple[str, ...] = ()
    bodies: tuple[float, ...] = ()
    elsewhere: tuple[float, ...] = ()
    counts: tuple[tuple[tuple[str, ...], int], ...] = ()
    amps: tuple[float, ...] = ()

    @property
    def dimensions(self) -> tuple[float, ...]:
        """All that may be a length."""
        return (*self.lengths, *self.numbers, *(side for *sides, _ in self.sizes for side in sides))


def stated_in(text: str) -> Stated:
    """The figures in a text, as the title of an entry."""
    return stated_by(items_of(text))


def in_trade(length: float) -> tuple[float, ...]:
    """A length as said, and what the trade means by it where that differs, in mm."""
    return (length, *(meant for said, meant in vocabulary().trade_sizes if abs(said - length) < SAME))


def stated_by(items: Sequence[Item]) -> Stated:
    """The figures of a text's items."""
    known = vocabulary()
    counts = tuple(_counted(items, known))
    told = [(_is_elsewhere(items, at, known), _is_length(items, at), value) for at, value in _dimensions(items, known)]
    figures = [(is_length, value) for elsewhere, is_length, value in told if not elsewhere]
    return Stated(
        lengths=tuple(value for is_length, value in figures if is_length),
        numbers=tuple(value for is_length, value in figures if not is_length),
        sizes=tuple(_sizes(items)),
        threads=tuple(_threads(items)),
        elsewhere=tuple(value for elsewhere, _, value in told if elsewhere),
        counts=(*counts, *_thrown(items, known)),
        amps=tuple(_amps(items)),
    )


def _amps(items: Iterable[Item]) -> Iterator[float]:
    """Currents in amperes."""
    return (value for name, value in items if name == "amps" and isinstance(value, float))


def _sizes(items: Iterable[Item]) -> Iterator[tuple[float, float, bool]]:
    """Sizes of two sides in mm, and whether they are no count: 20 x 10 mm."""
    return (value for name, value in items if name == "size" and isinstance(value, tuple))


def _threads(items: Iterable[Item]) -> Iterator[str]:
    """Threads by their designation: M3."""
    return (str(value) for name, value in items if name == "thread")


def _counted(items: Sequence[Item], known: Vocabulary) -> Iterator[tuple[tuple[str, ...], int]]:
    """What is counted and how many there are of it."""
    for at, (name, value) in enumerate(items):
        if name == "positions" and isinstance(value, int):
            yield ("positions",), value
        counted = known.counts.get(_word_after(items, at))
        if counted is None:
            continue
        if name == "number" and isinstance(value, float) and value.is_integer():
            yield counted, int(value)
        elif name == "word" and value in _NUMBER_WORDS:
            yield counted, _NUMBER_WORDS[str(value)]


def _dimensions(items: Sequence[Item], known: Vocabulary) -> Iterator[tuple[int, float]]:
    """The places and values of figures that may be sizes: no counts."""
    for at, (name, value) in enumerate(items):
        if name not in ("length", "inches", "number") or not isinstance(value, float):
            continue
        after = _word_after(items, at)
        if name != "number" or after not in known.counts or not value.is_integer():
            yield at, value


def _is_elsewhere(items: Sequence[Item], at: int, known: Vocabulary) -> bool:
    """Whether a figure is not the part's own: of its shaft, of the sheet."""
    before = str(items[at - 1][1]) if at else ""
    last = at + 2 if items[at][0] == "inches" else at  # the two figures of a fraction stand behind it as words
    return before in known.elsewhere or _word_after(items, last) in known.elsewhere


def _is_length(items: Sequence[Item], at: int) -> bool:
    """Whether a figure has the unit of a length, or a sign of diameter before it."""
    return items[at][0] == "length" or _word_after(items, at) == "mm" or _diameter_before(items, at)


def _thrown(items: Sequence[Item], known: Vocabulary) -> Iterator[tuple[tuple[str, ...], int]]:
    """The positions of a switch that are named one after another, on and off by turns."""
    named: list[str] = []
    for name, value in (*items, ("end", None)):
        if name == "mark":
            continue
        if name == "word" and value in known.throws and named[-1:] != [value]:
            named.append(str(value))
            continue
        if len(named) > 1:
            yield ("positions",), len(named)
        named = []


def _word_after(items: Sequence[Item], at: int) -> str:
    """The word behind an item, past a hyphen: 9-pin."""
    for name, value in items[at + 1 : at + 3]:
        if name == "word":
            return str(value)
        if name != "mark":
            break
    return ""


def _diameter_before(items: Sequence[Item], at: int) -> bool:
    return at > 0 and items[at - 1][0] == "mark" and items[at - 1][1] in ("ø", "Ø", "⌀")
