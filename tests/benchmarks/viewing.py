"""Benchmark of the live page: from a file written to its new picture, and memory over many edits.

    python tests/benchmarks/viewing.py                 40, 200 and 1,000 parts, and 1,000 edits at 40
    python tests/benchmarks/viewing.py --edits 200     with so many edits

A change moves one part; the time runs from the write until the page could fetch the new picture. Panels are made up:
rows of catalogue parts with names. A bar that is missed makes the exit status 1.
"""

from __future__ import annotations

import argparse
import resource
import statistics
import sys
import tempfile
import time
from pathlib import Path

from panelart.source import edit
from panelart.viewer.session import Session
from panelart.viewer.stages import revision_of

BARS = {40: 0.3, 200: 1.0}
"""Most seconds from the write to the picture, in the middle of five, by number of parts."""

GROWTH = 40.0
"""Most MB that memory may grow over the second half of the edits."""

KINDS = ("toggle-mini", "led-5-bezel", "bnc", "socket-4", "pushbutton-12")
PITCH = 24.0


def spec(parts: int) -> str:
    """A panel with so many parts in rows."""
    across = max(8, round((parts * 1.6) ** 0.5))
    down = -(-parts // across)
    lines = [
        "panelart: 1",
        "panel:",
        "  title: Benchmark panel",
        f"  size: [{PITCH * (across + 1):g}, {PITCH * (down + 1):g}]",
        "  sheet: {material: aluminium 5754, thickness: 2}",
        '  coat: {kind: powder, thickness: 0.08, colour: "#30343A"}',
        "marking:",
        "  process: digital-print",
        '  ink: {name: white, colour: "#F4F4EF"}',
        "  lettering: {cap_height: 2.5}",
        "parts:",
    ]
    for number in range(parts):
        x, y = PITCH * (number % across + 1), PITCH * (number // across + 1)
        kind = KINDS[number % len(KINDS)]
        lines.append(f"  - {{ref: P{number}, part: {kind}, at: [{x:g}, {y:g}], legend: N {number}}}")
    return "\n".join(lines) + "\n"


def shown(desk: Session, text: str) -> None:
    """Waits until a text's picture is there."""
    wanted = revision_of(text)
    while desk.state.shown is None or desk.state.shown.revision != wanted:
        if desk.state.problems:
            raise SystemExit(str(desk.state.problems[0]))
        desk.look()
        time.sleep(0.002)


def moved(text: str, number: int, by: float) -> str:
    """One part a little to the right of where its row has it."""
    x, y = (
        float(one) for one in text.split(f"ref: P{number},")[1].split("at: [")[1].split("]", maxsplit=1)[0].split(",")
    )
    return edit.set_value(text, ("parts", number, "at"), [round(x + by, 3), y])


def latency(path: Path, parts: int) -> tuple[float, float]:
    """Seconds in the middle of five, once warm: by the clock, and of the processor, whatever else it has to do."""
    text = spec(parts)
    path.write_text(text)
    taken, worked = [], []
    with Session(path, "") as desk:
        shown(desk, text)
        for turn in range(6):
            text = moved(text, 3 + turn, 0.5)
            before, busy = time.perf_counter(), time.process_time()
            path.write_text(text)
            shown(desk, text)
            taken.append(time.perf_counter() - before)
            worked.append(time.process_time() - busy)
    return statistics.median(taken[1:]), statistics.median(worked[1:])


def memory() -> float:
    """MB in use now."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * resource.getpagesize() / 1e6


def growth(path: Path, edits: int) -> tuple[float, float, float]:
    """MB at first, after half of the edits and at the end; each is a change made as the page makes it."""
    text = spec(40)
    path.write_text(text)
    with Session(path, "") as desk:
        shown(desk, text)
        used = [memory()]
        for turn in range(edits):
            part, by = turn % 40, 0.5 if turn // 40 % 2 == 0 else -0.5
            made = desk.change(revision_of(text), lambda now, part=part, by=by: moved(now, part, by), "move")  # type: ignore[misc]
            text = path.read_text()
            assert made.revision == revision_of(text)
            shown(desk, text)
            if turn in (edits // 2, edits - 1):
                used.append(memory())
    return used[0], used[1], used[2]


def main() -> None:
    """Measure and print; exit 1 where a bar is missed."""
    reader = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    reader.add_argument("--edits", type=int, default=1000)
    asked = reader.parse_args()
    missed = False
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "panel.yaml"
        for parts in (40, 200, 1000):
            seconds, busy = latency(path, parts)
            bar = BARS.get(parts)
            told = "" if bar is None else f"   bar {bar:g} s: {'kept' if seconds <= bar else 'MISSED'}"
            missed |= bar is not None and seconds > bar
            print(f"{parts:5} parts: {seconds:6.3f} s to the picture, {busy:6.3f} s of the processor{told}", flush=True)
        first, half, end = growth(path, asked.edits)
        print(f"{asked.edits} edits at 40 parts: {first:.0f} MB at first, {half:.0f} at half, {end:.0f} at the end")
        missed |= end - half > GROWTH
    sys.exit(missed)


if __name__ == "__main__":
    main()
