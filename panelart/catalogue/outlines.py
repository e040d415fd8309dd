"""The shapes a catalogue file may name, each with its dimensions: from figures to a contour, and back to the shape.

Each is drawn about its own centre the way up that `doc` says; a file turns it with `turn`. The names of the dimensions
tell the shapes apart, so that a component's figures alone are enough to draw it again with one of them changed.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import Final

from msgspec import field

from panelart.canonical import Struct
from panelart.geometry import (
    Contour,
    chamfered_rectangle,
    circle,
    d_hole,
    double_d,
    hexagon,
    keyed_circle,
    rectangle,
    slot,
    trapezoid,
)


class Outline(Struct, frozen=True, kw_only=True):
    """One kind of shape: the dimensions it needs, those it may have, and how it is drawn from them."""

    key: str
    needed: tuple[str, ...]
    drawn: Callable[[Mapping[str, float]], Contour]
    doc: str
    optional: tuple[str, ...] = field(default=())

    @property
    def dimensions(self) -> tuple[str, ...]:
        """All its dimensions, in the order they are written."""
        return self.needed + self.optional

    @property
    def sizes(self) -> tuple[str, ...]:
        """Those that are more than 0."""
        return tuple(name for name in self.needed if name != "side_angle")


OUTLINES: Final = (
    Outline(
        key="circle",
        needed=("diameter",),
        drawn=lambda of: circle(of["diameter"]),
        doc="Circle.",
    ),
    Outline(
        key="rectangle",
        needed=("width", "height"),
        optional=("radius",),
        drawn=lambda of: rectangle(of["width"], of["height"], corner=of.get("radius", 0.0)),
        doc="Rectangle with overall width and height, and rounded corners where a radius is given.",
    ),
    Outline(
        key="chamfered-rectangle",
        needed=("width", "height", "chamfer"),
        optional=("radius",),
        drawn=lambda of: chamfered_rectangle(
            of["width"], of["height"], of["chamfer"], ("top-left", "top-right"), of.get("radius", 0.0)
        ),
        doc="Rectangle with 45 degree chamfers at both top corners; the radius is that of the bottom corners.",
    ),
    Outline(
        key="slot",
        needed=("length", "width"),
        drawn=lambda of: slot(of["length"], of["width"]),
        doc="Horizontal slot with round ends, overall size.",
    ),
    Outline(
        key="d-hole",
        needed=("diameter", "flat_to_opposite"),
        drawn=lambda of: d_hole(of["diameter"], of["flat_to_opposite"], "bottom"),
        doc="Circle with one flat at the bottom, measured from the flat to the opposite point of the circle.",
    ),
    Outline(
        key="double-d",
        needed=("diameter", "across_flats"),
        drawn=lambda of: double_d(of["diameter"], of["across_flats"], "x"),
        doc="Circle with vertical flats at left and right, measured across the flats.",
    ),
    Outline(
        key="keyed-circle",
        needed=("diameter", "key_width", "over_key"),
        drawn=lambda of: keyed_circle(of["diameter"], of["key_width"], of["over_key"], "top"),
        doc="Circle with a keyway at the top, measured from its bottom to the opposite point of the circle.",
    ),
    Outline(
        key="trapezoid",
        needed=("width", "height", "side_angle"),
        optional=("radius",),
        drawn=lambda of: trapezoid(of["width"], of["height"], of["side_angle"], of.get("radius", 0.0)),
        doc="Trapezoid with the wide side at the top, measured between sharp corners; sides inclined to the vertical.",
    ),
    Outline(
        key="hexagon",
        needed=("across_flats",),
        drawn=lambda of: hexagon(of["across_flats"]),
        doc="Hexagon with horizontal flats at top and bottom.",
    ),
)

UNITS: Final[Mapping[str, str]] = {"side_angle": "deg", "turn": "deg"}
"""Dimensions that are not millimetres."""

DIMENSIONS: Final = frozenset(name for outline in OUTLINES for name in outline.dimensions) | {"turn", "x", "y"}
"""The names of the figures that draw a shape and put it in its place."""


def outline_of(dimensions: Collection[str]) -> Outline | None:
    """The shape that has just these dimensions."""
    names = set(dimensions)
    for outline in OUTLINES:
        if set(outline.needed) <= names <= set(outline.dimensions):
            return outline
    return None
