"""Laser marking: the lines that a beam of a width follows to fill all marking, shape by shape."""

from __future__ import annotations

import math

from panelart.canonical import Struct
from panelart.geometry import Line, Point
from panelart.lettering.outline import Loop
from panelart.marking.areas import area_of, mark_area, pieces, united
from panelart.marking.engraving import curve_length
from panelart.marking.filling import hatching
from panelart.marking.travel import short_way
from panelart.model.layout import Layout
from panelart.model.printing import Laser


class Burn(Struct, frozen=True, kw_only=True):
    """The lines in order; the way of the beam off the work and on it, in mm."""

    paths: tuple[Loop, ...]
    travel: float
    unordered: float
    length: float


def burn_plan(layout: Layout, laser: Laser) -> Burn:
    """Every line of a layout's marking. Each shape is finished before the next; the shapes follow a short way."""
    ground = united(
        [
            *(mark_area(mark) for mark in layout.inked_marks),
            *(area_of(legend.shape) for legend in layout.inked_legends),
        ]
    )
    blocks = [
        lines for piece in pieces(ground, 1e-5) if (lines := hatching(piece, laser.beam, laser.spacing, laser.angle))
    ]
    paths = _in_order(blocks)
    return Burn(
        paths=tuple(paths),
        travel=_travel(paths),
        unordered=_travel([line for block in blocks for line in block]),
        length=math.fsum(curve_length(curve) for path in paths for curve in path.curves),
    )


def _in_order(blocks: list[list[Loop]]) -> list[Loop]:
    """The lines of all blocks on a short way from block to block; each is burnt from whichever end is nearer."""
    # A block is to the travel one line, from where it begins to where it ends.
    ways = [Loop((Line(block[0].curves[0].start, block[-1].curves[-1].end),), closed=False) for block in blocks]
    order = short_way(ways, Point(0.0, 0.0))
    by_ends = {}
    for way, block in zip(ways, blocks, strict=True):
        line = way.curves[0]
        by_ends[line.start, line.end] = block
        by_ends[line.end, line.start] = _backwards(block)
    return [line for way in order.paths for line in by_ends[way.curves[0].start, way.curves[0].end]]


def _backwards(block: list[Loop]) -> list[Loop]:
    return [
        Loop(tuple(Line(curve.end, curve.start) for curve in reversed(loop.curves)), loop.closed)
        for loop in reversed(block)
    ]


def _travel(paths: list[Loop]) -> float:
    here = Point(0.0, 0.0)
    total = 0.0
    for path in paths:
        total += here.distance(path.curves[0].start)
        here = path.curves[-1].end
    return total
