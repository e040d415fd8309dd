"""What places every legend has, before anything in the way is looked at, and the verdicts on them.

All of it holds whatever the frames are: it is the same in every round of them, and is worked out when first asked for.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from math import inf

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from panelart.geometry import Box
from panelart.legends.candidates import (
    UPRIGHT,
    Candidate,
    Lines,
    Near,
    boxes_of,
    near_names,
    over_position,
    position_candidates,
    resort_names,
    style_of,
    with_lines,
)
from panelart.legends.groups import Way, ways_of_names, ways_of_positions
from panelart.legends.obstacles import Field
from panelart.legends.ownership import Grounds, ground, speaks
from panelart.legends.stand import Stand
from panelart.legends.verdicts import Verdicts
from panelart.legends.wanted import EVEN, Wanted, rows
from panelart.model.panel import Panel, Place

OFF_FOR_UNLIKE = 1.0
"""Words stand so much farther off their part, over their capitals, to share a line with unlike parts. Our choice."""

_UPRIGHT_OF = {0: UPRIGHT, 1: (Place.RIGHT, Place.LEFT)}


class Offers:
    """The places that every legend has, before anything in the way is looked at: alone, and together with its like.

    Neighbours in a row or a column may share base lines and edges.
    """

    def __init__(self, panel: Panel, wants: Sequence[Wanted], stands: Mapping[str, Stand], field: Field) -> None:
        self.marking, self.wanted, self.stands, self.field = panel.marking, wants, stands, field
        self.lines: list[dict[Place, set[float]]] = [{} for _ in self.wanted]
        positions = [index for index, want in enumerate(self.wanted) if want.kind == "position"]
        self._shared({index: self._positions(index, {}) for index in positions}, 0)
        self.over = self._over(positions)
        self._resorted: dict[int, list[Near]] = {}
        self._led: dict[int, list[Candidate]] = {}
        self._ways: dict[tuple[tuple[int, ...], bool], list[Way]] = {}
        self.near = {
            index: near_names(want.request, self._stand(index), self.marking)
            for index, want in enumerate(self.wanted)
            if want.kind == "name"
        }
        names = {index: self._named(index, near, {}) for index, near in self.near.items()}
        self._shared(names, 0)
        self._shared(names, 1)

    def _over(self, positions: Iterable[int]) -> dict[str, dict[Place, tuple[float, ...]]]:
        """By part, the base lines above and below that clear the names of its own positions."""
        found: dict[str, dict[Place, tuple[float, ...]]] = {}
        for index in positions:
            want = self.wanted[index]
            name = want.part.legend
            if name is None or want.way not in (Place.ABOVE, Place.BELOW):
                continue
            # The text of a block that is next to the position is its last one above, and its first below.
            next_to_it = name.texts[-1] if want.way is Place.ABOVE else name
            cap_height = style_of(next_to_it, self.marking).cap_height
            along = [one for one in self._positions(index, self._sorted(index)) if one.form == "along"]
            over = found.setdefault(want.part.ref, {})
            lines = [over_position(candidate, want.way, cap_height) for candidate in along]
            over[want.way] = (*over.get(want.way, ()), *lines)
        return found

    def _positions(self, index: int, lines: Lines) -> list[Candidate]:
        want = self.wanted[index]
        return position_candidates(want.request, want.way, self._stand(index), self.marking, lines=lines)

    def _stand(self, index: int) -> Stand:
        return self.stands[self.wanted[index].part.ref]

    def _named(self, index: int, near: Sequence[Near], lines: Lines) -> list[Candidate]:
        want = self.wanted[index]
        over = self.over.get(want.part.ref, {})
        return with_lines(near, want.request, self.marking.placing, over=over, lines=lines)

    def _sorted(self, index: int) -> dict[Place, list[float]]:
        return {place: sorted(values) for place, values in self.lines[index].items()}

    def _shared(self, of: Mapping[int, Sequence[Candidate]], axis: int) -> None:
        """Let every member of a row know the lines that words of one line would take of themselves.

        Those of unlike parts only so far as they do not take its words off it: a name belongs to its part before it
        belongs to a line.
        """
        for members in rows(self.wanted, axis):
            if len(members) < 2 or members[0] not in of:
                continue
            # What the designer moved is where it was put, and no line for others.
            led = [index for index in members if self.wanted[index].request.offset is None]
            for place in _UPRIGHT_OF[axis]:
                own = {index: self._on_one_line(of[index], place) for index in led}
                for index in led:
                    self.lines[index].setdefault(place, set()).update(self._lines_for(index, own, place, axis))

    def _lines_for(
        self, index: int, own: Mapping[int, Sequence[tuple[float, float]]], place: Place, axis: int
    ) -> set[float]:
        """The lines of a row for one member: those of like parts, and of unlike ones those near its own."""
        kind = self._kind(index)
        like = {line for other, lines in own.items() if self._kind(other) == kind for line, _ in lines}
        unlike = {line for lines in own.values() for line, _ in lines} - like
        if axis == 0 and own[index]:
            unlike = {line for line in unlike if _is_near(line, own[index], place)}
        return like | unlike

    def _kind(self, index: int) -> str:
        return self.wanted[index].part.component.family

    def _on_one_line(self, places: Iterable[Candidate], place: Place) -> list[tuple[float, float]]:
        """The lines that words of one line take of themselves on a side, each with their cap height."""
        return [
            (round(one.line, 6), one.setting.cap_height)
            for one in places
            if one.place is place and "\n" not in one.setting.text
        ]

    @cached_property
    def verdicts(self) -> Verdicts:
        """What is said of places, whatever the frames."""
        return Verdicts(self.wanted, self.field, self.grounds, self.cells, self.own_ground)

    @cached_property
    def grounds(self) -> Grounds:
        """What belongs to each part that speaks: the part, its scale, names of positions where they likely are."""
        controls: dict[str, list[list[Candidate]]] = {}
        for index, want in enumerate(self.wanted):
            if want.kind == "position":
                controls.setdefault(want.part.ref, []).append(self._positions(index, {}))
        names = {ref: _likely(positions) for ref, positions in controls.items()}
        return Grounds(
            {
                ref: ground([stand.area, *shapely.box(*boxes_of(names.get(ref, ())).T)])
                for ref, stand in self.stands.items()
                if speaks(stand.part)
            }
        )

    @cached_property
    def cells(self) -> dict[str, tuple[float, float]]:
        """From where to where on the panel each part has its room in its row: to the middle of the gap to the next."""
        bodies = {ref: stand.box for ref, stand in self.stands.items() if speaks(stand.part)}
        numbers = {ref: number for number, ref in enumerate(bodies)}
        sides = np.array([(box.left, box.bottom, box.right, box.top) for box in bodies.values()], dtype=float)
        every = sides.reshape(-1, 4).T
        lefts, rights = every[0], every[2]
        found: dict[str, tuple[float, float]] = {}
        for ref, stand in self.stands.items():
            own = stand.box
            beside = _level(own, every)
            if ref in numbers:
                beside[numbers[ref]] = False
            left = rights[beside & (rights <= own.left + EVEN)].max(initial=-inf)
            right = lefts[beside & (lefts >= own.right - EVEN)].min(initial=inf)
            found[ref] = ((float(left) + own.left) / 2, (float(right) + own.right) / 2)
        return found

    def own_ground(self, index: int) -> BaseGeometry:
        """The ground of a legend's own part as this legend sees it: the names of positions stand at the bare part."""
        ref = self.wanted[index].part.ref
        if self.wanted[index].kind == "position":
            return ground([self.stands[ref].area])
        return self.grounds.of(ref)

    def candidates(
        self, index: int, *, resorts: bool = False, leaders: bool = True, drawn: Field | None = None
    ) -> list[Candidate]:
        """The places of one legend; later resorts, and lines to the part among them, are those of names only.

        Lines to the part keep clear of frames as they are `drawn`.
        """
        lines = self._sorted(index)
        if self.wanted[index].kind == "position":
            return self._positions(index, lines)
        found = self._named(index, self.near[index], lines)
        if resorts:
            found += self._named(index, self._resorts(index), lines)
            found += self._with_leaders(index, drawn) if leaders else ()
        return found

    def _with_leaders(self, index: int, drawn: Field | None) -> list[Candidate]:
        from panelart.legends.leaders import leader_candidates, shortest  # few panels need any

        request = self.wanted[index].request
        if index not in self._led:
            self._led[index] = leader_candidates(request, self._stand(index), self.marking, self.field)
        return shortest(self._led[index], request, self.marking, drawn)

    def ways(self, members: Sequence[int], *, resorts: bool = False) -> list[Way]:
        """The places of a group of legends, each of all its members."""
        asked = tuple(members), resorts
        if asked not in self._ways:
            self._ways[asked] = self._all_ways(members, resorts=resorts)
        return self._ways[asked]

    def _all_ways(self, members: Sequence[int], *, resorts: bool) -> list[Way]:
        wants = [self.wanted[index] for index in members]
        lines = [self._sorted(index) for index in members]
        if wants[0].kind == "position":
            return ways_of_positions(
                wants, [self._positions(index, {}) for index in members], lines, self.marking.placing
            )
        near = [[*self.near[index], *(self._resorts(index) if resorts else ())] for index in members]
        over = [self.over.get(want.part.ref, {}) for want in wants]
        known = [_joined(one, other) for one, other in zip(lines, over, strict=True)]
        return ways_of_names(wants, near, known, self.marking.placing, staggered=resorts)

    def _resorts(self, index: int) -> list[Near]:
        if index not in self._resorted:
            self._resorted[index] = resort_names(self.wanted[index].request, self._stand(index), self.marking)
        return self._resorted[index]


def _is_near(line: float, own: Iterable[tuple[float, float]], place: Place) -> bool:
    """Whether a line is not much farther out than the farthest of the lines that words take of themselves."""
    out = 1.0 if place is Place.ABOVE else -1.0
    farthest, cap_height = max((out * mine, cap_height) for mine, cap_height in own)
    return out * line - farthest <= OFF_FOR_UNLIKE * cap_height + EVEN


def _level(one: Box, others: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which things are beside one: they share half the height of the lower. `others`: left, bottom, right, top."""
    _, bottoms, _, tops = others
    shared = np.minimum(one.top, tops) - np.maximum(one.bottom, bottoms)
    found: NDArray[np.bool_] = shared > 0.5 * np.minimum(one.height, tops - bottoms) + EVEN
    return found


def _likely(positions: Sequence[Sequence[Candidate]]) -> list[Candidate]:
    """Where the names of a control's positions are as a rule: along its throw, or all beside it where one has to be."""
    along = all(any(one.form == "along" for one in near) for near in positions)
    form = "along" if along else "beside-right"
    return [next((one for one in near if one.form == form), near[0]) for near in positions if near]


def _joined(one: Lines, other: Lines) -> Lines:
    """The lines of both."""
    return {place: sorted({*one.get(place, ()), *other.get(place, ())}) for place in {**one, **other}}
