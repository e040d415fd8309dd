"""The lines of the files that messages point at, read when one is shown."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from panelart.diagnostics import Where

MAX_BYTES: Final = 5_000_000
"""Of a larger file no line is shown."""

_TABLES: Final = (".csv", ".tsv")


class SourceLines:
    """The line at a place, None where the file has none: called by the reports, which read no files themselves."""

    def __init__(self) -> None:
        self._files: dict[str, tuple[str, ...]] = {}

    def __call__(self, where: Where) -> str | None:
        """The line without its end."""
        if where.file not in self._files:
            self._files[where.file] = _lines(Path(where.file))
        lines = self._files[where.file]
        return lines[where.line - 1] if 1 <= where.line <= len(lines) else None


def _lines(path: Path) -> tuple[str, ...]:
    try:
        with path.open("rb") as file:
            data = file.read(MAX_BYTES + 1)
        text = data.decode("utf-8-sig")
    except (OSError, ValueError):
        return ()
    lines = tuple(line.removesuffix("\r") for line in text.split("\n"))
    if len(data) > MAX_BYTES or (path.suffix.lower() in _TABLES and _rows_are_not_lines(lines)):
        return ()
    return lines


def _rows_are_not_lines(lines: tuple[str, ...]) -> bool:
    """Whether a cell goes over several lines: messages count the rows of a table."""
    return any(line.count('"') % 2 for line in lines)
