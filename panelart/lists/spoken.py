"""The words of a row as the catalogue reads them: what lists name besides the catalogue is no slip of the pen.

An inductor is not an indicator mistyped, a heater no header.
"""

from __future__ import annotations

from functools import cache

from panelart.catalogue import search
from panelart.catalogue.asked import Asked
from panelart.lists.words import words


def read(text: str) -> Asked:
    """What some words of a list ask for, those that are mistyped put right."""
    return search.read(text, spelled_right=named_by_lists())


@cache
def named_by_lists() -> frozenset[str]:
    """All words by which lists name what is no part of a panel."""
    return frozenset(word for kind in (*words().board, *words().aside) for phrase in kind.phrases for word in phrase)
