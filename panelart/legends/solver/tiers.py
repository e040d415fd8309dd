"""Strict tiers, seen through by the methods that bound.

In strict tiers one legend not placed outweighs the looks of a whole panel. That is what the user wants and what a lower
bound is bad at: half a legend, which only a relaxation knows, costs more than all there is to tell answers apart. So
the upper tiers are solved alone first. If no answer counts less than k there, then for any gentler weight g <= w

    cost with w  =  cost with g + (w - g) * count  >=  bound with g + (w - g) * k,

and an answer known to cost less than w * (k + 1) tells that the best ones count exactly k.
"""

from __future__ import annotations

import numpy as np

from panelart.legends.solver.buckets import permitted_total
from panelart.legends.solver.network import Network
from panelart.legends.solver.problem import HARD, Costs

GENTLE = 4
"""The gentle weight, in units of what one value can cost below."""


def upper_tiers(net: Network, weight: int) -> Network:
    """What every value and every pair counts in the tiers from this weight up, in units of it."""
    return _with_costs(net, weight, 1, rest=0)


def eased(net: Network, weight: int, gentle: int) -> Network:
    """The network with a gentler weight for the tiers from this weight up; 0 leaves them out."""
    return _with_costs(net, weight, gentle, rest=1)


def gentle_weight(net: Network, weight: int) -> int:
    """A weight about what one value can cost in the tiers below: enough to be shunned, too little to hide them."""
    swing = max(
        _rest(unary, weight) + sum(_rest(pair, weight) for pair in net.links[i].values())
        for i, unary in net.unary.items()
    )
    return min(weight, GENTLE * swing)


def is_strict(net: Network, weight: int) -> bool:
    """Whether the tiers below this weight never add up to it, whatever is chosen."""
    return permitted_total(eased(net, weight, 0)) < weight


def _rest(costs: Costs, weight: int) -> int:
    """The greatest permitted cost below this weight."""
    return int((costs % weight).max(initial=0, where=costs < HARD))


def _with_costs(net: Network, weight: int, new_weight: int, *, rest: int) -> Network:
    def change(costs: Costs) -> Costs:
        return np.where(costs >= HARD, HARD, costs // weight * new_weight + costs % weight * rest)

    changed = net.part(net.values)
    changed.unary = {i: change(costs) for i, costs in net.unary.items()}
    changed.links = {i: {} for i in net.links}
    for i, links in net.links.items():
        for j, pair in links.items():
            if i < j and (costs := change(pair)).any():
                changed.links[i][j], changed.links[j][i] = costs, costs.T
    return changed
