"""How the marking is made ready for its process: base, varnish, grounds of colour, films, cutters, the label film."""

from __future__ import annotations

from enum import Enum
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.geometry import Contour, Point
from panelart.lettering.outline import Shape
from panelart.model.machine import USUAL, Machine
from panelart.processes.process import Emulsion
from panelart.reprs import brief, counted, mm


class Thin(Enum):
    """What lies under ink that is too thin for a choked base."""

    FULL = "full"  # base as wide as the ink
    NONE = "none"  # no base


class Base(Struct, frozen=True, kw_only=True):
    """White laid under inks: drawn in by `choke` mm; lines of less than `hold` mm of base do not print.

    `under` are the names of the inks that have it.
    """

    choke: float
    hold: float
    thin: Thin
    under: tuple[str, ...]


class Gloss(Enum):
    """Where varnish goes."""

    FACE = "face"  # over all of the face that ink may reach
    INKS = "inks"  # over the inks alone


class Stop(Struct, frozen=True, kw_only=True):
    """One colour of a gradient: its place from 0 to 1, the ink's name, and how much of the ink, 0 to 1."""

    at: float
    ink: str
    tint: float


class Gradient(Struct, frozen=True, kw_only=True):
    """A run of colour: straight from `start` to `end`, or round about `start` up to `end` where `round` is set."""

    stops: tuple[Stop, ...]
    start: Point
    end: Point
    round: bool = False


class Solid(Struct, frozen=True, kw_only=True):
    """One ink, `tint` of it, 0 to 1."""

    ink: str
    tint: float = 1.0


class Photo(Struct, frozen=True, kw_only=True):
    """A picture of pixels: `pixels` are rows of red, green, blue and cover (0 to 255), the first row on top.

    `ink` names the one ink that prints its dark parts; None prints it in the press's own colours.
    """

    file: str
    width: int
    height: int
    pixels: bytes
    ink: str | None = None

    def __repr__(self) -> str:
        return brief("Photo", repr(self.file), f"{self.width} x {self.height}", self.ink)


class Background(Struct, frozen=True, kw_only=True):
    """Colour under the legends: what it is, where, and how far past the edge it runs.

    `area` is None for the whole face. `bleed` is how far the colour runs past the edge of the face, in mm; None stops
    it short of the edge by the process's distance. A picture lies in the box of `area`.
    """

    colour: Solid | Gradient | Photo
    area: Shape | None
    bleed: float | None
    where: Where

    def __repr__(self) -> str:
        return brief(
            "Background",
            type(self.colour).__name__,
            "whole face" if self.area is None else counted(len(self.area), "loop"),
        )


class Filling(Enum):
    """How wide shapes are cut or burnt: by parallel lines, by offsets of the outline, by rows of dots."""

    HATCH = "hatch"
    CONTOUR = "contour"
    RASTER = "raster"


CUTTERS: Final = (0.2, 0.25, 0.3, 0.4, 0.5, 0.8, 1.0)
"""Usual widths of engraving cutters in mm, by trade habit."""


class Engraving(Struct, frozen=True, kw_only=True):
    """How marking is cut: widths of the cutters there are, depth, and how wide shapes are filled.

    `overlap` is the share of a cutter's width by which neighbouring passes overlap, `angle` that of hatching.
    """

    cutters: tuple[float, ...]
    depth: float
    filling: Filling
    overlap: float
    angle: float


class Laser(Struct, frozen=True, kw_only=True):
    """How marking is burnt: distance of lines, width of the beam, and the angle of the lines."""

    spacing: float
    beam: float
    filling: Filling
    angle: float


class Overlay(Struct, frozen=True, kw_only=True):
    """The label film over the face, all in mm.

    `inset` is how far its edge lies inside the panel's, `corner` the radius of its corners; a window clears what turns
    on the face (nuts, screw heads) by `nut_margin` and openings by `window_margin`. `free` are areas without adhesive.
    `colour` is that of the label film, '' for clear. `reverse` prints it on its back, seen through.
    """

    inset: float
    corner: float
    nut_margin: float
    window_margin: float
    adhesive_margin: float
    free: tuple[Contour, ...]
    colour: str
    reverse: bool

    def __repr__(self) -> str:
        return brief("Overlay", f"inset {mm(self.inset)} mm", self.colour, "reverse" if self.reverse else "")


class Output(Struct, frozen=True, kw_only=True):
    """The printing condition that the colours are meant for, with its profile (ICC, class prtr)."""

    condition: str
    profile: bytes


class Plates(Struct, frozen=True, kw_only=True):
    """What a shop calls the plates that are no ink."""

    base: str = "base"
    varnish: str = "varnish"
    cut: str = "cut"


class Pins(Struct, frozen=True, kw_only=True):
    """Two register pins of a shop's table: their diameter and their distance, centre to centre, mm."""

    diameter: float
    apart: float


class Printing(Struct, frozen=True, kw_only=True):
    """All of it; None where a process has no such thing, or the spec does not ask for it.

    `ink_margin` keeps backgrounds off openings, `thread_margin` off threads, `mask_margin` off bare pads and
    `edge_margin` off the edge where they stop short of it. `trap` is how far the lighter of two inks that touch
    spreads under the darker. `shop` names the shop whose figures hold, `machine` is what its
    machine takes, `pins` what its films are punched for, `head_clearance` how far its print head is off the face, mm.
    """

    base: Base | None = None
    varnish: Gloss | None = None
    trap: float = 0.0
    ink_margin: float = 0.0
    thread_margin: float = 0.0
    mask_margin: float = 0.0
    edge_margin: float = 0.0
    backgrounds: tuple[Background, ...] = ()
    emulsion: Emulsion = Emulsion.UP
    pins: Pins | None = None
    head_clearance: float | None = None
    engraving: Engraving | None = None
    laser: Laser | None = None
    overlay: Overlay | None = None
    output: Output | None = None
    plates: Plates = field(default_factory=Plates)
    shop: str = ""
    machine: Machine = USUAL

    def __repr__(self) -> str:
        return brief("Printing", repr(self.shop), counted(len(self.backgrounds), "background"))
