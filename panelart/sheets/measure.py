"""Dimension lines: extension lines, a line with arrowheads, a figure over it; and leaders to round holes."""

from __future__ import annotations

from panelart.drawing.representation import Item, Lettered
from panelart.geometry import Box, Line, Point, Vector, direction
from panelart.lettering.look import Align
from panelart.lettering.outline import Loop, bounds, open_shape
from panelart.messages import Said
from panelart.sheets.paper import BLACK, FINE, TEXT, width_of, words

ARROW = 2.0
"""Length of an arrowhead, mm on paper; a third as wide, as ISO 129-1 draws it (from memory)."""

FIGURE = TEXT
"""Cap height of the figures, mm on paper."""

OVER = 0.6
"""How far extension lines pass the dimension line, and how far off the measured edge they begin, mm on paper."""

CLEAR = 1.2
"""From an extension line to a figure that stands beside it, for want of room between the two, mm on paper."""


def figure(value: float) -> str:
    """A length as a drawing shows it: at most two decimals, no zeros behind them, a true minus sign."""
    text = f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")
    return text.replace("-", "\N{MINUS SIGN}")


def across(left: Point, right: Point, y: float, text: Said, *, leftwards: bool = False) -> list[Item]:
    """The sideways distance of two points, measured on a line at height `y`.

    A figure that has no room between them stands at the right of both, or at the left where it is told to.
    """
    items = [_line(Point(end.x, _off(end.y, y)), Point(end.x, _past(end.y, y))) for end in (left, right)]
    beside = _beside(text, right.x - left.x)
    ends = Point(left.x, y), Point(right.x, y)
    items += _arrowed(*(ends[::-1] if leftwards else ends), beside)
    if beside and leftwards:
        at, align = Point(left.x - CLEAR, y + 0.6), Align.RIGHT
    elif beside:
        at, align = Point(right.x + CLEAR, y + 0.6), Align.LEFT
    else:
        at, align = Point((left.x + right.x) / 2, y + 0.6), Align.CENTRE
    items.append(words(text, at, height=FIGURE, align=align).item)
    return items


def upright(bottom: Point, top: Point, x: float, text: Said) -> list[Item]:
    """The upright distance of two points, measured on a line at `x`; the figure is read from the right."""
    items = [_line(Point(_off(end.x, x), end.y), Point(_past(end.x, x), end.y)) for end in (bottom, top)]
    beside = _beside(text, top.y - bottom.y)
    items += _arrowed(Point(x, bottom.y), Point(x, top.y), beside)
    if beside:
        at, align = Point(x - 0.6, top.y + CLEAR), Align.LEFT
    else:
        at, align = Point(x - 0.6, (bottom.y + top.y) / 2), Align.CENTRE
    items.append(words(text, at, height=FIGURE, align=align, turn=90.0).item)
    return items


def _beside(text: Said, length: float) -> float:
    """How far a figure reaches past the end of what it measures, 0 where it has room between the extension lines."""
    width = width_of(text, FIGURE)
    return 0.0 if width + 2 * 0.4 <= length else CLEAR + width


def leader(rim: Point, deg: float, length: float, text: Said) -> list[Item]:
    """An arrow onto the rim of a round, coming from the direction `deg` (to the right), and the text at its tail."""
    knee = rim.moved(direction(deg).scaled(length))
    tail = Point(knee.x + 1.0, knee.y)
    return [
        Item(shape=open_shape((Line(tail, knee), Line(knee, rim))), stroke=BLACK, width=FINE),
        _head(rim, deg),
        words(text, Point(tail.x + 0.5, tail.y - FIGURE / 2), height=FIGURE).item,
    ]


def extent(items: list[Item]) -> Box:
    """The box of everything drawn; lines count as their middles. Raises ValueError when there is nothing."""
    boxes = [_ink(item.words) for item in items if item.words is not None]
    loops = [loop for item in items for loop in item.shape]
    return Box.around((*boxes, bounds(loops)) if loops else boxes)


def _ink(words: Lettered) -> Box:
    """The box of set words where they stand; of turned ones that of their turned box."""
    return Box.around(
        words.at.moved(Vector(corner.x * words.scale, corner.y * words.scale).turned(words.turn))
        for corner in words.setting.box.corners
    )


def _arrowed(start: Point, end: Point, beside: float = 0.0) -> list[Item]:
    """A line with heads inside, or with heads that point at it from outside where it is short.

    It goes on past its end under a figure that stands `beside` it.
    """
    along = end.minus(start)
    length, deg = along.length, along.deg
    if length >= 4 * ARROW:
        return [_line(start, end), _head(start, deg), _head(end, deg + 180.0)]
    out = direction(deg)
    before, after = start.moved(out.scaled(-2 * ARROW)), end.moved(out.scaled(max(2 * ARROW, beside)))
    return [_line(before, after), _head(start, deg + 180.0), _head(end, deg)]


def _head(tip: Point, deg: float) -> Item:
    """A filled head whose tip is at a point and whose tail lies in the direction `deg`."""
    tail = tip.moved(direction(deg).scaled(ARROW))
    side = direction(deg + 90.0).scaled(ARROW / 6)
    corners = (tip, tail.moved(side), tail.moved(side.scaled(-1.0)))
    lines = tuple(Line(one, other) for one, other in zip(corners, corners[1:] + corners[:1], strict=True))
    return Item(shape=(Loop(lines),), fill=BLACK)


def _line(start: Point, end: Point) -> Item:
    return Item(shape=open_shape((Line(start, end),)), stroke=BLACK, width=FINE)


def _off(measured: float, line: float) -> float:
    return measured + OVER if line > measured else measured - OVER


def _past(measured: float, line: float) -> float:
    return line + OVER if line > measured else line - OVER
