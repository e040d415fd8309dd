"""What stands beside a part that a mirror shows: sides, ends and offsets as the mirror has them."""

from __future__ import annotations

from msgspec.structs import replace

from panelart.geometry import Transform, Vector
from panelart.model.panel import Anchor, LegendRequest, Place, Scale
from panelart.spec.places import Spot


def legend(request: LegendRequest, spot: Spot) -> LegendRequest:
    """A legend as its copy has it: an exact place is carried along, and sides are exchanged in a mirror."""
    carried = spot.carried
    return replace(
        request,
        at=None if request.at is None else carried.apply(request.at),
        place=None if request.place is None else side(request.place, spot),
        align=_end(request.align, carried),
        offset=None if request.offset is None else Vector(*carried.apply_to_vector(request.offset)),
    )


def scale(written: Scale, spot: Spot) -> Scale:
    """A straight scale on the side where the mirror shows it; a dial turns as it did."""
    if written.straight is None:
        return written
    return replace(written, straight=replace(written.straight, side=side(written.straight.side, spot)))


def side(place: Place, spot: Spot) -> Place:
    """A side of a part as the mirror has it."""
    words = place.value.split("-")
    if spot.flips_across:
        words = [_ACROSS.get(word, word) for word in words]
    if spot.flips_upright:
        words = [_UPRIGHT.get(word, word) for word in words]
    return Place("-".join(words))


_ACROSS = {"left": "right", "right": "left"}
_UPRIGHT = {"above": "below", "below": "above"}


def _end(end: Anchor | None, carried: Transform) -> Anchor | None:
    if end is None or carried.a > 0:
        return end
    return {Anchor.LEFT: Anchor.RIGHT, Anchor.RIGHT: Anchor.LEFT}.get(end, end)
