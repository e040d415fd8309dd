"""Benchmark of `arrange --nudge`: panels with mistakes, how many are cleared, by what moves and in what time.

    python -m tests.benchmarks.nudging               all demos and panels of the folder looks
    python -m tests.benchmarks.nudging bench dosing  those whose names hold one of these words

A mistake is made in the text of each panel, one kind at a time; of parts, those with an item of their own:

    close     the part nearest to the middle is 60 % nearer to its nearest neighbour
    edge      the part farthest right has its centre on the right edge
    upper     the part nearest to the middle has its centre on the upper edge
    double    the same part stands on its nearest neighbour
    pile      every second part stands 1 mm off the one before it
    squeezed  all parts are a fifth nearer to the middle, those at the corners too

Cleared is a panel with no more errors and warnings than it had before the mistake. `moved` is the sum of moves along x
and y in mm, beside that of the mistake itself; `least` the bound below which no moves can be. Seconds are of
processor time.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable
from pathlib import Path

from panelart.diagnostics import Severity, SpecError
from panelart.drafting.nudging import nudged
from panelart.geometry import Point
from panelart.model.panel import Panel, Part
from panelart.pipeline import Built, build
from panelart.source import edit
from panelart.spec.moves import NotHereError, moves
from panelart.spec.part_paths import paths_of_parts
from panelart.spec.read import panel_from_text
from tests.benchmarks.put_back import specs

FOLDERS = (Path(__file__).parents[2] / "demo", Path(__file__).with_name("looks"))

Places = dict[str, Point]


def close(panel: Panel, own: list[Part]) -> Places:
    """The part nearest to the middle is nearer to its nearest neighbour."""
    part = _nearest(panel, own)
    other = min((one for one in own if one.ref != part.ref), key=lambda one: one.at.distance(part.at))
    return {part.ref: Point(part.at.x + 0.6 * (other.at.x - part.at.x), part.at.y + 0.6 * (other.at.y - part.at.y))}


def edge(panel: Panel, own: list[Part]) -> Places:
    """The part farthest right has its centre on the right edge."""
    part = max(own, key=lambda one: one.at.x)
    return {part.ref: Point(panel.outline.bounds.right, part.at.y)}


def upper(panel: Panel, own: list[Part]) -> Places:
    """The part nearest to the middle has its centre on the upper edge."""
    part = _nearest(panel, own)
    return {part.ref: Point(part.at.x, panel.outline.bounds.top)}


def double(panel: Panel, own: list[Part]) -> Places:
    """The part nearest to the middle stands on its nearest neighbour."""
    part = _nearest(panel, own)
    others = (one for one in own if one.ref != part.ref)
    return {part.ref: min(others, key=lambda one: one.at.distance(part.at)).at}


def pile(panel: Panel, own: list[Part]) -> Places:  # noqa: ARG001  # as every mistake
    """Every second part stands beside the centre of the one before it."""
    return {two.ref: Point(one.at.x + 1.0, one.at.y) for one, two in zip(own[::2], own[1::2], strict=False)}


def squeezed(panel: Panel, own: list[Part]) -> Places:
    """All parts are a fifth nearer to the middle."""
    middle = panel.outline.bounds.centre
    return {one.ref: middle.moved(one.at.minus(middle).scaled(0.8)) for one in own}


MISTAKES: dict[str, Callable[[Panel, list[Part]], Places]] = {
    wrong.__name__: wrong for wrong in (close, edge, upper, double, pile, squeezed)
}


def _nearest(panel: Panel, own: list[Part]) -> Part:
    return min(own, key=lambda one: one.at.distance(panel.outline.bounds.centre))


def mistaken(text: str, panel: Panel, wrong: Callable[[Panel, list[Part]], Places]) -> tuple[str, float] | None:
    """The text with a mistake, and how far parts went; None where it has too few parts with items of their own."""
    paths = paths_of_parts(text)
    own = [part for part in panel.parts if part.ref in paths]
    if len(own) < 3:
        return None
    before, far = text, 0.0
    for ref, at in wrong(panel, own).items():
        now = panel.by_ref[ref].at
        by = (round(at.x - now.x, 2), round(at.y - now.y, 2))
        try:
            text = edit.put_all(text, moves(text, [ref], by))
        except (NotHereError, SpecError, ValueError):
            continue
        far += abs(by[0]) + abs(by[1])
    return None if text == before else (text, far)


def bad(built: Built) -> tuple[int, int]:
    count = built.inspection.count
    return count(Severity.ERROR), count(Severity.WARNING)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("words", nargs="*", help="words of the names of panels")
    parser.add_argument("--mistake", choices=MISTAKES, help="this kind only")
    asked = parser.parse_args()
    whole = {name: [0, 0, 0.0, 0.0, 0.0] for name in MISTAKES}
    for path in specs(FOLDERS, asked.words):
        right = path.read_text(encoding="utf-8")
        panel = panel_from_text(right, path.as_posix(), path.parent)
        had = bad(build(panel))
        for name, wrong in MISTAKES.items():
            made = mistaken(right, panel, wrong) if asked.mistake in (None, name) else None
            if made is None:
                continue
            start = time.process_time()
            found = nudged(made[0], path.as_posix(), path.parent)
            took = time.process_time() - start
            ends = bad(found.built)
            was = bad(build(panel_from_text(made[0], path.as_posix(), path.parent)))
            row = whole[name]
            row[0] += 1
            row[1] += ends <= had
            row[2] += found.cost
            row[3] += made[1]
            row[4] = max(row[4], took)
            print(
                f"{path.stem:<20} {name:<9} {was[0]:>3}+{was[1]:<3} -> {ends[0]:>3}+{ends[1]:<3}"
                f"{'cleared' if ends <= had else 'left   '}  {len(found.steps):>3} moves"
                f"  moved {found.cost:>7.1f} (mistake {made[1]:>7.1f}, least {found.bound:>7.1f}"
                f"{', proved' if found.proved else ''})  {took:>6.2f} s",
                flush=True,
            )
    print("\nmistake    panels  cleared  moved, mm  mistakes, mm  worst s")
    for name, (panels, cleared, moved, wrong_by, worst) in whole.items():
        print(f"{name:<9}  {panels:>6}  {cleared:>7}  {moved:>9.0f}  {wrong_by:>12.0f}  {worst:>7.2f}")


if __name__ == "__main__":
    main()
