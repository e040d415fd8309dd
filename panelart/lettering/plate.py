"""Words left out of a filled field, in geometry: by the non-zero rule nothing is painted where the letters are."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Final

from panelart.geometry import Line, Point
from panelart.lettering.flat import CHORD, flattened, reversed_loop, signed_area
from panelart.lettering.outline import Loop, Shape

COARSE: Final = 0.02
"""Chords that are only asked which way a loop runs, or whether two meet, may stray this far, mm."""


def knocked_out(ground: Shape, letters: Iterable[Shape]) -> Shape:
    """A field that runs counter-clockwise, with letters left out of it. The letters lie inside the field.

    Loops keep their curves. Where loops overlap, as joined Arabic letters and those of some variable fonts do, they
    would paint where they meet twice, so the ink is first made one, of chords that stray at most CHORD mm.
    """
    ink = [loop for letter in letters for loop in _clockwise(letter)]
    return (*ground, *(_united(ink) if _meeting(ink) else ink))


def _area(loop: Loop) -> float:
    return signed_area(flattened(loop, COARSE))


def _clockwise(letter: Shape) -> Shape:
    """A letter whose outer loops run clockwise, whichever way its font draws them."""
    return tuple(reversed_loop(loop) for loop in letter) if math.fsum(map(_area, letter)) > 0 else letter


def _meeting(ink: Sequence[Loop]) -> bool:
    """Whether loops cross, or one lies in another of the same sense, so that they would paint twice."""
    import shapely

    drawn = [(flattened(loop, COARSE), _area(loop) < 0) for loop in ink]
    rings = [shapely.LinearRing(points) for points, _ in drawn if len(points) >= 3]
    ones, others = shapely.STRtree(rings).query(rings, predicate="intersects")
    if bool((ones != others).any()):
        return True
    solids = [shapely.Polygon(points) for points, painted in drawn if painted and len(points) >= 3]
    holes = [shapely.Polygon(points) for points, painted in drawn if not painted and len(points) >= 3]
    within, _ = shapely.STRtree(solids).query(solids, predicate="within")
    inside, _ = shapely.STRtree(holes).query(solids, predicate="within")
    # Each solid lies within itself; a dot in a counter lies within one hole and one solid more.
    return len(within) - len(solids) != len(inside)


def _united(ink: Sequence[Loop]) -> Shape:
    import shapely

    solid, holes = (
        shapely.union_all(
            [
                shapely.make_valid(shapely.Polygon(flattened(loop, CHORD)))
                for loop in ink
                if (_area(loop) < 0) is painted
            ]
        )
        for painted in (True, False)
    )
    loops: list[Loop] = []
    for piece in shapely.get_parts(shapely.difference(solid, holes)):
        if piece.geom_type == "Polygon":
            clockwise = shapely.geometry.polygon.orient(piece, sign=-1.0)
            loops += [_loop(shapely.get_coordinates(ring)) for ring in (clockwise.exterior, *clockwise.interiors)]
    return tuple(loops)


def _loop(coordinates: Iterable[tuple[float, float]]) -> Loop:
    points = [Point(float(x), float(y)) for x, y in coordinates]
    return Loop(tuple(Line(a, b) for a, b in pairwise(points)))
