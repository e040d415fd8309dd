"""`panelart rules` and `panelart schema`: what is looked up about the language of specs and the checks."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable
from typing import Annotated

from panelart.cli.declaring import argument, command, option
from panelart.cli.usage import refuse_name
from panelart.cli.values import text
from panelart.messages import Message
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_


@command(extensions=True)
def schema(
    markdown: Annotated[bool, option("--markdown", help_.schema_markdown())] = False,
    modules: Annotated[bool, option("--modules", help_.schema_modules())] = False,
) -> None:
    """Print the JSON Schema of the spec."""
    from panelart.spec.language import json_schema, key_reference, module_schema

    if markdown:
        print(key_reference())
        return
    print(json.dumps(module_schema() if modules else json_schema(), indent=2, ensure_ascii=False))


def _rule_names() -> Iterable[str]:
    from panelart.checks.registry import installed

    return installed().every


@command(extensions=True)
def rules(
    name: Annotated[str | None, argument(help_.rule(), text("RULE", _rule_names))] = None,
    markdown: Annotated[bool, option("--markdown", help_.rules_markdown())] = False,
) -> None:
    """List the rules, or print the page of one."""
    from panelart.checks.registry import installed
    from panelart.extensions import left_out
    from panelart.messages import extensions
    from panelart.reports.layout import columns

    if markdown:
        from panelart.reports.rule_reference import rule_reference

        sys.stdout.write(rule_reference())
        return
    known = installed().every
    if name is None:
        rows = [(rule.name, rule.severity.value, Message(rule.about)) for rule in known.values()]
        print("\n".join(columns(rows)))
        if left_out():
            print(f"\n{extensions.checked_without(left_out())}")
        return
    if name not in known:
        refuse_name(said.unknown_rule(name), name, known, said.rules(), listed_by="rules")
    from panelart.cli.terminal import terminal
    from panelart.reports.rule_reference import rule_page

    print(rule_page(known[name], terminal(sys.stdout).width))
