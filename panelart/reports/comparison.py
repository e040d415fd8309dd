"""What changed between two panels, for people and for programs."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, Final

from panelart.checks.comparison import About, Difference
from panelart.geometry import Box

VERSION: Final = 1

_HEADINGS: Final = {
    About.PANEL: "Panel",
    About.PART: "Parts",
    About.OPENING: "Openings",
    About.LEGEND: "Legends",
    About.FRAME: "Frames",
    About.FINDING: "Findings",
}


def comparison_text(differences: Sequence[Difference]) -> str:
    """The differences as lines of text, grouped, the last without a line end."""
    lines: list[str] = []
    for about, heading in _HEADINGS.items():
        group = [difference for difference in differences if difference.about is about]
        if group:
            lines += [f"{heading} ({len(group)})", *(f"  {_line(difference)}" for difference in group), ""]
    count = len(differences)
    return "\n".join([*lines, "no differences" if not count else f"{count} difference{'s' if count != 1 else ''}"])


def _line(difference: Difference) -> str:
    name = f"{difference.name}: " if difference.name else ""
    moved = difference.moved
    if moved is not None:
        what = "" if difference.what == "place" else f"{difference.what} "
        return f"{name}{what}moved by ({_signed(moved.x)}, {_signed(moved.y)}), {moved.length:.3g} mm"
    if difference.about is About.FINDING:
        return f"{'new' if difference.new else 'gone'}: {name}{difference.what}"
    if not difference.old:
        return f"{name}added: {difference.what}"
    if not difference.new:
        return f"{name}taken out: {difference.what}"
    return f"{name}{difference.what}: {difference.old} -> {difference.new}"


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
        "what": difference.what,
        "old": difference.old,
        "new": difference.new,
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
