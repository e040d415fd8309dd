"""Disks that fail or end the run at one step, and what is left behind."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from panelart.writers.disk import Disk

Step = tuple[str, Path]


class Killed(BaseException):
    """The end of a run that could do nothing more: all that its disk is asked for afterwards ends the same."""


class Watched(Disk):
    """A disk that notes its steps and waits for no medium. `at` and `then` do what they like before and after one."""

    def __init__(self, at: Callable[[int, Step], None] | None = None, then: Callable[[int, Step], None] | None = None):
        self.steps: list[Step] = []
        self._at, self._then = at, then

    def _done(self, name: str, *given: object) -> None:
        step = (name, Path(str(given[0])))
        number = len(self.steps)
        self.steps.append(step)
        if self._at is not None:
            self._at(number, step)
        if name not in {"sync", "sync_folder"}:
            getattr(Disk, name)(self, *given)
        if self._then is not None:
            self._then(number, step)

    def make_folder(self, folder: Path) -> None:
        self._done("make_folder", folder)

    def write(self, file: Path, data: bytes) -> None:
        self._done("write", file, data)

    def sync(self, file: Path) -> None:
        self._done("sync", file)

    def sync_folder(self, folder: Path) -> None:
        self._done("sync_folder", folder)

    def keep(self, file: Path, kept: Path) -> None:
        # Noted as one step here; where it is no link it is the rename that it is made of.
        self._done("keep", file, kept)

    def rename(self, place: Path, to: Path) -> None:
        self._done("rename", place, to)

    def remove(self, file: Path) -> None:
        self._done("remove", file)

    def remove_folder(self, folder: Path) -> None:
        self._done("remove_folder", folder)


def failing(where: int | tuple[str, str], error: BaseException, *, after: bool = False) -> Watched:
    """A disk that fails once: in place of a step, or after it. It is a number, or what is done to a file of a name."""
    failed: list[int] = []

    def is_it(number: int, step: Step) -> bool:
        if isinstance(where, int):
            return number == where
        return step[0] == where[0] and where[1] in {"", step[1].name}

    def fail(number: int, step: Step) -> None:
        if not failed and is_it(number, step):
            failed.append(number)
            raise error

    return Watched(then=fail) if after else Watched(at=fail)


def dying(last: int, *, half: bool = False) -> Watched:
    """A disk whose run is killed before a step, or in the middle of it if that writes a file."""

    def die(number: int, step: Step) -> None:
        if number == last and half and step[0] == "write":
            step[1].write_bytes(b"{")
        if number >= last:
            raise Killed

    return Watched(at=die)


def content(folder: Path) -> dict[str, bytes]:
    """Every file below the folder, hidden ones as well."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def entries(folder: Path) -> set[str]:
    return {str(path.relative_to(folder)) for path in folder.rglob("*")}


def state(folder: Path) -> tuple[dict[str, bytes], set[str]]:
    """All that is in a folder."""
    return content(folder), entries(folder)


def without_litter(folder: Path) -> dict[str, bytes]:
    return {name: data for name, data in content(folder).items() if ".panelart-" not in name}
