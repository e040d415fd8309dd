"""The page on layouts says the figures that the code has."""

from __future__ import annotations

import re
from pathlib import Path

from panelart.drafting import columns, shapes, shelves, variants

PAGE = (Path(shapes.__file__).parent / "layout.md").read_text(encoding="utf-8")
MODULES = (shapes, shelves, columns, variants)


def test_every_term_of_the_cost_is_told_with_its_figure() -> None:
    told = {name: float(cost) for name, cost in re.findall(r"^\| `(\w+)` \| ([\d.]+) \|", PAGE, flags=re.MULTILINE)}
    assert len(told) == 15
    for name, cost in told.items():
        assert {getattr(module, name) for module in MODULES if hasattr(module, name)} == {cost}


def test_distances_are_told() -> None:
    for name, distance in re.findall(r"(\d+) mm between [^(]*\(`(\w+)`", PAGE):
        assert getattr(shelves, distance) == float(name)
