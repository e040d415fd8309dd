"""`panelart bed`: many pieces on a printer's bed."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from panelart.cli.app import app


@app.command()
def bed(
    specs: Annotated[list[Path], typer.Argument(metavar="SPEC...", help="The panels' YAML files.", show_default=False)],
    size: Annotated[str, typer.Option("--bed", metavar="WxH", help="The bed that can be printed on, mm: 600x400.")],
    quantity: Annotated[
        str | None,
        typer.Option("--quantity", "-n", metavar="N[,N...]", help="Pieces of each panel, or one number for all; 1."),
    ] = None,
    data: Annotated[
        Path | None,
        typer.Option("--data", metavar="FILE", help="CSV with a row for each piece: the columns are the variables."),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", metavar="DIR", help="Folder for artwork, jigs and list; none: only told."),
    ] = None,
    gap: Annotated[float, typer.Option("--gap", metavar="MM", help="Between pieces.")] = 15.0,
    margin: Annotated[float, typer.Option("--margin", metavar="MM", help="Kept free inside the bed.")] = 15.0,
    turn: Annotated[
        bool, typer.Option(help="Whether pieces may be turned by 90 degrees (not where the coat has a grain).")
    ] = True,
    clearance: Annotated[
        float,
        typer.Option("--clearance", metavar="MM", help="Jig pockets are larger than the piece by this all round."),
    ] = 0.15,
    pin: Annotated[float, typer.Option("--pin", metavar="MM", help="Diameter of the jig's pins; 0 for none.")] = 4.0,
    cutter: Annotated[
        float, typer.Option("--cutter", metavar="MM", help="Diameter of the tool that cuts the jig, for its corners.")
    ] = 3.0,
    date: Annotated[
        str, typer.Option("--date", metavar="YYYY-MM-DD", help="Date kept in the PDFs; none by default.")
    ] = "",
) -> None:
    """Lay many pieces on a bed: artwork for each load, the jig that holds them, and a list of every piece.

    Exit 1 when a panel has a finding at error level; its pieces are laid all the same.
    """
    from panelart.cli import EXIT_FINDINGS
    from panelart.cli.app import require_date
    from panelart.cli.sizes import bed_of, mm
    from panelart.pipeline import Bed, build, nested, read, read_placement, write_bed
    from panelart.press.bed_sheet import bed_text
    from panelart.writers import write_all

    require_date(date)
    job = Bed(
        page=bed_of(size),
        gap=mm(gap, "--gap", minimum=-1e-9, maximum=500.0),
        margin=mm(margin, "--margin", minimum=-1e-9, maximum=500.0),
        turn=turn,
        clearance=mm(clearance, "--clearance", minimum=-1e-9, maximum=5.0),
        pin=mm(pin, "--pin", minimum=-1e-9, maximum=20.0),
        cutter=mm(cutter, "--cutter", minimum=-1e-9, maximum=20.0),
    )
    panels = [read(spec) for spec in specs]
    if data is not None or any(panel.variables for panel in panels):
        from panelart.cli.varied import run_bed

        run_bed(specs, panels, job, data=data, quantity=quantity, date=date, out=out)
        return
    counts = quantities(quantity or "1", len(specs))
    builts = [build(panel, read_placement(spec), today=date) for spec, panel in zip(specs, panels, strict=True)]
    layouts = [built.layout for built in builts]
    try:
        nest = nested(layouts, [spec.stem for spec in specs], counts, job)
    except ValueError as error:
        raise typer.BadParameter(str(error), param_hint="--bed") from None
    if out is not None:
        files, remarks = write_bed(layouts, nest, job, date=date)
        write_all(files, out)
        for name in files:
            print(out / name)
        for remark in remarks:
            print(f"note: {remark}", file=sys.stderr)
    print(bed_text(nest))
    failed = [spec for spec, built in zip(specs, builts, strict=True) if built.inspection.failed]
    for spec in failed:
        print(f"{spec}: has findings at error level; see `panelart check {spec}`", file=sys.stderr)
    if failed:
        raise typer.Exit(EXIT_FINDINGS)


def quantities(text: str, panels: int) -> list[int]:
    """One number for all panels, or one for each. Raises typer.BadParameter."""
    try:
        counts = [int(each) for each in text.split(",")]
    except ValueError:
        raise typer.BadParameter(f"'{text}' is not a number, or one for each panel", param_hint="--quantity") from None
    if len(counts) == 1:
        counts *= panels
    if len(counts) != panels or min(counts) < 1:
        raise typer.BadParameter(
            f"{len(counts)} numbers for {panels} panels; accepted: one for all, or one of 1 or more for each",
            param_hint="--quantity",
        )
    return counts
