"""The size of a face and the arrangement on it: every variant in every size that is asked for or may be taken."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.drafting.blocks import MARGIN
from panelart.drafting.columns import Arrangement, Columns, Runs, in_one
from panelart.drafting.shelves import Known, Shelving, stacks
from panelart.drafting.spacing import Spacing
from panelart.drafting.variants import Variant

SIDES: Final = tuple(float(side) for side in range(40, 1001, 10))
"""Widths that are tried for 'as small as it can be', mm; what is left over is cut off to the next `SIZE_STEP`."""

MANY_WIDTHS: Final = 40
"""With so many widths every second is tried, with twice as many every third: large faces in steps of a few percent."""

SIZE_STEP: Final = 2.0
"""Sides of a panel of free size are whole multiples of it, mm, so that its middle is a whole millimetre."""

LOOKS: Final = 0.01
"""How much larger a panel of free size may be for each unit that its arrangement costs less."""

MAX_HEIGHT: Final = 1000.0
ASPECT: Final = 2.0
SQUAT: Final = 0.25
"""Width over height that a panel of free size comes near, and how much smaller one e times as far off must be."""


class Sized(Struct, frozen=True, kw_only=True):
    """A size of the face in mm, the arrangement on it, and what both are judged by, the less the better."""

    width: float
    height: float
    arrangement: Arrangement
    worth: float


class Faces:
    """The arrangements of variants on faces of any size; `margin` is what is kept free at the left and right, mm."""

    def __init__(self, tried: Sequence[Variant], spacing: Spacing, margin: float, maximum: int) -> None:
        self.spacing, self.margin, self.maximum = spacing, margin, maximum
        known: Known = {}
        runs: Runs = {}
        self._shelvings = [Shelving(one.groups, spacing, known) for one in tried]
        self._columns = [Columns(one, spacing, runs) for one in self._shelvings]
        self._costs = [one.cost for one in tried]

    def given(self, width: float, height: float) -> list[Sized]:
        """The arrangements on a face, cheapest first: in shelves, else in columns."""
        found = [
            Sized(width=width, height=height, arrangement=each, worth=each.cost + self._costs[number])
            for number in range(len(self._shelvings))
            for each in self._on(number, width, height)
        ]
        if not found:
            found = [
                Sized(width=width, height=height, arrangement=each, worth=each.cost + self._costs[number])
                for number, columns in enumerate(self._columns)
                if (each := columns.fitting(width - 2 * self.margin, height - 2 * MARGIN)) is not None
            ]
        return sorted(found, key=lambda one: one.worth)

    def lowest(self, width: float) -> float | None:
        """The least height of a face of this width; None where it is too narrow."""
        heights = [
            each.height + 2 * MARGIN for number in range(len(self._shelvings)) for each in self._on(number, width, None)
        ]
        return min(heights, default=None)

    def of_width(self, width: float, lowest: float) -> list[Sized]:
        """The arrangements on faces of a width and free height that are worth most, best first."""
        found = [
            Sized(width=width, height=high, arrangement=one, worth=worth(width, high, one.cost + cost))
            for number, cost in enumerate(self._costs)
            for one in self._on(number, width, None)
            if (high := stepped(max(one.height + 2 * MARGIN, lowest))) <= MAX_HEIGHT
        ]
        best = self._best(found)
        # The same size again, now spread for its looks and not for the least height.
        return self.given(width, best[0].height) if best and self.maximum == 1 else best

    def smallest(self, widths: Iterable[float], lowest: float) -> list[Sized]:
        """The faces of free size that are worth most, best first; `lowest` is the least height."""
        found = [one for width in widths for one in self._cut_to_size(width, lowest)]
        found += [one for number in range(len(self._columns)) for one in self._in_columns(number, lowest)]
        return self._best(one for one in found if one.height <= MAX_HEIGHT)

    def _best(self, found: Iterable[Sized]) -> list[Sized]:
        return sorted(found, key=lambda one: (one.worth, one.arrangement.cost, one.height))

    def narrowest(self) -> float:
        """The least width that holds the widest group in some form."""
        return min(one.narrowest for one in self._shelvings) + 2 * self.margin

    def widest(self) -> float:
        """The width beyond which a face is never filled."""
        return max(one.widest for one in self._shelvings) + 2 * self.margin + SIDES[0]

    def _on(self, number: int, width: float, height: float | None) -> list[Arrangement]:
        """A variant in shelves on a face, best first."""
        inner = width - 2 * self.margin
        if inner <= 0:
            return []
        inside = None if height is None else height - 2 * MARGIN
        return [in_one(stack, inner) for stack in stacks(self._shelvings[number], inner, inside, self.maximum)]

    def _cut_to_size(self, width: float, lowest: float) -> Iterator[Sized]:
        """Every variant in shelves no wider than this, on a face cut to what it needs."""
        for number, cost in enumerate(self._costs):
            for one in self._on(number, width, None):
                own = stepped(max(shelf.width for shelf in one.columns[0].stack.shelves) + 2 * self.margin)
                wide, high = min(own, width), stepped(max(one.height + 2 * MARGIN, lowest))
                for fitted in self._on(number, wide, high)[:1]:
                    found = worth(wide, high, fitted.cost + cost)
                    yield Sized(width=wide, height=high, arrangement=fitted, worth=found)

    def _in_columns(self, number: int, lowest: float) -> Iterator[Sized]:
        """A variant in columns, on the faces that it may fill best."""
        columns, cost = self._columns[number], self._costs[number]
        sizes = {
            (stepped(wide + 2 * self.margin), stepped(max(high + 2 * MARGIN, lowest))) for wide, high in columns.sizes()
        }
        best = sorted(sizes, key=lambda size: (worth(size[0], size[1], 0.0), size))
        for width, height in best[:3]:
            one = columns.fitting(width - 2 * self.margin, height - 2 * MARGIN)
            if one is not None:
                yield Sized(width=width, height=height, arrangement=one, worth=worth(width, height, one.cost + cost))


def worth(width: float, height: float, cost: float) -> float:
    """What a panel of free size is judged by, the less the better: its area, its form, what its arrangement costs."""
    return width * height * (1.0 + SQUAT * abs(math.log(width / height / ASPECT))) * (1.0 + LOOKS * cost)


def stepped(side: float) -> float:
    """The next side of a panel of free size."""
    return SIZE_STEP * math.ceil(side / SIZE_STEP - 1e-6)
