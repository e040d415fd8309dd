"""How much metal goes into a bend, and how far outside lengths overstate the flat.

With a turn of A degrees, inside radius R, thickness T and the neutral line K T from the inside:

    allowance  pi/180 A (R + K T)                length of the bend on the neutral line
    setback    (R + T) tan(A/2), A at most 90    from the outside corner to where the bend begins
    deduction  2 setback - allowance             what is taken off the sum of the outside lengths

Above 90 degrees lengths are measured to the outer tangent, not to the corner that the outsides would meet in, and the
setback stays that of 90 (DIN 6935). Springback is the shop's: it bends further until the angle stands.
"""

from __future__ import annotations

import math

from panelart.model.metal import Bending, Method, ShopBend

_SAME = 1e-6


def allowance(angle: float, radius: float, thickness: float, k: float) -> float:
    """Length of a bend on the neutral line, in the unit of the radius."""
    return math.radians(angle) * (radius + k * thickness)


def setback(angle: float, radius: float, thickness: float) -> float:
    """From where outside lengths are measured to where the bend begins."""
    return (radius + thickness) * math.tan(math.radians(min(angle, 90.0)) / 2)


def deduction(angle: float, radius: float, thickness: float, k: float) -> float:
    """What a bend takes off the sum of the two outside lengths; negative where it adds."""
    return 2 * setback(angle, radius, thickness) - allowance(angle, radius, thickness, k)


def din_6935_k(radius: float, thickness: float) -> float:
    """K of DIN 6935: half its factor k = 0.65 + 0.5 log10(R/T), which is 1 above R/T = 5."""
    ratio = radius / thickness
    factor = 1.0 if ratio > 5.0 else 0.65 + 0.5 * math.log10(ratio)
    return factor / 2


def tested_for(bending: Bending, angle: float, radius: float) -> ShopBend | None:
    """The bend that the shop has measured at this angle and radius."""
    return next(
        (bend for bend in bending.tested if abs(bend.angle - angle) < _SAME and abs(bend.radius - radius) < _SAME),
        None,
    )


def allowance_by(bending: Bending, angle: float, radius: float, thickness: float) -> float:
    """Length of metal in a bend by the shop's method, in mm.

    Raises KeyError for a bend that a shop with a table of its own has not measured.
    """
    match bending.method:
        case Method.FACTOR:
            assert bending.k is not None
            return allowance(angle, radius, thickness, bending.k)
        case Method.DIN_6935:
            return allowance(angle, radius, thickness, din_6935_k(radius, thickness))
        case Method.TESTED:
            bend = tested_for(bending, angle, radius)
            if bend is None:
                raise KeyError(f"{angle:g} degrees at R{radius:g}")
            return 2 * setback(angle, radius, thickness) - bend.deduction
