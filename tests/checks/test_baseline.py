"""A baseline: what an old panel had before is set apart, what is new is told."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.checks import inspect
from panelart.checks.baseline import baseline_text, read_baseline
from panelart.diagnostics import SpecError
from panelart.messages import checks as said
from tests.checks.builders import at, knob, layout

OLD = (knob("RV1", 50, 50, 24), knob("RV2", 73, 50, 24))


def test_what_was_there_before_is_known_again():
    text = baseline_text(inspect(layout(*OLD)).findings)
    known = inspect(layout(*OLD), baseline=read_baseline(text, "old.json"))
    assert known.findings == ()
    assert [one.rule for one in known.known] == ["parts-collide"]
    assert not known.failed


def test_lines_and_numbers_may_move_and_new_findings_are_told():
    text = baseline_text(inspect(layout(*OLD)).findings)
    moved = (replace(knob("RV1", 51, 50, 24), where=at(99)), OLD[1], knob("RV3", 96, 50, 24))
    found = inspect(layout(*moved), baseline=read_baseline(text, "old.json"))
    assert [one.refs for one in found.findings] == [("RV2", "RV3")]
    assert [one.refs for one in found.known] == [("RV1", "RV2")]
    assert found.failed


def test_of_findings_alike_as_many_are_known_as_were_counted():
    finding = inspect(layout(*OLD)).findings[0]
    twice = baseline_text([finding, finding])
    assert '"count": 2' in twice
    assert sum(read_baseline(twice, "old.json").values()) == 2


def test_the_text_is_the_same_in_any_order():
    findings = inspect(layout(*OLD, knob("RV3", 96, 50, 24))).findings
    assert baseline_text(findings) == baseline_text(tuple(reversed(findings)))


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"version": 2, "findings": []}', '{"version": 1}', '{"version": 1, "findings": [3]}']
)
def test_what_is_no_baseline_is_refused(text):
    with pytest.raises(SpecError) as error:
        read_baseline(text, "old.json")
    assert [problem.says for problem in error.value.problems] == [said.baseline_invalid()]
