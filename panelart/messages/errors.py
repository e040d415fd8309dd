"""What an exception says, where its words go on to a user."""

from __future__ import annotations

from panelart.messages.message import Message, Said


def said_by(error: BaseException) -> Said:
    """The message that an exception was raised with, else the first line of its text."""
    if error.args and isinstance(error.args[0], Message):
        return error.args[0]
    return next(iter(str(error).splitlines()), "")
