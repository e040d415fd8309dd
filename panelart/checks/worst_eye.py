"""The worst place of the eye in a range of places, for every letter and mark.

A grid of places alone would miss what is hidden only between them: the shadow of a lever is narrow. So three steps:

1. Which bodies can reach which ink at all. From eyes in a plane, a point in front of the face lands on the face by a
   projective map of that plane; it keeps straight lines straight, so that over a rectangle of eyes the point's image
   stays within the four-cornered hull of its images from the corners; two eyes widen the rectangle by what they are
   apart. What a convex body can hide from anywhere is
   therefore within the hull of its foot and of its four corner shadows.
2. Starts: the grid's worst place, and for every body that can reach the ink the place from which it is seen right
   through the middle of the body's top, and through the middle of its height, moved into the range.
3. From the best start in steps up, down, left and right, halved where none hides more, down to STEP.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Final, NamedTuple

import numpy as np
import shapely

from panelart.checks.shadows import (
    Caster,
    HiddenInk,
    InkPiece,
    Look,
    casters,
    hidden_ink,
    hidden_piece,
    ink_pieces,
    look_from,
    looks,
    shaded,
    shades,
)
from panelart.checks.survey import Survey
from panelart.geometry import Point
from panelart.model.panel import EyeRange, Panel

STEP: Final = 1.0
"""The search ends with steps of the eye of so many millimetres: less than a hundredth of a letter's shadow moves."""

_WHOLE: Final = 1.0 - 1e-6
_MORE: Final = 1e-9


class _Seat(NamedTuple):
    """A place of the eye as the operator has it: above and right of the middle of the panel, mm."""

    height: float
    aside: float


def worst_ink(survey: Survey, seen: EyeRange, but: Collection[int] = ()) -> tuple[HiddenInk, ...]:
    """Every piece of ink that is hidden from some place of a range, at its worst place; in the order of the legends.

    `but` holds the id of legends that are left out, because more is wrong with them.
    """
    found = {(id(one.ink), one.number): one for one in hidden_ink(survey, looks(survey.panel, seen), but)}
    if seen.height[0] == seen.height[1] and seen.aside[0] == seen.aside[1]:
        return tuple(found.values())
    pieces = ink_pieces(survey, but)
    near = _within_reach(survey, seen, [piece.ground for piece in pieces])
    worst = (
        _at_its_worst(survey.panel, seen, piece, near.get(index, ()), found.get((id(piece.ink), piece.number)))
        for index, piece in enumerate(pieces)
    )
    return tuple(one for one in worst if one is not None)


def _at_its_worst(
    panel: Panel, seen: EyeRange, piece: InkPiece, bodies: Sequence[Caster], start: HiddenInk | None
) -> HiddenInk | None:
    """A piece of ink from the place that hides most of it; None where no place hides any."""
    if not bodies or (start is not None and start.share >= _WHOLE):
        return start
    look = _climbed(panel, seen, piece.ground, bodies, None if start is None else start.look)
    area, by = shaded(piece.ground, shades(bodies, look))
    share = min(area / float(piece.ground.area), 1.0)
    if area > 0.0 and (start is None or share > start.share):
        return hidden_piece(piece, share, look, by)
    return start


def _within_reach(survey: Survey, seen: EyeRange, pieces: Sequence[shapely.Geometry]) -> dict[int, list[Caster]]:
    """For each piece of ink, by its number, the bodies that can hide some of it from somewhere in the range."""
    corners = [
        look_from(survey.panel, seen, height, aside) for height in dict.fromkeys(seen.height) for aside in seen.aside
    ]
    if not pieces:
        return {}
    tree = shapely.STRtree(np.array(pieces, dtype=object))
    near: dict[int, list[Caster]] = {}
    for body in casters(survey):
        shadows = [shadow for corner in corners for eye in corner.eyes for shadow in body.shadows(eye)]
        reached = shapely.convex_hull(shapely.GeometryCollection(shadows))
        for index in tree.query(reached, predicate="intersects"):
            near.setdefault(int(index), []).append(body)
    return near


def _climbed(
    panel: Panel, seen: EyeRange, piece: shapely.Geometry, bodies: Sequence[Caster], start: Look | None
) -> Look:
    """The place from which most of a piece is hidden, as far as going uphill from the best start finds it."""
    shares: dict[_Seat, float] = {}

    def hidden(seat: _Seat) -> float:
        if seat not in shares:
            shares[seat] = shaded(piece, shades(bodies, look_from(panel, seen, *seat)))[0]
        return shares[seat]

    starts = [] if start is None else [_Seat(start.height, start.aside)]
    starts += _aimed(panel, seen, piece, bodies)
    best = max(dict.fromkeys(starts), key=hidden)
    whole = float(piece.area) * _WHOLE
    step = max(seen.height[1] - seen.height[0], seen.aside[1] - seen.aside[0]) / 8.0
    while step >= STEP and hidden(best) < whole:
        around = [
            _into(seen, best.height + up * step, best.aside + right * step)
            for up, right in ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))
        ]
        better = max(around, key=hidden)
        if hidden(better) > hidden(best) + _MORE:
            best = better
        else:
            step /= 2.0
    return look_from(panel, seen, *best)


def _aimed(panel: Panel, seen: EyeRange, piece: shapely.Geometry, bodies: Sequence[Caster]) -> Iterator[_Seat]:
    """For each body at each of its positions the places that see the ink through its middle, moved into the range."""
    at = shapely.centroid(piece)
    target = Point(float(at.x), float(at.y))
    for body in bodies:
        for foot, top in body.states:
            for share in (1.0, 0.5):
                middle = (foot + (top - foot) * share).mean(axis=0)
                seat = _seen_through(panel, seen, target, float(middle[0]), float(middle[1]), body.height * share)
                if seat is not None:
                    yield seat


def _seen_through(panel: Panel, seen: EyeRange, target: Point, x: float, y: float, height: float) -> _Seat | None:
    """Where the straight line from a point of the face through a point over it meets the plane of the eyes.

    From the face the line is target + k (x - target.x, y - target.y, height); the eye at (up, aside) is over
    (middle.x + aside, middle.y + up cos - distance sin) at up sin + distance cos. None where the two do not meet.
    """
    middle = panel.outline.bounds.centre
    sine, cosine = float(np.sin(np.radians(seen.lean_deg))), float(np.cos(np.radians(seen.lean_deg)))
    across, along = x - target.x, y - target.y
    meets = along * sine - height * cosine
    if abs(meets) < _MORE:
        return None
    level, rise = seen.distance * cosine, middle.y - seen.distance * sine - target.y
    far = (rise * sine - level * cosine) / meets
    up = (height * rise - along * level) / meets
    return _into(seen, up, target.x + far * across - middle.x) if far > 1.0 else None


def _into(seen: EyeRange, height: float, aside: float) -> _Seat:
    return _Seat(min(max(height, seen.height[0]), seen.height[1]), min(max(aside, seen.aside[0]), seen.aside[1]))
