"""Openings in words and numbers, as a hole table gives them."""

from __future__ import annotations

import math
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import ORIGIN, Arc, Box, Contour, Line, Point
from panelart.messages import Message
from panelart.messages import cutouts as said
from panelart.model.panel import Allowance, Coat

_SAME = 1e-6

ONE_FLAT: Final = "one flat"
TWO_FLATS: Final = "two flats"
"""Forms of rounds with flats."""


class Size(Struct, frozen=True, kw_only=True):
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

    @property
    def words(self) -> Message:
        """The size as a hole table gives it, with two decimals."""
        size = self._upright()
        return said.turned_size(size=size, turn=self.turn) if self.turn else size

    def _upright(self) -> Message:
        width, height, across = self.width, self.height, self.across
        if self.diameter is not None:
            if across is None:
                return said.round_size(diameter=self.diameter)
            with_flats = {ONE_FLAT: said.one_flat_size, TWO_FLATS: said.two_flats_size, "key": said.keyed_size}
            if self.form in with_flats:
                return with_flats[self.form](diameter=self.diameter, across=across)
        if self.form == "rectangle":
            if self.corner:
                return said.rounded_rectangle_size(width=width, height=height, radius=self.corner)
            return said.rectangle_size(width=width, height=height)
        if self.narrow is not None:
            if self.corner:
                return said.rounded_trapezoid_size(width=width, narrow=self.narrow, height=height, radius=self.corner)
            return said.trapezoid_size(width=width, narrow=self.narrow, height=height)
        return (said.slot_size if self.form == "slot" else said.profile_size)(width=width, height=height)

    def __str__(self) -> str:
        return str(self.words)


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
    return ONE_FLAT if flats == 1 else TWO_FLATS if flats == 2 else "profile"


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


def deviations(by: tuple[float, float] | None) -> str:
    """Limit deviations (minus, plus) in mm as a drawing writes them: '+0.8/0', '±0.3'; a dash for none."""
    if by is None:
        return "–"
    low, high = by
    return f"±{high:g}" if low == -high and high > 0 else f"{_signed(high)}/{_signed(low)}"


def _signed(value: float) -> str:
    return "0" if value == 0 else f"{value:+g}".replace("-", "\N{MINUS SIGN}")


def coat_thickness(coat: Coat) -> Message:
    """The thickness of the coat on one surface: '0.08 mm', '0.06 to 0.12 mm'."""
    if coat.minimum is None or coat.maximum is None or coat.minimum == coat.maximum:
        return said.coat_thickness(thickness=coat.thickness)
    return said.coat_thickness_range(minimum=coat.minimum, maximum=coat.maximum)


def allowance(coat: Coat) -> Message:
    """Which sizes the cut files carry."""
    if coat.build == 0.0:
        return said.no_allowance()
    thickness = coat_thickness(coat)
    if coat.growth != 1.0:
        growth = {
            Allowance.DRAWING: said.growth_allowed_for,
            Allowance.SHOP: said.shop_allows_for_growth,
            Allowance.NONE: said.growth_not_allowed_for,
        }
        return growth[coat.allowance](thickness=thickness, build=coat.build)
    match coat.allowance:
        case Allowance.DRAWING:
            return said.coat_allowed_for(thickness=thickness)
        case Allowance.SHOP:
            return said.shop_allows(thickness=thickness)
        case Allowance.NONE:
            return said.coat_not_allowed_for(thickness=thickness)
