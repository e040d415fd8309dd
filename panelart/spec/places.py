"""The position of each part: measured from the datum, an edge, or other parts, in a chain that must end.

What has a place of its own is a part or a layout; the members of a layout follow from it. Repeats and mirrors carry
what stands in them: a place is reckoned as it is written, in the frame of the copy, and carried out of it last.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Final

from panelart.canonical import Struct
from panelart.diagnostics import Where, did_you_mean
from panelart.geometry import ORIGIN, Box, Point, Transform, Vector
from panelart.messages import Said
from panelart.messages import spec as spec_said
from panelart.messages import spec_modules as modules_said
from panelart.messages import spec_places as said
from panelart.source.nouns import Noun
from panelart.source.problems import Problems
from panelart.source.schema import Field
from panelart.spec import arrange, language
from panelart.spec.arrange import Body
from panelart.spec.names import Names
from panelart.spec.templates import filled
from panelart.spec.unroll import Arrangement, Assembly, Beside, Draft, Level, Unit


class Carry(Struct, frozen=True, kw_only=True):
    """What takes things from where they are written, in a copy or a module, to the panel.

    `motion` is where places come to lie. Parts and letters are not mirrored with them: `turned` is how far modules turn
    them, in degrees counter-clockwise.
    """

    motion: Transform = Transform()
    turned: float = 0.0

    def then(self, other: Carry) -> Carry:
        """This first, the other after it."""
        turned = -self.turned if other.motion.mirrors else self.turned
        return Carry(motion=self.motion.then(other.motion), turned=turned + other.turned)

    def turn(self, deg: float) -> float:
        """The turn, on the panel, of what is written with this one; mirrors turn it the other way."""
        return (-deg if self.motion.mirrors else deg) + self.turned + 0.0

    def turn_back(self, deg: float) -> float:
        """The turn, as it is written, of what is turned so on the panel."""
        return -(deg - self.turned) if self.motion.mirrors else deg - self.turned

    @property
    def only_moves(self) -> bool:
        """Whether nothing is mirrored or turned."""
        return self.motion.a > _HALF and self.motion.d > _HALF

    @property
    def quarter(self) -> bool:
        """Whether what is written level comes to stand upright."""
        return abs(self.motion.a) < _HALF


STILL: Final = Carry()
"""Where things are as they are written."""

_HALF: Final = 0.5


class Spot(Struct, frozen=True, kw_only=True):
    """Where a part stands and how it is turned, on the panel; `carry` takes what is written in its copy there."""

    at: Point
    turn: float
    carry: Carry

    @property
    def carried(self) -> Transform:
        """Where places come to lie that are written in its copy."""
        return self.carry.motion

    @property
    def flips_across(self) -> bool:
        """Whether left and right are exchanged."""
        return self.carried.a < -_HALF

    @property
    def flips_upright(self) -> bool:
        """Whether above and below are exchanged."""
        return self.carried.d < -_HALF


class PlacingContext(Struct, frozen=True, kw_only=True):
    """What places are reckoned from: the face, the datum on it, and what parts cover that are not turned.

    `covers` takes a draft and front, rear or both, and gives nothing for a part that is not known.
    """

    face: Box
    datum: Point
    covers: Callable[[Draft, str], Body | None]
    problems: Problems


class Laid(Struct, frozen=True, kw_only=True):
    """Where everything stands: the spots of parts by ref, and what carries things out of the copies they stand in."""

    spots: Mapping[str, Spot]
    carry: Callable[[tuple[Level, ...]], Carry | None]


def places(
    drafts: Mapping[str, Draft],
    units: tuple[Unit, ...],
    beside: Iterable[Beside],
    context: PlacingContext,
    *,
    complete: bool,
) -> Laid:
    """The spot of each part by ref, from the lower-left corner; parts without a readable place are left out.

    `beside` is what has places without being measured from. A place that names no part, or leads back to itself, is a
    problem. When the refs are not `complete`, a part that
    is not there is passed over, since its own problem is told already.
    """
    surveyor = _Surveyor(drafts=drafts, units=units, context=context, complete=complete)
    for unit in surveyor.in_order():
        with context.problems.within(unit.numbers.told):
            surveyor.put(unit)
    surveyor.check(beside)
    return Laid(spots=surveyor.found, carry=surveyor.frame)


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


class _Member(Struct, frozen=True, kw_only=True):
    """A part of a layout: its place about the anchor, and its turn there.

    Of a part of a module, `within` is what carries it about the module's origin, and `origin` where that is about the
    anchor.
    """

    draft: Draft
    place: Vector
    turn: float
    within: Carry = STILL
    origin: Vector | None = None

    def moved(self, by: Vector, turned: float) -> _Member:
        """The same in a layout about it, which places and turns what this stands in."""
        origin = None if self.origin is None else self.origin.turned(turned).plus(by)
        place, turn = self.place.turned(turned).plus(by), self.turn + turned
        return _Member(draft=self.draft, place=place, turn=turn, within=self.within, origin=origin)


class _Laid(Struct, frozen=True):
    """The parts of a layout, and the modules in it with their origins about the anchor."""

    members: tuple[_Member, ...]
    modules: tuple[tuple[Assembly, Vector], ...]


class _Surveyor:
    def __init__(
        self,
        *,
        drafts: Mapping[str, Draft],
        units: tuple[Unit, ...],
        context: PlacingContext,
        complete: bool,
        base: tuple[Level, ...] = (),
        moves: dict[_LevelsKey, Vector] | None = None,
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
        self._carried: dict[_LevelsKey, Carry] = {}
        self._laid: dict[int, _Laid | None] = {}
        self._insides: dict[int, Mapping[str, Spot]] = {}
        self._base = base
        self._moves: dict[_LevelsKey, Vector] = {} if moves is None else moves

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
        with self.problems.within(unit.numbers.told):
            found = self._known(self._written(unit))
        for level in unit.levels:
            with self.problems.within(level.numbers.told):
                found += self._known(self._of_level(level))
        return found

    def check(self, beside: Iterable[Beside]) -> None:
        """Tell what is wrong with the mirrors and modules that things stand in beside parts."""
        levels = {id(level): level for one in beside for level in one.levels}
        for level in levels.values():
            with self.problems.within(level.numbers.told):
                self._known(self._of_level(level))

    def _of_level(self, level: Level) -> Iterator[_Tie]:
        """The refs that a mirror or the place of a module is measured from."""
        if level.mirror is not None:
            for axis, key in enumerate((language.Mirror.x, language.Mirror.y)):
                yield from self._on_axis(level.mirror[key], axis, level.numbers, said.the_mirror())
        if isinstance(level.module, language.PlacedModule):
            yield from self._of_place(level.module.at, level.numbers, said.the_module(), by_origin=True)

    def _known(self, written: Iterable[_Tie]) -> list[_Tie]:
        """Those that name a part; of the others is told."""
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
                yield _Tie(self._ref(end.value, unit.numbers, end.where), end.where, _name(unit))
            return
        if not isinstance(unit, Assembly):
            yield from self._of_place(unit.fields[language.Part.at], unit.numbers, _name(unit))

    def _of_place(self, at: Any, names: Names, whose: Said, *, by_origin: bool = False) -> Iterator[_Tie]:
        """The refs that a place is measured from; `by_origin` is of what has no sides to be placed by."""
        if isinstance(at, language.PlaceByAxes):
            for axis, key in enumerate(_AXES):
                written = at[key]
                if by_origin and isinstance(written, Noun):
                    self._check_by_origin(written, axis)
                yield from self._on_axis(written, axis, names, whose)
        elif isinstance(at, language.RelativePlace) and (ref := at.from_) is not None:
            where = at.where(language.RelativePlace.from_)
            yield _Tie(self._ref(ref, names, where), where, whose)

    def _check_by_origin(self, written: Noun, axis: int) -> None:
        for way in _WAYS[axis][1:]:
            if written.written(way):
                where = written.key_where(way)
                self.problems.add(where, modules_said.module_beside_part(way.name), modules_said.module_by_origin())

    def _ref(self, written: str, names: Names, where: Where) -> str:
        """A ref as the panel has it, of what is written at one place."""
        return names.scoped(filled(written, names, where, self.problems), self.unit_of)

    def _on_axis(self, written: Any, axis: int, numbers: Names, whose: Said) -> list[_Tie]:
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
            elif numbers.placement is not None:
                self.problems.add(where, modules_said.edge_within_module(ref), modules_said.within_module())
            return []
        return [_Tie(self._ref(ref, numbers, where), where, whose)]

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

    def frame(self, levels: tuple[Level, ...]) -> Carry | None:
        """What carries things as they are written within some copies and modules to the panel."""
        if not levels:
            return STILL
        if len(levels) == len(self._base):  # a module of a layout, looked at by itself
            module = levels[-1].module
            return None if module is None else self._turned(module)
        key = _key(levels)
        found = self._carried.get(key)
        if found is None:  # what it is measured from may stand later
            own, outside = self._level(levels[-1], levels[:-1]), self.frame(levels[:-1])
            if own is None or outside is None:
                return None
            found = self._carried[key] = own.then(outside)
        return found

    def _level(self, level: Level, outside: tuple[Level, ...]) -> Carry | None:
        if isinstance(level.module, language.PlacedModule):
            return self._module(level.module, level.numbers, outside)
        if level.module is not None:
            move = self._moves.get(_key((*outside, level)))
            return None if move is None else self._turned(level.module).then(_moved(move))
        if level.mirror is None:
            return Carry(motion=Transform.move(level.moved.x, level.moved.y))
        for axis, key in enumerate((language.Mirror.x, language.Mirror.y)):
            if level.mirror.written(key):
                line = self._axis_place(level.mirror[key], axis, level.numbers, outside, Body())
                return None if line is None else Carry(motion=_mirror(axis, line))
        return None

    def _module(self, placed: language.PlacedModule, names: Names, outside: tuple[Level, ...]) -> Carry | None:
        """A module is mirrored about its origin, turned about it, and moved, origin and all, to its place."""
        at = self._place(placed.at, names, outside, None)
        return None if at is None else self._turned(placed).then(_moved(at.minus(self.context.datum)))

    def _turned(self, placed: language.PlacedModule | language.ModuleMember) -> Carry:
        """A module mirrored and turned about its origin, which is the datum as long as it is not moved."""
        datum = self.context.datum
        motion = Transform()
        if placed.mirrored != "no":
            axis = 0 if placed.mirrored == "left-right" else 1
            motion = _mirror(axis, datum[axis])
        return Carry(motion=motion.then(Transform.turn(placed.turn, datum)), turned=placed.turn)

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
        at = frame.motion.inverse().apply(spot.at)
        return at, None if cover is None else cover.turned(frame.turn_back(spot.turn))

    # --- places

    def put(self, unit: Unit) -> None:
        """Give a part, or all parts of a layout, their spots."""
        carried = self.frame(unit.levels)
        if carried is None:
            return
        if isinstance(unit, Draft):
            at = self._at(unit, self._cover(unit, "front"))
            if at is not None:
                self._stand(unit, at, unit.fields.turn, carried, carried)
            return
        if isinstance(unit, Assembly):  # which stands in a layout only
            return
        laid = self._lay(unit)
        if laid is None:
            return
        anchor = ORIGIN if unit.kind == "distribute" else self._at(unit, self._whole(unit, "front"))
        if anchor is not None:
            self._stand_all(laid, anchor, carried)

    def _stand_all(self, laid: _Laid, anchor: Point, carried: Carry) -> None:
        for assembly, origin in laid.modules:
            self._moves[_key((*assembly.levels, assembly.level))] = self._from_datum(anchor, origin)
        for member in laid.members:
            own = carried
            if member.origin is not None:
                own = member.within.then(_moved(self._from_datum(anchor, member.origin))).then(carried)
            self._stand(member.draft, anchor.moved(member.place), member.turn, carried, own)

    def _from_datum(self, anchor: Point, place: Vector) -> Vector:
        return anchor.moved(place).minus(self.context.datum)

    def _stand(self, draft: Draft, at: Point, turn: float, carried: Carry, own: Carry) -> None:
        """Give a part its spot; `own` carries what is written beside it, from its module where it is of one."""
        if draft.ref is not None and self.drafts.get(draft.ref) is draft:
            self.found[draft.ref] = Spot(at=carried.motion.apply(at), turn=carried.turn(turn), carry=own)

    def _at(self, unit: Draft | Arrangement, cover: Body | None) -> Point | None:
        """Where the anchor of a unit is as it is written, before its copies carry it."""
        return self._place(unit.fields[language.Part.at], unit.numbers, unit.levels, cover)

    def _place(self, at: Any, names: Names, levels: tuple[Level, ...], cover: Body | None) -> Point | None:
        """A place as it is written within some copies; `cover` is what stands there."""
        datum = self.context.datum
        if isinstance(at, tuple):
            return datum.moved(Vector(*at))
        if at is None:
            return None
        if isinstance(at, language.PlaceByAxes):
            x, y = (self._axis_place(at[key], axis, names, levels, cover) for axis, key in enumerate(_AXES))
            return None if x is None or y is None else Point(x, y)
        ref, by = at.from_, at.by
        if ref is None or by is None:
            return None
        start = self.seen(self._ref(ref, names, at.where(language.RelativePlace.from_)), levels)
        return None if start is None else start[0].moved(Vector(*by))

    def _axis_place(
        self, written: Any, axis: int, numbers: Names, levels: tuple[Level, ...], cover: Body | None
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
        self, name: str, where: Where, axis: int, way: int, numbers: Names, levels: tuple[Level, ...]
    ) -> tuple[float, float] | None:
        """Both sides, on one axis, of what is measured from; where that is a centre or a line, both are it."""
        if name in _LINES[axis]:
            if name not in _lines_for(axis, way) or numbers.placement is not None:
                return None
            low, high = _span(self.context.face, axis)
            line = (low, (low + high) / 2, high)[_LINES[axis].index(name)]
            return line, line
        seen = self.seen(self._ref(name, numbers, where), levels)
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
        laid = self._module_members(member) if isinstance(member, Assembly) else self._lay(member)
        if laid is None:
            return None
        bodies = []
        for each in laid.members:
            cover = self.context.covers(each.draft, what)
            if cover is None:
                return None
            bodies.append(cover.turned(each.turn))
        return arrange.together(bodies, [each.place for each in laid.members])

    def _lay(self, arrangement: Arrangement) -> _Laid | None:
        """The parts of a layout about its anchor; None where something it rests on is not known."""
        key = id(arrangement)
        if key not in self._laid:
            placed = self._placed(arrangement)
            self._laid[key] = None if placed is None else self._flat(arrangement, placed)
        return self._laid[key]

    def _flat(self, arrangement: Arrangement, placed: list[tuple[Vector, float]]) -> _Laid | None:
        members: list[_Member] = []
        modules: list[tuple[Assembly, Vector]] = []
        for member, (place, turned) in zip(arrangement.members, placed, strict=True):
            if isinstance(member, Draft):
                members.append(_Member(draft=member, place=place, turn=member.fields.turn + turned))
                continue
            inner = self._module_members(member) if isinstance(member, Assembly) else self._lay(member)
            if inner is None:
                return None
            if inner.modules and turned:
                where = arrangement.where
                self.problems.add(where, modules_said.module_in_turned_ring(), modules_said.ring_facing_up())
                return None
            members += [each.moved(place, turned) for each in inner.members]
            modules += [(each, origin.plus(place)) for each, origin in inner.modules]
        return _Laid(tuple(members), tuple(modules))

    def _module_members(self, assembly: Assembly) -> _Laid | None:
        """The parts of a module about its origin; None where one has no place, which is told already."""
        spots = self._inside(assembly)
        datum = self.context.datum
        members: list[_Member] = []
        for draft in assembly.drafts:
            spot = spots.get(draft.ref or "")
            if spot is None:
                return None
            place = spot.at.minus(datum)
            members.append(
                _Member(draft=draft, place=place, turn=spot.turn, within=spot.carry, origin=Vector(0.0, 0.0))
            )
        return _Laid(tuple(members), ((assembly, Vector(0.0, 0.0)),))

    def _inside(self, assembly: Assembly) -> Mapping[str, Spot]:
        """The spots of a module's parts with its origin at the datum."""
        key = id(assembly)
        if key not in self._insides:
            own = {draft.ref: draft for draft in assembly.drafts if draft.ref and self.drafts.get(draft.ref) is draft}
            base = (*assembly.levels, assembly.level)
            inner = _Surveyor(
                drafts=own,
                units=assembly.units,
                context=self.context,
                complete=self.complete,
                base=base,
                moves=self._moves,
            )
            for unit in inner.in_order():
                with self.problems.within(unit.numbers.told):
                    inner.put(unit)
            self._insides[key] = inner.found
        return self._insides[key]

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
        names = [self._ref(ref.value, arrangement.numbers, ref.where) for ref in refs]
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


_LevelsKey = tuple[tuple[Where, int], ...]


def _key(levels: Iterable[Level]) -> _LevelsKey:
    """What tells copies from others."""
    return tuple((level.where, level.copy) for level in levels)


def _moved(by: Vector) -> Carry:
    return Carry(motion=Transform.move(*by))


def _mirror(axis: int, line: float) -> Transform:
    """Left and right exchanged about an upright line (axis 0), or above and below about a level one (axis 1)."""
    return Transform.mirror_x(line) if axis == 0 else Transform(d=-1.0, f=2 * line)


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
