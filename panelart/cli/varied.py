"""The part of `panelart bed` that prints pieces which differ: a run, load by load, that can be taken up again."""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from panelart import __version__
from panelart.cli.bed import quantities
from panelart.cli.runs import RunFolder

if TYPE_CHECKING:
    from panelart.model.panel import Panel
    from panelart.pipeline import Bed, Varying
    from panelart.press.pieces import Row


def run_bed(
    specs: Sequence[Path],
    panels: Sequence[Panel],
    job: Bed,
    *,
    data: Path | None,
    quantity: str | None,
    date: str,
    out: Path | None,
) -> None:
    """Check every piece, then write the loads one by one; loads that are whole already are left as they are.

    Exit 1 when the panel, laid out for its widest values, has a finding at error level: nothing is printed then.
    """
    from panelart.pipeline import bed_jigs, nested, run_loads, varying
    from panelart.press.bed_sheet import bed_csv, bed_text

    rows = _rows(specs, panels, data, quantity, date)
    run = [varying(spec, panel, each, today=date) for spec, panel, each in zip(specs, panels, rows, strict=True)]
    _require_clean(specs, run)
    layouts = [each.built.layout for each in run]
    try:
        nest = nested(layouts, [spec.stem for spec in specs], [len(each) for each in rows], job)
    except ValueError as error:
        raise typer.BadParameter(str(error), param_hint="--bed") from None
    if out is not None:
        folder = RunFolder(out, _mark(run, job, date))
        values = [[row.values for row in each] for each in rows]
        for name, written in {**bed_jigs(layouts, nest, job, date), "bed.csv": bed_csv(nest, values)}.items():
            folder.write(name, written)
        kept = 0
        total = sum(len(load.spots) for load in nest.loads)
        with typer.progressbar(length=total, label="printing", file=sys.stderr) as bar:
            for name, written, count in run_loads(run, nest, job, date=date, skip=folder.has):
                if written:
                    folder.write(name, written)
                else:
                    kept += 1
                bar.update(count)
        print(out / ("bed-1.pdf" if len(nest.loads) == 1 else "bed-*.pdf"))
        if kept:
            print(f"{kept} of {len(nest.loads)} loads were whole already")
    print(bed_text(nest))


def _rows(
    specs: Sequence[Path], panels: Sequence[Panel], data: Path | None, quantity: str | None, date: str
) -> list[list[Row]]:
    from panelart.cli.tables import read_table
    from panelart.press.pieces import rows_counted, rows_of_table

    if data is None:
        counts = quantities(quantity or "1", len(specs))
        return [rows_counted(panel, count, date) for panel, count in zip(panels, counts, strict=True)]
    if len(specs) > 1:
        raise typer.BadParameter("goes with one panel: its rows are pieces of that", param_hint="--data")
    rows = rows_of_table(read_table(data), data.as_posix(), panels[0].variables, date)
    if quantity is not None and quantities(quantity, 1) != [len(rows)]:
        raise typer.BadParameter(f"the table has {len(rows)} rows, each a piece", param_hint="--quantity")
    return [rows]


def _require_clean(specs: Sequence[Path], run: Sequence[Varying]) -> None:
    from panelart.cli import EXIT_FINDINGS
    from panelart.reports.text import text_report

    failed = False
    for spec, each in zip(specs, run, strict=True):
        if not each.built.inspection.failed:
            continue
        failed = True
        print(text_report(each.built.inspection, width=100, colour=False))
        for variable in each.built.layout.panel.variables:
            row = next((row for row in each.rows if row.values[variable.name] == variable.example), None)
            if row is not None:
                place = row.where.file if row.where.line == 1 else f"{row.where.file}:{row.where.line}"
                print(
                    f"{spec}: laid out with the widest {variable.name}, “{variable.example}” ({place})", file=sys.stderr
                )
    if failed:
        print("nothing was printed", file=sys.stderr)
        raise typer.Exit(EXIT_FINDINGS)


def _mark(run: Sequence[Varying], job: Bed, date: str) -> str:
    """The fingerprint of everything that decides the bytes of a run."""
    told = hashlib.sha256(f"{__version__} {date} {asdict(job)}".encode())
    for each in run:
        told.update(each.built.layout.panel.fingerprint.encode() + each.built.placement)
        for row in each.rows:
            told.update(repr(sorted(row.values.items())).encode())
    return told.hexdigest()[:16]
