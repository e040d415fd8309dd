"""The commands: each reads its arguments, calls one function, prints.

Exit codes: 0 no finding at error level; 1 findings at error level; 2 the spec cannot be read or names something that
does not exist, or the command line cannot be used; 3 a file could not be written.
"""

from __future__ import annotations

import io
import sys
from typing import TYPE_CHECKING

import panelart.cli.bed
import panelart.cli.bom
import panelart.cli.check
import panelart.cli.compare
import panelart.cli.draft
import panelart.cli.drill_template
import panelart.cli.fonts
import panelart.cli.inspect
import panelart.cli.make
import panelart.cli.outdated
import panelart.cli.parts
import panelart.cli.reference
import panelart.cli.register
import panelart.cli.shop_file
import panelart.cli.sightlines
import panelart.cli.test_strip
import panelart.cli.view
from panelart.cli.app import app

if TYPE_CHECKING:
    from panelart.diagnostics import SpecError

EXIT_FINDINGS = 1
EXIT_SPEC = 2
EXIT_WRITE = 3


def main() -> None:
    """Run the command line; SpecError and OSError become messages and exit codes, never tracebacks."""
    from panelart.diagnostics import SpecError
    from panelart.messages import cli as said

    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # a terminal that cannot show µ is no reason to stop
    try:
        app()
    except SpecError as error:
        _print_errors(error)
        sys.exit(EXIT_SPEC)
    except OSError as error:
        reason = error.strerror or error
        told = said.os_error(error.filename, reason) if error.filename else said.os_error_without_file(reason)
        print(told, file=sys.stderr)
        sys.exit(EXIT_WRITE)


def _print_errors(error: SpecError) -> None:
    from panelart.cli.source_lines import SourceLines
    from panelart.cli.terminal import terminal
    from panelart.reports.errors import errors_text

    shown = terminal(sys.stderr)
    text = errors_text(error.problems, source=SourceLines(), width=shown.width, colour=shown.colour)
    print(text, file=sys.stderr)
