"""Where the openings of one purpose are, as one measures it: the pitch of several, the distance of one from the centre.

pitch_x, pitch_y   from the first to the last, across and upright, mm; only where they lie alike about their middle
x, y               from the centre of the part, where all of them have the same, mm
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.figure import Figure
from panelart.geometry import Vector
from panelart.model.component import Opening

AXES: Final = ("x", "y")
_NEAR: Final = 1e-6


class Spacing(Struct, frozen=True, kw_only=True):
    """One distance: its key, its value in mm, the axis, and the middle of the places on it."""

    key: str
    value: float
    axis: str
    middle: float

    def at(self, place: float, value: float) -> float:
        """Where a place comes to be when the distance is another."""
        return value if self.key == self.axis else self.middle + (place - self.middle) * value / self.value


def spacings(openings: Sequence[Opening]) -> tuple[Spacing, ...]:
    """The distances that say where openings are; none along an axis on which they lie unevenly or in the centre."""
    found = (_spacing(openings, axis) for axis in AXES)
    return tuple(one for one in found if one is not None)


def _spacing(openings: Sequence[Opening], axis: str) -> Spacing | None:
    places = sorted({round(_place(opening, axis), 6) for opening in openings})
    if len(places) == 1:
        (only,) = places
        return Spacing(key=axis, value=only, axis=axis, middle=0.0) if only else None
    middle = (places[0] + places[-1]) / 2
    mirrored = (first + last for first, last in zip(places, reversed(places), strict=True))
    if not places or any(abs(both - 2 * middle) > _NEAR for both in mirrored):
        return None
    return Spacing(key=f"pitch_{axis}", value=places[-1] - places[0], axis=axis, middle=middle)


def _place(opening: Opening, axis: str) -> float:
    return next((figure.value for figure in opening.figures if figure.name == axis), 0.0)


def spaced(opening: Opening, known: Sequence[Spacing], changes: Mapping[str, Figure]) -> Opening:
    """An opening where other distances put it; their figures become those of its place."""
    for spacing in known:
        change = changes.get(spacing.key)
        if change is None:
            continue
        here = _place(opening, spacing.axis)
        there = spacing.at(here, change.value)
        by = Vector(there - here, 0.0) if spacing.axis == "x" else Vector(0.0, there - here)
        place = replace(change, name=spacing.axis, value=round(there, 6))
        opening = replace(
            opening,
            contour=opening.contour.moved(by),
            passes=None if opening.passes is None else opening.passes.moved(by),
            figures=tuple(place if figure.name == spacing.axis else figure for figure in opening.figures),
        )
    return opening
