"""How high ideographs are: the box that one fills from top to foot, whatever the capitals of its font are."""

from __future__ import annotations

from typing import Final

from panelart.lettering.fonts import open_font
from panelart.lettering.scripts import script_of
from panelart.lettering.setting import Letter, Setting

FULL: Final = "国"
"""An ideograph that fills its box: an enclosure on all four sides."""

_FIRST: Final = "\u2e80"
"""No ideograph has a lower number."""


def ideograph_height(setting: Setting) -> float | None:
    """The height in mm of the ideographs in set words, the highest where several fonts have them; None without any.

    Measured on the one that fills its box; on the highest of the words where a font has not got that.
    """
    letters = [*setting.letters, *(letter for member, _ in setting.members for letter in member.letters)]
    heights = [_height(letter) for letter in letters if letter.text >= _FIRST and script_of(letter.text[0]) == "Hani"]
    return max(heights, default=None)


def _height(letter: Letter) -> float:
    font = open_font(letter.font)
    full = font.number(FULL)
    box = font.box(letter.number if full is None else full)
    return 0.0 if box is None else box.height * letter.scale
