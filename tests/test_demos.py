"""The demonstration panels: clean, complete, and the same whichever way they are read."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from panelart.diagnostics import Severity
from panelart.pipeline import build, panel_files, read
from panelart.spec.language import json_schema

DEMOS = sorted((Path(__file__).parent.parent / "demo").glob("*.yaml"))
PANELS = [demo for demo in DEMOS if "panelart-catalogue" not in demo.read_text(encoding="utf-8")]

FILES = {
    "artwork.svg", "artwork.pdf", "cutouts.dxf", "cutouts.svg", "cutouts.pdf", "panel.svg", "panel.png", "proof.pdf",
    "build-sheet.pdf",
    "proof.png",
    "holes.csv", "parts.csv", "findings.json",
}  # fmt: skip


def test_there_are_at_least_three() -> None:
    assert len(PANELS) >= 3


@pytest.fixture(scope="module", params=PANELS, ids=lambda path: path.stem)
def built(request):
    return build(read(request.param))


def test_nothing_is_wrong_with_it(built) -> None:
    serious = [f.sentence for f in built.inspection.findings if f.severity is not Severity.NOTE]
    assert serious == []


def test_every_legend_asked_for_is_placed(built) -> None:
    assert built.layout.unplaced == ()
    asked = [p.legend.text for p in built.layout.panel.parts if p.legend is not None]
    placed = [legend.text.replace("\n", " ") for legend in built.layout.legends]
    for text in asked:
        assert text.replace("\n", " ") in placed


def test_every_file_has_its_name(built) -> None:
    """What is in them is held by `tests/oracle`."""
    files = panel_files(built)
    bent = bool(built.layout.panel.flanges)  # it is cut as a blank, before it is bent
    assert files.keys() >= {name.replace("cutouts", "blank") if bent else name for name in FILES}
    findings = json.loads(files["findings.json"])
    assert len(findings["findings"]) == len(built.inspection.findings)


@pytest.mark.parametrize("path", PANELS, ids=lambda path: path.stem)
def test_it_fits_the_published_schema(path: Path) -> None:
    """By the jsonschema library, on what PyYAML's base loader makes of the file (every scalar a text)."""
    import yaml

    def typed(value):
        if isinstance(value, dict):
            return {key: typed(item) for key, item in value.items()}
        if isinstance(value, list):
            return [typed(item) for item in value]
        if value in ("true", "false"):
            return value == "true"
        try:
            return float(value) if not value.isdigit() else int(value)
        except ValueError:
            return value

    plain = typed(yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader))
    errors = list(jsonschema.Draft202012Validator(json_schema()).iter_errors(plain))
    assert [error.message for error in errors if "is not of type 'string'" not in error.message] == []
