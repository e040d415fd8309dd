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
    """Blocks that belong together; `framed` adds the room of a frame: beside, above the highest, below the lowest."""

    name: str
    blocks: tuple[Block, ...]
    shapes: tuple[Shape, ...] = ()
    beside: float = 0.0
    above: float = 0.0
    below: float = 0.0
    minimum_width: float = 0.0

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
        inner = [(block.all_round, _touched(block)) for block in some]
        return Slack(
            side=self.beside + min(min(near.left - box.left, box.right - near.right) for box, near in inner),
            above=self.above + min(box.top - near.top for box, near in inner),
            below=self.below + min(near.bottom - box.bottom for box, near in inner),
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


class Shelf(Struct, frozen=True, kw_only=True):
    """Groups side by side with common rows.

    `lines` are the heights of the rows below the first one (0, 40, ...); `rows` says for each group on which line
    each of its rows runs; `above` and `below` how far the shelf reaches over the first line and under the last.
    """

    groups: tuple[Group, ...]
    forms: tuple[Shape, ...]
    rows: tuple[tuple[int, ...], ...]
    lines: tuple[float, ...]
    above: float
    below: float
    width: float
    cost: float
    emergency: bool = False

    @property
    def height(self) -> float:
        """From its highest to its lowest."""
        return self.above + self.lines[-1] + self.below


def shelf(groups: Sequence[Group], forms: Sequence[Shape], spacing: Spacing) -> Shelf:
    """Groups in given forms side by side."""
    width = math.fsum(math.fsum(group.reach(form, spacing)) for group, form in zip(groups, forms, strict=True))
    width += math.fsum(between(one, two) for one, two in pairwise(groups))
    count = max(len(form.rows) for form in forms)
    levels = _levels(forms, count)
    rows = tuple(_on_lines(form.levels, levels) for form in forms)
    lines = _lines(forms, rows, count)
    above, below = _beyond_lines(groups, forms, rows, lines)
    cost = math.fsum(form.cost for form in forms)
    cost += LINES_APART * sum(count - len(form.rows) for form in forms)
    cost += STOP_INSIDE * any(group.emergency for group in groups[:-1])
    return Shelf(
        groups=tuple(groups),
        forms=tuple(forms),
        rows=rows,
        lines=tuple(lines),
        above=spacing.up(above),
        below=spacing.up(below),
        width=width,
        cost=cost,
        emergency=any(group.emergency for group in groups),
    )


def _levels(forms: Sequence[Shape], count: int) -> list[float]:
    """The level of each line: the mean of those forms that have a row on every one."""
    tall = [form for form in forms if len(form.rows) == count]
    return [math.fsum(form.levels[line] for form in tall) / len(tall) for line in range(count)]


def _beyond_lines(
    groups: Sequence[Group], forms: Sequence[Shape], rows: Sequence[tuple[int, ...]], lines: Sequence[float]
) -> tuple[float, float]:
    """How far groups with their frames reach above the first line and below the last."""
    above = below = 0.0
    for group, form, on in zip(groups, forms, rows, strict=True):
        for top, bottom, line in zip(form.tops, form.bottoms, on, strict=True):
            framed_above = group.above if line == on[0] else 0.0
            framed_below = group.below if line == on[-1] else 0.0
            above = max(above, top + framed_above - lines[line])
            below = max(below, bottom + framed_below - (lines[-1] - lines[line]))
    return above, below


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
    """Shelves one above the other: the whole arrangement before it is spread over the panel."""

    shelves: tuple[Shelf, ...]
    height: float
    cost: float


def between_shelves(upper: Shelf, lower: Shelf) -> float:
    """The least room between two shelves."""
    if not (upper.emergency or lower.emergency):
        return BETWEEN
    return max(
        BETWEEN,
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
        self._shelves: Known = {} if known is None else known

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
        some = tuple(self.groups[first : last + 1])
        key = tuple(map(id, some))
        if key not in self._shelves:
            self._shelves[key] = some, _shelves(some, self.spacing)
        return self._shelves[key][1]


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
    done = [
        Stack(shelves=chosen, height=used, cost=cost + room.empty_below(used))
        for used, cost, chosen in _kept(ways[count], maximum, room)
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
        (one.height, one.cost + room.empty_beside(one.width), (one,))
        for one in shelves
        if one.width <= room.width + 1e-6
    ]


def _with_a_shelf(ways: Sequence[_Way], added: Iterable[_Way], room: _Room) -> Iterator[_Way]:
    """Each way with one shelf more under it, where there is room."""
    for _, price, (one,) in added:
        for used, cost, before in ways:
            gap = between_shelves(before[-1], one) if before else 0.0
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
    """The ways that fewer than `most` others beat: no higher, and no dearer with what they leave empty."""
    kept: list[tuple[_Way, float]] = []
    for way in sorted(ways, key=lambda each: each[:2]):
        price = way[1] + room.empty_below(way[0])
        if sum(other <= price + 1e-9 for _, other in kept) < maximum:
            kept.append((way, price))
    return [way for way, _ in kept]


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
