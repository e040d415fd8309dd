"""The finished panel: coat, openings, ink, and the hardware ghosted over it so that nothing hides."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from panelart.catalogue.laws import travelled
from panelart.checks.shadows import Look, casters
from panelart.checks.survey import Survey
from panelart.drawing.artwork import background_items, ink_items
from panelart.drawing.cutlayer import noted
from panelart.drawing.layers import BACKGROUND, CUTOUTS, OUTLINE, PARTS, ground_of, legend_layer
from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.drawing.scaling import Scaling
from panelart.geometry import Line, Point, circle, direction
from panelart.lettering.outline import open_shape, shape_of
from panelart.marking.areas import area_of, contour_area, loops_of, mark_area
from panelart.marking.overlay import overlay_area
from panelart.marking.separation import InkPlate, Separations, separations
from panelart.messages import sheets as said
from panelart.model.component import Role
from panelart.model.layout import Layout, PlacedEnvelope, TurningDial
from panelart.model.light import lightness
from panelart.model.panel import Carrier, Part, Place, Scale, Side
from panelart.sheets.grounds import shape_of_ground

MARGIN = 4.0
"""Paper round the panel's own picture, mm."""

DARK = Paint(colour="#14171A")
HARDWARE = Paint(colour="#A9B0B7", opacity=0.42)
HARDWARE_EDGE = Paint(colour="#DDE2E6", opacity=0.75)
KNOB = Paint(colour="#40464D", opacity=0.72)
RIM_EDGE = Paint(colour="#8A9299")
CURSOR = Paint(colour="#E5533D")
KNOB_EDGE = Paint(colour="#C6CCD2", opacity=0.8)
SIDE = Paint(colour="#5A6068")
TOP = Paint(colour="#7B828B")
ONE_EYE = Paint(colour="#5A6068", opacity=0.45)
TRAVEL = Paint(colour="#8F979F", opacity=0.9)


def looked_at(survey: Survey, look: Look) -> tuple[Layer, ...]:
    """The face with what stands before it from a place of the eyes: what one eye sees past is half clear.

    Levers and sliding caps are drawn in one of their positions; tops are lighter than sides.
    """
    bodies = sorted(casters(survey), key=lambda body: body.height)
    items: list[Item] = []
    for body in bodies:
        each = [body.shadows(eye)[0] for eye in look.eyes]
        one, both = shapely.union_all(each), shapely.intersection_all(each)
        label = str(body.words)
        top = shapely.intersection(body.top(look.eye), both)
        for ground, paint in ((one, ONE_EYE), (both, SIDE), (top, TOP)):
            if ground.area > 0.0:
                items.append(Item(shape=shape_of_ground(ground), fill=paint, label=label))
    return (*_layers(survey.layout, None)[:-1], Layer(name=PARTS, items=tuple(items)))


def picture(layout: Layout, scaling: Scaling, plates: Separations | None = None) -> tuple[Item, ...]:
    """Everything seen from the front, in painting order, brought to scale; `plates` where they are parted already."""
    return tuple(scaling.item(item) for layer in _layers(layout, plates) for item in layer.items)


def _layers(layout: Layout, plates: Separations | None) -> tuple[Layer, ...]:
    """The face, its openings, one layer an ink, the hardware: as they lie over each other."""
    panel = layout.panel
    coat = ground_of(panel)
    face = Item(shape=shape_of(panel.outline), fill=coat, stroke=DARK, width=0.15, label=str(said.panel_face()))
    openings = tuple(
        Item(shape=shape_of(opening.finished), fill=DARK, label=str(said.opening(name=opening.name)))
        for opening in layout.openings
    )
    plates = separations(layout) if plates is None else plates
    under = (*_label_film(layout), *background_items(plates, plated=False))
    inks = [Layer(name=BACKGROUND, items=under)] if under else []
    inks += [Layer(name=legend_layer(plate.ink), items=ink_items(plate, plated=False)) for plate in _as_seen(plates)]
    return (
        Layer(name=OUTLINE, items=(face,)),
        Layer(name=CUTOUTS, items=(*openings, *_behind(layout))),
        *inks,
        Layer(name=PARTS, items=tuple(_in_front(layout))),
    )


def _as_seen(plates: Separations) -> list[InkPlate]:
    """The plates, so that what one spreads into darker inks is under these, as in print; the others as they are."""

    def depth(plate: InkPlate) -> tuple[bool, float]:
        return (True, 0.0) if plate.spread.is_empty else (False, -lightness(plate.ink.colour))

    return sorted(plates.inks, key=depth)


def _behind(layout: Layout) -> Iterator[Item]:
    """What is seen through openings: discs, and the cursors of straight scales."""
    for dial in layout.dials:
        yield from _in_window(dial, ground_of(layout.panel))
    yield from _cursors(layout)


def _in_front(layout: Layout) -> Iterator[Item]:
    """The hardware, and scales on the skirts of knobs."""
    front = [envelope for envelope in layout.envelopes if envelope.side is Side.FRONT and not envelope.over]
    for envelope in sorted(front, key=lambda envelope: envelope.height):
        yield from _ghost(envelope, layout.panel.by_ref[envelope.ref])
    for dial in layout.dials:
        yield from _on_skirt(dial, ground_of(layout.panel))


def _label_film(layout: Layout) -> list[Item]:
    """A label film that is not clear."""
    overlay = layout.panel.marking.printing.overlay
    if overlay is None or not overlay.colour:
        return []
    return [
        Item(
            shape=loops_of(overlay_area(layout, overlay)),
            fill=Paint(colour=overlay.colour),
            label=str(said.label_film()),
        )
    ]


def panel_picture(layout: Layout, plates: Separations | None = None) -> Drawing:
    """The panel alone, 1:1, for a manual, an offer or a screen."""
    panel = layout.panel
    page = panel.outline.bounds.grown(MARGIN)
    return Drawing(
        title=panel.title,
        note=noted(panel, said.appearance_note(panel=panel.title)),
        page=page,
        trim=panel.outline.bounds,
        layers=_layers(layout, plates),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )


def _ghost(envelope: PlacedEnvelope, part: Part) -> list[Item]:
    shape = shape_of(envelope.contour)
    label = str(said.feature_of(feature=envelope.what, owner=envelope.ref))
    if not envelope.covers:
        return [Item(shape=shape, stroke=TRAVEL, width=0.12, dash=(0.9, 0.6), label=label)]
    if envelope.colour:
        return [
            Item(shape=shape, fill=Paint(colour=envelope.colour, opacity=0.88), stroke=DARK, width=0.15, label=label)
        ]
    if envelope.what != "knob":
        return [Item(shape=shape, fill=HARDWARE, stroke=HARDWARE_EDGE, width=0.15, label=label)]
    pointer = _pointer(part)
    if part.scale is not None and part.scale.turning is not None:
        return [Item(shape=shape, fill=KNOB, stroke=KNOB_EDGE, width=0.2, label=label)]
    return [
        Item(shape=shape, fill=KNOB, stroke=KNOB_EDGE, width=0.2, label=label),
        Item(shape=open_shape((pointer,)), stroke=Paint(colour="#F4F6F7", opacity=0.9), width=0.6),
    ]


def _in_window(dial: TurningDial, ground: Paint) -> list[Item]:
    """A disc as it is seen through its window, at the end where its scale begins."""
    if dial.window is None:
        return []
    window = contour_area(dial.window)
    seen = [
        Item(
            shape=loops_of(window),
            fill=ground,
            stroke=RIM_EDGE,
            width=0.15,
            label=str(said.feature_of(feature="disc", owner=dial.ref)),
        )
    ]
    for area, colour in _inked(dial):
        shape = loops_of(area.intersection(window))
        if shape:
            seen.append(Item(shape=shape, fill=Paint(colour=colour)))
    return seen


def _cursors(layout: Layout) -> Iterator[Item]:
    """What moves along straight scales, in the slot beside them, where they begin."""
    for part in layout.panel.parts:
        straight = None if part.scale is None else part.scale.straight
        if part.scale is None or straight is None or straight.cursor is None:
            continue
        for opening in layout.openings:
            if opening.ref != part.ref or opening.role is not Role.APERTURE:
                continue
            box = opening.finished.bounds
            begin = (0.5 - _beginning(part.scale)) * straight.length
            ends = (
                (Point(box.left, part.at.y - begin), Point(box.right, part.at.y - begin))
                if straight.side in (Place.LEFT, Place.RIGHT)
                else (Point(part.at.x - begin, box.bottom), Point(part.at.x - begin, box.top))
            )
            label = str(said.feature_of(feature="cursor", owner=part.ref))
            yield Item(shape=open_shape((Line(*ends),)), stroke=CURSOR, width=straight.cursor, label=label)


def _beginning(scale: Scale) -> float:
    """The share of the travel at which the first value of a scale is."""
    return travelled(scale, scale.high if scale.falling else scale.low)


def _on_skirt(dial: TurningDial, ground: Paint) -> list[Item]:
    """A skirt with its scale, at the end where that begins."""
    if dial.scale.carrier is not Carrier.SKIRT:
        return []
    skirt = Item(shape=shape_of(circle(dial.scale.diameter, dial.at)), fill=ground, stroke=RIM_EDGE, width=0.2)
    grip = Item(shape=shape_of(circle(dial.scale.inner, dial.at)), fill=KNOB, stroke=KNOB_EDGE, width=0.2)
    inked = [Item(shape=loops_of(area), fill=Paint(colour=colour)) for area, colour in _inked(dial)]
    return [skirt, grip, *inked]


def _inked(dial: TurningDial) -> Iterator[tuple[shapely.Geometry, str]]:
    """What the ink of a dial covers, with its colour."""
    for mark in dial.marks:
        yield mark_area(mark), mark.ink.colour
    for legend in dial.legends:
        yield area_of(legend.shape), legend.ink.colour


def _pointer(part: Part) -> Line:
    """The knob's line, shown at the low end of its scale or its first position."""
    angles = [float(position.direction) for position in part.positions if not isinstance(position.direction, str)]
    deg = part.scale.start_deg if part.scale is not None else (angles[0] if angles else 90.0)
    radius = part.knob.diameter / 2 if part.knob is not None else 0.0
    way = direction(deg)

    def at(share: float) -> Point:
        return part.at.moved(way.scaled(radius * share))

    return Line(at(0.55), at(0.94))
