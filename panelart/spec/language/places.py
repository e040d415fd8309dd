"""Where things are: from the datum, from parts, from edges of the face."""

from __future__ import annotations

from typing import Final

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import OneOf, pair
from panelart.spec.language import kinds


class RelativePlace(Noun):
    """A place measured from another part."""

    from_ = key(kinds.REF, required=True, says="The ref of the part that is measured from.")
    by = key(pair(kinds.PLACE, "dx", "dy"), required=True, says="From that part's centre to this one's.")


ACROSS_LINES: Final = ("left-edge", "middle", "right-edge")

UPRIGHT_LINES: Final = ("bottom-edge", "middle", "top-edge")
"""Lines of the face that places on an axis may be measured from, in the order of the axis."""

_AXIS_FROM_KEY = key(
    kinds.REF,
    says="What is measured from: the centre of a part, by its ref, or an edge of the face or its middle, by name.",
)

_AXIS_BY_KEY = key(kinds.PLACE, default=0.0, says="How far from there, to the right or up.")

_SIDE_GAP_KEY = key(
    kinds.GAP, default=0.0, says="How far clear, between what the two cover in front, knobs and openings included."
)


class PlaceAcross(Noun):
    """A place from left to right: one of from, right_of and left_of; edges are left-edge, middle, right-edge."""

    from_ = _AXIS_FROM_KEY
    by = _AXIS_BY_KEY
    right_of = key(kinds.REF, says="Stands clear on the right of a part, or of the left edge.")
    left_of = key(kinds.REF, says="Stands clear on the left of a part, or of the right edge.")
    gap = _SIDE_GAP_KEY


class PlaceUpright(Noun):
    """A place from bottom to top: one of from, above and below; edges are bottom-edge, middle, top-edge."""

    from_ = _AXIS_FROM_KEY
    by = _AXIS_BY_KEY
    above = key(kinds.REF, says="Stands clear above a part, or above the bottom edge.")
    below = key(kinds.REF, says="Stands clear below a part, or below the top edge.")
    gap = _SIDE_GAP_KEY


class PlaceByAxes(Noun):
    """A place in line with parts or edges, each axis by itself."""

    MARKED_BY = "x"

    x = key(
        OneOf((kinds.PLACE, NounOf(PlaceAcross))),
        required=True,
        says="From left to right: from the datum, a part or an edge.",
    )
    y = key(
        OneOf((kinds.PLACE, NounOf(PlaceUpright))),
        required=True,
        says="From bottom to top: from the datum, a part or an edge.",
    )


ANYWHERE: OneOf = OneOf((kinds.POSITION, NounOf(PlaceByAxes), NounOf(RelativePlace)))
