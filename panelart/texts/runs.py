"""A text as runs: stretches that each mean one thing. Joined, they are the text again, character by character."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.texts.quantities import Alternatives, Factor, Number, Quantity, Range, Ratio, Size
from panelart.texts.ratings import Duty, FuseRating, Nature, Protection, SupplyRating
from panelart.texts.units import UNITS, Unit
from panelart.texts.words import FUNCTIONS, SPELT, TO


class Word(Struct, frozen=True):
    """A word or a letter of any language; `told` where the writer says that it is one."""

    text: str
    told: bool = False


class Space(Struct, frozen=True):
    """Spaces and line ends."""


class Mark(Struct, frozen=True):
    """Punctuation and brackets."""


class Symbol(Struct, frozen=True):
    """A sign that is no letter: an arrow, a symbol of IEC 60417."""

    text: str


class LoneUnit(Struct, frozen=True):
    """A unit without a number: V/div."""

    unit: Unit


class Designation(Struct, frozen=True):
    """A name by a system or as its owner writes it.

    `kind` is thread, connector, interface, standard, terminal, reference, model, version, code, quantity (a letter
    symbol: IΔn), form (of a time or a date) or name (of mixed case).
    """

    kind: str
    text: str


class Kind(Struct, frozen=True):
    """A kind of current on its own: AC, DC, ⎓."""

    nature: Nature


class Positions(Struct, frozen=True):
    """The positions of a switch in order: 1-0-2."""

    names: tuple[str, ...]


class Clock(Struct, frozen=True):
    """A time of the day or a count of time: 12:30."""

    text: str


class Date(Struct, frozen=True):
    """A date of the calendar."""

    text: str


Certain: TypeAlias = (
    Word
    | Space
    | Mark
    | Symbol
    | LoneUnit
    | Designation
    | Kind
    | Positions
    | Clock
    | Date
    | Number
    | Quantity
    | Range
    | Alternatives
    | Size
    | Ratio
    | Factor
    | FuseRating
    | SupplyRating
    | Protection
    | Duty
)
"""What a run may mean."""


class Unsure(Struct, frozen=True):
    """What may be one thing or another; the more usual first."""

    readings: tuple[Certain, ...]


Meaning: TypeAlias = Certain | Unsure


class Run(Struct, frozen=True):
    """A stretch of a text, `start` to before `end`, and what it means."""

    start: int
    end: int
    means: Meaning


def _is_quantity(means: Meaning) -> bool:
    return isinstance(means, Designation) and means.kind == "quantity"


_LOOSE = (Word, Space, Mark, Symbol)
"""What case, direction and breaking treat as they treat any text."""


_SHARED: Final = frozenset({"k", "m"})
"""Prefixes that capitals would make another of, or a unit."""


class Text(Struct, frozen=True):
    """A text with its runs, which cover it without a gap."""

    text: str
    runs: tuple[Run, ...]

    def written(self, run: Run) -> str:
        """The characters of a run."""
        return self.text[run.start : run.end]

    def kept(self) -> tuple[tuple[int, int], ...]:
        """Stretches that case never changes: all but words; what is unsure stands as written.

        The word between the values of a range is a word, 1 to 10 V, and so is a unit that is spelt as one, 5 Min.
        """
        return tuple(span for run in self._unchanged() for span in self._but_to(run))

    def _unchanged(self) -> Iterator[Run]:
        before: Meaning | None = None
        for run in self.runs:
            # 5-10 k: the prefix that both values have.
            shared = isinstance(before, Range) and isinstance(run.means, Word) and run.means.text in _SHARED
            if shared or not isinstance(run.means, _LOOSE):
                yield run
            before = before if isinstance(run.means, Space) else run.means

    def _but_to(self, run: Run) -> Iterator[tuple[int, int]]:
        """A run without its words: those that lead from value to value, with blanks on both sides, and units spelt."""
        start = at = run.start
        for piece in self.written(run).split(" "):
            leads = at + len(piece) < run.end and piece in TO
            if at > start and (leads or self._is_spelt(run, piece)):
                yield start, at
                start = at + len(piece)
            at += len(piece) + 1
        if start < run.end:
            yield start, run.end

    def _is_spelt(self, run: Run, piece: str) -> bool:
        """Whether a unit behind a number is written as a word and not by its symbol: 5 Min, 12 volts."""
        if isinstance(run.means, Unsure) or piece.lower() not in SPELT:
            return False
        return piece not in UNITS

    def isolated(self) -> tuple[tuple[int, int], ...]:
        """Stretches that read from left to right within text of either direction, and are never broken.

        What is unsure is isolated where one of its readings is.
        """
        return tuple(
            (run.start, run.end)
            for run in self.runs
            if not isinstance(run.means, _LOOSE)
            and not (isinstance(run.means, Unsure) and all(isinstance(each, Word) for each in run.means.readings))
        )

    def unbroken(self) -> tuple[tuple[int, int], ...]:
        """Stretches that no line ends within: the isolated ones, and a unit with the word or number before it."""
        spans: list[tuple[int, int]] = []
        for number, run in enumerate(self.runs):
            if number >= 2 and self._on_one_line(number - 1) and self._goes_on_with(number):
                before = self.runs[number - 2]
                start = spans.pop()[0] if spans and spans[-1][1] == before.end else before.start
                spans.append((start, run.end))
            elif not isinstance(run.means, _LOOSE):
                spans.append((run.start, run.end))
        return tuple(spans)

    def _goes_on_with(self, number: int) -> bool:
        """Whether a run is a unit, behind a number what may be one, or a symbol with its function or value.

        Current A, BUS 48 V, cos φ, IΔn 30 mA.
        """
        means, before = self.runs[number].means, self.runs[number - 2].means
        if _is_quantity(means) or _is_quantity(before):
            of_function = isinstance(before, Word) and before.text.lower() in FUNCTIONS
            return of_function or isinstance(means, Quantity | Range | LoneUnit)
        if isinstance(means, LoneUnit) or not isinstance(self.runs[number - 2].means, Number):
            return isinstance(means, LoneUnit)
        if isinstance(means, Unsure):
            return any(isinstance(each, LoneUnit) for each in means.readings)
        return isinstance(means, Word) and not means.told and means.text in UNITS

    def _on_one_line(self, number: int) -> bool:
        """Whether a run is a space that ends no line."""
        run = self.runs[number]
        return isinstance(run.means, Space) and "\n" not in self.written(run)

    def unsure(self) -> tuple[Run, ...]:
        """Runs that may mean one thing or another."""
        return tuple(run for run in self.runs if isinstance(run.means, Unsure))

    def bracketed(self, run: Run) -> bool:
        """Whether a run is all that a pair of brackets holds."""
        return self.text[: run.start].endswith(("(", "[")) and self.text[run.end :].startswith((")", "]"))

    def meanings(self) -> Iterator[Meaning]:
        """What the runs mean, without spaces and punctuation."""
        return (run.means for run in self.runs if not isinstance(run.means, Space | Mark))
