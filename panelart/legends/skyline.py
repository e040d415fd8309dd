"""How far a shape reaches over a stretch: what words that span the stretch have to stand off."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from math import inf

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry


class Skyline:
    """The two silhouettes of an area along one axis (0: above and below, 1: right and left of it).

    The boundary of an area does not cross itself, so between two neighbouring corners one edge is the outermost all
    the way. It is found once, by its height at both ends and its slope; a question then takes two look-ups.
    """

    def __init__(self, area: BaseGeometry, axis: int) -> None:
        starts, ends = _edges(area)
        along, out = axis, 1 - axis
        turned = starts[:, along] > ends[:, along]
        starts[turned], ends[turned] = ends[turned], starts[turned].copy()
        level = starts[:, along] != ends[:, along]
        a, b = starts[level], ends[level]
        stops = np.unique(np.concatenate([a[:, along], b[:, along]]))
        middles = (stops[:-1] + stops[1:]) / 2
        over = (a[:, along, np.newaxis] < middles) & (middles < b[:, along, np.newaxis])
        slope = (b[:, out] - a[:, out]) / (b[:, along] - a[:, along])
        heights = a[:, out, np.newaxis] + (middles - a[:, along, np.newaxis]) * slope[:, np.newaxis]
        covered = over.any(axis=0)
        self._stops: list[float] = stops.tolist()
        self._sides: list[tuple[list[float], list[float], list[float], list[float]]] = []
        for sign in (1.0, -1.0):
            outermost = np.where(over, sign * heights, -inf).argmax(axis=0)
            rise = np.where(covered, sign * slope[outermost], 0.0)
            base = sign * a[outermost, out]
            left = np.where(covered, base + (stops[:-1] - a[outermost, along]) * rise, -inf)
            right = np.where(covered, base + (stops[1:] - a[outermost, along]) * rise, -inf)
            self._sides.append((left.tolist(), right.tolist(), rise.tolist(), np.maximum(left, right).tolist()))

    def reach(self, low: float, high: float, *, up: bool) -> float:
        """The greatest height over low..high, or of the least one the negative; -inf where nothing stands."""
        stops = self._stops
        if not stops or high <= stops[0] or low >= stops[-1]:
            return -inf
        left, right, rise, most = self._sides[0 if up else 1]
        first = bisect_right(stops, low) - 1 if low > stops[0] else 0
        last = bisect_left(stops, high) - 1 if high < stops[-1] else len(stops) - 2
        start = left[first] + rise[first] * (low - stops[first]) if low > stops[first] else left[first]
        end = left[last] + rise[last] * (high - stops[last]) if high < stops[last + 1] else right[last]
        reach = max(start, end)
        if first < last:
            reach = max(reach, right[first], left[last])
            if first + 1 < last:
                reach = max(reach, *most[first + 1 : last])
        return reach


def _edges(area: BaseGeometry) -> tuple[np.ndarray, np.ndarray]:
    """The starts and ends of all edges of the outer boundaries."""
    rings = shapely.get_exterior_ring(shapely.get_parts(area))
    points, ring = shapely.get_coordinates(rings, return_index=True)
    joined = ring[1:] == ring[:-1]
    return points[:-1][joined], points[1:][joined]
