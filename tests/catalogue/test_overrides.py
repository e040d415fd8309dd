"""Single dimensions changed where a part is used."""

from __future__ import annotations

import pytest

from panelart import catalogue
from panelart.diagnostics import SpecError
from panelart.figure import Known
from panelart.geometry import Point
from panelart.model.component import Component, Role
from panelart.source.problems import Problems
from panelart.source.yaml import read as read_yaml


def changed(name: str, text: str) -> Component:
    problems = Problems()
    part = catalogue.overridden(catalogue.component(name), read_yaml(text, "panel.yaml"), problems)
    problems.raise_any()
    assert part is not None
    return part


def test_the_opening_is_drawn_anew_and_stands_as_given() -> None:
    part = changed("bnc", "{part: bnc, opening: {diameter: 12.9, flat_to_opposite: 11.9}}")
    box = part.openings[0].contour.bounds
    assert box.width == pytest.approx(12.9)
    assert box.height == pytest.approx(11.9)
    assert box.centre.y > 0, "the flat stays below"
    figures = {figure.name: figure for figure in part.openings[0].figures}
    assert figures["diameter"].known is Known.GIVEN
    assert figures["passes_diameter"] == next(
        figure for figure in catalogue.component("bnc").openings[0].figures if figure.name == "passes_diameter"
    )
    assert part.front == catalogue.component("bnc").front


def test_the_part_of_the_catalogue_stays_as_it_is() -> None:
    before = catalogue.component("bnc")
    changed("bnc", "{opening: {diameter: 12.9}}")
    assert catalogue.component("bnc") is before
    assert before.openings[0].contour.bounds.width == pytest.approx(9.7)


def test_a_length_may_have_a_unit_and_a_tolerance() -> None:
    part = changed("toggle-12", "{opening: {diameter: {value: 0.5 in, tolerance: [0, 0.1]}}}")
    figure = part.openings[0].figures[0]
    assert figure.value == pytest.approx(12.7)
    assert figure.tolerance == (0.0, 0.1)


def test_fixings_keep_their_places() -> None:
    part = changed("xlr", "{fixing: {diameter: 3.2}}")
    fixings = [opening for opening in part.openings if opening.role is Role.FIXING]
    assert [fixing.contour.bounds.centre for fixing in fixings] == [Point(-9.5, 12.0), Point(9.5, -12.0)]
    assert all(fixing.contour.bounds.width == pytest.approx(3.2) for fixing in fixings)
    assert part.openings[0] == catalogue.component("xlr").openings[0]


def test_a_turned_shape_stays_turned() -> None:
    part = changed("fader-60", "{opening: {width: 3}}")
    box = part.openings[0].contour.bounds
    assert (box.width, box.height) == (pytest.approx(3.0), pytest.approx(67.0))


def test_what_passes_can_be_changed_too() -> None:
    part = changed("pushbutton-22", "{opening: {passes_diameter: 22.2}}")
    assert part.openings[0].passes is not None
    assert part.openings[0].passes.bounds.width == pytest.approx(22.2)
    assert part.openings[0].contour == catalogue.component("pushbutton-22").openings[0].contour


def test_envelopes_are_named_by_what_they_are() -> None:
    part = changed("pot-m10", "{front: {nut: {across_flats: 14, projection: 3}}, rear: {body: {depth: 22}}}")
    nut = next(front for front in part.front if front.what == "nut")
    assert nut.contour.bounds.height == pytest.approx(14.0)
    assert nut.height == 3.0
    assert part.rear[0].height == 22.0


def test_shaft_and_thickness() -> None:
    part = changed("pot-m10", "{shaft: {length: 25}, thickness: {maximum: 6}}")
    assert part.shaft is not None
    assert (part.shaft.diameter, part.shaft.length) == (6.0, 25.0)
    shaft = next(front for front in part.front if front.what == "shaft")
    assert shaft.height == 25.0
    assert part.thickness == (0.8, 6.0)
    assert next(f for f in part.openings[0].figures if f.name == "sheet_maximum").value == 6.0


def test_a_screw_has_its_fixing_hole_for_an_opening() -> None:
    assert changed("screw-m3", "{opening: {diameter: 3.3}}").openings[0].contour.bounds.width == pytest.approx(3.3)


@pytest.mark.parametrize(
    ("name", "text", "place", "message", "hint"),
    [
        ("bnc", "{open: {diameter: 3}}", "1:2", "Key 'open' of a part cannot be changed", "Did you mean 'opening'?"),
        ("bnc", "{opening: 12.9}", "1:11", "Found '12.9'", "opening: {name: value}"),
        (
            "bnc",
            "{opening: {diametre: 3}}",
            "1:12",
            "Unknown dimension 'diametre' of the opening of 'bnc'",
            "Did you mean 'diameter'?",
        ),
        ("bnc", "{opening: {diameter: -3}}", "1:22", "'diameter' is -3", "0 or more"),
        ("bnc", "{opening: {diameter: 0}}", "1:11", "Invalid d-hole", ""),
        ("bnc", "{opening: {diameter: wide}}", "1:22", "'wide' is not a length", "millimetres"),
        ("bnc", "{opening: {flat_to_opposite: 20}}", "1:11", "Invalid d-hole", ""),
        ("bnc", "{fixing: {diameter: 3}}", "1:2", "'bnc' has no fixing openings", "Openings of this part: body"),
        ("bnc", "{shaft: {length: 3}}", "1:2", "'bnc' has no shaft", ""),
        (
            "sma",
            "{front: {nutt: {across_flats: 3}}}",
            "1:10",
            "'sma' has no 'nutt' in front of the panel",
            "Did you mean 'nut'?",
        ),
        ("sma", "{front: {nut: 3}}", "1:15", "Found '3'", "nut: {name: value}"),
        ("sma", "{front: {nut: {projection: -3}}}", "1:28", "'projection' is -3", "0 or more"),
        ("bnc", "{thickness: {minimum: 9}}", "1:13", "Sheet thickness is 9 to 3.3 mm", "minimum of 0 or more"),
        ("toggle-12", "{diameter: 12.5}", "1:2", "Key 'diameter'", "Write `opening: {diameter: 12.5}`"),
        ("toggle-12", "{hole: 12.5}", "1:2", "Key 'hole'", "Write `opening: {diameter: 12.5}`"),
        ("bnc", "{opening: {round: 9.9}}", "1:12", "Unknown dimension 'round'", "Write `diameter: 9.9`"),
        ("iec-c14", "{hole: 12.5}", "1:2", "Key 'hole'", "Accepted keys"),
        ("xlr", "{fixing: {x: 3}}", "1:11", "Unknown dimension 'x' of the fixing of 'xlr'", "diameter"),
    ],
)
def test_what_cannot_be_changed(name: str, text: str, place: str, message: str, hint: str) -> None:
    problems = Problems()
    part = catalogue.overridden(catalogue.component(name), read_yaml(text, "panel.yaml"), problems)
    assert part is None
    found = problems.error().problems
    assert [str(problem.where) for problem in found] == [f"panel.yaml:{place}"]
    assert message in found[0].message
    assert hint in found[0].hint


def test_a_changed_part_can_be_written_where_one_of_your_own_can() -> None:
    problems = Problems()
    node = read_yaml("{part: bnc-round, opening: {diameter: 12.9}}", "panel.yaml")
    part = catalogue.component_from(node, "J1", problems)
    assert part is not None
    assert part.name == "bnc-round"
    assert part.openings[0].contour.bounds.width == pytest.approx(12.9)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("{part: bnk, opening: {diameter: 3}}", "1:8", "Unknown part 'bnk'", "Did you mean 'bnc'?"),
        ("{part: [bnc]}", "1:8", "Found the list [bnc]", "text on one line"),
        ("{part: bnc, title: X}", "1:13", "Key 'title' of a part cannot be changed", "Accepted keys: fixing"),
    ],
)
def test_what_cannot_be_changed_in_place(text: str, place: str, message: str, hint: str) -> None:
    problems = Problems()
    assert catalogue.component_from(read_yaml(text, "panel.yaml"), "J1", problems) is None
    found = problems.error().problems
    assert [str(problem.where) for problem in found] == [f"panel.yaml:{place}"]
    assert message in found[0].message
    assert hint in found[0].hint


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("toggle-12", "{motion: {rotation: 270}}", "'rotation' does not apply to the motion 'lever'"),
        ("pushbutton-22", "{motion: {throw: 20}}", "'throw' does not apply to the motion 'push'"),
        ("rotary-m10", "{motion: {detents: 2.5}}", "2.5 detents in one turn"),
        ("rotary-m10", "{motion: {phase: 400}}", "Phase is 400°"),
        ("toggle-12", "{motion: {ways: [{index: 30}]}}", "'ways' does not apply to the motion 'lever'"),
        ("toggle-12", "{opening: {diameter: {value: 12, tolerance: [-12, 0]}}}", "Lower limit of 'diameter' is 0"),
        ("toggle-12", "{opening: {diameter: {value: 12, tolerance: [0, 0]}}}", "Both deviations are 0"),
    ],
)
def test_what_makes_no_sense_for_the_part_is_refused(name: str, text: str, told: str) -> None:
    with pytest.raises(SpecError, match=told):
        changed(name, text)


def test_phase_and_ways_are_changed() -> None:
    before = catalogue.component("rotary-m10")
    part = changed("rotary-m10", "{motion: {phase: 15, ways: [{index: 36, positions: [2, 10]}]}}")
    assert part.motion.phase == 15.0
    (way,) = part.motion.ways
    assert (way.index, way.fewest, way.most, way.known) == (36.0, 2, 10, Known.GIVEN)
    # Three marks 36 apart, one of them at 15: -21, 15 and 51 are nearest to straight up in the middle.
    assert part.motion.angles(3) == (-21.0, 15.0, 51.0)
    assert part.motion.stops is before.motion.stops
