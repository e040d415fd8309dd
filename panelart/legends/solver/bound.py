"""Variables that take one value together: the n-th of each, or none of them anything else."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from panelart.legends.solver.problem import HARD, Costs, Problem


def bound(problem: Problem, groups: Sequence[Sequence[int]]) -> Problem:
    """A problem with one variable for each group of variables of another, in the order of the groups.

    Value n of a group is value n of all its members, which have as many values each; it costs what they cost alone and
    with each other. Every variable is in one group, perhaps alone.
    """
    of = {index: number for number, group in enumerate(groups) for index in group}
    unaries = [_added(problem.unaries[index] for index in group) for group in groups]
    pairs: dict[tuple[int, int], Costs] = {}
    for (i, j), costs in problem.pairs.items():
        one, other = of[i], of[j]
        if one == other:
            unaries[one] = _added((unaries[one], costs.diagonal()))
        else:
            key, table = ((one, other), costs) if one < other else ((other, one), costs.T)
            pairs[key] = _added((pairs[key], table)) if key in pairs else table
    names = problem.names
    return Problem(
        unaries=tuple(unaries),
        pairs=pairs,
        names=None if names is None else tuple(names[group[0]] for group in groups),
        tiers=problem.tiers,
    )


def _added(tables: Iterable[Costs]) -> Costs:
    """The sum of tables of one shape; what is forbidden in one of them is forbidden."""
    total: Costs = np.add.reduce([np.minimum(table, HARD) for table in tables])
    return np.minimum(total, HARD)
