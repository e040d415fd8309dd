"""Specs that hold several panels: what is shared, what each has of its own, and every slip with its place."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import jsonschema
import pytest

from panelart.diagnostics import Severity, SpecError
from panelart.pipeline import build, placement_path, read
from panelart.sheets.sets import panels_csv, set_parts_csv
from panelart.source import yaml
from panelart.spec.language import json_schema
from panelart.spec.read import panel_names
from tests.spec.test_language import typed

DEMO = Path(__file__).parents[2] / "demo" / "sets" / "level-monitor.yaml"
TEXT = DEMO.read_text(encoding="utf-8")


@pytest.fixture
def box(tmp_path: Path):
    def written(text: str, name: str = "front"):
        (tmp_path / "box.yaml").write_text(text, "utf-8")
        return read(tmp_path / f"box.yaml#{name}" if name else tmp_path / "box.yaml")

    return written


def test_each_panel_has_its_own_and_what_is_shared() -> None:
    assert panel_names(DEMO) == ("front", "rear")
    front, rear = (read(DEMO.with_name(f"{DEMO.name}#{name}")) for name in ("front", "rear"))
    assert (front.number, rear.number) == ("NW-410-01", "NW-410-02")
    assert [part.ref for part in front.parts] == ["M1", "H1", "S1"]
    assert [part.ref for part in rear.parts] == ["J1", "E1", "J2"]
    assert front.coat == rear.coat
    assert front.outline == rear.outline
    assert front.fingerprint != rear.fingerprint
    assert front.opposite is not None
    assert front.opposite.panel.number == rear.number
    assert front.depth_behind == 160.0


@pytest.mark.parametrize("name", ["front", "rear"])
def test_the_demo_is_in_order(name: str) -> None:
    built = build(read(DEMO.with_name(f"{DEMO.name}#{name}")))
    assert [f.sentence for f in built.inspection.findings if f.severity is not Severity.NOTE] == []
    assert built.layout.unplaced == ()


def test_what_a_panel_writes_takes_the_place_of_the_shared(box) -> None:
    text = TEXT.replace("number: NW-410-02", "number: NW-410-02\n      size: [150, 90]")
    assert box(text, "rear").size == (150, 90)
    assert box(text, "front").size == (170, 100)
    assert box(text, "rear").sheet.thickness == 2


def test_a_box_that_is_too_shallow(box) -> None:
    """110 mm of the meter and 16 of the jack behind it: 126 mm, and 15 between them."""
    for depth, rules in ((140, {"bodies-meet-in-box"}), (142, set())):
        findings = build(box(TEXT.replace("depth: 160", f"depth: {depth}"))).inspection.findings
        assert {finding.rule for finding in findings if finding.severity is Severity.ERROR} == rules


def test_a_part_deeper_than_the_box_is_told_of_the_box(box) -> None:
    findings = build(box(TEXT.replace("depth: 160", "depth: 90"))).inspection.findings
    (deep,) = [finding for finding in findings if finding.rule == "body-deeper-than-room"]
    assert (deep.refs, deep.limit) == (("M1",), 90.0)
    assert deep.origin.id == "checks-limits.box-depth-in"


def test_the_lists_cover_the_set() -> None:
    panels = {name: read(DEMO.with_name(f"{DEMO.name}#{name}")) for name in ("front", "rear")}
    rows = list(csv.DictReader(io.StringIO(panels_csv(panels).decode())))
    assert [(row["panel"], row["spec"], row["parts"]) for row in rows] == [
        (name, panel.fingerprint, "3") for name, panel in panels.items()
    ]
    parts = list(csv.DictReader(io.StringIO(set_parts_csv(panels).decode())))
    assert [(row["of"], row["ref"]) for row in parts] == [
        *(("front", ref) for ref in ("M1", "H1", "S1")),
        *(("rear", ref) for ref in ("J1", "E1", "J2")),
    ]


def test_placements_are_kept_apart() -> None:
    names = {placement_path(Path("a/box.yaml#front")), placement_path(Path("a/box.yaml#rear"))}
    assert {path.as_posix() for path in names} == {"a/box.front.placement.json", "a/box.rear.placement.json"}
    assert placement_path(Path("a/box.yaml")).as_posix() == "a/box.placement.json"


def test_a_file_whose_name_has_the_mark_is_that_file(tmp_path: Path) -> None:
    (tmp_path / "supply#2.yaml").write_text((DEMO.parents[1] / "bench-supply.yaml").read_text("utf-8"), "utf-8")
    assert read(tmp_path / "supply#2.yaml").parts


# what | in the demo | instead | which panel is read | line | message
SLIPS = [
    ("none named", "", "", "", 5, "The spec has several panels"),
    ("unknown", "", "", "side", 5, "Unknown panel 'side'"),
    ("own key misspelt", "    texts:", "    text:", "front", 16, "Unknown key 'text' in spec"),
    ("shared key misspelt", "marking:", "markings:", "front", 40, "Unknown key 'markings' in spec"),
    ("shared parts", "box: {", "parts: []\nbox: {", "front", 30, "'parts' is beside 'panels'"),
    ("set in a set", "    texts:", "    panels: {}\n    texts:", "front", 16, "'panels' is inside a panel"),
    ("no mapping", "    texts:", "  side: 5\n    texts:", "front", None, ""),
    ("box of one", "rear: rear,", "rear: front,", "front", 30, "'front' is both front and rear"),
    ("box of unknown", "rear: rear,", "rear: back,", "front", 30, "Unknown panel 'back'"),
    ("box without depth", "depth: 160, ", "", "front", 30, "Required key 'depth' is missing in box"),
    (
        "all clearance",
        "clearance: 15",
        "clearance: 160",
        "front",
        30,
        "Clearance 160 mm is not less than the depth 160 mm",
    ),
    ("odd name", "  rear:\n    panel:", "  re/ar:\n    panel:", "front", 19, "Found 're/ar'"),
    ("no panels", TEXT[TEXT.index("  front:") : TEXT.index("# Between")], "  {}\n", "", 8, "'panels' has no panel"),
]


@pytest.mark.parametrize(("what", "old", "new", "name", "line", "message"), SLIPS, ids=[slip[0] for slip in SLIPS])
def test_slips(box, what: str, old: str, new: str, name: str, line: int | None, message: str) -> None:
    assert old in TEXT, what
    with pytest.raises(SpecError) as caught:
        box(TEXT.replace(old, new, 1), name)
    problems = {(problem.where.line if line else None, problem.message) for problem in caught.value.problems}
    assert any(at == line and message in told for at, told in problems), problems


def test_one_panel_has_no_box_and_no_names(box) -> None:
    single = (DEMO.parents[1] / "bench-supply.yaml").read_text("utf-8")
    with pytest.raises(SpecError, match="'box' is given, but the spec has one panel"):
        box(single + "box: {front: a, rear: b, depth: 100}\n", "")
    with pytest.raises(SpecError, match="The spec has one panel, but panel 'rear' is selected"):
        box(single, "rear")


def test_sets_are_valid_by_the_json_schema_and_empty_specs_are_not() -> None:
    check = jsonschema.Draft202012Validator(json_schema())
    assert [error.message for error in check.iter_errors(typed(yaml.read(TEXT, "a.yaml")))] == []
    assert not check.is_valid({"panelart": 1})
