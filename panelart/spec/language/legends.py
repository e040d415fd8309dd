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
        "Words of the legend; `{{` is a brace. Words in braces are set in their own way: `{super 2}` raised, "
        "`{sub in}` lowered, `{bar RESET}` under a bar. `{fraction 1/4}` is set as a fraction, `{small Volts}` in "
        "small capitals, `{keep mA}` as written, `{unit ms}` as a unit, `{word ms}` as a word. `\\n` starts a line, "
        "`\\u00AD` allows a hyphen, `\\u200B` a line end without one, `\\_` keeps two words together."
    ),
)

_PLACE_KEY = key(
    Choice(PLACES, "positions"), otherwise="the best free position", says="Position of the words beside the part."
)

_ALIGN_KEY = key(
    Choice(("left", "centre", "right"), "alignments"),
    otherwise="the best",
    says=(
        "End of the words that is in line with the edge of the part, for words above or below; with `at`, the "
        "end that is at that point."
    ),
)

_OFFSET_KEY = key(pair(kinds.PLACE, "dx", "dy"), says="Distance of the words from their centred position.")

_LEGEND_AT_KEY = key(
    kinds.POSITION,
    otherwise="the best free position",
    says=(
        "Position from the datum of the middle of the baseline, or of the end named by `align`; a repeat "
        "moves it with each copy."
    ),
)

_GUIDE_KEY = key(
    Length(above=0, maximum=200),
    says="Length of a leader line from the part to the words; requires a `place` above, below, left or right.",
)

_OWN_INK_KEY = key(Text(maximum=60), otherwise="as in the style", says="Ink, by name.")

_LEGEND_STYLE_KEY = key(Choice(STYLES, "styles"), default="name", says="Style of lettering.")


class Legend(OwnLettering):
    """Words beside a part."""

    text = _TEXT_KEY
    place = _PLACE_KEY
    align = _ALIGN_KEY
    offset = _OFFSET_KEY
    at = _LEGEND_AT_KEY
    guide = _GUIDE_KEY
    style = _LEGEND_STYLE_KEY


class BlockText(OwnLettering):
    """Text of a block."""

    text = _TEXT_KEY
    style = _LEGEND_STYLE_KEY


BLOCK_TEXTS: Final = ListOf(of=OneOf((kinds.WORDS, NounOf(BlockText))), what="texts", minimum=1, maximum=8)
"""The texts of a block from the top: words in the style of names, or words with settings."""


class LegendBlock(Noun):
    """Several texts under each other beside a part, each in its own style."""

    MARKED_BY = "texts"

    texts = key(
        BLOCK_TEXTS,
        required=True,
        says=(
            "Texts from the top, each words or words with settings: `[{text: K3, style: numeral}, Feed pump]`. The "
            "block is placed as one; its line spacing is that of the larger of two texts."
        ),
    )
    place = _PLACE_KEY
    align = _ALIGN_KEY
    offset = _OFFSET_KEY
    at = _LEGEND_AT_KEY
    guide = _GUIDE_KEY


_SYMBOL_KEY = key(
    Choice(SYMBOLS, "symbols"),
    required=True,
    says="Symbol in place of words, by name; `panelart parts --symbols` lists them.",
)

_SYMBOL_HEIGHT_KEY = key(
    kinds.CAP_HEIGHT,
    otherwise="the cap height of the style",
    says=(
        "Height of the square that the symbol is drawn in; its line width is a tenth of it, as in lettering "
        "of that height."
    ),
)


class SymbolLegend(Noun):
    """Symbol beside a part."""

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
    """Symbol for a position."""

    MARKED_BY = "symbol"

    symbol = _SYMBOL_KEY
    height = _SYMBOL_HEIGHT_KEY
    ink = _OWN_INK_KEY


_TITLE_STYLE_KEY = key(Choice(STYLES, "styles"), default="title", says="Style of lettering.")


class FrameTitle(OwnLettering):
    """Words in the line of a frame."""

    text = key(kinds.LINE, required=True, says="Words on one line.")
    align = key(
        Choice(("left", "centre", "right"), "alignments"),
        default="centre",
        says="Position of the title along the line.",
    )
    style = _TITLE_STYLE_KEY


class Frame(Noun):
    """Line or field round parts that belong together, or line beside them; frames may be nested."""

    around = key(
        ListOf(of=kinds.REF, what="refs", minimum=1),
        required=True,
        says="Parts inside the frame; J* means all refs that begin with J.",
    )
    title = key(OneOf((kinds.LINE, NounOf(FrameTitle))), says="Words in the line: text, or text with settings.")
    margin = key(
        Length(minimum=0, maximum=500), default=3.0, says="Distance from the areas that the parts cover to the line."
    )
    form = key(
        Choice(("frame", "bracket", "field"), "forms"),
        default="frame",
        says=(
            "Line all round, bracket along one side with ticks towards the parts, or filled field. Words and marks "
            "inside a field in its ink are knocked out and show the colour of the panel; other inks are printed "
            "over it. A field is clear of openings."
        ),
    )
    side = key(
        Choice(("top", "bottom"), "sides"),
        default="top",
        says="Side of the title; a bracket is on this side.",
    )
    corner = key(Length(minimum=0, maximum=100), default=2.0, says="Radius of the corners of a frame or field.")
    ink = key(Text(maximum=60), otherwise="that of its title", says="Ink of the line or field, by name.")
    ticks = key(
        Choice(("ends", "members"), "ticks"),
        default="ends",
        says="Ticks of a bracket: at its ends only, or also at each member.",
    )
    size = key(
        Choice(("alike", "own"), "sizes"),
        default="alike",
        says=(
            "Frames with like parts in like places are all as large as the largest needs to be (alike), or a frame is "
            "as large as its own parts need (own)."
        ),
    )


_TEXT_AT_KEY = key(kinds.POSITION, required=True, says="Position of the anchor point of the baseline, from the datum.")

_ANCHOR_KEY = key(
    Choice(("left", "centre", "right"), "anchors"), default="left", says="Point of the text that is placed at `at`."
)


class Arc(Noun):
    """Baseline on a circle."""

    radius = key(kinds.SIZE, required=True, says="Radius of the baseline.")
    middle = key(
        kinds.TURN, default=90.0, says="Direction of the middle of the words, counter-clockwise from the right."
    )
    feet = key(
        Choice(("inward", "outward"), "directions"),
        otherwise="inward in the upper half, outward in the lower",
        says="Direction of the feet of the letters: inward reads clockwise, outward counter-clockwise.",
    )


_TEXT_TURN_KEY = key(kinds.TURN, default=0.0, says="Rotation of the text, counter-clockwise.")


class FreeText(OwnLettering):
    """Words in a position of their own."""

    text = _TEXT_KEY
    at = _TEXT_AT_KEY
    anchor = _ANCHOR_KEY
    turn = _TEXT_TURN_KEY
    arc = key(NounOf(Arc), otherwise="a straight line", says="Sets the words on a circle with its centre at `at`.")
    style = _TITLE_STYLE_KEY


class FreeSymbol(Noun):
    """Symbol in a position of its own."""

    MARKED_BY = "symbol"

    symbol = _SYMBOL_KEY
    at = _TEXT_AT_KEY
    anchor = _ANCHOR_KEY
    turn = _TEXT_TURN_KEY
    style = _TITLE_STYLE_KEY
    height = _SYMBOL_HEIGHT_KEY
    ink = _OWN_INK_KEY
