"""Artwork: the inks as they go down on the finished face, with outline and openings to register by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec.structs import replace

from panelart.drawing.cutlayer import NOTE, identity, noted
from panelart.drawing.layers import (
    BACKGROUND,
    BASE,
    BASE_COLOUR,
    CUT_LINE,
    CUT_LINE_WIDTH,
    CUTOUTS,
    GROUND,
    NOTE_HEIGHT,
    NOTES,
    OUTLINE,
    VARNISH,
    VARNISH_COLOUR,
    ground_of,
    legend_layer,
)
from panelart.drawing.pictures import raster
from panelart.drawing.representation import Drawing, Item, Layer, Lettered, Paint, Ramp, Step
from panelart.geometry import Point
from panelart.lettering.centreline import centre_lines
from panelart.lettering.documents import sayable
from panelart.lettering.outline import bounds, shape_of
from panelart.marking.areas import loops_of, square_cm
from panelart.marking.separation import Colour, Drawn, InkPlate, Separations, separations
from panelart.messages import Message, press
from panelart.messages import drawing as said
from panelart.model.layout import Layout, Mark, PlacedLegend
from panelart.model.light import lightness
from panelart.model.panel import Ink, Panel
from panelart.model.printing import Gradient, Photo, Solid
from panelart.model.process_colours import process_plate

TRAP = "trap"
"""Name of the item that is what an ink spreads into."""

SLUG = 10.0
"""Room round the trim and what bleeds past it, for the machine's own marks, mm."""


def artwork(layout: Layout, plates: Separations | None = None) -> Drawing:
    """Base and varnish, backgrounds, one layer an ink in the order of the spec, outline and openings, all 1:1."""
    panel = layout.panel
    plates = separations(layout) if plates is None else plates
    trim = panel.outline.bounds
    past = bleed(panel)
    outline = Item(
        shape=shape_of(panel.outline),
        stroke=cut_line(panel),
        width=CUT_LINE_WIDTH,
        label=str(said.finished_outline()),
        name="outline",
    )
    openings = tuple(
        Item(
            shape=shape_of(opening.finished),
            stroke=cut_line(panel),
            width=CUT_LINE_WIDTH,
            label=str(said.opening_finished(name=opening.name)),
            name=opening.name,
        )
        for opening in layout.openings
    )
    return Drawing(
        title=str(said.artwork(panel=panel.title)),
        note=noted(panel, said.artwork_note(), *_process_colours(panel)),
        page=trim.grown(SLUG + (past or 0.0)),
        trim=trim,
        layers=(
            *plate_layers(plates),
            Layer(name=CUTOUTS, items=openings, step=Step.CUTTING),
            Layer(name=OUTLINE, items=(outline,), step=Step.CUTTING),
        ),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
        bleed=past,
        output=panel.marking.printing.output,
    )


def artwork_sheet(layout: Layout, plates: Separations) -> Drawing:
    """The artwork as a printer gets it: under it the colour of the face, so that white ink is seen, beside it the slug.

    Both are shown only: on plates that no press prints, in layers that are off for print. The slug says which panel
    it is, its revision, from which side it is seen, and its scale.
    """
    panel, art = layout.panel, artwork(layout, plates)
    trim, ground = art.trim, ground_of(panel)
    face = Item(
        shape=shape_of(panel.outline),
        fill=replace(ground, plate=GROUND),
        label=str(said.colour_of_face()),
        name="ground",
    )
    parts = (identity(panel), str(press.front_lettering()), "1:1", "mm")
    words = sayable(" · ".join(word for word in parts if word))
    start = Point(trim.left, trim.top + (art.bleed or 0.0) + NOTE_HEIGHT)
    lines = centre_lines(words, start, NOTE_HEIGHT)
    slug = Item(shape=lines, stroke=cut_line(panel), width=NOTE_HEIGHT / 10, label=words, name=NOTE)
    return replace(
        art,
        page=art.page.union(bounds(lines).grown(NOTE_HEIGHT)),
        layers=(
            Layer(name=GROUND, items=(face,), step=Step.LEGEND, printed=False),
            *art.layers,
            Layer(name=NOTES, items=(slug,), step=Step.LEGEND, printed=False),
        ),
    )


def _process_colours(panel: Panel) -> Iterator[Message]:
    """Which inks are process colours, and on which plates they are."""
    for ink in panel.marking.inks:
        if process_plate(ink.name) is not None:
            yield said.ink_on_process_plate(ink=ink.name, plate=ink.plate)


def bleed(panel: Panel) -> float | None:
    """How far colour runs past the edge of the face; None where none does."""
    past = [ground.bleed for ground in panel.marking.printing.backgrounds if ground.bleed is not None]
    return max(past, default=None)


def cut_line(panel: Panel) -> Paint:
    """The colour of lines that are not printed, on the plate that the shop knows them by."""
    return Paint(colour=CUT_LINE.colour, plate=panel.marking.printing.plates.cut)


def plate_layers(plates: Separations) -> tuple[Layer, ...]:
    """Everything that is laid down, white first, so that a viewer that knows no overprint still shows the inks."""
    panel = plates.layout.panel
    names = panel.marking.printing.plates
    layers: list[Layer] = []
    for layer, name, colour, ground, step in (
        (BASE, names.base, BASE_COLOUR, plates.laid_base.ground, Step.WHITE),
        (VARNISH, names.varnish, VARNISH_COLOUR, plates.varnish, Step.VARNISH),
    ):
        shape = loops_of(ground)
        if shape:
            label = str(said.plate_area(layer=layer, area=square_cm(ground)))
            item = Item(shape=shape, fill=Paint(colour=colour, plate=name), label=label)
            layers.append(Layer(name=layer, items=(item,), step=step))
    # What spreads lies under the darker ink that it spreads into, so it is painted before all that keeps its edge.
    traps = [(plate, item) for plate in plates.inks for item in ink_items(plate, plated=True) if item.name == TRAP]
    layers += [
        Layer(name=legend_layer(plate.ink), items=(item,))
        for plate, item in sorted(traps, key=lambda pair: -lightness(pair[0].ink.colour))
    ]
    grounds = background_items(plates, plated=True)
    if grounds:
        layers.append(Layer(name=BACKGROUND, items=grounds))
    for plate in plates.inks:
        items = tuple(item for item in ink_items(plate, plated=True) if item.name != TRAP)
        layers.append(Layer(name=legend_layer(plate.ink), items=items))
    return tuple(layers)


def without_traps(drawing: Drawing) -> Drawing:
    """The artwork as it is seen once it is printed, for formats that know no plates: what spreads lies under others."""
    kept = tuple(layer for layer in drawing.layers if not layer.items or any(i.name != TRAP for i in layer.items))
    return replace(drawing, layers=kept)


def background_items(plates: Separations, *, plated: bool) -> tuple[Item, ...]:
    """Grounds of colour and pictures, from the lowest up.

    Not `plated` they are plain colours, for documents, and only what is left of them when all is cut.
    """
    inks = {ink.name: ink for ink in plates.layout.panel.marking.inks}
    laid = plates.laid_down if plated else plates.seen
    return tuple(_background(colour, inks, plated=plated) for colour in laid)


def _background(laid: Colour, inks: Mapping[str, Ink], *, plated: bool) -> Item:
    shape = loops_of(laid.area)

    def paint(name: str, tint: float = 1.0) -> Paint:
        return Paint(colour=inks[name].colour, plate=inks[name].plate if plated else None, tint=tint)

    area = square_cm(laid.area)
    match laid.background.colour:
        case Solid(ink=ink, tint=tint):
            return Item(shape=shape, fill=paint(ink, tint), label=str(said.background(ink=ink, area=area)))
        case Gradient(stops=stops, start=start, end=end, round=round_):
            ramp = Ramp(
                start=start, end=end, round=round_, stops=tuple((stop.at, paint(stop.ink, stop.tint)) for stop in stops)
            )
            names = tuple(dict.fromkeys(stop.ink for stop in stops))
            return Item(shape=shape, ramp=ramp, label=str(said.gradient(inks=names, area=area)))
        case Photo() as photo:
            ink_paint = None if photo.ink is None else paint(photo.ink)
            picture = raster(photo, laid.background, ink_paint)
            return Item(shape=shape, picture=picture, label=str(said.picture(file=photo.file, area=area)))


def ink_items(plate: InkPlate, *, plated: bool) -> tuple[Item, ...]:
    """Every mark and legend in one ink, and what it spreads into; not `plated` it is plain colour, for documents."""
    paint = Paint(colour=plate.ink.colour, plate=plate.ink.plate if plated else None)
    items = [item for drawn in plate.drawn if (item := _item(drawn, paint)) is not None]
    spread = loops_of(plate.spread)
    if spread:
        items.append(Item(shape=spread, fill=paint, label=str(said.trap(ink=plate.ink.name)), name=TRAP))
    return tuple(items)


def _item(drawn: Drawn, paint: Paint) -> Item | None:
    thing = drawn.thing
    if isinstance(thing, Mark):
        label = str(said.feature_of(feature=thing.kind, owner=thing.ref))
    else:
        label = thing.text.replace("\n", " ")
    if drawn.area is not None:
        shape = loops_of(drawn.area)
        return Item(shape=shape, fill=paint, label=label) if shape else None
    if isinstance(thing, PlacedLegend):
        return _words(thing, paint, label)
    if thing.filled:
        return Item(shape=thing.shape, fill=paint, label=label)
    return Item(shape=thing.shape, stroke=paint, width=thing.width, label=label)


def _words(legend: PlacedLegend, paint: Paint, label: str) -> Item:
    if legend.setting is None:
        return Item(shape=legend.shape, fill=paint, label=label)
    words = Lettered(setting=legend.setting, at=legend.baseline, turn=legend.turn)
    return Item(shape=(), words=words, fill=paint, label=label)
