"""How the columns of a component list were read, shown with rows of the list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from panelart.messages import component_lists_answers as said

if TYPE_CHECKING:
    from panelart.lists.answers import Answers
    from panelart.lists.columns import Column
    from panelart.lists.listed import ComponentList
    from panelart.messages import Said

LONGEST: Final = 28
"""Characters of a cell that are shown."""


def columns_shown(listed: ComponentList, answered: Answers) -> Iterator[Said]:
    """Every column with its letter, what it is, its heading and its cells in three rows; which were remembered."""
    from panelart.lists.remembered import folded_headings

    columns = [one for one in listed.columns.columns if one.head or any(_cells(one, listed))]
    yield said.columns_shown([row.number for row in listed.samples])
    yield from _table([_line(column, listed) for column in columns])
    kept = [f"{column.role}={column.head}" for column in columns if column.by == "remembered"]
    if kept:
        known = answered.columns[folded_headings(column.head for column in columns)]
        yield said.columns_remembered(kept, known.file)


def _cells(column: Column, listed: ComponentList) -> list[str]:
    return [_short(row.cell(column.at)) for row in listed.samples]


def _line(column: Column, listed: ComponentList) -> tuple[str, str, str, str]:
    """Letter, meaning, heading and cells of a column."""
    from panelart.texts.letter_numbers import in_letters

    cells = " | ".join(_cells(column, listed))
    return in_letters(column.at), column.role or str(said.column_unused()), _short(column.head), cells


def _table(lines: Sequence[tuple[str, str, str, str]]) -> Iterator[str]:
    """Lines with their pieces below each other."""
    wide = [max(map(len, pieces)) for pieces in zip(*lines, strict=True)]
    for line in lines:
        yield "  ".join(["", *(piece.ljust(width) for piece, width in zip(line, wide, strict=True))]).rstrip()


def _short(text: str) -> str:
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 1].rstrip()}…"
