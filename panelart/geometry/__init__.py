"""Exact shapes of lines and circular arcs on the panel face, and what is measured on them.

Millimetres, x right, y up, seen from the front; angles in degrees, counter-clockwise. Polygons for tests of
overlap are in `panelart.geometry.polygons`, which is not imported here because it loads shapely.
"""

from __future__ import annotations

from panelart.geometry.affine import Affine
from panelart.geometry.contour import Arc, Contour, Line, Path, Segment, joined, nearest_on
from panelart.geometry.crossings import crossings, self_crossing, simple
from panelart.geometry.measures import Gap, gap, overlaps, point_gap, segment_gap
from panelart.geometry.offset import MITRE_LIMIT, Join, offset
from panelart.geometry.points import ORIGIN, TOLERANCE, Box, Point, Vector, direction
from panelart.geometry.shapes import (
    CORNERS,
    SIDES,
    Axis,
    Corner,
    Side,
    chamfered_rectangle,
    circle,
    corner_of,
    d_hole,
    double_d,
    hexagon,
    keyed_circle,
    polygon,
    rectangle,
    rectangular,
    slot,
    trapezoid,
)
from panelart.geometry.transforms import Transform
from panelart.geometry.vertices import CHORD_TOLERANCE, ChordSide, vertices

__all__ = [
    "CHORD_TOLERANCE",
    "CORNERS",
    "MITRE_LIMIT",
    "ORIGIN",
    "SIDES",
    "TOLERANCE",
    "Affine",
    "Arc",
    "Axis",
    "Box",
    "ChordSide",
    "Contour",
    "Corner",
    "Gap",
    "Join",
    "Line",
    "Path",
    "Point",
    "Segment",
    "Side",
    "Transform",
    "Vector",
    "chamfered_rectangle",
    "circle",
    "corner_of",
    "crossings",
    "d_hole",
    "direction",
    "double_d",
    "gap",
    "hexagon",
    "joined",
    "keyed_circle",
    "nearest_on",
    "offset",
    "overlaps",
    "point_gap",
    "polygon",
    "rectangle",
    "rectangular",
    "segment_gap",
    "self_crossing",
    "simple",
    "slot",
    "trapezoid",
    "vertices",
]
