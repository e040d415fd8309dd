"""Where a text is printed: how wide it may be, and whether it may have colour."""

from __future__ import annotations

import os
import shutil
from typing import Final, TextIO

from panelart.canonical import Struct

WIDTH_OF_FILES: Final = 100
"""Columns of what goes to a file or another program, the same on every machine."""


class Terminal(Struct, frozen=True, kw_only=True):
    """The columns to keep to, and whether colours are shown."""

    width: int
    colour: bool


def terminal(stream: TextIO) -> Terminal:
    """What a stream shows. Colour only on a terminal that has it, and not where NO_COLOR is set."""
    if not stream.isatty():
        return Terminal(width=WIDTH_OF_FILES, colour=False)
    colour = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return Terminal(width=shutil.get_terminal_size().columns, colour=colour)
