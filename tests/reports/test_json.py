"""The JSON report, held against its JSON Schema with the jsonschema library, and its values."""

from __future__ import annotations

import copy
import json as stdlib_json
import subprocess
import sys
from importlib.resources import files

import jsonschema
import pytest

from panelart.checks import inspect
from panelart.figure import Known
from panelart.geometry import Point
from panelart.reports import json
from tests.checks.builders import (
    block,
    component,
    front,
    keepout,
    knob,
    layout,
    legend,
    opening,
    part,
    unplaced,
    waiver,
)

SCHEMA = stdlib_json.loads(files("panelart.reports").joinpath("findings.schema.json").read_text(encoding="utf-8"))
CHECKER = jsonschema.Draft202012Validator(SCHEMA)
PANEL = layout(
    part("J1", component("inlet", known=Known.MEMORY, thickness=(0.5, 1.0)), line=3),
    knob("RV1", 50, 50, 24),
    knob("RV2", 73, 50, 24),
    legend("RV1", "GAIN Ω", (48, 60, 52, 63), cap_height=1.2),
    opening("H1", block(2, 2, 2, 2)),
    front("H1", block(-1e-9, 50, 1e-3, 4)),
    keepout(block(150, 50, 10, 10), why="a bracket"),
    unplaced("RV2", "LEVEL", "knob of RV1"),
    waiver("legend-under-knob", "RV1", why="taken off"),
    datum=Point(10.0, 100.0),
)


def test_the_schema_is_itself_valid():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("panel", [PANEL, layout()], ids=["many findings", "no findings"])
def test_the_report_keeps_to_its_schema(panel):
    CHECKER.validate(stdlib_json.loads(json.json_report(inspect(panel))))


@pytest.mark.parametrize(
    "spoil",
    [
        lambda document: document.pop("version"),
        lambda document: document.update(version=2),
        lambda document: document["findings"][0].pop("number"),
        lambda document: document["findings"][0].update(severity="fatal"),
        lambda document: document["findings"][0].update(measured_furlong=1.0),
        lambda document: document["findings"][0]["place"].pop("top_mm", None) or document["findings"][0].pop("place"),
        lambda document: document["waived"][0].pop("waiver"),
    ],
)
def test_the_schema_refuses_what_is_not_a_report(spoil):
    document = copy.deepcopy(json.document(inspect(PANEL)))
    spoil(document)
    assert not CHECKER.is_valid(document)


def test_values_are_those_of_the_findings():
    inspection = inspect(PANEL)
    document = stdlib_json.loads(json.json_report(inspection))
    assert document["version"] == 1
    assert document["panel"]["datum"] == {"x_mm": 10.0, "y_mm": 100.0}
    assert [one["number"] for one in document["findings"]] == list(range(1, len(inspection.findings) + 1))
    collision = next(one for one in document["findings"] if one["rule"] == "parts-collide")
    assert (collision["measured_mm"], collision["limit_mm"], collision["bound"]) == (1.0, 0.0, "maximum")
    assert collision["refs"] == ["RV1", "RV2"]
    assert collision["spec"] == {"file": "front.yaml", "line": 10, "column": 5}
    assert (collision["place"]["left_mm"], collision["place"]["right_mm"]) == pytest.approx((61, 62), abs=0.01)
    missing = next(one for one in document["findings"] if one["rule"] == "legend-unplaced")
    assert missing["place"] == {"x_mm": 50.0, "y_mm": 50.0}
    assert "measured_mm" not in missing
    assert document["waived"][0]["waiver"]["why"] == "taken off"
    counts = document["counts"]
    assert counts["error"] + counts["warning"] + counts["note"] == len(document["findings"])
    assert counts["waived"] == 1


def test_text_is_written_as_it_is_and_no_number_is_minus_zero():
    report = json.json_report(inspect(PANEL))
    assert "GAIN Ω" in report
    assert "-0.0" not in [token.strip(" ,") for line in report.splitlines() for token in line.split(":")[1:]]


def test_the_same_bytes_whatever_the_hash_seed():
    program = "from tests.reports.test_json import PANEL, inspect, json; print(json.json_report(inspect(PANEL)))"
    written = {
        subprocess.run(
            [sys.executable, "-c", program],
            check=True,
            capture_output=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ".", "TZ": zone},
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    }
    assert len(written) == 1
