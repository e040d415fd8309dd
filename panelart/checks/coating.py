"""What the coat does besides closing holes: play where it is thin, and bare metal where it must not come."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.bodies import depth
from panelart.checks.findings import Bound, Observation
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Solid, Survey
from panelart.diagnostics import Severity
from panelart.geometry import Box, overlaps
from panelart.model.layout import FACE, PlacedMask
from panelart.model.panel import Side


@rule(
    Severity.WARNING,
    says="where the coat is thinnest, openings are {measured} wider than their finished size, at most {limit}",
    fix="agree a narrower range with the coater, so that parts sit with no more than {limit} of added play",
)
def opening_loose_at_thin_coat(survey: Survey) -> Iterator[Observation]:
    """The range of the film is so wide that parts have too much play where it is thinnest.

    Openings are cut for the middle of the range. What the film lacks at its thin end is added to the play of every
    part, on top of what its own opening gives it.

    Source: the range of the film from the spec; the play that is borne is common practice.
    Fix: a narrower range.
    Fails: a film of 0.02 to 0.16 mm, which leaves openings 0.14 mm wider at its thin end, where 0.1 is borne.
    Passes: a film of 0.06 to 0.12 mm, 0.06 mm wider.
    """
    coat = survey.panel.coat
    limit = survey.limits["coat.play.maximum"]
    wider = 2 * (coat.build - coat.build_minimum)
    if wider > limit.value + ROUNDING and survey.layout.openings:
        yield Observation(
            refs=(),
            place=survey.panel.outline.bounds,
            where=survey.panel.where,
            subject="the coat",
            measured=wider,
            limit=limit,
            bound=Bound.MAXIMUM,
        )


@rule(
    Severity.WARNING,
    says="{subject} is kept bare where {other} is printed",
    fix="move the legend off the bare metal, or the mask away from it",
)
def legend_on_mask(survey: Survey) -> Iterator[Observation]:
    """A legend lies on an area that is kept free of coat.

    Inks are chosen for the coat, not for bare metal, and the bare area is there to be touched by a gasket or a lug.

    Source: common practice.
    Fix: move one of the two.
    Fails: a name printed across a masked bonding pad on the front.
    Passes: the same name beside the pad.
    """
    for mask in survey.layout.masks:
        if mask.side is not Side.FRONT or mask.on != FACE:
            continue
        for legend in survey.layout.legends:
            if mask.contour.bounds.overlaps(legend.box):
                yield Observation(
                    refs=(legend.ref,),
                    place=legend.box,
                    where=mask.where,
                    subject=f"the area {mask.name}",
                    other=f'"{legend.text}"',
                )


@rule(
    Severity.ERROR,
    says="{subject} takes {measured} of the bare metal that {other} needs",
    fix="move the parts apart until the pad lies free",
)
def bonding_pad_covered(survey: Survey) -> Iterator[Observation]:
    """A part behind the panel stands on the bare pad of an earth connection.

    The lug must lie flat on bare metal; a bonding joint through another part is none.

    Source: common practice; the size of the pad is the earth stud's own figure.
    Fix: move the parts apart.
    Fails: the body of a switch over a corner of the pad of an earth stud.
    Passes: the same body 1 mm beside the pad.
    """
    limit = survey.limits["overlap.maximum"]
    for mask in survey.layout.masks:
        if mask.side is not Side.REAR or mask.on != FACE or mask.name not in survey.panel.by_ref:
            continue
        pad = _pad(mask)
        for body in survey.rear:
            if body.owner == mask.name or not body.box.overlaps(pad.box) or not overlaps(body.contour, pad.contour):
                continue
            deep = depth(body.body, pad.body)
            if deep > limit.value + ROUNDING:
                yield Observation(
                    refs=(body.owner, mask.name),
                    place=Box.around((body.box.centre, pad.box.centre)),
                    where=body.where,
                    subject=body.words,
                    other=mask.name,
                    measured=deep,
                    limit=limit,
                    bound=Bound.MAXIMUM,
                )


def _pad(mask: PlacedMask) -> Solid:
    return Solid(
        owner=mask.name,
        what="pad",
        words=f"the pad of {mask.name}",
        contour=mask.contour,
        box=mask.contour.bounds,
        where=mask.where,
    )
