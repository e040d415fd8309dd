"""How a part looks from the front: what it is sold in, and the contacts and recesses that one knows it by."""

from __future__ import annotations

from enum import Enum

from panelart.canonical import Struct
from panelart.figure import Figure
from panelart.geometry import Contour
from panelart.reprs import brief, counted


class Lit(Enum):
    """Whether there is a light in it."""

    ALWAYS = "always"
    EITHER = "either"  # sold with and without
    NEVER = "never"


class FaceDetail(Struct, frozen=True, kw_only=True):
    """One thing seen on the front of a part, in the part's own frame: a pin, a slot, a lens, a window.

    `recessed` is true for what lies deeper than what is round it: holes, slots, windows.
    """

    what: str
    contour: Contour
    recessed: bool
    figures: tuple[Figure, ...]

    def __repr__(self) -> str:
        return brief("FaceDetail", self.what)


class Look(Struct, frozen=True, kw_only=True):
    """The look of a part: colours by name, light, printed insert, digits of a display, kind of meter scale."""

    colours: tuple[str, ...] = ()
    lens: tuple[str, ...] = ()
    lit: Lit = Lit.NEVER
    insert: bool = False
    digits: int = 0
    meter: str = ""
    details: tuple[FaceDetail, ...] = ()

    def __repr__(self) -> str:
        return brief("Look", ", ".join(self.colours[:3]), counted(len(self.details), "detail"))
