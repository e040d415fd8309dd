"""Many processes write one set of folders at once."""

from __future__ import annotations

import os
import signal
import time
from pathlib import Path

from panelart.writers import settle, write_folders
from tests.writers.disks import content

Set = list[tuple[Path, dict[str, bytes]]]


def of_race(place: Path, word: bytes) -> Set:
    return [
        (place / "front", {f"{name}.svg": word + name.encode() for name in "abcd"}),
        (place / "rear", {f"{name}.svg": word + name.encode() for name in "ab"}),
        (place, {"list.csv": word + b"l"}),
    ]


def race(place: Path, runs: int, *, killed: int = 0) -> tuple[int, bool]:
    """Many processes write one set at once, some are killed: how many came to their end, and whether it is whole."""
    start = time.time() + 0.02 + runs * 0.005
    started = [raced(place, f"{number:03}".encode(), start) for number in range(runs)]
    time.sleep(max(0.0, start - time.time()))
    for child in started[:killed]:
        time.sleep(0.005)
        os.kill(child, signal.SIGKILL)
    well = sum(os.waitpid(child, 0)[1] == 0 for child in started)
    if killed:
        settle([place, *(place / name for name in ("front", "rear") if (place / name).exists())])
    left = content(place)
    names = {str((folder / name).relative_to(place)) for folder, files in of_race(place, b"") for name in files}
    return well, left.keys() == names and len({data[:3] for data in left.values()}) == 1


def raced(place: Path, word: bytes, start: float) -> int:
    """A process that writes the set at a time."""
    if child := os.fork():
        return child
    code = 1
    try:
        time.sleep(max(0.0, start - time.time()))
        write_folders(of_race(place, word))
        code = 0
    finally:
        os._exit(code)
