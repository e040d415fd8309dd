"""Paper, and what is set on it: words, lines, boxes and tables in paper millimetres, y up from the lower left."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drawing.representation import Drawing, Item, Layer, Lettered, Paint
from panelart.drawing.scaling import Scaling
from panelart.geometry import Box, Line, Point, Vector, circle, rectangle
from panelart.lettering.documents import LOWEST, PLAIN, STRONG, sayable
from panelart.lettering.look import Align
from panelart.lettering.outline import open_shape, shape_of
from panelart.lettering.setting import Setting, set_words
from panelart.messages import Said

BLACK = Paint(colour="#1B1E22")
GREY = Paint(colour="#7B828A")
PALE = Paint(colour="#C9CED3")
WASH = Paint(colour="#EEF0F2")
WHITE = Paint(colour="#FFFFFF")
CAUTION = Paint(colour="#FFF6E5")
CAUTION_EDGE = Paint(colour="#B26A00")

FINE = 0.13
MEDIUM = 0.25
HEAVY = 0.5
"""Line widths, mm: three of the series of ISO 128-20 (0.13 0.18 0.25 0.35 0.5 0.7), from memory."""

TEXT = LOWEST
HEADING = 3.5
"""Cap heights of running text and headings, mm: the next two of ISO 3098-1 (2.5 3.5 5 7 10 14 20)."""

WORD_GAP = 0.67
"""Most white between two words over cap height in the face of papers: words are measured once, and lines added up."""

BOLDER = 1.26
"""How much wider bold words are at most than plain ones, in which lines are measured."""

LINE_PITCH = 1.6
"""Base-line pitch of running text over its cap height."""

SIZES = {"A4": (297.0, 210.0), "A3": (420.0, 297.0), "A2": (594.0, 420.0), "A1": (841.0, 594.0)}
"""Trimmed sheets lying, ISO 216."""


class Words(Struct, frozen=True):
    """Set words and where they go."""

    item: Item
    box: Box


def words(
    text: Said,
    at: Point,
    *,
    height: float = TEXT,
    paint: Paint = BLACK,
    align: Align = Align.LEFT,
    bold: bool = False,
    turn: float = 0.0,
) -> Words:
    """One line with its base line's start, middle or end at a point. `text` must leave ink."""
    said = str(text)
    setting = _set(said, height, align, bold=bold)
    along = {
        Align.LEFT: setting.box.left,
        Align.CENTRE: setting.box.centre.x,
        Align.RIGHT: setting.box.right,
    }[align]
    start = at.moved(Vector(-along, 0.0).turned(turn))
    lettered = Lettered(setting=setting, at=start, turn=turn)
    item = Item(shape=(), words=lettered, fill=paint, label=said.replace("\n", " "))
    return Words(item, setting.box.moved(Vector(start.x, start.y)))


def width_of(text: Said, height: float = TEXT, *, bold: bool = False) -> float:
    """How wide the ink of one line is, in mm."""
    said = str(text)
    return _set(said, height, Align.LEFT, bold=bold).box.width if said.strip() else 0.0


def _set(text: str, height: float, align: Align, *, bold: bool) -> Setting:
    return set_words(sayable(text), (STRONG if bold else PLAIN).font, height, align)


def lines_of(text: Said, width: float, height: float = TEXT) -> list[str]:
    """Text broken at spaces into lines that fit a width; a word longer than a line is broken where it must be."""
    lines: list[str] = []
    for paragraph in str(text).split("\n"):
        line, long = "", 0.0
        for word in paragraph.split():
            wide = width_of(word, height)
            if line and long + WORD_GAP * height + wide <= width:
                line, long = f"{line} {word}", long + WORD_GAP * height + wide
                continue
            if line:
                lines.append(line)
            *whole, line = _pieces(word, width, height)
            long = width_of(line, height)
            lines += whole
        lines.append(line)
    return lines


def _pieces(word: str, width: float, height: float) -> list[str]:
    """A word in pieces that each fit a width, as few as may be."""
    pieces: list[str] = []
    while width_of(word, height) > width and len(word) > 1:
        fits = max((count for count in range(1, len(word)) if width_of(word[:count], height) <= width), default=1)
        pieces.append(word[:fits])
        word = word[fits:]
    return [*pieces, word]


def paragraph(text: Said, top_left: Point, width: float, *, height: float = TEXT, paint: Paint = BLACK) -> list[Item]:
    """Running text; its first capitals touch `top_left`."""
    return [
        words(
            line, Point(top_left.x, top_left.y - height - number * height * LINE_PITCH), height=height, paint=paint
        ).item
        for number, line in enumerate(lines_of(text, width, height))
        if line
    ]


def paragraph_height(text: Said, width: float, height: float = TEXT) -> float:
    """How high running text stands, in mm."""
    count = len(lines_of(text, width, height))
    return height + (count - 1) * height * LINE_PITCH


def in_box(
    text: Said, at: Point, width: float, height: float, *, bold: bool = False, paint: Paint = BLACK
) -> list[Item]:
    """One line from a point that fits a width: set smaller down to the height of running text, then shortened."""
    if not str(text).strip():
        return []
    wide = width_of(text, height, bold=bold)
    small = height if wide <= width else max(height * width / wide, TEXT)
    return [words(fitted(text, width, small, bold=bold), at, height=small, bold=bold, paint=paint).item]


def heading(title: Said, remark: Said, top_left: Point, width: float) -> tuple[list[Item], float]:
    """A heading with its remark beside it, or below it where it is too long for that; and the height that both take."""
    base = Point(top_left.x, top_left.y - HEADING)
    head = words(title, base, height=HEADING, bold=True)
    items = [head.item]
    if not str(remark).strip():
        return items, HEADING + 3.0
    left = head.box.right + 3.0
    if width_of(remark) <= top_left.x + width - left:
        return [*items, words(remark, Point(left, base.y), paint=GREY).item], HEADING + 3.0
    below = top_left.y - HEADING - 2.0
    items += paragraph(remark, Point(top_left.x, below), width, paint=GREY)
    return items, HEADING + 2.0 + paragraph_height(remark, width) + 3.0


def rule(a: Point, b: Point, *, width: float = FINE, paint: Paint = BLACK, dash: tuple[float, ...] = ()) -> Item:
    """A straight line."""
    return Item(shape=open_shape((Line(a, b),)), stroke=paint, width=width, dash=dash)


def panel_box(box: Box, *, fill: Paint | None = None, stroke: Paint | None = BLACK, width: float = FINE) -> Item:
    """A rectangle, filled or lined."""
    return Item(shape=shape_of(rectangle(box.width, box.height, box.centre)), fill=fill, stroke=stroke, width=width)


def disc(
    at: Point, diameter: float, *, fill: Paint | None = None, stroke: Paint | None = None, width: float = FINE
) -> Item:
    """A circle, filled or lined."""
    return Item(shape=shape_of(circle(diameter, at)), fill=fill, stroke=stroke, width=width)


class Column(Struct, frozen=True, kw_only=True):
    """A column of a table: its heading, its width in mm, and to which side its cells are set."""

    heading: Said
    width: float
    align: Align = Align.LEFT


ROW = TEXT * 2.2


def table_height(rows: int) -> float:
    """Height of a table of one-line rows with its heading row."""
    return ROW * (rows + 1)


class Further(tuple[Said, ...]):
    """A further line of the row above it: no rule stands between the two."""

    __slots__ = ()


def unshortened(
    columns: Sequence[Column], rows: Sequence[Sequence[Said]], room: float
) -> tuple[tuple[Column, ...], list[list[Sequence[Said]]]]:
    """The columns as wide as what is in them, and each row as its lines: nothing is shortened where it can be broken.

    Columns keep at least their own width while there is room for all, `room` mm; where there is not, those that have
    more than they need give it up, then the widest of words are broken.
    """
    needed = [
        max(width_of(column.heading, bold=True), *(width_of(row[place]) for row in rows), 0.0) + PADDING
        for place, column in enumerate(columns)
    ]
    widths = [max(column.width, wide) for column, wide in zip(columns, needed, strict=True)]
    if math.fsum(widths) > room:
        filled = [any(str(row[place]).strip() for row in rows) for place in range(len(columns))]
        widths = [least if has else wide for least, has, wide in zip(needed, filled, widths, strict=True)]
        widths = _narrowed(columns, widths, room)
    made = tuple(replace(column, width=wide) for column, wide in zip(columns, widths, strict=True))
    return made, [_lines_of_row(made, row) for row in rows]


PADDING = 3.0
"""White at both sides of what is in a cell, mm together."""


def _narrowed(columns: Sequence[Column], widths: Sequence[float], room: float) -> list[float]:
    """Widths that fit a room: the widest columns of words give way first, none below its heading."""
    found = list(widths)
    for place in sorted(range(len(found)), key=lambda place: -found[place]):
        over = math.fsum(found) - room
        if over > 0.0 and columns[place].align is Align.LEFT:
            heading = width_of(columns[place].heading, bold=True) + PADDING
            found[place] = max(found[place] - over, heading, min(found[place], BROKEN))
    return found


BROKEN = 24.0
"""Minimum width of a column whose words are broken, mm."""


def _lines_of_row(columns: Sequence[Column], row: Sequence[Said]) -> list[Sequence[Said]]:
    """The row as it is, or its cells broken into lines under each other."""
    cells = [
        [cell]
        if column.align is not Align.LEFT or width_of(cell) <= column.width - PADDING + SAME
        else lines_of(cell, column.width - PADDING)
        for column, cell in zip(columns, row, strict=True)
    ]
    count = max(map(len, cells))
    lines = [tuple(cell[number] if number < len(cell) else "" for cell in cells) for number in range(count)]
    return [lines[0], *map(Further, lines[1:])]


SAME = 1e-6
"""What sums of widths may be off by, mm."""


def table(columns: Sequence[Column], rows: Iterable[Sequence[Said]], top_left: Point) -> list[Item]:
    """A table of one-line rows. Cells too long for their column are shortened with an ellipsis."""
    items: list[Item] = []
    total = math.fsum(column.width for column in columns)
    body = list(rows)
    top = top_left.y
    items.append(panel_box(Box(top_left.x, top - ROW, top_left.x + total, top), fill=WASH, stroke=None))
    for number, row in enumerate([tuple(column.heading for column in columns), *body]):
        base = top - ROW * (number + 1) + (ROW - TEXT) / 2
        x = top_left.x
        for column, cell in zip(columns, row, strict=True):
            if str(cell).strip():
                at = {
                    Align.LEFT: Point(x + 1.0, base),
                    Align.CENTRE: Point(x + column.width / 2, base),
                    Align.RIGHT: Point(x + column.width - 1.0, base),
                }[column.align]
                text = fitted(cell, column.width - PADDING + SAME, bold=number == 0)
                items.append(words(text, at, align=column.align, bold=number == 0).item)
            x += column.width
        if number == len(body) or not isinstance(body[number], Further):
            y = top - ROW * (number + 1)
            items.append(rule(Point(top_left.x, y), Point(top_left.x + total, y), paint=PALE if number else BLACK))
    items.append(rule(Point(top_left.x, top), Point(top_left.x + total, top)))
    return items


def side_by_side(
    columns: Sequence[Column], tables: Sequence[Sequence[Sequence[Said]]], top_left: Point, *, gutter: float
) -> list[Item]:
    """Tables beside each other, each of some rows, `gutter` mm apart."""
    across = math.fsum(column.width for column in columns) + gutter
    items: list[Item] = []
    for number, rows in enumerate(tables):
        items += table(columns, rows, top_left.moved(Vector(number * across, 0.0)))
    return items


def fitted(text: Said, width: float, height: float = TEXT, *, bold: bool = False) -> str:
    """The text, shortened with an ellipsis where it is wider than there is room."""
    said = str(text)
    if width_of(said, height, bold=bold) <= width:
        return said
    while said and width_of(said + "…", height, bold=bold) > width:
        said = said[:-1].rstrip()
    return said + "…"


def stacked(pages: Sequence[Drawing]) -> Drawing:
    """Pages of one size under each other in one drawing, for formats that have no pages."""
    first = pages[0]
    high = first.page.height
    layers: dict[str, Layer] = {}
    for number, page in enumerate(pages):
        shift = Scaling(1.0, Point(0.0, (len(pages) - 1 - number) * high))
        for layer in page.layers:
            items = tuple(shift.item(item) for item in layer.items)
            known = layers.get(layer.name)
            layers[layer.name] = replace(layer, items=items if known is None else (*known.items, *items))
    box = Box(0.0, 0.0, first.page.width, high * len(pages))
    return replace(first, page=box, trim=box, layers=tuple(layers.values()))
