"""Films for screens and clichés: one positive an ink, in black, with register marks, and what it is written on it.

Tints, runs of colour and pictures are in continuous tone: whoever makes the plate screens them.

All films of a panel have their marks at the same places, so that they are laid on each other by them. One mark has a
dot beside it: turned or laid face down the films no longer fit. A film that reads right with its printed side down is
written mirrored, its words too, so that these read right when it lies as it should.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from panelart.drawing.artwork import background_items, bleed, ink_items
from panelart.drawing.cutlayer import identity, stamp
from panelart.drawing.layers import BACKGROUND, BASE, NOTES, REGISTER, VARNISH, legend_layer
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Ramp, Step
from panelart.geometry import ORIGIN, Arc, Box, Line, Point, Vector, circle, rectangle
from panelart.lettering.centreline import centre_lines
from panelart.lettering.documents import sayable
from panelart.lettering.outline import Cubic, Curve, Loop, Shape, bounds, open_shape, shape_of
from panelart.marking.areas import loops_of, square_cm
from panelart.marking.separation import Separations
from panelart.messages import Message
from panelart.messages import press as said
from panelart.model.panel import Ink
from panelart.model.printing import Gradient, Photo, Pins, Solid
from panelart.processes.process import Emulsion, Positives

SOLID = Paint(colour="#000000", plate="Black")
"""Everything on a film is on the process plate Black, which every recorder has and no profile touches."""

MARK = 6.0
"""Length of a register mark's lines, mm; its ring has half of it. Lines of 0.1 mm, off the trim by OFF."""

MARK_LINE = 0.1
OFF = 5.0
NOTE_HEIGHT = 3.0
EDGE = 3.0

BARS = (200.0, 100.0, 50.0, 20.0)
"""Lengths of the scale bar, mm: the longest that has room beside the register mark."""


def positives(plates: Separations, kind: Positives) -> dict[str, Drawing]:
    """The film positives by name of file: base first, then the inks in the order of printing, varnish last."""
    panel = plates.layout.panel
    names = panel.marking.printing.plates
    laid: list[tuple[str, str, str, tuple[Layer, ...]]] = []
    base = loops_of(plates.laid_base.ground)
    if base:
        items = (Item(shape=base, fill=SOLID, label=str(said.base_area(area=square_cm(plates.laid_base.ground)))),)
        laid.append((BASE, names.base, "white", (Layer(name=BASE, items=items, step=Step.WHITE),)))
    for plate in plates.inks:
        layers = _of_ink(plates, plate.ink)
        if any(layer.items for layer in layers):
            laid.append((plate.ink.file_slug, plate.ink.name, plate.ink.colour, layers))
    varnish = loops_of(plates.varnish)
    if varnish:
        items = (Item(shape=varnish, fill=SOLID, label=str(said.varnish_area(area=square_cm(plates.varnish)))),)
        laid.append((VARNISH, names.varnish, "clear", (Layer(name=VARNISH, items=items, step=Step.VARNISH),)))
    made = {
        f"{kind.file}-{slug}": _positive(plates, name, colour, layers, number, len(laid))
        for number, (slug, name, colour, layers) in enumerate(laid, 1)
    }
    # One page for the set: laid on each other by their edges, the films are in register.
    page = Box.around(drawing.page for drawing in made.values()) if made else None
    return {name: drawing if page is None else replace(drawing, page=page) for name, drawing in made.items()}


def _of_ink(plates: Separations, ink: Ink) -> tuple[Layer, ...]:
    """What one ink lays down, in black; its share of a run of colour keeps its tints."""
    own = next(plate for plate in plates.inks if plate.ink == ink)
    shares = (
        _share_of(ink, item, laid.background.colour)
        for item, laid in zip(background_items(plates, plated=True), plates.laid_down, strict=True)
    )
    grounds = tuple(_blackened(item) for item in shares if item is not None)
    found = [Layer(name=BACKGROUND, items=grounds)] if grounds else []
    items = tuple(_blackened(item) for item in ink_items(own, plated=True))
    return (*found, Layer(name=legend_layer(ink), items=items))


def _share_of(ink: Ink, item: Item, colour: Solid | Gradient | Photo) -> Item | None:
    """What of a background is on the film of one ink."""
    match colour:
        case Solid(ink=name) | Photo(ink=name):
            return item if name == ink.name else None
        case Gradient(stops=stops):
            if item.ramp is None or not any(stop.ink == ink.name for stop in stops):
                return None
            return replace(item, ramp=_alone(item.ramp, ink.plate))


def _alone(ramp: Ramp, plate: str) -> Ramp:
    """A run of colour on one of its plates: where another ink is, there is none of this one."""
    own = next(paint for _, paint in ramp.stops if paint.plate == plate)
    stops = tuple((at, paint if paint.plate == plate else replace(own, tint=0.0)) for at, paint in ramp.stops)
    return replace(ramp, stops=stops)


def _blackened(item: Item) -> Item:
    def black(paint: Paint | None) -> Paint | None:
        return None if paint is None else replace(SOLID, tint=paint.tint)

    ramp, picture = item.ramp, item.picture
    if ramp is not None:
        ramp = replace(ramp, stops=tuple((at, replace(SOLID, tint=paint.tint)) for at, paint in ramp.stops))
    if picture is not None:
        picture = replace(picture, ink=black(picture.ink))
    return replace(item, fill=black(item.fill), stroke=black(item.stroke), ramp=ramp, picture=picture)


def side_of(emulsion: Emulsion) -> Message:
    """Which way a film lies, as it is written on it and on the build sheet."""
    return said.emulsion_up() if emulsion is Emulsion.UP else said.emulsion_down()


def _positive(
    plates: Separations, name: str, colour: str, layers: tuple[Layer, ...], number: int, count: int
) -> Drawing:
    panel = plates.layout.panel
    trim = panel.outline.bounds
    past = bleed(panel) or 0.0
    off = OFF + past
    emulsion = panel.marking.printing.emulsion
    noted = said.toned_film_note if any(_is_toned(item) for layer in layers for item in layer.items) else said.film_note
    what = said.film_lettering(number=number, films=count, plate=name, colour=colour)
    parts = (identity(panel), str(what), str(side_of(emulsion)), "1:1")
    words = sayable(" · ".join(word for word in parts if word))
    note_at = Point(trim.left, trim.bottom - off - MARK - 2 * NOTE_HEIGHT)
    note = Item(shape=centre_lines(words, note_at, NOTE_HEIGHT), stroke=SOLID, width=NOTE_HEIGHT / 10, label=words)
    marks = (*_marks(trim, off), *_measures(trim, off))
    pins = panel.marking.printing.pins
    if pins is not None:
        below = bounds(note.shape).bottom - NOTE_HEIGHT / 2 - _reach(pins)
        marks += tuple(_punched(pins, Point(trim.centre.x, below)))
    page = Box.around([bounds(note.shape), *(bounds(mark.shape) for mark in marks)]).grown(EDGE)
    drawing = Drawing(
        title=str(said.film_title(panel=panel.title, number=number, films=count, plate=name)),
        note=f"{noted(plate=name, colour=colour, side=side_of(emulsion))}{stamp(panel)}",
        page=page,
        trim=trim,
        layers=(*layers, Layer(name=REGISTER, items=marks), Layer(name=NOTES, items=(note,), step=Step.LEGEND)),
        number=panel.number,
        revision=panel.revision,
        spec=panel.fingerprint,
        bleed=past or None,
    )
    return mirrored(drawing) if emulsion is Emulsion.DOWN else drawing


def _punched(pins: Pins, middle: Point) -> Iterator[Item]:
    """Where a film is punched for the pins, below all that is written: a ring and a cross that reaches past it."""
    reach = _reach(pins)
    for number, side in enumerate((-1, 1), 1):
        at = Point(middle.x + side * pins.apart / 2, middle.y)
        yield Item(
            shape=(
                *shape_of(circle(pins.diameter, at)),
                *open_shape((Line(Point(at.x - reach, at.y), Point(at.x + reach, at.y)),)),
                *open_shape((Line(Point(at.x, at.y - reach), Point(at.x, at.y + reach)),)),
            ),
            stroke=SOLID,
            width=MARK_LINE,
            label=str(said.film_pin(number=number, diameter=pins.diameter)),
            name=f"pin-{number}",
        )


def _reach(pins: Pins) -> float:
    """How far the cross of a pin reaches from its centre, mm."""
    return pins.diameter / 2 + MARK / 2


def _measures(trim: Box, off: float) -> list[Item]:
    """What proves a film over its upper edge: a solid field to measure density on, and a bar to measure scale by."""
    foot = trim.top + off
    field_box = Box(trim.left, foot, trim.left + MARK, foot + MARK)
    field = Item(
        shape=shape_of(rectangle(MARK, MARK, field_box.centre)),
        fill=SOLID,
        label=str(said.density_field()),
        name="density",
    )
    # Clear of the register mark in the middle.
    room = trim.width / 2 - 2 * MARK
    length = next((bar for bar in BARS if bar <= room), None)
    if length is None:
        return [field]
    left, right = Point(trim.right - length, foot), Point(trim.right, foot)
    ends = [Line(at, at.moved(Vector(0.0, MARK / 2))) for at in (left, right)]
    bar = open_shape((ends[0],), (Line(left, right),), (ends[1],))
    label = str(said.film_scale_bar(length=length))
    words = centre_lines(sayable(label), Point(left.x + 1.0, foot + 1.0), NOTE_HEIGHT)
    return [
        field,
        Item(shape=bar, stroke=SOLID, width=MARK_LINE, label=label, name="scale-bar"),
        Item(shape=words, stroke=SOLID, width=NOTE_HEIGHT / 10, label=label),
    ]


def _is_toned(item: Item) -> bool:
    """Whether some of it is neither black nor bare: a film of it must be screened before a plate is exposed."""
    paints = [paint for paint in (item.fill, item.stroke) if paint is not None]
    return item.ramp is not None or item.picture is not None or any(paint.tint < 1.0 for paint in paints)


def _marks(trim: Box, off: float) -> list[Item]:
    """A cross in a ring off the middle of each side; the lower one has a dot to its right."""
    middle = trim.centre
    reach = off + MARK / 2
    places = (
        Point(middle.x, trim.bottom - reach),
        Point(middle.x, trim.top + reach),
        Point(trim.left - reach, middle.y),
        Point(trim.right + reach, middle.y),
    )
    found = [
        Item(
            shape=(
                *open_shape((Line(Point(at.x - MARK / 2, at.y), Point(at.x + MARK / 2, at.y)),)),
                *open_shape((Line(Point(at.x, at.y - MARK / 2), Point(at.x, at.y + MARK / 2)),)),
                *shape_of(circle(MARK / 2, at)),
            ),
            stroke=SOLID,
            width=MARK_LINE,
            label=str(said.register_mark(number=number)),
            name=f"register-{number}",
        )
        for number, at in enumerate(places, 1)
    ]
    dot = shape_of(circle(MARK / 4, Point(places[0].x + MARK, places[0].y)))
    return [*found, Item(shape=dot, fill=SOLID, label=str(said.orientation_dot()), name="register-dot")]


# --- mirrored


def mirrored(drawing: Drawing) -> Drawing:
    """A drawing as it is seen from behind: left and right change places about the middle of its trim."""
    about = 2 * drawing.trim.centre.x

    def box(old: Box) -> Box:
        return Box(about - old.right, old.bottom, about - old.left, old.top)

    layers = tuple(
        replace(layer, items=tuple(_mirrored_item(item, about) for item in layer.items)) for layer in drawing.layers
    )
    return replace(
        drawing,
        page=box(drawing.page),
        trim=box(drawing.trim),
        layers=layers,
        # The lower-left corner stays the lower-left corner of what is seen; a drawing's origin turns over with it.
        zero=drawing.zero if drawing.zero == ORIGIN else _over(drawing.zero, about),
        datum=_over(drawing.datum, about),
    )


def _mirrored_item(item: Item, about: float) -> Item:
    """Words become outlines, since there is no text that runs backwards."""
    ramp, picture = item.ramp, item.picture
    if ramp is not None:
        ramp = replace(ramp, start=_over(ramp.start, about), end=_over(ramp.end, about))
    if picture is not None:
        old = picture.box
        width = picture.width * (3 if picture.ink is None else 1)
        rows = (picture.pixels[start : start + width] for start in range(0, len(picture.pixels), width))
        step = 3 if picture.ink is None else 1
        pixels = b"".join(b"".join(row[at : at + step] for at in range(len(row) - step, -1, -step)) for row in rows)
        picture = replace(picture, pixels=pixels, box=Box(about - old.right, old.bottom, about - old.left, old.top))
    return replace(item, shape=mirrored_shape(item.outline, about), words=None, ramp=ramp, picture=picture)


def mirrored_shape(shape: Shape, about: float) -> Shape:
    """A shape with left and right changed; `about` is twice the x of the middle."""
    return tuple(Loop(tuple(_mirrored_curve(curve, about) for curve in loop.curves), loop.closed) for loop in shape)


def _mirrored_curve(curve: Curve, about: float) -> Curve:
    match curve:
        case Line(start=start, end=end):
            return Line(_over(start, about), _over(end, about))
        case Cubic(start=start, first=first, second=second, end=end):
            return Cubic(*(_over(point, about) for point in (start, first, second, end)))
        case Arc(centre=centre, radius=radius, start_deg=start_deg, sweep_deg=sweep_deg):
            return Arc(_over(centre, about), radius, 180.0 - start_deg, -sweep_deg)


def _over(point: Point, about: float) -> Point:
    return Point(about - point.x, point.y)
