"""`panelart check --explain`: the places considered for a part's legends, what each costs and what is in its way."""

from __future__ import annotations

import sys
from pathlib import Path

from panelart.messages import cli as said

DPI = 300.0


def explain(spec: Path, ref: str, drawing: Path | None, *, ignore_placement: bool) -> None:
    """Print the places of a part's legends, and draw them where a file is named."""
    from panelart.cli.drawn import require_ending
    from panelart.cli.usage import refuse_name
    from panelart.legends.explain import stories, told
    from panelart.pipeline import read, read_placement, set_legends

    if drawing is not None:
        require_ending(drawing)
    panel = read(spec)
    if ref not in panel.by_ref:
        refuse_name(said.unknown_ref(ref), ref, panel.by_ref, said.refs())
    layout, placement = set_legends(panel, None if ignore_placement else read_placement(spec))
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
