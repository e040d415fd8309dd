"""Artwork: the inks as they go down on the finished face, with outline and openings to register by."""

from __future__ import annotations

from panelart.drawing.cutlayer import stamp
from panelart.drawing.layers import CUT_LINE, CUT_LINE_WIDTH, CUTOUTS, OUTLINE, legend_layer
from panelart.drawing.representation import Drawing, Item, Layer, Lettered, Paint, Step
from panelart.lettering.outline import shape_of
from panelart.model.layout import Layout, PlacedLegend
from panelart.model.panel import Ink

SLUG = 10.0
"""Room round the trim for the machine's own marks, mm."""


def artwork(layout: Layout) -> Drawing:
    """One layer an ink in the order of the spec, then outline and openings at finished size, all 1:1."""
    panel = layout.panel
    trim = panel.outline.bounds
    inks = [
        Layer(name=legend_layer(ink), items=marking_items(layout, ink, plate=ink.name)) for ink in panel.marking.inks
    ]
    outline = Item(
        shape=shape_of(panel.outline), stroke=CUT_LINE, width=CUT_LINE_WIDTH, label="finished outline", name="outline"
    )
    openings = tuple(
        Item(
            shape=shape_of(opening.finished),
            stroke=CUT_LINE,
            width=CUT_LINE_WIDTH,
            label=f"opening {opening.name}, finished size",
            name=opening.name,
        )
        for opening in layout.openings
    )
    return Drawing(
        title=f"{panel.title}: artwork",
        note="Seen from the front, 1:1, millimetres. Outline and openings at finished size; they are not printed."
        + stamp(panel),
        page=trim.grown(SLUG),
        trim=trim,
        layers=(
            *inks,
            Layer(name=CUTOUTS, items=openings, step=Step.CUTTING),
            Layer(name=OUTLINE, items=(outline,), step=Step.CUTTING),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )


def marking_items(layout: Layout, ink: Ink, plate: str | None) -> tuple[Item, ...]:
    """Every mark and legend in one ink; `plate` None paints plain colour, for documents."""
    paint = Paint(colour=ink.colour, plate=plate)
    marks = tuple(
        Item(shape=mark.shape, fill=paint, label=f"{mark.kind} of {mark.ref}")
        if mark.filled
        else Item(shape=mark.shape, stroke=paint, width=mark.width, label=f"{mark.kind} of {mark.ref}")
        for mark in layout.marks
        if mark.ink == ink
    )
    words = tuple(_words(legend, paint) for legend in layout.legends if legend.ink == ink)
    return marks + words


def _words(legend: PlacedLegend, paint: Paint) -> Item:
    label = legend.text.replace("\n", " ")
    if legend.setting is None:
        return Item(shape=legend.shape, fill=paint, label=label)
    words = Lettered(setting=legend.setting, at=legend.baseline, turn=legend.turn)
    return Item(shape=(), words=words, fill=paint, label=label)
