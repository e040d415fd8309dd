"""What the shop can cut, and whether parts still fit at worst-case tolerances."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.canonical import Struct
from panelart.checks.findings import Bound, Observation, place_of, refs_of
from panelart.checks.limits import Basis, Limit
from panelart.checks.materials import material
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.cutouts.held import held
from panelart.cutouts.punching import punch_for
from panelart.cutouts.uncertainty import Uncertainty, part_to_hole
from panelart.diagnostics import Severity
from panelart.geometry.corners import tightest_corner
from panelart.messages import checks as said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.layout import CutOpening
from panelart.model.making import Cutting
from panelart.model.panel import Panel


@rule(
    Severity.ERROR,
    says="Sheet {subject} must not be cut by laser: {other}",
    fix="Choose another cutting method (`making: cutting`), or another sheet.",
)
def sheet_not_for_laser(survey: Survey) -> Iterator[Observation]:
    """The sheet releases poison or damages the machine when cut by laser.

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


sheet_not_for_laser.cases(
    """
    panel: {sheet: {material: PVC foam, thickness: 2}}
    making: {cutting: __}
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 4}}, at: [40, 50]}]
    """,
    fails="laser",
    passes="mill",
)


def _narrowest(survey: Survey) -> Limit | None:
    """The minimum width of an opening for the cutting method; None where it has none."""
    panel = survey.panel
    thickness = panel.sheet.thickness
    match panel.making.cutting:
        case Cutting.LASER:
            return survey.limits["laser.hole.minimum"].times(thickness, of_limits.sheet_thickness())
        case Cutting.PUNCH:
            name = "punch.hole.hard.minimum" if material(panel.sheet.material).hard else "punch.hole.minimum"
            return survey.limits[name].times(thickness, of_limits.sheet_thickness())
        case Cutting.MILL if panel.making.cutter is not None:
            return Limit(
                name="",
                what=of_limits.cutter_diameter(),
                value=panel.making.cutter,
                unit="mm",
                source=of_limits.milling_cutter(),
                basis=Basis.GIVEN,
            )
        case _:
            return None


@rule(
    Severity.WARNING,
    says="{subject}: width {measured}; minimum {limit} for this cutting method and sheet",
    fix="Have the opening drilled, or use thinner sheet.",
    limits=("laser.hole.minimum", "punch.hole.hard.minimum", "punch.hole.minimum"),
)
def opening_too_narrow_to_cut(survey: Survey) -> Iterator[Observation]:
    """An opening is narrower than the cutting method can cut cleanly in this sheet.

    A laser burns out narrow holes, a punch breaks, a milling cutter does not enter.

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
                subject=things.opening(name=opening.name),
                measured=narrow,
                limit=limit,
            )


opening_too_narrow_to_cut.cases(
    """
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: __}}, at: [40, 50]}]
    """,
    fails="1.3",
    passes="1.4",
)
opening_too_narrow_to_cut.cases(
    """
    making: {cutting: punch}
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: __}}, at: [40, 50]}]
    """,
    fails="1.9",
    passes="2.1",
)
opening_too_narrow_to_cut.cases(
    """
    panel: {sheet: {material: stainless steel, thickness: 2}}
    making: {cutting: punch}
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: __}}, at: [40, 50]}]
    """,
    fails="2.5",
    passes="4.1",
)
opening_too_narrow_to_cut.cases(
    """
    making: {cutting: mill, cutter: 3}
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: __}}, at: [40, 50]}]
    """,
    fails="2.9",
    passes="3",
)


@rule(
    Severity.ERROR,
    says="{subject}: inside corner radius {measured}; minimum {limit} (radius of the cutter)",
    fix="Round the corners to {limit}, relieve them with drilled holes, or have them filed.",
)
def corner_sharper_than_cutter(survey: Survey) -> Iterator[Observation]:
    """A milled opening has a corner that the cutter cannot reach, so that the part does not fit.

    Source: the cutter in the spec (`making: cutter`).
    Fix: corners of at least the cutter's radius, reliefs, or a file.
    Fails: a rectangular opening with sharp corners, milled with a cutter of 3 mm.
    Passes: the same opening with corners of 1.5 mm.
    """
    making = survey.panel.making
    if making.cutting is not Cutting.MILL or making.cutter is None:
        return
    limit = Limit(
        name="",
        what=of_limits.cutter_radius(),
        value=making.cutter / 2,
        unit="mm",
        source=of_limits.half_milling_cutter(cutter=making.cutter),
        basis=Basis.GIVEN,
    )
    for opening in survey.layout.every_opening:
        radius = tightest_corner(opening.cut)
        if radius is not None and radius < limit.value - ROUNDING:
            yield Observation(
                refs=(opening.ref,),
                place=survey.place_of(opening),
                where=opening.where,
                subject=things.opening(name=opening.name),
                measured=radius,
                limit=limit,
            )


corner_sharper_than_cutter.cases(
    """
    making: {cutting: mill, cutter: 3}
    parts: [{ref: H1, part: {part: opening-rectangle, opening: {width: 20, height: 10, radius: __}}, at: [40, 50]}]
    """,
    fails="0.5",
    passes="1.5",
)


@rule(
    Severity.NOTE,
    says="No matching punch for openings {other}",
    fix="Nibble the openings, add the punch to the list (`making: punches`), or choose a size in the list.",
)
def opening_nibbled(survey: Survey) -> Iterator[Observation]:
    """An opening matches none of the shop's punches and is nibbled, which takes longer and leaves a scalloped wall.

    Source: the punches in the spec (`making: punches`).
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
            subject=things.opening(name=left[0].name) if len(left) == 1 else things.openings(),
            other=said.openings_listed(names=[one.name for one in left]),
        )


opening_nibbled.cases(
    """
    making: {cutting: punch, punches: [3.2, 6]}
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: __}}, at: [40, 50]}]
    """,
    fails="4.5",
    passes="3.2",
)


@rule(
    Severity.NOTE,
    says="{subject}: the hole is {measured} too small for the part by its deviations ({other})",
    fix="Enlarge the opening, give it a tolerance to the plus side, or narrow the range of the coat thickness.",
    limits=("fit.shortfall.maximum",),
)
def fit_lost_in_tolerances(survey: Survey) -> Iterator[Observation]:
    """A part that fits at nominal sizes may not fit with the deviations of hole, coat and part.

    Each dimension of an opening is compared with what passes: from its clearance as drawn the tolerance of the hole,
    the range of coat thickness and the tolerance of the part are taken, in the worst case all at once, or as the root
    of the sum of squares where `making.one_in` says so. A hole without a tolerance of its own has the general tolerance
    of openings, which is to the plus side. An overlay has its own opening, which covers part of that in the metal by
    the register error. One finding for each kind of part.

    Source: the tolerances in the part's entry, ISO 286-2 H12 to H14 for openings without one, the range of coat
    thickness and, for an overlay, the register error.
    Fix: a larger opening, or a tolerance to the plus side.
    Fails: a hole of 12.1 mm +-0.2 for a bushing of 12.0 mm.
    Passes: a hole of 12.3 mm +-0.2.
    """
    limit = survey.limits["fit.shortfall.maximum"]
    kinds: dict[str, list[tuple[CutOpening, _Room]]] = {}
    for opening in survey.layout.every_opening:
        tightest = min(_rooms(survey.panel, opening), key=lambda one: one.left, default=None)
        if tightest is not None and -tightest.left > limit.value + ROUNDING:
            fitted = survey.component(opening.ref)
            kinds.setdefault(opening.ref if fitted is None else fitted.title, []).append((opening, tightest))
    for found in kinds.values():
        fitted = survey.component(found[0][0].ref)
        spots = tuple(survey.spot_of(one) for one, _ in found)
        tightest = min((one for _, one in found), key=lambda one: one.left)
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=spots[0].where,
            subject=survey.part(spots[0].ref) if fitted is None else survey.kind(fitted, spots),
            other=things.clearance_less(clearance=tightest.clearance, deviations=tightest.off.words),
            measured=-tightest.left,
            limit=limit,
            bound=Bound.MAXIMUM,
            each=spots,
        )


class _Room(Struct, frozen=True, kw_only=True):
    """One dimension of an opening: how much larger it is than what passes, in mm, and what may be lost of that."""

    clearance: float
    off: Uncertainty

    @property
    def left(self) -> float:
        return self.off.room(self.clearance)


def _rooms(panel: Panel, opening: CutOpening) -> Iterator[_Room]:
    """Each dimension of which it is known what passes, but for those that are too small already as drawn."""
    for one in held(opening, panel.coat, panel.making):
        if one.passes is not None and one.finished >= one.passes[0]:
            yield _Room(clearance=one.finished - one.passes[0], off=part_to_hole(panel, one))


fit_lost_in_tolerances.cases(
    """
    parts:
      - ref: S1
        part:
          title: Lamp
          openings:
            - role: body
              circle: {diameter: {value: __, tolerance: [-0.2, 0.2]}}
              passes: {circle: {diameter: 12}}
        at: [40, 50]
    """,
    fails="12.1",
    passes="12.3",
)
