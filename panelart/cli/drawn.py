"""A drawing in a file whose ending names its format."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from panelart.cli.options import DRAWINGS
from panelart.cli.usage import refuse
from panelart.messages import cli_usage as said

if TYPE_CHECKING:
    from panelart.drawing.representation import Drawing

PICTURE_DPI = 160.0


def require_ending(out: Path, endings: tuple[str, ...] = DRAWINGS, option: str = "--out") -> None:
    """Nothing for a file of one of these formats. Raises Refused."""
    if out.suffix.lower() not in endings:
        refuse(option, said.wrong_ending(out.name), said.accepted(endings))


def write_drawing(drawing: Drawing, out: Path) -> None:
    """Write it whole or not at all; paths for a machine also as DXF. Raises OSError when it cannot be written."""
    from panelart.writers import dxf, pdf, png, svg, write_all

    match out.suffix.lower():
        case ".dxf":
            data = dxf(drawing, in_order=True)
        case ".svg":
            data = svg(drawing)
        case ".pdf":
            data = pdf([drawing])
        case _:
            data = png(drawing, PICTURE_DPI)
    write_all({out.name: data}, out.parent)
