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

_ART_INK_KEY = key(Text(maximum=60), otherwise="the ink of names", says="The ink, by name.")


_ENDS: Final = OneOf((kinds.REF, ListOf(of=kinds.REF, what="refs", minimum=1, maximum=50)))


class FlowLine(Noun):
    """Line from part to part.

    It is routed horizontally and vertically with few bends and keeps clear of everything.
    """

    NAME = "line"

    from_ = key(_ENDS, required=True, says="Ref of the part where the line begins, or several that it comes from.")
    to = key(
        _ENDS,
        required=True,
        says=(
            "Ref of the part where the line ends, or several that it branches to. A dot is drawn where branches meet, "
            "none where lines cross."
        ),
    )
    leave = key(Choice(_SIDES, "sides"), otherwise="the best", says="Side of the part where the line begins.")
    enter = key(Choice(_SIDES, "sides"), otherwise="the best", says="Side of the part where the line ends.")
    arrow = key(Choice(("end", "both", "none"), "arrows"), default="end", says="Ends that have an arrow.")
    width = _STROKE_KEY
    ink = _ART_INK_KEY


class DrawnRule(Noun):
    """A line through points."""

    NAME = "rule"
    MARKED_BY = "rule"

    rule = key(
        ListOf(of=kinds.POSITION, what="points, each [x, y]", minimum=2, maximum=200),
        required=True,
        says="Points in order, from the datum.",
    )
    width = _STROKE_KEY
    ink = _ART_INK_KEY


class DrawnBox(Noun):
    """A rectangle."""

    NAME = "rectangle"
    MARKED_BY = "box"

    box = key(
        TupleOf((("x", kinds.PLACE), ("y", kinds.PLACE), ("width", kinds.SIZE), ("height", kinds.SIZE))),
        required=True,
        says="Lower-left corner, from the datum, and size.",
    )
    corner = key(Length(minimum=0, maximum=100), default=0.0, says="Radius of the corners.")
    filled = key(Flag(), default=False, says="Whether the shape is filled in place of its outline.")
    width = _STROKE_KEY
    ink = _ART_INK_KEY


_ART_AT_KEY = key(
    OneOf((kinds.POSITION, NounOf(RelativePlace))),
    required=True,
    says="Position of its centre, from the datum or from the centre of a part.",
)

_ART_TURN_KEY = key(kinds.TURN, default=0.0, says="Rotation, counter-clockwise; at 0 it points up.")


class DrawnMark(Noun):
    """Mark."""

    NAME = "mark"
    MARKED_BY = "mark"

    mark = key(
        Choice(("dot", "triangle", "arrow", "cross"), "marks"),
        required=True,
        says="Small mark, such as the triangle at pin 1 of a connector.",
    )
    at = _ART_AT_KEY
    size = key(Length(above=0, maximum=200), default=2.0, says="Height of the mark.")
    turn = _ART_TURN_KEY
    ink = _ART_INK_KEY


class ArtDrawing(Noun):
    """Drawing."""

    NAME = "drawing"
    MARKED_BY = "svg"

    svg = key(
        Text(maximum=300),
        required=True,
        says=(
            "SVG file of filled paths, relative to the spec; scripts, links, images and external references are "
            "refused."
        ),
    )
    at = _ART_AT_KEY
    height = key(Length(above=0, maximum=MAX_SIZE), required=True, says="Height on the panel.")
    turn = _ART_TURN_KEY
    ink = _ART_INK_KEY


class Code(Noun):
    """Machine-readable code with its quiet zone, centred at a position."""

    MARKED_BY = "code"

    code = key(
        Choice(("qr", "data-matrix", "code-128"), "codes"),
        required=True,
        says="Machine-readable code: QR at level M, Data Matrix, or Code 128.",
    )
    text = key(
        Text(maximum=400, braces=True),
        required=True,
        says="Content of the code; braces may name variables, which differ from piece to piece.",
    )
    at = _ART_AT_KEY
    module = key(
        Length(above=0, maximum=10),
        default=0.5,
        says="Side of one module, or width of the narrowest bar; a whole number of printer dots prints best.",
    )
    turn = _ART_TURN_KEY
    reversed = key(
        Flag(),
        otherwise="true if the ink is lighter than the coat",
        says=(
            "Fills symbol and quiet zone and leaves the dark modules bare, because scanners need dark modules on "
            "a light ground."
        ),
    )
    ink = _ART_INK_KEY
