"""How long the commands take, cold: `python tests/benchmarks/commands.py [SPEC]`.

Prints the best of several runs of: Python alone, the libraries that `check` needs, `panelart check`, `panelart make`;
then `check` over the libraries. The bars are 2.5 for that ratio and 3 s for `make` on two cores of the usual kind.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
RUNS = 7
# typer reads its arguments with pydantic, which it loads when a command is run.
LIBRARIES = "import typer, yaml, numpy, shapely, shapely.affinity, uharfbuzz, json; from pydantic import TypeAdapter"
COMMAND = "import sys; from panelart.cli import main; main()"


def seconds(*words: str) -> float:
    """The best wall time of a fresh Python process."""
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    times = []
    for _ in range(RUNS):
        begun = time.perf_counter()
        done = subprocess.run([sys.executable, *words], env=env, capture_output=True, text=True, check=False)
        times.append(time.perf_counter() - begun)
        if done.returncode not in (0, 1):
            raise SystemExit(done.stderr)
    return min(times)


def main() -> None:
    spec = sys.argv[1] if len(sys.argv) > 1 else str(ROOT / "demo" / "monitor-2u.yaml")
    bare = seconds("-c", "pass")
    libraries = seconds("-c", LIBRARIES)
    check = seconds("-c", COMMAND, "check", spec)
    with tempfile.TemporaryDirectory() as folder:
        make = seconds("-c", COMMAND, "make", spec, "-o", folder)
    print(f"python alone        {bare:6.3f} s")
    print(f"with the libraries  {libraries:6.3f} s")
    print(f"panelart check      {check:6.3f} s   {check / libraries:.2f} times the libraries (bar 2.5)")
    print(f"panelart make       {make:6.3f} s   (bar 3)")


if __name__ == "__main__":
    main()
