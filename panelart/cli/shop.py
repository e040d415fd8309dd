"""`panelart shop`: the figures of a process as a shop file, to be corrected to what the shop really holds."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from panelart.cli.app import app


@app.command()
def shop(
    process: Annotated[
        str | None, typer.Argument(metavar="PROCESS", help="One process; all of them by default.")
    ] = None,
) -> None:
    """Print a file of a shop's figures with those of common practice in it. `marking: {shop: FILE}` makes them hold."""
    from panelart.diagnostics import did_you_mean
    from panelart.spec.processes import processes
    from panelart.spec.shop import shop_text

    known = processes()
    if process is not None and process not in known:
        print(f"error: there is no process '{process}'; {did_you_mean(process, known, 'processes')}", file=sys.stderr)
        raise typer.Exit(2)
    sys.stdout.write(shop_text([known[process]] if process is not None else list(known.values())))
