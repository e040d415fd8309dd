"""How legends are lettered: fonts, styles, and what a single legend may have of its own."""

from __future__ import annotations

from typing import Final

from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Choice, Flag, Length, ListOf, MapOf, Number, OneOf, Text
from panelart.spec.language import kinds

CAP_HEIGHT_SHARES: Final = {"title": 1.25, "name": 1.0, "position": 0.8, "numeral": 0.8, "note": 0.7}
"""Cap height of each style as a share of `lettering.cap_height`, where the style does not say its own."""


class FontInstance(Noun):
    """One instance of a variable font."""

    NAME = "font"

    file = key(Text(maximum=200), required=True, says="A variable font (.ttf, .otf), relative to the spec.")
    instance = key(
        MapOf(
            keys=Text(maximum=4, pattern="[A-Za-z0-9]{4}", form="the tag of an axis: wght"), of=Number(), what="axes"
        ),
        required=True,
        says="Where on its axes the font is taken: `{wght: 600, wdth: 80}`.",
    )


_FONT: OneOf = OneOf((Text(maximum=200, form="plain, plain-bold, plain-narrow, or a font file"), NounOf(FontInstance)))

_CASE = Choice(("upper", "as-written", "small-capitals"), "cases")


class Reversed(Noun):
    """A filled field that words are left out of."""

    radius = key(Length(minimum=0, maximum=100), otherwise="a quarter of the cap height", says="Of the corners.")
    padding = key(
        Length(minimum=0, maximum=100), otherwise="half the cap height", says="Ink between the words and its edge."
    )


class Look(Noun):
    """What may be said of lettering as a whole, of a style, and of a single legend; the nearest counts."""

    fallback = key(
        ListOf(of=_FONT, what="fonts", maximum=8),
        otherwise="that of the style or of `lettering`; none at first",
        says=(
            "Fonts that are asked, in order, for characters that the font lacks. Without them a lacking one is an"
            " error."
        ),
    )
    tracking = key(
        Number(minimum=-0.2, maximum=2),
        otherwise="that of the style or of `lettering`; 0 at first",
        says="Space added between letters, as a share of the height of the capitals. Joined scripts stay joined.",
    )
    ligatures = key(
        Flag(),
        otherwise="that of the style or of `lettering`; false at first",
        says="Whether letters such as f and i may become one; never where they are spaced.",
    )
    language = key(
        kinds.LANGUAGE_TAG,
        otherwise="that of the style or of `lettering`; none at first",
        says=(
            "The language of the words (a BCP 47 tag): it steers capitals, and forms of letters in fonts that"
            " have them."
        ),
    )
    direction = key(
        Choice(("left-to-right", "right-to-left"), "directions"),
        otherwise="that of the style or of `lettering`; that of each line's first letter at first",
        says="Which way lines run that have letters of both kinds.",
    )
    ranging = key(
        Choice(("left", "centre", "right", "decimal-point"), "ways to line up"),
        otherwise="what suits the place: towards the part, else centred",
        says="How several lines stand to each other.",
    )
    line_pitch = key(
        Number(minimum=0.8, maximum=5),
        otherwise="1.3 for capitals, 1.5 with small letters, 1.9 with accents or bars (ISO 3098-0)",
        says="From base line to base line, as a share of the height of the capitals.",
    )
    reversed = key(
        OneOf((Flag(), NounOf(Reversed))),
        otherwise="that of the style or of `lettering`; false at first",
        says="Leaves the words out of a filled field of ink, so that they show the colour of the panel.",
    )


class OwnLettering(Look):
    """What a single legend may have of its own."""

    font = key(_FONT, otherwise="that of the style", says="The lettering of this legend.")
    cap_height = key(kinds.CAP_HEIGHT, otherwise="that of the style", says="Height of the drawn capitals.")
    case = key(_CASE, otherwise="that of the style", says="How this legend is spelled.")
    ink = key(Text(maximum=60), otherwise="that of the style", says="The ink, by name.")


class Style(Look):
    """What one kind of lettering does differently."""

    font = key(_FONT, otherwise="that of `lettering`", says="Lettering of this style.")
    cap_height = key(
        kinds.CAP_HEIGHT,
        otherwise="`lettering.cap_height` x 1.25 title, 1 name, 0.8 position, 0.8 numeral, 0.7 note",
        says="Height of the drawn capitals of this style.",
    )
    case = key(
        _CASE,
        otherwise="that of `lettering` for title, name and position; `as-written` for numeral and note",
        says="How this style is spelled.",
    )
    ink = key(Text(maximum=60), otherwise="the first ink", says="The ink of this style, by name.")


class Styles(Noun):
    """The kinds of lettering on a panel."""

    title = key(NounOf(Style), otherwise="as `lettering`", says="Titles of frames, and free texts.")
    name = key(NounOf(Style), otherwise="as `lettering`", says="Names of parts.")
    position = key(NounOf(Style), otherwise="as `lettering`", says="Names of the positions of switches.")
    numeral = key(NounOf(Style), otherwise="as `lettering`", says="Numerals and units of scales.")
    note = key(NounOf(Style), otherwise="as `lettering`", says="Small print.")


class Lettering(Look):
    """How the legends are lettered."""

    font = key(
        _FONT,
        default="plain",
        says=(
            "The lettering: plain, plain-bold, plain-narrow, a font file (.ttf, .otf) relative to the spec, or"
            " `{file: house.ttf, instance: {wght: 600}}` of a variable font."
        ),
    )
    cap_height = key(
        kinds.CAP_HEIGHT,
        default=4.0,
        says="Height of the drawn capitals of part names; 4 mm is about 20 arcmin at arm's length.",
    )
    case = key(
        _CASE,
        default="as-written",
        says=(
            "`upper` sets names, positions and titles in capitals, by the rules of their `language`, and"
            " `small-capitals` in those of a font that has them. The symbols of units (mV, kHz, dB) and `{keep"
            " ...}` stay as they are; so do numerals and notes."
        ),
    )
    text = key(
        Choice(("outlines", "live"), "forms"),
        default="outlines",
        says=(
            "How letters are written in the artwork: as outlines, which look the same everywhere, or live, as"
            " text with its fonts embedded, that can be searched and changed. Words left out of a field stay"
            " outlines; so do, in the SVG, joined scripts and fonts that may only be embedded to be viewed and"
            " printed."
        ),
    )
    styles = key(NounOf(Styles), otherwise="as `lettering`", says="What single styles do differently.")
