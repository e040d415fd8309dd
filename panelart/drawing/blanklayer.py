"""The blank: what is cut before it is bent, with the lines it is bent on, seen from the front."""

from __future__ import annotations

from panelart.cutouts.describe import allowance
from panelart.drawing.cutlayer import CONE_LINE, cone_label, note_beside, noted, paper_round
from panelart.drawing.layers import (
    BENDS,
    BENDS_FORWARD,
    COUNTERSINKS,
    COUNTERSINKS_REAR,
    CUT_LINE,
    CUT_LINE_WIDTH,
    CUTOUTS,
    NOTES,
    OUTLINE,
)
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import Line, circle
from panelart.lettering.outline import open_shape, shape_of
from panelart.messages import Message
from panelart.messages import drawing as said
from panelart.model.layout import BendLine, Blank, Layout
from panelart.model.panel import Side

BEND_LINE = Paint(colour="#0B7A75", plate="bend")


def blank_layer(layout: Layout, blank: Blank) -> Drawing:
    """Outline, openings, countersinks and bends of the flat blank, 1:1, its lower-left corner at (0, 0)."""
    panel = layout.panel
    trim = blank.outline.bounds
    holes = tuple(
        Item(
            shape=shape_of(hole.cut),
            stroke=CUT_LINE,
            width=CUT_LINE_WIDTH,
            label=str(said.opening_in(name=hole.name, surface=hole.on)),
            name=hole.name,
        )
        for hole in blank.holes
    )
    outline = Item(
        shape=shape_of(blank.outline),
        stroke=CUT_LINE,
        width=CUT_LINE_WIDTH,
        label=str(said.outline_of_blank()),
        name="blank",
    )
    note = note_beside(panel, trim.left, trim.top, said.note_blank(), said.note_bend_lines())
    return Drawing(
        title=str(said.blank_title(panel=panel.title)),
        note=noted(panel, said.blank_note(), allowance(panel.coat), said.no_kerf(), said.bend_lines_note()),
        page=paper_round(trim, note),
        trim=trim,
        layers=(
            Layer(name=CUTOUTS, items=holes, step=Step.CUTTING),
            *_cones(blank),
            *_bends(blank),
            Layer(name=OUTLINE, items=(outline,), step=Step.CUTTING),
            Layer(name=NOTES, items=(note,), step=Step.LEGEND),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
        datum=panel.datum.moved(blank.shift),
    )


def bend_words(bend: BendLine) -> Message:
    """A bend as the brake operator is told it."""
    return said.bend(
        step=bend.step, name=bend.name, angle=bend.angle, direction=bend_direction(bend), radius=bend.radius
    )


def bend_in_short(bend: BendLine) -> Message:
    """Its step and its name alone."""
    return said.bend_in_short(step=bend.step, name=bend.name)


def bend_direction(bend: BendLine) -> Message:
    """Up towards the viewer of the front, or down."""
    return said.up() if bend.forward else said.down()


def _bends(blank: Blank) -> list[Layer]:
    layers: list[Layer] = []
    for name, forward in ((BENDS, False), (BENDS_FORWARD, True)):
        items = tuple(
            Item(
                shape=open_shape((Line(bend.start, bend.end),)),
                stroke=BEND_LINE,
                width=CUT_LINE_WIDTH,
                dash=(4.0, 1.5),
                label=str(said.bend_label(bend=bend_words(bend))),
                name=f"bend-{bend.step}",
            )
            for bend in blank.bends
            if bend.forward is forward
        )
        if items:
            layers.append(Layer(name=name, items=items, step=Step.CREASING))
    return layers


def _cones(blank: Blank) -> list[Layer]:
    layers: list[Layer] = []
    for name, side in ((COUNTERSINKS, Side.FRONT), (COUNTERSINKS_REAR, Side.REAR)):
        items = tuple(
            Item(
                shape=shape_of(circle(cone.cut, cone.centre)),
                stroke=CONE_LINE,
                width=CUT_LINE_WIDTH,
                label=str(cone_label(hole.name, cone)),
                name=f"countersink-{hole.name}",
            )
            for hole in blank.holes
            if (cone := hole.countersink) is not None and cone.side is side
        )
        if items:
            layers.append(Layer(name=name, items=items))
    return layers
