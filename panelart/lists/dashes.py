"""Dashes in a column of legends: the sign of a terminal beside its plus, or what stands for no legend.

The column decides. Beside the plus of a like part a dash is a sign. Where cells are left empty it is one beside the
figure of a like part too, and so is any that is no hyphen: none is said by nothing there. Where no cell is empty,
dashes fill those without a legend.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.vocabulary import pieces

DASHES: Final = frozenset({"-", "–", "—", "−"})
"""Hyphen, en dash, em dash, minus."""

_HYPHEN: Final = "-"
_PLUS: Final = frozenset({"+", "±"})
_SIGNS: Final = "+-–−± "
_LONGEST: Final = 8
"""Characters of the longest figure with its sign and unit: +12.5 V."""

_WORD: Final = 3
"""Letters of the shortest word by which parts are alike: a red and a black socket."""


class LegendCell(Struct, frozen=True, kw_only=True):
    """What a row of a part has in a column of legends, and what it says of its part."""

    row: int
    text: str
    part: str

    @property
    def is_dash(self) -> bool:
        """Whether it is a dash alone."""
        return self.text in DASHES


def signs(cells: Sequence[LegendCell]) -> frozenset[int]:
    """The rows whose dash is a legend; `cells` are those of all parts of a column, in order, empty ones too."""
    full = all(cell.text for cell in cells)
    return frozenset(cell.row for at, cell in enumerate(cells) if cell.is_dash and _is_sign(cells, at, full=full))


def _is_sign(cells: Sequence[LegendCell], at: int, *, full: bool) -> bool:
    """Whether a dash is a legend; `full` says that no cell of its column is empty."""
    cell = cells[at]
    beside = [cells[near] for near in (at - 1, at + 1) if 0 <= near < len(cells)]
    alike = [one.text for one in beside if not _words(one).isdisjoint(_words(cell))]
    if full:
        return not _PLUS.isdisjoint(alike)
    return cell.text != _HYPHEN or any(text in _PLUS or _is_figure(text) for text in alike)


def _is_figure(text: str) -> bool:
    return len(text) <= _LONGEST and text.lstrip(_SIGNS)[:1].isdecimal()


def _words(cell: LegendCell) -> set[str]:
    return {word for word in pieces(cell.part) if word.isalpha() and len(word) >= _WORD}


def divided(cells: Sequence[LegendCell]) -> Iterator[tuple[bool, tuple[int, ...]]]:
    """The rows of dashes that are legends (True), and of those that stand for none (False), where there are any."""
    legends = signs(cells)
    for are in (True, False):
        rows = tuple(cell.row for cell in cells if cell.is_dash and (cell.row in legends) is are)
        if rows:
            yield are, rows
