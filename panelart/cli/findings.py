"""What `check` and `make` print: the findings of a panel, and of every panel of a set."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from panelart.cli.options import Format
from panelart.cli.source_lines import SourceLines
from panelart.cli.terminal import terminal
from panelart.cli.usage import refuse
from panelart.messages import cli as said
from panelart.messages import cli_usage

if TYPE_CHECKING:
    from collections.abc import Mapping

    from panelart.checks import Inspection
    from panelart.messages import Message
    from panelart.model.panel import Panel
    from panelart.pipeline import Built
    from panelart.reports.text import Detail


def detail_of(*, quiet: bool, verbose: bool) -> Detail:
    """How much is printed. Raises Refused for both options together."""
    from panelart.reports.text import Detail

    if quiet and verbose:
        refuse("--quiet", cli_usage.exclusive(other="--verbose"))
    return Detail.QUIET if quiet else Detail.VERBOSE if verbose else Detail.USUAL


def print_built(built: Built, file: str, detail: Detail) -> None:
    """Print the findings of a panel for people; nothing where there is nothing to say."""
    from panelart.reports.text import text_report

    shown = terminal(sys.stdout)
    text = text_report(
        built.inspection,
        file=file,
        checked=_checked(built),
        source=SourceLines(),
        detail=detail,
        width=shown.width,
        colour=shown.colour,
    )
    if text:
        print(text)


def print_set(built: Mapping[str, Built], file: str, detail: Detail) -> bool:
    """Print the findings of every panel of a set under its name; whether any is at error level."""
    from panelart.reports.text import Detail

    for number, (name, one) in enumerate(built.items()):
        if detail is not Detail.QUIET:
            if number:
                print()
            print(said.panel_heading(name, one.layout.panel.title))
        print_built(one, f"{file}#{name}", detail)
    return any(one.inspection.failed for one in built.values())


def print_for_programs(inspection: Inspection, format_: Format) -> None:
    """Print the findings in a form for other programs."""
    if format_ is Format.JSON:
        from panelart.reports.json import json_report as report
    elif format_ is Format.SARIF:
        from panelart.reports.sarif import sarif_report as report
    else:
        from panelart.reports.junit import junit_report as report
    sys.stdout.write(report(inspection))


def print_untranslated(panel: Panel, detail: Detail) -> None:
    """What a language has no word for, as notes beside the findings; nothing where notes are not asked for."""
    from panelart.reports.text import Detail

    for one in panel.untranslated if detail is not Detail.QUIET else ():
        print(said.untranslated(panel.places[one.where], one.language, " ".join(one.text.split())), file=sys.stderr)


def _checked(built: Built) -> Message:
    """What was looked at."""
    from panelart.messages import reports

    layout = built.layout
    things = (
        reports.parts(len(layout.panel.parts)),
        reports.openings(len(layout.every_opening)),
        reports.legends(len(layout.legends)),
        reports.rules(len(built.inspection.rules.every)),
    )
    return reports.checked(things)
