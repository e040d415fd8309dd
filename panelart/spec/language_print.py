"""The keys of `marking` that make it ready for its process: part of the spec language, in tables of their own."""

from __future__ import annotations

from typing import Any, Final

from panelart.source.nodes import Mapping
from panelart.source.schema import (
    Angle,
    AnyNode,
    Choice,
    Field,
    Flag,
    Integer,
    Kind,
    Later,
    Length,
    ListOf,
    Number,
    OneOf,
    Record,
    Text,
    TupleOf,
)

_PLACE = Length(minimum=-5000, maximum=5000)
_SIZE = Length(above=0, maximum=5000)
_INK = Text(maximum=60)
_FILE = Text(maximum=300)
_OF_PROCESS: Final = "that of the process"


def _area_record() -> Record:
    from panelart.spec.language import AREA_RECORD  # those tables hold these

    return AREA_RECORD


_AREA: Kind[Any] = Later(_area_record)


SHOP = Field(
    "shop",
    _FILE,
    otherwise="common practice",
    doc="A file with the figures of the shop that does the marking, relative to the spec; `panelart shop-file` prints"
    " one.",
)

# --- base, varnish, trap

CHOKE = Field(
    "choke",
    Length(minimum=0, maximum=2),
    otherwise=_OF_PROCESS,
    doc="How far the base is drawn in under the ink's edge.",
)
THIN = Field(
    "thin",
    Choice(("full", "none"), "rules"),
    default="full",
    doc=(
        "What lies under ink that is thinner than twice the choke and the narrowest line of base: base as wide as the"
        " ink, or none."
    ),
)
UNDER = Field(
    "under",
    ListOf(of=_INK, what="names of inks", minimum=1, maximum=16),
    otherwise="all inks that are not themselves nearly white (L* below 90)",
    doc="The inks that have base under them.",
)
BASE_RECORD = Record("base", (CHOKE, THIN, UNDER), doc="White under the inks.")
BASE: Field[Any] = Field(
    "base",
    OneOf((Flag(), BASE_RECORD)),
    otherwise="true for prints on a dark face (L* below 50)",
    doc="White laid under the inks, so that they do not take on the colour of the coat. For prints only.",
)
VARNISH = Field(
    "varnish",
    Choice(("face", "inks", "none"), "places"),
    default="none",
    doc="Clear varnish on a plate of its own: over all of the face that ink may reach, or over the inks.",
)
TRAP = Field(
    "trap",
    Length(minimum=0, maximum=2),
    otherwise=_OF_PROCESS,
    doc="How far the lighter of two inks that touch spreads under the darker.",
)

# --- backgrounds

TINT = Field("tint", Number(minimum=1, maximum=100, in_unit="%"), default=100.0, doc="How much of the ink.")
LAST_TINT = Field("tint", Number(minimum=0, maximum=100, in_unit="%"), default=100.0, doc="How much of the ink.")
LAST_INK = Field("ink", _INK, otherwise="the same ink", doc="The ink at the far end.")
LAST_RECORD = Record("far end", (LAST_INK, LAST_TINT), doc="What a gradient runs to.")
RUNS_TO = Field("to", LAST_RECORD, otherwise="the same all over", doc="Makes it a gradient that runs to this.")
RUN: Field[Any] = Field(
    "run",
    Angle(minimum=-360, maximum=360),
    default=0.0,
    doc="The way a straight gradient runs, counter-clockwise: 0 from left to right.",
)
ROUND = Field("round", Flag(), default=False, doc="Lets the gradient run from the middle outwards.")
BACKGROUND_INK = Field("ink", _INK, required=True, doc="The ink, by name.")
BACKGROUND_AREA: Field[Any] = Field("area", _AREA, otherwise="the whole face", doc="Where the colour lies.")
EDGE = Field(
    "edge",
    Choice(("bleed", "short"), "ways to end"),
    otherwise="`bleed` for digital print and overlays, else `short`",
    doc="Whether the colour runs past the edge of the face or stops short of it by the process's distance.",
)
BLEED = Field("bleed", Length(minimum=0, maximum=20), otherwise=_OF_PROCESS, doc="How far it runs past the edge.")
COLOUR_RECORD = Record(
    "background",
    (BACKGROUND_INK, TINT, RUNS_TO, RUN, ROUND, BACKGROUND_AREA, EDGE, BLEED),
    doc="A ground of colour under the legends, kept off openings, threads and bare pads.",
)
PICTURE_BOX = Field(
    "box",
    TupleOf((("x", _PLACE), ("y", _PLACE), ("width", _SIZE), ("height", _SIZE))),
    required=True,
    doc="The lower-left corner, from the datum, and the size.",
)
PICTURE = Field(
    "picture",
    _FILE,
    required=True,
    doc="A PNG file relative to the spec. What it covers by half or more is printed; the rest is left out.",
)
PICTURE_INK = Field(
    "ink", _INK, otherwise="the press's own colours", doc="Prints the dark parts of the picture in one ink."
)
PICTURE_RECORD = Record(
    "placed picture",
    (PICTURE, PICTURE_BOX, PICTURE_INK, EDGE, BLEED),
    doc="A picture of pixels under the legends.",
    marked_by="picture",
)
DRAWING = Field("drawing", _FILE, required=True, doc="An SVG file of filled paths, relative to the spec.")
DRAWING_RECORD = Record(
    "placed drawing",
    (DRAWING, PICTURE_BOX, BACKGROUND_INK, TINT, EDGE, BLEED),
    doc="A drawing under the legends, in one ink, fitted into a box.",
    marked_by="drawing",
)
BACKGROUNDS: Field[Any] = Field(
    "backgrounds",
    ListOf(of=OneOf((PICTURE_RECORD, DRAWING_RECORD, COLOUR_RECORD)), what="backgrounds", maximum=50),
    default=(),
    doc="Grounds of colour, pictures and drawings under the legends, the lowest first. For prints only.",
)

# --- films, cutters, beams

EMULSION = Field(
    "emulsion",
    Choice(("up", "down"), "sides"),
    otherwise="that of the shop; up at first",
    doc="Which way the printed side of a film lies when it reads right; `down` is written mirrored.",
)
DEPTH = Field("depth", Length(above=0, maximum=10), otherwise=_OF_PROCESS, doc="How deep the cutter goes.")
CUTTERS = Field(
    "cutters",
    ListOf(of=Length(above=0, maximum=10), what="widths", minimum=1, maximum=20),
    otherwise="`cutter`, or the usual ones: 0.2, 0.25, 0.3, 0.4, 0.5, 0.8, 1",
    doc="Widths of the cutters there are; each line is cut with the widest that is no wider than it.",
)
_HATCH_ANGLE = Angle(minimum=-180, maximum=180)
ENGRAVED_FILL = Field(
    "fill",
    Choice(("contour", "hatch"), "ways to fill"),
    default="contour",
    doc="How shapes wider than the cutter are cleared: by offsets of their outline, or by parallel lines in it.",
)
OVERLAP = Field(
    "overlap",
    Number(minimum=0, maximum=90, in_unit="%"),
    default=40.0,
    doc="The share of the cutter's width by which neighbouring passes overlap.",
)
HATCH_ANGLE = Field("angle", _HATCH_ANGLE, default=0.0, doc="The direction of parallel lines.")
ENGRAVING_RECORD = Record(
    "engraving", (CUTTERS, DEPTH, ENGRAVED_FILL, OVERLAP, HATCH_ANGLE), doc="How the marking is cut."
)
ENGRAVING = Field("engraving", ENGRAVING_RECORD, otherwise="the defaults below", doc="How it is cut. For engraving.")
SPACING = Field("spacing", Length(minimum=0.01, maximum=1), otherwise=_OF_PROCESS, doc="From line to line.")
BEAM = Field("beam", Length(above=0, maximum=1), otherwise=_OF_PROCESS, doc="Width of the line that the beam leaves.")
LASER_FILL = Field(
    "fill",
    Choice(("hatch", "raster"), "ways to fill"),
    default="hatch",
    doc="Lines for the beam to follow, or a picture of dots at the same distance.",
)
LASER_RECORD = Record("laser", (SPACING, BEAM, LASER_FILL, HATCH_ANGLE), doc="How the marking is burnt.")
LASER = Field("laser", LASER_RECORD, otherwise="the defaults below", doc="How it is burnt. For laser-marking.")

# --- the label film

_MARGIN = Length(minimum=0, maximum=50)
FILM_INSET = Field("inset", _MARGIN, otherwise=_OF_PROCESS, doc="How far the film's edge lies inside the panel's.")
FILM_CORNER = Field("corner", Length(above=0, maximum=200), otherwise=_OF_PROCESS, doc="Radius of the film's corners.")
NUT_MARGIN = Field(
    "nut_margin",
    _MARGIN,
    otherwise=_OF_PROCESS,
    doc="Bare metal between a window and what turns on the face: nuts, screw heads, rings.",
)
WINDOW_MARGIN = Field(
    "window_margin", _MARGIN, otherwise=_OF_PROCESS, doc="How much larger all round a window is than an opening."
)
ADHESIVE_MARGIN = Field(
    "adhesive_margin", _MARGIN, otherwise=_OF_PROCESS, doc="How far the adhesive stops short of edge and windows."
)
ADHESIVE_FREE: Field[Any] = Field(
    "adhesive_free",
    ListOf(of=_AREA, what="areas", maximum=200),
    default=(),
    doc="Areas without adhesive: over displays, lamps, keys.",
)
FILM_COLOUR: Field[Any] = Field(
    "film",
    Text(maximum=7, pattern="clear|#[0-9A-Fa-f]{6}", form="clear or a colour #RRGGBB"),
    default="clear",
    doc="The colour of the film.",
)
REVERSE = Field("reverse", Flag(), default=False, doc="Prints the film on its back: the print is seen through it.")
OVERLAY_RECORD = Record(
    "overlay",
    (FILM_INSET, FILM_CORNER, NUT_MARGIN, WINDOW_MARGIN, ADHESIVE_MARGIN, ADHESIVE_FREE, FILM_COLOUR, REVERSE),
    doc="The printed film that is stuck on the face.",
)
OVERLAY = Field("overlay", OVERLAY_RECORD, otherwise="the defaults below", doc="The film. For overlays.")

# --- what the colours are meant for

PROFILE = Field("profile", _FILE, required=True, doc="An ICC profile of a printer (class prtr), relative to the file.")
CONDITION = Field("condition", Text(maximum=120), required=True, doc="The name of the printing condition.")
OUTPUT_RECORD = Record("output", (PROFILE, CONDITION), doc="The printing condition that colours are meant for.")
OUTPUT = Field(
    "output",
    OUTPUT_RECORD,
    otherwise="that of the shop; none at first",
    doc="Makes the print file PDF/X-4, which needs the profile of a printing condition.",
)

PRINT_FIELDS: Final[tuple[Field[Any], ...]] = (
    SHOP,
    BASE,
    VARNISH,
    TRAP,
    BACKGROUNDS,
    EMULSION,
    ENGRAVING,
    LASER,
    OVERLAY,
    OUTPUT,
)
"""What `marking` holds besides inks and lettering."""

# --- the shop's file

OWN_VALUE = Field(
    "value", Number(minimum=0, maximum=1000), required=True, doc="The shop's figure, in the unit of ours."
)
OWN_WHY = Field(
    "why", Text(maximum=500, prose=True), required=True, doc="Where it comes from: a strip, a date, a press."
)
OWN_FIGURE = Record("a figure", (OWN_VALUE, OWN_WHY))

SHOP_VERSION = Field("panelart-shop", Integer(minimum=1, maximum=1), required=True, doc="The version of this form: 1.")
SHOP_NAME = Field("shop", Text(maximum=120), required=True, doc="The shop, as files and sheets name it.")
SHOP_LIMITS = Field(
    "limits",
    AnyNode(of="figures by process and name", shape=Mapping),
    doc="The shop's figures by process: `digital-print: {line_minimum: {value: 0.2, why: our strip of March}}`.",
)
_PLATE = Text(maximum=60)
PLATE_BASE = Field("base", _PLATE, default="base", doc="The plate of the base.")
PLATE_VARNISH = Field("varnish", _PLATE, default="varnish", doc="The plate of the varnish.")
PLATE_CUT = Field("cut", _PLATE, default="cut", doc="The plate of lines that are not printed.")
PLATES_RECORD = Record(
    "plates", (PLATE_BASE, PLATE_VARNISH, PLATE_CUT), doc="What the shop's printer calls the plates that are no ink."
)
SHOP_PLATES = Field("plates", PLATES_RECORD, otherwise="base, varnish, cut", doc="Names of plates that are no ink.")
SHOP_RECORD = Record(
    "shop file",
    (SHOP_VERSION, SHOP_NAME, SHOP_LIMITS, SHOP_PLATES, EMULSION, OUTPUT),
    doc="What one shop holds, measured there; it goes before common practice in every panel that names it.",
)
