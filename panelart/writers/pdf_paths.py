"""Shapes as the path operators of PDF: lines, and cubics for everything that is round."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, assert_never

from panelart.drawing.representation import Item
from panelart.geometry import Arc, Line, Point
from panelart.lettering.outline import Cubic, Loop
from panelart.writers.arcs import control_points, pieces
from panelart.writers.figures import decimal

_MAX_DEG: Final = 45.0
"""The longest arc that one cubic stands for: it errs by 4e-6 of the radius."""


def path_of(item: Item, *, words: bool) -> Iterator[str]:
    """The loops of an item, with the outlines of its words or only what of them is not a letter."""
    shape = item.outline if words else item.shape
    for loop in shape:
        yield from loop_operators(loop)
    if not words and item.words is not None:
        for loop in item.words.strokes:
            yield from loop_operators(loop)


def loop_operators(loop: Loop) -> Iterator[str]:
    """One chain of curves, closed where it is."""
    if not loop.curves:
        return
    yield f"{_xy(loop.curves[0].start)} m"
    for curve in loop.curves:
        match curve:
            case Line(end=end):
                yield f"{_xy(end)} l"
            case Cubic(first=first, second=second, end=end):
                yield f"{_xy(first)} {_xy(second)} {_xy(end)} c"
            case Arc():
                for piece in pieces(curve, _MAX_DEG):
                    first, second = control_points(piece)
                    yield f"{_xy(first)} {_xy(second)} {_xy(piece.end)} c"
            case other:
                assert_never(other)
    if loop.closed:
        yield "h"


def _xy(point: Point) -> str:
    return f"{decimal(point.x)} {decimal(point.y)}"
