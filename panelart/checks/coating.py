"""What the coat does besides closing holes: play where it is thin, and areas that must stay bare."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.bodies import depth
from panelart.checks.findings import Bound, Observation
from panelart.checks.mends import moved_apart, other_sides
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Solid, Survey
from panelart.diagnostics import Severity
from panelart.geometry import Box, overlaps
from panelart.messages import checks_things as things
from panelart.model.layout import FACE, PlacedMask
from panelart.model.panel import Side


@rule(
    Severity.WARNING,
    says="Openings are up to {measured} oversize at the minimum coat thickness; maximum {limit}",
    fix="Agree a narrower range of coat thickness with the coater, so that openings are at most {limit} oversize.",
    limits=("coat.play.maximum",),
)
def opening_loose_at_thin_coat(survey: Survey) -> Iterator[Observation]:
    """The range of coat thickness is so wide that parts have too much play at its minimum.

    Openings are cut for the middle of the range. The coat that is missing at the minimum adds to the play of every
    part.

    Source: the range of coat thickness in the spec; the permissible play is common practice.
    Fix: a narrower range.
    Fails: a coat of 0.02 to 0.16 mm, which leaves openings 0.14 mm oversize at its minimum, where 0.1 mm is the
    maximum.
    Passes: a coat of 0.06 to 0.12 mm, which leaves them 0.06 mm oversize.
    """
    coat = survey.panel.coat
    limit = survey.limits["coat.play.maximum"]
    wider = 2 * (coat.build - coat.build_minimum)
    if wider > limit.value + ROUNDING and survey.layout.openings:
        yield Observation(
            refs=(),
            place=survey.panel.outline.bounds,
            where=survey.panel.where,
            subject=things.coat(),
            measured=wider,
            limit=limit,
            bound=Bound.MAXIMUM,
        )


opening_loose_at_thin_coat.cases(
    """
    panel: {coat: {kind: powder, thickness: {minimum: __, maximum: 0.16}, colour: "#FFFFFF"}}
    parts: [{ref: S1, part: toggle-12, at: [40, 50]}]
    """,
    fails="0.02",
    passes="0.12",
)


@rule(
    Severity.WARNING,
    says="{subject}: printed on {other}",
    fix="Move the legend off the uncoated area, or move the mask.",
    mends=(other_sides,),
)
def legend_on_mask(survey: Survey) -> Iterator[Observation]:
    """A legend is printed on an area that is masked during coating.

    Inks are chosen for the coat, not for bare metal, and a gasket or a lug must touch the bare area.

    Source: common practice.
    Fix: move the legend or the mask.
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
                    subject=things.legend(owner=legend.ref, style=legend.style, text=legend.text),
                    other=things.uncoated_area(name=mask.name),
                )


legend_on_mask.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, colour: "#FFFFFF"}}
    masks: [{area: {rectangle: [20, 40, 30, 20]}, why: bonding pad}]
    texts: [{text: OUTPUT, at: [30, __], style: name}]
    """,
    fails="50",
    passes="70",
)


@rule(
    Severity.ERROR,
    says="{subject} extends {measured} over {other}",
    fix="Move the parts apart until the pad is clear.",
    limits=("overlap.maximum",),
    mends=(moved_apart,),
)
def bonding_pad_covered(survey: Survey) -> Iterator[Observation]:
    """A part behind the panel covers the bare pad of an earth connection.

    The lug must lie flat on bare metal.

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
                    other=pad.words,
                    measured=deep,
                    limit=limit,
                    bound=Bound.MAXIMUM,
                )


bonding_pad_covered.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, colour: "#FFFFFF"}}
    parts:
      - {ref: E1, part: earth-stud-m4, at: [40, 50]}
      - ref: K1
        part:
          title: Relay
          openings: [{role: body, circle: {diameter: 6}}]
          rear: [{what: body, circle: {diameter: 20}, depth: 30}]
        at: [__, 50]
    """,
    fails="56.5",
    passes="60",
)


def _pad(mask: PlacedMask) -> Solid:
    return Solid(
        owner=mask.name,
        what="pad",
        words=things.pad(ref=mask.name),
        contour=mask.contour,
        box=mask.contour.bounds,
        where=mask.where,
    )
