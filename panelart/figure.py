"""One figure as it was published or recalled: its value, where it is from, and how far it may be trusted."""

from __future__ import annotations

from enum import Enum

from panelart.canonical import Struct
from panelart.reprs import brief, mm


class Known(Enum):
    """How far a figure may be trusted."""

    PROVED = "proved"  # cut and fitted; the source says by whom, on which panel, when
    LOOKED_UP = "looked-up"  # stood in the named source
    TYPICAL = "typical"  # data sheets differ; a usual value
    MEMORY = "memory"  # recalled, not seen
    GIVEN = "given"  # the designer's own figure, written in the spec or a house file


class Figure(Struct, frozen=True, kw_only=True):
    """One dimension and its standing.

    `sources` are the places that it stands in, each independent of the others; `tolerance` is (minus, plus) in the
    figure's unit, `span` the lowest and highest value met in sources.
    """

    name: str
    value: float
    sources: tuple[str, ...]
    known: Known
    unit: str = "mm"
    tolerance: tuple[float, float] | None = None
    span: tuple[float, float] | None = None

    @property
    def met(self) -> tuple[float, float] | None:
        """The lowest and highest value met in sources, None where all say the same."""
        return self.span if self.span is not None and self.span[0] != self.span[1] else None

    @property
    def source(self) -> str:
        """Its sources in one line."""
        return "; ".join(self.sources)

    def __repr__(self) -> str:
        return brief("Figure", self.name, f"{mm(self.value)} {self.unit}", self.known.value, repr(self.source))
