"""The test strip: lines, gaps and lettering from too fine to easy, printed once to see what a shop really holds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.drawing.layers import LEGEND, OUTLINE
from panelart.drawing.representation import Drawing, Item, Layer, Lettered, Paint
from panelart.geometry import Box, Line, Point, Vector, rectangle
from panelart.lettering.cuts import MEDIUM
from panelart.lettering.documents import LOWEST
from panelart.lettering.look import Align, Look, Plate
from panelart.lettering.outline import open_shape, shape_of
from panelart.lettering.setting import set_words
from panelart.messages import press as said
from panelart.model.panel import Ink
from panelart.processes.process import Process

WIDTHS: Final = (0.06, 0.08, 0.10, 0.12, 0.15, 0.18, 0.20, 0.25, 0.30, 0.35, 0.40, 0.50)
"""Lines and gaps, mm: steps of about a quarter, as the R10 series of ISO 3 has them, rounded."""

HEIGHTS: Final = (0.8, 1.0, 1.2, 1.5, 1.8, 2.0, 2.5, 3.0, 3.5)
"""Heights of capitals, mm; ISO 3098-0 begins at 1.8. They are samples: what is read is lettered at 2.5."""

SAMPLE: Final = "R8S&3"
"""Letters that close up first, and figures that are taken for each other."""

LIMITS: Final = ("line_minimum", "gap_minimum", "cap_height_minimum")
"""What is read off the strip, as shop files call it."""

COLUMN: Final = 14.5
LEFT: Final = 44.0
LABEL: Final = LOWEST
BAR: Final = 100.0

_PAGE: Final = Box(0.0, 0.0, LEFT + len(WIDTHS) * COLUMN + 8.0, 118.0)


def ink_strip(process: Process, ink: Ink) -> Drawing:
    """The strip in one ink, 1:1, to be printed as panels are: on the same coat, in the same machine."""
    paint = Paint(colour=ink.colour, plate=ink.plate)
    items = tuple(_items(process, paint))
    edge = Item(
        shape=shape_of(rectangle(_PAGE.width, _PAGE.height, _PAGE.centre)),
        stroke=Paint(colour="#C2187A", plate="cut"),
        width=0.1,
        label=str(said.strip_edge()),
    )
    return Drawing(
        title=str(said.strip_title(process=process.title.lower(), ink=ink.name)),
        note=str(said.strip_note(process=process.title, ink=ink.name)),
        page=_PAGE.grown(5.0),
        trim=_PAGE,
        layers=(Layer(name=f"{LEGEND}-{ink.slug}", items=items), Layer(name=OUTLINE, items=(edge,))),
    )


def _items(process: Process, paint: Paint) -> Iterator[Item]:
    top = _PAGE.top - 9.0
    yield _words(str(said.strip_lettering(process=process.title.lower())), Point(6.0, top), 3.0, paint)
    yield _words(str(said.strip_instruction()), Point(LEFT + 60.0, top), LABEL, paint)
    yield from _row("line_minimum", Point(6.0, top - 14.0), paint)
    for column, width in enumerate(WIDTHS):
        yield from _lines(Point(LEFT + column * COLUMN, top - 18.0), width, paint)
    yield from _row("gap_minimum", Point(6.0, top - 38.0), paint)
    for column, width in enumerate(WIDTHS):
        yield from _gaps(Point(LEFT + column * COLUMN, top - 42.0), width, paint)
    yield from _row("cap_height_minimum", Point(6.0, top - 62.0), paint)
    place = LEFT
    for height in HEIGHTS:
        setting = set_words(SAMPLE, MEDIUM.font, height, Align.LEFT)
        yield _words(SAMPLE, Point(place, top - 62.0), height, paint)
        yield _left_out(Point(place, top - 72.0), height, paint)
        yield _words(f"{height:g}", Point(place, top - 78.0), LABEL, paint)
        place += setting.box.width + 6.5
    yield _words(str(said.reversed_out()), Point(6.0, top - 72.0), LABEL, paint)
    yield from _bar(Point(LEFT, 8.0), paint)


def _row(limit: str, at: Point, paint: Paint) -> Iterator[Item]:
    yield _words(limit.replace("_", " "), at, LABEL, paint)
    yield _words("mm", at.moved(Vector(0.0, -1.6 * LABEL)), LABEL, paint)


def _lines(at: Point, width: float, paint: Paint) -> Iterator[Item]:
    """Five lines level, five upright and a slanting one, each as wide as the gap beside them is safe."""
    pitch = 1.4
    for number in range(4):
        y = at.y + 10.0 - number * pitch
        yield _line(Point(at.x, y), Point(at.x + 5.0, y), width, paint)
        x = at.x + 6.5 + number * pitch
        yield _line(Point(x, at.y + 5.8), Point(x, at.y + 10.0), width, paint)
    yield _line(Point(at.x, at.y + 0.8), Point(at.x + 10.7, at.y + 4.2), width, paint)
    yield _words(f"{width:g}", Point(at.x + 2.0, at.y - 1.0 - LABEL), LABEL, paint)


def _gaps(at: Point, width: float, paint: Paint) -> Iterator[Item]:
    """Solid blocks with bare lines between them, level and upright."""
    block = 1.6
    for number in range(3):
        y = at.y + 1.0 + number * (block + width)
        yield _block(Box(at.x, y, at.x + 5.0, y + block), paint)
        x = at.x + 6.0 + number * (block + width)
        yield _block(Box(x, at.y + 1.0, x + block, at.y + 6.0), paint)
    yield _words(f"{width:g}", Point(at.x + 2.0, at.y - 1.0 - LABEL), LABEL, paint)


def _line(start: Point, end: Point, width: float, paint: Paint) -> Item:
    return Item(
        shape=open_shape((Line(start, end),)), stroke=paint, width=width, label=str(said.sample_line(width=width))
    )


def _block(box: Box, paint: Paint) -> Item:
    return Item(shape=shape_of(rectangle(box.width, box.height, box.centre)), fill=paint)


def _words(text: str, at: Point, height: float, paint: Paint) -> Item:
    words = Lettered(setting=set_words(text, MEDIUM.font, height, Align.LEFT), at=at)
    return Item(shape=(), words=words, fill=paint, label=text)


def _left_out(at: Point, height: float, paint: Paint) -> Item:
    """The sample left out of a field."""
    setting = set_words(SAMPLE, MEDIUM.font, height, Align.LEFT, Look(plate=Plate(radius=0.3, padding=0.8)))
    return Item(
        shape=(), words=Lettered(setting=setting, at=at), fill=paint, label=str(said.sample_reversed_out(sample=SAMPLE))
    )


def _bar(at: Point, paint: Paint) -> Iterator[Item]:
    """A length to check the printer's scale by."""
    yield _line(at, at.moved(Vector(BAR, 0.0)), 0.5, paint)
    for end in (at, at.moved(Vector(BAR, 0.0))):
        yield _line(end.moved(Vector(0.0, -1.5)), end.moved(Vector(0.0, 1.5)), 0.25, paint)
    yield _words(str(said.scale_bar(length=BAR)), at.moved(Vector(3.0, 2.0)), LABEL, paint)
