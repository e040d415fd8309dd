"""What a knob or cap is: a thing fitted over a shaft or a stem, with no opening of its own."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.figure import Figure
from panelart.reprs import brief


class KnobEntry(Struct, frozen=True, kw_only=True):
    """A catalogue entry of a knob or cap.

    `diameter` is over all, skirt and pointer included; `height` is its top above the face when fitted; `bore` the
    shaft it takes; all in mm. `pointer` says how it shows where it stands: none, line, dot, bar or skirt.
    """

    name: str
    title: str
    family: str
    diameter: float
    height: float
    figures: tuple[Figure, ...]
    bore: float | None = None
    pointer: str = "none"
    words: tuple[str, ...] = ()
    note: str = ""

    @property
    def bores(self) -> tuple[float, float] | None:
        """The thinnest and thickest shaft it is made for, None where its bore is not said."""
        figure = next((figure for figure in self.figures if figure.name == "bore"), None)
        if figure is None:
            return None
        return figure.span or (figure.value, figure.value)

    def __repr__(self) -> str:
        return brief("KnobEntry", repr(self.name), repr(self.title))
