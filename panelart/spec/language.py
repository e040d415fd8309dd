"""The spec language: every key, what it holds, its unit, what holds when it is left out, and its documentation.

Reading, messages, the JSON Schema for editors and the key reference all come from these tables.
"""

from __future__ import annotations

from typing import Any, Final

from panelart.lettering.symbols import SYMBOLS
from panelart.source import json_schema as schema_of
from panelart.source import reference
from panelart.source.nodes import Mapping
from panelart.source.schema import (
    Angle,
    AnyNode,
    Choice,
    Colour,
    Field,
    Fields,
    Flag,
    Integer,
    Later,
    Length,
    ListOf,
    MapOf,
    Number,
    OneOf,
    Record,
    Text,
    TupleOf,
    pair,
)
from panelart.spec.language_print import PRINT_FIELDS

VERSION: Final = 1
"""The version of the language that is read."""

RACK_WIDTH: Final = 482.6
"""Width in mm of a front panel for racks (IEC 60297-3-100, 19 inch)."""

RACK_LOSS: Final = 0.79
"""A rack panel of N units is lower than N x 44.45 by this much in mm (IEC 60297-3-100)."""

SUBRACK_LOSS: Final = 4.8
"""The front panel of a module is lower than N x 44.45 by this much in mm: 3U is 128.55 (a public file of constants that
quotes IEC 60297-3-101; that 6U follows the same rule is from memory)."""

PITCH_LOSS: Final = 0.3
"""It is narrower than N x 5.08 by this much in mm (IEC 60297-3-101; pages of makers print 0.3 to 0.4)."""

RAIL_WIDTH: Final = 15.875
"""How far the rails of a rack reach in behind each end of a panel, in mm: 450.85 is open between them (EIA-310)."""

SUBRACK_OPEN: Final = 21.35
"""The height between the rails of a subrack is N x 44.45 less this, in mm: 112.0 for 3U (a public file of constants
that quotes IEC 60297-3-101; 6U from memory)."""

STYLES: Final = ("title", "name", "position", "numeral", "note")
"""The kinds of lettering: frames' and free texts, parts' names, positions, scale numerals, small print."""

CAP_HEIGHT_SHARES: Final = {"title": 1.25, "name": 1.0, "position": 0.8, "numeral": 0.8, "note": 0.7}
"""Cap height of each style as a share of `lettering.cap_height`, where the style does not say its own."""

CORNERS: Final = ("lower-left", "lower-right", "upper-left", "upper-right", "centre", "drawing")
"""Places for the datum that have a name; `drawing` is the origin of the drawing that the outline comes from."""

FONTS: Final = ("plain", "plain-bold", "plain-narrow")
"""The lettering that comes with the program."""

PROCESSES: Final = ("digital-print", "screen-print", "engraving", "laser-marking", "overlay")
"""The marking processes whose limits stand in processes.yaml."""

COAT_KINDS: Final = ("powder", "wet-paint", "anodise", "zinc", "conversion", "none")

ANODIC_GROWTH: Final = 0.5
"""The share of an anodic film that stands above the old surface (an anodiser's technical note, for both types)."""

BARE_COLOUR: Final = "#C4C7C9"
"""How a face without a coloured coat is shown: a light metallic grey."""

MAX_SIZE: Final = 5000.0
"""The largest panel side and part position in mm; nothing larger is bent, coated and printed in one piece."""

_SIZE = Length(above=0, maximum=MAX_SIZE)
_PLACE = Length(minimum=-MAX_SIZE, maximum=MAX_SIZE)
_POSITION = pair(_PLACE, "x", "y")
_CAP_HEIGHT = Length(above=0, maximum=200)
_REF = Text(maximum=40)
_WORDS = Text(maximum=200, lines=4)
_LINE = Text(maximum=200)
_WHY = Text(maximum=500, prose=True)
_TURN = Angle(minimum=-360, maximum=360)

# --- panel

RACK = Field(
    "rack",
    Integer(minimum=1, maximum=50),
    required=True,
    doc="Height in rack units; 482.6 mm wide and N x 44.45 - 0.79 mm high (IEC 60297-3-100).",
)
RACK_SIZE = Record("rack size", (RACK,), doc="The size of a front panel for 19 inch racks.", marked_by="rack")
SUBRACK = Field(
    "subrack",
    Choice(("3", "6"), "heights in U"),
    required=True,
    doc="Height in rack units; 3U is 128.55 mm high, 6U 261.9 mm (IEC 60297-3-101).",
)
SUBRACK_WIDTH = Field(
    "hp",
    Integer(minimum=2, maximum=84),
    required=True,
    doc="Width in horizontal pitches; N x 5.08 - 0.3 mm (IEC 60297-3-101).",
)
SUBRACK_SIZE = Record(
    "subrack size",
    (SUBRACK, SUBRACK_WIDTH),
    doc="The size of the front panel of a module in a subrack.",
    marked_by="subrack",
)
SIZE: Field[Any] = Field(
    "size",
    OneOf((pair(_SIZE, "width", "height"), RACK_SIZE, SUBRACK_SIZE)),
    otherwise="required without `outline`",
    doc=(
        "Width and height of the finished face, or `{rack: N}`, or `{subrack: 3, hp: N}`; the rails behind a panel of a"
        " rack or subrack are then kept free."
    ),
)
_DRAWING = Text(maximum=200, form="a file name relative to the spec")
OUTLINE_DXF = Field("dxf", _DRAWING, doc="A DXF file: lines, arcs, circles, polylines, ellipses, splines.")
OUTLINE_SVG = Field("svg", _DRAWING, doc="An SVG file: paths and plain shapes, whatever they are painted with.")
_LAYER = Text(maximum=255)
LAYERS: Field[Any] = Field(
    "layer",
    OneOf((_LAYER, ListOf(of=_LAYER, what="layers", minimum=1, maximum=50))),
    otherwise="all of the drawing",
    doc="The layer of a DXF, or the id of a group of an SVG, that is taken; several as a list.",
)
DRAWING_UNIT = Field(
    "unit",
    Choice(("mm", "cm", "m", "in", "thou"), "units"),
    otherwise="what the file says: $INSUNITS of a DXF, width and viewBox of an SVG",
    doc="The drawing's unit; required where the file does not say it, and never another than the file says.",
)
DRAWN_HOLES = Field(
    "holes",
    Choice(("openings", "keep-outs", "ignored"), "ways to take holes"),
    otherwise="required where the drawing has holes",
    doc=(
        "What closed lines within the outline are: openings that are cut, at their finished size; areas on both faces"
        " where nothing may be; or nothing."
    ),
)
DRAWN_REFS = Field(
    "refs",
    Text(maximum=20),
    default="H",
    doc="What the refs of openings from the drawing begin with; they are numbered row by row from the top left.",
)
DRAWN_TURN = Field("turn", _TURN, default=0.0, doc="Degrees that the drawing is turned counter-clockwise.")
SEEN_FROM = Field(
    "seen_from",
    Choice(("front", "rear"), "sides"),
    default="front",
    doc="The side that the drawing shows; one from the rear is mirrored, before it is turned.",
)
OUTLINE_RECORD = Record(
    "outline",
    (OUTLINE_DXF, OUTLINE_SVG, LAYERS, DRAWING_UNIT, DRAWN_HOLES, DRAWN_REFS, DRAWN_TURN, SEEN_FROM),
    doc=(
        "A face of any form, drawn elsewhere at its finished size: one closed outline of lines and arcs, from a DXF or"
        " an SVG. Other curves become arcs within 0.005 mm."
    ),
)
OUTLINE = Field("outline", OUTLINE_RECORD, otherwise="see `size`", doc="The form of the face from a drawing.")
CORNER = Field(
    "corner", Length(minimum=0, maximum=MAX_SIZE), default=0.0, doc="Radius of the four corners of the face."
)
MATERIAL = Field("material", Text(maximum=80), required=True, doc="What the sheet is made of.")
THICKNESS = Field(
    "thickness", Length(above=0, maximum=50), otherwise="that of `gauge`", doc="Thickness of the bare sheet."
)
GAUGE = Field(
    "gauge",
    Integer(minimum=1, maximum=40),
    otherwise="see `thickness`",
    doc="Its gauge instead; what that is in mm depends on the material: steel, galvanised, stainless or aluminium.",
)
SHEET_RECORD = Record("sheet", (MATERIAL, THICKNESS, GAUGE), doc="The metal, or whatever the panel is cut from.")
SHEET = Field("sheet", SHEET_RECORD, required=True, doc="The sheet that the panel is cut from.")
COAT_KIND = Field("kind", Choice(COAT_KINDS, "kinds of coat"), required=True, doc="The finish.")
_FILM = Length(minimum=0, maximum=2)
FILM_MIN = Field("minimum", _FILM, required=True, doc="The thinnest film that the coater lays.")
FILM_MAX = Field("maximum", _FILM, required=True, doc="The thickest.")
FILM_RANGE = Record("film", (FILM_MIN, FILM_MAX), doc="The range of the film; sizes are for the middle of it.")
FILM: Field[Any] = Field(
    "film",
    OneOf((_FILM, FILM_RANGE)),
    otherwise="0 for `none` and `conversion`, else required",
    doc=(
        "Thickness of the coat on one surface, or its range `{least, most}`; it makes each hole smaller by twice"
        " what stands above the metal. Fits are checked at both ends of a range."
    ),
)
FILM_GROWTH = Field(
    "growth",
    Number(minimum=0, maximum=1),
    otherwise="0.5 for `anodise`, else 1",
    doc="The share of the film that stands above the metal as it was; anodising eats into it as it grows.",
)
FACES = Field(
    "faces",
    Choice(("both", "front"), "faces"),
    default="both",
    doc="The faces that are coated; the walls of openings always are.",
)
ALLOWANCE = Field(
    "allowance",
    Choice(("drawing", "shop", "none"), "allowances"),
    default="drawing",
    doc=(
        "Who allows for the film: `drawing` writes cut sizes that the film brings to the finished sizes, `shop`"
        " writes finished sizes for a shop that allows for it itself, `none` cuts the sizes asked for and lets the"
        " film close them."
    ),
)
COAT_COLOUR = Field(
    "colour", Colour(), default=BARE_COLOUR, doc="The colour of the face as it shows on screen and on the proof."
)
COAT_NAME = Field("name", Text(), default="", doc="The coat as the coater knows it: shade, gloss, texture.")
COAT_RECORD = Record(
    "coat",
    (COAT_KIND, FILM, FILM_GROWTH, FACES, ALLOWANCE, COAT_COLOUR, COAT_NAME),
    doc="The finish on the surfaces.",
)
COAT = Field("coat", COAT_RECORD, otherwise="bare sheet", doc="The finish on the sheet.")
DATUM: Field[Any] = Field(
    "datum",
    OneOf((Choice(CORNERS, "places"), _POSITION)),
    default="lower-left",
    doc=(
        "Where positions are measured from, x to the right and y up, seen from the front: a corner, the centre,"
        " or a point measured from the lower-left corner. Of an odd outline they are those of the box round it;"
        " `drawing` is the origin of its drawing."
    ),
)
# --- bent edges

EDGES: Final = ("top", "bottom", "left", "right")
_BEND_ANGLE = Angle(minimum=5, maximum=150)
_BEND_RADIUS = Length(above=0, maximum=50)
HOLE_REF = Field("ref", _REF, required=True, doc="Its name, once among the refs of the panel.")
HOLE_AT = Field(
    "at",
    pair(_PLACE, "along", "back"),
    required=True,
    doc=(
        "Along the edge, in the panel's x or y from the datum, and back from the outside of the bend: on a flange"
        " from the front of the face, on a return from the outside of the flange."
    ),
)
HOLE_DIAMETER = Field("diameter", Length(above=0, maximum=500), doc="A round hole.")
HOLE_SLOT = Field("slot", pair(_SIZE, "along", "back"), doc="A slot with round ends, over all.")
HOLE_RECTANGLE = Field("rectangle", pair(_SIZE, "along", "back"), doc="A rectangle.")
HOLE_PART = Field("part", Text(maximum=80, form="the name of a part in the catalogue"), doc="What goes into it.")
FLANGE_HOLE = Record(
    "flange hole",
    (HOLE_REF, HOLE_AT, HOLE_DIAMETER, HOLE_SLOT, HOLE_RECTANGLE, HOLE_PART),
    doc="An opening in a flange at its finished size: one of diameter, slot, rectangle and part.",
)
FLANGE_HOLES = Field(
    "holes", ListOf(of=FLANGE_HOLE, what="holes", maximum=500), default=(), doc="Openings in the flange."
)
FLANGE_LENGTH = Field(
    "length",
    Length(above=0, maximum=1000),
    required=True,
    doc="Outside, finished: from the front of the face to the free edge.",
)
FLANGE_ANGLE = Field("angle", _BEND_ANGLE, default=90.0, doc="What the metal is turned through; 90 stands square.")
FLANGE_RADIUS = Field("radius", _BEND_RADIUS, otherwise="that of `bending`", doc="Inside radius of the bend.")
INSETS: Field[Any] = Field(
    "inset",
    OneOf((Length(minimum=0, maximum=MAX_SIZE), pair(Length(minimum=0, maximum=MAX_SIZE), "low end", "high end"))),
    otherwise="0, or what a flange round the corner needs",
    doc="From the ends of the edge to the ends of the flange; left or lower end first.",
)
FLANGE_CORNER = Field(
    "corner", Length(minimum=0, maximum=200), default=0.0, doc="Radius of the free corners of the flange."
)
RETURN_LENGTH = Field(
    "length", Length(above=0, maximum=1000), required=True, doc="On the outside of its own bend, finished."
)
TOWARDS = Field(
    "towards",
    Choice(("in", "out"), "directions"),
    default="in",
    doc="`in` turns it back over the panel (a channel), `out` away from it.",
)
RETURN_RECORD = Record(
    "return",
    (RETURN_LENGTH, FLANGE_ANGLE, FLANGE_RADIUS, TOWARDS, FLANGE_HOLES),
    doc="A second bend along the free edge of a flange.",
)
RETURN = Field("return", RETURN_RECORD, doc="A second bend along the free edge.")
FLANGE_RECORD = Record(
    "flange",
    (FLANGE_LENGTH, FLANGE_ANGLE, FLANGE_RADIUS, INSETS, FLANGE_CORNER, RETURN, FLANGE_HOLES),
    doc="An edge that is bent back.",
)
FLANGE_FIELDS: Final[dict[str, Field[Any]]] = {
    name: Field(name, OneOf((Length(above=0, maximum=1000), FLANGE_RECORD)), doc=f"The flange along the {name} edge.")
    for name in EDGES
}
FLANGES_RECORD = Record("flanges", tuple(FLANGE_FIELDS.values()), doc="Edges that are bent back: length, or all of it.")
FLANGES = Field("flanges", FLANGES_RECORD, otherwise="a flat panel", doc="Edges that are bent back.")
BEND_RADIUS = Field("radius", _BEND_RADIUS, otherwise="the thickness of the sheet", doc="Inside radius of all bends.")
K_FACTOR = Field(
    "k",
    Number(minimum=0, maximum=1),
    doc="The neutral line, from the inside, as a share of the thickness; the shop's own.",
)
TESTED_RADIUS = Field("radius", _BEND_RADIUS, required=True, doc="Inside radius.")
TESTED_ANGLE = Field("angle", _BEND_ANGLE, default=90.0, doc="What the metal was turned through.")
TESTED_DEDUCTION = Field(
    "deduction",
    Length(minimum=-100, maximum=100),
    required=True,
    doc="What the bend took off the sum of the outside lengths.",
)
TESTED = Field(
    "tested",
    ListOf(
        of=Record("tested bend", (TESTED_RADIUS, TESTED_ANGLE, TESTED_DEDUCTION), doc="A bend measured in this sheet."),
        what="tested bends",
        minimum=1,
        maximum=100,
    ),
    doc="Deductions that the shop has measured in this sheet; bends that are not among them are refused.",
)
RELIEF_WIDTH = Field("width", Length(above=0, maximum=100), otherwise="the thickness", doc="Width beside the flange.")
RELIEF_DEPTH = Field(
    "depth",
    Length(minimum=0, maximum=100),
    otherwise="the thickness",
    doc="How far it runs past the bend into the face.",
)
RELIEF_SHAPE = Field(
    "shape",
    Choice(("square", "round", "tear"), "shapes"),
    default="square",
    doc="A slot with a square or a round end, or none: `tear` lets the metal tear beside the flange.",
)
RELIEF_RECORD = Record(
    "relief", (RELIEF_SHAPE, RELIEF_WIDTH, RELIEF_DEPTH), doc="The slot beside a flange that ends early."
)
RELIEF = Field("relief", RELIEF_RECORD, otherwise="as wide as the sheet is thick", doc="Reliefs beside flanges.")
CORNER_SHAPE = Field(
    "shape", Choice(("square", "round"), "shapes"), default="square", doc="The inside of the notch: sharp, or rounded."
)
CORNER_DEPTH = Field(
    "depth",
    Length(minimum=0, maximum=100),
    otherwise="that of `relief`",
    doc="How far it runs past both bends into the face.",
)
CORNER_RELIEF = Field(
    "corner_relief",
    Record("corner relief", (CORNER_SHAPE, CORNER_DEPTH), doc="The notch where two flanges meet at a corner."),
    otherwise="square, as deep as `relief`",
    doc="Reliefs where two flanges meet.",
)
DIE = Field("die", Length(above=0, maximum=200), otherwise="not known", doc="Opening of the shop's die.")
BENDING_RECORD = Record(
    "bending",
    (BEND_RADIUS, K_FACTOR, TESTED, RELIEF, CORNER_RELIEF, DIE),
    doc="How the shop bends; without `k` and `tested` the K of DIN 6935 is taken. Springback is left to the shop.",
)
BENDING = Field("bending", BENDING_RECORD, otherwise="the K of DIN 6935", doc="How the shop bends.")

TITLE = Field("title", _LINE, required=True, doc="What the panel is, for the title block.")
NUMBER = Field("number", Text(maximum=80), default="", doc="Drawing or part number of the panel.")
REVISION = Field("revision", Text(maximum=20), default="", doc="Revision of the panel.")
DEPTH_BEHIND = Field(
    "depth_behind",
    Length(above=0, maximum=MAX_SIZE),
    otherwise="not held against anything",
    doc="Free room behind the face, that bodies must not be deeper than.",
)
PANEL_RECORD = Record(
    "panel",
    (TITLE, NUMBER, REVISION, SIZE, OUTLINE, CORNER, SHEET, COAT, FLANGES, BENDING, DATUM, DEPTH_BEHIND),
    doc="The face: flat, at its finished size, seen from the front; a rectangle, or an outline from a drawing.",
)
PANEL = Field("panel", PANEL_RECORD, required=True, doc="The face, its sheet and its coat.")

# --- marking

PROCESS = Field(
    "process",
    Choice(PROCESSES, "processes"),
    required=True,
    doc="How the legends get on the panel; it brings the limits that legends are checked against.",
)
INK_NAME = Field("name", Text(maximum=60), required=True, doc="The ink's name; that of its plate in the files.")
INK_COLOUR = Field("colour", Colour(), required=True, doc="The ink as it shows on screen.")
INK_RECORD = Record("ink", (INK_NAME, INK_COLOUR), doc="A colour that is laid down.")
INK = Field("ink", INK_RECORD, otherwise="see `inks`", doc="The one ink; either this or `inks` is given.")
INKS = Field(
    "inks",
    ListOf(of=INK_RECORD, what="inks, each {name, colour}", minimum=1, maximum=16),
    otherwise="see `ink`",
    doc="All inks when there are several; the first is taken where nothing else is said.",
)
FONT_FILE = Field("file", Text(maximum=200), required=True, doc="A variable font (.ttf, .otf), relative to the spec.")
INSTANCE = Field(
    "instance",
    MapOf(keys=Text(maximum=4, pattern="[A-Za-z0-9]{4}", form="the tag of an axis: wght"), of=Number(), what="axes"),
    required=True,
    doc="Where on its axes the font is taken: `{wght: 600, wdth: 80}`.",
)
FONT_RECORD = Record("font", (FONT_FILE, INSTANCE), doc="One instance of a variable font.")
_FONT: OneOf = OneOf((Text(maximum=200, form="plain, plain-bold, plain-narrow, or a font file"), FONT_RECORD))
FONT: Field[Any] = Field(
    "font",
    _FONT,
    default="plain",
    doc=(
        "The lettering: plain, plain-bold, plain-narrow, a font file (.ttf, .otf) relative to the spec, or"
        " `{file: house.ttf, instance: {wght: 600}}` of a variable font."
    ),
)
_CASE = Choice(("upper", "as-written", "small-capitals"), "cases")
CASE = Field(
    "case",
    _CASE,
    default="as-written",
    doc=(
        "`upper` sets names, positions and titles in capitals, by the rules of their `language`, and"
        " `small-capitals` in those of a font that has them. The symbols of units (mV, kHz, dB) and `{keep ...}`"
        " stay as they are; so do numerals and notes."
    ),
)
FALLBACK: Field[Any] = Field(
    "fallback",
    ListOf(of=_FONT, what="fonts", maximum=8),
    otherwise="that of the style or of `lettering`; none at first",
    doc="Fonts that are asked, in order, for characters that the font lacks. Without them a lacking one is an error.",
)
TRACKING = Field(
    "tracking",
    Number(minimum=-0.2, maximum=2),
    otherwise="that of the style or of `lettering`; 0 at first",
    doc="Space added between letters, as a share of the height of the capitals. Joined scripts stay joined.",
)
LIGATURES = Field(
    "ligatures",
    Flag(),
    otherwise="that of the style or of `lettering`; false at first",
    doc="Whether letters such as f and i may become one; never where they are spaced.",
)
TONGUE = Field(
    "language",
    Text(maximum=35, pattern="[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*", form="a language tag: de, tr, ar, zh-Hant"),
    otherwise="that of the style or of `lettering`; none at first",
    doc="The language of the words (a BCP 47 tag): it steers capitals, and forms of letters in fonts that have them.",
)
RUN = Field(
    "direction",
    Choice(("left-to-right", "right-to-left"), "directions"),
    otherwise="that of the style or of `lettering`; that of each line's first letter at first",
    doc="Which way lines run that have letters of both kinds.",
)
RANGING = Field(
    "ranging",
    Choice(("left", "centre", "right", "decimal-point"), "ways to line up"),
    otherwise="what suits the place: towards the part, else centred",
    doc="How several lines stand to each other.",
)
LINE_PITCH = Field(
    "line_pitch",
    Number(minimum=0.8, maximum=5),
    otherwise="1.3 for capitals, 1.5 with small letters, 1.9 with accents or bars (ISO 3098-0)",
    doc="From base line to base line, as a share of the height of the capitals.",
)
RADIUS = Field("radius", Length(minimum=0, maximum=100), otherwise="a quarter of the cap height", doc="Of the corners.")
PADDING = Field(
    "padding",
    Length(minimum=0, maximum=100),
    otherwise="half the cap height",
    doc="Ink between the words and its edge.",
)
REVERSED_RECORD = Record("reversed", (RADIUS, PADDING), doc="A filled field that words are left out of.")
REVERSED: Field[Any] = Field(
    "reversed",
    OneOf((Flag(), REVERSED_RECORD)),
    otherwise="that of the style or of `lettering`; false at first",
    doc="Leaves the words out of a filled field of ink, so that they show the colour of the panel.",
)
LOOK_FIELDS: Final[tuple[Field[Any], ...]] = (
    FALLBACK,
    TRACKING,
    LIGATURES,
    TONGUE,
    RUN,
    RANGING,
    LINE_PITCH,
    REVERSED,
)
"""What may be said of lettering as a whole, of a style, and of a single legend; the nearest counts."""

LETTERS = Field(
    "text",
    Choice(("outlines", "live"), "forms"),
    default="outlines",
    doc=(
        "How letters are written in the artwork: as outlines, which look the same everywhere, or live, as text with"
        " its fonts embedded, that can be searched and changed. Words left out of a field stay outlines; so do, in the"
        " SVG, joined scripts and fonts that may only be embedded to be viewed and printed."
    ),
)
CAP_HEIGHT = Field(
    "cap_height",
    _CAP_HEIGHT,
    default=4.0,
    doc="Height of the drawn capitals of part names; 4 mm is about 20 arcmin at arm's length.",
)
STYLE_FONT: Field[Any] = Field("font", _FONT, otherwise="that of `lettering`", doc="Lettering of this style.")
STYLE_CAP_HEIGHT = Field(
    "cap_height",
    _CAP_HEIGHT,
    otherwise="`lettering.cap_height` x 1.25 title, 1 name, 0.8 position, 0.8 numeral, 0.7 note",
    doc="Height of the drawn capitals of this style.",
)
STYLE_CASE = Field(
    "case",
    _CASE,
    otherwise="that of `lettering` for title, name and position; `as-written` for numeral and note",
    doc="How this style is spelled.",
)
STYLE_INK = Field("ink", Text(maximum=60), otherwise="the first ink", doc="The ink of this style, by name.")
STYLE_RECORD = Record(
    "style",
    (STYLE_FONT, STYLE_CAP_HEIGHT, STYLE_CASE, STYLE_INK, *LOOK_FIELDS),
    doc="What one kind of lettering does differently.",
)
STYLE_FIELDS: Final[dict[str, Field[Fields]]] = {
    name: Field(name, STYLE_RECORD, otherwise="as `lettering`", doc=doc)
    for name, doc in {
        "title": "Titles of frames, and free texts.",
        "name": "Names of parts.",
        "position": "Names of the positions of switches.",
        "numeral": "Numerals and units of scales.",
        "note": "Small print.",
    }.items()
}
STYLES_RECORD = Record("styles", tuple(STYLE_FIELDS.values()), doc="The kinds of lettering on a panel.")
STYLES_FIELD = Field("styles", STYLES_RECORD, otherwise="as `lettering`", doc="What single styles do differently.")
LETTERING_RECORD = Record(
    "lettering",
    (FONT, CAP_HEIGHT, CASE, *LOOK_FIELDS, LETTERS, STYLES_FIELD),
    doc="How the legends are lettered.",
)
LETTERING = Field("lettering", LETTERING_RECORD, otherwise="the defaults below", doc="How legends are lettered.")
VIEWING_DISTANCE = Field(
    "viewing_distance",
    Length(above=0, maximum=20000),
    default=700.0,
    doc="From the operator's eye to the panel; 700 mm is about arm's length.",
)
REGISTER = Field(
    "register",
    Length(minimum=0, maximum=5),
    otherwise="that of the process",
    doc="How far the marking may land off the metal, in any direction.",
)
_WEIGHT = Integer(minimum=0, maximum=1000)
PLACING_WEIGHTS: Final[dict[str, Field[int]]] = {
    name: Field(name, _WEIGHT, default=default, doc=doc)
    for name, default, doc in (
        ("above", 0, "A name above its part."),
        ("below", 8, "A name below its part."),
        ("right", 14, "A name to the right of its part."),
        ("left", 18, "A name to the left of its part."),
        ("wrap", 3, "Each line break that was not written."),
        ("slide", 3, "Words that are not centred on their part."),
        ("step_off", 1, "Each half of a capital's height that words stand farther off than they need."),
        ("ambiguous", 6, "Another part about as near to the words as their own."),
        ("other_side", 10, "Neighbours in a row or column with their names on different sides."),
        (
            "other_line",
            4,
            "Neighbours in a row without a common base line, in a column without a common edge or middle.",
        ),
        ("spacing", 2, "Neighbours in a row that stand to their parts in different ways: words unevenly spaced."),
        ("other_form", 14, "Positions of one control named in different ways."),
        ("group_side", 6, "Members of one frame with their names on different sides."),
        ("balance", 1, "Two members that mirror each other in their frame, and their names do not."),
        ("moved", 2, "A legend that stands elsewhere than in the accepted placement."),
        ("corner", 1, "Later resort: words off a corner of their part."),
        ("tight", 2, "Later resort: less space between the letters."),
        ("narrow", 3, "Later resort: the narrow face in place of the plain one."),
        ("leader", 6, "Last resort: words away from their part, with a line to it."),
    )
}
CLEARANCE = Field(
    "clearance",
    Length(minimum=0, maximum=20),
    default=0.5,
    doc="Bare face between a legend and a knob, nut, bezel or opening, on top of the register error.",
)
GAP = Field(
    "gap",
    Number(minimum=0, maximum=5),
    default=0.5,
    doc="White between a part and its legend, as a share of the height of the legend's capitals.",
)
WHITE = Field(
    "white",
    Number(minimum=0, maximum=5),
    default=0.35,
    doc="Least white between two legends, as a share of the height of the smaller capitals.",
)
BESIDE = Field(
    "beside",
    Number(minimum=0, maximum=5),
    default=1.0,
    doc=(
        "Least white between two legends side by side on one line, as a share of the height of the smaller capitals;"
        " clearly more than between two words, so that they are not read as one."
    ),
)
CUTTER = Field(
    "cutter",
    Length(above=0, maximum=10),
    otherwise="the narrowest that is usual",
    doc="Width of the engraver's cutter at the surface; no stroke may be narrower. For engraving only.",
)
PLACING_RECORD = Record(
    "placing",
    (*PLACING_WEIGHTS.values(), CLEARANCE, GAP, WHITE, BESIDE),
    doc=(
        "What places for legends cost; all legends of the panel together are set where they cost least. No sum of"
        " looks outweighs a later resort, and no sum of later resorts a legend that is left out."
    ),
)
PLACING = Field("placing", PLACING_RECORD, otherwise="the defaults below", doc="What places for legends cost.")
MARKING_RECORD = Record(
    "marking",
    (PROCESS, INK, INKS, LETTERING, VIEWING_DISTANCE, REGISTER, CUTTER, PLACING, *PRINT_FIELDS),
    doc="How legends get on the panel and how they look.",
)
MARKING = Field("marking", MARKING_RECORD, required=True, doc="The process, the inks and the lettering.")

# --- legends

PLACES: Final = ("above", "below", "left", "right", "above-left", "above-right", "below-left", "below-right")
"""Where words may stand beside their part."""

TEXT = Field(
    "text",
    _WORDS,
    required=True,
    doc=(
        "The words; `{{` is a brace; `{super 2}`, `{sub in}`, `{bar RESET}`,"
        " `{fraction 1/4}`, `{small Volts}` and `{keep mA}` letter what they hold raised, lowered, under a bar, as a"
        " fraction, in small capitals, or exactly as it stands."
    ),
)
PLACE = Field(
    "place", Choice(PLACES, "places"), otherwise="the best free place", doc="Where the words stand beside the part."
)
ALIGN = Field(
    "align",
    Choice(("left", "centre", "right"), "ends"),
    otherwise="the best",
    doc="Which end of words above or below stands in line with the part's edge; with `at`, which end stands there.",
)
OFFSET = Field(
    "offset", pair(_PLACE, "dx", "dy"), doc="How far the words are moved from where they would stand centred."
)
LEGEND_AT = Field(
    "at",
    _POSITION,
    otherwise="the best free place",
    doc="Exactly where the base line's middle (or the end named by `align`) is, from the datum; moved by repeats.",
)
GUIDE = Field(
    "guide",
    Length(above=0, maximum=200),
    doc="Length of a thin line from the part to the words; it needs a `place` above, below, left or right.",
)
OWN_CAP_HEIGHT = Field("cap_height", _CAP_HEIGHT, otherwise="that of the style", doc="Height of the drawn capitals.")
OWN_INK = Field("ink", Text(maximum=60), otherwise="that of the style", doc="The ink, by name.")
OWN_FONT: Field[Any] = Field("font", _FONT, otherwise="that of the style", doc="The lettering of this legend.")
OWN_CASE = Field("case", _CASE, otherwise="that of the style", doc="How this legend is spelled.")
OWN_LETTERING: Final[tuple[Field[Any], ...]] = (OWN_FONT, OWN_CAP_HEIGHT, OWN_CASE, OWN_INK, *LOOK_FIELDS)
"""What a single legend may have of its own."""

LEGEND_STYLE = Field("style", Choice(STYLES, "styles"), default="name", doc="The kind of lettering.")
LEGEND_RECORD = Record(
    "legend",
    (TEXT, PLACE, ALIGN, OFFSET, LEGEND_AT, GUIDE, LEGEND_STYLE, *OWN_LETTERING),
    doc="Words beside a part.",
)
SYMBOL = Field(
    "symbol",
    Choice(SYMBOLS, "symbols"),
    required=True,
    doc="A symbol in place of words, by name; `panelart parts --symbols` lists them.",
)
SYMBOL_HEIGHT = Field(
    "height",
    _CAP_HEIGHT,
    otherwise="that of the style's capitals",
    doc="Height of the square that a symbol is drawn in; its line is a tenth of it, as in lettering of that height.",
)
SYMBOL_LEGEND_RECORD = Record(
    "symbol legend",
    (SYMBOL, PLACE, ALIGN, OFFSET, LEGEND_AT, GUIDE, LEGEND_STYLE, SYMBOL_HEIGHT, OWN_INK),
    doc="A symbol beside a part.",
    marked_by="symbol",
)
SYMBOL_POSITION_RECORD = Record(
    "symbol position", (SYMBOL, SYMBOL_HEIGHT, OWN_INK), doc="A symbol that names a position.", marked_by="symbol"
)
TITLE_STYLE = Field("style", Choice(STYLES, "styles"), default="title", doc="The kind of lettering.")
LINE = Field("text", _LINE, required=True, doc="The words, on one line.")
TITLE_ALIGN = Field(
    "align", Choice(("left", "centre", "right"), "ends"), default="centre", doc="Where along the line the title stands."
)
FRAME_TITLE_RECORD = Record(
    "frame title", (LINE, TITLE_ALIGN, TITLE_STYLE, *OWN_LETTERING), doc="Words set into the line of a frame."
)

# --- parts

FROM = Field("from", _REF, required=True, doc="The ref of the part that is measured from.")
BY = Field("by", pair(_PLACE, "dx", "dy"), required=True, doc="From that part's centre to this one's.")
RELATIVE_RECORD = Record("relative place", (FROM, BY), doc="A place measured from another part.")

ACROSS_LINES: Final = ("left-edge", "middle", "right-edge")
UPRIGHT_LINES: Final = ("bottom-edge", "middle", "top-edge")
"""Lines of the face that places on an axis may be measured from, in the order of the axis."""

_GAP = Length(minimum=0, maximum=MAX_SIZE)
AXIS_FROM = Field(
    "from",
    _REF,
    doc="What is measured from: the centre of a part, by its ref, or an edge of the face or its middle, by name.",
)
AXIS_BY = Field("by", _PLACE, default=0.0, doc="How far from there, to the right or up.")
RIGHT_OF = Field("right_of", _REF, doc="Stands clear on the right of a part, or of the left edge.")
LEFT_OF = Field("left_of", _REF, doc="Stands clear on the left of a part, or of the right edge.")
ABOVE = Field("above", _REF, doc="Stands clear above a part, or above the bottom edge.")
BELOW = Field("below", _REF, doc="Stands clear below a part, or below the top edge.")
SIDE_GAP = Field(
    "gap", _GAP, default=0.0, doc="How far clear, between what the two cover in front, knobs and openings included."
)
ACROSS_RECORD = Record(
    "place across",
    (AXIS_FROM, AXIS_BY, RIGHT_OF, LEFT_OF, SIDE_GAP),
    doc=f"A place from left to right: one of from, right_of and left_of; edges are {', '.join(ACROSS_LINES)}.",
)
UPRIGHT_RECORD = Record(
    "place upright",
    (AXIS_FROM, AXIS_BY, ABOVE, BELOW, SIDE_GAP),
    doc=f"A place from bottom to top: one of from, above and below; edges are {', '.join(UPRIGHT_LINES)}.",
)
AT_X: Field[Any] = Field(
    "x", OneOf((_PLACE, ACROSS_RECORD)), required=True, doc="From left to right: from the datum, a part or an edge."
)
AT_Y: Field[Any] = Field(
    "y", OneOf((_PLACE, UPRIGHT_RECORD)), required=True, doc="From bottom to top: from the datum, a part or an edge."
)
AXES_RECORD = Record(
    "place by axes",
    (AT_X, AT_Y),
    doc="A place in line with parts or edges, each axis by itself.",
    marked_by="x",
)
_ANYWHERE: OneOf = OneOf((_POSITION, AXES_RECORD, RELATIVE_RECORD))
AT: Field[Any] = Field(
    "at",
    _ANYWHERE,
    required=True,
    doc=(
        "Where the part's centre is: measured from the datum, or from other parts or edges. In a repeat or a mirror, a"
        " place measured from a part of the same copy follows that part; any other place is moved with the copy."
    ),
)
REF = Field("ref", _REF, required=True, doc="The reference designator, once on a panel: S1, J3, RV2.")
PART_NAME: Field[Any] = Field(
    "part",
    OneOf(
        (
            Text(maximum=80, form="the name of a part in the catalogue"),
            AnyNode(of="a part of your own, in the form of the catalogue", shape=Mapping),
        )
    ),
    required=True,
    doc="What it is: a part of the catalogue by name, or a part of your own written out here.",
)
TURN = Field("turn", _TURN, default=0.0, doc="How far the part is turned, counter-clockwise.")
LEGEND: Field[Any] = Field(
    "legend",
    OneOf((_WORDS, SYMBOL_LEGEND_RECORD, LEGEND_RECORD)),
    doc="The part's name on the panel: the words, words with settings, or a symbol.",
)
POSITION_NAME: OneOf = OneOf((Text(maximum=80), SYMBOL_POSITION_RECORD))
POSITION_TEXTS: Field[Any] = Field(
    "texts",
    ListOf(of=POSITION_NAME, what="texts or symbols", minimum=1, maximum=60),
    required=True,
    doc="The positions of a turning control, clockwise.",
)
POSITION_SWEEP = Field(
    "sweep",
    Angle(above=0, maximum=360),
    default=300.0,
    doc="From the first position to the last, centred on straight up; 360 spaces them all round.",
)
TURNING_POSITIONS = Record(
    "turning positions",
    (POSITION_TEXTS, POSITION_SWEEP),
    doc="Positions evenly round a shaft.",
    marked_by="texts",
)
POSITIONS: Field[Any] = Field(
    "positions",
    OneOf(
        (
            POSITION_TEXTS.kind,
            TURNING_POSITIONS,
            MapOf(keys=Text(maximum=20), of=POSITION_NAME, what="directions or angles, each with a text or symbol"),
        )
    ),
    doc=(
        "The names of a control's positions: up, down, left, right, centre with a text each for levers, rockers"
        " and slides; for turning controls a list of texts, or angles (counter-clockwise from the right) with a"
        " text each. A symbol may stand for a text: `{symbol: on}`."
    ),
)
SCALE_FROM = Field("from", Number(), required=True, doc="The value at the low end, where the scale starts.")
SCALE_TO = Field("to", Number(), required=True, doc="The value at the high end; more than `from`.")
SCALE_UNIT = Field("unit", Text(maximum=20), default="", doc="The unit that is printed once with the scale.")
LAW = Field(
    "law",
    Choice(("linear", "logarithmic"), "laws"),
    default="linear",
    doc="How values are spread; a logarithmic scale has its marks at the digits 1 to 9 of each decade.",
)
TABLE = Field(
    "table",
    ListOf(
        of=pair(Number(), "value", "share"),
        what="pairs, each [value, share of the sweep from 0 to 1]",
        minimum=2,
        maximum=100,
    ),
    doc="Measured law, such as that of an audio potentiometer; straight between the pairs, from `from` to `to`.",
)
MAJOR = Field(
    "major",
    Number(above=0),
    otherwise="required, unless `marks` or a logarithmic law is given",
    doc="The step of the long marks; it divides the range.",
)
INTERMEDIATE = Field(
    "intermediate",
    Number(above=0),
    otherwise="half way, where a long step has ten short ones",
    doc="The step of the middle marks; it divides `major`.",
)
MINOR = Field("minor", Number(above=0), doc="The step of the short marks; it divides `major`.")
MARKS = Field(
    "marks", ListOf(of=Number(), what="values", minimum=1, maximum=200), doc="The values of the long marks, one by one."
)
SCALE_SWEEP = Field(
    "sweep",
    Angle(above=0, below=360),
    default=300.0,
    doc="From the low end to the high end.",
)
SCALE_START = Field(
    "start",
    _TURN,
    otherwise="centred on straight up",
    doc="Direction of the low end, counter-clockwise from the right.",
)
SCALE_DIRECTION = Field(
    "direction",
    Choice(("clockwise", "counter-clockwise"), "directions"),
    default="clockwise",
    doc="Which way the values grow.",
)
NUMERALS = Field(
    "numerals",
    ListOf(of=Number(), what="values", minimum=0, maximum=200),
    otherwise="at every long mark, thinned out by one, two and five where they would touch",
    doc="The values that get a numeral.",
)
READING = Field(
    "reading",
    Choice(("upright", "tangential", "radial"), "ways to stand"),
    default="upright",
    doc="How the numerals of a dial stand: level, along their circle, or along their ray.",
)
SCALE_WORDS = Field(
    "words",
    MapOf(
        keys=Text(maximum=20),
        of=OneOf((Text(maximum=40), SYMBOL_POSITION_RECORD)),
        what="values, each with a text or symbol",
    ),
    doc=(
        "Words in place of the numerals at single values, such as MIN and MAX at the ends; a symbol may stand for a"
        " text: `{symbol: minus}`."
    ),
)
ZONE_FROM = Field("from", Number(), required=True, doc="The value where the band starts.")
ZONE_TO = Field("to", Number(), required=True, doc="The value where it ends.")
ZONE_INK = Field("ink", Text(maximum=60), required=True, doc="The ink, by name.")
ZONE_RECORD = Record("zone", (ZONE_FROM, ZONE_TO, ZONE_INK), doc="A band of colour between knob and marks.")
ZONES = Field("zones", ListOf(of=ZONE_RECORD, what="zones", minimum=1, maximum=20), doc="Bands of colour.")
DETENTS = Field(
    "detents", ListOf(of=Number(), what="values", minimum=1, maximum=60), doc="Values where the control clicks: dots."
)
WEDGE = Field("wedge", Flag(), default=False, doc="A band that grows from the low end to the high end.")
SCALE_LENGTH = Field(
    "length",
    Length(above=0, maximum=MAX_SIZE),
    otherwise="a dial",
    doc="Makes the scale straight, for slides and windows: from the low end to the high end, about the part's middle.",
)
SCALE_SIDE = Field(
    "side",
    Choice(("left", "right", "above", "below"), "sides"),
    default="right",
    doc="Where a straight scale stands; values grow upward, or to the right above and below.",
)
SCALE_RECORD = Record(
    "scale",
    (
        SCALE_FROM,
        SCALE_TO,
        SCALE_UNIT,
        LAW,
        TABLE,
        MAJOR,
        INTERMEDIATE,
        MINOR,
        MARKS,
        SCALE_SWEEP,
        SCALE_START,
        SCALE_DIRECTION,
        NUMERALS,
        READING,
        SCALE_WORDS,
        ZONES,
        DETENTS,
        WEDGE,
        SCALE_LENGTH,
        SCALE_SIDE,
    ),
    doc="Graduations round the part's shaft, or along a straight line.",
)
SCALE: Field[Any] = Field(
    "scale",
    OneOf((SCALE_RECORD, ListOf(of=SCALE_RECORD, what="two scales, the inner one first", minimum=1, maximum=2))),
    doc="Graduations; two for a control with a shaft in a shaft, the inner one first.",
)
KNOB_DIAMETER = Field("diameter", Length(above=0, maximum=500), required=True, doc="Largest diameter, skirt included.")
KNOB_HEIGHT = Field("height", Length(above=0, maximum=500), required=True, doc="Top of the knob above the face.")
KNOB_RECORD = Record("knob", (KNOB_DIAMETER, KNOB_HEIGHT), doc="What is fitted over a shaft.")
KNOB: Field[Any] = Field(
    "knob",
    OneOf((Text(maximum=80, form="the name of a knob in the catalogue"), KNOB_RECORD)),
    doc="The knob on the part's shaft: one of the catalogue by name, or its dimensions.",
)
PIN_ONE = Field(
    "pin_1",
    pair(_PLACE, "dx", "dy"),
    doc=(
        "Where pin 1 is, from the part's centre and before the part is turned: a small triangle beside the part points"
        " to it."
    ),
)
_PART_KEYS: Final[tuple[Field[Any], ...]] = (TURN, LEGEND, POSITIONS, SCALE, KNOB, PIN_ONE)
PART_RECORD = Record("part", (REF, PART_NAME, AT, *_PART_KEYS), doc="One component on the panel.")

# --- parts in numbers

COUNT = Field("count", Integer(minimum=1, maximum=5000), required=True, doc="How many copies.")
STEP = Field("step", pair(_PLACE, "dx", "dy"), required=True, doc="From each copy to the next.")
_COUNTED = Text(maximum=8, pattern="[-+]?[0-9]{1,7}|[A-Z]", form="a whole number, or a capital letter")
START = Field(
    "start",
    _COUNTED,
    default="1",
    doc="The number of the first copy, or its letter: A, B, C and so on; after Z comes AA.",
)
AS = Field(
    "as",
    Text(maximum=20, pattern="[A-Za-z][A-Za-z0-9_]*", form="a name of letters, digits and _"),
    default="n",
    doc="The name that stands for the number, in braces, in ref, legend, positions and places measured from a ref.",
)
COPIES_RECORD = Record("repeat", (COUNT, STEP, START, AS), doc="How copies are made.")
COPIES = Field("repeat", COPIES_RECORD, required=True, doc="How often and how far apart.")
PART_LIST: ListOf[Any] = ListOf(
    of=Later(lambda: OneOf((REPEAT_RECORD, MIRROR_ITEM, *LAYOUT_ITEMS, DISTRIBUTE_ITEM, PART_RECORD))),
    what="parts, repeats, mirrors and layouts",
    minimum=1,
)
REPEATED: Field[Any] = Field("parts", PART_LIST, required=True, doc="What is copied; repeats may stand in repeats.")
REPEAT_RECORD: Record = Record(
    "repeated parts", (COPIES, REPEATED), doc="Parts that stand several times, in even steps.", marked_by="repeat"
)
PARTS: Field[Any] = Field("parts", PART_LIST, default=(), doc="The components and where they are.")

MIRROR_X: Field[Any] = Field("x", AT_X.kind, doc="An upright mirror: what stands left of it stands right of it too.")
MIRROR_Y: Field[Any] = Field("y", AT_Y.kind, doc="A level mirror: what stands below it stands above it too.")
MIRROR_NAMES = Field(
    "names",
    ListOf(of=Text(maximum=20), what="two texts", minimum=2, maximum=2),
    otherwise="1 and 2",
    doc="What stands for the two copies in braces: for the parts as written, and for those in the mirror.",
)
MIRROR_RECORD = Record(
    "mirror",
    (MIRROR_X, MIRROR_Y, MIRROR_NAMES, AS),
    doc=(
        "One of x and y. Each part stands where the mirror shows it and is turned the other way, but is not mirrored"
        " itself: what is handed stays right. Sides of legends and straight scales are those of the mirror."
    ),
)
MIRROR = Field("mirror", MIRROR_RECORD, required=True, doc="Where the mirror is.")
MIRRORED: Field[Any] = Field("parts", PART_LIST, required=True, doc="What stands as written and in the mirror.")
MIRROR_ITEM: Record = Record(
    "mirrored parts", (MIRROR, MIRRORED), doc="Parts as written, and once more in a mirror.", marked_by="mirror"
)

# --- layouts: parts whose places follow from each other

MEMBER_RECORD = Record(
    "member",
    (REF, PART_NAME, *_PART_KEYS),
    doc="A part whose place comes from the layout that it stands in.",
    elsewhere=(("at", "leave 'at' out: the layout says where its members stand"),),
)
SERIES_RECORD = Record(
    "series",
    (COUNT, START, AS),
    doc="How many members are made of what follows.",
    elsewhere=(("step", "leave 'step' out: each copy takes the next place of the layout"),),
)
SERIES = Field("repeat", SERIES_RECORD, required=True, doc="How often; each copy takes the next place of the layout.")
MEMBER_LIST: ListOf[Any] = ListOf(
    of=Later(lambda: OneOf((SERIES_ITEM, *LAYOUT_ITEMS, MEMBER_RECORD))), what="members, repeats and layouts", minimum=1
)
MEMBERS: Field[Any] = Field(
    "parts",
    MEMBER_LIST,
    required=True,
    doc="The members in order. A layout among them is one member, and stands by its `anchor`.",
)
SERIES_ITEM: Record = Record(
    "repeated members", (SERIES, MEMBERS), doc="Members that follow each other in numbers.", marked_by="repeat"
)

LAYOUT_AT: Field[Any] = Field(
    "at",
    _ANYWHERE,
    otherwise="required, unless the layout stands in another one",
    doc="Where the layout's `anchor` is: measured from the datum, or from other parts or edges.",
)
PITCH = Field("pitch", Length(above=0, maximum=MAX_SIZE), doc="From centre to centre; either this or `gap`.")
GAP_BETWEEN = Field(
    "gap", _GAP, doc="Clear from member to member, knobs and openings included; either this or `pitch`."
)
BETWEEN_WHAT = Field(
    "envelopes",
    Choice(("front", "rear", "both"), "sides"),
    default="front",
    doc="What a gap is measured between: what members cover in front, take behind the panel, or both.",
)
LINE_ANCHOR = Field(
    "anchor",
    Choice(("first", "middle", "last"), "anchors"),
    default="first",
    doc="What stands at `at`: the first member's centre, the last one's, or the middle of them all.",
)
ROW_ALIGN = Field(
    "align",
    Choice(("centres", "top", "bottom"), "ways to line up"),
    default="centres",
    doc="What the members have on one line: their centres, or the tops or bottoms of what they cover.",
)
COLUMN_ALIGN = Field(
    "align",
    Choice(("centres", "left", "right"), "ways to line up"),
    default="centres",
    doc="What the members have on one line: their centres, or the left or right edges of what they cover.",
)
ROW_RECORD = Record(
    "row",
    (LAYOUT_AT, PITCH, GAP_BETWEEN, LINE_ANCHOR, ROW_ALIGN, BETWEEN_WHAT),
    doc="Members side by side, from left to right.",
)
COLUMN_RECORD = Record(
    "column",
    (LAYOUT_AT, PITCH, GAP_BETWEEN, LINE_ANCHOR, COLUMN_ALIGN, BETWEEN_WHAT),
    doc="Members one below the other, from the top down.",
)

_NUMBERING: OneOf = OneOf((_COUNTED, ListOf(of=Text(maximum=20), what="texts", minimum=1, maximum=500)))
COLUMN_NUMBERS: Field[Any] = Field(
    "columns", _NUMBERING, doc="The columns' names: the first number or letter, or all of them, from the left."
)
ROW_NUMBERS: Field[Any] = Field(
    "rows", _NUMBERING, doc="The rows' names: the first number or letter, or all of them, from the top."
)
COLUMN_SIDE = Field(
    "columns_side",
    Choice(("above", "below", "both"), "sides"),
    default="above",
    doc="Where the columns' names stand.",
)
ROW_SIDE = Field(
    "rows_side", Choice(("left", "right", "both"), "sides"), default="left", doc="Where the rows' names stand."
)
NUMBERS_STYLE = Field("style", Choice(STYLES, "styles"), default="numeral", doc="The kind of lettering.")
NUMBERS_RECORD = Record(
    "matrix numbers",
    (COLUMN_NUMBERS, ROW_NUMBERS, COLUMN_SIDE, ROW_SIDE, NUMBERS_STYLE),
    doc="Names along the sides of a grid, in line with the centres of its columns and rows.",
)
GRID_COLUMNS = Field("columns", Integer(minimum=1, maximum=500), required=True, doc="How many columns.")
GRID_ROWS = Field(
    "rows",
    Integer(minimum=1, maximum=500),
    otherwise="as many as the members fill",
    doc="How many rows; all are full then.",
)
GRID_PITCH = Field(
    "pitch",
    pair(Length(above=0, maximum=MAX_SIZE), "across", "down"),
    doc="From centre to centre of columns and of rows; either this or `gap`.",
)
GRID_GAP = Field(
    "gap",
    pair(_GAP, "across", "down"),
    doc="Clear between the widest members of columns, and the highest of rows; either this or `pitch`.",
)
GRID_ANCHOR = Field(
    "anchor",
    Choice(("first", "middle"), "anchors"),
    default="first",
    doc="What stands at `at`: the centre of the first member, at the top left, or the middle of them all.",
)
GRID_ORDER = Field(
    "order",
    Choice(("rows", "columns"), "orders"),
    default="rows",
    doc="How members fill it: row by row from the top, or column by column from the left.",
)
NUMBERS = Field("numbers", NUMBERS_RECORD, doc="Names along its sides.")
GRID_RECORD = Record(
    "grid",
    (LAYOUT_AT, GRID_COLUMNS, GRID_ROWS, GRID_PITCH, GRID_GAP, GRID_ANCHOR, GRID_ORDER, NUMBERS, BETWEEN_WHAT),
    doc="Members in columns and rows, the first at the top left.",
)

RING_AT: Field[Any] = Field(
    "at",
    _ANYWHERE,
    otherwise="required, unless the layout stands in another one",
    doc="Where the centre of the ring is: measured from the datum, or from other parts or edges.",
)
DIAMETER = Field("diameter", _SIZE, doc="Of the circle through the members' centres; either this or `gap`.")
RING_GAP = Field(
    "gap", _GAP, doc="Least way from member to neighbour, knobs and openings included; either this or `diameter`."
)
RING_START = Field(
    "start",
    _TURN,
    otherwise="straight up all round, else centred on straight up",
    doc="Direction of the first member, counter-clockwise from the right.",
)
RING_SWEEP = Field(
    "sweep",
    Angle(above=0, maximum=360),
    default=360.0,
    doc="From the first member to the last; 360 spaces them all round.",
)
RING_DIRECTION = Field(
    "direction",
    Choice(("clockwise", "counter-clockwise"), "directions"),
    default="clockwise",
    doc="Which way the members follow each other.",
)
FACING = Field(
    "facing",
    Choice(("up", "out", "in"), "ways to face"),
    default="up",
    doc="Whether members stand upright or are turned with the ring, their tops out or in.",
)
RING_RECORD = Record(
    "ring",
    (RING_AT, DIAMETER, RING_GAP, RING_START, RING_SWEEP, RING_DIRECTION, FACING, BETWEEN_WHAT),
    doc="Members on a circle, at even angles.",
)
ROW = Field("row", ROW_RECORD, required=True, doc="Where the row is and how its members are spaced.")
COLUMN = Field("column", COLUMN_RECORD, required=True, doc="Where the column is and how its members are spaced.")
GRID = Field("grid", GRID_RECORD, required=True, doc="Where the grid is and how its members are spaced.")
RING = Field("ring", RING_RECORD, required=True, doc="Where the ring is and how its members are spaced.")
ROW_ITEM: Record = Record("row of parts", (ROW, MEMBERS), doc="Parts side by side.", marked_by="row")
COLUMN_ITEM: Record = Record("column of parts", (COLUMN, MEMBERS), doc="Parts below each other.", marked_by="column")
GRID_ITEM: Record = Record("grid of parts", (GRID, MEMBERS), doc="Parts in columns and rows.", marked_by="grid")
RING_ITEM: Record = Record("ring of parts", (RING, MEMBERS), doc="Parts on a circle.", marked_by="ring")
LAYOUT_ITEMS: Final[tuple[Record, ...]] = (ROW_ITEM, COLUMN_ITEM, GRID_ITEM, RING_ITEM)

BETWEEN = Field(
    "between",
    ListOf(of=_REF, what="two refs", minimum=2, maximum=2),
    required=True,
    doc="The two parts that the members stand between, on the straight line from the first to the second.",
)
SPREAD = Field(
    "by",
    Choice(("centres", "gaps"), "ways to space"),
    default="centres",
    doc="Whether centres or the gaps between what parts cover are even, those to the two parts included.",
)
DISTRIBUTE_RECORD = Record(
    "distribute", (BETWEEN, SPREAD, BETWEEN_WHAT), doc="Members spread evenly between two parts."
)
DISTRIBUTE = Field("distribute", DISTRIBUTE_RECORD, required=True, doc="Between which parts, and how.")
DISTRIBUTE_ITEM: Record = Record(
    "distributed parts", (DISTRIBUTE, MEMBERS), doc="Parts spread evenly between two others.", marked_by="distribute"
)

# --- frames, texts, keep-outs, waivers

AROUND = Field(
    "around",
    ListOf(of=_REF, what="refs", minimum=1),
    required=True,
    doc="The parts inside the frame; J* stands for all refs that begin with J.",
)
FRAME_TITLE: Field[Any] = Field(
    "title", OneOf((_LINE, FRAME_TITLE_RECORD)), doc="Words set into the line: the text, or text with settings."
)
MARGIN = Field("margin", Length(minimum=0, maximum=500), default=3.0, doc="From what the parts cover to the line.")
FRAME_FORM = Field(
    "form",
    Choice(("frame", "bracket"), "forms"),
    default="frame",
    doc="A line all round, or a bracket along one side with ticks that point to the parts.",
)
FRAME_SIDE = Field(
    "side",
    Choice(("top", "bottom"), "sides"),
    default="top",
    doc="The side with the title; a bracket stands on this side.",
)
FRAME_CORNER = Field("corner", Length(minimum=0, maximum=100), default=2.0, doc="Radius of the corners of a frame.")
TICKS = Field(
    "ticks", Choice(("ends", "members"), "places"), default="ends", doc="Where a bracket has ticks besides its ends."
)
FRAME_RECORD = Record(
    "frame",
    (AROUND, FRAME_TITLE, MARGIN, FRAME_FORM, FRAME_SIDE, FRAME_CORNER, TICKS),
    doc="A line round or beside parts that work together; a frame may stand in another.",
)
FRAMES = Field("frames", ListOf(of=FRAME_RECORD, what="frames", maximum=500), default=(), doc="Lines round parts.")

TEXT_AT = Field("at", _POSITION, required=True, doc="Where the anchor point of the base line is, from the datum.")
ANCHOR = Field(
    "anchor", Choice(("left", "centre", "right"), "anchors"), default="left", doc="Which point of the text it is."
)
ARC_RADIUS = Field("radius", _SIZE, required=True, doc="Of the base line.")
ARC_MIDDLE = Field(
    "middle", _TURN, default=90.0, doc="Where the middle of the words lies, counter-clockwise from the right."
)
FEET = Field(
    "feet",
    Choice(("inward", "outward"), "ways"),
    otherwise="inward in the upper half, outward in the lower",
    doc="Where the feet of the letters point: inward reads clockwise, outward counter-clockwise.",
)
ARC_RECORD = Record("arc", (ARC_RADIUS, ARC_MIDDLE, FEET), doc="A base line round a circle.")
ARC = Field("arc", ARC_RECORD, otherwise="a straight line", doc="Sets the words round a circle with its centre `at`.")
TEXT_TURN = Field("turn", _TURN, default=0.0, doc="How far the text is turned, counter-clockwise.")
FREE_TEXT_RECORD = Record(
    "free text",
    (
        TEXT,
        TEXT_AT,
        ANCHOR,
        TEXT_TURN,
        ARC,
        TITLE_STYLE,
        *OWN_LETTERING,
    ),
    doc="Words at a place of their own.",
)
FREE_SYMBOL_RECORD = Record(
    "free symbol",
    (SYMBOL, TEXT_AT, ANCHOR, TEXT_TURN, TITLE_STYLE, SYMBOL_HEIGHT, OWN_INK),
    doc="A symbol at a place of its own.",
    marked_by="symbol",
)
TEXTS: Field[Any] = Field(
    "texts",
    ListOf(of=OneOf((FREE_SYMBOL_RECORD, FREE_TEXT_RECORD)), what="texts", maximum=1000),
    default=(),
    doc="Words and symbols anywhere.",
)

LINE_FROM = Field("from", _REF, required=True, doc="The ref of the part where the line begins.")
LINE_TO = Field("to", _REF, required=True, doc="The ref of the part where it ends.")
_SIDES: Final = ("above", "below", "left", "right")
LINE_LEAVE = Field(
    "leave", Choice(_SIDES, "sides"), otherwise="the best", doc="The side of the part where the line begins."
)
LINE_ENTER = Field("enter", Choice(_SIDES, "sides"), otherwise="the best", doc="The side of the part where it ends.")
ARROW = Field("arrow", Choice(("end", "both", "none"), "arrows"), default="end", doc="Which ends have an arrow.")
STROKE = Field("width", Length(above=0, maximum=20), otherwise="an eighth of the cap height", doc="Width of the line.")
ART_INK = Field("ink", Text(maximum=60), otherwise="that of names", doc="The ink, by name.")
FLOW_LINE_RECORD = Record(
    "line",
    (LINE_FROM, LINE_TO, LINE_LEAVE, LINE_ENTER, ARROW, STROKE, ART_INK),
    doc="A line from part to part; its way, level and upright with few bends, keeps clear of everything.",
)
FLOW_LINES = Field(
    "lines", ListOf(of=FLOW_LINE_RECORD, what="lines", maximum=500), default=(), doc="Lines as signals flow."
)

ART_RULE = Field(
    "rule",
    ListOf(of=_POSITION, what="points, each [x, y]", minimum=2, maximum=200),
    required=True,
    doc="Its points in order, from the datum.",
)
RULE_RECORD = Record("drawn rule", (ART_RULE, STROKE, ART_INK), doc="A line through points.", marked_by="rule")
ART_BOX = Field(
    "box",
    TupleOf((("x", _PLACE), ("y", _PLACE), ("width", _SIZE), ("height", _SIZE))),
    required=True,
    doc="The lower-left corner, from the datum, and the size.",
)
BOX_CORNER = Field("corner", Length(minimum=0, maximum=100), default=0.0, doc="Radius of the corners.")
FILLED = Field("filled", Flag(), default=False, doc="Fills the shape instead of drawing its outline.")
BOX_RECORD = Record("drawn box", (ART_BOX, BOX_CORNER, FILLED, STROKE, ART_INK), doc="A rectangle.", marked_by="box")
ART_MARK = Field(
    "mark",
    Choice(("dot", "triangle", "arrow", "cross"), "marks"),
    required=True,
    doc="A small sign, such as the triangle at pin 1 of a connector.",
)
ART_AT: Field[Any] = Field(
    "at",
    OneOf((_POSITION, RELATIVE_RECORD)),
    required=True,
    doc="Where its middle is: from the datum, or from a part's centre.",
)
ART_SIZE = Field("size", Length(above=0, maximum=200), default=2.0, doc="Its height.")
ART_TURN = Field("turn", _TURN, default=0.0, doc="How far it is turned, counter-clockwise; at 0 it points up.")
MARK_RECORD = Record("drawn mark", (ART_MARK, ART_AT, ART_SIZE, ART_TURN, ART_INK), doc="A sign.", marked_by="mark")
ART_SVG = Field(
    "svg",
    Text(maximum=300),
    required=True,
    doc="A file of filled paths, relative to the spec; scripts, links, pictures and outside references are refused.",
)
ART_HEIGHT = Field("height", Length(above=0, maximum=MAX_SIZE), required=True, doc="Its height on the panel.")
SVG_RECORD = Record("drawing", (ART_SVG, ART_AT, ART_HEIGHT, ART_TURN, ART_INK), doc="A drawing.", marked_by="svg")
CODE_KIND = Field(
    "code",
    Choice(("qr", "data-matrix", "code-128"), "codes"),
    required=True,
    doc="A code for machines: QR at level M, Data Matrix, or Code 128.",
)
CODE_TEXT = Field(
    "text",
    Text(maximum=400),
    required=True,
    doc="What it holds; braces may name variables, which vary from piece to piece.",
)
CODE_MODULE = Field(
    "module",
    Length(above=0, maximum=10),
    default=0.5,
    doc="Side of one module, width of the narrowest bar; a whole number of the printer's dots prints best.",
)
CODE_LEFT_OUT = Field(
    "reversed",
    Flag(),
    otherwise="true where the ink is lighter than the coat",
    doc="Fill symbol and quiet zone and leave the dark modules bare: readers want dark on light.",
)
CODE_RECORD = Record(
    "code",
    (CODE_KIND, CODE_TEXT, ART_AT, CODE_MODULE, ART_TURN, CODE_LEFT_OUT, ART_INK),
    doc="A code for machines, its middle at a place, with its quiet zone round it.",
    marked_by="code",
)
ART: Field[Any] = Field(
    "art",
    ListOf(
        of=OneOf((RULE_RECORD, BOX_RECORD, MARK_RECORD, SVG_RECORD, CODE_RECORD)), what="drawn things", maximum=1000
    ),
    default=(),
    doc="Rules, boxes, small signs and drawings at places of their own.",
)

RECTANGLE = Field(
    "rectangle",
    TupleOf((("x", _PLACE), ("y", _PLACE), ("width", _SIZE), ("height", _SIZE))),
    doc="The lower-left corner, from the datum, and the size.",
)
CIRCLE = Field(
    "circle",
    TupleOf((("x", _PLACE), ("y", _PLACE), ("diameter", _SIZE))),
    doc="The centre, from the datum, and the diameter.",
)
POLYGON = Field(
    "polygon",
    ListOf(of=_POSITION, what="corners, each [x, y]", minimum=3, maximum=200),
    doc="The corners in order, from the datum.",
)
AREA_RECORD = Record("area", (RECTANGLE, CIRCLE, POLYGON), doc="One of the three.")
AREA = Field("area", AREA_RECORD, required=True, doc="The area that is kept free.")
SIDE = Field("side", Choice(("front", "rear"), "sides"), default="front", doc="On which side it is kept free.")
WHY = Field("why", _WHY, required=True, doc="The reason, for those who come after.")
KEEPOUT_RECORD = Record("keep-out", (AREA, SIDE, WHY), doc="An area where nothing may be.")
KEEPOUTS = Field(
    "keepouts", ListOf(of=KEEPOUT_RECORD, what="keep-outs", maximum=500), default=(), doc="Areas kept free."
)

MASKED = Field("area", AREA_RECORD, required=True, doc="The area that stays bare, at its size on the panel.")
MASK_SIDE = Field("side", Choice(("front", "rear"), "sides"), default="front", doc="The face it is on.")
MASK_RECORD = Record("mask", (MASKED, MASK_SIDE, WHY), doc="An area that is kept bare when the panel is coated.")
MASKS = Field(
    "masks",
    ListOf(of=MASK_RECORD, what="masks", maximum=200),
    default=(),
    doc="Areas kept free of coat: bonding pads, gasket lands. Pads of earth studs are masked without being asked for.",
)

RULE = Field("rule", Text(maximum=80), required=True, doc="The name of the rule.")
ON: Field[Any] = Field(
    "on",
    OneOf((_REF, ListOf(of=_REF, what="refs", minimum=1))),
    otherwise="the whole panel",
    doc="The ref or refs whose findings are accepted.",
)
UNTIL = Field(
    "until",
    Text(maximum=10, pattern="[0-9]{4}-[0-9]{2}-[0-9]{2}", form="a date of the form YYYY-MM-DD"),
    otherwise="for good",
    doc="The last day on which the finding is accepted.",
)
SIGNER = Field("by", Text(maximum=80), default="", doc="Who accepted it.")
WAIVER_RECORD = Record("waiver", (RULE, ON, WHY, UNTIL, SIGNER), doc="A finding that is accepted.")
WAIVERS = Field("waivers", ListOf(of=WAIVER_RECORD, what="waivers", maximum=1000), default=(), doc="Accepted findings.")

# --- the operator

_EYE_PLACE = Length(minimum=-20000, maximum=20000)
EYE_DISTANCE = Field(
    "distance",
    Length(above=0, maximum=20000),
    otherwise="`marking.viewing_distance`",
    doc="From the eye straight ahead to the middle of the panel, level.",
)
EYE_HEIGHT: Field[Any] = Field(
    "height",
    OneOf((_EYE_PLACE, pair(_EYE_PLACE, "lowest", "highest"))),
    default=0.0,
    doc="The eye above the middle of the panel: one height, or the lowest (seated) and the highest (standing).",
)
EYE_ASIDE: Field[Any] = Field(
    "aside",
    OneOf((_EYE_PLACE, pair(_EYE_PLACE, "leftmost", "rightmost"))),
    default=0.0,
    doc="The eye to the right of the middle of the panel: one place, or the leftmost and the rightmost.",
)
LEAN = Field(
    "lean", Angle(minimum=-90, maximum=90), default=0.0, doc="How far the top of the panel leans back from upright."
)
EYE_RECORD = Record(
    "eye",
    (EYE_DISTANCE, EYE_HEIGHT, EYE_ASIDE, LEAN),
    doc="Where the panel is seen from; legends are then held against the shadows of the hardware.",
)
EYE = Field("eye", EYE_RECORD, otherwise="not held against shadows", doc="Where the panel is seen from.")
HAND = Field(
    "hand",
    Choice(("bare", "gloved"), "hands"),
    otherwise="only the room for a finger is asked for",
    doc="The hand that works the controls; their spacing is then held against the standards' tables.",
)
OPERATOR_RECORD = Record("operator", (EYE, HAND), doc="Who works at the panel.")
OPERATOR = Field("operator", OPERATOR_RECORD, otherwise="nothing is known", doc="Who works at the panel.")

# --- how it is made

CUTTINGS: Final = ("laser", "punch", "mill", "waterjet", "hand")
CUTTING = Field("cutting", Choice(CUTTINGS, "ways to cut"), default="laser", doc="How the sheet is cut.")
CUTTER = Field(
    "cutter",
    Length(above=0, maximum=50),
    otherwise="not known",
    doc="Diameter of the milling cutter; inside corners are rounded by its radius.",
)
RELIEVE = Field(
    "relieve_corners",
    Flag(),
    default=False,
    doc="Whether a milled opening has its sharp inside corners relieved by the cutter, so that square parts go in.",
)
_PUNCH = Length(above=0, maximum=200)
PUNCH_SLOT = Field("slot", pair(_PUNCH, "length", "width"), required=True, doc="A punch with round ends, over all.")
PUNCHES: Field[Any] = Field(
    "punches",
    ListOf(
        of=OneOf((_PUNCH, pair(_PUNCH, "length", "width"), Record("punch", (PUNCH_SLOT,), doc="A slotting punch."))),
        what="punches",
        maximum=200,
    ),
    default=(),
    doc=(
        "The punches that the shop has: diameters of round ones, `[length, width]` of rectangular ones, `{slot:"
        " [length, width]}` of those with round ends; openings that none of them makes in one stroke are nibbled."
    ),
)
HANGING_ON = Field(
    "on",
    Choice((*EDGES, *(f"{edge} return" for edge in EDGES)), "flanges"),
    doc="The flange that gets holes to hang the panel by.",
)
HANGING_DIAMETER = Field(
    "diameter", Length(above=0, maximum=50), default=5.0, doc="Their diameter, for the coater's hook."
)
HANGING_AT = Field(
    "at",
    ListOf(of=_PLACE, what="places along the edge", minimum=1, maximum=20),
    otherwise="two places a quarter in from the ends, clear of what else is in the flange",
    doc="Where they are along the edge, in the panel's x or y from the datum.",
)
HANGING_BY = Field(
    "by",
    ListOf(of=_REF, what="refs", minimum=1, maximum=50),
    doc="Openings that the panel hangs by instead, by their refs.",
)
HANGING_RECORD = Record(
    "hanging",
    (HANGING_ON, HANGING_DIAMETER, HANGING_AT, HANGING_BY),
    doc="How the panel hangs on the coater's rack: holes of its own in a flange, or openings that are there.",
)
HANGING = Field(
    "hanging", HANGING_RECORD, otherwise="by whatever ends up hidden", doc="How the panel hangs when it is coated."
)
TOLERANCE_CLASS = Field(
    "tolerance",
    Choice(("f", "m", "c", "v"), "classes"),
    default="m",
    doc="The class of ISO 2768-1 that holds for sizes without a tolerance of their own.",
)
QUANTITY = Field("quantity", Integer(minimum=1, maximum=1_000_000), default=1, doc="How many are made.")
FIRST_SERIAL = Field(
    "first_serial", Text(maximum=40), default="", doc="Serial number of the first; its digits count up."
)
GRAIN = Field(
    "grain",
    Choice(("along", "across"), "directions"),
    otherwise="any",
    doc="Which way the grain of the sheet runs: along the width of the panel, or across it.",
)
MAKING_NOTE = Field("note", Text(maximum=500, prose=True), default="", doc="What else the shop must know.")
MAKING_RECORD = Record(
    "making",
    (CUTTING, CUTTER, RELIEVE, PUNCHES, TOLERANCE_CLASS, QUANTITY, FIRST_SERIAL, GRAIN, HANGING, MAKING_NOTE),
    doc="How the panel is made, for the build sheet and the rules of the workshop.",
)
MAKING = Field("making", MAKING_RECORD, otherwise="one, cut by laser, ISO 2768-m", doc="How the panel is made.")

# --- the whole

LANGUAGE = Field(
    "panelart", Integer(minimum=VERSION, maximum=VERSION), required=True, doc="The version of this language: 1."
)
CATALOGUE = Field(
    "catalogue",
    ListOf(of=Text(maximum=300), what="file names", maximum=50),
    default=(),
    doc="Files with parts of your own, relative to the spec, in the form of the catalogue.",
)
LANGUAGES: Field[Any] = Field(
    "languages",
    MapOf(
        keys=TONGUE.kind,
        of=MapOf(
            keys=Text(maximum=200, lines=4), of=Text(maximum=200, lines=4), what="texts, each with what it is there"
        ),
        what="language tags, each with a table of texts",
    ),
    default=(),
    doc=(
        "Legends in other languages: `{de: {OUTPUT: AUSGANG}}`, each text as the spec writes it. `make --language de`"
        " writes one, `check` looks at the longest of all."
    ),
)
COUNTER_FIRST = Field("first", Integer(minimum=0, maximum=10**15), default=1, doc="The number of the first piece.")
COUNTER_STEP = Field(
    "step", Integer(minimum=1, maximum=10**6), default=1, doc="How much it goes up from piece to piece."
)
COUNTER_DIGITS = Field(
    "digits", Integer(minimum=1, maximum=18), default=1, doc="Least number of figures, filled up with 0."
)
COUNTER_CHECK = Field(
    "check",
    Choice(("none", "luhn", "mod-97"), "check digits"),
    default="none",
    doc="Check digits after the figures: `luhn` one (ISO/IEC 7812-1), `mod-97` two (ISO/IEC 7064).",
)
COUNTER_BEFORE = Field("before", Text(maximum=40), default="", doc="What stands before the figures.")
COUNTER_AFTER = Field("after", Text(maximum=40), default="", doc="What stands after them.")
COUNTER_RECORD = Record(
    "counter",
    (COUNTER_FIRST, COUNTER_STEP, COUNTER_DIGITS, COUNTER_CHECK, COUNTER_BEFORE, COUNTER_AFTER),
    doc="A number that goes up from piece to piece.",
)
COUNTER = Field("counter", COUNTER_RECORD, required=True, doc="The variable is a number that goes up.")
COUNTED_RECORD = Record("counted variable", (COUNTER,), doc="A counter.", marked_by="counter")
EXAMPLE = Field(
    "example",
    Text(maximum=200),
    required=True,
    doc="What is shown where there is no piece yet; in a run the values come from the table's column of that name.",
)
TABLED_RECORD = Record(
    "variable", (EXAMPLE,), doc="A column of the table that a run is made from.", marked_by="example"
)
VARIABLES: Field[Any] = Field(
    "variables",
    MapOf(
        keys=Text(maximum=40, pattern="[A-Za-z][A-Za-z0-9_-]*", form="a word: serial"),
        of=OneOf((COUNTED_RECORD, TABLED_RECORD)),
        what="names, each with a counter or an example",
    ),
    default=(),
    doc="What differs from piece to piece: `{serial}` in a text then stands for its value; `date` is the run's date.",
)
HOUSE = Field(
    "limits",
    Text(maximum=300),
    otherwise="the program's own limits",
    doc="A file, relative to the spec, with the limits and severities of your house, each with its reason.",
)
PANELS = Field(
    "panels",
    MapOf(
        keys=Text(maximum=40, pattern="[A-Za-z0-9][A-Za-z0-9_-]*", form="a name of letters, digits, - and _"),
        of=AnyNode(of="what a spec of one panel holds", shape=Mapping),
        what="names, each with what a spec of one panel holds",
    ),
    otherwise="one panel",
    doc=(
        "Several panels in one spec, by name, each with its own `panel`, `parts` and so on. What stands beside `panels`"
        " holds for all; within `panel` and `marking` a panel's own keys take the place of the shared ones. One of them"
        " is named as `box.yaml#rear`."
    ),
)
BOX_FRONT = Field("front", Text(maximum=40), required=True, doc="The name of the panel in front.")
BOX_REAR = Field("rear", Text(maximum=40), required=True, doc="The name of the one opposite.")
BOX_DEPTH = Field(
    "depth", Length(above=0, maximum=MAX_SIZE), required=True, doc="Between the inside faces of the two panels."
)
BOX_CLEARANCE = Field(
    "clearance", Length(minimum=0, maximum=500), default=0.0, doc="Kept between bodies that stand behind each other."
)
BOX = Field(
    "box",
    Record(
        "box",
        (BOX_FRONT, BOX_REAR, BOX_DEPTH, BOX_CLEARANCE),
        doc="Two panels that close one box, back to back, middle to middle and lower edges level.",
    ),
    otherwise="panels that have nothing to do with each other",
    doc="Which two of `panels` close one box, so that what stands behind them is held against each other.",
)
SPEC = Record(
    "spec",
    (
        LANGUAGE,
        PANEL,
        MARKING,
        OPERATOR,
        CATALOGUE,
        HOUSE,
        PARTS,
        FRAMES,
        TEXTS,
        FLOW_LINES,
        ART,
        VARIABLES,
        LANGUAGES,
        KEEPOUTS,
        MASKS,
        MAKING,
        WAIVERS,
        PANELS,
        BOX,
    ),
    doc="One panel or several. A bare number for a length is mm; a text may have a unit: 0.5 in, 20 thou, 9 pt, 2U.",
)


def json_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a spec, for editors."""
    schema = schema_of.json_schema(SPEC, "panelart spec, version 1", "urn:panelart:spec:1")
    # What a set shares need not be whole: each panel adds its own.
    part = {"type": "object"}
    spec = schema["$defs"]["spec"]
    shared = {**spec["properties"], PANEL.name: part, MARKING.name: part}
    schema["$defs"]["set"] = {**spec, "required": [LANGUAGE.name, PANELS.name], "properties": shared}
    schema["if"] = {"required": [PANELS.name]}
    schema["then"], schema["else"] = {"$ref": "#/$defs/set"}, {"$ref": schema.pop("$ref")}
    return schema


def key_reference() -> str:
    """Every key in Markdown."""
    return reference.key_reference(SPEC)
