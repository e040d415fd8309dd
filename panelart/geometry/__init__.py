"""Exact shapes of lines and circular arcs on the panel face, and what is measured on them.

Millimetres, x right, y up, seen from the front; angles in degrees, counter-clockwise. Polygons for tests of
overlap are in `panelart.geometry.polygons`, which is not imported here because it loads shapely.
"""

from __future__ import annotations

from panelart.geometry.contour import Arc, Contour, Line, Path, Segment, joined
from panelart.geometry.points import ORIGIN, TOLERANCE, Box, Point, Vector, direction
from panelart.geometry.shapes import (
    CORNERS,
    SIDES,
    Axis,
    Corner,
    Side,
    chamfered_rectangle,
    circle,
    d_hole,
    double_d,
    hexagon,
    keyed_circle,
    polygon,
    rectangle,
    slot,
    trapezoid,
)
from panelart.geometry.transforms import Transform
from panelart.geometry.vertices import CHORD_TOLERANCE, ChordSide, vertices

__all__ = [
    "CHORD_TOLERANCE",
    "CORNERS",
    "ORIGIN",
    "SIDES",
    "TOLERANCE",
    "Arc",
    "Axis",
    "Box",
    "ChordSide",
    "Contour",
    "Corner",
    "Line",
    "Path",
    "Point",
    "Segment",
    "Side",
    "Transform",
    "Vector",
    "chamfered_rectangle",
    "circle",
    "d_hole",
    "direction",
    "double_d",
    "hexagon",
    "joined",
    "keyed_circle",
    "polygon",
    "rectangle",
    "slot",
    "trapezoid",
    "vertices",
]
