"""All legends of a panel, set where they cost least and overlap nothing: requests and hardware in, layout parts out.

Fixed markings (scales, numerals, free texts) stand first. Names and positions are then chosen together: every legend
is a variable, every clear place a value, neighbours in a row or column like to share side and base line, and leaving a
legend out costs more than any ugliness. What cannot be placed is named, with what stands in its way.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from panelart.geometry import Box, Point, Transform
from panelart.legends.candidates import (
    Candidate,
    Stand,
    name_candidates,
    penalised,
    position_candidates,
    style_of,
)
from panelart.legends.frames import Frame, drawn, frames_round
from panelart.legends.obstacles import LEGEND_GAP, Field, hardware, markings, printable
from panelart.legends.scales import dial
from panelart.legends.solver import HARD, Problem, in_tiers, solve
from panelart.legends.solver.problem import Costs
from panelart.lettering.outline import bounds
from panelart.lettering.setting import set_words
from panelart.model.component import Motion
from panelart.model.layout import CutOpening, FrameLine, Mark, PlacedEnvelope, PlacedLegend, Unplaced
from panelart.model.panel import Anchor, FreeText, LegendRequest, Panel, Part, Place, Side

OTHER_SIDE_COST = 10
OTHER_LINE_COST = 4
OTHER_FORM_COST = 10
NEIGHBOUR_REACH = 90.0
"""Parts in one row or column farther apart than this, in mm, need not match."""

_SAME = 0.02  # mm: base lines nearer than this are one line to any eye


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Everything marked on the panel, and what could not be."""

    legends: tuple[PlacedLegend, ...]
    marks: tuple[Mark, ...]
    frames: tuple[FrameLine, ...]
    unplaced: tuple[Unplaced, ...]


@dataclass(frozen=True, slots=True)
class _Wanted:
    """One legend to place: its part, what it says, and for a position which way the control goes there."""

    part: Part
    request: LegendRequest
    kind: str
    way: Place | None = None
    order: int = 0

    @property
    def name(self) -> str:
        """What tells this legend from every other on the panel, however the spec is ordered."""
        return f"{self.part.ref} {self.kind} {self.order}"


@dataclass(frozen=True, slots=True)
class _Choice:
    wanted: _Wanted
    candidates: tuple[Candidate, ...]
    blockers: tuple[str, ...]


def place(panel: Panel, envelopes: tuple[PlacedEnvelope, ...], openings: tuple[CutOpening, ...]) -> Placement:
    """Set every legend of the panel. Raises what lettering raises: MissingGlyphError, UnknownFontError."""
    legends, marks = _fixed(panel, envelopes)
    solid = hardware(panel, envelopes, openings)
    standing = solid + markings(legends, marks)
    wanted = _wanted(panel)
    field = Field(standing, printable(panel))
    stands = {part.ref: Stand(part, field) for part in panel.parts}
    chosen, unplaced = _choose(panel, wanted, stands, field, {})
    if not panel.frames:
        return Placement(legends=(*legends, *chosen), marks=tuple(marks), frames=(), unplaced=tuple(unplaced))

    taken = _taken(panel, envelopes, openings, [*legends, *chosen], marks)
    frames = frames_round(panel, taken)
    lines = drawn(frames, panel)
    titles = [frame.title for frame in frames if frame.title is not None]
    standing += markings(titles, lines)
    rooms = {ref: frame for frame in frames for ref in frame.request.around}
    field = Field(standing, printable(panel))
    chosen, unplaced = _choose(panel, wanted, stands, field, rooms, frames)
    return Placement(
        legends=(*legends, *chosen, *titles),
        marks=(*marks, *lines),
        frames=tuple(frame.line for frame in frames),
        unplaced=tuple(unplaced),
    )


def _fixed(panel: Panel, envelopes: tuple[PlacedEnvelope, ...]) -> tuple[list[PlacedLegend], list[Mark]]:
    legends: list[PlacedLegend] = []
    marks: list[Mark] = []
    for part in panel.parts:
        markings_of = dial(part, panel, envelopes)
        if markings_of is not None:
            legends += markings_of.legends
            marks += markings_of.marks
    legends += [_free(text, number, panel) for number, text in enumerate(panel.texts, start=1)]
    return legends, marks


def _free(text: FreeText, number: int, panel: Panel) -> PlacedLegend:
    style = style_of(text.request, panel.marking)
    setting = set_words(text.request.text, style.font, style.cap_height)
    along = {
        Anchor.LEFT: setting.box.left,
        Anchor.CENTRE: (setting.box.left + setting.box.right) / 2,
        Anchor.RIGHT: setting.box.right,
    }[text.anchor]
    start = Transform.turn(text.turn, text.at).apply(Point(text.at.x - along, text.at.y))
    shape = setting.placed(start, text.turn)
    return PlacedLegend(
        ref=f"text {number}",
        style=text.request.style,
        text=text.request.text,
        shape=shape,
        box=bounds(shape),
        baseline=start,
        cap_height=style.cap_height,
        font=style.font,
        ink=style.ink,
        where=text.request.where,
    )


def _wanted(panel: Panel) -> list[_Wanted]:
    found: list[_Wanted] = []
    for part in panel.parts:
        found += [
            _Wanted(part, position.request, "position", _way(position.direction, part.turn), order)
            for order, position in enumerate(part.positions)
            if isinstance(position.direction, str)
        ]
        if part.legend is not None:
            found.append(_Wanted(part, part.legend, "name"))
    return found


def _way(direction: str, turn: float) -> Place | None:
    """Where a direction of the part's own frame points on the panel, to the nearest quarter turn."""
    quarters = {"right": 0, "up": 1, "left": 2, "down": 3}
    if direction not in quarters:
        return None
    turned = (quarters[direction] + round(turn / 90.0)) % 4
    return (Place.RIGHT, Place.ABOVE, Place.LEFT, Place.BELOW)[turned]


def _choose(
    panel: Panel,
    wanted: Sequence[_Wanted],
    stands: dict[str, Stand],
    field: Field,
    rooms: dict[str, Frame],
    frames: Sequence[Frame] = (),
) -> tuple[list[PlacedLegend], list[Unplaced]]:
    if not wanted:
        return [], []
    choices = _choices(panel, wanted, stands, field, rooms, frames)
    problem = _problem(choices)
    answer = solve(problem).values
    placed: list[PlacedLegend] = []
    unplaced: list[Unplaced] = []
    for choice, value in zip(choices, answer, strict=True):
        want = choice.wanted
        if value < len(choice.candidates):
            placed.append(_placed(choice.candidates[value], want, panel))
            continue
        rivals = _rivals(choice, choices, answer)
        unplaced.append(
            Unplaced(
                ref=want.part.ref,
                style=want.request.style,
                text=want.request.text,
                near=want.part.at,
                blockers=rivals or choice.blockers,
                where=want.request.where,
            )
        )
    return placed, unplaced


def _placed(candidate: Candidate, want: _Wanted, panel: Panel) -> PlacedLegend:
    style = style_of(want.request, panel.marking)
    return PlacedLegend(
        ref=want.part.ref,
        style=want.request.style,
        text=candidate.setting.text,
        shape=candidate.shape(),
        box=candidate.box,
        baseline=candidate.at,
        cap_height=style.cap_height,
        font=style.font,
        ink=style.ink,
        where=want.request.where,
        place=candidate.place,
    )


def _rivals(choice: _Choice, choices: Sequence[_Choice], answer: Sequence[int]) -> tuple[str, ...]:
    """The placed legends that stand where this one could have stood."""
    names: Counter[str] = Counter()
    for candidate in choice.candidates:
        for other, value in zip(choices, answer, strict=True):
            if other is not choice and value < len(other.candidates) and _clash(candidate, other.candidates[value]):
                names[f"'{other.wanted.request.text}' of {other.wanted.part.ref}"] += 1
    return tuple(name for name, _ in sorted(names.items(), key=lambda item: (-item[1], item[0]))[:3])


def _choices(
    panel: Panel,
    wanted: Sequence[_Wanted],
    stands: dict[str, Stand],
    field: Field,
    rooms: dict[str, Frame],
    frames: Sequence[Frame],
) -> list[_Choice]:
    lines = _row_lines(panel, wanted, stands)
    choices: list[_Choice] = []
    for want in wanted:
        stand = stands[want.part.ref]
        if want.kind == "name":
            candidates = name_candidates(
                want.request,
                stand,
                panel.marking,
                inner_row=_inner_row(want.part, panel),
                lines=lines.get(want.part.ref, ()),
            )
        else:
            candidates = position_candidates(want.request, want.way, stand, panel.marking)
        candidates = penalised(candidates, stand, field)
        blocked = field.blockers([candidate.box for candidate in candidates])
        room = rooms.get(want.part.ref)
        kept: list[Candidate] = []
        names: Counter[str] = Counter()
        for candidate, obstacles in zip(candidates, blocked, strict=True):
            in_the_way = [obstacle.name for obstacle in obstacles] + _outside(candidate.box, room, frames)
            if in_the_way:
                names.update(in_the_way)
            else:
                kept.append(candidate)
        kept.sort(key=lambda candidate: candidate.cost)  # stable: equal costs keep the order of preference
        blockers = tuple(name for name, _ in sorted(names.items(), key=lambda item: (-item[1], item[0]))[:3])
        choices.append(_Choice(want, tuple(kept), blockers))
    return choices


def _outside(box: Box, room: Frame | None, frames: Sequence[Frame]) -> list[str]:
    """Frames whose rules a box breaks: out of its own, or into somebody else's."""
    broken = [] if room is None or room.inside.contains(box) else [room.name]
    broken += [
        frame.name
        for frame in frames
        if frame is not room and frame.box.overlaps(box) and not (room is not None and frame.box.contains(room.box))
    ]
    return broken


def _inner_row(part: Part, panel: Panel) -> float:
    """Height taken by a row of position names between a part and its name, white included."""
    heights = [
        style_of(position.request, panel.marking).cap_height
        for position in part.positions
        if isinstance(position.direction, str)
    ]
    name = part.legend
    if not heights or name is None or part.component.motion in (Motion.NONE, Motion.TURN):
        return 0.0
    return max(heights) + 0.7 * style_of(name, panel.marking).cap_height


def _neighbours(wanted: Sequence[_Wanted], kind: str, axis: int) -> list[tuple[int, int]]:
    """Chains of wanted legends whose parts stand in one row (axis 0) or column (axis 1), nearest to nearest."""
    lines: dict[tuple[int, str], list[int]] = {}
    for index, want in enumerate(wanted):
        if want.kind == kind:
            across = round(want.part.at[1 - axis] / _SAME)
            lines.setdefault((across, str(want.way)), []).append(index)
    chains: list[tuple[int, int]] = []
    for members in lines.values():
        members.sort(key=lambda index: wanted[index].part.at[axis])
        chains += [
            (first, second)
            for first, second in pairwise(members)
            if 0 < wanted[second].part.at[axis] - wanted[first].part.at[axis] <= NEIGHBOUR_REACH
        ]
    return chains


def _row_lines(panel: Panel, wanted: Sequence[_Wanted], stands: dict[str, Stand]) -> dict[str, tuple[float, ...]]:
    """For each part, the base lines that names in its row would take of themselves, above and below."""
    rows: dict[int, list[_Wanted]] = {}
    for want in wanted:
        if want.kind == "name":
            rows.setdefault(round(want.part.at.y / _SAME), []).append(want)
    found: dict[str, tuple[float, ...]] = {}
    for members in rows.values():
        lines: set[float] = set()
        for want in members:
            inner = _inner_row(want.part, panel)
            for candidate in name_candidates(
                want.request, stands[want.part.ref], panel.marking, inner_row=inner, lines=()
            ):
                if candidate.place in (Place.ABOVE, Place.BELOW) and len(candidate.setting.baselines) == 1:
                    lines.add(round(candidate.line, 6))
        for want in members:
            found[want.part.ref] = tuple(sorted(lines))
    return found


class _Pairs:
    """Tables of pair costs, made when first asked for."""

    def __init__(self, sizes: Sequence[int]) -> None:
        self._sizes = sizes
        self.tables: dict[tuple[int, int], Costs] = {}

    def table(self, i: int, j: int) -> Costs:
        """The costs of two variables' values, those of `i` down and those of `j` across."""
        low, high = min(i, j), max(i, j)
        if (low, high) not in self.tables:
            self.tables[low, high] = np.zeros((self._sizes[low], self._sizes[high]), dtype=np.int64)
        costs = self.tables[low, high]
        return costs if i < j else costs.T


def _problem(choices: Sequence[_Choice]) -> Problem:
    """Looks as the lower tier, legends left out as the higher; the last value of each variable is 'left out'."""
    wanted = [choice.wanted for choice in choices]
    looks = [np.array([candidate.cost for candidate in choice.candidates] + [0], dtype=np.int64) for choice in choices]
    left_out = [np.array([0] * len(choice.candidates) + [1], dtype=np.int64) for choice in choices]
    pairs = _Pairs([len(costs) for costs in looks])
    for axis in (0, 1):
        for kind in ("name", "position"):
            for i, j in _neighbours(wanted, kind, axis):
                _likeness(pairs.table(i, j), choices[i], choices[j], axis)
    for i, j in _same_control(wanted):
        _one_form(pairs.table(i, j), choices[i], choices[j])
    for i, a, j, b in _clashes(choices):
        pairs.table(i, j)[a, b] = HARD
    names = tuple(want.name for want in wanted)
    problem, _ = in_tiers(
        [
            Problem(unaries=tuple(looks), pairs=pairs.tables, names=names),
            Problem(unaries=tuple(left_out), pairs={}, names=names),
        ]
    )
    return problem


def _same_control(wanted: Sequence[_Wanted]) -> list[tuple[int, int]]:
    """Chains of the positions of one control."""
    by_part: dict[str, list[int]] = {}
    for index, want in enumerate(wanted):
        if want.kind == "position":
            by_part.setdefault(want.part.ref, []).append(index)
    return [pair for members in by_part.values() for pair in pairwise(members)]


def _one_form(costs: Costs, first: _Choice, second: _Choice) -> None:
    """The positions of one control on its axis, or all beside it: a mixture costs."""
    for a, one in enumerate(first.candidates):
        for b, other in enumerate(second.candidates):
            if one.form != other.form:
                costs[a, b] += OTHER_FORM_COST


def _likeness(costs: Costs, first: _Choice, second: _Choice, axis: int) -> None:
    """Neighbours in a row on different sides or base lines cost; in a column, on different sides or edges."""
    for a, one in enumerate(first.candidates):
        for b, other in enumerate(second.candidates):
            stacked = one.place in (Place.ABOVE, Place.BELOW)
            if one.place is not other.place or one.form != other.form:
                costs[a, b] += OTHER_SIDE_COST
            elif stacked == (axis == 0) and abs(one.line - other.line) > _SAME:
                costs[a, b] += OTHER_LINE_COST


def _white(candidate: Candidate) -> float:
    return LEGEND_GAP * candidate.setting.cap_height


def _clash(one: Candidate, other: Candidate) -> bool:
    return one.box.overlaps(other.box, min(_white(one), _white(other)))


def _clashes(choices: Sequence[_Choice]) -> Iterable[tuple[int, int, int, int]]:
    """Pairs of candidates of different legends that come too near to each other."""
    owners = [(i, a) for i, choice in enumerate(choices) for a in range(len(choice.candidates))]
    if not owners:
        return
    boxes = np.array(
        [
            (box.left, box.bottom, box.right, box.top)
            for choice in choices
            for box in (candidate.box for candidate in choice.candidates)
        ]
    )
    white = np.array([_white(candidate) for choice in choices for candidate in choice.candidates])
    shapes = shapely.box(*boxes.T)
    tree = shapely.STRtree(shapes)
    ones, others = tree.query(shapes, predicate="dwithin", distance=white)
    for one, other in sorted(zip(ones.tolist(), others.tolist(), strict=True)):
        (i, a), (j, b) = owners[one], owners[other]
        if i < j and _clash(choices[i].candidates[a], choices[j].candidates[b]):
            yield i, a, j, b
        elif i > j and _clash(choices[i].candidates[a], choices[j].candidates[b]):
            yield j, b, i, a


def _taken(
    panel: Panel,
    envelopes: Iterable[PlacedEnvelope],
    openings: Iterable[CutOpening],
    legends: Iterable[PlacedLegend],
    marks: Iterable[Mark],
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
