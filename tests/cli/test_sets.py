"""Specs of several panels on the command line: all of them together, or one by its name."""

from __future__ import annotations

import re
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
