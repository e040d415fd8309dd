"""Strokes as a pen draws them: lines and circular arcs, from polygons whose corners are rounded.

A source path is a polygon. Every corner carries two tangent lengths: how far before and after the corner the
rounding begins and ends. Equal lengths give one circular arc; unequal ones give a run of arcs that meet smoothly
and follow an ellipse. Because only the polygon is scaled when the face is made
narrower or bolder, every width and weight is again made of true arcs and an engraver never meets an ellipse.

Unit: d, the stroke of the regular face, a tenth of the capital height; x right, y up from the base line.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import NamedTuple

from msgspec.structs import replace

from panelart.canonical import Struct

#: Directions closer than this (radians) count as one: no join is drawn between them.
SMOOTH = 1e-6
#: Spans of an oval corner, two arcs each: enough that the eye finds no joint at 30 mm.
SPANS = 3


class Spot(NamedTuple):
    """A place on the drawing of a glyph, or a step between two places."""

    x: float
    y: float


class Line(Struct, frozen=True, kw_only=True):
    """A straight piece of a stroke."""

    start: Spot
    end: Spot

    def reach(self) -> float:
        """Length of the piece."""
        return math.hypot(self.end.x - self.start.x, self.end.y - self.start.y)

    def at(self, share: float) -> Spot:
        """The place a share (0 to 1) along the piece."""
        return Spot(
            self.start.x + share * (self.end.x - self.start.x), self.start.y + share * (self.end.y - self.start.y)
        )

    def heading(self, share: float) -> float:  # noqa: ARG002  # the same all along, but asked as of an arc
        """Direction of travel in radians."""
        return math.atan2(self.end.y - self.start.y, self.end.x - self.start.x)


class Arc(Struct, frozen=True, kw_only=True):
    """A circular piece of a stroke; angles in degrees from the x axis, a positive sweep runs anticlockwise."""

    centre: Spot
    radius: float
    start_deg: float
    sweep_deg: float

    @property
    def start(self) -> Spot:
        """Where the arc begins."""
        return self.at(0.0)

    @property
    def end(self) -> Spot:
        """Where the arc ends."""
        return self.at(1.0)

    def reach(self) -> float:
        """Length of the piece."""
        return self.radius * math.radians(abs(self.sweep_deg))

    def at(self, share: float) -> Spot:
        """The place a share (0 to 1) along the piece."""
        angle = math.radians(self.start_deg + share * self.sweep_deg)
        return Spot(self.centre.x + self.radius * math.cos(angle), self.centre.y + self.radius * math.sin(angle))

    def heading(self, share: float) -> float:
        """Direction of travel in radians."""
        angle = math.radians(self.start_deg + share * self.sweep_deg)
        return angle + math.copysign(math.pi / 2, self.sweep_deg)


Piece = Line | Arc


class Stroke(Struct, frozen=True, kw_only=True):
    """One movement of the pen without lifting it; ``pen`` is its diameter."""

    pieces: tuple[Piece, ...]
    closed: bool
    pen: float = 1.0

    def spots(self, step: float) -> Iterator[Spot]:
        """Places along the stroke, no two neighbours further apart than ``step``; begins and ends included."""
        for piece in self.pieces:
            count = max(1, math.ceil(piece.reach() / step))
            for index in range(count):
                yield piece.at(index / count)
        yield self.pieces[-1].at(1.0)

    def moved(self, by: Spot, scale: float = 1.0) -> Stroke:
        """The stroke scaled about the origin, then moved."""
        pieces: list[Piece] = []
        for piece in self.pieces:
            match piece:
                case Line(start=start, end=end):
                    pieces.append(Line(start=_placed(start, by, scale), end=_placed(end, by, scale)))
                case Arc(centre=centre, radius=radius, start_deg=begin, sweep_deg=sweep):
                    pieces.append(
                        Arc(centre=_placed(centre, by, scale), radius=radius * scale, start_deg=begin, sweep_deg=sweep)
                    )
        return Stroke(pieces=tuple(pieces), closed=self.closed, pen=self.pen * scale)


class Corner(Struct, frozen=True, kw_only=True):
    """One corner of a source path; ``before`` and ``after`` are the tangent lengths, 0 for a sharp corner."""

    at: Spot
    before: float = 0.0
    after: float = 0.0


class Path(Struct, frozen=True, kw_only=True):
    """A source path: a polygon with rounded corners, open or closed.

    No style draws it with a pen wider than ``pen`` (d), and each with ``pen_share`` of its own.
    """

    corners: tuple[Corner, ...]
    closed: bool
    pen: float = math.inf
    pen_share: float = 1.0

    def mapped(self, place: Callable[[Spot], Spot]) -> Path:
        """The path under an affine map; tangent lengths follow their own sides of the polygon."""
        count = len(self.corners)
        corners = []
        for index, corner in enumerate(self.corners):
            at = place(corner.at)
            back = self.corners[(index - 1) % count].at
            ahead = self.corners[(index + 1) % count].at
            corners.append(
                Corner(
                    at=at,
                    before=corner.before * _stretch(corner.at, back, at, place(back)),
                    after=corner.after * _stretch(corner.at, ahead, at, place(ahead)),
                )
            )
        return replace(self, corners=tuple(corners))

    def drawn_with(self, pen: float, share: float) -> Path:
        """The path under a finer pen: at most ``pen`` wide, and ``share`` of what it had."""
        return replace(self, pen=min(self.pen, pen), pen_share=self.pen_share * share)

    def stroke(self) -> Stroke:
        """The path as lines and arcs."""
        count = len(self.corners)
        pieces: list[Piece] = []
        entries: list[tuple[Spot, Spot, list[Piece]]] = []
        for index, corner in enumerate(self.corners):
            inner = self.closed or 0 < index < count - 1
            if not inner or (corner.before == 0.0 and corner.after == 0.0):
                entries.append((corner.at, corner.at, []))
                continue
            back = self.corners[(index - 1) % count].at
            ahead = self.corners[(index + 1) % count].at
            entries.append(_rounded(back, corner, ahead))
        for index, (entry, leave, bend) in enumerate(entries):
            if index > 0:
                _join(pieces, entries[index - 1][1], entry)
            pieces.extend(bend)
            if self.closed and index == count - 1:
                _join(pieces, leave, entries[0][0])
        return Stroke(pieces=tuple(pieces), closed=self.closed)


def _placed(spot: Spot, by: Spot, scale: float) -> Spot:
    return Spot(spot.x * scale + by.x, spot.y * scale + by.y)


def _stretch(corner: Spot, other: Spot, corner_after: Spot, other_after: Spot) -> float:
    before = math.hypot(other.x - corner.x, other.y - corner.y)
    after = math.hypot(other_after.x - corner_after.x, other_after.y - corner_after.y)
    return after / before if before > 0 else 1.0


def _join(pieces: list[Piece], start: Spot, end: Spot) -> None:
    if math.hypot(end.x - start.x, end.y - start.y) > 1e-9:
        pieces.append(Line(start=start, end=end))


def _unit(start: Spot, end: Spot) -> Spot:
    reach = math.hypot(end.x - start.x, end.y - start.y)
    return Spot((end.x - start.x) / reach, (end.y - start.y) / reach)


def _rounded(back: Spot, corner: Corner, ahead: Spot) -> tuple[Spot, Spot, list[Piece]]:
    """Entry, exit and the arcs of a rounded corner."""
    u, v = _unit(back, corner.at), _unit(corner.at, ahead)
    entry = Spot(corner.at.x - corner.before * u.x, corner.at.y - corner.before * u.y)
    leave = Spot(corner.at.x + corner.after * v.x, corner.at.y + corner.after * v.y)
    if abs(u.x * v.y - u.y * v.x) < 1e-9:
        return entry, leave, [Line(start=entry, end=leave)]
    if abs(corner.before - corner.after) < 1e-9:
        return entry, leave, [_arc(entry, u, leave)]
    # The curve is the affine image of the circular bend of this turn (a quarter ellipse at a right angle), held in
    # homogeneous form; it is cut into spans and every span drawn as two arcs that share its end directions.
    weight = math.cos(math.acos(max(-1.0, min(1.0, u.x * v.x + u.y * v.y))) / 2.0)
    pieces: list[Piece] = []
    place, heading = entry, u
    for index in range(1, SPANS + 1):
        ahead_place, ahead_heading = _conic(entry, corner.at, leave, weight, index / SPANS)
        pieces.extend(_biarc(place, heading, ahead_place, ahead_heading))
        place, heading = ahead_place, ahead_heading
    return entry, leave, pieces


def _conic(start: Spot, control: Spot, end: Spot, weight: float, share: float) -> tuple[Spot, Spot]:
    """Place and direction on a rational quadratic with outer weights 1."""
    rest = 1.0 - share
    one, two, three = rest * rest, 2.0 * weight * rest * share, share * share
    total = one + two + three
    # The two points between which the de Casteljau construction draws its last line give the direction.
    first, second = rest + weight * share, weight * rest + share
    left = Spot(
        (rest * start.x + weight * share * control.x) / first, (rest * start.y + weight * share * control.y) / first
    )
    right = Spot(
        (weight * rest * control.x + share * end.x) / second, (weight * rest * control.y + share * end.y) / second
    )
    place = Spot(
        (one * start.x + two * control.x + three * end.x) / total,
        (one * start.y + two * control.y + three * end.y) / total,
    )
    return place, _unit(left, right)


def _biarc(start: Spot, u: Spot, end: Spot, v: Spot) -> list[Piece]:
    """Two arcs with equal tangent lengths at both ends: they meet half way between the two inner control points."""
    chord = Spot(end.x - start.x, end.y - start.y)
    along = chord.x * (u.x + v.x) + chord.y * (u.y + v.y)
    turn = 2.0 * (1.0 - (u.x * v.x + u.y * v.y))
    span = (math.sqrt(along * along + turn * (chord.x**2 + chord.y**2)) - along) / turn
    inner = Spot(start.x + span * u.x, start.y + span * u.y)
    outer = Spot(end.x - span * v.x, end.y - span * v.y)
    meet = Spot((inner.x + outer.x) / 2.0, (inner.y + outer.y) / 2.0)
    return [_arc(start, u, meet), _arc(meet, _unit(inner, outer), end)]


def _arc(start: Spot, heading: Spot, end: Spot) -> Arc:
    """The arc that leaves ``start`` in the direction ``heading`` and ends at ``end``."""
    chord = Spot(end.x - start.x, end.y - start.y)
    normal = Spot(-heading.y, heading.x)
    radius = (chord.x**2 + chord.y**2) / (2.0 * (normal.x * chord.x + normal.y * chord.y))
    centre = Spot(start.x + normal.x * radius, start.y + normal.y * radius)
    half = math.atan2(heading.x * chord.y - heading.y * chord.x, heading.x * chord.x + heading.y * chord.y)
    begin = math.degrees(math.atan2(start.y - centre.y, start.x - centre.x))
    return Arc(centre=centre, radius=abs(radius), start_deg=begin, sweep_deg=math.degrees(2.0 * half))
