"""The label film over a face: its outline, its windows, where adhesive is, and what is left between two windows.

A window clears what turns on the face when it is tightened (a nut, a screw head), which would tear the film, by a
margin. What only sits on the face (a bezel, a flange) holds the film down and hides the window's edge: there the film
runs under it, and the window clears the opening.
"""

from __future__ import annotations

import shapely

from panelart.canonical import Struct
from panelart.geometry import Arc, Box, Contour, Line, Point, offset, rectangle
from panelart.marking.areas import contour_area, grown, united
from panelart.model.layout import Layout
from panelart.model.panel import Side
from panelart.model.printing import Overlay

_TURNS = ("nut", "screw", "head", "ring")
"""Words in the names of envelopes that turn on the face when they are tightened."""


class Window(Struct, frozen=True, kw_only=True):
    """One opening of the film; `name` is that of the panel's opening, or of what turns over it."""

    name: str
    ref: str
    contour: Contour


def overlay_outline(layout: Layout, overlay: Overlay) -> Contour:
    """The film's edge, inside the panel's. A rectangle has the film's own corners; another form keeps its own."""
    outline = layout.panel.outline
    box = outline.bounds
    if not _is_rectangle(outline):
        inner = offset(outline, -overlay.inset, "round")
        return max(inner, key=lambda one: one.bounds.width * one.bounds.height, default=outline)
    width, height = box.width - 2 * overlay.inset, box.height - 2 * overlay.inset
    corner = min(overlay.corner, width / 2, height / 2)
    return rectangle(width, height, box.centre, corner)


def _is_rectangle(outline: Contour) -> bool:
    """Whether an outline is an upright rectangle but for round corners: its sides lie on its box."""
    box = outline.bounds
    sides = [segment for segment in outline.segments if isinstance(segment, Line)]
    corners = [segment for segment in outline.segments if isinstance(segment, Arc)]
    if len(sides) != 4 or len(corners) not in (0, 4):
        return False
    return all(_lies_on(box, side) for side in sides) and all(arc.sweep_deg > 0 for arc in corners)


def _lies_on(box: Box, side: Line) -> bool:
    """Whether a line lies along one side of a box."""
    upright = side.start.x == side.end.x and side.start.x in (box.left, box.right)
    level = side.start.y == side.end.y and side.start.y in (box.bottom, box.top)
    return upright or level


def windows(layout: Layout, overlay: Overlay) -> tuple[Window, ...]:
    """The windows in the order of the openings; one that lies within another is part of that."""
    found: list[Window] = []
    for envelope in layout.envelopes:
        if envelope.side is Side.FRONT and envelope.covers and _turns(envelope.what):
            contour = _wider(envelope.contour, overlay.nut_margin)
            found.append(Window(name=f"{envelope.ref} {envelope.what}", ref=envelope.ref, contour=contour))
    for opening in layout.openings:
        contour = _wider(opening.finished, overlay.window_margin)
        found.append(Window(name=opening.name, ref=opening.ref, contour=contour))
    grounds = [contour_area(window.contour) for window in found]
    return tuple(
        window
        for index, window in enumerate(found)
        if not any(
            other != index and shapely.covers(grounds[other], grounds[index]) and _first(grounds, other, index)
            for other in range(len(found))
        )
    )


def _first(grounds: list[shapely.Geometry], other: int, index: int) -> bool:
    """Of two windows alike the first one stays."""
    return other < index or not shapely.covers(grounds[index], grounds[other])


def _turns(what: str) -> bool:
    return any(word in what for word in _TURNS)


def _wider(contour: Contour, by: float) -> Contour:
    """A contour grown all round, its corners made round: a sharp one tears."""
    grown_ones = offset(contour, by, "round")
    return max(grown_ones, key=lambda one: one.bounds.width * one.bounds.height)


def overlay_area(layout: Layout, overlay: Overlay) -> shapely.Geometry:
    """The film that is left when its windows are out."""
    return shapely.difference(
        contour_area(overlay_outline(layout, overlay)),
        united(contour_area(window.contour) for window in windows(layout, overlay)),
    )


def adhesive_area(layout: Layout, overlay: Overlay) -> shapely.Geometry:
    """Where adhesive lies: short of the film's edge and of the windows, and not in the areas that are to be free."""
    held = grown(overlay_area(layout, overlay), -overlay.adhesive_margin)
    return shapely.difference(held, united(contour_area(area) for area in overlay.free))


class Bridge(Struct, frozen=True, kw_only=True):
    """Film between two windows, or between a window and the edge (`other` is ''), with its least width and place."""

    name: str
    other: str
    refs: tuple[str, ...]
    width: float
    ends: tuple[Point, Point]


def bridges(layout: Layout, overlay: Overlay, minimum: float) -> tuple[Bridge, ...]:
    """Every bridge of film that is narrower than `least`."""
    cut = windows(layout, overlay)
    grounds = [contour_area(window.contour) for window in cut]
    edge = shapely.boundary(contour_area(overlay_outline(layout, overlay)))
    found: list[Bridge] = []
    tree = shapely.STRtree(grounds)
    for index, (window, ground) in enumerate(zip(cut, grounds, strict=True)):
        for place in sorted(int(near) for near in tree.query(ground, predicate="dwithin", distance=minimum)):
            if place > index:
                other = cut[place]
                refs = tuple(dict.fromkeys((window.ref, other.ref)))
                found += _bridge(window.name, other.name, refs, ground, grounds[place], minimum)
        found += _bridge(window.name, "", (window.ref,), ground, edge, minimum)
    return tuple(found)


def _bridge(
    name: str, other: str, refs: tuple[str, ...], one: shapely.Geometry, two: shapely.Geometry, minimum: float
) -> list[Bridge]:
    width = float(shapely.distance(one, two))
    if width >= minimum - 1e-7:
        return []
    (ax, ay), (bx, by) = shapely.get_coordinates(shapely.shortest_line(one, two))[:2]
    ends = Point(float(ax), float(ay)), Point(float(bx), float(by))
    return [Bridge(name=name, other=other, refs=refs, width=width, ends=ends)]
