"""How far a shape reaches over a stretch: what words that span the stretch have to stand off."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from math import inf

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from panelart.geometry.distinct import distinct_with_places


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
        stops, numbers = distinct_with_places(np.concatenate([a[:, along], b[:, along]]))
        slope = (b[:, out] - a[:, out]) / (b[:, along] - a[:, along])
        # Each edge goes over a run of pieces between neighbouring stops.
        first, last = numbers[: len(a)], numbers[len(a) :]
        edge = np.repeat(np.arange(len(a)), last - first)
        piece = first[edge] + np.arange(len(edge)) - np.repeat(np.cumsum(last - first) - (last - first), last - first)
        middle = (stops[piece] + stops[piece + 1]) / 2
        order = np.lexsort((a[edge, out] + (middle - a[edge, along]) * slope[edge], piece))
        edge, piece = edge[order], piece[order]
        new = piece[1:] != piece[:-1]
        self._stops: list[float] = stops.tolist()
        self._sides: list[tuple[list[float], list[float], list[float], list[float]]] = []
        for sign, outermost in ((1.0, np.append(new, True)), (-1.0, np.append(True, new))):
            found, where = edge[outermost], piece[outermost]
            left, right, rise = np.full((3, max(len(stops) - 1, 0)), -inf)
            rise[:] = 0.0
            rise[where] = sign * slope[found]
            left[where] = sign * a[found, out] + (stops[where] - a[found, along]) * rise[where]
            right[where] = sign * a[found, out] + (stops[where + 1] - a[found, along]) * rise[where]
            self._sides.append((left.tolist(), right.tolist(), rise.tolist(), np.maximum(left, right).tolist()))

    def reach(self, low: float, high: float, *, up: bool) -> float:
        """The greatest height over low..high, or of the least one the negative; -inf where nothing stands."""
        stops = self._stops
        if not stops or high <= stops[0] or low >= stops[-1]:
            return -inf
        left, right, rise, maximum = self._sides[0 if up else 1]
        first = bisect_right(stops, low) - 1 if low > stops[0] else 0
        last = bisect_left(stops, high) - 1 if high < stops[-1] else len(stops) - 2
        start = left[first] + rise[first] * (low - stops[first]) if low > stops[first] else left[first]
        end = left[last] + rise[last] * (high - stops[last]) if high < stops[last + 1] else right[last]
        reach = max(start, end)
        if first < last:
            reach = max(reach, right[first], left[last])
            if first + 1 < last:
                reach = max(reach, *maximum[first + 1 : last])
        return reach


def _edges(area: BaseGeometry) -> tuple[np.ndarray, np.ndarray]:
    """The starts and ends of all edges of the outer boundaries."""
    rings = shapely.get_exterior_ring(shapely.get_parts(area))
    points, ring = shapely.get_coordinates(rings, return_index=True)
    joined = ring[1:] == ring[:-1]
    return points[:-1][joined], points[1:][joined]
