"""The solver's working copy of a problem: values still in the running, what they cost alone and with each other.

A network changes in place, because values leave it thousands of times in a run; its arrays never do, so copies of a
network are shallow and cheap. Variables are numbered by rank (see Problem.names).
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.legends.solver.problem import HARD, Costs, Problem

Indices = NDArray[np.intp]


class Network(Struct, kw_only=True):
    """Variables, their values and what these cost.

    values[i]: numbers of the values of variable i still in the running, rising.
    unary[i]: their costs, same order.
    links[i][j]: costs of pairs, shape (len(values[i]), len(values[j])); links[j][i] is its transpose.
    constant: cost already certain, whatever is chosen.
    """

    values: dict[int, Indices]
    unary: dict[int, Costs]
    links: dict[int, dict[int, Costs]]
    constant: int = 0

    def part(self, variables: Iterable[int]) -> Network:
        """A copy with some of the variables and the links among them; its constant is 0."""
        chosen = dict.fromkeys(variables)
        return Network(
            values={i: self.values[i] for i in chosen},
            unary={i: self.unary[i] for i in chosen},
            links={i: {j: m for j, m in self.links[i].items() if j in chosen} for i in chosen},
        )

    def keep(self, i: int, kept: Indices | NDArray[np.bool_]) -> None:
        """Keep only some values of variable i, given by position or by mask. Links left without costs go."""
        self.values[i] = self.values[i][kept]
        self.unary[i] = self.unary[i][kept]
        for j, pair in list(self.links[i].items()):
            left = pair[kept]
            if left.any():
                self.links[i][j], self.links[j][i] = left, left.T
            else:
                del self.links[i][j], self.links[j][i]

    def fold(self, i: int) -> list[int]:
        """Take out a variable with a single value, its costs added to its neighbours', which are returned."""
        self.constant += int(self.unary[i][0])
        neighbours = list(self.links[i])
        for j in neighbours:
            self.unary[j] = np.minimum(self.unary[j] + self.links[i][j][0], HARD)
            del self.links[j][i]
        self.unary[i] = np.zeros(1, dtype=np.int64)
        self.links[i] = {}
        return neighbours


def network(problem: Problem, rank: list[int]) -> Network:
    """The working copy of a problem; variable rank[k] of the problem is variable k of the network."""
    place = {i: k for k, i in enumerate(rank)}
    unary = {k: np.minimum(problem.unaries[i], HARD).astype(np.int64) for k, i in enumerate(rank)}
    links: dict[int, dict[int, Costs]] = {k: {} for k in unary}
    # Sorted, so that nothing later depends on the order in which the caller listed the pairs.
    for a, b, pair in sorted(
        ((place[i], place[j], pair) for (i, j), pair in problem.pairs.items()), key=lambda entry: entry[:2]
    ):
        if pair.any():
            costs = np.minimum(pair, HARD).astype(np.int64)
            if b in links[a]:  # both (i, j) and (j, i) were given
                costs = np.minimum(costs + links[a][b], HARD)
            links[a][b], links[b][a] = costs, costs.T
    links = {k: dict(sorted(near.items())) for k, near in links.items()}
    return Network(values={k: np.arange(len(costs)) for k, costs in unary.items()}, unary=unary, links=links)


def network_cost(net: Network, answer: dict[int, int]) -> int:
    """What an answer, positions by variable, costs; HARD if it has anything forbidden."""
    cost = net.constant
    for i, position in answer.items():
        cost += int(net.unary[i][position])
        cost += sum(int(m[position, answer[j]]) for j, m in net.links[i].items() if i < j)
    return min(cost, HARD)
