"""The solver: the cheapest choice of one value for every variable, proved. It knows nothing of panels."""

from __future__ import annotations

from panelart.legends.solver.bound import bound
from panelart.legends.solver.budget import Budget
from panelart.legends.solver.problem import (
    HARD,
    MalformedProblemError,
    Problem,
    cost_of,
    in_tiers,
    tier_weights,
)
from panelart.legends.solver.solve import ComponentReport, Solution, solve

__all__ = [
    "HARD",
    "Budget",
    "ComponentReport",
    "MalformedProblemError",
    "Problem",
    "Solution",
    "bound",
    "cost_of",
    "in_tiers",
    "solve",
    "tier_weights",
]
