"""Benchmark of a run of pieces that differ: serial number with check digit, date, owner and QR code, on loads of a bed.

    python tests/benchmarks/pieces.py                1,000 pieces
    python tests/benchmarks/pieces.py --pieces 200

The command is run as a user runs it, twice in fresh folders: seconds with its start and the reading of spec and
table, the most memory it took, and whether both runs gave the same bytes. A bar that is missed makes the exit status 1.
"""

from __future__ import annotations

import argparse
import hashlib
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

RATE = 150.0
"""Least pieces a second."""

MEMORY = 300.0
"""Most MB."""

SPEC = """\
panelart: 1
panel:
  title: Benchmark plate
  size: [120, 50]
  sheet: {material: aluminium 5754, thickness: 2}
  coat: {kind: powder, thickness: 0.08, colour: "#E4E6E3"}
marking:
  process: digital-print
  ink: {name: black, colour: "#141414"}
  lettering: {cap_height: 3}
variables:
  serial: {counter: {first: 1, digits: 5, before: "BS-", check: luhn}}
  owner: {example: Hall 44}
  date: {example: 2026-01-31}
parts:
  - {ref: DS1, part: led-5-bezel, at: [20, 25], legend: Ready}
texts:
  - {text: "Serial {serial}", at: [40, 12]}
  - {text: "{date}", at: [40, 22]}
  - {text: "{owner}", at: [40, 32]}
art:
  - {code: qr, text: "{serial}", at: [100, 25], module: 0.5}
"""


def run(folder: Path, pieces: int) -> tuple[float, str]:
    """Seconds of one run, and what its files are known by."""
    (folder / "plate.yaml").write_text(SPEC)
    rows = "".join(f"Hall {number % 40 + 1}\n" for number in range(pieces))
    (folder / "rows.csv").write_text("owner\n" + rows)
    program = "from panelart.cli import main; main()"
    asked = ["bed", "plate.yaml", "--bed", "600x400", "--rows", "rows.csv", "--date", "2026-01-31", "-o", "out"]
    before = time.perf_counter()
    subprocess.run([sys.executable, "-c", program, *asked], cwd=folder, check=True, capture_output=True)
    seconds = time.perf_counter() - before
    known = hashlib.sha256()
    for path in sorted((folder / "out").iterdir()):
        known.update(path.name.encode() + path.read_bytes())
    return seconds, known.hexdigest()


def main() -> None:
    """Measure and print; exit 1 where a bar is missed."""
    reader = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    reader.add_argument("--pieces", type=int, default=1000)
    pieces = reader.parse_args().pieces
    results = []
    for _ in range(2):
        with tempfile.TemporaryDirectory() as folder:
            results.append(run(Path(folder), pieces))
    seconds = min(one for one, _ in results)
    memory = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1000
    same = len({known for _, known in results}) == 1
    rate = pieces / seconds
    print(f"{pieces} pieces in {seconds:.1f} s: {rate:.0f} a second (bar {RATE:.0f})")
    print(f"{memory:.0f} MB at most (bar {MEMORY:.0f}); the same bytes twice: {'yes' if same else 'NO'}")
    sys.exit(rate < RATE or memory > MEMORY or not same)


if __name__ == "__main__":
    main()
