"""The smallest moves, held against an exact solver that is not ours: CP-SAT of OR-Tools on whole steps."""

from __future__ import annotations

import random
from collections.abc import Mapping

import numpy as np
import pytest

from panelart.checks.bodies import body_of
from panelart.drafting.least_moves import LEAVING, Inside, Line, Rule, Task, Unit, least_moves, places_after
from panelart.drafting.separation import Numbers, area_between, box_area
from panelart.geometry import Box, circle
from tests.effort import examples

cp_model = pytest.importorskip("ortools.sat.python.cp_model")

FACE = 120
ROOM = 2


def boxes(seed: int, count: int) -> tuple[dict[str, tuple[int, int]], dict[str, tuple[int, int]]]:
    """Places and half sizes of boxes in whole mm, some of them on each other."""
    draw = random.Random(seed)
    half = {f"S{n}": (draw.randint(4, 12), draw.randint(4, 12)) for n in range(count)}
    at = {ref: (draw.randint(20, FACE - 20), draw.randint(20, FACE // 2 - 10)) for ref in half}
    return at, half


def task(
    at: Mapping[str, tuple[int, int]],
    half: Mapping[str, tuple[int, int]],
    fixed: set[str],
    lines: tuple[Line, ...] = (),
) -> Task:
    refs = list(at)
    bounds = {ref: Box(-half[ref][0], -half[ref][1], half[ref][0], half[ref][1]) for ref in refs}
    rules = {
        (one, two): Rule(one=one, two=two, area=box_area(bounds[one], bounds[two], ROOM))
        for number, one in enumerate(refs)
        for two in refs[number + 1 :]
    }

    def broken(places: Mapping[str, Numbers]) -> list[Rule]:
        return [rule for rule in rules.values() if rule.area.depth(places[rule.two] - places[rule.one]) > 1e-4]

    sides = np.array([(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)])
    return Task(
        at={ref: np.array(place, dtype=float) for ref, place in at.items()},
        units=[Unit(name=ref, goes={ref: (1.0, 1.0)}) for ref in refs if ref not in fixed],
        lines=lines,
        inside=[
            Inside(
                ref=ref,
                ways=sides,
                most=np.array(
                    [FACE - half[ref][0], FACE // 2 - half[ref][1], -half[ref][0], -half[ref][1]], dtype=float
                ),
            )
            for ref in refs
        ],
        broken=broken,
        farthest=float(FACE),
        step=1.0,
    )


def by_cp_sat(
    at: Mapping[str, tuple[int, int]],
    half: Mapping[str, tuple[int, int]],
    fixed: set[str],
    lines: tuple[Line, ...] = (),
) -> int | None:
    """The least sum of moves along x and y in whole mm, with what leaving lines counts; None where nothing fits."""
    model = cp_model.CpModel()
    moves: dict[tuple[str, int], object] = {}
    costs = []
    across, up = [], []
    for ref, place in at.items():
        sides = []
        for axis in (0, 1):
            size = (FACE, FACE // 2)[axis]
            if ref in fixed:
                here = model.new_constant(place[axis])
            else:
                here = model.new_int_var(half[ref][axis], size - half[ref][axis], "")
                gone = model.new_int_var(0, size, "")
                model.add_abs_equality(gone, here - place[axis])
                costs.append(gone)
            moves[ref, axis] = here - place[axis]
            low = model.new_int_var(-size, 2 * size, "")
            model.add(low == here - half[ref][axis])
            length = 2 * half[ref][axis] + ROOM
            sides.append(model.new_fixed_size_interval_var(low, length, ""))
        across.append(sides[0])
        up.append(sides[1])
    model.add_no_overlap_2d(across, up)
    for line in lines:
        common = model.new_int_var(-FACE, FACE, "")
        for ref in line.refs:
            leaves = model.new_bool_var("")
            model.add(moves[ref, line.axis] == common).only_enforce_if(~leaves)
            costs.append(int(LEAVING) * leaves)
    model.minimize(sum(costs))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 60
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return None
    assert status == cp_model.OPTIMAL
    return round(solver.objective_value)


@pytest.mark.parametrize("seed", range(examples(12)))
def test_moves_of_boxes_are_as_small_as_an_exact_solver_finds(seed: int) -> None:
    """Oracle: CP-SAT, proved optimal. Every fourth panel has a box that stays."""
    at, half = boxes(seed, 4)
    fixed = {"S0"} if seed % 4 == 0 else set()
    least = by_cp_sat(at, half, fixed)
    found = least_moves(task(at, half, fixed))
    if least is None:
        assert found.short > 0.0
    else:
        assert found.short == 0.0
        assert found.cost == pytest.approx(least, abs=1e-3)
        assert found.bound == pytest.approx(least, abs=1e-3)


@pytest.mark.parametrize("seed", range(examples(6)))
def test_rows_are_left_where_it_costs_less(seed: int) -> None:
    """The same with boxes in one row, which count 3 mm more for each that leaves it."""
    at, half = boxes(100 + seed, 4)
    level = {ref: (place[0], 30) for ref, place in at.items()}
    lines = (Line(axis=1, refs=tuple(at)),)
    least = by_cp_sat(level, half, set(), lines)
    assert least is not None
    assert least_moves(task(level, half, set(), lines)).cost == pytest.approx(least, abs=1e-3)


def test_round_things_pass_where_they_touch() -> None:
    """Two discs of 20 mm, 12 mm apart and 2 mm of room: the step becomes 22 mm long, 10 mm more straight on."""
    disc = body_of(circle(20.0))
    rule = Rule(one="S1", two="S2", area=area_between(disc, disc, 2.0))
    found = least_moves(
        Task(
            at={"S1": np.array([30.0, 30.0]), "S2": np.array([42.0, 30.0])},
            units=[Unit(name="S2", goes={"S2": (1.0, 1.0)})],
            lines=(),
            inside=(),
            broken=lambda places: [rule] if rule.area.depth(places["S2"] - places["S1"]) > 1e-4 else [],
            farthest=40.0,
        )
    )
    assert found.cost == pytest.approx(10.0, abs=1e-6)
    assert found.bound == pytest.approx(10.0, abs=0.12)  # held by 32 sides: half a percent of 22 mm
    assert found.bound <= found.cost


def test_what_moves_together_goes_together() -> None:
    """A pair that keeps its distance costs twice, so the single one makes way."""
    at = {"S1": (40, 30), "S2": (60, 30), "S3": (55, 30)}
    half = dict.fromkeys(at, (5, 5))
    one = task({ref: at[ref] for ref in ("S1", "S2", "S3")}, half, set())
    pair = Unit(name="pair", goes={"S1": (1.0, 1.0), "S2": (1.0, 1.0)})
    joined = Task(
        at=one.at,
        units=[pair, one.units[2]],
        lines=(),
        inside=one.inside,
        broken=one.broken,
        farthest=one.farthest,
        step=1.0,
    )
    found = least_moves(joined)
    after = places_after(joined, found.by)
    assert (after["S2"] - after["S1"]).tolist() == [20.0, 0.0]
    assert set(found.by) == {"S3"}
    assert found.cost == pytest.approx(12.0)  # up or down, 10 + 2: 24 across are not free between the two
