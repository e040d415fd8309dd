"""What is read from the left beside figures of the scripts of Arabic: units, signs and amounts in other figures.

Arabic-Indic figures stand in the order of the words, with their unit on the left (UAX #9, class AN). Persian figures
count as European ones there, run with a unit of Latin letters, and have their sign on the left (CLDR, fa; from memory).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from typing import Final

_NO_FIGURES: Final = re.compile("[^\u0660-\u0669\u066b\u066c]+")
_NEXT_AMOUNT: Final = re.compile(r"(?<=[^\W\d])\s+(?=\d)")
_BETWEEN: Final = " \u00a0\u2009\u202f±+-−–—…/,:;=|×~"
"""Signs and blanks between amounts, which are part of none."""

_SIGNED: Final = re.compile(r"(?<!\d)[+\-−±](?=\s?\d)")


def read_from_left(text: str, start: int, stop: int) -> Iterator[tuple[int, int]]:
    """What stands between Arabic-Indic figures of a stretch and is read from the left: °C, 1/min, 50 Hz."""
    for piece in _NO_FIGURES.finditer(text, start, stop):
        at = piece.start()
        for amount in _NEXT_AMOUNT.split(piece[0]):
            letters = amount.strip(_BETWEEN)
            if any(unicodedata.bidirectional(letter) in ("L", "EN") for letter in letters):
                begins = text.index(letters, at)
                yield begins, begins + len(letters)
            at += len(amount)


def is_signed(stretch: str) -> bool:
    """Whether a figure has a sign: -5, ±5, and not 5-10."""
    return _SIGNED.search(stretch) is not None
