"""What the commands cost, cold: `python tests/benchmarks/commands.py [--python PROGRAM] [--runs N]`.

Processor time of a fresh process, user and system, the best of several runs, with the modules compiled as an ordinary
install has them; each also as a ratio to a Python that imports what no command can do without, `yaml` and `shapely`,
measured in the same run. So the bars hold on any machine. Another Python, such as one of an install without the
libraries for tests, is measured as it is; this one imports the tree that the script is in.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
BASE = ("-c", "import yaml, shapely")
PROGRAM = ("-m", "panelart")
SPEC = """\
panelart: 1
panel:
  title: Line selector
  number: NW-830-01
  size: [{width}, 88]
  corner: 3
  sheet: {{material: aluminium 5754, thickness: 3}}
  coat: {{kind: anodise, thickness: 0.01, colour: "#1D1F22"}}
marking:
  process: digital-print
  ink: {{name: white, colour: "#EDEDEA"}}
  lettering: {{font: plain, cap_height: 3.25, case: upper}}
  viewing_distance: 500
parts:
  - repeat: {{count: {columns}, step: [30, 0]}}
    parts:
      - {{ref: "DS{{n}}", part: led-3-bezel, at: [28, 73], legend: "CH {{n}}"}}
      - {{ref: "RV{{n}}", part: pot-m7, at: [28, 48], knob: {{diameter: 14, height: 14}},
          scale: {{from: 0, to: 10, major: 5, minor: 1, sweep: 270}}}}
      - {{ref: "S{{n}}", part: toggle-mini, at: [28, 18], positions: {{up: "Line", down: "Tape"}}}}
  - {{ref: S99, part: toggle-12, at: [{last}, 40], legend: Power, positions: {{up: "On", down: "Off"}}}}
"""
"""Three parts for each column, and one more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What is measured: the words after the program, and the largest ratio that is accepted, if one is."""

    name: str
    words: Sequence[str]
    bar: float | None = None


def seconds(python: str, words: Sequence[str], env: dict[str, str]) -> float:
    """Processor seconds of one run. Raises SystemExit when it could not run."""
    process = subprocess.Popen([python, *words], env=env, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    _, status, used = os.wait4(process.pid, 0)
    told = process.stderr.read().decode() if process.stderr else ""
    if os.waitstatus_to_exitcode(status) not in (0, 1) or "Traceback" in told:
        raise SystemExit(told)
    process.returncode = 0  # waited for above
    if process.stderr:
        process.stderr.close()
    return used.ru_utime + used.ru_stime


def spec_of(columns: int, folder: Path) -> str:
    """The file of a panel with three parts for each column and one more."""
    path = folder / f"{3 * columns + 1}.yaml"
    path.write_text(SPEC.format(columns=columns, width=30 * columns + 50, last=30 * columns + 26), encoding="utf-8")
    return str(path)


def main() -> None:
    """Measure and print; exit 1 where a bar is missed."""
    reader = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    reader.add_argument("--python", default="")
    reader.add_argument("--runs", type=int, default=7)
    asked = reader.parse_args()
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    if not asked.python:
        env["PYTHONPATH"] = str(ROOT)
    with tempfile.TemporaryDirectory() as folder:
        small, large = spec_of(7, Path(folder)), spec_of(13, Path(folder))
        things = (
            Measured(name="yaml and shapely", words=BASE),
            Measured(name="--version", words=(*PROGRAM, "--version"), bar=0.5),
            Measured(name="--help", words=(*PROGRAM, "--help")),
            Measured(name="import panelart", words=("-c", "import panelart"), bar=0.5),
            Measured(name="check, 22 parts", words=(*PROGRAM, "check", small), bar=2.5),
            Measured(name="check, 40 parts", words=(*PROGRAM, "check", large), bar=3.0),
            Measured(name="make, 22 parts", words=(*PROGRAM, "make", small, "-o", f"{folder}/out")),
        )
        python = asked.python or sys.executable
        rounds = [[seconds(python, one.words, env) for one in things] for _ in range(asked.runs)]
    best = [min(times) for times in zip(*rounds, strict=True)]
    missed = False
    for one, used in zip(things, best, strict=True):
        ratio = used / best[0]
        kept = one.bar is None or ratio <= one.bar
        missed = missed or not kept
        told = "" if one.bar is None else f"   bar {one.bar:.1f}: {'kept' if kept else 'missed'}"
        print(f"{one.name:<18} {used:6.3f} s   {ratio:5.2f}{told}")
    raise SystemExit(int(missed))


if __name__ == "__main__":
    main()
