"""Which column of a table is what: headers matched loosely, and every match told."""

from __future__ import annotations

import re
from collections.abc import Sequence
from difflib import get_close_matches
from typing import Final

from panelart.canonical import Struct

COLUMNS: Final = {
    "ref": "ref refs reference references designator designators refdes referencedesignator tag id",
    "part": "part parts partname component components device type article catalogue catalog bauteil typ",
    "description": "description descr desc what bezeichnung beschreibung designation kind item",
    "legend": "legend legends label labels marking caption inscription engraving text paneltext beschriftung",
    "quantity": "quantity qty quant howmany pcs pieces amount numberof noof menge anzahl stueck count number nos no",
    "group": "group groups zone section block functiongroup area gruppe",
    "side": "side face frontrear panelside seite",
    "order": "order sequence seq rank sort reihenfolge",
    "knob": "knob knobs cap knopf",
    "positions": "positions position states throws switchpositions stellungen",
    "scale": "scale range graduation graduations skala",
    "footprint": "footprint package gehaeuse bauform",
    "notes": "notes note remark remarks comment comments bemerkung",
}
"""The columns of a list and the headers by which each is known, without blanks and signs, the best first."""

_KNOWN: Final = {word: column for column, words in COLUMNS.items() for word in words.split()}
_NEAR: Final = 0.84
"""How like a known header another must be; 'quantitiy' and 'refernce' are, 'price' and 'cost' are not."""


_NUMBERS: Final = frozenset({"number", "numbers", "no", "nr", "nummer", "mpn", "sku"})
"""Words in a header of parts under which there are order numbers, not words."""


class Headers(Struct, frozen=True, kw_only=True):
    """The column of each field, from 0, and the headers that were read loosely or not at all, as they are written.

    `part_numbers` says that the column of parts holds order numbers.
    """

    row: int
    columns: dict[str, int]
    loosely: tuple[tuple[str, str], ...]
    unused: tuple[str, ...]
    part_numbers: bool = False


def known_headers(cells: Sequence[str]) -> int:
    """How many cells of a row are headers of different columns."""
    return len({column for cell in cells if (column := _KNOWN.get(_bare(cell))) is not None})


def headers(cells: Sequence[str], row: int) -> Headers:
    """The columns by the cells of a header row; of two that are the same the better header counts, else the first."""
    columns: dict[str, int] = {}
    loosely: list[tuple[str, str]] = []
    unused: list[str] = []
    exact = {_KNOWN.get(_bare(cell)) for cell in cells}
    for number, cell in sorted(enumerate(cells), key=lambda one: _place(one[1])):
        column = _KNOWN.get(_bare(cell))
        if column is None:
            column = _near(cell, exact)
            if column is not None and column not in columns:
                loosely.append((cell, column))
        if column is None or column in columns:
            if cell:
                unused.append(cell)
            continue
        columns[column] = number
    in_order = sorted(unused, key=cells.index)
    numbers = "part" in columns and _is_of_numbers(cells[columns["part"]])
    return Headers(
        row=row,
        columns=dict(sorted(columns.items(), key=lambda one: one[1])),
        loosely=tuple(loosely),
        unused=tuple(in_order),
        part_numbers=numbers,
    )


def _place(cell: str) -> int:
    """The place of a header among those of its column; last for one that is not known."""
    bare = _bare(cell)
    column = _KNOWN.get(bare)
    return len(_KNOWN) if column is None else COLUMNS[column].split().index(bare)


def _is_of_numbers(cell: str) -> bool:
    return "#" in cell or not _NUMBERS.isdisjoint(re.split(r"[^a-z]+", cell.casefold()))


def _near(cell: str, taken: set[str | None]) -> str | None:
    """The column of a header that is misspelt, or has a known word in it: 'Panel legend (front)'."""
    bare = _bare(cell)
    for word in re.split(r"[^a-z]+", cell.casefold()):
        column = _KNOWN.get(word)
        if column is not None and column not in taken and word not in ("no", "id", "number", "text"):
            return column
    close = get_close_matches(bare, _KNOWN, n=1, cutoff=_NEAR) if len(bare) > 2 else []
    column = _KNOWN[close[0]] if close else None
    return None if column in taken else column


def _bare(cell: str) -> str:
    return re.sub(r"[^a-z#]", "", cell.casefold().replace("ü", "ue").replace("#", "no"))
