"""A drawing in a file whose ending names its format."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from panelart.drawing.representation import Drawing

ENDINGS = (".svg", ".pdf", ".png")
PICTURE_DPI = 160.0


def write_drawing(drawing: Drawing, out: Path) -> None:
    """Write it whole or not at all. Raises typer.BadParameter for another ending, OSError when it cannot be written."""
    from panelart.writers import pdf, png, svg, write_all

    match out.suffix.lower():
        case ".svg":
            data = svg(drawing)
        case ".pdf":
            data = pdf([drawing])
        case ".png":
            data = png(drawing, PICTURE_DPI)
        case _:
            raise typer.BadParameter(f"'{out.name}' does not end in {', '.join(ENDINGS)}", param_hint="--out")
    write_all({out.name: data}, out.parent)
