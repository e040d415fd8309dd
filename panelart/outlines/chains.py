"""Loose lines and arcs joined end to end into closed contours, in mm; ends that do not meet are told with their gap."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.diagnostics import Problem, Where
from panelart.geometry import Arc, Contour, Line, Point, Segment, joined
from panelart.geometry.biarcs import arc_between
from panelart.messages import outlines as said
from panelart.outlines.limits import JOIN, MAX_TOLD

_MAX_SWEEP: Final = 180.0
"""Degrees up to which an arc whose ends are moved a little stays near what it was."""


class Drawn(Struct, frozen=True, kw_only=True):
    """A line or an arc of the drawing, and where in the file it is."""

    segment: Segment
    where: Where


def closed_contours(drawn: Sequence[Drawn]) -> tuple[tuple[tuple[Contour, Where], ...], tuple[Problem, ...]]:
    """The contours, each with the place of its first piece; none of them when the pieces do not all close."""
    rounds = [piece for piece in drawn if isinstance(piece.segment, Arc) and piece.segment.full]
    graph = _Graph([half for piece in drawn if piece not in rounds for half in _halves(piece)])
    problems = (*graph.repeated(), *graph.open_ends(), *graph.forks())
    if problems:
        return (), problems
    contours = [(Contour((piece.segment,)), piece.where) for piece in rounds]
    for loop, where in graph.loops():
        try:
            contours.append((_tidied(joined(loop)), where))
        except ValueError:
            message = said.contour_without_area(at=loop[0].start)
            problems = (*problems, Problem(where=where, says=message, accepts=said.accepted_outline()))
    return (() if problems else tuple(contours)), problems


def _halves(piece: Drawn) -> Iterator[Drawn]:
    segment = piece.segment
    if isinstance(segment, Arc) and abs(segment.sweep_deg) > _MAX_SWEEP:
        yield replace(piece, segment=segment.part(0.0, 0.5))
        yield replace(piece, segment=segment.part(0.5, 1.0))
    else:
        yield piece


class _Graph:
    """The points where ends meet, and which pieces end there."""

    def __init__(self, pieces: Sequence[Drawn]) -> None:
        self.nodes: list[Point] = []
        self._cells: dict[tuple[int, int], list[int]] = {}
        # Ends of arcs first: lines are drawn to them, so that an arc stays as it was.
        arcs_first = sorted(range(len(pieces)), key=lambda number: isinstance(pieces[number].segment, Line))
        ends: dict[int, tuple[int, int]] = {}
        for number in arcs_first:
            segment = pieces[number].segment
            ends[number] = (self._node(segment.start), self._node(segment.end))
        kept = [number for number in range(len(pieces)) if ends[number][0] != ends[number][1]]
        self.pieces = [pieces[number] for number in kept]
        self.ends = [ends[number] for number in kept]
        self.at: list[list[int]] = [[] for _ in self.nodes]
        for number, (first, last) in enumerate(self.ends):
            self.at[first].append(number)
            self.at[last].append(number)

    def _node(self, point: Point) -> int:
        column, row = math.floor(point.x / JOIN), math.floor(point.y / JOIN)
        for across in (-1, 0, 1):
            for up in (-1, 0, 1):
                for known in self._cells.get((column + across, row + up), ()):
                    if self.nodes[known].distance(point) <= JOIN:
                        return known
        self.nodes.append(point)
        self._cells.setdefault((column, row), []).append(len(self.nodes) - 1)
        return len(self.nodes) - 1

    def repeated(self) -> Iterator[Problem]:
        """Pieces that lie on another."""
        seen: dict[tuple[int, int], list[Point]] = {}
        told = 0
        for piece, (first, last) in zip(self.pieces, self.ends, strict=True):
            middle = piece.segment.point_at(0.5)
            others = seen.setdefault((min(first, last), max(first, last)), [])
            if any(middle.distance(other) <= JOIN for other in others) and told < MAX_TOLD:
                told += 1
                yield Problem(
                    where=piece.where,
                    says=said.line_drawn_twice(start=self.nodes[first], end=self.nodes[last]),
                    accepts=said.delete_the_duplicate(),
                )
            others.append(middle)

    def open_ends(self) -> Iterator[Problem]:
        """Ends that nothing meets, two by two where their gaps are each other's."""
        loose = [node for node, pieces in enumerate(self.at) if len(pieces) == 1]
        told: set[int] = set()
        for node in loose:
            if node in told or len(told) >= 2 * MAX_TOLD:
                continue
            here = self.nodes[node]
            near = self._nearest(node, loose, told)
            told.add(node)
            says = said.contour_open_alone(at=here)
            if near is not None:
                told.add(near)
                far = self.nodes[near]
                says = said.contour_open(at=here, gap=here.distance(far), near=far)
            yield Problem(
                where=self.pieces[self.at[node][0]].where,
                says=says,
                accepts=said.close_the_contour(joined=JOIN),
            )

    def _nearest(self, node: int, loose: Sequence[int], told: set[int]) -> int | None:
        """The loose end next to one, of those not told yet where there are such."""
        here = self.nodes[node]
        others = [other for other in loose if other != node]
        left = [other for other in others if other not in told]
        return min(left or others, key=lambda other: (here.distance(self.nodes[other]), other), default=None)

    def forks(self) -> Iterator[Problem]:
        """Points where more than two ends meet."""
        told = 0
        for node, pieces in enumerate(self.at):
            if len(pieces) > 2 and told < MAX_TOLD:
                told += 1
                yield Problem(
                    where=self.pieces[pieces[-1]].where,
                    says=said.lines_meet(count=len(pieces), at=self.nodes[node]),
                    accepts=said.separate_the_contours(),
                )

    def loops(self) -> Iterator[tuple[list[Segment], Where]]:
        """Each loop from its first piece on, its segments joined at the nodes."""
        left = set(range(len(self.pieces)))
        for first in range(len(self.pieces)):
            if first not in left:
                continue
            loop: list[Segment] = []
            number, node = first, self.ends[first][0]
            while number in left:
                left.remove(number)
                start, end = self.ends[number]
                segment = self.pieces[number].segment
                if start != node:
                    start, end, segment = end, start, segment.reversed()
                loop.append(_between(segment, self.nodes[start], self.nodes[end]))
                node = end
                number = next((other for other in self.at[node] if other in left), number)
            yield loop, self.pieces[first].where


def _between(segment: Segment, start: Point, end: Point) -> Segment:
    """The segment with its ends moved to the points that they stand for."""
    if isinstance(segment, Line):
        return Line(start, end)
    if segment.start.distance(start) < 1e-10 and segment.end.distance(end) < 1e-10:
        return segment
    return arc_between(start, end, segment.bulge)


def _tidied(contour: Contour) -> Contour:
    """A circle drawn in several arcs as one; the figures of a file leave their centres a little apart."""
    arcs = [segment for segment in contour.segments if isinstance(segment, Arc)]
    if len(arcs) < len(contour.segments) or abs(abs(math.fsum(arc.sweep_deg for arc in arcs)) - 360.0) > 0.05:
        return contour
    circle = _mean_circle(arcs)
    same = all(
        abs(arc.radius - circle.radius) <= JOIN / 2 and arc.centre.distance(circle.centre) <= JOIN / 2 for arc in arcs
    )
    return Contour((circle,)) if same else contour


def _mean_circle(arcs: Sequence[Arc]) -> Arc:
    """The full circle whose centre and radius are the means of arcs, weighed by their length."""
    total = math.fsum(arc.length for arc in arcs)
    centre = Point(
        math.fsum(arc.centre.x * arc.length for arc in arcs) / total,
        math.fsum(arc.centre.y * arc.length for arc in arcs) / total,
    )
    radius = math.fsum(arc.radius * arc.length for arc in arcs) / total
    return Arc(centre, radius, 0.0, 360.0)
