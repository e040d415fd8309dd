"""A DXF or SVG file to an outline with holes."""

from __future__ import annotations

from panelart.diagnostics import Problem, Where
from panelart.outlines.dxf import Source, read_dxf
from panelart.outlines.sorted_out import DrawnOutline, Turned, sort_out
from panelart.outlines.svg import read_svg_outline


def read_outline(source: Source, laid: Turned, *, svg: bool) -> tuple[DrawnOutline | None, tuple[Problem, ...]]:
    """The outline, or everything that is wrong with the drawing."""
    found = read_svg_outline(source) if svg else read_dxf(source)
    if found.problems:
        return None, tuple(found.problems)
    return sort_out(found.drawn, laid, found.error, Where(source.file, 1, 1))
