"""Arrangements that differ in idea, one of each: not the first few of the cheapest, which differ in a row or two."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from enum import StrEnum
from typing import Final

from panelart.drafting.columns import Arrangement
from panelart.drafting.shelves import Shelf
from panelart.drafting.sized import Sized


class Idea(StrEnum):
    """What an arrangement is the best of."""

    OVERALL = "overall"
    ROWS = "rows"
    COLUMNS = "columns"
    MIRRORED = "mirrored"
    COMPACT = "compact"
    GENEROUS = "generous"
    ANOTHER = "another"


GENEROUS: Final = 1.12
"""How much wider and higher than the best a face with more white is: a quarter more area."""

_BETTER: Final = 0.02
"""Another arrangement is more compact only where it saves this share of the area."""


def of_ideas(found: Iterable[Sized], maximum: int) -> list[tuple[Idea, Sized]]:
    """The best of each idea, the best overall first, then others by their worth until there are so many."""
    ordered = sorted(found, key=lambda one: (one.worth, one.arrangement.cost, one.height))
    if not ordered:
        return []
    best = ordered[0]
    chosen = [(Idea.OVERALL, best)]
    known = {form_of(best.arrangement)}
    wanted = (Idea.MIRRORED, Idea.ROWS, Idea.COLUMNS, Idea.COMPACT, *(Idea.ANOTHER,) * maximum)
    for idea in wanted[: None if maximum > 1 else 0]:
        others = [one for one in ordered if _IS[idea](one, best) and form_of(one.arrangement) not in known]
        if others and len(chosen) < maximum:
            one = min(others, key=_ORDER.get(idea, _by_worth))
            chosen.append((idea, one))
            known.add(form_of(one.arrangement))
    return chosen


def form_of(arrangement: Arrangement) -> object:
    """What tells two arrangements apart: how many groups are on each shelf in how many rows, and whether all is even.

    Which of two single parts comes first makes no other arrangement.
    """
    shelves = tuple(tuple(map(_form, column.stack.shelves)) for column in arrangement.columns)
    return shelves, all(_is_even(one) for column in arrangement.columns for one in column.stack.shelves)


def _form(one: Shelf) -> object:
    """The groups of a shelf by the rows of each, in no order."""
    return tuple(sorted(tuple(map(len, form.rows)) for form in one.forms))


def _shelves(one: Sized) -> list[Shelf]:
    return [each for column in one.arrangement.columns for each in column.stack.shelves]


def _by_worth(one: Sized) -> tuple[float, ...]:
    return (one.worth,)


def _is_mirrored(one: Sized, best: Sized) -> bool:
    """Whether like groups stand on both sides of the middle, with what is unlike between them."""
    del best
    shelves = _shelves(one)
    if len(one.arrangement.columns) != 1:
        return False
    return all(map(_is_even, shelves)) and any(len(each.groups) > 2 for each in shelves)


def _is_even(one: Shelf) -> bool:
    """Whether the groups of a shelf are the same from the left as from the right."""
    names: Sequence[object] = [group.kin or (group.name, group.blocks[0].ref) for group in one.groups]
    return list(names) == list(reversed(names))


_IS: Final[dict[Idea, Callable[[Sized, Sized], bool]]] = {
    Idea.ROWS: lambda one, best: len(_shelves(one)) > len(_shelves(best)),
    Idea.COLUMNS: lambda one, best: len(_shelves(one)) < len(_shelves(best)),
    Idea.MIRRORED: _is_mirrored,
    Idea.COMPACT: lambda one, best: one.width * one.height < (1 - _BETTER) * best.width * best.height,
    Idea.ANOTHER: lambda one, best: one is not best,
}

_ORDER: Final[dict[Idea, Callable[[Sized], tuple[float, ...]]]] = {
    Idea.ROWS: lambda one: (-len(_shelves(one)), one.worth),
    Idea.COLUMNS: lambda one: (len(_shelves(one)), one.worth),
    Idea.COMPACT: lambda one: (one.width * one.height, one.worth),
}
