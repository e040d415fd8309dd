"""The keys of `marking` that make it ready for its process."""

from __future__ import annotations

from typing import Final

from panelart.source.nodes import Mapping
from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import (
    Angle,
    AnyNode,
    Choice,
    Flag,
    Integer,
    Length,
    ListOf,
    Number,
    OneOf,
    Text,
    TupleOf,
)
from panelart.spec.language import kinds
from panelart.spec.language.areas import Area

_INK = Text(maximum=60)

_FILE = Text(maximum=300)

_OF_PROCESS: Final = "that of the process"


class Base(Noun):
    """White under the inks."""

    choke = key(
        Length(minimum=0, maximum=2), otherwise=_OF_PROCESS, says="How far the base is drawn in under the ink's edge."
    )
    thin = key(
        Choice(("full", "none"), "rules"),
        default="full",
        says=(
            "What lies under ink that is thinner than twice the choke and the narrowest line of base: base as"
            " wide as the ink, or none."
        ),
    )
    under = key(
        ListOf(of=_INK, what="names of inks", minimum=1, maximum=16),
        otherwise="all inks that are not themselves nearly white (L* below 90)",
        says="The inks that have base under them.",
    )


_TINT_KEY = key(Number(minimum=1, maximum=100, in_unit="%"), default=100.0, says="How much of the ink.")


class FarEnd(Noun):
    """What a gradient runs to."""

    ink = key(_INK, otherwise="the same ink", says="The ink at the far end.")
    tint = key(Number(minimum=0, maximum=100, in_unit="%"), default=100.0, says="How much of the ink.")


_BACKGROUND_INK_KEY = key(_INK, required=True, says="The ink, by name.")

_EDGE_KEY = key(
    Choice(("bleed", "short"), "ways to end"),
    otherwise="`bleed` for digital print and overlays, else `short`",
    says="Whether the colour runs past the edge of the face or stops short of it by the process's distance.",
)

_BLEED_KEY = key(Length(minimum=0, maximum=20), otherwise=_OF_PROCESS, says="How far it runs past the edge.")


class Background(Noun):
    """A ground of colour under the legends, kept off openings, threads and bare pads."""

    ink = _BACKGROUND_INK_KEY
    tint = _TINT_KEY
    to = key(NounOf(FarEnd), otherwise="the same all over", says="Makes it a gradient that runs to this.")
    run = key(
        Angle(minimum=-360, maximum=360),
        default=0.0,
        says="The way a straight gradient runs, counter-clockwise: 0 from left to right.",
    )
    round = key(Flag(), default=False, says="Lets the gradient run from the middle outwards.")
    area = key(NounOf(Area), otherwise="the whole face", says="Where the colour lies.")
    edge = _EDGE_KEY
    bleed = _BLEED_KEY


_PICTURE_BOX_KEY = key(
    TupleOf((("x", kinds.PLACE), ("y", kinds.PLACE), ("width", kinds.SIZE), ("height", kinds.SIZE))),
    required=True,
    says="The lower-left corner, from the datum, and the size.",
)


class PlacedPicture(Noun):
    """A picture of pixels under the legends."""

    MARKED_BY = "picture"

    picture = key(
        _FILE,
        required=True,
        says="A PNG file relative to the spec. What it covers by half or more is printed; the rest is left out.",
    )
    box = _PICTURE_BOX_KEY
    ink = key(_INK, otherwise="the press's own colours", says="Prints the dark parts of the picture in one ink.")
    edge = _EDGE_KEY
    bleed = _BLEED_KEY


class PlacedDrawing(Noun):
    """A drawing under the legends, in one ink, fitted into a box."""

    MARKED_BY = "drawing"

    drawing = key(_FILE, required=True, says="An SVG file of filled paths, relative to the spec.")
    box = _PICTURE_BOX_KEY
    ink = _BACKGROUND_INK_KEY
    tint = _TINT_KEY
    edge = _EDGE_KEY
    bleed = _BLEED_KEY


_EMULSION_KEY = key(
    Choice(("up", "down"), "sides"),
    otherwise="that of the shop; up at first",
    says="Which way the printed side of a film lies when it reads right; `down` is written mirrored.",
)

_HATCH_ANGLE = Angle(minimum=-180, maximum=180)

_HATCH_ANGLE_KEY = key(_HATCH_ANGLE, default=0.0, says="The direction of parallel lines.")


class Engraving(Noun):
    """How the marking is cut."""

    cutters = key(
        ListOf(of=Length(above=0, maximum=10), what="widths", minimum=1, maximum=20),
        otherwise="`cutter`, or the usual ones: 0.2, 0.25, 0.3, 0.4, 0.5, 0.8, 1",
        says="Widths of the cutters there are; each line is cut with the widest that is no wider than it.",
    )
    depth = key(Length(above=0, maximum=10), otherwise=_OF_PROCESS, says="How deep the cutter goes.")
    fill = key(
        Choice(("contour", "hatch"), "ways to fill"),
        default="contour",
        says="How shapes wider than the cutter are cleared: by offsets of their outline, or by parallel lines in it.",
    )
    overlap = key(
        Number(minimum=0, maximum=90, in_unit="%"),
        default=40.0,
        says="The share of the cutter's width by which neighbouring passes overlap.",
    )
    angle = _HATCH_ANGLE_KEY


class Laser(Noun):
    """How the marking is burnt."""

    spacing = key(Length(minimum=0.01, maximum=1), otherwise=_OF_PROCESS, says="From line to line.")
    beam = key(Length(above=0, maximum=1), otherwise=_OF_PROCESS, says="Width of the line that the beam leaves.")
    fill = key(
        Choice(("hatch", "raster"), "ways to fill"),
        default="hatch",
        says="Lines for the beam to follow, or a picture of dots at the same distance.",
    )
    angle = _HATCH_ANGLE_KEY


_MARGIN = Length(minimum=0, maximum=50)


class Overlay(Noun):
    """The printed film that is stuck on the face."""

    inset = key(_MARGIN, otherwise=_OF_PROCESS, says="How far the film's edge lies inside the panel's.")
    corner = key(Length(above=0, maximum=200), otherwise=_OF_PROCESS, says="Radius of the film's corners.")
    nut_margin = key(
        _MARGIN,
        otherwise=_OF_PROCESS,
        says="Bare metal between a window and what turns on the face: nuts, screw heads, rings.",
    )
    window_margin = key(_MARGIN, otherwise=_OF_PROCESS, says="How much larger all round a window is than an opening.")
    adhesive_margin = key(_MARGIN, otherwise=_OF_PROCESS, says="How far the adhesive stops short of edge and windows.")
    adhesive_free = key(
        ListOf(of=NounOf(Area), what="areas", maximum=200),
        default=(),
        says="Areas without adhesive: over displays, lamps, keys.",
    )
    film = key(
        Text(maximum=7, pattern="clear|#[0-9A-Fa-f]{6}", form="clear or a colour #RRGGBB"),
        default="clear",
        says="The colour of the film.",
    )
    reverse = key(Flag(), default=False, says="Prints the film on its back: the print is seen through it.")


class Output(Noun):
    """The printing condition that colours are meant for."""

    profile = key(_FILE, required=True, says="An ICC profile of a printer (class prtr), relative to the file.")
    condition = key(Text(maximum=120), required=True, says="The name of the printing condition.")


_OUTPUT_KEY = key(
    NounOf(Output),
    otherwise="that of the shop; none at first",
    says="Makes the print file PDF/X-4, which needs the profile of a printing condition.",
)


class MadeReady(Noun):
    """What `marking` holds besides inks and lettering."""

    shop = key(
        _FILE,
        otherwise="common practice",
        says=(
            "A file with the figures of the shop that does the marking, relative to the spec; `panelart shop`"
            " prints one."
        ),
    )
    base = key(
        OneOf((Flag(), NounOf(Base))),
        otherwise="true for prints on a dark face (L* below 50)",
        says="White laid under the inks, so that they do not take on the colour of the coat. For prints only.",
    )
    varnish = key(
        Choice(("face", "inks", "none"), "places"),
        default="none",
        says="Clear varnish on a plate of its own: over all of the face that ink may reach, or over the inks.",
    )
    trap = key(
        Length(minimum=0, maximum=2),
        otherwise=_OF_PROCESS,
        says="How far the lighter of two inks that touch spreads under the darker.",
    )
    backgrounds = key(
        ListOf(
            of=OneOf((NounOf(PlacedPicture), NounOf(PlacedDrawing), NounOf(Background))), what="backgrounds", maximum=50
        ),
        default=(),
        says="Grounds of colour, pictures and drawings under the legends, the lowest first. For prints only.",
    )
    emulsion = _EMULSION_KEY
    engraving = key(NounOf(Engraving), otherwise="the defaults below", says="How it is cut. For engraving.")
    laser = key(NounOf(Laser), otherwise="the defaults below", says="How it is burnt. For laser-marking.")
    overlay = key(NounOf(Overlay), otherwise="the defaults below", says="The film. For overlays.")
    output = _OUTPUT_KEY


class AFigure(Noun):
    """What the shop holds in place of a figure of the process."""

    NAME = "a figure"

    value = key(Number(minimum=0, maximum=1000), required=True, says="The shop's figure, in the unit of ours.")
    why = key(Text(maximum=500, prose=True), required=True, says="Where it comes from: a strip, a date, a press.")


_PLATE = Text(maximum=60)


class Plates(Noun):
    """What the shop's printer calls the plates that are no ink."""

    base = key(_PLATE, default="base", says="The plate of the base.")
    varnish = key(_PLATE, default="varnish", says="The plate of the varnish.")
    cut = key(_PLATE, default="cut", says="The plate of lines that are not printed.")


class ShopFile(Noun):
    """What one shop holds, measured there; it goes before common practice in every panel that names it."""

    panelart_shop = key(
        Integer(minimum=1, maximum=1), name="panelart-shop", required=True, says="The version of this form: 1."
    )
    shop = key(Text(maximum=120), required=True, says="The shop, as files and sheets name it.")
    limits = key(
        AnyNode(of="figures by process and name", shape=Mapping),
        says="The shop's figures by process: `digital-print: {line_minimum: {value: 0.2, why: our strip of March}}`.",
    )
    plates = key(NounOf(Plates), otherwise="base, varnish, cut", says="Names of plates that are no ink.")
    emulsion = _EMULSION_KEY
    output = _OUTPUT_KEY
