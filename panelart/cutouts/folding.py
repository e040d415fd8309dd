"""The blank folded up: where a point of its front lies once every bend is made, for pictures of the finished part.

x and y as on the panel, z towards the viewer of the front; the bare front face lies at z = 0.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from panelart.cutouts.blank import Bent
from panelart.geometry import Box
from panelart.model.metal import Edge, Towards


class Place(NamedTuple):
    """A place in space, in mm."""

    x: float
    y: float
    z: float


def folded(bend: Bent, box: Box, along: float, out: float) -> Place:
    """Where a point of the front surface of a flange lies.

    `along` is the panel's own x or y, `out` is w on the blank: from the corner line outwards, bends and all. `box` is
    that of the face as cut.
    """
    w, z = _profile(bend, out)
    match bend.flange.edge:
        case Edge.TOP:
            return Place(along, box.top + w, z)
        case Edge.BOTTOM:
            return Place(along, box.bottom - w, z)
        case Edge.LEFT:
            return Place(box.left - w, along, z)
        case Edge.RIGHT:
            return Place(box.right + w, along, z)


def profile_steps(bend: Bent, per_bend: int = 6) -> list[float]:
    """Values of `out` at which a flange is to be drawn: bends in steps, flats from end to end."""
    first = -bend.setback
    steps = [first + bend.allowance * step / per_bend for step in range(per_bend + 1)]
    if bend.flange.second is not None:
        second = bend.second_start
        steps += [second + bend.second_allowance * step / per_bend for step in range(per_bend + 1)]
    return [*steps, bend.tip]


def _profile(bend: Bent, out: float) -> tuple[float, float]:
    """Outwards from the corner line and towards the viewer, for a point of the front surface."""
    radius = _outer_radius(bend)
    turned = math.radians(bend.flange.angle)
    along = out + bend.setback
    if along <= 0:
        return out, 0.0
    if along <= bend.allowance:
        angle = turned * along / bend.allowance
        return -bend.setback + radius * math.sin(angle), -radius * (1 - math.cos(angle))
    w, z = -bend.setback + radius * math.sin(turned), -radius * (1 - math.cos(turned))
    past = along - bend.allowance
    flat = bend.second_start + bend.setback - bend.allowance
    second = bend.flange.second
    if second is None or past <= flat:
        return w + past * math.cos(turned), z - past * math.sin(turned)
    w, z = w + flat * math.cos(turned), z - flat * math.sin(turned)
    past -= flat
    more = math.radians(second.angle) * min(past / bend.second_allowance, 1.0)
    inwards = second.towards is Towards.IN
    # The front surface lies outside a bend that turns on in the same sense, and inside one that turns back.
    radius = _second_outer(bend) if inwards else second.radius
    way = 1.0 if inwards else -1.0
    w += way * radius * (math.sin(turned + way * more) - math.sin(turned))
    z += way * radius * (math.cos(turned + way * more) - math.cos(turned))
    left = max(past - bend.second_allowance, 0.0)
    last = turned + way * more
    return w + left * math.cos(last), z - left * math.sin(last)


def _outer_radius(bend: Bent) -> float:
    return bend.setback / math.tan(math.radians(min(bend.flange.angle, 90.0)) / 2)


def _second_outer(bend: Bent) -> float:
    assert bend.flange.second is not None
    return bend.second_setback / math.tan(math.radians(min(bend.flange.second.angle, 90.0)) / 2)
