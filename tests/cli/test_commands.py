"""The commands as a person types them: exit codes 0, 1, 2 and 3, words on the right stream, files all or none."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from tests.commands import run, run_within

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo" / "rear-io.yaml"

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
  lettering: {cap_height: 3}
  viewing_distance: 500
parts:
  - {ref: H1, part: screw-m4, at: [60, 30], legend: EARTH}
"""


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    path = tmp_path / "trial.yaml"
    path.write_text(SPEC, encoding="utf-8")
    return path


def test_clean_is_0(spec: Path) -> None:
    done = run("check", spec, cwd=spec.parent)
    assert done.returncode == 0
    assert done.stderr == ""


def test_a_finding_at_error_level_is_1_and_the_files_are_there_to_look_at(spec: Path) -> None:
    spec.write_text(SPEC.replace("at: [60, 30]", "at: [3, 30]"), encoding="utf-8")
    done = run("make", spec, "-o", "out", cwd=spec.parent)
    assert done.returncode == 1
    assert "opening-near-edge" in done.stdout
    assert (spec.parent / "out" / "proof.pdf").is_file()


@pytest.mark.parametrize(
    ("old", "new", "at", "found", "hint"),
    [
        ("screw-m4", "screw-m44", "screw-m44", "screw-m44", "screw-m4"),
        ("thickness: 2", "thickness: 0", "0}", "0", "more than 0"),
        ("EARTH", "漢", "漢", "U+6F22", "font"),
        ("part: screw", "prt: screw", "prt", "prt", "part"),
    ],
)
def test_what_cannot_be_read_is_2_with_place_and_what_is_accepted(
    spec: Path, old: str, new: str, at: str, found: str, hint: str
) -> None:
    text = SPEC.replace(old, new)
    spec.write_text(text, encoding="utf-8")
    before = text[: text.index(at)]
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    done = run_within("make", spec, cwd=spec.parent)
    assert done.returncode == 2
    assert f"{spec}:{line}:{column}: error:" in done.stderr
    assert found in done.stderr
    assert hint in done.stderr
    assert "Traceback" not in done.stderr
    assert sorted(path.name for path in spec.parent.iterdir()) == ["trial.yaml"]


@pytest.mark.parametrize("name", ["absent.yaml", "."])
def test_a_spec_that_is_not_there_is_2(tmp_path: Path, name: str) -> None:
    done = run_within("check", name, cwd=tmp_path)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert name in done.stderr


def test_a_folder_that_cannot_be_written_is_3_and_nothing_is_left(spec: Path) -> None:
    (spec.parent / "out").write_text("a file in the way", encoding="utf-8")
    done = run("make", spec, "-o", "out", cwd=spec.parent)
    assert done.returncode == 3
    assert "out" in done.stderr
    assert "Traceback" not in done.stderr
    assert sorted(path.name for path in spec.parent.iterdir()) == ["out", "trial.yaml"]


def test_make_names_its_files_and_the_folder_is_the_specs_name(spec: Path) -> None:
    done = run("make", spec, "--rear-view", "--verbose", cwd=spec.parent)
    assert done.returncode == 0
    told = re.search(r"^(\d+) files written to trial\n", done.stdout, flags=re.MULTILINE)
    assert told is not None
    named = re.findall(r"[\w-]+\.\w{3,4}\b", done.stdout[told.end() :])
    assert len(named) == int(told[1])
    assert sorted(named) == sorted(path.name for path in (spec.parent / "trial").iterdir())
    assert "cutouts-from-rear.dxf" in named


def test_json_goes_to_stdout_alone(spec: Path) -> None:
    done = run("check", spec, "--format", "json", cwd=spec.parent)
    assert json.loads(done.stdout)["findings"] == []


def test_a_wrong_date_is_refused_before_anything_is_done(spec: Path) -> None:
    done = run("make", spec, "--date", "31.1.2026", cwd=spec.parent)
    assert done.returncode == 2
    assert "YYYY-MM-DD" in done.stderr


def test_the_version_loads_nothing_heavy() -> None:
    probe = (
        "import sys; sys.argv = ['panelart', '--version']\n"
        "from panelart.cli import main\n"
        "try: main()\nexcept SystemExit: pass\n"
        "print(sorted({'numpy', 'shapely', 'ezdxf', 'reportlab', 'fontTools', 'pikepdf'} & sys.modules.keys()))"
    )
    done = subprocess.run(
        [sys.executable, "-c", probe], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.splitlines()
    assert done[0].startswith("panelart ")
    assert done[1] == "[]"


def test_schema_is_json() -> None:
    done = run("schema", cwd=ROOT)
    jsonschema.Draft202012Validator.check_schema(json.loads(done.stdout))


def test_rules_are_listed_and_each_has_its_page() -> None:
    listed = run("rules", cwd=ROOT).stdout
    assert "legend-under-knob" in listed
    page = run("rules", "legend-under-knob", cwd=ROOT).stdout
    assert "Fails:" in page
    unknown = run("rules", "legend-under-nob", cwd=ROOT)
    assert unknown.returncode == 2
    assert "legend-under-knob" in unknown.stderr


def test_text_is_without_colour_when_it_goes_to_a_file() -> None:
    assert "\x1b[" not in run("check", DEMO, cwd=ROOT).stdout


def test_sarif_and_junit_are_printed_whole(spec: Path) -> None:
    sarif = run("check", spec, "--format", "sarif", cwd=spec.parent)
    assert json.loads(sarif.stdout)["version"] == "2.1.0"
    junit = run("check", spec, "--format", "junit", cwd=spec.parent)
    assert junit.stdout.startswith("<?xml")
    assert (sarif.returncode, junit.returncode) == (0, 0)


def test_an_old_panel_is_taken_up_with_a_baseline(spec: Path) -> None:
    spec.write_text(SPEC.replace("at: [60, 30]", "at: [3, 30]"), encoding="utf-8")
    assert run("check", spec, "--write-baseline", "old.json", cwd=spec.parent).returncode == 0
    known = run("check", spec, "--baseline", "old.json", cwd=spec.parent)
    assert known.returncode == 0
    assert "in the baseline" in known.stdout
    missing = run("check", spec, "--baseline", "none.json", cwd=spec.parent)
    assert missing.returncode == 2
    assert "none.json:1:1: error: Cannot read the baseline" in missing.stderr


def test_a_waiver_ends_on_its_day(spec: Path) -> None:
    text = SPEC.replace("at: [60, 30]", "at: [3, 30]")
    rules = ("opening-near-edge", "opening-over-edge", "part-over-edge", "body-over-edge", "parts-to-measure")
    waivers = "".join(f"  - {{rule: {rule}, on: H1, why: trial, until: 2027-01-31}}\n" for rule in rules)
    spec.write_text(text + "waivers:\n" + waivers, encoding="utf-8")
    assert run("check", spec, "--date", "2027-01-31", cwd=spec.parent).returncode == 0
    late = run("check", spec, "--date", "2027-02-01", cwd=spec.parent)
    assert late.returncode == 1
    assert "waiver-expired" in late.stdout


def test_limits_of_the_house(spec: Path) -> None:
    spec.write_text(SPEC.replace("at: [60, 30]", "at: [5, 30]") + "limits: house.yaml\n", encoding="utf-8")
    house = spec.parent / "house.yaml"
    house.write_text("limits: {edge.minimum: {value: 0.5, why: our laser holds it}}\n", encoding="utf-8")
    done = run("check", spec, cwd=spec.parent)
    assert done.returncode == 0
    assert "house: edge.minimum: 0.5, not 1.5" in done.stdout
    house.write_text("limits: {edge.lest: {value: 0.5, why: a}}\n", encoding="utf-8")
    wrong = run("check", spec, cwd=spec.parent)
    assert wrong.returncode == 2
    assert "house.yaml:1:10: error:" in wrong.stderr


def test_shadows_are_told_and_drawn(spec: Path) -> None:
    done = run("sightlines", DEMO, "--height", "200..400", "-o", "shadows.svg", cwd=spec.parent)
    assert done.returncode == 0
    assert "fully visible from every eye position in the range" in done.stdout
    assert (spec.parent / "shadows.svg").read_bytes().startswith(b"<?xml")
    for wrong in (
        ("--height", "400..200"),
        (),
        ("--height", "nan"),
        ("--height", "1", "-o", "a.bmp"),
        ("--height", "1", "--apart", "-1"),
        ("--height", "1", "--apart", "50..70"),
    ):
        assert run("sightlines", DEMO, *wrong, cwd=spec.parent).returncode == 2
    bench = DEMO.with_name("bench-supply.yaml")
    told = [run("sightlines", bench, "--height", "300", "--apart", apart, cwd=spec.parent) for apart in ("63", "0")]
    both, one = (int(said.stdout.splitlines()[-1].split()[0]) for said in told)
    assert both > one  # two eyes see more


def test_what_is_misread_is_told_and_drawn(tmp_path: Path) -> None:
    small = SPEC.replace("viewing_distance: 500", "viewing_distance: 1500")
    (tmp_path / "trial.yaml").write_text(small)
    done = run("legibility", "trial.yaml", "-o", "seen.png", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert (
        "Reader: acuity 0.7, 60 years, 500 lx. Eye position (both eyes): height 0 mm, aside 0 mm, 1500 mm"
        in done.stdout
    )
    assert (tmp_path / "seen.png").read_bytes().startswith(b"\x89PNG")
    far = run("legibility", "trial.yaml", "--distance", "20000", "--format", "json", cwd=tmp_path)
    told = json.loads(far.stdout)
    assert told["reader"]["acuity"] == 0.7
    assert told["legends"]
    assert not any(legend["readable"] for legend in told["legends"])
    near = json.loads(run("legibility", "trial.yaml", "--distance", "200", "--format", "json", cwd=tmp_path).stdout)
    assert all(legend["readable"] for legend in near["legends"])
    assert not near["misread"]
    for wrong in (("--acuity", "0"), ("--age", "x"), ("--illuminance", "nan"), ("--distance", "-5"), ("-o", "a.bmp")):
        refused = run("legibility", "trial.yaml", *wrong, cwd=tmp_path)
        assert refused.returncode == 2
        assert "Traceback" not in refused.stderr


def test_check_why_tells_and_draws_every_place_of_a_parts_legends(tmp_path: Path) -> None:
    (tmp_path / "trial.yaml").write_text(SPEC)
    done = run("check", "trial.yaml", "--explain", "H1", "-o", "why.svg", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert 'name "EARTH" of H1: above; the placement is optimal' in done.stdout
    assert (tmp_path / "why.svg").read_bytes().startswith(b"<?xml")
    assert run("check", "trial.yaml", "--explain", "H2", cwd=tmp_path).returncode == 2


def test_an_accepted_placement_is_kept_until_fresh_is_asked_for(tmp_path: Path) -> None:
    (tmp_path / "trial.yaml").write_text(SPEC.replace("legend: EARTH", "legend: {text: EARTH, place: below}"))
    assert run("make", "trial.yaml", "--save-placement", cwd=tmp_path).returncode == 0
    kept = json.loads((tmp_path / "trial.placement.json").read_text())
    assert kept["legends"]["H1 name 0"]["place"] == "below"
    (tmp_path / "trial.yaml").write_text(SPEC.replace("  lettering:", "  placing: {below: 1}\n  lettering:"))
    assert 'EARTH" of H1: below' in run("check", "trial.yaml", "--explain", "H1", cwd=tmp_path).stdout
    assert (
        'EARTH" of H1: above'
        in run("check", "trial.yaml", "--explain", "H1", "--ignore-placement", cwd=tmp_path).stdout
    )
    (tmp_path / "trial.placement.json").write_text("{}")
    assert run("check", "trial.yaml", cwd=tmp_path).returncode == 2


def test_two_specs_are_compared(spec: Path) -> None:
    other = spec.parent / "other.yaml"
    other.write_text(SPEC.replace("at: [60, 30]", "at: [62, 30]"), encoding="utf-8")
    same = run("compare", spec, spec, cwd=spec.parent)
    assert (same.returncode, same.stdout) == (0, "No differences\n")
    moved = run("compare", spec, other, "-o", "both.svg", cwd=spec.parent)
    assert moved.returncode == 1
    assert "H1: moved by (+2, +0), 2 mm" in moved.stdout
    assert (spec.parent / "both.svg").is_file()
    told = json.loads(run("compare", spec, other, "--format", "json", cwd=spec.parent).stdout)
    assert {entry["about"] for entry in told["differences"]} == {"part", "opening", "legend"}
    assert run("compare", spec, "none.yaml", cwd=spec.parent).returncode == 2


def test_suggestions_are_printed_with_their_place(spec: Path) -> None:
    spec.write_text(SPEC.replace("at: [60, 30]", "at: [5, 30]"), encoding="utf-8")
    done = run("check", spec, "--suggest", cwd=spec.parent)
    assert done.returncode == 1
    assert "opening-near-edge: Move H1 by [0.3, 0]" in done.stdout
    assert f"{spec}:13:36: 5 -> " in done.stdout
    assert run("check", spec, "--suggest", "--format", "json", cwd=spec.parent).returncode == 2


def test_parts_are_found_told_and_drawn(tmp_path: Path) -> None:
    found = run("parts", "mains", "inlet", cwd=tmp_path)
    assert found.returncode == 0
    assert found.stdout.splitlines()[0].startswith("iec-c14")
    told = run("parts", "iec-c14", "--format", "json", cwd=tmp_path)
    assert json.loads(told.stdout)["part"]["name"] == "iec-c14"
    assert "protective conductor" in run("parts", "iec-c14", cwd=tmp_path).stdout
    assert run("parts", "--symbols", "earth", cwd=tmp_path).stdout.count("earth") >= 3
    wait = json.loads(run("parts", "--symbols", "wait", "--format", "json", cwd=tmp_path).stdout)
    assert wait["symbol"]["minimum_heights_mm"]["symbols-light"]["laser-marking"] == 1.5
    assert run("parts", "bnc", "-o", "bnc.png", cwd=tmp_path).returncode == 0
    assert (tmp_path / "bnc.png").stat().st_size > 1000


@pytest.mark.parametrize(
    ("words", "said"),
    [
        pytest.param(("parts", "nosuchthing"), "matches 'nosuchthing'", id="words0-nothing is called 'nosuchthing'"),
        (("parts", "bncc", "-o", "a.pdf"), "Did you mean 'bnc'"),
        pytest.param(("parts", "bnc", "-o", "a.dxf"), ".svg, .pdf, .png", id="words2-.svg, .pdf or .png"),
        pytest.param(("parts", "--all", "-o", "a.png"), ".pdf, .svg", id="words3-.pdf or .svg"),
    ],
)
def test_slips_with_parts_are_2(words: tuple[str, ...], said: str, tmp_path: Path) -> None:
    done = run_within(*words, cwd=tmp_path)
    assert done.returncode == 2
    assert said in " ".join(done.stderr.split())
    assert not list(tmp_path.iterdir())


def test_every_language_in_a_folder_of_its_own(spec: Path) -> None:
    spec.write_text(SPEC + "languages: {de: {EARTH: ERDE}, fr: {}}\n", encoding="utf-8")
    done = run("make", spec, "--language", "all", "-o", "out", cwd=spec.parent)
    assert done.returncode == 0, done.stderr
    assert sorted(path.name for path in (spec.parent / "out").iterdir()) == ["as-written", "de", "fr"]
    assert 'aria-label="ERDE"' in (spec.parent / "out" / "de" / "artwork.svg").read_text(encoding="utf-8")
    assert "no translation of 'EARTH' into fr" in done.stderr
