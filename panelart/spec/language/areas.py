"""Areas kept free or bare, and findings that are accepted."""

from __future__ import annotations

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Choice, ListOf, OneOf, Text, TupleOf
from panelart.spec.language import kinds


class Area(Noun):
    """One of rectangle, circle and polygon."""

    rectangle = key(
        TupleOf((("x", kinds.PLACE), ("y", kinds.PLACE), ("width", kinds.SIZE), ("height", kinds.SIZE))),
        says="Lower-left corner, from the datum, and size.",
    )
    circle = key(
        TupleOf((("x", kinds.PLACE), ("y", kinds.PLACE), ("diameter", kinds.SIZE))),
        says="Centre, from the datum, and diameter.",
    )
    polygon = key(
        ListOf(of=kinds.POSITION, what="corners, each [x, y]", minimum=3, maximum=200),
        says="Corners in order, from the datum.",
    )


_WHY_KEY = key(kinds.REASON, required=True, says="Reason, for later readers.")


class Keepout(Noun):
    """Area that is kept free."""

    NAME = "keep-out"

    area = key(NounOf(Area), required=True, says="Area that is kept free.")
    side = key(Choice(("front", "rear"), "sides"), default="front", says="Side on which the area is kept free.")
    why = _WHY_KEY


class Mask(Noun):
    """Area that is masked when the panel is coated."""

    area = key(NounOf(Area), required=True, says="Area that stays bare, at its size on the panel.")
    side = key(Choice(("front", "rear"), "sides"), default="front", says="Face of the panel.")
    why = _WHY_KEY


class Waiver(Noun):
    """Accepted finding."""

    rule = key(Text(maximum=80), required=True, says="Name of the rule.")
    on = key(
        OneOf((kinds.REF, ListOf(of=kinds.REF, what="refs", minimum=1))),
        otherwise="the whole panel",
        says="Ref or refs whose findings are accepted.",
    )
    why = _WHY_KEY
    until = key(
        Text(maximum=10, pattern="[0-9]{4}-[0-9]{2}-[0-9]{2}", form="a date of the form YYYY-MM-DD"),
        otherwise="without end",
        says="Last day on which the finding is accepted.",
    )
    by = key(Text(maximum=80), default="", says="Who accepted the finding.")
