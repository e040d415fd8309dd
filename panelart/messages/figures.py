"""How numbers are written in sentences: one place for digits, units and rounding.

A figure is shown to the digit that decides: two decimals of a millimetre, more where two would say 0.00 or where a
measured value and its limit would otherwise read the same.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

_DECIMALS: Final = (2, 3, 4, 5, 6)
"""Decimals that are tried in turn until the figure says what it must."""

_ROUNDING: Final = 1e-7
"""In steps of the last digit: less than this over a step is noise of the computation, not a reason to round away."""

_BEHIND: Final = {"ratio": "", "count": "", "percent": "\N{NO-BREAK SPACE}%", "deg": "°"}
"""How a unit is written behind its number, where not by its name."""


def unit_behind(unit: str) -> str:
    """What is written behind a number in this unit, with the space before it."""
    return _BEHIND.get(unit, f" {unit}" if unit else "").replace("\N{NO-BREAK SPACE}", " ")


def measured(value: float, unit: str) -> str:
    """A measured value: '2.30 mm', with more decimals where two would say 0.00."""
    return _with_unit(value, unit, _decimals_of(value, unit), round)


def compared(value: float, limit: float, unit: str) -> tuple[str, str]:
    """A measured value and its limit, both with as many decimals as it takes to tell them apart."""
    if unit == "count":
        return f"{round(value)}", f"{round(limit)}"
    fewest = max(_decimals_of(value, unit), _decimals_of(limit, unit))
    for decimals in range(fewest, _DECIMALS[-1] + 1):
        shown, bound = (_with_unit(number, unit, decimals, round) for number in (value, limit))
        if shown != bound:
            return shown, bound
    return _with_unit(value, unit, fewest, round), _with_unit(limit, unit, fewest, round)


def at_least(value: float, unit: str) -> str:
    """A value that must be reached, rounded up, so that who writes it down is on the safe side."""
    return _with_unit(value, unit, _decimals_of(value, unit), _up)


def at_most(value: float, unit: str) -> str:
    """A value that must not be exceeded, rounded down."""
    return _with_unit(value, unit, _decimals_of(value, unit), _down)


def plain(value: float) -> str:
    """A number as a designer would type it: 12, 0.35, -4.5; no zeros behind, no noise beyond a millionth."""
    return f"{round(value, 6) + 0.0:.10g}"


def in_unit(value: float, unit: str) -> str:
    """A value as it was given, with its unit: '0.35 mm', '15 arcmin', '70 %'; a ratio has none."""
    return f"{plain(value)}{unit_behind(unit)}"


def _decimals_of(value: float, unit: str) -> int:
    if unit == "count":
        return 0
    return next((decimals for decimals in _DECIMALS if round(value * 10**decimals)), 0)


def _with_unit(value: float, unit: str, decimals: int, rounded: Callable[[float], int]) -> str:
    steps = rounded(value * 10**decimals)
    return f"{steps / 10**decimals + 0.0:.{decimals}f}{unit_behind(unit)}"


def _up(steps: float) -> int:
    return math.ceil(steps - _ROUNDING)


def _down(steps: float) -> int:
    return math.floor(steps + _ROUNDING)
