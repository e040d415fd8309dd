"""The test strip of engraving: passes, walls and lettering of every cutter, as the paths of its middle.

Engraved once in the stock and at the depth of the panels; what holds is read from it as from a printed strip.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.canonical import Struct
from panelart.drawing.layers import CUT_LINE_WIDTH, EDGE
from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.geometry import Box, Line, Point, rectangle
from panelart.lettering.centreline import centre_lines
from panelart.lettering.cuts import Cut
from panelart.lettering.documents import LOWEST
from panelart.lettering.outline import Shape, bounds, open_shape, shape_of
from panelart.messages import Said
from panelart.messages import press as said
from panelart.model.printing import CUTTERS
from panelart.press.strip import SAMPLE
from panelart.processes.process import Process

WALLS: Final = (0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5)
"""What is left standing between two passes, mm: from what breaks out in metal to what holds in laminates."""

WEIGHTS: Final = (6.0, 8.0, 10.0)
"""Heights of capitals in widths of the cutter, as the weights of the program's own face have them."""

PASS: Final = 20.0
"""Length of the single pass that a cutter's width is measured on, mm."""

NAME: Final = LOWEST
"""Heights of figures, mm, engraved by the finest cutter."""

_LEFT: Final = 12.0
_WALL_PITCH: Final = 9.0
_LETTERS: Final = _LEFT + PASS + 8.0 + len(WALLS) * _WALL_PITCH
_TALL: Final = 7.0
_ROW: Final = 13.0
_HEAD: Final = 23.0
_PATH: Final = Paint(colour="#B3261E")
_EDGE: Final = Paint(colour="#9AA0A6")
_PAPER: Final = 5.0


class Row(Struct, frozen=True, kw_only=True):
    """What one cutter cuts: its pass, pairs of passes by the wall between them, samples by the height of capitals."""

    cutter: float
    single: Shape
    walls: tuple[tuple[float, Shape], ...]
    samples: tuple[tuple[float, Shape], ...]


def rows() -> tuple[Row, ...]:
    """The rows of the strip, the finest cutter first, from the top."""
    return tuple(_row(cutter, -_HEAD - _TALL - number * _ROW) for number, cutter in enumerate(CUTTERS))


def cutter_strip(process: Process) -> Drawing:
    """The strip as paths, a layer for each cutter as files of panels have them; names are cut by the finest.

    `process` has a figure `depth`, mm.
    """
    cut = {row.cutter: [row.single, *(lines for _, lines in (*row.walls, *row.samples))] for row in rows()}
    cut[CUTTERS[0]] += list(_names(process))
    wide = max(bounds(shape).right for shapes in cut.values() for shape in shapes)
    page = Box(0.0, -_HEAD - len(CUTTERS) * _ROW - 3.0, wide + 6.0, 0.0)
    edge = Item(
        shape=shape_of(rectangle(page.width, page.height, page.centre)),
        stroke=_EDGE,
        width=CUT_LINE_WIDTH,
        label=str(said.strip_edge()),
        name="outline",
    )
    layers = tuple(
        Layer(
            name=f"engrave-{cutter:g}",
            items=tuple(Item(shape=shape, stroke=_PATH, width=CUT_LINE_WIDTH) for shape in shapes),
        )
        for cutter, shapes in cut.items()
    )
    return Drawing(
        title=str(said.cutter_strip_title(process=process.title.lower())),
        note=str(said.cutter_strip_note(process=process.title, depth=process.figure("depth"))),
        page=page.grown(_PAPER),
        trim=page,
        layers=(*layers, Layer(name=EDGE, items=(edge,))),
    )


def _row(cutter: float, base: float) -> Row:
    walls = []
    for number, wall in enumerate(WALLS):
        x = _LEFT + PASS + 8.0 + number * _WALL_PITCH
        lines = (_line(Point(at, base), Point(at, base + _TALL)) for at in (x, x + cutter + wall))
        walls.append((wall, tuple(loop for line in lines for loop in line)))
    samples = []
    x = _LETTERS
    for weight in WEIGHTS:
        shape = centre_lines(SAMPLE, Point(x, base), weight * cutter, Cut(weight))
        samples.append((weight * cutter, shape))
        x = bounds(shape).right + cutter + 9.0
    return Row(
        cutter=cutter,
        single=_line(Point(_LEFT, base + _TALL / 2), Point(_LEFT + PASS, base + _TALL / 2)),
        walls=tuple(walls),
        samples=tuple(samples),
    )


def _names(process: Process) -> Iterator[Shape]:
    """The head of the strip, and what each row and column has, in figures."""
    head = -_HEAD + 7.0
    yield _words(said.cutter_strip_lettering(process=process.title.lower()), Point(3.0, -4.0 - NAME))
    yield _words(said.cutter_strip_cutter(), Point(3.0, head))
    yield _words(said.cutter_strip_wall(), Point(_LEFT + PASS + 8.0, head))
    yield _words(said.cutter_strip_height(), Point(_LETTERS, head))
    for wall, lines in rows()[0].walls:
        yield _words(f"{wall:g}", Point(bounds(lines).left - 0.5, head - NAME - 2.0))
    for row in rows():
        middle = bounds(row.single).bottom
        yield _words(f"{row.cutter:g}", Point(3.0, middle - NAME / 2))
        for height, shape in row.samples:
            yield _words(f"{height:g}", Point(bounds(shape).right + row.cutter + 1.5, middle - _TALL / 2))


def _words(text: Said, at: Point) -> Shape:
    return centre_lines(str(text), at, NAME, Cut(NAME / CUTTERS[0]))


def _line(start: Point, end: Point) -> Shape:
    return open_shape((Line(start, end),))
