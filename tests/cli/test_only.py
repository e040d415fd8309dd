"""`make --only`: the files that are named, the whole panel checked, everything else left as it was."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands import run_within

ROOT = Path(__file__).parents[2]
SET = ROOT / "demo" / "sets" / "level-monitor.yaml"

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
languages:
  de: {EARTH: ERDE}
parts:
  - {ref: H1, part: screw-m4, at: [60, 30], legend: EARTH}
"""


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    path = tmp_path / "trial.yaml"
    path.write_text(SPEC, encoding="utf-8")
    return path


def make(spec: Path, *more: str):
    return run_within("make", spec, "-o", "out", *more, cwd=spec.parent)


def files(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_only_what_is_named_is_written_with_the_same_bytes(spec: Path) -> None:
    assert make(spec).returncode == 0
    whole = {path.name: path.read_bytes() for path in (spec.parent / "out").iterdir()}
    done = run_within("make", spec, "-o", "few", "--only", "cutouts.dxf, proof", cwd=spec.parent)
    assert done.returncode == 0
    assert "3 files written to few" in done.stdout
    few = {path.name: path.read_bytes() for path in (spec.parent / "few").iterdir()}
    assert few == {name: whole[name] for name in ("cutouts.dxf", "proof.pdf", "proof.png")}


def test_the_whole_panel_is_checked(spec: Path) -> None:
    spec.write_text(SPEC.replace("at: [60, 30]", "at: [3, 30]"), encoding="utf-8")
    done = make(spec, "--only", "holes.csv")
    assert done.returncode == 1
    assert "opening-near-edge" in done.stdout
    assert files(spec.parent / "out") == {"holes.csv"}


def test_a_file_of_another_state_beside_it_is_left_alone_and_seen_by_outdated(spec: Path) -> None:
    make(spec)
    out = spec.parent / "out"
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    assert run_within("outdated", "out", "--spec", spec, cwd=spec.parent).returncode == 0
    spec.write_text(SPEC.replace("at: [60, 30]", "at: [70, 30]"), encoding="utf-8")
    assert make(spec, "--only", "cutouts.dxf").returncode == 0
    after = {path.name: path.read_bytes() for path in out.iterdir()}
    assert {name for name in before if before[name] != after[name]} == {"cutouts.dxf"}
    told = run_within("outdated", "out", cwd=spec.parent)
    assert told.returncode == 1
    assert "\n  cutouts.dxf\n" in told.stdout
    assert run_within("outdated", "out", "--spec", spec, cwd=spec.parent).returncode == 1
    make(spec)
    assert run_within("outdated", "out", "--spec", spec, cwd=spec.parent).returncode == 0


@pytest.mark.parametrize(
    ("only", "told"),
    [
        ("prof", "--only: Unknown file 'prof'. Did you mean 'proof'? Accepted: "),
        ("blank.dxf", "--only: There is no blank.dxf: the panel has no flanges. Accepted: "),
        ("proof,", "--only: Unknown file ''"),
        ("proof,blank,masq", "There is no blank: the panel has no flanges; Unknown file 'masq'"),
    ],
)
def test_a_name_without_a_file_stops_the_command_before_anything_is_written(spec: Path, only: str, told: str) -> None:
    done = make(spec, "--only", only, "--save-placement")
    assert done.returncode == 2
    assert told in " ".join(done.stderr.split())
    assert (done.stdout, files(spec.parent)) == ("", {"trial.yaml"})


def test_of_a_set_each_panel_gives_what_is_named(tmp_path: Path) -> None:
    out = tmp_path / "out"
    done = run_within("make", SET, "-o", out, "--only", "cutouts.dxf", cwd=Path.cwd())
    assert done.returncode == 0
    assert files(out) == {"front/cutouts.dxf", "rear/cutouts.dxf"}
    assert "0 files" not in done.stdout
    run_within("make", SET, "-o", out, "--only", "panels", cwd=Path.cwd())
    assert files(out) == {"front/cutouts.dxf", "rear/cutouts.dxf", "panels.csv"}
    refused = run_within("make", SET, "-o", out, "--only", "blank", cwd=Path.cwd())
    assert refused.returncode == 2
    assert "There is no blank" in refused.stderr


def test_of_every_language_too(spec: Path) -> None:
    done = make(spec, "--language", "all", "--only", "panel.png,artwork.svg")
    assert done.returncode == 0
    assert len(files(spec.parent / "out")) == 4
    assert {name.rpartition("/")[2] for name in files(spec.parent / "out")} == {"panel.png", "artwork.svg"}


def test_verbose_lists_what_was_written_for_whom(spec: Path) -> None:
    done = make(spec, "--verbose", "--only", "cutouts.dxf,plates,holes")
    assert done.stdout.splitlines()[-4:] == [
        "3 files written to out",
        "  Printing: plates.csv",
        "  Cutting: cutouts.dxf",
        "  Other programs: holes.csv",
    ]
