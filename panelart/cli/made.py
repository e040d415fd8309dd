"""What the files of a folder say they were made from, panel by panel.

A folder holds the files of one panel, in folders below it too where there are several languages, or those of a set:
lists that name every panel with its state, and a folder for each panel.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

from panelart.canonical import Struct

if TYPE_CHECKING:
    from panelart.writers.states import Line, State

TOP = PurePath()
"""The folder that is looked at; files below it have paths from it."""


class Telling(Struct, frozen=True, kw_only=True):
    """A file says a state: of the panel whose folder is `panel`, None where no list or spec names a panel for it."""

    file: PurePath
    panel: PurePath | None
    state: State

    @property
    def member(self) -> str:
        """The name of the panel in its set, '' for none."""
        return "" if self.panel is None else self.panel.name


class Made(Struct, frozen=True, kw_only=True):
    """What the files of a folder say. `silent` is how many of them name no state.

    `listed` is whether a list names all panels of a set.
    """

    tellings: tuple[Telling, ...]
    silent: int
    listed: bool

    @property
    def states(self) -> dict[str, State]:
        """What each fingerprint stands for, as the file says that says most of number and revision."""
        states: dict[str, State] = {}
        for each in self.tellings:
            states[each.state.spec] = max(each.state, states.get(each.state.spec, each.state))
        return states

    def files(self, spec: str) -> tuple[str, ...]:
        """The files that name a fingerprint, in order."""
        return tuple(dict.fromkeys(each.file.as_posix() for each in self.tellings if each.state.spec == spec))

    @property
    def of_set(self) -> bool:
        """Whether there are files of panels of a set."""
        return any(each.panel is not None for each in self.tellings)

    @property
    def mixed(self) -> frozenset[str]:
        """The fingerprints that lie where only one of them may: all of one panel, or of none that the set has."""
        known = _by((each.panel, each.state.spec) for each in self.tellings if each.panel is not None)
        stray = [each for each in self.tellings if each.panel is None]
        return frozenset(_clashes(known.values()) | self._clashing(stray, set().union(*known.values())))

    def _clashing(self, stray: list[Telling], known: set[str]) -> set[str]:
        """Of files that no list names a panel for: several states in one folder, or of one panel in several folders.

        Where a list names all panels, such files may only be of a state that one of them is `known` to have.
        """
        if self.listed:
            return {each.state.spec for each in stray} - known
        states = self.states
        together = any(len(each.file.parts) == 1 for each in stray)
        by_folder = _by(("" if together else each.file.parts[0], each.state.spec) for each in stray)
        by_number = _by((states[each.state.spec].number, each.state.spec) for each in stray)
        return _clashes([*by_folder.values(), *by_number.values()])


def _clashes(groups: Iterable[set[str]]) -> set[str]:
    """What is in groups of more than one."""
    return {spec for specs in groups if len(specs) > 1 for spec in specs}


def _by(pairs: Iterable[tuple[object, str]]) -> dict[object, set[str]]:
    groups: dict[object, set[str]] = {}
    for key, spec in pairs:
        groups.setdefault(key, set()).add(spec)
    return groups


def made_in(folder: Path, members: Iterable[str] = ()) -> Made:
    """What the files of a folder say; `members` are panels of a set whose folders may be in it. Raises OSError."""
    from panelart.writers.states import lines_of, state_of

    lists: dict[PurePath, tuple[Line, ...]] = {}
    plain: dict[PurePath, State] = {}
    silent = 0
    for path in _files(folder):
        file, data = path.relative_to(folder), path.read_bytes()
        if lines := lines_of(path.name, data):
            lists[file] = lines
        elif (state := state_of(path.name, data)) is not None:
            plain[file] = state
        else:
            silent += 1
    panels = {file.parent / line.member for file, lines in lists.items() for line in lines}
    panels |= {TOP / name for name in members}
    return Made(
        tellings=(*_plain(plain, panels), *_listed(lists)),
        silent=silent,
        listed=any(line.whole for lines in lists.values() for line in lines),
    )


def _files(folder: Path) -> list[Path]:
    """The files in a folder and those below it, after what an ended run has left half written is put right."""
    from panelart.writers.whole import is_left, settle

    if not folder.is_dir():
        return []
    settle([folder, *(path for path in folder.rglob("*") if path.is_dir() and not is_left(path))])
    return sorted(path for path in folder.rglob("*") if path.is_file() and not is_left(path))


def _plain(files: Mapping[PurePath, State], panels: set[PurePath]) -> Iterable[Telling]:
    for file, state in files.items():
        yield Telling(file=file, panel=next((one for one in file.parents if one in panels), None), state=state)


def _listed(lists: Mapping[PurePath, tuple[Line, ...]]) -> Iterable[Telling]:
    for file, lines in lists.items():
        for line in lines:
            yield Telling(file=file, panel=file.parent / line.member, state=line.state)
