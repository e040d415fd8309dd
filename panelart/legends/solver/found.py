"""What comes of solving a component, by whatever method."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.legends.solver.problem import HARD


class Found(Struct, frozen=True, kw_only=True):
    """values: the number of the value by variable, None if no permitted answer was found; cost: HARD then.

    bound: no answer costs less. first: the answer was proved to be the first of the equally good ones.
    method: "narrowed", "program" or "windows", whichever gave the answer or its proof.
    """

    values: dict[int, int] | None
    cost: int
    bound: int
    first: bool
    method: str


HOPELESS = 8
"""Powers of two above the permitted table from which no other order is tried."""

IMPOSSIBLE = Found(values=None, cost=HARD, bound=HARD, first=True, method="narrowed")
"""It was proved that there is no permitted answer."""
