"""Questions about a list: one a kind of part and not one a piece."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeVar

from panelart.canonical import Struct
from panelart.lists.answers import NONE, Answers
from panelart.lists.listed import Item
from panelart.lists.matching import Candidate
from panelart.messages import Said

T = TypeVar("T")


class Question(Struct, frozen=True, kw_only=True):
    """What is asked of rows that mean the same: their words and order numbers, the refs of their parts, the candidates.

    Candidates are the best first, each with what speaks for and against it. `why` says why the catalogue has no such
    part, `answer` what is answered already.
    """

    words: tuple[str, ...]
    numbers: tuple[str, ...]
    rows: tuple[int, ...]
    refs: tuple[str, ...]
    candidates: tuple[Candidate, ...]
    why: Said = ""
    answer: str | None = None


def questions(items: Sequence[Item], answers: Answers = NONE) -> tuple[Question, ...]:
    """The questions about the items of a list whose part is not known, those of most parts first.

    `answers` are those given since the list was read without them: what is answered otherwise is a question of its own.
    """
    found: dict[tuple[Said, tuple[str, ...], str | None], list[Item]] = {}
    for item in items:
        if item.component is None and not item.to_measure:
            names = tuple(one.name for one in item.candidates)
            answer = answers.of(item.texts, item.number)
            found.setdefault((item.why, names or item.texts, answer), []).append(item)
    asked = [
        Question(
            words=_each(" ".join(item.texts) for item in same),
            numbers=_each(item.number for item in same if item.number),
            rows=_each(item.row for item in same),
            refs=tuple(item.ref for item in same),
            candidates=same[0].candidates,
            why=same[0].why,
            answer=answer,
        )
        for (_, _, answer), same in found.items()
    ]
    return tuple(sorted(asked, key=lambda one: (-len(one.refs), one.rows)))


def _each(values: Iterable[T]) -> tuple[T, ...]:
    return tuple(dict.fromkeys(values))
