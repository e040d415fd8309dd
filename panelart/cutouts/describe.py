"""Openings in words and numbers, as a hole table gives them."""

from __future__ import annotations

from dataclasses import dataclass

from panelart.geometry import Arc, Box, Contour, Line, Point
from panelart.model.panel import Allowance, Coat

_SAME = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """An opening's form and measures in mm.

    `centre` is what a drawing measures to: the middle of the round where there is one, flats and keys or not.
    `diameter` is None for what has no round, `corner` for what has no corner radius.
    """

    form: str
    centre: Point
    width: float
    height: float
    diameter: float | None = None
    corner: float | None = None

    def __str__(self) -> str:
        if self.form == "round":
            return f"Ø{self.diameter:.2f}"
        if self.diameter is not None:
            other = min(self.width, self.height) if self.form == "flats" else max(self.width, self.height)
            return f"Ø{self.diameter:.2f} × {other:.2f} {self.form}"
        sides = f"{self.width:.2f} × {self.height:.2f}"
        if self.form == "rectangle":
            return f"{sides} R{self.corner:.2f}" if self.corner else sides
        return f"{sides} {self.form}"


def size_of(contour: Contour) -> Size:
    """Name a contour's form, with its measures over all.

    round; flats (a round with one flat or two); key (a round with a keyway); slot and rectangle (upright); profile.
    """
    round_ = contour.circle
    box = contour.bounds
    if round_ is not None:
        centre, radius = round_
        return Size(form="round", centre=centre, width=2 * radius, height=2 * radius, diameter=2 * radius)
    most = _most_of_a_round(contour)
    if most is not None:
        form = "key" if max(box.width, box.height) > 2 * most.radius + _SAME else "flats"
        return Size(form=form, centre=most.centre, width=box.width, height=box.height, diameter=2 * most.radius)
    corner = _corner(contour, box)
    if corner is None:
        return Size(form="profile", centre=box.centre, width=box.width, height=box.height)
    ends = min(box.width, box.height) / 2
    form = "slot" if abs(corner - ends) < _SAME else "rectangle"
    return Size(form=form, centre=box.centre, width=box.width, height=box.height, corner=corner)


def _most_of_a_round(contour: Contour) -> Arc | None:
    """An arc of the circle that makes up more than half a round of the contour, if there is one."""
    sweeps: dict[tuple[float, float, float], float] = {}
    for segment in contour.segments:
        if isinstance(segment, Arc):
            key = (round(segment.centre.x, 6), round(segment.centre.y, 6), round(segment.radius, 6))
            sweeps[key] = sweeps.get(key, 0.0) + abs(segment.sweep_deg)
            if sweeps[key] > 180.0 + _SAME:
                return segment
    return None


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


def film_in_words(coat: Coat) -> str:
    """The film as a sheet states it: '0.08 mm', '0.06 to 0.12 mm'."""
    if coat.thinnest is None or coat.thickest is None or coat.thinnest == coat.thickest:
        return f"{coat.film:g} mm"
    return f"{coat.thinnest:g} to {coat.thickest:g} mm"


def allowance(coat: Coat) -> str:
    """Which sizes the cut files carry, as a sentence without its stop."""
    if coat.build == 0.0:
        return "Cut sizes are the finished sizes: the coat adds nothing"
    film = f"the film of {film_in_words(coat)}"
    if coat.growth != 1.0:
        film += f" ({coat.build:.4g} mm of it stands above the metal)"
    match coat.allowance:
        case Allowance.DRAWING:
            return f"Cut sizes allow for {film} on every surface"
        case Allowance.SHOP:
            return f"Finished sizes: the shop allows for {film} itself"
        case Allowance.NONE:
            return f"Sizes as asked for: nobody allows for {film}, openings finish smaller by twice that"
