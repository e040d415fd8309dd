"""The built-in catalogue with the part files of other packages, by name as if they were one.

A part file of an extension is read when the first part is asked for, in full: one with a slip is an error, as is a name
that the catalogue or another extension has. A panel that uses a part or knob of such a file names the file among those
that it was made from.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final, NamedTuple

from panelart import extensions
from panelart.canonical import Struct
from panelart.catalogue import library
from panelart.catalogue.knobs import KnobEntry
from panelart.catalogue.library import Contents, component_from, read_contents
from panelart.diagnostics import SpecError
from panelart.extensions import Entry, ExtensionError, RefusedError
from panelart.messages import Message
from panelart.messages import extensions as said
from panelart.model.component import Component

GROUP: Final = "panelart.parts"
"""The group of entry points; each names a part file, several, what gives these, or a module that has them as PARTS."""


class PartFile(NamedTuple):
    """A part file of an extension. Its name is the same wherever the extension is installed."""

    extension: str
    name: str
    data: bytes

    def __str__(self) -> str:
        return f"{self.extension}: {self.name}"


class Brought(Struct, frozen=True, kw_only=True):
    """What part files of extensions hold, by name in the order of extensions and files; `files` say in which."""

    components: Mapping[str, Component]
    knobs: Mapping[str, KnobEntry]
    files: Mapping[str, PartFile]


@extensions.kept
def brought() -> Brought:
    """The parts and knobs of all extensions but those that are left out.

    Raises ExtensionError where a part file cannot be read, has errors, or has a name that is taken.
    """
    components: dict[str, Component] = {}
    knobs: dict[str, KnobEntry] = {}
    files: dict[str, PartFile] = {}
    problems = []
    for entry, found in extensions.load(GROUP, _brought).objects:
        for file, contents in found:
            if file in files.values():
                continue  # offered twice: by itself and with its module
            problems += [entry.problem(reason) for reason in _clashes(file, contents, files)]
            components |= contents.components
            knobs |= contents.knobs
            files |= dict.fromkeys((*contents.components, *contents.knobs), file)
    if problems:
        raise ExtensionError(problems)
    return Brought(
        components=MappingProxyType(components), knobs=MappingProxyType(knobs), files=MappingProxyType(files)
    )


def component(name: str) -> Component:
    """The part of that name. Raises KeyError when there is none."""
    try:
        return library.component(name)
    except KeyError:
        return brought().components[name]


def names() -> tuple[str, ...]:
    """The names of all parts, sorted."""
    return _with(library.names(), brought().components)


def knob(name: str) -> KnobEntry:
    """The knob or cap of that name. Raises KeyError when there is none."""
    try:
        return library.knob(name)
    except KeyError:
        return brought().knobs[name]


def knob_names() -> tuple[str, ...]:
    """The names of all knobs and caps, sorted."""
    return _with(library.knob_names(), brought().knobs)


class Used:
    """The catalogue, noting the part files of extensions that something is taken from."""

    names = staticmethod(names)
    knob_names = staticmethod(knob_names)
    component_from = staticmethod(component_from)
    read_contents = staticmethod(read_contents)

    def __init__(self) -> None:
        self._files = brought().files
        self._used: set[PartFile] = set()

    def component(self, name: str) -> Component:
        """The part of that name. Raises KeyError when there is none."""
        found = component(name)
        self._note(name)
        return found

    def knob(self, name: str) -> KnobEntry:
        """The knob or cap of that name. Raises KeyError when there is none."""
        found = knob(name)
        self._note(name)
        return found

    def _note(self, name: str) -> None:
        if name in self._files:
            self._used.add(self._files[name])

    @property
    def used(self) -> tuple[PartFile, ...]:
        """The part files, in the order of extensions and names."""
        return tuple(sorted(self._used))


def _with(built_in: tuple[str, ...], own: Mapping[str, object]) -> tuple[str, ...]:
    return tuple(sorted((*built_in, *own))) if own else built_in


def _clashes(file: PartFile, contents: Contents, files: Mapping[str, PartFile]) -> Iterator[Message]:
    built_in = {*library.names(), *library.knob_names()}
    for name in (*contents.components, *contents.knobs):
        if name in built_in:
            yield said.part_taken(file=file.name, part=name)
        elif name in files:
            yield said.part_of_other(file=file.name, part=name, extension=files[name].extension)


def _brought(entry: Entry, found: object) -> tuple[Entry, list[tuple[PartFile, Contents]]]:
    """The part files that an entry point names, read. Raises RefusedError and ExtensionError."""
    return entry, [_read(entry, file) for file in _files(entry, extensions.constant(found, "PARTS"))]


def _files(entry: Entry, offered: Any) -> Iterator[Any]:
    """What can be read of what is offered: paths, resources, sequences of them, functions that give them."""
    if isinstance(offered, str | os.PathLike):
        yield _beside(entry) / offered
    elif hasattr(offered, "read_bytes"):
        yield offered
    elif isinstance(offered, Iterable):
        for one in offered:
            yield from _files(entry, one)
    elif callable(offered):
        yield from _files(entry, offered())
    else:
        raise RefusedError(said.not_a_part_file(found=type(offered).__name__))


def _beside(entry: Entry) -> Path:
    """The folder of the module that an entry point names, which paths are relative to."""
    return Path(getattr(sys.modules[entry.module], "__file__", None) or "").parent


def _read(entry: Entry, file: Any) -> tuple[PartFile, Contents]:
    """A part file and what is in it. Raises RefusedError for one that cannot be read, ExtensionError for errors."""
    place = str(file)
    try:
        data = file.read_bytes()
    except OSError as error:
        raise RefusedError(
            said.part_file_unreadable(file=place, reason=error.strerror or type(error).__name__)
        ) from None
    try:
        contents = read_contents(data, place)
    except SpecError as error:
        wrong = entry.problem(said.part_file_wrong(file=file.name))
        raise ExtensionError([wrong, *error.problems]) from None
    return PartFile(entry.extension, _name(file, _beside(entry)), data), contents


def _name(file: Any, folder: Path) -> str:
    """What a file is called, without where the extension is installed."""
    if isinstance(file, Path) and file.is_relative_to(folder):
        return file.relative_to(folder).as_posix()
    return str(file.name)
