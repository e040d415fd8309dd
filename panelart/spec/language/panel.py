"""The face: its size, sheet and coat."""

from __future__ import annotations

from typing import Final

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
"""The share of an anodic film that stands above the old surface (an anodiser's technical note, for both types)."""

BARE_COLOUR: Final = "#C4C7C9"
"""How a face without a coloured coat is shown: a light metallic grey."""


class RackSize(Noun):
    """The size of a front panel for 19 inch racks."""

    MARKED_BY = "rack"

    rack = key(
        Integer(minimum=1, maximum=50),
        required=True,
        says="Height in rack units; 482.6 mm wide and N x 44.45 - 0.79 mm high (IEC 60297-3-100).",
    )


class SubrackSize(Noun):
    """The size of the front panel of a module in a subrack."""

    MARKED_BY = "subrack"

    subrack = key(
        Choice(("3", "6"), "heights in U"),
        required=True,
        says="Height in rack units; 3U is 128.55 mm high, 6U 261.9 mm (IEC 60297-3-101).",
    )
    hp = key(
        Integer(minimum=2, maximum=84),
        required=True,
        says="Width in horizontal pitches; N x 5.08 - 0.3 mm (IEC 60297-3-101).",
    )


_DRAWING = Text(maximum=200, form="a file name relative to the spec")

_LAYER = Text(maximum=255)


class Outline(Noun):
    """A face of any form, drawn elsewhere at its finished size.

    One closed outline of lines and arcs, from a DXF or an SVG. Other curves become arcs within 0.005 mm.
    """

    dxf = key(_DRAWING, says="A DXF file: lines, arcs, circles, polylines, ellipses, splines.")
    svg = key(_DRAWING, says="An SVG file: paths and plain shapes, whatever they are painted with.")
    layer = key(
        OneOf((_LAYER, ListOf(of=_LAYER, what="layers", minimum=1, maximum=50))),
        otherwise="all of the drawing",
        says="The layer of a DXF, or the id of a group of an SVG, that is taken; several as a list.",
    )
    unit = key(
        Choice(("mm", "cm", "m", "in", "thou"), "units"),
        otherwise="what the file says: $INSUNITS of a DXF, width and viewBox of an SVG",
        says="The drawing's unit; required where the file does not say it, and never another than the file says.",
    )
    holes = key(
        Choice(("openings", "keep-outs", "ignored"), "ways to take holes"),
        otherwise="required where the drawing has holes",
        says=(
            "What closed lines within the outline are: openings that are cut, at their finished size; areas on"
            " both faces where nothing may be; or nothing."
        ),
    )
    refs = key(
        Text(maximum=20),
        default="H",
        says="What the refs of openings from the drawing begin with; they are numbered row by row from the top left.",
    )
    turn = key(kinds.TURN, default=0.0, says="Degrees that the drawing is turned counter-clockwise.")
    seen_from = key(
        Choice(("front", "rear"), "sides"),
        default="front",
        says="The side that the drawing shows; one from the rear is mirrored, before it is turned.",
    )


class Sheet(Noun):
    """The metal, or whatever the panel is cut from."""

    material = key(Text(maximum=80), required=True, says="What the sheet is made of.")
    thickness = key(Length(above=0, maximum=50), otherwise="that of `gauge`", says="Thickness of the bare sheet.")
    gauge = key(
        Integer(minimum=1, maximum=40),
        otherwise="see `thickness`",
        says=(
            "Its gauge instead; what that is in mm depends on the material: steel, galvanised, stainless or aluminium."
        ),
    )


_FILM = Length(minimum=0, maximum=2)


class ThicknessRange(Noun):
    """The range of the film; sizes are for the middle of it."""

    NAME = "film"

    minimum = key(_FILM, required=True, says="The thinnest film that the coater lays.")
    maximum = key(_FILM, required=True, says="The thickest.")


class Coat(Noun):
    """The finish on the surfaces."""

    kind = key(Choice(COAT_KINDS, "kinds of coat"), required=True, says="The finish.")
    film = key(
        OneOf((_FILM, NounOf(ThicknessRange))),
        otherwise="0 for `none` and `conversion`, else required",
        says=(
            "Thickness of the coat on one surface, or its range `{least, most}`; it makes each hole smaller by"
            " twice what stands above the metal. Fits are checked at both ends of a range."
        ),
    )
    growth = key(
        Number(minimum=0, maximum=1),
        otherwise="0.5 for `anodise`, else 1",
        says="The share of the film that stands above the metal as it was; anodising eats into it as it grows.",
    )
    faces = key(
        Choice(("both", "front"), "faces"),
        default="both",
        says="The faces that are coated; the walls of openings always are.",
    )
    allowance = key(
        Choice(("drawing", "shop", "none"), "allowances"),
        default="drawing",
        says=(
            "Who allows for the film: `drawing` writes cut sizes that the film brings to the finished sizes,"
            " `shop` writes finished sizes for a shop that allows for it itself, `none` cuts the sizes asked for"
            " and lets the film close them."
        ),
    )
    colour = key(Colour(), default=BARE_COLOUR, says="The colour of the face as it shows on screen and on the proof.")
    name = key(Text(), default="", says="The coat as the coater knows it: shade, gloss, texture.")


class Panel(Noun):
    """The face: flat, at its finished size, seen from the front; a rectangle, or an outline from a drawing."""

    title = key(kinds.LINE, required=True, says="What the panel is, for the title block.")
    number = key(Text(maximum=80), default="", says="Drawing or part number of the panel.")
    revision = key(Text(maximum=20), default="", says="Revision of the panel.")
    size = key(
        OneOf((pair(kinds.SIZE, "width", "height"), NounOf(RackSize), NounOf(SubrackSize))),
        otherwise="required without `outline`",
        says=(
            "Width and height of the finished face, or `{rack: N}`, or `{subrack: 3, hp: N}`; the rails behind a"
            " panel of a rack or subrack are then kept free."
        ),
    )
    outline = key(NounOf(Outline), otherwise="see `size`", says="The form of the face from a drawing.")
    corner = key(Length(minimum=0, maximum=MAX_SIZE), default=0.0, says="Radius of the four corners of the face.")
    sheet = key(NounOf(Sheet), required=True, says="The sheet that the panel is cut from.")
    coat = key(NounOf(Coat), otherwise="bare sheet", says="The finish on the sheet.")
    flanges = key(NounOf(Flanges), otherwise="a flat panel", says="Edges that are bent back.")
    bending = key(NounOf(Bending), otherwise="the K of DIN 6935", says="How the shop bends.")
    datum = key(
        OneOf((Choice(CORNERS, "places"), kinds.POSITION)),
        default="lower-left",
        says=(
            "Where positions are measured from, x to the right and y up, seen from the front: a corner, the"
            " centre, or a point measured from the lower-left corner. Of an odd outline they are those of the box"
            " round it; `drawing` is the origin of its drawing."
        ),
    )
    depth_behind = key(
        Length(above=0, maximum=MAX_SIZE),
        otherwise="not held against anything",
        says="Free room behind the face, that bodies must not be deeper than.",
    )
