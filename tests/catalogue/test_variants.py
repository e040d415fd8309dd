"""Parts that are like another: what is changed, whose figures those are, and what stands in for a catalogue part."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from panelart import catalogue
from panelart.catalogue import read_contents
from panelart.diagnostics import SpecError
from panelart.figure import Known
from panelart.model.component import Component, Role
from panelart.pipeline import build
from panelart.reports.json import document
from panelart.reports.parts import part_json, part_page
from panelart.spec.read import read_panel
from tests.reports.test_json import CHECKER

TOP = "panelart-catalogue: 1\nparts:\n"


def made(text: str, name: str) -> Component:
    return read_contents((TOP + text).encode(), "folder/house.yaml").components[name]


def test_what_is_measured_is_changed_and_says_who_measured_it() -> None:
    before = catalogue.component("toggle-12")
    part = made(
        "  toggle-12:\n    like: toggle-12\n    measured:\n      by: M. Brandt\n      date: 2026-11-20\n"
        "    opening:\n      diameter: 12.4\n      passes_diameter:   # not measured yet\n",
        "toggle-12",
    )
    (opening,) = part.openings
    assert opening.contour.bounds.width == pytest.approx(12.4)
    diameter, *others = opening.figures
    assert (diameter.known, diameter.source) == (Known.GIVEN, "measured by M. Brandt, 2026-11-20")
    assert tuple(others) == before.openings[0].figures[1:]
    assert (part.front, part.rear, part.title) == (before.front, before.rear, before.title)
    assert catalogue.to_measure(part) == ()


@pytest.mark.parametrize(
    ("measured", "source"),
    [
        ("{by: Anna, date: 2026-11-20}", "measured by Anna, 2026-11-20"),
        ("{by: Anna, date: }", "measured by Anna"),
        ("{by: , date: 2026-11-20}", "measured 2026-11-20"),
        ("{by: , date: }", "designer's own figure"),
    ],
)
def test_the_source_says_as_much_as_was_filled_in(measured: str, source: str) -> None:
    part = made(f"  a: {{like: bnc, measured: {measured}, opening: {{diameter: 9.9}}}}\n", "a")
    assert part.openings[0].figures[0].source == source


def test_source_and_standing_of_the_part_hold_for_what_is_changed_alone() -> None:
    part = made("  a: {like: toggle-12, source: drawing 7, known: looked-up, opening: {diameter: 12.3}}\n", "a")
    figures = {figure.name: figure for figure in part.openings[0].figures}
    assert (figures["diameter"].known, figures["diameter"].source) == (Known.LOOKED_UP, "drawing 7")
    assert figures["sheet_minimum"] in catalogue.component("toggle-12").figures


def test_a_form_that_nobody_has_filled_in_changes_nothing() -> None:
    part = made("  bnc:\n    like: bnc\n    measured:\n      by:\n      date:\n    opening:\n      diameter:\n", "bnc")
    assert part == catalogue.component("bnc")


def test_holes_are_put_apart_by_their_pitch() -> None:
    """A fan of 92 mm has its screws 82.5 mm apart; measured, 82.0 across."""
    part = made("  fan-92: {like: fan-92, fixing: {pitch_x: 82.0}}\n", "fan-92")
    holes = [opening.contour.bounds.centre for opening in part.openings if opening.role is Role.FIXING]
    assert sorted({round(hole.x, 6) for hole in holes}) == [-41.0, 41.0]
    assert sorted({round(hole.y, 6) for hole in holes}) == [-41.25, 41.25]
    assert all(
        figure.known is Known.GIVEN
        for opening in part.openings
        for figure in opening.figures
        if figure.name == "x" and opening.role is Role.FIXING
    )


def test_a_countersink_is_changed_and_so_is_a_motion() -> None:
    screw = made("  a: {like: screw-m1.6-countersunk, opening: {countersink_diameter: 3.8}}\n", "a")
    assert screw.openings[0].countersink is not None
    assert screw.openings[0].countersink.diameter == 3.8
    dial = made("  a: {like: pot-m10, motion: {electrical: 262}}\n", "a")
    assert {law: figure and figure.value for law in ("linear", "audio") if (figure := dial.motion.swept(law))} == {
        "linear": 262,
        "audio": 262,
    }


def test_a_part_is_like_one_of_its_own_file() -> None:
    text = (
        "  first: {title: First, openings: [{role: body, circle: {diameter: 12}}]}\n"
        "  second: {like: first, title: Second, opening: {diameter: 13}}\n"
        "  third: {like: second, words: [large]}\n"
    )
    part = made(text, "third")
    assert (part.title, part.openings[0].contour.bounds.width) == ("Second", pytest.approx(13))


@pytest.mark.parametrize(
    ("text", "place", "says"),
    [
        ("  a: {like: toggel-12}\n", "3:13", "Unknown part 'toggel-12'"),
        ("  a: {like: b}\n  b: {like: a}\n", "3:13", "'a' is like a part that is like it"),
        ("  a: {like: bnc, opening: {width: 3}}\n", "3:28", "Unknown dimension 'width'"),
        ("  a: {like: bnc, openings: []}\n", "3:18", "Unknown key 'openings' in a part like another"),
        ("  a: {like: screw-m3, motion: {rotation: 300}}\n", "3:23", "'screw-m3' is not operated"),
        ("  a: {like: pilot-22, opening: {diameter: 60}}\n", "3:6", "does not cover the opening"),
    ],
)
def test_what_is_wrong_is_told_at_its_place(text: str, place: str, says: str) -> None:
    with pytest.raises(SpecError) as raised:
        read_contents((TOP + text).encode(), "house.yaml")
    found = [str(problem.where) for problem in raised.value.problems if says in problem.message]
    assert found, str(raised.value)
    assert f"house.yaml:{place}" in found


SPEC = """\
panelart: 1
panel: {title: Trial, size: [120, 60], sheet: {material: aluminium 5754, thickness: 2}, coat: {kind: none, colour: "#FFFFFF"}}
marking: {process: digital-print, ink: {name: black, colour: "#000000"}, lettering: {cap_height: 3.5}, viewing_distance: 500}
catalogue: [CATALOGUE]
parts:
  - {ref: S1, part: toggle-12, at: [30, 30], legend: Power}
  - ref: S2
    part: {title: Recalled, openings: [{role: body, circle: {diameter: {value: 6.4, known: memory, source: recalled}}}]}
    at: [80, 30]
    legend: Load
"""  # noqa: E501


def _panel(folder: Path, **files: str):
    for name, text in files.items():
        (folder / f"{name}.yaml").write_text(TOP + text, encoding="utf-8")
    spec = folder / "front.yaml"
    spec.write_text(SPEC.replace("CATALOGUE", ", ".join(f"{name}.yaml" for name in files)), encoding="utf-8")
    return read_panel(spec)


def test_a_part_like_itself_takes_the_place_of_the_catalogue_part_and_is_told_loudly(tmp_path: Path) -> None:
    panel = _panel(tmp_path, house="  toggle-12: {like: toggle-12, opening: {diameter: 12.6}}\n")
    inspection = build(panel).inspection
    (switch,) = (part for part in panel.parts if part.ref == "S1")
    assert switch.component.openings[0].contour.bounds.width == pytest.approx(12.6)
    assert [(one.name, one.file, one.refs) for one in inspection.replaced] == [("toggle-12", "house.yaml", ("S1",))]
    told = document(inspection)
    assert told["replaced"] == [{"part": "toggle-12", "file": "house.yaml", "refs": ["S1"]}]
    CHECKER.validate(told)
    (finding,) = (one for one in inspection.findings if one.rule == "parts-to-measure")
    assert finding.refs == ("S2",)


def test_a_later_file_is_like_a_part_of_an_earlier_one(tmp_path: Path) -> None:
    panel = _panel(
        tmp_path,
        house="  toggle-12: {like: toggle-12, opening: {diameter: 12.6}}\n",
        form="  toggle-12: {like: toggle-12, opening: {passes_diameter: 11.8}}\n",
    )
    (switch,) = (part for part in panel.parts if part.ref == "S1")
    (opening,) = switch.component.openings
    assert opening.contour.bounds.width == pytest.approx(12.6)
    assert opening.passes is not None
    assert opening.passes.bounds.width == pytest.approx(11.8)


def test_a_part_defined_in_full_may_not_have_a_name_of_the_catalogue(tmp_path: Path) -> None:
    with pytest.raises(SpecError, match="toggle-12"):
        _panel(tmp_path, house="  toggle-12: {title: Mine, openings: [{role: body, circle: {diameter: 12}}]}\n")


def test_a_part_that_is_only_proved_replaces_no_figure(tmp_path: Path) -> None:
    proved = "{by: Anna, panel: P-1, date: 2026-11-20}"
    panel = _panel(tmp_path, house=f"  toggle-12: {{like: toggle-12, proved: {proved}}}\n")
    inspection = build(panel).inspection
    assert inspection.replaced == ()
    (finding,) = (one for one in inspection.findings if one.rule == "parts-to-measure")
    assert finding.refs == ("S2",)
    (switch,) = (part for part in panel.parts if part.ref == "S1")
    known = {figure.name: figure.known for figure in switch.component.openings[0].figures}
    assert known["diameter"] is Known.PROVED
    assert known["sheet_minimum"] is Known.MEMORY  # no hole shows it


def test_phase_and_ways_may_differ_from_the_other_part_and_are_told() -> None:
    part = made(
        "  house-rotary:\n    like: rotary-m10\n    motion: {phase: 15, ways: [{index: 36, positions: [2, 10]}]}\n",
        "house-rotary",
    )
    assert (part.motion.phase, part.motion.ways[0].index) == (15.0, 36.0)
    assert "one position at 15°" in part_page(part)
    assert json.loads(part_json(part))["part"]["operation"]["phase_deg"] == 15.0


def test_a_blank_phase_stays_as_it_was() -> None:
    part = made("  blank:\n    like: rotary-m10\n    motion:\n      phase:\n      ways:\n", "blank")
    assert part.motion == catalogue.component("rotary-m10").motion
