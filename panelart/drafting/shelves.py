"""Groups in shelves: which groups stand beside each other, in which forms, and at which heights their rows run.

The groups keep their order, left to right and then down, as the work goes. For every way to cut that order into
shelves the forms of the groups are chosen for a common height; dynamic programming over (groups placed, height used)
finds the cheapest of all of them, exactly, for the cost that is stated at the constants here and in `shapes`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from itertools import pairwise
from typing import Final, Protocol

from panelart.canonical import Struct
from panelart.drafting.blocks import Block, Level
from panelart.drafting.shapes import Shape
from panelart.drafting.spacing import Spacing
from panelart.geometry import Box

BETWEEN: Final = 5.0
"""Least room between two groups, mm: a frame's line on either side is told apart. Common practice."""

MAINS_APART: Final = 12.0
"""Least room between a group with mains and one without, mm. Common practice; creepage is the builder's to check."""

ROUND_STOP: Final = 25.0
"""Least room for the palm between the head of an emergency stop and what a hand takes or sees beside it, mm: the
clearance of a button for thumb or palm, MIL-STD-1472F (from memory), as the check `emergency-stop-crowded` has it."""

OUT_OF_LINE: Final = 10.0
"""What it costs that some of a family of like groups share a shelf with others, or that they are not as many as on the
family's other shelves: then they are in no row and no column."""

STOP_INSIDE: Final = 20.0
"""What it costs that something stands right of an emergency stop, which belongs to the edge: two rows of two levels."""

FILL: Final = 30.0
WIDE_ENOUGH: Final = 1.25
LINES_APART: Final = 3.5
SHELF: Final = 3.0
"""What a shelf costs: the share of the width (and, once, of the height) left empty, squared, where a group is counted
as if it were a quarter larger; each row by which a group has fewer than its shelf; each shelf after the first."""

MAX_SHELVES: Final = 6


class Slack(Struct, frozen=True, kw_only=True):
    """How far parts lie within the ends of their group, mm: at either side, at the top, at the bottom."""

    side: float
    above: float
    below: float


def _touched(block: Block) -> Box:
    """What a hand takes hold of, else what is seen of a part without its legends."""
    hands = [box for box, _ in block.hands]
    return Box.around(hands) if hands else block.body or block.face


class Group(Struct, frozen=True, kw_only=True, dict=True):
    """Blocks that belong together; `framed` adds the room of a frame: beside, above the highest, below the lowest.

    `kin` are the names of all groups of its family, its own with them; none where it is like no other.
    """

    name: str
    blocks: tuple[Block, ...]
    shapes: tuple[Shape, ...] = ()
    beside: float = 0.0
    above: float = 0.0
    below: float = 0.0
    minimum_width: float = 0.0
    kin: tuple[str, ...] = ()

    @property
    def mains(self) -> bool:
        """Whether mains is in it."""
        return any(block.mains for block in self.blocks)

    @property
    def emergency(self) -> bool:
        """Whether an emergency stop is in it."""
        return any(block.emergency for block in self.blocks)

    @cached_property
    def slack(self) -> Slack:
        """How far what a palm must keep clear of, or the head of the stop itself, lies within the group's ends."""
        some = [block for block in self.blocks if block.emergency] or self.blocks
        inner = [(block, _touched(block)) for block in some]
        ends = [(near.left - block.all_round.left, block.all_round.right - near.right) for block, near in inner]
        return Slack(
            side=self.beside + min(map(min, ends)),
            above=self.above + min(block.face.top - near.top for block, near in inner),
            below=self.below + min(near.bottom - block.face.bottom for block, near in inner),
        )

    def reach(self, shape: Shape, spacing: Spacing, stretch: float = 1.0) -> tuple[float, float]:
        """How far it reaches left and right of its middle, frame included."""
        left, right = shape.reach(spacing, stretch)
        left, right = left + self.beside, right + self.beside
        short = max(0.0, self.minimum_width - left - right) / 2
        return left + short, right + short


def between(one: Group, two: Group) -> float:
    """The least room between two groups, side by side."""
    if one.emergency or two.emergency:
        return max(BETWEEN, ROUND_STOP - one.slack.side - two.slack.side)
    return MAINS_APART if one.mains != two.mains else BETWEEN


def steps(groups: Sequence[Group], ends: Sequence[tuple[float, float]], spacing: Spacing) -> list[float]:
    """The least distance of each group's middle from the next, with groups that reach so far left and right.

    In half steps of the grid, so that like groups have like distances.
    """
    half = spacing.grid / 2
    least = [
        one[1] + between(left, right) + two[0]
        for (left, right), (one, two) in zip(pairwise(groups), pairwise(ends), strict=True)
    ]
    return [half * math.ceil(step / half - 1e-6) for step in least]


class Shelf(Struct, frozen=True, kw_only=True):
    """Groups side by side with common rows.

    `lines` are the heights of the rows below the first one (0, 40, ...); `rows` says for each group on which line
    each of its rows runs; `above` and `below` how far what is seen of the shelf reaches over the first line and under
    the last. `lifts` is for each group how far its rows stand above their lines: 0 but for what would reach beyond the
    others. `edges` is how much farther what keeps the margin from an edge reaches at the top and bottom, `behind` how
    much farther bodies and pitches do, less where not so far.
    """

    groups: tuple[Group, ...]
    forms: tuple[Shape, ...]
    rows: tuple[tuple[int, ...], ...]
    lines: tuple[float, ...]
    above: float
    below: float
    width: float
    cost: float
    lifts: tuple[float, ...]
    edges: tuple[float, float] = (0.0, 0.0)
    behind: tuple[float, float] = (0.0, 0.0)
    emergency: bool = False

    @property
    def height(self) -> float:
        """From the highest to the lowest that is seen of it."""
        return self.above + self.lines[-1] + self.below


def shelf(groups: Sequence[Group], forms: Sequence[Shape], spacing: Spacing) -> Shelf:
    """Groups in given forms side by side."""
    ends = [group.reach(form, spacing) for group, form in zip(groups, forms, strict=True)]
    width = ends[0][0] + math.fsum(steps(groups, ends, spacing)) + ends[-1][1]
    count = max(len(form.rows) for form in forms)
    levels = _levels(forms, count)
    rows = tuple(_on_lines(form.levels, levels) for form in forms)
    lines = _lines(forms, rows, count)
    reaches = [_beyond_lines(group, form, on, lines) for group, form, on in zip(groups, forms, rows, strict=True)]
    above, below = _common_reach(groups, reaches)
    above, below = spacing.up(above), spacing.up(below)
    lifts = tuple(max(0.0, own[1] - below) for own in reaches)
    edges = _farthest([form.edges for form in forms], rows, lines, lifts)
    behind = _farthest([form.behind for form in forms], rows, lines, lifts)
    cost = _cost(groups, forms, count)
    return Shelf(
        groups=tuple(groups),
        forms=tuple(forms),
        rows=rows,
        lines=tuple(lines),
        above=above,
        below=below,
        width=width,
        cost=cost,
        lifts=lifts,
        edges=(max(0.0, edges[0] - above), max(0.0, edges[1] - below)),
        behind=(behind[0] - above, behind[1] - below),
        emergency=any(group.emergency for group in groups),
    )


def _cost(groups: Sequence[Group], forms: Sequence[Shape], count: int) -> float:
    """What a shelf of so many rows costs."""
    cost = math.fsum(form.cost for form in forms)
    cost += LINES_APART * sum(count - len(form.rows) for form in forms)
    return cost + STOP_INSIDE * any(group.emergency for group in groups[:-1]) + OUT_OF_LINE * _out_of_line(groups)


def _out_of_line(groups: Sequence[Group]) -> int:
    """How many families have only some of their members on a shelf, beside others or in a number that is not even."""
    count = 0
    for kin in {group.kin for group in groups if group.kin}:
        here = sum(group.kin == kin for group in groups)
        count += here < len(kin) and (here < len(groups) or len(kin) % here != 0)
    return count


def _levels(forms: Sequence[Shape], count: int) -> list[float]:
    """The level of each line: the mean of those forms that have a row on every one."""
    tall = [form for form in forms if len(form.rows) == count]
    return [math.fsum(form.levels[line] for form in tall) / len(tall) for line in range(count)]


def _beyond_lines(group: Group, form: Shape, on: Sequence[int], lines: Sequence[float]) -> tuple[float, float]:
    """How far a group with its frame reaches above the first line and below the last."""
    above = below = -lines[-1]
    for top, bottom, line in zip(form.tops, form.bottoms, on, strict=True):
        framed_above = group.above if line == on[0] else 0.0
        framed_below = group.below if line == on[-1] else 0.0
        above = max(above, top + framed_above - lines[line])
        below = max(below, bottom + framed_below - (lines[-1] - lines[line]))
    return above, below


def _common_reach(groups: Sequence[Group], reaches: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """How far a shelf reaches above its first line and below its last.

    One large part by itself, as an emergency stop or a fan, is on no line where that makes the shelf higher.
    """
    bound = [reach for group, reach in zip(groups, reaches, strict=True) if not _is_free(group)] or list(reaches)
    above, below = (max(reach[end] for reach in bound) for end in (0, 1))
    for own_above, own_below in reaches:
        above = max(above, own_above - max(0.0, below - own_below), own_above + own_below - below)
    return above, below


def _farthest(
    ends: Iterable[tuple[float, float]],
    rows: Sequence[Sequence[int]],
    lines: Sequence[float],
    lifts: Sequence[float],
) -> tuple[float, float]:
    """How far groups that reach so far from their first and last rows reach beyond the first line and the last."""
    reached = [
        (above - lines[on[0]] + lift, below + lines[on[-1]] - lines[-1] - lift)
        for (above, below), on, lift in zip(ends, rows, lifts, strict=True)
    ]
    return max(above for above, _ in reached), max(below for _, below in reached)


def _is_free(group: Group) -> bool:
    """Whether a group is one part that stands for itself: it goes with no row of others."""
    return len(group.blocks) == 1 and (group.emergency or group.blocks[0].air)


def _on_lines(own: Sequence[float], levels: Sequence[float]) -> tuple[int, ...]:
    """The lines that a group's rows take, in order: those whose levels are nearest; displays high, connectors low."""
    count, lines = len(own), len(levels)
    # best[i][j]: the least cost of rows i.. on lines j.., and the lines.
    best: dict[tuple[int, int], tuple[float, tuple[int, ...]]] = {}
    for row in range(count, -1, -1):
        for line in range(lines, -1, -1):
            if row == count:
                best[row, line] = (0.0, ())
                continue
            options = []
            for taken in range(line, lines - (count - row) + 1):
                rest, on = best[row + 1, taken + 1]
                off = abs(own[row] - levels[taken]) + 0.01 * abs(taken - own[row] / Level.CONNECTOR * (lines - 1))
                options.append((off + rest, (taken, *on)))
            best[row, line] = min(options) if options else (1e9, ())
    return best[0, 0][1]


def _lines(forms: Sequence[Shape], rows: Sequence[tuple[int, ...]], count: int) -> list[float]:
    """How far each line lies below the first: no nearer than any group's rows need."""
    lines = [0.0] * count
    for line in range(1, count):
        need = lines[line - 1]
        for form, on in zip(forms, rows, strict=True):
            if line not in on:
                continue
            here = on.index(line)
            if here:
                need = max(need, lines[on[here - 1]] + form.apart[here - 1])
        lines[line] = need
    return _alike(forms, lines, count)


def _alike(forms: Sequence[Shape], lines: list[float], count: int) -> list[float]:
    """The lines with one step between rows of like parts that follow each other."""
    steps = [lower - upper for upper, lower in pairwise(lines)]
    form = next(form for form in forms if len(form.rows) == count)
    kinds = [{block.kind for block in row} for row in form.rows]
    start = 0
    while start < count:
        end = start
        while end + 1 < count and kinds[end + 1] == kinds[start]:
            end += 1
        if end > start:
            steps[start:end] = [max(steps[start:end])] * (end - start)
        start = end + 1
    found = [0.0]
    for step in steps:
        found.append(found[-1] + step)
    return found


class Stack(Struct, frozen=True, kw_only=True):
    """Shelves one above the other: the whole arrangement before it is spread over the panel.

    `height` is what it takes between the margins of the face.
    """

    shelves: tuple[Shelf, ...]
    height: float
    cost: float


def between_shelves(upper: Shelf, lower: Shelf) -> float:
    """The least room between two shelves, from what is seen of one to what is seen of the other."""
    least = max(BETWEEN, upper.behind[1] + lower.behind[0])
    if not (upper.emergency or lower.emergency):
        return least
    return max(
        least,
        *(
            ROUND_STOP - one.slack.below - two.slack.above
            for one in upper.groups
            for two in lower.groups
            if one.emergency or two.emergency
        ),
    )


Known = dict[tuple[int, ...], tuple[tuple[Group, ...], list[Shelf]]]
"""Shelves by the very groups on them, which it holds, so that other orders of the same groups need not make them."""


class Shelving:
    """Groups in their order, and every shelf that some of them can make, whatever the width of the face."""

    def __init__(self, groups: Sequence[Group], spacing: Spacing, known: Known | None = None) -> None:
        self.groups: Sequence[Group] = tuple(groups)
        self.spacing = spacing
        self._known: Known = {} if known is None else known
        self._shelves: dict[tuple[int, int], list[Shelf]] = {}

    @property
    def narrowest(self) -> float:
        """The least width that holds the widest group."""
        return max(min(math.fsum(group.reach(shape, self.spacing)) for shape in group.shapes) for group in self.groups)

    @property
    def widest(self) -> float:
        """The width of all groups in one row each, side by side."""
        return math.fsum(
            max(math.fsum(group.reach(shape, self.spacing)) for shape in group.shapes) for group in self.groups
        )

    def shelves(self, first: int, last: int) -> list[Shelf]:
        """The shelves that groups `first` to `last` can make."""
        found = self._shelves.get((first, last))
        if found is None:
            some = tuple(self.groups[first : last + 1])
            key = tuple(map(id, some))
            if key not in self._known:
                self._known[key] = some, _shelves(some, self.spacing)
            found = self._shelves[first, last] = self._known[key][1]
        return found


_Way = tuple[float, float, tuple[Shelf, ...]]
"""Height used, cost so far, shelves."""


class Shelves(Protocol):
    """Groups in their order with the shelves that some of them can make."""

    groups: Sequence[Group]

    def shelves(self, first: int, last: int) -> list[Shelf]:
        """The shelves that groups `first` to `last` can make."""
        ...


def stacks(shelving: Shelves, width: float, height: float | None, maximum: int = 1) -> list[Stack]:
    """The cheapest stacks of the groups in their order that fit, best first; the lowest when no height is given.

    At most `most`, which differ in their shelves or forms; without a height all that are lower or cheaper than the
    others. A way to place the first groups is dropped only when `most` others are no higher and no dearer, whatever
    follows: the cost of empty height falls with the height used, and ever less, so that it is enough to compare now.
    """
    count = len(shelving.groups)
    room = _Room(width, height)
    ways: list[list[_Way]] = [[] for _ in range(count + 1)]
    ways[0] = [(0.0, 0.0, ())]
    for first in range(count):
        ways[first] = _kept(ways[first], maximum, room)
        for last in range(first, count):
            priced = _priced(shelving.shelves(first, last), room)
            if not priced:
                break  # one group more is wider still
            added = _kept(priced, maximum, room) if height is None else priced
            ways[last + 1] += _with_a_shelf(ways[first], added, room)
    ended = [(used + chosen[-1].edges[1], cost, chosen) for used, cost, chosen in ways[count]]
    done = [
        Stack(shelves=chosen, height=used, cost=cost + room.empty_below(used))
        for used, cost, chosen in _kept([way for way in ended if room.is_high_enough(way[0])], maximum, room)
    ]
    if height is None:
        return _distinct(sorted(done, key=lambda stack: (stack.height, stack.cost)))
    return _distinct(sorted(done, key=lambda stack: (stack.cost, stack.height)))[:maximum]


class _Room(Struct, frozen=True):
    """The room for a stack; a height of None is as much as it takes."""

    width: float
    height: float | None

    def empty_beside(self, used: float) -> float:
        """What it costs to leave a width empty but for what is used."""
        return FILL * (1.0 - min(1.0, WIDE_ENOUGH * used / self.width)) ** 2

    def empty_below(self, used: float) -> float:
        """What it costs to leave the height empty but for what is used."""
        return 0.0 if self.height is None else FILL * (1.0 - min(1.0, WIDE_ENOUGH * used / self.height)) ** 2

    def is_high_enough(self, used: float) -> bool:
        """Whether so much height is there."""
        return self.height is None or used <= self.height + 1e-6


def _priced(shelves: Iterable[Shelf], room: _Room) -> list[_Way]:
    """The shelves that are not too wide, each as the first, with what it costs and leaves empty beside it."""
    return [
        (one.height + one.edges[0], one.cost + room.empty_beside(one.width), (one,))
        for one in shelves
        if one.width <= room.width + 1e-6
    ]


def _with_a_shelf(ways: Sequence[_Way], added: Iterable[_Way], room: _Room) -> Iterator[_Way]:
    """Each way with one shelf more under it, where there is room."""
    for _, price, (one,) in added:
        for used, cost, before in ways:
            gap = between_shelves(before[-1], one) if before else one.edges[0]
            total = used + gap + one.height
            if room.is_high_enough(total) and len(before) < MAX_SHELVES:
                yield total, cost + price + (SHELF if before else 0.0), (*before, one)


def _distinct(found: Iterable[Stack]) -> list[Stack]:
    """The first of those stacks that do not differ in their rows."""
    distinct: dict[object, Stack] = {}
    for stack in found:
        distinct.setdefault(_form(stack), stack)
    return list(distinct.values())


def _kept(ways: Sequence[_Way], maximum: int, room: _Room) -> list[_Way]:
    """The ways that fewer than `most` others beat: no higher in front nor behind, no dearer with what is left empty."""
    kept: list[tuple[_Way, float, float]] = []
    for way in sorted(ways, key=lambda each: each[:2]):
        price, deep = way[1] + room.empty_below(way[0]), way[0] + (way[2][-1].behind[1] if way[2] else 0.0)
        if sum(other <= price + 1e-9 and low <= deep + 1e-9 for _, other, low in kept) < maximum:
            kept.append((way, price, deep))
    return [way for way, _, _ in kept]


def _form(stack: Stack) -> object:
    """What tells two stacks apart: the rows of every group on every shelf."""
    return tuple(tuple(tuple(map(len, form.rows)) for form in one.forms) for one in stack.shelves)


def _shelves(groups: Sequence[Group], spacing: Spacing) -> list[Shelf]:
    """The shelves that these groups can make: for each number of rows, the groups in forms of at most so many."""
    found: list[Shelf] = []
    maximum = max(len(shape.rows) for group in groups for shape in group.shapes)
    for rows in range(1, maximum + 1):
        for narrow in (False, True):
            forms = [_form_for(group, rows, spacing, narrow=narrow) for group in groups]
            known = [form for form in forms if form is not None]
            if len(known) < len(groups):
                continue
            if not any(all(one is two for one, two in zip(known, other.forms, strict=True)) for other in found):
                found.append(shelf(groups, known, spacing))
    return found


def _form_for(group: Group, rows: int, spacing: Spacing, *, narrow: bool) -> Shape | None:
    """The cheapest form of a group with at most so many rows; or the narrowest."""
    fitting = [shape for shape in group.shapes if len(shape.rows) <= rows]
    if not fitting:
        return None
    if narrow:
        return min(fitting, key=lambda shape: (math.fsum(group.reach(shape, spacing)), shape.cost))
    return min(
        fitting,
        key=lambda shape: (shape.cost + LINES_APART * (rows - len(shape.rows)), math.fsum(group.reach(shape, spacing))),
    )
