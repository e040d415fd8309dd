"""Engraving as a drawing: the paths of the cutter's middle in cutting order, a layer for each cutter and colour."""

from __future__ import annotations

from msgspec.structs import replace

from panelart.drawing.artwork import ink_items
from panelart.drawing.cutlayer import NOTE as NOTE_NAME
from panelart.drawing.cutlayer import identity, stamp
from panelart.drawing.layers import CUT_LINE_WIDTH, NOTE_HEIGHT, NOTES
from panelart.drawing.layers import EDGE as EDGE_LAYER
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import Point
from panelart.lettering.centreline import centre_lines
from panelart.lettering.documents import sayable
from panelart.lettering.outline import bounds, shape_of
from panelart.marking.burning import Burn
from panelart.marking.engraving import Cut, Plan
from panelart.marking.separation import Separations
from panelart.messages import Message, Said
from panelart.messages import press as said
from panelart.model.layout import Layout
from panelart.model.printing import Engraving, Laser

PATH = Paint(colour="#B3261E")
EDGE = Paint(colour="#9AA0A6")
NOTE = Paint(colour="#1B1E22")
PAPER = 10.0


def engraving_layer(cut: Cut, inks: int) -> str:
    """The layer of what one cutter cuts: `engrave-0.3`, with its colour where there are several."""
    return f"engrave-{cut.cutter:g}" + (f"-{cut.ink.file_slug}" if inks > 1 else "")


def work_of_cutter(cut: Cut) -> Message:
    """What one cutter does, for people."""
    return said.cut(
        cutter=cut.cutter,
        ink=cut.ink.name,
        count=len(cut.paths),
        cut=cut.length / 1000,
        travel=cut.travel / 1000,
        unordered=cut.unordered / 1000,
    )


def engraving(layout: Layout, plan: Plan, how: Engraving) -> Drawing:
    """Paths in cutting order, the widest cutter first. Paths are drawn as thin lines: the layer says the cutter."""
    panel = layout.panel
    count = len({cut.ink.name for cut in plan.cuts})
    layers = tuple(
        Layer(
            name=engraving_layer(cut, count),
            items=tuple(Item(shape=(path,), stroke=PATH, width=CUT_LINE_WIDTH) for path in cut.paths),
        )
        for cut in plan.cuts
    )
    told = [said.engraving_note(depth=how.depth), *map(work_of_cutter, plan.cuts)]
    if plan.uncut:
        told.append(said.engraving_too_narrow(area=100 * plan.uncut))
    return _tool_drawing(layout, layers, said.engraving(depth=how.depth), f"{' '.join(map(str, told))}{stamp(panel)}")


LASER = "laser"


def burning(layout: Layout, burn: Burn, how: Laser) -> Drawing:
    """The lines of the beam in order."""
    items = tuple(Item(shape=(path,), stroke=PATH, width=min(CUT_LINE_WIDTH, how.beam)) for path in burn.paths)
    note = f"{said.laser_note()} {work_of_beam(burn, how)}{stamp(layout.panel)}"
    return _tool_drawing(layout, (Layer(name=LASER, items=items),), said.laser_marking(), note)


def burn_picture(plates: Separations) -> Drawing:
    """All marking in black on white, the page being the finished face: to be burnt dot by dot."""
    panel = plates.layout.panel
    black = Paint(colour="#000000")
    items = tuple(
        replace(item, fill=item.fill and black, stroke=item.stroke and black)
        for plate in plates.inks
        for item in ink_items(plate, plated=False)
    )
    return Drawing(
        title=str(said.tool_title(panel=panel.title, process=said.laser_marking())),
        note=f"{said.laser_raster_note()}{stamp(panel)}",
        page=panel.outline.bounds,
        trim=panel.outline.bounds,
        layers=(Layer(name=LASER, items=items),),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )


def work_of_beam(burn: Burn, how: Laser) -> Message:
    """What the beam does, for people."""
    return said.beam_lines(
        spacing=how.spacing,
        beam=how.beam,
        count=len(burn.paths),
        burnt=burn.length / 1000,
        travel=burn.travel / 1000,
        unordered=burn.unordered / 1000,
    )


def _tool_drawing(layout: Layout, layers: tuple[Layer, ...], what: Said, note: str) -> Drawing:
    panel = layout.panel
    trim = panel.outline.bounds
    outline = Item(
        shape=shape_of(panel.outline),
        stroke=EDGE,
        width=CUT_LINE_WIDTH,
        label=str(said.finished_outline()),
        name="outline",
    )
    parts = (identity(panel), str(what), str(said.front_lettering()), "mm")
    words = sayable(" · ".join(word for word in parts if word))
    line = centre_lines(words, Point(trim.left, trim.top + NOTE_HEIGHT), NOTE_HEIGHT)
    told = Item(shape=line, stroke=NOTE, width=NOTE_HEIGHT / 10, label=words, name=NOTE_NAME)
    return Drawing(
        title=str(said.tool_title(panel=panel.title, process=what)),
        note=note,
        page=trim.union(bounds(line)).grown(PAPER),
        trim=trim,
        layers=(
            *layers,
            Layer(name=EDGE_LAYER, items=(outline,)),
            Layer(name=NOTES, items=(told,), step=Step.LEGEND),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
        zero=panel.zero,
        datum=panel.datum,
    )
