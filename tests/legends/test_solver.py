"""The solver against enumeration and an independent solver, and the properties its callers rely on."""

from __future__ import annotations

import subprocess
import sys
from itertools import product

import numpy as np
import pytest

from panelart.legends.solver import (
    HARD,
    Budget,
    MalformedProblemError,
    Problem,
    Solution,
    cost_of,
    in_tiers,
    solve,
    tier_weights,
)
from panelart.legends.solver.deadends import _live, _live_of_many
from panelart.legends.solver.network import Network
from panelart.stages import Memory, remembering
from tests.effort import examples

WITHOUT_DEAD_ENDS = Budget(dead_ends=False)

LONG_WAY = Budget(easy=1, table=0, window=4, rounds=3)
"""Nothing is eliminated whole: windows, bound and program do the work, also on small problems."""


def random_problem(seed: int, *, unplaced: bool) -> Problem:
    """2 to 7 variables of 2 to 5 values.

    unplaced: a quarter of the pair entries are hard, and the last value fits all; else half, and no such value.
    """
    chance = np.random.default_rng(seed)
    count = int(chance.integers(2, 8))
    sizes = chance.integers(2, 6, count)
    maximum = int(chance.choice([2, 6, 30]))  # few different costs make many ties
    unaries = []
    for size in sizes:
        unary = chance.integers(0, maximum, size)
        if unplaced:
            unary[-1] = 400
        unaries.append(unary)
    pairs = {}
    for i in range(count):
        for j in range(i + 1, count):
            if chance.random() < 0.7:
                shape = (sizes[i], sizes[j])
                costs = chance.integers(0, maximum, shape) * (chance.random(shape) < 0.4)
                costs[chance.random(shape) < (0.25 if unplaced else 0.5)] = HARD
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
        shape = {i: pair.shape[0], j: pair.shape[1]}
        total = total + pair.reshape([shape.get(k, 1) for k in range(count)])
    best = np.unravel_index(int(total.argmin()), total.shape)
    return min(int(total.min()), HARD), tuple(int(k) for k in best)


def chain_of_panels(seed: int, *, parts: int, columns: int = 6) -> Problem:
    """Legends round parts on a raster: a handful of sides each, clashes with near ones, neighbours that should agree.

    Every legend has a last value, unplaced, that fits all and is dearer than any looks.
    """
    chance = np.random.default_rng(seed)
    sizes = chance.integers(4, 8, parts)
    looks = [np.append(np.sort(chance.integers(0, 29, size - 1)), 0) for size in sizes]
    pairs = {}
    for i in range(parts):
        right, above = (i + 1 if (i + 1) % columns else parts), i + columns
        for j in (right, above):
            if j < parts:
                costs = 10 * (np.arange(sizes[i])[:, None] % 4 != np.arange(sizes[j])[None, :] % 4)
                costs[chance.random(costs.shape) < 0.3] = HARD
                costs[-1, :] = 0
                costs[:, -1] = 0
                pairs[i, j] = costs
    unplaced = [np.append(np.zeros(size - 1, dtype=np.int64), 1) for size in sizes]
    tiers = [Problem(unaries=tuple(looks), pairs=pairs), Problem(unaries=tuple(unplaced))]
    return in_tiers(tiers)[0]


def assert_exact(problem: Problem, found: Solution) -> None:
    minimum, first = enumerated(problem)
    assert (found.cost, found.bound, found.proven) == (minimum, minimum, True)
    assert found.values == (first if minimum < HARD else ())
    assert all(report.first for report in found.components)


# --- the right answer ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("unplaced", [True, False])
@pytest.mark.parametrize("budget", [Budget(), WITHOUT_DEAD_ENDS], ids=["dead ends", "all values"])
def test_random_problems_against_enumeration(*, unplaced: bool, budget: Budget) -> None:
    impossible = 0
    for seed in range(examples(1500)):
        problem = random_problem(seed, unplaced=unplaced)
        found = solve(problem, budget=budget)
        assert_exact(problem, found)
        impossible += not found.feasible
    assert (impossible == 0) if unplaced else (impossible > examples(1500) // 30)


ROW = np.array([0, 8, 14, 400])
N, S, E, U = range(4)


def row_of_five() -> Problem:
    """Five legends in a row (reference vector): values N S E U, neighbours on different sides cost 10."""
    different = 10 * (1 - np.eye(4, dtype=np.int64))
    different[U, :] = different[:, U] = 0
    hard = {
        (0, 1): [(N, N), (E, N), (E, S)],
        (1, 2): [(N, N), (S, S)],
        (2, 3): [(N, N), (N, S), (E, N)],
        (3, 4): [(E, N), (N, N)],
    }
    pairs = {}
    for pair, clashes in hard.items():
        pairs[pair] = different.copy()
        for a, b in clashes:
            pairs[pair][a, b] = HARD
    return Problem(unaries=(ROW, ROW, np.array([3, 8, 14, 400]), ROW, ROW), pairs=pairs)


def test_row_of_five() -> None:
    problem = row_of_five()
    costs = sorted(cost_of(problem, values) for values in product(range(4), repeat=5))
    assert costs[0] == 52 < costs[1], "the reference vector says: optimum 52, unique"
    for budget in (Budget(), WITHOUT_DEAD_ENDS, LONG_WAY):
        found = solve(problem, budget=budget)
        assert (found.cost, found.values, found.proven) == (52, (S, N, S, S, S), True)


# Unplaced legends on maps of 30 x 7 labels, corner positions, own generator: number of labels without conflict, proved
# by two programs when the reference was measured.
MAPS = {250: [250, 250, 250, 250, 250], 500: [492, 492, 494, 485, 494]}


def map_problem(points: int, seed: int) -> Problem:
    """Points at random on 792 x 612, labels 30 x 7 at four corners; the cost is the number of labels not free."""
    chance = np.random.default_rng(seed)
    x, y = chance.uniform(0, 792, points), chance.uniform(0, 612, points)
    if (points, seed) == (250, 0):
        assert np.allclose(x[:3], [504.47365636, 213.6710773, 32.45103096])
        assert np.allclose(y[:3], [233.67064534, 199.23391705, 608.34438398])
    left = np.stack([x, x - 30, x - 30, x], axis=1)
    low = np.stack([y, y, y - 7, y - 7], axis=1)
    unary = np.array([0, 0, 0, 0, 1, 1, 1, 1])
    pairs = {}
    for i in range(points):
        for j in np.flatnonzero((abs(x[i + 1 :] - x[i]) < 60) & (abs(y[i + 1 :] - y[i]) < 14)) + i + 1:
            across = 30 - abs(left[i][:, None] - left[j][None, :])
            along = 7 - abs(low[i][:, None] - low[j][None, :])
            overlap = (across > 1e-9) & (along > 1e-9)
            if overlap.any():
                clash = np.tile(np.where(overlap, HARD, 0), (2, 2))
                clash[4:, 4:] = 0  # both blocked
                pairs[i, int(j)] = clash
    return Problem(unaries=(unary,) * points, pairs=pairs)


@pytest.mark.few(3)
@pytest.mark.parametrize("points", [250, 500])
@pytest.mark.parametrize("seed", range(5))
def test_maps(points: int, seed: int) -> None:
    found = solve(map_problem(points, seed))
    assert found.proven
    assert points - found.cost == MAPS[points][seed]


@pytest.mark.few(6)
@pytest.mark.parametrize("seed", range(36))
def test_panels_against_an_independent_solver(seed: int) -> None:
    """The optimum of panel-like problems is that of CP-SAT (OR-tools) on the same costs."""
    cp_model = pytest.importorskip("ortools.sat.python.cp_model", reason="OR-tools is the oracle here")
    problem = chain_of_panels(seed, parts=8 + seed // 3)
    model = cp_model.CpModel()
    chosen = [[model.new_bool_var("") for _ in unary] for unary in problem.unaries]
    terms = []
    for variables, unary in zip(chosen, problem.unaries, strict=True):
        model.add_exactly_one(variables)
        terms += [int(cost) * variable for cost, variable in zip(unary, variables, strict=True)]
    for (i, j), pair in problem.pairs.items():
        for a, row in enumerate(pair):
            for cost in np.unique(row[row > 0]):
                others = [chosen[j][b] for b in np.flatnonzero(row == cost)]
                if cost >= HARD:
                    model.add_at_most_one([chosen[i][a], *others])
                else:
                    paid = model.new_bool_var("")
                    model.add(chosen[i][a] + sum(others) <= 1 + paid)
                    terms.append(int(cost) * paid)
    model.minimize(sum(terms))
    oracle = cp_model.CpSolver()
    oracle.parameters.num_workers = 2
    assert oracle.solve(model) == cp_model.OPTIMAL
    found = solve(problem)
    assert found.proven
    assert found.cost == cost_of(problem, found.values) == oracle.objective_value
    weaker = solve(problem, budget=Budget(easy=1, table=1 << 4, window=8, rounds=2, nodes=0))
    assert weaker.bound <= oracle.objective_value <= weaker.cost


# --- the long way round -------------------------------------------------------------------------------------------


@pytest.mark.few(1)
@pytest.mark.parametrize("unplaced", [True, False])
def test_the_long_way_on_random_problems(*, unplaced: bool) -> None:
    pytest.importorskip("highspy", reason="the mixed integer program needs HiGHS")
    methods = set()
    for seed in range(250):
        problem = random_problem(seed, unplaced=unplaced)
        minimum, _ = enumerated(problem)
        found = solve(problem, budget=LONG_WAY)
        assert found.bound <= minimum <= found.cost
        assert found.cost == minimum
        methods |= {report.method for report in found.components}
    assert methods >= {"program"}


@pytest.mark.few(1)
@pytest.mark.parametrize("budget", [
    Budget(easy=1, table=0, window=3, rounds=1, sweeps=5, nodes=0),
    Budget(easy=1, table=16, window=3, rounds=1, sweeps=40, nodes=0),
])  # fmt: skip
def test_bound_and_cost_enclose_the_optimum_on_any_budget(budget: Budget) -> None:
    gaps = 0
    for seed in range(250):
        for unplaced in (True, False):
            problem = random_problem(seed, unplaced=unplaced)
            minimum, _ = enumerated(problem)
            found = solve(problem, budget=budget)
            assert found.bound <= minimum <= found.cost
            assert found.proven == (found.bound == found.cost)
            if found.feasible:
                assert cost_of(problem, found.values) == found.cost
            gaps += not found.proven
    assert gaps > 20, "the budget was meant to be too small"


@pytest.mark.few(1)
@pytest.mark.parametrize("seed", range(6))
def test_a_wide_panel_is_the_same_either_way(seed: int) -> None:
    pytest.importorskip("highspy", reason="the mixed integer program needs HiGHS")
    problem = chain_of_panels(seed, parts=48, columns=7)
    short, long = solve(problem), solve(problem, budget=Budget(easy=1, table=1 << 6))
    assert short.proven
    assert long.proven
    assert short.cost == long.cost
    if all(report.first for report in long.components):
        assert short.values == long.values


# --- what callers rely on -----------------------------------------------------------------------------------------


@pytest.mark.few(6)
@pytest.mark.parametrize("seed", range(30))
def test_the_order_of_listing_moves_nothing(seed: int) -> None:
    problem = chain_of_panels(seed, parts=20)
    count = len(problem.unaries)
    names = tuple(f"S{k:02d}" for k in range(count))
    named = Problem(unaries=problem.unaries, pairs=problem.pairs, names=names, tiers=problem.tiers)
    order = np.random.default_rng(seed).permutation(count)
    place = {int(i): k for k, i in enumerate(order)}
    shuffled = Problem(
        unaries=tuple(problem.unaries[i] for i in order),
        pairs={(place[j], place[i]): pair.T for (i, j), pair in reversed(list(problem.pairs.items()))},
        names=tuple(names[i] for i in order),
        tiers=problem.tiers,
    )
    one, other = solve(named), solve(shuffled)
    assert dict(zip(names, one.values, strict=True)) == dict(zip(shuffled.names or (), other.values, strict=True))


@pytest.mark.few(6)
@pytest.mark.parametrize("seed", range(30))
def test_a_pin_at_the_solvers_own_value_changes_nothing(seed: int) -> None:
    problem = chain_of_panels(seed, parts=20)
    found = solve(problem)
    pinned = seed % 20
    unary = np.full_like(problem.unaries[pinned], HARD)
    unary[found.values[pinned]] = problem.unaries[pinned][found.values[pinned]]
    unaries = (*problem.unaries[:pinned], unary, *problem.unaries[pinned + 1 :])
    again = solve(Problem(unaries=unaries, pairs=problem.pairs, tiers=problem.tiers))
    assert (again.values, again.cost) == (found.values, found.cost)


def test_eight_hard_costs_on_one_variable_do_not_overflow() -> None:
    clash = np.array([[HARD, HARD], [0, HARD]])
    problem = Problem(unaries=(np.array([0, 5]), *[np.array([0, 3])] * 8), pairs={(0, j): clash for j in range(1, 9)})
    for budget in (Budget(), WITHOUT_DEAD_ENDS, LONG_WAY):
        assert (solve(problem, budget=budget).values, solve(problem, budget=budget).cost) == ((1,) + (0,) * 8, 5)
    all_hard = Problem(
        unaries=(np.array([0, 5]), *[np.array([0, 3])] * 8),
        pairs={(0, j): np.full((2, 2), HARD) for j in range(1, 9)},
    )
    for budget in (Budget(), WITHOUT_DEAD_ENDS, LONG_WAY):
        found = solve(all_hard, budget=budget)
        assert (found.values, found.cost, found.bound, found.feasible) == ((), HARD, HARD, False)


@pytest.mark.few(5)
@pytest.mark.parametrize("seed", range(20))
def test_a_part_far_away_moves_nothing_else(seed: int) -> None:
    problem = chain_of_panels(seed, parts=20)
    more = Problem(unaries=(*problem.unaries, np.array([4, 2, 9])), pairs=problem.pairs, tiers=problem.tiers)
    assert solve(more).values == (*solve(problem).values, 1)


@pytest.mark.few(5)
@pytest.mark.parametrize("seed", range(20))
def test_an_edit_solves_only_what_it_touches(seed: int) -> None:
    """Two panels side by side: an edit on one takes the other's components from memory, to the same answer."""
    left, right = chain_of_panels(seed, parts=20), chain_of_panels(seed + 100, parts=20)
    both = Problem(
        unaries=(*left.unaries, *right.unaries),
        pairs={**left.pairs, **{(i + 20, j + 20): pair for (i, j), pair in right.pairs.items()}},
    )
    with remembering(Memory()) as memory:
        solve(both)
    first = memory.computed.total()
    edited = Problem(unaries=(both.unaries[0] + 1, *both.unaries[1:19], both.unaries[19][::-1].copy(),
                              *both.unaries[20:]), pairs=both.pairs)  # fmt: skip
    fresh = solve(edited)
    with remembering(memory):
        warm = solve(edited)
    assert (warm.values, warm.cost, warm.bound) == (fresh.values, fresh.cost, fresh.bound)
    untouched = [report for report in warm.components if min(report.variables) >= 20]
    assert memory.recalled.total() >= len(untouched) > 0
    assert memory.computed.total() - first <= len(warm.components) - len(untouched)
    before = memory.computed.total()
    with remembering(memory):
        assert solve(both).components
    assert memory.computed.total() == before


def test_an_incumbent_changes_no_proved_answer() -> None:
    pytest.importorskip("highspy", reason="the mixed integer program needs HiGHS")
    for seed in range(examples(10)):
        problem = chain_of_panels(seed, parts=30)
        poor = [len(unary) - 1 for unary in problem.unaries]
        found = solve(problem, budget=LONG_WAY, incumbent=poor)
        assert found.proven
        assert found.cost == solve(problem).cost


# --- tiers and malformed problems ---------------------------------------------------------------------------------


def test_weights_of_tiers() -> None:
    assert tier_weights([5, 3, 1]) == (1, 6, 24)
    assert tier_weights([]) == ()


def test_no_lower_tier_outvotes_a_higher_one() -> None:
    """Of all answers, tier by tier from the top: the least sum, by enumeration of tuples instead of weights."""
    for seed in range(100):
        chance = np.random.default_rng(seed)
        tiers = []
        for _ in range(3):
            pairs = {(0, 1): chance.integers(0, 4, (3, 3)), (1, 2): chance.integers(0, 4, (3, 3))}
            tiers.append(Problem(unaries=tuple(chance.integers(0, 4, (3, 3))), pairs=pairs))
        together, weights = in_tiers(tiers)
        by_tuple = min(
            (tuple(cost_of(tier, values) for tier in reversed(tiers)), values) for values in product(range(3), repeat=3)
        )
        found = solve(together)
        assert found.values == by_tuple[1]
        assert found.cost == sum(w * c for w, c in zip(reversed(weights), by_tuple[0], strict=True))


@pytest.mark.parametrize(
    ("unaries", "pairs"),
    [
        ([[0, 1], [0]], {(0, 1): [[1, 2]]}),  # shape the wrong way round
        ([[0, 1], [0]], {(0, 2): [[1], [2]]}),  # no variable 2
        ([[0, 1], [0]], {(1, 1): [[1]]}),  # with itself
        ([[0, -1], [0]], {}),
        ([[0, HARD - 1], [1]], {}),  # permitted costs reach HARD
        ([[0.5, 1.0], [0.0]], {}),
    ],
)
def test_malformed_problems(unaries: list[list[float]], pairs: dict[tuple[int, int], list[list[int]]]) -> None:
    with pytest.raises(MalformedProblemError):
        Problem(
            unaries=tuple(np.array(unary) for unary in unaries),
            pairs={key: np.array(pair) for key, pair in pairs.items()},
        )


def test_small_and_empty_problems() -> None:
    assert solve(Problem(unaries=())).proven
    assert solve(Problem(unaries=(np.array([3, 2, 2]),))).values == (1,)
    none = solve(Problem(unaries=(np.array([1]), np.array([], dtype=np.int64))))
    assert (none.feasible, none.proven) == (False, True)


def test_heavy_libraries_wait() -> None:
    code = "import sys, panelart.legends.solver; print('highspy' in sys.modules, 'scipy' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "False"]


def dead_by_the_criterion(unary: np.ndarray, pairs: list[np.ndarray]) -> list[bool]:
    """Goldstein's criterion for every two values, word for word as the module states it."""
    permitted = [u < HARD and all((pair[a] < HARD).any() for pair in pairs) for a, u in enumerate(unary)]

    def beats(b: int, a: int) -> bool:
        worse = int(unary[a] - unary[b])
        worse += sum(min(int(x - y) for x, y in zip(pair[a], pair[b], strict=True) if x < HARD) for pair in pairs)
        return worse > 0 or (worse == 0 and b < a)

    others = [b for b, good in enumerate(permitted) if good]
    return [not good or any(beats(b, a) for b in others if b != a) for a, good in enumerate(permitted)]


@pytest.mark.parametrize("seed", range(40))
def test_dead_ends_are_those_of_the_criterion(seed: int) -> None:
    chance = np.random.default_rng(seed)
    count = int(chance.integers(1, 30))
    unary = chance.integers(0, 6, count)
    unary[chance.random(count) < 0.1] = HARD
    pairs = [chance.integers(0, 4, (count, int(chance.integers(1, 9)))) for _ in range(int(chance.integers(0, 5)))]
    for pair in pairs:
        pair[chance.random(pair.shape) < 0.2] = HARD
    assert [not live for live in _live(unary, pairs)] == dead_by_the_criterion(unary, pairs)


def random_network(sizes: list[int], chance: np.random.Generator) -> Network:
    """Variables with so many values, half of the pairs with costs, some of them forbidden."""
    unary = {i: chance.integers(0, 4, size) for i, size in enumerate(sizes)}
    links: dict[int, dict[int, np.ndarray]] = {i: {} for i in unary}
    for i, j in product(unary, unary):
        if i < j and chance.random() < 0.5:
            pair = chance.integers(0, 3, (sizes[i], sizes[j]))
            links[i][j] = np.where(chance.random(pair.shape) < 0.1, HARD, pair)
            links[j][i] = links[i][j].T
    return Network(values={i: np.arange(size) for i, size in enumerate(sizes)}, unary=unary, links=links)


@pytest.mark.parametrize("wide", [8, 300])
def test_many_variables_together_lose_what_each_loses_alone(wide: int) -> None:
    """One of 300 values would take a gigabyte among the others; it is looked at alone."""
    chance = np.random.default_rng(wide)
    for _ in range(examples(40)):
        net = random_network([*chance.integers(2, 7, 12).tolist(), wide, wide], chance)
        together = _live_of_many(net, list(net.values))
        assert together.keys() == net.values.keys()
        for i, live in together.items():
            assert live.tolist() == _live(net.unary[i], list(net.links[i].values())).tolist()
