"""Whether each part fits: through its opening once the coat is on, and on this thickness of sheet."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import Final

import numpy as np
import shapely
from msgspec.structs import replace

from panelart.catalogue.standing import is_of_hole
from panelart.checks import measuring
from panelart.checks.findings import Bound, Observation, Spot, place_of, refs_of
from panelart.checks.limits import BASES, Basis, Limit
from panelart.checks.mends import larger_hole, other_sheet
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Fitting, Survey
from panelart.cutouts.cutting import at_coat
from panelart.diagnostics import Severity
from panelart.figure import Known
from panelart.geometry import Contour, Segment, Vector
from panelart.geometry.measures import point_gap
from panelart.geometry.polygons import polygon
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.component import Component, Opening

_PASSES: Final = "passes_"
"""How the catalogue's names begin for figures of what must pass."""

_GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0


def shortfall(passes: Contour, opening: Contour) -> float:
    """How much smaller, on one side, an opening is than what must pass; 0 where it passes. Exact, in mm."""
    inner, outer = passes.circle, opening.circle
    if inner is not None and outer is not None:
        return max(inner[1] + inner[0].distance(outer[0]) - outer[1], 0.0)
    if shapely.covers(polygon(opening, side="inside"), polygon(passes, side="outside")):
        return 0.0
    return max(0.0, *(_maximum_outside(segment, opening) for segment in passes.segments))


_WAYS: Final = tuple((math.cos(math.pi * way / 4), math.sin(math.pi * way / 4)) for way in range(8))
_FINEST: Final = 1e-6
"""How far a part is moved at least in search of its best place, mm."""


def shortfall_where_best(passes: Contour, opening: Contour) -> float:
    """The shortfall of a part that is free to move in its opening, where it passes best."""
    inner, outer = passes.circle, opening.circle
    if inner is not None and outer is not None:
        return max(inner[1] - outer[1], 0.0)
    short = shortfall(passes, opening)
    if short <= 0.0:
        return 0.0
    best = _best_shift(passes, opening, short)
    return min(short, shortfall(passes.moved(best), opening))


def _best_shift(passes: Contour, opening: Contour, short: float) -> Vector:
    """The move by which least of a contour is outside an opening: by steps in eight ways, which are halved."""
    hole = polygon(opening, side="inside")
    points = np.array([(at.x, at.y) for one in passes.segments for at in map(one.point_at, np.linspace(0, 1, 49))])

    def outside(x: float, y: float) -> float:
        return float(shapely.distance(hole, shapely.points(points + np.array((x, y)))).max())

    at, least, step = (0.0, 0.0), outside(0.0, 0.0), short
    while step > _FINEST and least > 0.0:
        ways = [(at[0] + step * x, at[1] + step * y) for x, y in _WAYS]
        nearest = min(ways, key=lambda way: outside(*way))
        found = outside(*nearest)
        if found < least:
            at, least = nearest, found
        else:
            step /= 2
    return Vector(*at)


def _maximum_outside(segment: Segment, opening: Contour) -> float:
    """How far the farthest point of a segment lies outside an opening; negative when it is inside."""

    def outside(share: float) -> float:
        point = segment.point_at(share)
        distance = point_gap(point, opening).distance
        return -distance if opening.contains(point) else distance

    steps = 48
    samples = [outside(step / steps) for step in range(steps + 1)]
    top = max(range(steps + 1), key=samples.__getitem__)
    return max(samples[top], _peak(outside, max(top - 1, 0) / steps, min(top + 1, steps) / steps))


def _peak(height: Callable[[float], float], low: float, high: float) -> float:
    """The highest value between two shares, by golden section."""
    near, far = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_near, at_far = height(near), height(far)
    for _ in range(60):
        if at_near >= at_far:
            high, far, at_far = far, near, at_near
            near = high - _GOLDEN * (high - low)
            at_near = height(near)
        else:
            low, near, at_near = near, far, at_far
            far = low + _GOLDEN * (high - low)
            at_far = height(far)
    return max(at_near, at_far)


@rule(
    Severity.ERROR,
    says="{subject}: finished opening is {measured} too small on one side {other}",
    fix="Enlarge the opening by {measured} on each side.",
    limits=("fit.shortfall.maximum",),
    mends=(larger_hole,),
)
def opening_too_small_after_coat(survey: Survey) -> Iterator[Observation]:
    """The finished opening is too small for what must pass through it.

    The finished opening is the opening as cut less the coat, at the maximum coat thickness. Measured is the shortfall
    on one side: how far what must pass extends beyond the finished opening. A part with a single opening may sit out of
    its middle, as a body with a flat does: it counts where it passes best.

    A size from memory makes this a warning, unless the opening is the designer's own figure and too small by more than
    memory errs: 0.5 mm or 5 % of the size, whichever is more.

    Source: the part's own size from its catalogue entry; the coat thickness from the spec.
    Fix: a larger opening, a thinner coat, or masking.
    Fails: a bushing of 12.0 mm through an opening of 12.1 mm that a coat of 0.08 mm reduces to 11.94 mm.
    Passes: the same bushing through an opening that is 12.1 mm when finished.
    """
    coat = survey.panel.coat
    thickness = coat.thickness if coat.maximum is None else coat.maximum
    limit = survey.limits["fit.shortfall.maximum"]
    numbers: Counter[str] = Counter()
    single = Counter(opening.ref for opening in survey.layout.every_opening)
    for opening in survey.layout.every_opening:
        number = numbers[opening.ref]
        numbers[opening.ref] += 1
        # The coat is thickest where the hole is smallest; a hole that closes altogether lacks all of the part.
        hole = at_coat(opening, survey.panel.coat, survey.panel.coat.build_maximum)
        if opening.passes is None:
            short = 0.0
        elif hole is None:
            short = min(opening.passes.bounds.width, opening.passes.bounds.height) / 2
        else:
            alone = single[opening.ref] == 1
            short = (shortfall_where_best if alone else shortfall)(opening.passes, hole)
        if short > limit.value + ROUNDING:
            yield Observation(
                refs=(opening.ref,),
                place=survey.place_of(opening),
                where=opening.where,
                subject=things.opening(name=opening.name),
                other=said.with_coat(thickness=thickness) if thickness and not opening.bare else said.uncoated(),
                measured=short,
                limit=_through_limit(survey.component(opening.ref), number, limit, short),
                bound=Bound.MAXIMUM,
            )


opening_too_small_after_coat.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, allowance: __, colour: "#FFFFFF"}}
    parts:
      - ref: S1
        part: {title: Lamp, openings: [{role: body, circle: {diameter: 12.1}, passes: {circle: {diameter: 12}}}]}
        at: [40, 50]
    """,
    fails="none",
    passes="drawing",
)


_MEMORY_ERRS: Final = (0.5, 0.05)
"""By how much a size from memory may be out at most: mm, or a share of the size where that is more. Our estimate."""


def _through_limit(component: Component | None, number: int, limit: Limit, short: float) -> Limit:
    """The limit with the standing of the size that must pass: from memory when one of its figures is.

    An opening by the designer's own figure that is `short` by more than memory errs stands as given.
    """
    if component is None or number >= len(component.openings):
        return limit
    openings = component.openings
    figures = [figure for figure in openings[number].figures if figure.name.startswith(_PASSES)]
    if not figures:
        return limit
    figure = next((figure for figure in figures if figure.known is Known.MEMORY), figures[0])
    source = of_limits.figure_of(title=component.title, source=figure.source)
    play = _play_of_memory(openings[number])
    if figure.known is Known.MEMORY and 2 * short > play + ROUNDING and _is_own(openings[number]):
        return replace(limit, source=of_limits.beyond_memory(figure=source, play=play), basis=Basis.GIVEN)
    return replace(limit, source=source, basis=BASES[figure.known])


def _play_of_memory(opening: Opening) -> float:
    """By how much what must pass may be out at most where it is from memory, from wall to wall in mm."""
    least, share = _MEMORY_ERRS
    if opening.passes is None:
        return least
    bounds = opening.passes.bounds
    return max(least, round(share * max(bounds.width, bounds.height), 2))


def _is_own(opening: Opening) -> bool:
    """Whether a dimension of the opening is the designer's own figure."""
    return any(
        figure.known is Known.GIVEN
        for figure in opening.figures
        if is_of_hole(figure) and not figure.name.startswith(_PASSES)
    )


def _by_component(fittings: Sequence[Fitting]) -> Iterator[tuple[Component, tuple[Spot, ...]]]:
    """Each kind of part with the spots where it is put, on the face or in flanges."""
    groups: dict[str, list[Fitting]] = {}
    for fitting in fittings:
        groups.setdefault(fitting.component.name, []).append(fitting)
    for group in groups.values():
        spots = tuple(Spot(ref=one.ref, place=one.place, where=one.where) for one in group)
        yield group[0].component, spots


def _sheet_limit(component: Component, name: str, value: float) -> Limit:
    """One end of the range of sheet that a part fits; its figure, which has the source, is called `name`."""
    figure = next((figure for figure in component.figures if figure.name == name), None)
    return Limit(
        name="",
        what=of_limits.sheet_thickness_range(),
        value=value,
        unit="mm",
        source=of_limits.figure_of(title=component.title, source=figure.source)
        if figure
        else of_limits.figure_without_source(title=component.title),
        basis=BASES[figure.known] if figure else Basis.MEMORY,
    )


@rule(
    Severity.ERROR,
    says="{subject}: sheet is {measured} thick; maximum {limit}",
    fix="Use sheet of at most {limit}, use a variant of the part for thicker sheet, or thin the sheet behind the part.",
    mends=(other_sheet,),
)
def sheet_too_thick(survey: Survey) -> Iterator[Observation]:
    """The sheet is thicker than a part's thread, spring or snap can hold.

    Only the bare sheet counts, without its coat, as makers state their ranges.

    Source: the range in the part's catalogue entry.
    Fix: thinner sheet, or another variant of the part.
    Fails: a snap-in inlet for up to 2 mm in sheet of 2.5 mm.
    Passes: the same inlet in sheet of 2 mm.
    """
    thickness = survey.panel.sheet.thickness
    for component, spots in _by_component(survey.fittings):
        held = component.thickness
        if held is not None and thickness > held[1] + ROUNDING:
            yield Observation(
                refs=refs_of(spots),
                place=place_of(spots),
                where=spots[0].where,
                subject=survey.kind(component, spots),
                measured=thickness,
                limit=_sheet_limit(component, "sheet_maximum", held[1]),
                bound=Bound.MAXIMUM,
                each=spots,
            )


sheet_too_thick.cases(
    """
    panel: {sheet: {thickness: __}}
    parts: [{ref: J1, part: iec-c14-snap-2.0, at: [60, 50]}]
    """,
    fails="2.5",
    passes="2",
)


@rule(
    Severity.ERROR,
    says="{subject}: sheet is {measured} thick; minimum {limit}",
    fix="Use sheet of at least {limit}, or add washers or a backing plate.",
    mends=(other_sheet,),
)
def sheet_too_thin(survey: Survey) -> Iterator[Observation]:
    """The sheet is thinner than a part's snap or shoulder needs to hold.

    Source: the range in the part's catalogue entry.
    Fix: thicker sheet, a backing plate, or another variant of the part.
    Fails: a snap-in inlet for 1 mm and more in sheet of 0.8 mm.
    Passes: the same inlet in sheet of 1 mm.
    """
    thickness = survey.panel.sheet.thickness
    for component, spots in _by_component(survey.fittings):
        held = component.thickness
        if held is not None and thickness < held[0] - ROUNDING:
            yield Observation(
                refs=refs_of(spots),
                place=place_of(spots),
                where=spots[0].where,
                subject=survey.kind(component, spots),
                measured=thickness,
                limit=_sheet_limit(component, "sheet_minimum", held[0]),
                each=spots,
            )


sheet_too_thin.cases(
    """
    panel: {sheet: {thickness: __}}
    parts: [{ref: J1, part: iec-c14-snap-1.0, at: [60, 50]}]
    """,
    fails="0.5",
    passes="1",
)


@rule(
    Severity.NOTE,
    says="{subject} not from a data sheet: measure them (`panelart parts --measure SPEC`)",
    fix="Measure the parts before cutting; `--out FORM.yaml` writes a form that becomes a part file.",
)
def parts_to_measure(survey: Survey) -> Iterator[Observation]:
    """Parts are cut or marked by figures from memory, or by typical values where data sheets differ.

    One finding for the panel, with the number and the refs of all these parts. The figures are in the table "To
    measure before cutting" of the proof and in `panelart parts --measure SPEC`; the form that it writes becomes a part
    file with the measured figures. The angle of a scale counts where the spec takes it from the part.

    Source: the standing of each figure in the part's catalogue entry.
    Fix: measure the parts, and enter their figures in a part file.
    Fails: an inlet whose cutout is a typical value.
    Passes: an inlet whose cutout comes from its data sheet.
    """
    to_measure = measuring.parts_to_measure(survey.panel)
    if not to_measure:
        return
    wanted = {ref for part in to_measure for ref in part.refs}
    spots = tuple(Spot(ref=one.ref, place=one.place, where=one.where) for one in survey.fittings if one.ref in wanted)
    yield Observation(
        refs=refs_of(spots),
        place=place_of(spots),
        where=spots[0].where,
        subject=_of_what(to_measure)(len(refs_of(spots))),
        each=spots,
    )


def _of_what(parts: Sequence[measuring.PartToMeasure]) -> Callable[[int], Message]:
    """What of the panel is made by the figures: cutouts, scales, boards."""
    holes, scales = any(part.of_openings for part in parts), any(part.of_scales for part in parts)
    if any(part.of_boards for part in parts):
        return things.mixed_figures if holes or scales else things.height_figures
    if holes:
        return things.cutout_or_scale_figures if scales else things.cutout_figures
    return things.scale_figures


parts_to_measure.cases(
    """
    parts: [{ref: S1, part: __, at: [60, 50]}]
    """,
    fails="led-5-clip",
    passes="{part: led-5-clip, opening: {diameter: 6.4}}",
)
