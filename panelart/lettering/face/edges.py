"""Pieces of a glyph's outline in whole font units."""

from __future__ import annotations

from panelart.canonical import Struct

UNITS = 144
"""Font units to a d: capitals of 1440 units, 0.703 em."""

UNITS_PER_EM = 2048
"""Font units to an em; a power of two, as is usual for TrueType outlines."""

Whole = tuple[int, int]


class Edge(Struct, frozen=True, kw_only=True):
    """One piece of outline: straight, or a quadratic when it has a control point."""

    start: Whole
    control: Whole | None
    end: Whole


Contour = tuple[Edge, ...]
