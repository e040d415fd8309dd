"""The reports of several specs for programs, joined to one: each as it is alone, in the order of the specs.

JSON: an object with `specs`, each a `file` with its `report`, findings or problems, described by `several.schema.json`
beside this module. SARIF: one log with a run a spec (SARIF 2.1.0, 3.13.4: a log has any number of runs). JUnit XML: one
`testsuites` with a suite a spec.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Final
from xml.etree import ElementTree as ET

from panelart.reports.json import VERSION
from panelart.reports.junit import xml_text
from panelart.reports.sarif import SCHEMA

Report = tuple[str, str]
"""The name of a spec's file, and the text of its report."""

_COUNTS: Final = ("tests", "failures", "errors", "skipped")


def json_of(reports: Sequence[Report]) -> str:
    """JSON reports or problems as one JSON text that ends with a line end."""
    specs = [{"file": file, "report": json.loads(text)} for file, text in reports]
    return json.dumps({"version": VERSION, "specs": specs}, indent=2, ensure_ascii=False) + "\n"


def sarif_of(reports: Sequence[Report]) -> str:
    """SARIF logs as one log that ends with a line end."""
    runs = [run for _, text in reports for run in json.loads(text)["runs"]]
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": runs}, indent=2, ensure_ascii=False) + "\n"


def junit_of(reports: Sequence[Report]) -> str:
    """JUnit texts as one that ends with a line end; suites are named by their files, as titles are often alike."""
    top = ET.Element("testsuites")
    totals = dict.fromkeys(_COUNTS, 0)
    for file, text in reports:
        for suite in ET.fromstring(text).iter("testsuite"):  # noqa: S314  # written by this program
            suite.set("name", file)
            top.append(suite)
            totals = {name: total + int(suite.get(name, "0")) for name, total in totals.items()}
    for name, total in totals.items():
        top.set(name, str(total))
    return xml_text(top)
