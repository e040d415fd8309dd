"""Rows, columns, grids, rings and distributions: members with what they cover go in, places about an anchor come out.

Millimetres, x right, y up. What a member covers is given about its own anchor; the anchor of a layout is (0, 0).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Final

from panelart.canonical import Struct
from panelart.geometry import ORIGIN, Box, Contour, Point, Vector, direction, gap, overlaps

UP: Final = 90.0
"""Straight up, in degrees counter-clockwise from the right."""

_HALVINGS: Final = 44  # a ring's diameter to less than a nanometre


class Body(Struct, frozen=True, kw_only=True):
    """What one member covers about its anchor; nothing where that is not known."""

    contours: tuple[Contour, ...] = ()

    @property
    def reach(self) -> Box:
        """Its bounds; the anchor where it covers nothing."""
        return Box.around([contour.bounds for contour in self.contours] or [ORIGIN])

    def turned(self, deg: float) -> Body:
        """The same, turned about the anchor."""
        return self if deg == 0 else Body(contours=tuple(contour.turned(deg) for contour in self.contours))

    def moved(self, by: Vector) -> Body:
        """The same, elsewhere."""
        return Body(contours=tuple(contour.moved(by) for contour in self.contours))


def together(bodies: Sequence[Body], places: Sequence[Vector]) -> Body:
    """What several bodies cover, each at its place."""
    moved = [body.moved(place) for body, place in zip(bodies, places, strict=True)]
    return Body(contours=tuple(contour for body in moved for contour in body.contours))


# --- rows and columns


def row(bodies: Sequence[Body], *, pitch: float | None, clear: float | None, anchor: str, align: str) -> list[Vector]:
    """Places from left to right: `pitch` from centre to centre, or `clear` from edge to edge."""
    boxes = [body.reach for body in bodies]
    along = spaced([(-box.left, box.right) for box in boxes], pitch, clear, anchor)
    level = {
        "centres": [0.0 for _ in boxes],
        "top": [boxes[0].top - box.top for box in boxes],
        "bottom": [boxes[0].bottom - box.bottom for box in boxes],
    }[align]
    return [Vector(x, y) for x, y in zip(along, level, strict=True)]


def column(
    bodies: Sequence[Body], *, pitch: float | None, clear: float | None, anchor: str, align: str
) -> list[Vector]:
    """Places from the top down, as a row."""
    boxes = [body.reach for body in bodies]
    down = spaced([(box.top, -box.bottom) for box in boxes], pitch, clear, anchor)
    level = {
        "centres": [0.0 for _ in boxes],
        "left": [boxes[0].left - box.left for box in boxes],
        "right": [boxes[0].right - box.right for box in boxes],
    }[align]
    return [Vector(x, -y) for x, y in zip(level, down, strict=True)]


def spaced(
    reaches: Sequence[tuple[float, float]], pitch: float | None, clear: float | None, anchor: str
) -> list[float]:
    """Places along a line of members that reach so far back and so far on from their centres.

    The first, the last or the middle is at 0: the middle between the outer centres when they are spaced by pitch,
    between the outer edges when by gaps.
    """
    places = [0.0]
    for (_, on), (back, _) in pairwise(reaches):
        places.append(places[-1] + (on + (clear or 0.0) + back if pitch is None else pitch))
    if pitch is None:
        middle = (places[0] - reaches[0][0] + places[-1] + reaches[-1][1]) / 2
    else:
        middle = (places[0] + places[-1]) / 2
    shift = {"first": 0.0, "middle": middle, "last": places[-1]}[anchor]
    return [place - shift for place in places]


# --- grids


class Lines(Struct, frozen=True, kw_only=True):
    """The centres of a grid's columns from the left and rows from the top, and the cell of each member."""

    across: tuple[float, ...]
    down: tuple[float, ...]
    cells: tuple[tuple[int, int], ...]

    @property
    def places(self) -> list[Vector]:
        """Where the members are."""
        return [Vector(self.across[column], self.down[row]) for column, row in self.cells]


def cells_of(count: int, columns: int, *, by_columns: bool) -> tuple[tuple[int, int], ...]:
    """The column, from the left, and the row, from the top, of each of so many members."""
    rows = -(-count // columns)
    return tuple(divmod(number, rows) if by_columns else divmod(number, columns)[::-1] for number in range(count))


def grid(
    bodies: Sequence[Body],
    *,
    columns: int,
    pitch: tuple[float, float] | None,
    clear: tuple[float, float] | None,
    anchor: str,
    by_columns: bool,
) -> Lines:
    """Members in columns and rows, filled row by row from the top, or column by column from the left."""
    cells = cells_of(len(bodies), columns, by_columns=by_columns)
    rows = max(row for _, row in cells) + 1
    boxes = [body.reach for body in bodies]

    def reaches(
        count: int, axis: int, low: Callable[[Box], float], high: Callable[[Box], float]
    ) -> list[tuple[float, float]]:
        of = [[box for box, cell in zip(boxes, cells, strict=True) if cell[axis] == line] for line in range(count)]
        return [
            (max((low(box) for box in line), default=0.0), max((high(box) for box in line), default=0.0)) for line in of
        ]

    across = spaced(
        reaches(columns, 0, lambda box: -box.left, lambda box: box.right),
        None if pitch is None else pitch[0],
        None if clear is None else clear[0],
        anchor,
    )
    down = spaced(
        reaches(rows, 1, lambda box: box.top, lambda box: -box.bottom),
        None if pitch is None else pitch[1],
        None if clear is None else clear[1],
        anchor,
    )
    return Lines(across=tuple(across), down=tuple(-y for y in down), cells=cells)


# --- rings


def angles(count: int, *, sweep: float, start: float | None, clockwise: bool) -> list[float]:
    """Directions of so many members: all round from straight up, or over a sweep centred on straight up."""
    step = sweep / (count if sweep >= 360.0 else max(count - 1, 1))  # all round
    sign = -1.0 if clockwise else 1.0
    first = start if start is not None else UP if sweep >= 360.0 else UP - sign * sweep / 2
    return [first + sign * step * number for number in range(count)]


def on_circle(degs: Sequence[float], diameter: float) -> list[Vector]:
    """Places about the centre."""
    return [direction(deg).scaled(diameter / 2) for deg in degs]


def minimum_diameter(bodies: Sequence[Body], degs: Sequence[float], *, closed: bool, clear: float) -> float:
    """Of the smallest ring on which every member is clear of its neighbours by so much.

    `closed` is whether the first and the last are neighbours too. Found by halving, with the exact gaps.
    """
    pairs = list(pairwise(range(len(bodies))))
    if closed and len(bodies) > 2:  # two are neighbours once
        pairs.append((len(bodies) - 1, 0))

    def fits(diameter: float) -> bool:
        places = on_circle(degs, diameter)
        moved = [body.moved(place) for body, place in zip(bodies, places, strict=True)]
        return all(clear_of(moved[one], moved[other], clear) for one, other in pairs)

    # Two discs round the anchors that hold the bodies are clear at this diameter of the closest pair.
    size = max(max(ORIGIN.distance(corner) for corner in body.reach.corners) for body in bodies)
    chord = min(direction(degs[one]).plus(direction(degs[other]).scaled(-1.0)).length / 2 for one, other in pairs)
    low, high = 0.0, (2 * size + clear) / chord + 1e-6
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if fits(middle) else (middle, high)
    return high


def clear_of(one: Body, other: Body, by: float) -> bool:
    """Whether two bodies are clear of each other by so much; of what covers nothing the anchor counts."""
    if not one.contours or not other.contours:
        return one.reach.gap(other.reach) >= by
    pairs = [(first, second) for first in one.contours for second in other.contours]
    return not any(overlaps(first, second) or gap(first, second).distance < by for first, second in pairs)


# --- distributions


def between(
    start: Point, start_body: Body, end: Point, end_body: Body, bodies: Sequence[Body], *, by_gaps: bool
) -> list[Point] | float:
    """Places on the line between two parts; by gaps, the missing length as a number when they do not fit, in mm."""
    way = end.minus(start)
    if not by_gaps:
        step = 1.0 / (len(bodies) + 1)
        return [start.moved(way.scaled(step * (number + 1))) for number in range(len(bodies))]
    deg = way.deg
    reaches = [_along(body, deg) for body in (start_body, *bodies, end_body)]
    taken = reaches[0][1] + math.fsum(back + on for back, on in reaches[1:-1]) + reaches[-1][0]
    clear = (way.length - taken) / (len(bodies) + 1)
    if clear < 0:
        return taken - way.length
    along = spaced(reaches, None, clear, "first")
    return [start.moved(way.unit.scaled(place)) for place in along[1:-1]]


def _along(body: Body, deg: float) -> tuple[float, float]:
    """How far a body reaches back and on from its anchor in a direction."""
    box = body.turned(-deg).reach
    return -box.left, box.right
