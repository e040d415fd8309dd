"""One part as its own legends see it: how far its hardware and fixed markings reach on every side."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from panelart.geometry import Box, Vector
from panelart.legends.obstacles import Field, Obstacle
from panelart.model.panel import Part, Place

BETWEEN = 2.5
"""How far beside words the part's own scale still counts, over the gap that words keep from their part."""


class Stand:
    """One part as its own legends see it: how far its hardware and fixed markings reach on every side."""

    def __init__(self, part: Part, field: Field) -> None:
        self.part = part
        origin = part.component.legend_origin
        self.centre = part.at.moved(Vector(origin.x, origin.y).turned(part.turn))
        own = field.of(part.ref)
        self.own: list[Obstacle] = own
        self.area: BaseGeometry = (
            shapely.union_all([obstacle.area for obstacle in own]) if own else shapely.Point(part.at.x, part.at.y)
        )
        self.grown = (
            shapely.union_all([obstacle.area.buffer(obstacle.clearance) for obstacle in own]) if own else self.area
        )
        left, bottom, right, top = self.area.bounds
        self.box = Box(left, bottom, right, top)
        printed = [obstacle for obstacle in own if not obstacle.hides]
        self.printed = shapely.union_all([obstacle.area for obstacle in printed]) if printed else None
        shapely.prepare(self.area)
        self._edges: dict[tuple[Place, float, float, float, float], float] = {}

    def edge(self, place: Place, low: float, high: float, gap: float, beyond: float = 0.0) -> float:
        """How far out words must start that span low..high along one side, keeping `gap` and every clearance.

        Follows the part's true outline, so that short words nestle against a round knob. `beyond` is ink that
        reaches nearer than the line the words stand on: tails below the base line, accents above the capitals.
        """
        key = (place, low, high, gap, beyond)
        if key not in self._edges:
            self._edges[key] = self._reach(*key)
        return self._edges[key]

    def _reach(self, place: Place, low: float, high: float, gap: float, beyond: float) -> float:
        box = self.box.grown(50.0)
        across = place in (Place.LEFT, Place.RIGHT)
        reaches: list[float] = []
        # Words do not slip in between the numerals of their own scale.
        wide = BETWEEN * gap
        for area, extra, more in ((self.grown, beyond, 0.0), (self.area, gap, 0.0), (self.printed, gap, wide)):
            if area is None:
                continue
            here = (
                shapely.clip_by_rect(area, box.left, low - more, box.right, high + more)
                if across
                else shapely.clip_by_rect(area, low - more, box.bottom, high + more, box.top)
            )
            if here.is_empty:
                continue
            bounds = here.bounds
            reaches.append(
                {
                    Place.ABOVE: bounds[3] + extra,
                    Place.BELOW: -(bounds[1] - extra),
                    Place.RIGHT: bounds[2] + extra,
                    Place.LEFT: -(bounds[0] - extra),
                }[place]
            )
        if not reaches:
            centre = self.centre
            return {Place.ABOVE: centre.y, Place.BELOW: -centre.y, Place.RIGHT: centre.x, Place.LEFT: -centre.x}[place]
        return max(reaches)

    def gap(self, boxes: Sequence[Box]) -> list[float]:
        """How far each box stands off the part, in mm."""
        if not boxes:
            return []
        shapes = shapely.box(*np.array([(box.left, box.bottom, box.right, box.top) for box in boxes]).T)
        return [float(gap) for gap in shapely.distance(self.area, shapes)]
