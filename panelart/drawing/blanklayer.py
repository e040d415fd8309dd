"""The blank: what is cut before it is bent, with the lines it is bent on, seen from the front."""

from __future__ import annotations

from panelart.cutouts.describe import allowance
from panelart.drawing.cutlayer import CONE_LINE, NOTE_HEIGHT, NOTE_LINE, identity, paper_round, stamp
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
from panelart.geometry import Line, Point, circle
from panelart.lettering.centreline import centre_lines
from panelart.lettering.documents import sayable
from panelart.lettering.outline import open_shape, shape_of
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
            label=f"opening {hole.name} in the {hole.on}, cut size",
            name=hole.name,
        )
        for hole in blank.holes
    )
    outline = Item(
        shape=shape_of(blank.outline), stroke=CUT_LINE, width=CUT_LINE_WIDTH, label="outline of the blank", name="blank"
    )
    note = _note(layout, trim.left, trim.top)
    return Drawing(
        title=f"{panel.title}: blank, seen from the front",
        note=(
            f"Flat blank seen from the front, 1:1, millimetres. {allowance(panel.coat)}; no kerf applied. Bend lines"
            f" mark the middle of each bend; springback is left to the shop.{stamp(panel)}"
        ),
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
    )


def bend_words(bend: BendLine) -> str:
    """A bend as the brake operator is told it."""
    way = "forward" if bend.forward else "back"
    return f"{bend.step}. {bend.name}: {bend.angle:g}° {way}, R{bend.radius:g}"


def _bends(blank: Blank) -> list[Layer]:
    layers: list[Layer] = []
    for name, forward in ((BENDS, False), (BENDS_FORWARD, True)):
        items = tuple(
            Item(
                shape=open_shape((Line(bend.start, bend.end),)),
                stroke=BEND_LINE,
                width=CUT_LINE_WIDTH,
                dash=(4.0, 1.5),
                label=f"bend {bend_words(bend)}",
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
                label=f"countersink {hole.name}, {cone.angle:g} degrees from the {side.value}, not cut through",
                name=f"countersink-{hole.name}",
            )
            for hole in blank.holes
            if (cone := hole.countersink) is not None and cone.side is side
        )
        if items:
            layers.append(Layer(name=name, items=items))
    return layers


def _note(layout: Layout, left: float, top: float) -> Item:
    panel = layout.panel
    text = " · ".join(
        word for word in (identity(panel), "BLANK SEEN FROM THE FRONT", "mm", "cut sizes, bend lines") if word
    )
    shape = centre_lines(sayable(text), Point(left, top + NOTE_HEIGHT), NOTE_HEIGHT)
    return Item(shape=shape, stroke=NOTE_LINE, width=NOTE_HEIGHT / 10, label=text)
