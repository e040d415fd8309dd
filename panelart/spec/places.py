"""The position of each part: measured from the datum, an edge, or other parts, in a chain that must end.

What has a place of its own is a part or a layout; the members of a layout follow from it. Repeats and mirrors carry
what stands in them: a place is reckoned as it is written, in the frame of the copy, and carried out of it last.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator, Mapping
from typing import Any, Final

from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean
from panelart.geometry import ORIGIN, Box, Point, Transform, Vector
from panelart.messages import Said
from panelart.messages import spec as spec_said
from panelart.messages import spec_places as said
from panelart.source.nouns import Noun
from panelart.source.problems import Problems
from panelart.source.schema import Field
from panelart.spec import arrange, language
from panelart.spec.arrange import Body
from panelart.spec.templates import filled
from panelart.spec.unroll import Arrangement, Draft, Level, Unit


class Spot(Struct, frozen=True, kw_only=True):
    """Where a part stands and how it is turned, on the panel; `carried` takes what is written in its copy there."""

    at: Point
    turn: float
    carried: Transform

    @property
    def flips_across(self) -> bool:
        """Whether left and right are exchanged."""
        return self.carried.a < 0

    @property
    def flips_upright(self) -> bool:
        """Whether above and below are exchanged."""
        return self.carried.d < 0


class PlacingContext(Struct, frozen=True, kw_only=True):
    """What places are reckoned from: the face, the datum on it, and what parts cover that are not turned.

    `covers` takes a draft and front, rear or both, and gives nothing for a part that is not known.
    """

    face: Box
    datum: Point
    covers: Callable[[Draft, str], Body | None]
    problems: Problems


def places(
    drafts: Mapping[str, Draft], units: tuple[Unit, ...], context: PlacingContext, *, complete: bool
) -> dict[str, Spot]:
    """The spot of each part by ref, from the lower-left corner; parts without a readable place are left out.

    A place that names no part, or leads back to itself, is a problem. When the refs are not `complete`, a part that
    is not there is passed over, since its own problem is told already.
    """
    surveyor = _Surveyor(drafts=drafts, units=units, context=context, complete=complete)
    for unit in surveyor.in_order():
        surveyor.put(unit)
    return surveyor.found


class _Tie(Struct, frozen=True):
    """One ref that a place is measured from."""

    ref: str
    where: Where
    whose: Said


class _End(Struct, frozen=True):
    """A part that others are distributed from: where it is and what it covers, as seen from its copy."""

    ref: str
    at: Point
    cover: Body | None


_AXES: Final = (language.PlaceByAxes.x, language.PlaceByAxes.y)

_WAYS: Final = (
    (language.PlaceAcross.from_, language.PlaceAcross.right_of, language.PlaceAcross.left_of),
    (language.PlaceAcross.from_, language.PlaceUpright.above, language.PlaceUpright.below),
)
"""For each axis the keys that say what is measured from: a centre, the far side, the near side."""

_LINES: Final = (language.ACROSS_LINES, language.UPRIGHT_LINES)


_Laid = tuple[tuple[Draft, Vector, float], ...]
"""The parts of a layout, each with its place about the anchor and how far the layout turns it."""


class _Surveyor:
    def __init__(
        self, *, drafts: Mapping[str, Draft], units: tuple[Unit, ...], context: PlacingContext, complete: bool
    ) -> None:
        self.drafts = drafts
        self.context = context
        self.complete = complete
        self.problems = context.problems
        self.found: dict[str, Spot] = {}
        self.units = units
        self.unit_of: dict[str, int] = {}
        for number, unit in enumerate(units):
            for draft in _drafts_of(unit):
                if draft.ref is not None and drafts.get(draft.ref) is draft:
                    self.unit_of[draft.ref] = number
        self.ties = [self._ties(unit) for unit in units]
        self._laid: dict[int, _Laid | None] = {}

    # --- the order in which places can be reckoned

    def in_order(self) -> Iterator[Unit]:
        """Every unit after those it is measured from; a ring of them is told and passed over."""
        done: set[int] = set()
        lost: set[int] = set()
        for first in range(len(self.units)):
            trail: list[int] = [first]
            on_trail = {first: 0}
            while trail:
                here = trail[-1]
                if here in done:
                    on_trail.pop(trail.pop(), None)
                    continue
                parents = [self.unit_of[tie.ref] for tie in self.ties[here]]
                waiting = next((parent for parent in parents if parent not in done), None)
                if waiting is None:
                    done.add(here)
                    if here not in lost and not any(parent in lost for parent in parents):
                        yield self.units[here]
                    else:
                        lost.add(here)
                elif waiting in on_trail:
                    ring = trail[on_trail[waiting] :]
                    self._report(ring)
                    lost.update(ring)
                    done.update(ring)
                else:
                    on_trail[waiting] = len(trail)
                    trail.append(waiting)

    def _ties(self, unit: Unit) -> list[_Tie]:
        written = list(self._written(unit))
        for level in unit.levels:
            if level.mirror is not None:
                for axis, key in enumerate((language.Mirror.x, language.Mirror.y)):
                    written += self._on_axis(level.mirror[key], axis, level.numbers, said.the_mirror())
        found: list[_Tie] = []
        for tie in written:
            if tie.ref in self.unit_of:
                found.append(tie)
            elif self.complete:
                names = (*self.drafts, *_LINES[0], *_LINES[1])
                known = did_you_mean(tie.ref, names if tie.ref.endswith("edge") else self.drafts, spec_said.refs())
                self.problems.add(tie.where, said.reference_unknown(tie.whose, tie.ref), known)
        return found

    def _written(self, unit: Unit) -> Iterator[_Tie]:
        """The refs that a unit's own keys name."""
        if isinstance(unit, Arrangement) and unit.kind == "distribute":
            for end in unit.fields[language.Distribute.between] or ():
                yield _Tie(filled(end.value, unit.numbers, end.where, self.problems), end.where, _name(unit))
            return
        at = unit.fields[language.Part.at]
        if isinstance(at, language.PlaceByAxes):
            for axis, key in enumerate(_AXES):
                yield from self._on_axis(at[key], axis, unit.numbers, _name(unit))
        elif isinstance(at, language.RelativePlace) and (ref := at.from_) is not None:
            where = at.where(language.RelativePlace.from_)
            yield _Tie(filled(ref, unit.numbers, where, self.problems), where, _name(unit))

    def _on_axis(self, written: Any, axis: int, numbers: Mapping[str, str], whose: Said) -> list[_Tie]:
        """The refs that a place on one axis names; ways that do not fit are told."""
        if not isinstance(written, Noun):
            return []
        way = self._way(written, _WAYS[axis])
        if way is None:
            return []
        ref, where = written[way], written.where(way)
        if ref is None:
            return []
        if ref in _LINES[axis]:
            accepted = _lines_for(axis, _WAYS[axis].index(way))
            if ref not in accepted:
                self.problems.add(where, said.edge_off_face(way.name, ref), said.edges(accepted))
            return []
        return [_Tie(filled(ref, numbers, where, self.problems), where, whose)]

    def _way(self, written: Noun, ways: tuple[Field[Any], ...]) -> Field[Any] | None:
        """The one key that says what is measured from; a distance that does not go with it is told."""
        named = [way for way in ways if written.written(way)]
        if len(named) != 1:
            found = said.several_references([way.name for way in named]) if named else said.no_reference()
            self.problems.add(written.begins, found, said.one_of_keys([way.name for way in ways]))
            return None
        way = named[0]
        by, gap = language.PlaceAcross.by, language.PlaceAcross.gap
        other, instead = (by, gap) if way is not ways[0] else (gap, by)
        if written.written(other):
            beside = said.key_beside_reference(other.name, way.name)
            self.problems.add(written.key_where(other), beside, said.key_instead(instead.name))
        return way

    def _report(self, ring: list[int]) -> None:
        """A ring is told once, at its member that is written first."""
        first = min(ring, key=lambda number: self.units[number].where)
        turn = ring.index(first)
        chain = [*ring[turn:], *ring[:turn], first]
        names = [_name(self.units[number]) for number in chain]
        told = names if len(names) <= _MAX_TOLD else [*names[:6], "...", *names[-5:]]
        tie = next(tie for tie in self.ties[first] if self.unit_of[tie.ref] == chain[1])
        self.problems.add(
            tie.where,
            said.circular_positions(functools.reduce(said.measured_from, told)),
            said.position_from_datum(),
        )

    # --- frames of copies

    def frame(self, levels: tuple[Level, ...]) -> Transform | None:
        """What carries a place as it is written within some copies to the panel."""
        carried = Transform()
        for depth in range(len(levels), 0, -1):
            own = self._level(levels[depth - 1], levels[: depth - 1])
            if own is None:
                return None
            carried = carried.then(own)
        return carried

    def _level(self, level: Level, outside: tuple[Level, ...]) -> Transform | None:
        if level.mirror is None:
            return Transform.move(level.moved.x, level.moved.y)
        for axis, key in enumerate((language.Mirror.x, language.Mirror.y)):
            if level.mirror.written(key):
                line = self._axis_place(level.mirror[key], axis, level.numbers, outside, Body())
                if line is None:
                    return None
                return Transform.mirror_x(line) if axis == 0 else Transform(d=-1.0, f=2 * line)
        return None

    def seen(self, ref: str, levels: tuple[Level, ...], what: str = "front") -> tuple[Point, Body | None] | None:
        """Where a part is and what it covers about itself, as seen from within some copies."""
        spot = self.found.get(ref)
        if spot is None:
            return None
        draft = self.drafts[ref]
        shared = levels[: _shared(levels, draft.levels)]
        frame = self.frame(shared)
        if frame is None:
            return None
        cover = self.context.covers(draft, what)
        turn = -spot.turn if frame.mirrors else spot.turn
        return frame.inverse().apply(spot.at), None if cover is None else cover.turned(turn)

    # --- places

    def put(self, unit: Unit) -> None:
        """Give a part, or all parts of a layout, their spots."""
        carried = self.frame(unit.levels)
        if carried is None:
            return
        if isinstance(unit, Draft):
            at = self._at(unit, self._cover(unit, "front"))
            if at is not None:
                self._stand(unit, at, 0.0, carried)
            return
        laid = self._lay(unit)
        if laid is None:
            return
        anchor = ORIGIN if unit.kind == "distribute" else self._at(unit, self._whole(unit, "front"))
        if anchor is not None:
            for draft, place, turned in laid:
                self._stand(draft, anchor.moved(place), turned, carried)

    def _stand(self, draft: Draft, at: Point, turned: float, carried: Transform) -> None:
        if draft.ref is None or self.drafts.get(draft.ref) is not draft:
            return
        turn = draft.fields.turn + turned
        self.found[draft.ref] = Spot(
            at=carried.apply(at), turn=(-turn if carried.mirrors else turn) + 0.0, carried=carried
        )

    def _at(self, unit: Unit, cover: Body | None) -> Point | None:
        """Where the anchor of a unit is as it is written, before its copies carry it."""
        at = unit.fields[language.Part.at]
        datum = self.context.datum
        if isinstance(at, tuple):
            return datum.moved(Vector(*at))
        if at is None:
            return None
        if isinstance(at, language.PlaceByAxes):
            x, y = (self._axis_place(at[key], axis, unit.numbers, unit.levels, cover) for axis, key in enumerate(_AXES))
            return None if x is None or y is None else Point(x, y)
        ref, by = at.from_, at.by
        if ref is None or by is None:
            return None
        start = self.seen(filled(ref, unit.numbers, at.where(language.RelativePlace.from_), self.problems), unit.levels)
        return None if start is None else start[0].moved(Vector(*by))

    def _axis_place(
        self, written: Any, axis: int, numbers: Mapping[str, str], levels: tuple[Level, ...], cover: Body | None
    ) -> float | None:
        """A place on one axis, in mm from the lower-left corner; `cover` is what stands there."""
        if isinstance(written, float):
            return self.context.datum[axis] + written
        if not isinstance(written, language.PlaceAcross | language.PlaceUpright):
            return None
        way = next((number for number, key in enumerate(_WAYS[axis]) if written.written(key)), None)
        name = None if way is None else written[_WAYS[axis][way]]
        if way is None or name is None:
            return None
        reach = self._reach(name, written.where(_WAYS[axis][way]), axis, way, numbers, levels)
        if reach is None:
            return None
        if way == 0:
            return reach[0] + written.by
        if cover is None:
            return None
        own = _span(cover.reach, axis)
        clear = written.gap
        return reach[1] + clear - own[0] if way == 1 else reach[0] - clear - own[1]

    def _reach(
        self, name: str, where: Where, axis: int, way: int, numbers: Mapping[str, str], levels: tuple[Level, ...]
    ) -> tuple[float, float] | None:
        """Both sides, on one axis, of what is measured from; where that is a centre or a line, both are it."""
        if name in _LINES[axis]:
            if name not in _lines_for(axis, way):
                return None
            low, high = _span(self.context.face, axis)
            line = (low, (low + high) / 2, high)[_LINES[axis].index(name)]
            return line, line
        seen = self.seen(filled(name, numbers, where, self.problems), levels)
        if seen is None:
            return None
        centre, body = seen[0][axis], seen[1]
        if way == 0:
            return centre, centre
        if body is None:
            return None
        near, far = _span(body.reach, axis)
        return centre + near, centre + far

    # --- layouts

    def _cover(self, draft: Draft, what: str) -> Body | None:
        cover = self.context.covers(draft, what)
        return None if cover is None else cover.turned(draft.fields.turn)

    def _whole(self, member: Unit, what: str) -> Body | None:
        """What a member covers about its anchor, turned as it is written."""
        if isinstance(member, Draft):
            return self._cover(member, what)
        laid = self._lay(member)
        if laid is None:
            return None
        bodies = []
        for draft, _, turned in laid:
            cover = self._cover(draft, what)
            if cover is None:
                return None
            bodies.append(cover.turned(turned))
        return arrange.together(bodies, [place for _, place, _ in laid])

    def _lay(self, arrangement: Arrangement) -> _Laid | None:
        """The parts of a layout about its anchor; None where something it rests on is not known."""
        key = id(arrangement)
        if key not in self._laid:
            placed = self._placed(arrangement)
            self._laid[key] = None if placed is None else self._flat(arrangement, placed)
        return self._laid[key]

    def _flat(self, arrangement: Arrangement, placed: list[tuple[Vector, float]]) -> _Laid | None:
        laid: list[tuple[Draft, Vector, float]] = []
        for member, (place, turned) in zip(arrangement.members, placed, strict=True):
            if isinstance(member, Draft):
                laid.append((member, place, turned))
                continue
            inner = self._lay(member)
            if inner is None:
                return None
            laid += [(draft, at.turned(turned).plus(place), deg + turned) for draft, at, deg in inner]
        return tuple(laid)

    def _placed(self, arrangement: Arrangement) -> list[tuple[Vector, float]] | None:
        """Where the members stand about the anchor, and how far each is turned."""
        fields = arrangement.fields
        bodies = self._bodies(arrangement)
        if bodies is None:
            return None
        match arrangement.kind:
            case "row" | "column":
                places = self._line(arrangement, bodies)
            case "grid":
                assert isinstance(fields, language.Grid)
                places = self._grid(fields, bodies)
            case "ring":
                assert isinstance(fields, language.Ring)
                return self._ring(fields, bodies)
            case _:
                places = self._distributed(arrangement, bodies)
        return None if places is None else [(place, 0.0) for place in places]

    def _bodies(self, arrangement: Arrangement) -> list[Body] | None:
        """What the members cover; None where one is not known and places are measured from its sides."""
        fields = arrangement.fields
        what = fields[language.Row.envelopes] or "front"
        measured = fields.written(language.Row.gap) or fields[language.Row.align] in _EDGES
        measured = measured or fields[language.Distribute.by] == "gaps"
        bodies: list[Body] = []
        for member in arrangement.members:
            whole = self._whole(member, what)
            if whole is None and measured:
                return None
            bodies.append(whole or Body())
        return bodies

    def _line(self, arrangement: Arrangement, bodies: list[Body]) -> list[Vector] | None:
        fields = arrangement.fields
        line = arrange.row if arrangement.kind == "row" else arrange.column
        pitch, clear = fields[language.Row.pitch], fields[language.Row.gap]
        if (pitch is None) == (clear is None):
            return None
        anchor, align = fields[language.Row.anchor], fields[language.Row.align]
        return line(bodies, pitch=pitch, clear=clear, anchor=anchor or "first", align=align or "centres")

    def _grid(self, fields: language.Grid, bodies: list[Body]) -> list[Vector] | None:
        columns = fields.columns
        pitch, clear = fields.pitch, fields.gap
        if columns is None or (pitch is None) == (clear is None):
            return None
        lines = arrange.grid(
            bodies,
            columns=columns,
            pitch=None if pitch is None else (pitch[0], pitch[1]),
            clear=None if clear is None else (clear[0], clear[1]),
            anchor=fields.anchor,
            by_columns=fields.order == "columns",
        )
        return lines.places

    def _ring(self, fields: language.Ring, bodies: list[Body]) -> list[tuple[Vector, float]] | None:
        diameter, clear = fields.diameter, fields.gap
        sweep, facing = fields.sweep, fields.facing
        if (diameter is None) == (clear is None) or len(bodies) < 2:  # told already
            return None
        clockwise = fields.direction != "counter-clockwise"
        degs = arrange.angles(len(bodies), sweep=sweep, start=fields.start, clockwise=clockwise)
        turns = [0.0 if facing == "up" else deg + (-90.0 if facing == "out" else 90.0) for deg in degs]
        if diameter is None:
            turned = [body.turned(turn) for body, turn in zip(bodies, turns, strict=True)]
            closed = sweep >= 360.0  # all round
            diameter = arrange.minimum_diameter(turned, degs, closed=closed, clear=clear or 0.0)
        return list(zip(arrange.on_circle(degs, diameter), turns, strict=True))

    def _distributed(self, arrangement: Arrangement, bodies: list[Body]) -> list[Vector] | None:
        fields = arrangement.fields
        ends = self._ends(arrangement)
        if ends is None:
            return None
        first, last = ends
        apart = first.at.distance(last.at)
        if apart < _SAME:
            where = fields.where(language.Distribute.between)
            self.problems.add(where, said.same_position(first.ref, last.ref), said.different_positions())
            return None
        by_gaps = fields[language.Distribute.by] == "gaps"
        if by_gaps and (first.cover is None or last.cover is None):
            return None
        found = arrange.between(first.at, first.cover or Body(), last.at, last.cover or Body(), bodies, by_gaps=by_gaps)
        if isinstance(found, float):
            told = said.members_do_not_fit(
                owner=arrangement.name, needed=apart + found, first=first.ref, second=last.ref, available=apart
            )
            self.problems.add(arrangement.where, told, said.move_apart(found))
            return None
        return [place.minus(ORIGIN) for place in found]

    def _ends(self, arrangement: Arrangement) -> tuple[_End, _End] | None:
        """The two parts between which members are distributed, None where they are not known."""
        refs = arrangement.fields[language.Distribute.between] or ()
        names = [filled(ref.value, arrangement.numbers, ref.where, self.problems) for ref in refs]
        what = arrangement.fields[language.Row.envelopes] or "front"
        seen = [(name, self.seen(name, arrangement.levels, what)) for name in names]
        ends = [_End(name, *found) for name, found in seen if found is not None]
        return (ends[0], ends[1]) if len(ends) == len(names) == 2 else None  # otherwise told already


_EDGES: Final = ("top", "bottom", "left", "right")
_MAX_TOLD: Final = 12
_SAME: Final = 1e-6  # mm


def _lines_for(axis: int, way: int) -> tuple[str, ...]:
    """The lines that something on the face can be centred on, stand beyond, or stand before."""
    lines = _LINES[axis]
    return (lines, lines[:2], lines[1:])[way]


def _drafts_of(unit: Unit) -> Iterator[Draft]:
    if isinstance(unit, Draft):
        yield unit
    else:
        yield from unit.drafts


def _name(unit: Unit) -> Said:
    return unit.ref or said.the_part() if isinstance(unit, Draft) else unit.name


def _span(box: Box, axis: int) -> tuple[float, float]:
    return (box.left, box.right) if axis == 0 else (box.bottom, box.top)


def _shared(own: tuple[Level, ...], other: tuple[Level, ...]) -> int:
    """In how many repeats and mirrors, from the outermost, both stand in the same copy."""
    same = 0
    for mine, its in zip(own, other, strict=False):
        if (mine.where, mine.copy) != (its.where, its.copy):
            break
        same += 1
    return same
