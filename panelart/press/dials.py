"""Dials that turn with their knob, as files of their own: the artwork at 1:1, and the lines that a tool follows.

A dial is shown about its shaft, which is at (0, 0), as it stands when the control is where the scale begins: its
first value is at the index mark.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from msgspec.structs import replace

from panelart.drawing.artwork import ink_items
from panelart.drawing.cutlayer import note_beside, noted, paper_round
from panelart.drawing.layers import CUT_LINE, CUT_LINE_WIDTH, CUTOUTS, GROUND, NOTES, OUTLINE, ground_of, legend_layer
from panelart.drawing.layers import EDGE as EDGE_LAYER
from panelart.drawing.representation import Drawing, Item, Layer, Step
from panelart.geometry import ORIGIN, Line, Point, Vector, circle, direction
from panelart.lettering.centreline import letter_lines
from panelart.lettering.motion import Motion, moved
from panelart.lettering.outline import Loop, Shape, open_shape, shape_of
from panelart.marking.areas import NOTHING, area_of, contour_area, loops_of
from panelart.marking.engraving import engraving_plan
from panelart.marking.separation import Drawn, InkPlate
from panelart.messages import press as said
from panelart.model.layout import Layout, Mark, PlacedLegend, TurningDial
from panelart.model.panel import Carrier, Ink, file_safe
from panelart.model.printing import Engraving
from panelart.press.engraving import EDGE, NOTE, PATH, engraving_layer

_CROSS: Final = 3.0  # mm: half of the lines that show where the shaft is


def dial_artwork(layout: Layout) -> Mapping[str, Drawing]:
    """Every dial of a panel by file name: a layer for each ink, words as they are lettered."""
    return {_file(dial): _drawing(layout, dial, (_ground(layout, dial), *_inks(layout, dial))) for dial in layout.dials}


def dial_paths(layout: Layout) -> Mapping[str, Drawing]:
    """The same as lines: the way of the cutter where the panel is engraved, else the middle of every line."""
    how = layout.panel.marking.printing.engraving
    return {
        _file(dial): _drawing(layout, dial, tuple(_middles(layout, dial) if how is None else _cuts(layout, dial, how)))
        for dial in layout.dials
    }


def _file(dial: TurningDial) -> str:
    return f"dial-{file_safe(dial.ref)}"


def _ground(layout: Layout, dial: TurningDial) -> Layer:
    """What the inks are on, shown and not printed: the ring outside the grip, or the disc outside its bore."""
    inner = dial.bore if dial.scale.carrier is Carrier.DISC else dial.scale.inner
    disc, hole = contour_area(circle(dial.scale.diameter)), contour_area(circle(inner))
    ring = loops_of(disc.difference(hole))
    return Layer(name=GROUND, items=(Item(shape=ring, fill=ground_of(layout.panel), name="ground"),), step=Step.LEGEND)


def _things(dial: TurningDial, ink: Ink) -> list[Mark | PlacedLegend]:
    """What is in one ink, about the shaft."""
    home = ORIGIN.minus(dial.at)
    legends = [
        replace(legend, baseline=legend.baseline.moved(home), box=legend.box.moved(home)) for legend in dial.legends
    ]
    marks = [replace(mark, shape=moved(mark.shape, Motion(Point(home.x, home.y), 0.0))) for mark in dial.marks]
    things: list[Mark | PlacedLegend] = [*marks, *legends]
    return [thing for thing in things if thing.ink == ink]


def _inks(layout: Layout, dial: TurningDial) -> Iterator[Layer]:
    for ink in layout.panel.marking.inks:
        things = _things(dial, ink)
        if things:
            plate = InkPlate(ink=ink, drawn=tuple(Drawn(thing=thing) for thing in things), spread=NOTHING)
            yield Layer(name=legend_layer(ink), items=ink_items(plate, plated=True))


def _cuts(layout: Layout, dial: TurningDial, how: Engraving) -> Iterator[Layer]:
    """A layer for each cutter, in cutting order."""
    things = [thing for ink in layout.panel.marking.inks for thing in _things(dial, ink)]
    own = replace(
        layout,
        marks=tuple(thing for thing in things if isinstance(thing, Mark)),
        legends=tuple(thing for thing in things if isinstance(thing, PlacedLegend)),
    )
    plan = engraving_plan(own, how)
    inks = len({cut.ink.name for cut in plan.cuts})
    for cut in plan.cuts:
        items = tuple(Item(shape=(path,), stroke=PATH, width=CUT_LINE_WIDTH) for path in cut.paths)
        yield Layer(name=engraving_layer(cut, inks), items=items)


def _middles(layout: Layout, dial: TurningDial) -> Iterator[Layer]:
    """A layer for each width of line; what has no middle line is an outline."""
    for ink in layout.panel.marking.inks:
        lines: dict[str, list[Loop]] = {}
        for thing in _things(dial, ink):
            for name, shape in _lines(thing):
                lines.setdefault(name, []).extend(shape)
        for name, loops in lines.items():
            items = tuple(Item(shape=(loop,), stroke=PATH, width=CUT_LINE_WIDTH) for loop in loops)
            yield Layer(name=f"{name}-{ink.file_slug}", items=items)


def _lines(thing: Mark | PlacedLegend) -> Iterator[tuple[str, Shape]]:
    """The middle lines of a mark or of words, by the layer of their width."""
    if isinstance(thing, Mark) and not thing.filled:
        yield f"line-{thing.width:.2f}", thing.shape
        return
    if isinstance(thing, Mark) or thing.setting is None or thing.setting.strokes:
        yield "area", loops_of(area_of(thing.shape))
    else:
        yield from _letters(thing, [letter_lines(letter) for letter in thing.setting.letters])


def _letters(words: PlacedLegend, drawn: Sequence[Any]) -> Iterator[tuple[str, Shape]]:
    """The middle lines of letters where all have some, else their areas."""
    if None in drawn:
        yield "area", loops_of(area_of(words.shape))
        return
    to_dial = Motion(words.baseline, words.turn)
    for one in drawn:
        for lines, width in one:
            yield f"line-{width:.2f}", moved(lines, to_dial)


def _drawing(layout: Layout, dial: TurningDial, layers: Sequence[Layer]) -> Drawing:
    panel = layout.panel
    rim = circle(dial.scale.diameter)
    trim = rim.bounds
    disc = dial.scale.carrier is Carrier.DISC
    what = said.dial_disc(diameter=dial.scale.diameter) if disc else said.dial_skirt(diameter=dial.scale.diameter)
    note = note_beside(panel, trim.left, trim.top + _CROSS, said.dial_of(ref=dial.ref), what)
    title = said.dial_title(panel=panel.title, ref=dial.ref)
    told = said.dial_note(bore=dial.bore) if disc else said.dial_note_skirt(grip=dial.scale.inner)
    edges = (
        (
            Layer(name=CUTOUTS, items=(_cut(shape_of(circle(dial.bore)), "bore"),), step=Step.CUTTING),
            Layer(name=OUTLINE, items=(_cut(shape_of(rim), "outline"),), step=Step.CUTTING),
        )
        if disc
        else (Layer(name=EDGE_LAYER, items=(_edge(shape_of(rim)), _edge(shape_of(circle(dial.scale.inner))))),)
    )
    return Drawing(
        title=str(title),
        note=noted(panel, told),
        page=paper_round(trim.grown(_CROSS), note),
        trim=trim,
        layers=(
            *layers,
            *edges,
            Layer(name=NOTES, items=(note, _pointer(dial), *map(_edge, _cross())), step=Step.LEGEND),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
    )


def _cut(shape: Shape, name: str) -> Item:
    return Item(shape=shape, stroke=CUT_LINE, width=CUT_LINE_WIDTH, name=name)


def _edge(shape: Shape) -> Item:
    return Item(shape=shape, stroke=EDGE, width=CUT_LINE_WIDTH)


def _cross() -> list[Shape]:
    return [
        open_shape((Line(ORIGIN.moved(way.scaled(-_CROSS)), ORIGIN.moved(way.scaled(_CROSS))),))
        for way in (Vector(1.0, 0.0), Vector(0.0, 1.0))
    ]


def _pointer(dial: TurningDial) -> Item:
    """Where the index mark is when the dial stands as it is drawn."""
    way, radius = direction(dial.scale.index), dial.scale.diameter / 2
    line = Line(ORIGIN.moved(way.scaled(radius)), ORIGIN.moved(way.scaled(radius + _CROSS)))
    return Item(shape=open_shape((line,)), stroke=NOTE, width=0.3, label=str(said.dial_index()), name="index")
