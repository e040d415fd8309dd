"""What it costs to write files whole or not at all, and races of processes that write into one folder.

python tests/benchmarks/writing.py            # 2, 40 and 200 files into a new folder, and again
python tests/benchmarks/writing.py races 1000 # a few processes in each, every fifth with one that is killed
"""

from __future__ import annotations

import shutil
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from panelart.writers import write_all
from panelart.writers.disk import Disk
from tests.writers.races import race

ROUNDS = 15
KILOBYTES = 60


class Unsynced(Disk):
    """A disk that waits for no medium."""

    def sync(self, file: Path) -> None:
        del file

    def sync_folder(self, folder: Path) -> None:
        del folder


def plain(files: dict[str, bytes], folder: Path) -> None:
    """Files written one after the other, whatever may happen."""
    folder.mkdir(exist_ok=True)
    for name, data in files.items():
        (folder / name).write_bytes(data)


def unsynced(files: dict[str, bytes], folder: Path) -> None:
    """Files written whole, without a wait for the medium."""
    write_all(files, folder, Unsynced())


def writing() -> None:
    ways: dict[str, Callable[[dict[str, bytes], Path], None]] = {
        "plain": plain,
        "whole, not synced": unsynced,
        "whole": write_all,
    }
    print(f"files of {KILOBYTES} KB; median (worst) of {ROUNDS} in ms: into a new folder, into one that has them")
    for count in (2, 40, 200):
        for name, way in ways.items():
            told: list[list[float]] = [[], []]
            for number in range(ROUNDS):
                place = Path(tempfile.mkdtemp(dir=Path.cwd()))
                for times in told:
                    files = {f"{each}.pdf": bytes([number]) * KILOBYTES * 1000 for each in range(count)}
                    start = time.perf_counter()
                    way(files, place / "out")
                    times.append((time.perf_counter() - start) * 1000)
                shutil.rmtree(place)
            shown = "  ".join(f"{statistics.median(times):7.1f} ({max(times):7.1f})" for times in told)
            print(f"{count:4} {name:20} {shown}")


def races(count: int) -> None:
    ended = started = mixed = 0
    begun = time.perf_counter()
    with tempfile.TemporaryDirectory(dir=Path.cwd()) as place:
        for number in range(count):
            folder = Path(place) / str(number // 4)  # four races in a row meet a folder that is there already
            runs, killed = 2 + number % 4, int(number % 5 == 4)
            well, whole = race(folder, runs, killed=killed)
            started, ended, mixed = started + runs, ended + well, mixed + (not whole)
            if well < runs - killed or not whole:
                print(f"race {number}: {well} of {runs} ended well, {'whole' if whole else 'mixed'}")
    took = time.perf_counter() - begun
    print(f"{count} races, {started} runs, {ended} ended well, {mixed} folders mixed; {took:.0f} s")


if __name__ == "__main__":
    if sys.argv[1:2] == ["races"]:
        races(int(sys.argv[2]))
    else:
        writing()
