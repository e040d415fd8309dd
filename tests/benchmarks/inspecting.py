"""How long an inspection takes, warm: `python tests/benchmarks/inspecting.py`. The bar is 300 parts in 0.6 s."""

from __future__ import annotations

import sys
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[2]))

from panelart.checks import inspect
from tests.checks.test_inspection import _many
from tests.mutations.faults import DEMO, clean

BAR_S = 0.6


def best(layout, runs: int = 5) -> float:
    """The least processor time of several inspections, after one that warms up, in seconds."""
    inspect(layout)
    times = []
    for _ in range(runs):
        start = process_time()
        inspect(layout)
        times.append(process_time() - start)
    return min(times)


def main() -> int:
    for path in sorted(DEMO.glob("*.yaml")):
        if "\nparts:" in path.read_text(encoding="utf-8") and "panelart: 1" in path.read_text(encoding="utf-8"):
            layout = clean(path.stem)
            print(f"{path.stem:<22}{len(layout.panel.parts):>4} parts  {1000 * best(layout):>6.0f} ms")
    seconds = best(_many(300))
    print(f"{'a wall of dials':<22}{300:>4} parts  {1000 * seconds:>6.0f} ms; the bar is {1000 * BAR_S:.0f} ms")
    return 0 if seconds < BAR_S else 1


if __name__ == "__main__":
    sys.exit(main())
