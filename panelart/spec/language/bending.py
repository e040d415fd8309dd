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
    """An opening in a flange at its finished size: one of diameter, slot, rectangle and part."""

    ref = key(kinds.REF, required=True, says="Its name, once among the refs of the panel.")
    at = key(
        pair(kinds.PLACE, "along", "back"),
        required=True,
        says=(
            "Along the edge, in the panel's x or y from the datum, and back from the outside of the bend: on a"
            " flange from the front of the face, on a return from the outside of the flange."
        ),
    )
    diameter = key(Length(above=0, maximum=500), says="A round hole.")
    slot = key(pair(kinds.SIZE, "along", "back"), says="A slot with round ends, over all.")
    rectangle = key(pair(kinds.SIZE, "along", "back"), says="A rectangle.")
    part = key(Text(maximum=80, form="the name of a part in the catalogue"), says="What goes into it.")


_FLANGE_HOLES_KEY = key(
    ListOf(of=NounOf(FlangeHole), what="holes", maximum=500), default=(), says="Openings in the flange."
)

_FLANGE_ANGLE_KEY = key(_BEND_ANGLE, default=90.0, says="What the metal is turned through; 90 stands square.")

_FLANGE_RADIUS_KEY = key(_BEND_RADIUS, otherwise="that of `bending`", says="Inside radius of the bend.")


class FlangeReturn(Noun):
    """A second bend along the free edge of a flange."""

    NAME = "return"

    length = key(Length(above=0, maximum=1000), required=True, says="On the outside of its own bend, finished.")
    angle = _FLANGE_ANGLE_KEY
    radius = _FLANGE_RADIUS_KEY
    towards = key(
        Choice(("in", "out"), "directions"),
        default="in",
        says="`in` turns it back over the panel (a channel), `out` away from it.",
    )
    holes = _FLANGE_HOLES_KEY


class Flange(Noun):
    """An edge that is bent back."""

    length = key(
        Length(above=0, maximum=1000),
        required=True,
        says="Outside, finished: from the front of the face to the free edge.",
    )
    angle = _FLANGE_ANGLE_KEY
    radius = _FLANGE_RADIUS_KEY
    inset = key(
        OneOf((Length(minimum=0, maximum=MAX_SIZE), pair(Length(minimum=0, maximum=MAX_SIZE), "low end", "high end"))),
        otherwise="0, or what a flange round the corner needs",
        says="From the ends of the edge to the ends of the flange; left or lower end first.",
    )
    corner = key(Length(minimum=0, maximum=200), default=0.0, says="Radius of the free corners of the flange.")
    return_ = key(NounOf(FlangeReturn), says="A second bend along the free edge.")
    holes = _FLANGE_HOLES_KEY


class Flanges(Noun):
    """Edges that are bent back: length, or all of it."""

    top = key(OneOf((Length(above=0, maximum=1000), NounOf(Flange))), says="The flange along the top edge.")
    bottom = key(OneOf((Length(above=0, maximum=1000), NounOf(Flange))), says="The flange along the bottom edge.")
    left = key(OneOf((Length(above=0, maximum=1000), NounOf(Flange))), says="The flange along the left edge.")
    right = key(OneOf((Length(above=0, maximum=1000), NounOf(Flange))), says="The flange along the right edge.")


class TestedBend(Noun):
    """A bend measured in this sheet."""

    radius = key(_BEND_RADIUS, required=True, says="Inside radius.")
    angle = key(_BEND_ANGLE, default=90.0, says="What the metal was turned through.")
    deduction = key(
        Length(minimum=-100, maximum=100), required=True, says="What the bend took off the sum of the outside lengths."
    )


class Relief(Noun):
    """The slot beside a flange that ends early."""

    shape = key(
        Choice(("square", "round", "tear"), "shapes"),
        default="square",
        says="A slot with a square or a round end, or none: `tear` lets the metal tear beside the flange.",
    )
    width = key(Length(above=0, maximum=100), otherwise="the thickness", says="Width beside the flange.")
    depth = key(
        Length(minimum=0, maximum=100), otherwise="the thickness", says="How far it runs past the bend into the face."
    )


class CornerRelief(Noun):
    """The notch where two flanges meet at a corner."""

    shape = key(
        Choice(("square", "round"), "shapes"), default="square", says="The inside of the notch: sharp, or rounded."
    )
    depth = key(
        Length(minimum=0, maximum=100),
        otherwise="that of `relief`",
        says="How far it runs past both bends into the face.",
    )


class Bending(Noun):
    """How the shop bends; without `k` and `tested` the K of DIN 6935 is taken. Springback is left to the shop."""

    radius = key(_BEND_RADIUS, otherwise="the thickness of the sheet", says="Inside radius of all bends.")
    k = key(
        Number(minimum=0, maximum=1),
        says="The neutral line, from the inside, as a share of the thickness; the shop's own.",
    )
    tested = key(
        ListOf(
            of=NounOf(TestedBend),
            what="tested bends",
            minimum=1,
            maximum=100,
        ),
        says="Deductions that the shop has measured in this sheet; bends that are not among them are refused.",
    )
    relief = key(NounOf(Relief), otherwise="as wide as the sheet is thick", says="Reliefs beside flanges.")
    corner_relief = key(
        NounOf(CornerRelief), otherwise="square, as deep as `relief`", says="Reliefs where two flanges meet."
    )
    die = key(Length(above=0, maximum=200), otherwise="not known", says="Opening of the shop's die.")
