"""Stretches of a text that are lettered in a way of their own, or that the writer says are a unit or a word.

A span says which characters of the plain text it covers; the text itself carries no marks, so that it can be shown,
searched and read aloud as it is. Breaking a text into lines at its spaces keeps its length and with it the spans; where
a word is broken they move (`breaks.broken`).
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from typing import Final

from panelart.canonical import Struct


class Manner(Enum):
    """What is done with the characters of a span; the value is the word that the spec writes in braces."""

    SUPER = "super"
    SUB = "sub"
    BAR = "bar"
    FRACTION = "fraction"
    SMALL = "small"
    UNIT = "unit"
    WORD = "word"
    """What the writer says that the characters are; they are lettered as all others."""
    HYPHENATION = "hyphenation"
    """A span of no characters, where a word may be broken. The spec writes a soft hyphen for it."""
    OPENING = "opening"
    """A span of no characters, where a line may end without a hyphen. The spec writes a zero-width space for it."""
    DIVISION = "division"
    """A span of no characters, where a dictionary says that a word may be broken; turned to last of all."""


POINTS: Final = frozenset({Manner.HYPHENATION, Manner.OPENING, Manner.DIVISION})
"""Manners of spans that hold no characters."""


_LETTERED: Final = frozenset(Manner) - POINTS - {Manner.UNIT, Manner.WORD}
"""Manners that change how characters are drawn."""


class Span(Struct, frozen=True):
    """Characters `start` up to, not including, `stop` of a text."""

    start: int
    stop: int
    manner: Manner

    def __lt__(self, other: Span) -> bool:
        return (self.start, -self.stop, self.manner.value) < (other.start, -other.stop, other.manner.value)

    def part_in(self, start: int, stop: int) -> Span | None:
        """What of the span lies within a piece of the text, counted from that piece's start."""
        first, last = max(self.start, start), min(self.stop, stop)
        return Span(first - start, last - start, self.manner) if first < last else None


def without_points(spans: Sequence[Span]) -> tuple[Span, ...]:
    """The spans that hold characters."""
    return tuple(span for span in spans if span.manner not in POINTS)


def manners_at(spans: Sequence[Span], length: int) -> list[tuple[Manner, ...]]:
    """For each character the manners that it is drawn in, the outermost span first."""
    ordered = sorted(span for span in spans if span.manner in _LETTERED)
    return [tuple(span.manner for span in ordered if span.start <= index < span.stop) for index in range(length)]
