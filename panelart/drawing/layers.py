"""The names of the layers and the colours of what is not ink: ours, one place, the same in every file."""

from __future__ import annotations

from panelart.drawing.representation import Paint
from panelart.model.panel import Ink, Panel

OUTLINE = "outline"
EDGE = "edge"
"""What is cut round, and the edge of the finished part that is only shown, to align a file with."""

CUTOUTS = "cutouts"
LEGEND = "legend"
COUNTERSINKS = "countersinks"
COUNTERSINKS_REAR = "countersinks-rear"
"""Mouths of cones cut from the front, and of those cut from the rear: to be countersunk, not cut out."""

BENDS = "bends"
BENDS_FORWARD = "bends-forward"
"""Bends away from the viewer of the front, and those towards them: the middle of the bend, not to be cut."""

BASE = "base"
VARNISH = "varnish"
BACKGROUND = "background"
GROUND = "ground"
"""The colour of what is printed on, shown and not printed."""

REGISTER = "register"
KISS_CUT = "kiss-cut"
KISS_CUT_MIRRORED = "kiss-cut-mirrored"
"""The same in a file that is cut from the rear: a plotter's operator sees names of layers."""

ADHESIVE = "adhesive"
MASK = "mask"
PARTS = "parts"
FINDINGS = "findings"
DIMENSIONS = "dimensions"
NOTES = "notes"
NOTE_HEIGHT = 3.0
"""Height of the capitals of notes on what a machine takes, mm."""

CUT_PLATE = "cut"
"""Name of the plate that cutting lines are drawn in: no press prints it."""

BASE_COLOUR = "#DCE5EC"
VARNISH_COLOUR = "#F1ECD6"
"""How base and varnish show on a screen, where white and clear would not be seen on white paper."""

BARE_METAL = "#B8BCBF"
"""How a face without a coat shows."""

CUT_LINE = Paint(colour="#C2187A", plate=CUT_PLATE)
CUT_LINE_WIDTH = 0.1


def ground_of(panel: Panel) -> Paint:
    """The colour of the face, in which knobs and discs with scales are shown too: their ink is made for it."""
    return Paint(colour=panel.coat.colour if panel.coat.kind != "none" else BARE_METAL)


def legend_layer(ink: Ink) -> str:
    """One layer an ink: `legend-white`."""
    return f"{LEGEND}-{ink.slug}"
