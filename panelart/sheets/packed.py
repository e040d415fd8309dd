"""Rows of a table in tables beside each other, over pages: rows that belong together stay in one table."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from itertools import groupby
from typing import TypeVar

Row = TypeVar("Row")
Key = Callable[[Row], Hashable]
"""What rows that belong together have in common; such rows follow each other."""


def packed(rows: Sequence[Row], key: Key[Row], deepest: int, across: int) -> tuple[list[list[Row]], list[Row]]:
    """The rows in up to `across` tables of at most `deepest` rows, as even as they can be, and those that are left.

    Rows of one key are parted only where they are more than a table holds.
    """
    pieces = [piece for _, group in groupby(rows, key) for piece in _cut(list(group), deepest)]
    even = max(1, -(-len(rows) // across))
    for deep in range(min(even, deepest), deepest):
        tables, left = _filled(pieces, deep, across)
        if not left:
            return tables, left
    return _filled(pieces, deepest, across)


def _cut(rows: list[Row], deepest: int) -> list[list[Row]]:
    return [rows[start : start + deepest] for start in range(0, len(rows), deepest)]


def _filled(pieces: Sequence[list[Row]], deep: int, across: int) -> tuple[list[list[Row]], list[Row]]:
    """Tables filled one after another, and the rows that none had room for."""
    tables: list[list[Row]] = [[]]
    for number, piece in enumerate(pieces):
        if len(tables[-1]) + len(piece) > deep:
            if len(tables) == across or len(piece) > deep:
                return tables, [row for rest in pieces[number:] for row in rest]
            tables.append([])
        tables[-1] += piece
    return tables, []
