"""A text as runs: stretches that each mean one thing. Joined, they are the text again, character by character."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.texts.quantities import Alternatives, Factor, Number, Quantity, Range, Ratio, Size
from panelart.texts.ratings import Duty, FuseRating, Nature, Protection, SupplyRating
from panelart.texts.units import UNITS, Unit
from panelart.texts.words import FUNCTIONS, SPELT, TO, WITHIN, listed


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
    symbol: IΔn), form (of a time or a date), name (of mixed case), formula (of a substance), sensor, category (of
    measurement, of cables), poles (of a switch) or class (of pipes, wires,
    explosion protection, safety).
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
        kept = [
            (run.start, run.end)
            for run in self.runs
            if not isinstance(run.means, _LOOSE)
            and not (isinstance(run.means, Unsure) and all(isinstance(each, Word) for each in run.means.readings))
        ]
        joined = joined_runs(self)
        within = [each for each in kept if not any(start <= each[0] and each[1] <= stop for start, stop in joined)]
        return tuple(sorted((*within, *joined)))

    def statements(self) -> tuple[tuple[int, int], ...]:
        """The text in stretches without a gap: its runs, and for runs that are one statement all of them."""
        joined = joined_runs(self)
        runs = [(run.start, run.end) for run in self.runs]
        alone = [each for each in runs if not any(start <= each[0] and each[1] <= stop for start, stop in joined)]
        return tuple(sorted((*alone, *joined)))

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
        return (*spans, *joined_runs(self), *self._named_in_units())

    def _named_in_units(self) -> Iterator[tuple[int, int]]:
        """What a value is and the unit that it is in: Current in A, Weg in mm."""
        for number in range(4, len(self.runs)):
            name, leads, unit = (self.runs[at] for at in (number - 4, number - 2, number))
            written = leads.means.text if isinstance(leads.means, Word) else ""
            if (
                isinstance(unit.means, LoneUnit)
                and isinstance(name.means, Word)
                and (written if len(written) == 1 else written.lower()) in WITHIN
                and self._on_one_line(number - 1)
                and self._on_one_line(number - 3)
            ):
                yield name.start, unit.end

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


# --- statements of several runs

_AMOUNTS: Final = (Quantity, Range, Alternatives)
_VALUES: Final = (*_AMOUNTS, SupplyRating, Number, Unsure)
_DASHES: Final = frozenset("-–−—…")
_RELATIONS: Final = frozenset("=≈≤≥<>:")
_PARALLEL: Final = frozenset(["||", "∥", "‖"])
_SHARES: Final = frozenset(["%", "‰", "ppm", "% rdg", "% FS"])
_LAST_FIGURES: Final = frozenset(
    listed("digit digits dgt dgts dig counts count cts lsb lsd d ziffern dígitos chiffres cifre знака разрядов")
)
"""What the second part of an accuracy counts: 0.5 % + 2 digits (common practice of meters)."""

_LONGEST_NAME: Final = 3
"""Letters of a name that stands beside another in parallel: R || C, R1 || R2."""


def joined_runs(text: Text) -> tuple[tuple[int, int], ...]:
    """Stretches of several runs that are one statement, which no line ends within and no direction parts.

    A value and its tolerance, what lies in parallel, an accuracy with its last figures, hours from and to, a letter
    symbol with its value, a category of measurement with its voltage.
    """
    runs = [run for run in text.runs if not isinstance(run.means, Space)]
    found: list[tuple[int, int]] = []
    number = 0
    while number < len(runs):
        last = number
        while (following := _next_of(text, runs, last)) is not None:
            last = following
        if last > number:
            found.append((_with_sign(text, runs[number]), runs[last].end))
        number = last + 1
    return tuple(found)


def _with_sign(text: Text, run: Run) -> int:
    """Where a run begins, with the sign of what is without end."""
    signed = _is_endless(run.means) and text.text[run.start - 1 : run.start] in tuple(_ENDS)
    return run.start - signed


_ENDS: Final = "-−+±"


def _is_endless(means: Meaning) -> bool:
    return isinstance(means, Symbol) and means.text == "∞"


def _next_of(text: Text, runs: list[Run], number: int) -> int | None:
    """Which run goes on with the statement that a run begins or is part of; None where it ends."""
    run = runs[number]
    if number + 1 >= len(runs) or (isinstance(run.means, Mark | Symbol) and not _is_endless(run.means)):
        return None
    following = runs[number + 1]
    if "\n" in text.text[run.end : following.start]:
        return None
    if _goes_on(text, run, following):
        return number + 1
    sign, behind = _sign_behind(text, runs, number)
    if not sign or behind >= len(runs) or "\n" in text.text[run.end : runs[behind].start]:
        return None
    return _by_sign(text, runs, number, sign, behind)


def _goes_on(text: Text, run: Run, following: Run) -> bool:
    """Whether a run goes on with the one before it without a sign between."""
    if _is_endless(run.means) and isinstance(following.means, LoneUnit):
        return True
    counted = isinstance(run.means, Range) and run.means.symmetric and _counts_figures(text, following)
    return counted or _is_tolerance(text, run, following) or _is_valued(run, following)


def _by_sign(text: Text, runs: list[Run], number: int, sign: str, behind: int) -> int | None:
    """Which run a sign leads to."""
    means, other = runs[number].means, runs[behind].means
    if sign != "+":
        return behind if _joins(sign, means, other) else None
    share = isinstance(means, Quantity) and means.unit.symbol in _SHARES
    if not share or not isinstance(other, Number | Quantity):
        return None
    counts = runs[behind + 1] if behind + 1 < len(runs) else None
    return behind + 1 if counts is not None and _counts_figures(text, counts) else behind


def _joins(sign: str, means: Meaning, other: Meaning) -> bool:
    """Whether a sign makes one statement of what stands on both sides of it."""
    if sign in _PARALLEL:
        return _may_be_parallel(means) and _may_be_parallel(other)
    if sign in _DASHES:
        return _is_span(means, other)
    if sign in _RELATIONS:
        return (_is_named(means) or _is_endless(means)) and isinstance(other, _VALUES)
    return sign == "@" and isinstance(means, (*_AMOUNTS, LoneUnit)) and isinstance(other, _AMOUNTS)


def _is_span(means: Meaning, other: Meaning) -> bool:
    """Whether a dash leads from one to the other: hours, and what is without end at one end."""
    if isinstance(means, Clock) or isinstance(other, Clock):
        return isinstance(means, Clock) and isinstance(other, Clock)
    ends = _is_endless(means), _is_endless(other)
    return any(ends) and all(end or isinstance(each, _VALUES) for end, each in zip(ends, (means, other), strict=True))


def _counts_figures(text: Text, run: Run) -> bool:
    """Whether a run counts the last figures of a display: digits."""
    return text.written(run).lower() in _LAST_FIGURES


def _sign_behind(text: Text, runs: list[Run], number: int) -> tuple[str, int]:
    """The sign of marks and symbols behind a run, and the run behind that."""
    sign, at = "", number + 1
    while at < len(runs) and len(sign) < 2 and isinstance(runs[at].means, Mark | Symbol):
        sign += text.written(runs[at])
        at += 1
    return sign, at


def _is_tolerance(text: Text, run: Run, other: Run) -> bool:
    """Whether a run is the tolerance of the value before it: 24 V ±5 %, 230 V +10 % -15 %."""
    means, tolerance = run.means, other.means
    if isinstance(tolerance, Range) and tolerance.symmetric:
        return isinstance(means, (*_AMOUNTS, SupplyRating, Number))
    signed = text.written(other)[0] in "+-−" and isinstance(tolerance, Quantity) and tolerance.unit.symbol == "%"
    return signed and isinstance(means, (Quantity, SupplyRating)) and other.start > run.end


def _is_valued(run: Run, other: Run) -> bool:
    """Whether a run is the value of a letter symbol or a category before it: Un 230 V, cosφ 0.9, CAT III 600 V."""
    return _is_named(run.means) and isinstance(other.means, (*_AMOUNTS, SupplyRating, Number)) and other.start > run.end


def _is_named(means: Meaning) -> bool:
    return isinstance(means, Designation) and means.kind in ("quantity", "category")


def _may_be_parallel(means: Meaning) -> bool:
    if isinstance(means, Word | Designation):
        return len(means.text) <= _LONGEST_NAME
    return isinstance(means, (*_AMOUNTS, Number, Unsure))
