"""What a control carries: the names of its positions, its scale, its knob, each checked against the component."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from panelart.diagnostics import Where, did_you_mean
from panelart.model.component import Component, Motion
from panelart.model.panel import Knob, Position, Scale
from panelart.source.nodes import Scalar
from panelart.source.problems import Problems, shown
from panelart.source.schema import Angle, Fields, Value
from panelart.spec import language
from panelart.spec.lettered import Letterer

MOST_MARKS: Final = 1000
"""The most marks on one scale; a finger's breadth of dial cannot show more."""

UP: Final = 90.0
"""Straight up, in degrees counter-clockwise from the right."""

_TOLERANCE: Final = 1e-9
_ANGLE: Final = Angle(least=-360, most=360)


@dataclass(frozen=True, slots=True, kw_only=True)
class Control:
    """The part that is looked at: what it is, how it is turned, and the numbers its braces stand for."""

    ref: str
    component: Component
    turn: float
    numbers: Mapping[str, int]


def positions(written: object, where: Where, control: Control, letterer: Letterer) -> tuple[Position, ...]:
    """The named positions, from a list of texts, a record with texts and sweep, or a mapping."""
    problems = letterer.problems
    component = control.component
    turning = component.motion is Motion.TURN
    if not turning and not component.positions:
        problems.add(
            where,
            f"{control.ref} has positions, but a {component.name} has none",
            "leave 'positions' out, or take another part",
        )
        return ()
    if isinstance(written, Fields):
        sweep = written[language.POSITION_SWEEP] or 0.0
        texts = written[language.POSITION_TEXTS] or ()
        listed = True
    else:
        assert isinstance(written, tuple)
        sweep = language.POSITION_SWEEP.default or 0.0
        listed = bool(written) and isinstance(written[0], Value)
        texts = written if listed else ()
    if listed and not turning:
        problems.add(
            where,
            f"{control.ref} has a list of positions, but a {component.name} does not turn",
            f"accepted: {_directions(component)}, each with a text",
        )
        return ()
    if listed:
        directions: list[str | float] = [*_round(len(texts), sweep, control.turn)]
        named = list(zip(directions, texts, strict=True))
    else:
        assert isinstance(written, tuple)
        named = _named(written, control, problems)
    return tuple(
        Position(direction=direction, request=request)
        for direction, text in named
        if (request := letterer.request(text.value, text.where, "position", control.numbers)) is not None
    )


def _directions(component: Component) -> str:
    return ", ".join(component.positions)


def _round(count: int, sweep: float, turn: float) -> list[float]:
    """Directions of positions spread clockwise over a sweep that is centred on straight up."""
    if count == 1:
        return [UP + turn]
    step = sweep / (count if sweep >= 360 else count - 1)
    low = UP + (step * (count - 1)) / 2 + turn
    return [low - step * number for number in range(count)]


def _named(
    entries: tuple[tuple[Value[str], Value[str]], ...], control: Control, problems: Problems
) -> list[tuple[str | float, Value[str]]]:
    found: list[tuple[str | float, Value[str]]] = []
    component = control.component
    angles: dict[float, Where] = {}
    for key, text in entries:
        if component.motion is not Motion.TURN:
            if key.value in component.positions:
                found.append((key.value, text))
            else:
                near = did_you_mean(key.value, component.positions, f"positions of a {component.name}")
                problems.add(key.where, f"a {component.name} has no position {shown(key.value)}", near)
            continue
        angle = _ANGLE.parse(Scalar(text=key.value, quoted=False, where=key.where), problems)
        if angle is None:
            continue
        if angle % 360 in angles:
            first = angles[angle % 360]
            problems.add(
                key.where,
                f"two positions at {angle:g} degrees; the first is at {first.line}:{first.column}",
                "accepted: each angle once",
            )
            continue
        angles[angle % 360] = key.where
        found.append((angle + control.turn, text))
    return found


def knob(fields: Fields, control: Control, problems: Problems) -> Knob | None:
    """The knob, if the component has a shaft that goes into it."""
    shaft = control.component.shaft
    if shaft is None:
        problems.add(
            fields.place,
            f"{control.ref} has a knob, but a {control.component.name} has no shaft",
            "leave 'knob' out, or take a part with a shaft",
        )
        return None
    diameter, height = fields[language.KNOB_DIAMETER], fields[language.KNOB_HEIGHT]
    if diameter is None or height is None:
        return None
    if diameter <= shaft.diameter:
        problems.add(
            fields.where(language.KNOB_DIAMETER),
            f"a knob of {diameter:g} mm does not go over the shaft of {shaft.diameter:g} mm",
            f"accepted: more than {shaft.diameter:g} mm",
        )
    return Knob(diameter=diameter, height=height)


def scale(fields: Fields, control: Control, problems: Problems) -> Scale | None:
    """The scale, if the component has a shaft, its steps divide its range, and its marks can be counted."""
    if control.component.shaft is None:
        problems.add(
            fields.place,
            f"{control.ref} has a scale, but a {control.component.name} has no shaft",
            "leave 'scale' out, or take a part with a shaft",
        )
        return None
    low, high = fields[language.SCALE_FROM], fields[language.SCALE_TO]
    major, minor = fields[language.MAJOR], fields[language.MINOR]
    sweep = fields[language.SCALE_SWEEP]
    if low is None or high is None:
        return None
    if high <= low:
        problems.add(
            fields.where(language.SCALE_TO),
            f"the scale goes from {low:.12g} to {high:.12g}",
            "accepted: 'to' more than 'from'",
        )
        return None
    numerals = _numerals(fields, low, high, problems)
    if major is None or sweep is None:
        return None
    divides = _divides(fields, language.MAJOR.name, major, high - low, "the range", problems)
    if minor is not None and divides:
        _divides(fields, language.MINOR.name, minor, major, "the major step", problems)
    shown_values = [low, major] if numerals is None else list(numerals)
    return Scale(
        low=low,
        high=high,
        major=major,
        minor=minor,
        sweep=sweep,
        start_deg=UP + sweep / 2 + control.turn,
        unit=fields[language.SCALE_UNIT] or "",
        where=fields.place,
        numerals=numerals,
        decimals=max((_decimals(value) for value in shown_values), default=0),
    )


def _divides(fields: Fields, name: str, step: float, whole: float, what: str, problems: Problems) -> bool:
    """Whether a step goes into what it divides a whole number of times, and not too often."""
    field = language.MAJOR if name == language.MAJOR.name else language.MINOR
    where = fields.where(field)
    low, high = fields[language.SCALE_FROM] or 0.0, fields[language.SCALE_TO] or 0.0
    times = whole / step
    if (high - low) / step > MOST_MARKS:
        problems.add(
            where,
            f"steps of {step:.12g} make {(high - low) / step:.6g} marks",
            f"accepted: at most {MOST_MARKS} marks on a scale",
        )
        return False
    if round(times) < 1 or not math.isclose(times, round(times), rel_tol=_TOLERANCE, abs_tol=_TOLERANCE):
        whole_steps = max(1, round(times))
        problems.add(
            where,
            f"steps of {step:.12g} do not divide {what}, {whole:.12g}",
            f"accepted: {what} divided by a whole number, such as {whole / whole_steps:.6g}",
        )
        return False
    return True


def _numerals(fields: Fields, low: float, high: float, problems: Problems) -> tuple[float, ...] | None:
    written = fields[language.NUMERALS]
    if written is None:
        return None
    seen: set[float] = set()
    for value in written:
        if not low - _TOLERANCE <= value.value <= high + _TOLERANCE:
            problems.add(
                value.where,
                f"the numeral {value.value:.12g} lies outside the scale",
                f"accepted: {low:.12g} to {high:.12g}",
            )
        if value.value in seen:
            problems.add(value.where, f"the numeral {value.value:.12g} is there twice", "accepted: each value once")
        seen.add(value.value)
    return tuple(sorted(seen))


def _decimals(value: float) -> int:
    """How many decimals a number needs to be shown in full, at most 6."""
    exponent = Decimal(repr(value)).normalize().as_tuple().exponent
    return min(6, max(0, -exponent)) if isinstance(exponent, int) else 0
