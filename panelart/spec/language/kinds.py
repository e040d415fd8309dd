"""Kinds of values that many keys hold, and the words that several of them accept."""

from __future__ import annotations

from typing import Final

from panelart.source.nodes import Scalar
from panelart.source.schema import Angle, AnyNode, Length, Text, pair

STYLES: Final = ("title", "name", "position", "numeral", "note")
"""The kinds of lettering: frames' and free texts, parts' names, positions, scale numerals, small print."""

PLAIN: Final = "plain"
"""The lettering that comes with the program."""

MAX_SIZE: Final = 5000.0
"""The largest panel side and part position in mm; nothing larger is bent, coated and printed in one piece."""

SIZE = Length(above=0, maximum=MAX_SIZE)

PLACE = Length(minimum=-MAX_SIZE, maximum=MAX_SIZE)

POSITION = pair(PLACE, "x", "y")

CAP_HEIGHT = Length(above=0, maximum=200)

MAX_REF: Final = 40
"""Characters of a ref."""

REF = Text(maximum=MAX_REF, braces=True)

WORDS = Text(maximum=200, lines=4, braces=True)

LINE = Text(maximum=200, braces=True)

REASON = Text(maximum=500, prose=True)

TURN = Angle(minimum=-360, maximum=360)

GAP = Length(minimum=0, maximum=MAX_SIZE)

LANGUAGE_TAG = Text(maximum=35, pattern="[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*", form="a language tag: de, tr, ar, zh-Hant")

MODULE_NAME = Text(
    maximum=40, pattern="[A-Za-z][A-Za-z0-9_-]*", form="a name of letters, digits, - and _, beginning with a letter"
)

RAW = AnyNode(of="a text or a number", shape=Scalar)
"""One value as it is written, whose kind is known later."""
