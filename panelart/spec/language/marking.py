"""How legends get on the panel: process, inks, and what places cost."""

from __future__ import annotations

from typing import Final

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Choice, Colour, Integer, Length, ListOf, Number, Text
from panelart.spec.language.lettering import Lettering
from panelart.spec.language.printing import MadeReady

PROCESSES: Final = ("digital-print", "screen-print", "engraving", "laser-marking", "overlay")
"""The marking processes whose limits stand in processes.yaml."""


class Ink(Noun):
    """A colour that is laid down."""

    name = key(Text(maximum=60), required=True, says="The ink's name; that of its plate in the files.")
    colour = key(Colour(), required=True, says="The ink as it shows on screen.")


_WEIGHT = Integer(minimum=0, maximum=1000)


class Placing(Noun):
    """What places for legends cost.

    All legends of the panel together are set where they cost least. No sum of looks
    outweighs a later resort, and no sum of later resorts a legend that is left out.
    """

    above = key(_WEIGHT, default=0, says="A name above its part.")
    below = key(_WEIGHT, default=8, says="A name below its part.")
    right = key(_WEIGHT, default=14, says="A name to the right of its part.")
    left = key(_WEIGHT, default=18, says="A name to the left of its part.")
    wrap = key(_WEIGHT, default=3, says="Each line break that was not written.")
    slide = key(_WEIGHT, default=3, says="Words that are not centred on their part.")
    step_off = key(
        _WEIGHT, default=1, says="Each half of a capital's height that words stand farther off than they need."
    )
    ambiguous = key(_WEIGHT, default=6, says="Another part about as near to the words as their own.")
    other_side = key(_WEIGHT, default=10, says="Neighbours in a row or column with their names on different sides.")
    other_line = key(
        _WEIGHT,
        default=4,
        says="Neighbours in a row without a common base line, in a column without a common edge or middle.",
    )
    spacing = key(
        _WEIGHT,
        default=2,
        says="Neighbours in a row that stand to their parts in different ways: words unevenly spaced.",
    )
    other_form = key(_WEIGHT, default=14, says="Positions of one control named in different ways.")
    group_side = key(_WEIGHT, default=6, says="Members of one frame with their names on different sides.")
    balance = key(_WEIGHT, default=1, says="Two members that mirror each other in their frame, and their names do not.")
    moved = key(_WEIGHT, default=2, says="A legend that stands elsewhere than in the saved placement.")
    corner = key(_WEIGHT, default=1, says="Later resort: words off a corner of their part.")
    tight = key(_WEIGHT, default=2, says="Later resort: less space between the letters.")
    narrow = key(_WEIGHT, default=3, says="Later resort: the narrow face in place of the plain one.")
    leader = key(_WEIGHT, default=6, says="Last resort: words away from their part, with a line to it.")
    clearance = key(
        Length(minimum=0, maximum=20),
        default=0.5,
        says="Bare face between a legend and a knob, nut, bezel or opening, on top of the register error.",
    )
    gap = key(
        Number(minimum=0, maximum=5),
        default=0.5,
        says="White between a part and its legend, as a share of the height of the legend's capitals.",
    )
    white = key(
        Number(minimum=0, maximum=5),
        default=0.35,
        says="Least white between two legends, as a share of the height of the smaller capitals.",
    )
    beside = key(
        Number(minimum=0, maximum=5),
        default=1.0,
        says=(
            "Least white between two legends side by side on one line, as a share of the height of the smaller"
            " capitals; clearly more than between two words, so that they are not read as one."
        ),
    )


class Marking(MadeReady):
    """How legends get on the panel and how they look."""

    process = key(
        Choice(PROCESSES, "processes"),
        required=True,
        says="How the legends get on the panel; it brings the limits that legends are checked against.",
    )
    ink = key(NounOf(Ink), otherwise="see `inks`", says="The one ink; either this or `inks` is given.")
    inks = key(
        ListOf(of=NounOf(Ink), what="inks, each {name, colour}", minimum=1, maximum=16),
        otherwise="see `ink`",
        says="All inks when there are several; the first is taken where nothing else is said.",
    )
    lettering = key(NounOf(Lettering), otherwise="the defaults below", says="How legends are lettered.")
    viewing_distance = key(
        Length(above=0, maximum=20000),
        default=700.0,
        says="From the operator's eye to the panel; 700 mm is about arm's length.",
    )
    register = key(
        Length(minimum=0, maximum=5),
        otherwise="that of the process",
        says="How far the marking may land off the metal, in any direction.",
    )
    cutter = key(
        Length(above=0, maximum=10),
        otherwise="the narrowest that is usual",
        says="Width of the engraver's cutter at the surface; no stroke may be narrower. For engraving only.",
    )
    placing = key(NounOf(Placing), otherwise="the defaults below", says="What places for legends cost.")
