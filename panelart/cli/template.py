"""`panelart template`: a drill template on office paper."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from panelart.cli.app import Spec, app


class Paper(StrEnum):
    """Office paper."""

    A4 = "A4"
    LETTER = "Letter"


class Seen(StrEnum):
    """The side that the panel is drilled from."""

    FRONT = "front"
    REAR = "rear"


@app.command()
def template(
    spec: Spec,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="FILE", help="The PDF; by default the spec's name.")
    ] = None,
    paper: Annotated[Paper, typer.Option("--paper", help="The paper to print on.")] = Paper.A4,
    side: Annotated[Seen, typer.Option("--from", help="The side to drill from.")] = Seen.FRONT,
) -> None:
    """Write a drill template at 1:1: openings at cut size, centre crosses, in tiles to be joined by their marks."""
    from panelart.model.panel import Side
    from panelart.pipeline import lay_out, read, read_placement
    from panelart.sheets.drilling import drill_template
    from panelart.writers import pdf, write_all

    path = out if out is not None else Path(f"{spec.stem}-template.pdf")
    if path.suffix.lower() != ".pdf":
        raise typer.BadParameter(f"'{path.name}' does not end in .pdf", param_hint="--out")
    pages = drill_template(lay_out(read(spec), read_placement(spec)), paper.value, Side(side.value))
    write_all({path.name: pdf(pages, live=True)}, path.parent)
    print(path)
    print(
        f"{len(pages)} {'page' if len(pages) == 1 else 'pages'} of {paper.value}; print at 100 %, then measure the bar"
    )
