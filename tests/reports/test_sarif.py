"""SARIF held against the rules of the standard for the objects that are written.

The published schema is not at hand where the tests run; what follows is its subset for these objects, written from
SARIF 2.1.0 (OASIS, 2020) as remembered: sections 3.13 (log), 3.14 (run), 3.18 and 3.19 (tool), 3.27 (result), 3.28 to
3.30 (locations, regions), 3.35 (suppression), 3.49 and 3.50 (rules). Like the schema it allows no other properties.
"""

from __future__ import annotations

import json
import re

import jsonschema
import pytest

from panelart.checks import RULES, inspect
from panelart.checks.baseline import sign
from panelart.geometry import Point
from panelart.reports.sarif import document, sarif_report
from tests.checks.builders import knob, layout, legend, waiver
from tests.reports.test_json import PANEL


def closed(required=(), **properties):
    return {"type": "object", "required": list(required), "additionalProperties": False, "properties": properties}


TEXT = {"type": "string"}
LEVEL = {"enum": ["none", "note", "warning", "error"]}
MESSAGE = closed(["text"], text=TEXT, markdown=TEXT)
LOCATION = closed(
    physicalLocation=closed(
        artifactLocation=closed(
            uri={"type": "string", "format": "uri-reference"}, uriBaseId=TEXT, index={"type": "integer"}
        ),
        region=closed(
            startLine={"type": "integer", "minimum": 1},
            startColumn={"type": "integer", "minimum": 1},
            endLine={"type": "integer", "minimum": 1},
            endColumn={"type": "integer", "minimum": 1},
        ),
    )
)
SUBSET = closed(
    ["version", "runs"],
    **{"$schema": {"type": "string", "format": "uri"}},
    version={"enum": ["2.1.0"]},
    runs={
        "type": "array",
        "items": closed(
            ["tool"],
            tool=closed(
                ["driver"],
                driver=closed(
                    ["name"],
                    name=TEXT,
                    version=TEXT,
                    rules={
                        "type": "array",
                        "uniqueItems": True,
                        "items": closed(
                            ["id"],
                            id=TEXT,
                            shortDescription=MESSAGE,
                            fullDescription=MESSAGE,
                            help=MESSAGE,
                            defaultConfiguration=closed(level=LEVEL),
                        ),
                    },
                ),
            ),
            columnKind={"enum": ["utf16CodeUnits", "unicodeCodePoints"]},
            results={
                "type": "array",
                "items": closed(
                    ["message"],
                    ruleId=TEXT,
                    ruleIndex={"type": "integer", "minimum": -1},
                    level=LEVEL,
                    message=MESSAGE,
                    locations={"type": "array", "items": LOCATION},
                    partialFingerprints={"type": "object", "additionalProperties": TEXT},
                    baselineState={"enum": ["new", "unchanged", "updated", "absent"]},
                    suppressions={
                        "type": "array",
                        "items": closed(
                            ["kind"],
                            kind={"enum": ["inSource", "external"]},
                            status={"enum": ["accepted", "underReview", "rejected"]},
                            justification=TEXT,
                            location=LOCATION,
                        ),
                    },
                    properties={"type": "object"},
                ),
            },
        ),
    },
)  # fmt: skip
CHECKER = jsonschema.Draft7Validator(SUBSET)


@pytest.mark.parametrize("panel", [PANEL, layout()], ids=["many findings", "no findings"])
def test_the_log_keeps_to_the_standard(panel):
    log = json.loads(sarif_report(inspect(panel)))
    CHECKER.validate(log)


def test_the_subset_refuses_what_the_standard_does():
    log = document(inspect(PANEL))
    log["runs"][0]["results"][0]["level"] = "fatal"
    with pytest.raises(jsonschema.ValidationError):
        CHECKER.validate(log)


def test_every_result_points_at_its_rule():
    """3.27.6: ruleIndex is the place of the rule with that id."""
    (run,) = document(inspect(PANEL))["runs"]
    rules = run["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == list(RULES)
    assert run["results"]
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]


def test_levels_places_and_numbers_are_those_of_the_findings():
    inspection = inspect(PANEL)
    (run,) = document(inspection)["runs"]
    for finding, result in zip(inspection.findings, run["results"], strict=False):
        assert result["level"] == finding.severity.value
        place = result["locations"][0]["physicalLocation"]
        assert place["artifactLocation"]["uri"] == finding.where.file
        assert place["region"] == {"startLine": finding.where.line, "startColumn": finding.where.column}
        if finding.measured is not None:
            assert result["properties"][f"measured_{finding.unit}"] == pytest.approx(finding.measured, abs=1e-6)


def test_waived_findings_are_suppressed():
    (run,) = document(inspect(PANEL))["runs"]
    (held,) = [result for result in run["results"] if "suppressions" in result]
    assert held["suppressions"][0]["justification"] == "taken off"
    assert held["suppressions"][0]["kind"] == "inSource"


def test_findings_of_the_baseline_are_unchanged_and_the_others_new():
    from collections import Counter

    panel = layout(knob("RV1", 50, 50, 24), knob("RV2", 73, 50, 24), knob("RV3", 95, 50, 24))
    first = inspect(panel).findings[0]
    (run,) = document(inspect(panel, baseline=Counter({sign(first): 1})))["runs"]
    states = [result["baselineState"] for result in run["results"]]
    assert states.count("unchanged") == 1
    assert states.count("new") == len(states) - 1


def test_a_fingerprint_outlives_moved_lines_and_another_place():
    one, two = (
        inspect(layout(knob("RV1", 50, 50, 24), legend("RV1", "GAIN", (48, y, 52, y + 3)))).findings[0]
        for y in (60, 60.5)
    )
    assert one.measured != two.measured
    logs = [
        document(inspect(layout(knob("RV1", 50, 50, 24), legend("RV1", "GAIN", (48, y, 52, y + 3)))))
        for y in (60, 60.5)
    ]
    prints = [log["runs"][0]["results"][0]["partialFingerprints"]["panelart/v1"] for log in logs]
    assert prints[0] == prints[1]
    assert re.fullmatch("[0-9a-f]{64}", prints[0])


def test_the_same_findings_are_the_same_bytes():
    assert sarif_report(inspect(PANEL)) == sarif_report(inspect(PANEL))


def test_paths_are_references_by_rfc_3986():
    from dataclasses import replace

    from panelart.diagnostics import Where

    for file, uri in (("a b/ü.yaml", "a%20b/%C3%BC.yaml"), ("/tmp/x.yaml", "file:///tmp/x.yaml")):
        panel = layout(replace(knob("RV1", -20, 50, 24), where=Where(file, 3, 5)), datum=Point(0, 0))
        (run,) = document(inspect(panel))["runs"]
        assert run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == uri


def test_a_waiver_without_findings_is_no_suppression():
    (run,) = document(inspect(layout(waiver("parts-collide"))))["runs"]
    assert [result["ruleId"] for result in run["results"]] == ["waiver-matches-nothing"]
    assert "suppressions" not in run["results"][0]
