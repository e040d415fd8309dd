"""Where a person would put a part that has no place: into the gap of its row, beside its like, as in the group beside.

What stands on the panel already tells: a row or column that misses one, parts of a name family (S1, S2, S4), a like
part with the same neighbour, the mirror image of a like part, the corner that has no screw. Each is worth something
(`Worth`); a place is worth what tells for it, less what it takes from its neighbours. Of places that openings,
hardware and hands allow the one worth most comes first.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import pairwise
from typing import Final, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.checks.bodies import Body
from panelart.checks.inspection import limits_of
from panelart.drafting.blocks import Fixing, fixing_of, level_of
from panelart.drafting.measure import lettered_boxes
from panelart.drafting.separation import Area, Surroundings, area_between, box_area, corners_of
from panelart.geometry import Box, Point
from panelart.model.panel import Panel, Part

Numbers: TypeAlias = NDArray[np.float64]


class Worth(Struct, frozen=True, kw_only=True):
    """What tells for a place, and against it. Our choice, by what designers did on the demos."""

    between: float = 9.0
    """In the middle between the one before and the one after in its name family, of its kind."""
    next_in_row: float = 6.0
    """As far behind the last two as these are apart."""
    gap: float = 5.0
    """In the one gap of an even row or column."""
    as_beside: float = 7.0
    """To a neighbour as a like part is to the like neighbour of the same number or group."""
    witness: float = 3.0
    """The same for each further like part."""
    as_elsewhere: float = 3.0
    """To a neighbour as a like part is to any like neighbour."""
    mirrored: float = 2.0
    """The mirror image of a like part about the middle of the face."""
    corner: float = 9.0
    """The same of a fixing at the corners."""
    listed: float = 3.0
    """In the middle between those that are listed before and after it."""
    beside: float = 0.4
    """As near beside one of its own as legends let it."""
    in_order: float = 0.4
    """The same to the right of or below the one that is listed before it."""
    level: float = 1.5
    """The same, a display above what it shows, a connector below."""
    centred: float = 2.0
    """About the middle of the parts of its frame."""
    told: float = 5.0
    """Where a legend of its own that has a place says."""
    own_line: float = 2.5
    """In a row or column with a part of its kind, family or frame."""
    any_line: float = 1.0
    """In a row or column with any part."""
    flow: float = 1.5
    """In a row or column with a part that a flow line joins it to."""
    away: float = 0.06
    """Lost for each mm from the nearest of its family or frame, or those listed beside it."""
    out_of_frame: float = 0.12
    """The same of a part that stands in a frame."""
    strange_frame: float = 6.0
    """Lost in the frame of others."""
    crowding: float = 2.0
    """Lost for each neighbour whose legends or whose own it would have to push aside."""
    margin: float = 2.0
    """Lost where its legends do not fit between it and the edge."""


WORTH: Final = Worth()

SAME: Final = 0.3
"""Places that differ by no more are one, mm."""

IN_LINE: Final = 0.05
_EXACT: Final = 1e-6
_TIDY: Final = 0.01
"""What rounding a place to hundredths may take, mm."""
FAMILY: Final = 3
"""By how much the numbers of refs of one family differ at most."""

AIR: Final = 3.0
"""White between a part with its legends and the one beside it, mm: what looks right at capitals of 3 to 4 mm."""

_FARTHER: Final = 5.0
_WAYS: Final = (np.array([1.0, 0.0]), np.array([-1.0, 0.0]), np.array([0.0, 1.0]), np.array([0.0, -1.0]))
NEIGHBOURS: Final = 6
"""Neighbours of a like part that tell where it stands."""

WHITE: Final = 0.5
MANY: Final = 60
"""Lines of parts in each direction whose crossings are looked at."""


class Seat(Struct, frozen=True, kw_only=True):
    """A place for a part and those that follow it, in mm on the panel, and what it is worth."""

    at: Point
    worth: float


def seats(panel: Panel, refs: tuple[str, ...], loose: Sequence[str], maximum: int) -> list[Seat]:
    """The best places for a part and those that keep their distance from it, best first; none where it fits nowhere.

    `loose` are parts that stand nowhere yet and take no room.
    """
    return _Table(panel, refs, loose).best(maximum)


def ideal(panel: Panel, refs: tuple[str, ...], loose: Sequence[str]) -> Point:
    """The place that most tells for, though others are in the way; the middle of the face where nothing does."""
    found = _Table(panel, refs, loose).ideal()
    return panel.outline.bounds.centre if found is None else Point(*map(float, found))


class _Table:
    """A panel on which one part is looked for a place."""

    def __init__(self, panel: Panel, refs: tuple[str, ...], loose: Sequence[str]) -> None:
        self.panel = panel
        self.refs = refs
        self.part = panel.by_ref[refs[0]]
        self.standing = [part for part in panel.parts if part.ref not in loose and part.ref not in refs]
        self.at = {part.ref: np.array(part.at) for part in self.standing}
        self.around = Surroundings(panel, limits_of(panel))
        self.order = {part.ref: number for number, part in enumerate(panel.parts)}
        self.offsets = {ref: np.array(panel.by_ref[ref].at) - np.array(self.part.at) for ref in refs}

    # --- choosing

    def ideal(self) -> Numbers | None:
        """The place worth most, on the face but whatever is in the way."""
        told = list(self._told())
        spots = self._spots([at for at, _ in told])
        inside = np.ones(len(spots), dtype=bool)
        for ways, most in self._halves():
            inside &= (spots @ ways.T <= most + _EXACT).all(axis=1)
        spots = spots[inside]
        if not len(spots):
            return None
        at: Numbers = spots[int(np.argmax(np.round(self._worth(spots, told), 6)))]
        return at

    def best(self, maximum: int) -> list[Seat]:
        told = list(self._told())
        spots = self._spots([at for at, _ in told])
        found: list[Seat] = []
        if len(spots):
            worth = self._worth(spots, told)
            allowed = self._allowed(spots)
            order = np.lexsort((spots[:, 1], spots[:, 0], -np.round(worth, 6)))
            for number in order:
                if len(found) == maximum:
                    break
                at = spots[number]
                if allowed[number] and not any(_same(at, np.array(seat.at)) for seat in found):
                    found.append(Seat(at=Point(*map(float, at)), worth=float(worth[number])))
            if len(found) < maximum:
                found += self._nearest_free(spots[order[0]])
        return found[:maximum]

    def _nearest_free(self, ideal: Numbers) -> list[Seat]:
        """The free place nearest to where the part would stand best: in its row, in its column, anywhere."""
        free = shapely.buffer(self.free, -_TIDY) if self.free.area > _TIDY else self.free
        if free.is_empty:
            return []
        box = self.panel.outline.bounds
        row = shapely.LineString([(box.left, ideal[1]), (box.right, ideal[1])])
        column = shapely.LineString([(ideal[0], box.bottom), (ideal[0], box.top)])
        here = shapely.Point(*ideal)
        found: list[Seat] = []
        for way in (shapely.intersection(free, row), shapely.intersection(free, column), free):
            if not way.is_empty:
                at = shapely.Point(shapely.shortest_line(here, way).coords[1])
                found.append(Seat(at=Point(at.x, at.y), worth=-math.inf))
        return sorted(found, key=lambda seat: seat.at.distance(Point(*map(float, ideal))))

    @cached_property
    def free(self) -> shapely.Geometry:
        """All places at which openings, hardware and hands keep what they need."""
        box = self.panel.outline.bounds.grown(1.0)
        ground: shapely.Geometry = shapely.box(box.left, box.bottom, box.right, box.top)
        for ways, most in self._halves():
            for way, reach in zip(ways, most, strict=True):
                ground = shapely.intersection(ground, _half(way, float(reach), box))
        taken = [shapely.Polygon(corners_of(area) + by) for area, by in self._areas()]
        return shapely.difference(ground, shapely.union_all([shapely.convex_hull(one) for one in taken]))

    def _halves(self) -> Iterator[tuple[Numbers, Numbers]]:
        for ref, offset in self.offsets.items():
            ways, most = self.around.inside(ref)
            yield ways, most - ways @ offset

    def _areas(self) -> Iterator[tuple[Area, Numbers]]:
        """The areas that the place stays out of, each with where its origin is."""
        for ref, offset in self.offsets.items():
            for other in self.standing:
                for area in self.around.between(other.ref, ref):
                    yield area, self.at[other.ref] - offset
            for field in self.around.fields:
                for area in self.around.out_of(ref, field):
                    yield area, -offset

    def _allowed(self, spots: Numbers) -> NDArray[np.bool_]:
        allowed = np.ones(len(spots), dtype=bool)
        for ways, most in self._halves():
            allowed &= (spots @ ways.T <= most + _EXACT).all(axis=1)
        for area, by in self._areas():
            allowed &= (area.reaches - (spots - by) @ area.ways.T).min(axis=1) <= _EXACT
        return allowed

    def _spots(self, told: Sequence[Numbers]) -> Numbers:
        """What is told, and where rows and columns cross."""
        xs = _lines([at[0] for at in (*told, *self.at.values())])
        ys = _lines([at[1] for at in (*told, *self.at.values())])
        crossings = [np.array([x, y]) for x in xs for y in ys]
        spots = np.array([*told, *crossings]) if told or crossings else np.empty((0, 2))
        box = self.panel.outline.bounds
        on_face = ((spots >= (box.left, box.bottom)) & (spots <= (box.right, box.top))).all(axis=1)
        face: Numbers = spots[on_face]
        return face

    # --- what a place is worth

    def _worth(self, spots: Numbers, told: Sequence[tuple[Numbers, float]]) -> Numbers:
        worth = np.zeros(len(spots))
        for at, value in told:
            worth += value * (np.abs(spots - at).max(axis=1) <= SAME)
        worth += self._in_line(spots)
        worth -= self._away(spots)
        worth -= self._in_strange_frames(spots)
        worth -= self._crowding(spots)
        return worth

    def _in_line(self, spots: Numbers) -> Numbers:
        """Rows and columns that a place is in: the best reason in each."""
        worth = np.zeros(len(spots))
        for axis in (0, 1):
            best = np.zeros(len(spots))
            for other in self.standing:
                in_line = np.abs(spots[:, axis] - self.at[other.ref][axis]) <= IN_LINE
                best = np.maximum(best, in_line * self._line_worth(other))
            worth += best
        return worth

    def _line_worth(self, other: Part) -> float:
        value = WORTH.any_line
        if fixing_of(other.component) is not fixing_of(self.part.component):
            return 0.0
        if self._is_akin(other) or other in self._listed_beside:
            value = WORTH.own_line
        if other.ref in self._joined:
            value += WORTH.flow
        return value

    def _is_akin(self, other: Part) -> bool:
        return not self._is_foreign(other) and (
            other.component.name == self.part.component.name or self._is_of_family(other) or other.ref in self._mates
        )

    def _is_of_family(self, other: Part) -> bool:
        """Whether another part has the letters of its ref and nearly its number: S2 and S4, not S2 and S20."""
        (stem, number), (its, place) = _family(self.part.ref), _family(other.ref)
        return stem == its and (number is None or place is None or abs(number - place) <= FAMILY)

    def _is_foreign(self, other: Part) -> bool:
        """Whether another part stands in a frame that this one is not in."""
        return any(other.ref in frame.around and self.part.ref not in frame.around for frame in self.panel.frames)

    def _away(self, spots: Numbers) -> Numbers:
        near = [self.at[ref] for ref in self._near_ones]
        if not near:
            return np.zeros(len(spots))
        gone = np.min([np.linalg.norm(spots - at, axis=1) for at in near], axis=0)
        lost: Numbers = (WORTH.out_of_frame if self._mates else WORTH.away) * gone
        return lost

    @cached_property
    def _near_ones(self) -> list[str]:
        """Those that it belongs near: its frame, else its family, and who is listed beside it."""
        if self._mates:
            return sorted(self._mates)
        family = [one.ref for one in self.standing if self._is_of_family(one) and not self._is_foreign(one)]
        before, after = self._listed_beside
        return list(dict.fromkeys([*family, *(one.ref for one in (before, after) if one is not None)]))

    def _in_strange_frames(self, spots: Numbers) -> Numbers:
        lost = np.zeros(len(spots))
        for frame in self.panel.frames:
            if self.part.ref in frame.around:
                continue
            inside = [self.at[ref] for ref in frame.around if ref in self.at]
            if len(inside) < 2:  # one part has no area
                continue
            low, high = np.min(inside, axis=0) - frame.margin, np.max(inside, axis=0) + frame.margin
            lost += WORTH.strange_frame * ((spots >= low) & (spots <= high)).all(axis=1)
        return lost

    def _crowding(self, spots: Numbers) -> Numbers:
        """Legends of its own over neighbours, theirs over it, and its own over the edge."""
        lost = np.zeros(len(spots))
        own, bodies = self._words[self.part.ref], self.around.of(self.part.ref).covers
        for other in self.standing:
            covers, words = self.around.of(other.ref).covers, self._words[other.ref]
            areas = [box_area(two, one, WHITE) for one in own for two in words]
            areas += [area_between(body, _body(one), WHITE) for one in own for body in covers]
            areas += [area_between(_body(two), body, WHITE) for two in words for body in bodies]
            met = np.zeros(len(spots), dtype=bool)
            for area in areas:
                met |= (area.reaches - (spots - self.at[other.ref]) @ area.ways.T).min(axis=1) > SAME
            lost += WORTH.crowding * met
        if own:
            face, box = self.panel.outline.bounds, Box.around(own)
            low, high = (
                np.array([face.left - box.left, face.bottom - box.bottom]),
                np.array([face.right - box.right, face.top - box.top]),
            )
            lost += WORTH.margin * ~((spots >= low) & (spots <= high)).all(axis=1)
        return lost

    @cached_property
    def _words(self) -> Mapping[str, tuple[Box, ...]]:
        return lettered_boxes(self.panel)

    @cached_property
    def _mates(self) -> set[str]:
        """The parts in its frames that stand."""
        frames = [frame for frame in self.panel.frames if self.part.ref in frame.around]
        narrowest = min(frames, key=lambda frame: len(frame.around), default=None)
        return set() if narrowest is None else {ref for ref in narrowest.around if ref in self.at}

    @cached_property
    def _joined(self) -> set[str]:
        """The parts that flow lines join it to."""
        ends = [(*line.starts, *line.ends) for line in self.panel.lines]
        return {ref for some in ends if self.part.ref in some for ref in some if ref in self.at}

    # --- what tells

    def _told(self) -> Iterator[tuple[Numbers, float]]:
        yield from self._in_family()
        yield from self._in_gaps()
        yield from self._as_like_parts()
        yield from self._in_the_mirror()
        yield from self._beside()
        before, after = self._listed_beside
        if before is not None and after is not None:
            yield (self.at[before.ref] + self.at[after.ref]) / 2, WORTH.listed
        if self._mates:
            mates = np.array([self.at[ref] for ref in sorted(self._mates)])
            middle = (mates.min(axis=0) + mates.max(axis=0)) / 2
            for y in {float(at[1]) for at in mates}:
                yield np.array([middle[0], y]), WORTH.centred
            yield middle, WORTH.centred
        legend = self.part.legend
        at = None if legend is None else legend.texts[0].at
        if at is not None:
            for y in _lines([one[1] for one in self.at.values()]):
                yield np.array([at.x, y]), WORTH.told

    def _in_family(self) -> Iterator[tuple[Numbers, float]]:
        """Between the one before and the one after in its family, or as far behind the last two."""
        stem, number = _family(self.part.ref)
        if number is None:
            return
        family: dict[int, Part] = {}
        for other in self.standing:
            its, place = _family(other.ref)
            if its == stem and place is not None:
                family[place] = other
        for one, two, share, value in (
            (number - 1, number + 1, 0.5, WORTH.between),
            (number - 2, number - 1, 2.0, WORTH.next_in_row),
            (number + 2, number + 1, 2.0, WORTH.next_in_row),
        ):
            if one in family and two in family:
                yield from self._in_step(family[one], family[two], share, value)

    def _in_step(self, one: Part, two: Part, share: float, value: float) -> Iterator[tuple[Numbers, float]]:
        """At a share of the way from one part to another, where the three are alike or the two in one line."""
        alike = one.component.name == two.component.name == self.part.component.name
        a, b = self.at[one.ref], self.at[two.ref]
        if alike or _in_one_line(a, b):
            foreign = self._is_foreign(one) or self._is_foreign(two)
            yield a + share * (b - a), value * (1.0 if alike else 0.5) * (0.3 if foreign else 1.0)

    def _in_gaps(self) -> Iterator[tuple[Numbers, float]]:
        """The gaps of even rows and columns, and their ends, where half of the parts are of its kind or family."""
        for axis in (0, 1):
            lines: dict[float, list[Part]] = defaultdict(list)
            for part in self.standing:
                lines[round(float(self.at[part.ref][1 - axis]) / IN_LINE) * IN_LINE].append(part)
            for line in lines.values():
                akin = [part for part in line if self._is_akin(part)]
                listed = any(part in line for part in self._listed_beside if part is not None)
                if len(line) > 1 and (listed or len(akin) * 2 >= len(line)):
                    yield from self._gaps_of(sorted(line, key=lambda part: float(self.at[part.ref][axis])), axis)

    def _gaps_of(self, line: Sequence[Part], axis: int) -> Iterator[tuple[Numbers, float]]:
        places = [self.at[part.ref] for part in line]
        steps = [float(two[axis] - one[axis]) for one, two in pairwise(places)]
        pitch, count = Counter(round(step, 2) for step in steps).most_common(1)[0]
        if pitch <= SAME:
            return
        for one, two, step in zip(places, places[1:], steps, strict=False):
            if abs(step - 2 * pitch) <= SAME:
                yield (one + two) / 2, WORTH.gap * (1.0 if count > 1 or len(steps) > 1 else 0.4)
        value = WORTH.gap / 3
        yield places[-1] + (places[-1] - places[-2]), value
        yield places[0] - (places[1] - places[0]), value

    def _as_like_parts(self) -> Iterator[tuple[Numbers, float]]:
        """To a neighbour as a like part is to a like neighbour: S2 to H2 as S1 to H1."""
        votes: dict[tuple[float, float], float] = {}
        number = _family(self.part.ref)[1]
        for like in self._like:
            its = _family(like.ref)[1]
            share = 0.3 if self._is_foreign(like) else 1.0
            for one in self._round(like):
                for two in self._of_kind[one.component.name, _family(one.ref)[0]]:
                    if two is one or two is like:
                        continue
                    told = self._is_matched(like, one, two, its, number)
                    at = self.at[two.ref] + self.at[like.ref] - self.at[one.ref]
                    key = round(float(at[0]), 3), round(float(at[1]), 3)
                    value = share * (WORTH.as_beside if told else WORTH.as_elsewhere)
                    again = WORTH.witness if told and key in votes else 0.0
                    votes[key] = max(votes.get(key, 0.0), value) + again
        for key, value in votes.items():
            yield np.array(key), value

    def _round(self, like: Part) -> list[Part]:
        """The nearest neighbours of a part, none much farther than the nearest."""
        gone = {one.ref: float(np.linalg.norm(self.at[one.ref] - self.at[like.ref])) for one in self.standing}
        near = sorted((one for one in self.standing if one is not like), key=lambda one: (gone[one.ref], one.ref))
        return [one for one in near[:NEIGHBOURS] if gone[one.ref] <= 2.0 * gone[near[0].ref] + _FARTHER]

    def _is_matched(self, like: Part, one: Part, two: Part, its: int | None, number: int | None) -> bool:
        """Whether the neighbour has the part's number, as the like one's has its, or stands in its frame."""
        by_number = its is not None and (_family(one.ref)[1], _family(two.ref)[1]) == (its, number)
        with_like = any(like.ref in frame.around and one.ref in frame.around for frame in self.panel.frames)
        return by_number or (with_like and two.ref in self._mates)

    @cached_property
    def _like(self) -> list[Part]:
        return [part for part in self.standing if part.component.name == self.part.component.name]

    @cached_property
    def _of_kind(self) -> Mapping[tuple[str, str], list[Part]]:
        found: dict[tuple[str, str], list[Part]] = defaultdict(list)
        for part in self.standing:
            found[part.component.name, _family(part.ref)[0]].append(part)
        return found

    def _in_the_mirror(self) -> Iterator[tuple[Numbers, float]]:
        """The mirror images of like parts; fixings at the corners have little else that tells."""
        middle = self.panel.outline.bounds.centre
        fixing = fixing_of(self.part.component)
        if fixing is Fixing.STANDARD:
            yield np.array(middle), WORTH.corner
        corner = fixing in (Fixing.CORNER, Fixing.SIDE)
        for like in self._like:
            x, y = self.at[like.ref]
            over, under = 2 * middle.x - x, 2 * middle.y - y
            for at in ((over, y), (x, under), *(((over, under),) if corner else ())):
                yield np.array(at), WORTH.corner if corner else WORTH.mirrored

    def _beside(self) -> Iterator[tuple[Numbers, float]]:
        """Beside, above and below its own, with the white that legends take: after what is listed before it."""
        before, after = self._listed_beside
        near = [self.panel.by_ref[ref] for ref in self._near_ones]
        for other in near:
            for way in _WAYS:
                distance = math.ceil(self._clear(other, way) - _EXACT)
                forward = float(way[0] - way[1]) > 0.0
                in_order = (other is before and forward) or (other is after and not forward)
                value = WORTH.beside + (WORTH.in_order if in_order else 0.0)
                above = level_of(other.component) - level_of(self.part.component)
                yield self.at[other.ref] + way * distance, value + WORTH.level * (above * float(way[1]) > 0.0)

    def _clear(self, other: Part, way: Numbers) -> float:
        """How far in a direction the part keeps clear of another, legends and white included, mm."""
        ref = self.part.ref
        areas = list(self.around.between(other.ref, ref))
        own, words = self._words[ref], self._words[other.ref]
        covers, bodies = self.around.of(other.ref).covers, self.around.of(ref).covers
        areas += [box_area(two, one, AIR) for one in own for two in words]
        areas += [area_between(body, _body(one), AIR) for one in own for body in covers]
        areas += [area_between(_body(two), body, AIR) for two in words for body in bodies]
        ends = [0.0]
        for area in areas:
            along = area.ways @ way
            out = along > _EXACT
            # An area that the line in this direction does not meet is clear anyway.
            low = (area.reaches[~out] < 0.0) & (np.abs(along[~out]) <= _EXACT)
            if out.any() and not low.any():
                ends.append(float((area.reaches[out] / along[out]).min()))
        return max(ends)

    @cached_property
    def _listed_beside(self) -> tuple[Part | None, Part | None]:
        """The parts that stand next before and after it in the list."""
        here = self.order[self.part.ref]
        before = [part for part in self.standing if self.order[part.ref] < here]
        after = [part for part in self.standing if self.order[part.ref] > here]
        return (before[-1] if before else None), (after[0] if after else None)


def _family(ref: str) -> tuple[str, int | None]:
    """The letters of a ref and its number."""
    stem = ref.rstrip("0123456789")
    return (stem, int(ref[len(stem) :])) if stem != ref else (ref, None)


def _in_one_line(one: Numbers, two: Numbers) -> bool:
    return bool(np.abs(one - two).min() <= SAME)


def _same(one: Numbers, two: Numbers) -> bool:
    return bool(np.abs(one - two).max() <= SAME)


def _lines(values: Iterable[float]) -> list[float]:
    """The values that differ, those of most parts first."""
    counted = Counter(round(float(value), 3) for value in values)
    return [value for value, _ in sorted(counted.items(), key=lambda each: (-each[1], each[0]))][:MANY]


def _body(box: Box) -> Body:
    return Body(shapely.box(box.left, box.bottom, box.right, box.top))


def _half(way: Numbers, reach: float, box: Box) -> shapely.Geometry:
    """The half-plane in which a point goes no farther in a direction, as far as a box reaches."""
    far = 4.0 * (box.width + box.height) + abs(reach)
    across = np.array([-way[1], way[0]])
    edge = way * reach
    return shapely.Polygon(
        [
            edge + across * far,
            edge - across * far,
            edge - across * far - way * 2 * far,
            edge + across * far - way * 2 * far,
        ]
    )
