"""The label film as its maker takes it: print, kiss cut, and where adhesive lies; and the cut lines alone."""

from __future__ import annotations

from panelart.drawing.artwork import SLUG, bleed, plate_layers
from panelart.drawing.cutlayer import identity, stamp
from panelart.drawing.layers import ADHESIVE, CUT_LINE_WIDTH, KISS_CUT, NOTES
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import Point
from panelart.lettering.centreline import centre_lines
from panelart.lettering.documents import sayable
from panelart.lettering.outline import bounds, shape_of
from panelart.marking.areas import loops_of, square_cm
from panelart.marking.film import adhesive_area, film_outline, windows
from panelart.marking.separation import Separations
from panelart.model.layout import Layout
from panelart.model.printing import Overlay
from panelart.press.films import mirrored

NOTE_HEIGHT = 3.0


def film_print(plates: Separations, overlay: Overlay) -> Drawing:
    """Print, kiss cut and adhesive, one on the other; mirrored where it is printed on the film's back."""
    layout = plates.layout
    panel = layout.panel
    cut = panel.marking.printing.plates.cut
    past = bleed(panel) or 0.0
    trim = film_outline(layout, overlay).bounds
    ground = adhesive_area(layout, overlay)
    glued = Item(
        shape=loops_of(ground),
        stroke=Paint(colour="#2E7D32", plate=ADHESIVE),
        width=CUT_LINE_WIDTH,
        label=f"edge of the adhesive, {square_cm(ground):.2f} cm2",
    )
    words = sayable(" · ".join(word for word in (identity(panel), "LABEL FILM", side_words(overlay), "1:1") if word))
    line = centre_lines(words, Point(trim.left, trim.top + past + NOTE_HEIGHT), NOTE_HEIGHT)
    note = Item(shape=line, stroke=Paint(colour="#C2187A", plate=cut), width=NOTE_HEIGHT / 10, label=words)
    drawing = Drawing(
        title=f"{panel.title}: label film",
        note=f"{_sentence(overlay)} 1:1, millimetres. Kiss cut: through the film, not through the liner.{stamp(panel)}",
        page=trim.grown(SLUG + past).union(bounds(line).grown(SLUG / 2)),
        trim=trim,
        layers=(
            *plate_layers(plates),
            Layer(name=KISS_CUT, items=cut_items(layout, overlay, cut), step=Step.PARTIAL_CUTTING),
            Layer(name=ADHESIVE, items=(glued,), step=Step.GLUING),
            Layer(name=NOTES, items=(note,), step=Step.LEGEND),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
        bleed=past,
        output=panel.marking.printing.output,
    )
    return mirrored(drawing) if overlay.reverse else drawing


def film_cut(layout: Layout, overlay: Overlay) -> Drawing:
    """The kiss cut alone, for the plotter; mirrored where the film is cut from its printed back."""
    panel = layout.panel
    trim = film_outline(layout, overlay).bounds
    drawing = Drawing(
        title=f"{panel.title}: label film, kiss cut",
        note=f"{_sentence(overlay)} 1:1, millimetres. Through the film, not through the liner.{stamp(panel)}",
        page=trim.grown(SLUG),
        trim=trim,
        layers=(Layer(name=KISS_CUT, items=cut_items(layout, overlay, None), step=Step.PARTIAL_CUTTING),),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )
    return mirrored(drawing) if overlay.reverse else drawing


def side_words(overlay: Overlay) -> str:
    """From which side the print file is seen."""
    return "REVERSE PRINT, MIRRORED, SEEN FROM BEHIND" if overlay.reverse else "SEEN FROM THE FRONT"


def _sentence(overlay: Overlay) -> str:
    if overlay.reverse:
        return "Printed on the back of the film: mirrored, seen from behind."
    return "Printed on the front of the film, seen from the front."


def cut_items(layout: Layout, overlay: Overlay, plate: str | None) -> tuple[Item, ...]:
    """Windows, then the film's edge, so that the film lies still as long as it is cut."""
    line = Paint(colour="#C2187A", plate=plate)
    found = [
        Item(
            shape=shape_of(window.contour),
            stroke=line,
            width=CUT_LINE_WIDTH,
            label=f"window {window.name}",
            name=f"window-{window.name}".replace(" ", "-"),
        )
        for window in windows(layout, overlay)
    ]
    edge = Item(
        shape=shape_of(film_outline(layout, overlay)), stroke=line, width=CUT_LINE_WIDTH, label="film edge",
        name="film-edge",
    )  # fmt: skip
    return (*found, edge)
