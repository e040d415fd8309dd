"""Repeats, mirrors, modules and layouts written out: what the spec lists goes in, single things come out.

Parts and arrangements of them have places of their own; frames, texts, lines and drawings stand beside them.

An arrangement is one row, column, grid, ring or distribution with its members, whose places follow from each other.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from typing import Any, Final, TypeGuard

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.geometry import Vector
from panelart.messages import Said
from panelart.messages import spec_modules as modules_said
from panelart.messages import spec_places as said
from panelart.source.nodes import Scalar
from panelart.source.nouns import Noun, keys_of
from panelart.source.problems import Problems
from panelart.source.schema import Field
from panelart.spec import language
from panelart.spec.modules import Binder, Module
from panelart.spec.names import NO_NAMES, Names
from panelart.spec.templates import filled
from panelart.texts.letter_numbers import in_letters

MAX_PARTS: Final = 5000
"""The most parts on one panel, repeats written out."""

MAX_COPIES: Final = 50_000
"""The most copies of repeats and places of modules, those within each other counted each time."""

_STILL: Final = Vector(0.0, 0.0)


class Level(Struct, frozen=True, kw_only=True):
    """One repeat, mirror or placed module that something stands in: which, which copy of it, how that copy is moved.

    `mirror` is what the spec says of the mirror, for the copy that stands in it, `module` what it says of a module's
    place; `numbers` are the names outside of it.
    """

    where: Where
    copy: int
    moved: Vector = _STILL
    mirror: language.Mirror | None = None
    module: language.PlacedModule | language.ModuleMember | None = None
    numbers: Names


class Draft(Struct, frozen=True, kw_only=True):
    """A part as written, with what its braces stand for and the copies it stands in, outermost first.

    `ref` is None when it could not be read.
    """

    fields: language.Part | language.Member
    ref: str | None
    numbers: Names
    levels: tuple[Level, ...]

    @property
    def where(self) -> Where:
        """Where its ref stands, which is where messages about the part point."""
        return self.fields.where(language.Member.ref)


class Arrangement(Struct, frozen=True, kw_only=True):
    """A layout and its members in order. `kind` is its word in the spec, `where` the place of that word."""

    kind: str
    fields: Noun
    where: Where
    members: tuple[Draft | Arrangement | Assembly, ...]
    numbers: Names
    levels: tuple[Level, ...]

    @property
    def drafts(self) -> Iterator[Draft]:
        """All parts in it."""
        for member in self.members:
            yield from _drafts_of(member)

    @property
    def name(self) -> Said:
        """What messages call it."""
        first = next((draft.ref for draft in self.drafts if draft.ref is not None), None)
        alone, with_ref = _NAMES[self.kind]
        return alone() if first is None else with_ref(first)


_NAMES: Final[Mapping[str, tuple[Callable[[], Said], Callable[[str], Said]]]] = {
    "row": (said.row, said.row_of),
    "column": (said.column, said.column_of),
    "grid": (said.grid, said.grid_of),
    "ring": (said.ring, said.ring_of),
    "distribute": (said.distribution, said.distribution_of),
}
"""What layouts are called, by their word in the spec: without a ref, and with that of the first part."""


class Assembly(Struct, frozen=True, kw_only=True):
    """A module in a layout and what it is made of; `level` is its own, in which its units stand."""

    units: tuple[Draft | Arrangement | Assembly, ...]
    level: Level
    numbers: Names
    levels: tuple[Level, ...]

    @property
    def drafts(self) -> Iterator[Draft]:
        """All parts in it."""
        for unit in self.units:
            yield from _drafts_of(unit)

    @property
    def where(self) -> Where:
        """Where it is placed."""
        return self.level.where

    @property
    def name(self) -> Said:
        """What messages call it."""
        return said.the_module()


Unit = Draft | Arrangement | Assembly
"""What has a place of its own."""


class Beside(Struct, frozen=True, kw_only=True):
    """A frame, text, line or drawing as written, with what its braces stand for and the copies it stands in."""

    fields: Noun
    numbers: Names
    levels: tuple[Level, ...]


class Drafts(Struct, frozen=True, kw_only=True):
    """All drafts in the order written, what they belong to, and what stands beside them, by its key in the spec.

    `complete` is false when some part or its ref could not be read, so that a ref that is not among them may still
    be right.
    """

    drafts: tuple[Draft, ...]
    complete: bool
    units: tuple[Unit, ...] = ()
    beside: Mapping[str, tuple[Beside, ...]] = {}

    def frames(self) -> tuple[Beside, ...]:
        """The frames, those of the panel itself first."""
        return self.beside.get(_FRAMES, ())

    def texts(self) -> tuple[Beside, ...]:
        """The texts in places of their own."""
        return self.beside.get(_TEXTS, ())

    def lines(self) -> tuple[Beside, ...]:
        """The lines from part to part."""
        return self.beside.get(_LINES, ())

    def art(self) -> tuple[Beside, ...]:
        """What is drawn."""
        return self.beside.get(_ART, ())


_FRAMES, _TEXTS, _LINES, _ART = (
    field.name for field in (language.Spec.frames, language.Spec.texts, language.Spec.lines, language.Spec.art)
)

_COPIES: Final = "copies"

_LIMITS: Final[Mapping[str, int]] = {
    language.Spec.parts.name: MAX_PARTS,
    _FRAMES: language.MAX_FRAMES,
    _TEXTS: language.MAX_TEXTS,
    _LINES: language.MAX_LINES,
    _ART: language.MAX_ART,
    _COPIES: MAX_COPIES,
}
"""The most of each on a panel."""

_CALLED: Final[Mapping[str, Said]] = {_COPIES: modules_said.copies(), _ART: language.ART.what}
"""What some of them are called in messages."""


def unrolled(top: language.Spec, binder: Binder, problems: Problems) -> Drafts:
    """Write out the repeats, mirrors, modules and layouts of a spec, unless they make more than may be on a panel."""
    listed = [item.value for item in top.parts]
    if _are_too_many(listed, problems):
        return Drafts(drafts=(), complete=False)
    writer = _Writer(binder, problems)
    try:
        writer.beside_of(top, NO_NAMES, ())
        units = tuple(unit for item in listed for unit in writer.units(item, NO_NAMES, ()))
    except _TooManyError:
        return Drafts(drafts=(), complete=False)
    drafts = tuple(draft for unit in units for draft in _drafts_of(unit))
    complete = writer.complete and all(draft.ref is not None for draft in drafts) and all(map(_is_whole, listed))
    return Drafts(
        drafts=drafts,
        complete=complete,
        units=units,
        beside={key: tuple(found) for key, found in writer.beside.items()},
    )


def _drafts_of(unit: Unit) -> Iterator[Draft]:
    if isinstance(unit, Draft):
        yield unit
    else:
        yield from unit.drafts


def _are_too_many(listed: list[Noun], problems: Problems) -> bool:
    """Whether items make more parts than may be on a panel, those of modules left out; it is told."""
    counts = [_count(item) for item in listed]
    if sum(counts) <= MAX_PARTS:
        return False
    largest = listed[counts.index(max(counts))]
    problems.add(
        largest.key_where(_ITEMS.get(type(largest), language.RepeatedParts.repeat)),
        said.too_many_parts(sum(counts), max(counts), MAX_PARTS),
        said.fewer_copies(),
    )
    return True


class _TooManyError(Exception):
    """More is made than may be on a panel; it is told already."""


# --- what an item is


_LAYOUTS: Final[Mapping[type[Noun], Field[Any]]] = {
    language.RowOfParts: language.RowOfParts.row,
    language.ColumnOfParts: language.ColumnOfParts.column,
    language.GridOfParts: language.GridOfParts.grid,
    language.RingOfParts: language.RingOfParts.ring,
    language.DistributedParts: language.DistributedParts.distribute,
}

_ITEMS: Final[Mapping[type[Noun], Field[Any]]] = {**_LAYOUTS, language.MirroredParts: language.MirroredParts.mirror}


def _inner(fields: Noun) -> list[Noun]:
    return [item.value for item in fields[language.RepeatedParts.parts] or ()]


def _copies(fields: Noun) -> int | None:
    """How often an item's parts stand, when that could be read."""
    if type(fields) in _ITEMS:
        settings = fields[_ITEMS[type(fields)]]
        return None if settings is None else 2 if isinstance(fields, language.MirroredParts) else 1
    assert isinstance(fields, language.RepeatedParts | language.RepeatedMembers)
    repeat = fields.repeat
    if repeat is None or (isinstance(repeat, language.Copies) and repeat.step is None):
        return None
    return repeat.count


def _is_module(fields: Noun) -> TypeGuard[language.PlacedModule | language.ModuleMember]:
    return isinstance(fields, language.PlacedModule | language.ModuleMember)


def _holds(fields: Noun) -> bool:
    """Whether an item makes parts, or places modules, which may."""
    if _is_part(fields) or _is_module(fields):
        return True
    return bool(_copies(fields)) and any(map(_holds, _inner(fields)))


def _is_part(fields: Noun) -> TypeGuard[language.Part | language.Member]:
    return isinstance(fields, language.Part | language.Member)


def _count(fields: Noun) -> int:
    """How many parts an item makes, those of modules left out, which are counted as they are written out."""
    if _is_part(fields):
        return 1
    if _is_module(fields):
        return 0
    return (_copies(fields) or 0) * sum(_count(item) for item in _inner(fields))


def _is_whole(fields: Noun) -> bool:
    if _is_part(fields) or _is_module(fields):
        return True
    parts = _inner(fields)
    return _copies(fields) is not None and bool(parts or _holds_else(fields)) and all(map(_is_whole, parts))


def _holds_else(fields: Noun) -> bool:
    """Whether frames, texts, lines or drawings are written beside parts, or in place of them."""
    return any(fields.written(key) for key in _BESIDE if key.name in _KEYS[type(fields)])


# --- writing out


class _Writer:
    """Writes items out; keeps what stands beside parts and counts everything, so that nothing grows without bounds."""

    def __init__(self, binder: Binder, problems: Problems) -> None:
        self.binder = binder
        self.problems = problems
        self.beside: dict[str, list[Beside]] = {}
        self.complete = True
        self._made: Counter[str] = Counter()
        self._within: tuple[Module, ...] = ()

    def _take(self, what: str, where: Where) -> None:
        """Count one more. Raises _TooManyError when there are more than may be."""
        self._made[what] += 1
        if self._made[what] > _LIMITS[what]:
            many = modules_said.too_many_things(_CALLED.get(what, what), _LIMITS[what])
            self.problems.add(where, many, modules_said.fewer_copies_or_modules())
            raise _TooManyError

    def beside_of(self, fields: Noun, names: Names, levels: tuple[Level, ...]) -> None:
        """Keep the frames, texts, lines and drawings that are written beside parts."""
        for key in _BESIDE:
            if key.name in _KEYS[type(fields)]:
                for item in fields[key] or ():
                    self._take(key.name, item.where)
                    made = Beside(fields=item.value, numbers=names, levels=levels)
                    self.beside.setdefault(key.name, []).append(made)

    def units(self, fields: Noun, names: Names, levels: tuple[Level, ...]) -> list[Unit]:
        """What has a place of its own in an item."""
        if _is_part(fields):
            return [self._draft(fields, names, levels)]
        if _is_module(fields):
            return self._module(fields, names, levels)
        if _copies(fields) is None:
            return []
        if isinstance(fields, language.RepeatedParts):
            return self._repeated(fields, names, levels)
        if isinstance(fields, language.MirroredParts):
            return self._mirrored(fields, names, levels)
        if not _holds(fields):
            return []
        arrangement = self._arranged(fields, names, levels)
        return [arrangement] if arrangement.members else []

    def _draft(self, fields: language.Part | language.Member, names: Names, levels: tuple[Level, ...]) -> Draft:
        self._take(language.Spec.parts.name, fields.begins)
        written, where = fields.ref, fields.where(language.Member.ref)
        ref = None if written is None else names.prefixes[0] + filled(written, names, where, self.problems)
        if ref is not None and names.placement is not None:
            ref = self._usable(ref, where)
        return Draft(fields=fields, ref=ref, numbers=names, levels=levels)

    def _usable(self, ref: str, where: Where) -> str | None:
        """A ref with prefixes and arguments, as one that was written: on one line and not too long."""
        kind = language.Member.ref.kind
        if kind.parse(Scalar(text=ref, quoted=True, where=where), Problems()) is not None:
            return ref
        self.problems.add(where, modules_said.ref_unusable(ref, language.MAX_REF), modules_said.shorter_ref())
        return None

    def _module(
        self, fields: language.PlacedModule | language.ModuleMember, names: Names, levels: tuple[Level, ...]
    ) -> list[Unit]:
        """What a module is made of, in its own level; one in a layout is a member of it."""
        self._take(_COPIES, fields.begins)
        given = self.binder.given(fields, names, self._within) if self._may_stand(fields) else None
        module = None if given is None else self.binder.find(fields, self._within)
        if given is None or module is None:
            self.complete = False
            return []
        level = Level(where=fields.begins, copy=self._made[_COPIES], module=fields, numbers=names)
        before, self._within = self._within, (*self._within, module)
        with self.problems.within(given.names.told):
            found = self._inside(given.fields, given.names, (*levels, level))
        self._within = before
        if isinstance(fields, language.PlacedModule) or not found:
            return found
        return [Assembly(units=tuple(found), level=level, numbers=names, levels=levels)]

    def _may_stand(self, fields: language.PlacedModule | language.ModuleMember) -> bool:
        if isinstance(fields, language.PlacedModule) and fields.at is None:
            return False
        if fields.turn % 90.0 == 0.0:
            return True
        where = fields.where(language.PlacedModule.turn)
        self.problems.add(where, modules_said.turn_not_quarter(fields.turn), modules_said.quarter_turns())
        return False

    def _inside(self, fields: Noun, names: Names, levels: tuple[Level, ...]) -> list[Unit]:
        """What a copy or a module holds."""
        self.beside_of(fields, names, levels)
        return [unit for item in _inner(fields) for unit in self.units(item, names, levels)]

    def _tell_empty(self, fields: Noun, key: Field[Any]) -> None:
        if not _inner(fields) and not fields.misread(language.RepeatedParts.parts) and not _holds_else(fields):
            keys = [language.RepeatedParts.parts.name, *(each.name for each in _BESIDE)]
            empty = modules_said.holds_nothing(key.name)
            self.problems.add(fields.key_where(key), empty, modules_said.hold_something(keys))

    def _repeated(self, fields: language.RepeatedParts, names: Names, levels: tuple[Level, ...]) -> list[Unit]:
        repeat, count = fields.repeat, _copies(fields)
        assert repeat is not None
        assert count is not None
        self._tell_empty(fields, language.RepeatedParts.repeat)
        name = _name(repeat, names, self.problems)
        told = _told(repeat, count)
        dx, dy = repeat.step or (0.0, 0.0)
        found: list[Unit] = []
        for copy in range(count):
            self._take(_COPIES, fields.key_where(language.RepeatedParts.repeat))
            level = Level(where=fields.begins, copy=copy, moved=Vector(copy * dx, copy * dy), numbers=names)
            found += self._inside(fields, names.counted(name, told[copy]), (*levels, level))
        return found

    def _mirrored(self, fields: language.MirroredParts, names: Names, levels: tuple[Level, ...]) -> list[Unit]:
        mirror = fields.mirror
        assert mirror is not None
        self._tell_empty(fields, language.MirroredParts.mirror)
        if mirror.written(language.Mirror.x) == mirror.written(language.Mirror.y):
            both = mirror.written(language.Mirror.x)
            self.problems.add(
                mirror.key_where(language.Mirror.y) if both else mirror.begins,
                said.mirror_with_both() if both else said.mirror_with_neither(),
                said.mirror_line(),
            )
        name = _name(mirror, names, self.problems)
        texts = [text.value for text in mirror.names or ()]
        if len(texts) != 2:  # as written, and in the mirror
            texts = ["1", "2"]
        found: list[Unit] = []
        for copy in range(2):
            self._take(_COPIES, fields.key_where(language.MirroredParts.mirror))
            level = Level(where=fields.begins, copy=copy, mirror=mirror if copy else None, numbers=names)
            found += self._inside(fields, names.counted(name, texts[copy]), (*levels, level))
        return found

    def _arranged(self, fields: Noun, names: Names, levels: tuple[Level, ...], *, inside: str = "") -> Arrangement:
        key = _LAYOUTS[type(fields)]
        settings = fields[key]
        assert settings is not None
        if key is not language.DistributedParts.distribute:
            _check_place(settings, key.name, inside, self.problems)
            _check_spacing(settings, key.name, self.problems)
        members = tuple(
            member for item in _inner(fields) for member in self._members(item, names, levels, inside=key.name)
        )
        arrangement = Arrangement(
            kind=key.name,
            fields=settings,
            where=fields.key_where(key),
            members=members,
            numbers=names,
            levels=levels,
        )
        if all(map(_is_whole, _inner(fields))):
            _check_count(arrangement, self.problems)
        return arrangement

    def _members(self, fields: Noun, names: Names, levels: tuple[Level, ...], *, inside: str) -> Iterator[Unit]:
        if isinstance(fields, language.RepeatedMembers):
            repeat, count = fields.repeat, _copies(fields)
            if repeat is None or count is None:
                return
            name = _name(repeat, names, self.problems)
            for number in _told(repeat, count):
                self._take(_COPIES, fields.key_where(language.RepeatedMembers.repeat))
                within = names.counted(name, number)
                self.beside_of(fields, within, levels)
                for item in _inner(fields):
                    yield from self._members(item, within, levels, inside=inside)
        elif _is_part(fields):
            yield self._draft(fields, names, levels)
        elif _is_module(fields):
            yield from self._module(fields, names, levels)
        elif _holds(fields):
            arrangement = self._arranged(fields, names, levels, inside=inside)
            if arrangement.members:
                yield arrangement


_BESIDE: Final[tuple[Field[Any], ...]] = (
    language.Spec.frames,
    language.Spec.texts,
    language.Spec.lines,
    language.Spec.art,
)

_HOLDERS: Final[tuple[type[Noun], ...]] = (
    language.Spec,
    language.Module,
    language.RepeatedParts,
    language.MirroredParts,
    language.RepeatedMembers,
    *_LAYOUTS,
)

_KEYS: Final[Mapping[type[Noun], frozenset[str]]] = {
    noun: frozenset(key.name for key in keys_of(noun)) for noun in _HOLDERS
}
"""The keys that items may have."""


def _name(settings: language.Copies | language.Mirror | language.Series, names: Names, problems: Problems) -> str:
    """What a repeat's number is called in braces."""
    name = settings.as_
    if name in names:
        parameter = name in names.arguments and name not in names.numbers
        problems.add(
            settings.where(language.Copies.as_),
            modules_said.name_of_parameter(name) if parameter else said.name_of_outer_copy(name),
            said.name_such_as("m" if name != "m" else "k"),
        )
    return name


def _told(settings: language.Copies | language.Series, count: int) -> list[str]:
    """The numbers or letters of so many copies."""
    return counted(settings.start, count)


def counted(start: str, count: int) -> list[str]:
    """So many numbers from a first one, or capital letters: A to Z, then AA, AB and so on."""
    if not start.isalpha():
        return [str(int(start) + copy) for copy in range(count)]
    return [in_letters(ord(start) - ord("A") + copy) for copy in range(count)]


def _check_place(settings: Noun, kind: str, inside: str, problems: Problems) -> None:
    # The places of row, column, grid and ring are one key with one name.
    written = settings.written(language.Row.at)
    if inside and written:
        problems.add(
            settings.key_where(language.Row.at),
            said.inner_layout_with_at(kind, inside),
            said.remove_at(inside),
        )
    elif not inside and not written:
        problems.add(settings.begins, said.layout_without_at(kind), said.at_needed())


def _check_spacing(settings: Noun, kind: str, problems: Problems) -> None:
    spacing = language.Ring.diameter if kind == "ring" else language.Row.pitch
    both = settings.written(spacing)
    if both == settings.written(language.Row.gap):
        problems.add(
            settings.key_where(language.Row.gap) if both else settings.begins,
            (said.both_spacings if both else said.no_spacing)(kind, spacing.name),
            said.diameter_or_gap() if kind == "ring" else said.pitch_or_gap(),
        )


def _check_count(arrangement: Arrangement, problems: Problems) -> None:
    kind, settings, count = arrangement.kind, arrangement.fields, len(arrangement.members)
    if kind == "grid":
        columns, rows = settings[language.Grid.columns], settings[language.Grid.rows]
        if columns is not None and rows is not None and columns * rows != count:
            problems.add(
                settings.where(language.Grid.rows),
                said.grid_count(count, columns, rows),
                said.members_of_grid(columns * rows),
            )
    elif kind != "distribute" and count < 2:  # one alone is not spaced from anything
        problems.add(arrangement.where, said.one_member(kind), said.two_members())
