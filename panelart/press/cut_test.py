"""The test file of a machine: one figure of known size on every layer, to be loaded before the first panel is cut."""

from __future__ import annotations

from typing import Final

from panelart.canonical import Struct
from panelart.drawing.cutlayer import NOTE, NOTE_LINE
from panelart.drawing.layers import CUT_LINE, CUT_LINE_WIDTH, CUTOUTS, NOTE_HEIGHT, NOTES, OUTLINE
from panelart.drawing.representation import Drawing, Item, Layer
from panelart.geometry import Box, Contour, Line, Point, circle, polygon
from panelart.lettering.centreline import centre_lines
from panelart.lettering.documents import sayable
from panelart.lettering.outline import bounds, open_shape, shape_of
from panelart.messages import Message
from panelart.messages import machines as said
from panelart.model.machine import CUT_LAYERS, LayerLine, Machine

WIDTH: Final = 160.0
HEIGHT: Final = 100.0
CORNER: Final = 20.0
"""The piece and what is cut off its upper right corner, mm: it looks otherwise turned or mirrored."""

HOLE: Final = 10.0
LENGTH: Final = 20.0
"""Diameter of the opening, and length of the line on each other layer, mm."""

_FIRST: Final = Point(15.0, 40.0)
_PITCH: Final = (8.0, 27.0)
_IN_ROW: Final = 12

_INKED: Final = {"line-*": "line-0.30-black", "area-*": "area-black", "engrave-*": "engrave-2"}
"""A layer of each family as files have it."""


class Figure(Struct, frozen=True, kw_only=True):
    """What is on one layer of the test file, in words, and what is meant to happen there."""

    layer: str
    item: Item
    figure: Message
    says: Message

    def told(self, machine: Machine) -> Message:
        """The line that is printed of it."""
        own: LayerLine = machine.line_of(self.layer)
        if not own.written or own.name is None or own.colour is None or own.line is None:
            return said.test_row_left_out(self.layer)
        return said.test_row(self.layer, own.name, own.colour, own.line.value, self.figure, self.says)


def figures() -> tuple[Figure, ...]:
    """The figures of every layer, the edge last but for notes, as a machine would cut them."""
    others: list[Figure] = []
    edge: list[Figure] = []
    for layer in CUT_LAYERS:
        name = _INKED.get(layer.name, layer.name)
        if name == OUTLINE:
            edge.append(_figure(name, _closed(_piece()), said.test_outline(WIDTH, HEIGHT), layer.says))
        elif name == CUTOUTS:
            hole = _closed(circle(HOLE, Point(15.0, 15.0)))
            others.append(_figure(name, hole, said.test_circle(HOLE), layer.says))
        elif name not in (NOTES, "*"):
            row, column = divmod(len(others), _IN_ROW)
            start = Point(_FIRST.x + column * _PITCH[0], _FIRST.y + row * _PITCH[1])
            line = open_shape((Line(start, Point(start.x, start.y + LENGTH)),))
            item = Item(shape=line, stroke=CUT_LINE, width=CUT_LINE_WIDTH, name=name)
            others.append(_figure(name, item, said.test_line(LENGTH), layer.says))
    return (*others, *edge)


def _figure(layer: str, item: Item, figure: Message, says: Message) -> Figure:
    return Figure(layer=layer, item=item, figure=figure, says=says)


def _piece() -> Contour:
    return polygon(
        [
            Point(0.0, 0.0),
            Point(WIDTH, 0.0),
            Point(WIDTH, HEIGHT - CORNER),
            Point(WIDTH - CORNER, HEIGHT),
            Point(0.0, HEIGHT),
        ],
        [0.0] * 5,
    )


def _closed(contour: Contour) -> Item:
    return Item(shape=shape_of(contour), stroke=CUT_LINE, width=CUT_LINE_WIDTH)


def cut_test(machine: Machine) -> Drawing:
    """The test file as a drawing: the machine's profile is applied as it is written."""
    trim = Box(0.0, 0.0, WIDTH, HEIGHT)
    text = sayable(str(said.test_lettering(machine.name)))
    strokes = centre_lines(text, Point(0.0, HEIGHT + NOTE_HEIGHT), NOTE_HEIGHT)
    note = Item(shape=strokes, stroke=NOTE_LINE, width=NOTE_HEIGHT / 10, label=text, name=NOTE)
    layers = [Layer(name=figure.layer, items=(figure.item,)) for figure in figures()]
    return Drawing(
        title=str(said.test_title(machine.name)),
        note=str(said.test_note()),
        page=trim.union(bounds(strokes)).grown(NOTE_HEIGHT),
        trim=trim,
        layers=(*layers, Layer(name=NOTES, items=(note,))),
    )
