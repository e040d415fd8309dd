"""The test strip of a marking laser: fields of lines by their distance, single lines, gaps and lettering, as its paths.

Burnt once on the coat of the panels; the widest distance whose lines still meet, the narrowest gap that stays open and
the lowest lettering that is read are what the machine holds.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import shapely

from panelart.canonical import Struct
from panelart.drawing.layers import CUT_LINE_WIDTH, EDGE
from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.geometry import Box, Line, Point, rectangle
from panelart.lettering.centreline import centre_lines
from panelart.lettering.cuts import MEDIUM
from panelart.lettering.documents import LOWEST
from panelart.lettering.outline import Loop, Shape, bounds, open_shape, shape_of
from panelart.lettering.setting import set_words
from panelart.marking.areas import area_of, pieces
from panelart.marking.filling import hatching
from panelart.messages import Said
from panelart.messages import press as said
from panelart.press.strip import HEIGHTS, SAMPLE
from panelart.processes.process import Process

SPACINGS: Final = (0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.12, 0.15)
"""Distances of lines, mm: from what burns twice to what leaves stripes, about the 0.05 of trade habit."""

GAPS: Final = (0.05, 0.08, 0.1, 0.12, 0.15, 0.2, 0.25, 0.3, 0.4)
"""What is left bare between two filled fields, mm."""

LAYER: Final = "laser"
FIELD: Final = 8.0
PITCH: Final = 13.0
_LEFT: Final = 34.0
_PATH: Final = Paint(colour="#B3261E")
_EDGE: Final = Paint(colour="#9AA0A6")
_PAGE: Final = Box(0.0, 0.0, _LEFT + len(SPACINGS) * PITCH + 16.0, 88.0)
_PAPER: Final = 5.0


class Sample(Struct, frozen=True, kw_only=True):
    """One sample: its figure in mm, and its lines."""

    value: float
    lines: tuple[Loop, ...]


def fields(beam: float) -> tuple[Sample, ...]:
    """Squares filled by lines at each distance."""
    return tuple(
        Sample(value=step, lines=tuple(hatching(_square(column, 58.0), beam, step, 0.0)))
        for column, step in enumerate(SPACINGS)
    )


def gaps(beam: float, spacing: float) -> tuple[Sample, ...]:
    """Squares parted by a bare strip in their middle."""
    made = []
    for column, gap in enumerate(GAPS):
        square = _square(column, 38.0)
        middle = square.centroid.x
        bare = shapely.box(middle - gap / 2, 0.0, middle + gap / 2, _PAGE.top)
        halves = pieces(shapely.difference(square, bare), 1e-6)
        lines = [line for half in halves for line in hatching(half, beam, spacing, 0.0)]
        made.append(Sample(value=gap, lines=tuple(lines)))
    return tuple(made)


def lettering(beam: float, spacing: float) -> tuple[Sample, ...]:
    """The sample at each height of capitals."""
    made, x = [], _LEFT
    for height in HEIGHTS:
        setting = set_words(SAMPLE, MEDIUM.font, height)
        letters = area_of(setting.placed(Point(x, 20.0)))
        lines = [line for piece in pieces(letters, 1e-6) for line in hatching(piece, beam, spacing, 0.0)]
        made.append(Sample(value=height, lines=tuple(lines)))
        x += max(setting.box.width, 8.0) + 5.0
    return tuple(made)


def beam_strip(process: Process) -> Drawing:
    """The strip as paths on the layer that files of panels have. `process` has figures `beam` and `spacing`, mm."""
    beam, spacing = process.figure("beam"), process.figure("spacing")
    rows = (
        (said.beam_strip_spacing(), fields(beam), 58.0),
        (said.beam_strip_gap(), gaps(beam, spacing), 38.0),
        (said.beam_strip_height(), lettering(beam, spacing), 20.0),
    )
    shapes: list[Shape] = [_words(said.beam_strip_lettering(process=process.title.lower()), Point(4.0, 80.0))]
    for text, samples, base in rows:
        shapes.append(_words(text, Point(4.0, base + FIELD - LOWEST)))
        shapes.append(_words("mm", Point(4.0, base + FIELD - 2.8 * LOWEST)))
        for sample in samples:
            shapes.append(sample.lines)
            left = bounds(sample.lines).left
            shapes.append(_words(f"{sample.value:g}", Point(left, base - 1.5 - LOWEST)))
    shapes += _single(Point(_LEFT, 8.0))
    shapes.append(_words(said.beam_strip_line(), Point(4.0, 8.0 - LOWEST / 2)))
    edge = Item(
        shape=shape_of(rectangle(_PAGE.width, _PAGE.height, _PAGE.centre)),
        stroke=_EDGE,
        width=CUT_LINE_WIDTH,
        label=str(said.strip_edge()),
        name="outline",
    )
    items = tuple(Item(shape=shape, stroke=_PATH, width=beam) for shape in shapes)
    return Drawing(
        title=str(said.beam_strip_title(process=process.title.lower())),
        note=str(said.beam_strip_note(process=process.title, beam=beam, spacing=spacing)),
        page=_PAGE.grown(_PAPER),
        trim=_PAGE,
        layers=(Layer(name=LAYER, items=items), Layer(name=EDGE, items=(edge,))),
    )


def _square(column: int, base: float) -> shapely.Geometry:
    left = _LEFT + column * PITCH
    return shapely.box(left, base, left + FIELD, base + FIELD)


def _single(start: Point) -> Iterator[Shape]:
    """One line on which the width of the beam is measured."""
    yield open_shape((Line(start, Point(start.x + 40.0, start.y)),))


def _words(text: Said, at: Point) -> Shape:
    return centre_lines(str(text), at, LOWEST)
