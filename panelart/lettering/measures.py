"""The thinnest stroke and the narrowest gap of set words, and the heights of a font's letters.

Method. A disc is laid against the outline from within, at every point of it, and grown until it touches the outline
somewhere else. (Discs of that kind have their centres on the medial axis.) Where it touches on the other side and
the discs on either side of it are no smaller, there is a neck, and its diameter is the width of the stroke; from
without it is the width of a gap. Where discs only get smaller up to a point, a stroke ends or two strokes run
together, which is neither a thin stroke nor a narrow gap. A dot is as thin as the largest disc in it, and a counter
as narrow. Gaps between letters are the distances of their outlines.

Error. Outlines are taken as chords that stray by at most 0.0001 of the cap height, with a point at least every 0.03;
the smallest discs found are then held against points 0.004 apart. Against shapes of known width the result
is right to 0.002 of the cap height (0.006 mm at 3 mm): tests/lettering/test_measures.py.
"""

from __future__ import annotations

import math
import struct
from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from itertools import pairwise, product
from typing import Any, Final

import numpy as np
import shapely
from shapely.algorithms.polylabel import polylabel

from panelart.canonical import Struct
from panelart.geometry import Box, Point
from panelart.geometry.distinct import distinct
from panelart.lettering.flat import flattened
from panelart.lettering.fonts import Font, open_font
from panelart.lettering.glyph_widths import stored_widths
from panelart.lettering.motion import Motion, moved
from panelart.lettering.outline import Shape, bounds
from panelart.lettering.own_faces import FOLDER, PLAIN, own_face
from panelart.lettering.setting import Letter, Setting
from panelart.source.built import Row, Table

_CHORD: Final = 0.0001
_STEP: Final = 0.03
_DECIMALS: Final = 3
"""To so many decimals of a font unit the places of letters to each other are told apart."""
_OPPOSITE: Final = math.tan(math.radians(10.0))
"""A disc touches the other side where that touch lies across from where it stands, to so much aside; and to half the
distance of the points that are looked at."""
_REACH: Final = 3
"""So many discs on either side of a neck are no smaller."""
_ALIKE: Final = 0.004
"""Discs whose diameters differ by less than this are of one size."""
_ROUND: Final = 0.2
"""Two touches with less outline than this between them lie on either side of a point, over the cap height."""
_CANDIDATES: Final = 24
_BATCH: Final = 8
_DENSE: Final = 0.004
"""Distance of the points that the smallest discs are held against in the end; they are too large by 1e-4 at most."""
_BESIDE: Final = 0.012
"""What lies no farther along the outline is beside a disc's own place and not across from it."""
_SMOOTH: Final = math.radians(8.0)
"""A corner that turns by less is a place between chords of one curve."""
_CLOSE: Final = 1e-3
"""The share of a side that its first and last points keep from the corners."""


class Widths(Struct, frozen=True, kw_only=True):
    """The thinnest stroke of ink and the narrowest gap in it, in mm or as shares of the cap height; inf for none."""

    stroke: float
    gap: float

    def scaled(self, by: float) -> Widths:
        """The widths at another size."""
        return Widths(stroke=self.stroke * by, gap=self.gap * by)

    def minimum(self, other: Widths) -> Widths:
        """The narrower of each."""
        return Widths(stroke=min(self.stroke, other.stroke), gap=min(self.gap, other.gap))


NONE: Final = Widths(stroke=math.inf, gap=math.inf)


class Heights(Struct, frozen=True, kw_only=True):
    """Heights of a font's letters over its cap height; None for what it does not have."""

    figures: float | None
    small: float | None
    ascender: float | None
    descender: float | None


def heights(font: Font) -> Heights:
    """Measured on the outlines of 1, x, l and p (tail), all flat at the ends that count in most faces."""
    number = font.number("p")
    tail = None if number is None else font.box(number)
    return Heights(
        figures=font.height_of("1"),
        small=font.height_of("x"),
        ascender=font.height_of("l"),
        descender=None if tail is None else -tail.bottom / font.cap_units,
    )


def widths(setting: Setting) -> Widths:
    """The thinnest stroke and the narrowest gap of words as they are set, in mm, before any field is taken off.

    For words left out of a field the strokes are what stays bare, and the gaps the ink between.
    """
    found = NONE
    for letter in setting.letters:
        found = found.minimum(_glyph_widths(letter.font, letter.number).scaled(_size(letter)))
    inked = [letter for letter in setting.letters if open_font(letter.font).box(letter.number) is not None]
    for at_least, one, other in sorted(_with_least_gaps(inked), key=lambda pair: pair[0]):
        if at_least > found.gap:
            break
        found = found.minimum(Widths(stroke=math.inf, gap=_apart(one, other)))
    for loop in setting.strokes:
        box = bounds((loop,))
        bar = shapely.Polygon(flattened(loop))
        under = [_ground(letter) for letter in inked if _span_meets(letter, box)]
        gap = min((float(shapely.distance(bar, ground)) for ground in under), default=math.inf)
        found = found.minimum(Widths(stroke=_bar_width(loop_area=bar), gap=gap))
    return found


def smallest_cap_height(setting: Setting, *, stroke_minimum: float, gap_minimum: float) -> float:
    """The cap height from which on these words in this font keep both least widths, in mm."""
    found = widths(setting)
    return setting.cap_height * max(stroke_minimum / found.stroke, gap_minimum / found.gap)


def _size(letter: Letter) -> float:
    return letter.scale * open_font(letter.font).cap_units


def _bar_width(loop_area: Any) -> float:
    # A long strip, straight or bent: twice its area over its outline, less its ends, is its width.
    length = shapely.length(loop_area) / 2
    area = shapely.area(loop_area)
    return float((length - math.sqrt(max(length * length - 4 * area, 0.0))) / 2)


def _span_meets(letter: Letter, box: Box) -> bool:
    font = open_font(letter.font)
    ink = font.box(letter.number)
    if ink is None or letter.turn:
        return ink is not None
    return letter.x + ink.left * letter.scale < box.right and letter.x + ink.right * letter.scale > box.left


def _neighbours(letters: list[Letter]) -> list[tuple[Letter, Letter]]:
    """Letters next to each other, and a mark with the one after it: those one or two places apart on a line."""
    pairs = list(pairwise(letters))
    pairs += list(zip(letters, letters[2:], strict=False))
    return pairs


def _with_least_gaps(letters: list[Letter]) -> Iterator[tuple[float, Letter, Letter]]:
    """Neighbours with what is at least between them, as far as the boxes of their ink tell it."""
    for one, other in _neighbours(letters):
        first, second = _box(one), _box(other)
        apart = 0.0 if first is None or second is None else first.gap(second)
        yield apart - 2 * 10**-_DECIMALS * max(one.scale, other.scale), one, other


def _box(letter: Letter) -> Box | None:
    """The box of a letter's ink, None for one that is turned."""
    ink = open_font(letter.font).box(letter.number)
    if ink is None or letter.turn:
        return None
    x, y, scale = letter.x, letter.y, letter.scale
    return Box(x + ink.left * scale, y + ink.bottom * scale, x + ink.right * scale, y + ink.top * scale)


def _apart(one: Letter, other: Letter) -> float:
    """The gap between two letters; inf where they meet, since letters that join are one."""
    if one.font == other.font and one.scale == other.scale and not one.turn and not other.turn:
        scale = one.scale
        dx, dy = round((other.x - one.x) / scale, _DECIMALS), round((other.y - one.y) / scale, _DECIMALS)
        return _pair_gap(one.font, one.number, other.number, dx, dy) * scale
    gap = float(shapely.distance(_ground(one), _ground(other)))
    return gap if gap > 0 else math.inf


@lru_cache(maxsize=8192)
def _pair_gap(font_name: str, one: int, other: int, dx: float, dy: float) -> float:
    """The gap between two glyphs of a font, the other's origin at (dx, dy), in font units."""
    own = own_face(font_name)
    if own is not None and dy == 0.0 and dx == own.step(one, other):
        kept = _kept_gaps(font_name).get((one, other))
        if kept is not None:
            return kept
    return _measured_gap(font_name, one, other, dx, dy)


_COMMON: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,:/+-"
"""Characters whose gaps to each other, as they follow each other in our own fonts, are kept in the index."""


@cache
def _kept_gaps(font_name: str) -> Mapping[tuple[int, int], float]:
    """The gaps between common glyphs in font units, by first and second; none where the index knows none."""
    own, kept = own_face(font_name), GAPS.get(font_name)
    if own is None or kept is None:
        return {}
    numbers = [own.numbers[letter] for letter in _COMMON]
    return dict(zip(product(numbers, numbers), struct.unpack(f"<{len(kept) // 8}d", kept), strict=True))


def _gap_rows() -> Iterator[Row]:
    from panelart.lettering.measured_faces import own_face_of_file  # it loads what a check does not need

    for name, file in PLAIN.items():
        own = own_face(name) or own_face_of_file(name)
        numbers = [own.numbers[letter] for letter in _COMMON]
        gaps = [
            _measured_gap(name, one, other, float(own.step(one, other)), 0.0)
            for one, other in product(numbers, numbers)
        ]
        yield name, f"{FOLDER}/{file}", struct.pack(f"<{len(gaps)}d", *gaps)


GAPS: Final = Table(
    name="gaps",
    type=bytes,
    code=tuple(
        f"lettering/{module}.py" for module in ("flat", "fonts", "measured_faces", "measures", "outline", "own_faces")
    ),
    make=_gap_rows,
)


def _measured_gap(font_name: str, one: int, other: int, dx: float, dy: float) -> float:
    first, second = _drawn(font_name, one), _drawn(font_name, other)
    gap = float(shapely.distance(first, shapely.transform(second, lambda points: points + np.array([dx, dy]))))
    return gap if gap > 0 else math.inf


def _ground(letter: Letter) -> Any:
    motion = Motion(Point(letter.x, letter.y), letter.turn, letter.scale)
    return ink(moved(open_font(letter.font).outline(letter.number), motion), _CHORD * _size(letter))


@lru_cache(maxsize=2048)
def _drawn(font_name: str, number: int) -> Any:
    font = open_font(font_name)
    ground = ink(font.outline(number), _CHORD * font.cap_units)
    shapely.prepare(ground)
    return ground


@lru_cache(maxsize=4096)
def _glyph_widths(font_name: str, number: int) -> Widths:
    """Of one glyph, over the cap height: as kept for fonts of our own, else measured."""
    kept = stored_widths(font_name).get(number)
    return measured_glyph(font_name, number) if kept is None else Widths(stroke=kept[0], gap=kept[1])


def measured_glyph(font_name: str, number: int) -> Widths:
    """The widths of one glyph over the cap height, measured on its outline."""
    font = open_font(font_name)
    outline = font.outline(number)
    if not outline:
        return NONE
    return shape_widths(moved(outline, Motion(Point(0.0, 0.0), 0.0, 1.0 / font.cap_units)))


def ink(shape: Shape, chord: float) -> Any:
    """The ground inside loops by the non-zero rule, for fonts of either sense: holes run against their letter."""
    rings = [ring for loop in shape if len(ring := flattened(loop, chord)) >= 3]
    if len(rings) == 1:
        return _valid(rings[0])
    senses: tuple[list[Any], list[Any]] = ([], [])
    for ring in rings:
        senses[_area(ring) > 0].append(_valid(ring))
    one, other = (shapely.union_all(grounds) for grounds in senses)
    return shapely.symmetric_difference(one, other)


def _valid(ring: list[Point]) -> Any:
    ground = shapely.Polygon(ring)
    return ground if ground.is_valid else shapely.make_valid(ground)


def _area(ring: list[Point]) -> float:
    points = np.array(ring)
    after = np.roll(points, -1, axis=0)
    return float((points[:, 0] * after[:, 1] - after[:, 0] * points[:, 1]).sum() / 2)


def shape_widths(shape: Shape) -> Widths:
    """The thinnest stroke and the narrowest gap within a shape whose capitals are 1 high."""
    ground = ink(shape, _CHORD)
    pieces = [
        shapely.geometry.polygon.orient(piece) for piece in shapely.get_parts(ground) if piece.geom_type == "Polygon"
    ]
    if not pieces:
        return NONE
    rings = [ring for piece in pieces for ring in (piece.exterior, *piece.interiors)]
    outline = _outline(rings)
    dense = _dense(rings)
    counters = [shapely.Polygon(hole) for piece in pieces for hole in piece.interiors]
    return Widths(
        stroke=min(_minimum_neck(outline, 1, dense), *map(_roundest, pieces)),
        gap=min(_minimum_neck(outline, -1, dense), *map(_roundest, counters), math.inf),
    )


def _roundest(ground: Any) -> float:
    """The diameter of the largest disc in a piece of ink or a counter."""
    left, bottom, right, top = ground.bounds
    # A disc is no larger than its box; where that is wide, necks tell more and the search is saved.
    if min(right - left, top - bottom) > _WIDE:
        return math.inf
    middle = polylabel(ground, tolerance=0.001)
    return 2.0 * float(shapely.distance(middle, shapely.boundary(ground)))


_WIDE: Final = 0.5


class _Outline(Struct, frozen=True):
    """Points along an outline, none on corners, with the normals into the ink, ring by ring.

    `ring` numbers the rings, `along` is the way from the ring's start and `around` the length of the ring; `before`
    and `after` are the neighbours on the ring. `bend` is 1 next to a corner that bends round the ink, -1 next to one
    that the ink bends round, 0 elsewhere.
    """

    points: Any
    normals: Any
    ring: Any
    along: Any
    around: Any
    before: Any
    after: Any
    bend: Any


def _outline(rings: list[Any]) -> _Outline:
    points: list[Any] = []
    normals: list[Any] = []
    numbers: list[Any] = []
    ways: list[Any] = []
    lengths: list[Any] = []
    before: list[Any] = []
    after: list[Any] = []
    bends: list[Any] = []
    total = 0
    for number, ring in enumerate(rings):
        corners = shapely.get_coordinates(ring)
        step = np.diff(corners, axis=0)
        length = np.hypot(step[:, 0], step[:, 1])
        kept = length > 1e-9
        starts, step, length = corners[:-1][kept], step[kept], length[kept]
        share, which = _places(length, _turns(step))
        way = step[which] / length[which][:, None]
        turns = _turns(step)
        at_start, at_end = share < 2 * _CLOSE, share > 1.0 - 2 * _CLOSE
        bends.append(np.where(at_start, turns[which], np.where(at_end, np.roll(turns, -1)[which], 0)))
        points.append(starts[which] + step[which] * share[:, None])
        normals.append(np.column_stack((-way[:, 1], way[:, 0])))  # ink lies to the left
        ways.append((np.cumsum(length) - length)[which] + length[which] * share)
        numbers.append(np.full(len(which), number))
        lengths.append(np.full(len(which), length.sum()))
        place = np.arange(len(which))
        before.append(total + np.roll(place, 1))
        after.append(total + np.roll(place, -1))
        total += len(which)
    return _Outline(*(np.concatenate(each) for each in (points, normals, numbers, ways, lengths, before, after, bends)))


def _places(length: Any, turns: Any) -> tuple[Any, Any]:
    """Where a ring is looked at: evenly all round, and close to its corners, where waists are.

    As the share of a side, and the number of the side; a short side stands for all of itself.
    """
    ends = np.cumsum(length)
    around = float(ends[-1])
    count = max(math.ceil(around / _STEP), 8)
    even = (np.arange(count) + 0.5) * around / count
    which = np.minimum(np.searchsorted(ends, even, side="right"), len(length) - 1)
    share = np.where(length[which] > _STEP, 1.0 - (ends[which] - even) / length[which], 0.5)
    share = np.clip(share, 3 * _CLOSE, 1.0 - 3 * _CLOSE)
    corners = np.nonzero(np.abs(turns) == 1)[0]
    which = np.concatenate((which, corners, (corners - 1) % len(length)))
    share = np.concatenate((share, np.full(len(corners), _CLOSE), np.full(len(corners), 1.0 - _CLOSE)))
    order = np.lexsort((share, which))
    return share[order], which[order]


def _turns(step: Any) -> Any:
    """Which way a ring bends at the start of each side: 1 round the ink, -1 the other way, 2 hardly at all."""
    last = np.roll(step, 1, axis=0)
    turn = np.arctan2(last[:, 0] * step[:, 1] - last[:, 1] * step[:, 0], np.einsum("ij,ij->i", last, step))
    return np.where(np.abs(turn) < _SMOOTH, 2, np.sign(turn).astype(int))


def _minimum_neck(outline: _Outline, side: int, dense: _Dense) -> float:
    """The smallest diameter of the discs in necks, in the ink (1) or out of it (-1); inf where there is none."""
    points, normals = outline.points, outline.normals * side
    ahead, square = _seen(points, normals, points)
    radius = np.full(square.shape, np.inf)
    np.divide(square, 2.0 * ahead, out=radius, where=ahead > 1e-9)
    touched = radius.argmin(axis=1)
    rows = np.arange(len(points))
    minimum = radius[rows, touched]
    over = ahead[rows, touched]
    aside = np.sqrt(np.maximum(square[rows, touched] - over * over, 0.0))
    # Next to a corner that bends towards the disc, it is the corner that holds it small.
    free = (outline.bend == 0) | (outline.bend == -side)
    facing = np.isfinite(minimum) & (aside <= _OPPOSITE * over + _STEP / 2) & free
    apart = np.abs(outline.along - outline.along[touched])
    way_round = np.minimum(apart, outline.around - apart)
    neck = facing & ((outline.ring != outline.ring[touched]) | (way_round > np.minimum(_ROUND, 0.3 * outline.around)))
    sized = np.where(facing, minimum, np.inf)
    back, on = rows, rows
    for _ in range(_REACH):
        back, on = outline.before[back], outline.after[on]
        neck &= (sized <= sized[back] + _ALIKE) & (sized <= sized[on] + _ALIKE)
    if not neck.any():
        return math.inf
    # The discs found are too large where points across lie aside, which can pass for a neck where one does not.
    best = math.inf
    order = rows[neck][np.argsort(minimum[neck], kind="stable")[:_CANDIDATES]]
    for start in range(0, len(order), _BATCH):
        batch = order[start : start + _BATCH]
        if float(minimum[batch[0]]) - (_STEP / 2) ** 2 / (4.0 * best) > best:
            break  # what follows is larger, however far its points lie from those across
        asked = np.concatenate((batch, back[batch], on[batch]))
        sizes = _exact(outline, asked, normals, dense)
        here, before, after = np.where(free[asked], sizes, np.inf).reshape(3, -1)
        necks = here[(here <= before + _ALIKE / 2) & (here <= after + _ALIKE / 2)]
        best = min(best, float(necks.min(initial=math.inf)))
    return 2.0 * best


def _seen(points: Any, normals: Any, others: Any) -> tuple[Any, Any]:
    """How far each other point lies ahead of each point along its normal, and the squares of their distances."""
    ahead = normals @ others.T - np.einsum("ij,ij->i", normals, points)[:, None]
    norms, far = (np.einsum("ij,ij->i", each, each) for each in (points, others))
    return ahead, np.maximum(norms[:, None] + far[None, :] - 2.0 * (points @ others.T), 0.0)


def _exact(outline: _Outline, rows: Any, normals: Any, dense: _Dense) -> Any:
    """The radii of the discs on some of the points, against the dense points."""
    points = outline.points[rows]
    ahead, square = _seen(points, normals[rows], dense.points)
    way = np.abs(dense.along[None, :] - outline.along[rows][:, None])
    around = outline.around[rows][:, None]
    beside = (dense.ring[None, :] == outline.ring[rows][:, None]) & (np.minimum(way, around - way) < _BESIDE)
    radius = np.full(square.shape, np.inf)
    np.divide(square, 2.0 * ahead, out=radius, where=(ahead > 1e-9) & ~beside)
    return radius.min(axis=1)


class _Dense(Struct, frozen=True):
    """Points of an outline so close to each other: the ring each is on and the way along it."""

    points: Any
    ring: Any
    along: Any


def _dense(rings: list[Any]) -> _Dense:
    points, numbers, ways = [], [], []
    for number, ring in enumerate(rings):
        corners = shapely.get_coordinates(ring)
        step = np.diff(corners, axis=0)
        ends = np.concatenate(([0.0], np.cumsum(np.hypot(step[:, 0], step[:, 1]))))
        even = np.linspace(0.0, ends[-1], max(math.ceil(ends[-1] / _DENSE), 8), endpoint=False)
        way = distinct(np.concatenate((even, ends[:-1])))  # corners too, as necks are between corners
        points.append(np.column_stack([np.interp(way, ends, corners[:, axis]) for axis in (0, 1)]))
        numbers.append(np.full(len(way), number))
        ways.append(way)
    return _Dense(np.concatenate(points), np.concatenate(numbers), np.concatenate(ways))
