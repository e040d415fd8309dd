"""How legends get on the panel: process, inks, and what places cost."""

from __future__ import annotations

from panelart.processes.registry import NAMES
from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Choice, Colour, Integer, Length, ListOf, Number, Text
from panelart.spec.language.lettering import Lettering
from panelart.spec.language.printing import MadeReady


class Ink(Noun):
    """Colour that is printed or filled in."""

    name = key(Text(maximum=60), required=True, says="Name of the ink, and of its plate in the files.")
    colour = key(Colour(), required=True, says="Colour of the ink on screen.")


_WEIGHT = Integer(minimum=0, maximum=1000)


class Placing(Noun):
    """Costs of the positions of legends; all legends of the panel are placed together at the lowest total cost.

    A fallback always costs more than all costs of appearance, and a legend that is left out more than all
    fallbacks.
    """

    above = key(_WEIGHT, default=0, says="Name above its part.")
    below = key(_WEIGHT, default=8, says="Name below its part.")
    right = key(_WEIGHT, default=14, says="Name to the right of its part.")
    left = key(_WEIGHT, default=18, says="Name to the left of its part.")
    wrap = key(_WEIGHT, default=3, says="Each word wrap that the spec does not ask for.")
    slide = key(_WEIGHT, default=3, says="Text that is not centred on its part.")
    overhang = key(
        _WEIGHT,
        default=5,
        says="Text above or below its part that reaches beyond the middle to the next part in the row.",
    )
    step_off = key(_WEIGHT, default=1, says="Each half cap height of additional distance between text and part.")
    ambiguous = key(_WEIGHT, default=6, says="Another part about as near to the text as its own part.")
    other_side = key(_WEIGHT, default=10, says="Neighbours in a row or column with their names on different sides.")
    other_line = key(
        _WEIGHT,
        default=8,
        says="Neighbours in a row without a common baseline, or in a column without a common edge or centre.",
    )
    spacing = key(
        _WEIGHT,
        default=2,
        says=(
            "Neighbours in a row with names in different positions relative to their parts, so that the names are "
            "unevenly spaced."
        ),
    )
    other_form = key(_WEIGHT, default=14, says="Positions of one control named in different forms.")
    group_side = key(_WEIGHT, default=6, says="Parts in one frame with their names on different sides.")
    balance = key(
        _WEIGHT, default=1, says="Two parts in symmetrical positions in a frame, with names that are not symmetrical."
    )
    moved = key(_WEIGHT, default=2, says="Legend in another position than in the saved placement.")
    corner = key(_WEIGHT, default=1, says="Fallback: text off a corner of its part.")
    parted = key(_WEIGHT, default=1, says="Fallback: a number or letter on a line of its own, parted from its word.")
    tight = key(_WEIGHT, default=2, says="Fallback: reduced letter spacing.")
    narrow = key(_WEIGHT, default=3, says="Fallback: narrow font in place of the plain one.")
    hyphenated = key(_WEIGHT, default=4, says="Fallback: a word broken with a hyphen, where `hyphenate` allows it.")
    staggered = key(
        _WEIGHT,
        default=5,
        says="Fallback: every other name of a row of like parts one level farther from its part; costs each of them.",
    )
    between = key(_WEIGHT, default=5, says="Fallback: text beside another part that is about as near as its own part.")
    leader = key(_WEIGHT, default=6, says="Last fallback: text away from its part, with a leader line.")
    clearance = key(
        Length(minimum=0, maximum=20),
        default=0.5,
        says="Clearance between a legend and a knob, nut, bezel or opening, in addition to the register error.",
    )
    gap = key(
        Number(minimum=0, maximum=5),
        default=0.5,
        says="Distance between a part and its legend, as a share of the legend's cap height.",
    )
    white = key(
        Number(minimum=0, maximum=5),
        default=0.35,
        says="Minimum distance between two legends, as a share of the smaller cap height.",
    )
    beside = key(
        Number(minimum=0, maximum=5),
        default=1.0,
        says=(
            "Minimum distance between two legends side by side on one line, as a share of the smaller cap height; "
            "clearly more than a word space, so that they are not read as one."
        ),
    )


class Marking(MadeReady):
    """Process, inks and lettering of the marking."""

    process = key(
        Choice(NAMES, "processes"),
        required=True,
        says="Marking process; it sets the limits that legends are checked against.",
    )
    ink = key(
        NounOf(Ink), otherwise="required unless `inks` is given", says="The only ink; give either this or `inks`."
    )
    inks = key(
        ListOf(of=NounOf(Ink), what="inks, each {name, colour}", minimum=1, maximum=16),
        otherwise="required unless `ink` is given",
        says="All inks where there are several; the first is the default.",
    )
    lettering = key(NounOf(Lettering), otherwise="the defaults below", says="Lettering of the legends.")
    viewing_distance = key(
        Length(above=0, maximum=20000),
        default=700.0,
        says="Distance from the operator's eye to the panel; 700 mm is about arm's length.",
    )
    mark_sizes = key(
        Choice(("lettering", "grether-baker", "mil-std-1472", "grandjean"), "sources"),
        default="lettering",
        says=(
            "Source of size and spacing of scale marks: the cap height of the names, or one of three figures for the "
            "viewing distance, from memory, which contradict each other (at 710 mm: 10.2, 5.6, 7.9 mm)."
        ),
    )
    register = key(
        Length(minimum=0, maximum=5),
        otherwise="as given for the process",
        says="Maximum register error of the marking on the metal, in any direction.",
    )
    cutter = key(
        Length(above=0, maximum=10),
        otherwise="the narrowest usual width",
        says="Width of the engraving cutter at the surface; no stroke may be narrower. For engraving only.",
    )
    placing = key(NounOf(Placing), otherwise="the defaults below", says="Costs of the positions of legends.")
