"""Legends in several languages: the words of each, the longest for the check, what is missing or never used."""

from __future__ import annotations

from pathlib import Path

import pytest

from panelart.diagnostics import SpecError
from panelart.pipeline import lay_out, read
from panelart.spec.translations import LONGEST

SPEC = """\
panelart: 1
panel:
  title: Trial
  size: [120, 60]
  sheet: {material: aluminium, thickness: 2}
  coat: {kind: none, colour: "#E8E8E8"}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 3, case: upper}
  viewing_distance: 500
parts:
  - {ref: S1, part: toggle-12, at: [30, 30], legend: Power, positions: {up: "On", down: "Off"}}
  - repeat: {count: 2, step: [30, 0]}
    parts: [{ref: "DS{n}", part: led-5-bezel, at: [70, 30], legend: "Ready {n}"}]
texts:
  - {text: "12 V", at: [5, 5]}
languages:
  de: {Power: Netz, "On": Ein, "Off": Aus, "Ready {n}": "Bereitschaft {n}"}
  tr: {Power: içinde}
"""


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    path = tmp_path / "trial.yaml"
    path.write_text(SPEC, encoding="utf-8")
    return path


def said(spec: Path, language: str) -> dict[str, str]:
    legends = lay_out(read(spec, language=language)).legends
    return {legend.ref: legend.text.replace("\n", " ") for legend in legends if legend.style in ("name", "title")}


@pytest.mark.parametrize(
    ("language", "power", "ready"),
    [
        ("as-written", "POWER", "READY 2"),
        ("de", "NETZ", "BEREITSCHAFT 2"),
        ("tr", "İÇİNDE", "READY 2"),  # Turkish capitals of i have their dot (Unicode, SpecialCasing.txt)
        (LONGEST, "POWER", "BEREITSCHAFT 2"),
    ],
)
def test_every_language_is_lettered_in_its_own_words(spec, language, power, ready) -> None:
    found = said(spec, language)
    assert (found["S1"], found["DS2"]) == (power, ready)
    assert found["text 1"] == "12 V"


def test_what_a_language_lacks_is_told_with_its_place(spec) -> None:
    panel = read(spec)
    missing = [(one.language, one.text, panel.places[one.where].line) for one in panel.untranslated]
    # Figures and single letters need no word; everything else that tr does not have is named.
    assert sorted(missing) == [("tr", "Off", 13), ("tr", "On", 13), ("tr", "Ready {n}", 15)]


@pytest.mark.parametrize(
    ("old", "new", "line", "says"),
    [
        ('"On": Ein', '"Onn": Ein', 19, "Language de translates 'Onn', which is not on the panel"),
        ("  tr:", "  longest:", 20, "'longest' is not a language"),
        ("  tr:", "  12:", 20, "12"),
        ("Power: içinde", "Power: [a]", 20, "list"),
    ],
)
def test_slips_in_the_table(spec, old, new, line, says) -> None:
    spec.write_text(SPEC.replace(old, new), encoding="utf-8")
    with pytest.raises(SpecError) as raised:
        read(spec)
    assert any(problem.where.line == line and says in problem.message for problem in raised.value.problems)


def test_a_language_that_is_not_there_is_refused(spec) -> None:
    with pytest.raises(SpecError, match="Unknown language 'fr'"):
        read(spec, language="fr")
