"""`panelart inspect`: measured values against the panel: in or out, and how capable the making is."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from panelart.cli.app import Spec, app

if TYPE_CHECKING:
    from panelart.sheets.inspection import Verdict


MAX_NAMED = 8
"""How many sizes without a value are named."""


@app.command()
def inspect(
    spec: Spec,
    measured: Annotated[
        Path,
        typer.Option(
            "--measured",
            metavar="FILE",
            help="Values as inspection.csv has them: feature, measure, piece, measured_mm.",
        ),
    ],
) -> None:
    """Judge measured values: which are out of their limits, and over several pieces Cp and Cpk.

    Exit 1 when a value is out of its limits, 2 when the file cannot be used.
    """
    from panelart.cli import EXIT_FINDINGS, EXIT_SPEC
    from panelart.pipeline import lay_out, read
    from panelart.sheets.inspection import MeasuredError, characteristics, judged, read_measured, specs_of

    panel = read(spec)
    try:
        data = measured.read_bytes()
        values, others = read_measured(data), [spec for spec in specs_of(data) if spec != panel.fingerprint]
        wanted = characteristics(lay_out(panel))
        verdicts = judged(wanted, values)
    except OSError as error:
        print(f"error: {measured} cannot be read: {(error.strerror or 'no such file').lower()}", file=sys.stderr)
        raise typer.Exit(EXIT_SPEC) from None
    except MeasuredError as error:
        print(f"{measured}: error: {error}", file=sys.stderr)
        raise typer.Exit(EXIT_SPEC) from None
    if others:
        print(f"warning: measured for spec {', '.join(others)}, held against the spec as it is, {panel.fingerprint}")
    for verdict in verdicts:
        print(_line(verdict))
    out = sum(len(verdict.out) for verdict in verdicts)
    known = {verdict.characteristic.key for verdict in verdicts}
    left = [" ".join(one.key) for one in wanted if one.key not in known]
    print(f"{len(values)} values, {out} out of limits; {len(left)} of {len(wanted)} sizes not measured")
    if values and left:
        print(f"not measured: {', '.join(left[:MAX_NAMED])}{' ...' if len(left) > MAX_NAMED else ''}")
    if out:
        raise typer.Exit(EXIT_FINDINGS)


def _line(verdict: Verdict) -> str:
    one = verdict.characteristic
    limits = f"{_limit(one.minimum)} to {_limit(one.maximum)}"
    told = f"{one.feature} {one.measure}: {verdict.mean:.3f} ({limits})"
    if len(verdict.values) > 1:
        told += f", {len(verdict.values)} pieces"
    if verdict.cp is not None and verdict.cpk is not None:
        told += f", Cp {verdict.cp:.2f}, Cpk {verdict.cpk:.2f}"
    if not verdict.out:
        return f"ok   {told}"
    named = ", ".join(f"piece {value.piece} {value.value:g}" for value in verdict.out)
    return f"OUT  {told}: {named}"


def _limit(value: float | None) -> str:
    return "open" if value is None else f"{value:g}"
