"""The built-in catalogue and the user's own part files: found by name, no more read and made than is asked for.

A built-in part is taken from the index that is built with the package (`source.built`), or made of its data file where
the index has none that can be relied on. Both are kept for the life of the process; the files are part of the program
and do not change while it runs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from collections.abc import Mapping as MappingOf
from functools import cache
from types import MappingProxyType
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue import entries, table, variants
from panelart.catalogue.context import GIVEN, EntryContext, UnusableError
from panelart.catalogue.knobs import KnobEntry
from panelart.catalogue.overrides import overridden
from panelart.catalogue.renamed import near_part
from panelart.diagnostics import Where
from panelart.messages import catalogue as said
from panelart.model.component import Component
from panelart.source.built import PACKAGE, Row, Table
from panelart.source.nodes import Mapping, Node
from panelart.source.problems import Problems
from panelart.source.schema import Fields, read
from panelart.source.yaml import read as read_yaml

MAX_ENTRIES: Final = 5000
"""The maximum of entries in one file; a catalogue that is read by people has hundreds."""

PARTS_FOLDER: Final = "catalogue/parts"
_PARTS: Final = PACKAGE / PARTS_FOLDER


class Contents(Struct, frozen=True, kw_only=True):
    """What a catalogue file holds, each by name in the order written.

    `stand_ins` are the parts that take the place of another part of their name: they are like it, with other figures.
    """

    components: MappingOf[str, Component]
    knobs: MappingOf[str, KnobEntry]
    stand_ins: frozenset[str] = frozenset()


@cache
def component(name: str) -> Component:
    """The built-in part of that name. Raises KeyError when there is none."""
    kept = COMPONENTS.get(name)
    if kept is not None:
        assert isinstance(kept, Component)
        return kept
    return _listed(file_of(name)).component(name)


def file_of(name: str) -> str:
    """The data file that a built-in part stands in. Raises KeyError when there is no such part."""
    return _file_of(COMPONENTS, name)


def names() -> tuple[str, ...]:
    """The names of all built-in parts, sorted."""
    return tuple(sorted(name for file in files() for name in _names_in(COMPONENTS, file)))


@cache
def knob(name: str) -> KnobEntry:
    """The built-in knob or cap of that name. Raises KeyError when there is none."""
    kept = KNOBS.get(name)
    if kept is not None:
        assert isinstance(kept, KnobEntry)
        return kept
    return _listed(_file_of(KNOBS, name)).knob(name)


def knob_names() -> tuple[str, ...]:
    """The names of all built-in knobs and caps, sorted."""
    return tuple(sorted(name for file in files() for name in _names_in(KNOBS, file)))


def component_from(
    node: Node, name: str, problems: Problems, named: Callable[[str, Where], Component | None] | None = None
) -> Component | None:
    """A part defined where it is used; None when problems were added.

    In the form of a part in a catalogue file, or as a part that has a name, with single dimensions changed:
    `{part: bnc, opening: {diameter: 12.9}}`. `named` gives the part of a name, or tells that there is none; left out,
    the built-in parts are meant.
    """
    based_on = node.get("part") if isinstance(node, Mapping) else None
    if based_on is not None:
        written = table.LINE.parse(based_on, problems)
        if written is None:
            return None
        base = _built_in(written, based_on.where, problems) if named is None else named(written, based_on.where)
        return None if base is None else overridden(base, node, problems)
    before = len(problems)
    fields = read(node, table.PART, problems)
    if fields is None or len(problems) > before:
        return None
    try:
        return entries.component(fields.value, name, name, GIVEN, EntryContext(sources={}, problems=problems))
    except UnusableError:
        return None


def _built_in(name: str, where: Where, problems: Problems) -> Component | None:
    """The built-in part of a name; None when there is none, which is added to the problems."""
    try:
        return component(name)
    except KeyError:
        problems.add(where, said.unknown_part(name), near_part(name, names(), said.parts()))
        return None


def read_file(data: bytes, file: str, named: Callable[[str], Component] = component) -> dict[str, Component]:
    """The parts of a user's own catalogue file. Raises SpecError with every problem found in it."""
    return dict(read_contents(data, file, named).components)


def read_contents(data: bytes, file: str, named: Callable[[str], Component] = component) -> Contents:
    """All that a catalogue file holds; `named` gives the parts of other files that its own are like, or KeyError.

    Raises SpecError with every problem found in the file.
    """
    problems = Problems()
    listing = _Listing(data, file, problems, named)
    made = [(name, listing.made_component(name)) for name in listing.parts]
    knobs = [(name, listing.made_knob(name)) for name in listing.knobs]
    problems.raise_any()
    return Contents(
        components=MappingProxyType({name: one for name, one in made if one is not None}),
        knobs=MappingProxyType({name: one for name, one in knobs if one is not None}),
        stand_ins=listing.stand_ins,
    )


class _Entry(Struct, frozen=True, kw_only=True):
    """A part that can be made: what is written of it, the family it is of, its row."""

    fields: Fields
    family: str
    context: EntryContext


class _Listing:
    """The entries of one file by name, read but not made. Raises SpecError when the file is no catalogue file."""

    def __init__(
        self, data: bytes, file: str, problems: Problems, named: Callable[[str], Component] = component
    ) -> None:
        self._file = file
        self._named = named
        self._making: set[str] = set()
        self.parts: dict[str, _Entry] = {}
        self.knobs: dict[str, Fields] = {}
        self._problems = problems
        self._first: dict[str, Where] = {}
        read_fields = read(read_yaml(data, file), table.FILE, problems)
        if read_fields is None:
            raise problems.error()
        fields = read_fields.value
        sources = {key.value: text.value for key, text in fields[table.SOURCES] or ()}
        motions = {key.value: record.value for key, record in fields[table.SHARED_MOTIONS] or ()}
        self._bench = EntryContext(sources=sources, problems=problems, motions=motions)
        self._list_parts(fields)
        self._list_families(fields)
        self._list_knobs(fields)

    def _list_parts(self, fields: Fields) -> None:
        for name, part in fields[table.PARTS] or ():
            if self._is_new(name.value, name.where):
                self.parts[name.value] = _Entry(fields=part.value, family=name.value, context=self._bench)

    def _list_families(self, fields: Fields) -> None:
        """Every row of every family is a part."""
        for name, family in fields[table.FAMILIES] or ():
            for entry, of_row, where in entries.rows(family.value, self._bench):
                if self._is_new(entry, where):
                    self.parts[entry] = _Entry(fields=family.value, family=name.value, context=of_row)

    def _list_knobs(self, fields: Fields) -> None:
        for name, record in fields[table.KNOBS] or ():
            if self._is_new(name.value, name.where):
                self.knobs[name.value] = record.value

    def component(self, name: str) -> Component:
        """The part of that name. Raises SpecError when the file has a problem that touches it."""
        made = self.made_component(name)
        if made is None:
            raise self._problems.error()
        return made

    def knob(self, name: str) -> KnobEntry:
        """The knob of that name. Raises SpecError when the file has a problem that touches it."""
        made = self.made_knob(name)
        if made is None:
            raise self._problems.error()
        return made

    def made_component(self, name: str) -> Component | None:
        """The part of that name, or None when problems were added."""
        entry = self.parts[name]
        try:
            if entry.fields.record is table.VARIANT:
                return self._made_variant(entry, name)
            return entries.component(entry.fields, name, entry.family, GIVEN, entry.context)
        except UnusableError:
            return None

    @property
    def stand_ins(self) -> frozenset[str]:
        """The parts that are like the part of their own name."""
        return frozenset(name for name, entry in self.parts.items() if variants.is_stand_in(entry.fields, name))

    def _made_variant(self, entry: _Entry, name: str) -> Component:
        """A part that is like another, of this file or of those before it. Raises UnusableError."""
        like = entry.fields[table.LIKE]
        if like is None:
            raise UnusableError
        where = entry.fields.where(table.LIKE)
        if name in self._making:
            raise entry.context.refuse(where, said.like_itself(name), said.like_other())
        self._making.add(name)
        try:
            base = self.made_component(like) if like != name and like in self.parts else self._other(like, where, name)
        finally:
            self._making.discard(name)
        if base is None:
            raise UnusableError
        return variants.variant(entry.fields, name, base, entry.context, self._file)

    def _other(self, name: str, where: Where, entry: str) -> Component | None:
        """A part of the files before this one, that an entry is like; None when there is none, which is told."""
        try:
            return self._named(name)
        except KeyError:
            known = (*names(), *(part for part in self.parts if part != entry))
            self._problems.add(where, said.unknown_part(name), near_part(name, known, said.parts()))
            return None

    def made_knob(self, name: str) -> KnobEntry | None:
        """The knob of that name, or None when problems were added."""
        try:
            return entries.knob(self.knobs[name], name, GIVEN, self._bench)
        except UnusableError:
            return None

    def _is_new(self, name: str, where: Where) -> bool:
        if name in self._first:
            first = self._first[name]
            self._problems.add(where, said.duplicate_name(name, first.line, first.column), said.each_name_once())
            return False
        self._first[name] = where
        if len(self._first) > MAX_ENTRIES:
            self._problems.add(where, said.too_many_entries(maximum=MAX_ENTRIES), said.split_file())
            raise self._problems.error()
        return True


@cache
def _names_in(table: Table, file: str) -> tuple[str, ...]:
    """The parts or knobs of a data file, in its order."""
    kept = table.names(f"{PARTS_FOLDER}/{file}")
    if kept is not None:
        return kept
    listing = _listed(file)
    return tuple(listing.parts if table is COMPONENTS else listing.knobs)


@cache
def _file_of(table: Table, name: str) -> str:
    """The data file that a name stands in. Raises KeyError when it is in none."""
    likely = table.file_of(name).rpartition("/")[2]
    for file in sorted(files(), key=lambda file: file != likely):
        if name in _names_in(table, file):
            return file
    raise KeyError(name)


@cache
def files() -> tuple[str, ...]:
    """The names of the built-in data files, sorted."""
    return tuple(sorted(file.name for file in _PARTS.glob("*.yaml")))


@cache
def _listed(file: str) -> _Listing:
    """The entries of a built-in data file. Raises SpecError when it has a problem."""
    problems = Problems()
    listing = _Listing((_PARTS / file).read_bytes(), file, problems)
    problems.raise_any()
    return listing


def _components() -> Iterator[Row]:
    """Every built-in part, for the index. Raises SpecError when a data file has a problem."""
    for file in files():
        for name in _listed(file).parts:
            yield name, f"{PARTS_FOLDER}/{file}", _listed(file).component(name)


def _knobs() -> Iterator[Row]:
    """Every built-in knob and cap, for the index. Raises SpecError when a data file has a problem."""
    for file in files():
        for name in _listed(file).knobs:
            yield name, f"{PARTS_FOLDER}/{file}", _listed(file).knob(name)


_CODE: Final = (
    *(f"catalogue/{module}.py" for module in ("entries", "formula", "knobs", "library", "outlines", "table")),
    *(f"geometry/{module}.py" for module in ("contour", "corners", "points", "shapes", "transforms")),
    "model/component.py",
    "source/schema.py",
    "source/yaml.py",
    "units.py",
)
"""What decides how a part or knob is made of what a data file says."""

COMPONENTS: Final = Table(name="parts", type=Component, code=_CODE, make=_components, packed=True)
KNOBS: Final = Table(name="knobs", type=KnobEntry, code=_CODE, make=_knobs, packed=True)
