"""The pages of all rules and the table of limits, in Markdown: panelart/checks/RULES.md is this."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import Final

from panelart.checks import RULES, Basis
from panelart.checks.limits import Limit, standard
from panelart.messages import reports_catalogue as said

_WIDTH: Final = 120
_STANDINGS: Final = {
    Basis.LOOKED_UP: said.looked_up,
    Basis.COMMON_PRACTICE: said.common_practice,
    Basis.MEMORY: said.from_memory,
    Basis.GIVEN: said.given,
}


def rule_reference() -> str:
    """The whole page, ending with a line end."""
    about = (said.rules_generated(), said.rules_severity(), said.rules_memory(), said.rules_house())
    head = f"# {said.rules_title()}\n\n{textwrap.fill(' '.join(map(str, about)), _WIDTH)}\n\n"
    return head + "\n".join(_pages()) + "\n".join(_limits())


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


def _limits() -> Iterator[str]:
    yield f"\n## {said.limits()}\n"
    heads = (said.name(), said.what_column(), said.limit_column(), said.standing_column(), said.source_column())
    yield f"| {' | '.join(map(str, heads))} |\n|---|---|---|---|---|"
    for limit in standard().values():
        yield f"| {limit.name} | {limit.what} | {_value(limit)} | {_STANDINGS[limit.basis]()} | {limit.source} |"
    yield ""


def _value(limit: Limit) -> str:
    return f"{limit.value:g}" if limit.unit in {"ratio", "count"} else f"{limit.value:g} {limit.unit}"
