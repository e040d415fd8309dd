"""The long way round for a component too wide for elimination.

A good answer by windows, a lower bound, and between the two most values fall out: what is left is often narrow enough
after all. What is not goes to the mixed integer program. Whatever happens, an answer and a bound come back.
"""

from __future__ import annotations

from msgspec.structs import replace

from panelart.legends.solver import polytope
from panelart.legends.solver.bounds import lower_bound
from panelart.legends.solver.buckets import eliminate, permitted_total, plan_elimination
from panelart.legends.solver.budget import Budget
from panelart.legends.solver.components import components
from panelart.legends.solver.deadends import remove_dead_ends
from panelart.legends.solver.exact import first_of_the_best
from panelart.legends.solver.found import HOPELESS, IMPOSSIBLE, Found
from panelart.legends.solver.network import Network, network_cost
from panelart.legends.solver.polytope import Count
from panelart.legends.solver.problem import HARD
from panelart.legends.solver.tiers import eased, gentle_weight, is_strict, upper_tiers
from panelart.legends.solver.windows import good_answer


def solve_wide(net: Network, budget: Budget, start: dict[int, int] | None, tiers: tuple[int, ...]) -> Found:
    """The best answer within the budget.

    start: positions of an answer to begin with, a greedy one if not given. tiers: weights, lowest first.
    """
    positions, cost = good_answer(net, start, size=budget.window, rounds=budget.rounds, entries=budget.window_table)
    at_most = cost if cost < HARD else permitted_total(net)
    known: list[tuple[int, int]] = []
    count = None
    for weight in reversed(tiers[1:]):
        upper = _solved_alone(upper_tiers(net, weight), budget)
        if upper.bound >= HARD:
            return IMPOSSIBLE
        known.append((weight, upper.bound))
        if is_strict(net, weight) and at_most < weight * (upper.bound + 1):
            count = Count(weight=weight, total=upper.bound)
    bounded = lower_bound(net, at_most=at_most, sweeps=budget.sweeps)
    narrow = net.part(net.values)
    for i, live in bounded.live.items():
        narrow.keep(i, live)
    if not remove_dead_ends(narrow):
        return IMPOSSIBLE  # at_most is the cost of a known answer, or dearer than any permitted one
    found = _solve_narrowed(narrow, at_most, budget, count)
    bound = max(bounded.minimum, found.bound)
    for weight, minimum in known if bound < min(cost, found.cost) else ():
        # What the tiers below must cost is seen best when the upper ones weigh little.
        gentle = gentle_weight(net, weight)
        spared = (weight - gentle) * minimum
        below = lower_bound(eased(net, weight, gentle), at_most=at_most - spared, sweeps=budget.sweeps)
        bound = max(bound, below.minimum + spared)
    if found.cost > cost:
        values = _numbers(net, positions) if cost < HARD else None
        return Found(values=values, cost=cost, bound=min(bound, cost), first=False, method="windows")
    return replace(found, bound=min(bound, found.cost))


def _solved_alone(net: Network, budget: Budget) -> Found:
    """What upper tiers cost at best; which of the answers that tie comes first is of no use here."""
    if not remove_dead_ends(net):
        return IMPOSSIBLE
    return _solve_narrowed(net, permitted_total(net) + net.constant, replace(budget, ties=0), None)


def _solve_narrowed(net: Network, at_most: int, budget: Budget, count: Count | None) -> Found:
    """Solve what is left of a component, each of its own components by elimination or as a program.

    count: what the upper tiers of every answer not dearer than at_most count.
    """
    values: dict[int, int] = {i: int(numbers[0]) for i, numbers in net.values.items()}
    cost = bound = net.constant
    first, method = True, "narrowed"
    parts = [net.part(variables) for variables in components(net) if len(variables) > 1]
    left = _count_left(count, net, len(parts))
    for part in parts:
        plan = plan_elimination(part, restarts=budget.restarts, easy=budget.easy, hopeless=budget.table << HOPELESS)
        if plan.largest <= budget.table:
            done = eliminate(part, plan, at_most=at_most - bound)
            if done.optimum >= HARD:
                return IMPOSSIBLE  # at_most is the cost of a known answer, or dearer than any permitted one
            exact = first_of_the_best(part, done, budget.ties)
            values |= exact.values
            cost, bound, first = cost + done.optimum, bound + done.optimum, first and exact.first
            continue
        first, method = False, "program"
        if not budget.nodes or not polytope.available():
            return Found(values=None, cost=HARD, bound=bound, first=False, method="windows")
        result = polytope.solve_program(part, at_most=at_most - bound, nodes=budget.nodes, count=left)
        bound += result.minimum
        if result.positions is None:
            return Found(values=None, cost=HARD, bound=bound, first=False, method=method)
        values |= _numbers(part, result.positions)
        cost = min(cost + network_cost(part, result.positions), HARD)
    return Found(values=values, cost=cost, bound=bound, first=first, method=method)


def _count_left(count: Count | None, net: Network, parts: int) -> Count | None:
    """What the upper tiers count in the only part of a network, without what is certain; unknown of several parts."""
    if count is None or parts != 1:
        return None
    return replace(count, total=count.total - net.constant // count.weight)


def _numbers(net: Network, positions: dict[int, int]) -> dict[int, int]:
    return {i: int(net.values[i][position]) for i, position in positions.items()}
