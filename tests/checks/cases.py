"""How a case of a rule's table is looked at."""

from __future__ import annotations

from panelart.checks import RULES, Finding
from panelart.checks.limits import Limits, standard
from panelart.checks.registry import BUILT_IN
from panelart.checks.survey import survey
from panelart.model.layout import Layout

JUST = 1e-6
"""Millimetres either side of a limit: a case that near must still fall on the right side."""


def found(rule: str, layout: Layout, limits: Limits | None = None) -> list[Finding]:
    known = {**BUILT_IN.limits, **(standard() if limits is None else limits)}
    return list(RULES[rule].findings(survey(layout, known)))


def measured(rule: str, layout: Layout) -> list[float]:
    return [finding.measured for finding in found(rule, layout)]


def refs(rule: str, layout: Layout) -> list[tuple[str, ...]]:
    return [finding.refs for finding in found(rule, layout)]
