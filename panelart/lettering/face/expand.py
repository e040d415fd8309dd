"""From pen strokes to the edges of the ink: offsets with round ends, one outline with its overlaps removed.

``outline`` takes the strokes of a glyph in d to closed contours of straight and quadratic pieces in whole font
units, outer contours clockwise. Arcs are offset exactly (an arc beside an arc) and then written as quadratics that
stay within ``TOLERANCE`` font units of them; the union is computed by skia-pathops.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

import pathops

from panelart.lettering.face.curves import SMOOTH, Arc, Line, Piece, Spot, Stroke
from panelart.lettering.face.edges import Contour, Edge, Whole
from panelart.lettering.face.fewer import fewer

#: Furthest a quadratic may stray from its arc, in font units, before coordinates are rounded to whole units.
TOLERANCE = 0.25
#: A stroke that ends on another stroke is cut square and reaches this far past its end (d), inside the other's ink.
OVERREACH = 0.15
#: A stroke that ends this near (d) to the middle of another ends inside its ink.
TOUCH = 0.2
#: Pieces of outline shorter than this (font units) are leavings of the union, not drawing.
SLIVER = 3.0
#: So are pieces up to this shorter than both their neighbours by far, where an arch leaves its stem.
SPUR = 9.0
#: White smaller than this (d²) between strokes that meet closes in any process, and is filled.
DUST = 0.02


def outline(strokes: tuple[Stroke, ...], units: float) -> tuple[Contour, ...]:
    """The ink of a glyph, each stroke under its own pen; ``units`` font units to a d."""
    ink = pathops.Path()
    for index, stroke in enumerate(strokes):
        for contour in _stroked(stroke, strokes[:index], strokes[index + 1 :], stroke.pen / 2):
            _write(ink, contour, units)
    ink.simplify(fix_winding=True, keep_starting_points=False, clockwise=True)
    drawn = (_tidied(piece) for piece in _read(ink))
    return tuple(fewer(contour) for contour in drawn if len(contour) > 1 and _area(contour) > DUST * units * units)


def _area(contour: Contour) -> float:
    """How much a contour takes in, by the corners of its pieces and their controls."""
    corners = [corner for edge in contour for corner in (edge.start, edge.control) if corner is not None]
    ahead = (*corners[1:], corners[0])
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, ahead, strict=True))) / 2


def _stroked(
    stroke: Stroke, earlier: tuple[Stroke, ...], later: tuple[Stroke, ...], half: float
) -> Iterator[list[Piece]]:
    """Outlines of one stroke, to be filled by the non-zero rule."""
    if stroke.closed:
        left = _side(stroke.pieces, half, closed=True)
        right = _side(_reversed(stroke.pieces), half, closed=True)
        tight = all(isinstance(piece, Arc) and piece.radius <= half for piece in stroke.pieces)
        if tight:  # a dot: the pen covers the middle, only the outer edge is left
            yield right if _turns_left(stroke.pieces) else left
            return
        yield left
        yield right
        return
    back = _reversed(stroke.pieces)
    forward = _side(stroke.pieces, half, closed=False)
    returning = _side(back, half, closed=False)
    yield [
        *forward,
        *_cap(stroke.pieces[-1], half, _past(stroke, earlier, later, at_end=True)),
        *returning,
        *_cap(back[-1], half, _past(stroke, earlier, later, at_end=False)),
    ]


def _turns_left(pieces: tuple[Piece, ...]) -> bool:
    return math.fsum(piece.sweep_deg for piece in pieces if isinstance(piece, Arc)) > 0


def _reversed(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    turned: list[Piece] = []
    for piece in reversed(pieces):
        match piece:
            case Line(start=start, end=end):
                turned.append(Line(start=end, end=start))
            case Arc(centre=centre, radius=radius, start_deg=begin, sweep_deg=sweep):
                turned.append(Arc(centre=centre, radius=radius, start_deg=begin + sweep, sweep_deg=-sweep))
    return tuple(turned)


def _past(stroke: Stroke, earlier: tuple[Stroke, ...], later: tuple[Stroke, ...], *, at_end: bool) -> float | None:
    """How far past its end (d) a stroke is cut square inside other ink; ``None`` where it keeps its round end.

    Where two strokes meet end to end, the one written first keeps its round end, and the other stops at the middle of
    that: further on, its corners would stick out of the round.
    """
    spot = stroke.pieces[-1].at(1.0) if at_end else stroke.pieces[0].at(0.0)
    own = stroke.pieces[:-2] if at_end else stroke.pieces[2:]
    passed = [piece for other in (*earlier, *later) if not _ends_at(other, spot) for piece in other.pieces]
    if any(_touches(spot, piece) for piece in (*passed, *own)):
        return OVERREACH
    rounds = [other.pen for other in earlier if _ends_at(other, spot)]
    if not rounds:
        return None
    return 0.0 if max(rounds) >= stroke.pen else OVERREACH


def _ends_at(stroke: Stroke, spot: Spot) -> bool:
    return (
        not stroke.closed
        and min(math.dist(spot, stroke.pieces[0].at(0.0)), math.dist(spot, stroke.pieces[-1].at(1.0))) < TOUCH
    )


def _touches(spot: Spot, piece: Piece) -> bool:
    match piece:
        case Line(start=start, end=end):
            along = Spot(end.x - start.x, end.y - start.y)
            share = ((spot.x - start.x) * along.x + (spot.y - start.y) * along.y) / (along.x**2 + along.y**2)
            near = piece.at(min(1.0, max(0.0, share)))
            return math.dist(spot, near) < TOUCH
        case Arc(centre=centre, radius=radius, start_deg=begin, sweep_deg=sweep):
            if abs(math.dist(spot, centre) - radius) >= TOUCH:
                return False
            angle = math.degrees(math.atan2(spot.y - centre.y, spot.x - centre.x))
            ahead = (angle - begin) % 360 if sweep > 0 else (begin - angle) % 360
            return ahead <= abs(sweep) + 0.5 or ahead >= 359.5


def _beside(spot: Spot, heading: float, half: float) -> Spot:
    """The place on the left edge of the pen."""
    return Spot(spot.x - half * math.sin(heading), spot.y + half * math.cos(heading))


def _side(pieces: tuple[Piece, ...], half: float, *, closed: bool) -> list[Piece]:
    """The left edge of a run of pieces, with round joins outside and turns through the corner inside."""
    edge: list[Piece] = []
    for index, piece in enumerate(pieces):
        edge.extend(_offset(piece, half))
        if index + 1 < len(pieces) or closed:
            edge.extend(_corner(piece, pieces[(index + 1) % len(pieces)], half))
    return edge


def _offset(piece: Piece, half: float) -> list[Piece]:
    start = _beside(piece.at(0.0), piece.heading(0.0), half)
    end = _beside(piece.at(1.0), piece.heading(1.0), half)
    match piece:
        case Line():
            return [Line(start=start, end=end)]
        case Arc(centre=centre, radius=radius, start_deg=begin, sweep_deg=sweep):
            offset = radius - half if sweep > 0 else radius + half
            if offset > 0.01:
                return [Arc(centre=centre, radius=offset, start_deg=begin, sweep_deg=sweep)]
            # The pen is wider than the bend: its inner edge goes through the centre.
            return [Line(start=start, end=centre), Line(start=centre, end=end)]


def _corner(piece: Piece, following: Piece, half: float) -> list[Piece]:
    before, after = piece.heading(1.0), following.heading(0.0)
    turn = math.remainder(after - before, 2 * math.pi)
    if abs(turn) < SMOOTH:
        return []
    vertex = piece.at(1.0)
    if turn < 0:
        return [Arc(centre=vertex, radius=half, start_deg=math.degrees(before) + 90.0, sweep_deg=math.degrees(turn))]
    start, end = _beside(vertex, before, half), _beside(vertex, after, half)
    return [Line(start=start, end=vertex), Line(start=vertex, end=end)]


def _cap(last: Piece, half: float, past: float | None) -> list[Piece]:
    """From the left to the right edge round the end of a stroke: a half circle, or square inside other ink."""
    heading, spot = last.heading(1.0), last.at(1.0)
    if past is None:
        return [Arc(centre=spot, radius=half, start_deg=math.degrees(heading) + 90.0, sweep_deg=-180.0)]
    ahead = Spot(spot.x + past * math.cos(heading), spot.y + past * math.sin(heading))
    corners = [
        _beside(spot, heading, half),
        *(() if past == 0.0 else (_beside(ahead, heading, half), _beside(ahead, heading, -half))),
        _beside(spot, heading, -half),
    ]
    return [Line(start=one, end=other) for one, other in pairwise(corners)]


def _write(ink: pathops.Path, contour: list[Piece], units: float) -> None:
    pen = ink.getPen()
    start = contour[0].at(0.0)
    pen.moveTo((start.x * units, start.y * units))
    for piece in contour:
        match piece:
            case Line(end=end):
                pen.lineTo((end.x * units, end.y * units))
            case Arc():
                for part in _quartered(piece):
                    _quadratics(pen, part, units)
    pen.closePath()


def _quartered(arc: Arc) -> Iterator[Arc]:
    """The arc cut where it is highest, lowest, leftmost and rightmost, so that these stay points of the outline."""
    end = arc.start_deg + arc.sweep_deg
    low, high = min(arc.start_deg, end), max(arc.start_deg, end)
    cuts = [
        90.0 * turn
        for turn in range(math.floor(low / 90.0), math.ceil(high / 90.0) + 1)
        if low + 1.0 < 90.0 * turn < high - 1.0
    ]
    if arc.sweep_deg < 0:
        cuts.reverse()
    stops = [arc.start_deg, *cuts, end]
    for begin, stop in pairwise(stops):
        yield Arc(centre=arc.centre, radius=arc.radius, start_deg=begin, sweep_deg=stop - begin)


def _quadratics(pen: pathops.PathPen, arc: Arc, units: float) -> None:
    count = 1
    while _stray(arc.radius * units, arc.sweep_deg / count) > TOLERANCE:
        count += 1
    half = math.radians(arc.sweep_deg / count / 2)
    for index in range(count):
        middle = math.radians(arc.start_deg) + (2 * index + 1) * half
        reach = arc.radius / math.cos(half)
        control = Spot(arc.centre.x + reach * math.cos(middle), arc.centre.y + reach * math.sin(middle))
        end = arc.at((index + 1) / count)
        pen.qCurveTo((control.x * units, control.y * units), (end.x * units, end.y * units))


def _stray(radius: float, sweep_deg: float) -> float:
    """How far the tangent quadratic leaves an arc, at its middle: r ((cos t + 1 / cos t) / 2 - 1), t half a sweep."""
    cosine = math.cos(math.radians(sweep_deg) / 2)
    return radius * ((cosine + 1 / cosine) / 2 - 1)


def _read(ink: pathops.Path) -> Iterator[list[Edge]]:
    """The contours of a path in whole units."""
    edges: list[Edge] = []
    first = last = (0, 0)
    for verb, points in ink:
        whole = [(round(x), round(y)) for x, y in points]
        match verb:
            case pathops.PathVerb.MOVE:
                edges = []
                first = last = whole[0]
            case pathops.PathVerb.LINE:
                edges.append(Edge(start=last, control=None, end=whole[0]))
                last = whole[0]
            case pathops.PathVerb.QUAD:
                edges.append(Edge(start=last, control=whole[0], end=whole[1]))
                last = whole[1]
            case pathops.PathVerb.CLOSE:
                if last != first:
                    edges.append(Edge(start=last, control=None, end=first))
                yield edges
            case _:
                raise ValueError(f"the union gave a {verb}, which is neither straight nor quadratic")


def _tidied(edges: list[Edge]) -> Contour:
    """A contour without slivers, points on straight runs, or curves so flat that they are lines."""
    edges = [edge for edge in edges if edge.start != edge.end]
    changed = True
    while changed and len(edges) > 2:
        changed = False
        for index, edge in enumerate(edges):
            if _is_sliver(edges[index - 1], edge, edges[(index + 1) % len(edges)]):
                edges = _without(edges, index)
                changed = True
                break
            following = edges[(index + 1) % len(edges)]
            if edge.control is None and following.control is None and _flat(edge.start, edge.end, following.end):
                edges[index] = Edge(start=edge.start, control=None, end=following.end)
                del edges[(index + 1) % len(edges)]
                changed = True
                break
    return tuple(edges)


def _is_sliver(before: Edge, edge: Edge, after: Edge) -> bool:
    """Whether a piece is no drawing but what the union left."""
    long, beside = math.dist(edge.start, edge.end), (math.dist(one.start, one.end) for one in (before, after))
    return long < SLIVER or (long < SPUR and min(beside) > 2.5 * long)


def _without(edges: list[Edge], index: int) -> list[Edge]:
    """The contour with one sliver taken out and its neighbours drawn together at its middle.

    A straight neighbour keeps its far end; where the sliver stands between line and curve, the end of the line is
    moved, so that extremes on curves stay where they were drawn.
    """
    before, edge, after = edges[index - 1], edges[index], edges[(index + 1) % len(edges)]
    meet = edge.end if before.control is None and after.control is not None else edge.start
    kept = list(edges)
    kept[index - 1] = Edge(start=before.start, control=before.control, end=meet)
    kept[(index + 1) % len(edges)] = Edge(start=meet, control=after.control, end=after.end)
    del kept[index]
    return [one for one in kept if one.start != one.end]


def _flat(start: Whole, middle: Whole, end: Whole) -> bool:
    """Whether the middle point lies on the straight way from start to end, within half a unit."""
    span = math.dist(start, end)
    if span == 0:
        return False
    off = abs((end[0] - start[0]) * (middle[1] - start[1]) - (end[1] - start[1]) * (middle[0] - start[0])) / span
    ahead = (middle[0] - start[0]) * (end[0] - start[0]) + (middle[1] - start[1]) * (end[1] - start[1])
    return off <= 0.75 and 0 < ahead < span * span
