"""`panelart compare`: what changed between two specs."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from panelart.cli.app import command
from panelart.cli.drawn import require_ending, write_drawing
from panelart.cli.options import FILE, PlainFormat, TextOrJson
from panelart.messages import cli_help_panel as help_

EXIT_DIFFERENT = 1


@command(help_.compare(), help_.exit_1_for_differences())
def compare(
    old: Annotated[Path, typer.Argument(metavar="OLD", help=str(help_.old_spec()), show_default=False)],
    new: Annotated[Path, typer.Argument(metavar="NEW", help=str(help_.new_spec()), show_default=False)],
    format_: TextOrJson = PlainFormat.TEXT,
    out: Annotated[Path | None, typer.Option("--out", "-o", metavar=FILE, help=str(help_.overlay()))] = None,
) -> None:
    """Compare two specs."""
    from panelart.checks.comparison import compare as compared
    from panelart.pipeline import build, read
    from panelart.reports.comparison import comparison_json, comparison_text
    from panelart.sheets.overlay import overlay

    if out is not None:
        require_ending(out)
    before, after = build(read(old)), build(read(new))
    differences = compared((before.layout, before.inspection), (after.layout, after.inspection))
    if format_ is PlainFormat.JSON:
        sys.stdout.write(comparison_json(differences))
    else:
        print(comparison_text(differences))
    if out is not None:
        write_drawing(overlay(before.layout, after.layout), out)
    if differences:
        raise typer.Exit(EXIT_DIFFERENT)
