"""Which hardware is pressed in before the panel is bent, because the press does not reach it afterwards."""

from __future__ import annotations

from panelart.cutouts.blank import Bent, bent
from panelart.cutouts.hardware import Fitted, filled, fitted
from panelart.geometry import Point
from panelart.model.layout import Layout
from panelart.model.metal import Edge, Towards
from panelart.model.panel import Part

TOOL = 8.0
"""Radius in mm that the press's tool takes behind the panel, round the middle of the hardware (recalled; presses
differ)."""


def out_of_reach(layout: Layout) -> tuple[tuple[Part, Bent, float], ...]:
    """Hardware of the face that a bent edge keeps the press from: the part, the edge, and the room that is left, mm."""
    found: list[tuple[Part, Bent, float]] = []
    bends = bent(layout.panel, layout.cut_outline)
    for part in layout.panel.parts:
        if not filled(part.component):
            continue
        rooms = [(_room(layout, bend, part.at), bend) for bend in bends.values()]
        room, bend = min(rooms, key=lambda each: each[0], default=(TOOL, None))
        if bend is not None and room < TOOL - 1e-7:
            found.append((part, bend, room))
    return tuple(found)


def pressed_before_bending(layout: Layout) -> frozenset[str]:
    """The refs of hardware that goes in while the sheet is flat."""
    coat = layout.panel.coat
    return frozenset(
        part.ref for part, *_ in out_of_reach(layout) if fitted(part.component, coat) is Fitted.BEFORE_COAT
    )


def _room(layout: Layout, bend: Bent, at: Point) -> float:
    """From a point of the face to the metal of a flange, or to the edge of a return that covers the face."""
    box = layout.cut_outline.bounds
    edge = bend.flange.edge
    along = at.x if edge in (Edge.TOP, Edge.BOTTOM) else at.y
    if not bend.start - TOOL < along < bend.end + TOOL:
        return TOOL
    inside = {
        Edge.TOP: box.top - at.y,
        Edge.BOTTOM: at.y - box.bottom,
        Edge.LEFT: at.x - box.left,
        Edge.RIGHT: box.right - at.x,
    }[edge]
    second = bend.flange.second
    covered = second is not None and second.towards is Towards.IN
    return inside - (bend.second_length if covered else layout.panel.sheet.thickness)
