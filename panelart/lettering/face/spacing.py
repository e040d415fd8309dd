"""Spacing measured on the strokes: side bearings and kerning, by the white that stands between two letters.

Across a pair the gap is read row by row. A letter that falls away from its neighbour (O, A, T) leaves more white
than a straight stem; that white counts less the deeper it lies. The *optical gap* of a pair is the power mean of
the gaps with exponent ``-EMPHASIS``, so that the narrow places speak loudest, with each letter's depth cut off at
``DEPTH``. Side bearings give every letter beside a straight stem the optical gap of two stems; kerning moves a
pair part of the way to the same figure, and never nearer than ``NEAREST`` strokes of clear space: ISO 3098-0
(type B) sets a gap of 2 d and lets pairs such as LA, TV, Tr close to one stroke.

All lengths in d of the face as it is drawn, rows counted upwards from the base line.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from panelart.canonical import Struct
from panelart.lettering.face.curves import Stroke

ROW = 0.5
EMPHASIS = 2.5
DEPTH = 2.2
#: Least clear space of a kerned pair, in pens.
NEAREST = 1.4
#: Share of the way to an even optical gap that kerning goes; the whole way looks restless on short words.
SHARE = 0.7
#: Kerning under this is left out: it is not seen at 3 mm (0.1 mm) and would only swell the table.
MIN_KERN = 0.4
#: Kerning goes in steps of this, so that letters of like sides share a class.
STEP = 0.1
#: Least side bearing as a share of the gap of two stems.
MIN_BEARING = 0.3
#: What two half-pen bearings leave over a full pen, so that rounding to font units cannot take the stroke away (d).
CLEAR = 0.02
#: How far above and below a row ink still counts for the least clear space, in pens.
SLANT = 1.0


class Profile(Struct, frozen=True, kw_only=True):
    """The two sides of a glyph: ink from ``left`` to ``right`` in every row that has ink, and its own width."""

    lefts: Mapping[int, float]
    rights: Mapping[int, float]
    left: float
    right: float
    zone: range


def profile(strokes: Iterable[Stroke], zone_top: float) -> Profile:
    """Read the sides of drawn strokes; rows above ``zone_top`` do not count for even spacing."""
    lefts: dict[int, float] = {}
    rights: dict[int, float] = {}
    left, right = math.inf, -math.inf
    for stroke in strokes:
        half = stroke.pen / 2.0
        for x, y in stroke.spots(0.1):
            left, right = min(left, x - half), max(right, x + half)
            for row in range(math.ceil((y - half) / ROW), math.floor((y + half) / ROW) + 1):
                reach = math.sqrt(max(0.0, half * half - (row * ROW - y) ** 2))
                lefts[row] = min(lefts.get(row, x - reach), x - reach)
                rights[row] = max(rights.get(row, x + reach), x + reach)
    rows = [row for row in lefts if 0 < row * ROW < zone_top] or list(lefts)
    return Profile(lefts=lefts, rights=rights, left=left, right=right, zone=range(min(rows), max(rows) + 1))


def bearings(shape: Profile, gap: float, pen: float) -> tuple[float, float]:
    """Left and right side bearing that give the optical gap ``gap`` beside a straight stem.

    Never under half a pen: two letters stand at least a stroke apart (NUREG-0700 Rev. 3, 11.4.1.5-7).
    """
    minimum = max(MIN_BEARING * gap, (pen + CLEAR) / 2.0)
    left = _even(_depths(shape.zone, shape.lefts, shape.left, 1.0), gap) - gap / 2.0
    right = _even(_depths(shape.zone, shape.rights, shape.right, -1.0), gap) - gap / 2.0
    return max(left, minimum), max(right, minimum)


def kerning(first: Profile, second: Profile, apart: float, gap: float, pen: float) -> float:
    """Change of the advance of ``first`` before ``second``; 0 where the pair is even enough.

    ``apart`` is the distance between the outermost ink of the two without kerning.
    """
    zone = range(max(first.zone.start, second.zone.start), min(first.zone.stop, second.zone.stop))
    if len(zone) == 0:
        return 0.0
    depths = [
        one + other
        for one, other in zip(
            _depths(zone, first.rights, first.right, -1.0), _depths(zone, second.lefts, second.left, 1.0), strict=True
        )
    ]
    # Most pairs are even enough; that is seen at the two edges of what is left alone, without searching.
    slack = MIN_KERN / SHARE
    if not _wider(depths, gap, apart + slack) and _wider(depths, gap, apart - slack):
        return 0.0
    wish = SHARE * (_even(depths, gap) - apart)
    if wish < 0.0:
        wish = min(0.0, max(wish, NEAREST * pen - _clear(first, second, apart, math.ceil(SLANT * pen / ROW))))
    return round(wish / STEP) * STEP if abs(wish) >= MIN_KERN else 0.0


def _depths(zone: range, sides: Mapping[int, float], edge: float, sign: float) -> list[float]:
    return [min(DEPTH, sign * (sides[row] - edge)) if row in sides else DEPTH for row in zone]


def _even(depths: list[float], gap: float) -> float:
    """Distance between the outermost ink at which the optical gap is ``gap`` (bisection to 0.001 d)."""
    low, high = gap - 2.0 * DEPTH, gap
    while high - low > 0.001:
        middle = (low + high) / 2.0
        if _wider(depths, gap, middle):
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def _wider(depths: list[float], gap: float, apart: float) -> bool:
    """Whether two glyphs must stand wider than ``apart`` to have the optical gap ``gap``."""
    if min(depths) + apart <= 0.05:
        return True
    return math.fsum(math.pow(depth + apart, -EMPHASIS) for depth in depths) > len(depths) * math.pow(gap, -EMPHASIS)


def _clear(first: Profile, second: Profile, apart: float, neighbours: int) -> float:
    """Least clear distance between the ink of two glyphs, seen across and at a slant."""
    minimum = math.inf
    for row, right in first.rights.items():
        for other in range(row - neighbours, row + neighbours + 1):
            left = second.lefts.get(other)
            if left is None:
                continue
            across = apart + (first.right - right) + (left - second.left)
            rise = (other - row) * ROW
            minimum = min(minimum, math.hypot(across, rise) if across > 0 else across)
    return minimum
