"""Panels side by side on one page, each with a line under it, to be chosen from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from panelart.drawing.layers import PARTS
from panelart.drawing.representation import Drawing, Item, Layer
from panelart.drawing.scaling import Scaling
from panelart.geometry import Box, Point
from panelart.messages import Said
from panelart.messages import sheets as said
from panelart.model.layout import Layout
from panelart.sheets.paper import words
from panelart.sheets.picture import picture

_GAP: Final = 14.0
_LINE: Final = 10.0
_LETTERS: Final = 4.0


def side_by_side(panels: Sequence[tuple[Layout, Said]], title: str) -> Drawing:
    """The panels from left to right, each with its words under it, at their own size."""
    items: list[Item] = []
    at = _GAP
    highest = max(layout.panel.size[1] for layout, _ in panels)
    for layout, caption in panels:
        width, height = layout.panel.size
        items += picture(layout, Scaling(1.0, Point(at, _GAP + _LINE + highest - height)))
        items.append(words(caption, Point(at, _GAP), height=_LETTERS).item)
        at += width + _GAP
    page = Box(0.0, 0.0, at, highest + 2 * _GAP + _LINE)
    return Drawing(
        title=title,
        note=str(said.arrangements_note(title=title, count=len(panels))),
        page=page,
        trim=page,
        layers=(Layer(name=PARTS, items=tuple(items)),),
    )
