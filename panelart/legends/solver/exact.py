"""The right answer of a component, exactly: of all answers of least cost the one that comes first.

Elimination finds the optimum and one answer. Where answers tie, all values that no optimal answer has are removed,
which leaves little; then the first variable takes the lowest value that still reaches the optimum, and so on.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from panelart.canonical import Struct
from panelart.legends.solver.buckets import Elimination, eliminate, plan_elimination, read_back, tied_values
from panelart.legends.solver.components import components
from panelart.legends.solver.deadends import remove_dead_ends
from panelart.legends.solver.network import Network
from panelart.legends.solver.problem import HARD

COMBINATIONS = 1 << 12
"""Ties are only followed through tables of up to this many entries; wider ones count as ties all over."""

OVERHEAD = 1 << 10
"""Entries that could be computed in the time it takes to set up the elimination of one variable."""


class Exact(Struct, frozen=True, kw_only=True):
    """values: the number of the value by variable. first: it was proved that no equally good answer comes before."""

    values: dict[int, int]
    first: bool


def first_of_the_best(net: Network, done: Elimination, tie_entries: int) -> Exact:
    """The first optimal answer of a component that has been eliminated.

    tie_entries: table entries that may be computed to tell ties apart. When they are used up, the ties that are left
    are broken in the order of elimination: still the same in every run, but `first` is False.
    """
    values: dict[int, int] = {}
    first = True
    open_parts = [(net, done)]
    while open_parts:
        part, done = open_parts.pop()
        chosen, only = read_back(done)
        if only or tie_entries <= 0:
            values |= {i: int(part.values[i][position]) for i, position in chosen.items()}
            first = first and only
            continue
        for narrow, changed in _narrower(part, done):
            parts, entries = _optimal_parts(narrow, changed, done.optimum)
            tie_entries -= entries
            if parts is not None:
                inside = {i for smaller, _ in parts for i in smaller.values}
                values |= {i: int(narrow.values[i][0]) for i in narrow.values if i not in inside}
                open_parts.extend(parts)
                break
    return Exact(values=values, first=first)


def _narrower(part: Network, done: Elimination) -> Iterator[tuple[Network, list[int]]]:
    """Copies of a component of which the first that reaches the optimum has its first answer.

    One without the values that no optimal answer has, if there are such; else one for each value of the first variable.
    With each the variables whose values or neighbours' values are fewer: it had no dead ends, so new ones begin there.
    """
    tied = tied_values(done, COMBINATIONS)
    if tied is not None and any(len(tied[i]) < len(part.values[i]) for i in tied):
        trials = [tied]
    else:
        branch = min(part.values)
        trials = [{branch: np.array([position])} for position in range(len(part.values[branch]))]
    for kept in trials:
        narrow = part.part(part.values)
        fewer = [i for i, positions in kept.items() if len(positions) < len(part.values[i])]
        for i in fewer:
            narrow.keep(i, kept[i])
        yield narrow, sorted({*fewer, *(j for i in fewer for j in part.links[i])})


def _optimal_parts(
    net: Network, changed: list[int], optimum: int
) -> tuple[list[tuple[Network, Elimination]] | None, int]:
    """The components of a network, eliminated, or None if together they do not reach the optimum; entries computed.

    Dead ends are looked for from the variables that are `changed`.
    """
    entries = 0
    if not remove_dead_ends(net, changed):
        return None, entries
    parts = []
    cost = net.constant
    for variables in components(net):
        if len(variables) == 1 and len(net.values[variables[0]]) == 1:
            continue
        part = net.part(variables)
        plan = plan_elimination(part, restarts=0, easy=HARD, hopeless=HARD)
        entries += plan.total + OVERHEAD * len(variables)
        done = eliminate(part, plan, at_most=optimum - cost)
        cost += done.optimum
        if cost > optimum:
            return None, entries
        parts.append((part, done))
    return (parts if cost == optimum else None), entries
