"""Specs of several panels on the command line: all of them together, or one by its name."""

from __future__ import annotations

import csv
import re
import shutil
from pathlib import Path

import pytest

from tests.commands import run_within

DEMO = Path(__file__).parents[2] / "demo" / "sets" / "level-monitor.yaml"


def run(*words: object):
    return run_within(*words, cwd=Path.cwd())


def test_check_tells_of_every_panel() -> None:
    done = run("check", DEMO)
    assert done.returncode == 0
    assert "front: Level monitor, front" in done.stdout
    assert "rear: Level monitor, rear" in done.stdout


def test_check_of_one_panel_and_of_a_box_too_shallow(tmp_path: Path) -> None:
    (tmp_path / "box.yaml").write_text(DEMO.read_text("utf-8").replace("depth: 160", "depth: 140"), "utf-8")
    both, one = run("check", tmp_path / "box.yaml"), run("check", tmp_path / "box.yaml#rear", "--format", "json")
    assert both.returncode == one.returncode == 1
    assert both.stdout.count("bodies-meet-in-box") == 2
    assert '"bodies-meet-in-box"' in one.stdout


def test_make_writes_a_folder_a_panel_and_lists(tmp_path: Path) -> None:
    done = run("make", DEMO, "-o", tmp_path / "out")
    assert done.returncode == 0
    for name in ("front", "rear"):
        assert {"artwork.pdf", "cutouts.dxf", "proof.pdf", "build-sheet.pdf"} <= {
            path.name for path in (tmp_path / "out" / name).iterdir()
        }
    assert {path.name for path in (tmp_path / "out").iterdir()} == {"front", "rear", "panels.csv", "parts.csv"}


def test_a_slip_in_any_panel_stops_all(tmp_path: Path) -> None:
    text = DEMO.read_text("utf-8").replace("part: bnc", "part: bnk").replace("part: pilot-22", "part: pilt-22")
    (tmp_path / "box.yaml").write_text(text, "utf-8")
    done = run("make", tmp_path / "box.yaml", "-o", tmp_path / "out")
    assert done.returncode == 2
    assert re.findall("Unknown part '.*'", done.stderr) == ["Unknown part 'pilt-22'", "Unknown part 'bnk'"]
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("command", [pytest.param("drill-template", id="template"), "compare", "bed"])
def test_what_takes_one_panel_asks_for_its_name(command: str) -> None:
    more = {"compare": [DEMO], "bed": ["--bed", "600x400"], "drill-template": []}[command]
    done = run(command, DEMO, *more)
    assert done.returncode == 2
    assert "level-monitor.yaml#front, level-monitor.yaml#rear" in " ".join(done.stderr.split())


def test_the_page_says_that_it_takes_one() -> None:
    done = run("view", DEMO)
    assert done.returncode == 2
    assert "contains several panels" in done.stderr


def test_panels_of_a_set_compared() -> None:
    done = run("compare", f"{DEMO}#front", f"{DEMO}#rear")
    assert done.returncode == 1
    assert "NW-410-02" in done.stdout


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The files of the set, made into an empty folder."""
    out = tmp_path_factory.mktemp("made") / "out"
    assert run("make", "-q", DEMO, "-o", out).returncode == 0
    return out


@pytest.fixture
def out(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "out"))


@pytest.fixture
def revised(tmp_path: Path) -> Path:
    """The spec of the set, of a later revision."""
    spec = tmp_path / "box.yaml"
    spec.write_text(DEMO.read_text("utf-8").replace("revision: A", "revision: B"), "utf-8")
    return spec


def test_a_fresh_set_is_of_one_state(out: Path) -> None:
    rows = list(csv.DictReader((out / "panels.csv").open(encoding="utf-8")))
    for more in ((), ("--spec", DEMO), ("--spec", f"{DEMO}#rear")):
        told = run("outdated", out, *more)
        assert told.returncode == 0
        assert told.stdout.splitlines() == [
            *(
                f"{row['number']} rev A spec {row['spec']}: {2 + len(list((out / row['panel']).iterdir()))} files"
                for row in rows
            ),
            "Each panel of the set is of one state",
        ]


@pytest.mark.parametrize("only", ["cutouts.dxf", "parts", "panels", "cutouts.svg,panels"])
def test_a_few_files_of_a_set_are_of_one_state(tmp_path: Path, only: str) -> None:
    run("make", "-q", DEMO, "-o", tmp_path / "out", "--only", only)
    for more in ((), ("--spec", DEMO)):
        told = run("outdated", tmp_path / "out", *more)
        assert (told.returncode, "mixed" in told.stdout) == (0, False), told.stdout


@pytest.mark.parametrize("panel", ["front", "rear"])
def test_a_panel_of_a_set_that_is_older_than_the_rest(out: Path, revised: Path, panel: str) -> None:
    old = shutil.copytree(out / panel, out.parent / "old")
    run("make", "-q", revised, "-o", out)
    assert run("outdated", out, "--spec", revised).returncode == 0
    shutil.rmtree(out / panel)
    shutil.copytree(old, out / panel)
    for more in ((), ("--spec", revised)):
        told = run("outdated", out, *more)
        assert told.returncode == 1
        assert f"\n  {panel}/artwork.pdf" in told.stdout
        assert "The files are mixed" in told.stdout
        assert "of one state" not in told.stdout


def test_one_file_of_a_set_left_over(out: Path, revised: Path) -> None:
    (out.parent / "holes.csv").write_bytes((out / "rear" / "holes.csv").read_bytes())
    run("make", "-q", revised, "-o", out)
    (out / "rear" / "holes.csv").write_bytes((out.parent / "holes.csv").read_bytes())
    told = run("outdated", out)
    assert told.returncode == 1
    assert "1 file\n  rear/holes.csv\n" in told.stdout
    assert "front/" not in told.stdout


def test_lists_of_a_set_that_are_older_than_its_panels(out: Path, revised: Path) -> None:
    shutil.rmtree(out / "front")
    shutil.rmtree(out / "rear")
    run("make", "-q", revised, "-o", out, "--only", "cutouts.dxf")
    told = run("outdated", out)
    assert told.returncode == 1
    assert "\n  panels.csv, parts.csv\n" in told.stdout


def test_files_of_a_set_moved_from_panel_to_panel(out: Path) -> None:
    (out / "front" / "mask-rear.dxf").write_bytes((out / "rear" / "mask-rear.dxf").read_bytes())
    assert run("outdated", out).returncode == 1


def test_a_folder_of_a_panel_that_the_set_no_longer_has(out: Path, revised: Path) -> None:
    text = revised.read_text("utf-8").replace("\n  rear:\n", "\n  back:\n").replace("rear: rear", "rear: back")
    revised.write_text(text, "utf-8")
    run("make", "-q", revised, "-o", out)
    for more in ((), ("--spec", revised)):
        told = run("outdated", out, *more)
        assert told.returncode == 1
        assert "\n  rear/artwork.pdf" in told.stdout
        assert "back/" not in told.stdout


def test_files_of_one_panel_made_before_the_set(out: Path) -> None:
    single = Path(__file__).parents[2] / "demo" / "relay-tray.yaml"
    run("make", "-q", single, "-o", out, "--only", "blank.dxf")
    told = run("outdated", out)
    assert told.returncode == 1
    assert "\n  blank.dxf\n" in told.stdout


def test_each_panel_of_a_set_against_its_own_spec(out: Path, revised: Path) -> None:
    told = run("outdated", out, "--spec", revised)
    assert told.returncode == 1
    assert told.stdout.count("(not the current spec)") == 2
    assert run("outdated", out, "--spec", f"{revised}#rear").stdout.count("(not the current spec)") == 1
    shutil.rmtree(out / "rear")
    (out / "panels.csv").unlink()
    (out / "parts.csv").unlink()
    missing = run("outdated", out, "--spec", DEMO)
    assert missing.returncode == 1
    assert "No file of the current state of panel 'rear'" in missing.stdout


def test_problems_of_every_panel_are_told_by_outdated(out: Path, revised: Path) -> None:
    text = revised.read_text("utf-8").replace("part: bnc", "part: bnk").replace("part: pilot-22", "part: pilt-22")
    revised.write_text(text, "utf-8")
    done = run("outdated", out, "--spec", revised)
    assert done.returncode == 2
    assert re.findall("Unknown part '.*'", done.stderr) == ["Unknown part 'pilt-22'", "Unknown part 'bnk'"]


def test_a_folder_in_the_way_in_one_panel_leaves_the_whole_set(out: Path, revised: Path) -> None:
    (out / "rear" / "proof.pdf").unlink()
    (out / "rear" / "proof.pdf").mkdir()
    before = {path: path.read_bytes() for path in out.rglob("*") if path.is_file()}
    done = run("make", revised, "-o", out)
    assert done.returncode not in {0, 1}
    assert "A folder of that name exists" in done.stderr
    assert {path: path.read_bytes() for path in out.rglob("*") if path.is_file()} == before
    assert {path.name for path in out.iterdir()} == {"front", "rear", "panels.csv", "parts.csv"}
