"""The only conversions of lengths and angles: text with a unit goes in, millimetres or degrees come out.

Inside the program a length is always a float in millimetres and an angle a float in degrees; `Mm` and `Deg`
only say so in a signature.
"""

from __future__ import annotations

import difflib
import math
import re
from fractions import Fraction
from typing import Final, TypeAlias

Mm: TypeAlias = float
Deg: TypeAlias = float

INCH: Final = 25.4
"""Millimetres in an inch, exact (international yard and pound agreement, 1959)."""

POINT: Final = float(Fraction("25.4") / 72)
"""Millimetres in a point of desktop publishing and PDF (ISO 32000: 1/72 inch)."""

RACK_UNIT: Final = 44.45
"""Millimetres in one rack unit U of height (IEC 60297-3-100: 1.75 inch)."""

HORIZONTAL_PITCH: Final = 5.08
"""Millimetres in one horizontal pitch HP of width (IEC 60297-3-101: 0.2 inch)."""

# Kept as fractions, so that '1 1/2 in' gives the float nearest to 38.1 and not one beside it.
_INCH: Final = Fraction("25.4")
_MM_PER: Final[dict[str, Fraction]] = {
    "": Fraction(1),
    "mm": Fraction(1),
    "cm": Fraction(10),
    "in": _INCH,
    "inch": _INCH,
    "inches": _INCH,
    '"': _INCH,
    "thou": _INCH / 1000,
    "mil": _INCH / 1000,
    "pt": _INCH / 72,
    "u": Fraction("44.45"),
    "hp": Fraction("5.08"),
}

_DEG_PER: Final[dict[str, Fraction]] = {name: Fraction(1) for name in ("", "deg", "degree", "degrees", "°")}

_LENGTH_FORMS: Final = (
    'a number of millimetres, or a number and one of mm, cm, in, ", thou, mil, pt, U, HP, '
    "or a fraction such as 1 1/2 in"
)
_ANGLE_FORMS: Final = "a number of degrees, alone or followed by deg or °"

_QUANTITY: Final = re.compile(
    r"\s*(?P<sign>[+-]?)"
    r"(?:(?:(?P<whole>[0-9]+)(?:\s+|\s*-\s*))?(?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)"
    r"|(?P<decimal>(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?))"
    r"\s*(?P<unit>[^0-9\s.,+/-]*)\s*"
)
_LONGEST: Final = 60
"""Characters in a quantity; a longer text is not one."""


def length(text: str) -> Mm:
    """Read '3.2', '3.2 mm', '1/8 in', '1 1/2 in', '0.5"', '20 thou', '9 pt', '2U' or '14HP' into millimetres.

    A number without unit is millimetres. Capitals make no difference to a unit. The result is the float
    nearest to the exact value.

    Raises ValueError with a sentence saying what was found and what is accepted, and the nearest unit when
    the unit is unknown.
    """
    return _read(text, _MM_PER, "a length", _LENGTH_FORMS)


def angle(value: str | float) -> Deg:
    """Read 30, '30', '30 deg' or '30°' into degrees; counter-clockwise is positive.

    Raises ValueError as `length` does; a number that is infinite or not a number is refused too.
    """
    if isinstance(value, str):
        return _read(value, _DEG_PER, "an angle", _ANGLE_FORMS)
    if not math.isfinite(value):
        raise ValueError(f"{value} is not an angle; accepted: {_ANGLE_FORMS}")
    return float(value)


def _read(text: str, units: dict[str, Fraction], what: str, forms: str) -> float:
    found = _QUANTITY.fullmatch(text) if len(text) <= _LONGEST else None
    if found is None:
        shown = text if len(text) <= _LONGEST else text[:_LONGEST] + "..."
        raise ValueError(f"'{shown}' is not {what}; accepted: {forms}")
    factor = units.get(found["unit"].lower())
    if factor is None:
        raise ValueError(
            f"'{found['unit']}' in '{text}' is not a unit of {what}; accepted: {forms}"
            + _nearest_unit(found["unit"], units)
        )
    if found["bottom"] is not None and int(found["bottom"]) == 0:
        raise ValueError(f"'{text}' divides by zero; accepted: {forms}")
    try:
        value = float(_number(found) * factor)
    except OverflowError:
        raise ValueError(f"'{text}' is too large for {what}; accepted: {forms}") from None
    return -value if found["sign"] == "-" else value


def _number(found: re.Match[str]) -> Fraction:
    if found["decimal"] is not None:
        return Fraction(found["decimal"])
    return int(found["whole"] or 0) + Fraction(int(found["top"]), int(found["bottom"]))


def _nearest_unit(unit: str, units: dict[str, Fraction]) -> str:
    near = difflib.get_close_matches(unit.lower(), [name for name in units if name], n=1, cutoff=0.5)
    if not near:
        return ""
    written = near[0].upper() if near[0] in ("u", "hp") else near[0]
    return f"; Did you mean '{written}'?"
