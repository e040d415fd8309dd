"""The commands: each reads its arguments, calls one function, prints.

Exit codes: 0 nothing open at error level; 1 findings at error level; 2 the spec cannot be read or asks for what does
not exist; 3 a file could not be written.
"""

from __future__ import annotations

import io
import sys

import panelart.cli.bed
import panelart.cli.buying
import panelart.cli.compare
import panelart.cli.draft
import panelart.cli.fitted
import panelart.cli.fonts
import panelart.cli.measured
import panelart.cli.same
import panelart.cli.shadows
import panelart.cli.shop
import panelart.cli.strip
import panelart.cli.template
import panelart.cli.view
from panelart.cli.app import app

EXIT_FINDINGS = 1
EXIT_SPEC = 2
EXIT_WRITE = 3


def main() -> None:
    """Run the command line; SpecError and OSError become messages and exit codes, never tracebacks."""
    from panelart.diagnostics import SpecError

    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # a terminal that cannot show µ is no reason to stop
    try:
        app()
    except SpecError as error:
        print(error, file=sys.stderr)
        count = len(error.problems)
        print(f"{count} problem{'s' if count != 1 else ''} in the spec; nothing was written.", file=sys.stderr)
        sys.exit(EXIT_SPEC)
    except OSError as error:
        print(f"error: {error.strerror or error}: {error.filename or ''}".rstrip(": "), file=sys.stderr)
        sys.exit(EXIT_WRITE)
    except KeyboardInterrupt:
        print("interrupted; nothing was written.", file=sys.stderr)
        sys.exit(130)
