"""Frames against parts, openings, keep-outs and other frames."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from panelart.checks.findings import Bound, Observation
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Group, Ink, Solid, Stroke, Survey, inked, reach, shared_place
from panelart.diagnostics import Severity
from panelart.geometry import Box
from panelart.model.panel import Side


def _crossed(pairs: Iterable[tuple[Stroke, Solid]], survey: Survey) -> Iterator[Observation]:
    for line, solid in inked(pairs):
        limit = survey.may_share("covered.maximum", solid)
        far = reach(line, solid)
        if far > limit.value + ROUNDING:
            yield Observation(
                refs=(line.owner, solid.owner),
                place=shared_place(line, solid),
                where=line.where,
                subject=survey.named([line]),
                other=solid.words,
                measured=far,
                limit=limit,
                bound=Bound.MAXIMUM,
            )


@rule(
    Severity.ERROR,
    says="{subject}: line lies {measured} under {other}",
    fix="Change the margin of the frame, or move the part by at least {measured}.",
    limits=("covered.maximum",),
)
def frame_under_part(survey: Survey) -> Iterator[Observation]:
    """The line of a frame runs under a part and looks broken.

    Source: common practice; a broken frame does not show what belongs together.
    Fix: another margin for the frame, or another place for the part.
    Fails: a frame with a knob on its line.
    Passes: the same frame round the whole knob.
    """
    yield from _crossed(survey.frame_lines.near(survey.covers), survey)


frame_under_part.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [50, 50], legend: In}
      - {ref: J2, part: bnc, at: [90, 50], legend: Out}
      - {ref: RV1, part: pot-m10, at: [__, 50], knob: {diameter: 24, height: 16}, legend: Gain}
    frames: [{around: [J1, J2]}]
    """,
    fails="112",
    passes="140",
)


@rule(
    Severity.ERROR,
    says="{subject}: overlap of line and {other} is {measured}",
    fix="Change the margin of the frame, or move the part by at least {measured}.",
    limits=("covered.maximum",),
)
def frame_over_opening(survey: Survey) -> Iterator[Observation]:
    """The line of a frame is printed across an opening.

    Not reported where the opening's own part covers that place.

    Source: ink needs a surface.
    Fix: another margin for the frame, or another place for the part.
    Fails: a frame with a screw hole on its line.
    Passes: the same frame beside the hole.
    """
    hidden = {(line, solid.owner) for line, solid in inked(survey.frame_lines.near(survey.covers))}
    pairs = survey.frame_lines.near(survey.openings)
    yield from _crossed(((line, hole) for line, hole in pairs if (line, hole.owner) not in hidden), survey)


frame_over_opening.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [50, 50], legend: In}
      - {ref: J2, part: bnc, at: [90, 50], legend: Out}
      - {ref: H1, part: {part: opening-circle, opening: {diameter: 4}}, at: [__, 50]}
    frames: [{around: [J1, J2]}]
    """,
    fails="101",
    passes="130",
)


@rule(
    Severity.ERROR,
    says="{subject}: line extends {measured} into {other}",
    fix="Change the margin of the frame, or make the keep-out smaller.",
)
def frame_in_keepout(survey: Survey) -> Iterator[Observation]:
    """The line of a frame is printed in a keep-out.

    Source: the keep-out in the spec and its reason.
    Fix: another margin for the frame, or another keep-out.
    Fails: a frame that crosses the area of a rating plate.
    Passes: the same frame beside it.
    """
    yield from _crossed(survey.frame_lines.near(survey.keepouts(Side.FRONT)), survey)


frame_in_keepout.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [50, 50], legend: In}
      - {ref: J2, part: bnc, at: [90, 50], legend: Out}
    frames: [{around: [J1, J2]}]
    keepouts: [{area: {rectangle: [__, 20, 20, 60]}, why: a rating plate}]
    """,
    fails="100.5",
    passes="130",
)


@rule(
    Severity.ERROR,
    says="{subject}: overlap with the line of {other} is {measured}",
    fix="Change the margin of one of the frames, or move the parts of one frame.",
    limits=("marking_overlap.maximum",),
)
def frames_collide(survey: Survey) -> Iterator[Observation]:
    """The lines of two frames touch or cross. A frame wholly inside another is correct.

    Measured is the shortest move that separates the two lines where they meet.

    Source: common practice; where frames cross, a part seems to belong to both.
    Fix: another margin, or move the parts of one frame.
    Fails: two frames side by side that overlap by 1 mm.
    Passes: the same frames 1 mm apart, or one inside the other.
    """
    limit = survey.limits["marking_overlap.maximum"]
    for one, two in survey.frame_lines.near_each_other():
        far = reach(one, two)
        if far > limit.value + ROUNDING:
            yield Observation(
                refs=(one.owner, two.owner),
                place=shared_place(one, two),
                where=two.where,
                subject=survey.named([one]),
                other=survey.named([two]),
                measured=far,
                limit=limit,
                bound=Bound.MAXIMUM,
            )


frames_collide.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [40, 50], legend: In}
      - {ref: J2, part: bnc, at: [__, 50], legend: Out}
    frames: [{around: [J1], title: A}, {around: [J2], title: B}]
    """,
    fails="60",
    passes="100",
)


@rule(
    Severity.WARNING,
    says="{subject}: encloses {other}, which is not listed in `around`",
    fix="Add the part to `around` of the frame, or move the part out of the frame.",
)
def frame_holds_stranger(survey: Survey) -> Iterator[Observation]:
    """A frame encloses a part that does not belong to it.

    Parts whose hardware and openings are wholly within the line count; a part on the line is reported by other rules.

    Source: common practice; readers take all that a frame encloses for one group.
    Fix: add the part to the frame's `around`, or move it out.
    Fails: a frame round three sockets with a lamp between them that it does not list.
    Passes: the same frame when it lists the lamp too.
    """
    extents: dict[str, list[Box]] = {}
    for solid in (*survey.front, *survey.openings):
        if solid.owner in survey.panel.by_ref:
            extents.setdefault(solid.owner, []).append(solid.box)
    for frame in survey.layout.frames:
        for ref, boxes in extents.items():
            whole = Box.around(boxes)
            if ref not in frame.refs and frame.box.contains(whole):
                yield Observation(
                    refs=(frame.name, ref),
                    place=whole,
                    where=frame.where,
                    subject=survey.frame(frame.name),
                    other=survey.part(ref),
                )


frame_holds_stranger.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [50, 50], legend: In}
      - {ref: J2, part: bnc, at: [110, 50], legend: Out}
      - {ref: H1, part: led-5, at: [80, 50]}
    frames: [{around: __}]
    """,
    fails="[J1, J2]",
    passes="[J1, J2, H1]",
)


@rule(
    Severity.ERROR,
    says="{subject}: {measured} inside {other}, the rest outside",
    fix="Increase the margin of the field, or move the legend or part.",
    limits=("marking_overlap.maximum",),
)
def marking_across_field(survey: Survey) -> Iterator[Observation]:
    """A legend, a mark or the line of a frame is partly inside a filled field.

    What is inside a field in its ink is left out of it; what crosses its edge would lose its outer or its inner part.
    What has another ink changes its ground at the edge.

    Source: common practice; a letter half in ink and half bare is unreadable.
    Fix: a larger margin for the field, or another place for the legend.
    Fails: a text that begins inside a field and ends beside it.
    Passes: the same text beside the field.
    """
    limit = survey.limits["marking_overlap.maximum"]
    others: Group[Ink] = Group((*survey.legends, *survey.frame_lines, *survey.fields))
    for field, ink in survey.fields.near(others):
        inside = min(
            min(ink.box.right, field.box.right) - max(ink.box.left, field.box.left),
            min(ink.box.top, field.box.top) - max(ink.box.bottom, field.box.bottom),
        )
        whole = field.box.grown(ROUNDING).contains(ink.box) or ink.box.grown(ROUNDING).contains(field.box)
        if ink is field or whole or inside <= limit.value + ROUNDING:
            continue
        yield Observation(
            refs=(ink.owner, field.owner),
            place=ink.box,
            where=ink.where,
            subject=survey.named([ink]),
            other=survey.named([field]),
            measured=inside,
            limit=limit,
            bound=Bound.MAXIMUM,
        )


marking_across_field.cases(
    """
    parts: [{ref: J1, part: bnc, at: [50, 50], legend: In}]
    frames: [{around: [J1], form: field}]
    texts: [{text: FUSE, at: [__, 50], style: name}]
    """,
    fails="58",
    passes="90",
)
