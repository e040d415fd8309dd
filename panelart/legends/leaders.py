"""Words away from their part with a line to it: the last resort, where there is no room beside the part.

The line leaves the middle of the words' near edge, level for words beside and upright for words above or below, bends
at most once and ends short of the part. It crosses nothing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

import numpy as np
import shapely
from msgspec.structs import replace
from numpy.typing import NDArray

from panelart.geometry import Line, Point, Vector, direction
from panelart.legends.candidates import Candidate, boxes_of, lettered_whole, style_of
from panelart.legends.obstacles import Field
from panelart.legends.stand import Stand
from panelart.lettering.look import Align
from panelart.lettering.outline import Shape, open_shape
from panelart.lettering.setting import Setting
from panelart.model.panel import LegendRequest, Marking, Place

LENGTHS = (2.0, 3.5, 5.0, 7.0, 9.5)
"""How long leaders are tried, over the cap height of their words."""

DIRECTIONS = range(0, 360, 15)
SHOULDER = 1.0
"""The level piece at the words, over their cap height. Common practice in dimensioning."""

WHITE = 0.4
"""White between the words and their leader, over the cap height."""

SHORT = 0.1
"""How far the end of a leader keeps off the clearance of its part, mm."""

MAXIMUM = 16
"""Leader places kept for one legend, the shortest."""

WIDTH = 0.1
"""Width of the line over the cap height: the stroke of lettering type B, DIN EN ISO 3098-0."""


def leader_width(cap_height: float, marking: Marking) -> float:
    """Width of a leader, mm."""
    return max(WIDTH * cap_height, marking.process.line_minimum.value)


def leader_candidates(request: LegendRequest, stand: Stand, marking: Marking, field: Field) -> list[Candidate]:
    """The free places with leaders, the shortest first; none for words whose side is asked for."""
    if request.place is not None or request.offset is not None:
        return []
    half = _half(request, marking)
    found = sorted(_all_round(request, stand, marking, half), key=lambda item: item[:2])
    if not found:
        return []
    candidates = [candidate for _, _, candidate in found]
    words = field.blockers(boxes_of(candidates))
    lines = field.blockers_of(_paths(candidates, half))
    return [item for item, a, b in zip(candidates, words, lines, strict=True) if not a and not b]


def shortest(
    candidates: Sequence[Candidate], request: LegendRequest, marking: Marking, drawn: Field | None
) -> list[Candidate]:
    """Of the free places with leaders those that are kept: the shortest that are clear of frames as drawn, too."""
    if drawn is None or not candidates:
        return list(candidates[:MAXIMUM])
    words = drawn.met_by(shapely.box(*boxes_of(candidates).T))
    lines = drawn.met_by(_paths(candidates, _half(request, marking)))
    return [item for item, a, b in zip(candidates, words, lines, strict=True) if not a and not b][:MAXIMUM]


def _half(request: LegendRequest, marking: Marking) -> float:
    return leader_width(style_of(request, marking).cap_height, marking) / 2


def _paths(candidates: Iterable[Candidate], half: float) -> NDArray[np.object_]:
    """What the ink of leaders covers."""
    leaders = [candidate.leader for candidate in candidates]
    owners = np.repeat(np.arange(len(leaders)), [len(leader) for leader in leaders])
    lines = shapely.linestrings(np.array([corner for leader in leaders for corner in leader]), indices=owners)
    return np.asarray(shapely.buffer(lines, half, quad_segs=16))


def _all_round(
    request: LegendRequest, stand: Stand, marking: Marking, half: float
) -> Iterator[tuple[float, int, Candidate]]:
    """Places in every direction and at every length, with both, before anything in the way is looked at."""
    style = style_of(request, marking)
    resorts = (("leader", marking.placing.leader),)
    settings = {align: lettered_whole(request, marking, align) for align in (Align.CENTRE, Align.LEFT, Align.RIGHT)}
    for deg in DIRECTIONS:
        way = direction(float(deg))
        start = _exit(stand, way, half)
        if start is None:
            continue
        for length in LENGTHS:
            candidate = _candidate(settings, style.cap_height, start, way, length * style.cap_height)
            looks = (("side", 40), ("length-of-the-leader", round(2 * length)), ("slant", 0 if deg % 90 == 0 else 3))
            yield length, deg, replace(candidate, looks=looks, resorts=resorts)


def _exit(stand: Stand, way: Vector, half: float) -> Point | None:
    """Where a ray from the part's centre leaves all that its legends keep clear of."""
    centre = stand.centre
    far = centre.moved(way.scaled(2000.0))
    inside = shapely.intersection(stand.grown, shapely.LineString([tuple(centre), tuple(far)]))
    if inside.is_empty:
        return None
    reach = max(math.hypot(x - centre.x, y - centre.y) for x, y in shapely.get_coordinates(inside))
    return centre.moved(way.scaled(reach + SHORT + half))


def _candidate(
    settings: Mapping[Align, Setting], cap_height: float, start: Point, way: Vector, length: float
) -> Candidate:
    bend = start.moved(way.scaled(length))
    white = WHITE * cap_height
    if abs(way.x) < 0.2:
        above = way.y > 0
        setting = settings[Align.CENTRE]
        end = Point(start.x, bend.y)
        base = end.y + white - setting.baselines[-1] if above else end.y - white - setting.first_capitals
        at = Point(end.x - setting.box.centre.x, base)
        place = Place.ABOVE if above else Place.BELOW
        path = (start, end) if abs(way.x) < 1e-9 else (start, bend)
        at = Point(path[-1].x - setting.box.centre.x, at.y)
        return Candidate(setting, at, place, "leader", at.y, leader=path)
    right = way.x > 0
    setting = settings[Align.LEFT if right else Align.RIGHT]
    level = abs(way.y) < 1e-9
    end = bend if level else bend.moved(Vector(SHOULDER * cap_height * (1 if right else -1), 0.0))
    x = end.x + white - setting.box.left if right else end.x - white - setting.box.right
    at = Point(x, end.y - _middle(setting))
    return Candidate(
        setting,
        at,
        Place.RIGHT if right else Place.LEFT,
        "leader",
        at.x,
        leader=(start, end) if level else (start, bend, end),
    )


def _middle(setting: Setting) -> float:
    return (setting.baselines[0] + setting.first_capitals + setting.baselines[-1]) / 2


def leader_shape(leader: tuple[Point, ...]) -> Shape:
    """The line as it is drawn."""
    return open_shape(tuple(Line(a, b) for a, b in pairwise(leader)))
