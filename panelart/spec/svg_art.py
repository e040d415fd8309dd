"""Drawings from SVG files: filled paths only, read into shapes; all else a file may hold is refused with its place.

Understood are `svg`, `g` and `path` with `d`, `transform` and a plain fill.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.diagnostics import Problem
from panelart.geometry import Line, Point
from panelart.lettering.outline import Cubic, Curve, Loop, Shape
from panelart.messages import spec_marking as said
from panelart.outlines.svg_file import Element, Matrix, at_top, walk
from panelart.outlines.svg_path import EllipticArc, Piece, RefusedError, subpaths

MAX_CURVES: Final = 50_000


def read_svg(data: bytes, file: str) -> tuple[Shape, tuple[Problem, ...]]:
    """The painted loops of a drawing, y up in its own units, and what was refused; a shape only without problems."""
    loops: list[Loop] = []
    curves = 0

    def take(element: Element) -> None:
        nonlocal curves
        if element.tag != "path":
            return
        found = _painted(element)
        loops.extend(found)
        curves += sum(len(loop.curves) for loop in found)
        if curves > MAX_CURVES:
            curves = 0
            raise RefusedError(said.too_many_curves(MAX_CURVES))

    problems = walk(data, file, drawn=frozenset({"path"}), take=take, hint=said.filled_paths_only())
    if not problems and not loops:
        return (), (at_top(file, said.no_filled_path(), said.filled_paths()),)
    return (() if problems else tuple(loops)), problems


def _painted(element: Element) -> list[Loop]:
    style = element.style
    if style.get("display") == "none":
        return []
    if style.get("stroke", "none") != "none":
        raise RefusedError(said.stroked_path())
    if style.get("fill") == "none":
        return []
    if style.get("fill-rule", "nonzero") != "nonzero":
        raise RefusedError(said.even_odd_fill())
    return list(_loops(element.attributes.get("d", ""), element.matrix))


def _loops(d: str, matrix: Matrix) -> Iterator[Loop]:
    """The closed loops of path data, y turned up. Open subpaths are closed, as filling does."""

    def put(z: complex) -> Point:
        a, b, c, e, x, y = matrix
        return Point(a * z.real + c * z.imag + x, -(b * z.real + e * z.imag + y))

    for subpath, _ in subpaths(d):
        curves: list[Curve] = []
        for piece in subpath:
            for run in _runs(piece):
                points = [put(z) for z in run]
                if points[0] == points[-1] and len(points) == 2:
                    continue
                curves.append(Line(points[0], points[1]) if len(points) == 2 else Cubic(*points))
        if curves and curves[-1].end != curves[0].start:
            curves.append(Line(curves[-1].end, curves[0].start))
        if curves:
            yield Loop(tuple(curves))


def _runs(piece: Piece) -> Iterator[tuple[complex, ...]]:
    """A piece as lines and cubics."""
    if isinstance(piece, EllipticArc):
        yield from piece.cubics()
    else:
        yield piece
