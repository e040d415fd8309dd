"""What other installed packages bring, by entry points: rules, processes, documents, parts.

    [project.entry-points."panelart.rules"]
    lamps = "house_rules.lamps"

A distribution that offers something to a group is an extension, known by its name (`house-rules`). One that cannot be
loaded is an error, so that no rule of a house goes missing unseen; it is left out only by name, and every report tells
what was left out. The names of a run are a context:

    with leaving_out(["house-rules"]):
        ...

Each group is loaded where its things are kept: `checks/registry.py`, `processes/registry.py`, `documents/installed.py`,
`catalogue/installed.py`. What was loaded is kept for as long as the same is installed and left out (`kept`).

Entry points are those of the packaging specification ("Entry points", "Recording installed projects"). They are looked
for in `entry_points.txt` of what lies on the path, which takes 1.5 ms with 94 distributions; the standard library's
reader, which takes 30 ms, is asked only where something else than a folder is on the path.
"""

from __future__ import annotations

import importlib
import os
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache, reduce, wraps
from types import ModuleType
from typing import TYPE_CHECKING, Any, Final, Generic, NamedTuple, TypeVar

from panelart.diagnostics import Problem, SpecError, Where
from panelart.messages import Said
from panelart.messages import extensions as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from importlib.metadata import Distribution

PREFIX: Final = "panelart."
"""The groups that are ours: panelart.rules, panelart.processes, panelart.documents, panelart.parts."""

_FILE: Final = "entry_points.txt"
_RECORDS: Final = (".dist-info", ".egg-info")

_LEFT_OUT: Final[ContextVar[frozenset[str]]] = ContextVar("left_out", default=frozenset())

Made = TypeVar("Made")


class ExtensionError(SpecError):
    """An extension cannot be loaded, or failed: all problems at once, each with the option that leaves it out."""


class Entry(NamedTuple):
    """One entry point: what an extension offers to a group, and where it says so."""

    extension: str
    group: str
    name: str
    value: str
    where: Where

    @property
    def module(self) -> str:
        """The module of what it names."""
        return self.value.partition("[")[0].partition(":")[0].strip()

    def problem(self, reason: Said) -> Problem:
        """Why it cannot be loaded, with what to type."""
        says = said.not_loaded(extension=self.extension, entry=self.name, reason=reason)
        return Problem(where=self.where, says=says, accepts=said.leave_out(extension=self.extension))

    def failed(self, says: Said, error: BaseException | None = None) -> ExtensionError:
        """What is raised when something that it brought failed: where its own code last was, with what to type."""
        where = self.where if error is None else raised_at(error, self.module, self.where)
        return ExtensionError([Problem(where=where, says=says, accepts=said.leave_out(extension=self.extension))])


class Loaded(NamedTuple, Generic[Made]):
    """What the extensions of a group brought, in the order of their names, and which were left out."""

    objects: tuple[Made, ...]
    skipped: tuple[str, ...]


class RefusedError(Exception):
    """What an entry point names is nothing that its group takes; its argument says why."""


@contextmanager
def leaving_out(names: Iterable[str]) -> Iterator[None]:
    """Within this, extensions of these names are not loaded, and whatever is made says so.

    It holds for this thread and task, and for threads that are run in `contextvars.copy_context()`. Raises
    ExtensionError for a name that no extension has: a misspelt one would leave nothing out.
    """
    asked = frozenset(map(normalised, names))
    installed = known() if asked else ()
    unknown = sorted(asked.difference(installed))
    if unknown:
        from panelart.diagnostics import did_you_mean

        where = Where("without", 1, 1, "without")
        hints = (did_you_mean(name, installed, said.extensions()) if installed else "" for name in unknown)
        raise ExtensionError(
            Problem(where=where, says=said.unknown(name=name), accepts=hint)
            for name, hint in zip(unknown, hints, strict=True)
        )
    token = _LEFT_OUT.set(asked)
    try:
        yield
    finally:
        _LEFT_OUT.reset(token)


@contextmanager
def leaving_out_too(names: Iterable[str]) -> Iterator[None]:
    """As `leaving_out`; with none named, what is left out outside is left out here."""
    named = tuple(names)
    if not named:
        yield
        return
    with leaving_out(named):
        yield


def known() -> tuple[str, ...]:
    """The extensions that are installed, by name; those too whose entry points cannot be read."""
    scanned = _scanned()
    names = (*(entry.extension for entry in scanned.entries), *(one.extension for one in scanned.unreadable))
    return tuple(sorted(set(names)))


def left_out() -> tuple[str, ...]:
    """The extensions that are installed and left out here, by name: what a report must tell."""
    return tuple(sorted(_LEFT_OUT.get()))


def normalised(name: str) -> str:
    """The name of a distribution as it is compared: small letters, hyphens (packaging specification, "Names")."""
    return "-".join(word for word in name.lower().replace("_", "-").replace(".", "-").split("-") if word)


def load(group: str, made: Callable[[Entry, Any], Made], *, without: frozenset[str] | None = None) -> Loaded[Made]:
    """Everything that extensions offer to a group, but for those `without`: by default those of `leaving_out`.

    `made` turns what an entry point names into what the group keeps; it raises RefusedError for what is nothing of the
    kind. Raises ExtensionError with every entry point that cannot be loaded.
    """
    skip = _LEFT_OUT.get() if without is None else without
    scanned = _scanned()
    problems = list(unreadable(skip))
    objects: list[Made] = []
    skipped: list[str] = []
    for entry in scanned.entries:
        if entry.group != group:
            continue
        if entry.extension in skip:
            skipped.append(entry.extension)
            continue
        try:
            objects.append(made(entry, _object(entry)))
        except ExtensionError as error:
            problems += error.problems
        except RefusedError as error:
            problems.append(entry.problem(said_by(error)))
        except (Exception, SystemExit) as error:  # noqa: BLE001  # whatever another package raises when it is loaded
            problems.append(entry.problem(told(error)))
    if problems:
        raise ExtensionError(problems)
    return Loaded(objects=tuple(objects), skipped=tuple(dict.fromkeys(skipped)))


def offered(group: str) -> bool:
    """Whether an extension that is not left out here offers something to a group."""
    return any(entry.group == group and entry.extension not in _LEFT_OUT.get() for entry in _scanned().entries)


def kept(work_out: Callable[[], Made]) -> Callable[[], Made]:
    """Make of a function one that is run again only where something else is installed or left out.

    What it raises is not kept.
    """
    found: dict[tuple[_Scanned, frozenset[str]], Made] = {}

    @wraps(work_out)
    def once() -> Made:
        key = (_scanned(), _LEFT_OUT.get())
        if key not in found:
            found[key] = work_out()
        return found[key]

    return once


def constant(found: object, name: str) -> object:
    """What a module keeps under a name, where an entry point names a module; else what it names itself.

    Raises RefusedError for a module that has nothing of that name.
    """
    if not isinstance(found, ModuleType):
        return found
    if not hasattr(found, name):
        raise RefusedError(said.no_constant_in_module(module=found.__name__, name=name))
    thing: object = getattr(found, name)
    return thing


def raised_at(error: BaseException, module: str, otherwise: Where) -> Where:
    """The last line in a package, named by a module of its, on the way to where something failed."""
    package = module.partition(".")[0]
    step = error.__traceback__
    while step is not None:
        if step.tb_frame.f_globals.get("__name__", "").partition(".")[0] == package:
            otherwise = Where(step.tb_frame.f_code.co_filename, step.tb_lineno, 1)
        step = step.tb_next
    return otherwise


def told(error: BaseException) -> Said:
    """An exception of another package's in one line: its kind and the first line of its words."""
    return said.raised(kind=type(error).__name__, reason=said_by(error) or "-")


def _object(entry: Entry) -> object:
    """What the value of an entry point names: `module`, `module:object`, extras in brackets after it."""
    module, _, names = (part.strip() for part in entry.value.partition("[")[0].partition(":"))
    steps = names.split(".") if names else []
    if not all(step.isidentifier() for step in (*module.split("."), *steps)):
        raise RefusedError(said.entry_without_value(extension=entry.extension, line=f"{entry.name} = {entry.value}"))
    found: object = importlib.import_module(module)
    return reduce(getattr, steps, found)


def unreadable(without: frozenset[str] | None = None) -> Iterator[Problem]:
    """What is wrong with entry points that cannot be read, of extensions that are not left out."""
    skip = _LEFT_OUT.get() if without is None else without
    for one in _scanned().unreadable:
        if one.extension not in skip:
            says = said.entries_unreadable(extension=one.extension, reason=one.reason)
            yield Problem(where=one.where, says=says, accepts=said.leave_out(extension=one.extension))


# --- what is installed


class _Unreadable(NamedTuple):
    """Entry points that cannot be read: whether they are for us is not known."""

    extension: str
    where: Where
    reason: str


class _Scanned(NamedTuple):
    entries: tuple[Entry, ...]
    unreadable: tuple[_Unreadable, ...]


def _scanned() -> _Scanned:
    """What is installed on the path as it is now."""
    others = tuple(finder for finder in sys.meta_path if _finds_more(finder))
    return _scan(tuple(sys.path), others)


def _finds_more(finder: object) -> bool:
    """Whether an import hook that is not Python's own knows distributions."""
    return hasattr(finder, "find_distributions") and getattr(finder, "__module__", "") != "_frozen_importlib_external"


@cache
def _scan(path: tuple[str, ...], others: tuple[object, ...]) -> _Scanned:
    entries: list[Entry] = []
    unreadable: list[_Unreadable] = []
    met: set[str] = set()
    for name, file, data in (*_in_folders(path), *_elsewhere(path, others)):
        # Of two records of one distribution the first on the path counts, as it does for imports.
        if name in met:
            continue
        met.add(name)
        if isinstance(data, str):
            unreadable.append(_Unreadable(name, Where(file, 1, 1), data))
        elif f"[{PREFIX}".encode() in data:
            entries += _entries(name, file, data)
    # By name, not by place on the path: the same findings in the same order on every machine.
    return _Scanned(tuple(sorted(entries)), tuple(sorted(unreadable)))


_Record = tuple[str, str, bytes | str]
"""A distribution's name, its file of entry points, and the file's bytes, or why they cannot be read."""


def _in_folders(path: tuple[str, ...]) -> Iterator[_Record]:
    """The distributions that are recorded in the folders of the path."""
    for folder in path:
        try:
            names = sorted(name for name in os.listdir(folder or ".") if name.endswith(_RECORDS))  # noqa: PTH208  # a Path of each would take as long as all the rest
        except OSError:
            continue  # a path may name what is not there, or a file
        for record in names:
            file = os.path.join(folder, record, _FILE)  # noqa: PTH118  # as above
            name = normalised(record[: -len(_RECORDS[0])].partition("-")[0])
            try:
                with open(file, "rb") as opened:  # noqa: PTH123  # as above
                    yield name, file, opened.read()
            except (FileNotFoundError, NotADirectoryError):
                yield name, file, b""
            except OSError as error:
                yield name, file, error.strerror or type(error).__name__


def _elsewhere(path: tuple[str, ...], others: tuple[object, ...]) -> Iterator[_Record]:
    """The distributions in archives on the path and those that import hooks know."""
    archives = [place for place in path if os.path.isfile(place)]  # noqa: PTH113  # as above
    if not archives and not others:
        return
    from importlib.metadata import DistributionFinder, distributions

    found: list[Distribution] = list(distributions(path=archives))
    for finder in others:
        found += finder.find_distributions(DistributionFinder.Context())  # type: ignore[attr-defined]
    for one in found:
        if name := _name_of(one):
            yield normalised(name), f"{name}/{_FILE}", (one.read_text(_FILE) or "").encode()


def _name_of(distribution: Distribution) -> str:
    """The name that a record gives, '' for one without: a library for older Pythons raises for it, Python does not."""
    try:
        return distribution.name or ""
    except OSError:
        return ""


def _entries(extension: str, file: str, data: bytes) -> Iterator[Entry]:
    """The entry points of our groups in a file."""
    group = ""
    for number, raw in enumerate(data.decode("utf-8", "replace").splitlines(), start=1):
        line = raw.strip()
        if not line or line.startswith("#"):
            continue
        if line.startswith("[") and line.endswith("]"):
            group = line[1:-1].strip()
        elif group.startswith(PREFIX):
            name, _, value = (part.strip() for part in line.partition("="))
            yield Entry(extension=extension, group=group, name=name, value=value, where=Where(file, number, 1))
