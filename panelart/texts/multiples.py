"""A unit with another prefix, so that the numbers before it are shorter: 20000 Hz are 20 kHz."""

from __future__ import annotations

import math

from panelart.texts.units import PREFIXES, UNITS


def multiple(written: str, by: float) -> str | None:
    """The unit that is so many times as large and differs in its prefix only; None where no such unit is met with.

    What stands behind the unit stays: V DC is kV DC.

    >>> multiple("Hz", 1000.0), multiple("mV", 1000.0), multiple("r/min", 1000.0)
    ('kHz', 'V', None)
    """
    symbol, space, more = written.partition(" ")
    unit = UNITS.get(symbol)
    if unit is None or unit.offset or unit.parts[0].exponent != 1.0:
        return None
    before = unit.parts[0].prefix
    size = PREFIXES.get(before, 1.0) * by
    for prefix in ("", *PREFIXES):
        larger = f"{prefix}{symbol.removeprefix(before)}"
        found = UNITS.get(larger)
        if (
            math.isclose(PREFIXES.get(prefix, 1.0), size, rel_tol=1e-9)
            and found is not None
            and found.dimension == unit.dimension
            and math.isclose(found.factor, unit.factor * by, rel_tol=1e-9)
        ):
            return f"{larger}{space}{more}"
    return None
