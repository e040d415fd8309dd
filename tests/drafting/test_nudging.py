"""The smallest moves that clear a panel: held against every move on a grid, tried by the rules."""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest

from panelart.diagnostics import Severity
from panelart.drafting.nudging import Nudged, nudged
from panelart.pipeline import build
from panelart.source import edit
from panelart.spec.read import panel_from_text

DEMO = Path(__file__).parents[2] / "demo"

SPEC = """\
# A trial.
panelart: 1
panel: {title: Trial, size: [160, 100], sheet: {material: aluminium, thickness: 2}}
marking: {process: digital-print, ink: {name: black, colour: "#101010"}, lettering: {cap_height: 3.5}}
parts:
  - {ref: S1, part: toggle-12, at: [50, 50], legend: Power}   # where the hand is
  - ref: S2
    part: toggle-12
    at: [60 mm, 50]     # too near
    legend: 'Load'
  - {ref: J1, part: bnc, at: [120, 50], legend: Out}
"""


def of(text: str, folder: Path = DEMO) -> Nudged:
    return nudged(text, "trial.yaml", folder)


def open_(text: str) -> list[str]:
    findings = build(panel_from_text(text, "trial.yaml", DEMO)).inspection.findings
    return [one.rule for one in findings if one.severity is not Severity.NOTE]


def changed(before: str, after: str) -> list[str]:
    lines = edit.difference(before, after, "trial.yaml").splitlines()[2:]
    return [line for line in lines if line.startswith("+")]


def test_two_controls_move_apart_by_what_they_lack() -> None:
    """Rings of 18.2 mm with space for a finger round the levers; the text keeps its unit, quotes and remarks."""
    found = of(SPEC)
    assert open_(SPEC) != []
    assert open_(found.text) == []
    assert found.left == ()
    assert found.proved
    assert len(found.steps) == 1
    (line,) = changed(SPEC, found.text)
    assert line.endswith(("# where the hand is", "# too near"))
    assert sum(abs(way) for way in found.steps[0].by) == pytest.approx(found.cost)
    assert found.steps[0].clears == tuple(range(1, len(open_(SPEC)) + 1))


def test_a_clear_panel_stays_byte_for_byte() -> None:
    clear = SPEC.replace("60 mm", "85 mm")
    found = of(clear)
    assert (found.text, found.steps, found.cost) == (clear, (), 0.0)


def test_a_fixed_part_stays_and_the_other_moves() -> None:
    found = of(SPEC.replace("legend: Power}", "legend: Power, fixed: true}"))
    assert [step.refs for step in found.steps] == [("S2",)]
    assert found.left == ()


def test_two_fixed_parts_are_told() -> None:
    text = SPEC.replace("legend: Power}", "legend: Power, fixed: true}").replace(
        "    legend: 'Load'", "    fixed: true"
    )
    found = of(text)
    assert found.steps == ()
    assert found.text == text
    assert "S1" in str(found.left[0].why)
    assert "fixed" in str(found.left[0].why)


def test_parts_on_a_board_stay() -> None:
    text = SPEC + "boards:\n  - {parts: [S1], heights: {S1: 12}}\n"
    assert [step.refs for step in of(text).steps] == [("S2",)]


ROW = """\
  - row: {at: [40, 50], gap: 8}
    parts:
      - {repeat: {count: 3}, parts: [{ref: "H{n}", part: led-5-bezel, legend: "L{n}"}]}
  - {ref: S1, part: toggle-12, at: [75, 52], legend: Power}
"""


def test_a_row_moves_as_one_or_not_at_all() -> None:
    head = SPEC[: SPEC.index("parts:") + len("parts:\n")]
    text = head + ROW
    before, found = panel_from_text(text, "trial.yaml", DEMO), of(text)
    after = found.built.layout.panel
    gone = {ref: after.by_ref[ref].at.minus(before.by_ref[ref].at) for ref in ("H1", "H2", "H3")}
    assert len({(round(by.x, 6), round(by.y, 6)) for by in gone.values()}) == 1
    assert open_(text) != []
    assert open_(found.text) == []


FEW = """\
panelart: 1
panel: {{title: Trial, size: [90, 60], sheet: {{material: aluminium, thickness: 2}}}}
marking: {{process: digital-print, ink: {{name: black, colour: "#101010"}}, lettering: {{cap_height: 3.5}}}}
parts:
  - {{ref: H1, part: {{part: opening-circle, opening: {{diameter: 12}}}}, at: [{0}, {1}]}}
  - {{ref: H2, part: {{part: opening-circle, opening: {{diameter: 10}}}}, at: [{2}, {3}]}}
  - {{ref: H3, part: {{part: opening-circle, opening: {{diameter: 8}}}}, at: [50, 30], fixed: true}}
"""


@pytest.mark.full
def test_no_move_on_a_grid_clears_a_panel_for_less() -> None:
    """Oracle: all 14,641 pairs of moves of two holes by half millimetres up to 2.5 mm, those that cost less inspected.

    H1 and H2 are 10 mm apart and must be 13, H2 and H3 10 and must be 11; no two of them stand in line.
    """
    start = (31.0, 28.0, 40.5, 31.2)
    found = of(FEW.format(*start))
    assert found.left == ()
    assert found.proved
    steps = [number / 2 for number in range(-5, 6)]
    cheaper = [by for by in product(steps, repeat=4) if sum(abs(one) for one in by) < found.cost - 0.3]
    assert len(cheaper) > 1000
    for by in cheaper:
        text = FEW.format(*(round(a + b, 3) for a, b in zip(start, by, strict=True)))
        assert any(rule in ("openings-too-close", "openings-collide") for rule in open_(text))


def test_moves_are_the_same_every_time() -> None:
    assert of(SPEC).text == of(SPEC).text


@pytest.mark.few(2)
@pytest.mark.parametrize(
    ("demo", "written", "wrong", "moved"),
    [
        ("bench-supply.yaml", "at: [219.05, 71]", "at: [206, 71]", 6.1),
        ("bench-supply.yaml", "at: [253, 7]", "at: [258, 7]", 6.1),
        ("climate-chamber.yaml", "at: [212, 8]", "at: [218, 8]", 8.1),
        ("pump-station.yaml", "at: [190, 30]", "at: [190, 52]", 22.0),
    ],
)
def test_a_part_of_a_demo_that_is_moved_is_cleared_by_no_more(
    demo: str, written: str, wrong: str, moved: float
) -> None:
    """The mistake itself, taken back, is a way to clear it: the moves cost no more."""
    path = DEMO / demo
    text = path.read_text(encoding="utf-8")
    assert text.count(written) == 1
    found = nudged(text.replace(written, wrong), path.as_posix(), path.parent)
    assert found.left == ()
    assert 0.0 < found.cost <= moved
