"""Components on the panel: one by one, repeated, mirrored, in rows, columns, grids and rings."""

from __future__ import annotations

from typing import Any, Final

from panelart.messages import spec_places as said
from panelart.source.nodes import Mapping
from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import (
    Angle,
    AnyNode,
    Choice,
    Flag,
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
from panelart.spec.language.drawn import ArtDrawing, Code, DrawnBox, DrawnMark, DrawnRule, FlowLine
from panelart.spec.language.kinds import MAX_SIZE, STYLES
from panelart.spec.language.legends import (
    BLOCK_TEXTS,
    Frame,
    FreeSymbol,
    FreeText,
    Legend,
    LegendBlock,
    SymbolLegend,
)
from panelart.spec.language.places import ANYWHERE, PlaceByAxes

_REF_KEY = key(kinds.REF, required=True, says="Reference designator, unique on the panel: S1, J3, RV2.")

_PART_NAME_KEY = key(
    OneOf(
        (
            Text(maximum=80, form="the name of a part in the catalogue"),
            AnyNode(of="a part of your own, in the form of the catalogue", shape=Mapping),
        )
    ),
    required=True,
    says=(
        "Catalogue part by name; the same with dimensions changed, `{part: bnc, opening: {diameter: 9.9}, front: "
        "{nut: {across_flats: 17}}}` (keys of a part like another); or a part of your own written out."
    ),
)


class Placed(Noun):
    """What is said of every part, wherever its place comes from."""

    turn = key(kinds.TURN, default=0.0, says="Rotation of the part, counter-clockwise.")
    legend = key(
        OneOf((kinds.WORDS, BLOCK_TEXTS, NounOf(SymbolLegend), NounOf(LegendBlock), NounOf(Legend))),
        says=(
            "Name of the part on the panel: words, words with settings, a symbol, or a list of texts, each in its own "
            "style."
        ),
    )
    positions = key(
        OneOf(
            (
                TurningPositions.texts.kind,
                NounOf(TurningPositions),
                MapOf(keys=Text(maximum=20), of=POSITION_NAME, what="directions, each with a text or symbol"),
            )
        ),
        says=(
            "Names of the positions of a control: for levers, rockers and slides, up, down, left, right and "
            "centre with a text each; for rotary controls, a list of texts at the angles of the part, or with `angles` "
            "or `index` of their own. A symbol may replace a text: `{symbol: on}`."
        ),
    )
    scale = key(
        OneOf((NounOf(Scale), ListOf(of=NounOf(Scale), what="two scales, the inner one first", minimum=1, maximum=2))),
        says="Graduations; two scales for concentric shafts, the inner one first.",
    )
    knob = key(
        OneOf((Text(maximum=80, form="the name of a knob in the catalogue"), NounOf(Knob))),
        says="Knob on the shaft of the part: a catalogue knob by name, or its dimensions.",
    )
    fixed = key(
        Flag(),
        default=False,
        says=(
            "Whether the part stays where it is when others are moved: `panelart arrange --nudge` moves neither it nor "
            "the rest of its row or copy."
        ),
    )
    pin_1 = key(
        pair(kinds.PLACE, "dx", "dy"),
        says=(
            "Position of pin 1 from the centre of the part, before the part is rotated; a small triangle beside "
            "the part points to it."
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
            "Position of the centre of the part, from the datum, from other parts or from edges. In a repeat or "
            "mirror, a position measured from a part of the same copy follows that part; any other position is "
            "moved with the copy."
        ),
    )


MAX_FRAMES: Final = 500
MAX_TEXTS: Final = 1000
MAX_LINES: Final = 500
MAX_ART: Final = 1000
"""The most of each on one panel, copies written out."""

FRAMES: Final[ListOf[Any]] = ListOf(of=NounOf(Frame), what="frames", maximum=MAX_FRAMES)

TEXTS: Final[ListOf[Any]] = ListOf(of=OneOf((NounOf(FreeSymbol), NounOf(FreeText))), what="texts", maximum=MAX_TEXTS)

LINES: Final[ListOf[Any]] = ListOf(of=NounOf(FlowLine), what="lines", maximum=MAX_LINES)

ART: Final[ListOf[Any]] = ListOf(
    of=OneOf((NounOf(DrawnRule), NounOf(DrawnBox), NounOf(DrawnMark), NounOf(ArtDrawing), NounOf(Code))),
    what="drawings",
    maximum=MAX_ART,
)

BESIDE_KEYS = (
    key(FRAMES, default=(), says="Lines round parts that belong together."),
    key(TEXTS, default=(), says="Words and symbols in positions of their own, which move with the parts."),
    key(LINES, default=(), says="Lines that show signal flow."),
    key(ART, default=(), says="Rules, boxes, marks, drawings and codes, which move with the parts."),
)
"""Frames, texts, lines and drawings that stand with parts in a repeat, a mirror or a module."""

_COUNT_KEY = key(Integer(minimum=1, maximum=5000), required=True, says="Number of copies.")

_COUNTED = Text(maximum=8, pattern="[-+]?[0-9]{1,7}|[A-Z]", form="a whole number, or a capital letter")

_START_KEY = key(_COUNTED, default="1", says="Number or letter of the first copy; Z is followed by AA.")

_AS_KEY = key(
    Text(maximum=20, pattern="[A-Za-z][A-Za-z0-9_]*", form="a name of letters, digits and _"),
    default="n",
    says=(
        "Name of the copy number; in braces it is replaced in refs, legends, positions, and positions "
        "measured from a ref."
    ),
)


class Copies(Noun):
    """Number and spacing of copies."""

    NAME = "repeat"

    count = _COUNT_KEY
    step = key(pair(kinds.PLACE, "dx", "dy"), required=True, says="Distance from each copy to the next.")
    start = _START_KEY
    as_ = _AS_KEY


PART_LIST: ListOf[Any] = ListOf(
    of=Later(
        lambda: OneOf(
            (
                NounOf(RepeatedParts),
                NounOf(MirroredParts),
                *LAYOUT_ITEMS,
                NounOf(DistributedParts),
                NounOf(PlacedModule),
                NounOf(Part),
            )
        )
    ),
    what="parts, modules, repeats, mirrors and layouts",
    minimum=1,
)


class RepeatedParts(Noun):
    """Parts repeated in even steps."""

    MARKED_BY = "repeat"

    repeat = key(NounOf(Copies), required=True, says="Number and spacing of copies.")
    parts = key(PART_LIST, default=(), says="Parts to copy; repeats may be nested.")
    frames, texts, lines, art = BESIDE_KEYS


class Mirror(Noun):
    """One of x and y.

    Each part is placed at its mirrored position and rotated the other way, but is not mirrored itself. Sides of
    legends and of straight scales, anchors of texts, lines and drawings are mirrored; letters are not.
    """

    x = key(PlaceByAxes.x.kind, says="Position of a vertical mirror line.")
    y = key(PlaceByAxes.y.kind, says="Position of a horizontal mirror line.")
    names = key(
        ListOf(of=Text(maximum=20), what="texts", minimum=2, maximum=2),
        otherwise="1 and 2",
        says="Texts for the name in braces: for the parts as written, and for the mirrored parts.",
    )
    as_ = _AS_KEY


class MirroredParts(Noun):
    """Parts as written, and a mirrored copy."""

    MARKED_BY = "mirror"

    mirror = key(NounOf(Mirror), required=True, says="Mirror line.")
    parts = key(PART_LIST, default=(), says="Parts that are placed as written and mirrored.")
    frames, texts, lines, art = BESIDE_KEYS


_MODULE_KEY = key(kinds.MODULE_NAME, required=True, says="Name of the module.")

_MODULE_TURN_KEY = key(
    kinds.TURN,
    default=0.0,
    says=(
        "Rotation of the module, counter-clockwise, in quarter turns. Legends stay level, texts read from below "
        "or from the right."
    ),
)

_MIRRORED_KEY = key(
    Choice(("no", "left-right", "top-bottom"), "ways"),
    default="no",
    says=(
        "Exchanges the sides of the module about its origin, before it is turned. Parts are not mirrored "
        "themselves, nor are letters."
    ),
)

_PREFIX_KEY = key(
    Text(maximum=30, braces=True),
    default="",
    says="Text before all refs of the module, so that they are unique: `M1-` makes M1-S1 of S1.",
)

_WITH_KEY = key(
    MapOf(keys=Text(maximum=40), of=kinds.RAW, what="names of parameters, each with its value"),
    default=(),
    says="Values of the parameters: `{name: Feed pump, knob: 16}`.",
)


class PlacedModule(Noun):
    """A module at a position."""

    MARKED_BY = "module"

    module = _MODULE_KEY
    at = key(
        ANYWHERE,
        required=True,
        says="Position of the origin of the module, from the datum, from other parts (`from`) or from edges.",
    )
    turn = _MODULE_TURN_KEY
    mirrored = _MIRRORED_KEY
    prefix = _PREFIX_KEY
    with_ = _WITH_KEY


class ModuleMember(Noun):
    """Module whose position comes from its layout: its origin is placed, and it takes the room of all its parts."""

    MARKED_BY = "module"
    ELSEWHERE = (("at", said.members_without_at()),)

    module = _MODULE_KEY
    turn = _MODULE_TURN_KEY
    mirrored = _MIRRORED_KEY
    prefix = _PREFIX_KEY
    with_ = _WITH_KEY


class Member(Placed):
    """Part whose position comes from its layout."""

    ELSEWHERE = (("at", said.members_without_at()),)

    ref = _REF_KEY
    part = _PART_NAME_KEY


class Series(Noun):
    """Number of members that are made."""

    ELSEWHERE = (("step", said.copies_without_step()),)

    count = _COUNT_KEY
    start = _START_KEY
    as_ = _AS_KEY


MEMBER_LIST: ListOf[Any] = ListOf(
    of=Later(lambda: OneOf((NounOf(RepeatedMembers), *LAYOUT_ITEMS, NounOf(ModuleMember), NounOf(Member)))),
    what="members, modules, repeats and layouts",
    minimum=1,
)

_MEMBERS_KEY = key(
    MEMBER_LIST,
    required=True,
    says="Members in order. A layout among them is one member, positioned by its `anchor`.",
)


class RepeatedMembers(Noun):
    """Numbered members."""

    MARKED_BY = "repeat"
    ELSEWHERE = (("texts", said.beside_in_layout()), ("art", said.beside_in_layout()))

    repeat = key(
        NounOf(Series), required=True, says="Number of copies; each copy takes the next position of the layout."
    )
    parts = _MEMBERS_KEY
    frames = BESIDE_KEYS[0]
    lines = BESIDE_KEYS[2]


_LAYOUT_AT_KEY = key(
    ANYWHERE,
    otherwise="required unless the layout is inside another one",
    says="Position of the layout's `anchor`, from the datum, from other parts or from edges.",
)

_PITCH_KEY = key(Length(above=0, maximum=MAX_SIZE), says="Distance from centre to centre; give either this or `gap`.")

_GAP_BETWEEN_KEY = key(
    kinds.GAP, says="Clearance between members, knobs and openings included; give either this or `pitch`."
)

_BETWEEN_WHAT_KEY = key(
    Choice(("front", "rear", "both"), "sides"),
    default="front",
    says="Envelopes that a gap is measured between: those in front, those behind the panel, or both.",
)

_LINE_ANCHOR_KEY = key(
    Choice(("first", "middle", "last"), "anchors"),
    default="first",
    says="Point that is placed at `at`: the centre of the first or last member, or the middle of the layout.",
)


class Row(Noun):
    """Members side by side, from left to right."""

    at = _LAYOUT_AT_KEY
    pitch = _PITCH_KEY
    gap = _GAP_BETWEEN_KEY
    anchor = _LINE_ANCHOR_KEY
    align = key(
        Choice(("centres", "top", "bottom"), "alignments"),
        default="centres",
        says="Alignment of the members: centres, or tops or bottoms of the areas that they cover.",
    )
    envelopes = _BETWEEN_WHAT_KEY


class Column(Noun):
    """Members one below the other, from top to bottom."""

    at = _LAYOUT_AT_KEY
    pitch = _PITCH_KEY
    gap = _GAP_BETWEEN_KEY
    anchor = _LINE_ANCHOR_KEY
    align = key(
        Choice(("centres", "left", "right"), "alignments"),
        default="centres",
        says="Alignment of the members: centres, or left or right edges of the areas that they cover.",
    )
    envelopes = _BETWEEN_WHAT_KEY


_NUMBERING: OneOf = OneOf((_COUNTED, ListOf(of=Text(maximum=20, braces=True), what="texts", minimum=1, maximum=500)))


class MatrixNumbers(Noun):
    """Names along the sides of a grid, in line with its columns and rows."""

    NAME = "names of a grid"

    columns = key(
        _NUMBERING, says="Names of the columns, from the left: the first number or letter, or a list of all names."
    )
    rows = key(_NUMBERING, says="Names of the rows, from the top: the first number or letter, or a list of all names.")
    columns_side = key(Choice(("above", "below", "both"), "sides"), default="above", says="Side of the column names.")
    rows_side = key(Choice(("left", "right", "both"), "sides"), default="left", says="Side of the row names.")
    style = key(Choice(STYLES, "styles"), default="numeral", says="Style of lettering.")


class Grid(Noun):
    """Members in columns and rows, the first at the top left."""

    at = _LAYOUT_AT_KEY
    columns = key(Integer(minimum=1, maximum=500), required=True, says="Number of columns.")
    rows = key(
        Integer(minimum=1, maximum=500),
        otherwise="as many as the members fill",
        says="Number of rows; all must be full.",
    )
    pitch = key(
        pair(Length(above=0, maximum=MAX_SIZE), "across", "down"),
        says="Distance from centre to centre of columns and of rows; give either this or `gap`.",
    )
    gap = key(
        pair(kinds.GAP, "across", "down"),
        says=(
            "Clearance between the widest members of columns, and the highest members of rows; give either this "
            "or `pitch`."
        ),
    )
    anchor = key(
        Choice(("first", "middle"), "anchors"),
        default="first",
        says="Point that is placed at `at`: the centre of the first member (top left), or the middle of the layout.",
    )
    order = key(
        Choice(("rows", "columns"), "orders"),
        default="rows",
        says="Order of the members: row by row from the top, or column by column from the left.",
    )
    numbers = key(NounOf(MatrixNumbers), says="Names along the sides of the grid.")
    envelopes = _BETWEEN_WHAT_KEY


class Ring(Noun):
    """Members on a circle, at equal angles."""

    at = key(
        ANYWHERE,
        otherwise="required unless the layout is inside another one",
        says="Position of the centre of the ring, from the datum, from other parts or from edges.",
    )
    diameter = key(
        kinds.SIZE, says="Diameter of the circle through the centres of the members; give either this or `gap`."
    )
    gap = key(
        kinds.GAP,
        says=(
            "Minimum clearance between neighbouring members, knobs and openings included; give either this or "
            "`diameter`."
        ),
    )
    start = key(
        kinds.TURN,
        otherwise="straight up for a full circle, else centred on straight up",
        says="Direction of the first member, counter-clockwise from the right.",
    )
    sweep = key(
        Angle(above=0, maximum=360),
        default=360.0,
        says="Angle from the first member to the last; 360 spaces them evenly all round.",
    )
    direction = key(
        Choice(("clockwise", "counter-clockwise"), "directions"),
        default="clockwise",
        says="Direction in which the members follow each other.",
    )
    facing = key(
        Choice(("up", "out", "in"), "orientations"),
        default="up",
        says="Orientation of the members: upright, or turned with the ring, with their tops out or in.",
    )
    envelopes = _BETWEEN_WHAT_KEY


class RowOfParts(Noun):
    """Parts side by side."""

    MARKED_BY = "row"

    row = key(NounOf(Row), required=True, says="Position and spacing of the row.")
    parts = _MEMBERS_KEY


class ColumnOfParts(Noun):
    """Parts one below the other."""

    MARKED_BY = "column"

    column = key(NounOf(Column), required=True, says="Position and spacing of the column.")
    parts = _MEMBERS_KEY


class GridOfParts(Noun):
    """Parts in columns and rows."""

    MARKED_BY = "grid"

    grid = key(NounOf(Grid), required=True, says="Position and spacing of the grid.")
    parts = _MEMBERS_KEY


class RingOfParts(Noun):
    """Parts on a circle."""

    MARKED_BY = "ring"

    ring = key(NounOf(Ring), required=True, says="Position and spacing of the ring.")
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
        ListOf(of=kinds.REF, what="refs", minimum=2, maximum=2),
        required=True,
        says="The two parts between which the members are placed, on the straight line from the first to the second.",
    )
    by = key(
        Choice(("centres", "gaps"), "spacings"),
        default="centres",
        says=(
            "What is even: the distances between centres, or the gaps between the areas that parts cover; the "
            "gaps to the two parts count too."
        ),
    )
    envelopes = _BETWEEN_WHAT_KEY


class DistributedParts(Noun):
    """Parts spread evenly between two others."""

    MARKED_BY = "distribute"

    distribute = key(NounOf(Distribute), required=True, says="The two parts, and how members are spaced between them.")
    parts = _MEMBERS_KEY
