"""How legends are lettered: fonts, styles, and what a single legend may have of its own."""

from __future__ import annotations

from typing import Final

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Choice, Flag, Integer, Length, ListOf, MapOf, Number, OneOf, Text
from panelart.spec.language import kinds

CAP_HEIGHT_SHARES: Final = {"title": 1.25, "name": 1.0, "position": 0.8, "numeral": 0.8, "note": 0.7}
"""Cap height of each style as a share of `lettering.cap_height`, where the style does not say its own."""


class Pen(Noun):
    """Weight and width of the program's own font: one pen draws all of its letters and symbols."""

    NAME = "pen"

    weight = key(
        Text(
            maximum=20,
            pattern=r"light|medium|bold|h/\d{1,2}(\.\d{1,2})?",
            form="light, medium, bold, or a share of the cap height: h/8",
        ),
        otherwise="medium; light where the process cuts with a tool",
        says=(
            "Stroke as a share of the cap height: `light` h/10, `medium` h/7.5, `bold` h/6, or any from `h/14` to "
            "`h/6`. For light letters on a dark face handbooks advise h/8 to h/7, for dark letters on a light face h/6."
        ),
    )
    width = key(
        Text(
            maximum=20,
            pattern=r"normal|narrow|1|0?\.\d{1,2}",
            form="normal, narrow, or a share of the normal width: 0.9",
        ),
        otherwise="normal",
        says="Width of the letters: `normal`, `narrow` (0.76 of it), or any share between. Symbols keep their form.",
    )


class FontInstance(Noun):
    """Font of a collection, or instance of a variable font."""

    NAME = "font"
    MARKED_BY = "file"

    file = key(Text(maximum=200), required=True, says="Font file (.ttf, .otf, .ttc), relative to the spec.")
    instance = key(
        MapOf(
            keys=Text(maximum=4, pattern="[A-Za-z0-9]{4}", form="the tag of an axis: wght"), of=Number(), what="axes"
        ),
        says="Axis values of a variable font: `{wght: 600, wdth: 80}`.",
    )
    index = key(
        Integer(minimum=0, maximum=255),
        says="Index of the font in a collection (.ttc), from 0.",
    )


_FONT: OneOf = OneOf((Text(maximum=200, form="plain, or a font file"), NounOf(FontInstance), NounOf(Pen)))

_CASE = Choice(("upper", "as-written", "small-capitals"), "cases")


class Reversed(Noun):
    """Filled field with the words left out."""

    radius = key(
        Length(minimum=0, maximum=100),
        otherwise="a quarter of the cap height",
        says="Radius of the corners of the field.",
    )
    padding = key(
        Length(minimum=0, maximum=100),
        otherwise="half the cap height",
        says="Distance from the words to the edge of the field.",
    )


class Look(Noun):
    """What may be said of lettering as a whole, of a style, and of a single legend; the nearest counts."""

    fallback = key(
        ListOf(of=_FONT, what="fonts", maximum=8),
        otherwise="as in the style or `lettering`; none by default",
        says=(
            "Fonts that are tried in order for characters that the font lacks. Without them, a missing character "
            "is an error."
        ),
    )
    tracking = key(
        Number(minimum=-0.2, maximum=2),
        otherwise="as in the style or `lettering`; 0 by default",
        says="Letter spacing, as a share of the cap height. Joined scripts stay joined.",
    )
    ligatures = key(
        Flag(),
        otherwise="as in the style or `lettering`; false by default",
        says="Whether ligatures such as fi are used; never with letter spacing.",
    )
    zero = key(
        Choice(("plain", "slashed", "dotted"), "forms"),
        otherwise="as in the style or `lettering`; plain by default",
        says=(
            "Form of the figure 0, so that it is not taken for the letter O. A font file gives its own other form "
            "(OpenType feature `zero`) for both."
        ),
    )
    language = key(
        kinds.LANGUAGE_TAG,
        otherwise="as in the style or `lettering`; none by default",
        says=(
            "Language of the text (BCP 47 tag); it selects the rules for capitals and the forms of letters in "
            "fonts that have them."
        ),
    )
    hyphenate = key(
        OneOf((Flag(), ListOf(of=kinds.LANGUAGE_TAG, what="languages", minimum=1, maximum=20))),
        otherwise="as in the style or `lettering`; false by default",
        says=(
            "Whether words of names of parts may be broken with a hyphen as the dictionary of `language` says, as a "
            "fallback; a list limits it to texts in these languages. Short words, words in capitals, and quantities "
            "are never broken. `\\u00AD` (soft hyphen) in a word replaces the dictionary's places, `{keep ...}` "
            "keeps it whole."
        ),
    )
    direction = key(
        Choice(("left-to-right", "right-to-left"), "directions"),
        otherwise="as in the style or `lettering`; that of the first letter of each line by default",
        says="Direction of lines that mix left-to-right and right-to-left letters.",
    )
    ranging = key(
        Choice(("left", "centre", "right", "decimal-point"), "alignments"),
        otherwise="towards the part where the legend is beside it, else centred",
        says="Alignment of several lines with each other.",
    )
    line_pitch = key(
        Number(minimum=0.8, maximum=5),
        otherwise="1.3 for capitals, 1.5 with small letters, 1.9 with accents or bars (ISO 3098-0)",
        says="Line spacing from baseline to baseline, as a share of the cap height.",
    )
    reversed = key(
        OneOf((Flag(), NounOf(Reversed))),
        otherwise="as in the style or `lettering`; false by default",
        says="Leaves the words out of a filled field of ink, so that they show the colour of the panel.",
    )


class OwnLettering(Look):
    """What a single legend may have of its own."""

    font = key(_FONT, otherwise="as in the style", says="Font of this legend.")
    cap_height = key(kinds.CAP_HEIGHT, otherwise="as in the style", says="Cap height.")
    case = key(_CASE, otherwise="as in the style", says="Letter case of this legend.")
    ink = key(Text(maximum=60), otherwise="that of the style", says="The ink, by name.")


class Style(Look):
    """Settings of one style of lettering."""

    font = key(_FONT, otherwise="as in `lettering`", says="Font of this style.")
    cap_height = key(
        kinds.CAP_HEIGHT,
        otherwise="`lettering.cap_height` x 1.25 title, 1 name, 0.8 position, 0.8 numeral, 0.7 note",
        says="Cap height of this style.",
    )
    case = key(
        _CASE,
        otherwise="as in `lettering` for title, name and position; `as-written` for numeral and note",
        says="Letter case of this style.",
    )
    ink = key(Text(maximum=60), otherwise="the first ink", says="Ink of this style, by name.")


class Styles(Noun):
    """Styles of lettering on the panel."""

    title = key(NounOf(Style), otherwise="as in `lettering`", says="Titles of frames, and free texts.")
    name = key(NounOf(Style), otherwise="as in `lettering`", says="Names of parts.")
    position = key(NounOf(Style), otherwise="as in `lettering`", says="Names of switch positions.")
    numeral = key(NounOf(Style), otherwise="as in `lettering`", says="Numerals and units of scales.")
    note = key(NounOf(Style), otherwise="as in `lettering`", says="Small print.")


class Lettering(Look):
    """Lettering of the legends."""

    font = key(
        _FONT,
        default="plain",
        says=(
            "Font: `plain`, the program's own; the same in another weight or width, `{weight: bold, width: narrow}`; "
            "a font file (.ttf, .otf) relative to the spec; an instance of a variable font, `{file: house.ttf, "
            "instance: {wght: 600}}`; or one of a collection, `{file: house.ttc, index: 2}`."
        ),
    )
    cap_height = key(
        kinds.CAP_HEIGHT,
        default=4.0,
        says="Cap height of part names; 4 mm is about 20 arcmin at arm's length.",
    )
    case = key(
        _CASE,
        default="as-written",
        says=(
            "`upper` sets names, positions and titles in capitals, by the rules of their `language`; "
            "`small-capitals` uses the small capitals of the font. Units (mV/div, kHz, dB), quantities, ranges, "
            "ratings, designations, `{unit ...}`, `{keep ...}`, numerals and notes stay as written; so does what "
            "could be a unit or a word (MS, ma), unless it is marked `{word ...}`."
        ),
    )
    text = key(
        Choice(("outlines", "live"), "forms"),
        default="outlines",
        says=(
            "Form of letters in the artwork: `outlines` look the same everywhere, `live` is text with embedded "
            "fonts that can be searched and changed. Reversed words stay outlines; in SVG, so do joined scripts "
            "and fonts that may be embedded only for viewing and printing."
        ),
    )
    styles = key(NounOf(Styles), otherwise="as in `lettering`", says="Settings of single styles.")
