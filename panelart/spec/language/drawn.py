"""Lines between parts, and drawn things at places of their own."""

from __future__ import annotations

from typing import Final

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Choice, Flag, Length, ListOf, OneOf, Text, TupleOf
from panelart.spec.language import kinds
from panelart.spec.language.kinds import MAX_SIZE
from panelart.spec.language.places import RelativePlace

_SIDES: Final = ("above", "below", "left", "right")

_STROKE_KEY = key(Length(above=0, maximum=20), otherwise="an eighth of the cap height", says="Width of the line.")

_ART_INK_KEY = key(Text(maximum=60), otherwise="that of names", says="The ink, by name.")


class FlowLine(Noun):
    """A line from part to part; its way, level and upright with few bends, keeps clear of everything."""

    NAME = "line"

    from_ = key(kinds.REF, required=True, says="The ref of the part where the line begins.")
    to = key(kinds.REF, required=True, says="The ref of the part where it ends.")
    leave = key(Choice(_SIDES, "sides"), otherwise="the best", says="The side of the part where the line begins.")
    enter = key(Choice(_SIDES, "sides"), otherwise="the best", says="The side of the part where it ends.")
    arrow = key(Choice(("end", "both", "none"), "arrows"), default="end", says="Which ends have an arrow.")
    width = _STROKE_KEY
    ink = _ART_INK_KEY


class DrawnRule(Noun):
    """A line through points."""

    MARKED_BY = "rule"

    rule = key(
        ListOf(of=kinds.POSITION, what="points, each [x, y]", minimum=2, maximum=200),
        required=True,
        says="Its points in order, from the datum.",
    )
    width = _STROKE_KEY
    ink = _ART_INK_KEY


class DrawnBox(Noun):
    """A rectangle."""

    MARKED_BY = "box"

    box = key(
        TupleOf((("x", kinds.PLACE), ("y", kinds.PLACE), ("width", kinds.SIZE), ("height", kinds.SIZE))),
        required=True,
        says="The lower-left corner, from the datum, and the size.",
    )
    corner = key(Length(minimum=0, maximum=100), default=0.0, says="Radius of the corners.")
    filled = key(Flag(), default=False, says="Fills the shape instead of drawing its outline.")
    width = _STROKE_KEY
    ink = _ART_INK_KEY


_ART_AT_KEY = key(
    OneOf((kinds.POSITION, NounOf(RelativePlace))),
    required=True,
    says="Where its middle is: from the datum, or from a part's centre.",
)

_ART_TURN_KEY = key(kinds.TURN, default=0.0, says="How far it is turned, counter-clockwise; at 0 it points up.")


class DrawnMark(Noun):
    """A sign."""

    MARKED_BY = "mark"

    mark = key(
        Choice(("dot", "triangle", "arrow", "cross"), "marks"),
        required=True,
        says="A small sign, such as the triangle at pin 1 of a connector.",
    )
    at = _ART_AT_KEY
    size = key(Length(above=0, maximum=200), default=2.0, says="Its height.")
    turn = _ART_TURN_KEY
    ink = _ART_INK_KEY


class ArtDrawing(Noun):
    """A drawing."""

    NAME = "drawing"
    MARKED_BY = "svg"

    svg = key(
        Text(maximum=300),
        required=True,
        says=(
            "A file of filled paths, relative to the spec; scripts, links, pictures and outside references are refused."
        ),
    )
    at = _ART_AT_KEY
    height = key(Length(above=0, maximum=MAX_SIZE), required=True, says="Its height on the panel.")
    turn = _ART_TURN_KEY
    ink = _ART_INK_KEY


class Code(Noun):
    """A code for machines, its middle at a place, with its quiet zone round it."""

    MARKED_BY = "code"

    code = key(
        Choice(("qr", "data-matrix", "code-128"), "codes"),
        required=True,
        says="A code for machines: QR at level M, Data Matrix, or Code 128.",
    )
    text = key(
        Text(maximum=400),
        required=True,
        says="What it holds; braces may name variables, which vary from piece to piece.",
    )
    at = _ART_AT_KEY
    module = key(
        Length(above=0, maximum=10),
        default=0.5,
        says="Side of one module, width of the narrowest bar; a whole number of the printer's dots prints best.",
    )
    turn = _ART_TURN_KEY
    reversed = key(
        Flag(),
        otherwise="true where the ink is lighter than the coat",
        says="Fill symbol and quiet zone and leave the dark modules bare: readers want dark on light.",
    )
    ink = _ART_INK_KEY
