"""The smallest moves after which all steps between parts are out of the areas that they stay out of.

A mixed integer program. What moves together is one unit with a move across and one up; of each area one side is chosen
on which the step passes it. Areas come in only once a solution lies inside them, so that the last solution is that of
all of them. What no move can keep is left short by the least.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.drafting.separation import Area
from panelart.legends.solver.polytope import FEASIBLE, silence

Numbers: TypeAlias = NDArray[np.float64]

LEAVING: Final = 3.0
"""A part that leaves the row or column it stands in counts as if it moved so much farther, mm."""

SHORT: Final = 1000.0
"""What a millimetre that is left short counts: more than any move that would give it."""

CLOSE: Final = 1e-5
"""Rounding of the solver, mm."""

FEW_RULES: Final = 10
"""For so many areas every side may be the one that is passed; of more the FEW_SIDES nearest, and the bound is found by
a short search over all of them."""

FEW_SIDES: Final = 5

_ROUNDS: Final = 60


class Unit(Struct, frozen=True, kw_only=True):
    """What one change of the text moves: parts by ref, each with how far it goes for a move of 1 across and of 1 up."""

    name: str
    goes: Mapping[str, tuple[float, float]]


class Line(Struct, frozen=True, kw_only=True):
    """Parts that stand in a row (axis 1) or a column (axis 0)."""

    axis: int
    refs: tuple[str, ...]


class Rule(Struct, frozen=True, eq=False, kw_only=True):
    """An area that the step from one part to another, or with `two` alone the place of a part, stays out of."""

    one: str
    two: str
    area: Area


class Inside(Struct, frozen=True, eq=False, kw_only=True):
    """The half-planes that the place of a part stays in."""

    ref: str
    ways: Numbers
    most: Numbers


class Task(Struct, frozen=True, eq=False, kw_only=True):
    """Places of parts in mm, what moves, what is kept in line, and how far a unit may go along each axis.

    `rules` tells, for places, which areas steps lie in, `step` the least by which moves differ, 0 for any.
    """

    at: Mapping[str, Numbers]
    units: Sequence[Unit]
    lines: Sequence[Line]
    inside: Sequence[Inside]
    broken: Callable[[Mapping[str, Numbers]], Sequence[Rule]]
    farthest: float
    step: float = 0.0


class Moves(Struct, frozen=True, kw_only=True):
    """Moves of units by name, in mm, what they cost, no less than which any moves cost, and what is left short."""

    by: Mapping[str, tuple[float, float]]
    cost: float
    bound: float
    short: float


def least_moves(task: Task) -> Moves:
    """The moves that cost least: the sum over parts of their moves along x and y, and LEAVING for each line left."""
    rules: list[Rule] = []
    effort = ROUGH
    for _ in range(_ROUNDS):
        program = _Program(task, rules, FEW_SIDES if len(rules) > FEW_RULES else None)
        solved = found = program.solved(effort)
        more = _new(task.broken(places_after(task, solved.by)), rules)
        if not more and effort is ROUGH:
            effort = FINE
            continue
        if not more and task.step:
            found = program.rounded(solved)
            more = _new(task.broken(places_after(task, found.by)), rules)
        if not more:
            break
        rules += more
        effort = ROUGH
    return Moves(by=found.by, cost=found.cost, bound=min(_bound(task, rules), found.cost), short=found.short)


def _bound(task: Task, rules: Sequence[Rule]) -> float:
    """What any moves cost at least: round areas count for no more than they are."""
    inner = [Rule(one=rule.one, two=rule.two, area=rule.area.inner) for rule in rules]
    return _Program(task, inner, None).solved(FINE if len(rules) <= FEW_RULES else ROUGH).bound


def _new(found: Sequence[Rule], known: Sequence[Rule]) -> list[Rule]:
    have = {id(rule.area) for rule in known}
    return [rule for rule in found if id(rule.area) not in have]


def places_after(task: Task, by: Mapping[str, tuple[float, float]]) -> dict[str, Numbers]:
    """Where parts stand after moves of units."""
    places = dict(task.at)
    for unit in task.units:
        move = by.get(unit.name, (0.0, 0.0))
        for ref, goes in unit.goes.items():
            places[ref] = places[ref] + np.array([goes[0] * move[0], goes[1] * move[1]])
    return places


class _Effort(Struct, frozen=True):
    """Nodes of the search for one solution, and the share of the cost by which it may be too much.

    A count and no time, so that the same spec gives the same moves.
    """

    nodes: int
    gap: float


ROUGH: Final = _Effort(100, 0.05)
FINE: Final = _Effort(3000, 0.0)


# --- the program


class _Program:
    """Columns are the moves, each as what it is up and down, then what rules and lines need."""

    def __init__(self, task: Task, rules: Sequence[Rule], sides: int | None) -> None:
        self.task = task
        self.sides = sides
        self.cost: list[float] = []
        self.upper: list[float] = []
        self.lower: list[float] = []
        self.whole: list[bool] = []
        self.rows: list[tuple[dict[int, float], float, float]] = []
        self.chosen: list[tuple[Rule, list[tuple[int, int]], int]] = []
        self.moves: dict[tuple[str, int], tuple[int, int]] = {}
        self.of_part: dict[str, list[tuple[str, tuple[float, float]]]] = {}
        self._add_moves()
        for inside in task.inside:
            self._keep_inside(inside)
        for line in task.lines:
            self._keep_in_line(line)
        for rule in rules:
            self._keep_out(rule)

    def _add_moves(self) -> None:
        """The columns of each unit, across and up, and what parts cost that several units move."""
        task = self.task
        for unit in task.units:
            for ref, goes in unit.goes.items():
                self.of_part.setdefault(ref, []).append((unit.name, goes))
        for unit in task.units:
            for axis in (0, 1):
                alone = [goes[axis] for ref, goes in unit.goes.items() if len(self.of_part[ref]) == 1]
                far = task.farthest if any(goes[axis] for goes in unit.goes.values()) else 0.0
                weight = float(np.abs(alone).sum())
                self.moves[unit.name, axis] = self.column(weight, far), self.column(weight, far)
        for ref, units in self.of_part.items():
            if len(units) > 1:
                self._count_both(ref)

    def column(self, cost: float, upper: float, *, lower: float = 0.0, whole: bool = False) -> int:
        self.cost.append(cost)
        self.lower.append(lower)
        self.upper.append(upper)
        self.whole.append(whole)
        return len(self.cost) - 1

    def goes(self, ref: str, way: Sequence[float], sign: float = 1.0) -> dict[int, float]:
        """How far a part goes in a direction, as a sum of columns."""
        found: dict[int, float] = {}
        for unit, goes in self.of_part.get(ref, ()):
            for axis in (0, 1):
                value = sign * way[axis] * goes[axis]
                if value:
                    there, back = self.moves[unit, axis]
                    found[there] = found.get(there, 0.0) + value
                    found[back] = found.get(back, 0.0) - value
        return found

    def _count_both(self, ref: str) -> None:
        """A part that several units move costs what it moves in all."""
        for way in ((1.0, 0.0), (0.0, 1.0)):
            row = self.goes(ref, way)
            row[self.column(1.0, np.inf)] = -1.0
            row[self.column(1.0, np.inf)] = 1.0
            self.rows.append((row, 0.0, 0.0))

    def _keep_inside(self, inside: Inside) -> None:
        if inside.ref not in self.of_part:
            return
        left = inside.most - inside.ways @ self.task.at[inside.ref]
        near = left < self.task.farthest * np.abs(inside.ways).sum(axis=1)
        if not near.any():
            return
        slack = self.column(SHORT, np.inf)
        for way, most in zip(inside.ways[near], left[near], strict=True):
            row = self.goes(inside.ref, way)
            row[slack] = -1.0
            self.rows.append((row, -np.inf, float(most)))

    def _keep_in_line(self, line: Line) -> None:
        """Each part goes as far as the line does, or leaves it; parts that cannot move hold it."""
        if not any(ref in self.of_part for ref in line.refs):
            return
        far = 2.0 * self.task.farthest
        way = (1.0, 0.0) if line.axis == 0 else (0.0, 1.0)
        common = self.column(0.0, self.task.farthest, lower=-self.task.farthest)
        for ref in line.refs:
            leaves = self.column(LEAVING, 1.0, whole=True)
            for sign in (1.0, -1.0):
                row = self.goes(ref, way, sign)
                row[common] = row.get(common, 0.0) - sign
                row[leaves] = -far
                self.rows.append((row, -np.inf, 0.0))

    def _keep_out(self, rule: Rule) -> None:
        """One of the sides of the area is passed."""
        step = self.task.at[rule.two] - self.task.at[rule.one] if rule.one else self.task.at[rule.two]
        far = self.task.farthest * (2.0 if rule.one else 1.0)
        slack = self.column(SHORT, np.inf)
        sides: list[tuple[int, int]] = []
        short = rule.area.reaches - rule.area.ways @ step
        for number in np.argsort(short, kind="stable")[: self.sides].tolist():
            way, due = rule.area.ways[number], float(short[number])
            most = far * float(np.abs(way).sum())
            if due > most:
                continue
            chosen = self.column(0.0, 1.0, whole=True)
            row = self.goes(rule.two, way)
            for column, value in (self.goes(rule.one, way, -1.0) if rule.one else {}).items():
                row[column] = row.get(column, 0.0) + value
            loose = max(due, -most) + most
            row[slack] = 1.0
            row[chosen] = row.get(chosen, 0.0) - loose
            self.rows.append((row, due - loose, np.inf))
            sides.append((chosen, number))
        self.rows.append((dict.fromkeys((chosen for chosen, _ in sides), 1.0), 1.0 if sides else 0.0, np.inf))
        self.chosen.append((rule, sides, slack))

    # --- solving

    def solved(self, effort: _Effort) -> Moves:
        values, bound = _run(self, [], effort)
        return self._told(values, bound)

    def rounded(self, found: Moves) -> Moves:
        """The least moves by whole steps that pass every area on the side that it is passed on in a solution."""
        places = places_after(self.task, found.by)
        held: list[tuple[int, float]] = []
        for rule, sides, _ in self.chosen:
            step = places[rule.two] - places[rule.one] if rule.one else places[rule.two]
            clear = [float(rule.area.ways[number] @ step - rule.area.reaches[number]) for _, number in sides]
            held += [(column, float(index == int(np.argmax(clear)))) for index, (column, _) in enumerate(sides)]
        for there, back in self.moves.values():
            # One column in whole steps for what a move is up, one for what it is down.
            for column in (there, back):
                if self.upper[column]:
                    steps = self.column(0.0, np.ceil(self.upper[column] / self.task.step), whole=True)
                    self.rows.append(({column: 1.0, steps: -self.task.step}, 0.0, 0.0))
        values, bound = _run(self, held, FINE)
        return self._told(values, bound)

    def _told(self, values: Numbers, bound: float) -> Moves:
        by = {}
        for unit in self.task.units:
            x, y = (
                float(values[there] - values[back]) for there, back in (self.moves[unit.name, axis] for axis in (0, 1))
            )
            if abs(x) > CLOSE or abs(y) > CLOSE:
                by[unit.name] = x, y
        costs = np.array(self.cost)
        cost = float(np.where(costs < SHORT, costs, 0.0) @ values)
        short = float((costs >= SHORT) @ values)
        return Moves(by=by, cost=cost, bound=min(bound, cost), short=short if short > CLOSE else 0.0)


def _run(program: _Program, held: Iterable[tuple[int, float]], effort: _Effort) -> tuple[Numbers, float]:
    """Run HiGHS: the columns of the best solution and the bound; some columns are held at a value."""
    import highspy

    model = _model(program, held)
    with silence():
        solver = highspy.Highs()  # type: ignore[no-untyped-call]
    options: dict[str, bool | float | str] = {
        "output_flag": False,
        "threads": 1,
        "random_seed": 0,
        "mip_max_nodes": effort.nodes,
        "mip_rel_gap": effort.gap,
        "mip_abs_gap": 1e-6,
    }
    for option, set_to in options.items():
        solver.setOptionValue(option, set_to)
    solver.passModel(model)
    solver.run()
    info = solver.getInfo()
    if info.primal_solution_status != FEASIBLE:
        return np.zeros(len(program.cost)), 0.0
    bound = info.mip_dual_bound if any(program.whole) else info.objective_function_value
    return np.array(solver.getSolution().col_value), float(bound) if np.isfinite(bound) else 0.0


def _model(program: _Program, held: Iterable[tuple[int, float]]) -> Any:
    """The program as HiGHS takes it."""
    import highspy

    lower, upper = np.array(program.lower), np.array(program.upper)
    for column, value in held:
        lower[column] = upper[column] = value
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(lower), len(program.rows)
    model.col_cost_, model.col_lower_, model.col_upper_ = np.array(program.cost), lower, upper
    model.row_lower_ = np.array([low for _, low, _ in program.rows])
    model.row_upper_ = np.array([high for _, _, high in program.rows])
    matrix = model.a_matrix_
    matrix.format_ = highspy.MatrixFormat.kRowwise
    matrix.start_ = np.cumsum([0, *(len(row) for row, _, _ in program.rows)]).astype(np.int32)
    matrix.index_ = np.array([column for row, _, _ in program.rows for column in row], dtype=np.int32)
    matrix.value_ = np.array([value for row, _, _ in program.rows for value in row.values()], dtype=float)
    kinds = highspy.HighsVarType
    model.integrality_ = [kinds.kInteger if whole else kinds.kContinuous for whole in program.whole]
    return model
