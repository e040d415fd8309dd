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
    first = _in_rounds(net, list(net.values if start is None else start))
    if first is None:
        return False
    queue = deque(first)
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


_MANY = 24
"""Variables that are looked at together: fewer are looked at one by one, each with what the others have lost."""

_TOGETHER = 1 << 21
"""Differences of costs that are held at once in looking at many variables: 16 MB."""


def _in_rounds(net: Network, looked_at: list[int]) -> list[int] | None:
    """Look at many variables at once, round by round, as long as there are many; those to be looked at then.

    A dead end stays one when others leave, since what is no worse whatever the neighbours do is so for fewer of their
    values too. None: some variable has no value.
    """
    while len(looked_at) >= _MANY:
        touched: dict[int, None] = {}
        masks = _live_of_many(net, [i for i in looked_at if len(net.values[i]) > 1])
        for i in looked_at:
            live = masks.get(i)
            if live is None:
                if len(net.values[i]) == 0 or net.unary[i][0] >= HARD:
                    return None
            elif not live.any():
                return None
            elif live.all():
                continue
            else:
                touched |= dict.fromkeys(net.links[i])
                net.keep(i, live)
            if len(net.values[i]) == 1:
                touched |= dict.fromkeys(net.fold(i))
        looked_at = list(touched)
    return looked_at


def _live_of_many(net: Network, variables: list[int]) -> dict[int, NDArray[np.bool_]]:
    """Which values of variables are no dead ends; those of as many values are reckoned together, wide ones alone."""
    alike: dict[int, list[int]] = {}
    for i in variables:
        alike.setdefault(len(net.values[i]), []).append(i)
    found: dict[int, NDArray[np.bool_]] = {}
    for count, group in alike.items():
        lots: list[list[int]] = [[]]
        entries = 0
        for i in group:
            own = count * count * sum(len(net.values[j]) for j in net.links[i])
            if own > _TOGETHER:
                found[i] = _live(net.unary[i], list(net.links[i].values()))
                continue
            if entries + own > _TOGETHER:
                lots.append([])
                entries = 0
            lots[-1].append(i)
            entries += own
        for lot in filter(None, lots):
            found |= zip(lot, _live_of_alike(net, lot), strict=True)
    return found


def _live_of_alike(net: Network, lot: list[int]) -> NDArray[np.bool_]:
    """Which values of variables with as many values each are no dead ends, a row a variable."""
    unary = np.array([net.unary[i] for i in lot])
    count = unary.shape[1]
    # All values of all neighbours of all in one column; a variable without neighbours has one that costs nothing.
    free = np.zeros((1, count), dtype=np.int64)
    pairs = [[pair.T for pair in net.links[i].values()] or [free] for i in lot]
    column = np.concatenate([pair for own in pairs for pair in own])
    by_link = _starts([len(pair) for own in pairs for pair in own])
    by_variable = _starts([len(own) for own in pairs])
    hard = column >= HARD
    shut = np.logical_and.reduceat(hard, by_link, axis=0)
    live: NDArray[np.bool_] = (unary < HARD) & ~np.logical_or.reduceat(shut, by_variable, axis=0)
    mine = np.where(hard, 2 * HARD, column)
    differences = np.minimum.reduceat(mine[:, :, None] - column[:, None, :], by_link, axis=0)
    worse = unary[:, :, None] - unary[:, None, :] + np.add.reduceat(differences, by_variable, axis=0)
    number = np.arange(count)
    beats = (worse > 0) | ((worse == 0) & (number[None, :] < number[:, None]))
    beats &= live[:, None, :]
    beats[:, number, number] = False
    live &= ~beats.any(axis=2)
    return live


def _starts(lengths: list[int]) -> NDArray[np.intp]:
    return np.cumsum([0, *lengths[:-1]])


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
