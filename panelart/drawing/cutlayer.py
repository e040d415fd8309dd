"""The cut layer: outline and openings at cut size, seen from the front or from the rear."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.cutouts.describe import allowance
from panelart.drawing.layers import (
    COUNTERSINKS,
    COUNTERSINKS_REAR,
    CUT_LINE,
    CUT_LINE_WIDTH,
    CUTOUTS,
    EDGE,
    MASK,
    NOTE_HEIGHT,
    NOTES,
    OUTLINE,
)
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import ORIGIN, Box, Contour, Point, circle
from panelart.lettering.centreline import centre_lines
from panelart.lettering.documents import sayable
from panelart.lettering.outline import bounds, shape_of
from panelart.messages import Message, Said
from panelart.messages import drawing as said
from panelart.messages import sheets as common
from panelart.model.layout import FACE, CutCountersink, Layout
from panelart.model.panel import Panel, Side

CONE_LINE = Paint(colour="#1F6FB5", plate="countersink")
MASK_LINE = Paint(colour="#2E7D32", plate="mask")
PAPER = 10.0
"""Paper left round part and note, mm."""

NOTE = "note"
"""Name of the item whose strokes say what its label says."""

NOTE_LINE = Paint(colour="#1B1E22")

_CUTOUTS = {Side.FRONT: said.cutouts_from_front, Side.REAR: said.cutouts_from_rear}
_MASKS = {Side.FRONT: said.masks_from_front, Side.REAR: said.masks_from_rear}
_CONES = {Side.FRONT: said.countersink_from_front, Side.REAR: said.countersink_from_rear}
_BARE = {Side.FRONT: said.bare_front(), Side.REAR: said.bare_rear()}
_VIEW = {Side.FRONT: said.view_front(), Side.REAR: said.view_rear()}
_SEEN = {Side.FRONT: said.note_front(), Side.REAR: said.note_rear()}


class View(Struct, frozen=True):
    """From which side the panel is seen; from the rear, left and right change places about the panel's middle."""

    side: Side
    about_x: float

    def of(self, contour: Contour) -> Contour:
        """A contour as this view shows it."""
        return contour if self.side is Side.FRONT else contour.mirrored(self.about_x)

    def at(self, point: Point) -> Point:
        """A place as this view shows it."""
        return point if self.side is Side.FRONT else Point(2 * self.about_x - point.x, point.y)


def view(layout: Layout, side: Side) -> View:
    """The view of a layout from one side."""
    return View(side, layout.panel.outline.bounds.centre.x)


def cut_layer(layout: Layout, side: Side = Side.FRONT) -> Drawing:
    """Cut sizes (finished sizes plus or less the coat), 1:1. Kerf belongs to the machine and is not applied."""
    panel = layout.panel
    seen = view(layout, side)
    trim = layout.cut_outline.bounds
    openings = tuple(
        _cut(seen.of(opening.cut), said.opening_cut(name=opening.name), opening.name) for opening in layout.openings
    )
    outline = _cut(seen.of(layout.cut_outline), said.outline_cut(), "outline")
    note = _note(panel, side, trim, said.note_cut_sizes())
    return Drawing(
        title=str(_CUTOUTS[side](panel=panel.title)),
        note=noted(panel, _VIEW[side], allowance(panel.coat), said.no_kerf()),
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
        zero=seen.at(panel.zero) if panel.over_drawing else ORIGIN,
        datum=seen.at(panel.datum),
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
                label=str(cone_label(opening.name, cone)),
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
            label=str(said.mask(name=mask.name, reason=mask.why)),
            name=f"mask-{mask.name}",
        )
        for mask in layout.masks
        if mask.side is side and mask.on == FACE
    )
    note = _note(panel, side, trim, said.note_masks())
    return Drawing(
        title=str(_MASKS[side](panel=panel.title)),
        note=noted(panel, _BARE[side], _VIEW[side]),
        page=paper_round(trim, note),
        trim=trim,
        layers=(
            Layer(name=MASK, items=areas),
            Layer(name=EDGE, items=(_cut(seen.of(panel.outline), said.finished_outline(), "outline"),)),
            Layer(name=NOTES, items=(note,), step=Step.LEGEND),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
        zero=seen.at(panel.zero) if panel.over_drawing else ORIGIN,
        datum=seen.at(panel.datum),
    )


def _cut(contour: Contour, label: Message, name: str) -> Item:
    return Item(shape=shape_of(contour), stroke=CUT_LINE, width=CUT_LINE_WIDTH, label=str(label), name=name)


def cone_label(name: str, cone: CutCountersink) -> Message:
    """A countersink in words."""
    return _CONES[cone.side](name=name, angle=cone.angle)


def identity(panel: Panel) -> str:
    """Number, revision and fingerprint, by which a file is known."""
    known: list[Said] = [panel.number] if panel.number else []
    known += [common.revision(revision=panel.revision)] if panel.revision else []
    known += [common.spec(fingerprint=panel.fingerprint)] if panel.fingerprint else []
    return " ".join(map(str, known))


def noted(panel: Panel, *sentences: Message) -> str:
    """A drawing's note: sentences, and the fingerprint of the spec at the end where there is one."""
    made_from = (common.made_from(fingerprint=panel.fingerprint),) if panel.fingerprint else ()
    return str(common.paragraph(sentences=(*sentences, *made_from)))


def stamp(panel: Panel) -> str:
    """The fingerprint as the end of a drawing's note, '' where there is none."""
    return f" {common.made_from(fingerprint=panel.fingerprint)}" if panel.fingerprint else ""


def _note(panel: Panel, side: Side, trim: Box, what: Message) -> Item:
    """What the file is, beside the outline, in lines that every format can carry. Not to be cut."""
    return note_beside(panel, trim.left, trim.top, _SEEN[side], what)


def note_beside(panel: Panel, left: float, top: float, *told: Message) -> Item:
    """A note over the upper left corner of an outline: which panel, what is told, and the unit."""
    text = " · ".join(str(word) for word in (identity(panel), told[0], "mm", *told[1:]) if word)
    shape = centre_lines(sayable(text), Point(left, top + NOTE_HEIGHT), NOTE_HEIGHT)
    return Item(shape=shape, stroke=NOTE_LINE, width=NOTE_HEIGHT / 10, label=text, name=NOTE)


def paper_round(trim: Box, note: Item) -> Box:
    """Room round the part, and for the whole of the note where the part is narrower than it."""
    return trim.union(bounds(note.shape)).grown(PAPER)
