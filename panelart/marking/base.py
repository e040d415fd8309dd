"""The base: white laid under the inks on a dark coat, drawn in so that it does not show where the ink lands beside it.

The rule. All inks that have a base under them are united first, so that no seam of coat shows where two of them meet.
Every connected piece of that ink, a letter as a rule, is decided as a whole:

- Where all of it is at least as wide as twice the choke and the narrowest line of base that holds, it is drawn in by
  the choke all round.
- Where some stroke of it is thinner, all strokes are as that one: base as wide as the ink (`full`), or none (`none`).
  So no letter is part drawn in and part not, and where strokes meet is no place of its own.
- Only what is a body of its own beside thin strokes, a field that lines lead to or a heavy stem beside hair lines, is
  drawn in all the same. There the base passes over from the width of the ink to the choke in small steps.

A sharp corner is no thin line: it is one only when more than a square of that width is lost, or when the corners of a
piece are more than a tenth of it.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

import numpy as np
import shapely

from panelart.canonical import Struct
from panelart.marking.areas import NOTHING, grown, opened, parted, pieces, united
from panelart.model.printing import Thin

SLACK: Final = 0.01
"""Share by which a stroke may fall short of the minimum: what chords take off round strokes is less."""

HEAVY: Final = 1.25
"""How many times the minimum a stroke must be wide to be a body beside thin strokes; below that it is as they are."""

STEM: Final = 4.0
"""How many times the minimum a body must be long; one that is shorter is where strokes meet."""

CORNERS: Final = 0.1
"""Share of a piece that its sharp corners may be; where more is lost, it has short thin strokes, as an asterisk has."""

RAMP: Final = 4.0
STEPS: Final = 5
"""Length over which base passes from the ink's width to the choke, in chokes, and the number of steps."""


class Laid(Struct, frozen=True, kw_only=True):
    """The base, and what of the ink was too thin for a choked one."""

    ground: shapely.Geometry
    thin: shapely.Geometry


def base_under(
    inks: Iterable[shapely.Geometry], *, choke: float, hold: float, thin: Thin, free: shapely.Geometry
) -> Laid:
    """The base under areas of ink, in mm; `hold` is the narrowest line of base that prints.

    `free` is where base may lie at all: not in openings and not near them.
    """
    ink = united(inks)
    if ink.is_empty:
        return Laid(ground=NOTHING, thin=NOTHING)
    minimum = (2.0 * choke + hold) * (1.0 - SLACK)
    whole = pieces(ink)
    if not minimum:
        return Laid(ground=shapely.intersection(ink, free), thin=NOTHING)
    narrow = _with_thin_strokes(whole, minimum)
    wide = united(piece for piece, is_narrow in zip(whole, narrow, strict=True) if not is_narrow)
    left = minimum * (1.0 - SLACK) - 2.0 * choke  # of a round stroke that has just the minimum
    laid = [_choked(wide, choke, left)]
    strokes: list[shapely.Geometry] = []
    for piece in (piece for piece, is_narrow in zip(whole, narrow, strict=True) if is_narrow):
        lines = _thin_of(piece, minimum)
        strokes.append(lines)
        laid.append(_beside(piece, lines, choke, left, thin))
    ground = united(laid)
    return Laid(ground=_kept(ground, free, hold), thin=united(strokes))


def _with_thin_strokes(whole: list[shapely.Polygon], minimum: float) -> list[bool]:
    """Of each piece whether some line of it, or all of it, is thinner than the minimum."""
    radius = minimum / 2
    kept = shapely.intersection(_grown(_grown(whole, -radius), radius), whole)
    lost = shapely.difference(whole, _grown(kept, 1e-4))
    gone = shapely.is_empty(kept)
    return [
        bool(empty) or _is_stroke(left, piece, minimum) for piece, empty, left in zip(whole, gone, lost, strict=True)
    ]


def _is_stroke(lost: shapely.Geometry, piece: shapely.Polygon, minimum: float) -> bool:
    """Whether what a disc of the minimum cannot reach is more than corners: one long line, or many short ones."""
    square = minimum * minimum
    if any(part.area > square for part in shapely.get_parts(lost)):
        return True
    return bool(square < lost.area > CORNERS * piece.area)


def _grown(grounds: Iterable[shapely.Geometry], by: float) -> np.ndarray[tuple[int], np.dtype[np.object_]]:
    """As `grown`, of many at once."""
    return np.array([grown(ground, by) for ground in grounds], dtype=object)


def _thin_of(piece: shapely.Polygon, minimum: float) -> shapely.Geometry:
    """What of a piece with thin strokes is not a body of its own: all of it as a rule."""
    heavy = HEAVY * minimum
    bodies = [body for body in pieces(opened(piece, heavy / 2)) if _is_body(body, minimum)]
    if not bodies:
        return piece
    around = grown(united(bodies), 1e-4)
    long = [part for part in pieces(shapely.difference(piece, around)) if part.area > minimum * minimum]
    return united(long) if long else piece  # thin by many short strokes, as an asterisk: no body beside lines


def _is_body(ground: shapely.Polygon, minimum: float) -> bool:
    """Whether it is more than the place where strokes of nearly the minimum meet."""
    if not grown(ground, -minimum).is_empty:
        return True
    return bool(2.0 * shapely.minimum_bounding_radius(ground) > STEM * minimum)


def _choked(ground: shapely.Geometry, choke: float, hold: float) -> shapely.Geometry:
    """An area drawn in, without what of that is too narrow to print, as tips are."""
    kept, _ = parted(grown(ground, -choke), hold)
    return kept


def _beside(piece: shapely.Polygon, lines: shapely.Geometry, choke: float, hold: float, thin: Thin) -> shapely.Geometry:
    """The base under a piece with thin strokes: these full or without, its bodies drawn in, passing over smoothly."""
    bodies = shapely.difference(piece, lines)
    if thin is Thin.NONE:
        return _choked(bodies, choke, hold)
    if bodies.is_empty:
        return lines
    laid = [lines, _choked(piece, choke, hold)]
    for step in range(1, STEPS):
        near = grown(lines, RAMP * choke * step / STEPS)
        laid.append(shapely.intersection(grown(piece, -choke * step / STEPS), near))
    return united(laid)


def _kept(ground: shapely.Geometry, free: shapely.Geometry, hold: float) -> shapely.Geometry:
    """What of the base is free to lie, without slivers that this leaves."""
    left = shapely.intersection(ground, free)
    if shapely.area(ground) - shapely.area(left) < 1e-9:
        return left
    kept, _ = parted(left, hold * (1.0 - SLACK))
    return kept
