"""`panelart register`: the artwork registered to the piece that lies on the printer's bed."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from panelart.cli.declaring import command, option
from panelart.cli.options import PlainFormat, Spec, TextOrJson
from panelart.cli.usage import refuse
from panelart.cli.values import FOLDER, bed_size, file, length, text
from panelart.messages import cli_help_press as help_
from panelart.messages.errors import said_by

if TYPE_CHECKING:
    from panelart.geometry import Box
    from panelart.model.layout import Layout
    from panelart.press.fitting import Fit

MAX_UNCERTAINTY = 10.0
MAX_TOLERANCE = 100.0


class Transformation(StrEnum):
    """What the map from panel to bed may do."""

    AUTO = "auto"
    RIGID = "rigid"
    SIMILARITY = "similarity"
    AFFINE = "affine"


@command(help_.register_means(), help_.register_corners(), help_.register_features(), extensions=True)
def register(
    spec: Spec,
    measured: Annotated[Path | None, option("--measured", help_.measured_points(), file(".csv"))] = None,
    out: Annotated[Path | None, option("-o --out", help_.corrected_artwork(), FOLDER)] = None,
    model: Annotated[Transformation, option("--model", help_.model())] = Transformation.AUTO,
    uncertainty: Annotated[float, option("--uncertainty", help_.uncertainty(), length(maximum=MAX_UNCERTAINTY))] = 0.05,
    tolerance: Annotated[float | None, option("--tolerance", help_.tolerance(), length(maximum=MAX_TOLERANCE))] = None,
    bed: Annotated[str | None, option("--bed", help_.bed_of_page(), text("WxH"))] = None,
    format_: TextOrJson = PlainFormat.TEXT,
) -> None:
    """Register the artwork to measured points."""
    from panelart.cli.exits import EXIT_FINDINGS, end
    from panelart.cli.tables import read_table
    from panelart.pipeline import lay_out, read, read_placement
    from panelart.press.advice import advised
    from panelart.press.features import features
    from panelart.press.fitting import Model
    from panelart.press.measured import read_measured
    from panelart.press.register import registered
    from panelart.press.register_report import advice_text, register_json, register_text

    page = None if bed is None else bed_size(bed, "--bed")
    layout = lay_out(read(spec), read_placement(spec))
    known = features(layout)
    wanted = None if model is Transformation.AUTO else Model(model.value)
    if measured is None:
        allowed = layout.panel.marking.register if tolerance is None else tolerance
        found = advised(layout, known, noise=uncertainty, model=wanted or Model.RIGID)
        print(advice_text(found, uncertainty, allowed))
        return
    points = read_measured(read_table(measured), measured.as_posix(), known, layout.panel.datum)
    done = registered(layout, points, model=wanted, noise=uncertainty, tolerance=tolerance)
    written: list[Path] = []
    if done.printable and done.fit is not None and out is not None:
        written = _write_corrected(layout, done.fit, page, out)
    if format_ is PlainFormat.JSON:
        sys.stdout.write(register_json(done))
    else:
        print(register_text(done))
        for path in written:
            print(path)
    if not done.printable:
        end(EXIT_FINDINGS)


def _write_corrected(layout: Layout, fit: Fit, page: Box | None, out: Path) -> list[Path]:
    """Write the artwork as the piece lies on the bed. Raises Refused when the piece reaches off the bed."""
    from panelart.pipeline import fit_artwork
    from panelart.writers import write_all

    try:
        files = fit_artwork(layout, fit.map, page)
    except ValueError as error:
        refuse("--bed", said_by(error))
    write_all(files, out)
    return [out / name for name in files]
