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
    MapOf,
    Number,
    OneOf,
    Text,
    TupleOf,
)
from panelart.spec.language import kinds
from panelart.spec.language.areas import Area

_INK = Text(maximum=60)

_FILE = Text(maximum=300)

_OF_PROCESS: Final = "as given for the process"


class Base(Noun):
    """White base under the inks."""

    choke = key(
        Length(minimum=0, maximum=2),
        otherwise=_OF_PROCESS,
        says="Distance by which the base is smaller than the ink at each edge.",
    )
    thin = key(
        Choice(("full", "none"), "bases"),
        default="full",
        says=(
            "Base under ink that is thinner than twice the choke plus the minimum base line: as wide as the ink, "
            "or none."
        ),
    )
    under = key(
        ListOf(of=_INK, what="names of inks", minimum=1, maximum=16),
        otherwise="all inks that are not nearly white (L* below 90)",
        says="Inks that have base under them.",
    )


_TINT_KEY = key(Number(minimum=1, maximum=100, in_unit="%"), default=100.0, says="Tint of the ink.")


class FarEnd(Noun):
    """Far end of a gradient."""

    NAME = "end of the gradient"

    ink = key(_INK, otherwise="the same ink", says="Ink at the far end.")
    tint = key(Number(minimum=0, maximum=100, in_unit="%"), default=100.0, says="Tint of the ink.")


_BACKGROUND_INK_KEY = key(_INK, required=True, says="Ink, by name.")

_EDGE_KEY = key(
    Choice(("bleed", "short"), "edges"),
    otherwise="`bleed` for digital print and overlays, else `short`",
    says=(
        "Whether the colour bleeds past the edge of the face, or stops short of it by the edge margin of the process."
    ),
)

_BLEED_KEY = key(Length(minimum=0, maximum=20), otherwise=_OF_PROCESS, says="Bleed past the edge.")


class Background(Noun):
    """Area of colour under the legends, kept off openings, threads and bare pads."""

    ink = _BACKGROUND_INK_KEY
    tint = _TINT_KEY
    to = key(NounOf(FarEnd), otherwise="no gradient", says="Far end of a gradient.")
    run = key(
        Angle(minimum=-360, maximum=360),
        default=0.0,
        says="Direction of a straight gradient, counter-clockwise; 0 runs from left to right.",
    )
    round = key(Flag(), default=False, says="Whether the gradient runs from the middle outwards.")
    area = key(NounOf(Area), otherwise="the whole face", says="Area of the colour.")
    edge = _EDGE_KEY
    bleed = _BLEED_KEY


_PICTURE_BOX_KEY = key(
    TupleOf((("x", kinds.PLACE), ("y", kinds.PLACE), ("width", kinds.SIZE), ("height", kinds.SIZE))),
    required=True,
    says="Lower-left corner, from the datum, and size.",
)


class PlacedPicture(Noun):
    """Picture under the legends."""

    MARKED_BY = "picture"

    picture = key(
        _FILE,
        required=True,
        says="PNG file relative to the spec. Only pixels with an opacity of half or more are printed.",
    )
    box = _PICTURE_BOX_KEY
    ink = key(
        _INK,
        otherwise="the process colours of the press",
        says="Ink in which the dark parts of the picture are printed.",
    )
    edge = _EDGE_KEY
    bleed = _BLEED_KEY


class PlacedDrawing(Noun):
    """Drawing under the legends, in one ink, fitted into a box."""

    MARKED_BY = "drawing"

    drawing = key(_FILE, required=True, says="SVG file of filled paths, relative to the spec.")
    box = _PICTURE_BOX_KEY
    ink = _BACKGROUND_INK_KEY
    tint = _TINT_KEY
    edge = _EDGE_KEY
    bleed = _BLEED_KEY


_EMULSION_KEY = key(
    Choice(("up", "down"), "sides"),
    otherwise="as in the shop file; by default up for screens, down for clichés",
    says="Emulsion side of a film positive when it reads right; `down` is written mirrored.",
)

_HATCH_ANGLE = Angle(minimum=-180, maximum=180)

_HATCH_ANGLE_KEY = key(_HATCH_ANGLE, default=0.0, says="Direction of parallel lines.")


class Engraving(Noun):
    """Settings of the engraving."""

    cutters = key(
        ListOf(of=Length(above=0, maximum=10), what="widths", minimum=1, maximum=20),
        otherwise="`cutter`, or the usual widths: 0.2, 0.25, 0.3, 0.4, 0.5, 0.8, 1",
        says="Widths of the available cutters; each line is cut with the widest cutter that fits the line.",
    )
    depth = key(Length(above=0, maximum=10), otherwise=_OF_PROCESS, says="Depth of the engraving.")
    fill = key(
        Choice(("contour", "hatch"), "fills"),
        default="contour",
        says="How shapes wider than the cutter are cleared: by offsets of their outline, or by parallel lines.",
    )
    overlap = key(
        Number(minimum=0, maximum=90, in_unit="%"),
        default=40.0,
        says="Overlap of neighbouring passes, as a share of the cutter's width.",
    )
    angle = _HATCH_ANGLE_KEY


class Laser(Noun):
    """Settings of the laser."""

    spacing = key(Length(minimum=0.01, maximum=1), otherwise=_OF_PROCESS, says="Distance from line to line.")
    beam = key(Length(above=0, maximum=1), otherwise=_OF_PROCESS, says="Width of a line burnt by the beam.")
    fill = key(
        Choice(("hatch", "raster"), "fills"),
        default="hatch",
        says="Lines that the beam follows, or a raster of dots at the same spacing.",
    )
    angle = _HATCH_ANGLE_KEY


_MARGIN = Length(minimum=0, maximum=50)


class Overlay(Noun):
    """Printed label film on the face."""

    inset = key(
        _MARGIN, otherwise=_OF_PROCESS, says="Distance from the edge of the panel to the edge of the label film."
    )
    corner = key(Length(above=0, maximum=200), otherwise=_OF_PROCESS, says="Radius of the corners of the label film.")
    nut_margin = key(
        _MARGIN,
        otherwise=_OF_PROCESS,
        says="Margin between a window and parts that are turned on the face: nuts, screw heads, rings.",
    )
    window_margin = key(_MARGIN, otherwise=_OF_PROCESS, says="Margin of a window all round an opening.")
    adhesive_margin = key(
        _MARGIN, otherwise=_OF_PROCESS, says="Margin without adhesive along the edge and round windows."
    )
    adhesive_free = key(
        ListOf(of=NounOf(Area), what="areas", maximum=200),
        default=(),
        says="Areas without adhesive: over displays, lamps, keys.",
    )
    colour = key(
        Text(maximum=7, pattern="clear|#[0-9A-Fa-f]{6}", form="clear or a colour #RRGGBB"),
        default="clear",
        says="Colour of the label film.",
    )
    reverse = key(
        Flag(),
        default=False,
        says="Whether the label film is printed on its back, so that the print is seen through it.",
    )


class Output(Noun):
    """Printing condition of the colours."""

    profile = key(_FILE, required=True, says="ICC profile of a printer (class prtr), relative to the file.")
    condition = key(Text(maximum=120), required=True, says="Name of the printing condition.")


_OUTPUT_KEY = key(
    NounOf(Output),
    otherwise="as in the shop file; none by default",
    says="Makes the print file PDF/X-4, which needs the profile of a printing condition.",
)


class MadeReady(Noun):
    """What `marking` holds besides inks and lettering."""

    shop = key(
        _FILE,
        otherwise="common practice",
        says=(
            "Shop file with the figures of the shop that does the marking, relative to the spec; `panelart shop-file` "
            "prints one."
        ),
    )
    base = key(
        OneOf((Flag(), NounOf(Base))),
        otherwise="true for prints on a dark face (L* below 50)",
        says="White base under the inks, so that they do not take on the colour of the coat. For prints only.",
    )
    varnish = key(
        Choice(("face", "inks", "none"), "varnishes"),
        default="none",
        says="Clear varnish on a separate plate: over the whole printable face, or over the inks.",
    )
    trap = key(
        Length(minimum=0, maximum=2),
        otherwise=_OF_PROCESS,
        says="Overlap by which the lighter of two adjoining inks extends under the darker.",
    )
    backgrounds = key(
        ListOf(
            of=OneOf((NounOf(PlacedPicture), NounOf(PlacedDrawing), NounOf(Background))), what="backgrounds", maximum=50
        ),
        default=(),
        says="Areas of colour, pictures and drawings under the legends, the lowest first. For prints only.",
    )
    emulsion = _EMULSION_KEY
    engraving = key(
        NounOf(Engraving), otherwise="the defaults below", says="Settings of the engraving. For engraving only."
    )
    laser = key(NounOf(Laser), otherwise="the defaults below", says="Settings of the laser. For laser-marking only.")
    overlay = key(
        NounOf(Overlay), otherwise="the defaults below", says="Settings of the label film. For overlays only."
    )
    output = _OUTPUT_KEY


class AFigure(Noun):
    """What the shop holds in place of a figure of the process."""

    NAME = "figure"

    value = key(
        Number(minimum=0, maximum=1000), required=True, says="The shop's figure, in the unit of the built-in figure."
    )
    why = key(Text(maximum=500, prose=True), required=True, says="Origin of the figure: a test strip, a date, a press.")


_PLATE = Text(maximum=60)


class Plates(Noun):
    """Names of the plates that are not inks, as used by the shop's printer."""

    base = key(_PLATE, default="base", says="Name of the plate of the base.")
    varnish = key(_PLATE, default="varnish", says="Name of the plate of the varnish.")
    cut = key(_PLATE, default="cut", says="Name of the plate of lines that are not printed.")


class LayerOfMachine(Noun):
    """What the machine takes on one layer; what is not said is as in every file."""

    NAME = "layer"

    name = key(Text(maximum=60), otherwise="the layer's own name", says="Name of the layer in the file.")
    colour = key(Integer(minimum=1, maximum=255), otherwise="as in every file", says="Colour number of DXF, 1 to 255.")
    line = key(
        Choice(("continuous", "dashed", "dash-dot", "dotted"), "line types"),
        otherwise="as in every file",
        says="Line type.",
    )
    write = key(Flag(), default=True, says="Whether the layer is written; `outline` and `cutouts` always are.")


class Machine(Noun):
    """What the machine that takes the DXF files expects."""

    name = key(Text(maximum=120), otherwise="the shop's name", says="Name of the machine.")
    layers = key(
        MapOf(keys=Text(maximum=60), of=NounOf(LayerOfMachine), what="layers, each with its settings"),
        otherwise="as in every file",
        says="Layers that the machine takes differently, by their names in every file.",
    )
    notes = key(Flag(), default=False, says="Whether notes are written.")
    text = key(
        Choice(("strokes", "text"), "forms"),
        default="strokes",
        says="How notes are written: as lines, or as text that the machine's program sets.",
    )
    unit = key(Choice(("mm", "in"), "units"), default="mm", says="Unit of the figures in the file.")
    origin = key(
        Choice(("panel", "datum", "corner", "middle"), "origins"),
        default="panel",
        says=(
            "Point that is (0, 0) in the file: the panel's own (its finished lower-left corner; with `datum: drawing` "
            "the origin of the drawing), the datum of the spec, the lower-left corner or the middle of what is cut."
        ),
    )
    files = key(
        Choice(("one", "layers"), "divisions"),
        default="one",
        says="Whether a cut file is one file, or one for each layer: `cutouts.outline.dxf`.",
    )


class Pins(Noun):
    """Register pins of the table on which films are laid and frames are set; each film has two holes for them."""

    diameter = key(Length(minimum=2, maximum=20), required=True, says="Diameter of the pins.")
    apart = key(Length(minimum=20, maximum=2000), required=True, says="Distance of the two pins, centre to centre.")


class ShopFile(Noun):
    """Figures measured at one shop; they replace common practice in every panel that names the file."""

    panelart_shop = key(
        Integer(minimum=1, maximum=1), name="panelart-shop", required=True, says="Version of this form: 1."
    )
    shop = key(Text(maximum=120), required=True, says="Name of the shop in files and on sheets.")
    limits = key(
        AnyNode(of="figures by process and name", shape=Mapping),
        says="Figures of the shop by process: `digital-print: {line_minimum: {value: 0.2, why: our strip of March}}`.",
    )
    plates = key(NounOf(Plates), otherwise="base, varnish, cut", says="Names of the plates that are not inks.")
    emulsion = _EMULSION_KEY
    pins = key(
        NounOf(Pins), otherwise="none", says="Register pins: film positives have their punch holes below the panel."
    )
    head_clearance = key(
        Length(minimum=0, maximum=500),
        otherwise="unknown",
        says="Distance from the face to the lowest part of the machine's head; `bed` compares parts with it.",
    )
    output = _OUTPUT_KEY
    machine = key(NounOf(Machine), otherwise="as in every file", says="What the machine that cuts expects.")
