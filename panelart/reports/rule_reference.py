"""The page of a rule, for the terminal; the pages of all rules and the tables of limits, in Markdown.

panelart/checks/RULES.md is the latter. All that is on a page is read from the rule: what it says of itself, the limits
that it declares, its first case.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from fnmatch import filter as matching
from typing import Any, Final

from panelart.checks import RULES, Basis
from panelart.checks.limits import BASES, Limit, standard
from panelart.checks.registry import OF_PROCESS
from panelart.checks.rule import Case, Rule
from panelart.figure import Figure
from panelart.messages import Message
from panelart.messages import reports_catalogue as said
from panelart.processes.process import Process
from panelart.processes.registry import processes
from panelart.reports.layout import folded

_WIDTH: Final = 120
_STANDINGS: Final = {
    Basis.LOOKED_UP: said.looked_up,
    Basis.COMMON_PRACTICE: said.common_practice,
    Basis.MEMORY: said.from_memory,
    Basis.GIVEN: said.given,
}


def rule_page(rule: Rule[Any], width: int = 100) -> str:
    """The page of one rule for the terminal, its limits folded to a width; without a line end at its end."""
    blocks = [f"{rule.name} ({rule.severity.value})", rule.doc]
    if rule.extension:
        blocks.append(str(said.rule_of_extension(rule.extension)))
    limits = [line for told in _limits_told(rule) for line in folded(told, width)]
    if limits:
        blocks.append("\n".join((f"{said.limits()}:", *limits)))
    for case in rule.examples[:1]:
        blocks += [str(said.case_fails()), textwrap.indent(case.failing, "    "), str(_passes(case))]
    return "\n\n".join(blocks)


def rule_reference() -> str:
    """The whole page of all rules, ending with a line end."""
    about = (said.rules_generated(), said.rules_severity(), said.rules_memory(), said.rules_house())
    head = f"# {said.rules_title()}\n\n{textwrap.fill(' '.join(map(str, about)), _WIDTH)}\n\n"
    return head + "\n".join((*_pages(), *_limits(), *_figures()))


def _pages() -> Iterator[str]:
    yield f"| {said.rule_column()} | {said.severity_column()} | |\n|---|---|---|"
    for rule in RULES.values():
        yield f"| [{rule.name}](#{rule.name}) | {rule.severity.value} | {rule.doc.splitlines()[0]} |"
    yield ""
    for rule in RULES.values():
        yield f"## {rule.name}\n"
        yield f"{said.severity_line(rule.severity.value)}\n"
        # Two blanks at the end of a line keep Source, Fix, Fails and Passes on lines of their own.
        body = (
            rule.doc.replace("\nFix:", "  \nFix:").replace("\nFails:", "  \nFails:").replace("\nPasses:", "  \nPasses:")
        )
        yield f"{body}\n"
        if rule.limits:
            yield f"{said.rule_limits([f'`{_name(limit)}`' for limit in rule.limits])}\n"
        for case in rule.examples[:1]:
            yield f"{said.case_fails()}\n\n```yaml\n{case.failing}\n```\n\n{_passes(case)}\n"


def _passes(case: Case) -> Message:
    if case.today:
        return said.case_passes_on(passes=case.passes, fails=case.fails, day=case.today)
    return said.case_passes(passes=case.passes, fails=case.fails)


def _name(limit: str | Limit) -> str:
    return limit if isinstance(limit, str) else limit.name


def _limits_told(rule: Rule[Any]) -> Iterator[Message]:
    """The limits that a rule declares, with what they are, their value, standing and source."""
    for declared in rule.limits:
        if isinstance(declared, Limit):
            yield _limit_told(declared)
        elif declared.startswith(OF_PROCESS):
            for process, figure in _figures_named(declared.removeprefix(OF_PROCESS)):
                standing = _STANDINGS[BASES[figure.known]]()
                yield said.process_figure(declared, process.name, _value(figure), standing, figure.source)
        else:
            yield from (_limit_told(standard()[name]) for name in matching(standard(), declared))


def _limit_told(limit: Limit) -> Message:
    return said.rule_limit(limit.name, limit.what, _value(limit), _STANDINGS[limit.basis](), limit.source)


def _figures_named(name: str) -> Iterator[tuple[Process, Figure]]:
    """The figure of each process that has one of that name."""
    for process in processes().values():
        figure = process.own.get(name, getattr(process, name, None))
        if isinstance(figure, Figure):
            yield process, figure


def _limits() -> Iterator[str]:
    yield f"\n## {said.limits()}\n"
    heads = (said.name(), said.what_column(), said.limit_column(), said.standing_column(), said.source_column())
    yield f"| {' | '.join(map(str, heads))} |\n|---|---|---|---|---|"
    own = (limit for rule in RULES.values() for limit in rule.limits if isinstance(limit, Limit))
    for limit in (*standard().values(), *dict.fromkeys(own)):
        yield f"| {limit.name} | {limit.what} | {_value(limit)} | {_STANDINGS[limit.basis]()} | {limit.source} |"


def _figures() -> Iterator[str]:
    yield f"\n## {said.process_figures()}\n"
    heads = (said.name(), said.process_column(), said.limit_column(), said.standing_column(), said.source_column())
    yield f"| {' | '.join(map(str, heads))} |\n|---|---|---|---|---|"
    declared = (limit for rule in RULES.values() for limit in rule.limits if isinstance(limit, str))
    for name in dict.fromkeys(name for name in declared if name.startswith(OF_PROCESS)):
        for process, figure in _figures_named(name.removeprefix(OF_PROCESS)):
            cells = (name, process.name, _value(figure), _STANDINGS[BASES[figure.known]](), figure.source)
            yield f"| {' | '.join(map(str, cells))} |"
    yield ""


def _value(limit: Limit | Figure) -> str:
    return f"{limit.value:g}" if limit.unit in {"ratio", "count"} else f"{limit.value:g} {limit.unit}"
