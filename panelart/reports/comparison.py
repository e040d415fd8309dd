"""What changed between two panels, for people and for programs."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, Final

from panelart.checks.comparison import THERE, About, Difference
from panelart.geometry import Box
from panelart.messages import Message, english
from panelart.messages import reports_compare as said

VERSION: Final = 1

_HEADINGS: Final = {
    About.PANEL: said.panel,
    About.PART: said.parts,
    About.OPENING: said.openings,
    About.LEGEND: said.legends,
    About.FRAME: said.frames,
    About.FINDING: said.findings,
}


def comparison_text(differences: Sequence[Difference]) -> str:
    """The differences as lines of text, grouped, the last without a line end."""
    lines: list[str] = []
    for about, heading in _HEADINGS.items():
        group = [difference for difference in differences if difference.about is about]
        if group:
            lines += [str(said.heading(heading(), len(group))), *(f"  {_line(difference)}" for difference in group), ""]
    count = len(differences)
    return "\n".join([*lines, str(said.differences(count) if count else said.no_differences())])


def _line(difference: Difference) -> Message:
    if difference.about is About.FINDING:
        finding = said.named(difference.name, difference.what) if difference.name else difference.what
        return said.finding_new(finding) if difference.new else said.finding_gone(finding)
    change = _change(difference)
    return said.named(difference.name, change) if difference.name else change


def _change(difference: Difference) -> Message:
    moved = difference.moved
    if moved is not None:
        by = _signed(moved.x), _signed(moved.y), f"{moved.length:.3g}"
        return said.moved(*by) if difference.what == "place" else said.thing_moved(difference.what, *by)
    if THERE in (str(difference.old), str(difference.new)):
        return said.added(difference.what) if difference.new else said.removed(difference.what)
    return said.changed(difference.what, difference.old or said.not_specified(), difference.new or said.not_specified())


def _signed(value: float) -> str:
    return f"{round(value, 3) + 0.0:+.3g}"


def comparison_json(differences: Sequence[Difference]) -> str:
    """The differences as JSON text that ends with a line end; lengths in mm, places from the lower-left corner."""
    document = {"version": VERSION, "differences": [_entry(difference) for difference in differences]}
    return json.dumps(document, indent=2, ensure_ascii=False) + "\n"


def _entry(difference: Difference) -> dict[str, Any]:
    entry: dict[str, Any] = {
        "about": difference.about.value,
        "name": difference.name,
        "what": english(difference.what),
        "old": english(difference.old),
        "new": english(difference.new),
    }
    if difference.moved is not None:
        entry["moved"] = {"x_mm": _number(difference.moved.x), "y_mm": _number(difference.moved.y)}
    place = difference.place
    if place is not None:
        middle = place.centre if isinstance(place, Box) else place
        entry["place"] = {"x_mm": _number(middle.x), "y_mm": _number(middle.y)}
    return entry


def _number(value: float) -> float:
    return round(float(value), 6) + 0.0
