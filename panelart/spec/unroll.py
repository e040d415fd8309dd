"""Repeats, mirrors and layouts written out: parts as the spec lists them go in, single parts and arrangements come out.

An arrangement is one row, column, grid, ring or distribution with its members, whose places follow from each other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Final, TypeGuard

from panelart.canonical import Struct
from panelart.diagnostics import Where
from panelart.geometry import Vector
from panelart.messages import Said
from panelart.messages import spec_places as said
from panelart.source.nouns import Noun
from panelart.source.problems import Problems
from panelart.source.schema import Field, Value
from panelart.spec import language
from panelart.spec.templates import filled

MAX_PARTS: Final = 5000
"""The most parts on one panel, repeats written out."""

_STILL: Final = Vector(0.0, 0.0)


class Level(Struct, frozen=True, kw_only=True):
    """One repeat or mirror that a draft stands in: which, which copy of it, and how that copy is moved.

    `mirror` is what the spec says of the mirror, for the copy that stands in it; `numbers` are those outside it.
    """

    where: Where
    copy: int
    moved: Vector = _STILL
    mirror: language.Mirror | None = None
    numbers: Mapping[str, str]


class Draft(Struct, frozen=True, kw_only=True):
    """A part as written, with what its braces stand for and the copies it stands in, outermost first.

    `ref` is None when it could not be read.
    """

    fields: language.Part | language.Member
    ref: str | None
    numbers: Mapping[str, str]
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
    members: tuple[Draft | Arrangement, ...]
    numbers: Mapping[str, str]
    levels: tuple[Level, ...]

    @property
    def drafts(self) -> Iterator[Draft]:
        """All parts in it."""
        for member in self.members:
            if isinstance(member, Draft):
                yield member
            else:
                yield from member.drafts

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


Unit = Draft | Arrangement
"""What has a place of its own."""


class Drafts(Struct, frozen=True, kw_only=True):
    """All drafts in the order written, and what they belong to.

    `complete` is false when some part or its ref could not be read, so that a ref that is not among them may still
    be right.
    """

    drafts: tuple[Draft, ...]
    complete: bool
    units: tuple[Unit, ...] = ()


def unrolled(items: Iterable[Value[Noun]], problems: Problems) -> Drafts:
    """Write out the repeats, mirrors and layouts of a part list, unless they make more than MOST_PARTS parts."""
    listed = [item.value for item in items]
    counts = [_count(item) for item in listed]
    if sum(counts) > MAX_PARTS:
        largest = listed[counts.index(max(counts))]
        problems.add(
            largest.key_where(_ITEMS.get(type(largest), language.RepeatedParts.repeat)),
            said.too_many_parts(sum(counts), max(counts), MAX_PARTS),
            said.fewer_copies(),
        )
        return Drafts(drafts=(), complete=False)
    units = tuple(unit for item in listed for unit in _units(item, {}, (), problems))
    drafts = tuple(draft for unit in units for draft in ([unit] if isinstance(unit, Draft) else unit.drafts))
    complete = all(draft.ref is not None for draft in drafts) and all(map(_is_whole, listed))
    return Drafts(drafts=drafts, complete=complete, units=units)


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


def _is_part(fields: Noun) -> TypeGuard[language.Part | language.Member]:
    return isinstance(fields, language.Part | language.Member)


def _count(fields: Noun) -> int:
    if _is_part(fields):
        return 1
    return (_copies(fields) or 0) * sum(_count(item) for item in _inner(fields))


def _is_whole(fields: Noun) -> bool:
    if _is_part(fields):
        return True
    return _copies(fields) is not None and bool(_inner(fields)) and all(map(_is_whole, _inner(fields)))


# --- writing out


def _units(fields: Noun, numbers: Mapping[str, str], levels: tuple[Level, ...], problems: Problems) -> Iterator[Unit]:
    if _is_part(fields):
        written = fields.ref
        where = fields.where(language.Member.ref)
        ref = None if written is None else filled(written, numbers, where, problems)
        yield Draft(fields=fields, ref=ref, numbers=numbers, levels=levels)
    elif _count(fields) == 0:
        return
    elif isinstance(fields, language.RepeatedParts):
        yield from _repeated(fields, numbers, levels, problems)
    elif isinstance(fields, language.MirroredParts):
        yield from _mirrored(fields, numbers, levels, problems)
    else:
        yield _arranged(fields, numbers, levels, problems)


def _repeated(
    fields: language.RepeatedParts, numbers: Mapping[str, str], levels: tuple[Level, ...], problems: Problems
) -> Iterator[Unit]:
    repeat, count = fields.repeat, _copies(fields)
    assert repeat is not None
    assert count is not None
    name = _name(repeat, numbers, problems)
    told = _told(repeat, count)
    dx, dy = repeat.step or (0.0, 0.0)
    for copy in range(count):
        level = Level(where=fields.begins, copy=copy, moved=Vector(copy * dx, copy * dy), numbers=numbers)
        inside = {**numbers, name: told[copy]}
        for item in _inner(fields):
            yield from _units(item, inside, (*levels, level), problems)


def _mirrored(
    fields: language.MirroredParts, numbers: Mapping[str, str], levels: tuple[Level, ...], problems: Problems
) -> Iterator[Unit]:
    mirror = fields.mirror
    assert mirror is not None
    if mirror.written(language.Mirror.x) == mirror.written(language.Mirror.y):
        both = mirror.written(language.Mirror.x)
        problems.add(
            mirror.key_where(language.Mirror.y) if both else mirror.begins,
            said.mirror_with_both() if both else said.mirror_with_neither(),
            said.mirror_line(),
        )
    name = _name(mirror, numbers, problems)
    names = [text.value for text in mirror.names or ()]
    if len(names) != 2:  # as written, and in the mirror
        names = ["1", "2"]
    for copy in range(2):
        level = Level(where=fields.begins, copy=copy, mirror=mirror if copy else None, numbers=numbers)
        for item in _inner(fields):
            yield from _units(item, {**numbers, name: names[copy]}, (*levels, level), problems)


def _name(
    settings: language.Copies | language.Mirror | language.Series, numbers: Mapping[str, str], problems: Problems
) -> str:
    """What a repeat's number is called in braces."""
    name = settings.as_
    if name in numbers:
        problems.add(
            settings.where(language.Copies.as_),
            said.name_of_outer_copy(name),
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
    return [_letters(ord(start) - ord("A") + copy) for copy in range(count)]


def _letters(number: int) -> str:
    more, letter = divmod(number, 26)
    return (_letters(more - 1) if more else "") + chr(ord("A") + letter)


def _arranged(
    fields: Noun, numbers: Mapping[str, str], levels: tuple[Level, ...], problems: Problems, *, inside: str = ""
) -> Arrangement:
    key = _LAYOUTS[type(fields)]
    settings = fields[key]
    assert settings is not None
    if key is not language.DistributedParts.distribute:
        _check_place(settings, key.name, inside, problems)
        _check_spacing(settings, key.name, problems)
    members = tuple(
        member for item in _inner(fields) for member in _members(item, numbers, levels, problems, inside=key.name)
    )
    arrangement = Arrangement(
        kind=key.name,
        fields=settings,
        where=fields.key_where(key),
        members=members,
        numbers=numbers,
        levels=levels,
    )
    if all(map(_is_whole, _inner(fields))):
        _check_count(arrangement, problems)
    return arrangement


def _members(
    fields: Noun, numbers: Mapping[str, str], levels: tuple[Level, ...], problems: Problems, *, inside: str
) -> Iterator[Unit]:
    if isinstance(fields, language.RepeatedMembers):
        repeat, count = fields.repeat, _copies(fields)
        if repeat is None or count is None:
            return
        name = _name(repeat, numbers, problems)
        for number in _told(repeat, count):
            for item in _inner(fields):
                yield from _members(item, {**numbers, name: number}, levels, problems, inside=inside)
    elif _is_part(fields):
        yield from _units(fields, numbers, levels, problems)
    elif _count(fields):
        yield _arranged(fields, numbers, levels, problems, inside=inside)


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
