"""Answers in a workbook: a sheet with a row for each candidate, one of them marked, and one with the rows asked about.

Two sheets, so that any program that saves workbooks may have been between: what is matched stands in cells of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.diagnostics import Problem, SpecError, Where
from panelart.lists.answered import MEASURE, NOT_ON_PANEL, OPEN, Given
from panelart.lists.columns import is_yes
from panelart.lists.tables import Row, Table, read_tables
from panelart.messages import component_lists_answers as said
from panelart.source.problems import Problems

QUESTION: Final = "question"
NUMBER: Final = "number"
ANSWER: Final = "answer"
PART: Final = "part"
WORDS: Final = "words"
ORDER: Final = "order"
"""The headings that the two sheets are read by."""

_MARKS: Final = frozenset({"x", "✓", "✔", "ok"})
"""What marks a candidate, beside words for yes. A number is that of a candidate, in whatever row it stands."""


class _Asked(Struct):
    """A question as the workbook has it: its candidates in their order, what was answered in which cells."""

    candidates: list[str]
    marked: list[tuple[Where, str]]


def is_workbook(data: bytes) -> bool:
    """Whether bytes are those of a workbook: XLSX, ODS, XLS."""
    return data.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0"))


def read_book(data: bytes, file: str, problems: Problems) -> list[Given]:
    """The answers of a workbook. Raises SpecError for one that has no questions."""
    tables = read_tables(data, file, lambda _: 0)
    asked = next((at for table in tables if (at := _below(table, (QUESTION, NUMBER, PART, ANSWER)))), None)
    rows = next((at for table in tables if (at := _below(table, (QUESTION, WORDS, ORDER)))), None)
    if asked is None or rows is None:
        raise SpecError([Problem(where=Where(file, 1, 1), says=said.no_answer_book(), accepts=said.answer_books())])
    return list(_given(_questions(file, *asked), *rows, problems))


def _below(table: Table, heads: Sequence[str]) -> tuple[Mapping[str, int], Sequence[Row]] | None:
    """The columns with these headings and the rows below; None where some are missing."""
    for number, row in enumerate(table.rows):
        found = {cell.casefold(): at for at, cell in reversed(list(enumerate(row.cells)))}
        if all(head in found for head in heads):
            return {head: found[head] for head in heads}, table.rows[number + 1 :]
    return None


def _questions(file: str, at: Mapping[str, int], rows: Sequence[Row]) -> dict[str, _Asked]:
    """The questions by their numbers, each with what is marked or written beside its candidates."""
    found: dict[str, _Asked] = {}
    number = ""
    for row in rows:
        number = row.cell(at[QUESTION]) or number
        asked = found.setdefault(number, _Asked(candidates=[], marked=[]))
        part, answer = row.cell(at[PART]), row.cell(at[ANSWER])
        if part and part not in (MEASURE, NOT_ON_PANEL):
            asked.candidates.append(part)
        if answer and answer != OPEN:
            marks = answer.casefold() in _MARKS or is_yes(answer)
            where = Where(file, row.number, at[ANSWER] + 1)
            asked.marked.append((where, part if marks and part else answer))
    return found


def _given(
    asked: Mapping[str, _Asked], at: Mapping[str, int], rows: Sequence[Row], problems: Problems
) -> Iterator[Given]:
    """What is answered to each question, with the words and order numbers of its rows."""
    for number, one in asked.items():
        if not one.marked:
            continue
        where, answer = one.marked[0]
        if len({text for _, text in one.marked}) > 1:
            problems.add(where, said.answered_twice(number), said.answer_once())
            continue
        own = [each for each in rows if each.cell(at[QUESTION]) == number]
        yield Given(
            words=tuple(text for each in own if (text := each.cell(at[WORDS]))),
            numbers=tuple(text for each in own if (text := each.cell(at[ORDER]))),
            candidates=tuple(one.candidates),
            answer=answer,
            where=where,
        )
