"""Legends against everything they must keep clear of: parts, openings, keep-outs, frames and each other."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeAlias

import shapely

from panelart.checks.bodies import depth
from panelart.checks.findings import Bound, Observation
from panelart.checks.mends import moved_apart, moved_texts, other_sides
from panelart.checks.rule import rule
from panelart.checks.shadows import HiddenInk, boxes
from panelart.checks.survey import (
    ROUNDING,
    First,
    Ink,
    Second,
    Solid,
    Stroke,
    Survey,
    Words,
    inked,
    reach,
    shared_place,
)
from panelart.checks.worst_eye import worst_ink
from panelart.diagnostics import Severity
from panelart.geometry import Box
from panelart.legends.flow_marks import LINE as FLOW_LINE
from panelart.messages import Message, Said
from panelart.messages import checks as said
from panelart.messages import checks_things as things
from panelart.model.layout import Unplaced
from panelart.model.panel import Side

Reached: TypeAlias = tuple[Ink, Solid | Stroke | Words, float]
"""A legend, what it runs into, and by how many millimetres."""


def _gathered(reached: Iterable[Reached], survey: Survey, limit: str) -> Iterator[Observation]:
    """One observation for all legends of one owner and kind that run too far into one thing, with the worst."""
    groups: dict[tuple[str, str, int], list[Reached]] = {}
    for ink, thing, far in reached:
        if far > survey.may_share(limit, thing).value + ROUNDING:
            groups.setdefault((ink.owner, ink.kind, id(thing)), []).append((ink, thing, far))
    for group in groups.values():
        first, thing, _ = group[0]
        yield Observation(
            refs=(first.owner, thing.owner),
            place=Box.around(shared_place(ink, thing) for ink, _, _ in group),
            where=first.where,
            subject=survey.named([ink for ink, _, _ in group]),
            other=thing.words if isinstance(thing, Solid) else survey.named([thing]),
            measured=max(far for _, _, far in group),
            limit=survey.may_share(limit, thing),
            bound=Bound.MAXIMUM,
        )


def _onto(pairs: Iterable[tuple[First, Second]]) -> Iterator[tuple[First, Second, float]]:
    return ((ink, thing, reach(ink, thing)) for ink, thing in pairs)


def _outermost(pairs: Iterable[tuple[Ink, Solid]]) -> list[tuple[Ink, Solid]]:
    """Of several covers of one part over one legend, the one that it lies under most deeply."""
    best: dict[tuple[int, str], tuple[float, Ink, Solid]] = {}
    for ink, solid in pairs:
        key = (id(ink), solid.owner)
        far = reach(ink, solid)
        if far > best.get(key, (0.0,))[0]:
            best[key] = (far, ink, solid)
    return [(ink, solid) for _, ink, solid in best.values()]


def _under(survey: Survey, wanted: Callable[[Solid], bool]) -> list[tuple[Ink, Solid]]:
    return [(ink, solid) for ink, solid in _outermost(survey.hidden) if wanted(solid)]


@rule(
    Severity.ERROR,
    says="{subject}: no space; {other}",
    fix="Move parts apart, shorten the text, lower the cap height, or choose another side.",
    mends=(other_sides,),
)
def legend_unplaced(survey: Survey) -> Iterator[Observation]:
    """A legend that was asked for is not on the panel, because every place for it is taken.

    The report names what blocks the places, and the cheapest changes that make space; each was tried on the whole
    panel.

    Source: the spec asks for it; a control without its name is worse than a crowded panel.
    Fix: move what is named, or make the legend smaller or shorter.
    Fails: a long name between two knobs, with keep-outs above and below.
    Passes: the same name with one keep-out removed.
    """
    for missing in survey.layout.unplaced:
        yield Observation(
            refs=(missing.ref,),
            place=missing.near,
            where=missing.where,
            subject=things.legend(owner=missing.ref, style=missing.style, text=missing.text),
            other=_blocked(missing),
        )


legend_unplaced.cases(
    """
    keepouts: [{area: {rectangle: [0, 60, 160, 40]}, why: a plate}, {area: {rectangle: [0, 0, 160, __]}, why: a plate}]
    parts:
      - {ref: S1, part: toggle-12, at: [40, 50]}
      - {ref: S2, part: toggle-12, at: [62, 50], legend: Illumination}
      - {ref: S3, part: toggle-12, at: [84, 50]}
    """,
    fails="40",
    passes="20",
)


def _blocked(missing: Unplaced) -> Message:
    blockers, ways = missing.blockers, missing.ways_out
    if blockers:
        return said.blocked_with_ways_out(blockers=blockers, ways=ways) if ways else said.blocked(blockers=blockers)
    return said.nowhere_free_with_ways_out(ways=ways) if ways else said.nowhere_free()


@rule(
    Severity.ERROR,
    says="{subject}: {measured} hidden under {other}",
    fix="Move the legend by at least {measured}, or fit a smaller knob.",
    limits=("covered.maximum",),
    mends=(other_sides, moved_texts, moved_apart),
)
def legend_under_knob(survey: Survey) -> Iterator[Observation]:
    """A legend, mark or numeral is hidden by a knob of its own part or of another.

    The knob's full diameter counts: its skirt hides the face from an eye straight in front.

    Source: MIL-STD-1472E, 5.5.2.1 to 5.5.2.3: controls must not obscure their labels.
    Fix: place the legend outside the knob, or fit a smaller knob.
    Fails: a numeral 11 mm from the shaft of a knob of 24 mm.
    Passes: the same numeral 14 mm from the shaft.
    """
    yield from _gathered(_onto(_under(survey, lambda solid: solid.what == "knob")), survey, "covered.maximum")


legend_under_knob.cases(
    """
    parts: [{ref: RV1, part: pot-m10, at: [60, 50], knob: {diameter: 24, height: 16}}]
    texts: [{text: "5", at: [60, __], anchor: centre, style: numeral}]
    """,
    fails="61",
    passes="63",
)


@rule(
    Severity.ERROR,
    says="{subject}: {measured} hidden under {other}",
    fix="Move the legend by at least {measured}.",
    limits=("covered.maximum",),
    mends=(other_sides, moved_texts, moved_apart),
)
def legend_under_part(survey: Survey) -> Iterator[Observation]:
    """A legend, mark or numeral is hidden by a bezel, nut, washer, flange or mating plug.

    The area swept by a lever hides little and does not count.

    Source: MIL-STD-1472E, 5.5.2.1 to 5.5.2.3: controls must not obscure their labels.
    Fix: move the legend or the part.
    Fails: a name 1 mm inside the bezel of a meter.
    Passes: the same name beside the bezel.
    """
    yield from _gathered(_onto(_under(survey, lambda solid: solid.what != "knob")), survey, "covered.maximum")


legend_under_part.cases(
    """
    parts: [{ref: M1, part: meter-48x48, at: [60, 50]}]
    texts: [{text: VOLTS, at: [60, __], anchor: centre, style: name}]
    """,
    fails="73",
    passes="75",
)


@rule(
    Severity.ERROR,
    says="{subject}: overlap with {other} is {measured}",
    fix="Move the legend by at least {measured}.",
    limits=("covered.maximum",),
    mends=(other_sides, moved_texts, moved_apart),
)
def legend_over_opening(survey: Survey) -> Iterator[Observation]:
    """A legend is printed across an opening.

    Measured to the finished opening. Not reported where that opening's part hides the legend.

    Source: ink needs a surface.
    Fix: move the legend or the part.
    Fails: the last letter of a name 0.5 mm inside a screw hole.
    Passes: the same name beside the hole.
    """
    hidden = {(id(ink), solid.owner) for ink, solid in survey.hidden}
    pairs = inked(survey.legends.near(survey.openings))
    yield from _gathered(
        _onto(pair for pair in pairs if (id(pair[0]), pair[1].owner) not in hidden), survey, "covered.maximum"
    )


legend_over_opening.cases(
    """
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 8}}, at: [60, 50]}]
    texts: [{text: FUSE, at: [__, 48], style: name}]
    """,
    fails="62",
    passes="66",
)


@rule(
    Severity.ERROR,
    says="{subject}: overlap with {other} is {measured}",
    fix="Move one of the legends by at least {measured}.",
    limits=("marking_overlap.maximum",),
    mends=(other_sides, moved_texts, moved_apart),
)
def legends_collide(survey: Survey) -> Iterator[Observation]:
    """Two legends overlap, or one extends into the spaces of the other.

    Each legend includes the spaces between its letters, as the tightest convex form round its ink.

    Source: common practice; two texts in one place are both unreadable.
    Fix: move one of the two.
    Fails: two names whose outlines overlap by 0.1 mm.
    Passes: the same names that just touch.
    """
    met = ((one, two, depth(one.body, two.body)) for one, two in survey.words.near_each_other())
    yield from _gathered(met, survey, "marking_overlap.maximum")


legends_collide.cases(
    """
    texts:
      - {text: FUSE, at: [40, 50], style: name}
      - {text: LOAD, at: [40, __], style: name}
    """,
    fails="47",
    passes="45",
)


@rule(
    Severity.ERROR,
    says="{subject}: overlap with {other} is {measured}",
    fix="Move the legend by at least {measured}.",
    limits=("marking_overlap.maximum",),
    mends=(other_sides, moved_texts, moved_apart),
)
def legend_on_mark(survey: Survey) -> Iterator[Observation]:
    """A legend is printed over a mark of a scale or another line that is not a frame.

    Source: common practice; a mark that runs into a numeral makes another numeral of it.
    Fix: move the legend, or shorten the marks of the scale.
    Fails: a numeral that overlaps a major mark by 0.2 mm.
    Passes: the same numeral just outside the mark.
    """
    yield from _gathered(_onto(survey.words.near(survey.scale_marks)), survey, "marking_overlap.maximum")


legend_on_mark.cases(
    """
    art: [{rule: [[20, 50], [100, 50]]}]
    texts: [{text: FUSE, at: [40, __], style: name}]
    """,
    fails="48",
    passes="52",
)


@rule(
    Severity.ERROR,
    says="{subject}: overlap with the line of {other} is {measured}",
    fix="Move the legend by at least {measured}, or increase the margin of the frame.",
    limits=("marking_overlap.maximum",),
    mends=(other_sides, moved_texts, moved_apart),
)
def legend_on_frame(survey: Survey) -> Iterator[Observation]:
    """A legend or a scale crosses the line of a frame.

    A frame's title is in a gap of its line and does not touch it. A flow line that goes straight across the line of a
    frame is not reported; one that runs along it is.

    Source: common practice; a line through a text makes it unreadable and the frame ambiguous.
    Fix: a larger margin for the frame, or another place for the legend.
    Fails: a name with the line of a frame through its first letter.
    Passes: the same name inside the frame.
    """
    pairs = [(ink, line) for ink, line in survey.legends.near(survey.frame_lines) if not _only_crosses(ink, line)]
    yield from _gathered(_onto(pairs), survey, "marking_overlap.maximum")


def _only_crosses(ink: Ink, line: Stroke) -> bool:
    """Whether a flow line has no more of a frame's line than where it goes straight across."""
    if not isinstance(ink, Stroke) or ink.kind != FLOW_LINE:
        return False
    wide = max(ink.mark.width, line.mark.width) + ROUNDING
    shared = shapely.get_parts(shapely.intersection(ink.ground, line.ground))
    return all(max(right - left, top - low) <= wide for left, low, right, top in shapely.bounds(shared).tolist())


legend_on_frame.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [50, 50], legend: In}
      - {ref: J2, part: bnc, at: [90, 50], legend: Out}
    frames: [{around: [J1, J2]}]
    texts: [{text: FUSE, at: [__, 48], style: name}]
    """,
    fails="30",
    passes="120",
)


@rule(
    Severity.ERROR,
    says="{subject}: {measured} inside {other}",
    fix="Move the legend by at least {measured}, or make the keep-out smaller.",
    mends=(other_sides, moved_texts, moved_apart),
)
def legend_in_keepout(survey: Survey) -> Iterator[Observation]:
    """A legend is printed in a keep-out.

    Source: the keep-out in the spec and its reason.
    Fix: move the legend, or change the keep-out.
    Fails: a name half inside the area of a rating plate.
    Passes: the same name beside it.
    """
    pairs = inked(survey.legends.near(survey.keepouts(Side.FRONT)))
    yield from _gathered(_onto(pairs), survey, "covered.maximum")


legend_in_keepout.cases(
    """
    keepouts: [{area: {rectangle: [60, 20, 40, 60]}, why: a rating plate}]
    texts: [{text: FUSE, at: [__, 48], style: name}]
    """,
    fails="50",
    passes="30",
)


@rule(
    Severity.WARNING,
    says="{subject}: up to {measured} hidden by {other}; maximum {limit}",
    fix="Move the legend away from the part, or fit a lower knob.",
    limits=("hidden.maximum",),
    mends=(other_sides,),
)
def legend_hidden_from_eye(survey: Survey) -> Iterator[Observation]:
    """A part hides a legend from an eye that does not look straight at the face.

    Checked only when the spec gives the place of the eye (`operator: {eye: ...}`). Each letter and mark is compared
    with the exact projection of every knob, bezel, nut, mating plug, lever (at each of its positions) and sliding cap
    (on its way). What one of the two eyes sees is not hidden; they are 63 mm apart unless `apart` says otherwise. In a
    range of eye places the rule searches for the worst place: first a grid of five heights by five
    places aside, then from its worst place, and from the places in line with the middle of a part and the letter, step
    by step to where more is hidden. Measured is the hidden share of the letter that is hidden most; the finding names
    the worst place of the eye. What is hidden from straight in front too is reported by legend-under-knob and
    legend-under-part.

    Source: MIL-STD-1472E, 5.5.2.1 to 5.5.2.3: labels are not obscured; plane geometry; mean distance of adults' pupils
    by Dodgson, Proc. SPIE 5291 (2004).
    Fix: a lower or smaller knob, a legend above it or farther away, another place for the eye.
    Fails: a name close under a knob 16 mm high, seen from 400 mm above.
    Passes: the same name above the knob.
    """
    seen = survey.panel.operator.eye
    if seen is None:
        return
    limit = survey.limits["hidden.maximum"]
    told = {id(ink) for ink, _ in survey.hidden}
    groups: dict[tuple[str, str, Said], list[HiddenInk]] = {}
    for piece in worst_ink(survey, seen, told):
        if 100.0 * piece.share > limit.value + ROUNDING:
            groups.setdefault((piece.ink.owner, piece.ink.kind, piece.bodies[0]), []).append(piece)
    for group in groups.values():
        worst = max(group, key=lambda piece: piece.share)
        inks = list(dict.fromkeys(piece.ink for piece in group))
        yield Observation(
            refs=(worst.ink.owner, *worst.owners),
            place=boxes(group),
            where=worst.ink.where,
            subject=survey.named(inks),
            other=said.hidden_by(body=worst.bodies[0], eye=worst.look.words),
            measured=100.0 * worst.share,
            limit=limit,
            bound=Bound.MAXIMUM,
        )


legend_hidden_from_eye.cases(
    """
    operator: {eye: {distance: 500, height: 400}}
    parts: [{ref: RV1, part: pot-m10, at: [60, 50], knob: {diameter: 24, height: 16}, legend: {text: Gain, place: __}}]
    """,
    fails="below",
    passes="above",
)
