"""Alternatives differ in idea; racks are written as racks; a part that forces the sheet is named with its variants."""

from __future__ import annotations

from pathlib import Path

import pytest

from panelart.drafting.arrange import Request
from panelart.drafting.draft import Draft, Heading, drafted_places, drafts
from panelart.drafting.ideas import Idea
from panelart.drafting.sizes import rack_size, rack_units, size_wish
from panelart.lists.read import read_list
from panelart.pipeline import build
from panelart.spec.read import panel_from_text
from tests.drafting.cases import FOLDER, MATCHER

LAYOUTS = Path(__file__).parents[1] / "benchmarks" / "layouts"


def made(rows: str, size: str = "smallest", maximum: int = 1) -> list[Draft]:
    listed = read_list(rows.encode(), "parts.csv", MATCHER)
    request = Request(wish=size_wish(size), maximum=maximum)
    return drafts(listed, Heading(title="Trial"), request, FOLDER, MATCHER)


@pytest.mark.full
def test_alternatives_differ_in_idea_and_say_what_they_measure() -> None:
    """Figures are measured again on the panels as built."""
    found = made((LAYOUTS / "three-pumps.csv").read_text("utf-8"), maximum=5)
    plans = [one.arranged.plan for one in found]
    ideas = [plan.idea for plan in plans]
    assert ideas[0] is Idea.OVERALL
    assert ideas[-1] is Idea.GENEROUS
    assert len({*ideas} - {Idea.ANOTHER}) >= 4
    shelves = [len({at.y for ref, at in plan.places.items() if ref in ("H11", "H21", "H31")}) for plan in plans]
    assert {*shelves} >= {1, 3}, "pumps below each other, and side by side"
    for one in found:
        panel = panel_from_text(one.arranged.text)
        figures = one.arranged.plan.figures
        assert figures is not None
        assert figures.area == pytest.approx(panel.size[0] * panel.size[1] / 100)
        parts = [part for part in panel.parts if part.component.name != "screw-m4"]
        lines = len({round(part.at.x, 1) for part in parts}) + len({round(part.at.y, 1) for part in parts})
        assert figures.lines == lines
        errors = [each for each in build(panel).inspection.findings if each.severity.value == "error"]
        assert not errors


def test_a_generous_arrangement_is_larger_than_the_best() -> None:
    best, *_, generous = made((LAYOUTS / "level-display.csv").read_text("utf-8"), maximum=3)
    assert generous.arranged.plan.idea is Idea.GENEROUS
    small, large = (one.arranged.plan.size[0] * one.arranged.plan.size[1] for one in (best, generous))
    assert 1.2 * small <= large <= 1.4 * small


@pytest.mark.parametrize(("units", "height"), [(1, 43.66), (2, 88.11), (3, 132.56), (6, 265.91)])
def test_rack_units(units: int, height: float) -> None:
    """IEC 60297-3-100: 482.6 wide, N x 44.45 - 0.79 high; a hundredth off is no rack panel."""
    assert rack_size(units) == (482.6, height)
    assert rack_units((482.6, height)) == units
    assert rack_units((482.6, height + 0.01)) is None
    assert rack_units((480.0, height)) is None


def test_a_rack_panel_is_written_in_units_with_its_slots_in_the_middle() -> None:
    (one,) = made("ref,part,legend\nS1,toggle-12,Power\nJ1,bnc,Out\n", size="3U")
    assert "  size: {rack: 3}\n" in one.arranged.text
    panel = panel_from_text(one.arranged.text)
    (slots,) = [part for part in panel.parts if part.component.name == "rack-slots-3u"]
    assert (slots.at.x, slots.at.y) == (241.3, 66.28)
    assert drafted_places(one.arranged.text, "a.yaml")[0] == (482.6, 132.56)
    assert any("H1 (rack-slots-3u)" in remark for remark in one.remarks)


def test_slots_of_the_list_are_not_added_again() -> None:
    (one,) = made("ref,part\nS1,toggle-12\nH7,rack-slots-2u\n", size="2U")
    assert one.arranged.text.count("rack-slots-2u") == 1


def test_a_part_that_forces_the_sheet_is_told_with_the_variant_that_would_not() -> None:
    """dsub-9 is held behind a sheet of at most 1.6 mm, dsub-9-front before one of 3 (the catalogue's own figures)."""
    (one,) = made("ref,part\nS1,toggle-12\nJ1,dsub-9\n")
    assert "thickness: 1.5}" in one.arranged.text
    assert any("dsub-9-front instead of J1" in remark for remark in one.remarks)


def test_titles_wider_than_their_parts_are_told_with_what_they_cost() -> None:
    rows = "".join(f"RV{n},pot-m7,A,Amplification {n}\nS{n},toggle-mini,B,Amplification {n}\n" for n in range(1, 5))
    short = rows.replace("Amplification", "A")
    (long_one,), (short_one,) = (made(f"ref,part,legend,group\n{text}", size="x90") for text in (rows, short))
    titles = long_one.arranged.plan.titles
    assert titles is not None
    assert titles.saving > 20
    narrower = long_one.arranged.plan.size[0] - short_one.arranged.plan.size[0]
    assert narrower == pytest.approx(titles.saving, abs=20)
