"""Lists for other programs: holes and parts as comma-separated values, UTF-8, one heading row, lines ended by LF."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from panelart.cutouts.describe import size_of
from panelart.model.layout import Layout
from panelart.model.panel import Panel

HOLES = (
    "hole", "ref", "role", "x_mm", "y_mm", "turn_deg", "form",
    "finished_width_mm", "finished_height_mm", "finished_corner_mm",
    "cut_width_mm", "cut_height_mm", "cut_corner_mm",
)  # fmt: skip
PARTS = ("ref", "part", "title", "x_mm", "y_mm", "turn_deg", "legend", "knob_diameter_mm", "knob_height_mm", "knob")


def holes_csv(layout: Layout) -> bytes:
    """Every opening: its middle from the datum, its form, finished and cut sizes."""
    datum = layout.panel.datum
    rows: list[Sequence[str]] = []
    for opening in layout.openings:
        finished, cut = size_of(opening.finished, opening.turn), size_of(opening.cut, opening.turn)
        rows.append(
            (
                opening.name,
                opening.ref,
                opening.role.value,
                _mm(finished.centre.x - datum.x),
                _mm(finished.centre.y - datum.y),
                f"{finished.turn:g}",
                finished.form,
                _mm(finished.width),
                _mm(finished.height),
                _mm(finished.corner),
                _mm(cut.width),
                _mm(cut.height),
                _mm(cut.corner),
            )
        )
    return _csv(HOLES, rows)


def parts_csv(panel: Panel) -> bytes:
    """Every part as placed, in the order of the spec."""
    rows = [
        (
            part.ref,
            part.component.name,
            part.component.title,
            _mm(part.at.x - panel.datum.x),
            _mm(part.at.y - panel.datum.y),
            f"{part.turn:g}",
            part.legend.text if part.legend is not None else "",
            _mm(part.knob.diameter if part.knob else None),
            _mm(part.knob.height if part.knob else None),
            part.knob.name if part.knob else "",
        )
        for part in panel.parts
    ]
    return _csv(PARTS, rows)


def _mm(value: float | None) -> str:
    if value is None:
        return ""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _csv(heading: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(heading)
    writer.writerows(rows)
    return text.getvalue().encode("utf-8")
