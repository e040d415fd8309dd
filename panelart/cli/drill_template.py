"""`panelart drill-template`: a drill template on office paper."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

from panelart.cli.declaring import command, option
from panelart.cli.drawn import require_ending
from panelart.cli.options import SideOf, Spec
from panelart.cli.values import file
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_


class Paper(StrEnum):
    """Office paper."""

    A4 = "A4"
    LETTER = "Letter"


@command(help_.drill_template_means(), extensions=True)
def drill_template(
    spec: Spec,
    out: Annotated[Path | None, option("-o --out", help_.template_file(), file(".pdf"))] = None,
    paper: Annotated[Paper, option("--paper", help_.paper())] = Paper.A4,
    side: Annotated[SideOf, option("--side", help_.drilled_side())] = SideOf.FRONT,
) -> None:
    """Write a drill template at 1:1."""
    from panelart.model.panel import Side
    from panelart.pipeline import lay_out, read, read_placement
    from panelart.sheets.drilling import drill_template as template_pages
    from panelart.writers import pdf, write_all

    path = out if out is not None else Path(f"{spec.stem}-template.pdf")
    require_ending(path, (".pdf",))
    pages = template_pages(lay_out(read(spec), read_placement(spec)), paper.value, Side(side.value))
    write_all({path.name: pdf(pages, live=True)}, path.parent)
    print(path)
    print(said.template_written(len(pages), paper.value))
