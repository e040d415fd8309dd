"""`panelart fonts`: what a font measures, and how small it may be."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from panelart.cli.app import app


@app.command()
def fonts(
    names: Annotated[
        list[str] | None,
        typer.Argument(metavar="FONT...", help="Our own by name, or font files; ours where none is named."),
    ] = None,
    distance: Annotated[
        float, typer.Option("--distance", metavar="MM", min=1.0, help="From the reader's eye to the panel.")
    ] = 700.0,
) -> None:
    """Measure fonts on their outlines: heights, strokes, gaps, and the least height for each process and the reader."""
    from panelart.cli import EXIT_SPEC
    from panelart.lettering.fonts import OWN_FONTS, UnknownFontError
    from panelart.reports.fonts import font_report, told
    from panelart.spec.processes import processes

    for number, name in enumerate(names or OWN_FONTS):
        try:
            report = font_report(name)
        except (UnknownFontError, ValueError) as error:
            print(f"error: {error}", file=sys.stderr)
            raise typer.Exit(EXIT_SPEC) from None
        sys.stdout.write(("\n" if number else "") + told(report, processes(), distance))
