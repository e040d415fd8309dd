"""What stops a check, for programs: JSON by its schema, SARIF by the published one; both through the command."""

from __future__ import annotations

import json
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest

from panelart.diagnostics import Problem, Where
from panelart.reports.problems import RULE, json_problems, sarif_problems
from tests.reports.test_sarif import CHECKER

SCHEMA = json.loads(files("panelart.reports").joinpath("problems.schema.json").read_text(encoding="utf-8"))
PROBLEMS = (
    Problem(where=Where("a b/ü.yaml", 3, 5), says="found 'Ω'", accepts="accepted: none"),
    Problem(where=Where("a b/ü.yaml", 7, 1), says="no size"),
)
BAD = """\
panelart: 1
panel:
  title: Bad
  size: [200, 80]
  sheet: {material: aluminium, thickness: 2}
marking:
  process: digital-print
  ink: {name: white, colour: "#F2F2EE"}
limits: house.yaml
catalogue: [nowhere.yaml]
parts:
  - {ref: S2, part: toggle-12, at: [60, 40], legend: "\u65e5"}
"""


def test_json_keeps_to_its_schema_and_says_all():
    document = json.loads(json_problems(PROBLEMS))
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.validate(document, SCHEMA)
    assert [one["message"] for one in document["problems"]] == ["found 'Ω'", "no size"]
    assert document["problems"][0]["spec"] == {"file": "a b/ü.yaml", "line": 3, "column": 5}


def test_sarif_keeps_to_the_published_schema_and_shows_each_at_its_line():
    log = json.loads(sarif_problems(PROBLEMS))
    CHECKER.validate(log)
    (run,) = log["runs"]
    assert run["invocations"][0]["executionSuccessful"] is False
    assert run["invocations"][0]["exitCode"] == 2
    lines = [one["locations"][0]["physicalLocation"]["region"]["startLine"] for one in run["results"]]
    assert lines == [3, 7]
    assert {one["ruleId"] for one in run["results"]} == {RULE}


@pytest.mark.few(2)
@pytest.mark.parametrize("form", ["text", "json", "sarif", "junit"])
def test_the_command_prints_them_and_all_stages_at_once(form, tmp_path):
    (tmp_path / "bad.yaml").write_text(BAD, encoding="utf-8")
    (tmp_path / "house.yaml").write_text("limits: {web.lest: {value: 1, why: so}}\n", encoding="utf-8")
    program = "from panelart.cli import main; main()"
    done = subprocess.run(
        [sys.executable, "-c", program, "check", "bad.yaml", "--format", form],
        cwd=tmp_path,
        env={"PYTHONPATH": str(Path(__file__).parents[2])},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    told = done.stdout if form != "text" else done.stderr
    # Three stages: the file, the glyph, the house's limits.
    assert "nowhere.yaml" in told
    assert "U+65E5" in told
    assert "web.lest" in told
    assert "3 errors in" in done.stderr
    if form == "text":
        assert done.stdout == ""
    elif form == "json":
        assert [one["spec"]["line"] for one in json.loads(done.stdout)["problems"]] == [10, 12, 1]
    elif form == "sarif":
        CHECKER.validate(json.loads(done.stdout))
