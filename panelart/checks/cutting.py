"""What the metal needs: webs between openings and along the edge that survive cutting, bending and handling."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.bodies import depth
from panelart.checks.findings import Bound, Observation, Spot, place_of, refs_of
from panelart.checks.limits import Limit
from panelart.checks.mends import moved_apart, moved_inwards
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Solid, Survey, shared_place, sharing
from panelart.diagnostics import Severity
from panelart.geometry.measures import Gap, gap
from panelart.messages import checks_limits as of_limits


def _web_limit(survey: Survey) -> Limit:
    return survey.limits["web.minimum"].times(survey.panel.sheet.thickness, of_limits.sheet_thickness())


def _edge_limit(survey: Survey) -> Limit:
    return survey.limits["edge.minimum"].times(survey.panel.sheet.thickness, of_limits.sheet_thickness())


def _thin_webs(survey: Survey, limit: Limit, *, own: bool) -> Iterator[tuple[Solid, Solid, Gap]]:
    """Pairs of openings with too little metal between them, of one part or of two."""
    near = (pair for group in survey.cuts_by_place for pair in group.near_each_other(limit.value))
    for one, two in near:
        if (one.owner == two.owner) is own:
            web = gap(one.contour, two.contour)
            if web.distance < limit.value - ROUNDING and not one.overlaps(two):
                yield one, two, web


@rule(
    Severity.ERROR,
    says="{subject} overlaps {other} by {measured}",
    fix="Move the parts apart, or cut one opening for both.",
    limits=("overlap.maximum",),
    mends=(moved_apart,),
)
def openings_collide(survey: Survey) -> Iterator[Observation]:
    """The openings of two parts run into each other.

    Source: neither part is supported on all sides; a cutter that follows both lines loses the piece between them.
    Fix: move the parts apart.
    Fails: two openings of 12 mm with centres 11 mm apart.
    Passes: the same openings 20 mm apart.
    """
    limit = survey.limits["overlap.maximum"]
    for one, two in sharing(pair for group in survey.cuts_by_place for pair in group.near_each_other()):
        reach = depth(one.body, two.body)
        if reach > limit.value + ROUNDING:
            yield Observation(
                refs=(one.owner, two.owner),
                place=survey.shown(one.on, shared_place(one, two)),
                where=two.where,
                subject=one.words,
                other=two.words,
                measured=reach,
                limit=limit,
                bound=Bound.MAXIMUM,
            )


openings_collide.cases(
    """
    parts:
      - {ref: H1, part: {part: opening-circle, opening: {diameter: 12}}, at: [40, 50]}
      - {ref: H2, part: {part: opening-circle, opening: {diameter: 12}}, at: [__, 50]}
    """,
    fails="51",
    passes="60",
)


@rule(
    Severity.ERROR,
    says="{subject}: minimum web to {other} is {measured}; minimum {limit}",
    fix="Move the parts apart until the web is {limit}, or use thinner sheet.",
    limits=("web.minimum",),
    mends=(moved_apart,),
)
def openings_too_close(survey: Survey) -> Iterator[Observation]:
    """The minimum web between the openings of two parts is less than the sheet thickness.

    Measured between the lines as they are cut. Narrow webs bend, burn or tear when they are cut, and yield under the
    nut.

    Source: laser-cutting job shops' design rules: at least the sheet thickness.
    Fix: move the parts apart.
    Fails: a web of 1.9 mm in sheet of 2 mm.
    Passes: a web of 2 mm in sheet of 2 mm.
    """
    limit = _web_limit(survey)
    for one, two, web in _thin_webs(survey, limit, own=False):
        yield Observation(
            refs=(one.owner, two.owner),
            place=survey.shown(one.on, web.here.middle(web.there)),
            where=two.where,
            subject=one.words,
            other=two.words,
            measured=web.distance,
            limit=limit,
        )


openings_too_close.cases(
    """
    parts:
      - {ref: H1, part: {part: opening-circle, opening: {diameter: 12}}, at: [40, 50]}
      - {ref: H2, part: {part: opening-circle, opening: {diameter: 12}}, at: [__, 50]}
    """,
    fails="53.9",
    passes="54",
)


@rule(
    Severity.WARNING,
    says="{subject}: minimum web between openings of the part is {measured}; minimum {limit}",
    fix="Use thinner sheet, or ask the shop whether this web can be cut.",
    limits=("web.minimum",),
)
def thin_web_in_cutout(survey: Survey) -> Iterator[Observation]:
    """The minimum web between two openings of one part is less than the sheet thickness.

    The pattern is that of the part; only the sheet or the part can be changed, so this is a warning. One finding for
    each kind of part, with its narrowest web.

    Source: laser-cutting job shops' design rules: at least the sheet thickness.
    Fix: thinner sheet, another part, or the shop's confirmation that it can be cut.
    Fails: a locating hole 1.5 mm beside a bushing's opening in sheet of 2 mm.
    Passes: the same pattern in sheet of 1.5 mm.
    """
    limit = _web_limit(survey)
    kinds: dict[str, list[tuple[Solid, Solid, Gap]]] = {}
    for found in _thin_webs(survey, limit, own=True):
        part = survey.component(found[0].owner)
        kinds.setdefault("" if part is None else part.name, []).append(found)
    for webs in kinds.values():
        spots = tuple(
            Spot(ref=one.owner, place=survey.shown(one.on, web.here.middle(web.there)), where=one.where)
            for one, _, web in webs
        )
        part = survey.component(spots[0].ref)
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=spots[0].where,
            subject=spots[0].ref if part is None else survey.kind(part, spots),
            measured=min(web.distance for _, _, web in webs),
            limit=limit,
            each=spots,
        )


thin_web_in_cutout.cases(
    """
    panel: {sheet: {thickness: __}}
    parts:
      - ref: RV1
        part:
          title: Dial
          openings: [{role: body, circle: {diameter: 10}}, {role: locating, circle: {diameter: 3}, at: [8, 0]}]
        at: [40, 50]
    """,
    fails="2",
    passes="1.5",
)


def _near_edge(survey: Survey) -> Iterator[tuple[Solid, float]]:
    """Openings that are not surely far from the edge, with the metal left there; negative: they cross it."""
    needed = _edge_limit(survey).value
    far = survey.cut_edge.surely_inside(survey.cuts.boxes, needed)
    for opening, clear in zip(survey.cuts, far, strict=True):
        if not clear:
            yield opening, survey.cut_edge.margin(opening.body, opening.ground)


@rule(
    Severity.ERROR,
    says="{subject}: distance to the edge of the sheet is {measured}; minimum {limit}",
    fix="Move the opening inwards until the distance is {limit}, or use thinner sheet.",
    limits=("edge.minimum",),
    mends=(moved_inwards,),
)
def opening_near_edge(survey: Survey) -> Iterator[Observation]:
    """An opening is too close to the edge of the sheet.

    Measured on the sheet as it is cut. The slots of rack panels, which IEC 60297 places at the edge, are exempt.

    Source: laser-cutting job shops' design rules: at least 1.5 times the sheet thickness.
    Fix: move the part inwards.
    Fails: an opening 2.9 mm from the edge of a sheet of 2 mm.
    Passes: an opening 3 mm from the edge of a sheet of 2 mm.
    """
    limit = _edge_limit(survey)
    for opening, margin in _near_edge(survey):
        if -ROUNDING <= margin < limit.value - ROUNDING and not survey.at_edge_by_standard(opening.owner):
            yield Observation(
                refs=(opening.owner,),
                place=opening.box,
                where=opening.where,
                subject=opening.words,
                measured=max(margin, 0.0),
                limit=limit,
            )


opening_near_edge.cases(
    """
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 12}}, at: [__, 50]}]
    """,
    fails="8.9",
    passes="9",
)
opening_near_edge.cases(
    """
    panel: {sheet: {thickness: __}}
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 12}}, at: [10, 50]}]
    """,
    fails="3",
    passes="2.5",
)


@rule(
    Severity.ERROR,
    says="{subject} extends {measured} beyond the edge of the sheet",
    fix="Move the part inwards.",
    limits=("beyond_edge.maximum", "edge.minimum"),
    mends=(moved_inwards,),
)
def opening_over_edge(survey: Survey) -> Iterator[Observation]:
    """An opening breaks through the edge of the sheet.

    Source: the part is not supported on all sides, and the outline is no longer one line.
    Fix: move the part inwards.
    Fails: an opening of 12 mm with its centre 5 mm from the edge.
    Passes: the same opening 20 mm from the edge.
    """
    limit = survey.limits["beyond_edge.maximum"]
    for opening, margin in _near_edge(survey):
        if -margin > limit.value + ROUNDING:
            yield Observation(
                refs=(opening.owner,),
                place=opening.box,
                where=opening.where,
                subject=opening.words,
                measured=-margin,
                limit=limit,
                bound=Bound.MAXIMUM,
            )


opening_over_edge.cases(
    """
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 12}}, at: [__, 50]}]
    """,
    fails="5",
    passes="20",
)
