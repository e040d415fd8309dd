"""`panelart bed`: many pieces on a printer's bed."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from panelart.cli.app import command
from panelart.cli.options import DIR, FILE, MM, DateInFiles
from panelart.cli.usage import refuse
from panelart.cli.values import bed_size, length
from panelart.messages import cli_help
from panelart.messages import cli_help_press as help_
from panelart.messages import cli_press as said
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from panelart.model.layout import Layout
    from panelart.pipeline import Bed
    from panelart.press.bed import Nest

MAX_GAP = 500.0
MAX_CLEARANCE = 5.0
MAX_TOOL = 20.0


@command(help_.bed(), help_.bed_exit())
def bed(
    specs: Annotated[list[Path], typer.Argument(metavar="SPEC", help=str(cli_help.specs()), show_default=False)],
    size: Annotated[str, typer.Option("--bed", metavar="WxH", help=str(cli_help.bed()))],
    quantity: Annotated[
        str | None, typer.Option("--quantity", "-n", metavar="N[,N...]", help=str(help_.quantity()))
    ] = None,
    rows: Annotated[Path | None, typer.Option("--rows", metavar=FILE, help=str(help_.rows()))] = None,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar=DIR, help=str(cli_help.output_folder_or_dry_run()))
    ] = None,
    gap: Annotated[
        float, typer.Option("--gap", metavar=MM, parser=length(maximum=MAX_GAP, zero=True), help=str(help_.gap()))
    ] = 15.0,
    margin: Annotated[
        float, typer.Option("--margin", metavar=MM, parser=length(maximum=MAX_GAP, zero=True), help=str(help_.margin()))
    ] = 15.0,
    turn: Annotated[bool, typer.Option("--turn/--no-turn", help=str(help_.turn()))] = True,
    pocket_clearance: Annotated[
        float,
        typer.Option(
            "--pocket-clearance",
            metavar=MM,
            parser=length(maximum=MAX_CLEARANCE, zero=True),
            help=str(help_.pocket_clearance()),
        ),
    ] = 0.15,
    pin_diameter: Annotated[
        float,
        typer.Option(
            "--pin-diameter", metavar=MM, parser=length(maximum=MAX_TOOL, zero=True), help=str(help_.pin_diameter())
        ),
    ] = 4.0,
    cutter_diameter: Annotated[
        float,
        typer.Option(
            "--cutter-diameter",
            metavar=MM,
            parser=length(maximum=MAX_TOOL, zero=True),
            help=str(help_.cutter_diameter()),
        ),
    ] = 3.0,
    date: DateInFiles = "",
) -> None:
    """Nest panels on a printer's bed."""
    from panelart.cli import EXIT_FINDINGS
    from panelart.pipeline import Bed, build, read, read_placement
    from panelart.press.bed_sheet import bed_text

    job = Bed(
        page=bed_size(size, "--bed"),
        gap=gap,
        margin=margin,
        turn=turn,
        clearance=pocket_clearance,
        pin=pin_diameter,
        cutter=cutter_diameter,
    )
    panels = [read(spec) for spec in specs]
    if rows is not None or any(panel.variables for panel in panels):
        from panelart.cli.varied import run_bed

        run_bed(specs, panels, job, table=rows, quantity=quantity, date=date, out=out)
        return
    counts = quantities(quantity or "1", len(specs))
    builts = [build(panel, read_placement(spec), today=date) for spec, panel in zip(specs, panels, strict=True)]
    layouts = [built.layout for built in builts]
    nest = laid_on_bed(specs, layouts, counts, job)
    if out is not None:
        _write(layouts, nest, job, date, out)
    print(bed_text(nest))
    failed = [spec for spec, built in zip(specs, builts, strict=True) if built.inspection.failed]
    _tell_errors(failed)
    if failed:
        raise typer.Exit(EXIT_FINDINGS)


def laid_on_bed(specs: Sequence[Path], layouts: Sequence[Layout], counts: Sequence[int], job: Bed) -> Nest:
    """So many pieces of each panel, load by load. Raises Refused when a panel does not fit on the bed."""
    from panelart.pipeline import nested

    try:
        return nested(layouts, [spec.stem for spec in specs], counts, job)
    except ValueError as error:
        refuse("--bed", said_by(error))


def _write(layouts: Sequence[Layout], nest: Nest, job: Bed, date: str, out: Path) -> None:
    """Write artwork and jigs of all loads, and say what is to be known of them."""
    from panelart.pipeline import write_bed
    from panelart.writers import write_all

    files, remarks = write_bed(layouts, nest, job, date=date)
    write_all(files, out)
    for name in files:
        print(out / name)
    for remark in remarks:
        print(said.note_line(remark), file=sys.stderr)


def _tell_errors(failed: Iterable[Path]) -> None:
    """Name the panels that have findings at error level."""
    for spec in failed:
        print(said.errors_on_panel(spec), file=sys.stderr)


def quantities(text: str, panels: int) -> list[int]:
    """One number for all panels, or one for each. Raises Refused."""
    try:
        counts = [int(each) for each in text.split(",")]
    except ValueError:
        refuse("--quantity", said.quantity_unknown(text), said.accepted_quantity())
    if len(counts) == 1:
        counts *= panels
    if len(counts) != panels:
        refuse("--quantity", said.quantity_count(len(counts), panels), said.accepted_quantity())
    if min(counts) < 1:
        refuse("--quantity", said.quantity_unknown(text), said.accepted_quantity())
    return counts
