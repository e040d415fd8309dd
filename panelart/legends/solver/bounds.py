"""A lower bound for a component too wide for elimination, and the values that cannot beat a known answer.

Costs are moved between variables and links so that the sum of all the least costs, which no answer undercuts, grows.
The moves are the sequential tree-reweighted messages of Kolmogorov (IEEE PAMI 28, 2006, 1568-1583). All of it is done
in whole numbers, costs times SCALE, so that the bound holds exactly and not up to rounding.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.legends.solver.network import Network

SCALE = 1 << 8
"""Parts into which a unit of cost can be split between links."""

COARSE = 1 << 36
"""Costs from which they are not split, so that their sums fit 64 bits."""

PATIENCE = 10
"""Double sweeps between two looks at the bound."""

WORTHWHILE = 100
"""The ascent goes on while a look finds more than one part in so many of the gap closed."""


class Bound(Struct, frozen=True, kw_only=True):
    """minimum: no answer costs less. live: by variable, which values an answer not dearer than asked for may have."""

    minimum: int
    live: dict[int, NDArray[np.bool_]]


class _Step(Struct, frozen=True, kw_only=True):
    """What one variable needs to gather costs from all its links and to pass them on in one direction.

    wide: costs with all neighbours side by side. mine, theirs: where what each link has given to this variable (one
    line a link) and to its neighbours (one entry a column of `wide`) stands in the row of all gifts. starts: first
    column of each neighbour. onward: lines of the links to pass costs on to. split: parts to split them in.
    """

    variable: int
    wide: NDArray[np.int64]
    mine: NDArray[np.intp]
    theirs: NDArray[np.intp]
    starts: NDArray[np.intp]
    onward: NDArray[np.intp]
    split: int


class _Scaled(Struct, frozen=True, kw_only=True):
    """A network's costs in whole parts of their unit, and where the gifts of its links stand.

    ceiling: what a known answer costs and one more. place[j, i]: what the link of i and j has given to i in the row of
    all gifts, one number for each value of i; width: how long that row is.
    """

    unary: dict[int, NDArray[np.int64]]
    links: dict[int, dict[int, NDArray[np.int64]]]
    place: dict[tuple[int, int], slice]
    width: int
    scale: int
    ceiling: int


def lower_bound(net: Network, *, at_most: int, sweeps: int) -> Bound:
    """Bound the answers of a network by up to so many double sweeps over its variables.

    at_most: cost of a known answer. Dearer ones may be cut off, those as dear may not: among them is the right one.
    """
    scaled = _scaled(net, at_most)
    gifts = np.zeros(scaled.width, dtype=np.int64)
    steps = _steps(scaled)
    best = _account(scaled, gifts)
    for sweep in range(1, sweeps + 1):
        for step in steps:
            spare = np.minimum.reduceat(step.wide - gifts[step.theirs], step.starts, axis=1).T
            total = scaled.unary[step.variable] + spare.sum(axis=0)
            spare[step.onward] -= total // step.split
            gifts[step.mine] = spare
        if sweep % PATIENCE == 0 or sweep == sweeps:
            found = _account(scaled, gifts)
            gain = found.minimum - best.minimum
            if gain >= 0:
                best = found
            if gain * WORTHWHILE <= at_most - best.minimum:
                break
    return best


def _scaled(net: Network, at_most: int) -> _Scaled:
    """The costs of a network with all that is dearer than a known answer brought down to one more than it costs."""
    scale = SCALE if at_most < COARSE else 1
    unary = {i: np.minimum(costs, at_most + 1) * scale for i, costs in net.unary.items()}
    links = {
        i: {j: np.minimum(pair, at_most + 1) * scale for j, pair in links.items()} for i, links in net.links.items()
    }
    place: dict[tuple[int, int], slice] = {}
    end = 0
    for i in sorted(unary):
        for j in links[i]:
            place[j, i] = slice(end, end + len(unary[i]))
            end += len(unary[i])
    return _Scaled(unary=unary, links=links, place=place, width=end, scale=scale, ceiling=(at_most + 1) * scale)


def _steps(scaled: _Scaled) -> list[_Step]:
    """The steps of a double sweep: over all variables that are linked, and back."""
    linked = [i for i in sorted(scaled.unary) if scaled.links[i]]
    there = [_step(i, scaled.links[i], scaled.place, 1) for i in linked]
    return there + [_step(i, scaled.links[i], scaled.place, -1) for i in reversed(linked)]


def _step(i: int, near: dict[int, NDArray[np.int64]], place: dict[tuple[int, int], slice], direction: int) -> _Step:
    lengths = [pair.shape[1] for pair in near.values()]
    onward = [line for line, j in enumerate(near) if (j - i) * direction > 0]
    return _Step(
        variable=i,
        wide=np.concatenate(list(near.values()), axis=1),
        mine=np.array([np.arange(place[j, i].start, place[j, i].stop) for j in near]),
        theirs=np.concatenate([np.arange(place[i, j].start, place[i, j].stop) for j in near]),
        starts=np.cumsum([0, *lengths[:-1]]),
        onward=np.array(onward, dtype=np.intp),
        split=max(len(onward), len(near) - len(onward)),
    )


def _account(scaled: _Scaled, gifts: NDArray[np.int64]) -> Bound:
    """The bound that a set of gifts gives, whatever they are, and the values it leaves."""
    links, place = scaled.links, scaled.place
    total = 0
    extra: dict[int, NDArray[np.int64]] = {}
    for i, costs in scaled.unary.items():
        moved = costs + sum((gifts[place[j, i]] for j in links[i]), np.zeros_like(costs))
        minimum = int(moved.min())
        total += minimum
        extra[i] = moved - minimum
    for i, near in links.items():
        for j, pair in near.items():
            if i < j:
                moved = pair - gifts[place[j, i]][:, None] - gifts[place[i, j]][None, :]
                minimum = int(moved.min())
                total += minimum
                extra[i] = extra[i] + (moved.min(axis=1) - minimum)
                extra[j] = extra[j] + (moved.min(axis=0) - minimum)
    # An answer costs a whole number: what exceeds one counts as the next.
    return Bound(
        minimum=-(-total // scaled.scale), live={i: total + more < scaled.ceiling for i, more in extra.items()}
    )
