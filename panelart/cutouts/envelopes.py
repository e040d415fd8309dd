"""What every part takes in front of the face and behind it, knobs included."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, Protocol, TypeVar

from msgspec.structs import replace

from panelart.geometry import Box, Contour, Point, circle, rectangle
from panelart.model.component import Envelope, EnvelopeRole
from panelart.model.layout import PlacedEnvelope
from panelart.model.panel import Knob, Panel, Part, Side
from panelart.stages import stage

CABLE: Final = "cable"
"""What the room of a plug's cable is called."""

UP: Final = 90.0
"""Straight up, in degrees counter-clockwise from the right."""


class _Standing(Protocol):
    """What stands in front of the face, as a layout or a survey has it."""

    @property
    def what(self) -> str: ...

    @property
    def role(self) -> EnvelopeRole: ...


T = TypeVar("T", bound=_Standing)


def gripped(of_one: Iterable[T]) -> list[T]:
    """What the hand takes hold of among the envelopes of one control: its knob, else what is operated."""
    operated = [thing for thing in of_one if thing.role is EnvelopeRole.ACTUATOR]
    return [thing for thing in operated if thing.what == "knob"] or operated


def stand(panel: Panel) -> tuple[PlacedEnvelope, ...]:
    """Every envelope of every part where it stands, in the order of the parts, front before rear."""
    return tuple(envelope for part in panel.parts for envelope in envelopes_of(part))


def _pointing(part: Part, envelope: Envelope) -> Contour:
    """An envelope in its part's frame; a handle that turns points at the first position."""
    first = next((each.direction for each in part.positions if not isinstance(each.direction, str)), None)
    if not envelope.sweeps or first is None:
        return envelope.contour
    return envelope.contour.turned(first - UP - part.turn)


@stage
def envelopes_of(part: Part) -> tuple[PlacedEnvelope, ...]:
    """Every envelope of one part where it stands, front before rear."""
    placed = [
        PlacedEnvelope(
            ref=part.ref,
            what=envelope.what,
            contour=part.on_panel(_pointing(part, envelope)),
            height=envelope.height,
            side=side,
            covers=envelope.covers,
            where=part.where,
            colour=envelope.colour,
            role=envelope.role,
        )
        for side, envelopes in ((Side.FRONT, part.component.front), (Side.REAR, part.component.rear))
        for envelope in envelopes
    ]
    placed += [
        PlacedEnvelope(
            ref=part.ref,
            what="countersink",
            contour=part.on_panel(circle(opening.countersink.diameter, opening.contour.bounds.centre)),
            height=0.0,
            side=Side.REAR if opening.countersink.from_rear else Side.FRONT,
            covers=True,
            where=part.where,
        )
        for opening in part.component.openings
        if opening.countersink is not None
    ]
    placed += [
        PlacedEnvelope(
            ref=part.ref,
            what=f"{envelope.what} travel",
            contour=part.on_panel(circle(envelope.sweeps, Point(0.0, 0.0))),
            height=envelope.height,
            side=Side.FRONT,
            covers=False,
            where=part.where,
            role=EnvelopeRole.ACTUATOR,
        )
        for envelope in part.component.front
        if envelope.sweeps
    ]
    placed += [
        _cable(part, envelope, side)
        for side, envelopes in ((Side.FRONT, part.component.front), (Side.REAR, part.component.rear))
        for envelope in envelopes
        if envelope.cable
    ]
    if part.knob is not None:
        placed += _knob(part, part.knob)
    return tuple(placed)


def _knob(part: Part, knob: Knob) -> list[PlacedEnvelope]:
    """A knob, and the low skirt round what the hand holds where a scale tells them apart."""
    turning = None if part.scale is None else part.scale.turning
    skirt = PlacedEnvelope(
        ref=part.ref,
        what="knob",
        contour=part.on_panel(circle(knob.diameter, Point(0.0, 0.0))),
        height=knob.height,
        side=Side.FRONT,
        covers=True,
        where=part.where,
        role=EnvelopeRole.ACTUATOR,
    )
    if turning is None or turning.height is None:
        return [skirt]
    grip = replace(skirt, contour=part.on_panel(circle(turning.inner, Point(0.0, 0.0))))
    return [replace(skirt, what="skirt", height=turning.height, role=EnvelopeRole.BODY), grip]


def cable_room(plug: Envelope) -> Contour:
    """The ground that the cable of a plug needs to bend, in the part's frame: the plug's own, or beside it."""
    box = plug.contour.bounds
    beside = {
        "up": Box(box.left, box.centre.y, box.right, box.top + plug.cable),
        "down": Box(box.left, box.bottom - plug.cable, box.right, box.centre.y),
        "left": Box(box.left - plug.cable, box.bottom, box.centre.x, box.top),
        "right": Box(box.centre.x, box.bottom, box.right + plug.cable, box.top),
    }.get(plug.cable_way)
    return plug.contour if beside is None else rectangle(beside.width, beside.height, beside.centre)


def cable_height(plug: Envelope) -> float:
    """How far from the face the cable of a plug reaches, in mm."""
    return plug.height if plug.cable_way else plug.height + plug.cable


def _cable(part: Part, plug: Envelope, side: Side) -> PlacedEnvelope:
    """The room that the cable of a plug needs to bend: over the plug, or beside it on the side where it leaves."""
    return PlacedEnvelope(
        ref=part.ref,
        what=CABLE,
        contour=part.on_panel(cable_room(plug)),
        height=cable_height(plug),
        side=side,
        covers=False,
        where=part.where,
        over=not plug.cable_way,
    )
