"""`panelart register` as a technician types it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.commands import run, run_within

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo" / "bench-supply.yaml"
POINTS = """\
feature,x,y
lower-left,20.03,15.01
lower-right,279.96,19.58
upper-right,278.06,129.52
upper-left,18.10,125.04
"""


def test_a_good_piece_gets_its_artwork_the_same_each_time(tmp_path: Path) -> None:
    (tmp_path / "points.csv").write_text(POINTS, encoding="utf-8")
    for folder in ("one", "two"):
        done = run("register", DEMO, "--measured", "points.csv", "-o", folder, "--bed", "600x400", cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        assert "in register" in done.stdout
    names = sorted(path.name for path in (tmp_path / "one").iterdir())
    assert names == ["artwork-fitted.pdf", "artwork-fitted.svg"]
    for name in names:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_a_piece_out_of_register_is_1_and_gets_none(tmp_path: Path) -> None:
    (tmp_path / "points.csv").write_text(POINTS.replace("279.96", "280.96"), encoding="utf-8")
    done = run(
        "register", DEMO, "--measured", "points.csv", "-o", "out", "--model", "affine", "--format", "json", cwd=tmp_path
    )
    assert done.returncode == 1
    told = json.loads(done.stdout)
    assert not told["printable"]
    assert told["refusals"]
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        pytest.param(("--measured", "none.csv"), 2, "Cannot read", id="words0-2-cannot be read"),
        (("--measured", "bad.csv"), 2, "bad.csv:2:1"),
        (("--bed", "600"), 2, "600x400"),
        pytest.param(("--uncertainty", "-1"), 2, "--uncertainty", id="words3-2---noise"),
        pytest.param(
            ("--measured", "points.csv", "-o", "out", "--bed", "100x100"),
            2,
            "not inside the bed",
            id="words4-2-not all on the bed",
        ),
    ],
)
def test_what_cannot_be_used_is_2(tmp_path: Path, words, code, says) -> None:
    (tmp_path / "points.csv").write_text(POINTS, encoding="utf-8")
    (tmp_path / "bad.csv").write_text("feature,x,y\nlower-lift,1,2\n", encoding="utf-8")
    done = run_within("register", DEMO, *words, cwd=tmp_path)
    assert done.returncode == code
    assert says in " ".join(done.stderr.replace("│", " ").split())
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()


def test_without_points_it_says_which_to_measure(tmp_path: Path) -> None:
    done = run("register", DEMO, cwd=tmp_path)
    assert done.returncode == 0
    assert "lower-left, lower-right, upper-right, upper-left" in done.stdout
