"""What belongs to controls: positions, scales, knobs."""

from __future__ import annotations

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Angle, Choice, Flag, Integer, Length, ListOf, MapOf, Number, OneOf, Text, pair
from panelart.spec.language import kinds
from panelart.spec.language.kinds import MAX_SIZE
from panelart.spec.language.legends import SymbolPosition

LAWS = (
    "linear",
    "logarithmic",
    "decibel",
    "audio",
    "square",
    "square-root",
    "vu",
    "iec-60268-18",
    "iec-60268-10-iia",
    "iec-60268-10-iib",
    "fader",
    "fader-power",
)
POSITION_NAME: OneOf = OneOf((Text(maximum=80), NounOf(SymbolPosition)))


class PositionRange(Noun):
    """Neighbouring positions with one unit, under a bracket."""

    NAME = "range of positions"

    of = key(Integer(minimum=1, maximum=60), required=True, says="Number of positions in the range.")
    unit = key(Text(maximum=20), required=True, says="Unit of the range, printed outside its bracket.")


class TurningPositions(Noun):
    """Positions of a rotary control: at the angles of the part, or at those given here."""

    NAME = "rotary positions"
    MARKED_BY = "texts"

    texts = key(
        ListOf(of=POSITION_NAME, what="texts or symbols", minimum=1, maximum=60),
        required=True,
        says="Positions of a rotary control, clockwise.",
    )
    angles = key(
        ListOf(of=Angle(minimum=-360, maximum=360), what="angles", minimum=1, maximum=60),
        otherwise="those of the part, where there is one way in which it is made with so many positions",
        says="Angle of each position, clockwise from straight up: [-45, 45].",
    )
    index = key(
        Angle(above=0, maximum=180),
        otherwise="that of the part",
        says="Angle from one position to the next, clockwise.",
    )
    first = key(
        Angle(minimum=-360, maximum=360),
        otherwise="so that the positions are symmetrical about straight up",
        says="Angle of the first position with `index`, clockwise from straight up.",
    )
    ranges = key(
        ListOf(of=NounOf(PositionRange), what="ranges", minimum=1, maximum=20),
        says="Units of neighbouring positions, clockwise: `[{of: 6, unit: mV}, {of: 3, unit: V}]`.",
    )


class Zone(Noun):
    """Band of colour between knob and marks."""

    from_ = key(Number(), required=True, says="Value at the start of the band.")
    to = key(Number(), required=True, says="Value at the end of the band.")
    ink = key(Text(maximum=60), required=True, says="Ink of the band, by name.")


class OwnLaw(Noun):
    """Law of a scale that has no name."""

    NAME = "law"

    formula = key(
        Text(maximum=120),
        says=(
            "Position over the value v, to any scale of its own, such as 20*log10(v): numbers, + - * / ^, parentheses, "
            "abs, exp, ln, log10, max, min, sqrt; must only increase or only decrease from `from` to `to`."
        ),
    )
    taper = key(
        Number(above=0, below=100),
        says="Percent of the value at the middle of the rotation, for a taper of two straight lines.",
    )


class Scale(Noun):
    """Graduations round the shaft of the part, or along a straight line."""

    from_ = key(Number(), required=True, says="Value where the scale begins.")
    to = key(Number(), required=True, says="Value where it ends; less than `from` on a falling scale.")
    unit = key(Text(maximum=20), default="", says="Unit, printed once with the scale.")
    law = key(
        OneOf((Choice(LAWS, "laws"), NounOf(OwnLaw))),
        default="linear",
        says=(
            "Spacing of the values. `decibel`: dB of what is linear in voltage. `audio`: 15 % of the value at the "
            "middle of the rotation. `square`: position over the square of the value. Meters and faders have their "
            "usual marks, and the whole travel as sweep or length: `vu` (ANSI C16.5), `iec-60268-…`, `fader` "
            "(100 mm), `fader-power` (60 log10 of the position)."
        ),
    )
    table = key(
        ListOf(
            of=pair(Number(), "value", "share"),
            what="pairs, each [value, share of the sweep from 0 to 1]",
            minimum=2,
            maximum=100,
        ),
        says="Measured law, such as that of an audio potentiometer; linear between the pairs, from `from` to `to`.",
    )
    major = key(
        Number(above=0),
        otherwise="required unless `marks`, a logarithmic law or one of a meter or fader is given",
        says="Step of the long marks; must divide the range.",
    )
    intermediate = key(
        Number(above=0),
        otherwise="half of `major` where it has ten short steps",
        says="Step of the medium marks; must divide `major`.",
    )
    minor = key(
        Number(above=0),
        otherwise="steps of one, two or five, as many as are readable (`subdivide`)",
        says=(
            "Step of the short marks; must divide `major`. Beside `intermediate`, `marks` or more than three `detents` "
            "there are none without it."
        ),
    )
    subdivide = key(
        Flag(),
        default=True,
        says=(
            "Adds short marks at steps of one, two and five where neither `intermediate`, `minor` nor `marks` is "
            "given: up to nine marks between two numerals, no closer than 1/600 of the viewing distance."
        ),
    )
    rest = key(
        Text(maximum=20),
        says="Text at the start of the travel, below `from`, for laws in dB: ∞ or OFF.",
    )
    signed = key(Flag(), default=False, says="Numerals above zero carry a plus: +6, 0, −6.")
    marks = key(ListOf(of=Number(), what="values", minimum=1, maximum=200), says="Values of the long marks.")
    sweep = key(
        Angle(above=0, maximum=360),
        otherwise=(
            "the electrical angle of the part, or its rotation where that is all that is known; 360 degrees for a part "
            "that turns without end"
        ),
        says="Angle from one end of the scale to the other.",
    )
    start = key(
        kinds.TURN,
        otherwise="centred on straight up",
        says="Direction in which the scale begins, counter-clockwise from the right.",
    )
    direction = key(
        Choice(("clockwise", "counter-clockwise"), "directions"),
        default="clockwise",
        says="Direction from `from` to `to`.",
    )
    numerals = key(
        ListOf(of=Number(), what="values", minimum=0, maximum=200),
        otherwise="at every long mark, or at wider steps of one, two and five where numerals would touch",
        says="Values with a numeral.",
    )
    reading = key(
        Choice(("upright", "tangential", "radial"), "orientations"),
        default="upright",
        says=(
            "Orientation of the numerals of a dial: level, along the circle, or along the radius. Turned numerals of "
            "one scale all have their feet to the shaft, or all read outwards; on a scale below the shaft, or left of "
            "it, the other way round."
        ),
    )
    words = key(
        MapOf(
            keys=Text(maximum=20),
            of=OneOf((Text(maximum=40), NounOf(SymbolPosition))),
            what="values, each with a text or symbol",
        ),
        says=(
            "Words in place of the numerals at single values, such as MIN and MAX at the ends; a symbol may "
            "replace a text: `{symbol: minus}`."
        ),
    )
    arc = key(
        Choice(("own", "shared"), "arcs"),
        default="own",
        says=(
            "Arc of the second of two scales; `shared`: both have their marks on one arc, the first inside, the second "
            "outside, such as °C and °F; sweep, start and direction are those of the first."
        ),
    )
    zones = key(ListOf(of=NounOf(Zone), what="zones", minimum=1, maximum=20), says="Bands of colour.")
    detents = key(
        ListOf(of=Number(), what="values", minimum=1, maximum=60), says="Values with a detent, marked with dots."
    )
    wedge = key(Flag(), default=False, says="Draws a band that widens from the low end to the high end.")
    length = key(
        Length(above=0, maximum=MAX_SIZE),
        otherwise="the travel of a slide; required for other parts without a shaft",
        says="Length of a straight scale, for slides and windows; centred on the part.",
    )
    side = key(
        Choice(("left", "right", "above", "below"), "sides"),
        default="right",
        says=(
            "Side of the part for a straight scale; it runs from `from` to `to` upwards at the left and right, and to "
            "the right above and below."
        ),
    )


class Knob(Noun):
    """Knob on a shaft."""

    diameter = key(Length(above=0, maximum=500), required=True, says="Maximum diameter, skirt included.")
    height = key(Length(above=0, maximum=500), required=True, says="Height of the top of the knob above the face.")
