"""JUnit XML read back with lxml and with junitparser, which reads what build servers read; no standard fixes it."""

from __future__ import annotations

import pytest
from lxml import etree
from msgspec.structs import replace

from panelart.checks import RULES, inspect
from panelart.diagnostics import Problem, Severity, Where
from panelart.reports.junit import junit_report
from panelart.reports.problems import junit_problems
from tests.checks.builders import layout, legend
from tests.reports.test_json import PANEL

junitparser = pytest.importorskip("junitparser", reason="junitparser reads the XML back")


def read(panel):
    return etree.fromstring(junit_report(inspect(panel)).encode())


def test_one_test_case_a_rule():
    top = read(PANEL)
    assert top.tag == "testsuites"
    assert [case.get("name") for case in top.iter("testcase")] == list(RULES)


def test_rules_with_errors_fail_and_no_others():
    inspection = inspect(PANEL)
    failed = {finding.rule for finding in inspection.findings if finding.severity is Severity.ERROR}
    top = read(PANEL)
    assert {case.get("name") for case in top.iter("testcase") if case.find("failure") is not None} == failed
    assert top.get("failures") == top[0].get("failures") == str(len(failed))
    assert top.get("tests") == str(len(RULES))


def test_another_reader_counts_the_same():
    inspection = inspect(PANEL)
    failed = {finding.rule for finding in inspection.findings if finding.severity is Severity.ERROR}
    (suite,) = junitparser.JUnitXml.fromstring(junit_report(inspection).encode())
    assert (suite.tests, suite.failures, suite.errors) == (len(RULES), len(failed), 0)
    cases = list(suite)
    assert {case.name for case in cases if any(isinstance(one, junitparser.Failure) for one in case.result)} == failed
    suite.update_statistics()  # counted anew by the reader
    assert (suite.tests, suite.failures, suite.errors) == (len(RULES), len(failed), 0)


def test_another_reader_finds_a_spec_that_cannot_be_read_an_error():
    problems = [Problem(where=Where("a.yaml", 3, 5), says=f"slip {n}", accepts="accepted: none") for n in (1, 2)]
    (suite,) = junitparser.JUnitXml.fromstring(junit_problems(problems).encode())
    (case,) = suite
    ((error,),) = [case.result]
    assert isinstance(error, junitparser.Error)
    assert "a.yaml:3:5" in error.text
    assert "slip 2" in error.text
    suite.update_statistics()
    assert (suite.tests, suite.failures, suite.errors) == (1, 0, 1)


def test_warnings_and_notes_are_printed_by_cases_that_pass():
    inspection = inspect(PANEL)
    mild = {finding.rule for finding in inspection.findings if finding.severity is not Severity.ERROR}
    assert {case.get("name") for case in read(PANEL).iter("testcase") if case.find("system-out") is not None} == mild


def test_a_clean_panel_passes():
    assert read(layout()).get("failures") == "0"


def test_signs_that_xml_cannot_carry_are_replaced():
    panel = layout(legend("J1", 'A<&"\x0b', (50, 50, 60, 53), cap_height=0.5))
    failure = next(read(panel).iter("failure"))
    assert 'A<&"\\x0b' in failure.get("message")  # quoted from the spec, where it is written out
    titled = replace(panel, panel=replace(panel.panel, title='A<&"\x0b'))
    assert read(titled)[0].get("name") == 'panelart: A<&"\N{REPLACEMENT CHARACTER}'


def test_the_title_is_kept():
    panel = layout()
    panel = replace(panel, panel=replace(panel.panel, title='A "quoted" <title>'))
    assert read(panel)[0].get("name") == 'panelart: A "quoted" <title>'
