"""How many of the parts that people use, and of those on the panels shown, are cut by published figures.

The list of parts is common practice (`most_used.yaml`); the bars are what the catalogue promises of itself.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
import yaml

from panelart import catalogue
from panelart.catalogue.standing import MEASURED_FIRST
from panelart.figure import Figure, Known
from panelart.model.component import Component
from panelart.spec.read import panel_names, read_panel

LISTED: dict[str, list[str]] = yaml.safe_load((Path(__file__).parent / "most_used.yaml").read_text("utf-8"))
NAMES = [name for names in LISTED.values() for name in names]
PARTS = 150
PUBLISHED = 0.89
"""Share whose every figure of an opening is looked up, proved or the designer's own."""
TWICE = 121 / 150
"""Share whose every figure of an opening stands in two places, each independent of the other."""

DEMO = Path(__file__).parents[2] / "demo"
SPECS = [path for path in (*sorted(DEMO.glob("*.yaml")), *sorted(DEMO.glob("sets/*.yaml"))) if "parts" not in path.stem]
SHOWN = 0.9
"""Share of all pieces on the panels of the demos."""
FIRM = (Known.LOOKED_UP, Known.PROVED, Known.GIVEN)


def cut_by(part: Component) -> list[Figure]:
    """Figures that a hole is cut by, told from facts and from what passes by their names alone."""
    return [
        figure
        for opening in part.openings
        for figure in opening.figures
        if figure.name in ("countersink diameter", "countersink angle")
        or (figure.name.isidentifier() and not figure.name.startswith(("passes_", "sheet_")))
    ]


def is_published(part: Component) -> bool:
    """Whether no figure to measure is recalled or typical; a published one may be measured by a caution."""
    return all(figure.known in FIRM for figure in catalogue.to_measure(part))


def test_each_of_the_parts_is_listed_once_and_is_in_the_catalogue() -> None:
    assert len(NAMES) == len(set(NAMES)) == PARTS
    assert not set(NAMES) - set(catalogue.names())


def test_the_parts_that_people_use_most_are_cut_by_published_figures() -> None:
    doubtful = [name for name in NAMES if not is_published(catalogue.component(name))]
    print(f"published: {PARTS - len(doubtful)} of {PARTS}; to measure: {', '.join(doubtful)}")
    assert len(doubtful) <= (1 - PUBLISHED) * PARTS, doubtful


@pytest.mark.parametrize("name", NAMES)
def test_a_part_with_nothing_to_measure_has_firm_figures_only(name: str) -> None:
    """The share rests on `to_measure`: checked here from the figures themselves."""
    part = catalogue.component(name)
    warned = not MEASURED_FIRST.isdisjoint(part.cautions)
    assert bool(catalogue.to_measure(part)) == (warned or any(figure.known not in FIRM for figure in cut_by(part)))


def test_many_of_them_have_two_sources_for_every_figure() -> None:
    """A figure with one source may be that maker's own."""
    twice = [
        name
        for name in NAMES
        if not catalogue.to_measure(catalogue.component(name))
        and all(len(set(figure.sources)) > 1 for figure in cut_by(catalogue.component(name)))
    ]
    print(f"two sources for every figure: {len(twice)} of {PARTS}")
    assert len(twice) >= TWICE * PARTS, len(twice)


def test_the_pieces_on_the_demos_are_cut_by_published_figures() -> None:
    pieces: Counter[str] = Counter()
    doubtful: Counter[str] = Counter()
    for spec in SPECS:
        for name in panel_names(spec) or [""]:
            for part in read_panel(Path(f"{spec}#{name}" if name else spec)).parts:
                pieces[part.component.name] += 1
                doubtful[part.component.name] += bool(catalogue.to_measure(part.component))
    print(f"demos: {pieces.total() - doubtful.total()} of {pieces.total()} pieces")
    assert pieces.total() > 200
    assert doubtful.total() <= (1 - SHOWN) * pieces.total(), doubtful.most_common(8)
