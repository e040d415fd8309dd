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


def drawing_bytes(drawing: Drawing, out: Path) -> bytes:
    """A drawing in the format that a file's ending names; paths for a machine also as DXF."""
    from panelart.writers import dxf, pdf, png, svg

    match out.suffix.lower():
        case ".dxf":
            return dxf(drawing, in_order=True)
        case ".svg":
            return svg(drawing)
        case ".pdf":
            return pdf([drawing])
        case _:
            return png(drawing, PICTURE_DPI)


def write_drawing(drawing: Drawing, out: Path) -> None:
    """Write it whole or not at all. Raises OSError when it cannot be written."""
    from panelart.writers import write_all

    write_all({out.name: drawing_bytes(drawing, out)}, out.parent)
