"""Openings in words and numbers, as a hole table gives them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from panelart.geometry import ORIGIN, Arc, Box, Contour, Line, Point
from panelart.model.panel import Allowance, Coat

_SAME = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """An opening's form and measures in mm, along its own axes, which stand `turn` degrees from the panel's.

    `centre` is what a drawing measures to: the middle of the round where there is one, flats and keys or not.
    `diameter` is None for what has no round, `corner` for what has no corner radius, `narrow` for what is no
    trapezoid: there `width` and `narrow` are those of the wide and the narrow side between sharp corners.
    """

    form: str
    centre: Point
    width: float
    height: float
    diameter: float | None = None
    corner: float | None = None
    narrow: float | None = None
    turn: float = 0.0

    @property
    def across(self) -> float | None:
        """What tells a round with flats or a key from a full round: over the flat or flats, over the key; else None."""
        if self.diameter is None or self.form == "round":
            return None
        return (max if self.form == "key" else min)(self.width, self.height)

    def __str__(self) -> str:
        sides = f"{self.width:.2f} × {self.height:.2f}"
        radius = f" R{self.corner:.2f}" if self.corner else ""
        match self.form:
            case "round":
                text = f"Ø{self.diameter:.2f}"
            case "one flat" | "two flats":
                text = f"Ø{self.diameter:.2f} × {self.across:.2f} {self.form}"
            case "key":
                text = f"Ø{self.diameter:.2f} × {self.across:.2f} over the key"
            case "rectangle":
                text = sides + radius
            case "trapezoid":
                text = f"{self.width:.2f} / {self.narrow:.2f} × {self.height:.2f}{radius} trapezoid"
            case _:
                text = f"{sides} {self.form}"
        return f"{text}, turned {self.turn:g}°" if self.turn else text


def size_of(contour: Contour, turn: float = 0.0) -> Size:
    """Name a contour's form, with its measures over all along axes turned by so many degrees.

    round; one flat, two flats, key (a round with them); slot, rectangle, trapezoid; profile for any other.
    """
    size = _upright(contour.turned(-turn) if turn else contour)
    centre = size.centre.turned(turn, ORIGIN)
    if size.form == "round":
        return replace(size, centre=centre)
    if size.form not in ("rectangle", "slot"):
        return replace(size, centre=centre, turn=turn % 360.0)
    if turn % 180.0 == 90.0:  # an upright oblong again, standing
        return replace(size, centre=centre, width=size.height, height=size.width)
    return replace(size, centre=centre, turn=turn % 180.0)


def _upright(contour: Contour) -> Size:
    round_ = contour.circle
    box = contour.bounds
    if round_ is not None:
        centre, radius = round_
        return Size(form="round", centre=centre, width=2 * radius, height=2 * radius, diameter=2 * radius)
    maximum = _maximum_of_a_round(contour)
    if maximum is not None:
        return Size(
            form=_cut_off(contour, maximum, box),
            centre=maximum.centre,
            width=box.width,
            height=box.height,
            diameter=2 * maximum.radius,
        )
    corner = _corner(contour, box)
    if corner is not None:
        form = "slot" if abs(corner - min(box.width, box.height) / 2) < _SAME else "rectangle"
        return Size(form=form, centre=box.centre, width=box.width, height=box.height, corner=corner)
    return _trapezoid(contour, box) or Size(form="profile", centre=box.centre, width=box.width, height=box.height)


def _maximum_of_a_round(contour: Contour) -> Arc | None:
    """An arc of the circle that makes up more than half a round of the contour, if there is one."""
    sweeps: dict[tuple[float, float, float], float] = {}
    for segment in contour.segments:
        if isinstance(segment, Arc):
            key = (round(segment.centre.x, 6), round(segment.centre.y, 6), round(segment.radius, 6))
            sweeps[key] = sweeps.get(key, 0.0) + abs(segment.sweep_deg)
            if sweeps[key] > 180.0 + _SAME:
                return segment
    return None


def _cut_off(contour: Contour, maximum: Arc, box: Box) -> str:
    """What a round is not a full round by."""
    if max(box.width, box.height) > 2 * maximum.radius + _SAME:
        return "key"
    flats = sum(isinstance(segment, Line) for segment in contour.segments)
    return "one flat" if flats == 1 else "two flats" if flats == 2 else "profile"


def _radius(contour: Contour) -> float | None:
    """The one radius of all the arcs, 0 where there are none, None where they differ."""
    radii = {round(segment.radius, 6) for segment in contour.segments if isinstance(segment, Arc)}
    return None if len(radii) > 1 else next(iter(radii), 0.0)


def _corner(contour: Contour, box: Box) -> float | None:
    """The corner radius of an upright rectangle or slot, 0 for sharp corners, None for any other shape."""
    lines = [segment for segment in contour.segments if isinstance(segment, Line)]
    upright = all(abs(line.start.x - line.end.x) < _SAME or abs(line.start.y - line.end.y) < _SAME for line in lines)
    radius = _radius(contour)
    if not upright or radius is None:
        return None
    cut_off = (4 - math.pi) * radius * radius
    filled = abs(abs(contour.area) - (box.width * box.height - cut_off)) < 1e-4
    return radius if filled else None


def _trapezoid(contour: Contour, box: Box) -> Size | None:
    """A trapezoid that stands on one of its parallel sides, both sloping alike, with one corner radius or none."""
    lines = [segment for segment in contour.segments if isinstance(segment, Line)]
    sloping = [line for line in lines if abs(line.start.y - line.end.y) > _SAME]
    radius = _radius(contour)
    if len(lines) != 4 or len(sloping) != 2 or radius is None:
        return None

    def across(line: Line, y: float) -> float:
        share = (y - line.start.y) / (line.end.y - line.start.y)
        return line.start.x + share * (line.end.x - line.start.x)

    one, other = sloping
    widths = [abs(across(one, y) - across(other, y)) for y in (box.bottom, box.top)]
    middles = [(across(one, y) + across(other, y)) / 2 for y in (box.bottom, box.top)]
    if abs(middles[0] - middles[1]) > 1e-4:
        return None
    return Size(
        form="trapezoid",
        centre=box.centre,
        width=max(widths),
        height=box.height,
        corner=radius,
        narrow=min(widths),
    )


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
