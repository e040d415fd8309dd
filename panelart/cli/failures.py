"""What stops a command that could be read: told once, with the exit code of its kind."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from panelart.cli.exits import EXIT_FINDINGS, EXIT_USAGE, EXIT_WRITE

if TYPE_CHECKING:
    from panelart.diagnostics import SpecError


def told(error: Exception) -> int | None:
    """Print what stopped a command, and give its exit code; None for what is a fault of the program."""
    from panelart.diagnostics import SpecError
    from panelart.extensions import ExtensionError

    if isinstance(error, SpecError):
        _tell_problems(error)
        return EXIT_FINDINGS if isinstance(error, ExtensionError) else EXIT_USAGE
    if isinstance(error, OSError):
        _tell_file(error)
        return EXIT_WRITE
    if isinstance(error, ModuleNotFoundError):
        return _tell_library(error)
    return None


def _tell_problems(error: SpecError) -> None:
    from panelart.cli.source_lines import SourceLines
    from panelart.cli.terminal import terminal
    from panelart.reports.errors import errors_text

    shown = terminal(sys.stderr)
    text = errors_text(error.problems, source=SourceLines(), width=shown.width, colour=shown.colour)
    print(text, file=sys.stderr)


def _tell_file(error: OSError) -> None:
    from panelart.messages import cli as said

    reason = error.strerror or error
    text = said.os_error(error.filename, reason) if error.filename else said.os_error_without_file(reason)
    print(text, file=sys.stderr)


def _tell_library(error: ModuleNotFoundError) -> int | None:
    """Name the line to type for a library that comes with an extra; nothing for one that must be there."""
    from panelart.extras import extra_of
    from panelart.messages import cli_usage

    library = (error.name or "").partition(".")[0]
    extra = extra_of(library)
    if extra is None:
        return None
    print(cli_usage.usage_error(cli_usage.library_missing(library, f"panelart[{extra}]")), file=sys.stderr)
    return EXIT_USAGE
