"""Openings in words and numbers, as a hole table gives them."""

from __future__ import annotations

from dataclasses import dataclass

from panelart.geometry import Arc, Box, Contour, Line, Point

_SAME = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """An opening's form and measures in mm; `diameter` is None for what is not round, `corner` for what has none."""

    form: str
    centre: Point
    width: float
    height: float
    diameter: float | None = None
    corner: float | None = None

    def __str__(self) -> str:
        if self.diameter is not None:
            return f"Ø{self.diameter:.2f}"
        sides = f"{self.width:.2f} × {self.height:.2f}"
        if self.form == "rectangle":
            return f"{sides} R{self.corner:.2f}" if self.corner else sides
        return f"{sides} {self.form}"


def size_of(contour: Contour) -> Size:
    """Name a contour's form: round, slot, rectangle (upright) or profile, with its measures over all."""
    round_ = contour.circle
    box = contour.bounds
    if round_ is not None:
        centre, radius = round_
        return Size(form="round", centre=centre, width=2 * radius, height=2 * radius, diameter=2 * radius)
    corner = _corner(contour, box)
    if corner is None:
        return Size(form="profile", centre=box.centre, width=box.width, height=box.height)
    ends = min(box.width, box.height) / 2
    form = "slot" if abs(corner - ends) < _SAME else "rectangle"
    return Size(form=form, centre=box.centre, width=box.width, height=box.height, corner=corner)


def _corner(contour: Contour, box: Box) -> float | None:
    """The corner radius of an upright rectangle or slot, 0 for sharp corners, None for any other shape."""
    arcs = [segment for segment in contour.segments if isinstance(segment, Arc)]
    radii = {round(arc.radius, 6) for arc in arcs}
    lines = [segment for segment in contour.segments if isinstance(segment, Line)]
    upright = all(abs(line.start.x - line.end.x) < _SAME or abs(line.start.y - line.end.y) < _SAME for line in lines)
    if not upright or len(radii) > 1:
        return None
    radius = arcs[0].radius if arcs else 0.0
    cut_off = (4 - 3.141592653589793) * radius * radius
    filled = abs(abs(contour.area) - (box.width * box.height - cut_off)) < 1e-4
    return radius if filled else None
