"""The colour that a legend is seen against: the coat, the label film, or a background under it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import shapely

from panelart.geometry import Box, Point
from panelart.marking.areas import area_of
from panelart.messages import Said
from panelart.messages import marking as said
from panelart.model.panel import Panel
from panelart.model.printing import Gradient, Photo, Solid


@dataclass(frozen=True, slots=True)
class Seen:
    """A colour in words and as `#RRGGBB`; `coat` is true where it is the coat itself."""

    words: Said
    colour: str
    coat: bool = False


MIN_SHARE = 0.02
"""Of a legend's box: less than that over another colour is no letter, nor the part of one that tells it."""


def seen_under(panel: Panel, box: Box) -> tuple[Seen, ...]:
    """Everything that lies under a box, the uppermost first; nothing for a picture, which has no one colour."""
    marking = panel.marking
    inks = {ink.name: ink.colour for ink in marking.inks}
    found: list[Seen] = []
    whole = shapely.box(box.left, box.bottom, box.right, box.top)
    left = whole
    for ground in reversed(marking.printing.backgrounds):
        here = left if ground.area is None else shapely.intersection(left, area_of(ground.area))
        if here.is_empty or here.area < MIN_SHARE * whole.area:
            continue
        left = shapely.difference(left, here)
        match ground.colour:
            case Solid(ink=ink, tint=tint):
                found.append(Seen(said.background(ink=ink), _tinted(inks[ink], tint)))
            case Gradient() as run:
                middle = here.centroid
                found.append(Seen(said.background(ink=run.stops[0].ink), _at(run, Point(middle.x, middle.y), inks)))
            case Photo():
                pass
    if left.is_empty or left.area < MIN_SHARE * whole.area:
        return tuple(found)
    overlay = marking.printing.overlay
    if overlay is not None and overlay.colour:
        return (*found, Seen(said.label_film(), overlay.colour))
    return (*found, Seen(panel.coat.name or panel.coat.kind, panel.coat.colour, coat=True))


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
