"""Behind the panel, and what a panel with mains must carry. Limits: common practice, or the spec's own."""

from __future__ import annotations

import pytest

from panelart.checks.limits import Basis
from panelart.diagnostics import Severity
from panelart.model.circuit import Circuit, CircuitKind
from panelart.model.motion import MotionKind
from tests.checks.builders import block, control, disc, layout, legend, part, rear, request
from tests.checks.cases import JUST, found, measured, refs
from tests.checks.making import laid_out

INLET = control(MotionKind.NONE, "iec-c14", cautions=("mains-inlet", "protective-earth"))
FUSE = control(MotionKind.NONE, "fuse-5x20", cautions=("fuse",))
STUD = control(MotionKind.NONE, "stud", circuit=Circuit(kind=CircuitKind.PROTECTIVE_EARTH))
SIGNAL_STUD = control(MotionKind.NONE, "stud", circuit=Circuit(kind=CircuitKind.FUNCTIONAL_EARTH))
SCREW = control(MotionKind.NONE, "screw")


@pytest.mark.parametrize(("room", "deep"), [(10.0, []), (10.0 - JUST, [10.0]), (None, [])])
def test_a_body_deeper_than_the_room(room, deep):
    panel = layout(rear("M1", block(50, 50, 20, 20)), depth_behind=room)  # bodies of the builders are 10 mm deep
    findings = found("body-deeper-than-room", panel)
    assert [finding.measured for finding in findings] == deep
    assert {(finding.severity, finding.basis) for finding in findings} <= {(Severity.ERROR, Basis.GIVEN)}


@pytest.mark.parametrize(("x", "past"), [(12.0, []), (12.0 - JUST, [JUST]), (11.0, [1.0])])
def test_a_body_past_the_edge(x, past):
    assert measured("body-over-edge", layout(rear("M1", disc(x, 50, 24)))) == pytest.approx(past, abs=1e-9)


def test_a_metal_panel_with_mains_has_an_earth_terminal():
    inlet = part("J1", INLET, spot=(40, 50))
    assert refs("earth-terminal-missing", layout(inlet)) == [("J1",)]
    assert refs("earth-terminal-missing", layout(inlet, material="acrylic")) == []
    assert refs("earth-terminal-missing", layout(inlet, part("E1", STUD, spot=(60, 50)))) == []
    assert refs("earth-terminal-missing", layout(inlet, part("E1", SIGNAL_STUD, spot=(60, 50)))) == [("J1",)]
    named = (part("E1", SCREW, spot=(60, 50), legend=request("EARTH")), legend("E1", "EARTH", (58, 55, 64, 58)))
    assert refs("earth-terminal-missing", layout(inlet, *named)) == []
    other = (part("E1", SCREW, spot=(60, 50)), legend("E1", "PENCIL", (58, 55, 64, 58)))
    assert refs("earth-terminal-missing", layout(inlet, *other)) == [("J1",)]
    assert refs("earth-terminal-missing", layout(part("J2", FUSE))) == []


@pytest.mark.parametrize(("distance", "far"), [(150.0, []), (150.0 + JUST, [150.0 + JUST])])
def test_an_earth_terminal_far_away(distance, far):
    panel = layout(part("J1", INLET, spot=(20, 50)), part("E1", STUD, spot=(20 + distance, 50)))
    assert measured("earth-terminal-far", panel) == pytest.approx(far, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("EARTH", True), ("Erde", True), ("Terre", True), ("MAINS PE", True), ("\u23da", True), ("L/N/PE", True),
        ("PENCIL", False), ("EARTHQUAKE", False), ("OPERATE", False),
    ],
)  # fmt: skip
def test_a_terminal_is_named_as_earth(text, named):
    terminal = (part("E1", SCREW, spot=(60, 50)), legend("E1", text, (58, 55, 64, 58)))
    panel = layout(part("J1", INLET, spot=(40, 50)), *terminal)
    assert refs("earth-terminal-missing", panel) == ([] if named else [("J1",)])


@pytest.mark.parametrize(
    ("material", "conducts"),
    [
        ("aluminium 5754", True), ("steel DC01", True), ("ABS", False), ("black ABS", False), ("PMMA", False),
        ("FR-4", False), ("FR4", False), ("plywood", False), ("polycarbonate", False), ("stainless 1.4301", True),
    ],
)  # fmt: skip
def test_metal_is_earthed(material, conducts):
    assert bool(refs("earth-terminal-missing", layout(part("J1", INLET), material=material))) is conducts


@pytest.mark.parametrize(("stud", "told"), [("", [("X1",)]), (", {ref: E1, part: earth-stud-m4, at: [120, 50]}", [])])
def test_an_earthed_outlet_asks_for_an_earth_terminal_as_an_inlet_does(stud: str, told: list[tuple[str, ...]]) -> None:
    bare = laid_out(f"parts: [{{ref: X1, part: iec-f-outlet, at: [50, 50], legend: OUT}}{stud}]")
    assert refs("earth-terminal-missing", bare) == told


@pytest.mark.parametrize(
    ("legend", "told"), [("OUT", 1), ("230 V~ 50 Hz max. 2 A", 0), ("230 V~", 1), ("230 V~ 50 Hz 400 W", 0)]
)
def test_an_outlet_has_its_voltage_and_its_current_or_power(legend: str, told: int) -> None:
    """IEC 61010-1, 5.1.3 (from memory)."""
    one = laid_out(f"parts: [{{ref: X1, part: iec-f-outlet, at: [50, 50], legend: '{legend}'}}]")
    assert refs("mains-rating-missing", one) == [("X1",)] * told
