"""Smooth curves as arcs: each stretch becomes two arcs that share a tangent, halved until they keep to the curve."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Final

from panelart.canonical import Struct
from panelart.geometry.contour import Arc, Line, Segment, nearest_on
from panelart.geometry.points import Point, Vector
from panelart.messages import geometry as said

FLAT: Final = 1e-6
"""An arc that stands off its chord by less than this many mm is a line."""

MAX_HALVINGS: Final = 10
SAMPLES: Final = 24
"""Points of a stretch that are held against its arcs."""

_STEP: Final = 1e-6
_MAX_SWEEP: Final = 150.0
"""Degrees that one of the two arcs may sweep; beyond, samples no longer tell how well it fits."""


class Arcs(Struct, frozen=True, kw_only=True):
    """What a curve became, and the most that a sampled point of it lies off that, in mm."""

    segments: tuple[Segment, ...]
    error: float


def arc_between(start: Point, end: Point, bulge: float) -> Segment:
    """The arc from one point to another whose bulge is the tangent of a quarter of its sweep; a line where flat.

    Raises ValueError when the points are the same.
    """
    chord = end.minus(start)
    if chord.length == 0.0:
        raise ValueError("an arc between a point and itself is not known by its bulge")
    if abs(bulge) * chord.length / 2 < FLAT:
        return Line(start, end)
    aside = chord.perpendicular.scaled((1.0 - bulge * bulge) / (4.0 * bulge))
    centre = start.middle(end).moved(aside)
    radius = chord.length * (1.0 + bulge * bulge) / (4.0 * abs(bulge))
    return Arc(centre, radius, start.minus(centre).deg, math.degrees(4.0 * math.atan(bulge)))


def as_arcs(
    point: Callable[[float], Point], slope: Callable[[float], Vector], breaks: Sequence[float], tolerance: float
) -> Arcs:
    """A curve as lines and arcs that no sampled point of it is further from than a tolerance, in mm.

    `breaks` are the parameters where it begins, may have a corner, and ends. Raises ValueError when that takes more
    than MOST_HALVINGS halvings of a stretch.
    """
    segments: list[Segment] = []
    worst = 0.0
    for first, last in pairwise(breaks):
        found, error = _stretch(point, slope, first, last, tolerance, MAX_HALVINGS)
        segments += found
        worst = max(worst, error)
    return Arcs(segments=tuple(segments), error=worst)


def _stretch(
    point: Callable[[float], Point], slope: Callable[[float], Vector], first: float, last: float, tolerance: float,
    halvings: int,
) -> tuple[list[Segment], float]:  # fmt: skip
    tried = _biarc(point(first), _way(point, slope, first, last), point(last), _way(point, slope, last, first))
    if tried is not None:
        samples = (point(first + (last - first) * step / SAMPLES) for step in range(SAMPLES + 1))
        error = max(min(nearest_on(piece, sample).distance(sample) for piece in tried) for sample in samples)
        if error <= tolerance:
            return tried, error
    if halvings == 0:
        raise ValueError(said.no_arcs(tolerance=tolerance))
    middle = (first + last) / 2
    before, worse = _stretch(point, slope, first, middle, tolerance, halvings - 1)
    after, bad = _stretch(point, slope, middle, last, tolerance, halvings - 1)
    return [*before, *after], max(worse, bad)


def _way(
    point: Callable[[float], Point], slope: Callable[[float], Vector], at: float, other: float
) -> Vector:  # fmt: skip
    """The direction of travel at one end of a stretch; where the curve stands still, that just beside it."""
    way = slope(at)
    if way.length > 1e-9:
        return way.unit
    near = at + (other - at) * _STEP
    step = point(near).minus(point(at)) if other > at else point(at).minus(point(near))
    return step.unit if step.length > 0.0 else Vector(1.0, 0.0)


def _biarc(start: Point, leaving: Vector, end: Point, arriving: Vector) -> list[Segment] | None:
    """Two arcs from start to end with the directions given at both, alike in the length of their tangents."""
    chord = end.minus(start)
    if chord.length < FLAT:
        return None
    both = leaving.plus(arriving)
    square = 2.0 * (1.0 - leaving.dot(arriving))
    along = 2.0 * chord.dot(both)
    if square > 1e-12:
        root = along * along + 4.0 * square * chord.dot(chord)
        reach = (-along + math.sqrt(root)) / (2.0 * square)
    elif abs(along) > 1e-12:
        reach = chord.dot(chord) / along
    else:
        return None
    if not 0.0 < reach < 1e6:
        return None
    joint = start.moved(leaving.scaled(reach)).middle(end.moved(arriving.scaled(-reach)))
    pieces: list[Segment] = []
    for begin, finish, way, at_start in ((start, joint, leaving, True), (joint, end, arriving, False)):
        across = finish.minus(begin)
        if across.length < FLAT:
            return None
        turn = math.atan2(way.cross(across), way.dot(across)) * (1.0 if at_start else -1.0)
        if abs(math.degrees(2.0 * turn)) > _MAX_SWEEP:
            return None
        pieces.append(arc_between(begin, finish, math.tan(turn / 2.0)))
    return pieces
