"""Shapes with curves of the kinds that fonts and panels use: loops of lines, arcs and cubics."""

from __future__ import annotations

from collections.abc import Iterable

from panelart.canonical import Struct
from panelart.geometry import Arc, Box, Contour, Line, Path, Point, Segment, Transform
from panelart.reprs import brief, counted, spot


class Cubic(Struct, frozen=True):
    """A cubic curve from `start` to `end`; `first` and `second` are its control points. Millimetres."""

    start: Point
    first: Point
    second: Point
    end: Point

    def transformed(self, by: Transform) -> Cubic:
        """The curve after a rigid motion."""
        return Cubic(by.apply(self.start), by.apply(self.first), by.apply(self.second), by.apply(self.end))

    def point_at(self, t: float) -> Point:
        """The point at parameter t, 0 to 1."""
        u = 1.0 - t
        a, b, c, d = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
        return Point(
            a * self.start.x + b * self.first.x + c * self.second.x + d * self.end.x,
            a * self.start.y + b * self.first.y + c * self.second.y + d * self.end.y,
        )

    def __repr__(self) -> str:
        return brief("Cubic", spot(*self.start), spot(*self.first), spot(*self.second), spot(*self.end))


Curve = Line | Arc | Cubic


class Loop(Struct, frozen=True):
    """A chain of curves, each starting where the last one ended; `closed` when it bounds an area."""

    curves: tuple[Curve, ...]
    closed: bool = True

    def transformed(self, by: Transform) -> Loop:
        """The loop after a rigid motion."""
        return Loop(tuple(curve.transformed(by) for curve in self.curves), self.closed)

    def __repr__(self) -> str:
        return brief("Loop", counted(len(self.curves), "curve"), "" if self.closed else "open")


Shape = tuple[Loop, ...]
"""Loops painted together by the non-zero rule, or stroked one by one."""


def shape_of(*contours: Contour) -> Shape:
    """Contours of lines and arcs as a shape."""
    return tuple(Loop(contour.segments) for contour in contours)


def open_shape(*paths: Path | tuple[Segment, ...]) -> Shape:
    """Open chains, to be stroked."""
    return tuple(Loop(path.segments if isinstance(path, Path) else path, closed=False) for path in paths)


def transformed(shape: Shape, by: Transform) -> Shape:
    """A shape after a rigid motion."""
    return tuple(loop.transformed(by) for loop in shape)


def bounds(shapes: Iterable[Loop]) -> Box:
    """The exact box of lines and arcs, and of the cubics' turning points. Raises ValueError when empty."""
    return Box.around(
        _cubic_bounds(curve) if isinstance(curve, Cubic) else curve.bounds for loop in shapes for curve in loop.curves
    )


def _cubic_bounds(curve: Cubic) -> Box:
    corners = [curve.start, curve.end]
    for axis in (0, 1):
        a, b, c, d = curve.start[axis], curve.first[axis], curve.second[axis], curve.end[axis]
        # The derivative is a quadratic in t; its roots inside (0, 1) are where the curve turns back.
        qa, qb, qc = -a + 3 * b - 3 * c + d, 2 * (a - 2 * b + c), b - a
        roots: list[float] = []
        if abs(qa) < 1e-12:
            if abs(qb) > 1e-12:
                roots = [-qc / qb]
        elif (disc := qb * qb - 4 * qa * qc) >= 0:
            root = disc**0.5
            roots = [(-qb + root) / (2 * qa), (-qb - root) / (2 * qa)]
        corners.extend(curve.point_at(t) for t in roots if 0.0 < t < 1.0)
    return Box.around(corners)
