"""Areas cleared by a tool of a width: offsets of the outline, or the outline and parallel lines within it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

import shapely
from shapely.affinity import rotate

from panelart.geometry import Line, Point
from panelart.lettering.outline import Loop
from panelart.marking.areas import grown, pieces

_SPECK: Final = 1e-6
_SMOOTH: Final = 0.0005
"""Chords of an offset may stray this far where they are thinned out, mm."""


def contours(ground: shapely.Geometry, width: float, step: float) -> list[Loop]:
    """Closed paths for the middle of the tool that clear an area, from its outline inwards, `step` mm apart."""
    found: list[Loop] = []
    inner = grown(ground, -width / 2)
    while not inner.is_empty:
        found += _rings(inner)
        following = grown(inner, -step)
        # Where nothing is left for another whole step, the tool may still not have reached the middle.
        middle = grown(inner, -width / 2) if step > width / 2 else None
        if middle is not None:
            missed = shapely.difference(middle, grown(following, width / 2))
            found += [ring for piece in pieces(missed, _SPECK) for ring in _rings(piece)]
        inner = following
    return found


def hatching(ground: shapely.Geometry, width: float, step: float, angle: float) -> list[Loop]:
    """The outline, then parallel lines `step` mm apart in an area, to and fro; for the middle of a tool of a width."""
    inner = grown(ground, -width / 2)
    return [*_rings(inner), *lines_in(inner, step, angle)]


def lines_in(ground: shapely.Geometry, step: float, angle: float) -> list[Loop]:
    """Parallel lines in an area, each run the other way than the one before."""
    if ground.is_empty:
        return []
    turned = rotate(ground, -angle, origin=(0.0, 0.0))
    left, bottom, right, top = turned.bounds
    # Lines lie at whole multiples of the step, so that neighbouring shapes share them.
    rows = range(math.ceil(bottom / step), math.floor(top / step) + 1)
    heights = [row * step for row in rows]
    if not heights:
        heights = [(bottom + top) / 2]
    across = [shapely.LineString([(left - 1.0, y), (right + 1.0, y)]) for y in heights]
    cut = rotate_all(shapely.intersection(across, turned), angle)
    found: list[Loop] = []
    for number, row in enumerate(cut):
        parts = [part for part in shapely.get_parts(row) if part.geom_type == "LineString" and part.length > 1e-4]
        parts.sort(key=lambda part: _along(part, angle))
        forth = [_open(part) for part in parts]
        found += forth if number % 2 == 0 else [_back(loop) for loop in reversed(forth)]
    return found


def rotate_all(rows: list[shapely.Geometry], angle: float) -> list[shapely.Geometry]:
    """Lines turned about the origin."""
    return [rotate(row, angle, origin=(0.0, 0.0)) for row in rows] if angle else list(rows)


def _along(part: shapely.LineString, angle: float) -> float:
    x, y = shapely.get_coordinates(part).mean(axis=0)
    return float(x * math.cos(math.radians(angle)) + y * math.sin(math.radians(angle)))


def _rings(ground: shapely.Geometry) -> Iterator[Loop]:
    for piece in pieces(ground, _SPECK):
        thinned = shapely.simplify(piece, _SMOOTH)
        for ring in (thinned.exterior, *thinned.interiors):
            yield Loop(tuple(_chain(ring)))


def _open(part: shapely.LineString) -> Loop:
    return Loop(tuple(_chain(part)), closed=False)


def _back(loop: Loop) -> Loop:
    return Loop(tuple(Line(line.end, line.start) for line in reversed(loop.curves)), closed=False)


def _chain(line: shapely.Geometry) -> Iterator[Line]:
    points = [Point(float(x), float(y)) for x, y in shapely.get_coordinates(line)]
    return (Line(a, b) for a, b in pairwise(points) if a != b)
