"""Shapes of letters moved, turned and brought to size: the one place where every point of a legend passes."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.geometry import Arc, Line, Point, direction
from panelart.lettering.outline import Cubic, Curve, Loop, Shape


class Motion(Struct, frozen=True):
    """Brought to `scale`, turned by `turn` degrees about (0, 0), then moved so that (0, 0) lies at `at`."""

    at: Point
    turn: float = 0.0
    scale: float = 1.0


def moved(shape: Shape, by: Motion) -> Shape:
    """A shape after a motion; lines stay lines, arcs arcs and cubics cubics."""
    along = direction(by.turn).scaled(by.scale)
    left, bottom, ax, ay = by.at.x, by.at.y, along.x, along.y
    new = tuple.__new__  # a named tuple's own way takes as long again, and panels have a hundred thousand points

    def point(point: Point) -> Point:
        x, y = point
        return new(Point, (left + x * ax - y * ay, bottom + x * ay + y * ax))

    def curve(curve: Curve) -> Curve:
        match curve:
            case Cubic(start=a, first=b, second=c, end=d):
                return Cubic(point(a), point(b), point(c), point(d))
            case Line(start=a, end=b):
                return Line(point(a), point(b))
            case Arc(centre=centre, radius=radius, start_deg=start_deg, sweep_deg=sweep_deg):
                return Arc(point(centre), radius * by.scale, start_deg + by.turn, sweep_deg)

    return tuple(Loop(tuple(map(curve, loop.curves)), loop.closed) for loop in shape)
