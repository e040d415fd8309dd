"""What a legend must keep clear of: every fixed thing on the face, grown by the clearance it is owed."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from panelart.canonical import Struct
from panelart.cutouts.uncertainty import ink_to_hole, ink_to_part
from panelart.geometry import TOLERANCE, Arc, Box
from panelart.geometry.polygons import polygon, polygons
from panelart.lettering.outline import Cubic, Loop
from panelart.messages import Said
from panelart.messages import legends as said
from panelart.model.layout import CutOpening, Mark, PlacedEnvelope, PlacedLegend
from panelart.model.panel import Panel, Side

MARK_CLEARANCE = 0.6
"""Least white between a legend and a line of marking, mm. Common practice: about two widths of the line."""

Boxes = NDArray[np.float64]
"""Upright boxes, one a row: left, bottom, right, top in mm."""

_TOUCH = 1e-6  # what merely touches its clearance is clear


class Obstacle(Struct, frozen=True):
    """One thing in the way: its name for people, the ref it belongs to, its bare area and its clearance in mm."""

    name: Said
    ref: str
    area: BaseGeometry
    clearance: float
    hides: bool


class Field:
    """All obstacles, indexed, and the area that may be marked at all."""

    def __init__(self, obstacles: Sequence[Obstacle], printable: BaseGeometry) -> None:
        self.obstacles = tuple(obstacles)
        self.printable = printable
        areas = np.array([obstacle.area for obstacle in obstacles], dtype=object)
        clearances = np.array([obstacle.clearance for obstacle in obstacles], dtype=np.float64)
        grown = shapely.buffer(areas, clearances - _TOUCH, quad_segs=16)
        self._by_ref: dict[str, list[Obstacle]] = {}
        for obstacle in self.obstacles:
            self._by_ref.setdefault(obstacle.ref, []).append(obstacle)
        self._tree = shapely.STRtree(grown)
        shapely.prepare(self.printable)

    def blockers(self, boxes: Boxes) -> list[list[Obstacle]]:
        """For each box, the obstacles whose clearance it breaks; the printable edge counts as one."""
        return self.blockers_of(shapely.box(*boxes.T))

    def blockers_of(self, shapes: NDArray[np.object_]) -> list[list[Obstacle]]:
        """The same for shapes of any form."""
        found = self.met_by(shapes)
        for index in np.flatnonzero(~shapely.covers(self.printable, shapes)):
            found[index].insert(0, _EDGE)
        return found

    def met_by(self, shapes: NDArray[np.object_]) -> list[list[Obstacle]]:
        """For each shape the obstacles whose clearance it breaks, without the edge."""
        found: list[list[Obstacle]] = [[] for _ in shapes]
        hits = self._tree.query(shapes, predicate="intersects")
        for index, other in sorted(zip(*hits.tolist(), strict=True)):
            found[index].append(self.obstacles[other])
        return found

    def covers(self, boxes: Boxes) -> NDArray[np.bool_]:
        """Of each box, whether it lies in the clearance of one obstacle as a whole."""
        found = np.zeros(len(boxes), dtype=bool)
        if len(boxes):
            found[self._tree.query(shapely.box(*boxes.T), predicate="covered_by")[0]] = True
        return found

    def of(self, ref: str) -> list[Obstacle]:
        """The obstacles that belong to one part."""
        return self._by_ref.get(ref, [])


_EDGE = Obstacle(said.edge(), "", shapely.box(0, 0, 0, 0), 0.0, False)


def hardware(panel: Panel, envelopes: Iterable[PlacedEnvelope], openings: Iterable[CutOpening]) -> list[Obstacle]:
    """Front envelopes, openings and keep-outs, each with the clearance that its kind is owed."""
    process, register = panel.marking.process, panel.marking.register
    of_part: dict[str, list[CutOpening]] = {}
    openings = tuple(openings)
    for opening in openings:
        of_part.setdefault(opening.ref, []).append(opening)
    off = {ref: ink_to_part(panel, own).total for ref, own in of_part.items()}
    clearance = panel.marking.placing.clearance
    things = [
        (
            said.feature_of(feature=envelope.what, owner=envelope.ref),
            envelope.ref,
            envelope.contour,
            off.get(envelope.ref, register) + clearance,
            True,
        )
        for envelope in envelopes
        if envelope.side is Side.FRONT and not envelope.over
    ]
    margin = process.opening_margin.value
    things += [
        (
            said.opening(name=opening.name),
            opening.ref,
            opening.finished,
            ink_to_hole(panel, opening).total + margin,
            True,
        )
        for opening in openings
    ]
    things += [
        (said.keep_out(reason=keepout.why), "", keepout.contour, register, False)
        for keepout in panel.keepouts
        if keepout.side is Side.FRONT
    ]
    areas = polygons((contour for _, _, contour, _, _ in things), side="outside")
    return [
        Obstacle(name, ref, area, white, hides)
        for (name, ref, _, white, hides), area in zip(things, areas, strict=True)
    ]


def markings(legends: Iterable[PlacedLegend], marks: Iterable[Mark], white: float) -> list[Obstacle]:
    """Legends and marks that stand already; `white` is that of the panel's Placing."""
    legends, marks = tuple(legends), tuple(marks)
    boxes = shapely.box(*np.array([sides(legend.box) for legend in legends], dtype=np.float64).reshape(-1, 4).T)
    found = [
        Obstacle(said.legend_of(text=legend.text, owner=legend.ref), legend.ref, box, white * legend.cap_height, False)
        for legend, box in zip(legends, boxes, strict=True)
    ]
    grounds = _grounds(marks)
    return found + [
        Obstacle(said.feature_of(feature=mark.kind, owner=mark.ref), mark.ref, area, MARK_CLEARANCE, False)
        for mark, area in zip(marks, grounds, strict=True)
    ]


def _grounds(marks: Sequence[Mark]) -> list[BaseGeometry]:
    """What the ink of each covers; those of a single line, which most are, made at once."""
    single = [number for number, mark in enumerate(marks) if not mark.filled and len(mark.shape) == 1]
    corners = [_vertices(marks[number].shape[0]) for number in single]
    owners = np.repeat(np.arange(len(single)), [len(line) for line in corners])
    lines = shapely.linestrings(
        np.array([corner for line in corners for corner in line]).reshape(-1, 2), indices=owners
    )
    widths = np.array([max(marks[number].width / 2, 1e-6) for number in single])
    made = dict(zip(single, shapely.buffer(lines, widths, quad_segs=4), strict=True))
    return [made.get(number) or ground(mark) for number, mark in enumerate(marks)]


def sides(box: Box) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of a box."""
    return box.left, box.bottom, box.right, box.top


def contain(box: Box, boxes: Boxes) -> NDArray[np.bool_]:
    """Of each box, whether it lies in another one, as `Box.contains` has it."""
    low = (box.left - TOLERANCE <= boxes[:, 0]) & (box.bottom - TOLERANCE <= boxes[:, 1])
    return low & (boxes[:, 2] <= box.right + TOLERANCE) & (boxes[:, 3] <= box.top + TOLERANCE)


def overlap(box: Box, boxes: Boxes) -> NDArray[np.bool_]:
    """Of each box, whether it shares more than a side with another one, as `Box.overlaps` has it."""
    across = np.minimum(box.right, boxes[:, 2]) - np.maximum(box.left, boxes[:, 0])
    up = np.minimum(box.top, boxes[:, 3]) - np.maximum(box.bottom, boxes[:, 1])
    return (across > TOLERANCE) & (up > TOLERANCE)


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
