"""Plates of a print file held against the separations: the area of each as it is painted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final

import shapely

from panelart.geometry import Point
from panelart.marking.areas import square_cm
from panelart.marking.separation import Separations
from panelart.messages import Message
from panelart.messages import readback as said
from panelart.readback.loops import Loop

SHARE: Final = 0.005
LEAST: Final = 0.005
"""How much an area may be off: a share of it, and cm² of small ones; curves are read as chords and lines are flat."""


def plates_told(plates: Separations, loops: Sequence[Loop]) -> Iterator[Message]:
    """What disagrees. Plates with tints, gradients or pictures, whose solid ink is less, are left out."""
    named = {plate.ink.name: plate.ink.plate for plate in plates.inks}
    for size in plates.sizes:
        if abs(size.covered - size.solid) > LEAST:
            continue
        area = square_cm(_painted([loop for loop in loops if loop.plate == named.get(size.name, size.name)]))
        if abs(area - size.covered) > SHARE * size.covered + LEAST:
            yield said.plate_area(plate=size.name, found=area, wanted=size.covered)


def _painted(loops: Sequence[Loop]) -> shapely.Geometry:
    """What fills and lines cover together: fills by the non-zero rule within a group, lines by their width."""
    pieces: list[shapely.Geometry] = []
    for _, group in groupby(loops, key=lambda loop: loop.group):
        one = list(group)
        filled = [loop for loop in one if not loop.width and len(loop.points) > 3]
        pieces += [
            shapely.LineString(loop.points).buffer(loop.width / 2, cap_style="flat")
            for loop in one
            if loop.width and len(loop.points) > 1
        ]
        if filled:
            pieces.append(_nonzero(filled))
    return shapely.union_all(pieces)


def _nonzero(loops: Sequence[Loop]) -> shapely.Geometry:
    """What loops enclose by the non-zero rule (ISO 32000-1, 8.5.3.3.2): faces round which they turn once or more."""
    noded = shapely.union_all([shapely.LinearRing(loop.points) for loop in loops])
    faces = shapely.get_parts(shapely.polygonize([noded]))
    if len(faces) == 1:
        return faces[0]
    boxes = [loop.box for loop in loops]
    solid = []
    for face in faces:
        inside = shapely.point_on_surface(face)
        at = Point(inside.x, inside.y)
        if sum(_turns(loop, at) for loop, box in zip(loops, boxes, strict=True) if box.contains(at)):
            solid.append(face)
    return shapely.union_all(solid)


def _turns(loop: Loop, at: Point) -> int:
    """How often a loop goes round a place, counter-clockwise: by its crossings of the ray to the right."""
    turns = 0
    for one, other in zip(loop.points, (*loop.points[1:], loop.points[0]), strict=True):
        if (one.y <= at.y) is (other.y <= at.y):
            continue
        across = one.x + (at.y - one.y) / (other.y - one.y) * (other.x - one.x)
        if across > at.x:
            turns += 1 if other.y > one.y else -1
    return turns
