"""A layout in, its findings out: every rule, then the waivers."""

from __future__ import annotations

from dataclasses import dataclass

from panelart.checks.findings import Finding
from panelart.checks.limits import Limits
from panelart.checks.registry import PANEL_RULES, WAIVER_RULES
from panelart.checks.survey import survey
from panelart.checks.waivers import Waived, review
from panelart.diagnostics import Severity
from panelart.model.layout import Layout
from panelart.model.panel import Panel


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspection:
    """The result: open findings, most serious first, and those that the designer accepted."""

    panel: Panel
    findings: tuple[Finding, ...]
    waived: tuple[Waived, ...] = ()

    def count(self, severity: Severity) -> int:
        """How many open findings there are of one severity."""
        return sum(finding.severity is severity for finding in self.findings)

    @property
    def failed(self) -> bool:
        """Whether anything is open at error level."""
        return self.count(Severity.ERROR) > 0


def inspect(layout: Layout, limits: Limits | None = None) -> Inspection:
    """Run every rule on a layout. The limits are the program's own when none are given."""
    looked = survey(layout, limits)
    found = sorted(finding for rule in PANEL_RULES.values() for finding in rule.findings(looked))
    held = review(layout.panel, found, tuple(PANEL_RULES))
    about_waivers = [finding for rule in WAIVER_RULES.values() for finding in rule.findings(held)]
    return Inspection(
        panel=layout.panel,
        findings=tuple(sorted((*held.open, *about_waivers))),
        waived=held.waived,
    )
