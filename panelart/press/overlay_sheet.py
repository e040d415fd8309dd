"""The label film as its maker takes it: print, kiss cut, and where adhesive lies; and the cut lines alone."""

from __future__ import annotations

from panelart.drawing.artwork import SLUG, bleed, plate_layers
from panelart.drawing.cutlayer import identity, stamp
from panelart.drawing.layers import ADHESIVE, CUT_LINE_WIDTH, KISS_CUT, KISS_CUT_MIRRORED, NOTE_HEIGHT, NOTES
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import Point
from panelart.lettering.centreline import centre_lines
from panelart.lettering.documents import sayable
from panelart.lettering.outline import bounds, shape_of
from panelart.marking.areas import loops_of, square_cm
from panelart.marking.overlay import adhesive_area, overlay_outline, windows
from panelart.marking.separation import Separations
from panelart.messages import Message
from panelart.messages import press as said
from panelart.model.layout import Layout
from panelart.model.printing import Overlay
from panelart.press.positives import mirrored


def overlay_print(plates: Separations, overlay: Overlay) -> Drawing:
    """Print, kiss cut and adhesive, one on the other; mirrored where it is printed on the film's back."""
    layout = plates.layout
    panel = layout.panel
    cut = panel.marking.printing.plates.cut
    past = bleed(panel) or 0.0
    trim = overlay_outline(layout, overlay).bounds
    ground = adhesive_area(layout, overlay)
    glued = Item(
        shape=loops_of(ground),
        stroke=Paint(colour="#2E7D32", plate=ADHESIVE),
        width=CUT_LINE_WIDTH,
        label=str(said.adhesive_edge(area=square_cm(ground))),
    )
    parts = (identity(panel), str(said.label_film_lettering()), str(side_lettering(overlay)), "1:1")
    words = sayable(" · ".join(word for word in parts if word))
    line = centre_lines(words, Point(trim.left, trim.top + past + NOTE_HEIGHT), NOTE_HEIGHT)
    note = Item(shape=line, stroke=Paint(colour="#C2187A", plate=cut), width=NOTE_HEIGHT / 10, label=words)
    drawing = Drawing(
        title=str(said.label_film_title(panel=panel.title)),
        note=f"{said.label_film_note(side=_printed(overlay))}{stamp(panel)}",
        page=trim.grown(SLUG + past).union(bounds(line).grown(SLUG / 2)),
        trim=trim,
        layers=(
            *plate_layers(plates),
            Layer(name=KISS_CUT, items=cut_items(layout, overlay, cut), step=Step.PARTIAL_CUTTING),
            Layer(name=ADHESIVE, items=(glued,), step=Step.GLUING),
            Layer(name=NOTES, items=(note,), step=Step.LEGEND, printed=False),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
        bleed=past,
        output=panel.marking.printing.output,
    )
    return mirrored(drawing) if overlay.reverse else drawing


def overlay_cut(layout: Layout, overlay: Overlay) -> Drawing:
    """The kiss cut alone, for the plotter; mirrored where the film is cut from its printed back."""
    panel = layout.panel
    trim = overlay_outline(layout, overlay).bounds
    drawing = Drawing(
        title=str((said.kiss_cut_mirrored_title if overlay.reverse else said.kiss_cut_title)(panel=panel.title)),
        note=f"{said.kiss_cut_note(side=_printed(overlay))}{stamp(panel)}",
        page=trim.grown(SLUG),
        trim=trim,
        layers=(
            Layer(
                name=KISS_CUT_MIRRORED if overlay.reverse else KISS_CUT,
                items=cut_items(layout, overlay, None),
                step=Step.PARTIAL_CUTTING,
            ),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
        zero=panel.zero,
        datum=panel.datum,
    )
    return mirrored(drawing) if overlay.reverse else drawing


def side_lettering(overlay: Overlay) -> Message:
    """From which side the print file is seen."""
    return said.reverse_print_lettering() if overlay.reverse else said.front_lettering()


def _printed(overlay: Overlay) -> Message:
    return said.printed_on_back() if overlay.reverse else said.printed_on_front()


def cut_items(layout: Layout, overlay: Overlay, plate: str | None) -> tuple[Item, ...]:
    """Windows, then the film's edge, so that the film lies still as long as it is cut."""
    line = Paint(colour="#C2187A", plate=plate)
    found = [
        Item(
            shape=shape_of(window.contour),
            stroke=line,
            width=CUT_LINE_WIDTH,
            label=str(said.window(name=window.name)),
            name=f"window-{window.name}".replace(" ", "-"),
        )
        for window in windows(layout, overlay)
    ]
    edge = Item(
        shape=shape_of(overlay_outline(layout, overlay)),
        stroke=line, width=CUT_LINE_WIDTH, label=str(said.film_edge()),
        name="film-edge",
    )  # fmt: skip
    return (*found, edge)
