"""Benchmark of `arrange`: parts that are taken out and put back, beside where their designer had them.

    python tests/benchmarks/put_back.py               every part of the demos, by itself
    python tests/benchmarks/put_back.py --pairs       two that are listed one after the other, too
    python tests/benchmarks/put_back.py --by-hand     layouts made by hand and panels of the folder looks instead
    python tests/benchmarks/put_back.py bench dosing  those whose names hold one of these words
    python tests/benchmarks/put_back.py --each        a line for each part

Taken out are parts with an item of their own that nothing else is measured from. `back` is at its place within 0.5 mm,
`in line` in a row or column that it stood in, where it stood in one. Seconds are of processor time for each.
"""

from __future__ import annotations

import argparse
import statistics
import time
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

from panelart.diagnostics import SpecError
from panelart.drafting.arrange import Request
from panelart.drafting.tried import arranged_well
from panelart.model.panel import Panel
from panelart.source import edit
from panelart.spec.part_paths import paths_of_parts
from panelart.spec.read import panel_from_text

HERE = Path(__file__).parent
DEMOS = (HERE.parents[1] / "demo",)
HELD_OUT = (HERE / "layouts", HERE / "looks")

BACK = 0.5
IN_LINE = 0.3


def takeable(text: str) -> list[tuple[str, edit.Path]]:
    """The parts that can be taken out one by one."""
    found = []
    for ref, path in paths_of_parts(text).items():
        try:
            edit.remove(text, (*path, "at"))
        except SpecError:
            continue
        if f"from: {ref}" not in text and not any(
            f"{side}: {ref}" in text for side in ("right_of", "left_of", "above")
        ):
            found.append((ref, path))
    return found


def lines(panel: Panel, ref: str) -> tuple[bool, bool]:
    """Whether a part stands in a column and in a row with another."""
    at = panel.by_ref[ref].at
    others = [part.at for part in panel.parts if part.ref != ref]
    return any(abs(one.x - at.x) <= IN_LINE for one in others), any(abs(one.y - at.y) <= IN_LINE for one in others)


def specs(folders: tuple[Path, ...], words: list[str]) -> Iterator[Path]:
    for path in (path for folder in folders for path in sorted(folder.glob("*.yaml"))):
        text = path.read_text(encoding="utf-8")
        if any(word in path.stem for word in words or [""]) and "\nmarking:" in text and "\nparts:" in text:
            yield path


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("words", nargs="*", help="words of the names of panels")
    parser.add_argument("--pairs", action="store_true", help="pairs too")
    parser.add_argument("--by-hand", action="store_true", help="layouts and looks")
    parser.add_argument("--each", action="store_true", help="a line for each part")
    asked = parser.parse_args()
    every: list[tuple[float, bool, bool]] = []
    print(
        f"{'panel':<28} {'taken':>5} {'back':>5} {'in line':>8} {'median':>7} {'mean':>6} {'worst':>6}"
        f" {'errors':>6} {'s each':>6}"
    )
    for path in specs(HELD_OUT if asked.by_hand else DEMOS, asked.words):
        text, file = path.read_text(encoding="utf-8"), path.as_posix()
        right = panel_from_text(text, file, path.parent)
        one_by_one = [(one,) for one in takeable(text)]
        taken = one_by_one + [(*a, *b) for a, b in pairwise(one_by_one) if asked.pairs]
        rows: list[tuple[float, bool, bool]] = []
        errors, start = 0, time.process_time()
        for some in taken:
            bare = text
            for _, place in some:
                bare = edit.remove(bare, (*place, "at"))
            made = arranged_well(bare, file, path.parent, Request())[0]
            errors += made.errors > 0
            panel = made.built.layout.panel
            for ref, _ in some:
                off = panel.by_ref[ref].at.distance(right.by_ref[ref].at)
                wanted = lines(right, ref)
                here, there = right.by_ref[ref].at, panel.by_ref[ref].at
                kept = any(
                    had and abs(a - b) <= IN_LINE for had, a, b in zip(wanted, here, there, strict=True)
                ) or not any(wanted)
                rows.append((off, off <= BACK, kept))
                if asked.each:
                    gone = ", ".join(one for one, _ in some)
                    print(f"    {gone:<16} {ref:<8} off {off:>6.1f}  {here} -> {there} {'' if kept else 'out of line'}")
        if not rows:
            continue
        every += rows
        tell(path.stem, rows, errors, (time.process_time() - start) / len(taken))
    tell("all", every, 0, 0.0)


def tell(name: str, rows: list[tuple[float, bool, bool]], errors: int, seconds: float) -> None:
    off = [one for one, _, _ in rows]
    print(
        f"{name:<28} {len(rows):>5} {sum(back for _, back, _ in rows):>5} {sum(line for _, _, line in rows):>8}"
        f" {statistics.median(off):>7.1f} {statistics.fmean(off):>6.1f} {max(off):>6.1f} {errors:>6} {seconds:>6.2f}",
        flush=True,
    )


if __name__ == "__main__":
    main()
