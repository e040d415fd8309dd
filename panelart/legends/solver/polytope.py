"""The last road for a component too wide for elimination: a mixed integer program on the local polytope.

One column for every value and one for every permitted pair of values of linked variables,

    sum over a of x_ia = 1,    sum over b of y_ab = x_ia,    sum over a of y_ab = x_jb,    x in {0, 1}, y in [0, 1].

On panels the linear relaxation is nearly tight, so HiGHS needs few branches. It is an optional library, loaded only
when a component comes this far; without it the bound of bounds.py stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib.util import find_spec
from math import ceil, inf, isfinite

import numpy as np

from panelart.legends.solver.network import Network

PRECISE = 1 << 30
"""Costs up to which the program's floating point can tell two whole numbers apart with room to spare."""

INTEGRALITY = 1e-3
"""How far below a whole number a bound may lie and still count as that number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgramResult:
    """positions: the best answer met, if any was. least: no answer costs less (0 if nothing was learnt)."""

    positions: dict[int, int] | None
    least: int


def available() -> bool:
    """Whether HiGHS is installed."""
    return find_spec("highspy") is not None


def solve_program(net: Network, *, at_most: int, nodes: int) -> ProgramResult:
    """Solve a component as a mixed integer program, by up to so many branches.

    at_most: the cost of a known answer; pairs dearer than it are left out of the program.
    """
    if at_most >= PRECISE:
        return ProgramResult(positions=None, least=0)
    import highspy  # noqa: PLC0415 - optional, and heavy

    column: dict[int, int] = {}
    costs: list[np.ndarray] = []
    count = 0
    for i, unary in net.unary.items():
        column[i] = count
        count += len(unary)
        costs.append(unary)
    whole = count
    rows: list[np.ndarray] = []
    columns: list[np.ndarray] = []
    entries: list[np.ndarray] = []
    right: list[int] = []
    for i, unary in net.unary.items():
        rows.append(np.full(len(unary), len(right)))
        columns.append(column[i] + np.arange(len(unary)))
        entries.append(np.ones(len(unary)))
        right.append(1)
    for i, links in net.links.items():
        for j, pair in links.items():
            if i >= j:
                continue
            a, b = np.nonzero(pair <= at_most)
            y = count + np.arange(len(a))
            count += len(a)
            costs.append(pair[a, b])
            for chosen, variable, size in ((a, i, pair.shape[0]), (b, j, pair.shape[1])):
                first = len(right)
                rows += [first + chosen, first + np.arange(size)]
                columns += [y, column[variable] + np.arange(size)]
                entries += [np.ones(len(a)), -np.ones(size)]
                right += [0] * size
    row, col, entry = np.concatenate(rows), np.concatenate(columns), np.concatenate(entries)
    by_column = np.lexsort((row, col))
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = count, len(right)
    lp.col_cost_ = np.concatenate(costs).astype(float)
    lp.col_lower_, lp.col_upper_ = np.zeros(count), np.ones(count)
    lp.row_lower_ = lp.row_upper_ = np.array(right, dtype=float)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    lp.a_matrix_.start_ = np.concatenate([[0], np.cumsum(np.bincount(col, minlength=count))]).astype(np.int32)
    lp.a_matrix_.index_ = row[by_column].astype(np.int32)
    lp.a_matrix_.value_ = entry[by_column]
    lp.integrality_ = [highspy.HighsVarType.kInteger] * whole + [highspy.HighsVarType.kContinuous] * (count - whole)
    solver = highspy.Highs()
    for option, value in {
        "output_flag": False, "threads": 1, "random_seed": 0, "mip_max_nodes": nodes,
        "mip_rel_gap": 0.0, "mip_abs_gap": 0.9,
    }.items():  # fmt: skip
        solver.setOptionValue(option, value)
    solver.passModel(lp)
    solver.run()
    info = solver.getInfo()
    least = ceil(info.mip_dual_bound - INTEGRALITY) if isfinite(info.mip_dual_bound) else 0
    positions = None
    if info.primal_solution_status == 2:
        x = np.array(solver.getSolution().col_value)
        positions = {i: int(x[column[i] : column[i] + len(net.unary[i])].argmax()) for i in net.unary}
    return ProgramResult(positions=positions, least=least)
