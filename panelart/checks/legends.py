"""Legends against everything they must keep clear of: parts, openings, keep-outs, frames and each other."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeAlias

from panelart.checks.bodies import depth
from panelart.checks.findings import Bound, Observation
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
    says="there is no room for {subject}; in its way: {other}",
    fix="give it room: move parts apart, shorten the text, lower its cap height, or name another side",
)
def legend_unplaced(survey: Survey) -> Iterator[Observation]:
    """A legend that was asked for is not on the panel, because every place for it is taken.

    What stands in its way is named, and the cheapest ways out that were found, each tried on the whole panel.

    Source: the spec asks for it; a control without its name is worse than a crowded panel.
    Fix: move what is named, or make the legend smaller or shorter.
    Fails: a long name between two knobs, with keep-outs above and below.
    Passes: the same name with one keep-out taken away.
    """
    for missing in survey.layout.unplaced:
        owned = f" of {missing.ref}" if missing.ref in survey.panel.by_ref else ""
        yield Observation(
            refs=(missing.ref,),
            place=missing.near,
            where=missing.where,
            subject=f'the {missing.style} "{missing.text}"{owned}',
            other=(", ".join(missing.blockers) or "nothing that can be named")
            + "".join(f"; a way out: {way}" for way in missing.ways_out),
        )


@rule(
    Severity.ERROR,
    says="{other} hides {subject}, by {measured}",
    fix="move the legend out by at least {measured}, or fit a smaller knob",
)
def legend_under_knob(survey: Survey) -> Iterator[Observation]:
    """A legend, mark or numeral is hidden by a knob, its own part's or another's.

    The knob's full diameter counts: its skirt hides the face from an eye straight in front.

    Source: MIL-STD-1472E, 5.5.2.1 to 5.5.2.3: controls are not to hide their labels.
    Fix: place the legend outside the knob, or fit a smaller knob.
    Fails: a numeral 11 mm from the shaft of a knob of 24 mm.
    Passes: the same numeral 14 mm from the shaft.
    """
    yield from _gathered(_onto(_under(survey, lambda solid: solid.what == "knob")), survey, "covered.maximum")


@rule(
    Severity.ERROR,
    says="{other} hides {subject}, by {measured}",
    fix="move the legend out by at least {measured}",
)
def legend_under_part(survey: Survey) -> Iterator[Observation]:
    """A legend, mark or numeral is hidden by a bezel, nut, washer, flange or mating plug.

    What a lever only sweeps hides little and is not counted.

    Source: MIL-STD-1472E, 5.5.2.1 to 5.5.2.3: controls are not to hide their labels.
    Fix: move the legend or the part.
    Fails: a name 1 mm inside the bezel of a meter.
    Passes: the same name beside the bezel.
    """
    yield from _gathered(_onto(_under(survey, lambda solid: solid.what != "knob")), survey, "covered.maximum")


@rule(
    Severity.ERROR,
    says="{other} cuts into {subject}, by {measured}",
    fix="move the legend by at least {measured}",
)
def legend_over_opening(survey: Survey) -> Iterator[Observation]:
    """A legend is printed where there is no metal.

    Measured against the finished opening. Nothing is said where the legend is hidden by that opening's part.

    Source: ink needs a face to lie on.
    Fix: move the legend or the part.
    Fails: the last letter of a name 0.5 mm inside a screw hole.
    Passes: the same name beside the hole.
    """
    hidden = {(id(ink), solid.owner) for ink, solid in survey.hidden}
    pairs = inked(survey.legends.near(survey.openings))
    yield from _gathered(
        _onto(pair for pair in pairs if (id(pair[0]), pair[1].owner) not in hidden), survey, "covered.maximum"
    )


@rule(
    Severity.ERROR,
    says="{subject} and {other} overlap by {measured}",
    fix="move one of the two by at least {measured}",
)
def legends_collide(survey: Survey) -> Iterator[Observation]:
    """Two legends stand on one place, or one runs into the spaces of the other.

    Each legend is taken with the spaces between its letters, as the tightest convex form round its ink.

    Source: common practice; two texts in one place can both not be read.
    Fix: move one of the two.
    Fails: two names whose outlines overlap by 0.1 mm.
    Passes: the same names that just touch.
    """
    met = ((one, two, depth(one.body, two.body)) for one, two in survey.words.near_each_other())
    yield from _gathered(met, survey, "marking_overlap.maximum")


@rule(
    Severity.ERROR,
    says="{other} runs into {subject}, by {measured}",
    fix="move the legend by at least {measured}",
)
def legend_on_mark(survey: Survey) -> Iterator[Observation]:
    """A legend is printed over a mark of a scale or another line that is not a frame.

    Source: common practice; a mark that runs into a numeral makes another numeral of it.
    Fix: move the legend, or make the scale's marks shorter.
    Fails: a numeral that a major mark enters by 0.2 mm.
    Passes: the same numeral just outside the mark.
    """
    yield from _gathered(_onto(survey.words.near(survey.scale_marks)), survey, "marking_overlap.maximum")


@rule(
    Severity.ERROR,
    says="the line of {other} runs into {subject}, by {measured}",
    fix="move the legend by at least {measured}, or give the frame a larger margin",
)
def legend_on_frame(survey: Survey) -> Iterator[Observation]:
    """A legend or a scale crosses the line of a frame.

    A frame's title stands in a gap of its line and does not touch it.

    Source: common practice; a line through a text makes it unreadable and the frame ambiguous.
    Fix: a larger margin for the frame, or another place for the legend.
    Fails: a name with the line of a frame through its first letter.
    Passes: the same name inside the frame.
    """
    yield from _gathered(_onto(survey.legends.near(survey.frame_lines)), survey, "marking_overlap.maximum")


@rule(
    Severity.ERROR,
    says="{other} takes in {measured} of {subject}",
    fix="move the legend by at least {measured}, or ask whether the keep-out may be smaller",
)
def legend_in_keepout(survey: Survey) -> Iterator[Observation]:
    """A legend is printed where the designer said that nothing may be.

    Source: the keep-out in the spec and its reason.
    Fix: move the legend, or change the keep-out.
    Fails: a name half inside the area of a rating plate.
    Passes: the same name beside it.
    """
    pairs = inked(survey.legends.near(survey.keepouts(Side.FRONT)))
    yield from _gathered(_onto(pairs), survey, "covered.maximum")


@rule(
    Severity.WARNING,
    says="{other} hides up to {measured} of a letter or mark of {subject}",
    fix="move the legend away from it, or fit a lower knob",
)
def legend_hidden_from_eye(survey: Survey) -> Iterator[Observation]:
    """A legend lies in the shadow of the hardware for an eye that does not look straight at the face.

    Held only when the spec says where the eye is (`operator: {eye: ...}`). Each letter and mark is held against the
    exact projection of every knob, bezel, nut, mating plug, lever (at each of its positions) and sliding cap (on its
    way). Of a range of eyes the worst place is looked for: five heights by five places aside, and from there, and from
    where a body stands right before the letter, on to where more is hidden. Measured is the hidden share of the letter
    that is hidden most; the worst place of the eye is named. What is hidden from straight in front too is told by
    legend-under-knob and legend-under-part.

    Source: MIL-STD-1472E, 5.5.2.1 to 5.5.2.3: labels are not obscured; plane geometry.
    Fix: a lower or smaller knob, a legend above it or farther off, another place to look from.
    Fails: a name close under a knob 16 mm high, seen from 400 mm above.
    Passes: the same name above the knob.
    """
    seen = survey.panel.operator.eye
    if seen is None:
        return
    limit = survey.limits["hidden.maximum"]
    told = {id(ink) for ink, _ in survey.hidden}
    groups: dict[tuple[str, str, str], list[HiddenInk]] = {}
    for piece in worst_ink(survey, seen, told):
        if 100.0 * piece.share > limit.value + ROUNDING:
            groups.setdefault((piece.ink.owner, piece.ink.kind, piece.by[0]), []).append(piece)
    for group in groups.values():
        worst = max(group, key=lambda piece: piece.share)
        inks = list(dict.fromkeys(piece.ink for piece in group))
        yield Observation(
            refs=(worst.ink.owner, *worst.owners),
            place=boxes(group),
            where=worst.ink.where,
            subject=survey.named(inks),
            other=f"from {worst.look}, {worst.by[0]}",
            measured=100.0 * worst.share,
            limit=limit,
            bound=Bound.MAXIMUM,
        )
