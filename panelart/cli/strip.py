"""`panelart strip`: a chart that finds what a shop's marking holds, and its limits put into the shop file."""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import Annotated

import typer

from panelart.cli.app import app


@app.command()
def strip(
    process: Annotated[str, typer.Argument(metavar="PROCESS", help="The marking process.", show_default=False)],
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="FILE", help="Draw the chart: .pdf, .svg or .png.")
    ] = None,
    ink: Annotated[str, typer.Option("--ink", metavar="NAME", help="The plate's name.")] = "black",
    colour: Annotated[str, typer.Option("--colour", metavar="#RRGGBB", help="Its colour on screen.")] = "#101214",
    measured: Annotated[
        str | None,
        typer.Option(
            "--measured",
            metavar="LIMIT=MM,...",
            help="What held: line_minimum=0.18,gap_minimum=0.22,cap_height_minimum=1.5",
        ),
    ] = None,
    shop: Annotated[
        Path | None, typer.Option("--shop", metavar="FILE", help="The shop file that the measured limits are put into.")
    ] = None,
    why: Annotated[
        str, typer.Option("--why", metavar="TEXT", help="What stands beside the figures: the day, the coat.")
    ] = "read off a test strip",
) -> None:
    """Draw a test strip for a process; with --measured, put the limits read off it into a shop file.

    The file is made where there is none; in one that is there only those figures change.
    """
    from panelart.cli.drawn import write_drawing
    from panelart.diagnostics import did_you_mean
    from panelart.model.panel import Ink
    from panelart.press.strip import ink_strip
    from panelart.spec.processes import processes
    from panelart.spec.shop_edit import not_text, with_limits
    from panelart.writers import write_all

    known = processes()
    if process not in known:
        print(f"error: there is no process '{process}'; {did_you_mean(process, known, 'processes')}", file=sys.stderr)
        raise typer.Exit(2)
    if (measured is None) != (shop is None):
        raise typer.BadParameter("goes with --shop FILE, and --shop with it", param_hint="--measured")
    if measured is None and out is None:
        raise typer.BadParameter("where the chart goes, or --measured what was read off it", param_hint="--out")
    if not re.fullmatch(r"#[0-9A-Fa-f]{6}", colour):
        raise typer.BadParameter(f"'{colour}' is not a colour such as #101214", param_hint="--colour")
    if out is not None:
        try:
            write_drawing(ink_strip(known[process], Ink(name=ink, colour=colour)), out)
        except ValueError as error:
            raise typer.BadParameter(str(error), param_hint="--ink") from None
        print(out)
    if measured is not None and shop is not None:
        limits = _limits(measured)
        try:
            before = shop.read_bytes().decode("utf-8") if shop.exists() else ""
        except UnicodeDecodeError:
            raise not_text(shop) from None
        after = with_limits(before, shop, process, limits, why)
        write_all({shop.name: after.encode("utf-8")}, shop.parent)
        print(shop)
        for name, value in limits.items():
            common = getattr(known[process], name)
            print(f"{process} {name}: {value:g} mm, {why}; common practice is {common.value:g} mm")


def _limits(text: str) -> dict[str, float]:
    from panelart.press.strip import LIMITS

    found: dict[str, float] = {}
    for one in text.split(","):
        name, given, figure = one.partition("=")
        try:
            value = float(figure)
        except ValueError:
            value = -1.0
        if not given or name.strip() not in LIMITS or not 0.0 < value <= 20.0:
            raise typer.BadParameter(
                f"'{one}' is not one of {', '.join(LIMITS)} with a figure in mm", param_hint="--measured"
            )
        found[name.strip()] = value
    return found
