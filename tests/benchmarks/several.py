"""Benchmark of several specs in one command: over the cores, again with nothing changed, and one by one.

    python -m tests.benchmarks.several               200 panels of 20 parts
    python -m tests.benchmarks.several --count 500

Panels are made up: rows of catalogue parts with names. Seconds are by the clock, as that is what cores are for.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import fmean

from tests.benchmarks.viewing import spec

ROOT = Path(__file__).parents[2]
ALONE = 5
"""So many are checked one by one, to tell what all of them would take."""


def seconds(folder: Path, *words: str) -> float:
    """How long a command takes in a process of its own."""
    env = {**os.environ, "PYTHONPATH": str(ROOT), "XDG_CACHE_HOME": str(folder / "cache")}
    before = time.perf_counter()
    subprocess.run([sys.executable, "-m", "panelart", *words], cwd=folder, env=env, check=True, capture_output=True)
    return time.perf_counter() - before


def main() -> None:
    """Measure and print."""
    reader = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    reader.add_argument("--count", type=int, default=200)
    count = max(ALONE, reader.parse_args().count)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "panels").mkdir()
        for number in range(count):
            text = spec(20).replace("Benchmark panel", f"Panel {number}")
            (folder / "panels" / f"p{number:04}.yaml").write_text(text, encoding="utf-8")
        alone = fmean(seconds(folder, "check", f"panels/p{number:04}.yaml") for number in range(ALONE))
        print(f"{count} panels of 20 parts on {os.cpu_count()} cores")
        print(f"check one by one:     {alone * count:6.1f} s ({ALONE} of them were)")
        for told, words in (("check", ("check", "panels")), ("make", ("make", "panels", "-o", "files"))):
            first, again = seconds(folder, *words), seconds(folder, *words)
            print(f"{told}:                {first:6.1f} s, {count / first:5.1f} a second")
            print(f"{told}, unchanged:     {again:6.1f} s, {count / again:5.1f} a second", flush=True)


if __name__ == "__main__":
    main()
