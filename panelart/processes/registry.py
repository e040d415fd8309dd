"""The marking processes by name: a line here for each module of this room, and those that other packages bring.

A module is imported when its process is first asked for, so that a run reads the processes it uses. Processes of
another package are named by it, `house-marking/tampo`, as its rules are, and stand last.
"""

from __future__ import annotations

import importlib
import math
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, Final, overload

from msgspec.structs import replace

from panelart import extensions
from panelart.canonical import canonical
from panelart.extensions import Entry, ExtensionError, RefusedError
from panelart.figure import Figure
from panelart.messages import extensions as said
from panelart.processes.guarded import Guarded, purchases, sentences
from panelart.processes.process import LIMITS, NEEDED, OWN_FILES, Output, Process

GROUP: Final = "panelart.processes"
"""The group of entry points; each names a process, or a module that has one as PROCESS."""

MODULES: Final = (
    "digital_print",
    "screen_print",
    "engraving",
    "laser_marking",
    "overlay",
    "pad_print",
)
"""The modules of this room that have a process, in the order in which they are listed; the first is the usual one."""

_NAME: Final = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def _name_of(module: str) -> str:
    return module.replace("_", "-")


class Processes(Mapping[str, Process]):
    """Processes by name, in their order: those of modules of this room, then those that others `brought`.

    Raises ExtensionError where two of these have one name.
    """

    def __init__(self, modules: Sequence[str], brought: Iterable[tuple[Entry, Process]] = ()) -> None:
        self.brought = tuple(brought)
        self._modules = {_name_of(module): module for module in modules}
        self._known: dict[str, Process] = {}
        for entry, process in self.brought:
            if process.name in self._known:
                raise ExtensionError([entry.problem(said.two_processes(process=process.name))])
            self._known[process.name] = process
        self._names = (*self._modules, *self._known)

    def __getitem__(self, name: str) -> Process:
        known = self._known.get(name)
        if known is None:
            module = importlib.import_module(f"panelart.processes.{self._modules[name]}")
            known = self._known[name] = _with_names(module.PROCESS)
        return known

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)

    def __contains__(self, name: object) -> bool:
        return name in self._names


class Names(Sequence[str]):
    """The names of the processes that there are here and now, for a key that takes one of them."""

    @overload
    def __getitem__(self, index: int) -> str: ...

    @overload
    def __getitem__(self, index: slice) -> Sequence[str]: ...

    def __getitem__(self, index: int | slice) -> str | Sequence[str]:
        return tuple(processes())[index]

    def __len__(self) -> int:
        return len(processes())


BUILT_IN: Final = Processes(MODULES)
"""The processes of this package."""

NAMES: Final = Names()


@extensions.kept
def processes() -> Processes:
    """The processes of this package and of all extensions but those that are left out.

    Raises ExtensionError where one cannot be loaded, or two of one package have one name.
    """
    brought = extensions.load(GROUP, _brought).objects
    return Processes(MODULES, brought) if brought else BUILT_IN


def usual() -> str:
    """The name of the process that is taken where nobody says which."""
    return _name_of(MODULES[0])


def _with_names(process: Process) -> Process:
    """A process whose figures know the names they stand under."""
    standard: dict[str, Any] = {name: replace(getattr(process, name), name=name) for name in LIMITS}
    own: dict[str, Figure] = {name: replace(figure, name=name) for name, figure in process.own.items()}
    return replace(process, **standard, own=own)


# --- processes of other packages


def _brought(entry: Entry, found: object) -> tuple[Entry, Process]:
    """The process that an entry point names, with the name that it has here. Raises RefusedError."""
    process = extensions.constant(found, "PROCESS")
    if not isinstance(process, Process):
        raise RefusedError(said.not_a_process(found=type(process).__name__))
    if not _NAME.fullmatch(process.name):
        raise RefusedError(said.not_a_name(name=process.name))
    _require_figures(process)
    _require_outputs(process)
    name = f"{entry.extension}/{process.name}"
    named = replace(
        _with_names(process),
        name=name,
        steps=Guarded(entry, name, process.steps, sentences),
        cautions=Guarded(entry, name, process.cautions, sentences),
        purchases=Guarded(entry, name, process.purchases, purchases),
    )
    canonical(named)  # a function without bytes is met here, not when the first panel is remembered
    return entry, named


def _require_figures(process: Process) -> None:
    """Every figure is one: what reckons with it is far from who wrote it. Raises RefusedError."""
    for name, figure in {**{name: getattr(process, name) for name in LIMITS}, **process.own}.items():
        number = isinstance(figure, Figure) and isinstance(figure.value, int | float)
        if not number or not (math.isfinite(figure.value) and figure.value >= 0.0):
            raise RefusedError(said.not_a_figure(name=name))


def _require_outputs(process: Process) -> None:
    """Outputs are of different kinds, their files can be named, and they have their figures. Raises RefusedError."""
    kinds = [type(output) for output in process.outputs]
    for output in process.outputs:
        kind = type(output).__name__
        if not isinstance(output, Output) or kinds.count(type(output)) > 1:
            raise RefusedError(said.not_an_output(found=kind))
        if isinstance(output, OWN_FILES) and not _NAME.fullmatch(output.file):
            raise RefusedError(said.not_a_name(name=output.file))
        missing = [name for name in NEEDED.get(type(output), ()) if process.figure(name) <= 0.0]
        if missing:
            raise RefusedError(said.figures_missing(output=kind, figures=missing))
