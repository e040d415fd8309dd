"""One part as its own legends see it: how far its hardware and fixed markings reach on every side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from math import inf

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from panelart.geometry import Box, Point, Vector
from panelart.legends.obstacles import Field, Obstacle
from panelart.legends.skyline import Skyline
from panelart.model.panel import Part, Place

BETWEEN = 2.5
"""How far beside words the part's own scale still counts, over the gap that words keep from their part."""

APART = 3.0
"""The same for names, over what they keep from the scale: AUTO MODE HAND is read as one line. Common practice."""

_FINE = 9
"""Decimals of a millimetre to which parts of one kind are alike wherever they stand."""


class Shadow:
    """What a part and its fixed markings cover, seen from its own place; shared by all parts of one kind."""

    def __init__(self, areas: NDArray[np.object_], clearances: NDArray[np.float64], printed: NDArray[np.bool_]) -> None:
        self.area: BaseGeometry = shapely.union_all(areas)
        self.grown: BaseGeometry = shapely.union_all(shapely.buffer(areas, clearances))
        self.box = Box(*(float(side) for side in self.area.bounds))
        self._printed: BaseGeometry | None = shapely.union_all(areas[printed]) if printed.any() else None
        self._skylines: dict[int, tuple[Skyline, Skyline, Skyline | None]] = {}

    def reach(self, place: Place, low: float, high: float, gap: float, beyond: float, from_scale: float) -> float:
        """How far out words must start that span low..high along one side; -inf where nothing stands. See Stand."""
        axis = 1 if place in (Place.LEFT, Place.RIGHT) else 0
        up = place in (Place.ABOVE, Place.RIGHT)
        if axis not in self._skylines:
            printed = None if self._printed is None else Skyline(self._printed, axis)
            self._skylines[axis] = (Skyline(self.grown, axis), Skyline(self.area, axis), printed)
        grown, bare, printed = self._skylines[axis]
        reach = max(grown.reach(low, high, up=up) + beyond, bare.reach(low, high, up=up) + gap)
        if printed is not None:
            # Words do not slip in between the numerals of their own scale.
            wide = max(BETWEEN * gap, APART * from_scale)
            reach = max(reach, printed.reach(low - wide, high + wide, up=up) + max(gap, from_scale))
        return reach


@dataclass(frozen=True, slots=True)
class _Own:
    """What belongs to a part, from its own place. The areas are told apart by their corners."""

    corners: bytes
    of_area: bytes
    clearances: tuple[float, ...]
    printed: tuple[bool, ...]
    areas: NDArray[np.object_] = field(compare=False)


@lru_cache(maxsize=1000)
def _shadow(own: _Own) -> Shadow:
    return Shadow(own.areas, np.array(own.clearances), np.array(own.printed))


def _cast(obstacles: Sequence[Obstacle], at: Point) -> Shadow:
    areas = np.array([obstacle.area for obstacle in obstacles], dtype=object)
    corners, of_area = shapely.get_coordinates(areas, return_index=True)
    near = np.round(corners - np.array(at), _FINE) + 0.0
    return _shadow(
        _Own(
            near.tobytes(),
            of_area.tobytes(),
            tuple(obstacle.clearance for obstacle in obstacles),
            tuple(not obstacle.hides for obstacle in obstacles),
            shapely.set_coordinates(areas, near),
        )
    )


class Stand:
    """One part as its own legends see it: how far its hardware and fixed markings reach on every side."""

    def __init__(self, part: Part, standing: Field) -> None:
        self.part = part
        origin = part.component.legend_origin
        self.centre = part.at.moved(Vector(origin.x, origin.y).turned(part.turn))
        own = standing.of(part.ref)
        self._shadow = _cast(own, part.at) if own else None
        self.box = Box(part.at.x, part.at.y, part.at.x, part.at.y)
        if self._shadow is not None:
            self.box = self._shadow.box.moved(Vector(part.at.x, part.at.y))

    @cached_property
    def area(self) -> BaseGeometry:
        """What the part covers, with its fixed markings."""
        return shapely.Point(self.part.at) if self._shadow is None else self._here(self._shadow.area)

    @cached_property
    def grown(self) -> BaseGeometry:
        """The same with every clearance."""
        return self.area if self._shadow is None else self._here(self._shadow.grown)

    def _here(self, area: BaseGeometry) -> BaseGeometry:
        return shapely.transform(area, lambda corners: corners + np.array(self.part.at))

    def edge(
        self, place: Place, low: float, high: float, gap: float, beyond: float = 0.0, from_scale: float = 0.0
    ) -> float:
        """How far out words must start that span low..high along one side, keeping `gap` and every clearance.

        Follows the part's true outline, so that short words nestle against a round knob. `beyond` is ink that
        reaches nearer than the line the words stand on: tails below the base line, accents above the capitals.
        `from_scale` is what the words keep from the part's own numerals and marks where that is more than the gap.
        """
        at, across = self.part.at, place in (Place.LEFT, Place.RIGHT)
        sign = 1.0 if place in (Place.ABOVE, Place.RIGHT) else -1.0
        along, out = (at.y, at.x) if across else (at.x, at.y)
        if self._shadow is None:
            reach = max(gap, beyond) if low <= along <= high else -inf
        else:
            reach = self._shadow.reach(place, low - along, high - along, gap, beyond, from_scale)
        if reach == -inf:
            return sign * (self.centre.x if across else self.centre.y)
        return sign * out + reach
