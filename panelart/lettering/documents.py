"""What documents and notes are lettered in, and how low: our own face, whatever the panel is lettered in.

Numbers, limits and cautions are read on these at a machine, in gloves and at arm's length.
"""

from __future__ import annotations

from typing import Final

from panelart.lettering.cuts import LIGHT, WEIGHTS, WIDTHS, Cut
from panelart.lettering.fonts import open_font

LOWEST: Final = 2.5
"""Minimum cap height of every word on paper, mm.

It is the height h of ISO 3098-1, that of the outline of capitals. Its series of nominal sizes is 1.8 2.5 3.5 5 7 10
14 20 (ISO 3098-0:1997, 1.8 the smallest); the first edition, ISO 3098/1:1974, began with 2.5 (both from memory), and
1.8 is not read in a workshop: our choice.
"""

PLAIN: Final = Cut(WEIGHTS["light"], WIDTHS["narrow"])
STRONG: Final = Cut(WEIGHTS["bold"], WIDTHS["narrow"])
"""What papers are set in: narrow, so that lettering of 2.5 mm takes the width that 1.9 mm takes in the normal one."""

UNKNOWN = "□"
"""Stands for a character that our own face lacks, so that the gap is seen. A legend is never treated so."""


def sayable(text: str) -> str:
    """The text with every character that our own face lacks shown as UNKNOWN; line breaks stay."""
    font = open_font(LIGHT.font)
    return "".join(letter if letter == "\n" or font.has(letter) else UNKNOWN for letter in text)
