"""What belongs to controls: positions, scales, knobs."""

from __future__ import annotations

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Angle, Choice, Flag, Length, ListOf, MapOf, Number, OneOf, Text, pair
from panelart.spec.language import kinds
from panelart.spec.language.kinds import MAX_SIZE
from panelart.spec.language.legends import SymbolPosition

POSITION_NAME: OneOf = OneOf((Text(maximum=80), NounOf(SymbolPosition)))


class TurningPositions(Noun):
    """Positions evenly round a shaft."""

    MARKED_BY = "texts"

    texts = key(
        ListOf(of=POSITION_NAME, what="texts or symbols", minimum=1, maximum=60),
        required=True,
        says="The positions of a turning control, clockwise.",
    )
    sweep = key(
        Angle(above=0, maximum=360),
        default=300.0,
        says="From the first position to the last, centred on straight up; 360 spaces them all round.",
    )


class Zone(Noun):
    """A band of colour between knob and marks."""

    from_ = key(Number(), required=True, says="The value where the band starts.")
    to = key(Number(), required=True, says="The value where it ends.")
    ink = key(Text(maximum=60), required=True, says="The ink, by name.")


class Scale(Noun):
    """Graduations round the part's shaft, or along a straight line."""

    from_ = key(Number(), required=True, says="The value at the low end, where the scale starts.")
    to = key(Number(), required=True, says="The value at the high end; more than `from`.")
    unit = key(Text(maximum=20), default="", says="The unit that is printed once with the scale.")
    law = key(
        Choice(("linear", "logarithmic"), "laws"),
        default="linear",
        says="How values are spread; a logarithmic scale has its marks at the digits 1 to 9 of each decade.",
    )
    table = key(
        ListOf(
            of=pair(Number(), "value", "share"),
            what="pairs, each [value, share of the sweep from 0 to 1]",
            minimum=2,
            maximum=100,
        ),
        says="Measured law, such as that of an audio potentiometer; straight between the pairs, from `from` to `to`.",
    )
    major = key(
        Number(above=0),
        otherwise="required, unless `marks` or a logarithmic law is given",
        says="The step of the long marks; it divides the range.",
    )
    intermediate = key(
        Number(above=0),
        otherwise="half way, where a long step has ten short ones",
        says="The step of the middle marks; it divides `major`.",
    )
    minor = key(Number(above=0), says="The step of the short marks; it divides `major`.")
    marks = key(
        ListOf(of=Number(), what="values", minimum=1, maximum=200), says="The values of the long marks, one by one."
    )
    sweep = key(Angle(above=0, below=360), default=300.0, says="From the low end to the high end.")
    start = key(
        kinds.TURN,
        otherwise="centred on straight up",
        says="Direction of the low end, counter-clockwise from the right.",
    )
    direction = key(
        Choice(("clockwise", "counter-clockwise"), "directions"), default="clockwise", says="Which way the values grow."
    )
    numerals = key(
        ListOf(of=Number(), what="values", minimum=0, maximum=200),
        otherwise="at every long mark, thinned out by one, two and five where they would touch",
        says="The values that get a numeral.",
    )
    reading = key(
        Choice(("upright", "tangential", "radial"), "ways to stand"),
        default="upright",
        says="How the numerals of a dial stand: level, along their circle, or along their ray.",
    )
    words = key(
        MapOf(
            keys=Text(maximum=20),
            of=OneOf((Text(maximum=40), NounOf(SymbolPosition))),
            what="values, each with a text or symbol",
        ),
        says=(
            "Words in place of the numerals at single values, such as MIN and MAX at the ends; a symbol may stand"
            " for a text: `{symbol: minus}`."
        ),
    )
    zones = key(ListOf(of=NounOf(Zone), what="zones", minimum=1, maximum=20), says="Bands of colour.")
    detents = key(
        ListOf(of=Number(), what="values", minimum=1, maximum=60), says="Values where the control clicks: dots."
    )
    wedge = key(Flag(), default=False, says="A band that grows from the low end to the high end.")
    length = key(
        Length(above=0, maximum=MAX_SIZE),
        otherwise="a dial",
        says=(
            "Makes the scale straight, for slides and windows: from the low end to the high end, about the part's"
            " middle."
        ),
    )
    side = key(
        Choice(("left", "right", "above", "below"), "sides"),
        default="right",
        says="Where a straight scale stands; values grow upward, or to the right above and below.",
    )


class Knob(Noun):
    """What is fitted over a shaft."""

    diameter = key(Length(above=0, maximum=500), required=True, says="Largest diameter, skirt included.")
    height = key(Length(above=0, maximum=500), required=True, says="Top of the knob above the face.")
