"""How much of an ink a run of colour takes: its share summed up over the area, band by band."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Final

import shapely

from panelart.geometry import Point, Vector
from panelart.marking.areas import QUARTER
from panelart.model.printing import Gradient

_BANDS: Final = 48
"""Within a band the share runs in a straight line; its mean is taken."""


def mean_share(gradient: Gradient, ink: str, ground: shapely.Geometry) -> float:
    """The share of an ink, 0 to 1, in the mean over an area."""
    whole = float(ground.area)
    if not whole:
        return 0.0
    plain = shapely.simplify(ground, 0.01)
    below = [float(shapely.intersection(plain, _up_to(gradient, band / _BANDS, plain)).area) for band in range(_BANDS)]
    below.append(float(plain.area) - _beyond(gradient, plain))
    shares = [_share(gradient, ink, (band + 0.5) / _BANDS) for band in range(_BANDS)]
    inside = math.fsum(share * (high - low) for share, (low, high) in zip(shares, pairwise(below), strict=True))
    ends = _share(gradient, ink, 0.0) * below[0] + _share(gradient, ink, 1.0) * (float(plain.area) - below[-1])
    return (inside + ends) / float(plain.area)


def _share(gradient: Gradient, ink: str, at: float) -> float:
    """The share of an ink at a place from 0 to 1 along the run."""
    for one, other in pairwise(gradient.stops):
        if at <= other.at:
            along = (at - one.at) / (other.at - one.at)
            first, last = (stop.tint if stop.ink == ink else 0.0 for stop in (one, other))
            return first + along * (last - first)
    return 0.0


def _beyond(gradient: Gradient, ground: shapely.Geometry) -> float:
    """The size of the part that lies beyond the end of the run."""
    return float(shapely.difference(ground, _up_to(gradient, 1.0, ground)).area)


def _up_to(gradient: Gradient, at: float, ground: shapely.Geometry) -> shapely.Geometry:
    """All that lies before a place of the run, as far as an area reaches."""
    start, end = gradient.start, gradient.end
    if gradient.round:
        return shapely.buffer(shapely.Point(start), start.distance(end) * at, quad_segs=4 * QUARTER)
    left, bottom, right, top = ground.bounds
    far = math.hypot(right - left, top - bottom) + start.distance(Point((left + right) / 2, (bottom + top) / 2)) + 1.0
    way = end.minus(start).unit
    here = start.moved(end.minus(start).scaled(at))
    across = Vector(-way.y, way.x)
    corners = [
        here.moved(across.scaled(far)),
        here.moved(across.scaled(-far)),
        here.moved(across.scaled(-far)).moved(way.scaled(-far)),
        here.moved(across.scaled(far)).moved(way.scaled(-far)),
    ]
    return shapely.Polygon(corners)
