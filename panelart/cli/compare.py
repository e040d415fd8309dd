"""`panelart compare`: what changed between two specs."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from panelart.cli.app import app

EXIT_DIFFERENT = 1


class ComparisonFormat(StrEnum):
    """How differences are printed."""

    TEXT = "text"
    JSON = "json"


@app.command()
def compare(
    old: Annotated[Path, typer.Argument(metavar="OLD", help="The panel as it was.", show_default=False)],
    new: Annotated[Path, typer.Argument(metavar="NEW", help="The panel as it is.", show_default=False)],
    format_: Annotated[
        ComparisonFormat, typer.Option("--format", help="Text for people, or JSON for programs.")
    ] = ComparisonFormat.TEXT,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", metavar="FILE", help="Both over each other: .svg, .pdf or .png, by its ending."),
    ] = None,
) -> None:
    """Tell what moved, what was changed, and which findings came and went. Exit 1 when anything differs."""
    from panelart.checks.comparison import compare as compared
    from panelart.cli.drawn import write_drawing
    from panelart.pipeline import build, read
    from panelart.reports.comparison import comparison_json, comparison_text
    from panelart.sheets.overlay import overlay

    before, after = build(read(old)), build(read(new))
    differences = compared((before.layout, before.inspection), (after.layout, after.inspection))
    if format_ is ComparisonFormat.JSON:
        sys.stdout.write(comparison_json(differences))
    else:
        print(comparison_text(differences))
    if out is not None:
        write_drawing(overlay(before.layout, after.layout), out)
    if differences:
        raise typer.Exit(EXIT_DIFFERENT)
