"""Polygons of the shapely library that stand in for contours, on the safe side of the arcs.

Nothing else in the package loads shapely; what only draws, cuts or measures contours does not pay for it.
Import this module by name: the package front does not.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray

from panelart.geometry.contour import Arc, Contour, Line
from panelart.geometry.points import ORIGIN, Point
from panelart.geometry.vertices import CHORD_TOLERANCE, ChordSide, corners_of_arc, side_of_arc, vertices

__all__ = ["CHORD_TOLERANCE", "ChordSide", "polygon", "polygons", "vertices"]


def polygon(contour: Contour, tolerance: float = CHORD_TOLERANCE, side: ChordSide = "outside") -> shapely.Polygon:
    """The polygon of a contour, within `tolerance` millimetres of it.

    `outside` holds the contour, so that what overlaps the contour overlaps the polygon; `inside` is held by
    it; `middle` strays to either side equally. Rounding of the corners leaves about 1e-12 mm.
    """
    return polygons((contour,), tolerance, side)[0]


def polygons(
    contours: Iterable[Contour], tolerance: float = CHORD_TOLERANCE, side: ChordSide = "outside"
) -> list[shapely.Polygon]:
    """The same for many contours at once, which takes a fraction of the time."""
    if not tolerance > 0.0:
        raise ValueError(f"a chord tolerance of {tolerance:g} mm cannot be kept; it must be more than 0")
    rings = [_corners(contour, tolerance, side) for contour in contours]
    if not rings:
        return []
    numbers = np.repeat(np.arange(len(rings)), [len(ring) for ring in rings])
    found: list[shapely.Polygon] = shapely.polygons(
        shapely.linearrings(np.concatenate(rings), indices=numbers)
    ).tolist()
    return found


def _corners(contour: Contour, tolerance: float, side: ChordSide) -> NDArray[np.float64]:
    pieces: list[NDArray[np.float64]] = []
    starts: list[Point] = []
    for segment in contour.segments:
        starts.append(segment.start)
        if not isinstance(segment, Line):
            hollow = (segment.sweep_deg > 0) != _counter_clockwise(contour)
            turned = _chords(segment.radius, segment.start_deg, segment.sweep_deg, tolerance, side, hollow=hollow)
            pieces += [np.array(starts), turned + np.array(segment.centre)]
            starts = []
    return np.concatenate([*pieces, np.array(starts)]) if starts else np.concatenate(pieces)


def _counter_clockwise(contour: Contour) -> bool:
    first = contour.segments[0]
    if isinstance(first, Arc) and all(isinstance(s, Arc) and s.centre == first.centre for s in contour.segments):
        return first.sweep_deg > 0.0
    return contour.area > 0.0


@lru_cache(maxsize=4096)
def _chords(
    radius: float, start_deg: float, sweep_deg: float, tolerance: float, side: ChordSide, *, hollow: bool
) -> NDArray[np.float64]:
    """The corners between the ends of an arc, from its centre. Kept: a panel has few kinds of arc."""
    arc = Arc(ORIGIN, radius, start_deg, sweep_deg)
    first, turn, count, reach = corners_of_arc(arc, tolerance, side_of_arc(side, hollow=hollow))
    way = np.radians(first + turn * np.arange(count))
    corners = reach * np.stack([np.cos(way), np.sin(way)], axis=1)
    corners.setflags(write=False)
    return corners
