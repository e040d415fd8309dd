"""What the shop can cut, and whether parts still fit when everything is off by what it may be."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.findings import Bound, Observation, place_of, refs_of
from panelart.checks.limits import Basis, Limit
from panelart.checks.materials import material
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.cutouts.punching import punch_for
from panelart.cutouts.tolerances import linear
from panelart.diagnostics import Severity
from panelart.geometry.corners import tightest_corner
from panelart.model.layout import CutOpening
from panelart.model.making import Cutting


@rule(
    Severity.ERROR,
    says="sheet of {subject} must not go into a laser: {other}",
    fix="choose another way to cut (making: cutting), or another sheet",
)
def sheet_not_for_laser(survey: Survey) -> Iterator[Observation]:
    """The sheet gives off poison or ruins the machine when a laser cuts it.

    Source: laser-safety pages; PVC and vinyl release chlorine compounds.
    Fix: mill or saw it, or choose another sheet.
    Fails: PVC foam board cut by laser.
    Passes: the same board milled.
    """
    sheet = survey.panel.sheet.material
    why = material(sheet).laser
    if why and survey.panel.making.cutting is Cutting.LASER:
        yield Observation(
            refs=(), place=survey.panel.outline.bounds, where=survey.panel.where, subject=sheet, other=why
        )


def _narrowest(survey: Survey) -> Limit | None:
    """The least width of an opening that the cutter can make; None where it has none to state."""
    panel = survey.panel
    thickness = panel.sheet.thickness
    match panel.making.cutting:
        case Cutting.LASER:
            return survey.limits["laser.hole.minimum"].times(thickness, "the sheet thickness")
        case Cutting.PUNCH:
            name = "punch.hole.hard.minimum" if material(panel.sheet.material).hard else "punch.hole.minimum"
            return survey.limits[name].times(thickness, "the sheet thickness")
        case Cutting.MILL if panel.making.cutter is not None:
            return Limit(
                name="",
                what="diameter of the cutter",
                value=panel.making.cutter,
                unit="mm",
                source="the cutter that the spec gives",
                basis=Basis.GIVEN,
            )
        case _:
            return None


@rule(
    Severity.WARNING,
    says="the opening {subject} is only {measured} wide, least {limit} for this cutter and sheet",
    fix="have it drilled, or use thinner sheet",
)
def opening_too_narrow_to_cut(survey: Survey) -> Iterator[Observation]:
    """An opening is narrower than the cutter makes cleanly in this sheet.

    A laser burns out narrow holes, a punch breaks, a milling cutter does not go in.

    Source: job shops' design rules: for a laser 0.7 times the thickness (one prints that, two 1.0), for a punch 1.0
    times, in hard sheet 2.0; a milling cutter's own diameter from the spec.
    Fix: drill it, or thinner sheet.
    Fails: a hole of 1.3 mm cut by laser in sheet of 2 mm.
    Passes: a hole of 1.4 mm in it.
    """
    limit = _narrowest(survey)
    if limit is None:
        return
    for opening in survey.layout.every_opening:
        box = opening.cut.bounds
        narrow = min(box.width, box.height)
        if narrow < limit.value - ROUNDING:
            yield Observation(
                refs=(opening.ref,),
                place=survey.place_of(opening),
                where=opening.where,
                subject=opening.name,
                measured=narrow,
                limit=limit,
            )


@rule(
    Severity.ERROR,
    says="an inside corner of {subject} has a radius of {measured}, the cutter leaves {limit}",
    fix="round the corner by {limit}, relieve it with a drilled hole, or have it filed",
)
def corner_sharper_than_cutter(survey: Survey) -> Iterator[Observation]:
    """A milled opening has a corner that the cutter cannot reach into, so that the part does not go in.

    Source: the cutter that the spec gives (making: cutter).
    Fix: corners of at least the cutter's radius, reliefs, or a file.
    Fails: a rectangular opening with sharp corners, milled with a cutter of 3 mm.
    Passes: the same opening with corners of 1.5 mm.
    """
    making = survey.panel.making
    if making.cutting is not Cutting.MILL or making.cutter is None:
        return
    limit = Limit(
        name="",
        what="radius of the cutter",
        value=making.cutter / 2,
        unit="mm",
        source=f"half of the cutter of {making.cutter:g} mm that the spec gives",
        basis=Basis.GIVEN,
    )
    for opening in survey.layout.every_opening:
        radius = tightest_corner(opening.cut)
        if radius is not None and radius < limit.value - ROUNDING:
            yield Observation(
                refs=(opening.ref,),
                place=survey.place_of(opening),
                where=opening.where,
                subject=f"the opening {opening.name}",
                measured=radius,
                limit=limit,
            )


@rule(
    Severity.NOTE,
    says="no punch cuts {subject} in one stroke: {other}",
    fix="nibble it, add the punch to the list (making: punches), or move to a size that is there",
)
def opening_nibbled(survey: Survey) -> Iterator[Observation]:
    """An opening matches none of the shop's punches and is nibbled, which takes longer and leaves a scalloped wall.

    Source: the punches that the spec lists.
    Fix: another size, or another punch.
    Fails: a hole of 4.5 mm where the punches are 3.2 and 6 mm.
    Passes: a hole of 3.2 mm.
    """
    making = survey.panel.making
    if making.cutting is not Cutting.PUNCH or not making.punches:
        return
    left = [opening for opening in survey.layout.every_opening if punch_for(opening, making.punches) is None]
    if left:
        spots = tuple(survey.spot_of(one) for one in left)
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=left[0].where,
            subject="some openings",
            other=", ".join(one.name for one in left),
        )


@rule(
    Severity.NOTE,
    says="with every deviation against it {subject} lacks {measured} for what must pass, at most {limit}",
    fix="write a tolerance at the hole, choose a finer class (making: tolerance), or a larger opening",
)
def fit_lost_in_tolerances(survey: Survey) -> Iterator[Observation]:
    """A part that fits by its figures may not fit when hole, film and part are all off by what they may be.

    The hole at its least by its own tolerance or the general one, under the thickest film, against the part at its
    most. An overlay has a hole of its own, which covers a part of the metal's by as much as it is laid askew: the
    register. Round holes only. One finding for each kind of part.

    Source: worst case of ISO 2768-1, the range of the film, the tolerance in the part's entry and, for an overlay, the
    register.
    Fix: a tolerance of its own for the hole, or a larger one.
    Fails: a hole of 12.1 mm to ISO 2768-m (+-0.2) for a bushing of 12.0 mm.
    Passes: a hole of 12.2 mm.
    """
    limit = survey.limits["fit.shortfall.maximum"]
    coat, marking = survey.panel.coat, survey.panel.marking
    register = marking.register if marking.process.name == _OVERLAY else 0.0
    kinds: dict[str, list[tuple[CutOpening, float]]] = {}
    for opening in survey.layout.every_opening:
        hole, part = opening.finished.circle, None if opening.passes is None else opening.passes.circle
        if hole is None or part is None:
            continue
        usual = linear(2 * hole[1], survey.panel.making.tolerance) or 0.0
        low = -usual if opening.tolerance is None else opening.tolerance[0]
        film = 0.0 if opening.bare else 2 * (coat.build_maximum - coat.build)
        maximum = 2 * part[1] + _part_tolerance(survey, opening)
        short = maximum + register - (2 * hole[1] + low - film)
        if 2 * hole[1] >= 2 * part[1] and short > limit.value + ROUNDING:
            fitted = survey.component(opening.ref)
            kinds.setdefault(opening.ref if fitted is None else fitted.title, []).append((opening, short))
    for name, found in kinds.items():
        spots = tuple(survey.spot_of(one) for one, _ in found)
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=spots[0].where,
            subject=name,
            measured=max(short for _, short in found),
            limit=limit,
            bound=Bound.MAXIMUM,
            each=spots,
        )


_OVERLAY = "overlay"


def _part_tolerance(survey: Survey, opening: CutOpening) -> float:
    """How much larger than its nominal size what passes may be, by the part's own figures."""
    component = survey.component(opening.ref)
    if component is None:
        return 0.0
    figures = (figure for one in component.openings for figure in one.figures if figure.name.startswith("passes_"))
    return max((figure.tolerance[1] for figure in figures if figure.tolerance is not None), default=0.0)
