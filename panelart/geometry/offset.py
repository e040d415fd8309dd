"""Parallel curves: a contour grown or shrunk by a distance, with lines and arcs kept exact.

Every line and arc is moved sideways; corners that open get a join. The moved pieces are cut where they
meet, and those that come nearer to the contour than the distance are thrown away: what is left closes to
the result.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Final, Literal, TypeAlias

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry.contour import Arc, Contour, Line, Segment, joined
from panelart.geometry.crossings import carrier_crossings, crossings, distance_to
from panelart.geometry.points import TOLERANCE, Point, Vector

Join: TypeAlias = Literal["sharp", "round"]

MITRE_LIMIT: Final = 4.0
"""A sharp corner may stand off the corner it comes from by this many times the distance, a 29 degree point;
beyond that it stays round."""

_SNAP: Final = 1e-6
"""Meetings nearer to each other than this many millimetres are one: more is not known where curves touch."""

_NEARER: Final = 1e-7
"""A piece is thrown away when it comes nearer to the contour than the distance by more than this."""


@lru_cache(maxsize=4096)  # an edit of a panel leaves most of its openings where they were
def offset(contour: Contour, d: float, join: Join = "sharp") -> tuple[Contour, ...]:
    """The contour grown by d millimetres all round, or shrunk for a negative d.

    `sharp` carries the sides of an opening corner on to where they meet, so that a rectangle stays a
    rectangle and a circle with a flat stays one; where they do not meet within MITRE_LIMIT, or would run
    into another part of the curve, the corner is round. `round` puts an arc of radius d about every such
    corner.

    Returns counter-clockwise contours: none when nothing is left, several when the shape falls apart. A
    shape that closes on itself as it grows leaves a hole: a clockwise contour. The contour given may run
    either way round but must not cross itself. Raises ValueError for a distance that is not finite and an
    unknown join.
    """
    if not math.isfinite(d):
        raise ValueError(f"a contour cannot be offset by {d}")
    if join not in ("sharp", "round"):
        raise ValueError(f"'{join}' is not a join; accepted: sharp, round")
    source = joined(contour.ccw().segments)
    if abs(d) <= TOLERANCE:
        return (source,)
    pieces = _cut(_moved(source.segments, d))
    loops = _loops([piece for piece in pieces if _keeps_distance(piece, source.segments, abs(d))])
    if join == "sharp":
        loops = _sharpened(loops, abs(d))
    return tuple(joined(_connected([piece.curve for piece in loop])) for loop in loops if _encloses(loop))


class _Piece(Struct, frozen=True, kw_only=True):
    """A piece of a moved segment or of a join, between two meetings."""

    curve: Segment
    start: int
    end: int
    corner: Point | None
    """The corner a join was laid about; None for a moved segment."""
    whole_start: bool
    whole_end: bool
    """Whether the piece starts, or ends, where the whole does."""


class _Raw(Struct, frozen=True, kw_only=True):
    """A moved segment or a join, before it is cut."""

    curve: Segment
    corner: Point | None = None


def _moved(segments: Sequence[Segment], d: float) -> list[_Raw]:
    raws: list[_Raw] = []
    for index, segment in enumerate(segments):
        curve = _parallel(segment, d)
        if curve is not None:
            raws.append(_Raw(curve=curve))
        following = segments[(index + 1) % len(segments)]
        laid = _round_join(segment.end, segment.tangent_at(1.0), following.tangent_at(0.0), d)
        if laid is not None:
            raws.append(_Raw(curve=laid, corner=segment.end))
    return raws


def _parallel(segment: Segment, d: float) -> Segment | None:
    """The segment moved to its right by d; None for an arc that has shrunk to nothing."""
    if isinstance(segment, Line):
        return segment.moved(segment.tangent_at(0.0).perpendicular.scaled(-d))
    radius = segment.radius + (d if segment.sweep_deg > 0 else -d)
    return replace(segment, radius=radius) if radius > _SNAP / 2 else None


def _round_join(corner: Point, before: Vector, after: Vector, d: float) -> Arc | None:
    turn = math.degrees(math.atan2(before.cross(after), before.dot(after)))
    if abs(abs(turn) - 180.0) < 1e-6:
        turn = math.copysign(180.0, d)  # a cusp: where the corner closes, the join is thrown away later
    if turn * d <= 0.0 or abs(d) * math.radians(abs(turn)) <= _SNAP / 10:
        return None
    return Arc(corner, abs(d), before.perpendicular.scaled(-d).deg, turn)


class _Meetings:
    """Points where pieces meet, numbered; a point near one that is known already is that one."""

    def __init__(self) -> None:
        self.points: list[Point] = []
        self._cells: dict[tuple[int, int], list[int]] = {}

    def number(self, point: Point) -> int:
        column, row = math.floor(point.x / _SNAP), math.floor(point.y / _SNAP)
        for across in (-1, 0, 1):
            for up in (-1, 0, 1):
                for known in self._cells.get((column + across, row + up), ()):
                    if self.points[known].distance(point) <= _SNAP:
                        return known
        self.points.append(point)
        self._cells.setdefault((column, row), []).append(len(self.points) - 1)
        return len(self.points) - 1


def _cut(raws: Sequence[_Raw]) -> list[_Piece]:
    """The moved segments and joins, cut where any two of them meet."""
    meetings = _Meetings()
    ends = [(meetings.number(raw.curve.start), meetings.number(raw.curve.end)) for raw in raws]
    cuts = _cuts(raws, meetings)
    return [
        piece
        for raw, own_ends, own_cuts in zip(raws, ends, cuts, strict=True)
        for piece in _pieces(raw, own_ends, own_cuts, meetings.points)
    ]


def _cuts(raws: Sequence[_Raw], meetings: _Meetings) -> list[set[int]]:
    """The meetings with others on each of the moved segments and joins."""
    boxes = [raw.curve.bounds for raw in raws]
    cuts: list[set[int]] = [set() for _ in raws]
    for index, first in enumerate(raws):
        for other in range(index + 1, len(raws)):
            if boxes[index].gap(boxes[other]) > TOLERANCE:
                continue
            for point in crossings(first.curve, raws[other].curve):
                meeting = meetings.number(point)
                cuts[index].add(meeting)
                cuts[other].add(meeting)
    return cuts


def _pieces(raw: _Raw, ends: tuple[int, int], cuts: set[int], points: Sequence[Point]) -> Iterator[_Piece]:
    """A moved segment or a join from meeting to meeting; what is shorter than a meeting is wide is left out."""
    first_end, last_end = ends
    between = sorted((raw.curve.share_of(points[cut]), cut) for cut in cuts if cut not in ends)
    stops = [(0.0, first_end), *between, (1.0, last_end)]
    for (share, start), (next_share, end) in pairwise(stops):
        if (next_share - share) * raw.curve.length <= _SNAP:
            continue
        yield _Piece(
            curve=raw.curve.part(share, next_share) if between else raw.curve,
            start=start,
            end=end,
            corner=raw.corner,
            whole_start=share == 0.0,
            whole_end=next_share == 1.0,
        )


def _keeps_distance(piece: _Piece, segments: Sequence[Segment], distance: float) -> bool:
    middle = piece.curve.point_at(0.5)
    return all(distance_to(segment, middle) >= distance - _NEARER for segment in segments)


def _loops(pieces: Sequence[_Piece]) -> list[list[_Piece]]:
    """Closed chains that pass any meeting once; pieces that lead nowhere are left out.

    Which way is taken at a point where the result only just touches itself makes no difference: parts of one shape
    that has no holes touch in one point at most, and there the chain is closed.
    """
    leaving: dict[int, list[_Piece]] = {}
    for piece in reversed(pieces):
        leaving.setdefault(piece.start, []).append(piece)
    loops: list[list[_Piece]] = []
    for piece in pieces:
        if piece not in leaving[piece.start]:
            continue
        leaving[piece.start].remove(piece)
        chain = [piece]
        while chain:
            here = chain[-1].end
            closes = next((index for index, link in enumerate(chain) if link.start == here), None)
            if closes is not None:
                loops.append(chain[closes:])
                del chain[closes:]
            elif leaving.get(here):
                chain.append(leaving[here].pop())
            else:
                chain.pop()
    return loops


def _encloses(loop: Sequence[_Piece]) -> bool:
    """Whether a loop is more than a line there and back."""
    curves = [piece.curve for piece in loop]
    length = math.fsum(curve.length for curve in curves)
    return length > 10 * _SNAP and abs(joined(_connected(curves)).area) > length * _SNAP


def _connected(curves: Sequence[Segment]) -> list[Segment]:
    """The pieces of a loop with the last digits of their ends made to meet; lines give way to arcs."""
    chain: list[Segment] = []
    for index, curve in enumerate(curves):
        following = curves[(index + 1) % len(curves)]
        previous = curves[index - 1]
        if isinstance(curve, Line):
            start = previous.end if isinstance(previous, Arc) else curve.start
            chain.append(Line(start, following.start))
            continue
        chain.append(curve)
        if isinstance(following, Arc) and curve.end.distance(following.start) > TOLERANCE:
            chain.append(Line(curve.end, following.start))
    return chain


def _sharpened(loops: Sequence[list[_Piece]], distance: float) -> list[list[_Piece]]:
    """The loops with whole joins replaced by their neighbours carried on, where nothing is in the way."""
    result = [list(loop) for loop in loops]
    for loop in result:
        for join in [piece for piece in loop if piece.corner is not None]:
            place = loop.index(join)
            before, after = loop[place - 1], loop[(place + 1) % len(loop)]
            carried = _carried_on(before, join, after, distance)
            if carried is None or _runs_into_others(carried, (before, join, after), result):
                continue
            to_corner, from_corner = carried
            loop[place - 1] = replace(before, curve=_one(before.curve, to_corner))
            loop[(place + 1) % len(loop)] = replace(after, curve=_one(from_corner, after.curve))
            del loop[place]
    return result


def _runs_into_others(
    carried: tuple[Segment, Segment], pieces: tuple[_Piece, _Piece, _Piece], loops: Sequence[Sequence[_Piece]]
) -> bool:
    """Whether what the neighbours of a join gain would meet anything but what it is added to.

    `pieces` are the one before the join, the join, and the one after it.
    """
    before, _, after = pieces
    to_corner, from_corner = carried
    others = [piece.curve for loop in loops for piece in loop if piece not in pieces]
    return (
        any(crossings(added, curve) for added in carried for curve in others)
        or bool(crossings(to_corner, after.curve))
        or bool(crossings(from_corner, before.curve))
    )


def _carried_on(before: _Piece, join: _Piece, after: _Piece, distance: float) -> tuple[Segment, Segment] | None:
    """What the neighbours of a round join gain, up to the point where they meet and on from it."""
    corner = _corner_between(before, join, after)
    if corner is None:
        return None
    meetings = [
        meeting
        for meeting in carrier_crossings(before.curve, after.curve)
        if meeting.distance(corner) <= MITRE_LIMIT * distance
    ]
    ways = [way for meeting in meetings if (way := _by_way_of(before.curve, meeting, after.curve)) is not None]
    return min(ways, key=lambda way: way[0].length + way[1].length, default=None)


def _corner_between(before: _Piece, join: _Piece, after: _Piece) -> Point | None:
    """The corner that a join was laid about, where it is whole and stands between two moved segments."""
    whole = before.whole_end and join.whole_start and join.whole_end and after.whole_start
    if before is after or not whole or before.corner is not None or after.corner is not None:
        return None
    return join.corner


def _by_way_of(before: Segment, meeting: Point, after: Segment) -> tuple[Segment, Segment] | None:
    """What is added to two neighbours that are carried on to a meeting of theirs; None where they lead away."""
    to_corner = _onward(before, meeting)
    from_corner = _onward(after.reversed(), meeting)
    return None if to_corner is None or from_corner is None else (to_corner, from_corner.reversed())


def _onward(curve: Segment, to: Point) -> Segment | None:
    """What is added when a line or arc is carried on from its end to a point of its line or circle."""
    if isinstance(curve, Line):
        ahead = to.minus(curve.end).dot(curve.tangent_at(1.0))
        return Line(curve.end, to) if ahead > 0.0 else None
    turn = to.minus(curve.centre).deg - curve.end_deg
    gained = turn % 360.0 if curve.sweep_deg > 0 else -(-turn % 360.0)
    if gained == 0.0 or abs(gained + curve.sweep_deg) >= 360.0:
        return None
    return replace(curve, start_deg=curve.end_deg, sweep_deg=gained)


def _one(first: Segment, second: Segment) -> Segment:
    """A line or arc and what it was carried on by, as one."""
    if isinstance(first, Line):
        return Line(first.start, second.end)
    assert isinstance(second, Arc)
    return replace(first, sweep_deg=first.sweep_deg + second.sweep_deg)
