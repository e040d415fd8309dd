"""Findings accepted with a reason, and waivers that accept nothing."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks import inspect
from panelart.diagnostics import Severity
from tests.checks.builders import block, component, frame, keepout, knob, layout, legend, part, waiver

COLLIDING = (knob("RV1", 50, 50, 24), knob("RV2", 73, 50, 24))


def _open(panel):
    return [(finding.rule, finding.refs) for finding in inspect(panel).findings]


def _waived(panel):
    return [(waived.finding.rule, waived.finding.refs, waived.waiver.why) for waived in inspect(panel).waived]


@pytest.mark.parametrize("refs", [("RV1", "RV2"), ("RV2", "RV1"), ()])
def test_a_waiver_that_names_all_parts_accepts(refs):
    panel = layout(*COLLIDING, waiver("parts-collide", *refs, why="one is folded away"))
    assert _open(panel) == []
    assert _waived(panel) == [("parts-collide", ("RV1", "RV2"), "one is folded away")]
    assert not inspect(panel).failed


def test_a_waiver_that_names_one_of_two_parts_accepts_nothing_and_says_so():
    panel = layout(*COLLIDING, waiver("parts-collide", "RV1"))
    assert _open(panel) == [("parts-collide", ("RV1", "RV2")), ("waiver-matches-nothing", ("RV1",))]
    assert "RV1 and RV2" in inspect(panel).findings[1].sentence


def test_a_waiver_does_not_accept_the_same_fault_with_another_part():
    third = knob("RV3", 27, 50, 24)
    panel = layout(third, *COLLIDING, waiver("parts-collide", "RV1", "RV2"))
    assert _open(panel) == [("parts-collide", ("RV3", "RV1"))]


def test_a_waiver_of_another_rule_accepts_nothing():
    panel = layout(*COLLIDING, waiver("part-over-edge", "RV1", "RV2"))
    assert ("parts-collide", ("RV1", "RV2")) in _open(panel)
    assert _waived(panel) == []


def test_names_of_frames_and_texts_need_not_be_named():
    things = (frame("frame 1", (20, 20, 80, 60)), knob("RV1", 50, 60, 24))
    assert [rule for rule, _ in _open(layout(*things))] == ["frame-under-part"]
    assert _open(layout(*things, waiver("frame-under-part", "RV1"))) == []


def test_a_finding_about_a_text_alone_is_accepted_by_its_name_or_for_the_panel():
    things = (legend("text 1", "SUPPLY", (50, 50, 70, 53)), keepout(block(55, 51, 4, 4)))
    assert _open(layout(*things)) == [("legend-in-keepout", ("text 1",))]
    assert _open(layout(*things, waiver("legend-in-keepout", "text 1"))) == []
    assert _open(layout(*things, waiver("legend-in-keepout"))) == []
    assert len(_open(layout(*things, waiver("legend-in-keepout", "S1")))) == 2


def test_a_finding_of_many_parts_each_by_itself_is_accepted_for_some():
    inlet = component("inlet", thickness=(1.0, 1.5))
    parts = [part(f"J{number}", inlet, line=10 + number) for number in (1, 2, 3)]
    panel = layout(*parts, waiver("sheet-too-thick", "J2", why="milled behind"))
    assert _open(panel) == [("sheet-too-thick", ("J1", "J3"))]
    assert _waived(panel) == [("sheet-too-thick", ("J2",), "milled behind")]
    inspection = inspect(panel)
    assert inspection.findings[0].where.line == 11
    assert inspection.waived[0].finding.where.line == 12


def test_two_waivers_share_such_a_finding():
    inlet = component("inlet", thickness=(1.0, 1.5))
    panel = layout(
        part("J1", inlet), part("J2", inlet), waiver("sheet-too-thick", "J1"), waiver("sheet-too-thick", "J2", line=41)
    )
    assert _open(panel) == []
    assert len(_waived(panel)) == 2


def test_a_stale_waiver_is_a_finding_at_its_own_place():
    panel = layout(knob("RV1", 50, 50, 24), waiver("parts-collide", "RV1", line=44))
    (finding,) = inspect(panel).findings
    assert (finding.rule, finding.severity) == ("waiver-matches-nothing", Severity.WARNING)
    assert finding.where.line == 44
    assert finding.refs == ("RV1",)


def test_a_ref_of_a_waiver_that_is_not_needed_is_named():
    panel = layout(*COLLIDING, waiver("parts-collide", "RV1", "RV2", "RV9"))
    assert _open(panel) == [("waiver-matches-nothing", ("RV9",))]


@pytest.mark.parametrize(
    ("written", "meant"), [("part-collide", "parts-collide"), ("legend-to-small", "legend-too-small")]
)
def test_an_unknown_rule_is_told_with_the_nearest(written, meant):
    panel = layout(knob("RV1", 50, 50, 24), waiver(written, "RV1"))
    (finding,) = inspect(panel).findings
    assert (finding.rule, finding.severity) == ("waiver-names-unknown-rule", Severity.ERROR)
    assert meant in finding.fix


def test_findings_about_waivers_cannot_be_waived():
    panel = layout(knob("RV1", 50, 50, 24), waiver("parts-collide", "RV1"), waiver("waiver-matches-nothing", line=41))
    assert [rule for rule, _ in _open(panel)] == ["waiver-names-unknown-rule", "waiver-matches-nothing"]


@pytest.mark.parametrize(
    ("today", "rules"),
    [
        ("2027-01-31", []),
        ("2027-02-01", [("parts-collide", ("RV1", "RV2")), ("waiver-expired", ("RV1", "RV2"))]),
        ("", []),
    ],
)
def test_a_waiver_holds_to_its_last_day(today, rules):
    signed = replace(waiver("parts-collide", "RV1", "RV2"), until="2027-01-31", by="R. Norrick")
    findings = inspect(layout(*COLLIDING, signed), today=today).findings
    assert [(finding.rule, finding.refs) for finding in findings] == rules
    assert all("2027-01-31" in one.sentence for one in findings if one.rule == "waiver-expired")


def test_an_expired_waiver_of_nothing_is_told_once():
    old = replace(waiver("parts-collide", "RV1"), until="2020-01-01")
    panel = layout(knob("RV1", 50, 50, 24), old)
    assert [one.rule for one in inspect(panel, today="2027-01-01").findings] == ["waiver-expired"]
