"""Marks round a shaft against how the part turns: positions that it has, angles that it stops at, values it sweeps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Final

from panelart.catalogue.laws import travelled
from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import BASES, Basis, Limit, limit_of_part
from panelart.checks.rule import rule
from panelart.checks.scales import scales_of
from panelart.checks.survey import Survey
from panelart.diagnostics import Severity
from panelart.figure import Figure, Known
from panelart.legends.graduations import graduations
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.motion import FULL_TURN, SURE, Motion, MotionKind, Stops, Way, as_written
from panelart.model.panel import Part, Scale

UP: Final = 90.0
"""Straight up, in degrees counter-clockwise from the right."""

SLACK: Final = 1.0
"""Degrees by which a mark may differ from where the part stops, without a finding: what the eye takes for the same."""

FLOAT: Final = 3.0
"""Half of the float of a detent, in degrees, from MIL-DTL-21604: a scale may end so far from the end of the turn."""


def _clock(part: Part) -> list[float]:
    """The angles of a control's positions in their order, clockwise from the part's own top, in -180 to 180."""
    angles = [UP - float(each.direction) + part.turn for each in part.positions if not isinstance(each.direction, str)]
    return [(angle + 180.0) % 360.0 - 180.0 for angle in angles]


def _steps(angles: Sequence[float]) -> list[float]:
    return [(after - before) % 360.0 for before, after in pairwise(angles)]


def _takes(way: Way, angles: list[float], motion: Motion, *, held: bool) -> bool:
    """Whether a part that is made in this way stops at these angles; some of its equal steps may go without a name."""
    if not way.angles:
        return _on_steps(way, angles, motion.phase_of(way))
    if len(angles) != len(way.angles):
        return False
    # Named against the clock they stop at the same places; whether they should is another rule's.
    return any(_same(order, way.angles, held=held) for order in (angles, angles[::-1]))


def _same(angles: Sequence[float], marks: Sequence[float], *, held: bool) -> bool:
    compared = (angles, marks) if held else (_steps(angles), _steps(marks))
    return all(abs(one - two) <= SLACK for one, two in zip(*compared, strict=True))


def _on_steps(way: Way, angles: list[float], phase: float | None) -> bool:
    """Whether angles lie on equal steps, among as many positions as there can be, from `phase` where that is fixed."""
    step = way.index or FULL_TURN
    steps = _steps(angles)
    reached = sum(round(each / step) for each in steps) + 1
    whole = steps if phase is None else [*steps, *(angle - phase for angle in angles)]
    return way.fewest <= len(angles) and reached <= way.most and all(_whole(each, step) for each in whole)


def _whole(angle: float, step: float) -> bool:
    return abs(angle - step * round(angle / step)) <= SLACK


def _turned(survey: Survey) -> Iterator[tuple[Part, list[float]]]:
    for part in survey.panel.parts:
        if part.component.motion.kind is MotionKind.TURN and part.component.motion.ways and part.positions:
            yield part, _clock(part)


@rule(
    Severity.ERROR,
    says="{subject}: {measured} positions are named; maximum {limit}",
    fix="Name fewer positions, or choose a part that has as many.",
)
def more_positions_than_part(survey: Survey) -> Iterator[Observation]:
    """More positions are named round a control than the part has.

    Source: the part's catalogue entry: the most positions that it is made with.
    Fix: fewer positions, or another part.
    Fails: thirteen positions on a switch with at most twelve.
    Passes: twelve.
    """
    for part, angles in _turned(survey):
        most = part.component.motion.most or 0
        if len(angles) > most:
            yield Observation(
                refs=(part.ref,),
                place=part.at,
                where=part.where,
                subject=survey.part(part.ref),
                measured=len(angles),
                limit=Limit(
                    name="",
                    what=of_limits.positions_of_part(),
                    value=most,
                    unit="count",
                    source=of_limits.figure_of(title=part.component.title, source=_source(part.component.motion.ways)),
                    basis=_basis(part.component.motion.ways),
                ),
                bound=Bound.MAXIMUM,
            )


more_positions_than_part.cases(
    """
    parts:
      - ref: S1
        part: rotary-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Tank
        positions: {texts: __, index: 27}
    """,
    fails="[A, B, C, D, E, F, G, H, I, J, K, L, M]",
    passes="[A, B, C, D, E, F, G, H, I, J, K, L]",
)


def _source(ways: tuple[Way, ...]) -> str:
    return next((figure.source for way in ways for figure in way.figures), "")


def _basis(ways: tuple[Way, ...]) -> Basis:
    """The standing of the best known of the ways."""
    ranks = list(Known)
    return BASES[min((way.known for way in ways), key=ranks.index)]


@rule(
    Severity.ERROR,
    says="{subject}: the positions are marked at angles where the part does not stop: {other}",
    fix="Mark the positions where the part stops, or choose a part that stops at these angles.",
)
def position_off_angle(survey: Survey) -> Iterator[Observation]:
    """Positions are marked at angles where the part of the catalogue does not stop.

    Angles within 1° are taken for the same. A part whose body can be turned in its hole may have its first position
    anywhere; one that a lug, notch or flat holds has its own. An angle that makers choose freely, from memory or common
    practice, is a warning.

    Source: the part's catalogue entry; MIL-DTL-3786/20, angles of throw; data sheets of selector heads.
    Fix: the angles of the part.
    Fails: two positions 100° apart on a selector that is made with 45, 60 and 90°.
    Passes: the same 90° apart.
    """
    for part, angles in _turned(survey):
        motion = part.component.motion
        if len(angles) > (motion.most or 0) or len(angles) < 2:
            continue
        held = part.component.held
        if any(_takes(way, angles, motion, held=held) for way in motion.ways):
            continue
        made = tuple(dict.fromkeys(as_written(way) for way in motion.made_with(len(angles)) or motion.ways))
        sure = all(way.known in SURE for way in motion.ways)
        yield Observation(
            refs=(part.ref,),
            place=part.at,
            where=part.positions[0].request.where,
            subject=survey.part(part.ref),
            other=said.angles_of_part(angles=[f"{angle:g}°" for angle in angles], ways=made),
            severity=None if sure else Severity.WARNING,
        )


position_off_angle.cases(
    """
    parts:
      - ref: S1
        part: selector-22
        at: [60, 50]
        legend: Pump
        positions: {texts: ["Off", "On"], angles: __}
    """,
    fails="[-50, 50]",
    passes="[-45, 45]",
)
position_off_angle.cases(
    """
    parts:
      - ref: S1
        part: rotary-3-8-32
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Range
        positions: {texts: [1 V, 10 V, 100 V], index: __}
    """,
    fails="40",
    passes="30",
)


@rule(
    Severity.WARNING,
    says="{subject}: the scale sweeps {measured}; maximum {limit}",
    fix="Set `sweep` to the angle over which the part changes its value.",
)
def scale_longer_than_turn(survey: Survey) -> Iterator[Observation]:
    """A scale sweeps more than the part turns, so that its end values are never reached.

    The limit is the rotation of the part, the widest of those met in its sources; half of the float of a detent (3°)
    is let go at either end.

    Source: the part's catalogue entry; MIL-DTL-21604F, float.
    Fix: the sweep of the part.
    Fails: a scale over 330° on a potentiometer that turns at most 315°.
    Passes: the same over 300°.
    """
    for part in survey.panel.parts:
        turn = part.component.motion.rotation
        if turn is None or part.component.motion.kind is not MotionKind.TURN:
            continue
        most = turn.value if turn.span is None else turn.span[1]
        for scale in scales_of(part):
            if scale.straight is None and scale.sweep > most + 2 * FLOAT:
                yield Observation(
                    refs=(part.ref,),
                    place=part.at,
                    where=scale.where,
                    subject=survey.part(part.ref),
                    measured=scale.sweep,
                    limit=limit_of_part(part.component.title, turn, of_limits.rotation_of_part(), most),
                    bound=Bound.MAXIMUM,
                )


scale_longer_than_turn.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, sweep: __}
    """,
    fails="330",
    passes="300",
)


@rule(
    Severity.WARNING,
    says="{subject}: values are marked round a control that {other}",
    fix="Remove the scale; show the value in a display, and mark only the direction.",
)
def scale_on_endless_control(survey: Survey) -> Iterator[Observation]:
    """A scale with values is printed round a control that has no ends: its marks mean nothing after the first turn.

    A control of several turns is the same: its values belong on a turns-counting dial. Marks without numerals
    (`numerals: []`) are accepted, since they say no value, and so are the parts of a turn on the knob or disc of a
    control of several turns (`sweep: 360`).

    Source: common practice; MIL-STD-1472E, 5.1.4, counters and displays for continuous controls.
    Fix: no scale.
    Fails: 0 to 10 round an encoder.
    Passes: 0 to 10 round a potentiometer.
    """
    for part in survey.panel.parts:
        motion = part.component.motion
        endless = motion.stops is Stops.NONE or motion.turns is not None
        for scale in scales_of(part):
            if motion.turns is not None and scale.turning is not None and scale.sweep >= FULL_TURN:
                continue
            if endless and scale.straight is None and (scale.numerals != () or scale.words or scale.signs):
                yield Observation(
                    refs=(part.ref,),
                    place=part.at,
                    where=scale.where,
                    subject=survey.part(part.ref),
                    other=_turns_of(motion),
                )


def _turns_of(motion: Motion) -> Message:
    """How far a control turns that comes by the same place again."""
    if motion.turns is None or motion.stops is Stops.NONE:
        return things.turns_without_end()
    return things.turns_times(turns=motion.turns.value)


scale_on_endless_control.cases(
    """
    parts:
      - ref: RV1
        part: __
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, sweep: 270}
    """,
    fails="encoder-m9",
    passes="pot-m9",
)


@rule(
    Severity.WARNING,
    says="{subject}: positions are named round a control that {other}",
    fix="Remove the positions, or choose a switch that stops at them.",
)
def positions_on_endless_control(survey: Survey) -> Iterator[Observation]:
    """Positions are named round a control that comes by the same place more than once, and stops at none of them.

    Controls that are made with positions, such as switches that turn without end, are not meant.

    Source: common practice; MIL-STD-1472E, 5.4.2.1, which gives discrete settings to selector switches.
    Fix: no positions, or a switch.
    Fails: three positions round an encoder.
    Passes: three positions round a rotary switch.
    """
    for part in survey.panel.parts:
        motion = part.component.motion
        endless = motion.stops is Stops.NONE or motion.turns is not None
        if endless and not motion.ways and part.positions and motion.kind is MotionKind.TURN:
            yield Observation(
                refs=(part.ref,),
                place=part.at,
                where=part.positions[0].request.where,
                subject=survey.part(part.ref),
                other=_turns_of(motion),
            )


positions_on_endless_control.cases(
    """
    parts:
      - ref: S1
        part: __
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Mode
        positions: {texts: [A, B, C], index: 30}
    """,
    fails="encoder-m9",
    passes="rotary-m10",
)


def _least_swept(motion: Motion) -> Figure | None:
    """The figure by which a part turns least: electrical, from stop to stop, or of a taper."""
    figures = [motion.electrical, motion.rotation, *(figure for _, figure in motion.tapers)]
    return min((figure for figure in figures if figure is not None), key=_least, default=None)


def _least(figure: Figure) -> float:
    return figure.value if figure.span is None else figure.span[0]


@rule(
    Severity.WARNING,
    says="{subject}: the scale sweeps {measured}; minimum {limit}",
    fix="Set `sweep` to the angle over which the part changes its value, or remove `sweep`.",
)
def scale_ends_before_turn(survey: Survey) -> Iterator[Observation]:
    """A scale sweeps less than the part changes its value over, so that its ends are reached before the stops.

    Every value on it is then a little off. The limit is the least of the angles known of the part: electrical, from
    stop to stop, of a taper, and the lowest met in its sources; half of the float of a detent (3°) is let go at either
    end.

    Source: the part's catalogue entry; MIL-DTL-21604F, float.
    Fix: the sweep of the part.
    Fails: a scale over 270° on a potentiometer that changes its value over 300°.
    Passes: the same over 300°.
    """
    for part in survey.panel.parts:
        motion = part.component.motion
        figure = _least_swept(motion)
        if figure is None or motion.kind is not MotionKind.TURN or motion.turns is not None:
            continue
        least = _least(figure)
        for scale in scales_of(part):
            stated = scale.sweep_of_part is None and scale.straight is None
            if stated and least < FULL_TURN and scale.sweep < least - 2 * FLOAT:
                yield Observation(
                    refs=(part.ref,),
                    place=part.at,
                    where=scale.where,
                    subject=survey.part(part.ref),
                    measured=scale.sweep,
                    limit=limit_of_part(part.component.title, figure, of_limits.rotation_of_part(), least),
                )


scale_ends_before_turn.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, sweep: __}
    """,
    fails="200",
    passes="300",
)


def _on_scale(scale: Scale, values: Iterable[float]) -> list[float]:
    """Where values stand on a dial, in degrees clockwise from straight up, in order."""
    turned = sorted(travelled(scale, value) * scale.sweep for value in values)
    return [UP - scale.start_deg + (each if scale.clockwise else -each) for each in turned]


def _fits_detents(steps: Sequence[float], index: float) -> bool:
    """Whether each step from mark to mark is a whole number of detents."""
    return all(abs(step - index * round(step / index)) <= SLACK and round(step / index) > 0 for step in steps)


@rule(
    Severity.WARNING,
    says="{subject}: the marks of the scale are not at the detents of the part: {other}",
    fix="Place the marks at the detents, or choose a part that has its detents at these angles.",
)
def scale_off_detents(survey: Survey) -> Iterator[Observation]:
    """Detents of a scale, or marks round a control without end, are at angles where the part does not stop.

    Looked at are the `detents` of a scale on a switch with positions or on a part with a known number of detents in one
    turn, and all marks round a part that turns without end. Marks may leave detents out; 1° is let go. Not reported
    where the number of detents differs from maker to maker.

    Source: the part's catalogue entry.
    Fix: as many marks as the part has detents, or a whole fraction of them.
    Fails: a stepped attenuator with 25° from step to step on a switch of 30°.
    Passes: the same with 30°.
    """
    for part in survey.panel.parts:
        motion = part.component.motion
        for scale in scales_of(part):
            if scale.straight is not None or motion.kind is not MotionKind.TURN:
                continue
            endless = motion.stops is Stops.NONE and scale.sweep >= FULL_TURN
            values = scale.detents or (tuple(mark.value for mark in graduations(scale)) if endless else ())
            steps = [abs(after - before) for before, after in pairwise(_on_scale(scale, values))]
            told = _detents_missed(motion, steps) if steps else None
            if told is not None:
                yield Observation(
                    refs=(part.ref,), place=part.at, where=scale.where, subject=survey.part(part.ref), other=told
                )


def _detents_missed(motion: Motion, steps: list[float]) -> Message | None:
    """What is said of steps from mark to mark that are not those of the part; None where they are, or nobody knows."""
    return _positions_missed(motion, steps) if motion.ways else _clicks_missed(motion.detents, steps)


def _positions_missed(motion: Motion, steps: list[float]) -> Message | None:
    """The same for a switch, which has so many positions and no more."""
    indexes = [way.index for way in motion.ways if way.index is not None]
    if not indexes:
        return None
    counted = max(motion.most or 0, 1)
    if len(steps) < counted and any(_fits_detents(steps, index) for index in indexes):
        return None
    ways = [f"{index:g}°" for index in dict.fromkeys(indexes)]
    return said.detents_of_ways(marks=len(steps) + 1, most=counted, steps=ways)


def _clicks_missed(detents: Figure | None, steps: list[float]) -> Message | None:
    """The same for a part with so many detents in one turn."""
    if detents is None or detents.span is not None or detents.value <= 0:
        return None
    if _fits_detents(steps, FULL_TURN / detents.value):
        return None
    return said.detents_of_turn(marks=len(steps) + 1, detents=round(detents.value))


scale_off_detents.cases(
    """
    parts:
      - ref: S1
        part: rotary-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Gain
        scale: {from: -50, to: 0, unit: dB, major: 10, detents: [-50, -40, -30, -20, -10, 0], sweep: __}
    """,
    fails="125",
    passes="150",
)
