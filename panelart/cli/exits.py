"""The exit codes, and how a command ends with one.

0 no finding at error level; 1 findings at error level, or an extension that cannot be loaded or fails; 2 the spec
cannot be read or names something that does not exist, or the command line cannot be used; 3 a file could not be
written; 130 interrupted.
"""

from __future__ import annotations

from typing import Final, NoReturn

from click.exceptions import Exit

EXIT_FINDINGS: Final = 1
EXIT_USAGE: Final = 2
EXIT_WRITE: Final = 3
EXIT_INTERRUPTED: Final = 130


def end(code: int) -> NoReturn:
    """End the command with this exit code; what was printed stands."""
    raise Exit(code)
