"""The cut layer: outline and openings at the size that leaves the cutter, seen from the front or from the rear."""

from __future__ import annotations

from dataclasses import dataclass

from panelart.cutouts.describe import allowance
from panelart.drawing.layers import (
    COUNTERSINKS,
    COUNTERSINKS_REAR,
    CUT_LINE,
    CUT_LINE_WIDTH,
    CUTOUTS,
    MASK,
    NOTES,
    OUTLINE,
)
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import Box, Contour, Point, circle
from panelart.lettering.centreline import centre_lines
from panelart.lettering.documents import sayable
from panelart.lettering.outline import bounds, shape_of
from panelart.model.layout import FACE, Layout
from panelart.model.panel import Panel, Side

CONE_LINE = Paint(colour="#1F6FB5", plate="countersink")
MASK_LINE = Paint(colour="#2E7D32", plate="mask")
NOTE_HEIGHT = 3.0
PAPER = 10.0
"""Height of the note's capitals, and paper left round part and note, mm."""
NOTE_LINE = Paint(colour="#1B1E22")


@dataclass(frozen=True, slots=True)
class View:
    """From which side the panel is seen; from the rear, left and right change places about the panel's middle."""

    side: Side
    about_x: float

    def of(self, contour: Contour) -> Contour:
        """A contour as this view shows it."""
        return contour if self.side is Side.FRONT else contour.mirrored(self.about_x)


def view(layout: Layout, side: Side) -> View:
    """The view of a layout from one side."""
    return View(side, layout.panel.outline.bounds.centre.x)


def cut_layer(layout: Layout, side: Side = Side.FRONT) -> Drawing:
    """Cut sizes (finished sizes plus or less the film), 1:1. Kerf belongs to the machine and is not applied."""
    panel = layout.panel
    seen = view(layout, side)
    trim = layout.cut_outline.bounds
    openings = tuple(
        _cut(seen.of(opening.cut), f"opening {opening.name}, cut size", opening.name) for opening in layout.openings
    )
    outline = _cut(seen.of(layout.cut_outline), "outline, cut size", "outline")
    note = _note(panel, side, trim, _what(layout))
    return Drawing(
        title=f"{panel.title}: cutouts, seen from the {side.value}",
        note=f"Seen from the {side.value}, 1:1, millimetres. {allowance(panel.coat)}; no kerf applied.{stamp(panel)}",
        page=paper_round(trim, note),
        trim=trim,
        layers=(
            Layer(name=CUTOUTS, items=openings, step=Step.CUTTING),
            *countersinks(layout, seen),
            Layer(name=OUTLINE, items=(outline,), step=Step.CUTTING),
            Layer(name=NOTES, items=(note,), step=Step.LEGEND),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )


def countersinks(layout: Layout, seen: View) -> list[Layer]:
    """The mouths of the cones as they are cut, those from the front apart from those from the rear."""
    layers: list[Layer] = []
    for name, side in ((COUNTERSINKS, Side.FRONT), (COUNTERSINKS_REAR, Side.REAR)):
        items = tuple(
            Item(
                shape=shape_of(seen.of(circle(cone.cut, cone.centre))),
                stroke=CONE_LINE,
                width=CUT_LINE_WIDTH,
                label=f"countersink {opening.name}, {cone.angle:g} degrees from the {side.value}, not cut through",
                name=f"countersink-{opening.name}",
            )
            for opening in layout.openings
            if (cone := opening.countersink) is not None and cone.side is side
        )
        if items:
            layers.append(Layer(name=name, items=items))
    return layers


def mask_layer(layout: Layout, side: Side) -> Drawing:
    """What stays bare on one face, seen from that side, with the finished outline to lay it by."""
    panel = layout.panel
    seen = view(layout, side)
    trim = panel.outline.bounds
    areas = tuple(
        Item(
            shape=shape_of(seen.of(mask.contour)),
            stroke=MASK_LINE,
            width=CUT_LINE_WIDTH,
            label=f"mask {mask.name}: {mask.why}",
            name=f"mask-{mask.name}",
        )
        for mask in layout.masks
        if mask.side is side and mask.on == FACE
    )
    note = _note(panel, side, trim, "masks")
    return Drawing(
        title=f"{panel.title}: masks, seen from the {side.value}",
        note=f"Areas that stay bare on the {side.value}. Seen from the {side.value}, 1:1, millimetres, finished sizes."
        + stamp(panel),
        page=paper_round(trim, note),
        trim=trim,
        layers=(
            Layer(name=MASK, items=areas),
            Layer(name=OUTLINE, items=(_cut(seen.of(panel.outline), "finished outline", "outline"),)),
            Layer(name=NOTES, items=(note,), step=Step.LEGEND),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )


def _cut(contour: Contour, label: str, name: str) -> Item:
    return Item(shape=shape_of(contour), stroke=CUT_LINE, width=CUT_LINE_WIDTH, label=label, name=name)


def identity(panel: Panel) -> str:
    """Number, revision and fingerprint, by which a file is known."""
    said = panel.number, panel.revision and f"rev {panel.revision}", panel.fingerprint and f"spec {panel.fingerprint}"
    return " ".join(word for word in said if word)


def stamp(panel: Panel) -> str:
    """The fingerprint as the end of a drawing's note, '' where there is none."""
    return f" Spec {panel.fingerprint}." if panel.fingerprint else ""


def _what(layout: Layout) -> str:
    return "cut sizes" if layout.blank is None else "cut sizes, FACE ONLY: THE BLANK IS IN A FILE OF ITS OWN"


def _note(panel: Panel, side: Side, trim: Box, what: str) -> Item:
    """What the file is, beside the outline, in lines that every format can carry. Not to be cut."""
    known = identity(panel)
    text = " · ".join(word for word in (known, f"SEEN FROM THE {side.value.upper()}", "mm", what) if word)
    shape = centre_lines(sayable(text), Point(trim.left, trim.top + NOTE_HEIGHT), NOTE_HEIGHT)
    return Item(shape=shape, stroke=NOTE_LINE, width=NOTE_HEIGHT / 10, label=text)


def paper_round(trim: Box, note: Item) -> Box:
    """Room round the part, and for the whole of the note where the part is narrower than it."""
    return trim.union(bounds(note.shape)).grown(PAPER)
