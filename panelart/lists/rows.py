"""Rows of a table by what they are: heads, sections, totals, remarks, rows of parts.

A table is one block or several, each below heads of its own; a second block often says once more, collated, what the
first one has said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue.vocabulary import pieces
from panelart.lists.amounts import counted
from panelart.lists.columns import WORDS, Columns, columns, is_language, known_heads
from panelart.lists.refs import are_refs
from panelart.lists.remembered import NOTHING, Headings, marked, wished
from panelart.lists.tables import Row
from panelart.lists.words import begins, words

_NEAR_TOP: Final = 40
"""The rows among which the first heads are looked for."""

_LONG: Final = 60
"""Characters from which a lone cell is a remark and no name of a section."""


class RowKind(Enum):
    """What a row of a table is."""

    PREAMBLE = "preamble"
    HEADING = "heading"
    UNITS = "units"
    SECTION = "section"
    TOTAL = "total"
    NOTE = "note"
    PART = "part"


class Sorted(Struct, frozen=True, kw_only=True):
    """A row, what it is, and the section that it stands in ('' for none)."""

    row: Row
    kind: RowKind
    section: str = ""


class Block(Struct, frozen=True, kw_only=True):
    """Rows below one row of heads, or without heads; `number` counts from 0."""

    number: int
    columns: Columns
    rows: tuple[Sorted, ...]


def blocks(rows: Sequence[Row], asked: Mapping[str, str], known: Headings = NOTHING) -> tuple[Block, ...]:
    """The blocks of a table, in order; rows before the first heads are its preamble.

    `asked` are columns that the user asks for, `known` those remembered by headings.
    """
    starts = _heads(rows)
    if not starts:
        return (_block(0, None, (), rows, rows[:0], asked, known),) if rows else ()
    found: list[Block] = []
    for number, at in enumerate(starts):
        end = starts[number + 1] if number + 1 < len(starts) else len(rows)
        heads, below = _two_rows(rows[at], rows[at + 1 : end])
        before = rows[:at] if number == 0 else rows[:0]
        found.append(_block(number, rows[at], heads, below, before, asked, known))
    return tuple(found)


def _heads(rows: Sequence[Row]) -> list[int]:
    """The places of rows of heads: the best near the top, and later ones that are as plainly heads."""
    scores = [_head_score(row) for row in rows]
    top = scores[:_NEAR_TOP]
    best = max(top, default=0.0)
    if best <= 0.0:
        return [0] if rows and _heads_figures(rows[0], rows[1:]) else []
    first = top.index(best)
    again = {tuple(cell.casefold() for cell in rows[first].cells)}
    later = [
        at
        for at in range(first + 1, len(rows))
        if scores[at] >= 2.0
        and _share_known(rows[at]) >= 0.5
        and tuple(cell.casefold() for cell in rows[at].cells) not in again
    ]
    return [first, *later]


def _heads_figures(first: Row, below: Sequence[Row]) -> bool:
    """Whether a row has words above a column of counts, and no count: heads that nobody knows."""
    if len(below) < _FEW or any(map(_is_data, filter(None, first.cells))):
        return False
    return any(
        cell and all(counted(row.cell(at)) is not None for row in below if row.cell(at))
        for at, cell in enumerate(first.cells)
    )


_FEW: Final = 3
"""Rows from which a column of counts is one."""


def _head_score(row: Row) -> float:
    """How surely a row is one of heads, 0 for not at all."""
    filled = [cell for cell in row.cells if cell]
    known = known_heads(filled)
    if known == 0 or (known < 2 and len(filled) < 2) or any(map(_is_data, filled)):
        return 0.0
    share = known / len(filled)
    return known + share if known >= 2 or share >= 0.5 else 0.0


def _is_data(cell: str) -> bool:
    """Whether a cell holds refs or a count, as no head does."""
    return counted(cell) is not None or (are_refs(cell) and any(map(str.isdecimal, cell)))


def _share_known(row: Row) -> float:
    filled = [cell for cell in row.cells if cell]
    return known_heads(filled) / len(filled)


def _two_rows(head: Row, below: Sequence[Row]) -> tuple[tuple[str, ...], Sequence[Row]]:
    """The heads, those of a second row joined to them: 'Legend' above 'DE' and 'EN'."""
    second = below[0] if below else None
    if second is None or not all(is_language(cell) or known_heads([cell]) for cell in second.cells if cell):
        return head.cells, below
    width = max(len(head.cells), len(second.cells))
    heads: list[str] = []
    above = ""
    for at in range(width):
        above = head.cell(at) or above
        under = second.cell(at)
        heads.append(f"{above} {under}" if under else head.cell(at))
    return tuple(heads), below[1:]


def _block(
    number: int,
    head: Row | None,
    heads: Sequence[str],
    below: Sequence[Row],
    before: Sequence[Row],
    asked: Mapping[str, str],
    known: Headings,
) -> Block:
    full = [row for row in below if _several(row)] or list(below)
    found = columns(heads, 0 if head is None else head.number, full, wished(heads, asked, known))
    found = marked(found, heads, asked, known)
    lone = sum(not _several(row) for row in below) > len(below) / 2
    sorting = _Sorting(columns=found, head=head, lone=lone)
    done = [*(Sorted(row=row, kind=RowKind.PREAMBLE) for row in before), *_head_rows(head, heads)]
    section = ""
    for at, row in enumerate(below):
        kind = sorting.kind(row, first=at == 0, rest=below[at + 1 :])
        if kind is RowKind.SECTION:
            section = next(cell for cell in row.cells if cell).strip(" :-–=*#[]<>")
        done.append(Sorted(row=row, kind=kind, section=section if kind is RowKind.PART else ""))
    return Block(number=number, columns=found, rows=tuple(done))


def _head_rows(head: Row | None, heads: Sequence[str]) -> list[Sorted]:
    """The row of heads, or the two of them."""
    if head is None:
        return []
    first = Sorted(row=head, kind=RowKind.HEADING)
    return [first] if heads == head.cells else [first, replace(first, row=Row(number=head.number + 1, cells=()))]


class _Sorting(Struct, frozen=True, kw_only=True):
    """How rows below heads are told apart: their columns, the heads, whether most rows have one cell alone."""

    columns: Columns
    head: Row | None
    lone: bool

    def kind(self, row: Row, *, first: bool, rest: Sequence[Row]) -> RowKind:
        """What a row is; `rest` are those below it."""
        filled = [cell for cell in row.cells if cell]
        if self.head is not None and _folded(row) == _folded(self.head):
            return RowKind.HEADING
        has_ref = bool(self.columns.cell(row, "ref"))
        if first and not has_ref and _are_units(filled):
            return RowKind.UNITS
        if not has_ref and _is_total(filled, self.columns, row):
            return RowKind.TOTAL
        if not _several(row):
            return self._alone(filled[0], row, rest)
        return RowKind.PART if self._is_part(row, filled[0]) else RowKind.NOTE

    def _says(self, row: Row) -> bool:
        return any(self.columns.cell(row, role) for role in (*WORDS, "ref"))

    def _is_part(self, row: Row, text: str) -> bool:
        """Whether a row of several cells is of a part, and no remark with a date or a name beside it."""
        counts = self.columns.cell(row, "ref") or self.columns.cell(row, "quantity")
        return self._says(row) and (bool(counts) or not begins(text, words().notes))

    def _alone(self, text: str, row: Row, rest: Sequence[Row]) -> RowKind:
        """What a row with one cell is: a part where most rows are so, a section above others, a remark."""
        if text.startswith(("*", "¹", "²", "†")) or len(text) > _LONG or begins(text, words().notes):
            return RowKind.NOTE
        if self.lone and not text.endswith(":"):
            return RowKind.PART if self._says(row) else RowKind.NOTE
        if counted(text) is not None or are_refs(text):
            return RowKind.NOTE
        leads = any(_several(one) and self._says(one) for one in rest[:3])
        return RowKind.SECTION if leads else RowKind.NOTE


def _folded(row: Row) -> tuple[str, ...]:
    return tuple(map(str.casefold, row.cells))


def _several(row: Row) -> bool:
    return len({cell for cell in row.cells if cell}) > 1


def _are_units(filled: Sequence[str]) -> bool:
    return (
        all(len(cell) <= 10 and not any(map(str.isdecimal, cell)) for cell in filled)
        and len(filled) <= 6
        and all(_is_unit(cell) for cell in filled)
    )


def _is_unit(cell: str) -> bool:
    return cell.strip("[]()").casefold() in _UNITS


_UNITS: Final = frozenset({
    "mm", "cm", "in", "inch", "pcs", "pc", "pcs.", "stk", "stk.", "st", "szt", "szt.", "ks", "adet", "€", "$", "£",
    "eur", "usd", "gbp", "pln", "czk", "sek", "chf", "try", "netto", "net", "each", "ea", "brutto", "gross", "v", "a",
    "w", "ohm", "st.", "uds", "pz", "pz.", "个",
})  # fmt: skip
"""Units that stand below the heads of columns, and what is said of prices."""


def _is_total(filled: Sequence[str], found: Columns, row: Row) -> bool:
    """Whether a row adds up others: its first words say so, or it has figures alone and no quantity of a part."""
    if begins(filled[0], words().totals) and (len(filled) < len(found.columns) or len(pieces(filled[0])) <= 3):
        return True
    said = any(found.cell(row, role) for role in WORDS)
    return not said and all(any(map(str.isdecimal, cell)) and not any(map(str.isalpha, cell)) for cell in filled)
