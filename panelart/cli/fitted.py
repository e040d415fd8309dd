"""`panelart fit`: the artwork corrected to the piece that lies on the printer's bed."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from panelart.cli.app import Spec, app


class FitModel(StrEnum):
    """What the map from panel to bed may do."""

    AUTO = "auto"
    RIGID = "rigid"
    SIMILARITY = "similarity"
    AFFINE = "affine"


@app.command()
def fit(
    spec: Spec,
    measured: Annotated[
        Path | None,
        typer.Option(
            "--measured",
            metavar="FILE",
            help="CSV with feature, x, y in the printer's mm; left out: say which features to measure.",
        ),
    ] = None,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="DIR", help="Folder for the corrected artwork, PDF and SVG.")
    ] = None,
    model: Annotated[
        FitModel,
        typer.Option(
            "--model",
            help="rigid: shift and turn; similarity: and a scale; auto: the plainest that explains the points.",
        ),
    ] = FitModel.AUTO,
    noise: Annotated[
        float, typer.Option("--noise", metavar="MM", help="How far a measured coordinate may be off, 19 times in 20.")
    ] = 0.05,
    tolerance: Annotated[
        float | None,
        typer.Option("--tolerance", metavar="MM", help="Register error allowed; by default the spec's `register`."),
    ] = None,
    bed: Annotated[
        str | None,
        typer.Option("--bed", metavar="WxH", help="Size of the printer's bed, which the page then is, from 0, 0."),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the decision for programs.")] = False,
) -> None:
    """Fit measured points to the panel, decide whether this piece can be printed in register, correct the artwork.

    Features: lower-left, lower-right, upper-right, upper-left (the corner as if it were sharp), left, right, top,
    bottom (a touch of that edge), any opening by its name in holes.csv, and marks of your own with panel_x, panel_y.
    Exit 1 when the piece cannot be printed in register; then no artwork is written.
    """
    from panelart.cli import EXIT_FINDINGS
    from panelart.cli.sizes import bed_of, mm
    from panelart.cli.tables import read_table
    from panelart.pipeline import fit_artwork, lay_out, read, read_placement
    from panelart.press.advice import advised
    from panelart.press.features import features
    from panelart.press.fitting import Model
    from panelart.press.measured import read_measured
    from panelart.press.register import registered
    from panelart.press.register_report import advice_text, register_json, register_text
    from panelart.writers import write_all

    mm(noise, "--noise", maximum=10.0)
    if tolerance is not None:
        mm(tolerance, "--tolerance", maximum=100.0)
    page = None if bed is None else bed_of(bed)
    layout = lay_out(read(spec), read_placement(spec))
    known = features(layout)
    wanted = None if model is FitModel.AUTO else Model(model.value)
    if measured is None:
        allowed = layout.panel.marking.register if tolerance is None else tolerance
        print(advice_text(advised(layout, known, noise=noise, model=wanted or Model.RIGID), noise, allowed))
        return
    points = read_measured(read_table(measured), measured.as_posix(), known, layout.panel.datum)
    done = registered(layout, points, model=wanted, noise=noise, tolerance=tolerance)
    files = {}
    if done.printable and out is not None:
        assert done.fit is not None
        try:
            files = fit_artwork(layout, done.fit.map, page)
        except ValueError as error:
            raise typer.BadParameter(str(error), param_hint="--bed") from None
        write_all(files, out)
    if as_json:
        sys.stdout.write(register_json(done))
    else:
        print(register_text(done))
        for name in files:
            print(out / name if out is not None else name)
    if not done.printable:
        raise typer.Exit(EXIT_FINDINGS)
