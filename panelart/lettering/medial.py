"""How wide the strokes of a shape are, and the gaps in it, along the middle of each.

Method. A disc is laid against the outline from within, at every point of it, and grown until it touches the outline
somewhere else. The centres of these discs are the medial axis; where a disc touches on the side across, the axis is
the middle of a stroke and the disc as wide as the stroke, and from without it is the middle of a gap. The width of a
stroke is the smallest one that is not exceeded over a stretch of the axis as long as the pen is wide: a neck shorter
than that, as where an arch leaves its stem, is held by the ink on either side of it and prints. Where discs only get
smaller up to a point, a stroke ends or two strokes run together, which is neither a thin stroke nor a narrow gap. A dot
is as thin as the largest disc in it, and a counter as narrow. The gap between two letters is taken along their edges in
the same way; two pieces of one sign run together wherever they are nearest, so there the least distance counts.

Error. Outlines are taken as chords that stray by at most 0.0001 of the cap height, with a point at least every 0.02; a
disc is held against the side across where that is smooth, and against its points where it is not. Against shapes of
known width the result is right to 0.002 of the cap height (0.006 mm at 3 mm), and the lengths to a point's distance:
tests/lettering/test_measures.py.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import Any, Final, NamedTuple

import numpy as np
import shapely
from shapely.algorithms.polylabel import polylabel

from panelart.canonical import Struct
from panelart.geometry import Point
from panelart.lettering.flat import flattened
from panelart.lettering.outline import Shape

CHORD: Final = 0.0001
"""By so much a chord strays from its curve, over the cap height."""

STEP: Final = 0.02
"""Distance of the points along an outline, over the cap height."""

_MOST: Final = 1500
"""So many points are taken of one shape at most, farther apart where it is so long."""

_LASTS: Final = 1.0
"""A stroke counts as so thin where it is no thicker over so many widths of the pen. Our choice."""

_STAYS: Final = 0.8
"""The same for gaps: a little less, since the gap under the dot of an i is between its corners just not as long as the
pen is wide. Our choice."""

_PARALLEL: Final = math.cos(math.radians(20.0))
"""Sides that run together by more are those of a point and not of a stroke."""

_OPPOSITE: Final = math.tan(math.radians(15.0))
"""A disc touches the other side where that touch lies across from where it stands, to so much aside; and to half the
distance of the points, to all of it where the side across is smooth. Half the angle of the sides is aside by itself."""

_POINTS: Final = 3.0
"""A stretch with fewer steps tells nothing, however fine the pen."""

_CORNER: Final = math.cos(math.radians(50.0))
"""An outline that turns by more from one point to the next has a corner there, and the axis ends."""

_TAPERS: Final = 0.5
"""Where discs get smaller up to an end of the axis, and there to less than so much, that is a point. Our choice."""

_LEVEL: Final = 0.75
"""What gets smaller by no more than that ends square, and its discs get smaller in the corners only."""

_EVEN: Final = 0.001
"""Discs that differ by less are of one size, over the cap height."""

_SMOOTH: Final = math.radians(8.0)
"""A corner that turns by less is a place between chords of one curve."""

_CLOSE: Final = 1e-3
"""The share of a side that its first and last points keep from the corners."""

_ALONG: Final = 2.0
"""Over so many widths of the pen two letters must be that near to each other. Our choice."""

_FACING: Final = 0.25
"""So much of the edge of a letter faces its neighbour at least; of a dot that is less than two widths of the pen."""

_NEAR: Final = 1.0
"""Edges farther from the other letter than that, over the cap height, leave no gap to speak of."""

_WIDE: Final = 0.5
"""Only in ink and counters that are less wide than that, over the cap height, the largest disc is looked for."""


_HALVED: Final = 0.001
"""To so much of the cap height it is found at which width a gap closes."""

_ROUNDING: Final = 1e-9
"""The share of an area that is lost in adding areas up."""


class Measured(Struct, frozen=True, kw_only=True):
    """The thinnest stroke, the narrowest gap, and the width of the pen, over the cap height; inf for none.

    The pen is the width that half of the length of all strokes is under.
    """

    stroke: float
    gap: float
    pen: float


def ink(shape: Shape, chord: float) -> Any:
    """The ground inside loops by the non-zero rule, for fonts of either sense: holes run against their letter."""
    rings = [ring for loop in shape if len(ring := flattened(loop, chord)) >= 3]
    if len(rings) == 1:
        return _valid(rings[0])
    senses: tuple[list[Any], list[Any]] = ([], [])
    for ring in rings:
        senses[_area(ring) > 0].append(_valid(ring))
    one, other = (shapely.union_all(grounds) for grounds in senses)
    if any(_overlap(grounds, whole) for grounds, whole in zip(senses, (one, other), strict=True)):
        return _laid(rings)
    return shapely.symmetric_difference(one, other)


def _overlap(grounds: list[Any], whole: Any) -> bool:
    """Whether grounds lie on each other, or one within another, so that their union is less than all of them."""
    together = math.fsum(shapely.area(ground) for ground in grounds)
    return together > float(shapely.area(whole)) * (1.0 + _ROUNDING)


def _laid(rings: list[list[Point]]) -> Any:
    """The ground of rings of which some lie on others: from the largest to the smallest, as ink or out of it.

    So what stands within a hole is ink again: the mark in a frame, the R of the sign for registered.
    """
    largest, *others = sorted(rings, key=lambda ring: abs(_area(ring)), reverse=True)
    outer = _area(largest) > 0
    ground = _valid(largest)
    for ring in others:
        put = shapely.union if (_area(ring) > 0) == outer else shapely.difference
        ground = put(ground, _valid(ring))
    return ground


def _valid(ring: list[Point]) -> Any:
    ground = shapely.Polygon(ring)
    return ground if ground.is_valid else shapely.make_valid(ground)


def _area(ring: list[Point]) -> float:
    points = np.array(ring)
    after = np.roll(points, -1, axis=0)
    return float((points[:, 0] * after[:, 1] - after[:, 0] * points[:, 1]).sum() / 2)


def measured(shape: Shape) -> Measured:
    """The widths of a shape whose capitals are 1 high."""
    pieces = _pieces(ink(shape, CHORD))
    if not pieces:
        return Measured(stroke=math.inf, gap=math.inf, pen=math.inf)
    inside, outside = _stretches(_outline(_rings(pieces)))
    counters = [shapely.Polygon(hole) for piece in pieces for hole in piece.interiors]
    roundest = min(map(_roundest, pieces))
    pen = _middle(inside)
    pen = roundest if math.isinf(pen) else pen
    open_over = max(_STAYS * pen, _POINTS * STEP)
    gaps = (
        *map(_roundest, counters),
        *(float(shapely.distance(*pair)) for pair in itertools.combinations(pieces, 2)),
        _lasting(outside, open_over),
        _narrow_mouth(outside, open_over),
    )
    # Where all is shorter than the pen is wide, as in an asterisk, the pen itself is left.
    stroke = min(_lasting(inside, max(_LASTS * pen, _POINTS * STEP)), roundest, pen)
    return Measured(stroke=stroke, gap=min(gaps), pen=pen)


def stays_open(ground: Any, gap: float) -> float:
    """The width, up to `gap`, to which gaps may be closed from both sides before one closes: found by halving.

    Ground that is thickened by half of it has as many pieces and counters as before: no joint is made, no pocket is
    shut off where two strokes run together, no counter is filled.
    """
    before = _parts(ground)
    low, high = 0.0, gap
    while high - low > _HALVED:
        middle = (low + high) / 2.0
        kept = _parts(shapely.buffer(ground, middle / 2.0, quad_segs=16)) == before
        low, high = (middle, high) if kept else (low, middle)
    return gap if high == gap else low


def _parts(ground: Any) -> tuple[int, int]:
    """How many pieces ground has, and counters."""
    pieces = _pieces(ground)
    return len(pieces), sum(len(piece.interiors) for piece in pieces)


class Standing(Struct, frozen=True):
    """Ground whose capitals are 1 high: itself, points along its edge, the length of each, and its pen."""

    ground: Any
    points: Any
    lengths: Any
    pen: float


def stood(ground: Any, pen: float) -> Standing:
    """Ground, ready to be held against other ground."""
    points, lengths = [], []
    for piece in _pieces(ground):
        ring = piece.exterior
        count = max(math.ceil(ring.length / STEP), 8)
        places = (np.arange(count) + 0.5) * (ring.length / count)
        points.append(shapely.get_coordinates(shapely.line_interpolate_point(ring, places)))
        lengths.append(np.full(count, ring.length / count))
    shapely.prepare(ground)
    return Standing(ground, np.concatenate(points), np.concatenate(lengths), pen)


def between(one: Standing, other: Standing, by: tuple[float, float] = (0.0, 0.0)) -> float:
    """The gap between two pieces of ground, the second moved; inf where they meet, since letters that join are one.

    It is what their edges keep to each other, or less, over two widths of the pen of either.
    """
    move = np.array(by)
    first = shapely.distance(shapely.points(one.points - move), other.ground)
    second = shapely.distance(shapely.points(other.points + move), one.ground)
    apart, length = np.concatenate((first, second)), np.concatenate((one.lengths, other.lengths))
    near = apart < _NEAR
    if not near.any() or shapely.dwithin(one.ground, shapely.transform(other.ground, lambda p: p + move), 1e-9):
        return math.inf
    apart, length = apart[near], length[near]
    order = np.argsort(apart, kind="stable")
    around = min(float(each.lengths.sum()) for each in (one, other))
    enough = 2.0 * min(_ALONG * min(one.pen, other.pen), _FACING * around)  # both edges run along the gap
    place = min(int(np.searchsorted(np.cumsum(length[order]), enough)), len(order) - 1)
    return float(apart[order[place]])


def _pieces(ground: Any) -> list[Any]:
    parts = (piece for piece in shapely.get_parts(ground) if piece.geom_type == "Polygon")
    return [shapely.geometry.polygon.orient(piece) for piece in parts]


def _rings(pieces: Sequence[Any]) -> list[Any]:
    return [ring for piece in pieces for ring in (piece.exterior, *piece.interiors)]


def _roundest(ground: Any) -> float:
    """The diameter of the largest disc in a piece of ink or a counter."""
    left, bottom, right, top = ground.bounds
    # A disc is no larger than its box; where that is wide, strokes tell more and the search is saved.
    if min(right - left, top - bottom) > _WIDE:
        return math.inf
    middle = polylabel(ground, tolerance=0.001)
    return 2.0 * float(shapely.distance(middle, shapely.boundary(ground)))


class _Stretch(NamedTuple):
    """A piece of the axis from the disc of one point of the outline to that of the next.

    `disc` is the width of the larger disc, inf at corners; `width` the same where both discs touch the side across and
    do not only get smaller up to a point, inf elsewhere. `across` is whether one of them touches it.
    """

    disc: float
    width: float
    length: float
    across: bool


def _lasting(rings: Sequence[Sequence[_Stretch]], length: float) -> float:
    """The smallest width that is not exceeded over so much of the axis at one go; inf for none."""
    # The thinnest come first.
    found = (next(_joined([one.width for one in ring], ring, length), None) for ring in rings)
    return min((reached.widest for reached in found if reached is not None), default=math.inf)


def _narrow_mouth(rings: Sequence[Sequence[_Stretch]], length: float) -> float:
    """The same for places that are narrowest between round ends, whose sides are across for less; inf for none."""
    found = ((ring, reached) for ring in rings for reached in _joined([one.disc for one in ring], ring, length))
    return min((reached.widest for ring, reached in found if _is_mouth(ring, reached)), default=math.inf)


class _Reached(NamedTuple):
    """Stretches that are joined: first and last of them, their length, the thinnest, and the width of the widest."""

    first: int
    last: int
    length: float
    thinnest: int
    widest: float


def _is_mouth(ring: Sequence[_Stretch], reached: _Reached) -> bool:
    """Whether it widens to both sides from where two sides are across, and has no corner at its ends."""
    ends = (ring[reached.first - 1], ring[(reached.last + 1) % len(ring)])
    return ring[reached.thinnest].across and all(math.isfinite(end.disc) for end in ends)


def _joined(widths: Sequence[float], ring: Sequence[_Stretch], length: float) -> Iterator[_Reached]:
    """Stretches of a ring, taken from the thinnest up and joined to their neighbours, where they first are so long."""
    count = len(ring)
    known: dict[int, _Reached] = {}  # what is joined, by its first and by its last stretch
    for place in sorted((place for place in range(count) if math.isfinite(widths[place])), key=widths.__getitem__):
        joined = _Reached(place, place, ring[place].length, place, widths[place])
        before, after = known.get((place - 1) % count), known.get((place + 1) % count)
        if before is not None:
            joined = joined._replace(first=before.first, length=joined.length + before.length, thinnest=before.thinnest)
        if after is not None and after is not before:
            thinnest = min(joined.thinnest, after.thinnest, key=widths.__getitem__)
            joined = joined._replace(last=after.last, length=joined.length + after.length, thinnest=thinnest)
        already = any(each is not None and each.length >= length for each in (before, after))
        if joined.length >= length and not already:
            yield joined
        known[joined.first] = known[joined.last] = joined


def _middle(rings: Sequence[Sequence[_Stretch]]) -> float:
    """The width that half the length of the strokes is under; inf where there is no stroke."""
    found = sorted((one.width, one.length) for ring in rings for one in ring if math.isfinite(one.width))
    half = math.fsum(length for _, length in found) / 2
    for width, length in found:
        half -= length
        if half <= 0:
            return width
    return math.inf


class _Outline(Struct, frozen=True):
    """Points along an outline, none on corners, with the normals into the ink, ring by ring.

    `starts` are the places of the first points of the rings, and one more. `bend` is 1 next to a corner that bends
    round the ink, -1 next to one that the ink bends round, 0 elsewhere.
    """

    points: Any
    normals: Any
    bend: Any
    starts: tuple[int, ...]


def _outline(rings: Sequence[Any]) -> _Outline:
    points: list[Any] = []
    normals: list[Any] = []
    bends: list[Any] = []
    starts = [0]
    apart = max(STEP, math.fsum(ring.length for ring in rings) / _MOST)
    for ring in rings:
        corners = shapely.get_coordinates(ring)
        step = np.diff(corners, axis=0)
        length = np.hypot(step[:, 0], step[:, 1])
        kept = length > 1e-9
        begins, step, length = corners[:-1][kept], step[kept], length[kept]
        turns = _turns(step)
        share, which = _places(length, turns, apart)
        way = step[which] / length[which][:, None]
        at_start, at_end = share < 2 * _CLOSE, share > 1.0 - 2 * _CLOSE
        bends.append(np.where(at_start, turns[which], np.where(at_end, np.roll(turns, -1)[which], 0)))
        points.append(begins[which] + step[which] * share[:, None])
        normals.append(np.column_stack((-way[:, 1], way[:, 0])))  # ink lies to the left
        starts.append(starts[-1] + len(which))
    bend = np.concatenate(bends)
    return _Outline(np.concatenate(points), np.concatenate(normals), np.where(bend == 2, 0, bend), tuple(starts))


def _places(length: Any, turns: Any, apart: float) -> tuple[Any, Any]:
    """Where a ring is looked at: evenly all round, so far apart, and close to its corners, where waists are.

    As the share of a side, and the number of the side; a short side stands for all of itself.
    """
    ends = np.cumsum(length)
    around = float(ends[-1])
    count = max(math.ceil(around / apart), 8)
    even = (np.arange(count) + 0.5) * around / count
    which = np.minimum(np.searchsorted(ends, even, side="right"), len(length) - 1)
    share = np.where(length[which] > apart, 1.0 - (ends[which] - even) / length[which], 0.5)
    share = np.clip(share, 3 * _CLOSE, 1.0 - 3 * _CLOSE)
    corners = np.nonzero(np.abs(turns) == 1)[0]
    corners = corners[:: 3 * len(corners) // _MOST + 1]
    which = np.concatenate((which, corners, (corners - 1) % len(length)))
    share = np.concatenate((share, np.full(len(corners), _CLOSE), np.full(len(corners), 1.0 - _CLOSE)))
    order = np.lexsort((share, which))
    return share[order], which[order]


def _turns(step: Any) -> Any:
    """Which way a ring bends at the start of each side: 1 round the ink, -1 the other way, 2 hardly at all."""
    last = np.roll(step, 1, axis=0)
    turn = np.arctan2(last[:, 0] * step[:, 1] - last[:, 1] * step[:, 0], np.einsum("ij,ij->i", last, step))
    return np.where(np.abs(turn) < _SMOOTH, 2, np.sign(turn).astype(int))


def _stretches(outline: _Outline) -> tuple[list[list[_Stretch]], list[list[_Stretch]]]:
    """The pieces of the axis in the ink and of that out of it, each ring in its order."""
    points, normals = outline.points, outline.normals
    ahead = normals @ points.T - np.einsum("ij,ij->i", normals, points)[:, None]
    norms = np.einsum("ij,ij->i", points, points)
    square = np.maximum(norms[:, None] + norms[None, :] - 2.0 * (points @ points.T), 0.0)
    return list(_axis(outline, ahead, square, 1)), list(_axis(outline, -ahead, square, -1))


def _axis(outline: _Outline, ahead: Any, square: Any, side: int) -> Iterator[list[_Stretch]]:
    radius, touching = _discs(outline, ahead, square, side)
    centres = outline.points + outline.normals * (side * np.where(np.isfinite(radius), radius, 0.0))[:, None]
    for start, stop in zip(outline.starts, outline.starts[1:], strict=False):
        here, normals, wide, across = (each[start:stop] for each in (centres, outline.normals, 2.0 * radius, touching))
        ways = np.roll(here, -1, axis=0) - here
        corner = np.einsum("ij,ij->i", normals, np.roll(normals, -1, axis=0)) < _CORNER
        discs = np.where(corner, np.inf, np.maximum(wide, np.roll(wide, -1)))
        every = discs.tolist()
        widths = _without_points(np.where(across & np.roll(across, -1), discs, np.inf).tolist(), every)
        either = across | np.roll(across, -1)
        ring = zip(every, widths, np.hypot(ways[:, 0], ways[:, 1]).tolist(), either.tolist(), strict=True)
        yield [_Stretch(*each) for each in ring]


def _without_points(widths: list[float], discs: Sequence[float]) -> list[float]:
    """The widths round a ring, inf too where they only get smaller up to an end."""
    count = len(widths)
    found = list(widths)
    for place in range(count):
        for way in (1, -1):
            if math.isinf(widths[(place - way) % count]) and math.isfinite(widths[place]):
                for pointed in _point(widths, discs, place, way):
                    found[pointed] = math.inf
    return found


def _point(widths: Sequence[float], discs: Sequence[float], end: int, way: int) -> Sequence[int]:
    """The places that belong to the point at an end of the axis; none where there is no point."""
    thick = _rising(widths, end, way)
    top = widths[thick[-1]]
    if widths[end] >= _TAPERS * top and widths[end] < _LEVEL * top:
        # Its sides may no longer be across from each other close to the corner, where the discs get smaller still.
        end = _rising([-disc for disc in discs], end, -way)[-1]
    return thick if discs[end] < _TAPERS * top else ()


def _rising(values: Sequence[float], start: int, way: int) -> list[int]:
    """The places from one on, one way round a ring, as far as no value is smaller than the one before."""
    places = [start]
    while len(places) < len(values):
        last = places[-1]
        place = (last + way) % len(values)
        if math.isinf(values[place]) or values[place] < values[last] - _EVEN:
            break
        places.append(place)
    return places


def _discs(outline: _Outline, ahead: Any, square: Any, side: int) -> tuple[Any, Any]:
    """The radius of the disc on each point, and whether it touches the side across."""
    points, normals, bend = outline.points, outline.normals * side, outline.bend * side
    radius = np.full(square.shape, np.inf)
    np.divide(square, 2.0 * ahead, out=radius, where=ahead > 1e-9)
    touched = radius.argmin(axis=1)
    rows = np.arange(len(points))
    minimum = radius[rows, touched]
    over = ahead[rows, touched]
    aside = np.sqrt(np.maximum(square[rows, touched] - over * over, 0.0))
    against = np.einsum("ij,ij->i", normals, normals[touched])
    smooth = bend[touched] >= 0
    # But for corners that bend towards it, the disc touches the side across between its points.
    between = np.einsum("ij,ij->i", points - points[touched], normals[touched]) / (1.0 - np.minimum(against, 0.0))
    minimum = np.where(smooth & (against < -0.5) & (between > 0), np.minimum(minimum, between), minimum)
    opposite = aside <= _OPPOSITE * over + np.where(smooth, STEP, STEP / 2)
    # Next to a corner that bends towards the disc, it is the corner that holds it small.
    across = np.isfinite(minimum) & opposite & (bend <= 0) & (~smooth | (against <= -_PARALLEL))
    return minimum, across
