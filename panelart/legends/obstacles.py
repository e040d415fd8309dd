"""What a legend must keep clear of: every fixed thing on the face, grown by the clearance it is owed."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from panelart.geometry import Arc, Box, Contour
from panelart.geometry.polygons import polygon
from panelart.lettering.outline import Cubic, Loop
from panelart.model.layout import CutOpening, Mark, PlacedEnvelope, PlacedLegend
from panelart.model.panel import Panel, Side

MARK_CLEARANCE = 0.6
"""Least white between a legend and a line of marking, mm. Common practice: about two widths of the line."""

_TOUCH = 1e-6  # what merely touches its clearance is clear


@dataclass(frozen=True, slots=True)
class Obstacle:
    """One thing in the way: its name for people, the ref it belongs to, its bare area and its clearance in mm."""

    name: str
    ref: str
    area: BaseGeometry
    clearance: float
    hides: bool


class Field:
    """All obstacles, indexed, and the area that may be marked at all."""

    def __init__(self, obstacles: Sequence[Obstacle], printable: BaseGeometry) -> None:
        self.obstacles = tuple(obstacles)
        self.printable = printable
        self.grown = np.array(
            [obstacle.area.buffer(obstacle.clearance - _TOUCH, quad_segs=16) for obstacle in obstacles], dtype=object
        )
        self._by_ref: dict[str, list[Obstacle]] = {}
        for obstacle in self.obstacles:
            self._by_ref.setdefault(obstacle.ref, []).append(obstacle)
        self._tree = shapely.STRtree(self.grown) if len(self.grown) else None
        self._bare = shapely.STRtree([obstacle.area for obstacle in obstacles]) if obstacles else None
        shapely.prepare(self.printable)

    def blockers(self, boxes: Sequence[Box]) -> list[list[Obstacle]]:
        """For each box, the obstacles whose clearance it breaks; the printable edge counts as one."""
        if not boxes:
            return []
        return self.blockers_of(shapely.box(*np.array([(box.left, box.bottom, box.right, box.top) for box in boxes]).T))

    def blockers_of(self, shapes: NDArray[np.object_]) -> list[list[Obstacle]]:
        """The same for shapes of any form."""
        found: list[list[Obstacle]] = [[] for _ in shapes]
        for index in np.flatnonzero(~shapely.covers(self.printable, shapes)):
            found[index].append(_EDGE)
        if self._tree is not None:
            hits = self._tree.query(shapes, predicate="intersects")
            for index, other in sorted(zip(*hits.tolist(), strict=True)):
                found[index].append(self.obstacles[other])
        return found

    def of(self, ref: str) -> list[Obstacle]:
        """The obstacles that belong to one part."""
        return self._by_ref.get(ref, [])

    def nearest_foreign(self, boxes: Sequence[Box], ref: str, within: Sequence[float]) -> list[bool]:
        """For each box, whether hardware of another part lies nearer to it than the distance given."""
        if self._bare is None or not boxes:
            return [False] * len(boxes)
        shapes = shapely.box(*np.array([(box.left, box.bottom, box.right, box.top) for box in boxes]).T)
        near = self._bare.query(shapes, predicate="dwithin", distance=np.array(within))
        crowded = [False] * len(boxes)
        for index, other in zip(*near.tolist(), strict=True):
            obstacle = self.obstacles[other]
            if obstacle.hides and obstacle.ref not in ("", ref):
                crowded[index] = True
        return crowded


_EDGE = Obstacle("edge of the area that can be marked", "", shapely.box(0, 0, 0, 0), 0.0, False)


@lru_cache(maxsize=20000)
def _ground(contour: Contour) -> BaseGeometry:
    """What a contour covers. Kept, as a panel is laid out again and again while it is edited."""
    return polygon(contour, side="outside")


def hardware(panel: Panel, envelopes: Iterable[PlacedEnvelope], openings: Iterable[CutOpening]) -> list[Obstacle]:
    """Front envelopes, openings and keep-outs, each with the clearance that its kind is owed."""
    process, register = panel.marking.process, panel.marking.register
    clearance = panel.marking.placing.clearance
    found = [
        Obstacle(
            f"{envelope.what} of {envelope.ref}",
            envelope.ref,
            _ground(envelope.contour),
            register + clearance,
            True,
        )
        for envelope in envelopes
        if envelope.side is Side.FRONT
    ]
    found += [
        Obstacle(
            f"opening {opening.name}",
            opening.ref,
            _ground(opening.finished),
            register + process.opening_margin.value,
            True,
        )
        for opening in openings
    ]
    found += [
        Obstacle(f"keep-out ({keepout.why})", "", _ground(keepout.contour), register, False)
        for keepout in panel.keepouts
        if keepout.side is Side.FRONT
    ]
    return found


def markings(legends: Iterable[PlacedLegend], marks: Iterable[Mark], white: float) -> list[Obstacle]:
    """Legends and marks that stand already; `white` is that of the panel's Placing."""
    found = [
        Obstacle(
            f"'{legend.text}' of {legend.ref}",
            legend.ref,
            shapely.box(legend.box.left, legend.box.bottom, legend.box.right, legend.box.top),
            white * legend.cap_height,
            False,
        )
        for legend in legends
    ]
    lines = [Obstacle(f"{mark.kind} of {mark.ref}", mark.ref, ground(mark), MARK_CLEARANCE, False) for mark in marks]
    return found + lines


def ground(mark: Mark) -> BaseGeometry:
    """What the ink of a line covers, arcs taken by chords of at most 6 degrees."""
    if mark.filled:
        return shapely.union_all([shapely.Polygon(_vertices(loop)) for loop in mark.shape])
    lines = [shapely.LineString(_vertices(loop)) for loop in mark.shape]
    return shapely.union_all(lines).buffer(max(mark.width / 2, 1e-6), quad_segs=4)


def _vertices(loop: Loop) -> list[tuple[float, float]]:
    points = [tuple(loop.curves[0].start)]
    for curve in loop.curves:
        match curve:
            case Arc():
                count = max(1, math.ceil(abs(curve.sweep_deg) / 6.0))
                points += [
                    tuple(curve.towards(curve.start_deg + curve.sweep_deg * step / count)) for step in range(1, count)
                ]
            case Cubic():
                points += [tuple(curve.point_at(step / 12)) for step in range(1, 12)]
        points.append(tuple(curve.end))
    return [(float(x), float(y)) for x, y in points]


def printable(panel: Panel) -> BaseGeometry:
    """The face less the margin that the marking process leaves bare at the edge."""
    return polygon(panel.outline, side="inside").buffer(-panel.marking.process.edge_margin.value, join_style="mitre")
