"""Findings as JUnit XML, the form that most build servers show as a list of tests.

One test case a rule. A rule with findings at error level fails; warnings and notes are printed by their test case,
which passes, so that the build's colour is that of the exit code.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Final
from xml.etree import ElementTree as ET

from panelart.checks import Finding, Inspection
from panelart.diagnostics import Severity
from panelart.messages import reports as said

_NOT_IN_XML: Final = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def junit_report(inspection: Inspection) -> str:
    """The findings as JUnit XML that ends with a line end; the same bytes for the same findings."""
    by_rule: dict[str, list[Finding]] = {name: [] for name in inspection.rules.every}
    for finding in inspection.findings:
        by_rule[finding.rule].append(finding)
    failures = sum(any(one.severity is Severity.ERROR for one in found) for found in by_rule.values())
    counts = {"tests": str(len(by_rule)), "failures": str(failures), "errors": "0", "skipped": "0"}
    top = ET.Element("testsuites", counts)
    title = inspection.panel.title
    suite = ET.SubElement(top, "testsuite", {"name": clean(str(said.suite(title))), **counts})
    if inspection.without:
        properties = ET.SubElement(suite, "properties")
        for name in inspection.without:
            ET.SubElement(properties, "property", {"name": "without", "value": name})
    for name, found in by_rule.items():
        _add_case(suite, name, found)
    return xml_text(top)


def _add_case(suite: ET.Element, rule: str, found: Sequence[Finding]) -> None:
    """The test case of a rule: its errors as one failure, what is milder as its output."""
    case = ET.SubElement(suite, "testcase", {"classname": "panelart", "name": rule})
    serious = [finding for finding in found if finding.severity is Severity.ERROR]
    if serious:
        failure = ET.SubElement(case, "failure", {"type": rule, "message": clean(serious[0].sentence)})
        failure.text = _lines(serious)
    mild = [finding for finding in found if finding.severity is not Severity.ERROR]
    if mild:
        ET.SubElement(case, "system-out").text = _lines(mild)


def xml_text(top: ET.Element) -> str:
    """The text of a file, indented, that ends with a line end."""
    ET.indent(top)
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ET.tostring(top, encoding="unicode") + "\n"


def _lines(found: Iterable[Finding]) -> str:
    return clean("\n".join(_line(finding) for finding in found))


def _line(finding: Finding) -> str:
    return str(said.finding_log_line(finding.where, finding.severity.value, finding.sentence, finding.fix))


def clean(text: str) -> str:
    """Text with what XML cannot carry replaced."""
    return _NOT_IN_XML.sub("\N{REPLACEMENT CHARACTER}", text)
