"""Cut files held against the panel: every contour that is cut, at its place and size, and none besides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from panelart.drawing.layers import BENDS, BENDS_FORWARD, NOTES
from panelart.geometry import Box, Contour, circle
from panelart.messages import Message
from panelart.messages import readback as said
from panelart.model.layout import Layout
from panelart.model.machine import Machine
from panelart.readback.loops import Loop

PLACE: Final = 0.01
"""How far an edge of a contour may be off, mm: a fifth of the finest general tolerance of a cut."""

AREA: Final = 1e-3
"""How much its area may be off, as a share of it: curves are read as chords."""


def contours_told(layout: Layout, loops: Sequence[Loop], machine: Machine | None) -> Iterator[Message]:
    """What disagrees. `machine` is whose names the layers have, None for those of the program."""
    named = {name for layer in (NOTES, BENDS, BENDS_FORWARD) if (name := _written(layer, machine))}
    read = [loop for loop in loops if loop.closed and loop.layer not in named]
    if not read:
        yield said.no_contours()
        return
    wanted = list(_wanted(layout))
    home = wanted[0][1].bounds
    found = max(read, key=lambda loop: loop.area).box
    left = list(read)
    for name, contour in wanted:
        box = _moved(contour.bounds, home)
        match = next((loop for loop in left if _same(loop, contour, _moved(loop.box, found), box)), None)
        if match is None:
            yield said.contour_missing(name=name)
        else:
            left.remove(match)
    for loop in left:
        box = _moved(loop.box, found)
        yield said.contour_unknown(x=box.centre.x, y=box.centre.y, size=(box.width, box.height))


def _written(layer: str, machine: Machine | None) -> str:
    return layer if machine is None else machine.line_of(layer).name or ""


def _wanted(layout: Layout) -> Iterator[tuple[str, Contour]]:
    """Outline, openings and the mouths of countersinks as they are cut, flat, by name."""
    if layout.blank is not None:
        yield str(said.outline()), layout.blank.outline
        for hole in layout.blank.holes:
            yield hole.name, hole.cut
            if hole.countersink is not None:
                yield str(said.countersink_of(name=hole.name)), circle(hole.countersink.cut, hole.countersink.centre)
        return
    yield str(said.outline()), layout.cut_outline
    for opening in layout.openings:
        yield opening.name, opening.cut
        if (cone := opening.countersink) is not None:
            yield str(said.countersink_of(name=opening.name)), circle(cone.cut, cone.centre)


def _moved(box: Box, home: Box) -> Box:
    """A box as it is seen from the lower left of the outline."""
    return Box(box.left - home.left, box.bottom - home.bottom, box.right - home.left, box.top - home.bottom)


def _same(loop: Loop, contour: Contour, read: Box, wanted: Box) -> bool:
    edges = zip(
        (read.left, read.bottom, read.right, read.top),
        (wanted.left, wanted.bottom, wanted.right, wanted.top),
        strict=True,
    )
    area = abs(contour.area)
    return all(abs(one - other) <= PLACE for one, other in edges) and abs(loop.area - area) <= AREA * area + PLACE
