"""The room between blocks: what the rules of the checks ask for, and a little air."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from panelart.checks.limits import Limits
from panelart.drafting.blocks import Block
from panelart.model.panel import Hand

_TOUCH: Final = 0.75
"""Between plugs, and between bodies behind: they may touch; this is the play of the parts. Common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spacing:
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
        least = self.limits["finger.least"].value
        if self.hand is None:
            return least
        first, second = sorted((one, two))
        least = max(least, self.limits[f"spacing.{first}.{second}.least"].value)
        return max(least, self.limits["glove.least"].value) if self.hand is Hand.GLOVED else least

    def beside(self, left: Block, right: Block) -> float:
        """The least distance of two blocks' centres, one beside the other."""
        need = max(
            left.face.right - right.face.left + self.white,
            left.front.right - right.front.left + self._plugs(left, right),
            left.front.right - right.face.left + _TOUCH,
            left.face.right - right.front.left + _TOUCH,
        )
        if left.rear is not None and right.rear is not None:
            need = max(need, left.rear.right - right.rear.left + _TOUCH)
        for one, kind in left.hands:
            for two, other in right.hands:
                room = self.round_stop if left.emergency or right.emergency else self.between_hands(kind, other)
                need = max(need, one.right - two.left + room)
        return need

    def above(self, upper: Block, lower: Block) -> float:
        """The least distance of two blocks' centres, one above the other."""
        need = max(
            lower.face.top - upper.face.bottom + self.white,
            lower.front.top - upper.front.bottom + self._plugs(upper, lower),
            lower.face.top - upper.front.bottom + _TOUCH,
            lower.front.top - upper.face.bottom + _TOUCH,
        )
        if upper.rear is not None and lower.rear is not None:
            need = max(need, lower.rear.top - upper.rear.bottom + _TOUCH)
        for one, kind in upper.hands:
            for two, other in lower.hands:
                room = self.round_stop if upper.emergency or lower.emergency else self.between_hands(kind, other)
                need = max(need, two.top - one.bottom + room)
        return need

    def _plugs(self, one: Block, two: Block) -> float:
        if self.hand is None or one.hands or two.hands:
            return _TOUCH
        return self.limits["plug.gloved.least" if self.hand is Hand.GLOVED else "plug.least"].value
