"""Pieces of a glyph's outline in whole font units."""

from __future__ import annotations

from panelart.canonical import Struct

Whole = tuple[int, int]


class Edge(Struct, frozen=True, kw_only=True):
    """One piece of outline: straight, or a quadratic when it has a control point."""

    start: Whole
    control: Whole | None
    end: Whole


Contour = tuple[Edge, ...]
