"""The key to the lines and marks of drawings of parts."""

from __future__ import annotations

from collections.abc import Callable

from panelart.drawing.representation import Item
from panelart.figure import Known
from panelart.geometry import Box, Point, Vector, rectangle
from panelart.lettering.outline import shape_of
from panelart.messages import Message
from panelart.messages import sheets_catalogue as said
from panelart.sheets.paper import BLACK, FINE, GREY, rule, width_of, words
from panelart.sheets.part_picture import (
    FRONT,
    FRONT_EDGE,
    FRONT_WIDTH,
    OPENING_WIDTH,
    REAR_DASH,
    TRAVEL_DASH,
    standing_mark,
)

HEIGHT = 1.6
"""Cap height of its words, mm."""


def line_key(at: Point) -> list[Item]:
    """Samples of the lines and marks with what they mean, side by side; the words begin on a base line at a point."""
    items: list[Item] = []
    x, middle = at.x, at.y + HEIGHT / 2
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
        items += sample(Point(x, middle))
        items.append(words(text, Point(x + 7.2, at.y), height=HEIGHT).item)
        x += 7.2 + width_of(text, HEIGHT) + 4.5
    return items


def front_box(box: Box) -> Item:
    """What lies in front of the face, in its own paint."""
    return Item(shape=shape_of(rectangle(box.width, box.height, box.centre)), fill=FRONT, stroke=FRONT_EDGE, width=0.18)


def _stroke(left: Point, width: float, dash: tuple[float, ...] = ()) -> Item:
    return rule(left, left.moved(Vector(6.0, 0.0)), width=width, paint=GREY if dash else BLACK, dash=dash)
