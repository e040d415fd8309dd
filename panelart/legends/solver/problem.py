"""What the solver is asked: choose one value for every variable so that the sum of integer costs is least.

The solver knows no panels. A caller turns a legend into a variable, each of its candidate places into a value, a
preference into a unary cost and a clash of two legends into a hard pair. Among all answers of least cost the one is
meant that comes first when the answers are compared variable by variable, value by value, lower values first: so
there is one right answer, whatever road leads to it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from msgspec import field
from numpy.typing import NDArray

from panelart.canonical import Struct

Costs = NDArray[np.int64]

HARD = 1 << 48
"""The cost of what must not be. Everything at or above it counts as forbidden, and the dearest permitted answer must
stay below it. Sums of up to 2**14 hard costs fit 64 bits."""


class MalformedProblemError(ValueError):
    """The arrays of a problem do not fit together, or its costs are outside the range the solver can add up."""


class Problem(Struct, frozen=True, kw_only=True, eq=False):
    """A weighted binary constraint problem.

    unaries: one array a variable, the cost of each of its values, integers >= 0 or HARD.
    pairs: for variables (i, j), i != j, the cost of every pair of their values; shape (values of i, values of j).
    names: one a variable, all different. Variables are ranked by name, so the order in which a caller happens to list
        them does not matter. Without names the order of listing is the rank.
    tiers: weights of the tiers the costs are made of, lowest first (see in_tiers). They make a hard problem easier to
        bound and change no answer.

    Raises MalformedProblemError.
    """

    unaries: tuple[Costs, ...]
    pairs: Mapping[tuple[int, int], Costs] = field(default_factory=dict)
    names: tuple[str, ...] | None = None
    tiers: tuple[int, ...] = (1,)

    def __post_init__(self) -> None:
        _validate(self)


def _validate(problem: Problem) -> None:
    count = len(problem.unaries)
    names = problem.names
    if names is not None and (len(names) != count or len(set(names)) != count):
        raise MalformedProblemError(f"{count} variables need {count} different names")
    if any(weight < 1 for weight in problem.tiers):
        raise MalformedProblemError("weights of tiers are at least 1")
    dearest = sum(_dearest_alone(i, unary) for i, unary in enumerate(problem.unaries))
    dearest += sum(_dearest_pair(problem, i, j, pair) for (i, j), pair in problem.pairs.items())
    if dearest >= HARD:
        raise MalformedProblemError(f"permitted costs may add up to {dearest}, which is not below HARD = {HARD}")


def _dearest_alone(i: int, unary: Costs) -> int:
    """The greatest permitted cost of a variable's values. Raises MalformedProblemError."""
    if unary.ndim != 1 or unary.dtype.kind not in "iu":
        raise MalformedProblemError(f"the unary costs of variable {i} are not a row of integers")
    return _dearest(unary, f"unary costs of variable {i}")


def _dearest_pair(problem: Problem, i: int, j: int, pair: Costs) -> int:
    """The greatest permitted cost of two variables' values together. Raises MalformedProblemError."""
    count = len(problem.unaries)
    if i == j or not (0 <= i < count and 0 <= j < count):
        raise MalformedProblemError(f"pair ({i}, {j}) does not join two of {count} variables")
    expected = (len(problem.unaries[i]), len(problem.unaries[j]))
    if pair.shape != expected or pair.dtype.kind not in "iu":
        raise MalformedProblemError(f"the costs of pair ({i}, {j}) are not integers of shape {expected}")
    return _dearest(pair, f"costs of pair ({i}, {j})")


def _dearest(costs: Costs, what: str) -> int:
    """The greatest permitted cost, 0 if there is none."""
    if costs.size == 0:
        return 0
    if int(costs.min()) < 0:
        raise MalformedProblemError(f"negative {what}")
    maximum = int(costs.max())
    return maximum if maximum < HARD else int(costs.max(initial=0, where=costs < HARD))


def cost_of(problem: Problem, values: Sequence[int]) -> int:
    """The cost of one value for every variable; HARD if anything forbidden is among them."""
    total = sum(int(unary[value]) for unary, value in zip(problem.unaries, values, strict=True))
    total += sum(int(pair[values[i], values[j]]) for (i, j), pair in problem.pairs.items())
    return min(total, HARD)


def tier_weights(greatest: Sequence[int]) -> tuple[int, ...]:
    """Weights that let no lower tier outvote a higher one.

    greatest: for every tier, lowest first, the greatest sum it can reach over the whole problem. The weight of a tier
    is 1 plus the weighted sums of all the tiers below it.
    """
    weights: list[int] = []
    below = 0
    for maximum in greatest:
        weights.append(1 + below)
        below += weights[-1] * maximum
    return tuple(weights)


def in_tiers(tiers: Sequence[Problem]) -> tuple[Problem, tuple[int, ...]]:
    """One problem out of several over the same variables and values, lowest tier first, and the weight of each.

    What is forbidden in any tier is forbidden. Raises MalformedProblemError if the tiers do not have the same
    variables, values and names, or if the weighted costs do not stay below HARD.
    """
    _require_alike(tiers)
    weights = tier_weights([_greatest(tier) for tier in tiers])
    if sum(weights) >= HARD:
        raise MalformedProblemError("too many tiers, or tiers too tall: the weights reach HARD")
    unaries = [np.zeros(len(unary), dtype=np.int64) for unary in tiers[0].unaries]
    pairs: dict[tuple[int, int], Costs] = {}
    for tier, weight in zip(tiers, weights, strict=True):
        unaries = [_plus(total, unary, weight) for total, unary in zip(unaries, tier.unaries, strict=True)]
        for (i, j), pair in tier.pairs.items():
            _add_pair(pairs, i, j, pair, weight)
    return Problem(unaries=tuple(unaries), pairs=pairs, names=tiers[0].names, tiers=weights), weights


def _require_alike(tiers: Sequence[Problem]) -> None:
    sizes = [tuple(len(unary) for unary in tier.unaries) for tier in tiers]
    if not tiers or any(size != sizes[0] for size in sizes) or any(tier.names != tiers[0].names for tier in tiers):
        raise MalformedProblemError("tiers need the same variables, values and names")


def _greatest(tier: Problem) -> int:
    """The greatest sum that the permitted costs of a tier can reach."""
    return sum(_dearest(costs, "costs") for costs in (*tier.unaries, *tier.pairs.values()))


def _add_pair(pairs: dict[tuple[int, int], Costs], i: int, j: int, pair: Costs, weight: int) -> None:
    """Add the costs of a tier's pair to those of the tiers before."""
    key, costs = ((i, j), pair) if i < j else ((j, i), pair.T)
    if weight == 1 and key not in pairs:
        pairs[key] = np.minimum(costs, HARD)
    else:
        pairs[key] = _plus(pairs.get(key, np.zeros(costs.shape, dtype=np.int64)), costs, weight)


def _plus(total: Costs, costs: Costs, weight: int) -> Costs:
    forbidden = (total >= HARD) | (costs >= HARD)
    permitted = np.where(forbidden, 0, costs).astype(np.int64)
    if permitted.size and int(permitted.max()) * weight >= HARD:
        raise MalformedProblemError("weighted costs reach HARD")
    return np.where(forbidden, HARD, total + weight * permitted)
