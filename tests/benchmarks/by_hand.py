"""Drafts compared with layouts made by hand from the same lists: python tests/benchmarks/by_hand.py [PICTURES].

The layouts in `layouts/` were written before a draft of their lists was seen. For each list, draft / hand:

- area, in percent of the hand's; `fixed` where the size of the face is given
- lines: columns and rows that the parts' centres make, to 0.05 mm, for each part: 1.0 where every part adds a column
  or row of its own
- pitches: different distances between neighbours of one kind in a row or column of a group
- edges: different coordinates of frames' sides, to 0.3 mm, for each frame: 4 where no two frames share one
- move: the share of parts that a designer would move before accepting the draft. These are parts that share neither a
  row nor a column with another, and are not half way between two others of their group; those whose step from a like
  neighbour in their row is not the commonest of that row; those that stand in a row of their group more than twice as
  far from their neighbour, edge to edge with legends, as the nearest two of the row, and 6 mm more; and those of like
  groups (names alike but for a number or letter, the same kinds in the same order) that stand otherwise than in the
  first such group.
- errors, and the processor's seconds of the draft

Screws and other fixings are left out. PICTURES is a folder for both panels of each list.
"""

from __future__ import annotations

import re
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations, pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

import panelart
from panelart.diagnostics import Severity, SpecError
from panelart.drafting.arrange import Arranged, Request
from panelart.drafting.blocks import Fixing, fixing_of
from panelart.drafting.draft import Heading, drafts
from panelart.drafting.measure import measured
from panelart.drafting.sizes import size_wish
from panelart.drafting.tried import Tried, tried
from panelart.lists.listed import ComponentList
from panelart.lists.matching import Matcher
from panelart.lists.read import read_list
from panelart.model.panel import Panel, Part
from panelart.pipeline import Built, build
from panelart.spec.read import panel_from_text

FOLDER = Path(__file__).parent / "layouts"
FIXED = {
    "logger-rear": "260x100",
    "port-row": "1U",
    "small-module": "60.6x128.4",
    "stereo-filter": "240x88",
    "two-oscillators": "121.3x128.4",
    "two-preamps": "240x88",
}
SAME = 0.05
EDGE = 0.3


@dataclass(frozen=True, kw_only=True)
class Figures:
    """What a layout measures."""

    size: tuple[float, float]
    lines: float
    pitches: int
    edges: float
    moved: float
    errors: int


def figures(built: Built, groups: Mapping[str, list[str]]) -> Figures:
    """Measured on the panel as built; `groups` are the refs of each group of the list, in its order."""
    panel = built.layout.panel
    parts = arranged_parts(panel)
    boxes = [frame.box for frame in built.layout.frames]
    edges = distinct([x for box in boxes for x in (box.left, box.right)], EDGE)
    edges += distinct([y for box in boxes for y in (box.bottom, box.top)], EDGE)
    lines = distinct([part.at.x for part in parts], SAME) + distinct([part.at.y for part in parts], SAME)
    return Figures(
        size=panel.size,
        lines=lines / (2 * len(parts)),
        pitches=sum(len(set(steps)) for steps in _steps(panel, groups).values()),
        edges=edges / len(boxes) if boxes else 0.0,
        moved=len(would_be_moved(panel, groups)) / len(parts),
        errors=sum(finding.severity is Severity.ERROR for finding in built.inspection.findings),
    )


def arranged_parts(panel: Panel) -> list[Part]:
    """The parts that are no fixings."""
    return [part for part in panel.parts if fixing_of(part.component) is Fixing.NONE]


def distinct(values: Iterable[float], within: float) -> int:
    """How many different values there are."""
    ordered = sorted(values)
    return sum(number == 0 or value - ordered[number - 1] > within for number, value in enumerate(ordered))


_Run = tuple[str, str, float]
"""Group, kind, and the row's height."""


def _steps(panel: Panel, groups: Mapping[str, list[str]]) -> dict[_Run, list[float]]:
    """The steps between neighbours of one kind in each row of each group."""
    return {
        run: [round(two.at.x - one.at.x, 1) for one, two in pairwise(parts)]
        for run, parts in _rows(panel, groups).items()
    }


def _rows(panel: Panel, groups: Mapping[str, list[str]]) -> dict[_Run, list[Part]]:
    rows: dict[_Run, list[Part]] = defaultdict(list)
    for name, refs in groups.items():
        for ref in refs:
            part = panel.by_ref[ref]
            rows[name, part.component.name, round(part.at.y, 1)].append(part)
    return {run: sorted(parts, key=lambda part: part.at.x) for run, parts in rows.items()}


def would_be_moved(panel: Panel, groups: Mapping[str, list[str]]) -> set[str]:
    """The refs of parts that a designer would move, as the page above has it."""
    parts = arranged_parts(panel)
    fellows = {ref: [panel.by_ref[other] for other in refs if other != ref] for refs in groups.values() for ref in refs}
    moved = {part.ref for part in parts if not _in_line(part, parts, fellows[part.ref])}
    for row in _rows(panel, groups).values():
        steps = [round(two.at.x - one.at.x, 1) for one, two in pairwise(row)]
        if steps:
            usual = Counter(steps).most_common(1)[0][0]
            moved |= {part.ref for part, step in zip(row[1:], steps, strict=True) if step != usual}
    return moved | _far_apart(panel, groups) | _unlike(panel, groups)


def _far_apart(panel: Panel, groups: Mapping[str, list[str]]) -> set[str]:
    """The parts of a group that stand much farther from their neighbour in a row than others of that row do."""
    faces = {
        ref: block.face for ref, block in measured(panel, [(ref,) for refs in groups.values() for ref in refs]).items()
    }
    found: set[str] = set()
    for refs in groups.values():
        rows: dict[float, list[Part]] = defaultdict(list)
        for ref in refs:
            rows[round(panel.by_ref[ref].at.y, 1)].append(panel.by_ref[ref])
        for row in rows.values():
            ordered = sorted(row, key=lambda part: part.at.x)
            gaps = [
                (two.at.x + faces[two.ref].left - one.at.x - faces[one.ref].right, two.ref)
                for one, two in pairwise(ordered)
            ]
            least = min(gaps, default=(0.0, ""))[0]
            found |= {ref for gap, ref in gaps if gap > 2 * least and gap > least + 6.0}
    return found


def _in_line(part: Part, parts: Iterable[Part], fellows: list[Part]) -> bool:
    """Whether a part is in a row or column with another, or half way between two of its group."""
    across = [part.at.x - other.at.x for other in parts if other is not part]
    upright = [part.at.y - other.at.y for other in parts if other is not part]
    if any(abs(off) <= SAME for off in (*across, *upright)):
        return True
    return any(
        abs(part.at.x - (one.at.x + two.at.x) / 2) <= SAME or abs(part.at.y - (one.at.y + two.at.y) / 2) <= SAME
        for one, two in combinations(fellows, 2)
    )


def _unlike(panel: Panel, groups: Mapping[str, list[str]]) -> set[str]:
    """The parts of like groups that stand otherwise from their group's first than in the first such group."""
    alike: dict[object, list[list[Part]]] = defaultdict(list)
    for name, refs in groups.items():
        parts = [panel.by_ref[ref] for ref in refs]
        stem = re.sub(r"\b(\d+|[A-Z])\b", "#", name)
        if name and stem != name:
            alike[stem, tuple(part.component.name for part in parts)].append(parts)
    found: set[str] = set()
    for first, *others in alike.values():
        for parts in others:
            for part, model in zip(parts, first, strict=True):
                by, wanted = part.at.minus(parts[0].at), model.at.minus(first[0].at)
                if abs(by.x - wanted.x) > SAME or abs(by.y - wanted.y) > SAME:
                    found.add(part.ref)
    return found


def main() -> None:
    pictures = Path(sys.argv[1]) if len(sys.argv) > 1 else None
    print(
        f"{'list':<16} {'draft mm':>13} {'hand mm':>13} {'area':>6} {'lines':>11} {'pitches':>8} {'edges':>10}", end=""
    )
    print(f" {'move':>10} {'errors':>6} {'s':>5}")
    matcher = Matcher()
    moved = by_hand = 0.0
    count, areas = 0, []
    for path in sorted(FOLDER.glob("*.csv")):
        listed = read_list(path.read_bytes(), path.name, matcher)
        groups: dict[str, list[str]] = defaultdict(list)
        for item in listed.items:
            if item.component is not None and fixing_of(matcher.component(item.component)) is Fixing.NONE:
                groups[item.group].append(item.ref)
        text = path.with_suffix(".yaml").read_text(encoding="utf-8")
        hand = figures(build(panel_from_text(text, path.name, FOLDER)), groups)
        start = time.process_time()
        made = drafted(listed, FIXED.get(path.stem, "smallest"), matcher)
        took = time.process_time() - start
        draft = figures(made.built, groups) if made is not None else None
        parts = sum(map(len, groups.values()))
        count += parts
        moved += parts * (draft.moved if draft is not None else 1.0)
        by_hand += parts * hand.moved
        if draft is not None and path.stem not in FIXED:
            areas.append(draft.size[0] * draft.size[1] / (hand.size[0] * hand.size[1]))
        area = "fixed" if path.stem in FIXED else f"{100 * areas[-1]:.0f}%"
        print(told(path.stem, draft, hand, area, took))
        if pictures is not None:
            pictures.mkdir(parents=True, exist_ok=True)
            (pictures / f"{path.stem}.hand.png").write_bytes(picture(text))
            if made is not None:
                (pictures / f"{path.stem}.draft.yaml").write_text(made.arranged.text, encoding="utf-8")
                (pictures / f"{path.stem}.draft.png").write_bytes(picture(made.arranged.text))
    print(f"to move: draft {100 * moved / count:.1f} %, hand {100 * by_hand / count:.1f} % of {count} parts")
    print(f"area where the size is free: {100 * sum(areas) / len(areas):.0f} % of the hand's")


def drafted(listed: ComponentList, size: str, matcher: Matcher) -> Tried | None:
    """The draft of a list as the command makes it; None where it is refused."""

    def make(white: float) -> list[Arranged]:
        request = Request(wish=size_wish(size), white=white)
        made = drafts(listed, Heading(title="Draft"), request, FOLDER, matcher)
        return [one.arranged for one in made]

    try:
        return tried(make, listed.file, FOLDER)[0]
    except SpecError:
        return None


def told(name: str, draft: Figures | None, hand: Figures, area: str, took: float) -> str:
    """One line of the table."""
    if draft is None:
        return f"{name:<16} {'refused':>13} {_size(hand):>13}"
    return (
        f"{name:<16} {_size(draft):>13} {_size(hand):>13} {area:>6} {draft.lines:>5.2f}/{hand.lines:>5.2f} "
        f"{draft.pitches:>4}/{hand.pitches:>3} {draft.edges:>5.1f}/{hand.edges:>4.1f} "
        f"{100 * draft.moved:>5.0f}/{100 * hand.moved:>3.0f}% {draft.errors:>3}/{hand.errors:>2} {took:>5.1f}"
    )


def picture(text: str) -> bytes:
    """The panel as it will look."""
    return panelart.build(panelart.load(text))._repr_png_()


def _size(found: Figures) -> str:
    return f"{found.size[0]:g} x {found.size[1]:g}"


if __name__ == "__main__":
    main()
