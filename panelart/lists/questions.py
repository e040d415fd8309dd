"""Questions about a list: one a kind of part and not one a piece."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeVar

from panelart.canonical import Struct
from panelart.lists.listed import Item
from panelart.lists.matching import Candidate
from panelart.messages import Said

T = TypeVar("T")


class Question(Struct, frozen=True, kw_only=True):
    """What is asked of rows that mean the same: their words and order numbers, the refs of their parts, the candidates.

    Candidates are the best first, each with what speaks for and against it. `why` says why the catalogue has no such
    part.
    """

    words: tuple[str, ...]
    numbers: tuple[str, ...]
    rows: tuple[int, ...]
    refs: tuple[str, ...]
    candidates: tuple[Candidate, ...]
    why: Said = ""


def questions(items: Sequence[Item]) -> tuple[Question, ...]:
    """The questions about the items of a list whose part is not known, those of most parts first."""
    found: dict[tuple[object, ...], list[Item]] = {}
    for item in items:
        if item.component is None and not item.to_measure:
            names = tuple(one.name for one in item.candidates)
            found.setdefault((item.why, names or item.texts), []).append(item)
    asked = [
        Question(
            words=_each(" ".join(item.texts) for item in same),
            numbers=_each(item.number for item in same if item.number),
            rows=_each(item.row for item in same),
            refs=tuple(item.ref for item in same),
            candidates=same[0].candidates,
            why=same[0].why,
        )
        for same in found.values()
    ]
    return tuple(sorted(asked, key=lambda one: (-len(one.refs), one.rows)))


def _each(values: Iterable[T]) -> tuple[T, ...]:
    return tuple(dict.fromkeys(values))
