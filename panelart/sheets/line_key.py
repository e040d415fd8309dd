"""The key to the lines and marks of drawings of parts."""

from __future__ import annotations

from collections.abc import Callable

from panelart.drawing.representation import Item
from panelart.figure import Known
from panelart.geometry import Box, Point, Vector, rectangle
from panelart.lettering.outline import shape_of
from panelart.messages import Message
from panelart.messages import sheets_catalogue as said
from panelart.sheets.paper import BLACK, FINE, GREY, LINE_PITCH, TEXT, rule, width_of, words
from panelart.sheets.part_picture import (
    FRONT,
    FRONT_EDGE,
    FRONT_WIDTH,
    OPENING_WIDTH,
    REAR_DASH,
    TRAVEL_DASH,
    standing_mark,
)

SAMPLE = 7.2
BETWEEN = 5.0
"""Width of a sample with the white behind it, and white behind its words, mm."""

PITCH = TEXT * LINE_PITCH


def line_key(top_left: Point, width: float) -> tuple[list[Item], float]:
    """Samples of the lines and marks with what they mean, in as many lines as a width takes; and how high they are."""
    items: list[Item] = []
    x, base = top_left.x, top_left.y - TEXT
    drawn: tuple[tuple[Message, Callable[[Point], list[Item]]], ...] = (
        (said.key_opening(), lambda left: [_stroke(left, OPENING_WIDTH)]),
        (said.key_front(), lambda left: [front_box(Box(left.x, left.y - 0.9, left.x + 6.0, left.y + 0.9))]),
        (said.key_travel(), lambda left: [_stroke(left, FINE, TRAVEL_DASH)]),
        (said.key_behind(), lambda left: [_stroke(left, FRONT_WIDTH, REAR_DASH)]),
        (said.looked_up(), lambda left: standing_mark(Known.LOOKED_UP, left.moved(Vector(5.0, 0.0)))),
        (said.typical(), lambda left: standing_mark(Known.TYPICAL, left.moved(Vector(5.0, 0.0)))),
        (said.from_memory(), lambda left: standing_mark(Known.MEMORY, left.moved(Vector(5.0, 0.0)))),
    )
    for text, sample in drawn:
        wide = SAMPLE + width_of(text)
        if x > top_left.x and x + wide > top_left.x + width:
            x, base = top_left.x, base - PITCH
        items += sample(Point(x, base + TEXT / 2))
        items.append(words(text, Point(x + SAMPLE, base)).item)
        x += wide + BETWEEN
    return items, top_left.y - base


def front_box(box: Box) -> Item:
    """What lies in front of the face, in its own paint."""
    return Item(shape=shape_of(rectangle(box.width, box.height, box.centre)), fill=FRONT, stroke=FRONT_EDGE, width=0.18)


def _stroke(left: Point, width: float, dash: tuple[float, ...] = ()) -> Item:
    return rule(left, left.moved(Vector(6.0, 0.0)), width=width, paint=GREY if dash else BLACK, dash=dash)
