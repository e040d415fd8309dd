"""Scales that turn with their knob: read at an index mark, on a skirt or through a window."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Final

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.diagnostics import Severity
from panelart.geometry import Box, Point, Transform
from panelart.lettering.flat import flattened
from panelart.messages import Said
from panelart.messages import checks as said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.component import EnvelopeRole
from panelart.model.layout import PlacedLegend, TurningDial
from panelart.model.panel import RIM, Carrier

_UPRIGHT: Final = 90.0


def _limit(what: Said, value: float, source: Said, basis: Basis) -> Limit:
    return Limit(name="", what=what, value=value, unit="mm", source=source, basis=basis)


def _observed(
    dial: TurningDial, measured: float, limit: Limit, bound: Bound, other: Said = "", severity: Severity | None = None
) -> Observation:
    radius = dial.scale.diameter / 2
    box = Box(dial.at.x - radius, dial.at.y - radius, dial.at.x + radius, dial.at.y + radius)
    return Observation(
        refs=(dial.ref,),
        place=box,
        where=dial.where,
        subject=things.scale(ref=dial.ref),
        other=other,
        measured=measured,
        limit=limit,
        bound=bound,
        severity=severity,
    )


def _at_mark(dial: TurningDial, legend: PlacedLegend, turned: float) -> list[Point]:
    """A numeral's outline in the frame of the index mark, the mark being straight up, with the dial turned so far."""
    home = Transform.turn(_UPRIGHT - dial.scale.index + turned, Point(0.0, 0.0))
    return [home.apply(Point(x - dial.at.x, y - dial.at.y)) for loop in legend.shape for x, y in flattened(loop)]


def _read_alone(dial: TurningDial) -> list[list[Point]]:
    """The outline of each numeral at the mark."""
    return [_at_mark(dial, legend, -legend.turn) for legend in dial.legends]


def _seen_at_once(dial: TurningDial) -> Iterator[list[Point]]:
    """The outlines of each numeral at the mark, together with its neighbours at both sides."""
    yield from _read_alone(dial)
    row = sorted(dial.legends, key=lambda legend: legend.turn)
    for one, two in pairwise(row):
        yield [*_at_mark(dial, one, -two.turn), *_at_mark(dial, two, -one.turn)]


def _window_needed(dial: TurningDial, seen: Iterable[list[Point]]) -> tuple[float, float]:
    """How wide and high the window must be, mm, to show these outlines whole."""
    points = [point for outline in seen for point in outline]
    width = 2 * max((abs(point.x) for point in points), default=0.0)
    low = min((point.y for point in points), default=dial.scale.window_end)
    return width, dial.scale.window_end - low


def _cut_numerals(dial: TurningDial) -> list[str]:
    """The numerals that the window of a disc does not show whole when they are at the mark."""
    if dial.scale.window is None:
        return []
    width, height = dial.scale.window
    found: list[str] = []
    for legend, outline in zip(dial.legends, _read_alone(dial), strict=True):
        wide, high = _window_needed(dial, [outline])
        if wide > width + ROUNDING or high > height + ROUNDING:
            found.append(legend.text)
    return found


@rule(
    Severity.ERROR,
    says="{subject}: the window cuts the numeral at the index mark itself: {other}",
    fix="Make the window larger, or the cap height of the numerals smaller.",
)
def dial_numeral_cut(survey: Survey) -> Iterator[Observation]:
    """The window of a disc does not show a numeral whole when it is at the index mark, where it is read.

    Source: MIL-STD-1472E, 5.2.3: of a moving scale the numbered marks at both sides of the reading are visible.
    Fix: a larger window; smaller numerals.
    Fails: a window 5 mm high before marks and numerals that take 6.7 mm.
    Passes: one 14 mm high.
    """
    for dial in survey.layout.dials:
        cut = _cut_numerals(dial)
        if cut:
            yield Observation(
                refs=(dial.ref,),
                place=dial.at,
                where=dial.where,
                subject=things.scale(ref=dial.ref),
                other=said.numerals_cut(numbers=cut),
            )


dial_numeral_cut.cases(
    """
    parts:
      - ref: RV1
        part: pot-9-shaft-board
        at: [60, 45]
        knob: {diameter: 20, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, disc: {diameter: 60, window: [36, __], depth: 4}}
    """,
    fails="5",
    passes="14",
)


@rule(
    Severity.WARNING,
    says="{subject}: the window is {measured} {other}; minimum {limit}",
    fix="Make the window at least {limit} {other}, or number the scale at closer steps on a larger disc.",
)
def dial_window_small(survey: Survey) -> Iterator[Observation]:
    """The window of a disc does not show a numeral at the index mark with its neighbours.

    With fewer than two numbered marks in sight nobody sees which way the values go. The limit is the size that shows
    each numeral whole at the mark, and whole the numerals beside it.

    Source: MIL-STD-1472E, 5.2.3: of a moving scale the numbered marks at both sides of the reading are visible.
    Fix: a wider or higher window; more numerals.
    Fails: a window of 12 mm before numerals 14 mm apart.
    Passes: a window of 36 mm before the same.
    """
    for dial in survey.layout.dials:
        if dial.scale.window is None:
            continue
        for measured, needed, other in zip(
            dial.scale.window, _window_needed(dial, _seen_at_once(dial)), (said.wide(), said.high()), strict=True
        ):
            if measured < needed - ROUNDING:
                limit = _limit(of_limits.window_of_dial(), needed, of_limits.numerals_in_sight(), Basis.LOOKED_UP)
                yield _observed(dial, measured, limit, Bound.MINIMUM, other)
                break


dial_window_small.cases(
    """
    parts:
      - ref: RV1
        part: pot-9-shaft-board
        at: [60, 45]
        knob: {diameter: 20, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, disc: {diameter: 60, window: [__, 14], depth: 4}}
    """,
    fails="12",
    passes="36",
)


@rule(
    Severity.ERROR,
    says="{subject}: marks and numerals reach to {measured} from the shaft; minimum {limit}",
    fix="Take a larger skirt or disc, or smaller numerals.",
)
def dial_ring_narrow(survey: Survey) -> Iterator[Observation]:
    """A scale that turns does not fit between the grip and the rim of its skirt, or the shaft and rim of its disc.

    From a grip it keeps as much as from the rim, 0.5 mm: numerals that touch the grip are hidden by it from one side.
    Less than that is a warning, what is under the grip an error.

    Source: the sizes in the spec; common practice for what is kept from the grip.
    Fix: a larger knob or disc; a smaller cap height of numerals.
    Fails: numerals of 2.4 mm on a skirt of 30 mm round a grip of 24 mm.
    Passes: the same round a grip of 16 mm.
    """
    for dial in survey.layout.dials:
        skirt = dial.scale.carrier is Carrier.SKIRT
        inner = dial.scale.inner / 2 + (RIM if skirt else 0.0)
        if dial.reach < inner - ROUNDING:
            what = of_limits.radius_of_grip() if skirt else of_limits.radius_of_shaft()
            limit = _limit(what, inner, of_limits.sizes_in_spec(), Basis.GIVEN)
            hidden = dial.reach < dial.scale.inner / 2 - ROUNDING
            severity = None if hidden else Severity.WARNING
            yield _observed(dial, dial.reach, limit, Bound.MINIMUM, severity=severity)


dial_ring_narrow.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 30, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, skirt: {grip: __}}
    """,
    fails="24",
    passes="12",
)


@rule(
    Severity.ERROR,
    says="{subject}: the knob covers the window to {measured} from the shaft; maximum {limit}",
    fix="Fit a knob with a radius of at most {limit}, or take a larger disc.",
)
def dial_window_under_knob(survey: Survey) -> Iterator[Observation]:
    """A knob covers part of the window through which its scale is read.

    Source: the sizes in the spec.
    Fix: a smaller knob; a larger disc, whose window is farther out.
    Fails: a knob of 46 mm before a window that begins 22 mm from the shaft.
    Passes: a knob of 40 mm.
    """
    for dial in survey.layout.dials:
        knob = survey.panel.by_ref[dial.ref].knob
        if dial.scale.window is None or knob is None:
            continue
        begins = dial.scale.window_end - dial.scale.window[1]
        if knob.diameter / 2 > begins + ROUNDING:
            limit = _limit(of_limits.start_of_window(), begins, of_limits.sizes_in_spec(), Basis.GIVEN)
            yield _observed(dial, knob.diameter / 2, limit, Bound.MAXIMUM)


dial_window_under_knob.cases(
    """
    parts:
      - ref: RV1
        part: pot-9-shaft-board
        at: [60, 45]
        knob: {diameter: __, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, disc: {diameter: 76, window: [36, 9], depth: 4}}
    """,
    fails="46",
    passes="40",
)


@rule(
    Severity.ERROR,
    says="{subject}: {other} is fastened in the panel, so that no disc can turn behind it",
    fix="Use a part on a board or bracket behind the disc, with only its shaft through the panel.",
)
def disc_without_room(survey: Survey) -> Iterator[Observation]:
    """A disc turns between the panel and a part that is clamped to the panel by its own bushing.

    Such a part lies against the rear of the panel, where the disc would be.

    Source: the part's catalogue entry.
    Fix: a part behind the disc, whose shaft alone goes through the panel.
    Fails: a disc behind a potentiometer with a bushing and a nut.
    Passes: the same behind a potentiometer on a board.
    """
    for dial in survey.layout.dials:
        component = survey.panel.by_ref[dial.ref].component
        clamped = bool(component.fasteners) or any(each.role is EnvelopeRole.NUT for each in component.front)
        if dial.scale.carrier is Carrier.DISC and clamped:
            yield Observation(
                refs=(dial.ref,),
                place=dial.at,
                where=dial.where,
                subject=things.scale(ref=dial.ref),
                other=said.part_called(part=component.title),
            )


disc_without_room.cases(
    """
    parts:
      - ref: RV1
        part: __
        at: [60, 45]
        knob: {diameter: 20, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, sweep: 300, disc: {diameter: 60, window: [36, 14], depth: 4}}
    """,
    fails="pot-m10",
    passes="pot-9-shaft-board",
)
