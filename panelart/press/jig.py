"""The fixture plate that holds a bed's pieces: pockets, pins, notches for the thumb, and the bed's zero, to be cut."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.drawing.layers import CUT_LINE, CUT_LINE_WIDTH, NOTES, OUTLINE
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import Arc, Box, Contour, Line, Point, Segment, Transform, circle, joined, offset, rectangle
from panelart.lettering.outline import bounds, shape_of
from panelart.messages import Said
from panelart.messages import press as said
from panelart.messages import press_pieces as pieces
from panelart.press.bed import Kind, Nest
from panelart.press.bed_marks import lines_below, number_mark, origin_mark, top_arrow

POCKETS: Final = "pockets"
PINS: Final = "pins"

PIN_LINE: Final = Paint(colour="#1F6FB5", plate="pins")

PIN_SHARE: Final = 0.2
"""How far from the ends of an edge its two pins stand, as a share of the edge: wide apart, clear of the corners."""

_SMOOTH: Final = 1e-3
"""Sine of the angle between two pieces of an outline below which they run on smoothly."""

NOTCH_HALF: Final = 10.0
WALL: Final = 3.0
"""Half the width of a thumb notch, and the least wall that is left between two that face each other, mm."""


class Pocket(Struct, frozen=True, kw_only=True):
    """How the pocket of one kind is made, mm.

    `corner` is the radius of the finished panel; the pocket is `clearance` larger all round. `cutter` is the diameter
    of the tool: a corner that it cannot reach into is relieved. `pin` is the diameter of the pins, 0 for none.
    `odd` is the finished outline of a panel that is no rectangle: its pocket follows it and locates it without pins.
    """

    corner: float
    clearance: float
    cutter: float = 3.0
    pin: float = 4.0
    odd: Contour | None = None


def jig(nested: Nest, number: int, pockets: tuple[Pocket, ...], gap: float, told: Sequence[Said] = ()) -> Drawing:
    """The plate for one arrangement of a nest, seen from above with the bed's zero at the lower left.

    What is `told` of its pieces stands below the plate.
    """
    spots = nested.jigs[number]
    cuts: list[Item] = []
    pins: list[Item] = []
    notes: list[Item] = []
    depth = max(gap / 2 - WALL / 2 - max(pocket.clearance for pocket in pockets), 0.0)
    for place, spot in enumerate(spots, 1):
        kind, pocket = nested.kinds[spot.kind], pockets[spot.kind]
        move = Transform(*spot.map(kind).matrix)
        contour = pocket_contour(kind, pocket, depth).transformed(move)
        label = str(said.pocket(pocket=place, name=kind.name, clearance=pocket.clearance))
        cuts.append(Item(shape=shape_of(contour), stroke=CUT_LINE, width=CUT_LINE_WIDTH, label=label))
        for relief in reliefs(pocket):
            label = str(said.corner_relief(pocket=place))
            shape = shape_of(relief.transformed(move))
            cuts.append(Item(shape=shape, stroke=CUT_LINE, width=CUT_LINE_WIDTH, label=label))
        for pin in pin_places(kind, pocket):
            hole = circle(pocket.pin, move.apply(pin))
            label = str(said.pin_hole(pocket=place))
            pins.append(Item(shape=shape_of(hole), stroke=PIN_LINE, width=CUT_LINE_WIDTH, label=label))
        notes += [*number_mark(str(place), spot.box(kind), gap), top_arrow(spot, kind, place)]
    notes += origin_mark(nested.bed)
    bed = nested.bed
    lines = lines_below(told, bed)
    notes += lines
    plate = Item(
        shape=shape_of(rectangle(bed.width, bed.height, bed.centre)),
        stroke=CUT_LINE,
        width=CUT_LINE_WIDTH,
        label=str(said.jig_plate()),
        name="outline",
    )
    layers = [
        Layer(name=POCKETS, items=tuple(cuts), step=Step.CUTTING),
        Layer(name=OUTLINE, items=(plate,), step=Step.CUTTING),
        Layer(name=NOTES, items=tuple(notes), step=Step.LEGEND),
    ]
    if pins:
        layers.insert(1, Layer(name=PINS, items=tuple(pins)))
    return Drawing(
        title=str(said.jig_title(jig=number + 1, bed=(bed.width, bed.height))),
        note=" ".join(map(str, (said.jig_note(), said.jig_work_note(), said.jig_arrow_note()))),
        page=bed.union(Box.around([bed, *(bounds(line.shape) for line in lines)])).grown(5.0),
        trim=bed,
        layers=tuple(layers),
    )


def pocket_contour(kind: Kind, pocket: Pocket, notch: float) -> Contour:
    """The pocket in the panel's frame: the finished outline grown by the clearance, notches on the right and on top.

    That of an odd outline has no notches. Raises ValueError where the outline has a notch narrower than the clearance.
    """
    if pocket.odd is not None:
        grown = offset(pocket.odd, pocket.clearance)
        if len(grown) != 1:
            raise ValueError(pieces.clearance_closes_notch(name=kind.name, clearance=pocket.clearance))
        return grown[0]
    wide, high = kind.width, kind.height
    box = Box(0.0, 0.0, wide, high).grown(pocket.clearance)
    radius = pocket.corner + pocket.clearance if pocket.corner > 0.0 else 0.0
    tool = pocket.cutter / 2
    segments: list[Segment] = []
    corners = box.corners
    for number in range(4):
        start, end = corners[number], corners[(number + 1) % 4]
        along = end.minus(start).unit
        turn = along.perpendicular
        relieved = radius < tool
        lost = tool * math.sqrt(2.0) if relieved else radius
        first, last = start.moved(along.scaled(lost)), end.moved(along.scaled(-lost))
        half = min(NOTCH_HALF, first.distance(last) / 4)
        if notch > 0.5 and number in (1, 2):
            segments += _notched(first, last, half, min(notch, half))
        else:
            segments.append(Line(first, last))
        if relieved:
            centre = end.moved(turn.plus(along.scaled(-1.0)).scaled(tool / math.sqrt(2.0)))
            segments.append(Arc(centre, tool, _deg(last, centre), 180.0))
        elif radius > 0.0:
            segments.append(Arc(last.moved(turn.scaled(radius)), radius, along.deg - 90.0, 90.0))
    return joined(segments)


def reliefs(pocket: Pocket) -> tuple[Contour, ...]:
    """Holes of the tool's size in the corners of an odd outline that the tool cannot reach into."""
    if pocket.odd is None or pocket.cutter <= 0.0:
        return ()
    segments = pocket.odd.ccw().segments
    corners = [
        before.end
        for before, after in zip(segments, (*segments[1:], segments[0]), strict=True)
        if before.tangent_at(1.0).cross(after.tangent_at(0.0)) > _SMOOTH
    ]
    return tuple(circle(pocket.cutter, corner) for corner in corners)


def pin_places(kind: Kind, pocket: Pocket) -> tuple[Point, ...]:
    """Middles of the pins in the panel's frame: two below, one at the left, against the edges of the datum corner."""
    if pocket.pin <= 0.0 or pocket.odd is not None:
        return ()
    out = -pocket.pin / 2
    return (
        Point(PIN_SHARE * kind.width, out),
        Point((1.0 - PIN_SHARE) * kind.width, out),
        Point(out, kind.height / 2),
    )


def _notched(first: Point, last: Point, half: float, depth: float) -> list[Segment]:
    """A straight edge with an arc outwards in its middle."""
    along, middle = last.minus(first).unit, first.middle(last)
    radius = (half * half + depth * depth) / (2 * depth)
    start, end = middle.moved(along.scaled(-half)), middle.moved(along.scaled(half))
    centre = middle.moved(along.perpendicular.scaled(radius - depth))
    sweep = 2 * math.degrees(math.asin(min(half / radius, 1.0)))
    return [Line(first, start), Arc(centre, radius, _deg(start, centre), sweep), Line(end, last)]


def _deg(point: Point, centre: Point) -> float:
    return point.minus(centre).deg
