"""The finished panel: coat, openings, ink, and the hardware ghosted over it so that nothing hides."""

from __future__ import annotations

from panelart.drawing.artwork import background_items, ink_items
from panelart.drawing.cutlayer import noted
from panelart.drawing.layers import BACKGROUND, CUTOUTS, OUTLINE, PARTS, legend_layer
from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.drawing.scaling import Scaling
from panelart.geometry import Line, Point, direction
from panelart.lettering.outline import open_shape, shape_of
from panelart.marking.areas import loops_of
from panelart.marking.overlay import overlay_area
from panelart.marking.separation import Separations, separations
from panelart.messages import sheets as said
from panelart.model.layout import Layout, PlacedEnvelope
from panelart.model.panel import Part, Side

MARGIN = 4.0
"""Paper round the panel's own picture, mm."""

BARE_METAL = "#B8BCBF"
DARK = Paint(colour="#14171A")
HARDWARE = Paint(colour="#A9B0B7", opacity=0.42)
HARDWARE_EDGE = Paint(colour="#DDE2E6", opacity=0.75)
KNOB = Paint(colour="#40464D", opacity=0.72)
KNOB_EDGE = Paint(colour="#C6CCD2", opacity=0.8)
TRAVEL = Paint(colour="#8F979F", opacity=0.9)


def picture(layout: Layout, scaling: Scaling, plates: Separations | None = None) -> tuple[Item, ...]:
    """Everything seen from the front, in painting order, brought to scale; `plates` where they are parted already."""
    return tuple(scaling.item(item) for layer in _layers(layout, plates) for item in layer.items)


def _layers(layout: Layout, plates: Separations | None) -> tuple[Layer, ...]:
    """The face, its openings, one layer an ink, the hardware: as they lie over each other."""
    panel = layout.panel
    coat = Paint(colour=panel.coat.colour if panel.coat.kind != "none" else BARE_METAL)
    face = Item(shape=shape_of(panel.outline), fill=coat, stroke=DARK, width=0.15, label=str(said.panel_face()))
    openings = tuple(
        Item(shape=shape_of(opening.finished), fill=DARK, label=str(said.opening(name=opening.name)))
        for opening in layout.openings
    )
    plates = separations(layout) if plates is None else plates
    under = (*_label_film(layout), *background_items(plates, plated=False))
    inks = [Layer(name=BACKGROUND, items=under)] if under else []
    inks += [Layer(name=legend_layer(plate.ink), items=ink_items(plate, plated=False)) for plate in plates.inks]
    front = [envelope for envelope in layout.envelopes if envelope.side is Side.FRONT and not envelope.over]
    hardware = [
        item
        for envelope in sorted(front, key=lambda envelope: envelope.height)
        for item in _ghost(envelope, panel.by_ref[envelope.ref])
    ]
    return (
        Layer(name=OUTLINE, items=(face,)),
        Layer(name=CUTOUTS, items=openings),
        *inks,
        Layer(name=PARTS, items=tuple(hardware)),
    )


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
    return [
        Item(shape=shape, fill=KNOB, stroke=KNOB_EDGE, width=0.2, label=label),
        Item(shape=open_shape((pointer,)), stroke=Paint(colour="#F4F6F7", opacity=0.9), width=0.6),
    ]


def _pointer(part: Part) -> Line:
    """The knob's line, shown at the low end of its scale or its first position."""
    angles = [float(position.direction) for position in part.positions if not isinstance(position.direction, str)]
    deg = part.scale.start_deg if part.scale is not None else (angles[0] if angles else 90.0)
    radius = part.knob.diameter / 2 if part.knob is not None else 0.0
    way = direction(deg)

    def at(share: float) -> Point:
        return part.at.moved(way.scaled(radius * share))

    return Line(at(0.55), at(0.94))
