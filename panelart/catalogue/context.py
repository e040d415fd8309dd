"""What an entry of a catalogue file is read with: its row, its sources, and where its problems go."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from types import TracebackType
from typing import Final, TypeVar

from msgspec import field

from panelart import units
from panelart.canonical import Struct
from panelart.catalogue import table
from panelart.catalogue.formula import FormulaError, worked_out
from panelart.catalogue.table import WordKind, Written
from panelart.diagnostics import Where, did_you_mean
from panelart.figure import Figure, Known
from panelart.messages import Said
from panelart.messages import catalogue as said
from panelart.messages import source_schema as of_source
from panelart.source.problems import Problems
from panelart.source.schema import Field, Fields, Value, decimal

LARGEST: Final = 1e6
"""The largest number that is accepted: a kilometre, or the square millimetres of a square metre."""

EITHER_SIGN: Final = frozenset({"turn", "passes_turn", "x", "y"})
"""Dimensions that may be less than zero."""

_MAY_BE_NOTHING: Final = frozenset({"projection", "depth", "radius", "minimum", "travel"})
"""Dimensions that may be zero: a face that is flush, a corner that is sharp."""

_BRACES: Final = re.compile(r"\{([^{}]*)\}")


T = TypeVar("T")


class UnusableError(Exception):
    """The entry, or this piece of it, cannot be made; why is among the problems."""


class Standing(Struct, frozen=True, kw_only=True):
    """Where figures come from and how far they may be trusted, until something closer to them says otherwise."""

    sources: tuple[str, ...]
    known: Known


GIVEN: Final = Standing(sources=(str(said.own_figure()),), known=Known.GIVEN)


class EntryContext(Struct, frozen=True, kw_only=True):
    """What one entry is made with: its sources and motions by name, the columns of its row, and where problems go.

    `row` is None outside a family, where braces in texts are braces; `numbers` are the columns that hold numbers
    and `entry` is the name that the row makes.
    """

    sources: Mapping[str, str]
    problems: Problems
    motions: Mapping[str, Fields] = field(default_factory=dict)
    row: Mapping[str, str] | None = None
    numbers: Mapping[str, float] = field(default_factory=dict)
    entry: str = ""

    def refuse(self, where: Where, message: Said, hint: Said = "") -> UnusableError:
        """Note a problem of this entry and give the exception to raise."""
        self.problems.add(where, said.of_entry(self.entry, message) if self.entry else message, hint)
        return UnusableError()

    def refuse_all(self, where: Where, message: Said, hint: Said = "") -> UnusableError:
        """Note a problem that all entries of a family share, so that it is told once."""
        self.problems.add(where, message, hint)
        return UnusableError()

    def number(self, amount: str) -> float:
        """The number that an amount stands for, in mm or in its own unit."""
        assert isinstance(amount, Written)
        value = self._worked_out(amount)
        if abs(value) > LARGEST:
            raise self.refuse(amount.where, said.value_too_large(value), said.numbers_up_to(LARGEST))
        return value

    def _worked_out(self, amount: Written) -> float:
        plain = decimal(amount)
        if plain is not None:
            return plain
        try:
            return round(units.length(amount), 6)
        except units.UnitError as not_a_length:
            point = amount.replace(",", ".", 1)
            if decimal(point) is not None:
                raise self.refuse_all(amount.where, not_a_length.says, of_source.decimal_point(point)) from None
            if self.row is None:
                raise self.refuse_all(amount.where, not_a_length.says, not_a_length.accepts) from None
        try:
            return round(worked_out(amount, self.numbers), 6)
        except FormulaError as error:
            raise self.refuse_all(amount.where, error.says, error.accepts or "") from None

    def text(self, text: str, where: Where) -> str:
        """A text with the columns in braces filled in."""
        if self.row is None:
            return text
        unknown = [name for name in _BRACES.findall(text) if name not in self.row]
        if unknown:
            hint = did_you_mean(unknown[0], self.row, said.columns())
            raise self.refuse_all(where, said.unknown_column(f"{{{unknown[0]}}}"), hint)
        row = self.row
        return _BRACES.sub(lambda match: row[match[1]], text)

    def word(self, word: str, kind: WordKind) -> str:
        """One of the words of a kind; '' where a column leaves it empty."""
        assert isinstance(word, Written)
        filled = self.text(word, word.where)
        if not filled:
            return ""
        judged = kind.judged(Written.at(filled, word.where), self.problems)
        if judged is None:
            raise UnusableError
        return judged

    def standing(self, fields: Fields, above: Standing) -> Standing:
        """The source and standing written here, or those above."""
        source, known = fields[table.SOURCE], fields[table.STANDING]
        if source is not None:
            above = Standing(sources=self._named(source, fields.where(table.SOURCE)), known=above.known)
        if known is not None:
            above = Standing(sources=above.sources, known=Known(self.word(known, table.KNOWN)))
        return above

    def _named(self, source: str | tuple[Value[str], ...], where: Where) -> tuple[str, ...]:
        """The sources by their keys, in order, each once; a column may leave one empty."""
        written = (source,) if isinstance(source, str) else tuple(item.value for item in source)
        filled = (self.text(text, where) for text in written)
        return tuple(dict.fromkeys(self.sources.get(text, text) for text in filled if text))

    def figure(self, name: str, written: object, above: Standing, unit: str = "mm") -> Figure:
        """A dimension as written, a bare amount or a record, with its standing."""
        if isinstance(written, Written):
            return Figure(name=name, value=self.number(written), sources=above.sources, known=above.known, unit=unit)
        assert isinstance(written, Fields)
        amount = written[table.VALUE]
        if amount is None:
            raise UnusableError
        standing = self.standing(written, above)
        value = self.number(amount)
        span = self._pair(written[table.SPAN])
        if span is not None and not span[0] <= value <= span[1]:
            raise self.refuse(
                written.where(table.SPAN),
                said.value_outside_span(value, *span),
                said.accepted_span(),
            )
        tolerance = self.deviations(written, table.TOLERANCE)
        if tolerance is not None:
            self._require_sense(name, value, tolerance, written.where(table.TOLERANCE))
        return Figure(
            name=name,
            value=value,
            sources=standing.sources,
            known=standing.known,
            unit=unit,
            tolerance=tolerance,
            span=span,
        )

    def deviations(self, written: Fields, field: Field[tuple[Value[str], ...]]) -> tuple[float, float] | None:
        """Limit deviations (minus, plus) as written under a key; None where they are not."""
        tolerance = self._pair(written[field])
        if tolerance is not None and not tolerance[0] <= tolerance[1]:
            raise self.refuse(written.where(field), said.deviations_reversed(*tolerance), said.accepted_deviations())
        if tolerance == (0, 0):
            raise self.refuse(written.where(field), said.band_of_nothing(), said.band_or_none())
        return tolerance

    def _require_sense(self, name: str, value: float, tolerance: tuple[float, float], where: Where) -> None:
        """Refuse deviations that make nothing of a dimension, or that do not have it between its limits."""
        lowest, highest = round(value + tolerance[0], 6), round(value + tolerance[1], 6)
        if value > 0 and (lowest < 0 or (lowest == 0 and name not in _MAY_BE_NOTHING)) and name not in EITHER_SIGN:
            told = said.lower_limit(name, value, tolerance[0], lowest)
            raise self.refuse(where, told, said.deviations_not_limits())
        if lowest <= value <= highest:
            return
        if tolerance[0] > value / 2:  # the limits themselves, where deviations stand
            lowest, highest = tolerance
        nominal = value if lowest <= value <= highest else round((lowest + highest) / 2, 6)
        hint = said.write_within_limits(nominal, round(lowest - nominal, 6), round(highest - nominal, 6))
        raise self.refuse(where, said.outside_own_limits(name, value, *tolerance), hint)

    def pair(self, amounts: tuple[Value[str], ...]) -> tuple[float, float]:
        """Two numbers. Raises UnusableError when one of them was left out because of its problem."""
        if len(amounts) != 2:
            raise UnusableError
        first, second = (self.number(amount.value) for amount in amounts)
        return first, second

    def _pair(self, amounts: tuple[Value[str], ...] | None) -> tuple[float, float] | None:
        return None if amounts is None else self.pair(amounts)


class Pieces:
    """Tries the pieces of an entry one after another, so that the problems of all are told and not of the first alone.

    A piece that cannot be made is passed over until `raise_any`; nothing made before that may be used.
    """

    def __init__(self) -> None:
        self._failed = False

    def __enter__(self) -> None:
        """Try a piece."""

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> bool:
        """Pass over an UnusableError."""
        if isinstance(error, UnusableError):
            self._failed = True
            return True
        return False

    def raise_any(self) -> None:
        """Raise UnusableError when a piece could not be made."""
        if self._failed:
            raise UnusableError


def each(items: Iterable[Value[Fields]] | None, make: Callable[[Fields], Iterable[T]]) -> tuple[T, ...]:
    """What is made of each item, in order. Raises UnusableError after all have been tried."""
    pieces = Pieces()
    made: list[T] = []
    for item in items or ():
        with pieces:
            made += make(item.value)
    pieces.raise_any()
    return tuple(made)


def line_of(fields: Fields, field: Field[str], context: EntryContext) -> str:
    """A text on one line, '' where it is left out."""
    text = fields[field]
    return "" if text is None else " ".join(context.text(text, fields.where(field)).split())


def lines_of(listed: tuple[Value[str], ...] | None, context: EntryContext) -> tuple[str, ...]:
    """Texts in their order, each once, without those that a column leaves empty."""
    filled = (context.text(item.value, item.where).strip() for item in listed or ())
    return tuple(dict.fromkeys(text for text in filled if text))


def figure_of(fields: Fields, field: Field[object], standing: Standing, context: EntryContext) -> Figure:
    """A dimension that must be there. Raises UnusableError."""
    written = fields[field]
    if written is None:
        raise UnusableError
    return context.figure(field.name, written, standing)
