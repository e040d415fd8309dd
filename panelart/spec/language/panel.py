"""The face: its size, sheet and coat."""

from __future__ import annotations

from typing import Final

from panelart.messages import spec as said
from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Choice, Colour, Integer, Length, ListOf, Number, OneOf, Text, pair
from panelart.spec.language import kinds
from panelart.spec.language.bending import Bending, Flanges
from panelart.spec.language.kinds import MAX_SIZE

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

CORNERS: Final = ("lower-left", "lower-right", "upper-left", "upper-right", "centre", "drawing")
"""Places for the datum that have a name; `drawing` is the origin of the drawing that the outline comes from."""

COAT_KINDS: Final = ("powder", "wet-paint", "anodise", "zinc", "conversion", "none")

ANODIC_GROWTH: Final = 0.5
"""The share of an anodic coat that is above the old surface (an anodiser's technical note, for both types)."""

BARE_COLOUR: Final = "#C4C7C9"
"""How a face without a coloured coat is shown: a light metallic grey."""


class RackSize(Noun):
    """Size of a front panel for 19-inch racks."""

    MARKED_BY = "rack"

    rack = key(
        Integer(minimum=1, maximum=50),
        required=True,
        says="Height in rack units (U); the face is 482.6 mm wide and N x 44.45 - 0.79 mm high (IEC 60297-3-100).",
    )


class SubrackSize(Noun):
    """Size of the front panel of a plug-in module for a subrack."""

    MARKED_BY = "subrack"

    subrack = key(
        Choice(("3", "6"), "heights in U"),
        required=True,
        says="Height in rack units (U): 3U is 128.55 mm, 6U is 261.9 mm (IEC 60297-3-101).",
    )
    hp = key(
        Integer(minimum=2, maximum=84),
        required=True,
        says="Width in horizontal pitches (HP): N x 5.08 - 0.3 mm (IEC 60297-3-101).",
    )


_DRAWING = Text(maximum=200, form="a file name relative to the spec")

_LAYER = Text(maximum=255)


class Outline(Noun):
    """Face of any shape from a DXF or SVG file, drawn at finished size: one closed outline.

    Curves other than lines and arcs become arcs within 0.005 mm.
    """

    dxf = key(_DRAWING, says="DXF file with lines, arcs, circles, polylines, ellipses and splines.")
    svg = key(_DRAWING, says="SVG file with paths and basic shapes; fill and stroke are ignored.")
    layer = key(
        OneOf((_LAYER, ListOf(of=_LAYER, what="layers", minimum=1, maximum=50))),
        otherwise="the whole drawing",
        says="DXF layer, or id of an SVG group, to read; a list for several.",
    )
    unit = key(
        Choice(("mm", "cm", "m", "in", "thou"), "units"),
        otherwise="as stated in the file: $INSUNITS of a DXF, width and viewBox of an SVG",
        says="Unit of the drawing. Required if the file states no unit; must not contradict the file.",
    )
    holes = key(
        Choice(("openings", "keep-outs", "ignored"), "uses of holes"),
        otherwise="required if the drawing has holes",
        says=(
            "Use of closed lines inside the outline: `openings` are cut at their finished size, `keep-outs` are "
            "kept free on both faces, `ignored` lines have no effect."
        ),
    )
    refs = key(
        Text(maximum=20),
        default="H",
        says="Prefix of the refs of openings from the drawing; they are numbered row by row from the top left.",
    )
    turn = key(kinds.TURN, default=0.0, says="Rotation of the drawing in degrees, counter-clockwise.")
    seen_from = key(
        Choice(("front", "rear"), "sides"),
        default="front",
        says="Side that the drawing shows; a drawing from the rear is mirrored before it is rotated.",
    )


class Sheet(Noun):
    """Material and thickness of the sheet."""

    material = key(Text(maximum=80), required=True, says="Material of the sheet.")
    thickness = key(
        Length(above=0, maximum=50), otherwise="required unless `gauge` is given", says="Thickness of the bare sheet."
    )
    gauge = key(
        Integer(minimum=1, maximum=40),
        otherwise="required unless `thickness` is given",
        says=(
            "Sheet gauge, in place of `thickness`; known for steel, galvanised steel, stainless steel and aluminium."
        ),
    )


_THICKNESS = Length(minimum=0, maximum=2)


class ThicknessRange(Noun):
    """Range of the coat thickness; cut sizes are calculated for the middle of the range."""

    NAME = "thickness range"

    minimum = key(_THICKNESS, required=True, says="Minimum coat thickness.")
    maximum = key(_THICKNESS, required=True, says="Maximum coat thickness.")


class Coat(Noun):
    """Finish on the surfaces."""

    ELSEWHERE = (("film", said.key_is_thickness()),)

    kind = key(Choice(COAT_KINDS, "kinds of coat"), required=True, says="Kind of finish.")
    thickness = key(
        OneOf((_THICKNESS, NounOf(ThicknessRange))),
        otherwise="0 for `none` and `conversion`; required for other kinds",
        says=(
            "Coat thickness on one surface, or its range `{minimum, maximum}`. Each hole becomes smaller by twice "
            "the thickness above the original metal surface. Fits are checked at both ends of a range."
        ),
    )
    growth = key(
        Number(minimum=0, maximum=1),
        otherwise="0.5 for `anodise`, else 1",
        says=(
            "Share of the coat thickness above the original metal surface; an anodic coat grows partly into the metal."
        ),
    )
    faces = key(
        Choice(("both", "front"), "faces"),
        default="both",
        says="Faces that are coated; the walls of openings are always coated.",
    )
    allowance = key(
        Choice(("drawing", "shop", "none"), "allowances"),
        default="drawing",
        says=(
            "Who allows for the coat thickness. `drawing` writes cut sizes that become the finished sizes after "
            "coating. `shop` writes finished sizes for a shop that makes the allowance itself. `none` cuts the sizes "
            "as given, and the coat makes the openings smaller."
        ),
    )
    colour = key(Colour(), default=BARE_COLOUR, says="Colour of the face on screen and on the proof.")
    name = key(Text(), default="", says="Name of the coat for the coater: shade, gloss, texture.")


class Panel(Noun):
    """Face at its finished size, seen from the front: a rectangle, or an outline from a drawing."""

    title = key(kinds.LINE, required=True, says="Name of the panel for the title block.")
    number = key(Text(maximum=80), default="", says="Drawing or part number of the panel.")
    revision = key(Text(maximum=20), default="", says="Revision of the panel.")
    revised = key(
        Text(maximum=10, pattern="[0-9]{4}-[0-9]{2}-[0-9]{2}", form="a date of the form YYYY-MM-DD"),
        otherwise="no date",
        says="Date of the revision; PDF files have it as their date, where `--date` gives none.",
    )
    size = key(
        OneOf((pair(kinds.SIZE, "width", "height"), NounOf(RackSize), NounOf(SubrackSize))),
        otherwise="required unless `outline` is given",
        says=(
            "Width and height of the finished face, or `{rack: N}`, or `{subrack: 3, hp: N}`. Behind the panel of "
            "a rack or subrack the area of the rails is kept free."
        ),
    )
    outline = key(
        NounOf(Outline), otherwise="required unless `size` is given", says="Outline of the face from a drawing."
    )
    corner = key(Length(minimum=0, maximum=MAX_SIZE), default=0.0, says="Radius of the four corners of the face.")
    sheet = key(NounOf(Sheet), required=True, says="Sheet that the panel is cut from.")
    coat = key(NounOf(Coat), otherwise="bare sheet", says="Finish on the sheet.")
    flanges = key(NounOf(Flanges), otherwise="a flat panel", says="Edges that are bent back.")
    bending = key(NounOf(Bending), otherwise="the K-factor of DIN 6935", says="Bending data of the shop.")
    datum = key(
        OneOf((Choice(CORNERS, "positions"), kinds.POSITION)),
        default="lower-left",
        says=(
            "Origin of positions, x to the right and y up, seen from the front: a corner, the centre, or a point "
            "measured from the lower-left corner. For an outline from a drawing, corners and centre are those of "
            "its bounding box; `drawing` is the origin of the drawing."
        ),
    )
    depth_behind = key(
        Length(above=0, maximum=MAX_SIZE),
        otherwise="not checked",
        says="Free depth behind the face; bodies must not be deeper.",
    )
    depth_in_front = key(
        Length(above=0, maximum=MAX_SIZE),
        otherwise="not checked",
        says=(
            "Free depth in front of the face, to a door, a lid or a wall; parts, knobs, mating plugs and the bend of "
            "their cables must not be higher."
        ),
    )
