"""Letters for a picture: each glyph drawn once in the file and used wherever it stands.

Only our own painter reads such a file. What is given away has every letter as a path of its own, since cutters and
older programs do not follow uses.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from panelart.drawing.representation import Lettered
from panelart.geometry import Box
from panelart.lettering.fonts import open_font
from panelart.lettering.outline import Shape

DrawnAs = Callable[[Shape, Box], str]
"""Loops and a page to the `d` of a path."""

_GLYPHS_ON = Box(0.0, 0.0, 0.0, 0.0)
"""The page that glyphs are drawn on: y turned over, nothing moved."""


class Letters:
    """Gives out uses of glyphs and keeps the glyphs that were used."""

    def __init__(self, drawn_as: DrawnAs) -> None:
        self._drawn_as = drawn_as
        self._glyphs: dict[tuple[str, int], str] = {}
        self.definitions: list[Any] = []

    def group(self, words: Lettered, page: Box) -> Any:
        """The words as uses of their glyphs."""
        from svgwrite.base import BaseElement
        from svgwrite.container import Group

        group = Group(debug=False)
        turn = math.radians(words.turn)
        along, across = words.scale * math.cos(turn), words.scale * math.sin(turn)
        for letter in words.setting.letters:
            name = self._glyph(letter.font, letter.number)
            if not name:
                continue
            size = words.scale * letter.scale
            angle = turn + math.radians(letter.turn)
            c, s = size * math.cos(angle), size * math.sin(angle)
            x = words.at.x + letter.x * along - letter.y * across
            y = words.at.y + letter.x * across + letter.y * along
            use = BaseElement(debug=False)  # svgwrite's own Use names its glyph in a name space that is not declared
            use.elementname = "use"
            # The glyph has its y turned over already, so the turn runs the other way.
            turned = f"{c:.9g} {-s:.9g} {s:.9g} {c:.9g}"
            use.attribs = {
                "href": f"#{name}",
                "transform": f"matrix({turned} {x - page.left:.9g} {page.top - y:.9g})",
            }
            group.elements.append(use)
        return group

    def _glyph(self, font: str, number: int) -> str:
        """The name of a glyph's definition, '' for one without ink."""
        from svgwrite.path import Path

        key = (font, number)
        if key not in self._glyphs:
            outline = open_font(font).outline(number)
            self._glyphs[key] = f"g{len(self._glyphs)}" if outline else ""
            if outline:
                path = Path(d=self._drawn_as(outline, _GLYPHS_ON), debug=False)
                path.attribs["id"] = self._glyphs[key]
                self.definitions.append(path)
        return self._glyphs[key]
