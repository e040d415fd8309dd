"""Lines from part to part, as signals flow: level and upright pieces, few bends, clear of everything that stands.

Ways are searched on the lines through the middles and along the clearances of all obstacles, where a shortest way with
fewest bends always has its pieces. A bend costs as much as BEND mm of way and crossing another line as much as
CROSSING; running along another line is forbidden.

It does not matter in which order lines are written. Each is laid by itself first, which is the best that can be. Where
that does not go together they are laid one after the other, the shortest first; then each that is worse than by itself
is taken up and laid again, among the rest or on its best way with those that it meets laid again after it, for as long
as that makes the sum cheaper. The same is done with the longest first, and the cheaper answer kept.

A line with several ends is a tree: its trunk, between the two that are nearest to each other, is laid with the other
lines; then each further part is joined to what there is of its line, the nearest first, by its cheapest way (the
heuristic of Takahashi and Matsuyama, 1980, from memory: no tree is more than twice as long as the shortest).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.legends.flow_marks import drawn_dots, drawn_way
from panelart.legends.flow_search import BEND, Piece, Search, Way, apart, met, pieces_of
from panelart.legends.obstacles import Obstacle
from panelart.model.layout import Mark, Unplaced
from panelart.model.panel import Arrow, FlowLine, Panel

ROUNDS = 4
"""How often lines are laid again before the answer is taken as it is."""

MAX_SEARCHES = 300
"""After so many ways searched, lines stay where they lie."""

_TINY = 1e-6


class Laid(Struct, frozen=True):
    """The lines that were laid, with their arrows and dots, and those for which there is no way."""

    marks: tuple[Mark, ...]
    unplaced: tuple[Unplaced, ...]


def lay(panel: Panel, obstacles: Sequence[Obstacle]) -> Laid:
    """Lay the panel's lines among what stands already."""
    if not panel.lines:
        return Laid((), ())
    trunks = [_trunk(line, panel) for line in panel.lines]
    trees, missing = _trees(panel, trunks, obstacles)
    marks = [mark for number, tree in enumerate(trees) for mark in _drawn(number, tree, panel)]
    return Laid(tuple(marks), tuple(_unplaced(panel, number, *between) for number, between in missing))


_Tree = list[tuple[Way, tuple[bool, bool]]]
"""The ways of one line, its trunk first, each with whether it has an arrow where it begins and where it ends."""


def _trees(
    panel: Panel, trunks: Sequence[FlowLine], obstacles: Sequence[Obstacle]
) -> tuple[list[_Tree], list[tuple[int, tuple[str, str]]]]:
    """The ways of every line, and between which parts of which lines there is none."""
    trees: list[_Tree] = []
    missing: list[tuple[int, tuple[str, str]]] = []
    for number, way in enumerate(_Corridors(panel, trunks, obstacles).ways()):
        trunk = trunks[number]
        trees.append([] if way is None else [(way, _arrows(trunk))])
        if way is None:
            missing.append((number, (trunk.start, trunk.end)))
    for branch in _branches(panel, trunks):
        if trees[branch.number]:
            way = _joined(panel, obstacles, branch, [[way for way, _ in tree] for tree in trees])
            if way is None:
                missing.append((branch.number, branch.between))
            else:
                trees[branch.number].append((way, (branch.has_arrow, False)))
    return trees, missing


def _drawn(number: int, tree: _Tree, panel: Panel) -> Iterator[Mark]:
    """The ways of a line with their arrows, then the dots where they meet."""
    line = panel.lines[number]
    for way, arrows in tree:
        yield from drawn_way(_name(number), line, way, panel, arrows=arrows)
    yield from drawn_dots(_name(number), line, [way for way, _ in tree[1:]], panel)


def _name(number: int) -> str:
    return f"line {number + 1}"


def _arrows(line: FlowLine) -> tuple[bool, bool]:
    """Whether a line has an arrow where it begins and where it ends."""
    return line.arrow is Arrow.BOTH, line.arrow is not Arrow.NONE


def _unplaced(panel: Panel, number: int, start: str, end: str) -> Unplaced:
    return Unplaced(
        ref=_name(number),
        style="line",
        text=f"{start} to {end}",
        near=panel.by_ref[start].at,
        blockers=(),
        where=panel.lines[number].where,
    )


# --- lines with several ends


class _Branch(Struct, frozen=True, kw_only=True):
    """A further part of a line: the line's number, its trunk, the part, and whether flow goes to it."""

    number: int
    trunk: FlowLine
    ref: str
    outward: bool

    @property
    def between(self) -> tuple[str, str]:
        """Where it comes from and where it goes, by refs."""
        return (self.trunk.start, self.ref) if self.outward else (self.ref, self.trunk.end)

    @property
    def has_arrow(self) -> bool:
        """Whether there is an arrow at its part."""
        return self.trunk.arrow is Arrow.BOTH or (self.outward and self.trunk.arrow is Arrow.END)


def _far(panel: Panel, one: str, other: str) -> float:
    way = panel.by_ref[other].at.minus(panel.by_ref[one].at)
    return round(abs(way.x) + abs(way.y), 6)


def _trunk(line: FlowLine, panel: Panel) -> FlowLine:
    """The line between those two of its parts that are nearest to each other."""
    pairs = [(start, end) for start in line.starts for end in line.ends]
    start, end = min(pairs, key=lambda pair: (_far(panel, *pair), pair))
    return replace(line, start=start, end=end, more_starts=(), more_ends=())


def _branches(panel: Panel, trunks: Sequence[FlowLine]) -> list[_Branch]:
    """Every further part of every line, the nearest to its trunk first."""
    found = [
        _Branch(number=number, trunk=trunk, ref=ref, outward=outward)
        for number, (line, trunk) in enumerate(zip(panel.lines, trunks, strict=True))
        for refs, outward in ((line.starts, False), (line.ends, True))
        for ref in refs
        if ref not in (trunk.start, trunk.end)
    ]
    return sorted(found, key=lambda one: (min(_far(panel, one.ref, end) for end in (one.trunk.start, one.trunk.end)),
                                          one.ref, one.between, one.number))  # fmt: skip


def _joined(panel: Panel, obstacles: Sequence[Obstacle], branch: _Branch, trees: Sequence[Sequence[Way]]) -> Way | None:
    """The way of a branch from its part to what there is of its line; None where there is none."""
    rest = [piece for number, ways in enumerate(trees) if number != branch.number for piece in pieces_of(ways)]
    search = Search(
        panel, obstacles, branch.trunk, rest, tree=trees[branch.number], refs={branch.ref: branch.has_arrow}
    )
    return search.way_to_tree(branch.ref, branch.trunk.enter if branch.outward else branch.trunk.leave)


class _Corridors:
    """All lines of a panel laid together; ways are kept by the line's number as written."""

    def __init__(self, panel: Panel, lines: Sequence[FlowLine], obstacles: Sequence[Obstacle]) -> None:
        self.panel, self.lines, self.obstacles = panel, lines, obstacles
        self.apart = apart(panel)
        self.order = sorted(range(len(lines)), key=self._key)
        self.laid: dict[int, Way] = {}
        self.searched = 0

    def _key(self, number: int) -> tuple[float, tuple[str, ...], int]:
        line = self.lines[number]
        sides = (side.value if side is not None else "" for side in (line.leave, line.enter))
        return _far(self.panel, line.start, line.end), (line.start, line.end, *sides), number

    def ways(self) -> list[Way | None]:
        """The way of each line in the order they are written; None where there is none."""
        alone = {number: self._searched(number, []) for number in self.order}
        shortest = self.order
        found: list[tuple[float, dict[int, Way]]] = []
        for order in (shortest, shortest[::-1]):
            self.order, self.laid = order, {}
            self._lay(alone)
            found.append((self._sum(), self.laid))
            if all(self._is_best(number, alone[number]) for number in order):
                break
        laid = min(found, key=lambda each: each[0])[1]
        return [laid.get(number) for number in range(len(self.lines))]

    def _lay(self, alone: Mapping[int, Way | None]) -> None:
        for number in self.order:
            way = alone[number]
            if way is not None and _burden(way, self._rest(number), self.apart) != 0.0:
                way = self._searched(number, self._rest(number))
            if way is not None:
                self.laid[number] = way
        for _ in range(ROUNDS):
            cheaper = [number for number in self.order if self._again(number, alone[number])]
            if not cheaper:
                break

    def _sum(self) -> float:
        """What all lines cost; one that is left out costs more than any way."""
        longest = 1e6
        return math.fsum(self._cost(number) if number in self.laid else longest for number in self.order)

    def _is_best(self, number: int, best: Way | None) -> bool:
        """Whether a line lies as well as it can by itself."""
        return best is None or (number in self.laid and self._cost(number) <= _length(best) + _TINY)

    def _again(self, number: int, best: Way | None) -> bool:
        """Lay a line again that could do better; whether that makes the sum cheaper."""
        if best is None or self._is_best(number, best) or self.searched > MAX_SEARCHES:
            return False
        before, cost = dict(self.laid), self._sum()
        if number in self.laid:
            self._lay_among_the_rest(number)
            if self._sum() < cost - _TINY:
                return True
        self._lay_first(number, best, before)
        if self._sum() < cost - _TINY:
            return True
        self.laid = before
        return False

    def _lay_first(self, number: int, best: Way, before: Mapping[int, Way]) -> None:
        """Lay a line on its best way, and all that are met by it again after it."""
        self.laid = {
            other: way for other, way in before.items() if _burden(best, list(pairwise(way)), self.apart) == 0.0
        }
        self.laid[number] = best
        for other in self.order:
            if other in before and other not in self.laid:
                self._lay_among_the_rest(other)

    def _lay_among_the_rest(self, number: int) -> None:
        """Lay a line where it goes best among all others; where there is no way it stays as it is."""
        way = self._searched(number, self._rest(number))
        if way is not None:
            self.laid[number] = way

    def _searched(self, number: int, rest: Sequence[Piece]) -> Way | None:
        line = self.lines[number]
        self.searched += 1
        return Search(
            self.panel, self.obstacles, line, rest, refs=dict(zip((line.start, line.end), _arrows(line), strict=True))
        ).way()

    def _rest(self, number: int) -> list[Piece]:
        """The pieces of all other lines that are laid."""
        return [piece for other in self.order if other != number for piece in pairwise(self.laid.get(other, ()))]

    def _cost(self, number: int) -> float:
        """What a line costs where it lies; running along another is out of the question."""
        way = self.laid[number]
        burden = _burden(way, self._rest(number), self.apart)
        return math.inf if burden is None else _length(way) + burden


def _length(way: Way) -> float:
    """Its length and what its bends cost."""
    return math.fsum(a.distance(b) for a, b in pairwise(way)) + BEND * (len(way) - 2)


def _burden(way: Way, rest: Sequence[Piece], distance: float) -> float | None:
    """What crossings with pieces of other lines cost; None where it runs along one."""
    total = 0.0
    for a, b in pairwise(way):
        left, right = sorted((a.x, b.x))
        low, high = sorted((a.y, b.y))
        for c, d in rest:
            cost = met((left, low, right, high), c, d, distance)
            if cost is None:
                return None
            total += 2 * cost
    return total
