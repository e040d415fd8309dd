"""`panelart bed`: many pieces on a printer's bed."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart.cli.declaring import argument, command, option
from panelart.cli.loads import laid_on_bed, quantities
from panelart.cli.options import DateInFiles, spec_file
from panelart.cli.values import FOLDER, bed_size, file, length, text
from panelart.messages import cli_help
from panelart.messages import cli_help_press as help_
from panelart.messages import cli_press as said

if TYPE_CHECKING:
    from panelart.model.layout import Layout
    from panelart.pipeline import Bed
    from panelart.press.bed import Nest

MAX_GAP = 500.0
MAX_CLEARANCE = 5.0
MAX_TOOL = 20.0


@command(help_.bed_exit(), extra="packing", extensions=True)
def bed(
    specs: Annotated[list[Path], argument(cli_help.specs(), spec_file())],
    size: Annotated[str, option("--bed", cli_help.bed(), text("WxH"))],
    quantity: Annotated[str | None, option("-n --quantity", help_.quantity(), text("N[,N...]"))] = None,
    rows: Annotated[Path | None, option("--rows", help_.rows(), file(".csv"))] = None,
    out: Annotated[Path | None, option("-o --out", cli_help.output_folder_or_dry_run(), FOLDER)] = None,
    gap: Annotated[float, option("--gap", help_.gap(), length(maximum=MAX_GAP, zero=True))] = 15.0,
    margin: Annotated[float, option("--margin", help_.margin(), length(maximum=MAX_GAP, zero=True))] = 15.0,
    turn: Annotated[bool, option("--turn/--no-turn", help_.turn())] = True,
    pocket_clearance: Annotated[
        float, option("--pocket-clearance", help_.pocket_clearance(), length(maximum=MAX_CLEARANCE, zero=True))
    ] = 0.15,
    pin_diameter: Annotated[
        float, option("--pin-diameter", help_.pin_diameter(), length(maximum=MAX_TOOL, zero=True))
    ] = 4.0,
    cutter_diameter: Annotated[
        float, option("--cutter-diameter", help_.cutter_diameter(), length(maximum=MAX_TOOL, zero=True))
    ] = 3.0,
    date: DateInFiles = "",
) -> None:
    """Nest panels on a printer's bed."""
    from panelart.cli.exits import EXIT_FINDINGS, end
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
    print(bed_text(nest, layouts))
    failed = [spec for spec, built in zip(specs, builts, strict=True) if built.inspection.failed]
    _tell_errors(failed)
    if failed:
        end(EXIT_FINDINGS)


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
