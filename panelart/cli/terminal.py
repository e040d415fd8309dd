"""Where a text is printed: how wide it may be, and whether it may have colour."""

from __future__ import annotations

import io
import os
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final, TextIO

from panelart.canonical import Struct
from panelart.messages import Message

WIDTH_OF_FILES: Final = 100
"""Columns of what goes to a file or another program, the same on every machine."""


class Terminal(Struct, frozen=True, kw_only=True):
    """The columns to keep to, and whether colours are shown."""

    width: int
    colour: bool


PLAIN: Final = Terminal(width=WIDTH_OF_FILES, colour=False)
"""What files and other programs are shown."""


class Transcript(io.StringIO):
    """What is printed, kept to be printed elsewhere later: as wide as there, and in colour if there is any there."""

    def __init__(self, shows: Terminal) -> None:
        super().__init__()
        self.shows = shows


def terminal(stream: TextIO) -> Terminal:
    """What a stream shows. Colour only on a terminal that has it, and not where NO_COLOR is set."""
    if isinstance(stream, Transcript):
        return stream.shows
    if not stream.isatty():
        return PLAIN
    colour = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return Terminal(width=shutil.get_terminal_size().columns, colour=colour)


@contextmanager
def progress(total: int, label: Message) -> Iterator[Callable[[int], None]]:
    """A bar on the terminal, nothing elsewhere: what is given is called with how many more are done."""
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    import click

    with click.progressbar(length=total, label=str(label), file=sys.stderr) as bar:
        yield bar.update
