"""Words as text in SVG: each letter at its own place, in fonts that the file carries.

Readers shape text by themselves. Where that could change a letter (joined scripts, ligatures, small capitals of the
font, fractions that became one sign, lines that run to the left) words stay outlines, as they do in fonts whose makers
allow embedding for viewing only, and where they are left out of a field.
"""

from __future__ import annotations

import base64
import unicodedata
from collections.abc import Iterator
from itertools import groupby
from typing import Any

from msgspec import field

from panelart.canonical import Struct
from panelart.drawing.representation import Lettered
from panelart.geometry import Box
from panelart.lettering.embedding import characters_alone, may_embed
from panelart.lettering.fonts import open_font
from panelart.lettering.setting import Letter
from panelart.writers.figures import decimal, lawful
from panelart.writers.typefaces import place


class Fonts(Struct, kw_only=True):
    """The faces that a file has text in, in the order in which they were met, with their characters."""

    used: dict[str, set[str]] = field(default_factory=dict)

    def family(self, face: str, characters: str) -> str:
        """The family's name in the file."""
        self.used.setdefault(face, set()).update(characters)
        return f"panelart-{list(self.used).index(face)}"

    def style_sheet(self) -> str:
        """The fonts themselves, with the characters that are used."""
        rules: list[str] = []
        for index, (face, characters) in enumerate(self.used.items()):
            data = characters_alone(open_font(face), "".join(sorted(characters)))
            kind, media = ("opentype", "font/otf") if data[:4] == b"OTTO" else ("truetype", "font/ttf")
            source = f"data:{media};base64,{base64.b64encode(data).decode('ascii')}"
            rules.append(f'@font-face{{font-family:"panelart-{index}";src:url("{source}") format("{kind}")}}')
        return "\n".join(rules)


def can_be_text(words: Lettered) -> bool:
    """Whether every reader will set these words as they are set here."""
    setting = words.setting
    return setting.plate is None and all(_stands_for_itself(letter) for letter in setting.letters)


def _stands_for_itself(letter: Letter) -> bool:
    font = open_font(letter.font)
    return (
        len(letter.text) == 1
        and font.number(letter.text) == letter.number
        and unicodedata.bidirectional(letter.text) not in ("R", "AL", "AN")
        and unicodedata.category(letter.text)[0] not in ("M", "C")
        and may_embed(font, to_change=True)
    )


def texts(words: Lettered, page: Box, fonts: Fonts) -> Iterator[Any]:
    """One element for each row of letters of one font and size; bars are not letters."""
    from svgwrite.text import Text

    for (face, scale, turn, y), group in groupby(
        words.setting.letters, key=lambda letter: (letter.font, letter.scale, letter.turn, letter.y)
    ):
        letters = list(group)
        characters = "".join(letter.text for letter in letters)
        if not characters.strip():
            continue
        start = place(words, letters[0].x, y)
        element = Text(lawful(characters), debug=False)
        element.attribs = {
            "transform": _transform(start.x - page.left, page.top - start.y, turn + words.turn),
            "x": " ".join(decimal((letter.x - letters[0].x) * words.scale) for letter in letters),
            "font-family": fonts.family(face, characters),
            "font-size": decimal(scale * open_font(face).units_per_em * words.scale, 6),
            "font-kerning": "none",
            "xml:space": "preserve",
        }
        yield element


def _transform(x: float, y: float, turn: float) -> str:
    move = f"translate({decimal(x)} {decimal(y)})"
    return f"{move} rotate({decimal(-turn, 6)})" if turn else move
