"""The base: white laid under the inks on a dark coat, drawn in so that it does not show where the ink lands beside it.

The rule. All inks that have a base under them are united first, so that no seam of coat shows where two of them meet.
Their area is drawn in by the choke all round. What is thinner than twice the choke and the narrowest line of base that
holds would have less base than holds, or none: there the base is either as wide as the ink (`full`) or left out
(`none`). A sharp corner is no thin line: it is one only when more than a square of that width is lost.
"""

from __future__ import annotations

from collections.abc import Iterable

import shapely

from panelart.canonical import Struct
from panelart.marking.areas import NOTHING, grown, parted, united
from panelart.model.printing import Thin


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
    minimum = 2.0 * choke + hold
    wide, narrow = parted(ink, minimum)
    inner = shapely.intersection(grown(ink, -choke), wide) if choke else wide
    whole = shapely.union(inner, narrow) if thin is Thin.FULL else inner
    return Laid(ground=shapely.intersection(whole, free), thin=narrow)
