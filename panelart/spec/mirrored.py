"""What stands beside a part in a copy, a mirror or a turned module: sides, ends and offsets as they are on the panel.

Places and sides are mirrored and turned; letters never are mirrored, and none stands on its head.
"""

from __future__ import annotations

from typing import Final

from msgspec.structs import replace

from panelart.geometry import Transform, Vector, direction
from panelart.model.panel import Anchor, ArcLine, FreeText, LegendRequest, Place, Scale
from panelart.spec.places import Carry

_TO: Final = {
    "left": Vector(-1.0, 0.0),
    "right": Vector(1.0, 0.0),
    "above": Vector(0.0, 1.0),
    "below": Vector(0.0, -1.0),
}

_HALF: Final = 0.5


def legend(request: LegendRequest, carry: Carry) -> LegendRequest:
    """A legend as its copy has it: an exact place is carried along, sides are exchanged in a mirror and turned."""
    motion = carry.motion

    def aligned(written: Anchor | None) -> Anchor | None:
        return None if carry.quarter and request.at is None else end(written, motion)

    return replace(
        request,
        at=None if request.at is None else motion.apply(request.at),
        place=None if request.place is None else side(request.place, motion),
        align=aligned(request.align),
        offset=None if request.offset is None else Vector(*motion.apply_to_vector(request.offset)),
        more=tuple(replace(one, align=aligned(one.align)) for one in request.more),
    )


def scale(written: Scale, carry: Carry) -> Scale:
    """A straight scale on the side where the mirror shows it; a dial turns as it did."""
    if written.straight is None:
        return written
    return replace(written, straight=replace(written.straight, side=side(written.straight.side, carry.motion)))


def side(place: Place, motion: Transform) -> Place:
    """A side of a part as it is after a motion of quarter turns and mirrors."""
    way = Vector(0.0, 0.0)
    for word in place.value.split("-"):
        way = way.plus(_TO[word])
    moved = motion.apply_to_vector(way)
    upright = "above" if moved.y > _HALF else "below" if moved.y < -_HALF else ""
    across = "right" if moved.x > _HALF else "left" if moved.x < -_HALF else ""
    return Place("-".join(word for word in (upright, across) if word))


def end(written: Anchor | None, motion: Transform) -> Anchor | None:
    """An end of words that stay level, where left and right are exchanged or not."""
    if written is None or motion.a > -_HALF:
        return written
    return _OTHER_END.get(written, written)


_OTHER_END: Final = {Anchor.LEFT: Anchor.RIGHT, Anchor.RIGHT: Anchor.LEFT}


def free_text(text: FreeText, carry: Carry, below: float, above: float) -> FreeText:
    """Words at a place of their own where their copy has them: the room they take is mirrored, the letters are not.

    `below` and `above` are how far they reach below and above the first base line, in mm. Words that are turned over
    are set the other way round, so that they read from below or from the right.
    """
    motion = carry.motion
    if text.arc is not None:
        return _on_arc(text, text.arc, carry, above)
    along, up = direction(text.turn), direction(text.turn + 90.0)
    moved_along, moved_up = motion.apply_to_vector(along), motion.apply_to_vector(up)
    still = carry.only_moves
    reversed_ = not still and _is_over(moved_along) != _is_over(along)
    new_along = moved_along.scaled(-1.0) if reversed_ else moved_along
    new_up = new_along.turned(90.0)
    over = new_up.dot(moved_up) < 0.0
    at = motion.apply(text.at)
    return replace(
        text,
        at=at.moved(new_up.scaled(below - above)) if over else at,
        anchor=_OTHER_END.get(text.anchor, text.anchor) if reversed_ else text.anchor,
        turn=text.turn if still else _degrees(new_along),
    )


def _is_over(along: Vector) -> bool:
    """Whether words in this direction read from above or from the left."""
    return along.x < -_LEVEL or (abs(along.x) <= _LEVEL and along.y < 0.0)


_LEVEL: Final = 1e-9


def _degrees(way: Vector) -> float:
    return round(way.deg, 9) + 0.0


def _on_arc(text: FreeText, arc: ArcLine, carry: Carry, above: float) -> FreeText:
    """Words round a circle, their middle carried along.

    Those that come from above the centre to below it, or the other way round, are turned to be read, in the same room.
    """
    motion = carry.motion
    old, new = direction(text.turn), motion.apply_to_vector(direction(text.turn))
    crossed = (old.y > _LEVEL and new.y < -_LEVEL) or (old.y < -_LEVEL and new.y > _LEVEL)
    feet_inward = arc.feet_inward != crossed
    radius = arc.radius
    if crossed:
        radius += above if arc.feet_inward else -above
    return replace(
        text,
        at=motion.apply(text.at),
        turn=text.turn if carry.only_moves else _degrees(new),
        arc=ArcLine(radius=radius, feet_inward=feet_inward),
    )
