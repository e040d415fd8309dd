"""The part of `panelart bed` that prints pieces which differ: a run, load by load, that can be taken up again."""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import asdict

from panelart import __version__
from panelart.cli.loads import laid_on_bed, quantities
from panelart.cli.runs import RunFolder
from panelart.cli.terminal import progress
from panelart.cli.usage import refuse
from panelart.messages import cli_press as said

if TYPE_CHECKING:
    from panelart.model.panel import Panel
    from panelart.pipeline import Bed, Varying
    from panelart.press.bed import Nest
    from panelart.press.pieces import Row


def run_bed(
    specs: Sequence[Path],
    panels: Sequence[Panel],
    job: Bed,
    *,
    table: Path | None,
    quantity: str | None,
    date: str,
    out: Path | None,
) -> None:
    """Check every piece, then write the loads one by one; loads that are whole already are left as they are.

    Exit 1 when the panel, laid out for its widest values, has a finding at error level: nothing is printed then.
    """
    from panelart.pipeline import varying
    from panelart.press.bed_sheet import bed_text

    rows = _rows(specs, panels, table, quantity, date)
    run = [varying(spec, panel, each, today=date) for spec, panel, each in zip(specs, panels, rows, strict=True)]
    _require_clean(specs, run)
    nest = laid_on_bed(specs, [each.built.layout for each in run], [len(each) for each in rows], job)
    if out is not None:
        _write_run(run, nest, job, date, out)
    print(bed_text(nest, [each.built.layout for each in run]))


def _write_run(run: Sequence[Varying], nest: Nest, job: Bed, date: str, out: Path) -> None:
    """Write jigs and table, then the artwork of each load that is not there yet."""
    from panelart.pipeline import bed_jigs
    from panelart.press.bed_sheet import bed_csv

    folder = RunFolder(out, _mark(run, job, date))
    layouts = [each.built.layout for each in run]
    values = [[row.values for row in each.rows] for each in run]
    for name, written in {**bed_jigs(layouts, nest, job, date), "bed.csv": bed_csv(nest, values)}.items():
        folder.write(name, written)
    kept = _write_loads(run, nest, job, date, folder)
    print(out / ("bed-1.pdf" if len(nest.loads) == 1 else "bed-*.pdf"))
    if kept:
        print(said.loads_kept(kept, len(nest.loads)))


def _write_loads(run: Sequence[Varying], nest: Nest, job: Bed, date: str, folder: RunFolder) -> int:
    """Write the loads one by one as they are made; how many were whole already."""
    from panelart.pipeline import run_loads

    kept = 0
    total = sum(len(load.spots) for load in nest.loads)
    with progress(total, said.printing()) as done:
        for name, written, count in run_loads(run, nest, job, date=date, skip=folder.has):
            if written:
                folder.write(name, written)
            else:
                kept += 1
            done(count)
    return kept


def _rows(
    specs: Sequence[Path], panels: Sequence[Panel], table: Path | None, quantity: str | None, date: str
) -> list[list[Row]]:
    from panelart.cli.tables import read_table
    from panelart.press.pieces import rows_counted, rows_of_table

    if table is None:
        counts = quantities(quantity or "1", len(specs))
        return [rows_counted(panel, count, date) for panel, count in zip(panels, counts, strict=True)]
    if len(specs) > 1:
        refuse("--rows", said.rows_of_one_panel())
    rows = rows_of_table(read_table(table), table.as_posix(), panels[0].variables, date)
    if quantity is not None and quantities(quantity, 1) != [len(rows)]:
        refuse("--quantity", said.quantity_of_rows(len(rows)))
    return [rows]


def _require_clean(specs: Sequence[Path], run: Sequence[Varying]) -> None:
    from panelart.cli.exits import EXIT_FINDINGS, end
    from panelart.cli.findings import print_built
    from panelart.reports.text import Detail

    failed = False
    for spec, each in zip(specs, run, strict=True):
        if not each.built.inspection.failed:
            continue
        failed = True
        print_built(each.built, str(spec), Detail.USUAL)
        for variable in each.built.layout.panel.variables:
            row = next((row for row in each.rows if row.values[variable.name] == variable.example), None)
            if row is not None:
                place = row.where.file if row.where.line == 1 else f"{row.where.file}:{row.where.line}"
                print(said.widest_value(spec, variable.name, variable.example, place), file=sys.stderr)
    if failed:
        print(said.nothing_printed(), file=sys.stderr)
        end(EXIT_FINDINGS)


def _mark(run: Sequence[Varying], job: Bed, date: str) -> str:
    """The fingerprint of everything that decides the bytes of a run."""
    told = hashlib.sha256(f"{__version__} {date} {asdict(job)}".encode())
    for each in run:
        told.update(each.built.layout.panel.fingerprint.encode() + each.built.placement)
        for row in each.rows:
            told.update(repr(sorted(row.values.items())).encode())
    return told.hexdigest()[:16]
