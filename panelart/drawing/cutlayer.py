"""The cut layer: outline and openings at the size that leaves the cutter, seen from the front or from the rear."""

from __future__ import annotations

from dataclasses import dataclass

from panelart.drawing.layers import CUT_LINE, CUT_LINE_WIDTH, CUTOUTS, NOTES, OUTLINE
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import Box, Contour, Point
from panelart.lettering.centreline import centre_lines
from panelart.lettering.outline import shape_of
from panelart.model.layout import Layout
from panelart.model.panel import Side

NOTE_HEIGHT = 3.0
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
    return Drawing(
        title=f"{panel.title}: cutouts, seen from the {side.value}",
        note=(
            f"Seen from the {side.value}, 1:1, millimetres. Cut sizes, film of {panel.coat.film:g} mm allowed for; "
            "no kerf applied."
        ),
        page=_paper(trim),
        trim=trim,
        layers=(
            Layer(name=CUTOUTS, items=openings, step=Step.CUTTING),
            Layer(name=OUTLINE, items=(outline,), step=Step.CUTTING),
            Layer(name=NOTES, items=(_note(layout, side, trim),), step=Step.LEGEND),
        ),
        number=panel.number,
        revision=panel.revision,
    )


def _cut(contour: Contour, label: str, name: str) -> Item:
    return Item(shape=shape_of(contour), stroke=CUT_LINE, width=CUT_LINE_WIDTH, label=label, name=name)


def _note(layout: Layout, side: Side, trim: Box) -> Item:
    """What the file is, beside the outline, in lines that every format can carry. Not to be cut."""
    panel = layout.panel
    known = " ".join(word for word in (panel.number, panel.revision and f"rev {panel.revision}") if word)
    text = " · ".join(word for word in (known, f"SEEN FROM THE {side.value.upper()}", "mm", "cut sizes") if word)
    shape = centre_lines(text, Point(trim.left, trim.top + NOTE_HEIGHT), NOTE_HEIGHT)
    return Item(shape=shape, stroke=NOTE_LINE, width=NOTE_HEIGHT / 10, label=text)


def _paper(trim: Box) -> Box:
    return trim.grown(10.0)
