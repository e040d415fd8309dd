"""Who works at the panel, and how it is made."""

from __future__ import annotations

from typing import Final

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Angle, Choice, Flag, Integer, Length, ListOf, OneOf, Text, pair
from panelart.spec.language import kinds
from panelart.spec.language.bending import EDGES

_EYE_PLACE = Length(minimum=-20000, maximum=20000)


class Eye(Noun):
    """Where the panel is seen from; legends are then held against the shadows of the hardware."""

    distance = key(
        Length(above=0, maximum=20000),
        otherwise="`marking.viewing_distance`",
        says="From the eye straight ahead to the middle of the panel, level.",
    )
    height = key(
        OneOf((_EYE_PLACE, pair(_EYE_PLACE, "lowest", "highest"))),
        default=0.0,
        says="The eye above the middle of the panel: one height, or the lowest (seated) and the highest (standing).",
    )
    aside = key(
        OneOf((_EYE_PLACE, pair(_EYE_PLACE, "leftmost", "rightmost"))),
        default=0.0,
        says="The eye to the right of the middle of the panel: one place, or the leftmost and the rightmost.",
    )
    lean = key(
        Angle(minimum=-90, maximum=90), default=0.0, says="How far the top of the panel leans back from upright."
    )


class Operator(Noun):
    """Who works at the panel."""

    eye = key(NounOf(Eye), otherwise="not held against shadows", says="Where the panel is seen from.")
    hand = key(
        Choice(("bare", "gloved"), "hands"),
        otherwise="only the room for a finger is asked for",
        says="The hand that works the controls; their spacing is then held against the standards' tables.",
    )


CUTTINGS: Final = ("laser", "punch", "mill", "waterjet", "hand")

_PUNCH = Length(above=0, maximum=200)


class Punch(Noun):
    """A slotting punch."""

    slot = key(pair(_PUNCH, "length", "width"), required=True, says="A punch with round ends, over all.")


class Hanging(Noun):
    """How the panel hangs on the coater's rack: holes of its own in a flange, or openings that are there."""

    on = key(
        Choice((*EDGES, *(f"{edge} return" for edge in EDGES)), "flanges"),
        says="The flange that gets holes to hang the panel by.",
    )
    diameter = key(Length(above=0, maximum=50), default=5.0, says="Their diameter, for the coater's hook.")
    at = key(
        ListOf(of=kinds.PLACE, what="places along the edge", minimum=1, maximum=20),
        otherwise="two places a quarter in from the ends, clear of what else is in the flange",
        says="Where they are along the edge, in the panel's x or y from the datum.",
    )
    by = key(
        ListOf(of=kinds.REF, what="refs", minimum=1, maximum=50),
        says="Openings that the panel hangs by instead, by their refs.",
    )


class Making(Noun):
    """How the panel is made, for the build sheet and the rules of the workshop."""

    cutting = key(Choice(CUTTINGS, "ways to cut"), default="laser", says="How the sheet is cut.")
    cutter = key(
        Length(above=0, maximum=50),
        otherwise="not known",
        says="Diameter of the milling cutter; inside corners are rounded by its radius.",
    )
    relieve_corners = key(
        Flag(),
        default=False,
        says=(
            "Whether a milled opening has its sharp inside corners relieved by the cutter, so that square parts go in."
        ),
    )
    punches = key(
        ListOf(
            of=OneOf((_PUNCH, pair(_PUNCH, "length", "width"), NounOf(Punch))),
            what="punches",
            maximum=200,
        ),
        default=(),
        says=(
            "The punches that the shop has: diameters of round ones, `[length, width]` of rectangular ones,"
            " `{slot: [length, width]}` of those with round ends; openings that none of them makes in one stroke"
            " are nibbled."
        ),
    )
    tolerance = key(
        Choice(("f", "m", "c", "v"), "classes"),
        default="m",
        says="The class of ISO 2768-1 that holds for sizes without a tolerance of their own.",
    )
    quantity = key(Integer(minimum=1, maximum=1_000_000), default=1, says="How many are made.")
    first_serial = key(Text(maximum=40), default="", says="Serial number of the first; its digits count up.")
    grain = key(
        Choice(("along", "across"), "directions"),
        otherwise="any",
        says="Which way the grain of the sheet runs: along the width of the panel, or across it.",
    )
    hanging = key(
        NounOf(Hanging), otherwise="by whatever ends up hidden", says="How the panel hangs when it is coated."
    )
    note = key(Text(maximum=500, prose=True), default="", says="What else the shop must know.")
