"""Lines of text reports: folded to a width, in columns, in colour."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import Final

from panelart.messages import Said

NARROWEST: Final = 40
"""No text is folded to less."""

ERROR: Final = "31"
WARNING: Final = "33"
NOTE: Final = "36"
PLACE: Final = "32"
BOLD: Final = "1"


def painted(text: Said, code: str, *, colour: bool) -> str:
    """A text in a colour of the terminal."""
    return f"\x1b[{code}m{text}\x1b[0m" if colour else str(text)


def folded(text: Said, width: int, first: str = "  ", later: str = "    ") -> list[str]:
    """A text in lines of a width, the first and the later ones indented."""
    return textwrap.wrap(
        str(text),
        max(width, NARROWEST),
        initial_indent=first,
        subsequent_indent=later,
        break_long_words=False,
        break_on_hyphens=False,
    )


def marked(shown: tuple[str, str] | None, *, colour: bool) -> Iterator[str]:
    """The lines of an excerpt, the caret in colour."""
    if shown is not None:
        line, caret = shown
        yield line
        yield f"{caret[:-1]}{painted(caret[-1], PLACE, colour=colour)}"


def columns(rows: Sequence[Sequence[Said]], right: frozenset[int] = frozenset()) -> list[str]:
    """Rows in columns, two apart, without blanks at their ends; those named in `right` are flush right."""
    cells = [[str(cell) for cell in row] for row in rows]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    return ["  ".join(_padded(cell, widths[at], at in right) for at, cell in enumerate(row)).rstrip() for row in cells]


def _padded(cell: str, width: int, right: bool) -> str:  # noqa: FBT001  # a column is flush right or it is not
    return cell.rjust(width) if right else cell.ljust(width)
