"""Whether the sheet is thick enough for each countersink, and whether its cone has space at the face."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.bodies import body_of
from panelart.checks.findings import Bound, Observation, place_of, refs_of
from panelart.checks.limits import Basis, Limit
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.cutouts.cutting import coat_on_cone, cone_depth, cone_exit
from panelart.diagnostics import Severity
from panelart.geometry import circle
from panelart.geometry.measures import gap, overlaps
from panelart.geometry.polygons import polygon
from panelart.messages import Said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.component import Component
from panelart.model.layout import FACE, CutCountersink, CutOpening


def _cones(survey: Survey) -> Iterator[tuple[CutOpening, CutCountersink]]:
    return ((hole, hole.countersink) for hole in survey.layout.every_opening if hole.countersink is not None)


def _hole(opening: CutOpening) -> float:
    round_ = opening.cut.circle
    assert round_ is not None  # the catalogue lets a countersink stand about a round hole only
    return 2 * round_[1]


def _full_depth(opening: CutOpening, cone: CutCountersink) -> float:
    """How deep the cone is in a sheet that is thick enough."""
    return cone_depth(cone.cut, _hole(opening), cone.angle)


def _by_component(survey: Survey, found: list[tuple[CutOpening, float]]) -> Iterator[list[tuple[CutOpening, float]]]:
    kinds: dict[str, list[tuple[CutOpening, float]]] = {}
    for opening, measured in found:
        kinds.setdefault(_screw(survey, opening).name, []).append((opening, measured))
    yield from kinds.values()


def _screw(survey: Survey, opening: CutOpening) -> Component:
    component = survey.component(opening.ref)
    assert component is not None  # plain holes have no countersink
    return component


@rule(
    Severity.ERROR,
    says="{subject}: countersink breaks through the sheet and widens the hole to {measured}; maximum {limit}",
    fix="Use a thinner screw head, thicker sheet, or a screw that is not countersunk.",
)
def countersink_breaks_through(survey: Survey) -> Iterator[Observation]:
    """A countersink is deeper than the sheet is thick.

    The hole is then as wide as the cone at the far side, with a sharp edge, and the head has almost no support.
    Measured is the diameter of the hole that remains. One finding for each kind of screw.

    Source: plane geometry; FAA AC 65-15A: machine-countersink only where the sheet is thicker than the head is high.
    Fix: a smaller or lower head, thicker sheet.
    Fails: M4, cone of 9.4 mm at 90 degrees, in sheet of 2 mm: the hole becomes 5.4 mm.
    Passes: the same screw in sheet of 3 mm.
    """
    thickness = survey.panel.sheet.thickness
    through = [
        (hole, cone_exit(cone.cut, cone.angle, thickness))
        for hole, cone in _cones(survey)
        if _full_depth(hole, cone) > thickness + ROUNDING
    ]
    for group in _by_component(survey, through):
        opening, measured = group[0]
        spots = tuple(survey.spot_of(one) for one, _ in group)
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=opening.where,
            subject=survey.kind(_screw(survey, opening), spots),
            measured=measured,
            limit=Limit(
                name="",
                what=of_limits.countersunk_hole(),
                value=_hole(opening),
                unit="mm",
                source=of_limits.hole_as_cut(thickness=thickness),
                basis=Basis.COMMON_PRACTICE,
            ),
            bound=Bound.MAXIMUM,
            each=spots,
        )


countersink_breaks_through.cases(
    """
    panel: {sheet: {thickness: __}}
    parts: [{ref: H1, part: screw-m4-countersunk, at: [40, 50]}]
    """,
    fails="2",
    passes="3",
)


@rule(
    Severity.WARNING,
    says="{subject}: straight wall under the countersink is {measured}; minimum {limit}",
    fix="Use a thinner screw head or thicker sheet, so that the straight wall is at least {limit}.",
    limits=("countersink.wall.minimum",),
)
def countersink_knife_edge(survey: Survey) -> Iterator[Observation]:
    """A countersink takes almost the whole sheet thickness and leaves a knife edge at the far side.

    The edge cuts, dents and lets the hole grow under load. One finding for each kind of screw.

    Source: design rules, 0.2 to 0.5 mm (from memory); MIL-HDBK-5 calls a cone as deep as the sheet a knife edge.
    Fix: a smaller or lower head, thicker sheet.
    Fails: M3, cone of 6.3 mm about a hole of 3.4 mm, in sheet of 1.5 mm: 0.05 mm remains.
    Passes: the same screw in sheet of 2 mm: 0.55 mm remains.
    """
    thickness = survey.panel.sheet.thickness
    limit = survey.limits["countersink.wall.minimum"]
    thin = [
        (hole, wall)
        for hole, cone in _cones(survey)
        if -ROUNDING <= (wall := thickness - _full_depth(hole, cone)) < limit.value - ROUNDING
    ]
    for group in _by_component(survey, thin):
        spots = tuple(survey.spot_of(one) for one, _ in group)
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=group[0][0].where,
            subject=survey.kind(_screw(survey, group[0][0]), spots),
            measured=max(min(wall for _, wall in group), 0.0),
            limit=limit,
            each=spots,
        )


countersink_knife_edge.cases(
    """
    panel: {sheet: {thickness: __}}
    parts: [{ref: H1, part: screw-m3-countersunk, at: [40, 50]}]
    """,
    fails="1.5",
    passes="2",
)


@rule(
    Severity.WARNING,
    says="{subject}: screw head is {measured} proud at the maximum coat thickness; maximum {limit}",
    fix="Mask the countersink during coating, or agree a narrower range of coat thickness.",
    limits=("countersink.proud.maximum",),
)
def countersunk_head_proud(survey: Survey) -> Iterator[Observation]:
    """The coat fills the countersink so far that the screw head is no longer flush.

    The finished cone is as wide as the head's theoretical diameter at the nominal coat thickness; where the coat is
    thicker, or no allowance is made for it, the head is proud.

    Source: plane geometry; the permissible height is common practice.
    Fix: mask the countersink, or a narrower range of coat thickness.
    Fails: a coat of 0.3 mm without allowance, which lifts a 90 degree head by 0.12 mm.
    Passes: a coat of 0.06 to 0.12 mm with allowance, 0.01 mm.
    """
    coat = survey.panel.coat
    limit = survey.limits["countersink.proud.maximum"]
    for hole, cone in _cones(survey):
        part = _screw(survey, hole)
        asked = max((one.countersink.diameter for one in part.openings if one.countersink is not None), default=0.0)
        more = coat_on_cone(cone.angle, coat.build_maximum - coat.build)
        proud = cone_depth(asked, cone.finished - more, cone.angle)
        if proud > limit.value + ROUNDING:
            yield Observation(
                refs=(hole.ref,),
                place=survey.shown(hole.on, cone.centre),
                where=hole.where,
                subject=survey.part(hole.ref),
                measured=proud,
                limit=limit,
                bound=Bound.MAXIMUM,
            )


countersunk_head_proud.cases(
    """
    panel: {sheet: {thickness: 3}, coat: {kind: powder, thickness: __, allowance: none, colour: "#FFFFFF"}}
    parts: [{ref: H1, part: screw-m4-countersunk, at: [40, 50]}]
    """,
    fails="0.25",
    passes="0.24",
)


@rule(
    Severity.ERROR,
    says="{subject}: countersink reaches {other}",
    fix="Move the parts apart until there is metal between them at the face.",
)
def countersink_meets_opening(survey: Survey) -> Iterator[Observation]:
    """A countersink reaches another opening or the edge of the sheet.

    The head is then supported by part of its cone only, and the rim between them breaks out.

    Source: common practice.
    Fix: move the parts apart.
    Fails: a cone of 9.4 mm with its centre 4.5 mm from the edge.
    Passes: the same cone 8 mm from the edge.
    """
    for hole, cone in _cones(survey):
        mouth = circle(cone.cut, cone.centre)
        if hole.on == FACE and survey.cut_edge.margin(body_of(mouth), polygon(mouth, side="outside")) < -ROUNDING:
            yield _met(survey, hole, things.sheet_edge())
        for other in survey.layout.every_opening:
            near = other is not hole and other.on == hole.on and other.cut.bounds.overlaps(mouth.bounds)
            if near and (overlaps(mouth, other.cut) or gap(mouth, other.cut).distance <= ROUNDING):
                yield _met(survey, hole, things.opening(name=other.name), other.ref)


countersink_meets_opening.cases(
    """
    panel: {sheet: {thickness: 3}}
    parts:
      - {ref: H1, part: screw-m4-countersunk, at: [40, 50]}
      - {ref: H2, part: {part: opening-circle, opening: {diameter: 4}}, at: [__, 50]}
    """,
    fails="46.5",
    passes="47.1",
)


def _met(survey: Survey, hole: CutOpening, other: Said, ref: str = "") -> Observation:
    place = survey.place_of(hole)
    subject = survey.part(hole.ref)
    return Observation(refs=(hole.ref, ref), place=place, where=hole.where, subject=subject, other=other)
