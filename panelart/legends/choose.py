"""Places chosen together: every legend is a variable, every clear place a value, and the whole is to cost least.

Legends that belong together are one variable, whose values are the ways of the whole group. Neighbours in a row or
column that are unlike want to share side and line, members of a frame their side. Leaving a legend out costs more than
a group that comes apart, that more than any later resort, and a later resort more than any ugliness. Later resorts are
made only when some legend is left out without them, and only for such legends and those that stand in their way; a
group comes apart only when neither finds a place for all.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence

import numpy as np
import shapely
from msgspec.structs import replace
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.geometry import Point
from panelart.legends.candidates import UPRIGHT, Candidate, is_divided, style_of
from panelart.legends.frames import Frame
from panelart.legends.groups import Way, groups, in_rows
from panelart.legends.likeness import unlikeness
from panelart.legends.meetings import by_pair, meetings
from panelart.legends.obstacles import Boxes, Field, contain, overlap
from panelart.legends.offers import Offers
from panelart.legends.ownership import Claim
from panelart.legends.solver import HARD, Budget, Problem, Solution, bound, in_tiers, solve
from panelart.legends.solver.problem import Costs
from panelart.legends.stand import Stand
from panelart.legends.verdicts import Spot, Verdict, spots
from panelart.legends.wanted import SAME_LINE, Wanted
from panelart.messages import Said, english
from panelart.model.layout import Proof
from panelart.model.panel import Panel, Placing

Unit = tuple[int, ...]
"""The numbers of legends that are placed as one: a group, or one alone."""

APART = 2
"""How often groups may come apart, each time those that are left out and those that stand in their way."""

MOST_APART = 60
"""So many legends come apart at most: on a panel where more would, something is wrong that no placing mends."""

ROUND = 4.0
"""So far round all that a part's legends keep clear of each has some of its ink, over its capitals: words that start
beyond a name of a position are no farther. Our choice."""

MOST_WAYS = 12
"""Ways of a group that has come apart that its members are held against, those that most of them can go first."""


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
    """All that the choice depends on.

    `offers` hold whatever the frames are. `frames` are those that stand, `drawn` what of them is in the way.
    """

    panel: Panel
    offers: Offers
    frames: Sequence[Frame] = ()
    drawn: Field | None = None
    accepted: Mapping[str, Accepted] | None = None

    @property
    def wanted(self) -> Sequence[Wanted]:
        """The legends that a place is looked for."""
        return self.offers.wanted

    @property
    def stands(self) -> Mapping[str, Stand]:
        """The parts as their own legends see them."""
        return self.offers.stands

    def covers(self, regions: Boxes) -> NDArray[np.bool_]:
        """Of each region, whether it lies in the clearance of one thing as a whole."""
        found = self.offers.field.covers(regions)
        return found if self.drawn is None else found | self.drawn.covers(regions)


class Chosen(Struct, frozen=True, kw_only=True):
    """The choices, the value taken by each (None for left out), what pairs cost, and how good it all is.

    `units` are the legends that were placed as one, each with as many places as its fellows.
    """

    choices: tuple[Choice, ...]
    taken: tuple[int | None, ...]
    looks: Problem
    proof: Proof
    units: tuple[Unit, ...] = ()

    def unit(self, index: int) -> Unit:
        """The legends that are placed as one with this one, itself among them."""
        return next((unit for unit in self.units if index in unit), (index,))

    @property
    def left_out(self) -> list[int]:
        """The legends that have no place."""
        return [index for index, value in enumerate(self.taken) if value is None]

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
    shut = _shut_in(task)
    units = _units(task.wanted, shut)
    choices = _offered(task, units, resorts=False)
    chosen = _solved(task, choices, units)
    if shut.issuperset(chosen.left_out):
        return chosen
    return _pressed(task, chosen, choices, shut, resorting)


def _pressed(
    task: Task,
    chosen: Chosen,
    choices: dict[int, Choice],
    shut: frozenset[int],
    resorting: Collection[int],
) -> Chosen:
    """The cheapest places where some legend has none but in later resorts, or only if groups come apart."""
    units = list(chosen.units)

    def stuck_of(chosen: Chosen) -> list[Unit]:
        return _stuck(units, chosen, shut)

    concerned = _concerned(task, units, stuck_of(chosen), resorting)
    choices |= _offered(task, concerned, resorts=True)
    chosen = _solved(task, choices, units)
    if not shut.issuperset(chosen.left_out):
        units, fresh = _in_rows(task, units, stuck_of(chosen))
        choices |= _offered(task, fresh, resorts=True)
        chosen = _solved(task, choices, units) if fresh else chosen
    if not shut.issuperset(chosen.left_out):
        units, fresh = _without_hopeless(task, units, chosen, choices)
        choices |= _offered(task, fresh, resorts=True)
        chosen = _solved(task, choices, units) if fresh else chosen
    hubs: list[_Hub] = []
    for _ in range(APART):
        if all(len(unit) == 1 for unit in units):
            break
        stuck = _coming_apart(stuck_of(chosen), chosen)
        if not stuck:
            break
        for unit in stuck:
            hub, alone = _apart(task, unit)
            hubs.append(hub)
            choices |= alone
        units = _divided(units, {unit: [(index,) for index in unit] for unit in stuck})
        chosen = _solved(task, choices, units, hubs)
    return chosen


def clashes(choices: Sequence[Choice], placing: Placing) -> list[list[int]]:
    """Pairs of places (i, a, j, b), i before j, of different legends that come too near to each other."""
    rows: list[list[int]] = meetings([choice.candidates for choice in choices], placing).tolist()
    return rows


# --- units


def _shut_in(task: Task) -> frozenset[int]:
    """Legends of parts that lie under something else with all that is round them: nothing that is tried finds a place.

    Where the designer put one, it stands.
    """
    found = [index for index, want in enumerate(task.wanted) if want.request.offset is None]
    grounds = np.array([task.stands[task.wanted[index].part.ref].grown for index in found], dtype=object)
    room = np.array([ROUND * style_of(task.wanted[index].request, task.panel.marking).cap_height for index in found])
    regions = shapely.bounds(grounds).reshape(-1, 4) + room[:, np.newaxis] * np.array([-1.0, -1.0, 1.0, 1.0])
    return frozenset(found[number] for number in np.flatnonzero(task.covers(regions)).tolist())


def _units(wants: Sequence[Wanted], shut: Collection[int] = ()) -> list[Unit]:
    """Every legend, with its like or alone; those that have no place do not hold up the others."""
    open_ = (tuple(index for index in group if index not in shut) for group in groups(wants))
    together = [group for group in open_ if len(group) > 1]
    grouped = {index for group in together for index in group}
    return [*together, *((index,) for index in range(len(wants)) if index not in grouped)]


def _divided(units: Sequence[Unit], parts: Mapping[Unit, Sequence[Unit]]) -> list[Unit]:
    """The units with some of them in parts."""
    return [part for unit in units for part in parts.get(unit, (unit,))]


def _in_rows(task: Task, units: Sequence[Unit], stuck: Iterable[Unit]) -> tuple[list[Unit], list[Unit]]:
    """The units with those that are stuck divided into rows, and the rows."""
    rows = {unit: in_rows(task.wanted, unit) for unit in stuck}
    divided_ = {unit: parts for unit, parts in rows.items() if len(parts) > 1}
    return _divided(units, divided_), [part for parts in divided_.values() for part in parts]


def _without_hopeless(
    task: Task, units: Sequence[Unit], chosen: Chosen, choices: dict[int, Choice]
) -> tuple[list[Unit], list[Unit]]:
    """The units, those that are left out without the members that have no clear place at all; and what is left of them.

    The choices of the members without a place are put in.
    """
    out = set(chosen.left_out)
    parts: dict[Unit, list[Unit]] = {}
    fresh: list[Unit] = []
    for unit in (unit for unit in units if len(unit) > 1 and not out.isdisjoint(unit)):
        hopeless = _hopeless(task, unit)
        if hopeless:
            choices |= hopeless
            rest = tuple(index for index in unit if index not in hopeless)
            fresh += [rest] if rest else []
            parts[unit] = [*([rest] if rest else []), *((index,) for index in hopeless)]
    return _divided(units, parts), fresh


def _hopeless(task: Task, unit: Unit) -> dict[int, Choice]:
    """The choices of those of a group that have no clear place, whatever the others do."""
    met = _met(
        task, {index: task.offers.candidates(index, resorts=True, leaders=False) for index in unit}, resorts=True
    )
    return {index: _choice(task.wanted[index], met[index]) for index in unit if all(one.blockers for one in met[index])}


def _coming_apart(stuck: Sequence[Unit], chosen: Chosen) -> list[Unit]:
    """Of the units that are stuck the groups that come apart: those with something left out first, not too many."""
    out = set(chosen.left_out)
    found: list[Unit] = []
    for unit in sorted((unit for unit in stuck if len(unit) > 1), key=out.isdisjoint):
        if sum(len(one) for one in found) + len(unit) <= MOST_APART:
            found.append(unit)
    return found


def _stuck(units: Sequence[Unit], chosen: Chosen, shut: Collection[int]) -> list[Unit]:
    """The units of legends that are left out, and those of which a place clashes with one of these."""
    out = set(chosen.left_out).difference(shut)
    if all(not out.isdisjoint(unit) for unit in units):
        return list(units)
    met = (pair for pair, costs in chosen.looks.pairs.items() if (costs >= HARD).any())
    rivals = {i if j in out else j for i, j in met if (i in out) != (j in out)}
    return [unit for unit in units if not (out | rivals).isdisjoint(unit)] if out else []


def _concerned(task: Task, units: Sequence[Unit], stuck: Collection[Unit], resorting: Collection[int]) -> list[Unit]:
    """The units that later resorts are made for."""
    # Broken words make room in a whole row, not only beside what was left out.
    more = {index for index, want in enumerate(task.wanted) if is_divided(want.request)} | set(resorting)
    return [unit for unit in units if unit in stuck or not more.isdisjoint(unit)]


class _Hub(Struct, frozen=True):
    """A group that has come apart: its members, and the ways that they are held against."""

    members: Unit
    ways: tuple[Way, ...]

    def unlike(self, member: int, candidates: Sequence[Candidate]) -> Costs:
        """1 where a place of a member is not that of a way; ways down, places across, the last of them 'left out'."""
        own = [way[self.members.index(member)].key for way in self.ways]
        keys = [candidate.key for candidate in candidates]
        return np.array([[*(int(key != way) for key in keys), 0] for way in own], dtype=np.int64)


# --- choices


def _offered(task: Task, units: Sequence[Unit], *, resorts: bool) -> dict[int, Choice]:
    """The choices of the legends of some units; those of one group have as many places, the n-th of all one way."""
    ways = {unit: task.offers.ways(unit, resorts=resorts) for unit in units if len(unit) > 1}
    places: dict[int, list[Candidate]] = {}
    for unit in units:
        if unit in ways:
            places |= {index: [way[number] for way in ways[unit]] for number, index in enumerate(unit)}
        else:
            places[unit[0]] = task.offers.candidates(unit[0], resorts=resorts, drawn=task.drawn)
    met = _met(task, places, resorts=resorts)
    found: dict[int, Choice] = {}
    for unit in units:
        if unit in ways:
            found |= _together(task, unit, [met[index] for index in unit])
        else:
            found[unit[0]] = _choice(task.wanted[unit[0]], met[unit[0]])
    return found


def _apart(task: Task, unit: Unit) -> tuple[_Hub, dict[int, Choice]]:
    """A group come apart: what its members are held against, and the choice that each has then."""
    ways = task.offers.ways(unit, resorts=True)
    places = {
        index: _distinct(
            [*task.offers.candidates(index, resorts=True, drawn=task.drawn), *(way[number] for way in ways)]
        )
        for number, index in enumerate(unit)
    }
    choices = {index: _choice(task.wanted[index], met) for index, met in _met(task, places, resorts=True).items()}
    clear = [{candidate.key for candidate in choices[index].candidates} for index in unit]
    ranked = sorted(
        ways,
        key=lambda way: (
            -sum(one.key in keys for one, keys in zip(way, clear, strict=True)),
            sum(one.resort for one in way),
            sum(one.cost for one in way),
        ),
    )
    return _Hub(unit, tuple(ranked[:MOST_WAYS])), choices


def _distinct(candidates: Iterable[Candidate]) -> list[Candidate]:
    """Each place once, for the least that it costs."""
    found: dict[tuple[str, str, Point], Candidate] = {}
    for one in candidates:
        if one.key not in found or (one.resort, one.cost) < (found[one.key].resort, found[one.key].cost):
            found[one.key] = one
    return list(found.values())


class _Met(Struct, frozen=True):
    """A place with all that it costs, and what is in its way."""

    candidate: Candidate
    blockers: tuple[Said, ...]


def _met(task: Task, places: Mapping[int, Sequence[Candidate]], *, resorts: bool) -> dict[int, list[_Met]]:
    """The places of some legends by their numbers, each held against all that stands.

    A place beside another part that is about as near is a later resort.
    """
    every = [(index, candidate) for index, found in places.items() for candidate in found]
    asked = spots(every)
    verdicts = task.offers.verdicts.of(asked)
    names = _in_the_way(task, verdicts, asked, resorts=resorts)
    wants, placing = task.wanted, task.panel.marking.placing
    met: dict[int, list[_Met]] = {index: [] for index in places}
    for (index, candidate), spot in zip(every, asked, strict=True):
        full, verdict = candidate, verdicts[spot]
        if verdict.claim or verdict.over:  # most places cost nothing beside others
            full = _beside_others(candidate, wants[index], verdict, placing, resorts=resorts)
        if task.accepted is not None:
            full = _moved(full, wants[index], task.accepted, placing)
        met[index].append(_Met(full, names[spot]))
    return met


def _in_the_way(
    task: Task, found: Mapping[Spot, Verdict], asked: Iterable[Spot], *, resorts: bool
) -> dict[Spot, tuple[Said, ...]]:
    """What is in the way of each spot: what stands, a part that is as near, and frames."""
    nearer = task.offers.verdicts.nearer
    names: dict[Spot, tuple[Said, ...]] = {}
    more = _frames_in_the_way(task, list(dict.fromkeys(asked)))
    for spot in asked:
        if spot not in names:
            verdict = found[spot]
            taken = _is_taken(verdict.claim, task.wanted[spot[0]], resorts=resorts)
            names[spot] = (*verdict.blockers, nearer(verdict.ref)) if taken else verdict.blockers
            if spot in more:
                drawn, ruled = more[spot]
                names[spot] = tuple(dict.fromkeys((*verdict.blockers, *drawn, *names[spot], *ruled)))
    return names


def _frames_in_the_way(task: Task, each: Sequence[Spot]) -> dict[Spot, tuple[list[Said], list[str]]]:
    """For spots the lines and titles of frames that stand there, and the frames whose rules a place there breaks."""
    if not task.frames or not each:
        return {}
    boxes = np.array([spot[1:5] for spot in each], dtype=np.float64)
    drawn: list[list[Said]] = [[] for _ in each]
    if task.drawn is not None:
        drawn = [[thing.name for thing in met] for met in task.drawn.met_by(shapely.box(*boxes.T))]
    return dict(zip(each, zip(drawn, _ruled(task, each, boxes), strict=True), strict=True))


def _ruled(task: Task, each: Sequence[Spot], boxes: Boxes) -> list[list[str]]:
    """For each spot the frames whose rules it breaks: out of one of its own, or into one it does not belong to."""
    found: list[list[str]] = [[] for _ in each]
    for frame in task.frames:
        own = np.array([task.wanted[spot[0]].part.ref in frame.request.around for spot in each])
        into = overlap(frame.box, boxes) if frame.closed else np.zeros(len(boxes), dtype=bool)
        for number in np.flatnonzero(np.where(own, ~contain(frame.inside, boxes), into)).tolist():
            found[number].append(frame.name)
    return found


def _is_taken(claim: int, want: Wanted, *, resorts: bool) -> bool:
    """Whether the claim of another part forbids a place. Where the designer says which side, it is their word."""
    if claim in (Claim.NONE, Claim.NEAR) or _is_asked(want):
        return False
    return claim != Claim.BESIDE or not resorts


def _is_asked(want: Wanted) -> bool:
    return want.request.place is not None or want.request.offset is not None


def _beside_others(
    candidate: Candidate, want: Wanted, verdict: Verdict, placing: Placing, *, resorts: bool
) -> Candidate:
    """A place with what its neighbours make it cost.

    Words may reach over the middle between their part and the next in its row, or have another part about as near.
    """
    if verdict.over and candidate.place in UPRIGHT:
        candidate = candidate.dearer("overhang", placing.overhang)
    if verdict.claim == Claim.NONE:
        return candidate
    if verdict.claim == Claim.NEAR or _is_asked(want):
        return candidate.dearer("another-part-as-near", placing.ambiguous)
    if verdict.claim == Claim.BESIDE and resorts:
        return replace(candidate, resorts=(*candidate.resorts, ("between", placing.between)))
    return candidate


def _choice(want: Wanted, met: Sequence[_Met]) -> Choice:
    """The choice of one legend that is placed alone."""
    kept = [one.candidate for one in met if not one.blockers]
    refused = [(one.candidate, one.blockers) for one in met if one.blockers]
    if want.request.offset is not None and not kept and refused:
        # The designer's word: where they put it, it stands, and the checks say what is wrong with that.
        kept.append(refused.pop(0)[0])
    kept.sort(key=lambda candidate: (candidate.resort, candidate.cost))  # equal costs keep the order of preference
    return Choice(want, tuple(kept), tuple(refused))


def _together(task: Task, unit: Unit, met: Sequence[Sequence[_Met]]) -> dict[int, Choice]:
    """The choices of a group's members: the ways that are clear for all, the cheapest first.

    What the designer moved stands where it was put, with as many lines as the others.
    """
    put = [task.wanted[index].request.offset is not None for index in unit]
    ways = list(zip(*met, strict=True))
    clear = [way for way in ways if not any(one.blockers and not stands for one, stands in zip(way, put, strict=True))]
    clear.sort(key=lambda way: (sum(one.candidate.resort for one in way), sum(one.candidate.cost for one in way)))
    return {
        index: Choice(
            task.wanted[index],
            tuple(way[number].candidate for way in clear),
            tuple((way[number].candidate, way[number].blockers) for way in ways if way[number].blockers),
        )
        for number, index in enumerate(unit)
    }


def _moved(candidate: Candidate, want: Wanted, accepted: Mapping[str, Accepted], placing: Placing) -> Candidate:
    before = accepted.get(want.name)
    if before is None:
        return candidate
    stays = candidate.place.value == before.place and (
        candidate.at.distance(before.at) < SAME_LINE
        if candidate.setting.text == before.text
        else abs(candidate.at.y - before.at.y) < SAME_LINE
    )
    return candidate if stays else candidate.dearer("moved", placing.moved)


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


def _solved(task: Task, choices: Mapping[int, Choice], units: Sequence[Unit], hubs: Sequence[_Hub] = ()) -> Chosen:
    """Solve; the last value of each variable is 'left out'. The variables of hubs, the ways, come after all legends.

    Where groups came apart in a component too wide for elimination, the answer is that of the windows, with the bound
    that is known: branching took minutes there and proved nothing.
    """
    every = [choices[index] for index in range(len(task.wanted))]
    looks = _looks(task, every)
    if not every:
        return Chosen(choices=(), taken=(), looks=looks, proof=Proof(cost=0, bound=0))
    tiers = [_with_hubs(looks, hubs)]
    if any(candidate.resorts for choice in every for candidate in choice.candidates):
        tiers.append(_with_hubs(_unary(every, looks, lambda candidate: candidate.resort, 0), hubs))
    if hubs:
        tiers.append(_alike(every, looks, hubs))
    tiers.append(_with_hubs(_unary(every, looks, lambda _: 0, 1), hubs))
    problem, weights = in_tiers(tiers)
    whole = [*units, *((len(every) + number,) for number in range(len(hubs)))]
    solution = solve(bound(problem, whole), budget=Budget(nodes=0) if hubs else None)
    taken = _taken(every, whole, solution.values)
    return Chosen(choices=tuple(every), taken=taken, looks=looks, proof=_proof(solution, weights), units=tuple(units))


def _taken(choices: Sequence[Choice], units: Sequence[Unit], values: Sequence[int]) -> tuple[int | None, ...]:
    """The place that each legend takes, None for left out, from the values of units."""
    value_of = {index: value for unit, value in zip(units, values, strict=True) for index in unit}
    return tuple(
        value_of[index] if value_of[index] < len(choice.candidates) else None for index, choice in enumerate(choices)
    )


def _with_hubs(tier: Problem, hubs: Sequence[_Hub], pairs: Mapping[tuple[int, int], Costs] | None = None) -> Problem:
    """A tier with a variable more for each hub."""
    if not hubs:
        return tier
    assert tier.names is not None
    return Problem(
        unaries=(*tier.unaries, *(np.zeros(len(hub.ways), dtype=np.int64) for hub in hubs)),
        pairs=tier.pairs if pairs is None else pairs,
        names=(*tier.names, *(f"{tier.names[hub.members[0]]} ~" for hub in hubs)),
    )


def _alike(choices: Sequence[Choice], looks: Problem, hubs: Sequence[_Hub]) -> Problem:
    """How many members of groups go another way than the rest."""
    pairs = {
        (len(choices) + number, index): hub.unlike(index, choices[index].candidates)
        for number, hub in enumerate(hubs)
        for index in hub.members
    }
    return _with_hubs(_unary(choices, looks, lambda _: 0, 0), hubs, pairs)


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
    wants, places = [choice.wanted for choice in choices], [choice.candidates for choice in choices]
    for i, j, costs in unlikeness(task.panel, task.stands, wants, places):
        pairs.table(i, j)[:-1, :-1] += costs
    for (i, j), rows in by_pair(meetings(places, placing)):
        pairs.table(i, j)[rows[:, 0], rows[:, 1]] = HARD
    return Problem(unaries=tuple(unaries), pairs=pairs.tables, names=tuple(choice.wanted.name for choice in choices))
