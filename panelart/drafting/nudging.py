"""The smallest moves of parts that clear the findings of a panel together, as an edit of its text.

What parts need of each other is kept by a program (`drafting.least_moves`); then the panel is built and inspected like
any. What the rules still find, of legends above all, becomes a further need of the parts concerned, and the program is
solved anew. Of all states that were built the one with fewest findings is taken, of these the one that moves least.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import combinations
from pathlib import Path
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.checks import Finding, Inspection
from panelart.checks.baseline import sign
from panelart.checks.bodies import Body
from panelart.checks.inspection import limits_of
from panelart.checks.legends import legend_unplaced
from panelart.checks.mends import moved_apart, moved_inwards, needed, other_sides
from panelart.diagnostics import Severity, SpecError
from panelart.drafting.least_moves import CLOSE, Inside, Line, Moves, Rule, Task, least_moves, places_after
from panelart.drafting.measure import lettered_boxes
from panelart.drafting.movable import Movable, lines_of, movable, with_moves
from panelart.drafting.separation import Area, Surroundings, box_area, outermost
from panelart.geometry import ORIGIN, Box, Point
from panelart.messages import Message
from panelart.messages import drafting as said
from panelart.model.layout import Layout
from panelart.model.panel import Panel
from panelart.pipeline import Built, build
from panelart.spec.moves import NotHereError
from panelart.spec.read import panel_from_text
from panelart.stages import remembering_at_least

Numbers: TypeAlias = NDArray[np.float64]

STEP: Final = 0.1
"""Moves are whole multiples of it, mm."""

NEAR: Final = 30.0
"""How far a part may go along each axis before the whole face is tried, mm."""

MAX_ROUNDS: Final = 8
"""How often the panel is built to hear what the rules still find."""

MAX_WORSE: Final = 3
"""After so many states in a row that are no better none is better."""

MAX_SPARED: Final = 24
"""How many states are built to shorten moves."""

_HALVES: Final = 5

_WHITES: Final = (0.5, 1.5, 3.0, 5.0)
"""White between a legend and its neighbours that is tried in turn, mm."""

_MORE: Final = 0.05


class Step(Struct, frozen=True, kw_only=True):
    """One part, or several that go together, moved: from where to where the first one, in mm from the datum.

    `clears` are the findings that are then gone, by number.
    """

    refs: tuple[str, ...]
    start: Point
    end: Point
    clears: tuple[int, ...]

    @property
    def by(self) -> tuple[float, float]:
        """How far, in mm."""
        return round(self.end.x - self.start.x, 3) + 0.0, round(self.end.y - self.start.y, 3) + 0.0


class Left(Struct, frozen=True, kw_only=True):
    """A finding that is still there, by number, and why."""

    number: int
    finding: Finding
    why: Message


class Nudged(Struct, frozen=True, kw_only=True):
    """The text with parts moved, what was moved, and what could not be cleared so.

    `cost` is the sum of all moves along x and y in mm, a part that leaves its row or column counted as 3 mm; no moves
    that keep what openings, hardware and hands need cost less than `bound`.
    """

    text: str
    built: Built
    steps: tuple[Step, ...]
    left: tuple[Left, ...]
    cost: float
    bound: float

    @property
    def errors(self) -> int:
        """Findings at error level that are left."""
        return self.built.inspection.count(Severity.ERROR)

    @property
    def proved(self) -> bool:
        """Whether no smaller moves would do: the next step of each move may be one tenth."""
        return self.cost - self.bound <= len(self.steps) * 2 * STEP + CLOSE


Told: TypeAlias = Callable[[int, int, int], None]
"""Hears how many states were built, at most how many will be, and how many findings the best still has."""


def nudged(text: str, file: str, folder: Path, *, today: str = "", tell: Told | None = None) -> Nudged:
    """The smallest moves that clear the findings of a spec. Raises SpecError when it cannot be read."""
    with remembering_at_least():  # each state moves a few parts
        return _Search(text, file, folder, today).run(tell)


class _State(Struct, frozen=True, kw_only=True):
    """What was built after moves of units."""

    by: Mapping[str, tuple[float, float]]
    text: str
    built: Built
    moves: Moves

    @property
    def rank(self) -> tuple[int, int, float]:
        count = self.built.inspection.count
        return count(Severity.ERROR), count(Severity.WARNING), round(self.moves.cost, 3)


def clearable(finding: Finding, inspection: Inspection) -> bool:
    """Whether a finding is one that moving parts may clear."""
    if finding.severity is Severity.NOTE:
        return False
    mends = inspection.rule(finding).mends
    named = any(ref in inspection.panel.by_ref for ref in finding.refs)
    return named and (moved_apart in mends or moved_inwards in mends or finding.rule == legend_unplaced.name)


class _Search:
    def __init__(self, text: str, file: str, folder: Path, today: str) -> None:
        self.text, self.file, self.folder, self.today = text, file, folder, today
        self.before = self._built(text)
        self.panel = self.before.layout.panel
        self.movable: Movable = movable(text, file, folder, self.panel)
        self.needs = _Needs(self.panel, self.before.inspection)

    def _built(self, text: str) -> Built:
        return build(panel_from_text(text, self.file, self.folder), today=self.today)

    def run(self, tell: Told | None) -> Nudged:
        """Solve, build, hear the rules, until nothing is left or nothing more is learned."""
        still = _State(by={}, text=self.text, built=self.before, moves=Moves(by={}, cost=0.0, bound=0.0, short=0.0))
        best, bound, since = still, 0.0, 0
        if self._open(still):
            for number in range(MAX_ROUNDS):
                state = self._next()
                if state is None or since == MAX_WORSE:
                    break
                bound = state.moves.bound if number == 0 else bound
                since = 0 if state.rank < best.rank else since + 1
                best = min(best, state, key=lambda one: one.rank)
                if tell is not None:
                    tell(number + 1, MAX_ROUNDS, len(self._open(best)))
                if not self._open(state) or not self.needs.learn(self._open(state), state):
                    break
            if best.moves.cost > bound + len(best.by) * 2 * STEP:
                best = self._spared(best)
        return self._told(best, bound)

    def _open(self, state: _State) -> list[Finding]:
        inspection = state.built.inspection
        return [finding for finding in inspection.findings if clearable(finding, inspection)]

    def _next(self) -> _State | None:
        """The least moves that keep what is known to be needed, built."""
        found = least_moves(self._task(NEAR))
        if found.short:
            box = self.panel.outline.bounds
            away = max((part.at.distance(box.centre) for part in self.panel.parts), default=0.0)
            farther = least_moves(self._task(max(box.width, box.height) + away))
            found = min(found, farther, key=lambda one: (round(one.short, 3), one.cost))
        return self._after(found.by, found)

    def _after(self, by: Mapping[str, tuple[float, float]], moves: Moves) -> _State | None:
        try:
            text = with_moves(self.text, self.movable, by, self.file)
            return _State(by=by, text=text, built=self._built(text), moves=moves)
        except (SpecError, NotHereError):
            return None

    def _task(self, farthest: float) -> Task:
        return Task(
            at={part.ref: np.array(part.at) for part in self.panel.parts},
            units=self.movable.units,
            lines=self._lines,
            inside=self.needs.inside(unit_ref for unit in self.movable.units for unit_ref in unit.goes),
            broken=self.needs.broken,
            farthest=farthest,
            step=STEP,
        )

    @cached_property
    def _lines(self) -> tuple[Line, ...]:
        """Rows and columns of more than one unit."""
        of = {ref: unit.name for unit in self.movable.units for ref in unit.goes}
        return tuple(line for line in lines_of(self.panel) if len({of.get(ref, ref) for ref in line.refs}) > 1)

    def _spared(self, best: _State) -> _State:
        """The moves shortened as far as the rules allow, the longest first: none at all, else by halves."""
        built = 0
        for name in sorted(best.by, key=lambda name: -max(map(abs, best.by[name]))):
            low, high = 0, 1 << _HALVES
            while high - low > 1 and built < MAX_SPARED:
                tried = low if low == 0 and high == 1 << _HALVES else (low + high) // 2
                shorter = self._shortened(best, name, tried / high)
                built += shorter is not None
                if shorter is not None and shorter.rank < best.rank:
                    best, high = shorter, tried
                    if tried == 0:
                        break
                else:
                    low = max(tried, 1)
        return best

    def _shortened(self, best: _State, name: str, share: float) -> _State | None:
        """A state with one of the moves at a share of what it is; None where that costs no less."""
        x, y = (round(round(share * way / STEP) * STEP, 3) for way in best.by[name])
        by = {one: move for one, move in best.by.items() if one != name}
        if x or y:
            by[name] = x, y
        cost = self._cost(by)
        if cost > best.moves.cost - STEP / 2 or not by:
            return None
        return self._after(by, Moves(by=by, cost=cost, bound=best.moves.bound, short=0.0))

    def _cost(self, by: Mapping[str, tuple[float, float]]) -> float:
        """What moves cost, as the program counts them."""
        task = self._task(NEAR)
        after = places_after(task, by)
        gone = {ref: after[ref] - at for ref, at in task.at.items()}
        moved = math.fsum(abs(float(value)) for way in gone.values() for value in way)
        return moved + _lines_left(task.lines, gone)

    # --- what is told

    def _told(self, best: _State, bound: float) -> Nudged:
        numbers = {id(finding): number for number, finding in enumerate(self.before.inspection.findings, start=1)}
        after = Counter(sign(finding) for finding in best.built.inspection.findings)
        gone = []
        for finding in self._open_before:
            if after[sign(finding)]:
                after[sign(finding)] -= 1
            else:
                gone.append(finding)
        units = {unit.name: unit for unit in self.movable.units}
        steps = []
        for name in sorted(best.by, key=lambda name: self.movable.items[name]):
            refs = tuple(units[name].goes)
            clears = tuple(numbers[id(one)] for one in gone if not set(one.refs).isdisjoint(refs))
            start, end = self._at(self.panel, refs[0]), self._at(best.built.layout.panel, refs[0])
            steps.append(Step(refs=refs, start=start, end=end, clears=clears))
        left = tuple(
            Left(number=number, finding=finding, why=self._why(finding, best))
            for number, finding in enumerate(best.built.inspection.findings, start=1)
            if finding.severity is not Severity.NOTE
        )
        cost = best.moves.cost
        least = math.floor(min(bound, cost) * 100 + CLOSE) / 100
        return Nudged(text=best.text, built=best.built, steps=tuple(steps), left=left, cost=round(cost, 3), bound=least)

    @property
    def _open_before(self) -> list[Finding]:
        return [finding for finding in self.before.inspection.findings if finding.severity is not Severity.NOTE]

    def _at(self, panel: Panel, ref: str) -> Point:
        at = panel.by_ref[ref].at
        return Point(round(at.x - panel.datum.x, 3) + 0.0, round(at.y - panel.datum.y, 3) + 0.0)

    def _why(self, finding: Finding, best: _State) -> Message:
        """Why moves do not clear a finding."""
        if not clearable(finding, best.built.inspection):
            return said.not_by_moving()
        free = {ref for unit in self.movable.units for ref in unit.goes}
        held = [ref for ref in finding.refs if ref in self.panel.by_ref and ref not in free]
        if held and len(held) == len([ref for ref in finding.refs if ref in self.panel.by_ref]):
            return said.parts_stay(refs=held)
        return said.no_room_to_move()


def _lines_left(lines: Iterable[Line], gone: Mapping[str, Numbers]) -> float:
    """What it counts that parts leave their rows and columns: all but the most that go the same way."""
    from panelart.drafting.least_moves import LEAVING

    left = 0
    for line in lines:
        ways = Counter(round(float(gone[ref][line.axis]), 3) for ref in line.refs)
        left += len(line.refs) - max(ways.values())
    return LEAVING * left


# --- what is needed


class _Needs:
    """What parts need, from what they are and from what the rules were heard to find."""

    def __init__(self, panel: Panel, inspection: Inspection) -> None:
        self.panel = panel
        limits = limits_of(panel)
        self.around = Surroundings(panel, limits)
        self._margin = limits[f"{panel.marking.process.name}.edge_margin"].value
        self.order = {part.ref: number for number, part in enumerate(panel.parts)}
        self._more: dict[tuple[str, str], float] = defaultdict(float)
        self._white: dict[tuple[str, str], int] = {}
        self._inset: dict[str, float] = defaultdict(float)
        self._lettered: set[str] = set()
        self._framed: dict[tuple[str, str], Area] = {}
        self._kept: dict[tuple[str, str], tuple[tuple[float, int, Area | None], tuple[Rule, ...]]] = {}
        self._allowed = self._as_they_are(inspection)
        self._reach = {part.ref: self._radius(part.ref) for part in panel.parts}

    def _as_they_are(self, inspection: Inspection) -> set[tuple[str, str]]:
        """Pairs that no open finding names together: what they do not keep was accepted, or no rule asks for it."""
        named = {
            self._pair(one, two)
            for finding in inspection.findings
            if finding.severity is not Severity.NOTE
            for one, two in combinations([ref for ref in finding.refs if ref in self.order], 2)
        }
        return {pair for pair in combinations(self.order, 2) if pair not in named}

    def _pair(self, one: str, two: str) -> tuple[str, str]:
        return (one, two) if self.order[one] < self.order[two] else (two, one)

    # --- for the program

    def broken(self, places: Mapping[str, Numbers]) -> Sequence[Rule]:
        """The areas that steps between parts at these places lie in."""
        found: list[Rule] = []
        refs = list(self.order)
        at = np.array([places[ref] for ref in refs])
        reach = np.array([self._reach[ref] for ref in refs])
        apart = np.abs(at[:, None, :] - at[None, :, :]).max(axis=2)
        for one, two in np.argwhere(np.triu(apart < reach[:, None] + reach[None, :], 1)):
            step = at[two] - at[one]
            found += [rule for rule in self._rules(refs[one], refs[two]) if rule.area.depth(step) > _TOUCH]
        for ref in refs:
            found += [rule for rule in self._fields(ref) if rule.area.depth(places[ref]) > _TOUCH]
        return found

    def _rules(self, one: str, two: str) -> tuple[Rule, ...]:
        """What the step between two parts stays out of, with all that was learned."""
        pair = (one, two)
        known = (self._more.get(pair, 0.0), self._white.get(pair, -1), self._framed.get(pair))
        if pair not in self._kept or self._kept[pair][0] != known:
            areas = [self._as_allowed(pair, area) for area in self.around.between(one, two)]
            areas = [area.grown(known[0]) if known[0] else area for area in areas]
            if known[1] >= 0:
                areas += self._white_between(pair, _WHITES[known[1]])
            if known[2] is not None:
                areas.append(known[2])
            areas = list(outermost(areas))
            self._kept[pair] = known, tuple(Rule(one=one, two=two, area=area) for area in areas)
        return self._kept[pair][1]

    def _as_allowed(self, pair: tuple[str, str], area: Area) -> Area:
        """An area without what two parts do not keep now, where no finding says that they should."""
        if pair not in self._allowed:
            return area
        one, two = (np.array(self.panel.by_ref[ref].at) for ref in pair)
        deep = area.depth(two - one)
        return area.grown(-deep) if deep > 0.0 else area

    def _fields(self, ref: str) -> tuple[Rule, ...]:
        pair = ("", ref)
        if pair not in self._kept:
            rules = [
                Rule(one="", two=ref, area=area)
                for field in self.around.fields
                for area in self.around.out_of(ref, field)
            ]
            self._kept[pair] = (0.0, -1, None), tuple(rules)
        return self._kept[pair][1]

    def inside(self, refs: Iterable[str]) -> list[Inside]:
        """What keeps parts from the edge; never more than they keep now where no rule says so."""
        found = []
        for ref in dict.fromkeys(refs):
            ways, most = self.around.inside(ref)
            if ref in self._lettered:
                face = self.panel.outline.bounds.grown(-self._margin)
                box = Box.around(self._words[ref] or [Box(0.0, 0.0, 0.0, 0.0)])
                sides = np.array([(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)])
                room = [face.right - box.right, face.top - box.top, box.left - face.left, box.bottom - face.bottom]
                ways, most = np.concatenate([ways, sides]), np.concatenate([most, room])
            found.append(Inside(ref=ref, ways=ways, most=most - self._inset.get(ref, 0.0)))
        return found

    def _radius(self, ref: str) -> float:
        """How far a part reaches at most, with all that is due round it, mm."""
        own = self.around.of(ref)
        largest = max(
            (
                float(np.abs(np.concatenate([body.reach(_SQUARE)])).max())
                for body in (*own.front, *own.rear, *own.cuts, *own.hands)
            ),
            default=1.0,
        )
        return largest + _WIDEST

    # --- what the rules say

    def learn(self, findings: Sequence[Finding], state: _State) -> bool:
        """Take up what the rules still find after moves; whether that is anything new."""
        heard, lettered = False, list[str]()
        for finding in findings:
            if other_sides in state.built.inspection.rule(finding).mends:
                lettered += finding.refs
            heard |= self._heard(finding, state.built)
        return self._more_white(_with_members(lettered, self.panel), state.built.layout.panel) or heard

    def _heard(self, finding: Finding, built: Built) -> bool:
        frames = [name for name in finding.refs if _is_frame(name)]
        others = [name for name in finding.refs if name not in self.order and name not in frames]
        parts = [ref for ref in finding.refs if ref in self.order]
        if frames:
            return self._out_of_frame(frames[0], parts, built.layout)
        if others and parts and isinstance(finding.place, Box):
            return self._off_the_mark(parts[0], finding.place)
        return self._more_room(finding, parts, built.inspection)

    def _more_room(self, finding: Finding, parts: Sequence[str], inspection: Inspection) -> bool:
        """More room between two parts, or between a part and the edge, by what a finding is short."""
        short = needed(finding)
        mends = inspection.rule(finding).mends
        if short is None or not parts:
            return False
        if len(parts) > 1 and other_sides not in mends:
            self._more[self._pair(parts[0], parts[1])] += short + _MORE
        elif len(parts) == 1 and (moved_inwards in mends or moved_apart in mends):
            self._inset[parts[0]] += short + _MORE
        else:
            return False
        return True

    def _out_of_frame(self, name: str, parts: Sequence[str], layout: Layout) -> bool:
        """Parts that are not in a frame stay out of it, with their legends, where the frame is now."""
        drawn = next((frame.box for frame in layout.frames if frame.name == name), None)
        inside = layout.panel.frames[int(name.split()[1]) - 1].around
        others = [ref for ref in parts if ref not in inside]
        if drawn is None or not inside:
            return False
        frame = drawn.moved(ORIGIN.minus(layout.panel.by_ref[inside[0]].at))
        for ref in others:
            pair = self._pair(inside[0], ref)
            boxes = (frame, self._whole(ref)) if pair == (inside[0], ref) else (self._whole(ref), frame)
            self._framed[pair] = box_area(*boxes, _FRAME_GAP)
        return bool(others)

    def _off_the_mark(self, ref: str, place: Box) -> bool:
        """A part stays off a place where it met what is no part: words, a rule, a drawing."""
        area = box_area(place, self._whole(ref), _FRAME_GAP)
        known = self._fields(ref)
        self._kept["", ref] = (0.0, -1, None), (*known, Rule(one="", two=ref, area=area))
        return True

    def _whole(self, ref: str) -> Box:
        """What a part covers of the face with its legends, from its centre."""
        return Box.around([*map(_around, self.around.of(ref).front), *self._words[ref]])

    def _more_white(self, parts: Sequence[str], panel: Panel) -> bool:
        """More white between the legends of some parts and what is near them."""
        raised: set[tuple[str, str]] = set()
        new = False
        for ref in parts:
            if ref not in self._lettered:
                self._lettered.add(ref)
                new = True
            raised |= {
                pair
                for pair in (self._pair(ref, other) for other in self.order if other != ref)
                if self._white.get(pair, -1) + 1 < len(_WHITES) and self._crowded(pair, panel)
            }
        for pair in raised:
            self._white[pair] = self._white.get(pair, -1) + 1
        return new or bool(raised)

    def _crowded(self, pair: tuple[str, str], panel: Panel) -> bool:
        """Whether two parts do not keep the next larger white between legends and what is near them."""
        one, two = (np.array(panel.by_ref[ref].at) for ref in pair)
        white = _WHITES[self._white.get(pair, -1) + 1]
        return any(area.depth(two - one) > _TOUCH for area in self._white_between(pair, white))

    def _white_between(self, pair: tuple[str, str], white: float) -> Iterator[Area]:
        """The areas that keep white between legends of two parts, and between legends and what covers the face."""
        one, two = pair
        covers, there = self.around.of(one).covers, self.around.of(two).covers
        words, others = self._words[one], self._words[two]
        for box in words:
            yield from (box_area(box, other, white) for other in others)
            yield from (box_area(box, _around(body), white) for body in there)
        for box in others:
            yield from (box_area(_around(body), box, white) for body in covers)

    @cached_property
    def _words(self) -> Mapping[str, tuple[Box, ...]]:
        """The boxes of the legends and marks of each part where it has room all round, from its centre."""
        return lettered_boxes(self.panel)


_FRAME: Final = "frame "


def _is_frame(name: str) -> bool:
    return name.startswith(_FRAME) and name.removeprefix(_FRAME).isdecimal()


_FRAME_GAP: Final = 1.0
"""Between a frame and a part that is not in it, mm."""


def _around(body: Body) -> Box:
    right, top, left, bottom = (float(value) for value in body.reach(_SQUARE))
    return Box(-left, -bottom, right, top)


_SQUARE: Final = np.array([(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)])
_TOUCH: Final = 1e-4
_WIDEST: Final = 40.0
"""Half of what the widest clearance takes, gloved plugs and what was learned included, mm."""


def _with_members(names: Iterable[str], panel: Panel) -> list[str]:
    """The parts among what findings name, and for a frame those in it."""
    found: list[str] = []
    for name in names:
        if name in panel.by_ref:
            found.append(name)
        elif _is_frame(name):
            found += panel.frames[int(name.split()[1]) - 1].around
    return list(dict.fromkeys(found))
