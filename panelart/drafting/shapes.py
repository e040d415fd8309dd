"""The forms that a group of parts can take: its parts in one row, in two, and so on, with columns in line.

Parts stand in the order of levels (displays above controls above connectors), then as listed. A row holds parts that
follow each other; which ones is chosen by dynamic programming. Columns of the longest row carry the other rows: equal
numbers stand below each other, half as many between two columns each, and so on.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property
from itertools import combinations, pairwise
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drafting.blocks import Block, Level
from panelart.drafting.spacing import TOUCH, Spacing

MAX_LINES: Final = 12
"""The most rows of a group."""

MIXED_LEVELS: Final = 8.0
PLUGGED_BESIDE: Final = 8.0
MIXED_KINDS: Final = 1.0
BROKEN: Final = 1.5
UNEVEN: Final = 6.0
RAGGED: Final = 3.0
PARTED: Final = 8.0
OFF_MIDDLE: Final = 2.0
"""What a form costs: a row of two levels, and more where one is of connectors, whose cables hang over what is beside
and below them; each further kind in a row, each part that stands in no column with the
rows' others, the share by which rows differ in length (squared), each two rows of one kind that differ in number, each
kind that stands in rows whose other kinds differ, each column by which a row is off the middle of the group."""

_LOOSE: Final = 1.45
"""Parts of one row have one pitch unless that makes the row so many times longer."""

_ONE_SIZE: Final = 1.6
"""Parts of one size, up to this ratio of their widths, have equal distances of their centres; others equal gaps."""


class Shape(Struct, frozen=True, kw_only=True, dict=True):
    """A group in rows, top to bottom: the blocks of each row, and where they stand along it.

    `columns` has for each row the places of its blocks as multiples of the steps between columns; `steps` are those
    of the longest row, or None where a row has steps of its own in `own`. `apart` is how far each row must at least be
    from the next; `least` how far it reaches left and right when nothing is stretched. All in mm, about the middle of
    the group.
    """

    rows: tuple[tuple[Block, ...], ...]
    steps: tuple[float, ...]
    indices: tuple[tuple[float, ...] | None, ...]
    own: tuple[tuple[float, ...], ...]
    apart: tuple[float, ...]
    cost: float
    minimum: tuple[float, float] = (0.0, 0.0)

    def places(self, spacing: Spacing, stretch: float = 1.0) -> tuple[tuple[float, ...], ...]:
        """Where the blocks of each row stand, steps stretched by a factor and kept on the grid."""
        columns = _summed([spacing.down(step * stretch) for step in self.steps])
        found: list[tuple[float, ...]] = []
        for number, row in enumerate(self.rows):
            indices = self.indices[number]
            if indices is None:
                along = _summed([spacing.down(step * stretch) for step in self.own[number]])
                middle = (along[0] + along[-1]) / 2
            else:
                along = [_between(columns, index) for index in indices]
                if _off_columns(indices) == 1.0:
                    along = [round(2 * x / spacing.grid) * spacing.grid / 2 for x in along]
                middle = (columns[0] + columns[-1]) / 2
            assert len(along) == len(row)
            found.append(tuple(x - middle for x in along))
        return tuple(found)

    def reach(self, spacing: Spacing, stretch: float = 1.0) -> tuple[float, float]:
        """How far the group reaches left and right of its middle."""
        if stretch == 1.0 and self.minimum != (0.0, 0.0):
            return self.minimum
        left = right = 0.0
        for row, places in zip(self.rows, self.places(spacing, stretch), strict=True):
            for block, x in zip(row, places, strict=True):
                left = max(left, -(x + block.all_round.left))
                right = max(right, x + block.all_round.right)
        return left, right

    @cached_property
    def tops(self) -> tuple[float, ...]:
        """How far what is seen of each row reaches above its line."""
        return tuple(max(block.face.top for block in row) for row in self.rows)

    @cached_property
    def bottoms(self) -> tuple[float, ...]:
        """How far what is seen of each row reaches below its line."""
        return tuple(max(-block.face.bottom for block in row) for row in self.rows)

    @cached_property
    def edges(self) -> tuple[float, float]:
        """How far what keeps the margin from the edges reaches above the first line, and below the last."""
        return max(b.all_round.top for b in self.rows[0]), max(-b.all_round.bottom for b in self.rows[-1])

    @cached_property
    def behind(self) -> tuple[float, float]:
        """How far bodies behind and pitches reach above the first line, and below the last."""
        return max(_above(block) for block in self.rows[0]), max(_below(block) for block in self.rows[-1])

    @cached_property
    def levels(self) -> tuple[float, ...]:
        """The middle level of each row; an emergency stop belongs low, where the hand falls."""
        return tuple(
            sum(Level.CONNECTOR if block.emergency else block.level for block in row) / len(row) for row in self.rows
        )


def _above(block: Block) -> float:
    """How far a block takes room above its centre for other bodies and pitches, half of the play counted."""
    rear = block.front if block.rear is None else block.front.union(block.rear)
    return max([rear.top + TOUCH / 2, *(box.top for box in block.pitches)])


def _below(block: Block) -> float:
    """The same below its centre."""
    rear = block.front if block.rear is None else block.front.union(block.rear)
    return max([TOUCH / 2 - rear.bottom, *(-box.bottom for box in block.pitches)])


def _summed(steps: Sequence[float]) -> list[float]:
    places = [0.0]
    for step in steps:
        places.append(places[-1] + step)
    return places


def _between(columns: Sequence[float], index: float) -> float:
    if len(columns) == 1:
        return columns[0]
    first = min(max(int(index), 0), len(columns) - 2)
    return columns[first] + (index - first) * (columns[first + 1] - columns[first])


def shapes(blocks: Sequence[Block], spacing: Spacing, widest: float) -> list[Shape]:
    """The forms of a group that are no wider than `widest`, fewest rows first.

    Lamps follow displays and go before controls, so that they can share a row with either.
    """
    ordered = sorted(blocks, key=lambda block: (block.level, block.lamp))
    found: list[Shape] = []
    for rows in _partitions(ordered, spacing, widest):
        for shape in _set_in_columns(rows, spacing):
            left, right = shape.reach(spacing)
            if left + right <= widest + 1e-6 and all(
                (shape.indices, shape.steps) != (other.indices, other.steps) for other in found
            ):
                found.append(replace(shape, minimum=(left, right)))
    return found


def _partitions(blocks: Sequence[Block], spacing: Spacing, widest: float) -> list[tuple[tuple[Block, ...], ...]]:
    """The best divisions into each number of rows: cheapest, narrowest, and such as part no kind."""
    count = len(blocks)
    beside = [spacing.beside(one, two) for one, two in pairwise(blocks)]
    mean = (math.fsum(beside) + (blocks[0].face.width + blocks[-1].face.width) / 2) or 1.0
    divisions = (
        _Division(blocks=blocks, beside=beside, widest=widest, lines=lines, even=mean / lines, number=count / lines)
        for lines in range(1, min(MAX_LINES, count) + 1)
    )
    found = [
        rows
        for division in divisions
        for rows in (division.rows(), division.narrowest(), replace(division, whole=True).rows())
        if rows is not None
    ]
    return list(dict.fromkeys(found))


_Rows = tuple[tuple[Block, ...], ...]

_Ends = list[tuple[float, int] | None]
"""For each number of blocks in rows already, the least cost and where the last of the rows starts."""


class _Division(Struct, frozen=True, kw_only=True):
    """Blocks that are to be divided into so many rows.

    `beside` is the step from each block to the next; `even` and `number` the width of a row and the blocks in it, were
    all rows alike; `by_face` counts how far the ends of a row reach into its width; `whole` keeps blocks of one kind
    that follow each other in one row.
    """

    blocks: Sequence[Block]
    beside: Sequence[float]
    widest: float
    lines: int
    even: float
    number: float
    by_face: bool = False
    whole: bool = False

    def narrowest(self) -> tuple[tuple[Block, ...], ...] | None:
        """The cheapest rows of those whose widest is as narrow as it can be; None where there are none."""
        count = len(self.blocks)
        width = self._widths()
        least = [width[0][end] for end in range(count + 1)]
        for line in range(1, self.lines):
            least = [
                min((max(least[start], width[start][end]) for start in range(line, end)), default=math.inf)
                for end in range(count + 1)
            ]
        if least[count] > self.widest:
            return None
        return replace(self, widest=least[count] + 1e-6, by_face=True).rows()

    def _widths(self) -> list[list[float]]:
        """How wide a row of the blocks from one number up to another is."""
        count = len(self.blocks)
        return [
            [self._width(start, end) if start < end else math.inf for end in range(count + 1)]
            for start in range(count + 1)
        ]

    def _width(self, start: int, end: int) -> float:
        """How wide a row of the blocks from `start` up to `end` is, from its first face to its last."""
        first, last = self.blocks[start], self.blocks[end - 1]
        return math.fsum(self.beside[start : end - 1]) - first.all_round.left + last.all_round.right

    def rows(self) -> tuple[tuple[Block, ...], ...] | None:
        """The cheapest rows; None where there are none narrow enough."""
        count = len(self.blocks)
        best: list[_Ends] = [[None] * (count + 1) for _ in range(self.lines + 1)]
        best[0][0] = (0.0, 0)
        for line in range(1, self.lines + 1):
            for end in range(line, count - (self.lines - line) + 1):
                best[line][end] = self._last_row(best[line - 1], line - 1, end)
        return self._read_back(best)

    def _last_row(self, before: _Ends, least: int, end: int) -> tuple[float, int] | None:
        """The cost with the best row that ends there, and where it starts, with at least so many blocks before it."""
        options = []
        for start in range(end - 1, least - 1, -1):
            width = math.fsum(self.beside[start : end - 1])
            if (self._width(start, end) if self.by_face else width) > self.widest:
                break
            placed = before[start]
            if placed is not None and not (self.whole and self._parts_a_kind(start)):
                options.append((placed[0] + self._row_cost(self.blocks[start:end], width), start))
        return min(options, default=None)

    def _parts_a_kind(self, start: int) -> bool:
        """Whether a row that starts there goes on with the kind that the row before ends with."""
        return start > 0 and self.blocks[start - 1].kind == self.blocks[start].kind

    def _row_cost(self, row: Sequence[Block], width: float) -> float:
        full = width + (row[0].face.width + row[-1].face.width) / 2
        uneven = ((full - self.even) / self.even) ** 2 + ((len(row) - self.number) / self.number) ** 2
        return _mixed(row) + UNEVEN * uneven

    def _read_back(self, best: Sequence[_Ends]) -> tuple[tuple[Block, ...], ...] | None:
        rows: list[tuple[Block, ...]] = []
        end = len(self.blocks)
        for line in range(self.lines, 0, -1):
            chosen = best[line][end]
            if chosen is None:
                return None
            rows.insert(0, tuple(self.blocks[chosen[1] : end]))
            end = chosen[1]
        return tuple(rows) if end == 0 else None


def _mixed(row: Sequence[Block]) -> float:
    """What it costs that a row has parts of several levels and kinds."""
    levels = {block.level for block in row if not block.lamp}
    plugged = PLUGGED_BESIDE if len(levels) > 1 and Level.CONNECTOR in levels else 0.0
    return MIXED_LEVELS * max(0, len(levels) - 1) + plugged + MIXED_KINDS * (len(_kinds(row)) - 1)


def _kinds(row: Sequence[Block]) -> set[str]:
    return {block.kind for block in row}


def _set_in_columns(rows: _Rows, spacing: Spacing) -> list[Shape]:
    """The forms of these rows: short ones spread over the columns, seated in some, or with steps of their own."""
    own = tuple(tuple(_steps(row, spacing)) for row in rows)
    longest = max(range(len(rows)), key=lambda number: (len(rows[number]), math.fsum(own[number])))
    spread_out = tuple(_indices(len(row), len(rows[longest])) for row in rows)
    found = [
        _shape(rows, spacing, own, spread_out, _common_steps(rows, spread_out, own, spacing)),
        _shape(rows, spacing, own, (None,) * len(rows), own[longest]),
    ]
    seats = _seats(rows, longest, own, spacing)
    if seats is not None and seats != spread_out:
        found.insert(1, _shape(rows, spacing, own, seats, _common_steps(rows, seats, own, spacing)))
    return found


def _shape(
    rows: _Rows,
    spacing: Spacing,
    own: tuple[tuple[float, ...], ...],
    indices: tuple[tuple[float, ...] | None, ...],
    steps: tuple[float, ...],
) -> Shape:
    """Rows with their blocks in these columns; None for a row with steps of its own."""
    apart = tuple(
        spacing.up(max(spacing.above(one, two) for one in upper for two in lower)) for upper, lower in pairwise(rows)
    )
    columns = max(map(len, rows))
    cost = math.fsum(map(_mixed, rows)) + RAGGED * _ragged(rows) + PARTED * _parted(rows)
    for row, taken in zip(rows, indices, strict=True):
        share = _indices(len(row), columns) if taken is None else taken
        cost += BROKEN * len(row) * _off_columns(share)
        cost += OFF_MIDDLE * abs(math.fsum(share) / len(share) - (columns - 1) / 2)
    if None in indices and len(rows) > 1:
        cost += BROKEN * sum(map(len, rows)) + UNEVEN * _uneven(own) ** 2
    return Shape(rows=rows, steps=steps, indices=indices, own=own, apart=apart, cost=cost)


_MAX_SEATED: Final = 3
_MAX_COLUMNS: Final = 8
"""Rows of at most so many blocks, among at most so many columns, are tried in every choice of columns."""


def _seats(
    rows: _Rows, longest: int, own: Sequence[Sequence[float]], spacing: Spacing
) -> tuple[tuple[float, ...], ...] | None:
    """The columns of the longest row that each row takes, so that the group is as narrow as it can be.

    None where a row does not fit into the columns as they are, or all have as many blocks.
    """
    places = _summed(own[longest])
    ends = (places[0] + rows[longest][0].all_round.left, places[-1] + rows[longest][-1].all_round.right)
    found: list[tuple[float, ...]] = []
    for row in rows:
        if len(row) == len(places):
            options = [tuple(range(len(places)))]
        elif len(row) <= _MAX_SEATED and len(places) <= _MAX_COLUMNS:
            options = [
                taken for taken in combinations(range(len(places)), len(row)) if _clear(row, taken, places, spacing)
            ]
        else:
            options = []
        if not options:
            return None
        middle = (len(places) - 1) / 2
        best = min(
            options,
            key=lambda taken: (_beyond(row, taken, places, ends), abs(math.fsum(taken) / len(taken) - middle), taken),
        )
        found.append(tuple(map(float, best)))
    return tuple(found) if len({*map(len, found)}) > 1 else None


def _clear(row: Sequence[Block], taken: Sequence[int], places: Sequence[float], spacing: Spacing) -> bool:
    """Whether blocks in these columns stand far enough apart."""
    return all(
        places[second] - places[first] >= spacing.beside(one, two) - 1e-6
        for (one, first), (two, second) in pairwise(zip(row, taken, strict=True))
    )


def _beyond(row: Sequence[Block], taken: Sequence[int], places: Sequence[float], ends: tuple[float, float]) -> float:
    """How far a row reaches beyond the longest at both ends."""
    left = places[taken[0]] + row[0].all_round.left
    right = places[taken[-1]] + row[-1].all_round.right
    return max(0.0, ends[0] - left) + max(0.0, right - ends[1])


def _ragged(rows: Sequence[Sequence[Block]]) -> int:
    """How often a row and the next have the same kinds but not the same number."""
    return sum(len(upper) != len(lower) and _kinds(upper) == _kinds(lower) for upper, lower in pairwise(rows))


def _parted(rows: Sequence[Sequence[Block]]) -> int:
    """How many kinds stand in rows that differ in their other kinds."""
    together: dict[str, set[frozenset[str]]] = {}
    for row in rows:
        kinds = frozenset(_kinds(row))
        for kind in kinds:
            together.setdefault(kind, set()).add(kinds)
    return sum(len(others) > 1 for others in together.values())


def _uneven(own: Sequence[Sequence[float]]) -> float:
    """The share by which rows with these steps differ in length."""
    lengths = [math.fsum(steps) for steps in own]
    return 1.0 - min(lengths) / max(lengths) if max(lengths) > 0 else 0.0


def _common_steps(
    rows: Sequence[Sequence[Block]],
    shares: Sequence[Sequence[float]],
    own: Sequence[Sequence[float]],
    spacing: Spacing,
) -> tuple[float, ...]:
    """The steps between columns that are wide enough for every row."""
    columns = max(map(len, rows))
    if all(len(row) in (1, columns) for row in rows):
        return _full_steps([(row, steps) for row, steps in zip(rows, own, strict=True) if len(row) == columns], spacing)
    # Where a part stands among columns of another number, all columns are alike.
    pitch = max(max(steps, default=0.0) for row, steps in zip(rows, own, strict=True) if len(row) == columns)
    for row, share in zip(rows, shares, strict=True):
        rounded = spacing.grid if _off_columns(share) == 1.0 else 0.0  # places between columns go to the grid
        for (one, first), (two, second) in pairwise(zip(row, share, strict=True)):
            pitch = max(pitch, spacing.up((spacing.beside(one, two) + rounded) / (second - first)))
    return (pitch,) * (columns - 1)


def _full_steps(rows: Sequence[tuple[Sequence[Block], Sequence[float]]], spacing: Spacing) -> tuple[float, ...]:
    """The steps between columns in which every one of these rows has a block."""
    widest = [max(step) for step in zip(*(steps for _, steps in rows), strict=True)]
    bodies = [_widest(column) for column in zip(*(row for row, _ in rows), strict=True)]
    return tuple(_rhythm(widest, bodies, spacing))


def _evened(steps: list[float], loose: float) -> list[float]:
    """One step for all where that makes the row only a little longer."""
    if not steps:
        return steps
    even = max(steps) * len(steps)
    return [max(steps)] * len(steps) if even <= loose * math.fsum(steps) else steps


def _steps(row: Sequence[Block], spacing: Spacing) -> list[float]:
    """The steps of a row by itself: one pitch for parts of one kind that follow each other."""
    steps = [spacing.up(spacing.beside(one, two)) for one, two in pairwise(row)]
    at = 0
    while at < len(steps):
        end = at
        while end < len(steps) and row[end + 1].kind == row[at].kind:
            end += 1
        if end > at:
            steps[at:end] = _evened(steps[at:end], 1.6)
        at = max(end, at + 1)
    return _rhythm(steps, [_body(block) for block in row], spacing)


def _body(block: Block) -> tuple[float, float]:
    """How far the body of a block, without its legends, reaches left and right of its centre."""
    box = block.body or block.face
    return -box.left, box.right


def _widest(blocks: Sequence[Block]) -> tuple[float, float]:
    """How far the bodies in one column reach left and right of it."""
    left, right = zip(*map(_body, blocks), strict=True)
    return max(left), max(right)


def _rhythm(steps: Sequence[float], bodies: Sequence[tuple[float, float]], spacing: Spacing) -> list[float]:
    """Steps with one pitch for neighbours of one size, and gaps as theirs beside parts of another size."""
    found = list(steps)
    gaps: list[float] = []
    paced: set[int] = set()
    for first, last in _of_one_size(bodies):
        found[first:last] = _evened(found[first:last], _LOOSE)
        paced |= {*range(first, last)}
        gaps += [found[at] - bodies[at][1] - bodies[at + 1][0] for at in range(first, last)]
    if gaps:
        usual = min(gaps)
        for at in range(len(found)):
            if at not in paced:
                found[at] = max(found[at], spacing.up(bodies[at][1] + bodies[at + 1][0] + usual))
    return found


def _of_one_size(bodies: Sequence[tuple[float, float]]) -> list[tuple[int, int]]:
    """The first and the last of each run of two or more neighbours whose widths differ little."""
    widths = [left + right for left, right in bodies]
    runs: list[tuple[int, int]] = []
    first = 0
    for number in range(1, len(widths) + 1):
        run = widths[first : number + 1]
        if number < len(widths) and max(run) <= _ONE_SIZE * min(run):
            continue
        if number - 1 > first:
            runs.append((first, number - 1))
        first = number
    return runs


def _indices(count: int, columns: int) -> tuple[float, ...]:
    """Where so many parts stand among so many columns."""
    if count == columns:
        return tuple(float(number) for number in range(count))
    if columns % count == 0:
        share = columns / count
        return tuple((number + 0.5) * share - 0.5 for number in range(count))
    if count > 2 and columns == 2 * count - 1:
        return tuple(2.0 * number for number in range(count))
    if count > 1 and (columns - count) % 2 == 0:
        # In the middle columns.
        return tuple(number + (columns - count) / 2 for number in range(count))
    share = columns / count
    return tuple((number + 0.5) * share - 0.5 for number in range(count))


def _off_columns(indices: Sequence[float]) -> float:
    """0 when every place is a column, a half when some are half way between two, 1 when some are elsewhere."""
    if all(abs(index - round(index)) < 1e-9 for index in indices):
        return 0.0
    return 0.5 if all(abs(2 * index - round(2 * index)) < 1e-9 for index in indices) else 1.0
