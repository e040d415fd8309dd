"""What stops a check before it has findings, for programs: a spec that cannot be read, or asks for what is not there.

The same three forms as findings have. JSON: one object with `problems`, described by `problems.schema.json` beside
this module. SARIF: a run that did not succeed, one result a problem, so that review systems show it at its line. JUnit
XML: one test case, the reading of the spec, with one error a problem.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, Final
from xml.etree import ElementTree as ET

from panelart import __version__
from panelart.diagnostics import Problem
from panelart.messages import reports as said
from panelart.reports.json import VERSION
from panelart.reports.junit import clean, xml_text
from panelart.reports.sarif import SCHEMA, location

RULE: Final = "spec-cannot-be-read"
"""Under which name the problems stand in SARIF; it is no rule of the checks, and no waiver can accept it."""

_EXIT_CODE: Final = 2


def json_problems(problems: Sequence[Problem]) -> str:
    """The problems as JSON text that ends with a line end."""
    document = {
        "version": VERSION,
        "problems": [
            {
                "message": problem.message,
                "hint": problem.hint,
                "spec": {"file": problem.where.file, "line": problem.where.line, "column": problem.where.column},
            }
            for problem in problems
        ],
    }
    return json.dumps(document, indent=2, ensure_ascii=False) + "\n"


def sarif_problems(problems: Sequence[Problem]) -> str:
    """The problems as SARIF text that ends with a line end."""
    what = str(said.spec_unreadable())
    results: list[dict[str, Any]] = [
        {
            "ruleId": RULE,
            "ruleIndex": 0,
            "level": "error",
            "message": {"text": _told(problem)},
            "locations": [location(problem.where)],
        }
        for problem in problems
    ]
    driver = {"name": "panelart", "version": __version__, "rules": [{"id": RULE, "shortDescription": {"text": what}}]}
    run = {
        "tool": {"driver": driver},
        "invocations": [{"executionSuccessful": False, "exitCode": _EXIT_CODE, "exitCodeDescription": what}],
        "columnKind": "unicodeCodePoints",
        "results": results,
    }
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, indent=2, ensure_ascii=False) + "\n"


def _told(problem: Problem) -> str:
    if problem.hint:
        return str(said.problem_with_hint(problem.message, problem.hint))
    return str(said.problem_alone(problem.message))


def junit_problems(problems: Sequence[Problem]) -> str:
    """The problems as JUnit XML that ends with a line end."""
    counts = {"tests": "1", "failures": "0", "errors": "1", "skipped": "0"}
    top = ET.Element("testsuites", counts)
    suite = ET.SubElement(top, "testsuite", {"name": "panelart", **counts})
    case = ET.SubElement(suite, "testcase", {"classname": "panelart", "name": RULE})
    first = problems[0].message if problems else ""
    error = ET.SubElement(case, "error", {"type": RULE, "message": clean(str(first))})
    error.text = clean("\n".join(map(str, problems)))
    return xml_text(top)
