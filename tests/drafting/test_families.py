"""Like groups are laid out alike and written once; what is written once is the panel that was written out."""

from __future__ import annotations

from pathlib import Path

import pytest

from panelart.drafting.arrange import Request
from panelart.drafting.draft import Heading, drafted_places, drafts
from panelart.drafting.families import families, marks, stem
from panelart.drafting.folded import folded
from panelart.drafting.sizes import size_wish
from panelart.lists.read import read_list
from panelart.pipeline import build
from panelart.spec.read import panel_from_text
from tests.drafting.cases import FOLDER, MATCHER
from tests.drafting.test_shelves import block

LAYOUTS = Path(__file__).parents[1] / "benchmarks" / "layouts"

LIKE = {
    "three-pumps": ("S{}1", "H{}1", "H{}2", "S{}2", "S{}3"),
    "quad-supply": ("M{}", "RV{}1", "RV{}2", "J{}1", "J{}2"),
    "six-valves": ("H{}", "S{}"),
    "two-zones": ("P{}", "H{}"),
    "pump-skid": ("P{}", "H{}", "S{}"),
}
"""Lists with like groups, and refs of one group by its number."""


def drafted_text(rows: str, size: str = "smallest") -> str:
    listed = read_list(rows.encode(), "parts.csv", MATCHER)
    request = Request(wish=size_wish(size))
    return drafts(listed, Heading(title="Trial"), request, FOLDER, MATCHER)[0].arranged.text


@pytest.mark.parametrize(
    ("name", "found", "counted"),
    [
        ("Pump 1", "pump #", ("1",)),
        ("Zone B", "zone #", ("B",)),
        ("CH12", "ch#", ("12",)),
        ("Bank 2 A", "bank # #", ("2", "A")),
        ("Mains", "", ()),
        ("Master", "", ()),
    ],
)
def test_what_tells_like_names_apart(name: str, found: str, counted: tuple[str, ...]) -> None:
    assert (stem(name), marks(name)) == (found, counted)


def test_a_family_has_the_same_kinds_in_the_same_order() -> None:
    one, two = (block("A", 8, 8), block("B", 12, 8)), (block("C", 8, 8), block("D", 12, 8))
    turned = (block("E", 12, 8), block("F", 8, 8))
    found = families([("Pump 1", one), ("Mains", two), ("Pump 2", two), ("Pump 3", turned)])
    assert [family.members for family in found] == [(0, 2)]


@pytest.mark.few(2)
@pytest.mark.parametrize("name", LIKE)
def test_like_groups_are_laid_out_alike_in_rows_or_columns(name: str) -> None:
    """Each part stands from the first of its group as in the first group; firsts share a row or a column."""
    text = drafted_text((LAYOUTS / f"{name}.csv").read_text("utf-8"))
    own = {part.ref: part.at for part in panel_from_text(text).parts}
    numbers = [number for number in range(1, 9) if LIKE[name][0].format(number) in own]
    firsts = [own[LIKE[name][0].format(number)] for number in numbers]
    for form in LIKE[name]:
        steps = {
            tuple(round(value, 2) for value in own[form.format(number)].minus(first))
            for number, first in zip(numbers, firsts, strict=True)
        }
        assert len(steps) == 1
    assert len(numbers) > 1
    assert len({at.x for at in firsts}) == 1 or len({at.y for at in firsts}) == 1


@pytest.mark.parametrize(("name", "written"), [("three-pumps", "  - repeat: {"), ("two-zones", "  - {module: zone, ")])
def test_like_groups_are_written_once(name: str, written: str) -> None:
    text = drafted_text((LAYOUTS / f"{name}.csv").read_text("utf-8"))
    assert written in text
    built = build(panel_from_text(text))
    assert not [finding for finding in built.inspection.findings if finding.severity.value == "error"]
    by_hand = panel_from_text((LAYOUTS / f"{name}.yaml").read_text("utf-8"))
    assert {part.ref: part.component.name for part in built.layout.panel.parts} == {
        part.ref: part.component.name for part in by_hand.parts
    }
    titles = {frame.title.text: {*frame.around} for frame in built.layout.panel.frames}
    assert titles == {frame.title.text: {*frame.around} for frame in by_hand.frames}


def test_the_places_of_what_is_written_once_are_read_again() -> None:
    """An oracle: the spec reader itself."""
    for name in ("three-pumps", "two-zones"):
        text = drafted_text((LAYOUTS / f"{name}.csv").read_text("utf-8"))
        size, places = drafted_places(text, "a.yaml")
        panel = panel_from_text(text)
        assert size == panel.size
        assert places == {part.ref: (part.at.x, part.at.y) for part in panel.parts}


FLAT = """\
parts:
  # Pump 1
  - {ref: H11, part: pilot-22, at: [20, 80], legend: Run}
  - {ref: S11, part: selector-22, at: [20, 30]}  # from "switch"
  # Pump 2
  - {ref: H21, part: pilot-22, at: [60, 80], legend: Run}
  - {ref: S21, part: selector-22, at: [60, 30]}

frames:
  - {around: [H11, S11], title: Pump 1}
  - {around: [H21, S21], title: Pump 2}
"""
GROUPS = [("Pump 1", ("H11", "S11")), ("Pump 2", ("H21", "S21"))]


def test_a_repeat_has_everything_that_its_groups_had() -> None:
    assert (
        folded(FLAT, GROUPS)
        == """\
parts:
  # Pump 1, Pump 2
  - repeat: {count: 2, step: [40, 0]}
    parts:
      - {ref: "H{n}1", part: pilot-22, at: [20, 80], legend: Run}
      - {ref: "S{n}1", part: selector-22, at: [20, 30]}  # from "switch"
    frames:
      - {around: ["H{n}1", "S{n}1"], title: "Pump {n}"}
"""
    )


@pytest.mark.parametrize(
    ("was", "becomes"),
    [
        ("at: [60, 30]", "at: [60, 31]"),
        ("{ref: S21, part: selector-22", "{ref: S21, part: pushbutton-22"),
        ("  - {ref: S21,", "  # - {ref: S21,"),
        ("title: Pump 2", "title: Fan 2"),
    ],
)
def test_what_differs_stays_written_out(was: str, becomes: str) -> None:
    text = FLAT.replace(was, becomes)
    groups = [("Pump 1", ("H11", "S11")), ("Fan 2" if "Fan" in becomes else "Pump 2", ("H21", "S21"))]
    assert folded(text, groups) == text


def test_kept_places_that_differ_are_written_out() -> None:
    rows = (LAYOUTS / "two-zones.csv").read_text("utf-8")
    size, places = drafted_places(drafted_text(rows), "a.yaml")
    listed = read_list(rows.encode(), "parts.csv", MATCHER)
    moved = places | {"H2": (places["H2"][0], places["H2"][1] - 1.0)}
    for kept, once in ((places, True), (moved, False)):
        heading = Heading(title="Trial", size=size, places=kept)
        text = drafts(listed, heading, Request(), FOLDER, MATCHER)[0].arranged.text
        assert ("modules:" in text) is once
        assert drafted_places(text, "a.yaml") == (size, kept)
