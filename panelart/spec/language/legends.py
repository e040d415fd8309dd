"""Words and symbols: beside parts, in frames, and at places of their own."""

from __future__ import annotations

from typing import Final

from panelart.lettering.symbols import SYMBOLS
from panelart.source.nouns import Noun, NounOf, key
from panelart.source.schema import Choice, Length, ListOf, OneOf, Text, pair
from panelart.spec.language import kinds
from panelart.spec.language.kinds import STYLES
from panelart.spec.language.lettering import OwnLettering

PLACES: Final = ("above", "below", "left", "right", "above-left", "above-right", "below-left", "below-right")
"""Where words may stand beside their part."""

_TEXT_KEY = key(
    kinds.WORDS,
    required=True,
    says=(
        "The words; `{{` is a brace; `{super 2}`, `{sub in}`, `{bar RESET}`, `{fraction 1/4}`, `{small Volts}`"
        " and `{keep mA}` letter what they hold raised, lowered, under a bar, as a fraction, in small capitals, or"
        " exactly as it stands."
    ),
)

_PLACE_KEY = key(
    Choice(PLACES, "places"), otherwise="the best free place", says="Where the words stand beside the part."
)

_ALIGN_KEY = key(
    Choice(("left", "centre", "right"), "ends"),
    otherwise="the best",
    says="Which end of words above or below stands in line with the part's edge; with `at`, which end stands there.",
)

_OFFSET_KEY = key(
    pair(kinds.PLACE, "dx", "dy"), says="How far the words are moved from where they would stand centred."
)

_LEGEND_AT_KEY = key(
    kinds.POSITION,
    otherwise="the best free place",
    says="Exactly where the base line's middle (or the end named by `align`) is, from the datum; moved by repeats.",
)

_GUIDE_KEY = key(
    Length(above=0, maximum=200),
    says="Length of a thin line from the part to the words; it needs a `place` above, below, left or right.",
)

_OWN_INK_KEY = key(Text(maximum=60), otherwise="that of the style", says="The ink, by name.")

_LEGEND_STYLE_KEY = key(Choice(STYLES, "styles"), default="name", says="The kind of lettering.")


class Legend(OwnLettering):
    """Words beside a part."""

    text = _TEXT_KEY
    place = _PLACE_KEY
    align = _ALIGN_KEY
    offset = _OFFSET_KEY
    at = _LEGEND_AT_KEY
    guide = _GUIDE_KEY
    style = _LEGEND_STYLE_KEY


_SYMBOL_KEY = key(
    Choice(SYMBOLS, "symbols"),
    required=True,
    says="A symbol in place of words, by name; `panelart parts --symbols` lists them.",
)

_SYMBOL_HEIGHT_KEY = key(
    kinds.CAP_HEIGHT,
    otherwise="that of the style's capitals",
    says="Height of the square that a symbol is drawn in; its line is a tenth of it, as in lettering of that height.",
)


class SymbolLegend(Noun):
    """A symbol beside a part."""

    MARKED_BY = "symbol"

    symbol = _SYMBOL_KEY
    place = _PLACE_KEY
    align = _ALIGN_KEY
    offset = _OFFSET_KEY
    at = _LEGEND_AT_KEY
    guide = _GUIDE_KEY
    style = _LEGEND_STYLE_KEY
    height = _SYMBOL_HEIGHT_KEY
    ink = _OWN_INK_KEY


class SymbolPosition(Noun):
    """A symbol that names a position."""

    MARKED_BY = "symbol"

    symbol = _SYMBOL_KEY
    height = _SYMBOL_HEIGHT_KEY
    ink = _OWN_INK_KEY


_TITLE_STYLE_KEY = key(Choice(STYLES, "styles"), default="title", says="The kind of lettering.")


class FrameTitle(OwnLettering):
    """Words set into the line of a frame."""

    text = key(kinds.LINE, required=True, says="The words, on one line.")
    align = key(
        Choice(("left", "centre", "right"), "ends"), default="centre", says="Where along the line the title stands."
    )
    style = _TITLE_STYLE_KEY


class Frame(Noun):
    """A line round or beside parts that work together; a frame may stand in another."""

    around = key(
        ListOf(of=kinds.REF, what="refs", minimum=1),
        required=True,
        says="The parts inside the frame; J* stands for all refs that begin with J.",
    )
    title = key(
        OneOf((kinds.LINE, NounOf(FrameTitle))), says="Words set into the line: the text, or text with settings."
    )
    margin = key(Length(minimum=0, maximum=500), default=3.0, says="From what the parts cover to the line.")
    form = key(
        Choice(("frame", "bracket"), "forms"),
        default="frame",
        says="A line all round, or a bracket along one side with ticks that point to the parts.",
    )
    side = key(
        Choice(("top", "bottom"), "sides"),
        default="top",
        says="The side with the title; a bracket stands on this side.",
    )
    corner = key(Length(minimum=0, maximum=100), default=2.0, says="Radius of the corners of a frame.")
    ticks = key(
        Choice(("ends", "members"), "places"), default="ends", says="Where a bracket has ticks besides its ends."
    )


_TEXT_AT_KEY = key(kinds.POSITION, required=True, says="Where the anchor point of the base line is, from the datum.")

_ANCHOR_KEY = key(Choice(("left", "centre", "right"), "anchors"), default="left", says="Which point of the text it is.")


class Arc(Noun):
    """A base line round a circle."""

    radius = key(kinds.SIZE, required=True, says="Of the base line.")
    middle = key(kinds.TURN, default=90.0, says="Where the middle of the words lies, counter-clockwise from the right.")
    feet = key(
        Choice(("inward", "outward"), "ways"),
        otherwise="inward in the upper half, outward in the lower",
        says="Where the feet of the letters point: inward reads clockwise, outward counter-clockwise.",
    )


_TEXT_TURN_KEY = key(kinds.TURN, default=0.0, says="How far the text is turned, counter-clockwise.")


class FreeText(OwnLettering):
    """Words at a place of their own."""

    text = _TEXT_KEY
    at = _TEXT_AT_KEY
    anchor = _ANCHOR_KEY
    turn = _TEXT_TURN_KEY
    arc = key(NounOf(Arc), otherwise="a straight line", says="Sets the words round a circle with its centre `at`.")
    style = _TITLE_STYLE_KEY


class FreeSymbol(Noun):
    """A symbol at a place of its own."""

    MARKED_BY = "symbol"

    symbol = _SYMBOL_KEY
    at = _TEXT_AT_KEY
    anchor = _ANCHOR_KEY
    turn = _TEXT_TURN_KEY
    style = _TITLE_STYLE_KEY
    height = _SYMBOL_HEIGHT_KEY
    ink = _OWN_INK_KEY
