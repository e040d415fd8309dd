"""Answers to the questions about lists, as they are read from files that are kept.

An answer holds wherever its words or its order number come up again: a house keeps one file for all its lists. Beside
the answers stand what columns are by the headings of a list, and the room that is kept for parts not yet decided.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.catalogue.vocabulary import pieces
from panelart.lists.answer_book import is_workbook, read_book
from panelart.lists.answer_record import (
    ARE,
    COLUMNS,
    ROOMS,
    SPEC,
    Place,
    given_in,
    headings_of,
    places_of,
    read_record,
)
from panelart.lists.answered import decided
from panelart.lists.remembered import NOTHING, Headings, Remembered
from panelart.source.problems import Problems
from panelart.source.schema import Fields

NO_ROOMS: Final[Mapping[str, Mapping[str, Place]]] = MappingProxyType({})


class Answers(Struct, frozen=True, kw_only=True):
    """Names of parts by folded words and by order numbers; ``NOT_ON_PANEL``, ``MEASURE`` for what is none of them.

    `columns` are those of lists by their folded headings, `rooms` the places kept for open parts by spec and ref, mm.
    """

    by_words: Mapping[tuple[str, ...], str]
    by_number: Mapping[str, str]
    columns: Headings = field(default_factory=lambda: NOTHING)
    rooms: Mapping[str, Mapping[str, Place]] = field(default_factory=lambda: NO_ROOMS)

    def of(self, texts: Sequence[str], number: str) -> str | None:
        """The answer to a row, by its order number, else by its words."""
        by_number = self.by_number.get(number.casefold()) if number else None
        return by_number or self.by_words.get(folded(texts))

    @property
    def given(self) -> bool:
        """Whether anything is said that a user has decided."""
        return bool(self.by_words or self.by_number or self.columns)


NONE: Final = Answers(by_words={}, by_number={})
"""No answers."""


def read_answers(files: Iterable[tuple[bytes, str]], names: Sequence[str]) -> Answers:
    """The answers of files, by content and name; a later file goes before an earlier one.

    A file is YAML, or a workbook as ``answer_book`` reads it. `names` are those of all parts. Raises SpecError for
    what is no file of answers, and for unknown parts.
    """
    by_words: dict[tuple[str, ...], str] = {}
    by_number: dict[str, str] = {}
    columns: dict[tuple[str, ...], Remembered] = {}
    rooms: dict[str, Mapping[str, Place]] = {}
    problems = Problems()
    for data, file in files:
        if is_workbook(data):
            given = read_book(data, file, problems)
        else:
            record = read_record(data, file, problems)
            given = [] if record is None else [*given_in(record)]
            if record is not None:
                columns |= _columns_of(record.value, file)
                rooms |= _rooms_of(record.value)
        for one in given:
            part = decided(one, names, problems)
            if part is None:
                continue
            by_words |= {folded([text]): part for text in one.words}
            by_number |= {number.casefold(): part for number in one.numbers}
    problems.raise_any()
    return Answers(by_words=by_words, by_number=by_number, columns=columns, rooms=rooms)


def _columns_of(fields: Fields, file: str) -> dict[tuple[str, ...], Remembered]:
    return {
        headings_of(one.value): Remembered(are={key.value: of.value for key, of in one.value[ARE] or ()}, file=file)
        for one in fields[COLUMNS] or ()
    }


def _rooms_of(fields: Fields) -> dict[str, Mapping[str, Place]]:
    return {one.value[SPEC] or "": places_of(one.value) for one in fields[ROOMS] or ()}


def folded(texts: Iterable[str]) -> tuple[str, ...]:
    """Words as they are compared: capitals and signs do not count."""
    return tuple(piece for text in texts for piece in pieces(text))
