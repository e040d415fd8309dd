"""Dead-end elimination: values that cannot be in the right answer leave before anything is searched.

The criterion is Goldstein's (Biophysical Journal 66, 1994, 1335-1340): value a of a variable is a dead end if some
other value b of it is no worse whatever the neighbours do,

    u(a) - u(b) + sum over neighbours j of  min over c of  ( M_j(a, c) - M_j(b, c) )  >=  0.

Where a and c clash, c does not count: an answer with both is no answer. On equality a goes only if b is the lower
value, so the right answer (see problem) stays: to change a for b in it would make it come earlier at the same cost.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from panelart.legends.solver.network import Network
from panelart.legends.solver.problem import HARD, Costs


def remove_dead_ends(net: Network, start: Iterable[int] | None = None) -> bool:
    """Remove dead ends until there are none; fold variables left with one value. False: some variable has no value.

    start: the variables to look at first, all if not given; neighbours of what changes are looked at again.
    """
    queue = deque(net.values if start is None else start)
    waiting = set(queue)
    while queue:
        i = queue.popleft()
        waiting.discard(i)
        if len(net.values[i]) != 1:
            live = _live(net.unary[i], list(net.links[i].values()))
            if not live.any():
                return False
            if live.all():
                continue
            touched = list(net.links[i])
            net.keep(i, live)
            if len(net.values[i]) == 1:
                net.fold(i)
        else:
            if net.unary[i][0] >= HARD:
                return False
            touched = net.fold(i)
        for j in touched:
            if j not in waiting:
                waiting.add(j)
                queue.append(j)
    return True


_AT_ONCE = 1 << 15
"""Differences of costs that are made in one stroke: below it the calls cost more than the numbers."""


def _live(unary: Costs, pairs: list[Costs]) -> NDArray[np.bool_]:
    """Which values of a variable are no dead ends, given its costs alone and with each neighbour.

    What beats a value is itself no dearer at its cheapest, and what beats that beats the value too. So values are held
    against the others from the cheapest on, those that are left against those that are left.
    """
    live: NDArray[np.bool_] = unary < HARD
    starts = np.cumsum([0] + [pair.shape[1] for pair in pairs[:-1]])
    # All neighbours' values in one column, so that numpy is called once a variable and not once a neighbour.
    column = np.concatenate([pair.T for pair in pairs]) if pairs else np.zeros((1, len(unary)), dtype=np.int64)
    hard = column >= HARD
    live &= ~np.logical_and.reduceat(hard, starts, axis=0).any(axis=0)
    mine = np.where(hard, 2 * HARD, column)
    cheapest = unary + np.minimum.reduceat(column, starts, axis=0).sum(axis=0)
    left = np.lexsort((np.arange(len(unary)), cheapest))
    left = left[live[left]]
    done = 0
    while done < len(left):
        rest = left[done:]
        held = rest[: max(1, _AT_ONCE // (len(column) * len(rest)))]
        differences = mine[:, rest, None] - column[:, None, held]
        worse = unary[rest, None] - unary[None, held] + np.minimum.reduceat(differences, starts, axis=0).sum(axis=0)
        beaten = ((worse > 0) | ((worse == 0) & (held[None, :] < rest[:, None]))).any(axis=1)
        left = np.concatenate([left[:done], rest[~beaten]])
        done += len(held) - int(beaten[: len(held)].sum())
    live[:] = False
    live[left] = True
    return live
