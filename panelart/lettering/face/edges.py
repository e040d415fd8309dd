"""Pieces of a glyph's outline in whole font units."""

from __future__ import annotations

from dataclasses import dataclass

Whole = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """One piece of outline: straight, or a quadratic when it has a control point."""

    start: Whole
    control: Whole | None
    end: Whole


Contour = tuple[Edge, ...]
