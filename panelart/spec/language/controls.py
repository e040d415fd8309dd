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
    "iec-60268-10-i",
    "iec-60268-10-nordic",
    "iec-60268-10-iia",
    "iec-60268-10-iib",
    "fader",
    "fader-power",
)
POSITION_NAME: OneOf = OneOf((Text(maximum=80, braces=True), NounOf(SymbolPosition)))


class PositionRange(Noun):
    """Neighbouring positions with one unit, under a bracket."""

    NAME = "range of positions"

    of = key(Integer(minimum=1, maximum=60), required=True, says="Number of positions in the range.")
    unit = key(Text(maximum=20, braces=True), required=True, says="Unit of the range, printed outside its bracket.")


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
        otherwise=(
            "so that the positions are symmetrical about straight up, or as near to that as the lug or tab of a part "
            "allows that cannot be turned in its hole"
        ),
        says=(
            "Angle of the first position with `index`, clockwise from straight up: where its stop is set. "
            "A part that cannot be turned in its hole has positions only at steps from its `phase` or beside its `tab`."
        ),
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


_INDEX_KEY = key(
    kinds.TURN,
    default=0.0,
    says="Direction of the index mark on the panel from the shaft, clockwise from straight up.",
)


class Skirt(Noun):
    """Skirt of the knob that carries the scale."""

    grip = key(
        Length(above=0, maximum=500),
        required=True,
        says="Diameter of what the hand holds, above the skirt: the scale is outside it.",
    )
    height = key(
        Length(above=0, maximum=500),
        otherwise="that of the knob",
        says="Height of the skirt above the face, by which it hides what is behind it.",
    )
    index = _INDEX_KEY
    vernier = key(
        Flag(),
        default=False,
        says=(
            "A vernier on the panel in place of the index mark: ten divisions as long as nine of `minor`, which must "
            "be given, so that tenths of it are read where two lines meet."
        ),
    )


class Disc(Noun):
    """Disc behind the panel that carries the scale, seen through a window."""

    diameter = key(Length(above=0, maximum=500), required=True, says="Diameter of the disc.")
    window = key(
        pair(Length(above=0, maximum=500), "width", "height"),
        required=True,
        says=(
            "Size of the window across and along the radius, `[16, 8]`. It is cut in the direction `index`, its outer "
            "corners 2 mm within the edge of the disc."
        ),
    )
    depth = key(
        Length(above=0, maximum=500), required=True, says="Distance from the rear of the panel to the rear of the disc."
    )
    index = _INDEX_KEY


class Scale(Noun):
    """Graduations round the shaft of the part, or along a straight line."""

    from_ = key(Number(), required=True, says="Value where the scale begins.")
    to = key(Number(), required=True, says="Value where it ends; less than `from` on a falling scale.")
    unit = key(Text(maximum=20, braces=True), default="", says="Unit, printed once with the scale.")
    multiplier = key(
        Number(above=0),
        default=1,
        says=(
            "Power of ten by which the printed numerals are multiplied to give the value: with 1000, 20000 Hz is "
            "printed as 20 and the unit as kHz, or as ×1000 r/min where the unit has no such prefix. All other keys "
            "have values."
        ),
    )
    law = key(
        OneOf((Choice(LAWS, "laws"), NounOf(OwnLaw))),
        default="linear",
        says=(
            "Spacing of the values. `decibel`: dB of what is linear in voltage. `audio`: 15 % of the value at the "
            "middle of the rotation. `square`: position over the square of the value. Meters and faders have their "
            "usual marks, and the whole travel as sweep or length: `vu` (ANSI C16.5), `iec-60268-…`, `fader` "
            "(100 mm, from -60 to 10; `rest` names what is below), `fader-power` (60 log10 of the position)."
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
        says=(
            "Step of the long marks, which are at whole multiples of it: 40, 60, 80 … from 32. Another end "
            "has a long mark and a numeral where it is at least 0.6 of a step from the next multiple, else a short "
            "mark. For other values give `marks`."
        ),
    )
    intermediate = key(
        Number(above=0),
        otherwise="half of `major` where it has ten short steps",
        says="Step of the medium marks, at whole multiples of it; must divide `major`.",
    )
    minor = key(
        Number(above=0),
        otherwise="steps of one, two or five, as many as are readable (`subdivide`)",
        says=(
            "Step of the short marks, at whole multiples of it; must divide `major`. "
            "Beside `intermediate`, `marks` or more than three `detents` there are none without it."
        ),
    )
    subdivide = key(
        Flag(),
        default=True,
        says=(
            "Adds short marks at steps of one, two and five where neither `intermediate`, `minor` nor `marks` is "
            "given: up to nine between two numerals, at the minimum spacing of `mark_sizes`."
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
        otherwise="centred on straight up; a scale of 360 degrees begins straight up",
        says=(
            "Direction in which the scale begins, counter-clockwise from the right: 90 is straight up, as on a "
            "compass, 0 the right, as on a phase dial, 180 the left."
        ),
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
            "Orientation of the numerals of a dial. `upright`: level. `tangential`: along the circle, feet to "
            "the shaft, or heads to it where the middle of the scale is below the shaft. `radial`: along the "
            "radius, outwards on the right half and inwards on the left, so that none is upside down; one "
            "straight above or below the shaft reads as the half with the middle of the scale, or upwards."
        ),
    )
    words = key(
        MapOf(
            keys=Text(maximum=20),
            of=OneOf((Text(maximum=40, braces=True), NounOf(SymbolPosition))),
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
    skirt = key(
        NounOf(Skirt),
        says=(
            "The scale is on the skirt of the knob and turns with it; the panel has an index mark and the unit. "
            "`make` writes it as `dial-REF`."
        ),
    )
    disc = key(
        NounOf(Disc),
        says=(
            "The scale is on a disc that turns behind a window in the panel; the panel has the window, an index mark "
            "and the unit. `make` writes it as `dial-REF`."
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
    cursor = key(
        Length(above=0, maximum=20),
        says=(
            "Width of the line or pointer that moves in the window or slot beside a straight scale; shown in pictures "
            "where the scale begins. Refused for a slide, which has a cap."
        ),
    )
    side = key(
        Choice(("left", "right", "above", "below"), "sides"),
        otherwise="above a slide that moves level, else right",
        says=(
            "Side of the part for a straight scale; it runs from `from` to `to` upwards at the left and right, and to "
            "the right above and below."
        ),
    )


class Knob(Noun):
    """Knob on a shaft."""

    diameter = key(Length(above=0, maximum=500), required=True, says="Maximum diameter, skirt included.")
    height = key(Length(above=0, maximum=500), required=True, says="Height of the top of the knob above the face.")
