"""How words are set, besides font and size: what a style or a single legend may say."""

from __future__ import annotations

from enum import Enum
from typing import Final

from panelart.canonical import Struct


class Align(Enum):
    """How the lines of a legend stand to each other; the value is what the spec writes."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"
    POINT = "decimal-point"


class Zero(Enum):
    """How the figure nought is told from the letter O; the value is what the spec writes."""

    PLAIN = "plain"
    SLASHED = "slashed"
    DOTTED = "dotted"

    @property
    def feature(self) -> int:
        """What the OpenType feature `zero` is set to: the number of the form, in our fonts 1 slashed and 2 dotted."""
        return (Zero.PLAIN, Zero.SLASHED, Zero.DOTTED).index(self)


class Direction(Enum):
    """Which way a line runs; the value is what the spec writes."""

    RIGHTWARD = "left-to-right"
    LEFTWARD = "right-to-left"


PLATE_RADIUS: Final = 0.25
PLATE_PADDING: Final = 0.5
"""Radius of a field's corners and the ink round its words, over the cap height, where nothing is said. Our choice."""


class Plate(Struct, frozen=True, kw_only=True):
    """A filled field that the words are left out of: radius of its corners and ink round the words, in mm.

    None takes PLATE_RADIUS and PLATE_PADDING of the cap height.
    """

    radius: float | None = None
    padding: float | None = None


class Look(Struct, frozen=True, kw_only=True):
    """How words are set.

    `fallback` names the fonts that are asked, in order, for what the first one lacks. `tracking` is extra space
    between letters and `line_pitch` the distance of base lines, both over the cap height; without a pitch that of
    ISO 3098 is taken. `align` overrides what the place of the legend would give. Without `direction` each line runs
    like its first letter. `language` is a BCP 47 tag. `hyphenate` are the languages whose words may be broken as
    a dictionary says, EVERY where that of the text is to be. `zero` is the form of the figure nought.
    """

    fallback: tuple[str, ...] = ()
    tracking: float = 0.0
    ligatures: bool = False
    language: str = ""
    direction: Direction | None = None
    align: Align | None = None
    line_pitch: float | None = None
    plate: Plate | None = None
    hyphenate: tuple[str, ...] = ()
    zero: Zero = Zero.PLAIN


EVERY: Final = "*"
"""Stands for whatever language a text has."""

PLAIN_LOOK: Final = Look()
