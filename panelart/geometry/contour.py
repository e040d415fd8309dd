"""Contours and paths: chains of straight lines and circular arcs, the exact shapes that all is drawn from."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Final, TypeAlias

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry.points import ORIGIN, TOLERANCE, Box, Point, Vector, direction
from panelart.geometry.transforms import Transform
from panelart.messages import geometry as said
from panelart.reprs import brief, counted, size

_FULL: Final = 360.0


class Line(Struct, frozen=True):
    """A straight line from one point to another."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """Length in millimetres."""
        return self.start.distance(self.end)

    @property
    def bulge(self) -> float:
        """0: a line is an arc without sagitta."""
        return 0.0

    @property
    def bounds(self) -> Box:
        """The exact upright box."""
        return Box.around((self.start, self.end))

    def point_at(self, t: float) -> Point:
        """The point at a share t of the length, 0 at the start and 1 at the end."""
        if t == 1.0:
            return self.end
        return Point(
            self.start.x + t * (self.end.x - self.start.x),
            self.start.y + t * (self.end.y - self.start.y),
        )

    def tangent_at(self, t: float) -> Vector:
        """The direction of travel, of length 1; on a line it is the same at every t."""
        del t
        return self.end.minus(self.start).unit

    def share_of(self, point: Point) -> float:
        """How far along, from 0 to 1, the point of the line lies that is nearest to a point."""
        along = self.end.minus(self.start)
        square = along.dot(along)
        return min(max(point.minus(self.start).dot(along) / square, 0.0), 1.0) if square > 0.0 else 0.0

    def part(self, first: float, last: float) -> Line:
        """The piece between two shares of the length."""
        return Line(self.point_at(first), self.point_at(last))

    def reversed(self) -> Line:
        """The same line, run the other way round."""
        return Line(self.end, self.start)

    def moved(self, by: Vector) -> Line:
        """Moved without turning."""
        return Line(self.start.moved(by), self.end.moved(by))

    def transformed(self, by: Transform) -> Line:
        """Turned, mirrored and moved."""
        return Line(by.apply(self.start), by.apply(self.end))


class Arc(Struct, frozen=True):
    """A part of a circle from the direction `start_deg`, counter-clockwise if `sweep_deg` is positive.

    A full circle is one arc with a sweep of 360. Raises ValueError for a radius that is not positive, a
    sweep of 0 or of more than a full turn, and figures that are not finite.
    """

    centre: Point
    radius: float
    start_deg: float
    sweep_deg: float

    def __post_init__(self) -> None:
        if not all(map(math.isfinite, (*self.centre, self.radius, self.start_deg, self.sweep_deg))):
            raise ValueError(said.arc_not_finite())
        if self.radius <= 0.0:
            raise ValueError(said.arc_without_radius(radius=self.radius))
        if not 0.0 < abs(self.sweep_deg) <= _FULL:
            raise ValueError(said.arc_sweep(sweep=self.sweep_deg))

    @property
    def full(self) -> bool:
        """Whether this is a whole circle."""
        return abs(self.sweep_deg) == _FULL

    @property
    def end_deg(self) -> float:
        """Direction of the end from the centre."""
        return self.start_deg + self.sweep_deg

    @property
    def start(self) -> Point:
        """Where it starts."""
        return self.towards(self.start_deg)

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.start if self.full else self.towards(self.end_deg)

    @property
    def length(self) -> float:
        """Length in millimetres."""
        return self.radius * math.radians(abs(self.sweep_deg))

    @property
    def bulge(self) -> float:
        """Tangent of a quarter of the sweep: what DXF polylines carry. A full circle has none: ValueError."""
        if self.full:
            raise ValueError("a full circle has no bulge; write it as a circle or as two arcs")
        return math.tan(math.radians(self.sweep_deg / 4))

    @property
    def bounds(self) -> Box:
        """The exact upright box."""
        first, last = sorted((self.start_deg, self.end_deg))
        quarters = range(math.ceil(first / 90), math.floor(last / 90) + 1)
        return Box.around((self.start, self.end, *(self.towards(90.0 * quarter) for quarter in quarters)))

    def towards(self, deg: float) -> Point:
        """The point of the whole circle in a direction from the centre."""
        x, y = direction(deg)
        return Point(self.centre.x + x * self.radius, self.centre.y + y * self.radius)

    def share_of(self, point: Point) -> float:
        """How far along, from 0 to 1, the point of the arc lies that is nearest to a point."""
        deg = point.minus(self.centre).deg
        turned = ((deg - self.start_deg) if self.sweep_deg > 0 else (self.start_deg - deg)) % _FULL
        sweep = abs(self.sweep_deg)
        if turned <= sweep:
            return turned / sweep
        return 1.0 if turned - sweep < _FULL - turned else 0.0

    def part(self, first: float, last: float) -> Arc:
        """The piece between two shares of the length."""
        return replace(
            self,
            start_deg=_tidy(self.start_deg + first * self.sweep_deg),
            sweep_deg=(last - first) * self.sweep_deg,
        )

    def point_at(self, t: float) -> Point:
        """The point at a share t of the length, 0 at the start and 1 at the end."""
        return self.end if t == 1.0 else self.towards(self.start_deg + t * self.sweep_deg)

    def tangent_at(self, t: float) -> Vector:
        """The direction of travel, of length 1."""
        outward = direction(self.start_deg + t * self.sweep_deg)
        return outward.perpendicular if self.sweep_deg > 0 else outward.perpendicular.scaled(-1.0)

    def reversed(self) -> Arc:
        """The same line, run the other way round."""
        return replace(self, start_deg=_tidy(self.end_deg), sweep_deg=-self.sweep_deg)

    def moved(self, by: Vector) -> Arc:
        """Moved without turning."""
        return replace(self, centre=self.centre.moved(by))

    def transformed(self, by: Transform) -> Arc:
        """Turned, mirrored and moved."""
        if by.mirrors:
            start, sweep = by.turn_deg - self.start_deg, -self.sweep_deg
        else:
            start, sweep = by.turn_deg + self.start_deg, self.sweep_deg
        return Arc(by.apply(self.centre), self.radius, _tidy(start), sweep)


Segment: TypeAlias = Line | Arc


class Path(Struct, frozen=True):
    """An open chain of lines and arcs: a stroke, a leader, a mark.

    Raises ValueError when it is empty, a segment has no length, or a segment does not start where the one
    before ends.
    """

    segments: tuple[Segment, ...]

    def __post_init__(self) -> None:
        _require_chain(self.segments, closed=False)

    @property
    def start(self) -> Point:
        """Where it starts."""
        return self.segments[0].start

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.segments[-1].end

    @property
    def length(self) -> float:
        """Length in millimetres."""
        return math.fsum(segment.length for segment in self.segments)

    @property
    def bounds(self) -> Box:
        """The exact upright box."""
        return Box.around(segment.bounds for segment in self.segments)

    def point_at(self, along: float) -> Point:
        """The point `along` millimetres from the start, held between the two ends."""
        return _point_along(self.segments, min(max(along, 0.0), self.length))

    def moved(self, by: Vector) -> Path:
        """Moved without turning."""
        return Path(tuple(segment.moved(by) for segment in self.segments))

    def transformed(self, by: Transform) -> Path:
        """Turned, mirrored and moved."""
        return Path(tuple(segment.transformed(by) for segment in self.segments))

    def reversed(self) -> Path:
        """The same line, run the other way round."""
        return Path(_backwards(self.segments))

    def __repr__(self) -> str:
        return brief("Path", counted(len(self.segments), "segment"))


class Contour(Struct, frozen=True):
    """A closed chain of lines and arcs.

    Counter-clockwise contours have a positive area, clockwise ones a negative area; a mirrored contour runs
    the other way round (`ccw` sets it right). Raises ValueError when it is empty, a segment has no length,
    or a segment does not start, to within TOLERANCE, where the one before ends.
    """

    segments: tuple[Segment, ...]

    def __post_init__(self) -> None:
        _require_chain(self.segments, closed=True)

    @property
    def area(self) -> float:
        """Enclosed area in square millimetres, positive when the contour runs counter-clockwise."""
        origin = self.segments[0].start
        return math.fsum(_area_swept(segment, origin) for segment in self.segments)

    @property
    def perimeter(self) -> float:
        """Length of the line in millimetres."""
        return math.fsum(segment.length for segment in self.segments)

    @property
    def bounds(self) -> Box:
        """The exact upright box, arcs included."""
        return Box.around(segment.bounds for segment in self.segments)

    @property
    def circle(self) -> tuple[Point, float] | None:
        """Centre and radius when the contour is a circle, whether of one arc or of several; else None."""
        first = self.segments[0]
        if not isinstance(first, Arc):
            return None
        for other in self.segments[1:]:
            if not (
                isinstance(other, Arc)
                and other.centre.distance(first.centre) <= TOLERANCE
                and abs(other.radius - first.radius) <= TOLERANCE
                and (other.sweep_deg > 0) == (first.sweep_deg > 0)
            ):
                return None
        return first.centre, first.radius

    def point_at(self, along: float) -> Point:
        """The point `along` millimetres from the first start; more than the perimeter goes round again."""
        return _point_along(self.segments, along % self.perimeter)

    def moved(self, by: Vector) -> Contour:
        """Moved without turning."""
        return Contour(tuple(segment.moved(by) for segment in self.segments))

    def turned(self, deg: float, about: Point = ORIGIN) -> Contour:
        """Turned counter-clockwise about a point."""
        return self.transformed(Transform.turn(deg, about))

    def mirrored(self, about_x: float = 0.0) -> Contour:
        """Left and right exchanged about the upright line at x = `about_x`; runs the other way round."""
        return self.transformed(Transform.mirror_x(about_x))

    def transformed(self, by: Transform) -> Contour:
        """Turned, mirrored and moved."""
        return Contour(tuple(segment.transformed(by) for segment in self.segments))

    def reversed(self) -> Contour:
        """The same line, run the other way round."""
        return Contour(_backwards(self.segments))

    def ccw(self) -> Contour:
        """The same line, run counter-clockwise."""
        return self if self.area > 0 else self.reversed()

    def contains(self, point: Point) -> bool:
        """Whether the point lies inside, or on the line to within TOLERANCE."""
        if not self.bounds.contains(point):
            return False
        if any(nearest_on(segment, point).distance(point) <= TOLERANCE for segment in self.segments):
            return True
        crossed = sum(piece.lies_right_of(point) for piece in _rising_pieces(self.segments))
        return crossed % 2 == 1

    def __repr__(self) -> str:
        return brief("Contour", size(self.bounds.width, self.bounds.height), counted(len(self.segments), "segment"))


def nearest_on(segment: Segment, point: Point) -> Point:
    """The point of a line or arc that is nearest to a point."""
    share = segment.share_of(point)
    if isinstance(segment, Arc) and 0.0 < share < 1.0:
        # Straight from the centre: by way of the angle, digits would be lost.
        out = point.minus(segment.centre)
        return segment.centre.moved(out.scaled(segment.radius / out.length)) if out.length else segment.start
    return segment.point_at(share)


def joined(segments: Iterable[Segment]) -> Contour:
    """A contour from segments that meet, with what belongs together made one.

    Neighbouring arcs of one circle become one arc, neighbouring lines of one direction one line, and
    segments without length are left out. Raises ValueError as Contour does.
    """
    chain: list[Segment] = []
    for segment in segments:
        if segment.length <= TOLERANCE:
            continue
        both = _as_one(chain[-1], segment) if chain else None
        if both is None:
            chain.append(segment)
        else:
            chain[-1] = both
    if len(chain) > 1:
        both = _as_one(chain[-1], chain[0])
        if both is not None:
            chain = [both, *chain[1:-1]]
    return Contour(tuple(chain))


def _as_one(first: Segment, second: Segment) -> Segment | None:
    if isinstance(first, Line) and isinstance(second, Line):
        across = nearest_on(Line(first.start, second.end), first.end).distance(first.end)
        onward = first.tangent_at(1.0).dot(second.tangent_at(0.0)) > 0.0
        return Line(first.start, second.end) if across <= TOLERANCE and onward else None
    if isinstance(first, Arc) and isinstance(second, Arc):
        sweep = first.sweep_deg + second.sweep_deg
        same = first.centre.distance(second.centre) <= TOLERANCE and abs(first.radius - second.radius) <= TOLERANCE
        if not same or (first.sweep_deg > 0) != (second.sweep_deg > 0):
            return None
        if abs(abs(sweep) - _FULL) * math.radians(first.radius) <= TOLERANCE:
            sweep = math.copysign(_FULL, sweep)
        return replace(first, sweep_deg=sweep) if abs(sweep) <= _FULL else None
    return None


def _require_chain(segments: tuple[Segment, ...], *, closed: bool) -> None:
    if not segments:
        raise ValueError(said.empty_contour() if closed else said.empty_path())
    if any(not segment.length > TOLERANCE for segment in segments):
        raise ValueError(said.contour_side_without_length() if closed else said.path_side_without_length())
    pairs = zip(segments, segments[1:] + segments[:1] if closed else segments[1:], strict=False)
    for first, second in pairs:
        if not first.end.distance(second.start) <= TOLERANCE:
            broken = said.contour_broken if closed else said.path_broken
            raise ValueError(broken(end=(first.end.x, first.end.y), start=(second.start.x, second.start.y)))


def _backwards(segments: Sequence[Segment]) -> tuple[Segment, ...]:
    return tuple(segment.reversed() for segment in reversed(segments))


def _point_along(segments: Sequence[Segment], along: float) -> Point:
    left = along
    for segment in segments[:-1]:
        if left <= segment.length:
            return segment.point_at(left / segment.length)
        left -= segment.length
    return segments[-1].point_at(min(left / segments[-1].length, 1.0))


def _area_swept(segment: Segment, origin: Point) -> float:
    """Signed area between the segment and the origin: half the integral of x dy - y dx."""
    (ax, ay), (bx, by), (x, y) = segment.start, segment.end, origin
    chord = ((ax - x) * (by - y) - (ay - y) * (bx - x)) / 2
    if isinstance(segment, Line):
        return chord
    sweep = math.radians(segment.sweep_deg)
    return chord + segment.radius**2 / 2 * (sweep - direction(segment.sweep_deg).y)


def _tidy(deg: float) -> float:
    """The same direction within [0, 360)."""
    within = deg % _FULL
    return 0.0 if within == _FULL else within


class _RisingPiece(Struct, frozen=True):
    """A part of a contour along which y only rises or only falls."""

    first: Point
    last: Point
    arc: Arc | None = None
    right_half: bool = False

    def lies_right_of(self, point: Point) -> bool:
        """Whether a ray to the right from the point meets this piece, lower end included, upper end not."""
        if (self.first.y <= point.y) == (self.last.y <= point.y):
            return False
        if self.arc is None:
            share = (point.y - self.first.y) / (self.last.y - self.first.y)
            return self.first.x + share * (self.last.x - self.first.x) > point.x
        up = point.y - self.arc.centre.y
        across = math.sqrt(max(self.arc.radius**2 - up**2, 0.0))
        return self.arc.centre.x + (across if self.right_half else -across) > point.x


def _rising_pieces(segments: Sequence[Segment]) -> Iterator[_RisingPiece]:
    # The end of a piece is the very point at which the next one starts: with ends that differ in the last
    # digit, a ray through a corner would be counted twice or not at all.
    for index, segment in enumerate(segments):
        start, end = segment.start, segments[(index + 1) % len(segments)].start
        if isinstance(segment, Line):
            yield _RisingPiece(start, end)
            continue
        low, high = sorted((segment.start_deg, segment.end_deg))
        turns = [
            90.0 + 180.0 * half
            for half in range(math.floor((low - 90.0) / 180.0) + 1, math.ceil((high - 90.0) / 180.0))
        ]
        if segment.sweep_deg < 0:
            turns.reverse()
        angles = [segment.start_deg, *turns, segment.end_deg]
        corners = [start, *(segment.towards(deg) for deg in turns), end]
        for piece, (first, last) in enumerate(pairwise(corners)):
            middle = direction((angles[piece] + angles[piece + 1]) / 2)
            yield _RisingPiece(first, last, segment, middle.x > 0.0)
