"""The table of what is measured before cutting, on sheets: part, refs, dimension, figure, range, standing, a blank."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, TypeAlias

from panelart.catalogue import Dimension
from panelart.checks.measuring import PartToMeasure, in_words
from panelart.figure import Figure, Known
from panelart.lettering.look import Align
from panelart.messages import Said, reports
from panelart.messages import sheets_measuring as said
from panelart.sheets.paper import Column, Further, width_of

Row: TypeAlias = tuple[Said, ...]

_STANDINGS: Final = {
    Known.MEMORY: said.from_memory,
    Known.TYPICAL: said.typical,
    Known.LOOKED_UP: said.see_caution,
}

BLANK: Final = 30.0
"""Width of the column to write in, mm."""

_REFS: Final = 42.0
"""What refs may take before the rest of them is counted, mm."""


def measure_columns(rows: Sequence[Row]) -> tuple[Column, ...]:
    """The columns, as wide as what is in them."""
    headings: tuple[Said, ...] = (
        said.part(), said.refs(), said.dimension(), said.figure_used(), "", said.range_met(), said.standing()
    )  # fmt: skip
    keys = ("part", "refs", "dimension", "figure", "", "range", "standing")
    cells = list(zip(*rows, strict=True))
    columns = [
        Column(
            heading=heading,
            width=max(width_of(text, bold=True) for text in (heading, *column)) + 4.0,
            align=Align.RIGHT if key == "figure" else Align.LEFT,
        )
        for key, heading, column in zip(keys, headings, cells, strict=False)
    ]
    return (*columns, Column(heading=said.measured(), width=BLANK))


def measure_rows(parts: Sequence[PartToMeasure]) -> tuple[Row, ...]:
    """A row for each dimension; part and refs in each of them."""
    return tuple(row for part in parts for row in _rows(part))


def _rows(part: PartToMeasure) -> Iterator[Row]:
    refs = refs_in(part.refs)
    for dimension in part.dimensions:
        words, figure, span, standing = dimension_cells(dimension)
        yield part.component.name, refs, words, figure, "", span, standing, ""


def dimension_cells(dimension: Dimension) -> tuple[Said, Said, Said, Said]:
    """A dimension in words, the figure used, the range met, and its standing."""
    figure = dimension.figure
    span = "" if figure.met is None else said.span(*(f"{end:g}" for end in figure.met))
    return in_words(dimension), _value(figure), span, _STANDINGS[figure.known]()


def _value(figure: Figure) -> Said:
    if figure.unit == "deg":
        return f"{figure.value:g}°"
    return f"{figure.value:g} {figure.unit}".strip()


def refs_in(refs: Sequence[str], width: float = _REFS) -> str:
    """As many refs as a width has room for, and how many more."""
    for count in range(len(refs), 0, -1):
        more = len(refs) - count
        named: tuple[Said, ...] = (*refs[:count], reports.more_refs(more)) if more else tuple(refs[:count])
        text = ", ".join(map(str, named))
        if width_of(text) <= width:
            return text
    return ", ".join(refs)


def thinned(rows: Sequence[Sequence[Said]]) -> list[Sequence[Said]]:
    """The rows of a table, part and refs only in the first row of a part."""
    kept: list[Sequence[Said]] = []
    part: Sequence[Said] = ()
    for row in rows:
        if isinstance(row, Further):
            kept.append(row)
            continue
        kept.append(("", "", *row[2:]) if row[:2] == part else row)
        part = row[:2]
    return kept
