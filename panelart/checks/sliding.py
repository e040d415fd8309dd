"""Straight scales against the travel of the slide that they stand beside."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import limit_of_part
from panelart.checks.rule import rule
from panelart.checks.scales import scales_of
from panelart.checks.survey import Survey
from panelart.diagnostics import Severity
from panelart.figure import Figure
from panelart.messages import checks_limits as of_limits
from panelart.model.motion import MotionKind
from panelart.model.panel import Part, Scale, StraightScale

PLAY: Final = 0.5
"""The tolerance of a slide's travel, in mm, from data sheets of slide potentiometers: a scale may end so far from the
end of the travel."""


def _beside_slides(survey: Survey) -> Iterator[tuple[Part, Scale, StraightScale, Figure]]:
    """The straight scales of slides whose travel is known, with that travel."""
    for part in survey.panel.parts:
        motion = part.component.motion
        if motion.kind is not MotionKind.SLIDE or motion.travel is None:
            continue
        for scale in scales_of(part):
            if scale.straight is not None:
                yield part, scale, scale.straight, motion.travel


def _observed(
    survey: Survey, part: Part, scale: Scale, length: float, travel: Figure, value: float, bound: Bound
) -> Observation:
    return Observation(
        refs=(part.ref,),
        place=part.at,
        where=scale.where,
        subject=survey.part(part.ref),
        measured=length,
        limit=limit_of_part(part.component.title, travel, of_limits.travel_of_part(), value),
        bound=bound,
    )


@rule(
    Severity.WARNING,
    says="{subject}: the scale is {measured} long; maximum {limit}",
    fix="Set `length` to the travel of the part, or remove `length`.",
)
def scale_longer_than_travel(survey: Survey) -> Iterator[Observation]:
    """A straight scale is longer than its slide travels, so that its end values are never reached.

    The limit is the travel of the part, the longest of those met in its sources; the tolerance of a travel (0.5 mm) is
    let go at either end.

    Source: the part's catalogue entry; data sheet of a slide potentiometer series, travel ±0.5.
    Fix: the travel of the part.
    Fails: a scale of 120 mm beside a fader with a travel of 60 mm.
    Passes: one of 60 mm.
    """
    for part, scale, straight, travel in _beside_slides(survey):
        most = travel.value if travel.span is None else travel.span[1]
        if straight.length > most + 2 * PLAY:
            yield _observed(survey, part, scale, straight.length, travel, most, Bound.MAXIMUM)


scale_longer_than_travel.cases(
    """
    parts:
      - ref: RV1
        part: fader-60
        at: [60, 50]
        legend: {text: Level, place: below}
        scale: {from: 0, to: 10, major: 1, length: __}
    """,
    fails="120",
    passes="60",
)


@rule(
    Severity.WARNING,
    says="{subject}: the scale is {measured} long; minimum {limit}",
    fix="Set `length` to the travel of the part, or remove `length`.",
)
def scale_ends_before_travel(survey: Survey) -> Iterator[Observation]:
    """A straight scale is shorter than its slide travels, so that its ends are reached before the stops.

    Every value on it is then a little off. The limit is the travel of the part, the shortest of those met in its
    sources; the tolerance of a travel (0.5 mm) is let go at either end.

    Source: the part's catalogue entry; data sheet of a slide potentiometer series, travel ±0.5.
    Fix: the travel of the part.
    Fails: a scale of 40 mm beside a fader with a travel of 60 mm.
    Passes: one of 60 mm.
    """
    for part, scale, straight, travel in _beside_slides(survey):
        least = travel.value if travel.span is None else travel.span[0]
        if straight.length_of_part is None and straight.length < least - 2 * PLAY:
            yield _observed(survey, part, scale, straight.length, travel, least, Bound.MINIMUM)


scale_ends_before_travel.cases(
    """
    parts:
      - ref: RV1
        part: fader-60
        at: [60, 50]
        legend: {text: Level, place: below}
        scale: {from: 0, to: 10, major: 1, length: __}
    """,
    fails="40",
    passes="60",
)
