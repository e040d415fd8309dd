"""Sizes of a panel as they are asked for on a command line: 260x110, 260x, x110, 3U, smallest."""

from __future__ import annotations

import re
from typing import Final

from panelart.drafting.plan import Wish
from panelart.messages import drafting as said
from panelart.messages.errors import said_by
from panelart.units import HORIZONTAL_PITCH, INCH, RACK_UNIT, length

RACK_WIDTH: Final = 482.6
RACK_PLAY: Final = 0.79
RACK_SIDE: Final = 20.0
"""A 19-inch panel (IEC 60297-3-100): its width, what it is lower than its rack units, and the room at each side for
the rails, mm."""

MIN_SIDE: Final = 10.0
MAX_SIDE: Final = 3000.0
"""Sides of a panel, mm."""

MIN_GRID: Final = 0.05
MAX_GRID: Final = 50.0
"""Steps of a grid, mm."""


def size_wish(text: str, listed: str = "") -> Wish:
    """The size in words. `listed` are sizes to choose from. Raises ValueError with what is accepted."""
    if listed:
        pairs = [_pair(item) for item in re.split(r"[,;]\s*", listed.strip())]
        return Wish(sizes=tuple(pairs))
    words = text.strip().casefold()
    if words in ("", "smallest"):
        return Wish()
    rack = re.fullmatch(r"(\d{1,2})\s*u", words)
    if rack is not None:
        return Wish(width=RACK_WIDTH, height=_rack(int(rack[1])), side_margin=RACK_SIDE)
    width, cross, height = re.sub(r"\s*[x×*]\s*", "×", words).partition("×")
    if not cross or not (width or height):
        raise ValueError(said.size_unreadable(size=text))
    return Wish(width=_side(width, text) if width else None, height=_side(height, text) if height else None)


def rack_size(units: int) -> tuple[float, float]:
    """Width and height of a 19-inch panel of so many rack units, mm."""
    return RACK_WIDTH, _rack(units)


def rack_units(size: tuple[float, float]) -> int | None:
    """The rack units of a 19-inch panel of this size in mm; None where it is none."""
    units = round((size[1] + RACK_PLAY) / RACK_UNIT)
    return units if units > 0 and size == rack_size(units) else None


def _rack(units: int) -> float:
    return round(units * RACK_UNIT - RACK_PLAY, 2)


def _pair(text: str) -> tuple[float, float]:
    wish = size_wish(text)
    if wish.width is None or wish.height is None:
        raise ValueError(said.listed_size_unreadable(size=text))
    return wish.width, wish.height


def _side(text: str, whole: str) -> float:
    units = re.fullmatch(r"(\d{1,2})\s*u", text)
    if units is not None:
        return _rack(int(units[1]))
    try:
        side = length(text)
    except ValueError as error:
        raise ValueError(said.side_unreadable(size=whole, reason=said_by(error))) from None
    if not MIN_SIDE <= side <= MAX_SIDE:
        raise ValueError(said.side_out_of_range(size=whole, minimum=MIN_SIDE, maximum=MAX_SIDE))
    return round(side, 2)


def grid_step(text: str) -> float:
    """A grid in words: '1', '2.54', '0.1 in', 'inch', 'HP'. Raises ValueError."""
    words = text.strip().casefold()
    if words == "hp":
        return HORIZONTAL_PITCH
    if words == "inch":
        return INCH / 10
    step = length(words)
    if not MIN_GRID <= step <= MAX_GRID:
        raise ValueError(said.grid_out_of_range(grid=text, minimum=MIN_GRID, maximum=MAX_GRID))
    return step
