"""What a legend must keep clear of: every fixed thing on the face, grown by the clearance it is owed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from panelart.geometry import Box
from panelart.geometry.polygons import polygon
from panelart.model.layout import CutOpening, Mark, PlacedEnvelope, PlacedLegend
from panelart.model.panel import Panel, Side

EYE_CLEARANCE = 0.5
"""Bare face between a legend and whatever hides the face, mm, on top of the register error. Common practice."""

LEGEND_GAP = 0.35
"""Least white between two markings over the height of the smaller capitals. Common practice; the gap between
characters in DIN EN ISO 3098-0:1998-04 type B is 0.2, between words 0.6."""

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
        self._tree = shapely.STRtree(self.grown) if len(self.grown) else None
        self._bare = shapely.STRtree([obstacle.area for obstacle in obstacles]) if obstacles else None
        shapely.prepare(self.printable)

    def blockers(self, boxes: Sequence[Box]) -> list[list[Obstacle]]:
        """For each box, the obstacles whose clearance it breaks; the printable edge counts as one."""
        found: list[list[Obstacle]] = [[] for _ in boxes]
        if not boxes:
            return found
        shapes = shapely.box(*np.array([(box.left, box.bottom, box.right, box.top) for box in boxes]).T)
        for index in np.flatnonzero(~shapely.covers(self.printable, shapes)):
            found[index].append(_EDGE)
        if self._tree is not None:
            hits = self._tree.query(shapes, predicate="intersects")
            for index, other in sorted(zip(*hits.tolist(), strict=True)):
                found[index].append(self.obstacles[other])
        return found

    def of(self, ref: str) -> list[Obstacle]:
        """The obstacles that belong to one part."""
        return [obstacle for obstacle in self.obstacles if obstacle.ref == ref]

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


def hardware(panel: Panel, envelopes: Iterable[PlacedEnvelope], openings: Iterable[CutOpening]) -> list[Obstacle]:
    """Front envelopes, openings and keep-outs, each with the clearance that its kind is owed."""
    process, register = panel.marking.process, panel.marking.register
    found = [
        Obstacle(
            f"{envelope.what} of {envelope.ref}",
            envelope.ref,
            polygon(envelope.contour, side="outside"),
            register + EYE_CLEARANCE,
            True,
        )
        for envelope in envelopes
        if envelope.side is Side.FRONT
    ]
    found += [
        Obstacle(
            f"opening {opening.name}",
            opening.ref,
            polygon(opening.finished, side="outside"),
            register + process.opening_margin,
            True,
        )
        for opening in openings
    ]
    found += [
        Obstacle(f"keep-out ({keepout.why})", "", polygon(keepout.contour, side="outside"), register, False)
        for keepout in panel.keepouts
        if keepout.side is Side.FRONT
    ]
    return found


def markings(legends: Iterable[PlacedLegend], marks: Iterable[Mark]) -> list[Obstacle]:
    """Legends and marks that stand already."""
    found = [
        Obstacle(
            f"'{legend.text}' of {legend.ref}",
            legend.ref,
            shapely.box(legend.box.left, legend.box.bottom, legend.box.right, legend.box.top),
            LEGEND_GAP * legend.cap_height,
            False,
        )
        for legend in legends
    ]
    for mark in marks:
        lines = [
            shapely.LineString([tuple(loop.curves[0].start), *(tuple(curve.end) for curve in loop.curves)])
            for loop in mark.shape
        ]
        area = shapely.union_all(lines).buffer(mark.width / 2, quad_segs=4)
        found.append(Obstacle(f"{mark.kind} of {mark.ref}", mark.ref, area, 0.6, False))
    return found


def printable(panel: Panel) -> BaseGeometry:
    """The face less the margin that the marking process leaves bare at the edge."""
    return polygon(panel.outline, side="inside").buffer(-panel.marking.process.edge_margin, join_style="mitre")
