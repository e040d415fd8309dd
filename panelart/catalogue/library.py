"""The built-in catalogue and the user's own part files: found by name, one data file read at a time.

`index.txt` says which file a name stands in, so that one part costs the reading of one file. Files, once read, are
kept for the life of the process; they are part of the program and do not change while it runs.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Final

from panelart.catalogue import table
from panelart.catalogue.entries import (
    GIVEN,
    MOST_ENTRIES,
    Bench,
    UnusableError,
    rows,
)
from panelart.catalogue.entries import (
    component as made_component,
)
from panelart.catalogue.entries import (
    knob as made_knob,
)
from panelart.catalogue.knobs import KnobEntry
from panelart.diagnostics import Where
from panelart.model.component import Component
from panelart.source.nodes import Node
from panelart.source.problems import Problems
from panelart.source.schema import Fields, read
from panelart.source.yaml import read as read_yaml

FOLDER: Final = "parts"
INDEX: Final = "index.txt"


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What a catalogue file holds, each by name in the order written."""

    components: Mapping[str, Component]
    knobs: Mapping[str, KnobEntry]


def component(name: str) -> Component:
    """The built-in part of that name. Raises KeyError when there is none."""
    return _contents(_index().components[name]).components[name]


def names() -> tuple[str, ...]:
    """The names of all built-in parts, sorted."""
    return tuple(sorted(_index().components))


def knob(name: str) -> KnobEntry:
    """The built-in knob or cap of that name. Raises KeyError when there is none."""
    return _contents(_index().knobs[name]).knobs[name]


def knob_names() -> tuple[str, ...]:
    """The names of all built-in knobs and caps, sorted."""
    return tuple(sorted(_index().knobs))


def component_from(node: Node, name: str, problems: Problems) -> Component | None:
    """A part defined where it is used, in the form of a part in a catalogue file; None when problems were added."""
    before = len(problems)
    fields = read(node, table.PART, problems)
    if fields is None or len(problems) > before:
        return None
    try:
        return made_component(fields.value, name, name, GIVEN, Bench(sources={}, problems=problems))
    except UnusableError:
        return None


def read_file(data: bytes, file: str) -> dict[str, Component]:
    """The parts of a user's own catalogue file. Raises SpecError with every problem found in it."""
    return dict(read_contents(data, file).components)


def read_contents(data: bytes, file: str) -> Contents:
    """All that a catalogue file holds. Raises SpecError with every problem found in it."""
    problems = Problems()
    fields = read(read_yaml(data, file), table.FILE, problems)
    if fields is None:
        raise problems.error()
    maker = _Maker(fields.value, problems)
    problems.raise_any()
    return Contents(components=MappingProxyType(maker.components), knobs=MappingProxyType(maker.knobs))


class _Maker:
    """Makes the entries of one file, each name once."""

    def __init__(self, fields: Fields, problems: Problems) -> None:
        self.components: dict[str, Component] = {}
        self.knobs: dict[str, KnobEntry] = {}
        self._problems = problems
        self._first: dict[str, Where] = {}
        sources = {key.value: text.value for key, text in fields[table.SOURCES] or ()}
        bench = Bench(sources=sources, problems=problems)
        for name, part in fields[table.PARTS] or ():
            self._component(part.value, name.value, name.value, bench, name.where)
        for name, family in fields[table.FAMILIES] or ():
            for entry, of_row, where in rows(family.value, bench):
                self._component(family.value, entry, name.value, of_row, where)
        for name, record in fields[table.KNOBS] or ():
            if self._is_new(name.value, name.where):
                try:
                    self.knobs[name.value] = made_knob(record.value, name.value, GIVEN, bench)
                except UnusableError:
                    continue

    def _component(self, fields: Fields, name: str, family: str, bench: Bench, where: Where) -> None:
        if not self._is_new(name, where):
            return
        try:
            self.components[name] = made_component(fields, name, family, GIVEN, bench)
        except UnusableError:
            return

    def _is_new(self, name: str, where: Where) -> bool:
        if name in self._first:
            first = self._first[name]
            self._problems.add(
                where,
                f"'{name}' is there twice; the first is at {first.line}:{first.column}",
                "accepted: each name once",
            )
            return False
        self._first[name] = where
        if len(self._first) > MOST_ENTRIES:
            self._problems.add(
                where, f"the file has more than {MOST_ENTRIES} entries", f"accepted: at most {MOST_ENTRIES}"
            )
            raise self._problems.error()
        return True


@dataclass(frozen=True, slots=True, kw_only=True)
class _Index:
    components: Mapping[str, str]
    knobs: Mapping[str, str]


@cache
def _index() -> _Index:
    """Which file each name stands in."""
    lines = (resources.files("panelart.catalogue") / INDEX).read_text("utf-8").splitlines()
    found: dict[str, dict[str, str]] = {"part": {}, "knob": {}}
    for line in lines:
        kind, name, file = line.split(" ")
        found[kind][name] = file
    return _Index(components=MappingProxyType(found["part"]), knobs=MappingProxyType(found["knob"]))


def index_text() -> str:
    """The text that `index.txt` ought to hold: one line an entry, sorted. Reads every file."""
    lines = []
    for file in sorted(files()):
        contents = _contents(file)
        lines += [f"part {name} {file}" for name in contents.components]
        lines += [f"knob {name} {file}" for name in contents.knobs]
    return "".join(f"{line}\n" for line in sorted(lines))


def files() -> tuple[str, ...]:
    """The names of the built-in data files."""
    folder = resources.files("panelart.catalogue") / FOLDER
    return tuple(sorted(file.name for file in folder.iterdir() if file.name.endswith(".yaml")))


@cache
def _contents(file: str) -> Contents:
    data = (resources.files("panelart.catalogue") / FOLDER / file).read_bytes()
    return read_contents(data, file)
