"""`panelart same`: whether the files of a folder were all made from one state of one spec."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from panelart.cli.app import app


@app.command()
def same(
    folder: Annotated[
        Path, typer.Argument(metavar="DIR", help="A folder with files that were made.", show_default=False)
    ],
    spec: Annotated[
        Path | None, typer.Option("--spec", metavar="SPEC", help="Also hold them against this spec as it is now.")
    ] = None,
) -> None:
    """Tell whether all files in a folder were made from one state of one spec, by the fingerprint in each.

    Exit 1 when they were not, 2 when no file in the folder says what it was made from.
    """
    from panelart.cli import EXIT_FINDINGS, EXIT_SPEC
    from panelart.pipeline import read
    from panelart.writers.states import State, state_of

    found: dict[State, list[str]] = {}
    silent = 0
    paths = sorted(path for path in folder.rglob("*") if path.is_file()) if folder.is_dir() else []
    for path in paths:
        state = state_of(path.name, path.read_bytes())
        if state is None:
            silent += 1
        else:
            found.setdefault(state, []).append(path.relative_to(folder).as_posix())
    if not found:
        print(f"error: no file in {folder} says what it was made from", file=sys.stderr)
        raise typer.Exit(EXIT_SPEC)
    now = None if spec is None else read(spec).fingerprint
    for state, names in sorted(found.items()):
        aside = " (not the spec as it is now)" if now is not None and state.spec != now else ""
        print(f"{state}{aside}: {len(names)} files")
        if len(found) > 1 or aside:
            print(f"  {', '.join(names)}")
    if silent:
        print(f"{silent} other files")
    if len(found) > 1:
        print("mixed: make the panel anew into an empty folder")
    if len(found) > 1 or (now is not None and any(state.spec != now for state in found)):
        raise typer.Exit(EXIT_FINDINGS)
