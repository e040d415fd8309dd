"""Lists held against the panel, read as another program reads them: by the names in the first line."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Iterator, Mapping
from typing import Final, TypeAlias

from panelart.cutouts.describe import size_of
from panelart.cutouts.hardware import components, from_datum
from panelart.messages import Message
from panelart.messages import readback as said
from panelart.model.layout import Layout

Row: TypeAlias = Mapping[str, str]

EXACT: Final = 1e-4
"""What lists are written to, mm."""


def lists_told(name: str, data: bytes, layout: Layout, findings: int) -> Iterator[Message]:
    """What disagrees in a list of this name; nothing for one that is not held."""
    if name.endswith(".json"):
        read = json.loads(data)
    if name == "findings.json":
        told = len(read["findings"])
        if told != findings:
            yield said.count_differs(found=told, wanted=findings)
    elif name in _HELD:
        yield from _HELD[name](list(csv.DictReader(io.StringIO(data.decode("utf-8"), newline=""))), layout)


def _holes(rows: list[Row], layout: Layout) -> Iterator[Message]:
    wanted = {opening.name: opening for opening in layout.every_opening}
    if len(rows) != len(wanted):
        yield said.count_differs(found=len(rows), wanted=len(wanted))
    for row in rows:
        opening = wanted.get(row["hole"])
        if opening is None:
            yield said.row_unknown(name=row["hole"])
            continue
        size = size_of(opening.finished, opening.turn)
        at = from_datum(layout.panel, opening.on, size.centre)
        figures = {"x_mm": at.x, "y_mm": at.y, "finished_width_mm": size.width, "finished_height_mm": size.height}
        for key, value in figures.items():
            if abs(float(row[key]) - value) > EXACT:
                yield said.figure_differs(name=row["hole"], column=key, found=float(row[key]), wanted=value)


def _parts(rows: list[Row], layout: Layout) -> Iterator[Message]:
    wanted = sorted(ref for ref, _, _ in components(layout.panel))
    found = sorted(row["ref"] for row in rows)
    if found != wanted:
        yield said.count_differs(found=len(found), wanted=len(wanted))


_HELD: Final[Mapping[str, Callable[[list[Row], Layout], Iterator[Message]]]] = {
    "holes.csv": _holes,
    "parts.csv": _parts,
}
