"""Stacks of shelves side by side, for a face that one stack is too wide or too high for.

Rows do not run on from one column to the next, so that one stack is taken wherever it fits.
The groups keep their order, down each column and then to the next. Every way to cut that order into one to three
columns is looked at; what a column takes at each width is the cheapest stack of its groups.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from typing import Final

from panelart.canonical import Struct
from panelart.drafting.shelves import STOP_INSIDE, Group, Shelf, Shelving, Stack, between, stacks
from panelart.drafting.spacing import Spacing

COLUMN: Final = 4.0
"""What each column after the first costs, whose rows need not run on: little more than a shelf."""

MAX_COLUMNS: Final = 3
MAX_GROUPS: Final = 8
"""With more groups only one column is looked at: shelves fill a face with many small groups well."""

_STEP: Final = 5.0
"""Widths of columns that are tried lie so far apart, mm."""


class Column(Struct, frozen=True, kw_only=True):
    """A stack with the width that it has, and how far its left side lies from that of the whole, mm."""

    stack: Stack
    left: float
    width: float


class Arrangement(Struct, frozen=True, kw_only=True):
    """Columns side by side: how high they are, mm, and what they cost."""

    columns: tuple[Column, ...]
    height: float
    cost: float


def in_one(stack: Stack, width: float) -> Arrangement:
    """A stack by itself."""
    return Arrangement(columns=(Column(stack=stack, left=0.0, width=width),), height=stack.height, cost=stack.cost)


class _Run:
    """Some of the groups that follow each other, with the shelves that all of them have been given."""

    def __init__(self, shelving: Shelving, first: int, last: int) -> None:
        self.groups: Sequence[Group] = shelving.groups[first : last + 1]
        self._all, self._first = shelving, first

    def shelves(self, first: int, last: int) -> list[Shelf]:
        """The shelves that the groups `first` to `last` of these can make."""
        return self._all.shelves(self._first + first, self._first + last)


Runs = dict[tuple[int, ...], tuple[tuple[Group, ...], list[tuple[float, Stack]]]]
"""Columns of groups by the very groups in them, which it holds: the narrowest first, each lower than those before."""


class Columns:
    """The ways to set groups in two or three columns, for any size of the face."""

    def __init__(self, shelving: Shelving, spacing: Spacing, known: Runs | None = None) -> None:
        self.shelving, self.spacing = shelving, spacing
        self._forms: Runs = {} if known is None else known

    def sizes(self) -> Iterator[tuple[float, float]]:
        """Widths and heights that some columns fill to the full, mm."""
        for runs in self._cuts():
            gaps = math.fsum(self._gaps(runs))
            for height in sorted({each[1].height for run in runs for each in self._run(run)}):
                found = [each for run in runs if (each := self._narrowest(run, height)) is not None]
                if len(found) == len(runs):
                    yield math.fsum(each[0] for each in found) + gaps, height

    def fitting(self, width: float, height: float) -> Arrangement | None:
        """The cheapest that fits; None where there is none."""
        options: list[tuple[float, tuple[tuple[int, int], ...], tuple[float, ...]]] = []
        for runs in self._cuts():
            found = [each for run in runs if (each := self._narrowest(run, height)) is not None]
            total = math.fsum(each[0] for each in found) + math.fsum(self._gaps(runs))
            if len(found) == len(runs) and total <= width + 1e-6:
                options.append((math.fsum(each[1].cost for each in found), runs, tuple(each[0] for each in found)))
        if not options:
            return None
        _, runs, widths = min(options, key=lambda option: option[0])
        return self._set(runs, widths, width, height)

    def _set(
        self, runs: Sequence[tuple[int, int]], widths: Sequence[float], width: float, height: float
    ) -> Arrangement | None:
        """Columns with the spare width shared out by their widths."""
        gaps = self._gaps(runs)
        spare = width - math.fsum(widths) - math.fsum(gaps)
        columns: list[Column] = []
        left = 0.0
        for run, own, gap in zip(runs, widths, (*gaps, 0.0), strict=True):
            wide = own + self.spacing.down(spare * own / math.fsum(widths))
            found = stacks(_Run(self.shelving, *run), wide, height)
            if not found:
                return None
            columns.append(Column(stack=found[0], left=left, width=wide))
            left += wide + gap
        cost = math.fsum(column.stack.cost for column in columns) + COLUMN * (len(columns) - 1)
        inside = self.shelving.groups[: runs[-1][0]]
        cost += STOP_INSIDE * any(group.emergency for group in inside)
        return Arrangement(columns=tuple(columns), height=height, cost=cost)

    def _cuts(self) -> Iterator[tuple[tuple[int, int], ...]]:
        """The first and the last group of each column, for every cut into two or more."""
        count = len(self.shelving.groups)
        if count > MAX_GROUPS:
            return
        for columns in range(2, min(MAX_COLUMNS, count) + 1):
            for starts in combinations(range(1, count), columns - 1):
                yield tuple((start, end - 1) for start, end in pairwise((0, *starts, count)))

    def _gaps(self, runs: Sequence[tuple[int, int]]) -> list[float]:
        """The least room between neighbouring columns."""
        groups = self.shelving.groups
        return [
            max(between(one, two) for one in groups[left[0] : left[1] + 1] for two in groups[right[0] : right[1] + 1])
            for left, right in pairwise(runs)
        ]

    def _narrowest(self, run: tuple[int, int], height: float) -> tuple[float, Stack] | None:
        """The narrowest column of these groups that is no higher."""
        return next((each for each in self._run(run) if each[1].height <= height + 1e-6), None)

    def _run(self, run: tuple[int, int]) -> list[tuple[float, Stack]]:
        """Columns of these groups, the narrowest first, each lower than those before it."""
        some = tuple(self.shelving.groups[run[0] : run[1] + 1])
        key = tuple(map(id, some))
        if key not in self._forms:
            part = _Run(self.shelving, *run)
            count = len(part.groups)
            widths = {
                _STEP * math.ceil(one.width / _STEP - 1e-9)
                for first in range(count)
                for last in range(first, count)
                for one in part.shelves(first, last)
            }
            found: list[tuple[float, Stack]] = []
            for width in sorted(widths):
                lowest = min(stacks(part, width, None), key=lambda stack: stack.height, default=None)
                if lowest is not None and (not found or lowest.height < found[-1][1].height - 1e-6):
                    found.append((width, lowest))
            self._forms[key] = some, found
        return self._forms[key][1]
