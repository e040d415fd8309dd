"""Symbols: signs that stand for words on a panel, drawn on one grid with the pen of the lettering.

A symbol is set as words are, by its name in a font of symbols: `set_words("standby", "symbols", 3.0)`. Its size is the
height of its square, 10 d as a capital has; the pen is that of the lettering of that height. Circles and triangles go
a little past the square, so that they look as large. What each symbol means is told by `panelart.catalogue.symbols`.
"""

from __future__ import annotations

from typing import Final

SYMBOLS: Final = (
    "on",
    "off",
    "standby",
    "on-off",
    "sleep",
    "battery",
    "dc",
    "ac",
    "ac-dc",
    "three-phase",
    "fuse",
    "plus",
    "minus",
    "centre-positive",
    "centre-negative",
    "earth",
    "functional-earth",
    "protective-earth",
    "chassis",
    "equipotential",
    "class-2",
    "class-3",
    "dangerous-voltage",
    "caution",
    "shock-risk",
    "hot-surface",
    "radio-waves",
    "input",
    "output",
    "headphones",
    "microphone",
    "loudspeaker",
    "mute",
    "antenna",
    "data-bus",
    "network",
    "music",
    "video",
    "brightness",
    "contrast",
    "level",
    "lamp",
    "signal-lamp",
    "bell",
    "fan",
    "temperature",
    "speed",
    "up",
    "down",
    "left",
    "right",
    "up-down",
    "left-right",
    "clockwise",
    "anticlockwise",
    "both-ways",
    "lock",
    "unlock",
    "clock",
    "run",
    "fast-run",
    "stop",
    "pause",
    "eject",
    "push-in",
    "push-out",
    "manual",
)
"""The names of all symbols, in the order of their source, `fonts/source/symbols`."""

REGULAR: Final = "symbols"
BOLD: Final = "symbols-bold"
FACES: Final = frozenset({REGULAR, BOLD})
"""The fonts of symbols, by the names that open them."""


def symbol_font(lettering: str) -> str:
    """The font of symbols whose pen goes with a lettering."""
    return BOLD if lettering == "plain-bold" else REGULAR


def glyph_name(symbol: str) -> str:
    """What a symbol is called inside the font, where a hyphen may not stand."""
    return symbol.replace("-", "_")
