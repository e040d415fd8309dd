"""The solver against enumeration, and the properties its callers rely on."""

from __future__ import annotations


import numpy as np
import pytest

from panelart.legends.solver import HARD, Budget, Problem, solve


def random_problem(seed: int, *, unplaced: bool) -> Problem:
    """2 to 7 variables of 2 to 5 values, a quarter of the pair entries hard and a value that fits all, or half."""
    chance = np.random.default_rng(seed)
    count = int(chance.integers(2, 8))
    sizes = chance.integers(2, 6, count)
    most = int(chance.choice([2, 6, 30]))  # few different costs make many ties
    unaries = []
    for size in sizes:
        unary = chance.integers(0, most, size)
        if unplaced:
            unary[-1] = 400
        unaries.append(unary)
    pairs = {}
    for i in range(count):
        for j in range(i + 1, count):
            if chance.random() < 0.7:
                costs = chance.integers(0, most, (sizes[i], sizes[j])) * (chance.random((sizes[i], sizes[j])) < 0.4)
                costs[chance.random(costs.shape) < (0.25 if unplaced else 0.5)] = HARD
                if unplaced:
                    costs[-1, :] = 0
                    costs[:, -1] = 0
                pairs[i, j] = costs
    return Problem(unaries=tuple(unaries), pairs=pairs)


def enumerated(problem: Problem) -> tuple[int, tuple[int, ...]]:
    """The least cost and the first answer that has it, by trying them all at once in one big table."""
    count = len(problem.unaries)
    total = np.zeros((1,) * count, dtype=np.int64)
    for i, unary in enumerate(problem.unaries):
        total = total + unary.reshape([-1 if k == i else 1 for k in range(count)])
    for (i, j), pair in problem.pairs.items():
        assert i < j
        total = total + pair.reshape([pair.shape[0] if k == i else pair.shape[1] if k == j else 1 for k in range(count)])
    best = np.unravel_index(int(total.argmin()), total.shape)
    return min(int(total.min()), HARD), tuple(int(k) for k in best)


@pytest.mark.parametrize("unplaced", [True, False])
@pytest.mark.parametrize("dead_ends", [True, False])
def test_random_problems_against_enumeration(unplaced: bool, dead_ends: bool) -> None:
    impossible = 0
    for seed in range(1500):
        problem = random_problem(seed, unplaced=unplaced)
        least, first = enumerated(problem)
        found = solve(problem, budget=Budget(dead_ends=dead_ends))
        assert (found.cost, found.bound, found.proven) == (least, least, True), seed
        if least < HARD:
            assert found.values == first, seed
            assert all(report.first for report in found.components), seed
        else:
            impossible += 1
            assert found.values == ()
    assert (impossible == 0) if unplaced else (impossible > 50)
