"""Texts in the cells of comma-separated values, so that no spreadsheet takes one for a formula.

A text that begins with = + - or @ is worked out when the file is opened; with an apostrophe before it, it is shown. Tab
and carriage return are passed over there and count as well. What is a number stays one. Source: common practice
(formula injection in CSV).
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

_GUARD: Final = "'"
_OF_NUMBERS: Final = frozenset("0123456789+-.eE")
_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r")


def guarded(cell: object) -> str:
    """A cell as it is written: a text that a spreadsheet would work out has an apostrophe before it."""
    text = str(cell)
    return f"{_GUARD}{text}" if _is_worked_out(text.lstrip(_GUARD)) else text


def guarded_row(cells: Iterable[object]) -> list[str]:
    """The cells of a row as they are written."""
    return [guarded(cell) for cell in cells]


def unguarded(cell: str) -> str:
    """The text of a cell as it was before `guarded`."""
    return cell[1:] if cell.startswith(_GUARD) and _is_worked_out(cell.lstrip(_GUARD)) else cell


def _is_worked_out(text: str) -> bool:
    return text.startswith(_FORMULA) and not _is_number(text)


def _is_number(text: str) -> bool:
    if not _OF_NUMBERS.issuperset(text):
        return False
    try:
        float(text)
    except ValueError:
        return False
    return True
