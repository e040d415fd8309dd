"""Lines from part to part, as signals flow: level and upright pieces, few bends, clear of everything that stands.

Ways are searched on the lines through the middles and along the clearances of all obstacles, where a shortest way with
fewest bends always has its pieces. A bend costs as much as BEND mm of way and crossing another line as much as
CROSSING; running along another line is forbidden.

It does not matter in which order lines are written. Each is laid by itself first, which is the best that can be. Where
that does not go together they are laid one after the other, the shortest first; then each that is worse than by itself
is taken up and laid again, among the rest or on its best way with those that it meets laid again after it, for as long
as that makes the sum cheaper. The same is done with the longest first, and the cheaper answer kept.
"""

from __future__ import annotations

import heapq
import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

import numpy as np
import shapely
from msgspec import field
from shapely.geometry.base import BaseGeometry

from panelart.canonical import Struct
from panelart.geometry import Box, Line, Point, Vector, polygon
from panelart.legends.obstacles import Obstacle, printable
from panelart.lettering.outline import open_shape, shape_of
from panelart.model.layout import Mark, Unplaced
from panelart.model.panel import Arrow, FlowLine, Panel, Place

BEND = 12.0
"""What a bend costs, in mm of way."""

CROSSING = 20.0
"""What crossing another line costs, in mm of way."""

APART = 1.5
"""White between lines side by side, mm. Common practice: three widths of the line and more."""

WHITE = 1.2
"""White between a line and what stands there, mm, on top of the clearance that legends keep. Common practice."""

STROKE = 0.125
"""Width of a line over the cap height of names."""

HEAD = 0.8
"""Length of an arrow's head over the cap height of names, and SLIM its width over its length. Common practice."""
SLIM = 0.75

ROUNDS = 4
"""How often lines are laid again before the answer is taken as it is."""

MAX_SEARCHES = 300
"""After so many ways searched, lines stay where they lie."""

_WAYS = {
    Place.ABOVE: Vector(0.0, 1.0),
    Place.BELOW: Vector(0.0, -1.0),
    Place.RIGHT: Vector(1.0, 0.0),
    Place.LEFT: Vector(-1.0, 0.0),
}
_TINY = 1e-6

_STEPS = ((1, 0), (-1, 0), (0, 1), (0, -1))
"""From a node to the next, by heading."""
_BACK = (1, 0, 3, 2)
"""The heading opposite to each."""
_HEADINGS = {side: _STEPS.index((int(way.x), int(way.y))) for side, way in _WAYS.items()}
"""The heading with which a line leaves a part on each side."""

_CORNERS = 0.02
"""Share of its box that a face with rounded corners may lack; of a face that lacks more the outline is held against."""

_COARSE = 0.2
"""How coarsely, in mm, the arcs of such an outline are taken; lines stay so much further inside."""

_State = tuple[int, int, int]
"""A node by its numbers along x and y, and the heading with which it was reached."""


class Laid(Struct, frozen=True):
    """The lines that were laid, with their heads, and those for which there is no way."""

    marks: tuple[Mark, ...]
    unplaced: tuple[Unplaced, ...]


def lay(panel: Panel, obstacles: Sequence[Obstacle]) -> Laid:
    """Lay the panel's lines among what stands already."""
    if not panel.lines:
        return Laid((), ())
    marks: list[Mark] = []
    unplaced: list[Unplaced] = []
    ways = _Corridors(panel, obstacles).ways()
    for number, (line, way) in enumerate(zip(panel.lines, ways, strict=True), start=1):
        name = f"line {number}"
        if way is None:
            unplaced.append(
                Unplaced(
                    ref=name,
                    style="line",
                    text=f"{line.start} to {line.end}",
                    near=panel.by_ref[line.start].at,
                    blockers=(),
                    where=line.where,
                )
            )
            continue
        marks += _drawn(name, line, way, line_width(line, panel), HEAD * panel.marking.styles["name"].cap_height)
    return Laid(tuple(marks), tuple(unplaced))


def line_width(line: FlowLine, panel: Panel) -> float:
    """The width that a line is drawn with, mm."""
    usual = max(STROKE * panel.marking.styles["name"].cap_height, panel.marking.process.line_minimum.value)
    return usual if line.width is None else line.width


Way = Sequence[Point]
"""The corners of a line, its ends included."""


class _Corridors:
    """All lines of a panel laid together; ways are kept by the line's number as written."""

    def __init__(self, panel: Panel, obstacles: Sequence[Obstacle]) -> None:
        self.panel, self.obstacles = panel, obstacles
        self.order = sorted(range(len(panel.lines)), key=self._key)
        self.laid: dict[int, Way] = {}
        self.searched = 0

    def _key(self, number: int) -> tuple[float, tuple[str, ...], int]:
        line = self.panel.lines[number]
        way = self.panel.by_ref[line.end].at.minus(self.panel.by_ref[line.start].at)
        sides = (side.value if side is not None else "" for side in (line.leave, line.enter))
        return round(abs(way.x) + abs(way.y), 6), (line.start, line.end, *sides), number

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
        return [laid.get(number) for number in range(len(self.panel.lines))]

    def _lay(self, alone: Mapping[int, Way | None]) -> None:
        for number in self.order:
            way = alone[number]
            if way is not None and _burden(way, self._rest(number)) != 0.0:
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
        self.laid = {other: way for other, way in before.items() if _burden(best, list(pairwise(way))) == 0.0}
        self.laid[number] = best
        for other in self.order:
            if other in before and other not in self.laid:
                self._lay_among_the_rest(other)

    def _lay_among_the_rest(self, number: int) -> None:
        """Lay a line where it goes best among all others; where there is no way it stays as it is."""
        way = self._searched(number, self._rest(number))
        if way is not None:
            self.laid[number] = way

    def _searched(self, number: int, rest: Sequence[tuple[Point, Point]]) -> Way | None:
        line = self.panel.lines[number]
        self.searched += 1
        return _Search(self.panel, self.obstacles, line, line_width(line, self.panel), rest).way()

    def _rest(self, number: int) -> list[tuple[Point, Point]]:
        """The pieces of all other lines that are laid."""
        return [piece for other in self.order if other != number for piece in pairwise(self.laid.get(other, ()))]

    def _cost(self, number: int) -> float:
        """What a line costs where it lies; running along another is out of the question."""
        way = self.laid[number]
        burden = _burden(way, self._rest(number))
        return math.inf if burden is None else _length(way) + burden


def _length(way: Way) -> float:
    """Its length and what its bends cost."""
    return math.fsum(a.distance(b) for a, b in pairwise(way)) + BEND * (len(way) - 2)


def _burden(way: Way, rest: Sequence[tuple[Point, Point]]) -> float | None:
    """What crossings with pieces of other lines cost; None where it runs along one."""
    total = 0.0
    for a, b in pairwise(way):
        left, right = sorted((a.x, b.x))
        low, high = sorted((a.y, b.y))
        for c, d in rest:
            met = _met((left, low, right, high), c, d)
            if met is None:
                return None
            total += 2 * met
    return total


class _Reached(Struct):
    """The states that a search has reached: the least cost of each, where it came from, and those to go on from."""

    best: dict[_State, float] = field(default_factory=dict)
    came: dict[_State, _State | None] = field(default_factory=dict)
    heap: list[tuple[float, _State]] = field(default_factory=list)

    def begin(self, state: _State, cost: float) -> None:
        """Note a state from which ways may begin."""
        self.best[state] = cost
        self.came[state] = None
        heapq.heappush(self.heap, (cost, state))

    def better(self, after: _State, total: float, before: _State) -> None:
        """Note a cheaper way to a state."""
        if total < self.best.get(after, total + 1.0) - _TINY:
            self.best[after] = total
            self.came[after] = before
            heapq.heappush(self.heap, (total, after))

    def corners(self, state: _State) -> list[tuple[int, int]]:
        """The nodes of the way that leads to a state, the first first."""
        states = [state]
        while (before := self.came[states[-1]]) is not None:
            states.append(before)
        return [(i, j) for i, j, _ in reversed(states)]


class _Search:
    def __init__(
        self,
        panel: Panel,
        obstacles: Sequence[Obstacle],
        line: FlowLine,
        width: float,
        earlier: Sequence[tuple[Point, Point]],
    ) -> None:
        self.line, self.earlier = line, earlier
        own = (line.start, line.end)
        reach = [_grown(obstacle, width / 2) for obstacle in obstacles]
        face = panel.outline.bounds.grown(-panel.marking.process.edge_margin.value - width / 2)
        self.face = face
        self.odd = _odd_face(panel, width)
        self.boxes = reach
        self.ends = {
            ref: _sides(panel.by_ref[ref].at, [b for b, o in zip(reach, obstacles, strict=True) if o.ref == ref])
            for ref in own
        }
        self.run = (HEAD + 0.25) * panel.marking.styles["name"].cap_height
        marked = [*self._marks(own)]
        self.xs = _between(x for x, _ in marked if face.left <= x <= face.right)
        self.ys = _between(y for _, y in marked if face.bottom <= y <= face.top)
        self.level, self.upright = self._pieces()

    def _marks(self, refs: Iterable[str]) -> Iterator[tuple[float, float]]:
        """Places through which ways may run level and upright: where lines leave, and beside all that stands."""
        for ref in refs:
            yield from (self._out(ref, side) for side in _WAYS)
        for box in self.boxes:
            yield box.left, box.bottom
            yield box.right, box.top
        if self.odd is not None:
            yield from shapely.get_coordinates(self.odd).tolist()
        for a, b in self.earlier:
            yield from ((end.x + off, end.y + off) for end in (a, b) for off in (-APART, APART))

    def _pieces(self) -> tuple[list[list[float]], list[list[float]]]:
        """What the piece to the right of each node costs, and the one above it; infinite where something stands."""
        xs, ys = np.array(self.xs), np.array(self.ys)
        level = np.repeat(np.diff(xs)[:, np.newaxis], len(ys), axis=1)
        upright = np.repeat(np.diff(ys)[np.newaxis, :], len(xs), axis=0)
        for box in self.boxes:
            spans = (xs[:-1] < box.right - _TINY) & (xs[1:] > box.left + _TINY)
            rises = (ys[:-1] < box.top - _TINY) & (ys[1:] > box.bottom + _TINY)
            level[np.ix_(spans, (ys > box.bottom + _TINY) & (ys < box.top - _TINY))] = np.inf
            upright[np.ix_((xs > box.left + _TINY) & (xs < box.right - _TINY), rises)] = np.inf
        if self.odd is not None:
            places = np.stack(np.meshgrid(xs, ys, indexing="ij"), axis=-1)
            for costs, ends in ((level, (places[:-1], places[1:])), (upright, (places[:, :-1], places[:, 1:]))):
                costs[~shapely.covers(self.odd, shapely.linestrings(np.stack(ends, axis=-2)))] = np.inf
        near = APART - 10 * _TINY
        for c, d in self.earlier:
            left, right = sorted((c.x, d.x))
            low, high = sorted((c.y, d.y))
            if high - low < _TINY:
                along = (xs[:-1] < right - _TINY) & (xs[1:] > left + _TINY)
                level[np.ix_(along, np.abs(ys - low) < near)] = np.inf
                met = (ys[:-1] - _TINY <= high) & (ys[1:] + _TINY >= low)
                upright[np.ix_((xs - _TINY <= right) & (xs + _TINY >= left), met)] += CROSSING / 2
            else:
                along = (ys[:-1] < high - _TINY) & (ys[1:] > low + _TINY)
                upright[np.ix_(np.abs(xs - left) < near, along)] = np.inf
                met = (xs[:-1] - _TINY <= right) & (xs[1:] + _TINY >= left)
                level[np.ix_(met, (ys - _TINY <= high) & (ys + _TINY >= low))] += CROSSING / 2
        return level.tolist(), upright.tolist()

    def way(self) -> list[Point] | None:
        """The cheapest way, corners only; None when there is none."""
        line = self.line
        starts = self._open_sides(line.start, line.leave)
        goals = {self._node(self._out(line.end, side)): side for side in self._open_sides(line.end, line.enter)}
        reached = _Reached()
        for order, side in enumerate(starts):
            node = self._node(self._out(line.start, side))
            if node is not None:
                reached.begin((*node, _HEADINGS[side]), 0.001 * order)
        while reached.heap:
            cost, state = heapq.heappop(reached.heap)
            if cost > reached.best.get(state, cost) + _TINY:
                continue
            i, j, heading = state
            goal = goals.get((i, j))
            if goal is not None:
                inward = _BACK[_HEADINGS[goal]]
                if heading == inward:
                    return self._found(reached.corners(state), starts, goal)
                if heading != _BACK[inward]:
                    reached.better((i, j, inward), cost + BEND, state)
            self._go_on(state, cost, reached)
        return None

    def _open_sides(self, ref: str, asked: Place | None) -> list[Place]:
        """The sides of a part on which a line may begin or end: the one asked for or any, with nothing before it."""
        return [side for side in _WAYS if asked in (None, side) and self._leads_out(ref, side)]

    def _go_on(self, state: _State, cost: float, reached: _Reached) -> None:
        """Go one piece on from a state, in every direction but back."""
        i, j, heading = state
        for turn, (dx, dy) in enumerate(_STEPS):
            if turn == _BACK[heading]:
                continue
            there = (i + dx, j + dy)
            if not (0 <= there[0] < len(self.xs) and 0 <= there[1] < len(self.ys)):
                continue
            more = self.level[min(i, there[0])][j] if dx else self.upright[i][min(j, there[1])]
            if more == math.inf:
                continue
            reached.better((*there, turn), cost + more + (BEND if turn != heading else 0.0), state)

    def _found(self, nodes: Sequence[tuple[int, int]], starts: Sequence[Place], goal: Place) -> list[Point]:
        """The corners of a way by its nodes, from the part that it leaves to the one that it enters."""
        line = self.line
        corners = [Point(self.xs[i], self.ys[j]) for i, j in nodes]
        first = next(side for side in starts if self._out(line.start, side).distance(corners[0]) < 1e-4)
        return _straightened([self.ends[line.start][first], *corners, self.ends[line.end][goal]])

    def _out(self, ref: str, side: Place) -> Point:
        """Where a line has left a part far enough for a head, or a bend."""
        return self.ends[ref][side].moved(_WAYS[side].scaled(self.run))

    def _leads_out(self, ref: str, side: Place) -> bool:
        """Whether nothing stands in the first piece on a side of a part."""
        end = self._out(ref, side)
        return self.face.contains(end) and self._free(self.ends[ref][side], end)

    def _node(self, point: Point) -> tuple[int, int] | None:
        i, j = bisect_left(self.xs, point.x - _TINY), bisect_left(self.ys, point.y - _TINY)
        if (
            i < len(self.xs)
            and j < len(self.ys)
            and abs(self.xs[i] - point.x) < 1e-5
            and abs(self.ys[j] - point.y) < 1e-5
        ):
            return i, j
        return None

    def _free(self, start: Point, end: Point) -> bool:
        """Whether nothing stands in a piece, and no other line runs along it."""
        left, right = sorted((start.x, end.x))
        low, high = sorted((start.y, end.y))
        for box in self.boxes:
            aside = left >= box.right - _TINY or right <= box.left + _TINY
            if not aside and low < box.top - _TINY and high > box.bottom + _TINY:
                return False
        if self.odd is not None and not self.odd.covers(shapely.LineString([start, end])):
            return False
        return all(_met((left, low, right, high), c, d) is not None for c, d in self.earlier)


def _odd_face(panel: Panel, width: float) -> BaseGeometry | None:
    """Where the middle of a line may run on a face that does not fill its box; None where the box says it all."""
    box = panel.outline.bounds
    if abs(box.width * box.height - panel.outline.area) < _CORNERS * box.width * box.height:
        return None
    inside = printable(panel).buffer(-width / 2 - _COARSE, join_style="mitre").simplify(_COARSE)
    shapely.prepare(inside)
    return inside


def _straightened(points: Sequence[Point]) -> list[Point]:
    """A way without the points that its line passes straight through."""
    apart = [points[0]]
    apart += [here for before, here in pairwise(points) if before.distance(here) > 1e-5]
    corners = [
        here
        for before, here, after in zip(apart, apart[1:], apart[2:], strict=False)
        if abs(here.minus(before).cross(after.minus(here))) > 1e-6
    ]
    return [apart[0], *corners, apart[-1]]


def _between(values: Iterable[float]) -> list[float]:
    found: list[float] = []
    for value in sorted(values):
        if not found or value - found[-1] > 1e-5:
            found.append(value)
    return found


def _grown(obstacle: Obstacle, half: float) -> Box:
    left, bottom, right, top = obstacle.area.bounds
    return Box(left, bottom, right, top).grown(obstacle.clearance + WHITE + half)


def _sides(at: Point, boxes: Sequence[Box]) -> dict[Place, Point]:
    """Where lines may begin or end on each side of a part, level with its centre."""
    beside = Box.around([at, *(box for box in boxes if box.bottom < at.y < box.top)])
    over = Box.around([at, *(box for box in boxes if box.left < at.x < box.right)])
    return {
        Place.ABOVE: Point(at.x, over.top),
        Place.BELOW: Point(at.x, over.bottom),
        Place.RIGHT: Point(beside.right, at.y),
        Place.LEFT: Point(beside.left, at.y),
    }


def _met(piece: tuple[float, float, float, float], c: Point, d: Point) -> float | None:
    """What an earlier line costs a piece: None where they run along each other, something where they cross."""
    left, low, right, high = piece
    other_left, other_right = sorted((c.x, d.x))
    other_low, other_high = sorted((c.y, d.y))
    level, other_level = high - low < _TINY, abs(c.y - d.y) < _TINY
    if level == other_level:
        near = APART - 10 * _TINY
        if level:
            apart = abs(low - c.y) >= near or right <= other_left + _TINY or left >= other_right - _TINY
        else:
            apart = abs(left - c.x) >= near or high <= other_low + _TINY or low >= other_high - _TINY
        return 0.0 if apart else None
    crosses = left - _TINY <= other_right and right + _TINY >= other_left
    crosses = crosses and low - _TINY <= other_high and high + _TINY >= other_low
    return CROSSING / 2 if crosses else 0.0


def _drawn(name: str, line: FlowLine, way: Sequence[Point], width: float, head: float) -> list[Mark]:
    """The line, cut back under its heads, and the heads."""
    points = list(way)
    heads: list[Mark] = []
    if line.arrow in (Arrow.END, Arrow.BOTH):
        heads.append(_head(name, line, points[-2], points[-1], head))
        points[-1] = _short(points[-2], points[-1], 0.9 * head)
    if line.arrow is Arrow.BOTH:
        heads.append(_head(name, line, way[1], points[0], head))
        points[0] = _short(way[1], points[0], 0.9 * head)
    shape = open_shape(tuple(Line(a, b) for a, b in pairwise(points) if a.distance(b) > _TINY))
    return [
        Mark(ref=name, kind="flow-line", shape=shape, width=width, ink=line.ink, where=line.where),
        *heads,
    ]


def _short(start: Point, end: Point, by: float) -> Point:
    far = start.distance(end)
    return end.moved(start.minus(end).scaled(min(by, 0.9 * far) / far))


def _head(name: str, line: FlowLine, start: Point, end: Point, head: float) -> Mark:
    way = end.minus(start).unit
    side = way.perpendicular.scaled(SLIM * head / 2)
    foot = end.moved(way.scaled(-head))
    corners = [end, foot.moved(side), foot.moved(side.scaled(-1.0))]
    return Mark(
        ref=name,
        kind="flow-arrow",
        shape=shape_of(polygon(corners)),
        width=0.0,
        ink=line.ink,
        where=line.where,
        filled=True,
    )
