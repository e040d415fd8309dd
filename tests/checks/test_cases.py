"""Every rule has cases, two panels that differ in one thing: one has its finding, the other has not."""

from __future__ import annotations

from fnmatch import fnmatch

import pytest

from panelart.checks import RULES, inspect
from panelart.checks.cases import whole_spec
from panelart.checks.limits import Limit, standard
from panelart.checks.registry import BUILT_IN, OF_PROCESS, PANEL_RULES
from panelart.checks.rule import GAP, Case, Rule
from panelart.processes.registry import processes
from tests.checks.making import laid_out
from tests.checks.recording import read_by_rules

CASES = [
    pytest.param(rule, case, id=f"{rule.name}-{number}")
    for rule in RULES.values()
    for number, case in enumerate(rule.examples, start=1)
]
LOOK_THROUGH = 14
"""Lines that a case may have: it is an example on a page."""


def rules_found(text: str, today: str) -> set[str]:
    return {finding.rule for finding in inspect(laid_out(text), today=today).findings}


def test_no_rule_is_without_cases():
    assert [name for name, rule in RULES.items() if not rule.examples] == []


@pytest.mark.parametrize(("rule", "case"), CASES)
def test_the_one_fails_and_the_other_passes(rule: Rule, case: Case):
    assert rule.name in rules_found(case.failing, case.today)
    assert rule.name not in rules_found(case.passing, case.today)


@pytest.mark.parametrize("case", [case for rule in RULES.values() for case in rule.examples])
def test_a_case_is_short_and_differs_in_what_is_marked(case: Case):
    assert case.failing != case.passing
    assert GAP not in case.failing + case.passing
    assert len(case.failing.splitlines()) <= LOOK_THROUGH


@pytest.mark.few(60)
@pytest.mark.parametrize("rule", PANEL_RULES.values(), ids=lambda rule: rule.name)
def test_the_limits_that_are_declared_are_those_that_the_rule_reads(rule: Rule):
    read: set[str] = set()
    for case in rule.examples:
        for text in (case.failing, case.passing):
            read |= read_by_rules(laid_out(text), rule.name)[rule.name]
    declared = [limit.name if isinstance(limit, Limit) else limit for limit in rule.limits]
    assert [name for name in sorted(read) if not any(fnmatch(name, one) for one in declared)] == []
    assert [one for one in declared if not any(fnmatch(name, one) for name in read)] == []


def test_every_declared_limit_is_known_and_every_limit_has_a_rule():
    known = {*standard(), *BUILT_IN.limits}
    for process in processes().values():
        own = (name for name in ("cap_height_minimum", "line_minimum", "gap_minimum", "edge_margin", "opening_margin"))
        known |= {OF_PROCESS + name for name in (*own, *process.own)}
    declared = [one.name if isinstance(one, Limit) else one for rule in RULES.values() for one in rule.limits]
    assert [one for one in declared if not any(fnmatch(name, one) for name in known)] == []
    assert [name for name in standard() if not any(fnmatch(name, one) for one in declared)] == []


def test_what_a_case_does_not_say_is_added_key_by_key():
    text = whole_spec("panel: {sheet: {thickness: 3}}\nparts: []")
    assert "material: aluminium 5754, thickness: 3" in text
    assert text.splitlines()[-1] == "parts: []"
    inks = whole_spec('marking: {inks: [{name: red, colour: "#C03030"}]}')
    assert "ink:" not in inks
    assert "process: digital-print" in inks


@pytest.mark.parametrize(
    ("given", "written"),
    [
        ("spec: {a: 'it''s', b: \"two\\nlines\"}", '{a: "it\'s", b: "two\\nlines"}'),
        ('spec: {"Off": ON, b: [1, 2.50, "010"]}', '{"Off": ON, b: [1, 2.50, "010"]}'),
    ],
)
def test_a_scalar_stays_what_it_was(given, written):
    assert whole_spec(given).splitlines()[-1] == f"spec: {written}"


def test_the_texts_of_a_case_are_its_text_with_what_differs():
    case = Case("\n    parts: [{at: [__, 50], ref: __}]\n    ", "8", "9")
    assert (case.failing, case.passing) == ("parts: [{at: [8, 50], ref: 8}]", "parts: [{at: [9, 50], ref: 9}]")
