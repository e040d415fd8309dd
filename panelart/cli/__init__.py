"""The commands: each reads its arguments, calls one function, prints.

`commands.py` is the table of them; a module of a command is imported when that command is typed, and not before.
"""

from __future__ import annotations

import atexit
import gc
import io
import sys
from typing import Final

from panelart import __version__

SELDOM: Final = 1_000_000
"""So many objects are made before circles of them are looked for. Nouns are frozen and lead in no circles; looking
through all of them again and again took a fifth of a check's time, and doing so once more at the end another."""


def main() -> None:
    """Run the command line and exit; what goes wrong becomes a message and an exit code, never a traceback."""
    if sys.argv[1:] == ["--version"]:  # told whatever else is broken, and before any library is imported
        print(f"panelart {__version__}")
        return
    gc.set_threshold(SELDOM)
    atexit.register(gc.freeze)  # what is left at the end goes with the process
    try:
        code = _run()
    except BaseException as error:
        if not _interrupted(error):
            raise
        from panelart.cli.exits import EXIT_INTERRUPTED

        code = EXIT_INTERRUPTED
    sys.exit(code)


def _run() -> int:
    from panelart.cli.program import run

    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # a terminal that cannot show µ is no reason to stop
    try:
        return run()
    except Exception as error:
        if _interrupted(error):
            raise
        from panelart.cli.failures import told

        failed = told(error)
        if failed is None:
            raise
        return failed


def _interrupted(error: BaseException | None) -> bool:
    """Whether an error comes of an interrupt; a library that is interrupted as it loads says it cannot be loaded."""
    while error is not None:
        if isinstance(error, KeyboardInterrupt):
            return True
        error = error.__cause__ or error.__context__
    return False
