"""check --why: where the legends of one part could stand, what each place costs and what is in its way."""

from __future__ import annotations

import sys
from pathlib import Path

import typer

FORMATS = (".svg", ".pdf", ".png")

DPI = 300.0


def why(spec: Path, ref: str, drawing: Path | None, *, fresh: bool) -> None:
    """Print the story of a part's legends, and draw it where a file is named."""
    from panelart.cli import EXIT_SPEC
    from panelart.diagnostics import did_you_mean
    from panelart.legends.explain import stories, told
    from panelart.pipeline import read, read_placement, set_legends

    panel = read(spec)
    if ref not in panel.by_ref:
        print(f"error: no part has the ref '{ref}'; {did_you_mean(ref, panel.by_ref, 'refs')}", file=sys.stderr)
        raise typer.Exit(EXIT_SPEC)
    if drawing is not None and drawing.suffix.lower() not in FORMATS:
        raise typer.BadParameter(f"'{drawing}' does not end in {', '.join(FORMATS)}", param_hint="--out")
    layout, placement = set_legends(panel, None if fresh else read_placement(spec))
    sys.stdout.write(told(placement.chosen, ref, layout.unplaced))
    found = stories(placement.chosen, ref)
    if drawing is None or not found:
        return
    from panelart.sheets.places import places_drawing
    from panelart.writers import pdf, png, svg, write_all

    picture = places_drawing(layout, found)
    suffix = drawing.suffix.lower()
    data = svg(picture) if suffix == ".svg" else pdf([picture]) if suffix == ".pdf" else png(picture, DPI)
    write_all({drawing.name: data}, drawing.parent)
    print(drawing)
