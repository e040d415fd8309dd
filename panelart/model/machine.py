"""The machine that takes the DXF files: layers with one colour and line type each, and what a shop has otherwise."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from enum import Enum
from fnmatch import fnmatchcase
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.messages import Message
from panelart.messages import machines as said
from panelart.reprs import brief


class LineType(Enum):
    """How the lines of a layer are drawn."""

    CONTINUOUS = "continuous"
    DASHED = "dashed"
    DASH_DOT = "dash-dot"
    DOTTED = "dotted"


class CutLayer(Struct, frozen=True, kw_only=True):
    """One layer as it is in every DXF file: its name or that of a family, its colour, its line, what is done on it.

    `colour` is a colour number of DXF. `followed` says whether a tool follows the lines; others are for people.
    """

    name: str
    colour: int
    line: LineType
    says: Message
    followed: bool = True


_MOST_CUTTERS: Final = (
    (0.2, 213),
    (0.25, 183),
    (0.3, 163),
    (0.4, 153),
    (0.5, 145),
    (0.8, 75),
    (1.0, 45),
    (math.inf, 13),
)
"""Colours of engraving cutters by the width in mm up to which they hold: the usual widths have one each."""

CUT_LAYERS: Final = (
    CutLayer(name="outline", colour=1, line=LineType.CONTINUOUS, says=said.outline()),
    CutLayer(name="cutouts", colour=150, line=LineType.CONTINUOUS, says=said.cutouts()),
    CutLayer(name="countersinks", colour=200, line=LineType.DOTTED, says=said.countersinks(), followed=False),
    CutLayer(name="countersinks-rear", colour=230, line=LineType.DOTTED, says=said.countersinks_rear(), followed=False),
    CutLayer(name="bends", colour=94, line=LineType.DASHED, says=said.bends(), followed=False),
    CutLayer(name="bends-forward", colour=44, line=LineType.DASH_DOT, says=said.bends_forward(), followed=False),
    CutLayer(name="mask", colour=134, line=LineType.CONTINUOUS, says=said.mask()),
    CutLayer(name="kiss-cut", colour=42, line=LineType.CONTINUOUS, says=said.kiss_cut()),
    CutLayer(name="kiss-cut-mirrored", colour=23, line=LineType.CONTINUOUS, says=said.kiss_cut_mirrored()),
    CutLayer(name="pockets", colour=54, line=LineType.CONTINUOUS, says=said.pockets()),
    CutLayer(name="pins", colour=142, line=LineType.CONTINUOUS, says=said.pins()),
    CutLayer(name="laser", colour=220, line=LineType.CONTINUOUS, says=said.laser()),
    *(
        CutLayer(
            name=f"engrave-{width:g}", colour=colour, line=LineType.CONTINUOUS, says=said.engrave(width=f"{width:g}")
        )
        for width, colour in _MOST_CUTTERS[:-1]
    ),
    CutLayer(name="engrave-*", colour=_MOST_CUTTERS[-1][1], line=LineType.CONTINUOUS, says=said.engrave_wider()),
    CutLayer(name="line-*", colour=114, line=LineType.CONTINUOUS, says=said.dial_lines()),
    CutLayer(name="area-*", colour=84, line=LineType.CONTINUOUS, says=said.dial_areas()),
    CutLayer(name="edge", colour=8, line=LineType.DASHED, says=said.edge(), followed=False),
    CutLayer(name="notes", colour=8, line=LineType.CONTINUOUS, says=said.notes(), followed=False),
    CutLayer(name="*", colour=32, line=LineType.CONTINUOUS, says=said.others()),
)
"""Every layer of every DXF file, the more special before the more general.

The colours: each is seen on a white and on a black ground, at a contrast of 3.3 or more on both (WCAG 2.2, 1.4.11 asks
for 3 of graphics), and no two layers have one, but for those of people, which are grey. What a tool follows is
continuous, what it must not follow and is no lettering is broken, so that no line type is a matter of colour.
"""

UNLAWFUL: Final = re.compile(r"[<>/\\\":;?*|=`,\x00-\x1f]")
"""What a layer's name cannot hold in R2000 (DXF reference, symbol table names)."""


def cut_layer_of(name: str) -> CutLayer:
    """The layer that holds for a name: its own, else that of its family."""
    width = _width_of(name)
    if width is not None:
        colour = next(colour for most, colour in _MOST_CUTTERS if width <= most + 1e-9)
        return next(layer for layer in CUT_LAYERS if layer.colour == colour)
    return next(layer for layer in CUT_LAYERS if fnmatchcase(name, layer.name))


def _width_of(name: str) -> float | None:
    """The cutter's width in mm of a layer that is engraved, with or without an ink behind it."""
    found = re.match(r"engrave-([0-9.]+)(?:-|$)", name)
    return float(found.group(1)) if found else None


class LayerLine(Struct, frozen=True, kw_only=True):
    """What a shop has otherwise on one layer; None where as in every file. Not `written`, it is left out."""

    name: str | None = None
    colour: int | None = None
    line: LineType | None = None
    written: bool = True


class Lettered(Enum):
    """How notes are written: as strokes, or as text that the reading program sets."""

    STROKES = "strokes"
    TEXT = "text"


class Unit(Enum):
    """The unit of the figures of a file."""

    MM = "mm"
    INCH = "in"

    @property
    def mm(self) -> float:
        """How many mm it is."""
        return 25.4 if self is Unit.INCH else 1.0


class Zero(Enum):
    """The point of a drawing that is (0, 0) in the file."""

    PANEL = "panel"  # the panel's own: the lower-left corner, with `datum: drawing` the origin of the drawing
    DATUM = "datum"  # where the spec measures from
    CORNER = "corner"  # the lower-left corner of what is cut
    MIDDLE = "middle"  # the middle of what is cut


class Files(Enum):
    """Whether the layers of a cut file are one file or one each."""

    ONE = "one"
    LAYERS = "layers"


class Machine(Struct, frozen=True, kw_only=True):
    """A shop's machine, by what its control takes; without a word of the shop as in every file."""

    name: str = ""
    layers: Mapping[str, LayerLine] = field(default_factory=dict)
    notes: bool = False
    text: Lettered = Lettered.STROKES
    unit: Unit = Unit.MM
    zero: Zero = Zero.PANEL
    files: Files = Files.ONE

    def line_of(self, name: str) -> LayerLine:
        """Name, colour and line type of a layer in this machine's files, none of them None."""
        usual = cut_layer_of(name)
        own = self.layers.get(name) or self.layers.get(usual.name) or LayerLine()
        return LayerLine(
            name=own.name or name,
            colour=own.colour or usual.colour,
            line=own.line or usual.line,
            written=own.written and (self.notes or name != "notes"),
        )

    def __repr__(self) -> str:
        return brief("Machine", repr(self.name), self.unit.value)


USUAL: Final = Machine()
"""As every file is where no shop says otherwise."""
