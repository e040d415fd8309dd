"""Scales that turn with their knob: on its skirt, or on a disc behind a window of the panel."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any, Final

from msgspec.structs import replace

from panelart.geometry import ORIGIN, circle, direction, rectangle
from panelart.messages import spec_turning as said
from panelart.model.component import Component, Envelope, Opening, Role
from panelart.model.panel import Carrier, Knob, Law, Scale, TurningScale
from panelart.source.problems import Problems
from panelart.source.schema import Field
from panelart.spec import language
from panelart.spec.control import Control

UP: Final = 90.0
"""Straight up, in degrees counter-clockwise from the right."""

CLOSED: Final = 2.0
"""How far a disc reaches past the corners of its window, mm, so that nothing is seen past it. Common practice."""

_VERNIER_MOST: Final = 90.0
"""Degrees that a vernier may take: its lines are read beside each other. Common practice."""

_STILL: Final[tuple[Field[Any], ...]] = (
    language.Scale.start,
    language.Scale.reading,
    language.Scale.arc,
    language.Scale.zones,
    language.Scale.wedge,
    language.Scale.length,
    language.Scale.side,
    language.Scale.cursor,
)
"""What only a scale on the panel can have."""


def turning(
    fields: language.Scale, scale: Scale, control: Control, knob: Knob | None, problems: Problems
) -> TurningScale | None:
    """The skirt or disc that a scale is on; None for one on the panel, or, told, where it does not fit there."""
    keys = language.Scale
    if fields.skirt is None and fields.disc is None:
        return None
    if fields.skirt is not None and fields.disc is not None:
        problems.add(fields.key_where(keys.disc), said.skirt_and_disc(), said.skirt_or_disc())
        return None
    on = keys.skirt if fields.disc is None else keys.disc
    for field in _STILL:
        if fields.written(field):
            problems.add(fields.key_where(field), said.turning_and(field.name, on.name), said.remove_from_turning())
    if control.component.shaft is None:
        told = said.turning_without_shaft(control.ref, control.component.name)
        problems.add(fields.key_where(on), told, said.part_with_shaft())
        return None
    if fields.skirt is not None:
        return _with_vernier(_skirt(fields.skirt, control, knob, problems), fields.skirt, scale, problems)
    assert fields.disc is not None
    return _disc(fields.disc, control, problems)


def _with_vernier(
    made: TurningScale | None, written: language.Skirt, scale: Scale, problems: Problems
) -> TurningScale | None:
    """The same with the step that a vernier divides, where one is asked for."""
    if made is None or not written.vernier:
        return made
    at = written.key_where(language.Skirt.vernier)
    if scale.minor is None or scale.law is not Law.LINEAR or scale.table or scale.formula:
        problems.add(at, said.vernier_without_steps(), said.linear_with_minor())
        return made
    step = scale.minor / (scale.high - scale.low) * scale.sweep
    if 9 * step >= _VERNIER_MOST:
        problems.add(at, said.vernier_too_long(9 * step), said.vernier_up_to(_VERNIER_MOST))
    return replace(made, vernier=step)


def _skirt(written: language.Skirt, control: Control, knob: Knob | None, problems: Problems) -> TurningScale | None:
    grip = written.grip
    if grip is None:
        return None
    if knob is None:
        problems.add(written.begins, said.skirt_without_knob(control.ref), said.give_knob())
        return None
    if grip >= knob.diameter:
        told = said.grip_too_wide(grip, knob.diameter)
        problems.add(written.where(language.Skirt.grip), told, said.less_than(knob.diameter))
        return None
    if written.height is not None and written.height >= knob.height:
        told = said.skirt_too_high(written.height, knob.height)
        problems.add(written.where(language.Skirt.height), told, said.less_than(knob.height))
        return None
    return TurningScale(
        carrier=Carrier.SKIRT,
        index=UP - written.index + control.turn,
        diameter=knob.diameter,
        inner=grip,
        height=written.height,
    )


def _disc(written: language.Disc, control: Control, problems: Problems) -> TurningScale | None:
    shaft = control.component.shaft
    diameter, window, depth = written.diameter, written.window, written.depth
    if diameter is None or window is None or depth is None or shaft is None:
        return None
    width, height = window[0], window[1]
    radius = diameter / 2 - CLOSED
    end = math.sqrt(max(0.0, radius**2 - (width / 2) ** 2)) if width < 2 * radius else 0.0
    if end - height <= shaft.diameter / 2:
        told = said.window_too_large(width, height, diameter)
        problems.add(written.where(language.Disc.window), told, said.window_within_disc(CLOSED))
        return None
    return TurningScale(
        carrier=Carrier.DISC,
        index=UP - written.index + control.turn,
        diameter=diameter,
        inner=shaft.diameter,
        window=(width, height),
        window_end=end,
        depth=depth,
    )


def with_discs(component: Component, scales: Iterable[Scale], turn: float) -> Component:
    """A component with the windows that are cut for its discs, and the discs behind the panel."""
    for scale in scales:
        disc = scale.turning
        if disc is None or disc.window is None:
            continue
        width, height = disc.window
        way = disc.index - turn
        middle = ORIGIN.moved(direction(way).scaled(disc.window_end - height / 2))
        window = rectangle(width, height, ORIGIN).turned(way - UP, ORIGIN).moved(middle.minus(ORIGIN))
        component = replace(
            component,
            openings=(*component.openings, Opening(role=Role.APERTURE, contour=window, figures=())),
            rear=(
                *component.rear,
                Envelope(what="disc", contour=circle(disc.diameter), height=disc.depth, figures=()),
            ),
        )
    return component
