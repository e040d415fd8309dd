"""Places chosen together: every legend is a variable, every clear place a value, and the whole is to cost least.

Neighbours in a row or column like to share side and line, members of a frame their side. Leaving a legend out costs
more than any later resort, a later resort more than any ugliness. Later resorts are made only when some legend is left
out without them, and only for such legends and those that stand in their way.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from itertools import islice

import numpy as np
import shapely
from msgspec.structs import replace
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.geometry import Point
from panelart.geometry.distinct import distinct_rows
from panelart.legends.candidates import (
    UPRIGHT,
    Candidate,
    Lines,
    Near,
    boxes_of,
    crowded,
    near_names,
    over_position,
    position_candidates,
    resort_names,
    style_of,
    with_lines,
)
from panelart.legends.frames import Frame
from panelart.legends.obstacles import MARK_CLEARANCE, Field, Obstacle
from panelart.legends.solver import HARD, Problem, Solution, in_tiers, solve
from panelart.legends.solver.problem import Costs
from panelart.legends.stand import Stand
from panelart.legends.wanted import SAME_LINE, Wanted, mirrored, neighbours, of_one_control, of_one_frame, rows
from panelart.lettering.hyphenation import divided
from panelart.messages import Said, english
from panelart.model.layout import Proof
from panelart.model.panel import Panel, Place, Placing

_UPRIGHT_OF = {0: UPRIGHT, 1: (Place.RIGHT, Place.LEFT)}


class Accepted(Struct, frozen=True):
    """Where a legend stood in an accepted placement: its words, its side and its first base line's start."""

    text: str
    place: str
    at: Point


class Choice(Struct, frozen=True):
    """One legend with its clear places, cheapest first, and its refused places with what is in the way of each."""

    wanted: Wanted
    candidates: tuple[Candidate, ...]
    refused: tuple[tuple[Candidate, tuple[Said, ...]], ...]

    @property
    def blockers(self) -> tuple[str, ...]:
        """What is most often in the way."""
        names: Counter[Said] = Counter(name for _, names in self.refused for name in names)
        return most_common(names)


class Task(Struct, frozen=True, kw_only=True):
    """All that the choice depends on."""

    panel: Panel
    wanted: Sequence[Wanted]
    stands: Mapping[str, Stand]
    field: Field
    frames: Sequence[Frame] = ()
    accepted: Mapping[str, Accepted] | None = None


class Chosen(Struct, frozen=True, kw_only=True):
    """The choices, the value taken by each (None for left out), what pairs cost, and how good it all is."""

    choices: tuple[Choice, ...]
    taken: tuple[int | None, ...]
    looks: Problem
    proof: Proof

    @property
    def resorting(self) -> frozenset[int]:
        """The legends that have later resorts to choose from."""
        return frozenset(
            index
            for index, choice in enumerate(self.choices)
            if any(candidate.resorts for candidate in choice.candidates)
        )

    def candidate(self, index: int) -> Candidate | None:
        """The place taken by a legend."""
        value = self.taken[index]
        return None if value is None else self.choices[index].candidates[value]


def most_common(names: Counter[Said]) -> tuple[str, ...]:
    """The three names met most often."""
    found = sorted((-count, english(name), str(name)) for name, count in names.items())
    return tuple(name for _, _, name in found[:3])


def choose(task: Task, resorting: Collection[int] = ()) -> Chosen:
    """The cheapest places.

    `resorting` are legends that had later resorts to choose from in an answer before this; if any legend needs one,
    they have them again.
    """
    choices = _choices(task)
    chosen = _solved(task, choices)
    left_out = [index for index, value in enumerate(chosen.taken) if value is None]
    if not left_out:
        return chosen
    wider = _with_resorts(task, choices, left_out, resorting)
    return chosen if wider is None else _solved(task, wider)


# --- candidates of all legends


def _choices(task: Task) -> list[Choice]:
    lines = _Lines(task)
    return _sifted(task, {index: lines.candidates(index) for index in range(len(task.wanted))})


class _Lines:
    """Base lines and edges that neighbours may share."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.lines: list[dict[Place, set[float]]] = [{} for _ in task.wanted]
        positions = [index for index, want in enumerate(task.wanted) if want.kind == "position"]
        self._shared({index: self._positions(index, {}) for index in positions}, 0)
        self.over = self._over(positions)
        self.near = {
            index: near_names(want.request, self._stand(index), task.panel.marking)
            for index, want in enumerate(task.wanted)
            if want.kind == "name"
        }
        names = {index: self._named(index, near, {}) for index, near in self.near.items()}
        self._shared(names, 0)
        self._shared(names, 1)

    def _over(self, positions: Iterable[int]) -> dict[str, dict[Place, tuple[float, ...]]]:
        """By part, the base lines above and below that clear the names of its own positions."""
        found: dict[str, dict[Place, tuple[float, ...]]] = {}
        for index in positions:
            want = self.task.wanted[index]
            name = want.part.legend
            if name is None or want.way not in (Place.ABOVE, Place.BELOW):
                continue
            cap_height = style_of(name, self.task.panel.marking).cap_height
            along = [one for one in self._positions(index, self._sorted(index)) if one.form == "along"]
            over = found.setdefault(want.part.ref, {})
            lines = [over_position(candidate, want.way, cap_height) for candidate in along]
            over[want.way] = (*over.get(want.way, ()), *lines)
        return found

    def _positions(self, index: int, lines: Lines) -> list[Candidate]:
        want = self.task.wanted[index]
        return position_candidates(want.request, want.way, self._stand(index), self.task.panel.marking, lines=lines)

    def _stand(self, index: int) -> Stand:
        return self.task.stands[self.task.wanted[index].part.ref]

    def _named(self, index: int, near: Sequence[Near], lines: Lines) -> list[Candidate]:
        want = self.task.wanted[index]
        over = self.over.get(want.part.ref, {})
        return with_lines(near, want.request, self.task.panel.marking.placing, over=over, lines=lines)

    def _sorted(self, index: int) -> dict[Place, list[float]]:
        return {place: sorted(values) for place, values in self.lines[index].items()}

    def _shared(self, of: Mapping[int, Sequence[Candidate]], axis: int) -> None:
        """Let every member of a row know the lines that words of one line would take of themselves."""
        for members in rows(self.task.wanted, axis):
            if len(members) < 2 or members[0] not in of:
                continue
            for place in _UPRIGHT_OF[axis]:
                lines = {
                    round(candidate.line, 6)
                    for index in members
                    for candidate in of[index]
                    if candidate.place is place and "\n" not in candidate.setting.text
                }
                for index in members:
                    self.lines[index].setdefault(place, set()).update(lines)

    def candidates(self, index: int, *, resorts: bool = False) -> list[Candidate]:
        want, marking = self.task.wanted[index], self.task.panel.marking
        stand = self._stand(index)
        lines = self._sorted(index)
        if want.kind == "position":
            return [] if resorts else self._positions(index, lines)
        if resorts:
            from panelart.legends.leaders import leader_candidates  # few panels need any

            near = self._named(index, resort_names(want.request, stand, marking), lines)
            return [*near, *leader_candidates(want.request, stand, marking, self.task.field)]
        return self._named(index, self.near[index], lines)


def _sifted(task: Task, candidates: Mapping[int, list[Candidate]]) -> list[Choice]:
    """The choices of some legends by their numbers: what is clear, and what is refused with what is in the way."""
    every = [candidate for found in candidates.values() for candidate in found]
    boxes = boxes_of(every)
    stands = [task.stands[task.wanted[index].part.ref] for index in candidates]
    dear = crowded(boxes, stands, [len(found) for found in candidates.values()], task.field).tolist()
    met = iter(zip(every, dear, task.field.blockers(boxes), strict=True))
    return [_choice(task, task.wanted[index], islice(met, len(found))) for index, found in candidates.items()]


def _choice(task: Task, want: Wanted, met: Iterable[tuple[Candidate, bool, Sequence[Obstacle]]]) -> Choice:
    """The choice of one legend, from its places with whether another part is as near and what blocks them."""
    ambiguous = task.panel.marking.placing.ambiguous
    kept: list[Candidate] = []
    refused: list[tuple[Candidate, tuple[Said, ...]]] = []
    for candidate, dear, blockers in met:
        full = candidate.dearer("another-part-as-near", ambiguous) if dear else candidate
        full = _moved(full, want, task)
        names: list[Said] = [obstacle.name for obstacle in blockers]
        names += _outside(candidate, want, task.frames)
        if names:
            refused.append((full, tuple(dict.fromkeys(names))))
        else:
            kept.append(full)
    if want.request.offset is not None and not kept and refused:
        # The designer's word: where they put it, it stands, and the checks say what is wrong with that.
        kept.append(refused.pop(0)[0])
    kept.sort(key=lambda candidate: (candidate.resort, candidate.cost))  # equal costs keep the order of preference
    return Choice(want, tuple(kept), tuple(refused))


def _moved(candidate: Candidate, want: Wanted, task: Task) -> Candidate:
    before = None if task.accepted is None else task.accepted.get(want.name)
    if before is None:
        return candidate
    stays = candidate.place.value == before.place and (
        candidate.at.distance(before.at) < SAME_LINE
        if candidate.setting.text == before.text
        else abs(candidate.at.y - before.at.y) < SAME_LINE
    )
    return candidate if stays else candidate.dearer("moved", task.panel.marking.placing.moved)


def _outside(candidate: Candidate, want: Wanted, frames: Sequence[Frame]) -> list[str]:
    """Frames whose rules a place breaks: out of one of its own, or into one it does not belong to."""
    if not frames:
        return []
    ref, box = want.part.ref, candidate.box
    return [
        frame.name
        for frame in frames
        if (not frame.inside.contains(box) if ref in frame.request.around else frame.closed and frame.box.overlaps(box))
    ]


def _with_resorts(
    task: Task, choices: Sequence[Choice], left_out: Sequence[int], resorting: Collection[int]
) -> list[Choice] | None:
    """The choices with later resorts for what is left out, for what stands in its way and for `resorting`.

    Names that may be hyphenated have theirs too. None when there are none.
    """
    lines = _Lines(task)
    concerned = _stuck(choices, left_out, task.panel.marking.placing) | set(resorting)
    # Broken words make room in a whole row, not only beside what was left out.
    concerned |= {index for index, want in enumerate(task.wanted) if divided(want.request.spans)}
    resorts = {index: lines.candidates(index, resorts=True) for index in sorted(concerned)}
    wider = list(choices)
    for index, extra in zip(resorts, _sifted(task, resorts), strict=True):
        wider[index] = _widened(choices[index], extra)
    more = any(len(wider[index].candidates) > len(choices[index].candidates) for index in resorts)
    return wider if more else None


def _stuck(choices: Sequence[Choice], left_out: Sequence[int], placing: Placing) -> set[int]:
    """The names among what is left out, and the legends whose places clash with what is left out."""
    out = set(left_out)
    names = {index for index in left_out if choices[index].wanted.kind == "name"}
    return names | {i if j in out else j for i, _, j, _ in clashes(choices, placing) if (i in out) != (j in out)}


def _widened(choice: Choice, extra: Choice) -> Choice:
    """A choice with the places of another that it has not got, which are the last to be turned to."""
    seen = {(candidate.setting.text, candidate.setting.font, candidate.at) for candidate in choice.candidates}
    new = [c for c in extra.candidates if (c.setting.text, c.setting.font, c.at) not in seen]
    return replace(choice, candidates=(*choice.candidates, *new), refused=(*choice.refused, *extra.refused))


# --- the problem


class _Pairs:
    """Tables of pair costs, made when first asked for."""

    def __init__(self, sizes: Sequence[int]) -> None:
        self._sizes = sizes
        self.tables: dict[tuple[int, int], Costs] = {}

    def table(self, i: int, j: int) -> Costs:
        """The costs of two variables' values, those of `i` down and those of `j` across."""
        low, high = min(i, j), max(i, j)
        if (low, high) not in self.tables:
            self.tables[low, high] = np.zeros((self._sizes[low], self._sizes[high]), dtype=np.int64)
        costs = self.tables[low, high]
        return costs if i < j else costs.T


def _solved(task: Task, choices: Sequence[Choice]) -> Chosen:
    """Solve; the last value of each variable is 'left out'."""
    looks = _looks(task, choices)
    tiers = [looks]
    if any(candidate.resorts for choice in choices for candidate in choice.candidates):
        tiers.append(_unary(choices, looks, lambda candidate: candidate.resort, 0))
    tiers.append(_unary(choices, looks, lambda _: 0, 1))
    if not choices:
        return Chosen(choices=(), taken=(), looks=looks, proof=Proof(cost=0, bound=0))
    problem, weights = in_tiers(tiers)
    solution = solve(problem)
    taken = tuple(
        value if value < len(choice.candidates) else None
        for choice, value in zip(choices, solution.values, strict=True)
    )
    return Chosen(choices=tuple(choices), taken=taken, looks=looks, proof=_proof(solution, weights))


def _proof(solution: Solution, weights: Sequence[int]) -> Proof:
    """Cost and bound of the highest tier that is not proved, of the looks when all above are."""
    cost, bound = solution.cost, solution.bound
    for weight in reversed(weights[1:]):
        if bound < cost // weight * weight:
            break
        cost, bound = cost % weight, bound - cost // weight * weight
    return Proof(cost=max(cost, bound), bound=bound)


def _unary(choices: Sequence[Choice], looks: Problem, cost_of: Callable[[Candidate], int], left_out: int) -> Problem:
    unaries = tuple(
        np.array([cost_of(candidate) for candidate in choice.candidates] + [left_out], dtype=np.int64)
        for choice in choices
    )
    return Problem(unaries=unaries, pairs={}, names=looks.names)


def _looks(task: Task, choices: Sequence[Choice]) -> Problem:
    placing = task.panel.marking.placing
    unaries = [
        np.array([candidate.cost for candidate in choice.candidates] + [0], dtype=np.int64) for choice in choices
    ]
    pairs = _Pairs([len(costs) for costs in unaries])
    for i, j, costs in _unlikeness(task, choices):
        pairs.table(i, j)[:-1, :-1] += costs
    for (i, j), rows_ in _by_pair(_meetings(choices, placing)):
        pairs.table(i, j)[rows_[:, 0], rows_[:, 1]] = HARD
    return Problem(unaries=tuple(unaries), pairs=pairs.tables, names=tuple(choice.wanted.name for choice in choices))


def _unlikeness(task: Task, choices: Sequence[Choice]) -> Iterator[tuple[int, int, NDArray[np.int64]]]:
    """What places of two legends cost that ought to be alike: in a row, of one control, in one frame, mirrored."""
    placing, frames = task.panel.marking.placing, task.panel.frames
    numbers: dict[str, int] = {}
    features = [_Features(choice.candidates, task.stands[choice.wanted.part.ref], numbers) for choice in choices]
    wants = [choice.wanted for choice in choices]
    in_row: set[frozenset[int]] = set()
    for axis in (0, 1):
        for i, j in neighbours(wants, axis):
            in_row.add(frozenset((i, j)))
            yield i, j, _likeness(features[i], features[j], axis, placing)
    for i, j in of_one_control(wants):
        yield i, j, placing.other_form * features[i].differ(features[j], "forms")
    for i, j in of_one_frame(wants, frames):
        if frozenset((i, j)) not in in_row:
            yield i, j, placing.group_side * features[i].differ(features[j], "places")
    for i, j, middle in mirrored(wants, frames):
        yield i, j, placing.balance * (~features[i].balances(features[j], middle)).astype(np.int64)


def _by_pair(meet: NDArray[np.int64]) -> Iterable[tuple[tuple[int, int], NDArray[np.int64]]]:
    """Meetings (i, a, j, b), sorted by i and j, put together by legends: the two, and rows of their candidates."""
    ends = np.flatnonzero((meet[1:, [0, 2]] != meet[:-1, [0, 2]]).any(axis=1)) + 1
    for rows_ in np.split(meet, ends) if len(meet) else ():
        yield (int(rows_[0, 0]), int(rows_[0, 2])), rows_[:, [1, 3]]


class _Features:
    """What neighbours compare, as arrays over the candidates of one legend.

    `ends` are the left end, the middle and the right end of the words on the panel, one a row; `own` those of the part.
    """

    def __init__(self, candidates: Sequence[Candidate], stand: Stand, numbers: dict[str, int]) -> None:
        def told(words: Iterable[str]) -> NDArray[np.int64]:
            return np.array([numbers.setdefault(word, len(numbers)) for word in words], dtype=np.int64)

        self.places = told(candidate.place.value for candidate in candidates)
        self.forms = told(candidate.form for candidate in candidates)
        self.lines = np.array([candidate.line for candidate in candidates], dtype=np.float64)
        self.upright = np.array([candidate.place in UPRIGHT for candidate in candidates], dtype=bool)
        left, _, right, _ = boxes_of(candidates).T
        self.ends = np.stack([left, (left + right) / 2, right])
        self.own = np.array([stand.box.left, stand.centre.x, stand.box.right])[:, np.newaxis]

    def differ(self, other: _Features, what: str) -> NDArray[np.int64]:
        """1 where the two differ."""
        mine, its = getattr(self, what), getattr(other, what)
        apart: NDArray[np.int64] = (mine[:, np.newaxis] != its[np.newaxis, :]).astype(np.int64)
        return apart

    def balances(self, other: _Features, middle: float) -> NDArray[np.bool_]:
        """Where the words of the two mirror each other about an upright line."""
        return _meet(self.ends - middle, middle - other.ends[::-1])


def _meet(one: NDArray[np.float64], other: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which places of two legends share an end or the middle."""
    return np.asarray((np.abs(one[:, :, np.newaxis] - other[:, np.newaxis, :]) <= SAME_LINE).any(axis=0))


def _likeness(one: _Features, other: _Features, axis: int, placing: Placing) -> NDArray[np.int64]:
    """What neighbours in a row (axis 0) or column cost together.

    In a row words on one side want one base line, and to stand to their parts in one way, so that they are spaced as
    the parts are; in a column they want one edge or one middle.
    """
    apart = (one.differ(other, "places") | one.differ(other, "forms")).astype(bool)
    upright: NDArray[np.bool_] = one.upright[:, np.newaxis]
    off = np.abs(one.lines[:, np.newaxis] - other.lines[np.newaxis, :]) > SAME_LINE
    if axis == 0:
        uneven = upright & ~_meet(one.ends - one.own, other.ends - other.own)
        cost = placing.other_line * (off & upright) + placing.spacing * uneven
    else:
        cost = placing.other_line * np.where(upright, ~_meet(one.ends, other.ends), off)
    return np.where(apart, placing.other_side, cost).astype(np.int64)


def clashes(choices: Sequence[Choice], placing: Placing) -> list[list[int]]:
    """Pairs of candidates (i, a, j, b), i before j, of different legends that come too near to each other."""
    rows_: list[list[int]] = _meetings(choices, placing).tolist()
    return rows_


def _meetings(choices: Sequence[Choice], placing: Placing) -> NDArray[np.int64]:
    """The same as rows, sorted by legends, then candidates. Words side by side keep farther apart than others."""
    counts = [len(choice.candidates) for choice in choices]
    owners = np.repeat(np.arange(len(choices)), counts)
    numbers = np.arange(len(owners)) - np.repeat(np.cumsum([0, *counts])[:-1], counts)
    candidates = [candidate for choice in choices for candidate in choice.candidates]
    boxes = boxes_of(candidates)
    caps = np.array([candidate.setting.cap_height for candidate in candidates])
    room = placing.white * caps
    beside = max(placing.white, placing.beside) * caps
    tree = shapely.STRtree(shapely.box(*boxes.T))
    around = boxes + np.stack([-beside, -room, beside, room], axis=1)
    ones, others = tree.query(shapely.box(*around.T))
    keep = owners[ones] < owners[others]
    ones, others = ones[keep], others[keep]
    gap = np.minimum(room[ones], room[others]) - 1e-9
    low, high = np.maximum(boxes[ones, 1], boxes[others, 1]), np.minimum(boxes[ones, 3], boxes[others, 3])
    minimum = np.minimum(boxes[ones, 3] - boxes[ones, 1], boxes[others, 3] - boxes[others, 1])
    across = np.where(high - low > minimum / 2, np.minimum(beside[ones], beside[others]) - 1e-9, gap)
    apart = np.stack([across, gap], axis=1)
    near = boxes[others, :2] < boxes[ones, 2:] + apart
    near &= boxes[ones, :2] < boxes[others, 2:] + apart
    met = near.all(axis=1)
    led = np.array(sorted(_leader_clashes(candidates, owners, boxes)), dtype=np.int64).reshape(-1, 2)
    pairs = distinct_rows(np.concatenate([np.stack([ones[met], others[met]], axis=1), led]))
    rows_ = np.stack([owners[pairs[:, 0]], numbers[pairs[:, 0]], owners[pairs[:, 1]], numbers[pairs[:, 1]]], axis=1)
    return rows_[np.lexsort((rows_[:, 3], rows_[:, 1], rows_[:, 2], rows_[:, 0]))]


def _leader_clashes(
    candidates: Sequence[Candidate], owners: NDArray[np.int64], boxes: NDArray[np.float64]
) -> set[tuple[int, int]]:
    """Pairs of which at least one has a leader that comes too near to the other's words or leader."""
    leading = [k for k, candidate in enumerate(candidates) if candidate.leader]
    if not leading:
        return set()
    paths = np.array([shapely.LineString(candidates[k].leader) for k in leading], dtype=object)
    found: set[tuple[int, int]] = set()
    for things, numbers in ((shapely.box(*boxes.T), list(range(len(candidates)))), (paths, leading)):
        here, there = shapely.STRtree(things).query(paths, predicate="dwithin", distance=MARK_CLEARANCE + 0.2)
        for one, other in zip(here.tolist(), there.tolist(), strict=True):
            k, m = leading[one], numbers[other]
            if owners[k] != owners[m]:
                found.add((k, m) if owners[k] < owners[m] else (m, k))
    return found
