"""What a first-piece inspection proves: parts whose every hole was measured in its limits, and which were fitted."""

from __future__ import annotations

from pathlib import Path

import pytest

from panelart import catalogue
from panelart.catalogue import read_contents
from panelart.catalogue.proving import Proof, with_proved
from panelart.figure import Known
from panelart.pipeline import lay_out
from panelart.sheets.inspection import Measured, characteristics, judged
from panelart.sheets.proving import trials
from panelart.spec.read import panel_from_text
from tests.commands import run_within

SPEC = """\
panelart: 1
panel: {title: Trial, number: P-1, size: [260, 130], sheet: {material: aluminium 5754, thickness: 2}, coat: {kind: none, colour: "#FFFFFF"}}
marking: {process: digital-print, ink: {name: black, colour: "#000000"}, lettering: {cap_height: 3.5}, viewing_distance: 500}
parts:
  - {ref: S1, part: toggle-12, at: [30, 60], legend: Power}
  - {ref: S2, part: toggle-12, at: [60, 60], legend: Load}
  - {ref: F1, part: fan-92, at: [130, 65]}
  - {ref: J1, part: {part: bnc, opening: {diameter: 10.4}}, at: [200, 60], legend: In}
  - {ref: N1, part: press-nut-m3, at: [230, 60]}
"""  # noqa: E501


@pytest.fixture(scope="module")
def layout():
    return lay_out(panel_from_text(SPEC, "front.yaml"))


def _named(name: str):
    return catalogue.component(name) if name in catalogue.names() else None


def _tried(layout, left_out=(), off=(), fitted=("S1", "S2", "F1", "J1", "N1")):
    """The trials when everything was measured as wanted but what is left out or 3 mm off, by feature and measure."""
    wanted = characteristics(layout)
    values = [
        Measured(feature=one.feature, measure=one.measure, piece="1", value=one.nominal + 3 * (one.key in off), line=1)
        for one in wanted
        if one.key not in left_out
    ]
    found = trials(layout, wanted, judged(wanted, values), frozenset(fitted), _named)
    return {trial.name: None if trial.why is None else str(trial.why) for trial in found}


def test_a_part_is_proved_when_all_its_holes_were_measured_and_it_was_fitted(layout) -> None:
    assert _tried(layout) == {
        "toggle-12": None,
        "fan-92": None,
        "bnc": "the spec cuts other dimensions than the part of this name has",
        "press-nut-m3": "N1 is filled, so its size was not measured",
    }


def test_one_part_of_a_kind_is_enough(layout) -> None:
    assert _tried(layout, left_out={("S1", "diameter")})["toggle-12"] is None
    both = {("S1", "diameter"), ("S2", "diameter")}
    assert _tried(layout, left_out=both)["toggle-12"] == "S1 diameter not measured"


def test_what_was_not_fitted_is_not_proved(layout) -> None:
    assert set(_tried(layout, fitted=("F1",))) == {"fan-92"}


def test_of_several_holes_each_counts_and_how_far_apart_they_are(layout) -> None:
    holes = [opening.name for opening in layout.every_opening if opening.ref == "F1"]
    apart = [one.key for one in characteristics(layout) if one.feature in holes and " to " in one.measure]
    assert apart
    for key in ((holes[0], "diameter"), (holes[-1], "diameter"), *apart):
        assert _tried(layout, left_out={key})["fan-92"] == f"{key[0]} {key[1]} not measured"
        assert _tried(layout, off={key})["fan-92"] == f"{key[0]} {key[1]} out of limits"
    # Where on the panel the part is does not matter: it fits all the same.
    places = {("S1", "x"), ("S2", "x"), *((name, along) for name in holes for along in ("x", "y"))}
    assert _tried(layout, left_out=places)["toggle-12"] is None
    assert _tried(layout, left_out=places)["fan-92"] is None


HOUSE = """\
# of the house
panelart-catalogue: 1
parts:
  # measured twice
  toggle-12: {like: toggle-12, opening: {passes_diameter: 11.9}}   # keep
"""


def test_marks_are_added_and_the_rest_of_the_file_stays_byte_for_byte() -> None:
    proof = Proof(by="Anna", panel="P-1", date="2026-11-27")
    after = with_proved(HOUSE, Path("house.yaml"), ["toggle-12", "bnc"], proof, catalogue.component)
    begin, _, end = HOUSE.partition("11.9}}")
    assert after.startswith(begin)
    assert end in after
    components = read_contents(after.encode(), "house.yaml").components
    for name in ("toggle-12", "bnc"):
        figures = components[name].openings[0].figures
        assert {figure.known for figure in figures if figure.name == "diameter"} == {Known.PROVED}
        assert {figure.source for figure in figures if figure.known is Known.PROVED} == {
            "cut and fitted by Anna, P-1, 2026-11-27"
        }
    again = with_proved(after, Path("house.yaml"), ["bnc"], Proof(by="Ben", panel="P-2", date="2027-01-02"), _named)
    assert "Ben" in again
    assert again.count("bnc") == after.count("bnc")


def test_the_command_marks_what_was_measured_and_nothing_else(tmp_path: Path) -> None:
    (tmp_path / "front.yaml").write_text(SPEC, encoding="utf-8")
    measured = "feature,measure,piece,measured_mm\nS1,diameter,1,{diameter}\nJ1,diameter,1,10.4\n"
    words = ("inspect", "front.yaml", "--measured", "m.csv", "--prove", "house.yaml", "--by", "Anna")
    (tmp_path / "m.csv").write_text(measured.format(diameter=14), encoding="utf-8")
    done = run_within(*words, "--fitted", "all", cwd=tmp_path)
    assert done.returncode == 1
    assert not (tmp_path / "house.yaml").exists()
    (tmp_path / "m.csv").write_text(measured.format(diameter=12.21), encoding="utf-8")
    done = run_within(*words, "--fitted", "all", "--date", "2026-11-27", cwd=tmp_path)
    assert done.returncode == 0
    assert "proved: toggle-12 (S1)" in done.stdout
    assert "not proved: fan-92 (F1)" in done.stdout
    made = read_contents((tmp_path / "house.yaml").read_bytes(), "house.yaml").components
    assert list(made) == ["toggle-12"]
    (tmp_path / "front.yaml").write_text(SPEC + "catalogue: [house.yaml]\n", encoding="utf-8")
    table = run_within("parts", "--measure", "front.yaml", cwd=tmp_path)
    assert "toggle-12" not in table.stdout
    assert "fan-92" in table.stdout


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--prove", "house.yaml"), "--prove: Requires --by"),
        (("--prove", "house.yaml", "--by", "Anna"), "--prove: Requires --fitted"),
        (("--by", "Anna"), "--by: Requires --prove"),
        (("--prove", "house.yaml", "--by", "Anna", "--fitted", "S9"), "The panel has no part 'S9'"),
    ],
)
def test_what_cannot_be_used_is_refused(tmp_path: Path, words: tuple[str, ...], says: str) -> None:
    (tmp_path / "front.yaml").write_text(SPEC, encoding="utf-8")
    (tmp_path / "m.csv").write_text("feature,measure,piece,measured_mm\nS1,diameter,1,12.2\n", encoding="utf-8")
    done = run_within("inspect", "front.yaml", "--measured", "m.csv", *words, cwd=tmp_path)
    assert done.returncode == 2
    assert says in " ".join(done.stderr.split())
    assert not (tmp_path / "house.yaml").exists()
