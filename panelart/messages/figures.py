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

_ZERO: Final = Decimal(0)
_STEPS: Final = tuple(Decimal(1).scaleb(-decimals) for decimals in range(_MAX_DECIMALS + 1))
"""One step of the last digit, by the number of decimals."""

_EXACT: Final = Context(prec=60)

_HUGE: Final = Decimal("1e15")
"""From here on numbers are written with a power of ten: they are errors, and nobody counts their digits."""

_BEHIND: Final = {"ratio": "", "count": "", "percent": " %", "deg": "°"}
"""How a unit is written behind its number, where not by its name."""


def unit_behind(unit: str) -> str:
    """What is written behind a number in this unit, with the space before it."""
    return _BEHIND.get(unit, f" {unit}" if unit else "")


def measured(value: float, unit: str) -> str:
    """A measured value: '2.30 mm', with more decimals where two would leave nothing of a small one."""
    number = _decimal(value)
    return _written(number, unit, _decimals_of(number, unit), ROUND_HALF_UP)


def compared(value: float, limit: float, unit: str) -> tuple[str, str]:
    """A measured value and its limit, both with as many decimals as it takes to tell them apart."""
    number, bound = _decimal(value), _decimal(limit)
    fewest = max(_decimals_of(number, unit), _decimals_of(bound, unit), _decimals_given(bound, unit))
    if number.is_finite() and bound.is_finite() and abs(number - bound) <= _SAME:
        number = bound
    shown, shown_bound = (_written(one, unit, fewest, ROUND_HALF_UP) for one in (number, bound))
    while (
        shown == shown_bound and number != bound and number.is_finite() and unit != "count" and fewest < _MAX_DECIMALS
    ):
        fewest += 1
        shown, shown_bound = (_written(one, unit, fewest, ROUND_HALF_UP) for one in (number, bound))
    return shown, shown_bound


def at_least(value: float, unit: str) -> str:
    """A value that must be reached, rounded up, so that who writes it down is on the safe side."""
    number = _decimal(value)
    return _written(number, unit, _decimals_of(number, unit), ROUND_CEILING)


def at_most(value: float, unit: str) -> str:
    """A value that must not be exceeded, rounded down."""
    number = _decimal(value)
    return _written(number, unit, _decimals_of(number, unit), ROUND_FLOOR)


def plain(value: float) -> str:
    """A number as a designer would type it: 12, 0.35, -4.5; no zeros behind, no noise beyond a millionth."""
    number = _decimal(value)
    if _is_huge(number):
        return f"{float(value):g}"
    text = f"{number.quantize(_STEPS[6], ROUND_HALF_UP, _EXACT) + 0:f}"
    return text.rstrip("0").rstrip(".")


def in_unit(value: float, unit: str) -> str:
    """A value as it was given, with its unit: '0.35 mm', '15 arcmin', '70 %'; a ratio has none."""
    return f"{plain(value)}{unit_behind(unit)}"


def _decimals_of(number: Decimal, unit: str) -> int:
    size = abs(number)
    if unit == "count" or _is_huge(size) or size <= _SAME:
        return 0
    return next((decimals for decimals in range(_FEWEST, _MAX_DECIMALS) if size >= _STEPS[decimals]), _MAX_DECIMALS)


def _decimals_given(limit: Decimal, unit: str) -> int:
    """Decimals that a limit has by itself: all of a figure from a table, none of one that was computed."""
    if unit == "count" or _is_huge(limit):
        return 0
    hundredths, thousandths = (
        limit.quantize(_STEPS[decimals], ROUND_HALF_UP, _EXACT) for decimals in (_FEWEST, _GIVEN)
    )
    return _GIVEN if hundredths != limit == thousandths else 0


def _written(number: Decimal, unit: str, decimals: int, rounding: str) -> str:
    if _is_huge(number):
        return f"{float(number):g}{unit_behind(unit)}"
    if abs(number) <= _SAME:
        number = _ZERO
    # Adding zero turns a negative zero into a plain one.
    return f"{number.quantize(_STEPS[decimals], rounding, _EXACT) + 0:f}{unit_behind(unit)}"


def _decimal(value: float) -> Decimal:
    """The number as it is written in decimals, without the noise of its computation."""
    number = Decimal(repr(float(value)))
    return number if _is_huge(number) else number.quantize(_NOISE, ROUND_HALF_EVEN, _EXACT)


def _is_huge(number: Decimal) -> bool:
    return not number.is_finite() or abs(number) >= _HUGE
