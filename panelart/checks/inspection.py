"""A layout in, its findings out: every rule, then the waivers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import TracebackType
from typing import Any

from msgspec.structs import replace

from panelart import extensions
from panelart.canonical import Struct
from panelart.checks import house as house_file
from panelart.checks.baseline import Known, known_findings
from panelart.checks.findings import Finding
from panelart.checks.house import House, HouseChange
from panelart.checks.limits import Limits, standard
from panelart.checks.marking import process_limits
from panelart.checks.registry import BUILT_IN, Rules, installed
from panelart.checks.replaced import ReplacedPart, replaced_parts
from panelart.checks.rule import Rule
from panelart.checks.survey import Survey, survey
from panelart.checks.waivers import Waived, review
from panelart.diagnostics import Problem, Severity, SpecError, Where
from panelart.extensions import ExtensionError
from panelart.messages import extensions as said
from panelart.model.layout import Layout
from panelart.model.panel import Panel
from panelart.reprs import brief, counted
from panelart.stages import read, watch


class Inspection(Struct, frozen=True, kw_only=True):
    """The result: open findings, most serious first, those that the designer accepted, and those known before.

    `known` are in the baseline, a list of what an old panel had when it was first checked. `house` is what the
    designer's house changes of the default limits and severities. `rules` are those that were run; `without`
    are the extensions that were left out, whose rules were not.
    """

    panel: Panel
    findings: tuple[Finding, ...]
    waived: tuple[Waived, ...] = ()
    known: tuple[Finding, ...] = ()
    house: tuple[HouseChange, ...] = ()
    rules: Rules = BUILT_IN
    without: tuple[str, ...] = ()

    def rule(self, finding: Finding) -> Rule[Any]:
        """The rule of a finding."""
        return self.rules.every[finding.rule]

    @property
    def replaced(self) -> tuple[ReplacedPart, ...]:
        """The catalogue parts whose figures a part file changes."""
        return replaced_parts(self.panel)

    def count(self, severity: Severity) -> int:
        """How many open findings there are of one severity."""
        return sum(finding.severity is severity for finding in self.findings)

    @property
    def failed(self) -> bool:
        """Whether anything is open at error level."""
        return self.count(Severity.ERROR) > 0

    def __repr__(self) -> str:
        return brief(
            "Inspection",
            repr(self.panel.title),
            *(counted(self.count(each), each.value) for each in Severity),
            f"{len(self.waived)} waived",
        )


def inspect(
    layout: Layout, limits: Limits | None = None, *, today: str = "", baseline: Known | None = None
) -> Inspection:
    """Run every rule on a layout.

    The limits are the default limits when none are given; those of the panel's house file take precedence. `today`
    (YYYY-MM-DD) ends waivers whose last day is past. Findings of a `baseline` are set apart.

    Raises SpecError when the house file has errors; ExtensionError when a rule of another package cannot be loaded, or
    fails.
    """
    rules = installed()
    program = _program(layout.panel, rules, standard() if limits is None else limits)
    own = _house(layout.panel, program, rules)
    plain = survey(layout, {**program, **own.limits}, own.abbreviations)
    looked = watch(plain)
    places = layout.panel.places
    seen = (
        places.told(finding)
        for rule in rules.panel.values()
        for finding in (_tried(rule, plain) if rule.extension else _found(rule, looked))
    )
    found = sorted(_weighed(seen, own.severities), key=lambda one: one.order)
    held = review(layout.panel, found, tuple(rules.panel), today)
    about_waivers = _weighed(
        (places.told(finding) for rule in rules.waivers.values() for finding in rule.findings(held)), own.severities
    )
    still_open, known = known_findings(sorted((*held.open, *about_waivers), key=lambda one: one.order), baseline)
    return Inspection(
        panel=layout.panel,
        findings=still_open,
        waived=places.told(held.waived),
        known=known,
        house=own.changes,
        rules=rules,
        without=extensions.left_out(),
    )


def _found(rule: Rule[Survey], looked: Survey) -> tuple[Finding, ...]:
    """What a rule finds, worked out again only where something that it reads is another."""
    return read(f"rule {rule.name}", lambda survey: tuple(rule.findings(survey)), looked)


def _tried(rule: Rule[Survey], looked: Survey) -> Iterator[Finding]:
    """What a rule of another package finds, worked out anew: nothing holds it to be a pure function.

    Raises ExtensionError where it fails.
    """
    try:
        for finding in rule.findings(looked):
            str(finding.says), str(finding.cure), finding < finding  # noqa: PLR0124  # fails here where it would later
            yield finding
    except Exception as error:  # whatever a function of another package raises
        says = said.rule_failed(rule=rule.name, reason=extensions.told(error))
        hint = said.leave_out(extension=rule.extension)
        raise ExtensionError([Problem(where=_raised_at(rule, error), says=says, accepts=hint)]) from error


def _raised_at(rule: Rule[Survey], error: Exception) -> Where:
    """The last line of the rule's own file on the way to where it failed."""
    code = getattr(rule.check, "__code__", None)
    file, line = (rule.check.__module__, 1) if code is None else (code.co_filename, code.co_firstlineno)
    step: TracebackType | None = error.__traceback__
    while step is not None:
        if step.tb_frame.f_code.co_filename == file:
            line = step.tb_lineno
        step = step.tb_next
    return Where(file, line, 1)


def house_problems(panel: Panel) -> tuple[Problem, ...]:
    """The errors in the panel's house file, to report them before there is a layout to inspect.

    Raises ExtensionError when a rule of another package cannot be loaded.
    """
    rules = installed()
    try:
        _house(panel, _program(panel, rules, standard()), rules)
    except SpecError as error:
        return error.problems
    return ()


def limits_of(panel: Panel) -> Limits:
    """The limits that hold for a panel: the program's, those of its process, and its house's own before both.

    Raises SpecError when the house file has errors.
    """
    rules = installed()
    program = _program(panel, rules, standard())
    return {**program, **_house(panel, program, rules).limits}


def _program(panel: Panel, rules: Rules, limits: Limits) -> Limits:
    """The limits before the house's own: those given, of the rules, of the panel's process."""
    return {**limits, **rules.limits, **process_limits(panel.marking.process)}


def _house(panel: Panel, program: Limits, rules: Rules) -> House:
    return house_file.read(panel.house, program, {rule.name: rule.severity for rule in rules.every.values()})


def _weighed(findings: Iterable[Finding], severities: Mapping[str, Severity]) -> list[Finding]:
    """The findings with the house's severities on those of the rules it names."""
    return [
        replace(finding, severity=severities[finding.rule]) if finding.rule in severities else finding
        for finding in findings
    ]
