"""Bent edges: flanges, their holes, and how the shop bends."""

from __future__ import annotations

from typing import Final

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Angle, Choice, Length, ListOf, Number, OneOf, Text, pair
from panelart.spec.language import kinds
from panelart.spec.language.kinds import MAX_SIZE

EDGES: Final = ("top", "bottom", "left", "right")

_BEND_ANGLE = Angle(minimum=5, maximum=150)

_BEND_RADIUS = Length(above=0, maximum=50)


class FlangeHole(Noun):
    """Opening in a flange at its finished size: one of diameter, slot, rectangle and part."""

    ref = key(kinds.REF, required=True, says="Ref of the opening, unique on the panel.")
    at = key(
        pair(kinds.PLACE, "along", "back"),
        required=True,
        says=(
            "Position along the edge, in the panel's x or y from the datum, and distance back from the outside of "
            "the bend: on a flange from the front of the face, on a return from the outside of the flange."
        ),
    )
    diameter = key(Length(above=0, maximum=500), says="Diameter of a round hole.")
    slot = key(pair(kinds.SIZE, "along", "back"), says="Overall size of a slot with round ends.")
    rectangle = key(pair(kinds.SIZE, "along", "back"), says="Size of a rectangular hole.")
    part = key(
        Text(maximum=80, form="the name of a part in the catalogue"),
        says="Catalogue part that is fitted in the opening.",
    )


_FLANGE_HOLES_KEY = key(
    ListOf(of=NounOf(FlangeHole), what="holes", maximum=500), default=(), says="Openings in the flange."
)

_FLANGE_ANGLE_KEY = key(_BEND_ANGLE, default=90.0, says="Bend angle; 90 makes a square flange.")

_FLANGE_RADIUS_KEY = key(_BEND_RADIUS, otherwise="as in `bending`", says="Inside radius of the bend.")


class FlangeReturn(Noun):
    """Second bend along the free edge of a flange."""

    NAME = "return"

    length = key(
        Length(above=0, maximum=1000),
        required=True,
        says="Outside length when finished, measured from the outside of its own bend.",
    )
    angle = _FLANGE_ANGLE_KEY
    radius = _FLANGE_RADIUS_KEY
    towards = key(
        Choice(("in", "out"), "directions"),
        default="in",
        says="Bend direction: `in` bends back over the panel (channel), `out` bends away from it.",
    )
    holes = _FLANGE_HOLES_KEY


class Flange(Noun):
    """Edge that is bent back."""

    length = key(
        Length(above=0, maximum=1000),
        required=True,
        says="Outside length when finished, from the front of the face to the free edge.",
    )
    angle = _FLANGE_ANGLE_KEY
    radius = _FLANGE_RADIUS_KEY
    inset = key(
        OneOf((Length(minimum=0, maximum=MAX_SIZE), pair(Length(minimum=0, maximum=MAX_SIZE), "low end", "high end"))),
        otherwise="0, or as needed by a flange at the same corner",
        says="Distance from each end of the edge to the flange; left or lower end first.",
    )
    corner = key(Length(minimum=0, maximum=200), default=0.0, says="Radius of the free corners of the flange.")
    return_ = key(NounOf(FlangeReturn), says="Second bend along the free edge.")
    holes = _FLANGE_HOLES_KEY


class Flanges(Noun):
    """Edges that are bent back: for each its length, or all its settings."""

    top = key(OneOf((Length(above=0, maximum=1000), NounOf(Flange))), says="Flange along the top edge.")
    bottom = key(OneOf((Length(above=0, maximum=1000), NounOf(Flange))), says="Flange along the bottom edge.")
    left = key(OneOf((Length(above=0, maximum=1000), NounOf(Flange))), says="Flange along the left edge.")
    right = key(OneOf((Length(above=0, maximum=1000), NounOf(Flange))), says="Flange along the right edge.")


class TestedBend(Noun):
    """Bend measured in this sheet."""

    radius = key(_BEND_RADIUS, required=True, says="Inside radius of the bend.")
    angle = key(_BEND_ANGLE, default=90.0, says="Bend angle.")
    deduction = key(
        Length(minimum=-100, maximum=100),
        required=True,
        says="Bend deduction: the sum of the outside lengths minus the flat length.",
    )


class Relief(Noun):
    """Slot beside a flange that is shorter than its edge."""

    shape = key(
        Choice(("square", "round", "tear"), "shapes"),
        default="square",
        says=(
            "Shape of the relief: a slot with a square or round end; `tear` makes none and lets the metal tear "
            "beside the flange."
        ),
    )
    width = key(
        Length(above=0, maximum=100),
        otherwise="the thickness of the sheet",
        says="Width of the relief beside the flange.",
    )
    depth = key(
        Length(minimum=0, maximum=100),
        otherwise="the thickness of the sheet",
        says="Depth of the relief from the bend into the face.",
    )


class CornerRelief(Noun):
    """Notch where two flanges meet at a corner."""

    shape = key(Choice(("square", "round"), "shapes"), default="square", says="Inside of the notch: square or rounded.")
    depth = key(
        Length(minimum=0, maximum=100),
        otherwise="as in `relief`",
        says="Depth of the notch past both bends into the face.",
    )


class Bending(Noun):
    """Bending data of the shop.

    Without `k` and `tested`, the K-factor of DIN 6935 is used. Springback is left to the shop.
    """

    radius = key(_BEND_RADIUS, otherwise="the thickness of the sheet", says="Inside radius of all bends.")
    k = key(
        Number(minimum=0, maximum=1),
        says="K-factor of the shop: distance of the neutral line from the inside, as a share of the thickness.",
    )
    tested = key(
        ListOf(
            of=NounOf(TestedBend),
            what="tested bends",
            minimum=1,
            maximum=100,
        ),
        says="Bend deductions that the shop has measured in this sheet; all other bends are refused.",
    )
    relief = key(
        NounOf(Relief), otherwise="square, as wide and deep as the sheet is thick", says="Bend reliefs beside flanges."
    )
    corner_relief = key(
        NounOf(CornerRelief), otherwise="square, as deep as `relief`", says="Corner reliefs where two flanges meet."
    )
    die = key(Length(above=0, maximum=200), otherwise="not known", says="Opening of the shop's V die.")
