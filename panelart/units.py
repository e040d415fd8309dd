"""The only conversions of lengths and angles: text with a unit goes in, millimetres or degrees come out.

Inside the program a length is always a float in millimetres and an angle a float in degrees; `Mm` and `Deg`
only say so in a signature.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from fractions import Fraction
from typing import Final, TypeAlias

from panelart.canonical import Struct
from panelart.messages import Message
from panelart.messages import units as said

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

_QUANTITY: Final = re.compile(
    r"\s*(?P<sign>[+-]?)"
    r"(?:(?:(?P<whole>[0-9]+)(?:\s+|\s*-\s*))?(?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)"
    r"|(?P<decimal>(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?))"
    r"\s*(?P<unit>[^0-9\s.,+/-]*)\s*"
)
_LONGEST: Final = 60
"""Characters in a quantity; a longer text is not one."""


class UnitError(ValueError):
    """A text is no quantity of the kind that was asked for: what was found (`says`), and what is accepted."""

    def __init__(self, says: Message, accepts: Message) -> None:
        super().__init__(says, accepts)
        self.says = says
        self.accepts = accepts

    def __str__(self) -> str:
        return f"{self.says}. {self.accepts}"


class _Quantity(Struct, frozen=True):
    """A kind of quantity: its units, and what is said of texts that are none."""

    units: dict[str, Fraction]
    refused: Callable[[str], Message]
    unknown_unit: Callable[[str, str], Message]
    accepted: Callable[[], Message]


_LENGTH: Final = _Quantity(_MM_PER, said.not_a_length, said.unknown_unit_of_length, said.lengths)
_ANGLE: Final = _Quantity(_DEG_PER, said.not_an_angle, said.unknown_unit_of_angle, said.angles)


def length(text: str) -> Mm:
    """Read '3.2', '3.2 mm', '1/8 in', '1 1/2 in', '0.5"', '20 thou', '9 pt', '2U' or '14HP' into millimetres.

    A number without unit is millimetres. Capitals make no difference to a unit. The result is the float
    nearest to the exact value.

    Raises UnitError, which says what was found and what is accepted, and the nearest unit when the unit is unknown.
    """
    return _read(text, _LENGTH)


def angle(value: str | float) -> Deg:
    """Read 30, '30', '30 deg' or '30°' into degrees; counter-clockwise is positive.

    Raises UnitError as `length` does; a number that is infinite or not a number is refused too.
    """
    if isinstance(value, str):
        return _read(value, _ANGLE)
    if not math.isfinite(value):
        raise UnitError(said.not_an_angle(str(value)), said.angles())
    return float(value)


def _read(text: str, quantity: _Quantity) -> float:
    accepted = quantity.accepted()
    found = _QUANTITY.fullmatch(text) if len(text) <= _LONGEST else None
    if found is None:
        raise UnitError(quantity.refused(text), accepted)
    factor = quantity.units.get(found["unit"].lower())
    if factor is None:
        raise UnitError(quantity.unknown_unit(found["unit"], text), _nearest_unit(found["unit"], quantity))
    if found["bottom"] is not None and int(found["bottom"]) == 0:
        raise UnitError(said.division_by_zero(text), accepted)
    try:
        value = float(_number(found) * factor)
    except OverflowError:
        raise UnitError(said.too_large(text), accepted) from None
    return -value if found["sign"] == "-" else value


def _number(found: re.Match[str]) -> Fraction:
    if found["decimal"] is not None:
        return Fraction(found["decimal"])
    return int(found["whole"] or 0) + Fraction(int(found["top"]), int(found["bottom"]))


def _nearest_unit(unit: str, quantity: _Quantity) -> Message:
    accepted = quantity.accepted()
    import difflib  # for who has mistyped something

    near = difflib.get_close_matches(unit.lower(), [name for name in quantity.units if name], n=1, cutoff=0.5)
    if not near:
        return accepted
    return said.nearest_unit(near[0].upper() if near[0] in ("u", "hp") else near[0], accepted)
