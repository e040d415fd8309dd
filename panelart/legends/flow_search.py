"""The cheapest way of a line among what stands: level and upright, on the lines along all clearances."""

from __future__ import annotations

import heapq
import math
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

import numpy as np
import shapely
from msgspec import field
from shapely.geometry.base import BaseGeometry

from panelart.canonical import Struct
from panelart.geometry import Box, Point, Vector
from panelart.legends.flow_marks import DOT, half_of, line_width, run_of
from panelart.legends.obstacles import Obstacle, printable
from panelart.model.panel import Arrow, FlowLine, Panel, Place

BEND = 12.0
"""What a bend costs, in mm of way."""

CROSSING = 20.0
"""What crossing another line costs, in mm of way."""

APART = 1.5
"""Minimum distance of the middles of lines side by side, mm, and APART_WIDTHS over the width of the widest line.
Common practice: two widths of white, so that two lines are not taken for one."""
APART_WIDTHS = 3.0

WHITE = 1.2
"""White between a line and what stands there, mm, on top of the clearance that legends keep. Common practice."""

_WAYS = {
    Place.ABOVE: Vector(0.0, 1.0),
    Place.BELOW: Vector(0.0, -1.0),
    Place.RIGHT: Vector(1.0, 0.0),
    Place.LEFT: Vector(-1.0, 0.0),
}
_TINY = 1e-6
_NEAR = 1e-4
"""mm. What is so near a line is on it."""

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

Way = Sequence[Point]
"""The corners of a line, its ends included."""

Piece = tuple[Point, Point]


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


def apart(panel: Panel) -> float:
    """Minimum distance of the middles of lines side by side, mm."""
    return max([APART, *(APART_WIDTHS * line_width(line, panel) for line in panel.lines)])


def pieces_of(ways: Iterable[Way]) -> list[Piece]:
    """The straight pieces of ways."""
    return [piece for way in ways for piece in pairwise(way)]


class Search:
    """All ways of one line.

    `earlier` are the pieces of lines that it may cross, `refs` the parts where it begins or ends, each with whether it
    has an arrow there. `tree` are the ways that the same line has already, for a branch of it.
    """

    def __init__(
        self,
        panel: Panel,
        obstacles: Sequence[Obstacle],
        line: FlowLine,
        earlier: Sequence[Piece],
        *,
        refs: Mapping[str, bool],
        tree: Sequence[Way] = (),
    ) -> None:
        width = line_width(line, panel)
        self.line, self.tree = line, pieces_of(tree)
        self.earlier = (*earlier, *self.tree)
        self.runs = {ref: run_of(line, panel, arrow=arrow) for ref, arrow in refs.items()}
        self.apart = apart(panel)
        half = half_of(line, panel)
        reach = [_grown(obstacle, half) for obstacle in obstacles]
        face = panel.outline.bounds.grown(-panel.marking.process.edge_margin.value - width / 2)
        self.face = face
        self.odd = _odd_face(panel, width)
        self.boxes = reach
        self.ends = {
            ref: _sides(panel.by_ref[ref].at, [b for b, o in zip(reach, obstacles, strict=True) if o.ref == ref])
            for ref in refs
        }
        # No branch meets its line, or crosses it, where that leaves a part or has its arrow.
        self.boxes += [
            _first(end, after, line, panel, arrow=arrow).grown(DOT / 2 * width)
            for end, after, arrow in _ends(tree, line)
        ]
        marked = [*self._marks(refs)]
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
            yield from ((end.x + off, end.y + off) for end in (a, b) for off in (-self.apart, self.apart))
        for a, b in self.tree:
            yield from ((a.x, a.y), (b.x, b.y))

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
        near = self.apart - 10 * _TINY
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
        goals = {self._node(self._out(line.end, side)): side for side in self._open_sides(line.end, line.enter)}

        def arrives(state: _State, cost: float, reached: _Reached) -> Point | None:
            """The side of the part that is entered, where the way goes straight into it."""
            i, j, heading = state
            goal = goals.get((i, j))
            if goal is None:
                return None
            inward = _BACK[_HEADINGS[goal]]
            if heading == inward:
                return self.ends[line.end][goal]
            if heading != _BACK[inward]:
                reached.better((i, j, inward), cost + BEND, state)
            return None

        return self._cheapest(line.start, line.leave, arrives)

    def way_to_tree(self, ref: str, asked: Place | None) -> list[Point] | None:
        """The cheapest way from a part to any place of the ways that its line has; None when there is none."""

        def arrives(state: _State, _cost: float, _reached: _Reached) -> Point | None:
            node = Point(self.xs[state[0]], self.ys[state[1]])
            return node if any(_is_on(node, piece) for piece in self.tree) else None

        return self._cheapest(ref, asked, arrives)

    def _cheapest(
        self, ref: str, asked: Place | None, arrives: Callable[[_State, float, _Reached], Point | None]
    ) -> list[Point] | None:
        """The cheapest way from a part until it arrives, with the point that it goes to from there."""
        starts = self._open_sides(ref, asked)
        reached = _Reached()
        for order, side in enumerate(starts):
            node = self._node(self._out(ref, side))
            if node is not None:
                reached.begin((*node, _HEADINGS[side]), 0.001 * order)
        while reached.heap:
            cost, state = heapq.heappop(reached.heap)
            if cost > reached.best.get(state, cost) + _TINY:
                continue
            last = arrives(state, cost, reached)
            if last is not None:
                return self._found(ref, reached.corners(state), starts, last)
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

    def _found(self, ref: str, nodes: Sequence[tuple[int, int]], starts: Sequence[Place], last: Point) -> list[Point]:
        """The corners of a way by its nodes, from the part that it leaves to where it goes."""
        corners = [Point(self.xs[i], self.ys[j]) for i, j in nodes]
        first = next(side for side in starts if self._out(ref, side).distance(corners[0]) < 1e-4)
        return _straightened([self.ends[ref][first], *corners, last])

    def _out(self, ref: str, side: Place) -> Point:
        """Where a line has left a part far enough for a head, or a bend."""
        return self.ends[ref][side].moved(_WAYS[side].scaled(self.runs[ref]))

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
        if any(self._touches(start, end, piece) for piece in self.tree):
            return False
        return all(met((left, low, right, high), c, d, self.apart) is not None for c, d in self.earlier)

    def _touches(self, start: Point, end: Point, piece: Piece) -> bool:
        """Whether a piece of another way meets this one."""
        one, other = Box.around((start, end)), Box.around(piece)
        return one.gap(other) < _TINY and not _is_on(end, piece)


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


def _ends(tree: Sequence[Way], line: FlowLine) -> list[tuple[Point, Point, bool]]:
    """Each end of the ways of a tree that is at a part, with the corner after it and whether it may have an arrow."""
    if not tree:
        return []
    trunk, *branches = tree
    ends = [(trunk[0], trunk[1], line.arrow is Arrow.BOTH), (trunk[-1], trunk[-2], line.arrow is not Arrow.NONE)]
    return ends + [(way[0], way[1], line.arrow is not Arrow.NONE) for way in branches]


def _first(end: Point, after: Point, line: FlowLine, panel: Panel, *, arrow: bool) -> Box:
    """What a way covers where it leaves its end, as far as it goes straight there."""
    return Box.around((end, end.moved(after.minus(end).unit.scaled(run_of(line, panel, arrow=arrow)))))


def _is_on(point: Point, piece: Piece) -> bool:
    """Whether a point is on a level or upright piece."""
    return Box.around(piece).grown(_NEAR).contains(point)


def met(piece: tuple[float, float, float, float], c: Point, d: Point, distance: float) -> float | None:
    """What an earlier line costs a piece: None where they run along each other, something where they cross."""
    left, low, right, high = piece
    other_left, other_right = sorted((c.x, d.x))
    other_low, other_high = sorted((c.y, d.y))
    level, other_level = high - low < _TINY, abs(c.y - d.y) < _TINY
    if level == other_level:
        near = distance - 10 * _TINY
        if level:
            apart = abs(low - c.y) >= near or right <= other_left + _TINY or left >= other_right - _TINY
        else:
            apart = abs(left - c.x) >= near or high <= other_low + _TINY or low >= other_high - _TINY
        return 0.0 if apart else None
    crosses = left - _TINY <= other_right and right + _TINY >= other_left
    crosses = crosses and low - _TINY <= other_high and high + _TINY >= other_low
    return CROSSING / 2 if crosses else 0.0
