"""`panelart outdated`: the files of a folder that were not made from one state of one spec."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart.canonical import Struct
from panelart.cli.declaring import argument, command, option
from panelart.cli.exits import EXIT_FINDINGS, end
from panelart.cli.options import spec_file
from panelart.cli.usage import refuse
from panelart.cli.values import FOLDER
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_

if TYPE_CHECKING:
    from panelart.writers.states import State


@command(help_.outdated_means(), extensions=True)
def outdated(
    folder: Annotated[Path, argument(help_.made_folder(), FOLDER)],
    spec: Annotated[Path | None, option("--spec", help_.current_spec(), spec_file())] = None,
) -> None:
    """List files that were not made from one state of one spec."""
    from panelart.pipeline import read

    made = _made(folder)
    if not made.names:
        refuse("", said.no_state(folder))
    now = None if spec is None else read(spec).fingerprint
    _tell(made, now)
    if made.mixed or (now is not None and now not in made.names):
        end(EXIT_FINDINGS)


class _Made(Struct, frozen=True, kw_only=True):
    """The files of a folder by the fingerprint of the spec they were made from, and what each fingerprint stands for.

    `silent` is how many files name no state.
    """

    names: Mapping[str, Sequence[str]]
    states: Mapping[str, State]
    silent: int

    @property
    def mixed(self) -> bool:
        """Whether the files are of more than one state."""
        return len(self.names) > 1


def _made(folder: Path) -> _Made:
    from panelart.writers.states import state_of

    names: dict[str, list[str]] = {}
    states: dict[str, State] = {}
    silent = 0
    paths = sorted(path for path in folder.rglob("*") if path.is_file()) if folder.is_dir() else []
    for path in paths:
        state = state_of(path.name, path.read_bytes())
        if state is None:
            silent += 1
            continue
        # The fingerprint decides; number and revision are told as the file that has most of them tells them.
        names.setdefault(state.spec, []).append(path.relative_to(folder).as_posix())
        states[state.spec] = max(state, states.get(state.spec, state))
    return _Made(names=names, states=states, silent=silent)


def _tell(made: _Made, now: str | None) -> None:
    """Print the states in their order, with the names of files that are not of the spec `now` or are mixed."""
    for fingerprint, state in sorted(made.states.items(), key=lambda item: item[1]):
        names = made.names[fingerprint]
        old = now not in (None, fingerprint)
        print((said.state_files_outdated if old else said.state_files)(len(names), state))
        if old or made.mixed:
            print(f"  {', '.join(names)}")
    if made.silent:
        print(said.files_without_state(made.silent))
    if made.mixed:
        print(said.states_mixed())
