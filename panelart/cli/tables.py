"""Tables that a command is handed as files."""

from __future__ import annotations

from pathlib import Path

from panelart.diagnostics import Problem, SpecError, Where
from panelart.messages import cli_lists as said

MAX_BYTES = 50_000_000
"""The largest table that is read: some 100,000 rows, more than a run has pieces."""


def read_table(path: Path) -> bytes:
    """The bytes of a file. Raises SpecError when it cannot be read or is larger than MAX_BYTES."""
    where = Where(path.as_posix(), 1, 1)
    try:
        with path.open("rb") as file:
            data = file.read(MAX_BYTES + 1)
    except OSError as error:
        says = said.table_unreadable(reason_of(error))
        raise SpecError([Problem(where=where, says=says, accepts=said.accepted_csv())]) from error
    if len(data) > MAX_BYTES:
        raise SpecError([Problem(where=where, says=said.table_too_large(MAX_BYTES // 1_000_000))])
    return data


def read_list_file(path: Path) -> bytes:
    """A list's bytes, up to one more than is accepted. Raises SpecError when it cannot be read."""
    from panelart.lists.tables import MAX_BYTES as MAX_LIST

    try:
        with path.open("rb") as file:
            return file.read(MAX_LIST + 1)
    except OSError as error:
        where = Where(path.as_posix(), 1, 1)
        raise SpecError([Problem(where=where, says=said.list_unreadable(reason_of(error)))]) from error


def reason_of(error: OSError) -> str:
    """Why a file cannot be read, in the words of the system."""
    return (error.strerror or str(said.no_such_file())).lower()
