"""Parts against each other, against openings, keep-outs and the edge of the panel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from panelart.checks.bodies import depth
from panelart.checks.findings import Bound, Observation
from panelart.checks.mends import moved_apart, moved_inwards
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Group, Solid, Survey, shared_place, sharing
from panelart.diagnostics import Severity
from panelart.messages import Said
from panelart.model.panel import Side


def _deepest(pairs: Iterable[tuple[Solid, Solid]], survey: Survey) -> Iterator[Observation]:
    """One observation for each pair of owners: the one that needs the longest move."""
    worst: dict[tuple[str, Said], tuple[float, Solid, Solid]] = {}
    for one, two in pairs:
        reach = depth(one.body, two.body)
        key = (one.owner, two.owner or two.words)
        if reach > worst.get(key, (0.0,))[0]:
            worst[key] = (reach, one, two)
    for reach, one, two in worst.values():
        limit = survey.may_share("overlap.maximum", two)
        if reach > limit.value + ROUNDING:
            yield Observation(
                refs=(one.owner, two.owner),
                place=shared_place(one, two),
                where=one.where,
                subject=one.words,
                other=two.words,
                measured=reach,
                limit=limit,
                bound=Bound.MAXIMUM,
            )


def past_edge(survey: Survey, solids: Group[Solid]) -> Iterator[Observation]:
    """One observation for each owner that reaches past the panel's edge, at its worst; not for racks."""
    limit = survey.limits["beyond_edge.maximum"]
    inside = survey.edge.surely_inside(solids.boxes, 0.0)
    worst: dict[str, tuple[float, Solid]] = {}
    for solid, clear in zip(solids, inside, strict=True):
        allowed = clear or survey.at_edge_by_standard(solid.owner)
        beyond = 0.0 if allowed else -survey.edge.margin(solid.body, solid.ground)
        if beyond > worst.get(solid.owner, (limit.value + ROUNDING,))[0]:
            worst[solid.owner] = (beyond, solid)
    for beyond, solid in worst.values():
        yield Observation(
            refs=(solid.owner,),
            place=solid.box,
            where=solid.where,
            subject=solid.words,
            measured=beyond,
            limit=limit,
            bound=Bound.MAXIMUM,
        )


@rule(
    Severity.ERROR,
    says="{subject} overlaps {other} by {measured}",
    fix="Move one of the parts by at least {measured}, or choose a smaller part.",
    limits=("overlap.maximum",),
    mends=(moved_apart,),
)
def parts_collide(survey: Survey) -> Iterator[Observation]:
    """Two parts overlap in front of the panel.

    Bezels, nuts, washers, knobs, the travel of levers and mating plugs all count, because each needs its space when the
    panel is in use. Measured is the shortest straight move that separates the two.

    Source: two bodies cannot occupy one place.
    Fix: move one of the parts, or fit a smaller knob or bezel.
    Fails: two knobs of 24 mm with shafts 23 mm apart.
    Passes: the same knobs 24 mm apart.
    """
    yield from _deepest(survey.colliding, survey)


parts_collide.cases(
    """
    parts:
      - {ref: RV1, part: pot-m10, at: [40, 50], knob: {diameter: 24, height: 16}}
      - {ref: RV2, part: pot-m10, at: [__, 50], knob: {diameter: 24, height: 16}}
    """,
    fails="63",
    passes="64",
)


@rule(
    Severity.ERROR,
    says="{subject} overlaps {other} by {measured} behind the panel",
    fix="Move one of the parts by at least {measured}, or choose a part with a smaller body.",
    limits=("overlap.maximum",),
    mends=(moved_apart,),
)
def parts_collide_behind(survey: Survey) -> Iterator[Observation]:
    """Two parts overlap behind the panel.

    Bodies are often larger than what is seen from the front: parts that look well spaced may be impossible to mount.

    Source: two bodies cannot occupy one place.
    Fix: move one of the parts, or choose a part with a smaller body.
    Fails: two bodies 20 mm wide with centres 19 mm apart.
    Passes: the same bodies 20 mm apart.
    """
    yield from _deepest(sharing(survey.rear.near_each_other()), survey)


parts_collide_behind.cases(
    """
    parts:
      - ref: K1
        part:
          title: Relay
          openings: [{role: body, circle: {diameter: 6}}]
          rear: [{what: body, rectangle: {width: 20, height: 20}, depth: 30}]
        at: [40, 50]
      - ref: K2
        part:
          title: Relay
          openings: [{role: body, circle: {diameter: 6}}]
          rear: [{what: body, rectangle: {width: 20, height: 20}, depth: 30}]
        at: [__, 50]
    """,
    fails="59",
    passes="60",
)


@rule(
    Severity.ERROR,
    says="{subject} lies {measured} under {other}",
    fix="Move one of the parts by at least {measured}.",
    limits=("overlap.maximum",),
    mends=(moved_apart,),
)
def opening_under_part(survey: Survey) -> Iterator[Observation]:
    """An opening of one part is covered by another part.

    An opening under its own part is correct. Not reported where the two parts collide anyway.

    Source: what must pass through the opening meets the other part.
    Fix: move one of the parts.
    Fails: a screw hole 2 mm inside the bezel of a meter.
    Passes: the same hole outside the bezel.
    """
    known = {frozenset((one.owner, two.owner)) for one, two in survey.colliding}
    pairs = ((opening, part) for part, opening in survey.covers.near(survey.openings))
    yield from _deepest(
        (pair for pair in sharing(pairs) if frozenset((pair[0].owner, pair[1].owner)) not in known), survey
    )


opening_under_part.cases(
    """
    parts:
      - {ref: M1, part: meter-48x48, at: [60, 50]}
      - {ref: H1, part: {part: opening-circle, opening: {diameter: 1.4}}, at: [__, 50]}
    """,
    fails="84",
    passes="85",
)


@rule(
    Severity.ERROR,
    says="{subject} extends {measured} beyond the edge of the panel",
    fix="Move the part inwards by at least {measured}.",
    limits=("beyond_edge.maximum",),
    mends=(moved_inwards,),
)
def part_over_edge(survey: Survey) -> Iterator[Observation]:
    """A part extends beyond the edge of the panel.

    Everything in front counts: bezel, nut, knob, lever travel, mating plug. The screws of rack panels, which IEC 60297
    places at the edge, are exempt.

    Source: common practice; what projects meets the case, the rack or the neighbouring unit.
    Fix: move the part inwards, or make the panel larger.
    Fails: a knob of 24 mm with its shaft 11 mm from the edge.
    Passes: the same knob 12 mm from the edge.
    """
    yield from past_edge(survey, survey.front)


part_over_edge.cases(
    """
    parts: [{ref: RV1, part: pot-m10, at: [__, 50], knob: {diameter: 32, height: 16}}]
    """,
    fails="15",
    passes="16",
)


def _kept_out(survey: Survey) -> list[tuple[Solid, Solid]]:
    """Envelopes on the side of a keep-out that reach into it."""
    return [
        (thing, keepout)
        for things, side in ((survey.front, Side.FRONT), (survey.rear, Side.REAR))
        for thing, keepout in sharing(things.near(survey.keepouts(side)))
    ]


@rule(
    Severity.ERROR,
    says="{subject} extends {measured} into {other}",
    fix="Move the part by at least {measured}, or make the keep-out smaller.",
    mends=(moved_apart,),
)
def part_in_keepout(survey: Survey) -> Iterator[Observation]:
    """A part extends into a keep-out.

    Keep-outs in front apply to what a part takes in front, keep-outs behind to its body.

    Source: the keep-out in the spec and its reason.
    Fix: move the part, or change the keep-out.
    Fails: a switch body 2 mm inside the area of a circuit board's bracket.
    Passes: the same body beside the bracket.
    """
    yield from _deepest(_kept_out(survey), survey)


part_in_keepout.cases(
    """
    keepouts: [{area: {rectangle: [80, 20, 40, 60]}, side: rear, why: a bracket}]
    parts: [{ref: S1, part: toggle-12, at: [__, 50]}]
    """,
    fails="75",
    passes="60",
)
part_in_keepout.cases(
    """
    keepouts: [{area: {rectangle: [80, 20, 40, 60]}, why: a plate}]
    parts: [{ref: RV1, part: pot-m10, at: [__, 50], knob: {diameter: 24, height: 16}, legend: Gain}]
    """,
    fails="69",
    passes="68",
)


@rule(
    Severity.ERROR,
    says="{subject} extends {measured} into {other}",
    fix="Move the opening by at least {measured}, or make the keep-out smaller.",
    mends=(moved_apart,),
)
def opening_in_keepout(survey: Survey) -> Iterator[Observation]:
    """An opening is cut in a keep-out.

    An opening passes through the sheet and counts on both sides. Not reported where the part itself is in the keep-out.

    Source: the keep-out in the spec and its reason.
    Fix: move the part, or change the keep-out.
    Fails: a screw hole through the area of a bracket behind the panel.
    Passes: the same hole beside the bracket.
    """
    known = {(thing.owner, keepout.words) for thing, keepout in _kept_out(survey)}
    for side in (Side.FRONT, Side.REAR):
        pairs = sharing(survey.openings.near(survey.keepouts(side)))
        yield from _deepest((pair for pair in pairs if (pair[0].owner, pair[1].words) not in known), survey)


opening_in_keepout.cases(
    """
    keepouts: [{area: {rectangle: [80, 20, 40, 60]}, side: rear, why: a bracket}]
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 4}}, at: [__, 50]}]
    """,
    fails="79",
    passes="78",
)
