"""A good answer for a component too wide for elimination: exact optima of small windows, the rest held still.

A window is some forty variables that hang together. Each is solved exactly given the others; when no window improves
any more the answer is seldom far from the best (reference measurements: equal to it on three of three panels).
"""

from __future__ import annotations

import numpy as np

from panelart.canonical import Struct
from panelart.legends.solver.buckets import Plan, eliminate, plan_elimination, read_back
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
    windows = _Windows(soft, entries)
    answer = _greedy(soft) if start is None else dict(start)
    for turn in range(rounds):
        improved = False
        waiting = dict.fromkeys(sorted(net.values, reverse=turn % 2 == 1))
        while waiting:
            seed = next(iter(waiting))
            window = _window(net, seed, size)
            better, solved = windows.solve(answer, window)
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


class _Cleared(Struct, frozen=True):
    """A window without its dead ends: its network as it was and what is left of it, in parts with their plans.

    The parts end with the first one that is too wide.
    """

    whole: Network
    left: Network
    parts: tuple[tuple[Network, Plan], ...]


class _Windows:
    """The windows of one network, solved beside a changing answer.

    Windows round neighbours are often the same variables, as where a component is no larger than a window, so what is
    cleared is kept: only the answer outside the window has a part in it.
    """

    def __init__(self, net: Network, entries: int) -> None:
        self._net = net
        self._entries = entries
        self._found: dict[tuple[tuple[int, ...], tuple[int, ...]], _Cleared | None] = {}

    def solve(self, answer: dict[int, int], window: list[int]) -> tuple[dict[int, int] | None, list[int]]:
        """A better answer for a window, None if there is none, and the window as far as it could be solved."""
        cleared = self._cleared(answer, window)
        if cleared is None:
            return self.solve(answer, window[: len(window) // 2])
        before = network_cost(cleared.whole, {i: answer[i] for i in window})
        found = {i: int(values[0]) for i, values in cleared.left.values.items()}
        cost = cleared.left.constant
        for part, plan in cleared.parts:
            if plan.largest > self._entries:
                return self.solve(answer, window[: len(window) // 2])
            done = eliminate(part, plan, at_most=before - cost)
            cost += done.optimum
            if cost >= before:
                return None, window
            chosen, _ = read_back(done)
            found |= {i: int(part.values[i][position]) for i, position in chosen.items()}
        if cost >= before:
            return None, window
        return {i: int(np.searchsorted(cleared.whole.values[i], value)) for i, value in found.items()}, window

    def _cleared(self, answer: dict[int, int], window: list[int]) -> _Cleared | None:
        """A window cleared, None if it is much too wide for that."""
        inside = sorted(window)
        held = {j for i in inside for j in self._net.links[i]}.difference(inside)
        key = tuple(inside), tuple(answer[j] for j in sorted(held))
        if key not in self._found:
            self._found[key] = self._clear(_held(self._net, answer, inside))
        return self._found[key]

    def _clear(self, whole: Network) -> _Cleared | None:
        if plan_elimination(whole, restarts=0, easy=HARD, hopeless=HARD).largest > self._entries << MUCH_TOO_WIDE:
            return None
        left = whole.part(whole.values)
        remove_dead_ends(left)
        parts: list[tuple[Network, Plan]] = []
        for variables in components(left):
            if len(variables) > 1:
                part = left.part(variables)
                parts.append((part, plan_elimination(part, restarts=0, easy=HARD, hopeless=HARD)))
                if parts[-1][1].largest > self._entries:
                    break
        return _Cleared(whole, left, tuple(parts))
