"""Polygons of the shapely library that stand in for contours, on the safe side of the arcs.

Nothing else in the package loads shapely; what only draws, cuts or measures contours does not pay for it.
Import this module by name: the package front does not.
"""

from __future__ import annotations

import shapely

from panelart.geometry.contour import Contour
from panelart.geometry.vertices import CHORD_TOLERANCE, ChordSide, vertices

__all__ = ["CHORD_TOLERANCE", "ChordSide", "polygon", "vertices"]


def polygon(contour: Contour, tolerance: float = CHORD_TOLERANCE, side: ChordSide = "outside") -> shapely.Polygon:
    """The polygon of a contour, within `tolerance` millimetres of it.

    `outside` holds the contour, so that what overlaps the contour overlaps the polygon; `inside` is held by
    it; `middle` strays to either side equally. Rounding of the corners leaves about 1e-12 mm.
    """
    return shapely.Polygon(vertices(contour, tolerance, side))
