"""Figures as they are written in files: fixed decimals, no exponent, no minus zero; and colours."""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import Final

POINT_PLACES: Final = 4
"""Decimals of a millimetre for points: 0.1 um, a tenth of the agreement asked of the files."""

_COLOUR: Final = re.compile(r"#[0-9A-Fa-f]{6}")

# What XML 1.0 (section 2.2) allows in a document; everything else makes the file unreadable.
_UNLAWFUL: Final = re.compile("[^\\u0009\\u000A\\u000D\\u0020-\\uD7FF\\uE000-\\uFFFD\\U00010000-\\U0010FFFF]")


@lru_cache(maxsize=1 << 16)  # the same places come again and again: on a grid, on every piece of a run
def decimal(value: float, places: int = POINT_PLACES) -> str:
    """A number with at most `places` decimals. Raises ValueError when it is not finite.

    >>> decimal(-0.00001), decimal(2.50), decimal(120)
    ('0', '2.5', '120')
    """
    if not math.isfinite(value):
        raise ValueError(f"a drawing has finite figures, not {value}")
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def rgb(colour: str) -> tuple[float, float, float]:
    """Red, green and blue, 0 to 1, of '#RRGGBB'. Raises ValueError for anything else."""
    if not _COLOUR.fullmatch(colour):
        raise ValueError(f"a colour is written #RRGGBB, not {colour!r}")
    return int(colour[1:3], 16) / 255, int(colour[3:5], 16) / 255, int(colour[5:7], 16) / 255


def lawful(text: str) -> str:
    """The text with every character that XML cannot hold shown as U+FFFD."""
    return _UNLAWFUL.sub("\N{REPLACEMENT CHARACTER}", text)
