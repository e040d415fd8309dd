"""Places for parts that have none: written where they are due, and every other byte stays."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from panelart.diagnostics import SpecError
from panelart.drafting.arrange import Request, arranged, without_place
from panelart.pipeline import build
from panelart.source import edit
from panelart.spec.part_paths import paths_of_parts
from panelart.spec.read import panel_from_text

DEMO = Path(__file__).parents[2] / "demo"

SPEC = """\
# A trial.\r
panelart: 1
panel: {title: Trial, size: [160, 100], sheet: {material: aluminium, thickness: 2}, datum: centre}
marking: {process: digital-print, ink: {name: black, colour: "#101010"}, lettering: {cap_height: 3.5}}
parts:
  - {ref: S1, part: toggle-12, legend: Power}   # where the hand is
  - ref: RV1
    part: pot-m10     # 10 k
    legend: 'Level'
    knob: knob-21
  - {ref: DS1, part: led-5-bezel, at: [-60, 30], legend: "Ready"}
  - {ref: J1, part: bnc, legend: Out}
  - {ref: J2, part: bnc, at: {from: J1, by: [24, 0]}, legend: Trigger}
frames:
  - {around: [J1, J2], title: Signals}
"""


def placed(text: str, file: str = "trial.yaml", folder: Path = DEMO, **asked) -> str:
    return arranged(text, file, folder, Request(**asked))[0].text


def errors(text: str, folder: Path = DEMO) -> list[str]:
    findings = build(panel_from_text(text, "trial.yaml", folder)).inspection.findings
    return [finding.sentence for finding in findings if finding.severity.value == "error"]


def test_only_the_lines_of_parts_without_place_change() -> None:
    after = placed(SPEC)
    taken, put = [], []
    for line in edit.difference(SPEC, after, "trial.yaml").splitlines()[2:]:
        if line.startswith("-"):
            taken.append(line[1:])
        if line.startswith("+"):
            put.append(line[1:])
    number = r"-?\d+(?:\.\d+)?"
    at = rf"at: \[{number}, {number}\]"
    assert taken == [
        "  - {ref: S1, part: toggle-12, legend: Power}   # where the hand is",
        "  - {ref: J1, part: bnc, legend: Out}",
    ]
    assert [re.sub(at, "AT", line) for line in put] == [
        "  - {ref: S1, part: toggle-12, AT, legend: Power}   # where the hand is",
        "    AT",
        "  - {ref: J1, part: bnc, AT, legend: Out}",
    ]
    assert [re.sub(rf"(, {at}|    {at}\n)", "", after)] == [re.sub(rf"(, {at}|    {at}\n)", "", SPEC)]
    assert errors(after) == []


def test_parts_that_have_a_place_keep_it_and_followers_follow() -> None:
    panel = panel_from_text(placed(SPEC), "trial.yaml")
    assert panel.by_ref["DS1"].at == (20.0, 80.0)  # [-60, 30] from the centre of 160 x 100
    assert panel.by_ref["J2"].at.minus(panel.by_ref["J1"].at) == (24.0, 0.0)


def test_nothing_to_do_changes_nothing() -> None:
    after = placed(SPEC)
    assert without_place(after, "x") == {}
    assert placed(after) == after


@pytest.mark.few(2)
@pytest.mark.parametrize("demo", ["bench-supply.yaml", "dosing.yaml", "rear-io.yaml", "monitor-2u.yaml"])
def test_parts_of_the_demos_find_a_place_again(demo: str) -> None:
    """Three parts with lines of their own lose their place: they get another, and the others stay."""
    text = (DEMO / demo).read_text(encoding="utf-8")
    before = panel_from_text(text, demo, DEMO)
    own = {
        ref: path
        for ref, path in paths_of_parts(text).items()
        if "at: [" in edit.difference(text, _removed(text, path), demo) and not ref.startswith("H")
    }
    losing = list(own)[:2]
    bare = text
    for ref in losing:
        bare = _removed(bare, own[ref])
    after = placed(bare, demo)
    panel = panel_from_text(after, demo, DEMO)
    follow = {
        ref
        for ref, path in paths_of_parts(text).items()
        if f"from: {losing[0]}" in text or f"from: {losing[1]}" in text
    }
    for part in before.parts:
        if part.ref not in losing and part.ref not in follow:
            assert panel.by_ref[part.ref].at == part.at
    lines = edit.difference(bare, after, demo).splitlines()[2:]
    assert sum(line.startswith("+") for line in lines) == len(losing)


def _removed(text: str, path: edit.Path) -> str:
    try:
        return edit.remove(text, (*path, "at"))
    except SpecError:
        return text


def test_a_face_that_is_too_small_is_told_with_what_would_do() -> None:
    small = SPEC.replace("[160, 100]", "[80, 70]").replace("[-60, 30]", "[-30, 20]")
    with pytest.raises(SpecError, match="No space for") as refused:
        placed(small)
    assert refused.value.problems[0].hint


def test_a_keep_out_stays_free() -> None:
    kept = SPEC + "keepouts:\n  - {area: {rectangle: [-75, -45, 60, 50]}, why: bracket}\n"
    panel = panel_from_text(placed(kept), "trial.yaml")
    for ref in ("S1", "RV1", "J1"):
        at = panel.by_ref[ref].at
        assert not (5 < at.x < 65 and 5 < at.y < 55)


def test_the_grid_is_held() -> None:
    panel = panel_from_text(
        placed(SPEC.replace("datum: centre", "datum: lower-left").replace("[-60, 30]", "[20, 80]"), grid=2.54), "x"
    )
    for ref in ("S1", "RV1", "J1"):
        steps = panel.by_ref[ref].at.x / 1.27
        assert steps == pytest.approx(round(steps), abs=0.01)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (SPEC.replace("toggle-12", "toggel-12"), "Unknown part 'toggel-12'"),
        (SPEC.replace("[160, 100]", "[]"), "size"),
        ("panelart: 1\n", "panel"),
        ("- a\n", "mapping"),
    ],
)
def test_a_spec_with_a_slip_is_told_as_ever(text: str, said: str) -> None:
    with pytest.raises(SpecError, match=said):
        placed(text)


def test_alternatives_differ_and_are_sound() -> None:
    bare = re.sub(r", at: \[-60, 30\]", "", SPEC)
    found = arranged(bare, "trial.yaml", DEMO, Request(maximum=3))
    texts = [one.text for one in found]
    assert len(texts) == len(set(texts)) >= 2
    assert [one.plan.cost for one in found] == sorted(one.plan.cost for one in found)
    for text in texts:
        assert errors(text) == []
