"""Tables that a command is handed as files."""

from __future__ import annotations

from pathlib import Path

from panelart.diagnostics import Problem, SpecError, Where

MAX_BYTES = 50_000_000
"""The largest table that is read: some 100,000 rows, more than a run has pieces."""


def read_table(path: Path) -> bytes:
    """The bytes of a file. Raises SpecError when it cannot be read or is larger than MOST_BYTES."""
    where = Where(path.as_posix(), 1, 1)
    try:
        with path.open("rb") as file:
            data = file.read(MAX_BYTES + 1)
    except OSError as error:
        why = (error.strerror or "no such file").lower()
        problem = Problem(where=where, says=f"the table cannot be read: {why}", accepts="accepted: a CSV file")
        raise SpecError([problem]) from error
    if len(data) > MAX_BYTES:
        raise SpecError([Problem(where=where, says=f"the table is over {MAX_BYTES // 1_000_000} MB")])
    return data
