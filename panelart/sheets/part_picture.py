"""One part of the catalogue as a drawing: openings, what hides the face, what lies behind it, main dimensions."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue import to_measure
from panelart.cutouts.describe import Size, size_of
from panelart.cutouts.envelopes import CABLE, cable_room
from panelart.drawing.layers import DIMENSIONS, NOTES, PARTS
from panelart.drawing.representation import Item, Layer, Paint, Step
from panelart.drawing.scaling import Scaling
from panelart.figure import Known
from panelart.geometry import Arc, Box, Line, Point, circle, direction
from panelart.lettering.outline import Loop, Shape, open_shape, shape_of
from panelart.messages import Message
from panelart.messages import sheets as common
from panelart.messages import sheets_catalogue as said
from panelart.model.component import Component, Envelope, EnvelopeRole, Opening, Role
from panelart.sheets.measure import across, extent, figure, leader, upright
from panelart.sheets.paper import BLACK, FINE, GREY, TEXT, WHITE

FRONT = Paint(colour="#E6EAED")
FRONT_EDGE = Paint(colour="#A9B1B8")
RAISED = Paint(colour="#F8F9FA")
RECESSED = Paint(colour="#C3CAD1")
DETAIL_EDGE = Paint(colour="#7C858D")
"""Contacts, lenses and pins; slots, sockets and windows; the lines round both."""

SMALLEST: Final = 0.4
"""A detail that is smaller than this on paper is a blot, and left out, mm."""

OPENING_WIDTH: Final = 0.35
FRONT_WIDTH: Final = 0.18
REAR_DASH: Final = (1.1, 0.6)
TRAVEL_DASH: Final = (0.35, 0.45)
CENTRE_DASH: Final = (2.2, 0.5, 0.5, 0.5)

PATTERN: Final = 4
"""A part with more openings than this that are no fixings is a pattern, measured over all."""

AWAY: Final = 3.6
"""From the outline to a dimension line, mm on paper."""


class PartPicture(Struct, frozen=True, kw_only=True):
    """What is drawn, and the box that it takes, both in paper mm."""

    items: tuple[Item, ...]
    box: Box

    def moved(self, to: Point) -> PartPicture:
        """The picture with the middle of its box at a point."""
        shift = Scaling(1.0, Point(to.x - self.box.centre.x, to.y - self.box.centre.y))
        return PartPicture(items=tuple(shift.item(item) for item in self.items), box=shift.box(self.box))


def sheet_layers(items: Mapping[str, Sequence[Item]]) -> tuple[Layer, ...]:
    """The layers of a page of parts, as they lie over each other."""
    return tuple(
        Layer(name=name, items=tuple(items[name]), step=Step.DIMENSIONS if name == DIMENSIONS else None)
        for name in (PARTS, DIMENSIONS, NOTES)
        if name in items
    )


def part_picture(part: Component, scale: float) -> PartPicture:
    """The part seen from the front, its own centre at (0, 0), at a scale (paper over real)."""
    scaling = Scaling(scale, Point(0.0, 0.0))
    items = outlines(part, scaling)
    solid = extent(items)
    items += _cross(part, scaling)
    items += _dimensions(part, scaling, solid)
    return PartPicture(items=tuple(items), box=extent(items).union(solid))


def bounds_of(part: Component) -> Box:
    """The bounds of all that is drawn of a part, from the front, real mm."""
    contours = [shape.contour for shape in part.openings]
    contours += [shape.contour for shape in (*part.front, *part.rear)]
    swept = [circle(envelope.sweeps).bounds for envelope in part.front if envelope.sweeps]
    cables = [cable_room(envelope).bounds for envelope in part.front if envelope.cable_way]
    return Box.around([*(contour.bounds for contour in contours), *swept, *cables])


def outlines(part: Component, scaling: Scaling) -> list[Item]:
    """Front envelopes lighter with what is seen on them, rear envelopes dashed, openings in strong lines over all."""
    holes = [scaling.shape(shape_of(opening.contour)) for opening in part.openings]
    rising = sorted(part.front, key=lambda envelope: envelope.height)
    items = [_front(envelope, scaling, part) for envelope in rising if envelope.covers]
    items += [Item(shape=hole, fill=WHITE) for hole in holes]
    items += _details(part, scaling)
    items += _actuator_edges(rising, scaling)
    items += [_front(envelope, scaling, part) for envelope in rising if not envelope.covers]
    items += _travel(part, scaling)
    items += [_behind(envelope, scaling, part) for envelope in part.rear]
    for opening, hole in zip(part.openings, holes, strict=True):
        items += _cut(opening, hole, scaling, part)
    return items


def _actuator_edges(rising: Iterable[Envelope], scaling: Scaling) -> Iterator[Item]:
    """The edges of levers and caps again, which what is seen on them has drawn over."""
    for envelope in rising:
        if envelope.covers and envelope.role is EnvelopeRole.ACTUATOR:
            yield Item(shape=scaling.shape(shape_of(envelope.contour)), stroke=FRONT_EDGE, width=FRONT_WIDTH)


def _behind(envelope: Envelope, scaling: Scaling, part: Component) -> Item:
    return Item(
        shape=scaling.shape(shape_of(envelope.contour)),
        stroke=GREY,
        width=FRONT_WIDTH,
        dash=REAR_DASH,
        label=str(common.feature_behind(feature=envelope.what, part=part.name)),
    )


def _cut(opening: Opening, hole: Shape, scaling: Scaling, part: Component) -> Iterator[Item]:
    """The strong line of an opening, and the fine one of its countersink."""
    label = str(common.opening_of_part(part=part.name, role=opening.role.value))
    yield Item(shape=hole, stroke=BLACK, width=OPENING_WIDTH, label=label)
    if opening.countersink is not None:
        cone = circle(opening.countersink.diameter, size_of(opening.contour).centre)
        yield Item(shape=scaling.shape(shape_of(cone)), stroke=BLACK, width=FINE)


def _travel(part: Component, scaling: Scaling) -> Iterator[Item]:
    """Where handles turn and where cables bend, over what stands in front."""
    yield from (_swept(envelope, scaling, part) for envelope in part.front if envelope.sweeps)
    yield from (_swept_by_cable(envelope, scaling, part) for envelope in part.front if envelope.cable_way)


def _swept(envelope: Envelope, scaling: Scaling, part: Component) -> Item:
    """The circle that a handle describes as it turns."""
    label = str(common.feature_in_front(feature=envelope.what, part=part.name))
    path = scaling.shape(shape_of(circle(envelope.sweeps)))
    return Item(shape=path, stroke=GREY, width=FINE, dash=TRAVEL_DASH, label=label)


def _swept_by_cable(envelope: Envelope, scaling: Scaling, part: Component) -> Item:
    """Where the cable of a plug bends that leaves sideways."""
    label = str(common.feature_in_front(feature=CABLE, part=part.name))
    path = scaling.shape(shape_of(cable_room(envelope)))
    return Item(shape=path, stroke=GREY, width=FINE, dash=TRAVEL_DASH, label=label)


def _details(part: Component, scaling: Scaling) -> Iterator[Item]:
    """What one knows the part by: the larger first, so that pins lie in their socket."""
    if part.look is None:
        return
    for detail in sorted(part.look.details, key=lambda one: -abs(one.contour.area)):
        box = scaling.box(detail.contour.bounds)
        if max(box.width, box.height) < SMALLEST:
            continue
        yield Item(
            shape=scaling.shape(shape_of(detail.contour)),
            fill=RECESSED if detail.recessed else RAISED,
            stroke=DETAIL_EDGE,
            width=FINE,
            label=str(common.feature_in_front(feature=detail.what, part=part.name)),
        )


def _front(envelope: Envelope, scaling: Scaling, part: Component) -> Item:
    shape = scaling.shape(shape_of(envelope.contour))
    label = str(common.feature_in_front(feature=envelope.what, part=part.name))
    if not envelope.covers:
        return Item(shape=shape, stroke=GREY, width=FINE, dash=TRAVEL_DASH, label=label)
    return Item(shape=shape, fill=FRONT, stroke=FRONT_EDGE, width=FRONT_WIDTH, label=label)


def _cross(part: Component, scaling: Scaling) -> list[Item]:
    """Centre lines through the openings as a whole, or through the part where it has none."""
    box = scaling.box(Box.around(one.contour.bounds for one in part.openings or part.front or part.rear))
    at, over = scaling.origin, 1.4
    lines = (
        Line(Point(min(box.left, at.x) - over, at.y), Point(max(box.right, at.x) + over, at.y)),
        Line(Point(at.x, min(box.bottom, at.y) - over), Point(at.x, max(box.top, at.y) + over)),
    )
    return [Item(shape=open_shape((line,)), stroke=GREY, width=FINE, dash=CENTRE_DASH) for line in lines]


def _dimensions(part: Component, scaling: Scaling, solid: Box) -> list[Item]:
    """The main opening's size, and the pitch of the holes that fix the part."""
    if not part.openings:
        return []
    if sum(opening.role is not Role.FIXING for opening in part.openings) > PATTERN:
        return _overall(part, scaling, solid)
    items: list[Item] = []
    main = main_opening(part)
    size = size_of(main.contour)
    if size.diameter is not None:
        items += _round(size, scaling, solid)
    else:
        items += _sides(main, scaling, solid)
    items += _pitches(part, scaling, solid)
    return items


def main_opening(part: Component) -> Opening:
    """The largest opening that is no hole for a screw, else the largest; of several the one above right.

    The part must have one.
    """

    def rank(one: Opening) -> tuple[bool, float, float]:
        middle = one.contour.bounds.centre
        return one.role is not Role.FIXING, round(abs(one.contour.area), 6), round(middle.x + middle.y, 6)

    return max(part.openings, key=rank)


def _round(size: Size, scaling: Scaling, solid: Box) -> list[Item]:
    assert size.diameter is not None
    deg = 45.0
    centre = scaling.point(size.centre)
    rim = centre.moved(direction(deg).scaled(size.diameter / 2 * scaling.scale))
    # As long as it takes for the figure to stand clear of what surrounds the hole.
    out = max(2.5, min(solid.right + 1.0 - rim.x, solid.top + 1.5 - rim.y) / math.cos(math.radians(deg)))
    return leader(rim, deg, out, size_in_short(size))


def _sides(main: Opening, scaling: Scaling, solid: Box) -> list[Item]:
    real = main.contour.bounds
    box = scaling.box(real)
    items = across(
        Point(box.left, box.bottom), Point(box.right, box.bottom), solid.bottom - AWAY - TEXT, figure(real.width)
    )
    items += upright(Point(box.right, box.bottom), Point(box.right, box.top), solid.right + AWAY, figure(real.height))
    return items


def _overall(part: Component, scaling: Scaling, solid: Box) -> list[Item]:
    """A pattern over all, and the size of its commonest opening."""
    real = Box.around(one.contour.bounds for one in part.openings)
    box = scaling.box(real)
    items = across(
        Point(box.left, box.bottom), Point(box.right, box.bottom), solid.bottom - AWAY - TEXT, figure(real.width)
    )
    items += upright(Point(box.right, box.bottom), Point(box.right, box.top), solid.right + AWAY, figure(real.height))
    return items


def _pitches(part: Component, scaling: Scaling, solid: Box) -> list[Item]:
    """Distances between the middles of the fixings farthest apart, over the part and left of it."""
    middles = [size_of(one.contour).centre for one in part.openings if one.role is Role.FIXING]
    if len(middles) < 2:
        return []
    items: list[Item] = []
    reach = Box.around(middles)
    if reach.width > 0.01:
        top = max(scaling.point(point).y for point in middles)
        first, last = (Point(scaling.point(Point(x, 0.0)).x, top) for x in (reach.left, reach.right))
        items += across(first, last, solid.top + AWAY, figure(reach.width))
    if reach.height > 0.01:
        edge = min(scaling.point(point).x for point in middles)
        first, last = (Point(edge, scaling.point(Point(0.0, y)).y) for y in (reach.bottom, reach.top))
        items += upright(first, last, solid.left - AWAY, figure(reach.height))
    return items


def size_in_short(size: Size) -> Message:
    """A round's diameter, with the size across its flats or over its key; else both sides."""
    if size.diameter is None:
        return said.sides_in_short(width=figure(size.width), height=figure(size.height))
    if size.across is None:
        return said.round_in_short(diameter=figure(size.diameter))
    return said.round_across(diameter=figure(size.diameter), across=figure(size.across))


def standing(part: Component) -> Known:
    """The weakest standing of the figures that its holes are cut by: memory, then typical, else looked-up."""
    known = {one.known for one in to_measure(part)}
    return next((one for one in (Known.MEMORY, Known.TYPICAL) if one in known), Known.LOOKED_UP)


def standing_mark(known: Known, at: Point, diameter: float = 1.7) -> list[Item]:
    """A disc: full for figures read in a source, half for typical ones, empty for recalled ones."""
    ring = Item(shape=shape_of(circle(diameter, at)), fill=WHITE, stroke=BLACK, width=0.2)
    if known is Known.MEMORY:
        return [ring]
    if known is Known.TYPICAL:
        half = Arc(at, diameter / 2, 90.0, 180.0)
        return [ring, Item(shape=(Loop((half, Line(half.end, half.start))),), fill=BLACK)]
    return [replace(ring, fill=BLACK)]
