"""Mating plugs with their cables: the room in front of the panel, and a side for the cable to bend to."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from panelart.canonical import Struct
from panelart.checks.enclosure import farthest_beyond
from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit, limit_of_part
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Solid, Survey
from panelart.cutouts.envelopes import CABLE
from panelart.diagnostics import Severity
from panelart.figure import Figure
from panelart.geometry import Box
from panelart.messages import checks_limits as of_limits
from panelart.model.component import Component, Envelope

_BEND: Final = "cable_bend"
"""The name of that figure in the catalogue."""

_WAYS: Final = ("down", "up", "left", "right")


@rule(
    Severity.ERROR,
    says="{subject} is {measured} high; maximum {limit}",
    fix="Choose a part or a plug at most {limit} high, one with its cable at right angles, or more depth in front.",
)
def front_higher_than_room(survey: Survey) -> Iterator[Observation]:
    """A part, its knob, its mating plug or the bend of the cable is higher than the space in front of the panel.

    Checked only when the spec gives that depth (`panel: {depth_in_front: ...}`): to a door, a lid, a wall. Of each part
    the highest is told. A cable that leaves its plug straight out needs its bend radius beyond the plug.

    Source: the depth in the spec; the heights in the part's catalogue entry.
    Fix: a lower part, a plug with its cable at right angles, or more depth.
    Fails: the plug of a BNC socket, 32 mm high, whose cable bends at 25 mm, 50 mm behind a door.
    Passes: the same 60 mm behind a door.
    """
    room = survey.panel.depth_in_front
    if room is None:
        return
    limit = Limit(
        name="",
        what=of_limits.front_height(),
        value=room,
        unit="mm",
        source=of_limits.depth_in_front_in(file=survey.panel.where.name),
        basis=Basis.GIVEN,
    )
    yield from farthest_beyond(survey.front, limit)


front_higher_than_room.cases(
    """
    panel: {depth_in_front: __}
    parts: [{ref: J1, part: bnc, at: [60, 50], legend: In}]
    """,
    fails="50",
    passes="60",
)


class _Bent(Struct, frozen=True, kw_only=True):
    """A plug whose cable leaves straight out: where the plug is, how high it ends, and the bend radius."""

    plug: Solid
    height: float
    bend: Figure
    component: Component


def _bent(survey: Survey) -> Iterator[_Bent]:
    over = {(one.ref, one.contour) for one in survey.layout.envelopes if one.what == CABLE and one.over}
    for solid in survey.front:
        component = survey.component(solid.owner)
        if solid.what == CABLE or component is None or (solid.owner, solid.contour) not in over:
            continue
        for envelope in component.front:
            bend = _bend_of(envelope)
            if bend is not None and envelope.what == solid.what:
                yield _Bent(plug=solid, height=solid.height, bend=bend, component=component)
                break


def _bend_of(envelope: Envelope) -> Figure | None:
    """The bend radius of a cable that leaves straight out."""
    if not envelope.cable or envelope.cable_way:
        return None
    return next((figure for figure in envelope.figures if figure.name == _BEND), None)


def _corridor(plug: Box, radius: float, way: str) -> Box:
    """The ground that a cable passes over as it bends to one side of its plug."""
    match way:
        case "down":
            return Box(plug.left, plug.bottom - radius, plug.right, plug.bottom)
        case "up":
            return Box(plug.left, plug.top, plug.right, plug.top + radius)
        case "left":
            return Box(plug.left - radius, plug.bottom, plug.left, plug.top)
        case _:
            return Box(plug.right, plug.bottom, plug.right + radius, plug.top)


def _free(bent: _Bent, way: str, others: list[Solid]) -> tuple[float, Solid | None]:
    """How far from its plug a cable can go to one side before it meets a part, in mm, and that part."""
    radius = bent.bend.value
    corridor = _corridor(bent.plug.box, radius, way)
    nearest: tuple[float, Solid | None] = (radius, None)
    for other in others:
        if not _within(other.box, corridor):
            continue
        away = bent.plug.box.gap(other.box)
        # The cable rises on a quarter of a circle from the end of the plug.
        passes = bent.height + math.sqrt(max(0.0, 2 * radius * away - away * away))
        if other.height > passes + ROUNDING and away < nearest[0]:
            nearest = (away, other)
    return nearest


def _within(box: Box, corridor: Box) -> bool:
    """Whether a box reaches into a corridor; touching it from outside is not reaching in."""
    across = min(box.right, corridor.right) - max(box.left, corridor.left)
    up = min(box.top, corridor.top) - max(box.bottom, corridor.bottom)
    return across > ROUNDING and up > ROUNDING


@rule(
    Severity.WARNING,
    says="{subject}: the cable of its plug can bend to no side, {measured} towards {other}; minimum {limit}",
    fix="Move the parts apart until {limit} are free beside the plug, or use a plug with its cable at right angles.",
)
def cable_without_way(survey: Survey) -> Iterator[Observation]:
    """The cable that leaves a mating plug straight out cannot bend to any side, because higher parts are all round.

    Up, down, left and right of the plug, a strip as wide as the plug and as long as the bend radius is looked at. A
    part in it is in the way where it is higher than the cable, which rises from the end of the plug on a quarter of a
    circle.

    Source: plug, bend radius and heights in the parts' catalogue entries.
    Fix: more clearance on one side, or a plug with its cable at right angles.
    Fails: a BNC socket with handles 80 mm high on all four sides, 20 mm away.
    Passes: the same without the handle below.
    """
    fronts = [solid for solid in survey.front if solid.what != CABLE]
    for bent in _bent(survey):
        others = [solid for solid in fronts if solid.owner != bent.plug.owner and solid.height > bent.height]
        free = [_free(bent, way, others) for way in _WAYS]
        if any(other is None for _, other in free):
            continue
        widest, blocking = max(free, key=lambda one: one[0])
        assert blocking is not None
        yield Observation(
            refs=(bent.plug.owner, blocking.owner),
            place=bent.plug.box,
            where=bent.plug.where,
            subject=survey.part(bent.plug.owner),
            other=survey.part(blocking.owner),
            measured=widest,
            limit=limit_of_part(bent.component.title, bent.bend, of_limits.cable_bend(), bent.bend.value),
            bound=Bound.MINIMUM,
        )


cable_without_way.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [60, 50], legend: In}
      - ref: W1
        part: &wall
          title: Guard
          openings: [{role: body, circle: {diameter: 4}}]
          front: [{what: guard, rectangle: {width: 10, height: 10}, projection: 80}]
        at: [35, 50]
      - {ref: W2, part: *wall, at: [85, 50]}
      - {ref: W3, part: *wall, at: [60, 75]}
      - {ref: W4, part: *wall, at: [__]}
    """,
    fails="60, 25",
    passes="30, 15",
)
