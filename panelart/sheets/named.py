"""Names beside the features of a drawing: clear of each other and of what else is drawn, led in where it is crowded."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.drawing.representation import Item, Paint
from panelart.geometry import Box, Point, Vector, direction
from panelart.lettering.look import Align
from panelart.messages import Said
from panelart.sheets.paper import BLACK, FINE, TEXT, Words, rule, width_of, words

BESIDE: Final = 0.6
"""White between a feature and its name, mm on paper."""

CLEAR: Final = 0.4
"""White between two names, mm on paper."""

RINGS: Final = 7
RING: Final = 4.0
"""How often a name is moved further out, and by how much, before it may lie on something, mm on paper."""

DIRECTIONS: Final = (45, 315, 135, 225, 90, 270, 0, 180, 20, 70, 340, 290, 160, 110, 200, 250)
"""Where a name is looked for, degrees: to the upper right first, where names are looked up."""


STRAIGHT: Final = (90, 270, 0, 180)
LARGE: Final = 4 * TEXT
"""A round feature that is larger, mm on paper, has its name above, below or beside it, else at its rim."""

CORNER: Final = math.sqrt(0.5)
"""Where a circle is nearest to the corners of its box, in radii across and up."""

ROOMY: Final = 1.3
"""How many times a feature is larger than a name that stands in it."""


class Named(Struct, frozen=True, kw_only=True):
    """A feature by its box on the paper, and what is written beside it; what is round is not in the box's corners."""

    box: Box
    name: Said
    round: bool = False


def names_beside(
    features: Sequence[Named],
    *,
    within: Box,
    drawn: Sequence[Box] = (),
    paint: Paint = BLACK,
    bold: bool = True,
) -> tuple[list[Item], bool]:
    """The names in or beside their features, leader lines to those that stand off, and whether any does.

    Those of small features go first.

    No name lies on another, on a feature or on what is `drawn` where there is a place for it; names outside `within`
    are the next best, and only then may one lie on something that is drawn.
    """
    items: list[Item] = []
    crowded = False
    taken: list[Box] = []
    reach = RINGS * RING + 20.0
    solid = [*drawn, *(feature.box for feature in features)]
    for feature in sorted(features, key=lambda one: one.box.width * one.box.height):
        around = feature.box.grown(reach + width_of(feature.name, bold=bold))
        near = [box for box in solid if box != feature.box and box.overlaps(around)]
        others = [box for box in taken if box.overlaps(around)]
        chosen, away = _place(feature, near, others, within, bold=bold, paint=paint)
        taken.append(chosen.box.grown(CLEAR))
        items.append(chosen.item)
        if away:
            crowded = True
            line = _leader(feature.box, chosen.box)
            items.append(rule(*line, width=FINE, paint=paint))
            taken.append(Box.around(line).grown(FINE))
    return items, crowded


def _place(
    feature: Named, near: Sequence[Box], others: Sequence[Box], within: Box, *, bold: bool, paint: Paint
) -> tuple[Words, bool]:
    """The nearest free place and whether it needs a leader; the first of all where none is free."""
    spare: list[tuple[Words, bool]] = []
    first: tuple[Words, bool] | None = None
    wide = width_of(feature.name, bold=bold)
    for ring, at, align in _places(feature, wide):
        left = {Align.LEFT: at.x, Align.CENTRE: at.x - wide / 2, Align.RIGHT: at.x - wide}[align]
        box = Box(left, at.y - TEXT * 0.3, left + wide, at.y + TEXT)
        if any(box.overlaps(other) for other in others):
            continue
        made = words(feature.name, at, bold=bold, align=align, paint=paint), ring > 0
        first = first or made
        if any(box.overlaps(other) for other in near):
            continue
        if within.contains(box):
            return made
        spare.append(made)
    fallback = Point(feature.box.right + BESIDE, feature.box.top + BESIDE)
    return next(iter(spare), first or (words(feature.name, fallback, bold=bold, paint=paint), False))


def _places(feature: Named, wide: float) -> Iterator[tuple[int, Point, Align]]:
    """Where the base line of a name may begin, end or have its middle: in the feature, then nearest first."""
    box = feature.box
    if box.width >= wide * ROOMY and box.height >= TEXT * 2 * ROOMY:
        yield 0, Point(box.centre.x, box.centre.y - TEXT / 2), Align.CENTRE
    if feature.round:
        yield from ((0, at, align) for at, align in _at_rim(box))
    directions = STRAIGHT if feature.round and box.width > LARGE else DIRECTIONS
    for ring in range(RINGS + 1):
        for deg in directions:
            yield ring, *_towards(box, direction(deg), BESIDE + ring * RING)


def _at_rim(box: Box) -> Iterator[tuple[Point, Align]]:
    """Beside a circle where it is nearest to the corners of its box."""
    middle, rim = box.centre, CORNER * box.width / 2 + BESIDE
    for x, align in ((rim, Align.LEFT), (-rim, Align.RIGHT)):
        for y in (rim, -rim - TEXT):
            yield Point(middle.x + x, middle.y + y), align


def _towards(box: Box, way: Vector, out: float) -> tuple[Point, Align]:
    """Off a box in a direction."""
    middle = box.centre
    x, align = middle.x, Align.CENTRE
    if way.x > SIDE:
        x, align = box.right + out * way.x, Align.LEFT
    elif way.x < -SIDE:
        x, align = box.left + out * way.x, Align.RIGHT
    y = middle.y - TEXT / 2
    if way.y > SIDE:
        y = box.top + out * way.y
    elif way.y < -SIDE:
        y = box.bottom + out * way.y - TEXT
    return Point(x, y), align


SIDE: Final = 0.01
"""From where on a direction counts as sideways, or as up and down."""


def _leader(feature: Box, name: Box) -> tuple[Point, Point]:
    """From the nearest point of a name to its feature."""
    start = Point(min(max(feature.centre.x, name.left), name.right), min(max(feature.centre.y, name.bottom), name.top))
    end = Point(min(max(start.x, feature.left), feature.right), min(max(start.y, feature.bottom), feature.top))
    return start, end
