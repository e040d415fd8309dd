"""What holds a part to the panel: nuts, washers, screws; what to tighten them with; what the part weighs."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.figure import Figure
from panelart.reprs import brief, mm


class Fastener(Struct, frozen=True, kw_only=True):
    """One kind of fastener of a part.

    `thread` is its designation, '' for none; `count` how many; `across` the spanner size in mm; `torque` lowest and
    highest in N m; `from_rear` the side it is tightened from; `supplied` whether it comes with the part, so that it is
    counted but not bought.
    """

    what: str
    thread: str = ""
    count: int = 1
    across: Figure | None = None
    torque: tuple[Figure, Figure] | None = None
    from_rear: bool = False
    supplied: bool = True

    def __repr__(self) -> str:
        return brief("Fastener", f"{self.count} x {self.what}", self.thread)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Every figure with its source."""
        return (*(() if self.across is None else (self.across,)), *(self.torque or ()))


class Board(Struct, frozen=True, kw_only=True):
    """Where a part sits on a circuit board that stands behind the panel, parallel to it or on edge.

    `offset` is from the origin of the footprint to the axis of the hole, x and y in mm as they are seen from the front
    of the panel before the part is turned; the footprint stands as its library draws it, component side towards the
    panel. `height` is from the board's surface to the rear face of the panel. `on_edge` is true where the board stands
    at right angles to the panel: y of the offset is then the height of the axis above the board's surface.
    """

    offset: tuple[Figure, Figure]
    height: Figure | None = None
    on_edge: bool = False

    def __repr__(self) -> str:
        return brief("Board", f"{mm(self.offset[0].value)}, {mm(self.offset[1].value)}")

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Every figure with its source."""
        return (*self.offset, *(() if self.height is None else (self.height,)))
