"""`panelart fonts`: what a font measures, and how small it may be."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from typing import Annotated

from panelart.cli.declaring import argument, command, option
from panelart.cli.usage import refuse
from panelart.cli.values import length, text
from panelart.messages import cli_help
from panelart.messages import cli_help_lists as help_
from panelart.messages.errors import said_by

MAX_DISTANCE = 100_000.0


def _own_fonts() -> Iterable[str]:
    from panelart.lettering.fonts import OWN_FONTS

    return OWN_FONTS


@command(help_.fonts_means(), extensions=True)
def fonts(
    names: Annotated[list[str] | None, argument(help_.font_names(), text("FONT", _own_fonts))] = None,
    distance: Annotated[
        float, option("--viewing-distance", cli_help.viewing_distance(), length(maximum=MAX_DISTANCE))
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
