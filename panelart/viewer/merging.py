"""Two changes of one text joined, line by line; where both touched the same lines, nothing is guessed."""

from __future__ import annotations

from merge3 import Merge3

from panelart.messages import viewer as said
from panelart.source import edit


class ConflictError(Exception):
    """Two changes touched the same lines: `mine` and `theirs` are both as line differences."""

    def __init__(self, mine: str, theirs: str) -> None:
        super().__init__(said.file_conflict())
        self.mine, self.theirs = mine, theirs


def merged(base: str, mine: str, theirs: str) -> str:
    """The text with both changes. Raises ConflictError."""
    if theirs in (base, mine):
        return mine
    if mine == base:
        return theirs
    parts = base.splitlines(keepends=True), mine.splitlines(keepends=True), theirs.splitlines(keepends=True)
    joined: list[str] = []
    for kind, *lines in Merge3(*parts).merge_groups():
        if kind == "conflict":
            raise ConflictError(difference(base, mine), difference(base, theirs))
        joined += lines[0]
    return "".join(joined)


def difference(before: str, after: str) -> str:
    """What changed, as a unified difference without file names; '' for the same text."""
    return "\n".join(edit.difference(before, after, "").splitlines()[2:])
