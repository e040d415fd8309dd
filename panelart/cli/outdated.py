"""`panelart outdated`: the files of a folder that were not made from one state of one spec, panel by panel."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated

from panelart.canonical import Struct
from panelart.cli.declaring import argument, command, option
from panelart.cli.exits import EXIT_FINDINGS, end
from panelart.cli.made import Made, Telling, made_in
from panelart.cli.options import spec_file
from panelart.cli.usage import refuse
from panelart.cli.values import FOLDER
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_


@command(help_.outdated_means(), extensions=True)
def outdated(
    folder: Annotated[Path, argument(help_.made_folder(), FOLDER)],
    spec: Annotated[Path | None, option("--spec", help_.current_spec(), spec_file())] = None,
) -> None:
    """List files that were not made from one state of one spec."""
    now = None if spec is None else _current(spec)
    made = made_in(folder, () if now is None else filter(None, now.specs))
    if not made.tellings:
        refuse("", said.no_state(folder))
    old = frozenset() if now is None else now.outdated(made)
    missing = () if now is None else now.missing(made)
    mixed = made.mixed
    _tell(made, old, mixed)
    for name in missing:
        print(said.panel_without_files(name))
    if old or missing or mixed:
        end(EXIT_FINDINGS)
    if made.of_set:
        print(said.set_of_one_state())


class _Current(Struct, frozen=True, kw_only=True):
    """The fingerprints of a spec as it is now, by the name of each panel; '' for a spec of one panel.

    `chosen` is whether they are of some panels of a set only.
    """

    specs: Mapping[str, str]
    chosen: bool

    def outdated(self, made: Made) -> frozenset[str]:
        """The fingerprints that files have and the panel that they are of has not."""
        return frozenset(each.state.spec for each in made.tellings if not self._is_current(each))

    def _is_current(self, telling: Telling) -> bool:
        if telling.member and "" not in self.specs:
            if telling.member in self.specs:
                return self.specs[telling.member] == telling.state.spec
            return self.chosen  # a panel of the set that is not asked for
        return telling.state.spec in self.specs.values()

    def missing(self, made: Made) -> tuple[str, ...]:
        """The panels of a set that no file is of."""
        there = {each.state.spec for each in made.tellings}
        named = {each.member for each in made.tellings if each.file.parent == each.panel}
        return tuple(name for name, spec in self.specs.items() if name and name not in named and spec not in there)


def _current(spec: Path) -> _Current:
    """What a spec is now, every panel of it. Raises SpecError."""
    from panelart.cli.sets import of_each
    from panelart.pipeline import read
    from panelart.spec.read import panel_names

    if names := panel_names(spec):
        panels = of_each(spec, names, read)
        return _Current(specs={name: panel.fingerprint for name, panel in panels.items()}, chosen=False)
    panel = read(spec)
    return _Current(specs={panel.member: panel.fingerprint}, chosen=bool(panel.member))


def _tell(made: Made, old: frozenset[str], mixed: frozenset[str]) -> None:
    """Print the states in their order, with the names of files that are of an `old` or a `mixed` one."""
    for fingerprint, state in sorted(made.states.items(), key=lambda item: item[1]):
        names = made.files(fingerprint)
        print((said.state_files_outdated if fingerprint in old else said.state_files)(len(names), state))
        if fingerprint in old | mixed:
            print(f"  {', '.join(names)}")
    if made.silent:
        print(said.files_without_state(made.silent))
    if mixed:
        print(said.states_mixed())
