"""Lists that cover all panels of one spec: the panels themselves, and the parts of all of them."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence

from panelart.model.panel import Panel
from panelart.sheets.lists import mm, parts_csv
from panelart.texts.cells import guarded, guarded_row

PANELS = ("panel", "title", "number", "revision", "spec", "width_mm", "height_mm", "parts")


def panels_csv(panels: Mapping[str, Panel]) -> bytes:
    """A line a panel, with the fingerprint of its files."""
    rows = [
        (
            name,
            panel.title,
            panel.number,
            panel.revision,
            panel.fingerprint,
            mm(panel.size[0]),
            mm(panel.size[1]),
            str(len(panel.parts)),
        )
        for name, panel in panels.items()
    ]
    return _csv([PANELS, *map(guarded_row, rows)])


def set_parts_csv(panels: Mapping[str, Panel]) -> bytes:
    """The lists of all panels under one heading, the name of the panel first."""
    found: list[tuple[str, ...]] = []
    for name, panel in panels.items():
        heading, *rows = csv.reader(io.StringIO(parts_csv(panel).decode("utf-8")))
        found += [] if found else [("of", *heading)]
        found += [(guarded(name), *row) for row in rows]
    return _csv(found)


def _csv(rows: Sequence[Sequence[str]]) -> bytes:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue().encode("utf-8")
