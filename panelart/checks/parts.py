"""Parts against each other, against openings, keep-outs and the edge of the panel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from panelart.checks.bodies import depth
from panelart.checks.findings import Bound, Observation
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Group, Solid, Survey, shared_place, sharing
from panelart.diagnostics import Severity
from panelart.model.panel import Side


def _deepest(pairs: Iterable[tuple[Solid, Solid]], survey: Survey) -> Iterator[Observation]:
    """One observation for each pair of owners: the one that needs the longest move."""
    worst: dict[tuple[str, str], tuple[float, Solid, Solid]] = {}
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
    """One observation for each owner that reaches past the panel's edge, at its worst; racks are let be."""
    limit = survey.limits["beyond_edge.maximum"]
    inside = survey.edge.surely_inside(solids.boxes, 0.0)
    worst: dict[str, tuple[float, Solid]] = {}
    for solid, clear in zip(solids, inside, strict=True):
        let_be = clear or survey.at_edge_by_standard(solid.owner)
        beyond = 0.0 if let_be else -survey.edge.margin(solid.body, solid.ground)
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
    says="{subject} and {other} overlap by {measured}",
    fix="move one of the two parts by at least {measured}, or choose a smaller one",
)
def parts_collide(survey: Survey) -> Iterator[Observation]:
    """Two parts need the same room in front of the panel.

    Bezels, nuts, washers, knobs, the travel of levers and mating plugs are all counted, because each needs its
    room when the panel is in use. Measured is the least straight move that parts the two.

    Source: two bodies cannot stand in one place.
    Fix: move one of the parts, or fit a smaller knob or bezel.
    Fails: two knobs of 24 mm with shafts 23 mm apart.
    Passes: the same knobs 24 mm apart.
    """
    yield from _deepest(survey.colliding, survey)


@rule(
    Severity.ERROR,
    says="behind the panel {subject} and {other} overlap by {measured}",
    fix="move one of the two parts by at least {measured}, or choose a smaller body",
)
def parts_collide_behind(survey: Survey) -> Iterator[Observation]:
    """Two parts need the same room behind the panel.

    Bodies are often larger than what is seen from the front: the parts look well spaced and cannot be mounted.

    Source: two bodies cannot stand in one place.
    Fix: move one of the parts, or choose one with a smaller body.
    Fails: two bodies 20 mm wide with centres 19 mm apart.
    Passes: the same bodies 20 mm apart.
    """
    yield from _deepest(sharing(survey.rear.near_each_other()), survey)


@rule(
    Severity.ERROR,
    says="{subject} lies under {other}, by {measured}",
    fix="move one of the two parts by at least {measured}",
)
def opening_under_part(survey: Survey) -> Iterator[Observation]:
    """An opening of one part is covered by another part.

    An opening under its own part is as it should be. Nothing is said where the two parts collide anyway.

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


@rule(
    Severity.ERROR,
    says="{subject} reaches {measured} past the edge of the panel",
    fix="move it inwards by at least {measured}",
)
def part_over_edge(survey: Survey) -> Iterator[Observation]:
    """A part stands out beyond the edge of the panel.

    Everything it takes in front counts: bezel, nut, knob, lever travel, mating plug. The screws of rack panels,
    which IEC 60297 puts at the edge, are let be.

    Source: common practice; what stands out meets the case, the rack or the neighbour.
    Fix: move the part inwards, or make the panel larger.
    Fails: a knob of 24 mm with its shaft 11 mm from the edge.
    Passes: the same knob 12 mm from the edge.
    """
    yield from past_edge(survey, survey.front)


def _kept_out(survey: Survey) -> list[tuple[Solid, Solid]]:
    """Envelopes on the side of a keep-out that reach into it."""
    return [
        (thing, keepout)
        for things, side in ((survey.front, Side.FRONT), (survey.rear, Side.REAR))
        for thing, keepout in sharing(things.near(survey.keepouts(side)))
    ]


@rule(
    Severity.ERROR,
    says="{subject} reaches {measured} into {other}",
    fix="move the part by at least {measured}, or ask whether the keep-out may be smaller",
)
def part_in_keepout(survey: Survey) -> Iterator[Observation]:
    """A part stands where the designer said that nothing may be.

    What a part takes in front is held against keep-outs in front, its body against those behind.

    Source: the keep-out in the spec and its reason.
    Fix: move the part, or change the keep-out.
    Fails: a switch body 2 mm inside the area of a circuit board's bracket.
    Passes: the same body beside the bracket.
    """
    yield from _deepest(_kept_out(survey), survey)


@rule(
    Severity.ERROR,
    says="{subject} reaches {measured} into {other}",
    fix="move the opening by at least {measured}, or ask whether the keep-out may be smaller",
)
def opening_in_keepout(survey: Survey) -> Iterator[Observation]:
    """An opening is cut where the designer said that nothing may be.

    An opening goes through: it counts on both sides. Nothing is said where the part itself is in the keep-out.

    Source: the keep-out in the spec and its reason.
    Fix: move the part, or change the keep-out.
    Fails: a screw hole through the area of a bracket behind.
    Passes: the same hole beside it.
    """
    known = {(thing.owner, keepout.words) for thing, keepout in _kept_out(survey)}
    for side in (Side.FRONT, Side.REAR):
        pairs = sharing(survey.openings.near(survey.keepouts(side)))
        yield from _deepest((pair for pair in pairs if (pair[0].owner, pair[1].words) not in known), survey)
