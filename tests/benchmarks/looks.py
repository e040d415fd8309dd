"""How lettering looks on thirty crowded panels of every kind, in figures that a ruler on the picture confirms.

    python tests/benchmarks/looks.py              a line for each panel of the folder looks beside this file, and totals
    python tests/benchmarks/looks.py marine       those whose names hold one of these words
    python tests/benchmarks/looks.py --pictures DIR   with the first page of each proof as DIR/NAME.png
    python tests/benchmarks/looks.py --distances  with every name that another part is nearer to than its own

Lines and base lines are read by poppler's pdftotext from the artwork as it is written, which knows nothing of how they
were made; distances are from the ink of a name to bodies, openings, scales and position names. Parts are alike that are
one entry of the catalogue, turned alike, with names for which nothing was asked; a row is all of them at one height, a
column all of them above each other. What is counted:

    names, out        names of parts; legends that were left out
    rows              rows of like parts with two names or more
    lines             base lines of these rows beyond one for each; names that stand on two levels by turns count one
    wraps             ways of wrapping beyond one: n lines are another way where as many as in the row could be made
    sides, faces      sides of their parts, and fonts, beyond one for each row
    pitch             distances between the lines of names of a row beyond one
    corners           names off a corner of their part
    aside             names of rows above or below their parts, but not in the middle
    mixed             base lines beyond one of names on one side of unlike parts at one height
    steps             those of them that miss each other by less than a capital height
    edges             in columns: edges of the names beside their parts, or middles of those above and below, beyond one
    frames            sizes beyond one of frames round like parts
    rank              names to which another part is nearer than their own
    far               longest distance of a name from its own part, in capital heights
    ratio             largest ratio of that to the distance of the nearest other part
    white             least white between words of two parts at one height, in capital heights; below 1 they read as one
    rhythm            widest less narrowest white between like frames at one height, in mm
    unlike            findings of row-unlike
    gap               by how much the placement may be dearer than the best, 0 where that is proved
    cpu               seconds of processor time for the layout

A bar that is missed makes the exit status 1: no row with two ways of wrapping or on two sides, no finding of
row-unlike, no legend left out, all proved. Each miss is told below the table.
"""

from __future__ import annotations

import argparse
import math
import re
import subprocess
import sys
import tempfile
import time
from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path

import shapely

import panelart as pa
from panelart.checks.ink import filled, strokes
from panelart.geometry.polygons import polygon
from panelart.lettering.breaks import breaks
from panelart.model.layout import FrameLine, Layout, PlacedLegend
from panelart.model.panel import LegendRequest, Part, Place
from panelart.pipeline import lay_out

FOLDER = Path(__file__).with_suffix("")
SAME = 0.05
"""Millimetres by which base lines and edges may differ and be one to the eye."""

MM = 25.4 / 72.0
FIXINGS = ("screw-", "rack-slots-", "subrack-")
COLUMNS = (
    *("names", "out", "rows", "lines", "wraps", "sides", "faces", "pitch", "corners", "aside", "mixed", "steps"),
    *("edges", "frames", "rank", "far", "ratio", "white", "rhythm", "unlike", "gap", "cpu"),
)
LARGEST = {"far", "ratio", "rhythm", "gap"}
"""Of these columns the largest is told below, of `white` the smallest, of the others the total."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Name:
    """The name of a part as it is printed: base lines in mm from the top of the page, the uppermost first."""

    part: Part
    request: LegendRequest
    legend: PlacedLegend
    lines: tuple[float, ...]
    possible: int

    @property
    def line(self) -> float:
        """The base line nearest to the part; the middle one of names beside it."""
        if self.legend.place in (Place.RIGHT, Place.LEFT):
            return math.fsum(self.lines) / len(self.lines)
        return self.lines[-1] if self.legend.place is Place.ABOVE else self.lines[0]

    @property
    def offset(self) -> float:
        """How far the middle of the words is right of the middle of their part."""
        return self.legend.box.centre.x - self.part.at.x

    def __str__(self) -> str:
        return f"{self.part.ref} {' / '.join(self.legend.text.splitlines())!r}"


@dataclass(slots=True, kw_only=True)
class Looks:
    """The figures of one panel by their column, what misses a bar, and names that are nearer to other parts."""

    panel: str
    figures: dict[str, float] = field(default_factory=dict)
    misses: list[str] = field(default_factory=list)
    strays: list[str] = field(default_factory=list)


# --- what is read


def read_words(pdf: Path, layout: Layout) -> list[tuple[float, float, float]]:
    """The words of the artwork: middle x and y on the panel in mm, y up, and the bottom of the word from the top."""
    told = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
    page = re.search(r'<page width="([\d.]+)" height="([\d.]+)"', told)
    assert page is not None
    width, height = (float(size) * MM for size in page.groups())
    face = layout.panel.outline.bounds
    x, y = (width - face.width) / 2 - face.left, (height - face.height) / 2 - face.bottom
    found = []
    for word in re.findall(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)"', told):
        left, top, right, bottom = (float(edge) * MM for edge in word)
        found.append(((left + right) / 2 - x, height - (top + bottom) / 2 - y, bottom))
    return found


def lines_of(legend: PlacedLegend, words: Iterable[tuple[float, float, float]]) -> tuple[float, ...]:
    """Bottoms of the lines that the artwork has where a legend is, the uppermost first."""
    box, reach = legend.box, legend.cap_height / 2
    within = [
        bottom
        for x, y, bottom in words
        if box.left - reach < x < box.right + reach and box.bottom - reach < y < box.top + reach
    ]
    lines: list[float] = []
    for bottom in sorted(within):
        if not lines or bottom - lines[-1] > legend.cap_height / 2:
            lines.append(bottom)
    return tuple(lines)


def names_of(layout: Layout, words: Sequence[tuple[float, float, float]]) -> list[Name]:
    """The names in words that a place was looked for. Raises ValueError where the artwork has other lines."""
    asked = {part.ref: (part, part.legend) for part in layout.panel.parts if part.legend and part.legend.at is None}
    language = layout.panel.marking.styles["name"].look.language
    found = []
    for legend in layout.legends:
        if legend.place is None or legend.style != "name" or legend.setting is None or legend.ref not in asked:
            continue
        part, request = asked[legend.ref]
        lines = lines_of(legend, words)
        if not lines:
            continue  # a symbol
        if len(lines) != legend.text.count("\n") + 1:
            raise ValueError(f"{legend.ref} {legend.text!r}: the artwork has {len(lines)} lines")
        possible = len(lines) if "\n" in request.text else 1 + sense(request, language)
        found.append(Name(part=part, request=request, legend=legend, lines=lines, possible=possible))
    return found


def sense(request: LegendRequest, language: str) -> int:
    """How many places a text may be broken at that part no number or letter from its word: FEED PUMP 1."""
    behind = (request.text[at.at :].split() for at in breaks(request.text, request.spans, language))
    return sum(len(words[0]) > 2 or not (words[0].isdigit() or len(words[0]) == 1) for words in behind if words)


# --- rows and columns


def like(name: Name) -> Hashable | None:
    """What names of like parts have in common; None where a place of its own was asked for."""
    request = name.request
    if request.offset is not None or request.guide is not None:
        return None
    part = name.part
    asked = (request.style, request.place, request.align, request.font, request.cap_height)
    return (part.component.name, part.component.changed_in, round(part.turn, 3), *asked)


def together(names: Iterable[Name], kind: Callable[[Name], Hashable | None], axis: int) -> list[list[Name]]:
    """Names of one kind whose parts are in a row (axis 0) or a column (axis 1), in order along it, two or more."""
    found: defaultdict[Hashable, list[Name]] = defaultdict(list)
    for name in names:
        key = kind(name)
        if key is not None:
            found[key, round(name.part.at[1 - axis] / SAME)].append(name)
    return [sorted(row, key=lambda name: name.part.at[axis]) for row in found.values() if len(row) > 1]


def clusters(values: Iterable[float], apart: float = SAME) -> int:
    """How many values there are that differ by more than what one sees."""
    ordered = sorted(values)
    return sum(b - a > apart for a, b in pairwise(ordered)) + bool(ordered)


def ways_of_wrapping(row: Iterable[Name]) -> int:
    """How many numbers of lines it takes to say why each name of a row has as many as it has.

    With n lines for all, a name has n, or as many as it can be broken into where that is fewer.
    """
    names = list(row)
    chosen = {len(name.lines) for name in names if len(name.lines) < name.possible}
    whole = [len(name.lines) for name in names if len(name.lines) >= name.possible]
    return max(1, len(chosen) + (bool(chosen) and max(whole, default=0) > max(chosen)))


def edge(column: Sequence[Name]) -> int:
    """Edges beyond one of the names of a column: beside their parts the near ends, else ends or middles, the fewest."""
    beyond = 0
    by_side: defaultdict[Place | None, list[Name]] = defaultdict(list)
    for name in column:
        by_side[name.legend.place].append(name)
    for side, names in by_side.items():
        ends = zip(
            *((name.legend.box.left, name.legend.box.centre.x, name.legend.box.right) for name in names), strict=True
        )
        near = {Place.RIGHT: (0,), Place.LEFT: (2,)}.get(side or Place.ABOVE, (0, 1, 2))
        counts = [clusters(values, 0.2) for values in ends]
        beyond += min(counts[number] for number in near) - 1
    return beyond


def aside(row: Iterable[Name]) -> int:
    """Names above or below their parts that are not in the middle of them."""
    return sum(name.legend.place in (Place.ABOVE, Place.BELOW) and abs(name.offset) > 0.1 for name in row)


# --- whose a name is


def grounds(layout: Layout) -> dict[str, shapely.Geometry]:
    """What there is to see of each part but screws and slots: body, openings, scale, names of positions."""
    refs = {part.ref for part in layout.panel.parts if not part.component.name.startswith(FIXINGS)}
    pieces: defaultdict[str, list[shapely.Geometry]] = defaultdict(list)
    for ref, piece in (*_bodies(layout), *_markings(layout)):
        if ref in refs:
            pieces[ref].append(piece)
    return {ref: shapely.union_all(own) for ref, own in pieces.items()}


def _bodies(layout: Layout) -> Iterator[tuple[str, shapely.Geometry]]:
    for envelope in layout.envelopes:
        if envelope.covers and envelope.side.value == "front":
            yield envelope.ref, polygon(envelope.contour)
    for opening in layout.openings:
        yield opening.ref, polygon(opening.finished)


def _markings(layout: Layout) -> Iterator[tuple[str, shapely.Geometry]]:
    for mark in layout.marks:
        if mark.kind not in {"leader", "guide"}:
            for piece in [filled(mark.shape)] if mark.filled else strokes(mark.shape, mark.width):
                yield mark.ref, piece
    for legend in layout.legends:
        if legend.style in {"position", "numeral"}:
            yield legend.ref, shapely.box(*_edges(legend))


def _edges(legend: PlacedLegend) -> tuple[float, float, float, float]:
    return legend.box.left, legend.box.bottom, legend.box.right, legend.box.top


def ownership(looks: Looks, names: Sequence[Name], areas: dict[str, shapely.Geometry]) -> None:
    """How far each name is from its own part and from the nearest other one."""
    rank, far, ratio = 0, 0.0, 0.0
    for name in names:
        ink = filled(name.legend.shape)
        own = shapely.distance(ink, areas[name.part.ref])
        away, other = min(
            ((float(shapely.distance(ink, area)), ref) for ref, area in areas.items() if ref != name.part.ref),
            default=(math.inf, ""),
        )
        far = max(far, own / name.legend.cap_height)
        ratio = max(ratio, own / max(away, 0.01))
        if away < own - SAME:
            rank += 1
            looks.strays.append(f"{name}: {own:.2f} mm from its own part, {away:.2f} mm from {other}")
    looks.figures |= {"rank": rank, "far": far, "ratio": ratio}


# --- the figures


def rows_judged(looks: Looks, names: Sequence[Name]) -> None:
    """Rows of like parts: base lines, wrapping, sides, faces, places."""
    rows = together(names, like, 0)
    counts: Counter[str] = Counter(dict.fromkeys(("lines", "wraps", "sides", "faces", "pitch", "aside"), 0))
    for row in rows:
        by_side = Counter(name.legend.place for name in row)
        wraps = max(ways_of_wrapping(name for name in row if name.legend.place is side) for side in by_side)
        counts["lines"] += clusters(name.line for name in row) - 1
        counts["wraps"] += wraps - 1
        counts["sides"] += len(by_side) - 1
        counts["faces"] += len({name.legend.font for name in row}) - 1
        counts["pitch"] += max(0, clusters(b - a for name in row for a, b in pairwise(name.lines)) - 1)
        counts["aside"] += aside(row)
        for what, ways in (("wrapped in {} ways", wraps), ("on {} sides", len(by_side))):
            if ways > 1:
                looks.misses.append(f"{what.format(ways)}: {', '.join(map(str, row))}")
    looks.figures |= {"rows": len(rows), **counts}


def heights_judged(looks: Looks, names: Sequence[Name], layout: Layout) -> None:
    """Unlike parts at one height, names off corners, and the white between words of two parts."""
    mixed = steps = 0
    for row in together(names, lambda name: name.legend.place, 0):
        if len({like(name) for name in row}) > 1:
            ordered = sorted(name.line for name in row)
            mixed += clusters(ordered) - 1
            steps += sum(SAME < b - a < row[0].legend.cap_height for a, b in pairwise(ordered))
    upright = (Place.ABOVE, Place.BELOW, Place.LEFT, Place.RIGHT)
    corners = sum(legend.place not in (None, *upright) for legend in layout.legends if legend.style == "name")
    looks.figures |= {"mixed": mixed, "steps": steps, "corners": corners, "white": least_white(layout)}


def least_white(layout: Layout) -> float:
    """The least distance between words of two parts at one height, as a share of the smaller capitals."""
    white = math.inf
    words = sorted((one for one in layout.legends if one.turn == 0.0), key=lambda one: one.box.left)
    for number, one in enumerate(words):
        for other in words[number + 1 :]:
            level = one.box.bottom < other.box.top and other.box.bottom < one.box.top
            if level and one.ref != other.ref:
                apart = other.box.left - one.box.right
                white = min(white, apart / min(one.cap_height, other.cap_height))
    return white


def frames_judged(looks: Looks, layout: Layout) -> None:
    """Frames round like parts: their sizes, and the white between them."""
    by_ref = layout.panel.by_ref
    kinds: defaultdict[tuple[str, ...], list[FrameLine]] = defaultdict(list)
    for frame in layout.frames:
        kinds[tuple(sorted(by_ref[ref].component.name for ref in frame.refs if ref in by_ref))].append(frame)
    unlike, rhythm = 0, 0.0
    for frames in kinds.values():
        unlike += clusters(frame.box.width for frame in frames) - 1
        unlike += clusters(frame.box.height for frame in frames) - 1
        at_one_height = sorted(frames, key=lambda frame: frame.box.left)
        if clusters(frame.box.centre.y for frame in frames) == 1 and len(frames) > 2:
            whites = [right.box.left - left.box.right for left, right in pairwise(at_one_height)]
            rhythm = max(rhythm, max(whites) - min(whites))
    looks.figures |= {"frames": unlike, "rhythm": rhythm}


def judged(path: Path, pictures: Path | None) -> Looks:
    """The figures of one panel."""
    looks = Looks(panel=path.stem)
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        spec = folder / path.name
        spec.write_text(path.read_text().replace("lettering: {", "lettering: {text: live, "))
        panel = pa.load(spec)
        start = time.process_time()
        lay_out(panel)
        cpu = time.process_time() - start
        result = pa.build(panel)
        result.write(folder / "out", only=["artwork.pdf", *(["proof.pdf"] if pictures else [])])
        (pdf,) = (folder / "out").glob("**/artwork.pdf")
        if pictures:
            (proof,) = (folder / "out").glob("**/proof.pdf")
            picture = ["pdftoppm", "-png", "-r", "110", "-singlefile", str(proof), str(pictures / path.stem)]
            subprocess.run(picture, check=True)
        layout = result.layout
        names = names_of(layout, read_words(pdf, layout))
    rows_judged(looks, names)
    heights_judged(looks, names, layout)
    frames_judged(looks, layout)
    ownership(looks, names, grounds(layout))
    unlike = [finding for finding in result.findings if finding.rule == "row-unlike"]
    looks.misses += [f"row-unlike: {finding.sentence}" for finding in unlike]
    looks.misses += [f"left out: {missing.ref} {missing.text!r}" for missing in layout.unplaced]
    proof_of = layout.proof
    gap = 0.0 if proof_of is None or proof_of.proven else (proof_of.cost - proof_of.bound) / proof_of.cost
    if gap:
        looks.misses.append(f"not proved: {gap:.2%}")
    looks.figures |= {
        "names": len(names),
        "out": len(layout.unplaced),
        "edges": sum(edge(column) for column in together(names, like, 1)),
        "unlike": len(unlike),
        "gap": gap,
        "cpu": cpu,
    }
    return looks


# --- the table


def line(title: str, figures: dict[str, float]) -> Iterator[str]:
    """One line of the table."""
    yield f"{title:<32}"
    for column in COLUMNS:
        value = figures[column]
        if column == "gap":
            told = f"{value:.1%}"
        elif column in {"far", "ratio", "white", "rhythm", "cpu"}:
            told = "-" if math.isinf(value) else f"{value:.2f}"
        else:
            told = f"{value:.0f}"
        yield f"{told:>{max(6, len(column) + 1)}}"


def total(panels: Sequence[Looks]) -> dict[str, float]:
    """Of most columns the total, of distances and gaps the worst."""
    found = {}
    for column in COLUMNS:
        values = [looks.figures[column] for looks in panels]
        worst = max(values) if column in LARGEST else min(values)
        found[column] = worst if column in LARGEST or column == "white" else math.fsum(values)
    return found


def main() -> int:
    """Judge what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("words", nargs="*", help="words of the names of panels")
    parser.add_argument("--pictures", type=Path, help="folder for the first page of each proof")
    parser.add_argument("--distances", action="store_true", help="list names that are nearer to another part")
    asked = parser.parse_args()
    if asked.pictures:
        asked.pictures.mkdir(parents=True, exist_ok=True)
    print(f"{'panel':<32}" + "".join(f"{column:>{max(6, len(column) + 1)}}" for column in COLUMNS))
    panels = []
    for path in sorted(FOLDER.glob("*.yaml")):
        if any(word in path.stem for word in asked.words or [""]):
            panels.append(judged(path, asked.pictures))
            print("".join(line(path.stem, panels[-1].figures)), flush=True)
    print("".join(line("total, or worst", total(panels))))
    told(panels, distances=asked.distances)
    return 1 if any(looks.misses for looks in panels) else 0


def told(panels: Sequence[Looks], *, distances: bool) -> None:
    """Print each miss, and with `distances` every name that is nearer to another part."""
    for looks in panels:
        for words in [*looks.misses, *(looks.strays if distances else [])]:
            print(f"{looks.panel}: {words}")
    missed = sum(len(looks.misses) for looks in panels)
    print(f"bars: {'kept' if not missed else f'{missed} missed'}")


if __name__ == "__main__":
    sys.exit(main())
