"""A good answer for a component too wide for elimination: exact optima of small windows, the rest held still.

A window is some forty variables that hang together. Each is solved exactly given the others; when no window improves
any more the answer is seldom far from the best (reference measurements: equal to it on three of three panels).
"""

from __future__ import annotations

import numpy as np

from panelart.legends.solver.buckets import eliminate, plan_elimination, read_back
from panelart.legends.solver.components import components
from panelart.legends.solver.deadends import remove_dead_ends
from panelart.legends.solver.network import Network, network_cost
from panelart.legends.solver.problem import HARD

MUCH_TOO_WIDE = 16
"""How many times two a window may be too wide before dead ends leave it; wider ones are made smaller at once."""


def good_answer(
    net: Network, start: dict[int, int] | None, *, size: int, rounds: int, entries: int
) -> tuple[dict[int, int], int]:
    """Positions of values by variable and their cost, HARD or more if a forbidden pair could not be avoided.

    start: positions to begin with, a greedy answer if not given. size: variables a window has. rounds: over all
    variables, at most. entries: of the largest message in a window; a window that needs more is made smaller.
    """
    soft = _with_fines(net)
    answer = _greedy(soft) if start is None else dict(start)
    for turn in range(rounds):
        improved = False
        waiting = dict.fromkeys(sorted(net.values, reverse=turn % 2 == 1))
        while waiting:
            seed = next(iter(waiting))
            window = _window(net, seed, size)
            better, solved = _solve_window(soft, answer, window, entries)
            for i in solved:
                waiting.pop(i, None)
            if better:
                answer |= better
                improved = True
        if not improved:
            break
    return answer, network_cost(net, answer)


def _with_fines(net: Network) -> Network:
    """The network with a fine in place of HARD, dearer than all permitted costs together."""
    fine = 1 + sum(int(u.max(initial=0, where=u < HARD)) for u in net.unary.values())
    fine += sum(
        int(m.max(initial=0, where=m < HARD)) for i, links in net.links.items() for j, m in links.items() if i < j
    )
    fine = min(fine, HARD >> 14)  # thousands of fines may come together
    soft = net.part(net.values)
    soft.unary = {i: np.minimum(u, fine) for i, u in net.unary.items()}
    soft.links = {i: {j: np.minimum(m, fine) for j, m in links.items()} for i, links in net.links.items()}
    return soft


def _greedy(net: Network) -> dict[int, int]:
    """Each variable in turn takes what is cheapest beside those before it."""
    answer: dict[int, int] = {}
    for i in sorted(net.values):
        cost = net.unary[i]
        for j, pair in net.links[i].items():
            if j in answer:
                cost = cost + pair[:, answer[j]]
        answer[i] = int(cost.argmin())
    return answer


def _window(net: Network, seed: int, size: int) -> list[int]:
    """The variables nearest to a seed by links."""
    window = {seed: None}
    for i in (queue := [seed]):
        for j in net.links[i]:
            if len(window) == size:
                return list(window)
            if j not in window:
                window[j] = None
                queue.append(j)
    return list(window)


def _held(net: Network, answer: dict[int, int], window: list[int]) -> Network:
    """The variables of a window, each with what its values cost beside those outside, which are held still."""
    inside = net.part(window)
    for i in window:
        for j, pair in net.links[i].items():
            if j not in inside.values:
                inside.unary[i] = inside.unary[i] + pair[:, answer[j]]
    return inside


def _solve_window(
    net: Network, answer: dict[int, int], window: list[int], entries: int
) -> tuple[dict[int, int] | None, list[int]]:
    """A better answer for a window, None if there is none, and the window as far as it could be solved."""
    inside = _held(net, answer, window)
    if plan_elimination(inside, restarts=0, easy=HARD, hopeless=HARD).largest > entries << MUCH_TOO_WIDE:
        return _solve_window(net, answer, window[: len(window) // 2], entries)
    before = network_cost(inside, {i: answer[i] for i in window})
    whole = dict(inside.values)
    remove_dead_ends(inside)
    found = {i: int(values[0]) for i, values in inside.values.items()}
    cost = inside.constant
    for variables in components(inside):
        if len(variables) == 1:
            continue
        part = inside.part(variables)
        plan = plan_elimination(part, restarts=0, easy=HARD, hopeless=HARD)
        if plan.largest > entries:
            return _solve_window(net, answer, window[: len(window) // 2], entries)
        done = eliminate(part, plan, at_most=before - cost)
        cost += done.optimum
        if cost >= before:
            return None, window
        chosen, _ = read_back(done)
        found |= {i: int(part.values[i][position]) for i, position in chosen.items()}
    if cost >= before:
        return None, window
    return {i: int(np.searchsorted(whole[i], value)) for i, value in found.items()}, window
