"""Bent edges as the designer asks for them: flanges, what they are turned by, and how the shop bends."""

from __future__ import annotations

from enum import Enum

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.geometry import Box, Point, Vector
from panelart.model.component import Component, Opening
from panelart.reprs import brief, counted, mm, spot


class Edge(Enum):
    """An edge of the face, seen from the front."""

    TOP = "top"
    BOTTOM = "bottom"
    LEFT = "left"
    RIGHT = "right"


class Relief(Enum):
    """How the end of a relief is cut."""

    SQUARE = "square"
    ROUND = "round"
    TEAR = "tear"  # nothing is cut: the metal tears


class Towards(Enum):
    """Which way a return is turned: back over the panel, or away from it."""

    IN = "in"
    OUT = "out"


class Method(Enum):
    """How the length of metal that goes into a bend is known."""

    FACTOR = "k"  # a K factor that the shop gives
    DIN_6935 = "din-6935"  # the K of DIN 6935, by radius over thickness
    TESTED = "tested"  # deductions that the shop has measured


class ShopBend(Struct, frozen=True, kw_only=True):
    """A bend that a shop has measured in this sheet: what it takes off the sum of the outside lengths, in mm."""

    radius: float
    angle: float
    deduction: float


class Bending(Struct, frozen=True, kw_only=True):
    """How the shop bends.

    `k` is the neutral line's place from the inside as a share of the thickness, None where `method` is not FACTOR.
    Reliefs beside a flange are `relief_width` wide and run `relief_depth` past the bend into the face; the notch where
    two flanges meet runs `corner_depth` past both bends. `die` is the opening of the die in mm, None where it is not
    known.
    """

    method: Method
    relief_width: float
    relief_depth: float
    corner_depth: float
    relief: Relief = Relief.SQUARE
    corner: Relief = Relief.SQUARE
    k: float | None = None
    tested: tuple[ShopBend, ...] = ()
    die: float | None = None

    def __repr__(self) -> str:
        return brief("Bending", self.method.value, self.relief.value)


class FlangeHole(Struct, frozen=True, kw_only=True):
    """An opening in a flange or a return, at finished size.

    `at` is in the flange's own frame: along the edge, in the panel's own x or y, and back from the outside of its
    bend; `openings` stand about it in the same frame. `component` is what goes into it, None for a plain hole.
    `hanging` is true for a hole that is there to hang the panel by when it is coated.
    """

    ref: str
    at: Point
    openings: tuple[Opening, ...]
    where: Where
    component: Component | None = None
    hanging: bool = False

    @property
    def box(self) -> Box:
        """The box round its openings, in the flange's frame."""
        around = Box.around(opening.contour.bounds for opening in self.openings)
        return around.moved(Vector(self.at.x, self.at.y))

    def __repr__(self) -> str:
        return brief("FlangeHole", repr(self.ref), spot(*self.at))


class Return(Struct, frozen=True, kw_only=True):
    """A second bend along the free edge of a flange; `length` is measured on the outside of its own bend."""

    length: float
    angle: float
    radius: float
    towards: Towards
    where: Where
    holes: tuple[FlangeHole, ...] = ()

    def __repr__(self) -> str:
        return brief("Return", f"{mm(self.length)} mm", f"{mm(self.angle)} deg", self.towards.value)


class Flange(Struct, frozen=True, kw_only=True):
    """An edge bent back.

    `length` is finished and outside, from the front of the face to the free edge (or to the outside of the return);
    `angle` is what the metal is turned through, 90 for square; `radius` is the inside one. `insets` are from the ends
    of the edge to the ends of the flange, left or lower first, None where the neighbouring flange decides. `corner`
    rounds the free corners.
    """

    edge: Edge
    length: float
    angle: float
    radius: float
    where: Where
    insets: tuple[float | None, float | None] = (None, None)
    corner: float = 0.0
    second: Return | None = None
    holes: tuple[FlangeHole, ...] = ()

    def __repr__(self) -> str:
        return brief(
            "Flange",
            self.edge.value,
            f"{mm(self.length)} mm",
            f"{mm(self.angle)} deg",
            counted(len(self.holes), "hole"),
        )
