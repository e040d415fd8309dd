"""What a user's part file may hold, and what is said of one that holds something else."""

from __future__ import annotations

import re
import subprocess
import sys
import textwrap
from pathlib import Path

import jsonschema
import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

import panelart.catalogue
from panelart.catalogue import component_from, library, read_contents, read_file
from panelart.catalogue.table import FILE
from panelart.diagnostics import SpecError
from panelart.figure import Known
from panelart.geometry import Point
from panelart.model.component import Role, Shaft
from panelart.model.motion import MotionKind
from panelart.source.generated import put_between_marks
from panelart.source.json_schema import json_schema
from panelart.source.problems import Problems
from panelart.source.reference import key_reference, records
from panelart.source.yaml import read as read_yaml
from tests.effort import examples

HOUSE = b"""\
panelart-catalogue: 1
sources: {caliper: measured on the part in hand}
parts:
  beacon-18:
    title: Beacon, 18 mm
    source: caliper
    openings:
      - role: body
        d-hole:
          diameter: "0.75 in"
          flat_to_opposite: {value: 17, tolerance: [0, 0.1], span: [17, 17.5], known: typical}
        turn: 90
        passes: {circle: {diameter: 17}}
      - {role: fixing, circle: {diameter: 3.4}, corners: [14, 10], passes: {circle: {diameter: 3}}}
    front:
      - {what: bezel, rectangle: {width: 36, height: 28, radius: 2}, projection: 3}
      - {what: lens, circle: {diameter: 16}, at: [0, 1], projection: 12, covers: false}
    rear: [{what: body, circle: {diameter: 17}, depth: 40}]
    thickness: {minimum: 1, maximum: 4}
    shaft: {diameter: 6, length: 12}
    motion: turn
    positions: [up, down]
    cautions: [ip-rating]
    facts: [{what: mass, value: 12, unit: g}]
    legend_at: [0, 5]
families:
  dial:
    name: "dial-{d}{suffix}"
    sizes: {columns: [d, suffix, end], rows: [[20, "", ""], [30, -long, down]]}
    title: "Dial {d}"
    openings:
      - {role: body, circle: {diameter: d + 0.4}}
      - {role: locating, circle: {diameter: 3}, places: [[-(d + 4) / 2, 0]]}
    motion: lever
    positions: [up, "{end}"]
knobs:
  wing-30: {title: Wing, diameter: 30, height: {value: 14, span: [12, 16]}, bore: 6, pointer: bar}
"""


def test_a_part_file_gives_its_parts() -> None:
    parts = read_file(HOUSE, "house.yaml")
    assert list(parts) == ["beacon-18", "dial-20", "dial-30-long"]
    beacon = parts["beacon-18"]
    assert beacon.family == "beacon-18"
    assert beacon.thickness == (1.0, 4.0)
    assert beacon.shaft == Shaft(diameter=6.0, length=12.0)
    assert beacon.motion.kind is MotionKind.TURN
    assert beacon.legend_origin == Point(0.0, 5.0)
    assert [opening.role for opening in beacon.openings] == [Role.BODY, *[Role.FIXING] * 4]
    body = beacon.openings[0]
    assert body.contour.bounds.height == pytest.approx(19.05)
    assert body.contour.bounds.width == pytest.approx(17.0), "the flat is turned to the right-hand side"
    assert body.contour.bounds.centre.x < 0
    assert [front.what for front in beacon.front] == ["bezel", "lens", "shaft"]
    assert [front.covers for front in beacon.front] == [True, False, False]
    assert beacon.front[1].contour.bounds.centre == Point(0.0, 1.0)
    assert beacon.rear[0].height == 40.0


def test_every_figure_keeps_its_standing() -> None:
    figures = {figure.name: figure for figure in read_file(HOUSE, "house.yaml")["beacon-18"].openings[0].figures}
    assert figures["diameter"].known is Known.GIVEN
    assert figures["diameter"].source == "measured on the part in hand"
    assert figures["flat_to_opposite"].known is Known.TYPICAL
    assert figures["flat_to_opposite"].tolerance == (0.0, 0.1)
    assert figures["flat_to_opposite"].span == (17.0, 17.5)
    assert figures["passes_diameter"].value == 17.0
    assert figures["turn"].unit == "deg"
    assert (figures["mass"].value, figures["mass"].unit) == (12.0, "g")
    assert (figures["sheet_minimum"].value, figures["sheet_maximum"].value) == (1.0, 4.0)


def test_a_family_works_its_rows_out() -> None:
    dial = read_file(HOUSE, "house.yaml")["dial-30-long"]
    assert dial.title == "Dial 30"
    assert dial.family == "dial"
    assert dial.positions == ("up", "down")
    assert dial.openings[0].contour.bounds.width == pytest.approx(30.4)
    assert dial.openings[1].contour.bounds.centre == Point(-17.0, 0.0)
    assert read_file(HOUSE, "house.yaml")["dial-20"].positions == ("up",)


def test_knobs_of_a_part_file() -> None:
    wing = read_contents(HOUSE, "house.yaml").knobs["wing-30"]
    assert (wing.diameter, wing.height, wing.bore, wing.pointer) == (30.0, 14.0, 6.0, "bar")
    assert wing.figures[1].span == (12.0, 16.0)


def test_every_shape_can_be_written() -> None:
    shapes = {
        "circle: {diameter: 10}": 10,
        "rectangle: {width: 12, height: 5}": 12,
        "chamfered-rectangle: {width: 12, height: 8, chamfer: 2}": 12,
        "slot: {length: 12, width: 5}": 12,
        "d-hole: {diameter: 10, flat_to_opposite: 9}": 10,
        "double-d: {diameter: 10, across_flats: 9}": 9,
        "keyed-circle: {diameter: 10, key_width: 2, over_key: 11}": 10,
        "trapezoid: {width: 12, height: 5, side_angle: 10}": 12,
        "hexagon: {across_flats: 10}": 20 / 3**0.5,
        "polygon: {points: [[0, 0], [9, 0], [0, 9]], radius: 1}": None,
    }
    for shape, width in shapes.items():
        text = f"panelart-catalogue: 1\nparts: {{a: {{openings: [{{role: body, {shape}}}]}}}}"
        contour = read_file(text.encode(), "a.yaml")["a"].openings[0].contour
        assert contour.area > 0
        if width is not None:
            assert contour.bounds.width == pytest.approx(width)


PART = "panelart-catalogue: 1\nparts:\n  a-1:\n"
OPENING = PART + "    openings:\n      - "
MOTION = PART + "    motion: {kind: turn, "
PUSH = PART + "    motion: {kind: push, "
FAMILY = """\
panelart-catalogue: 1
families:
  f:
    name: "f-{d}"
    sizes: {columns: [d, w], rows: [[3, 4], [5, 6]]}
"""

BAD: tuple[tuple[str, str, str, str], ...] = (
    ("", "1:1", "The file is empty", "Accepted"),
    ("parts: {}\n", "1:1", "Required key 'panelart-catalogue' is missing", "Accepted: panelart-catalogue: 1"),
    ("panelart-catalogue: 2\n", "1:21", "Found '2'", "Accepted: 1"),
    ("panelart-catalogue: 1\nfamilys: {}\n", "2:1", "Unknown key 'familys'", "Did you mean 'families'?"),
    ("panelart-catalogue: 1\nparts: [a]\n", "2:8", "Found the list [a]", "a mapping of names and parts"),
    ("panelart-catalogue: 1\nparts: {Bad_Name: {}}\n", "2:9", "Found 'Bad_Name'", "small letters"),
    ("panelart-catalogue: 1\nparts: {a: {}, a: {}}\n", "2:16", "Duplicate key 'a'", "each key once"),
    (PART + "    titel: x\n", "4:5", "Unknown key 'titel'", "Did you mean 'title'?"),
    (OPENING + "{circle: {diameter: 3}}\n", "5:9", "Required key 'role' is missing in an opening", "body, fixing"),
    (OPENING + "{role: bodi, circle: {diameter: 3}}\n", "5:16", "Found 'bodi'", "Did you mean 'body'?"),
    (OPENING + "{role: body}\n", "5:9", "No shape for an opening", "one of circle, rectangle"),
    (
        OPENING + "{role: body, circle: {diameter: 3}, hexagon: {across_flats: 3}}\n",
        "5:45",
        "'hexagon' is a second shape beside 'circle'",
        "one of circle",
    ),
    (OPENING + "{role: body, cricle: {diameter: 3}}\n", "5:22", "Unknown key 'cricle'", "Did you mean 'circle'?"),
    (OPENING + "{role: body, circle: 3}\n", "5:30", "Found '3'", "Write {diameter: 3}"),
    (OPENING + "{role: body, diameter: 3}\n", "5:22", "Unknown key 'diameter'", "Write circle: {diameter: 3}."),
    (OPENING + "{role: body, round: 3 mm}\n", "5:22", "Unknown key 'round'", "Write circle: {diameter: 3 mm}"),
    (OPENING + "{role: body, width: 3, height: 4}\n", "5:22", "Unknown key 'width'", "rectangle: {width"),
    (OPENING + "{role: body, xyzzy: 3}\n", "5:22", "Unknown key 'xyzzy'", "Keys of an opening: role, circle, "),
    (
        OPENING + "{role: body, circle: {}}\n",
        "5:30",
        "Required key 'diameter' is missing in circle",
        "Accepted: diameter:",
    ),
    (OPENING + "{role: body, circle: {diamter: 3}}\n", "5:31", "Unknown key 'diamter'", "Did you mean 'diameter'?"),
    (OPENING + "{role: body, circle: {diameter: -3}}\n", "5:41", "'diameter' is -3", "more than 0"),
    (OPENING + "{role: body, circle: {diameter: 0}}\n", "5:41", "'diameter' is 0", "more than 0"),
    (
        OPENING + "{role: body, circle: {diameter: 1e200}}\n",
        "5:41",
        "Value 1e+200 is too large",
        "numbers up to 1000000",
    ),
    (OPENING + "{role: body, circle: {diameter: wide}}\n", "5:41", "'wide' is not a length", "millimetres"),
    (OPENING + "{role: body, circle: {diameter: 3 miles}}\n", "5:41", "'miles' in '3 miles'", "millimetres"),
    (OPENING + "{role: body, circle: {diameter: .nan}}\n", "5:41", "'.nan' is not a length", "millimetres"),
    (OPENING + "{role: body, circle: {diameter: [3]}}\n", "5:41", "Found the list [3]", "a number of mm"),
    (
        OPENING + "{role: body, rectangle: {width: 3, height: 2, radius: -1}}\n",
        "5:63",
        "'radius' is -1",
        "0 or more",
    ),
    (
        OPENING + "{role: body, rectangle: {width: 3, height: 2, radius: 2}}\n",
        "5:33",
        "Invalid rectangle: corner radii take 4",
        "",
    ),
    (
        OPENING + "{role: body, d-hole: {diameter: 10, flat_to_opposite: 12}}\n",
        "5:30",
        "Invalid d-hole",
        "",
    ),
    (
        OPENING + "{role: body, polygon: {points: [[0, 0], [1, 1]]}}\n",
        "5:31",
        "Invalid polygon: a polygon has a minimum of 3 points",
        "",
    ),
    (
        OPENING + "{role: body, circle: {diameter: {value: 3, span: [4, 5]}}}\n",
        "5:58",
        "Value 3 is outside its span, 4 to 5",
        "[lowest, highest]",
    ),
    (
        OPENING + "{role: body, circle: {diameter: {value: 3, tolerance: [0.2, 0]}}}\n",
        "5:63",
        "Lower deviation 0.2 is more than upper deviation 0",
        "[0, 0.4] for +0.4/0",
    ),
    (
        OPENING + "{role: body, circle: {diameter: {value: 3, tolerance: [0, 0]}}}\n",
        "5:63",
        "Both deviations are 0",
        "leave out the tolerance",
    ),
    (
        OPENING + "{role: body, circle: {diameter: {value: 3, tolerance: [-3, 0.1]}}}\n",
        "5:63",
        "Lower limit of 'diameter' is 0: 3 with the deviation -3",
        "deviations from the value, not limits",
    ),
    (
        OPENING + "{role: body, circle: {diameter: {value: 3, tolerance: [0.2, 0.4]}}}\n",
        "5:63",
        "'diameter' is 3, outside its own limits by the deviations [0.2, 0.4]",
        "Write value: 3.3, tolerance: [-0.1, 0.1].",
    ),
    (
        OPENING + "{role: body, circle: {diameter: {value: 3, tolerance: [2.9, 3.3]}}}\n",
        "5:63",
        "'diameter' is 3, outside its own limits by the deviations [2.9, 3.3]",
        "Write value: 3, tolerance: [-0.1, 0.3].",
    ),
    (
        MOTION + "rotation: 270, electrical: 280}\n",
        "4:53",
        "Electrical angle is 280°, more than the rotation of 270°",
        "",
    ),
    (MOTION + "rotation: 270, tapers: {log: 290}}\n", "4:49", "Electrical angle of the law log is 290°, more than", ""),
    (MOTION + "rotation: 270, stops: none}\n", "4:36", "is 270°, with `stops: none`", "Leave out `rotation`"),
    (MOTION + "rotation: 3400, turns: 10}\n", "4:49", "10 turns with a rotation of 3400°", "3420° or more"),
    (MOTION + "detents: 10.5}\n", "4:35", "10.5 detents in one turn", "such as 10 or 11"),
    (MOTION + "phase: 361}\n", "4:33", "Phase is 361°", "-360° to 360°"),
    (MOTION + "throw: 20}\n", "4:33", "'throw' does not apply to the motion 'turn'", "lever, rocker or tilt"),
    (MOTION + "ways: [{angles: [0, 30], index: 30}]}\n", "4:51", "with both `angles` and `index`", "or `index: 30`"),
    (MOTION + "ways: [{angles: [30, 0.5]}]}\n", "4:42", "Angles 30, 0.5 do not increase", "increasing angles"),
    (
        MOTION + "ways: [{index: 30, positions: [2, 13]}]}\n",
        "4:33",
        "2 to 13 positions with an index of 30°",
        "maximum 12",
    ),
    (PUSH + "rotation: 270}\n", "4:36", "'rotation' does not apply to the motion 'push'", "turn or wheel"),
    (PUSH + "electrical: 270}\n", "4:38", "'electrical' does not apply to the motion 'push'", "turn or wheel"),
    (PUSH + "detents: 3}\n", "4:35", "'detents' does not apply to the motion 'push'", "turn or wheel"),
    (PUSH + "ways: [{index: 30}]}\n", "4:32", "'ways' does not apply to the motion 'push'", "turn, wheel or tilt"),
    (
        OPENING + "{role: body, circle: {diameter: {span: [1, 2]}}}\n",
        "5:41",
        "Required key 'value' is missing",
        "Accepted: value:",
    ),
    (OPENING + "{role: body, circle: {diameter: 3}, at: [1, 2, 3]}\n", "5:49", "Found the list [1, 2, 3]", "[x, y]"),
    (OPENING + "{role: body, circle: {diameter: 3}, at: []}\n", "5:49", "an empty list", "numbers [x, y]"),
    (
        OPENING + "{role: body, circle: {diameter: 3}, at: [1, 2], corners: [3, 4]}\n",
        "5:9",
        "Several positions for an opening: at and corners",
        "one of at, places, corners and grid",
    ),
    (
        OPENING + "{role: body, circle: {diameter: 3}, grid: {count: [2.5, 1], step: [1, 1]}}\n",
        "5:59",
        "Grid count is [2.5, 1]",
        "whole numbers from 1",
    ),
    (
        OPENING + "{role: body, circle: {diameter: 3}, grid: {count: [200, 200], step: [1, 1]}}\n",
        "5:59",
        "Grid count is [200, 200]",
        "maximum 10000",
    ),
    (
        OPENING + "{role: body, circle: {diameter: 3}, grid: {count: [2, 2], step: [9, 9], within: 1}}\n",
        "5:51",
        "No position of the grid is inside",
        "Increase 'within'",
    ),
    (
        PART + "    front: [{what: nut, hexagon: {across_flats: 8}}]\n",
        "4:13",
        "Required key 'projection' is missing",
        "Accepted",
    ),
    (
        PART + "    front: [{what: nut, hexagon: {across_flats: 8}, projection: -1}]\n",
        "4:65",
        "'projection' is -1",
        "0 or more",
    ),
    (
        PART + "    rear: [{what: nut, hexagon: {across_flats: 8}, projection: 1}]\n",
        "4:52",
        "Unknown key 'projection'",
        "",
    ),
    (
        PART + "    thickness: {minimum: 3, maximum: 1}\n",
        "4:16",
        "Sheet thickness is 3 to 1 mm",
        "minimum of 0 or more",
    ),
    (PART + "    shaft: {diameter: 0, length: 10}\n", "4:12", "Shaft diameter is 0 mm, length 10 mm", "more than 0"),
    (PART + "    motion: twist\n", "4:13", "Found 'twist'", "Accepted: none, lever"),
    (PART + "    positions: [up, dwon]\n", "4:21", "Found 'dwon'", "Did you mean 'down'?"),
    (PART + "    cautions: [mains]\n", "4:16", "Unknown caution 'mains'", "Did you mean 'mains-inlet'?"),
    (PART + "    known: seen\n", "4:12", "Found 'seen'", "Accepted: proved, looked-up"),
    (PART + "    facts: [{what: mass}]\n", "4:13", "Required key 'value' is missing in a fact", "Accepted: value:"),
    (
        FAMILY + "    openings: [{role: body, circle: {diameter: ww}}]\n",
        "6:48",
        "Unknown column 'ww'",
        "Did you mean 'w'?",
    ),
    (FAMILY + "    openings: [{role: body, circle: {diameter: d + }}]\n", "6:48", "'d +' is incomplete", "numbers"),
    (
        FAMILY + "    openings: [{role: body, circle: {diameter: d - 4}}]\n",
        "6:48",
        "f-3: 'diameter' is -1",
        "more than 0",
    ),
    (FAMILY + '    title: "size {wide}"\n', "6:12", "Unknown column '{wide}'", "columns: d, w"),
    (FAMILY + '    motion: "{w}"\n', "6:13", "Found '4'", "Accepted: none, lever"),
    (FAMILY.replace("f-{d}", "f-{e}"), "4:11", "Unknown column '{e}'", "columns: d, w"),
    (FAMILY.replace("[5, 6]", "[5]"), "5:45", "1 value in this row; columns of the table: 2", "[d, w]"),
    (FAMILY.replace("[5, 6]", "[3, 6]"), "5:45", "Duplicate name 'f-3'; the first is at 5:37", "each name once"),
    (FAMILY.replace("[5, 6]", "[X y, 6]"), "5:45", "This row gives the invalid name 'f-X y'", "small letters"),
    (FAMILY + "parts: {f-3: {title: x}}\n", "5:37", "Duplicate name 'f-3'; the first is at 6:9", "each name once"),
    (FAMILY.replace("sizes", "size"), "5:5", "Unknown key 'size'", "Did you mean 'sizes'?"),
    ("panelart-catalogue: 1\nknobs: {k: {diameter: 0, height: 3}}\n", "2:23", "'diameter' is 0", "more than 0"),
    (
        "panelart-catalogue: 1\nknobs: {k: {diameter: 10, height: 3, pointer: arow}}\n",
        "2:47",
        "Found 'arow'",
        "Accepted: none, line",
    ),
    ("panelart-catalogue: 1\nparts:\n\ta: {}\n", "3:1", "tab", "spaces"),
)


@pytest.mark.parametrize(("text", "place", "message", "hint"), BAD, ids=[f"{row[1]} {row[2]}"[:50] for row in BAD])
def test_what_is_wrong_is_said_where_it_stands(text: str, place: str, message: str, hint: str) -> None:
    with pytest.raises(SpecError) as raised:
        read_file(text.encode(), "house.yaml")
    found = [
        problem
        for problem in raised.value.problems
        if str(problem.where) == f"house.yaml:{place}" and message in problem.message and hint in problem.hint
    ]
    assert found, str(raised.value)


@pytest.mark.parametrize(
    "motion",
    [
        "kind: turn, rotation: 270, electrical: 270, tapers: {log: 270}, phase: -360, detents: 41",
        "kind: turn, rotation: 3420, turns: 10, stops: fixed",
        "kind: turn, stops: none, detents: 24, travel: 0.5",
        "kind: tilt, throw: 40",
    ],
)
def test_motions_at_the_limit_of_sense_are_read(motion: str) -> None:
    text = f"{PART}    motion: {{{motion}}}\n"
    (part,) = read_file(text.encode(), "house.yaml").values()
    assert part.motion.figures


def test_a_part_like_itself_that_nobody_has_is_not_offered_itself() -> None:
    with pytest.raises(SpecError) as raised:
        read_file(b"panelart-catalogue: 1\nparts: {toggle-13: {like: toggle-13}}\n", "house.yaml")
    (problem,) = raised.value.problems
    assert "Unknown part 'toggle-13'" in str(problem.says)
    assert "'toggle-13'" not in str(problem.accepts)
    assert "toggle-12" in str(problem.accepts)


def test_all_problems_are_told_at_once() -> None:
    text = OPENING + "{role: bodi, circle: {diameter: 3}}\n    motion: twist\n    colour: red\n  b:\n    known: seen\n"
    with pytest.raises(SpecError) as raised:
        read_file(text.encode(), "house.yaml")
    assert [str(problem.where) for problem in raised.value.problems] == [
        "house.yaml:5:16",
        "house.yaml:6:13",
        "house.yaml:7:5",
        "house.yaml:9:12",
    ]


def test_the_problems_of_all_pieces_of_a_part_are_told() -> None:
    text = (
        OPENING + "{role: body, circle: {diameter: 3 miles}}\n"
        "      - {role: body, circle: {diameter: -1}}\n"
        "    front: [{what: nut, circle: {diameter: a}, projection: 1}]\n"
        "    thickness: {minimum: 3, maximum: 1}\n"
        "    cautions: [mains]\n"
    )
    with pytest.raises(SpecError) as raised:
        read_file(text.encode(), "house.yaml")
    assert [str(problem.where) for problem in raised.value.problems] == [
        "house.yaml:5:41",
        "house.yaml:6:41",
        "house.yaml:7:44",
        "house.yaml:8:16",
        "house.yaml:9:16",
    ]


def test_a_problem_shared_by_all_rows_is_told_once() -> None:
    with pytest.raises(SpecError) as raised:
        read_file((FAMILY + "    thickness: {minimum: q, maximum: 3}\n").encode(), "house.yaml")
    assert len(raised.value.problems) == 1


def test_a_part_defined_in_place() -> None:
    node = read_yaml("openings: [{role: body, circle: {diameter: 18}}]", "panel.yaml")
    problems = Problems()
    part = component_from(node, "S1", problems)
    assert part is not None
    assert not len(problems)
    assert (part.name, part.title, part.family) == ("S1", "S1", "S1")
    assert part.openings[0].figures[0].known is Known.GIVEN


def test_a_part_defined_in_place_with_a_slip() -> None:
    node = read_yaml("openings: [{role: body, circle: {diameter: 18 mn}}]", "panel.yaml")
    problems = Problems()
    assert component_from(node, "S1", problems) is None
    assert [str(problem.where) for problem in problems.error().problems] == ["panel.yaml:1:44"]


def test_braces_in_a_part_outside_a_family_are_braces() -> None:
    assert read_file(b"panelart-catalogue: 1\nparts: {a: {title: 'X {y}'}}", "a.yaml")["a"].title == "X {y}"


def test_the_walk_through_can_be_followed() -> None:
    """Every part file in the walk-through is one, and its parts are those that it goes on to use."""
    text = (Path(panelart.catalogue.__file__).parent / "own-parts.md").read_text("utf-8")
    blocks = [textwrap.dedent(block) for block in re.findall(r"```yaml\n(.*?)```", text, re.DOTALL)]
    files = [block for block in blocks if block.startswith("panelart-catalogue")]
    contents = [read_contents(block.encode(), "house-parts.yaml") for block in files]
    names = [[*one.components, *one.knobs] for one in contents]
    assert names == [
        ["beacon-18"],
        ["beacon-12", "beacon-18", "beacon-24"],
        ["toggle-12", "bnc-long-flat"],
        ["wing-30"],
    ]
    assert any("part: beacon-18" in block for block in blocks if block not in files)


def test_the_schema_for_editors_accepts_the_files_that_are_read() -> None:
    """The JSON Schema of the table, judged by an independent validator on every built-in file and on a slip."""
    schema = json_schema(FILE, "catalogue", "catalogue")
    validator = jsonschema.validators.validator_for(schema)
    validator.check_schema(schema)
    judge = validator(schema)
    for file in library.files():
        data = (library._PARTS / file).read_text("utf-8")
        assert not list(judge.iter_errors(yaml.safe_load(data))), file
    assert list(judge.iter_errors({"panelart-catalogue": 1, "parts": {"a": {"titel": "x"}}}))
    assert list(judge.iter_errors({"panelart-catalogue": 1, "parts": {"a": {"front": [{"what": "nut"}]}}}))


def test_the_key_reference_in_the_walk_through_is_current() -> None:
    """`python -m panelart.catalogue --write panelart/catalogue/own-parts.md` makes it."""
    page = (Path(panelart.catalogue.__file__).parent / "own-parts.md").read_text("utf-8")
    made = subprocess.run([sys.executable, "-m", "panelart.catalogue"], capture_output=True, text=True, check=True)
    assert put_between_marks(page, "keys", made.stdout.rstrip("\n")) == page
    for record in records(FILE):
        assert f"\n### {record.name}\n" in page
        for field in record.fields:
            assert f"| `{field.name}` |" in page
    for key in _keys_of_the_built_in_files():
        assert f"| `{key}` |" in page


def _keys_of_the_built_in_files() -> set[str]:
    """Every key that a built-in file has, as another reader of YAML finds them; names of parts and sources are none."""
    keys: set[str] = set()
    waiting = [yaml.safe_load((library._PARTS / file).read_text("utf-8")) for file in library.files()]
    for data in tuple(waiting):
        for group in ("parts", "families", "knobs", "motions"):
            waiting += (data.pop(group, None) or {}).values()
        data.pop("sources", None)
    while waiting:
        held = waiting.pop()
        if isinstance(held, dict):
            held.pop("tapers", None)  # laws by name
            keys |= set(held)
            waiting += held.values()
        elif isinstance(held, list):
            waiting += held
    return keys


@pytest.mark.parametrize(
    "page", ["no marks", "<!-- a -->\n", "<!-- /a -->\n<!-- a -->\n", 2 * "<!-- a -->\n<!-- /a -->"]
)
def test_nothing_is_put_into_a_page_without_marks(page: str) -> None:
    with pytest.raises(ValueError, match="once each"):
        put_between_marks(page, "a", "made")


def test_every_key_is_in_the_key_reference() -> None:
    text = key_reference(FILE)
    for key in ("flat_to_opposite", "passes", "projection", "staggered", "legend_at", "columns", "pointer"):
        assert f"`{key}`" in text


SLIPS = (
    "0",
    "-1",
    "1e9",
    "{",
    "}",
    "[",
    "wide",
    '""',
    "9/0",
    "(",
    "1e999",
    "{d}",
    "{q}",
    "[]",
    "{}",
    "role",
    "&a",
    "*a",
)


@given(st.lists(st.tuples(st.integers(0, 10_000), st.sampled_from(SLIPS)), min_size=1, max_size=3))
@settings(max_examples=examples(150), deadline=None)
def test_whatever_is_written_is_read_or_explained(changes: list[tuple[int, str]]) -> None:
    """Any token of the part file above replaced by any slip: parts, or problems with a place and words."""
    tokens = re.split(r"(\s+|[\[\]{},:])", HOUSE.decode())
    for index, slip in changes:
        tokens[index % len(tokens)] = slip
    try:
        assert read_file("".join(tokens).encode(), "house.yaml") is not None
    except SpecError as error:
        assert error.problems  # noqa: PT017  # either outcome is right, any other exception is not
        assert all(problem.message and problem.where.line >= 1 for problem in error.problems)  # noqa: PT017
