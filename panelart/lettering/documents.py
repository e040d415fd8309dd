"""What documents and notes can say: they are lettered in our own face, whatever the panel is lettered in."""

from __future__ import annotations

from panelart.lettering.cuts import LIGHT
from panelart.lettering.fonts import open_font

UNKNOWN = "□"
"""Stands for a character that our own face lacks, so that the gap is seen. A legend is never treated so."""


def sayable(text: str) -> str:
    """The text with every character that our own face lacks shown as UNKNOWN; line breaks stay."""
    font = open_font(LIGHT.font)
    return "".join(letter if letter == "\n" or font.has(letter) else UNKNOWN for letter in text)
