"""Dimension lines: extension lines, a line with arrowheads, a figure over it; and leaders to round holes."""

from __future__ import annotations

from panelart.drawing.representation import Item, Lettered
from panelart.geometry import Box, Line, Point, Vector, direction
from panelart.lettering.look import Align
from panelart.lettering.outline import Loop, bounds, open_shape
from panelart.sheets.paper import BLACK, FINE, words

ARROW = 1.5
"""Length of an arrowhead, mm on paper; a third as wide, as ISO 129-1 draws it (from memory)."""

FIGURE = 1.5
"""Cap height of the figures, mm on paper."""

OVER = 0.6
"""How far extension lines pass the dimension line, and how far off the measured edge they begin, mm on paper."""


def figure(value: float) -> str:
    """A length as a drawing shows it: at most two decimals, no zeros behind them, a true minus sign."""
    text = f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")
    return text.replace("-", "\N{MINUS SIGN}")


def across(left: Point, right: Point, y: float, text: str) -> list[Item]:
    """The sideways distance of two points, measured on a line at height `y`."""
    items = [_line(Point(end.x, _off(end.y, y)), Point(end.x, _past(end.y, y))) for end in (left, right)]
    items += _arrowed(Point(left.x, y), Point(right.x, y))
    middle = (left.x + right.x) / 2
    items.append(words(text, Point(middle, y + 0.6), height=FIGURE, align=Align.CENTRE).item)
    return items


def upright(bottom: Point, top: Point, x: float, text: str) -> list[Item]:
    """The upright distance of two points, measured on a line at `x`; the figure is read from the right."""
    items = [_line(Point(_off(end.x, x), end.y), Point(_past(end.x, x), end.y)) for end in (bottom, top)]
    items += _arrowed(Point(x, bottom.y), Point(x, top.y))
    middle = (bottom.y + top.y) / 2
    at = Point(x - 0.6, middle)
    items.append(words(text, at, height=FIGURE, align=Align.CENTRE, turn=90.0).item)
    return items


def leader(rim: Point, deg: float, length: float, text: str) -> list[Item]:
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


def _arrowed(start: Point, end: Point) -> list[Item]:
    """A line with heads inside, or with heads that point at it from outside where it is short."""
    along = end.minus(start)
    length, deg = along.length, along.deg
    if length >= 4 * ARROW:
        return [_line(start, end), _head(start, deg), _head(end, deg + 180.0)]
    out = direction(deg).scaled(2 * ARROW)
    before, after = start.moved(out.scaled(-1.0)), end.moved(out)
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
