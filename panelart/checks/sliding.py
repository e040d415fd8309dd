"""Straight scales against the travel of the slide, or the window, that they stand beside."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit, limit_of_part
from panelart.checks.rule import rule
from panelart.checks.scales import scales_of
from panelart.checks.survey import ROUNDING, Survey
from panelart.diagnostics import Severity
from panelart.figure import Figure
from panelart.geometry import Box
from panelart.messages import checks_limits as of_limits
from panelart.model.component import Role
from panelart.model.motion import MotionKind
from panelart.model.panel import Part, Place, Scale, StraightScale

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


def _beside_windows(survey: Survey) -> Iterator[tuple[Part, Scale, StraightScale, float]]:
    """The straight scales of windows, with the length of the window along them, mm."""
    for part in survey.panel.parts:
        straight = [(scale, scale.straight) for scale in scales_of(part) if scale.straight is not None]
        if not straight or part.component.motion.kind is MotionKind.SLIDE:
            continue
        windows = [
            opening.finished.bounds
            for opening in survey.layout.openings
            if opening.ref == part.ref and opening.role is Role.APERTURE
        ]
        for scale, line in straight if windows else ():
            box = Box.around(windows)
            upright = line.side in (Place.LEFT, Place.RIGHT)
            yield part, scale, line, box.height if upright else box.width


@rule(
    Severity.WARNING,
    says="{subject}: the scale is {measured} long; maximum {limit}",
    fix="Make the window longer, or set `length` to at most {limit}.",
)
def scale_longer_than_window(survey: Survey) -> Iterator[Observation]:
    """A straight scale is longer than the window or slot beside it, so that no cursor is seen at its ends.

    A cursor of a stated width must be in sight whole, half of it beyond either end of the scale.

    Source: the sizes in the spec.
    Fix: a longer window; a shorter scale.
    Fails: a scale of 60 mm beside a slot of 50 mm.
    Passes: one of 48 mm.
    """
    for part, scale, straight, window in _beside_windows(survey):
        most = window - (straight.cursor or 0.0)
        if straight.length > most + ROUNDING:
            yield Observation(
                refs=(part.ref,),
                place=part.at,
                where=scale.where,
                subject=survey.part(part.ref),
                measured=straight.length,
                limit=Limit(
                    name="",
                    what=of_limits.length_of_window(),
                    value=most,
                    unit="mm",
                    source=of_limits.sizes_in_spec(),
                    basis=Basis.GIVEN,
                ),
                bound=Bound.MAXIMUM,
            )


scale_longer_than_window.cases(
    """
    parts:
      - ref: M1
        part: {part: opening-rectangle, opening: {width: 6, height: 50}}
        at: [60, 50]
        legend: {text: Level, place: below}
        scale: {from: 0, to: 10, major: 1, length: __}
    """,
    fails="60",
    passes="48",
)


@rule(
    Severity.WARNING,
    says="{subject}: the cursor is {measured} wide; maximum {limit}",
    fix="Use a cursor at most {limit} wide, or wider steps.",
)
def cursor_covers_marks(survey: Survey) -> Iterator[Observation]:
    """The cursor of a straight scale is wider than the gap between two marks, so that it hides which one it is at.

    Source: common practice; the limit is the smallest gap between two marks of the scale.
    Fix: a narrower cursor; fewer marks.
    Fails: a cursor of 3 mm where marks are 2.4 mm apart.
    Passes: one of 1 mm.
    """
    for part, scale, straight, _ in _beside_windows(survey):
        gap = _narrowest_gap(survey, part, straight)
        if straight.cursor is not None and gap is not None and straight.cursor > gap + ROUNDING:
            yield Observation(
                refs=(part.ref,),
                place=part.at,
                where=scale.where,
                subject=survey.part(part.ref),
                measured=straight.cursor,
                limit=Limit(
                    name="",
                    what=of_limits.gap_of_marks(),
                    value=gap,
                    unit="mm",
                    source=of_limits.sizes_in_spec(),
                    basis=Basis.COMMON_PRACTICE,
                ),
                bound=Bound.MAXIMUM,
            )


cursor_covers_marks.cases(
    """
    parts:
      - ref: M1
        part: {part: opening-rectangle, opening: {width: 6, height: 54}}
        at: [60, 50]
        legend: {text: Level, place: below}
        scale: {from: 0, to: 10, major: 1, minor: 0.5, length: 50, cursor: __}
    """,
    fails="3",
    passes="1",
)


def _narrowest_gap(survey: Survey, part: Part, straight: StraightScale) -> float | None:
    """The least white between two marks of a straight scale, mm; None where it has fewer than two."""
    upright = straight.side in (Place.LEFT, Place.RIGHT)
    spans = sorted(
        (box.bottom, box.top) if upright else (box.left, box.right)
        for mark in survey.scale_marks
        if mark.owner == part.ref and mark.kind.endswith("-mark")
        for box in (mark.box,)
    )
    return min((after[0] - before[1] for before, after in pairwise(spans)), default=None)
