"""Where things are: from the datum, from parts, from edges of the face."""

from __future__ import annotations

from typing import Final

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import OneOf, pair
from panelart.spec.language import kinds


class RelativePlace(Noun):
    """Position measured from another part."""

    NAME = "relative position"

    from_ = key(kinds.REF, required=True, says="Ref of the part to measure from.")
    by = key(
        pair(kinds.PLACE, "dx", "dy"),
        required=True,
        says="Distance from the centre of that part to the centre of this one.",
    )


ACROSS_LINES: Final = ("left-edge", "middle", "right-edge")

UPRIGHT_LINES: Final = ("bottom-edge", "middle", "top-edge")
"""Lines of the face that places on an axis may be measured from, in the order of the axis."""

_AXIS_FROM_KEY = key(
    kinds.REF,
    says="Where to measure from: the centre of a part, by its ref, or an edge or the middle of the face, by name.",
)

_AXIS_BY_KEY = key(kinds.PLACE, default=0.0, says="Distance from there, to the right or up.")

_SIDE_GAP_KEY = key(
    kinds.GAP, default=0.0, says="Clearance between the areas that the two cover in front, knobs and openings included."
)


class PlaceAcross(Noun):
    """Horizontal position: one of from, right_of and left_of; edges are left-edge, middle, right-edge."""

    NAME = "horizontal position"

    from_ = _AXIS_FROM_KEY
    by = _AXIS_BY_KEY
    right_of = key(kinds.REF, says="To the right of a part, or of the left edge.")
    left_of = key(kinds.REF, says="To the left of a part, or of the right edge.")
    gap = _SIDE_GAP_KEY


class PlaceUpright(Noun):
    """Vertical position: one of from, above and below; edges are bottom-edge, middle, top-edge."""

    NAME = "vertical position"

    from_ = _AXIS_FROM_KEY
    by = _AXIS_BY_KEY
    above = key(kinds.REF, says="Above a part, or above the bottom edge.")
    below = key(kinds.REF, says="Below a part, or below the top edge.")
    gap = _SIDE_GAP_KEY


class PlaceByAxes(Noun):
    """Position in line with parts or edges, each axis separately."""

    NAME = "position by axes"
    MARKED_BY = "x"

    x = key(
        OneOf((kinds.PLACE, NounOf(PlaceAcross))),
        required=True,
        says="Horizontal position, from the datum, a part or an edge.",
    )
    y = key(
        OneOf((kinds.PLACE, NounOf(PlaceUpright))),
        required=True,
        says="Vertical position, from the datum, a part or an edge.",
    )


ANYWHERE: OneOf = OneOf((kinds.POSITION, NounOf(PlaceByAxes), NounOf(RelativePlace)))
