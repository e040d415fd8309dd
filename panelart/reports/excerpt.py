"""The line of a file that a message points at, with a caret under the place, as compilers show it."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterator
from typing import Final, TypeAlias

from panelart.diagnostics import Where

Source: TypeAlias = Callable[[Where], str | None]
"""The line at a place, or None where there is none to show."""

TAB: Final = 4
ELLIPSIS: Final = "…"
NUMBER_WIDTH: Final = 5
"""Columns of the line number, so that the bars of most excerpts are below each other."""

_AHEAD: Final = 3
"""A clipped line keeps this part of the width, a third of it, behind the place."""


def no_source(_: Where) -> str | None:
    """For readers who have no files at hand."""
    return None


def excerpt(where: Where, source: Source, width: int) -> tuple[str, str] | None:
    """The line with its number, and below it the caret; both within `width` columns. None without a line.

    Tabs are shown as blanks, signs that a terminal would obey or not show as the replacement character. Of a line that
    is too long the part round the place is shown.
    """
    line = source(where)
    if line is None or not line.strip():
        return None
    gutter = f"{where.line:>{NUMBER_WIDTH}} | "
    shown, caret = _clipped(tuple(_cells(line)), where.column - 1, max(width - len(gutter), 2 * TAB))
    blank = f"{'':>{NUMBER_WIDTH}} | "
    return f"{gutter}{shown}".rstrip(), f"{blank}{'':>{caret}}^"


def _cells(line: str) -> Iterator[tuple[str, int]]:
    """What is shown for every character, and its columns."""
    column = 0
    for character in line:
        shown = character
        if character == "\t":
            shown = " " * (TAB - column % TAB)
            wide = len(shown)
        elif unicodedata.combining(character) or unicodedata.category(character) in ("Mn", "Me"):
            wide = 0
        elif not character.isprintable():
            shown, wide = "\N{REPLACEMENT CHARACTER}", 1
        else:
            wide = 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1
        column += wide
        yield shown, wide


def _clipped(cells: tuple[tuple[str, int], ...], at: int, width: int) -> tuple[str, int]:
    """The line within a width, and the column of the caret in it."""
    at = max(0, min(at, len(cells)))
    if sum(wide for _, wide in cells) <= width:
        return "".join(shown for shown, _ in cells), sum(wide for _, wide in cells[:at])
    first, taken = at, 0
    while first > 0 and taken + cells[first - 1][1] <= width - width // _AHEAD - 1:
        first -= 1
        taken += cells[first][1]
    before = ELLIPSIS if first > 0 else ""
    caret = len(before) + taken
    last, taken = at, caret
    while last < len(cells) and taken + cells[last][1] <= width - 1:
        taken += cells[last][1]
        last += 1
    after = ELLIPSIS if last < len(cells) else ""
    return before + "".join(shown for shown, _ in cells[first:last]) + after, caret
