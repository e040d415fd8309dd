"""Polygons on paper: what was found by tests of overlap, drawn as it was tested."""

from __future__ import annotations

from itertools import pairwise

import shapely

from panelart.geometry import Line, Point
from panelart.lettering.outline import Loop, Shape


def shape_of_ground(ground: shapely.Geometry) -> Shape:
    """Polygons as closed loops; holes run the other way. Lines and points that touching leaves are dropped."""
    loops: list[Loop] = []
    for polygon in shapely.get_parts(ground):
        if isinstance(polygon, shapely.Polygon) and not polygon.is_empty:
            # Normal form: rings outside run clockwise, holes the other way, each from its lowest corner.
            normal = shapely.normalize(polygon)
            loops += [_loop(normal.exterior), *(_loop(hole) for hole in normal.interiors)]
    return tuple(loops)


def _loop(ring: shapely.LinearRing) -> Loop:
    points = [Point(x, y) for x, y in shapely.get_coordinates(ring).tolist()]
    return Loop(tuple(Line(here, there) for here, there in pairwise(points)))
