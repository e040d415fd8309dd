"""How numbers are written in sentences: one place for digits, units and rounding.

A figure is shown to the digit that decides: two decimals of a millimetre, more where two would leave less than one
digit of a small value, would round a limit that has a third, or would make a measured value and its limit read the
same. What differs by less than half a millionth is the same.

Rounding is that of ISO 80000-1:2009, annex B. Halves go away from zero (rule B, as on every pocket calculator and in
every workshop), judged on the number as it is written in decimals, not on its binary neighbour: 0.345 gives 0.35. Where
a limit must be kept, it goes in one direction always, to the safe side. A number is rounded once: never what was
rounded before, except that noise of the computation beyond the ninth decimal is taken off first.
"""

from __future__ import annotations

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, ROUND_HALF_UP, Context, Decimal
from typing import Final

_FEWEST: Final = 2
"""Decimals of a usual value."""

_GIVEN: Final = 3
"""Decimals of a limit that are all shown; a longer one was computed and is rounded."""

_MAX_DECIMALS: Final = 7
"""One more than a millionth, so that values more than half a millionth apart never read the same."""

_SAME: Final = Decimal("5e-7")
"""Values no further apart are the same, and a value no further from zero is zero."""

_NOISE: Final = Decimal("1e-9")
"""Beyond this decimal a number says nothing but how it was computed."""

_EXACT: Final = Context(prec=60)

_BEHIND: Final = {"ratio": "", "count": "", "percent": " %", "deg": "°"}
"""How a unit is written behind its number, where not by its name."""


def unit_behind(unit: str) -> str:
    """What is written behind a number in this unit, with the space before it."""
    return _BEHIND.get(unit, f" {unit}" if unit else "")


def measured(value: float, unit: str) -> str:
    """A measured value: '2.30 mm', with more decimals where two would leave nothing of a small one."""
    return _written(value, unit, _decimals_of(value, unit), ROUND_HALF_UP)


def compared(value: float, limit: float, unit: str) -> tuple[str, str]:
    """A measured value and its limit, both with as many decimals as it takes to tell them apart."""
    fewest = max(_decimals_of(value, unit), _decimals_of(limit, unit), _decimals_given(limit, unit))
    shown = bound = _written(limit, unit, fewest, ROUND_HALF_UP)
    if unit != "count" and _alike(value, limit):
        return shown, bound
    for decimals in range(fewest, _MAX_DECIMALS + 1):
        shown, bound = (_written(number, unit, decimals, ROUND_HALF_UP) for number in (value, limit))
        if shown != bound or unit == "count":
            break
    return shown, bound


def at_least(value: float, unit: str) -> str:
    """A value that must be reached, rounded up, so that who writes it down is on the safe side."""
    return _written(value, unit, _decimals_of(value, unit), ROUND_CEILING)


def at_most(value: float, unit: str) -> str:
    """A value that must not be exceeded, rounded down."""
    return _written(value, unit, _decimals_of(value, unit), ROUND_FLOOR)


def plain(value: float) -> str:
    """A number as a designer would type it: 12, 0.35, -4.5; no zeros behind, no noise beyond a millionth."""
    if not math.isfinite(value):
        return f"{value}"
    text = f"{_rounded(_decimal(value), 6, ROUND_HALF_UP) + 0:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def in_unit(value: float, unit: str) -> str:
    """A value as it was given, with its unit: '0.35 mm', '15 arcmin', '70 %'; a ratio has none."""
    return f"{plain(value)}{unit_behind(unit)}"


def _decimals_of(value: float, unit: str) -> int:
    if unit == "count" or not math.isfinite(value) or _alike(value, 0.0):
        return 0
    size = abs(_decimal(value))
    return next((decimals for decimals in range(_FEWEST, _MAX_DECIMALS) if size.scaleb(decimals) >= 1), _MAX_DECIMALS)


def _decimals_given(limit: float, unit: str) -> int:
    """Decimals that a limit has by itself: all of a figure from a table, none of one that was computed."""
    if unit == "count" or not math.isfinite(limit):
        return 0
    number = _decimal(limit)
    return (
        _GIVEN if _rounded(number, _FEWEST, ROUND_HALF_UP) != number == _rounded(number, _GIVEN, ROUND_HALF_UP) else 0
    )


def _alike(one: float, other: float) -> bool:
    if not (math.isfinite(one) and math.isfinite(other)):
        return one == other
    return abs(_decimal(one) - _decimal(other)) <= _SAME


def _written(value: float, unit: str, decimals: int, rounding: str) -> str:
    if not math.isfinite(value):
        return f"{value}{unit_behind(unit)}"
    number = Decimal(0) if _alike(value, 0.0) else _decimal(value)
    # Adding zero turns a negative zero into a plain one.
    return f"{_rounded(number, decimals, rounding) + 0:f}{unit_behind(unit)}"


def _decimal(value: float) -> Decimal:
    """The number as it is written in decimals, without the noise of its computation."""
    return Decimal(repr(float(value))).quantize(_NOISE, ROUND_HALF_EVEN, _EXACT)


def _rounded(number: Decimal, decimals: int, rounding: str) -> Decimal:
    return number.quantize(Decimal(1).scaleb(-decimals), rounding, _EXACT)
