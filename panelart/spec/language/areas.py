"""Areas kept free or bare, and findings that are accepted."""

from __future__ import annotations

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Choice, ListOf, OneOf, Text, TupleOf
from panelart.spec.language import kinds


class Area(Noun):
    """One of the three."""

    rectangle = key(
        TupleOf((("x", kinds.PLACE), ("y", kinds.PLACE), ("width", kinds.SIZE), ("height", kinds.SIZE))),
        says="The lower-left corner, from the datum, and the size.",
    )
    circle = key(
        TupleOf((("x", kinds.PLACE), ("y", kinds.PLACE), ("diameter", kinds.SIZE))),
        says="The centre, from the datum, and the diameter.",
    )
    polygon = key(
        ListOf(of=kinds.POSITION, what="corners, each [x, y]", minimum=3, maximum=200),
        says="The corners in order, from the datum.",
    )


_WHY_KEY = key(kinds.REASON, required=True, says="The reason, for those who come after.")


class Keepout(Noun):
    """An area where nothing may be."""

    NAME = "keep-out"

    area = key(NounOf(Area), required=True, says="The area that is kept free.")
    side = key(Choice(("front", "rear"), "sides"), default="front", says="On which side it is kept free.")
    why = _WHY_KEY


class Mask(Noun):
    """An area that is kept bare when the panel is coated."""

    area = key(NounOf(Area), required=True, says="The area that stays bare, at its size on the panel.")
    side = key(Choice(("front", "rear"), "sides"), default="front", says="The face it is on.")
    why = _WHY_KEY


class Waiver(Noun):
    """A finding that is accepted."""

    rule = key(Text(maximum=80), required=True, says="The name of the rule.")
    on = key(
        OneOf((kinds.REF, ListOf(of=kinds.REF, what="refs", minimum=1))),
        otherwise="the whole panel",
        says="The ref or refs whose findings are accepted.",
    )
    why = _WHY_KEY
    until = key(
        Text(maximum=10, pattern="[0-9]{4}-[0-9]{2}-[0-9]{2}", form="a date of the form YYYY-MM-DD"),
        otherwise="for good",
        says="The last day on which the finding is accepted.",
    )
    by = key(Text(maximum=80), default="", says="Who accepted it.")
