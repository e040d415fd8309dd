"""A layout in, its findings out: every rule, then the waivers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.checks import house as house_file
from panelart.checks.baseline import Known, known_findings
from panelart.checks.findings import Finding
from panelart.checks.house import House, HouseChange
from panelart.checks.limits import Limits, standard
from panelart.checks.marking import process_limits
from panelart.checks.registry import PANEL_RULES, RULES, WAIVER_RULES
from panelart.checks.rule import Rule
from panelart.checks.survey import Survey, survey
from panelart.checks.waivers import Waived, review
from panelart.diagnostics import Problem, Severity, SpecError
from panelart.model.layout import Layout
from panelart.model.panel import Panel
from panelart.stages import read, watch


class Inspection(Struct, frozen=True, kw_only=True):
    """The result: open findings, most serious first, those that the designer accepted, and those known before.

    `known` are in the baseline, a list of what an old panel had when it was first checked. `house` is what the
    designer's house changes of the default limits and severities.
    """

    panel: Panel
    findings: tuple[Finding, ...]
    waived: tuple[Waived, ...] = ()
    known: tuple[Finding, ...] = ()
    house: tuple[HouseChange, ...] = ()

    def count(self, severity: Severity) -> int:
        """How many open findings there are of one severity."""
        return sum(finding.severity is severity for finding in self.findings)

    @property
    def failed(self) -> bool:
        """Whether anything is open at error level."""
        return self.count(Severity.ERROR) > 0


def inspect(
    layout: Layout, limits: Limits | None = None, *, today: str = "", baseline: Known | None = None
) -> Inspection:
    """Run every rule on a layout.

    The limits are the default limits when none are given; those of the panel's house file take precedence. `today`
    (YYYY-MM-DD) ends waivers whose last day is past. Findings of a `baseline` are set apart.

    Raises SpecError when the house file has errors.
    """
    program = {**(standard() if limits is None else limits), **process_limits(layout.panel.marking.process)}
    own = _house(layout.panel, program)
    looked = watch(survey(layout, {**program, **own.limits}, own.abbreviations))
    places = layout.panel.places
    seen = (places.told(finding) for rule in PANEL_RULES.values() for finding in _found(rule, looked))
    found = sorted(_weighed(seen, own.severities))
    held = review(layout.panel, found, tuple(PANEL_RULES), today)
    about_waivers = _weighed(
        (places.told(finding) for rule in WAIVER_RULES.values() for finding in rule.findings(held)), own.severities
    )
    still_open, known = known_findings(sorted((*held.open, *about_waivers)), baseline)
    return Inspection(
        panel=layout.panel, findings=still_open, waived=places.told(held.waived), known=known, house=own.changes
    )


def _found(rule: Rule[Survey], looked: Survey) -> tuple[Finding, ...]:
    """What a rule finds, worked out again only where something that it reads is another."""
    return read(f"rule {rule.name}", lambda survey: tuple(rule.findings(survey)), looked)


def house_problems(panel: Panel) -> tuple[Problem, ...]:
    """The errors in the panel's house file, to report them before there is a layout to inspect."""
    try:
        _house(panel, {**standard(), **process_limits(panel.marking.process)})
    except SpecError as error:
        return error.problems
    return ()


def _house(panel: Panel, program: Limits) -> House:
    return house_file.read(panel.house, program, {rule.name: rule.severity for rule in RULES.values()})


def _weighed(findings: Iterable[Finding], severities: Mapping[str, Severity]) -> list[Finding]:
    """The findings with the house's severities on those of the rules it names."""
    return [
        replace(finding, severity=severities[finding.rule]) if finding.rule in severities else finding
        for finding in findings
    ]
