"""The names of the layers and the colours of what is not ink: ours, one place, the same in every file."""

from __future__ import annotations

from panelart.drawing.representation import Paint
from panelart.model.panel import Ink

OUTLINE = "outline"
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
REGISTER = "register"
KISS_CUT = "kiss-cut"
ADHESIVE = "adhesive"
MASK = "mask"
PARTS = "parts"
FINDINGS = "findings"
DIMENSIONS = "dimensions"
NOTES = "notes"

CUT_PLATE = "cut"
"""Name of the plate that cutting lines are drawn in: no press prints it."""

BASE_COLOUR = "#DCE5EC"
VARNISH_COLOUR = "#F1ECD6"
"""How base and varnish show on a screen, where white and clear would not be seen on white paper."""

CUT_LINE = Paint(colour="#C2187A", plate=CUT_PLATE)
CUT_LINE_WIDTH = 0.1


def legend_layer(ink: Ink) -> str:
    """One layer an ink: `legend-white`."""
    return f"{LEGEND}-{ink.slug}"
