"""`panelart outdated`: the files of a folder that were not made from one state of one spec."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from panelart.cli.app import command
from panelart.cli.options import DIR
from panelart.cli.usage import refuse
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_


@command(help_.outdated(), help_.outdated_means())
def outdated(
    folder: Annotated[Path, typer.Argument(metavar=DIR, help=str(help_.made_folder()), show_default=False)],
    spec: Annotated[Path | None, typer.Option("--spec", metavar="SPEC", help=str(help_.current_spec()))] = None,
) -> None:
    """List files that were not made from one state of one spec."""
    from panelart.cli import EXIT_FINDINGS
    from panelart.pipeline import read
    from panelart.writers.states import State, state_of

    found: dict[str, list[str]] = {}
    states: dict[str, State] = {}
    silent = 0
    paths = sorted(path for path in folder.rglob("*") if path.is_file()) if folder.is_dir() else []
    for path in paths:
        state = state_of(path.name, path.read_bytes())
        if state is None:
            silent += 1
            continue
        # The fingerprint decides; number and revision are told as the file that has most of them tells them.
        found.setdefault(state.spec, []).append(path.relative_to(folder).as_posix())
        states[state.spec] = max(state, states.get(state.spec, state))
    if not found:
        refuse("", said.no_state(folder))
    now = None if spec is None else read(spec).fingerprint
    for fingerprint, state in sorted(states.items(), key=lambda item: item[1]):
        names = found[fingerprint]
        old = now not in (None, fingerprint)
        print((said.state_files_outdated if old else said.state_files)(len(names), state))
        if old or len(found) > 1:
            print(f"  {', '.join(names)}")
    if silent:
        print(said.files_without_state(silent))
    if len(found) > 1:
        print(said.states_mixed())
    if len(found) > 1 or (now is not None and now not in found):
        raise typer.Exit(EXIT_FINDINGS)
