"""`panelart fonts`: what a font measures, and how small it may be."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from panelart.cli.app import command
from panelart.cli.options import MM
from panelart.cli.usage import refuse
from panelart.cli.values import length
from panelart.messages import cli_help
from panelart.messages import cli_help_lists as help_
from panelart.messages.errors import said_by

MAX_DISTANCE = 100_000.0


@command(help_.fonts(), help_.fonts_means())
def fonts(
    names: Annotated[
        list[str] | None, typer.Argument(metavar="FONT", help=str(help_.font_names()), show_default=False)
    ] = None,
    distance: Annotated[
        float,
        typer.Option(
            "--viewing-distance",
            metavar=MM,
            parser=length(maximum=MAX_DISTANCE),
            help=str(cli_help.viewing_distance()),
        ),
    ] = 700.0,
) -> None:
    """Measure fonts on their outlines."""
    from panelart.lettering.fonts import OWN_FONTS, UnknownFontError
    from panelart.processes.registry import processes
    from panelart.reports.fonts import font_report, told

    for number, name in enumerate(names or OWN_FONTS):
        try:
            report = font_report(name)
        except (UnknownFontError, ValueError) as error:
            refuse("", said_by(error))
        sys.stdout.write(("\n" if number else "") + told(report, processes(), distance))
