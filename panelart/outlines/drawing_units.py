"""The unit of a drawing: what its file says and what the spec says, which must not differ and not both be silent."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from panelart.canonical import Struct
from panelart.messages import Said
from panelart.messages import outlines as said

MILLIMETRES: Final[Mapping[str, float]] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "thou": 0.0254}
"""The units that a drawing may be in, in mm."""


class Scale(Struct, frozen=True, kw_only=True):
    """Millimetres for one unit of the drawing, or the reason why that is not known."""

    millimetres: float = 0.0
    fault: Said = ""
    hint: Said = ""


def agreed(declared: str, found: float | None, told: Said) -> Scale:
    """The scale from the unit that the spec declares ('' for none) and from what the file gives in mm.

    `told` says in words what the file gives, or that it gives nothing.
    """
    if not declared:
        if found is None:
            return Scale(fault=said.unit_unknown(reason=told), hint=said.declare_the_unit(units=tuple(MILLIMETRES)))
        return Scale(millimetres=found)
    given = MILLIMETRES[declared]
    if found is not None and abs(found / given - 1.0) > 1e-4:
        return Scale(fault=said.unit_contradicted(declared=declared, found=told), hint=said.correct_the_unit())
    return Scale(millimetres=given)
