"""Whether what lies on the face round an opening covers it: a bezel smaller than its hole shows the hole."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from panelart.canonical import Struct
from panelart.messages import Message
from panelart.messages import catalogue as said
from panelart.model.component import Component, Envelope, Opening, Role

if TYPE_CHECKING:
    from shapely import Geometry

_LIES_ON_THE_FACE: Final = frozenset({"bezel", "flange", "rim", "collar", "escutcheon"})
"""Last words of what is made to cover the edge of a hole. A nut, a washer or a lever is not."""

_NEAR: Final = 1e-4
"""Arcs are polygons here; what they lack of the arc, in mm, is no gap."""


class Uncovered(Struct, frozen=True, kw_only=True):
    """What should cover an opening and does not; both sizes overall, width and height in mm."""

    what: str
    size: tuple[float, float]
    opening: tuple[float, float]

    @property
    def told(self) -> tuple[Message, Message]:
        """What is wrong, and what to do."""
        return said.not_covered(self.what, self.size, self.opening), said.correct_cover()


def uncovered(component: Component) -> Uncovered | None:
    """The first bezel or flange that leaves part of an opening open, taken with all that lies round it; None for none.

    Only openings that the body fills count, and only those that it meets: a fan's screws may stand outside its guard.
    """
    import shapely  # here, since the catalogue is also read where nothing is measured

    from panelart.geometry.polygons import polygon

    covers = [one for one in component.front if one.covers]
    rims = [one for one in covers if _is_made_to_cover(one)]
    holes = [one for one in component.openings if one.role in (Role.BODY, Role.APERTURE)]
    if not rims or not holes:
        return None
    whole = shapely.union_all([polygon(one.contour, side="outside") for one in covers]).buffer(_NEAR)
    for rim in rims:
        hole = _left_open(rim, holes, whole)
        if hole is not None:
            bounds, inner = rim.contour.bounds, hole.contour.bounds
            return Uncovered(what=rim.what, size=(bounds.width, bounds.height), opening=(inner.width, inner.height))
    return None


def _is_made_to_cover(envelope: Envelope) -> bool:
    """Whether an envelope is called by what lies round a hole to hide its edge."""
    return not _LIES_ON_THE_FACE.isdisjoint(envelope.what.split()[-1:])


def _left_open(rim: Envelope, holes: Sequence[Opening], whole: Geometry) -> Opening | None:
    """The first opening that a rim meets and that all that covers, taken as a whole, does not hide."""
    from panelart.geometry.polygons import polygon

    ground = polygon(rim.contour, side="outside")
    for hole in holes:
        cut = polygon(hole.contour, side="inside")
        if ground.intersects(cut) and not whole.covers(cut):
            return hole
    return None
