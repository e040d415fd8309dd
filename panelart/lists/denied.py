"""What a text says that a part is not, or has not: a mushroom button, no emergency stop."""

from __future__ import annotations

from typing import Final

from panelart.catalogue.vocabulary import folded

_NOT: Final = frozenset(
    {"kein", "keine", "keinen", "geen", "nicht", "ohne", "without", "senza", "zonder", "bez", "sem"}
)
"""Words behind which something is denied, till the next mark. Those with a second meaning (no, sans, sin) are left."""

_TOLD_BY: Final = ("bush", "thread", "nut", "gewind", "buchs", "shaft")
"""Beginnings of what is denied and yet tells a part: a potentiometer without bushing."""

_MARKS: Final = ",;()/"


def affirmed(text: str) -> str:
    """A text without what it denies."""
    kept: list[str] = []
    denied = False
    words = text.split()
    for at, word in enumerate(words):
        if folded(word) in _NOT:
            denied = not any(folded(next_one).startswith(_TOLD_BY) for next_one in words[at + 1 : at + 2])
        if not denied:
            kept.append(word)
        if word[-1] in _MARKS:
            denied = False
    return " ".join(kept)
