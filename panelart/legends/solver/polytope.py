"""The last road for a component too wide for elimination: a mixed integer program on the local polytope.

One column for every value, and where pairs of values cost something one for every permitted pair,

    sum over a of x_ia = 1,    sum over b of y_ab = x_ia,    sum over a of y_ab = x_jb,    x in {0, 1}, y in [0, 1].

Pairs that are only forbidden or free need no columns: of values that clash at most one is chosen.

On panels the linear relaxation is nearly tight, so HiGHS needs few branches. It is an optional library, loaded only
when a component comes this far; without it the bound of bounds.py stands.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from math import ceil, inf, isfinite

import numpy as np
from msgspec import field

from panelart.canonical import Struct
from panelart.legends.solver.network import Network

PRECISE = 1 << 30
"""Costs up to which the program's floating point can tell two whole numbers apart with room to spare."""

FEASIBLE = 2
"""HiGHS's number for "a feasible solution was found"."""

INTEGRALITY = 1e-3
"""How far below a whole number a bound may lie and still count as that number."""


class Count(Struct, frozen=True, kw_only=True):
    """What every answer in question counts in the tiers from a weight up, in units of it (see tiers.py)."""

    weight: int
    total: int


class ProgramResult(Struct, frozen=True, kw_only=True):
    """positions: the best answer met, if any was. least: no answer costs less (0 if nothing was learnt)."""

    positions: dict[int, int] | None
    minimum: int


def available() -> bool:
    """Whether HiGHS is installed."""
    return find_spec("highspy") is not None


class _Rows(Struct):
    """Constraints as they are collected: entries of the matrix, and what each row must come to."""

    rows: list[np.ndarray] = field(default_factory=list)
    columns: list[np.ndarray] = field(default_factory=list)
    entries: list[np.ndarray] = field(default_factory=list)
    lower: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)

    def add(self, columns: np.ndarray, entries: np.ndarray | float, lower: float, upper: float) -> None:
        self.rows.append(np.full(len(columns), len(self.lower)))
        self.columns.append(columns)
        self.entries.append(np.broadcast_to(np.asarray(entries, dtype=float), len(columns)))
        self.lower.append(lower)
        self.upper.append(upper)


class _Program(Struct):
    """Columns as they are laid: those of each variable's values, then those of permitted pairs, and their costs."""

    rows: _Rows = field(default_factory=_Rows)
    column: dict[int, np.ndarray] = field(default_factory=dict)
    costs: list[np.ndarray] = field(default_factory=list)
    width: int = 0

    def choose(self, i: int, unary: np.ndarray) -> None:
        """Lay the columns of a variable's values, of which one is chosen."""
        self.column[i] = self._laid(unary)
        self.rows.add(self.column[i], 1, 1, 1)

    def link(self, i: int, j: int, pair: np.ndarray, at_most: int) -> None:
        """Forbid the pairs of two variables that are dearer than that; lay columns where the others cost anything."""
        hard = pair > at_most
        for clash in _cliques(hard, self.column[i], self.column[j]):
            self.rows.add(clash, 1, -inf, 1)
        if not pair[~hard].any():
            return
        a, b = np.nonzero(~hard)
        joint = self._laid(pair[a, b])
        for side, variable in ((a, i), (b, j)):
            for position, single in enumerate(self.column[variable]):
                together = joint[side == position]
                self.rows.add(np.append(together, single), np.append(np.ones(len(together)), -1), 0, 0)

    def _laid(self, costs: np.ndarray) -> np.ndarray:
        """The numbers of new columns with these costs."""
        columns = self.width + np.arange(len(costs))
        self.width += len(costs)
        self.costs.append(costs)
        return columns


def solve_program(net: Network, *, at_most: int, nodes: int, count: Count | None) -> ProgramResult:
    """Solve a component as a mixed integer program, by up to so many branches.

    at_most: the cost of a known answer; pairs dearer than it are left out of the program. count: known of every answer
    not dearer than that; the program is told, and minimises the tiers below only.
    """
    weight, certain = (1 << 62, 0) if count is None else (count.weight, count.weight * count.total)
    if at_most - certain >= PRECISE:
        return ProgramResult(positions=None, minimum=0)
    program = _Program()
    for i, unary in net.unary.items():
        program.choose(i, unary)
    whole = program.width
    for i, links in net.links.items():
        for j, pair in links.items():
            if i < j:
                program.link(i, j, pair, at_most)
    cost = np.concatenate(program.costs)
    if count is not None and (cost >= weight).any():
        counted = np.flatnonzero(cost >= weight)
        program.rows.add(counted, cost[counted] // weight, count.total, count.total)
    x, bound = _run(program.rows, (cost % weight).astype(float), whole, nodes)
    positions = None if x is None else {i: int(x[columns].argmax()) for i, columns in program.column.items()}
    return ProgramResult(positions=positions, minimum=certain + max(0, ceil(bound - INTEGRALITY)))


def _cliques(hard: np.ndarray, first: np.ndarray, second: np.ndarray) -> list[np.ndarray]:
    """Sets of columns of which at most one can be chosen: a value, all it clashes with, all that clash with those."""
    found: dict[bytes, np.ndarray] = {}
    for clashes, mine, theirs in ((hard, first, second), (hard.T, second, first)):
        for row in clashes[clashes.any(axis=1)]:
            clash = np.sort(np.append(mine[clashes[:, row].all(axis=1)], theirs[row]))
            found[clash.tobytes()] = clash
    return list(found.values())


def _run(rows: _Rows, cost: np.ndarray, whole: int, nodes: int) -> tuple[np.ndarray | None, float]:
    """Run HiGHS: the columns of the best solution, None without one, and the bound."""
    import highspy

    row, column = np.concatenate(rows.rows), np.concatenate(rows.columns)
    by_column = np.lexsort((row, column))
    program = highspy.HighsLp()
    program.num_col_, program.num_row_ = len(cost), len(rows.lower)
    program.col_cost_ = cost
    program.col_lower_, program.col_upper_ = np.zeros(len(cost)), np.ones(len(cost))
    program.row_lower_, program.row_upper_ = np.array(rows.lower), np.array(rows.upper)
    matrix = program.a_matrix_
    matrix.format_ = highspy.MatrixFormat.kColwise
    ends = np.cumsum(np.bincount(column, minlength=len(cost)))
    matrix.start_ = np.concatenate([[0], ends]).astype(np.int32)
    matrix.index_ = row[by_column].astype(np.int32)
    matrix.value_ = np.concatenate(rows.entries)[by_column]
    kinds = highspy.HighsVarType
    program.integrality_ = [kinds.kInteger] * whole + [kinds.kContinuous] * (len(cost) - whole)
    with silence():
        solver = highspy.Highs()  # type: ignore[no-untyped-call]
    options: dict[str, bool | float | str] = {
        "output_flag": False,
        "threads": 1,
        "presolve": "off",  # dead ends and bound have been through it already; measured 2 to 4 times as fast
        "random_seed": 0,
        "mip_max_nodes": nodes,
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 0.9,  # costs are whole: a smaller gap is none
    }
    for option, value in options.items():
        solver.setOptionValue(option, value)
    solver.passModel(program)
    solver.run()
    info = solver.getInfo()
    x = np.array(solver.getSolution().col_value) if info.primal_solution_status == FEASIBLE else None
    return x, info.mip_dual_bound if isfinite(info.mip_dual_bound) else 0.0


@contextmanager
def silence() -> Iterator[None]:
    """HiGHS greets on standard output when it is made, before it can be told not to; that output may be a report."""
    sys.stdout.flush()
    kept = os.dup(1)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)
