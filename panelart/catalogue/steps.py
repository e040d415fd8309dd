"""Where the steps of a scale are: at whole multiples, as instrument makers count, and what then becomes of its ends."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Final

from panelart.catalogue.laws import travelled
from panelart.model.panel import Scale

APART: Final = 0.6
"""An end that is no multiple of the step stands by itself where it is so many steps, measured along the scale, from the
next multiple: a numeral at every step leaves that room. Common practice."""

_NEAR: Final = 1e-9


def multiples(scale: Scale, step: float) -> list[float]:
    """The whole multiples of a step from the low end to the high end: 40, 60 … 200 from 32 to 212."""
    first, last = math.ceil(scale.low / step - _NEAR), math.floor(scale.high / step + _NEAR)
    return [step * number for number in range(first, last + 1)]


def odd_ends(scale: Scale) -> list[float]:
    """The ends that are no multiples of the long step; none where the scale has no such step."""
    step = scale.major
    if step is None or scale.marks:
        return []
    return [end for end in (scale.low, scale.high) if abs(end / step - round(end / step)) > _NEAR * max(1.0, abs(end))]


def long_ends(scale: Scale, step: float) -> list[float]:
    """The odd ends that stand apart from the multiples of a step; all where it has fewer than two multiples."""
    values = multiples(scale, step)
    if len(values) < 2:
        return odd_ends(scale)
    found: list[float] = []
    for end in odd_ends(scale):
        nearest, after = (values[0], values[1]) if end < values[0] else (values[-1], values[-2])
        near, whole = (
            abs(travelled(scale, one) - travelled(scale, two)) for one, two in ((end, nearest), (nearest, after))
        )
        if near >= APART * whole - _NEAR:
            found.append(end)
    return found


def decimals(value: float) -> int:
    """How many decimals a number needs to be shown in full, at most 6."""
    exponent = Decimal(repr(value)).normalize().as_tuple().exponent
    return min(6, max(0, -exponent)) if isinstance(exponent, int) else 0
