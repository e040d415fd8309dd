"""Marks and words as areas of ink, and areas of ink as loops: shapely polygons within CHORD of the curves.

A polygon stands where the plates of two inks meet each other, and there only: what no other ink touches keeps its own
lines, arcs and cubics.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import Final

import shapely

from panelart.geometry import Contour, Line, Point
from panelart.geometry.polygons import polygon
from panelart.lettering.flat import CHORD, flattened
from panelart.lettering.outline import Loop, Shape
from panelart.model.layout import Mark

QUARTER: Final = 16
"""Chords of a quarter circle where an area is grown or shrunk: 0.12 % of the distance, 0.1 um of a choke of 0.1 mm."""

MITRE: Final = 4.0
"""Where SVG and our PDF cut a sharp corner of a line off."""

NOTHING: Final = shapely.Polygon()


def area_of(shape: Shape) -> shapely.Geometry:
    """The ground inside closed loops by the non-zero rule, whichever way their font draws the outer ones.

    Each outer loop loses the inner ones that lie in it, and what lies in those again is painted by its own loop. A loop
    of the other sense that lies in none, as a bar over letters may, is painted like any.
    """
    rings = [shapely.Polygon(ring) for loop in shape if len(ring := flattened(loop, CHORD)) >= 3]
    if not rings:
        return NOTHING
    senses = [ring.exterior.is_ccw for ring in rings]
    outer = senses[max(range(len(rings)), key=lambda index: rings[index].area)]
    whole = [ring if ring.is_valid else shapely.make_valid(ring) for ring in rings]
    painted = [ground for ground, sense in zip(whole, senses, strict=True) if sense is outer]
    holes = [ground for ground, sense in zip(whole, senses, strict=True) if sense is not outer]
    return _without_holes(painted, holes) if holes else united(painted)


def _without_holes(painted: list[shapely.Geometry], holes: list[shapely.Geometry]) -> shapely.Geometry:
    """Painted grounds, each without the holes that lie in it; a hole that lies in none is painted too."""
    held, holding = shapely.STRtree(painted).query(holes, predicate="within")
    loose = [hole for index, hole in enumerate(holes) if index not in set(held.tolist())]
    inner: dict[int, list[shapely.Geometry]] = {}
    for hole, ground in zip(held.tolist(), holding.tolist(), strict=True):
        inner.setdefault(ground, []).append(holes[hole])
    return united(
        shapely.difference(ground, united(inner[index])) if index in inner else ground
        for index, ground in enumerate([*painted, *loose])
    )


def line_area(shape: Shape, width: float) -> shapely.Geometry:
    """The ground under lines that are stroked `width` mm wide, with flat ends and mitred corners as in the files."""
    grounds: list[shapely.Geometry] = []
    for loop in shape:
        run = flattened(loop, CHORD)
        if len(run) < 2:
            continue
        edge = shapely.buffer(
            _line_of(loop, run),
            width / 2,
            cap_style="flat",
            join_style="mitre",
            mitre_limit=MITRE,
            quad_segs=QUARTER,
        )
        grounds.append(edge)
    return united(grounds)


def pen_area(loop: Loop, width: float) -> shapely.Geometry:
    """The ground under one line that a round pen or cutter of a width draws: ends and corners are round."""
    return shapely.buffer(_line_of(loop, flattened(loop, CHORD)), width / 2, quad_segs=QUARTER)


def _line_of(loop: Loop, run: list[Point]) -> shapely.Geometry:
    ends_meet = loop.curves[0].start.distance(loop.curves[-1].end) < 1e-9
    return shapely.LinearRing(run) if (loop.closed or ends_meet) and len(run) > 2 else shapely.LineString(run)


def mark_area(mark: Mark) -> shapely.Geometry:
    """What a mark covers."""
    return area_of(mark.shape) if mark.filled else line_area(mark.shape, mark.width)


def contour_area(contour: Contour) -> shapely.Geometry:
    """The ground inside a contour."""
    return polygon(contour, CHORD, side="middle")


def united(grounds: Iterable[shapely.Geometry]) -> shapely.Geometry:
    """All of them as one area."""
    return shapely.union_all(list(grounds))


def gathered(grounds: Iterable[shapely.Geometry]) -> shapely.Geometry:
    """As `united`, sixty times as fast where most of them lie apart, as letters do; rings may begin elsewhere."""
    return shapely.disjoint_subset_union_all(list(grounds))


def grown(ground: shapely.Geometry, by: float) -> shapely.Geometry:
    """An area moved outwards by `by` mm all round, inwards where that is negative; outer corners are round."""
    if ground.is_empty or not by:
        return ground
    return shapely.buffer(ground, by, quad_segs=QUARTER)


def opened(ground: shapely.Geometry, radius: float) -> shapely.Geometry:
    """What of an area discs of a radius can cover without leaving it: the area without what is thinner than that."""
    return shapely.intersection(grown(grown(ground, -radius), radius), ground)


def parted(ground: shapely.Geometry, minimum: float) -> tuple[shapely.Geometry, shapely.Geometry]:
    """An area parted into what is at least so wide, and the lines and dots that are not.

    A sharp corner is no thin line: it is one only when more than a square of that width is lost.
    """
    if not minimum or ground.is_empty:
        return ground, NOTHING
    kept = opened(ground, minimum / 2)
    lost = shapely.difference(ground, grown(kept, 1e-4))
    lines = [piece for piece in pieces(lost) if piece.area > minimum * minimum]
    dots = [piece for piece in pieces(ground) if not shapely.intersects(piece, kept)]
    narrow = united([*lines, *dots])
    return shapely.difference(ground, narrow), narrow


def pieces(ground: shapely.Geometry, minimum: float = 0.0) -> list[shapely.Polygon]:
    """The polygons of an area that are larger than `least` mm2, by where they lie."""
    found = [piece for piece in shapely.get_parts(ground) if piece.geom_type == "Polygon" and piece.area > minimum]
    return sorted(found, key=lambda piece: (*piece.bounds, piece.area))


def loops_of(ground: shapely.Geometry, minimum: float = 1e-5) -> Shape:
    """An area as loops, counter-clockwise round ink and clockwise round what is left out of it.

    Specks of no more than `least` mm2, which come of arithmetic, are left away.
    """
    found: list[Loop] = []
    for piece in pieces(ground, minimum):
        turned = shapely.geometry.polygon.orient(piece)
        found.append(_loop(turned.exterior))
        found += [_loop(ring) for ring in turned.interiors if shapely.Polygon(ring).area > minimum]
    return tuple(found)


def _loop(ring: shapely.LinearRing) -> Loop:
    points = [Point(float(x), float(y)) for x, y in shapely.get_coordinates(ring)]
    return Loop(tuple(Line(a, b) for a, b in pairwise(points) if a != b))


def square_cm(ground: shapely.Geometry) -> float:
    """The size of an area in cm2."""
    return math.fsum(piece.area for piece in pieces(ground)) / 100.0
