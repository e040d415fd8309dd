"""`panelart bed` as a printer types it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo" / "bench-supply.yaml"


def run(*words: object, cwd: Path) -> subprocess.CompletedProcess[str]:
    import os

    env = {**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1"}
    command = [sys.executable, "-c", "from panelart.cli import main; main()", *map(str, words)]
    return subprocess.run(command, cwd=cwd, env=env, capture_output=True, text=True, check=False)


def test_a_dozen_takes_two_loads_and_the_same_bytes_each_time(tmp_path: Path) -> None:
    for folder in ("one", "two"):
        done = run("bed", DEMO, "--bed", "600x400", "--quantity", "12", "-o", folder, cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        assert "12 pieces in 2 loads, 1 jig" in done.stdout
    names = sorted(path.name for path in (tmp_path / "one").iterdir())
    assert names == ["bed-1.pdf", "bed-2.pdf", "bed.csv", "jig-1.dxf", "jig-1.pdf", "jig-1.svg"]
    assert all((tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes() for name in names)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--bed", "200x100"), "inside its margin the bed has 170 x 70 mm"),
        (("--bed", "600x400", "-n", "1,2"), "2 numbers for 1 panels"),
        (("--bed", "600x400", "-n", "0"), "--quantity"),
        (("--bed", "600x400", "-n", "many"), "--quantity"),
        (("--bed", "600x400", "-n", "999999"), "100000"),
        (("--bed", "infxnan"), "600x400"),
        (("--bed", "600x400", "--gap", "nan"), "--gap"),
        (("--bed", "20x20", "--margin", "15"), "0 x 0"),
    ],
)
def test_what_cannot_be_laid_is_2_and_writes_nothing(tmp_path: Path, words, says) -> None:
    done = run("bed", DEMO, "-o", "out", *words, cwd=tmp_path)
    assert done.returncode == 2, done.stdout
    assert says in " ".join(done.stderr.replace("│", " ").split())
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()
