"""Checks: a layout in, findings out. Rules are in modules by family, limits are data, waivers are applied last."""

from __future__ import annotations

from panelart.checks.findings import Bound, Finding, Observation, Spot
from panelart.checks.house import HouseChange
from panelart.checks.inspection import Inspection, inspect
from panelart.checks.limits import Basis, Limit, Limits
from panelart.checks.registry import RULES
from panelart.checks.rule import Rule
from panelart.checks.waivers import Waived

__all__ = [
    "RULES",
    "Basis",
    "Bound",
    "Finding",
    "HouseChange",
    "Inspection",
    "Limit",
    "Limits",
    "Observation",
    "Rule",
    "Spot",
    "Waived",
    "inspect",
]
