"""Components on the panel: one by one, repeated, mirrored, in rows, columns, grids and rings."""

from __future__ import annotations

from typing import Any, Final

from panelart.source.nodes import Mapping
from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import (
    Angle,
    AnyNode,
    Choice,
    Integer,
    Later,
    Length,
    ListOf,
    MapOf,
    OneOf,
    Text,
    pair,
)
from panelart.spec.language import kinds
from panelart.spec.language.controls import POSITION_NAME, Knob, Scale, TurningPositions
from panelart.spec.language.kinds import MAX_SIZE, STYLES
from panelart.spec.language.legends import Legend, SymbolLegend
from panelart.spec.language.places import ANYWHERE, PlaceByAxes

_REF_KEY = key(kinds.REF, required=True, says="The reference designator, once on a panel: S1, J3, RV2.")

_PART_NAME_KEY = key(
    OneOf(
        (
            Text(maximum=80, form="the name of a part in the catalogue"),
            AnyNode(of="a part of your own, in the form of the catalogue", shape=Mapping),
        )
    ),
    required=True,
    says="What it is: a part of the catalogue by name, or a part of your own written out here.",
)


class Placed(Noun):
    """What is said of every part, wherever its place comes from."""

    turn = key(kinds.TURN, default=0.0, says="How far the part is turned, counter-clockwise.")
    legend = key(
        OneOf((kinds.WORDS, NounOf(SymbolLegend), NounOf(Legend))),
        says="The part's name on the panel: the words, words with settings, or a symbol.",
    )
    positions = key(
        OneOf(
            (
                TurningPositions.texts.kind,
                NounOf(TurningPositions),
                MapOf(keys=Text(maximum=20), of=POSITION_NAME, what="directions or angles, each with a text or symbol"),
            )
        ),
        says=(
            "The names of a control's positions: up, down, left, right, centre with a text each for levers,"
            " rockers and slides; for turning controls a list of texts, or angles (counter-clockwise from the"
            " right) with a text each. A symbol may stand for a text: `{symbol: on}`."
        ),
    )
    scale = key(
        OneOf((NounOf(Scale), ListOf(of=NounOf(Scale), what="two scales, the inner one first", minimum=1, maximum=2))),
        says="Graduations; two for a control with a shaft in a shaft, the inner one first.",
    )
    knob = key(
        OneOf((Text(maximum=80, form="the name of a knob in the catalogue"), NounOf(Knob))),
        says="The knob on the part's shaft: one of the catalogue by name, or its dimensions.",
    )
    pin_1 = key(
        pair(kinds.PLACE, "dx", "dy"),
        says=(
            "Where pin 1 is, from the part's centre and before the part is turned: a small triangle beside the"
            " part points to it."
        ),
    )


class Part(Placed):
    """One component on the panel."""

    ref = _REF_KEY
    part = _PART_NAME_KEY
    at = key(
        ANYWHERE,
        required=True,
        says=(
            "Where the part's centre is: measured from the datum, or from other parts or edges. In a repeat or a"
            " mirror, a place measured from a part of the same copy follows that part; any other place is moved"
            " with the copy."
        ),
    )


_COUNT_KEY = key(Integer(minimum=1, maximum=5000), required=True, says="How many copies.")

_COUNTED = Text(maximum=8, pattern="[-+]?[0-9]{1,7}|[A-Z]", form="a whole number, or a capital letter")

_START_KEY = key(
    _COUNTED, default="1", says="The number of the first copy, or its letter: A, B, C and so on; after Z comes AA."
)

_AS_KEY = key(
    Text(maximum=20, pattern="[A-Za-z][A-Za-z0-9_]*", form="a name of letters, digits and _"),
    default="n",
    says="The name that stands for the number, in braces, in ref, legend, positions and places measured from a ref.",
)


class Copies(Noun):
    """How copies are made."""

    NAME = "repeat"

    count = _COUNT_KEY
    step = key(pair(kinds.PLACE, "dx", "dy"), required=True, says="From each copy to the next.")
    start = _START_KEY
    as_ = _AS_KEY


PART_LIST: ListOf[Any] = ListOf(
    of=Later(
        lambda: OneOf(
            (NounOf(RepeatedParts), NounOf(MirroredParts), *LAYOUT_ITEMS, NounOf(DistributedParts), NounOf(Part))
        )
    ),
    what="parts, repeats, mirrors and layouts",
    minimum=1,
)


class RepeatedParts(Noun):
    """Parts that stand several times, in even steps."""

    MARKED_BY = "repeat"

    repeat = key(NounOf(Copies), required=True, says="How often and how far apart.")
    parts = key(PART_LIST, required=True, says="What is copied; repeats may stand in repeats.")


class Mirror(Noun):
    """One of x and y.

    Each part stands where the mirror shows it and is turned the other way, but is not mirrored
    itself: what is handed stays right. Sides of legends and straight scales are those of the mirror.
    """

    x = key(PlaceByAxes.x.kind, says="An upright mirror: what stands left of it stands right of it too.")
    y = key(PlaceByAxes.y.kind, says="A level mirror: what stands below it stands above it too.")
    names = key(
        ListOf(of=Text(maximum=20), what="two texts", minimum=2, maximum=2),
        otherwise="1 and 2",
        says="What stands for the two copies in braces: for the parts as written, and for those in the mirror.",
    )
    as_ = _AS_KEY


class MirroredParts(Noun):
    """Parts as written, and once more in a mirror."""

    MARKED_BY = "mirror"

    mirror = key(NounOf(Mirror), required=True, says="Where the mirror is.")
    parts = key(PART_LIST, required=True, says="What stands as written and in the mirror.")


class Member(Placed):
    """A part whose place comes from the layout that it stands in."""

    ELSEWHERE = (("at", "leave 'at' out: the layout says where its members stand"),)

    ref = _REF_KEY
    part = _PART_NAME_KEY


class Series(Noun):
    """How many members are made of what follows."""

    ELSEWHERE = (("step", "leave 'step' out: each copy takes the next place of the layout"),)

    count = _COUNT_KEY
    start = _START_KEY
    as_ = _AS_KEY


MEMBER_LIST: ListOf[Any] = ListOf(
    of=Later(lambda: OneOf((NounOf(RepeatedMembers), *LAYOUT_ITEMS, NounOf(Member)))),
    what="members, repeats and layouts",
    minimum=1,
)

_MEMBERS_KEY = key(
    MEMBER_LIST,
    required=True,
    says="The members in order. A layout among them is one member, and stands by its `anchor`.",
)


class RepeatedMembers(Noun):
    """Members that follow each other in numbers."""

    MARKED_BY = "repeat"

    repeat = key(NounOf(Series), required=True, says="How often; each copy takes the next place of the layout.")
    parts = _MEMBERS_KEY


_LAYOUT_AT_KEY = key(
    ANYWHERE,
    otherwise="required, unless the layout stands in another one",
    says="Where the layout's `anchor` is: measured from the datum, or from other parts or edges.",
)

_PITCH_KEY = key(Length(above=0, maximum=MAX_SIZE), says="From centre to centre; either this or `gap`.")

_GAP_BETWEEN_KEY = key(
    kinds.GAP, says="Clear from member to member, knobs and openings included; either this or `pitch`."
)

_BETWEEN_WHAT_KEY = key(
    Choice(("front", "rear", "both"), "sides"),
    default="front",
    says="What a gap is measured between: what members cover in front, take behind the panel, or both.",
)

_LINE_ANCHOR_KEY = key(
    Choice(("first", "middle", "last"), "anchors"),
    default="first",
    says="What stands at `at`: the first member's centre, the last one's, or the middle of them all.",
)


class Row(Noun):
    """Members side by side, from left to right."""

    at = _LAYOUT_AT_KEY
    pitch = _PITCH_KEY
    gap = _GAP_BETWEEN_KEY
    anchor = _LINE_ANCHOR_KEY
    align = key(
        Choice(("centres", "top", "bottom"), "ways to line up"),
        default="centres",
        says="What the members have on one line: their centres, or the tops or bottoms of what they cover.",
    )
    envelopes = _BETWEEN_WHAT_KEY


class Column(Noun):
    """Members one below the other, from the top down."""

    at = _LAYOUT_AT_KEY
    pitch = _PITCH_KEY
    gap = _GAP_BETWEEN_KEY
    anchor = _LINE_ANCHOR_KEY
    align = key(
        Choice(("centres", "left", "right"), "ways to line up"),
        default="centres",
        says="What the members have on one line: their centres, or the left or right edges of what they cover.",
    )
    envelopes = _BETWEEN_WHAT_KEY


_NUMBERING: OneOf = OneOf((_COUNTED, ListOf(of=Text(maximum=20), what="texts", minimum=1, maximum=500)))


class MatrixNumbers(Noun):
    """Names along the sides of a grid, in line with the centres of its columns and rows."""

    columns = key(_NUMBERING, says="The columns' names: the first number or letter, or all of them, from the left.")
    rows = key(_NUMBERING, says="The rows' names: the first number or letter, or all of them, from the top.")
    columns_side = key(
        Choice(("above", "below", "both"), "sides"), default="above", says="Where the columns' names stand."
    )
    rows_side = key(Choice(("left", "right", "both"), "sides"), default="left", says="Where the rows' names stand.")
    style = key(Choice(STYLES, "styles"), default="numeral", says="The kind of lettering.")


class Grid(Noun):
    """Members in columns and rows, the first at the top left."""

    at = _LAYOUT_AT_KEY
    columns = key(Integer(minimum=1, maximum=500), required=True, says="How many columns.")
    rows = key(
        Integer(minimum=1, maximum=500),
        otherwise="as many as the members fill",
        says="How many rows; all are full then.",
    )
    pitch = key(
        pair(Length(above=0, maximum=MAX_SIZE), "across", "down"),
        says="From centre to centre of columns and of rows; either this or `gap`.",
    )
    gap = key(
        pair(kinds.GAP, "across", "down"),
        says="Clear between the widest members of columns, and the highest of rows; either this or `pitch`.",
    )
    anchor = key(
        Choice(("first", "middle"), "anchors"),
        default="first",
        says="What stands at `at`: the centre of the first member, at the top left, or the middle of them all.",
    )
    order = key(
        Choice(("rows", "columns"), "orders"),
        default="rows",
        says="How members fill it: row by row from the top, or column by column from the left.",
    )
    numbers = key(NounOf(MatrixNumbers), says="Names along its sides.")
    envelopes = _BETWEEN_WHAT_KEY


class Ring(Noun):
    """Members on a circle, at even angles."""

    at = key(
        ANYWHERE,
        otherwise="required, unless the layout stands in another one",
        says="Where the centre of the ring is: measured from the datum, or from other parts or edges.",
    )
    diameter = key(kinds.SIZE, says="Of the circle through the members' centres; either this or `gap`.")
    gap = key(
        kinds.GAP, says="Least way from member to neighbour, knobs and openings included; either this or `diameter`."
    )
    start = key(
        kinds.TURN,
        otherwise="straight up all round, else centred on straight up",
        says="Direction of the first member, counter-clockwise from the right.",
    )
    sweep = key(
        Angle(above=0, maximum=360), default=360.0, says="From the first member to the last; 360 spaces them all round."
    )
    direction = key(
        Choice(("clockwise", "counter-clockwise"), "directions"),
        default="clockwise",
        says="Which way the members follow each other.",
    )
    facing = key(
        Choice(("up", "out", "in"), "ways to face"),
        default="up",
        says="Whether members stand upright or are turned with the ring, their tops out or in.",
    )
    envelopes = _BETWEEN_WHAT_KEY


class RowOfParts(Noun):
    """Parts side by side."""

    MARKED_BY = "row"

    row = key(NounOf(Row), required=True, says="Where the row is and how its members are spaced.")
    parts = _MEMBERS_KEY


class ColumnOfParts(Noun):
    """Parts below each other."""

    MARKED_BY = "column"

    column = key(NounOf(Column), required=True, says="Where the column is and how its members are spaced.")
    parts = _MEMBERS_KEY


class GridOfParts(Noun):
    """Parts in columns and rows."""

    MARKED_BY = "grid"

    grid = key(NounOf(Grid), required=True, says="Where the grid is and how its members are spaced.")
    parts = _MEMBERS_KEY


class RingOfParts(Noun):
    """Parts on a circle."""

    MARKED_BY = "ring"

    ring = key(NounOf(Ring), required=True, says="Where the ring is and how its members are spaced.")
    parts = _MEMBERS_KEY


LAYOUT_ITEMS: Final[tuple[NounOf[Any], ...]] = (
    NounOf(RowOfParts),
    NounOf(ColumnOfParts),
    NounOf(GridOfParts),
    NounOf(RingOfParts),
)


class Distribute(Noun):
    """Members spread evenly between two parts."""

    between = key(
        ListOf(of=kinds.REF, what="two refs", minimum=2, maximum=2),
        required=True,
        says="The two parts that the members stand between, on the straight line from the first to the second.",
    )
    by = key(
        Choice(("centres", "gaps"), "ways to space"),
        default="centres",
        says="Whether centres or the gaps between what parts cover are even, those to the two parts included.",
    )
    envelopes = _BETWEEN_WHAT_KEY


class DistributedParts(Noun):
    """Parts spread evenly between two others."""

    MARKED_BY = "distribute"

    distribute = key(NounOf(Distribute), required=True, says="Between which parts, and how.")
    parts = _MEMBERS_KEY
