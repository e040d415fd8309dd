"""The way through: dead ends, components, and for each component the cheapest method that proves its optimum."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import partial

import numpy as np
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.legends.solver.buckets import eliminate, plan_elimination
from panelart.legends.solver.budget import Budget
from panelart.legends.solver.components import components, content_key, settle
from panelart.legends.solver.deadends import remove_dead_ends
from panelart.legends.solver.exact import first_of_the_best
from panelart.legends.solver.found import HOPELESS, IMPOSSIBLE, Found
from panelart.legends.solver.network import Network, network
from panelart.legends.solver.problem import HARD, Problem, cost_of
from panelart.stages import recalled


class ComponentReport(Struct, frozen=True, kw_only=True):
    """How one component was solved.

    variables: their numbers in the problem. method: "elimination", or one of those in wide.py.
    cost, bound: of the component alone; the optimum is between them. proven: they are equal.
    first: the answer was proved to be the first of the equally good ones.
    width: entries of the largest message elimination would need.
    """

    variables: tuple[int, ...]
    method: str
    cost: int
    bound: int
    proven: bool
    first: bool
    width: int


class _Answer(Struct, frozen=True, kw_only=True):
    """A component's answer as it is remembered: positions of values, variables by rank."""

    positions: tuple[int, ...]
    report: ComponentReport


class Solution(Struct, frozen=True, kw_only=True):
    """The answer to a problem.

    values: one for every variable; empty if no permitted answer was found.
    cost: what they cost; HARD if there is none. bound: no answer costs less; HARD if it was proved that there is none.
    proven: cost equals bound. components: how each part was solved that is not clear from its cheapest values or by
        dead-end elimination.
    """

    values: tuple[int, ...]
    cost: int
    bound: int
    proven: bool
    components: tuple[ComponentReport, ...]

    @property
    def feasible(self) -> bool:
        """Whether a permitted answer was found."""
        return self.cost < HARD

    @property
    def gap(self) -> float:
        """How far the cost may be above the optimum, as a part of the cost; 0 when proven, 1 without an answer."""
        if self.proven:
            return 0.0
        return (self.cost - self.bound) / self.cost if self.feasible else 1.0


def solve(
    problem: Problem,
    *,
    budget: Budget | None = None,
    incumbent: Sequence[int] | None = None,
) -> Solution:
    """The first of the best answers, or as near to it as the budget allows, with a bound that says how near.

    incumbent: an answer to start from where windows are needed, such as the last accepted layout.

    Components whose answer this process has proved before are not solved again while stages remember.
    """
    budget = Budget() if budget is None else budget
    rank = _rank(problem)
    net = network(problem, rank)
    if any(len(unary) == 0 for unary in problem.unaries) or not _cleared(net, budget):
        return Solution(values=(), cost=HARD, bound=HARD, proven=True, components=())
    start = None if incumbent is None else {k: incumbent[i] for k, i in enumerate(rank)}
    solved = list(_solved(net, budget, start, problem.tiers))
    return _together(problem, net, rank, solved)


def _rank(problem: Problem) -> list[int]:
    """The problem's variables in the order of their names, or as listed."""
    count, names = len(problem.unaries), problem.names
    return sorted(range(count), key=lambda i: names[i]) if names is not None else list(range(count))


def _cleared(net: Network, budget: Budget) -> bool:
    """Take out of a network what is clear; False when it was proved that there is no answer."""
    if not budget.dead_ends:
        return True
    settle(net)
    return remove_dead_ends(net)


class _Solved(Struct, frozen=True, kw_only=True):
    """A component by its variables in the network, and its answer."""

    variables: tuple[int, ...]
    answer: _Answer


def _solved(
    net: Network,
    budget: Budget,
    start: dict[int, int] | None,
    tiers: tuple[int, ...],
) -> Iterator[_Solved]:
    """Solve every component, but for those whose answer is remembered."""
    for variables in components(net):
        if len(variables) == 1 and budget.dead_ends:
            continue  # a single value was left, and its cost is in the constant
        part = net.part(variables)
        solved = partial(_solve_component, part, budget, _positions(part, start), tiers)
        yield _Solved(variables=variables, answer=recalled("component of legends", content_key(part), solved, _final))


def _final(answer: _Answer) -> bool:
    """Whether it was proved to be the one right answer, whatever work was allowed and wherever it began."""
    return answer.report.proven and answer.report.first


def _together(problem: Problem, net: Network, rank: Sequence[int], solved: Sequence[_Solved]) -> Solution:
    """The solution of a problem from those of its components."""
    reports = [replace(one.answer.report, variables=tuple(rank[k] for k in one.variables)) for one in solved]
    cost = net.constant + sum(report.cost for report in reports)
    bound = net.constant + sum(report.bound for report in reports)
    values = _values(net, rank, solved)
    feasible = all(report.cost < HARD for report in reports)
    if feasible:
        assert cost == cost_of(problem, values), "the solver's account and the problem's differ"
    return Solution(
        values=values if feasible else (),
        cost=cost if feasible else HARD,
        bound=min(bound, HARD),
        proven=all(report.proven for report in reports) or bound >= HARD,
        components=tuple(reports),
    )


def _values(net: Network, rank: Sequence[int], solved: Iterable[_Solved]) -> tuple[int, ...]:
    """The value of each variable of the problem; of those that no component chose for, the first left."""
    chosen = {k: int(values[0]) for k, values in net.values.items()}
    for one in solved:
        chosen |= {k: int(net.values[k][p]) for k, p in zip(one.variables, one.answer.positions, strict=False)}
    of_problem = {i: chosen[k] for k, i in enumerate(rank)}
    return tuple(of_problem[i] for i in range(len(rank)))


def _positions(net: Network, values: dict[int, int] | None) -> dict[int, int] | None:
    """Where an answer's values stand in a network; values that have left it give way to the cheapest left."""
    if values is None:
        return None
    positions = {}
    for i, left in net.values.items():
        found = np.flatnonzero(left == values[i])
        positions[i] = int(found[0]) if len(found) else int(net.unary[i].argmin())
    return positions


def _solve_component(net: Network, budget: Budget, start: dict[int, int] | None, tiers: tuple[int, ...]) -> _Answer:
    """Solve a connected network whose constant is 0."""
    plan = plan_elimination(net, restarts=budget.restarts, easy=budget.easy, hopeless=budget.table << HOPELESS)
    if plan.largest > budget.table:
        from panelart.legends.solver.wide import solve_wide  # few panels have so wide a component

        found = solve_wide(net, budget, start, tiers)
    elif (done := eliminate(net, plan)).optimum >= HARD:
        found = IMPOSSIBLE
    else:
        exact = first_of_the_best(net, done, budget.ties)
        found = Found(
            values=exact.values, cost=done.optimum, bound=done.optimum, first=exact.first, method="elimination"
        )
    chosen = found.values or {}
    return _Answer(
        positions=tuple(int(np.searchsorted(net.values[i], chosen[i])) for i in net.values if i in chosen),
        report=ComponentReport(
            variables=tuple(net.values),
            method=found.method,
            cost=found.cost,
            bound=found.bound,
            proven=found.cost == found.bound,
            first=found.first,
            width=plan.largest,
        ),
    )
