"""The colour that a legend is seen against: the coat, the label film, or a background under it."""

from __future__ import annotations

from itertools import pairwise

import shapely

from panelart.canonical import Struct
from panelart.geometry import Box, Point
from panelart.marking.areas import area_of
from panelart.messages import Said
from panelart.messages import marking as said
from panelart.model.panel import Panel
from panelart.model.printing import Background, Gradient, Photo, Solid


class Seen(Struct, frozen=True):
    """A colour in words and as `#RRGGBB`; `coat` is true where it is the coat itself."""

    words: Said
    colour: str
    coat: bool = False


MIN_SHARE = 0.02
"""Of a legend's box: less than that over another colour is no letter, nor the part of one that tells it."""


def seen_under(panel: Panel, box: Box) -> tuple[Seen, ...]:
    """Everything that lies under a box, the uppermost first; nothing for a picture, which has no one colour."""
    found: list[Seen] = []
    whole = shapely.box(box.left, box.bottom, box.right, box.top)
    left = whole
    inks = {ink.name: ink.colour for ink in panel.marking.inks}
    for ground in reversed(panel.marking.printing.backgrounds):
        here = left if ground.area is None else shapely.intersection(left, area_of(ground.area))
        if _is_speck(here, whole):
            continue
        left = shapely.difference(left, here)
        if (seen := _of_background(ground, here, inks)) is not None:
            found.append(seen)
    if not _is_speck(left, whole):
        found.append(_lowest(panel))
    return tuple(found)


def _is_speck(ground: shapely.Geometry, whole: shapely.Geometry) -> bool:
    return bool(ground.is_empty or ground.area < MIN_SHARE * whole.area)


def _of_background(ground: Background, here: shapely.Geometry, inks: dict[str, str]) -> Seen | None:
    """The colour of a background where it is seen; a picture has no one colour."""
    match ground.colour:
        case Solid(ink=ink, tint=tint):
            return Seen(said.background(ink=ink), _tinted(inks[ink], tint))
        case Gradient() as run:
            middle = here.centroid
            return Seen(said.background(ink=run.stops[0].ink), _at(run, Point(middle.x, middle.y), inks))
        case Photo():
            return None


def _lowest(panel: Panel) -> Seen:
    """The colour under all print: the label film's, or the coat's."""
    overlay = panel.marking.printing.overlay
    if overlay is not None and overlay.colour:
        return Seen(said.label_film(), overlay.colour)
    return Seen(panel.coat.name or panel.coat.kind, panel.coat.colour, coat=True)


def _parts(colour: str) -> list[int]:
    return [int(colour[start : start + 2], 16) for start in (1, 3, 5)]


def _tinted(colour: str, tint: float) -> str:
    return "#" + "".join(f"{round(255 - tint * (255 - part)):02X}" for part in _parts(colour))


def _at(run: Gradient, point: Point, inks: dict[str, str]) -> str:
    """The colour of a run at a point, as files show it: a straight line from stop to stop."""
    whole = run.start.distance(run.end)
    if run.round:
        place = run.start.distance(point) / whole
    else:
        place = point.minus(run.start).dot(run.end.minus(run.start)) / whole**2
    place = min(max(place, 0.0), 1.0)
    for one, other in pairwise(run.stops):
        if place <= other.at:
            share = (place - one.at) / (other.at - one.at)
            first, last = (_parts(_tinted(inks[stop.ink], stop.tint)) for stop in (one, other))
            return "#" + "".join(f"{round(a + share * (b - a)):02X}" for a, b in zip(first, last, strict=True))
    return _tinted(inks[run.stops[-1].ink], run.stops[-1].tint)
