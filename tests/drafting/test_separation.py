"""What parts need of each other, held against the rules: just outside they find nothing, just inside something."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from panelart.checks.inspection import limits_of
from panelart.diagnostics import Severity
from panelart.drafting.separation import Surroundings
from panelart.model.panel import Panel
from panelart.pipeline import build
from panelart.spec.read import panel_from_text

ROOT = Path(__file__).parents[2]

SPEC = """\
panelart: 1
panel: {{title: Trial, size: [300, 200], sheet: {{material: aluminium, thickness: 2}}}}
marking: {{process: digital-print, ink: {{name: black, colour: "#101010"}}, lettering: {{cap_height: 3.5}}}}
{more}
parts:
  - {{ref: P1, {one}, at: [150, 100]}}
  - {{ref: P2, {two}, at: [{x}, {y}]}}
"""

PAIRS = [
    ("part: bnc", "part: bnc", ""),
    ("part: toggle-12", "part: toggle-12", ""),
    ("part: toggle-12", "part: pot-m10, knob: {diameter: 24, height: 16}", ""),
    ("part: pushbutton-22", "part: pushbutton-22", ""),
    ("part: pushbutton-22", "part: emergency-stop-22", ""),
    ("part: meter-48x24", "part: screw-m4", ""),
    ("part: pot-m10, knob: {diameter: 24, height: 16}", "part: toggle-mini", "operator: {hand: gloved}"),
    ("part: bnc", "part: socket-4", "operator: {hand: bare}"),
    ("part: dsub-9, turn: 90", "part: screw-m4", ""),
]


def panel_of(one: str, two: str, more: str, x: float, y: float) -> Panel:
    return panel_from_text(SPEC.format(one=one, two=two, more=more, x=round(x, 4), y=round(y, 4)), "trial.yaml", ROOT)


def found(panel: Panel) -> set[str]:
    """Rules that name both parts, but for those of what a latch needs, which is no convex area."""
    return {
        finding.rule
        for finding in build(panel).inspection.findings
        if finding.severity is not Severity.NOTE and {"P1", "P2"} <= set(finding.refs) and "latch" not in finding.rule
    }


@pytest.mark.few(4)
@pytest.mark.parametrize(("one", "two", "more"), PAIRS)
@pytest.mark.parametrize("way", [0, 35, 90, 200])
def test_the_rules_find_something_just_where_the_areas_are(one: str, two: str, more: str, way: int) -> None:
    panel = panel_of(one, two, more, 250, 100)
    areas = Surroundings(panel, limits_of(panel)).between("P1", "P2")
    line = np.array([math.cos(math.radians(way)), math.sin(math.radians(way))])
    # How far out along the line the last of the areas ends.
    ends = []
    for area in areas:
        along = area.ways @ line
        ends.append(float((area.reaches[along > 1e-9] / along[along > 1e-9]).min()))
    far = max(ends)
    out, inside = line * (far + 0.01), line * (far * 0.995 - 0.05)
    assert found(panel_of(one, two, more, 150 + out[0], 100 + out[1])) == set()
    assert found(panel_of(one, two, more, 150 + inside[0], 100 + inside[1])) != set()


@pytest.mark.parametrize("demo", ["bench-supply.yaml", "rear-io.yaml", "dosing.yaml", "mixing-desk.yaml"])
def test_what_stands_on_a_demo_is_in_no_area(demo: str) -> None:
    """No demo has a finding, so nothing on them may count as too close."""
    path = ROOT / "demo" / demo
    panel = panel_from_text(path.read_text(encoding="utf-8"), path.as_posix(), path.parent)
    around = Surroundings(panel, limits_of(panel))
    for number, one in enumerate(panel.parts):
        ways, most = around.inside(one.ref)
        assert (ways @ np.array(one.at) <= most + 1e-6).all()
        for two in panel.parts[number + 1 :]:
            step = np.array(two.at) - np.array(one.at)
            assert all(area.depth(step) <= 1e-6 for area in around.between(one.ref, two.ref))
