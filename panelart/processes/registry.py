"""The marking processes by name: a line here for each module, and those that others bring.

A module is imported when its process is first asked for, so that a run reads the processes it uses.
"""

from __future__ import annotations

import importlib
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final, overload

from msgspec.structs import replace

from panelart.figure import Figure
from panelart.processes.process import LIMITS, Process

MODULES: Final = (
    "digital_print",
    "screen_print",
    "engraving",
    "laser_marking",
    "overlay",
    "pad_print",
)
"""The modules of this room that have a process, in the order in which they are listed; the first is the usual one."""


class Processes(Mapping[str, Process]):
    """Processes by name, in their order. Those of other packages come last."""

    def __init__(self, modules: Sequence[str]) -> None:
        self._modules = {module.replace("_", "-"): module for module in modules}
        self._known: dict[str, Process] = {}

    def add(self, process: Process) -> None:
        """Take a process from elsewhere. Raises ValueError when one has its name already."""
        if process.name in self:
            raise ValueError(f"two processes are named {process.name}")
        self._known[process.name] = _with_names(process)

    def remove(self, name: str) -> None:
        """Give up a process that was added. Raises KeyError for one that was not."""
        if name in self._modules:
            raise KeyError(name)
        del self._known[name]

    def __getitem__(self, name: str) -> Process:
        known = self._known.get(name)
        if known is None:
            module = importlib.import_module(f"panelart.processes.{self._modules[name]}")
            known = self._known[name] = _with_names(module.PROCESS)
        return known

    def __iter__(self) -> Iterator[str]:
        yield from self._modules
        yield from (name for name in self._known if name not in self._modules)

    def __len__(self) -> int:
        return len(list(iter(self)))

    def __contains__(self, name: object) -> bool:
        return name in self._modules or name in self._known


class Names(Sequence[str]):
    """The names of the processes that there are now, for a key that takes one of them."""

    @overload
    def __getitem__(self, index: int) -> str: ...

    @overload
    def __getitem__(self, index: slice) -> Sequence[str]: ...

    def __getitem__(self, index: int | slice) -> str | Sequence[str]:
        return tuple(_PROCESSES)[index]

    def __len__(self) -> int:
        return len(_PROCESSES)


def _with_names(process: Process) -> Process:
    """A process whose figures know the names they stand under."""
    standard: dict[str, Any] = {name: replace(getattr(process, name), name=name) for name in LIMITS}
    own: dict[str, Figure] = {name: replace(figure, name=name) for name, figure in process.own.items()}
    return replace(process, **standard, own=own)


_PROCESSES: Final = Processes(MODULES)
NAMES: Final = Names()


def processes() -> Processes:
    """All processes by name."""
    return _PROCESSES


def usual() -> str:
    """The name of the process that is taken where nobody says which."""
    return next(iter(_PROCESSES))
