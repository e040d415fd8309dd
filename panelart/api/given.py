"""What a program hands over, told apart before any work: what cannot be meant is refused by the argument's name."""

from __future__ import annotations

import datetime as dt
import errno
import os
from collections.abc import Iterable
from pathlib import Path
from typing import TypeAlias

from panelart.messages import api as said
from panelart.model.panel import Panel

FilePath: TypeAlias = str | os.PathLike[str]

Names: TypeAlias = str | Iterable[str]
"""Names, in any order; a `str` is one name."""

Day: TypeAlias = str | dt.date
"""A day as YYYY-MM-DD or as a date, '' for none; of a date with a time the time is dropped."""


def day(given: object, argument: str) -> str:
    """A day as YYYY-MM-DD, '' for none. Raises ValueError for a text that is no date, TypeError for what is neither."""
    if isinstance(given, dt.datetime):
        return given.date().isoformat()
    if isinstance(given, dt.date):
        return given.isoformat()
    if not isinstance(given, str):
        raise TypeError(f"{argument} is a text YYYY-MM-DD or a datetime.date, not {_kind(given)}")
    if given and not _is_day(given):
        raise ValueError(f"{argument}={given!r} is not a date; accepted: YYYY-MM-DD, as 2026-03-01, or a datetime.date")
    return given


def _is_day(text: str) -> bool:
    """Whether a text is a day in the one form that is compared with others as text."""
    try:
        return dt.date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def names(given: object, argument: str, example: str) -> tuple[str, ...]:
    """Names, each a text; a single text is one name. Raises TypeError for what is none."""
    if isinstance(given, str):
        return (given,)
    if isinstance(given, bytes) or not isinstance(given, Iterable):
        raise TypeError(f"{argument} is a list of names, as [{example!r}], not {_kind(given)}")
    found = tuple(given)
    for one in found:
        if not isinstance(one, str):
            raise TypeError(f"{argument} is a list of names, as [{example!r}]; it has one of type {_kind(one)}")
    return tuple(str(one) for one in found)


def text(given: object, argument: str) -> str:
    """A text. Raises TypeError for what is none."""
    if isinstance(given, str):
        return given
    raise TypeError(f"{argument} is a text, not {_kind(given)}")


def path(given: object, argument: str) -> Path:
    """A path. Raises TypeError for what is none, OSError for one that no system has."""
    if not isinstance(given, str | os.PathLike):
        raise TypeError(f"{argument} is a path, not {_kind(given)}")
    found = Path(given)
    if "\0" in str(found):
        raise OSError(errno.EINVAL, str(said.null_character()), str(found))
    return found


def panel(given: object) -> Panel:
    """A panel. Raises TypeError for what is none, with what makes one of it."""
    if isinstance(given, Panel):
        return given
    raise TypeError(f"a panel is what load gives, not {_kind(given)}: build(load(spec))")


def _kind(given: object) -> str:
    return type(given).__name__
