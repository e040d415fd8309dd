"""A sheet of pieces as SVG: one group a piece, moved by its own matrix."""

from __future__ import annotations

from collections.abc import Mapping

from panelart.drawing.representation import Drawing
from panelart.drawing.sheets import Sheet
from panelart.geometry import Affine, Box
from panelart.writers.figures import decimal
from panelart.writers.svg import Ids, add_shared, layer_group, path_data, svg_document, svg_root
from panelart.writers.svg_colours import shared_colours


def sheet_svg(sheet: Sheet, drawings: Mapping[str, Drawing]) -> bytes:
    """The sheet as a document at 1:1; layers are groups within the group of their piece.

    Raises KeyError for a drawing that is not handed over.
    """
    from svgwrite.container import Group

    ids = Ids()
    root = svg_root(sheet, ids)
    shared = shared_colours(sheet.layers, sheet.page, path_data)
    for number, placed in enumerate(sheet.placed, 1):
        drawing = drawings[placed.drawing]
        piece = Group(debug=False)
        piece.attribs["id"] = ids.unique(f"piece-{number}")
        piece.attribs["transform"] = _matrix(placed.by, drawing.page, sheet.page)
        for layer in (*drawing.layers, *placed.own):
            piece.add(layer_group(layer, ids.unique(layer.name), drawing.page, ids, None))
        shared |= shared_colours((*drawing.layers, *placed.own), drawing.page, path_data)
        root.add(piece)
    add_shared(root, list(shared.values()))
    for layer in sheet.layers:
        root.add(layer_group(layer, ids.unique(layer.name), sheet.page, ids, None))
    return svg_document(root.get_xml())


def _matrix(by: Affine, inner: Box, outer: Box) -> str:
    """The map between two frames with y down, each from the upper left corner of its page."""
    a, b, c, d, e, f = by.matrix
    x = a * inner.left + c * inner.top + e - outer.left
    y = outer.top - b * inner.left - d * inner.top - f
    return f"matrix({' '.join(decimal(value, 10) for value in (a, -b, -c, d, x, y))})"
