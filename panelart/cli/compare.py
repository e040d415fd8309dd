"""`panelart compare`: what changed between two specs."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

from panelart.cli.declaring import argument, command, option
from panelart.cli.drawn import require_ending, write_drawing
from panelart.cli.exits import EXIT_FINDINGS, end
from panelart.cli.options import DRAWINGS, PlainFormat, TextOrJson, spec_file
from panelart.cli.values import file
from panelart.messages import cli_help_panel as help_


@command(help_.exit_1_for_differences(), extensions=True)
def compare(
    old: Annotated[Path, argument(help_.old_spec(), spec_file("OLD"))],
    new: Annotated[Path, argument(help_.new_spec(), spec_file("NEW"))],
    format_: TextOrJson = PlainFormat.TEXT,
    out: Annotated[Path | None, option("-o --out", help_.overlay(), file(*DRAWINGS))] = None,
) -> None:
    """Compare two specs."""
    from panelart import api

    if out is not None:
        require_ending(out)
    changed = api.compare(api.load(old), api.load(new))
    if format_ is PlainFormat.JSON:
        sys.stdout.write(changed.json())
    else:
        print(changed.text())
    if out is not None:
        write_drawing(changed.overlay, out)
    if changed:
        end(EXIT_FINDINGS)
