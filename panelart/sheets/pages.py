"""Pages of A4 upright, filled from the top down."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.drawing.layers import NOTES
from panelart.drawing.representation import Drawing, Item
from panelart.geometry import Box, Point
from panelart.lettering.look import Align
from panelart.messages import sheets_catalogue as said
from panelart.sheets.paper import GREY, SIZES, words
from panelart.sheets.part_picture import sheet_layers

HEIGHT, WIDTH = SIZES["A4"]
MARGIN: Final = 15.0


class Pages:
    """Pages filled from the top down."""

    def __init__(self) -> None:
        self.pages: list[dict[str, list[Item]]] = [{}]
        self.top = HEIGHT - MARGIN
        self.width = WIDTH - 2 * MARGIN
        self.floor = MARGIN + 8.0

    def need(self, height: float) -> None:
        """Begin a page when less than this is left."""
        if self.top - height < self.floor:
            self.pages.append({})
            self.top = HEIGHT - MARGIN

    def down(self, by: float) -> None:
        """Leave some room."""
        self.top -= by

    def at(self, height: float, x: float = 0.0) -> Point:
        """Where the base line of words begins whose capitals touch the top of what is left."""
        return Point(MARGIN + x, self.top - height)

    def add(self, layer: str, items: list[Item]) -> None:
        """Put items on the page being filled."""
        self.pages[-1].setdefault(layer, []).extend(items)

    def drawings(self, title: str, note: str, made_by: str) -> Iterator[Drawing]:
        """The pages with their feet."""
        paper = Box(0.0, 0.0, WIDTH, HEIGHT)
        for number, layers in enumerate(self.pages, start=1):
            count = said.page(page=number, pages=len(self.pages))
            foot = [
                words(made_by, Point(MARGIN, MARGIN - 2.0), paint=GREY).item,
                words(count, Point(WIDTH - MARGIN, MARGIN - 2.0), paint=GREY, align=Align.RIGHT).item,
            ]
            layers.setdefault(NOTES, []).extend(foot)
            yield Drawing(
                title=title,
                note=note,
                page=paper,
                trim=paper,
                layers=sheet_layers(layers),
            )
