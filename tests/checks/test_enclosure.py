"""Behind the panel, and what a panel with mains must carry. Limits: common practice, or the spec's own."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks.limits import Basis
from panelart.diagnostics import Severity
from panelart.messages import checks as said
from panelart.model.component import Motion
from tests.checks.builders import block, control, disc, front, layout, legend, part, rear, request
from tests.checks.cases import JUST, found, measured, refs

INLET = control(Motion.NONE, "iec-c14", cautions=("mains-inlet", "protective-earth"))
FUSE = control(Motion.NONE, "fuse-5x20", cautions=("fuse",))
STUD = control(Motion.NONE, "earth-stud")
SCREW = control(Motion.NONE, "screw")
RATING = legend("rating", "100-240 V ~ 50/60 Hz 40 W", (20, 10, 60, 13), "note")


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
    ("text", "missing"),
    [("F1\nT 1 A L 250 V", False), ("F1", True), ("500 mA", False), ("F1 A", True), ("0.5A", False), ("1 AMP", True)],
)
def test_a_fuse_holder_has_its_rating(text, missing):
    panel = layout(part("F1", FUSE, spot=(50, 50)), legend("F1", text, (50, 60, 60, 63)))
    assert refs("fuse-rating-missing", panel) == ([("F1",)] if missing else [])


@pytest.mark.parametrize(("gap", "missing"), [(30.0, False), (30.0 + JUST, True)])
def test_a_rating_must_stand_near(gap, missing):
    holder = (part("F1", FUSE, spot=(50, 50)), front("F1", block(50, 50, 10, 10), "flange"))
    panel = layout(*holder, legend("a text", "T 1 A", (55 + gap, 49, 65 + gap, 51), "note"))
    assert bool(refs("fuse-rating-missing", panel)) is missing


MISSING = {
    "the frequency": [said.frequency()],
    "the power or the current": [said.power_or_current()],
    "voltage, frequency, and power or current": [said.voltage(), said.frequency(), said.power_or_current()],
}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("100-240 V ~ 50/60 Hz 40 W", ""),
        ("230 V 50 Hz 0.2 A", ""),
        ("230 V 50 Hz 60 VA", ""),
        ("230 V 50 Hz", "the power or the current"),
        ("230 V 40 W", "the frequency"),
        ("MAINS", "voltage, frequency, and power or current"),
    ],
)
def test_an_inlet_has_its_rating(text, told):
    panel = layout(part("J1", INLET), replace(RATING, text=text))
    expected = [said.ratings_missing(ratings=MISSING[told])] if told else []
    assert [finding.other for finding in found("mains-rating-missing", panel)] == expected
    assert found("mains-rating-missing", layout(RATING)) == []
