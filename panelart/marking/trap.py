"""Where two inks touch: the upper one is left out of the lower, and the lighter spreads under the darker by the trap.

The darker ink keeps its edge, since that is the edge the eye sees. Nothing spreads onto the bare coat.
"""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from panelart.canonical import Struct
from panelart.marking.areas import NOTHING, grown, united


class ColourArea(Struct, frozen=True, kw_only=True):
    """An area of one ink, '' for a picture; `light` tells the lighter of two, the greater the lighter."""

    ink: str
    area: shapely.Geometry
    light: float


def spreads(areas: Sequence[ColourArea], trap: float) -> list[shapely.Geometry]:
    """What each area, none overlapping another, takes of its darker neighbours."""
    if not trap:
        return [NOTHING] * len(areas)
    taken: list[shapely.Geometry] = []
    for index, own in enumerate(areas):
        darker = [
            other.area
            for place, other in enumerate(areas)
            if other.ink != own.ink and (other.light, -place) < (own.light, -index)
        ]
        ring = grown(own.area, trap)
        parts = [shapely.intersection(ring, area) for area in darker if shapely.intersects(ring, area)]
        # A ring that only comes near does not bridge bare coat: it must touch what it spreads from.
        touching = [part for part in shapely.get_parts(united(parts)) if shapely.distance(part, own.area) < 1e-6]
        taken.append(united([part for part in touching if part.geom_type == "Polygon"]))
    return taken
