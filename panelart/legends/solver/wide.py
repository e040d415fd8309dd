"""The long way round for a component too wide for elimination.

A good answer by windows, a lower bound, and between the two most values fall out: what is left is often narrow enough
after all. What is not goes to the mixed integer program. Whatever happens, an answer and a bound come back.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panelart.legends.solver import polytope
from panelart.legends.solver.bounds import lower_bound
from panelart.legends.solver.buckets import eliminate, permitted_total, plan_elimination
from panelart.legends.solver.budget import Budget
from panelart.legends.solver.components import components
from panelart.legends.solver.deadends import remove_dead_ends
from panelart.legends.solver.exact import first_of_the_best
from panelart.legends.solver.network import Network, network_cost
from panelart.legends.solver.problem import HARD
from panelart.legends.solver.windows import good_answer


@dataclass(frozen=True, slots=True, kw_only=True)
class Wide:
    """values: the number of the value by variable, None if no permitted answer was found; cost: HARD then.

    bound: no answer costs less. first: the answer was proved to be the first of the equally good ones.
    method: "narrowed", "program" or "windows", whichever gave the answer or its proof.
    """

    values: dict[int, int] | None
    cost: int
    bound: int
    first: bool
    method: str


def solve_wide(net: Network, budget: Budget, start: dict[int, int] | None) -> Wide:
    """The best answer within the budget. start: positions of an answer to begin with, a greedy one if not given."""
    positions, cost = good_answer(
        net, start, size=budget.window, rounds=budget.rounds, entries=budget.window_table
    )
    at_most = cost if cost < HARD else permitted_total(net)
    bounded = lower_bound(net, at_most=at_most, sweeps=budget.sweeps)
    best = Wide(
        values=_numbers(net, positions) if cost < HARD else None,
        cost=cost, bound=bounded.least, first=False, method="windows",
    )  # fmt: skip
    narrow = net.part(net.values)
    for i, live in bounded.live.items():
        narrow.keep(i, live)
    if not remove_dead_ends(narrow):
        return Wide(values=None, cost=HARD, bound=HARD, first=True, method="narrowed")
    found = _solve_narrowed(narrow, at_most, budget)
    bound = max(best.bound, found.bound)
    if found.cost > best.cost:
        return Wide(values=best.values, cost=best.cost, bound=bound, first=False, method=best.method)
    return Wide(values=found.values, cost=found.cost, bound=bound, first=found.first, method=found.method)


def _solve_narrowed(net: Network, at_most: int, budget: Budget) -> Wide:
    """Solve what is left of a component, each of its own components by elimination or as a program."""
    values: dict[int, int] = {i: int(left[0]) for i, left in net.values.items()}
    cost = bound = net.constant
    first, method = True, "narrowed"
    for variables in components(net):
        if len(variables) == 1:
            continue
        part = net.part(variables)
        plan = plan_elimination(part, restarts=budget.restarts, easy=budget.easy)
        if plan.largest <= budget.table:
            done = eliminate(part, plan, at_most=at_most - bound)
            if done.optimum >= HARD:
                return Wide(values=None, cost=HARD, bound=at_most + 1, first=False, method=method)
            exact = first_of_the_best(part, done, budget.ties)
            values |= exact.values
            cost, bound, first = cost + done.optimum, bound + done.optimum, first and exact.first
            continue
        first, method = False, "program"
        if not budget.nodes or not polytope.available():
            return Wide(values=None, cost=HARD, bound=bound, first=False, method="windows")
        result = polytope.solve_program(part, at_most=at_most - bound, nodes=budget.nodes)
        bound += result.least
        if result.positions is None:
            return Wide(values=None, cost=HARD, bound=bound, first=False, method=method)
        values |= _numbers(part, result.positions)
        cost = min(cost + network_cost(part, result.positions), HARD)
    return Wide(values=values, cost=cost, bound=bound, first=first, method=method)


def _numbers(net: Network, positions: dict[int, int]) -> dict[int, int]:
    return {i: int(net.values[i][position]) for i, position in positions.items()}
