"""The room between blocks: what the rules of the checks ask for, and a little air."""

from __future__ import annotations

import math
from collections.abc import Callable
from operator import attrgetter
from typing import Final

from panelart.canonical import Struct
from panelart.checks.limits import Limits
from panelart.drafting.blocks import Block
from panelart.geometry import Box
from panelart.model.panel import Hand

TOUCH: Final = 0.75
"""Between plugs, and between bodies behind: they may touch; this is the play of the parts. Common practice."""


class Spacing(Struct, frozen=True, kw_only=True):
    """How far blocks stand apart, in mm. `white` is between legends, `grid` what distances are rounded up to."""

    limits: Limits
    hand: Hand | None = None
    white: float = 3.0
    grid: float = 1.0
    round_stop: float = 25.0

    def up(self, distance: float) -> float:
        """A distance rounded up to the grid."""
        return self.grid * math.ceil(distance / self.grid - 1e-6)

    def down(self, distance: float) -> float:
        """A distance rounded down to the grid."""
        return self.grid * math.floor(distance / self.grid + 1e-6)

    def between_hands(self, one: str, two: str) -> float:
        """Room between two controls for the hand, edge to edge."""
        minimum = self.limits["finger.minimum"].value
        if self.hand is None:
            return minimum
        first, second = sorted((one, two))
        minimum = max(minimum, self.limits[f"spacing.{first}.{second}.minimum"].value)
        return max(minimum, self.limits["glove.minimum"].value) if self.hand is Hand.GLOVED else minimum

    def beside(self, left: Block, right: Block) -> float:
        """The least distance of two blocks' centres, one beside the other."""
        return self._apart(left, right, attrgetter("right"), attrgetter("left"))

    def above(self, upper: Block, lower: Block) -> float:
        """The least distance of two blocks' centres, one above the other."""
        return self._apart(lower, upper, attrgetter("top"), attrgetter("bottom"))

    def _apart(self, low: Block, high: Block, end: Callable[[Box], float], start: Callable[[Box], float]) -> float:
        """The least distance along an axis: from the `end` sides of one block to the `start` sides of the next."""
        need = max(
            end(low.face) - start(high.face) + self.white,
            end(low.front) - start(high.front) + self._plugs(low, high),
            end(low.front) - start(high.face) + self._before(abs(start(high.face)) - abs(start(high.front))),
            end(low.face) - start(high.front) + self._before(end(low.face) - end(low.front)),
        )
        if low.rear is not None and high.rear is not None:
            need = max(need, end(low.rear) - start(high.rear) + TOUCH)
        for one, kind in low.hands:
            for two, other in high.hands:
                room = self.round_stop if low.emergency or high.emergency else self.between_hands(kind, other)
                need = max(need, end(one) - start(two) + room)
        for one in low.pitches:
            for two in high.pitches:
                need = max(need, end(one) - start(two))
        return need

    def _before(self, legend: float) -> float:
        """The room between a plug or a lever and a face with a legend of such a height on that side, or none.

        A legend must be nearer to its own part.
        """
        return self.white if legend > TOUCH else TOUCH

    def _plugs(self, one: Block, two: Block) -> float:
        if self.hand is None or one.hands or two.hands:
            return TOUCH
        return self.limits["plug.gloved.minimum" if self.hand is Hand.GLOVED else "plug.minimum"].value
