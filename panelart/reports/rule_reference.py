"""The pages of all rules and the table of limits, in Markdown: panelart/checks/RULES.md is this."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks import RULES, Basis
from panelart.checks.limits import Limit, standard

_HEAD = """\
# The rules

Generated from the rules themselves: `panelart rules --markdown` prints this page, and a test compares it. What a
finding counts as stands behind its name; single cases may be milder. A limit that is known only from memory can warn,
never fail. A house changes limits and severities in a file of its own: see README.

"""
_STANDINGS = {
    Basis.LOOKED_UP: "looked up",
    Basis.COMMON_PRACTICE: "common practice",
    Basis.MEMORY: "from memory",
    Basis.GIVEN: "given",
}


def rule_reference() -> str:
    """The whole page, ending with a line end."""
    return _HEAD + "\n".join(_pages()) + "\n".join(_limits())


def _pages() -> Iterator[str]:
    yield "| rule | counts as | |\n|---|---|---|"
    for rule in RULES.values():
        yield f"| [{rule.name}](#{rule.name}) | {rule.severity.value} | {rule.doc.splitlines()[0]} |"
    yield ""
    for rule in RULES.values():
        yield f"## {rule.name}\n"
        yield f"Counts as: {rule.severity.value}.\n"
        # Two blanks at the end of a line keep Source, Fix, Fails and Passes on lines of their own.
        body = (
            rule.doc.replace("\nFix:", "  \nFix:").replace("\nFails:", "  \nFails:").replace("\nPasses:", "  \nPasses:")
        )
        yield f"{body}\n"


def _limits() -> Iterator[str]:
    yield "\n## Limits\n"
    yield "| name | what | limit | standing | source |\n|---|---|---|---|---|"
    for limit in standard().values():
        yield f"| {limit.name} | {limit.what} | {_value(limit)} | {_STANDINGS[limit.basis]} | {limit.source} |"
    yield ""


def _value(limit: Limit) -> str:
    return f"{limit.value:g}" if limit.unit in {"ratio", "count"} else f"{limit.value:g} {limit.unit}"
