"""All legends of a panel, set where they cost least and overlap nothing: requests and hardware in, layout parts out.

Fixed markings (scales, numerals, free texts, legends at exact places) stand first. Names and positions are then
chosen together, see `panelart.legends.choose`. What cannot be placed is named, with what stands in its way.

Frames are laid round what their members take, and the legends placed again with the frames in place, members
confined to the room their frame was drawn round, all others kept out of it. Then the frames are drawn again round the
answer, and so on until they are the same: the legends are proved best for frames that are drawn round just these
legends. This fixed point comes after finitely many rounds:

- No frame reaches beyond the one before (`frames_round`): a member keeps within the room of its frame, so what is drawn
  round it does; frames that stood on one line are brought to one line again, which none of them lay beyond; those of
  one size reach, each from its own parts, as far as any of them needs, which none lay beyond before, and where they
  were not of one size they never are again; one that is widened for its title is widened within the one before, which
  was as wide; a bracket stays where it was drawn first.
- The places that come into question do not depend on frames, so there are finitely many of them, and of the edges that
  frames drawn round them can have. Edges that only move inward, among finitely many, come to rest.

A title goes along with its frame and may then stand in a legend's way. If a round leaves out a legend that had a place,
the round before is the answer, with the frames that it was made for: as right, but perhaps with air in a frame.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

import numpy as np
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import Box, Point, Transform, Vector
from panelart.legends.candidates import Candidate, lettered, lettered_whole, style_of
from panelart.legends.choose import Accepted, Choice, Chosen, Task, choose, clashes, most_common
from panelart.legends.fields import filled_fields
from panelart.legends.flow_marks import Stretch, stretches
from panelart.legends.frames import Frame, drawn, frames_round
from panelart.legends.groups import evened
from panelart.legends.obstacles import Field, Obstacle, hardware, markings, printable, sides
from panelart.legends.offers import Offers
from panelart.legends.pointers import pointers, reaching
from panelart.legends.scales import MOST_LINES, Dial, dial, has_words_to_break
from panelart.legends.stand import Stand
from panelart.legends.turning_dials import turned
from panelart.legends.wanted import Wanted, wanted
from panelart.lettering.look import Align
from panelart.lettering.outline import bounds
from panelart.lettering.setting import Setting
from panelart.messages import Said
from panelart.messages import legends as said
from panelart.model.layout import (
    CutOpening,
    FrameLine,
    Mark,
    PlacedEnvelope,
    PlacedLegend,
    Proof,
    TurningDial,
    Unplaced,
)
from panelart.model.panel import (
    Anchor,
    ArcLine,
    FrameForm,
    FreeText,
    LegendRequest,
    Panel,
    Part,
    Placing,
    Side,
    Style,
)
from panelart.stages import remembering_at_least

Owned = TypeVar("Owned", PlacedEnvelope, CutOpening)


class Placement(Struct, frozen=True, kw_only=True):
    """Everything marked on the panel, what could not be, and how it was chosen."""

    legends: tuple[PlacedLegend, ...]
    marks: tuple[Mark, ...]
    frames: tuple[FrameLine, ...]
    unplaced: tuple[Unplaced, ...]
    chosen: Chosen
    dials: tuple[TurningDial, ...]

    @property
    def proof(self) -> Proof:
        """How good the choice is."""
        return self.chosen.proof


def place(
    panel: Panel,
    envelopes: tuple[PlacedEnvelope, ...],
    openings: tuple[CutOpening, ...],
    *,
    accepted: Mapping[str, Accepted] | None = None,
) -> Placement:
    """Set every legend of the panel. Raises what lettering raises: MissingGlyphError, UnknownFontError.

    `accepted` is where legends stood before, by their names, which costs to leave.
    """
    with remembering_at_least():  # each round of frames changes little
        return _in_rounds(panel, envelopes, openings, accepted)


def _in_rounds(
    panel: Panel,
    envelopes: tuple[PlacedEnvelope, ...],
    openings: tuple[CutOpening, ...],
    accepted: Mapping[str, Accepted] | None,
) -> Placement:
    """Placed again and again until the frames are at rest."""
    standing = _standing(panel, envelopes, openings)
    field = Field(standing.obstacles, printable(panel))
    stands = {part.ref: Stand(part, field) for part in panel.parts}
    offers = Offers(panel, evened(wanted(panel), panel.marking), stands, field)
    task = Task(panel=panel, offers=offers, accepted=accepted)
    chosen = choose(task)
    frames: tuple[Frame, ...] = ()
    ways = _ways(standing.marks, panel)
    while panel.frames:
        taken = _taken(panel, envelopes, openings, [*standing.legends, *_placed(chosen, panel)], standing.marks)
        around = frames_round(panel, taken, frames, ways)
        if around == frames:
            break
        again = choose(_within(task, around), chosen.resorting)
        if frames and again.taken.count(None) > chosen.taken.count(None):
            break
        chosen, frames = again, around
    placed = _placed(chosen, panel)
    lines = drawn([frame for frame in frames if frame.request.form is not FrameForm.FIELD], panel)
    legends, marks = filled_fields(
        frames,
        [*standing.legends, *placed, *_titles(frames)],
        [*reaching(standing.marks, placed, panel), *_leaders(chosen, panel), *lines],
        openings,
        panel,
    )
    return Placement(
        legends=legends,
        marks=marks,
        frames=tuple(frame.line for frame in frames),
        unplaced=(*standing.unplaced, *_unplaced(chosen, panel.marking.placing)),
        chosen=chosen,
        dials=tuple(standing.dials),
    )


def _within(task: Task, frames: tuple[Frame, ...]) -> Task:
    """The same task with frames in place, which are in the way as all else is that stands."""
    marking = task.panel.marking
    lines = markings(_titles(frames), drawn(frames, task.panel), marking.placing.white)
    return replace(task, drawn=Field(lines, task.offers.field.printable), frames=frames)


def _ways(marks: Sequence[Mark], panel: Panel) -> list[Stretch]:
    """What lines of flow cover, for frames to keep clear of."""
    if not panel.lines:
        return []
    return stretches(marks)


def _titles(frames: Iterable[Frame]) -> list[PlacedLegend]:
    return [frame.title for frame in frames if frame.title is not None]


# --- what stands where it was put


class _Standing(Struct, frozen=True, kw_only=True):
    """What is marked whatever is chosen, dials that turn, all that is in the way, and the lines that found no way."""

    legends: list[PlacedLegend]
    marks: list[Mark]
    obstacles: list[Obstacle]
    unplaced: tuple[Unplaced, ...]
    dials: list[TurningDial]


def _standing(panel: Panel, envelopes: tuple[PlacedEnvelope, ...], openings: tuple[CutOpening, ...]) -> _Standing:
    solid = hardware(panel, envelopes, openings)
    legends, marks, dials = _fixed(panel, envelopes, openings, solid)
    white = panel.marking.placing.white
    marks += _art(panel)
    unrouted: tuple[Unplaced, ...] = ()
    if panel.lines:
        from panelart.legends.flow import lay

        flow = lay(panel, solid + markings(legends, marks, white))
        marks += flow.marks
        unrouted = flow.unplaced
    obstacles = solid + markings(legends, marks, white)
    return _Standing(legends=legends, marks=marks, obstacles=obstacles, unplaced=unrouted, dials=dials)


def _fixed(
    panel: Panel,
    envelopes: tuple[PlacedEnvelope, ...],
    openings: tuple[CutOpening, ...],
    solid: Sequence[Obstacle],
) -> tuple[list[PlacedLegend], list[Mark], list[TurningDial]]:
    legends: list[PlacedLegend] = []
    marks: list[Mark] = []
    dials: list[TurningDial] = []
    standing, cut = _by_ref(envelopes), _by_ref(openings)
    around = _dials(panel, standing, cut, solid)
    for part in panel.parts:
        own = standing.get(part.ref, ()), cut.get(part.ref, ())
        if part.ref in around:
            legends += around[part.ref].legends
            marks += around[part.ref].marks
        turning = turned(part, panel.marking, *own)
        if turning is not None:
            dials.append(turning.dial)
            marks += turning.marks
            legends += turning.legends
        marks += pointers(part, panel, *own)
        if part.legend is not None and part.legend.at is not None:
            anchor = part.legend.align or Anchor.CENTRE
            legends += _set_at(part.ref, part.legend, part.legend.at, anchor, 0.0, panel)
    for number, text in enumerate(panel.texts, start=1):
        name = text.of or f"text {number}"
        if text.arc is None:
            legends += _set_at(name, text.request, text.at, text.anchor, text.turn, panel)
        else:
            legends.append(_set_round(name, text, text.arc, panel))
    return legends, marks, dials


def _dials(
    panel: Panel,
    envelopes: Mapping[str, tuple[PlacedEnvelope, ...]],
    openings: Mapping[str, tuple[CutOpening, ...]],
    solid: Sequence[Obstacle],
) -> dict[str, Dial]:
    """The dials of all parts; words that would reach into something else are on more lines where they then do not."""

    def made(parts: Iterable[Part], lines: int) -> dict[str, Dial]:
        own = ((each.ref, envelopes.get(each.ref, ()), openings.get(each.ref, ()), each) for each in parts)
        dials = ((ref, dial(each, panel.marking, front, cut, lines)) for ref, front, cut, each in own)
        return {ref: one for ref, one in dials if one is not None}

    found = made(panel.parts, 1)
    long = [part for part in panel.parts if part.ref in found and has_words_to_break(part)]
    return _on_more_lines(panel, found, long, made, solid) if long else found


def _on_more_lines(
    panel: Panel,
    found: dict[str, Dial],
    long: Sequence[Part],
    made: Callable[[Iterable[Part], int], dict[str, Dial]],
    solid: Sequence[Obstacle],
) -> dict[str, Dial]:
    """The dials, those with long words on as many lines as leave least in their way."""
    blocked = _in_the_way(panel, found, solid)
    for lines in range(2, MOST_LINES + 1):
        # Neighbours that meet are broken together: one of them alone may still reach into the other.
        tried = made((part for part in long if blocked[part.ref]), lines)
        if not tried:
            break
        then = _in_the_way(panel, found | tried, solid)
        better = {ref: one for ref, one in tried.items() if then[ref] < blocked[ref]}
        found = found | better
        if better and lines < MOST_LINES:
            blocked = then if len(better) == len(tried) else _in_the_way(panel, found, solid)
    return found


def _in_the_way(panel: Panel, dials: Mapping[str, Dial], solid: Sequence[Obstacle]) -> dict[str, int]:
    """How many things of others, and the edge, what is lettered round each part reaches into."""
    white = panel.marking.placing.white
    lettered = [thing for one in dials.values() for thing in markings(one.legends, one.marks, white)]
    field = Field([*solid, *lettered], printable(panel))
    found: dict[str, int] = {}
    for ref, one in dials.items():
        boxes = np.array([sides(legend.box) for legend in one.legends], dtype=np.float64).reshape(-1, 4)
        found[ref] = sum(thing.ref != ref for blocked in field.blockers(boxes) for thing in blocked)
    return found


def _by_ref(things: Iterable[Owned]) -> dict[str, tuple[Owned, ...]]:
    found: dict[str, list[Owned]] = {}
    for thing in things:
        found.setdefault(thing.ref, []).append(thing)
    return {ref: tuple(own) for ref, own in found.items()}


def _art(panel: Panel) -> list[Mark]:
    """What the designer drew, where they drew it."""
    return [
        Mark(
            ref=f"{one.what} {number}",
            kind="art",
            shape=one.shape,
            width=one.width or 0.0,
            ink=one.ink,
            where=one.where,
            filled=one.width is None,
        )
        for number, one in enumerate(panel.art, start=1)
    ]


def _set_at(
    ref: str, request: LegendRequest, at: Point, anchor: Anchor, turn: float, panel: Panel
) -> list[PlacedLegend]:
    """Words with one end or the middle of their first base line at a place; a block by the width of all its texts."""
    setting = lettered_whole(request, panel.marking, Align(anchor.value))
    along = {
        Anchor.LEFT: setting.box.left,
        Anchor.CENTRE: (setting.box.left + setting.box.right) / 2,
        Anchor.RIGHT: setting.box.right,
    }[anchor]
    turned = Transform.turn(turn, at)
    return [
        _fixed_legend(ref, one, style_of(one, panel.marking), own, turned.apply(start), turn)
        for one, (own, start) in zip(request.texts, setting.apart(Point(at.x - along, at.y)), strict=True)
    ]


def _set_round(ref: str, text: FreeText, arc: ArcLine, panel: Panel) -> PlacedLegend:
    """Words round an arc that has its centre at their place."""
    style = style_of(text.request, panel.marking)
    setting = lettered(text.request, style).bent(arc.radius, text.turn, feet_inward=arc.feet_inward)
    return _fixed_legend(ref, text.request, style, setting, text.at, 0.0)


def _fixed_legend(
    ref: str, request: LegendRequest, style: Style, setting: Setting, start: Point, turn: float
) -> PlacedLegend:
    upright = turn == 0.0
    return PlacedLegend(
        ref=ref,
        style=request.style,
        text=request.text,
        box=setting.box.moved(Vector(start.x, start.y)) if upright else bounds(setting.placed(start, turn)),
        baseline=start,
        cap_height=style.cap_height,
        font=style.font,
        ink=style.ink,
        where=request.where,
        setting=setting,
        turn=turn,
    )


# --- what was chosen


def _placed(chosen: Chosen, panel: Panel) -> list[PlacedLegend]:
    return [
        legend
        for index, choice in enumerate(chosen.choices)
        if (candidate := chosen.candidate(index)) is not None
        for legend in _texts_placed(candidate, choice.wanted, panel)
    ]


def _texts_placed(candidate: Candidate, want: Wanted, panel: Panel) -> Iterator[PlacedLegend]:
    """Each text of a legend by itself where its block was placed: in its own style, size and ink."""
    for request, (setting, at) in zip(want.request.texts, candidate.setting.apart(candidate.at), strict=True):
        style = style_of(request, panel.marking)
        yield PlacedLegend(
            ref=want.part.ref,
            style=request.style,
            text=setting.text,
            box=setting.box.moved(Vector(at.x, at.y)),
            baseline=at,
            cap_height=style.cap_height,
            font=setting.font,
            ink=style.ink,
            where=request.where,
            place=candidate.place,
            setting=setting,
        )


def _leaders(chosen: Chosen, panel: Panel) -> list[Mark]:
    found: list[Mark] = []
    for index, choice in enumerate(chosen.choices):
        candidate = chosen.candidate(index)
        if candidate is not None and candidate.leader:
            from panelart.legends.leaders import leader_shape, leader_width

            style = style_of(choice.wanted.request, panel.marking)
            found.append(
                Mark(
                    ref=choice.wanted.part.ref,
                    kind="leader",
                    shape=leader_shape(candidate.leader),
                    width=leader_width(style.cap_height, panel.marking),
                    ink=style.ink,
                    where=choice.wanted.request.where,
                )
            )
    return found


def _unplaced(chosen: Chosen, placing: Placing) -> tuple[Unplaced, ...]:
    left_out = [index for index, value in enumerate(chosen.taken) if value is None]
    if not left_out:
        return ()
    rivals = _rivals(chosen, placing, left_out)
    return tuple(_left_out(chosen.choices[index], rivals[index]) for index in left_out)


def _left_out(choice: Choice, rivals: Counter[Said]) -> Unplaced:
    """A legend without a place, and what stands in its way."""
    want = choice.wanted
    return Unplaced(
        ref=want.part.ref,
        style=want.request.style,
        text=want.request.whole,
        near=want.part.at,
        blockers=most_common(rivals) or choice.blockers,
        where=want.request.where,
    )


def _rivals(chosen: Chosen, placing: Placing, left_out: Sequence[int]) -> dict[int, Counter[Said]]:
    """The legends as set that clash with places of those left out, and how often."""
    rivals: dict[int, Counter[Said]] = {index: Counter() for index in left_out}
    as_set = [
        choice if taken is None else replace(choice, candidates=(choice.candidates[taken],))
        for choice, taken in zip(chosen.choices, chosen.taken, strict=True)
    ]
    for i, _, j, _ in clashes(as_set, placing):
        for out, other in ((i, j), (j, i)):
            if out in rivals and other not in rivals:
                want = chosen.choices[other].wanted
                rivals[out][said.legend_of(text=want.request.whole, owner=want.part.ref)] += 1
    return rivals


def _taken(
    panel: Panel,
    envelopes: Iterable[PlacedEnvelope],
    openings: Iterable[CutOpening],
    legends: Iterable[PlacedLegend],
    marks: Sequence[Mark],
) -> dict[str, list[Box]]:
    """What every part covers on the face, with its openings and markings."""
    taken: dict[str, list[Box]] = {part.ref: [] for part in panel.parts}
    for envelope in envelopes:
        if envelope.side is Side.FRONT:
            taken[envelope.ref].append(envelope.contour.bounds)
    for opening in openings:
        taken[opening.ref].append(opening.finished.bounds)
    for legend in legends:
        if legend.ref in taken:
            taken[legend.ref].append(legend.box)
    for mark in marks:
        if mark.ref in taken:
            taken[mark.ref].append(bounds(mark.shape).grown(mark.width / 2))
    return taken
