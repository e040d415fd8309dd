"""Who works at the panel, and how it is made."""

from __future__ import annotations

from typing import Final

from panelart.model.panel import EYES_APART
from panelart.model.panel import Sight as Reader
from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Angle, Choice, Flag, Integer, Length, ListOf, Number, OneOf, Text, pair
from panelart.spec.language import kinds
from panelart.spec.language.bending import EDGES

USUAL: Final = Reader()
"""What is taken of the reader where nothing is said."""

_EYE_PLACE = Length(minimum=-20000, maximum=20000)


class Eye(Noun):
    """Position of the eye; the check finds legends that are hidden by hardware."""

    distance = key(
        Length(above=0, maximum=20000),
        otherwise="`marking.viewing_distance`",
        says="Horizontal distance from the eye to the middle of the panel.",
    )
    height = key(
        OneOf((_EYE_PLACE, pair(_EYE_PLACE, "lowest", "highest"))),
        default=0.0,
        says=(
            "Height of the eye above the middle of the panel: one height, or the lowest (seated) and the highest "
            "(standing)."
        ),
    )
    aside = key(
        OneOf((_EYE_PLACE, pair(_EYE_PLACE, "leftmost", "rightmost"))),
        default=0.0,
        says=(
            "Distance of the eye to the right of the middle of the panel: one distance, or the leftmost and the "
            "rightmost."
        ),
    )
    lean = key(
        Angle(minimum=-90, maximum=90),
        default=0.0,
        says="Angle by which the top of the panel leans back from vertical.",
    )
    apart = key(
        Length(minimum=0, maximum=100),
        default=EYES_APART,
        says=(
            "Distance between the two eyes, which are level with each other; a legend that one of them sees is not "
            "hidden. 0 for one eye."
        ),
    )


class Sight(Noun):
    """Eyesight of the reader and light on the face; legends that are easily misread are found."""

    acuity = key(
        Number(minimum=0.05, maximum=3),
        default=USUAL.acuity,
        says=(
            "Decimal visual acuity with both eyes, with glasses as worn: 1 is 20/20 or 6/6, 0.5 is 20/40. The default "
            "is that of DIN 1450."
        ),
    )
    age = key(
        Number(minimum=5, maximum=110),
        default=USUAL.age,
        says="Age of the reader in years; at 60 a third of the light reaches the retina that does at 20.",
    )
    illuminance = key(
        Number(above=0, maximum=200000),
        default=USUAL.illuminance,
        says="Illuminance on the face in lux: 500 at a control station, 50 in a corridor, 1 by emergency lighting.",
    )


class Operator(Noun):
    """Person who works at the panel."""

    eye = key(NounOf(Eye), otherwise="hidden legends are not checked", says="Position of the eye.")
    sight = key(NounOf(Sight), says="How well the reader sees.")
    hand = key(
        Choice(("bare", "gloved"), "hands"),
        otherwise="only finger clearance is checked",
        says="Hand that works the controls; their spacing is checked against the tables of standards.",
    )


CUTTINGS: Final = ("laser", "punch", "mill", "waterjet", "hand")

_PUNCH = Length(above=0, maximum=200)


class Punch(Noun):
    """Punch with round ends."""

    slot = key(pair(_PUNCH, "length", "width"), required=True, says="Overall size of a punch with round ends.")


class Hanging(Noun):
    """How the panel hangs on the coater's rack: by holes made in a flange, or by existing openings."""

    on = key(
        Choice((*EDGES, *(f"{edge} return" for edge in EDGES)), "flanges"),
        says="Flange in which hanging holes are made.",
    )
    diameter = key(
        Length(above=0, maximum=50), default=5.0, says="Diameter of the hanging holes, for the coater's hook."
    )
    at = key(
        ListOf(of=kinds.PLACE, what="positions along the edge", minimum=1, maximum=20),
        otherwise="two positions a quarter of the length from the ends, clear of other openings in the flange",
        says="Positions along the edge, in the panel's x or y from the datum.",
    )
    by = key(
        ListOf(of=kinds.REF, what="refs", minimum=1, maximum=50),
        says="Refs of openings that the panel hangs by instead.",
    )


class Making(Noun):
    """Manufacture of the panel, for the build sheet and the manufacturing rules."""

    cutting = key(Choice(CUTTINGS, "cutting processes"), default="laser", says="Cutting process of the sheet.")
    cutter = key(
        Length(above=0, maximum=50),
        otherwise="not known",
        says="Diameter of the milling cutter; inside corners are rounded by its radius.",
    )
    relieve_corners = key(
        Flag(),
        default=False,
        says=("Whether the cutter relieves the sharp inside corners of milled openings, so that square parts fit."),
    )
    punches = key(
        ListOf(
            of=OneOf((_PUNCH, pair(_PUNCH, "length", "width"), NounOf(Punch))),
            what="punches",
            maximum=200,
        ),
        default=(),
        says=(
            "Punches of the shop: diameters of round ones, `[length, width]` of rectangular ones, `{slot: "
            "[length, width]}` of those with round ends; openings that no punch makes in one stroke are nibbled."
        ),
    )
    tolerance = key(
        Choice(("f", "m", "c", "v"), "classes"),
        default="m",
        says=(
            "Class of ISO 2768-1 for sizes without a tolerance of their own. Sizes of openings are H12 with `f`, H13 "
            "with `m`, H14 with `c` and `v` (ISO 286-2): never below the nominal size."
        ),
    )
    one_in = key(
        Integer(minimum=10, maximum=1_000_000),
        otherwise="worst case: all at once",
        says=(
            "How deviations (register error, position and size of openings, coat thickness, play and size of parts) "
            "add up: as the root of the sum of their squares, which one panel in so many exceeds."
        ),
    )
    position_error = key(
        Length(minimum=0.0, maximum=10.0),
        default=0.0,
        says=(
            "Maximum position error of openings, in any direction, against what the panel is located by for marking; "
            "0 where the register error includes it."
        ),
    )
    quantity = key(Integer(minimum=1, maximum=1_000_000), default=1, says="Number of panels to make.")
    first_serial = key(Text(maximum=40), default="", says="Serial number of the first panel; its digits count up.")
    grain = key(
        Choice(("along", "across"), "directions"),
        otherwise="any",
        says="Direction of the grain of the sheet: along the width of the panel, or across it.",
    )
    hanging = key(
        NounOf(Hanging), otherwise="by any opening that is hidden later", says="How the panel hangs when it is coated."
    )
    note = key(Text(maximum=500, prose=True), default="", says="Note for the shop.")
