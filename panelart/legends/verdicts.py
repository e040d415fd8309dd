"""What is said of every place of a legend whatever the frames: what is in its way, and which other part is as near.

One place is met many times over: for one legend alone, in many ways of its group, again when the group comes apart, and
in every round of frames. It is judged once.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np
from shapely.geometry.base import BaseGeometry

from panelart.canonical import Struct
from panelart.legends.candidates import Candidate, boxes_of
from panelart.legends.obstacles import Field, Obstacle
from panelart.legends.ownership import Grounds
from panelart.legends.wanted import EVEN, Wanted
from panelart.messages import Said
from panelart.messages import legends as said

LED = 1.5
"""Words with a line to their part keep this far from other parts, over their capitals. Our choice."""

FAR = 8.0
"""Words that are farther from their part than this, over their capitals, count as no farther."""

Spot = tuple[int, float, float, float, float, float]
"""What a verdict depends on: the number of the legend, the sides of its box, and how far it counts as from its part."""


class Verdict(Struct, frozen=True):
    """What is in the way of a place, the claim of another part to it and that part's ref, "" if none.

    `over` is whether the words reach over the middle between their part and the next in its row.
    """

    blockers: tuple[Said, ...]
    claim: int
    ref: str
    over: bool


def spots(every: Sequence[tuple[int, Candidate]]) -> list[Spot]:
    """Where places of legends are, one for each, alike for places that are judged alike."""
    rows = boxes_of([candidate for _, candidate in every]).tolist()
    return [
        # Words with a line to their part may be far from it, but not near another one.
        (index, left, bottom, right, top, (LED if one.leader else FAR) * one.setting.cap_height)
        for (index, one), (left, bottom, right, top) in zip(every, rows, strict=True)
    ]


class Verdicts:
    """The verdicts on places of some legends, each found when it is first asked for."""

    def __init__(
        self,
        wants: Sequence[Wanted],
        field: Field,
        grounds: Grounds,
        cells: Mapping[str, tuple[float, float]],
        own_ground: Callable[[int], BaseGeometry],
    ) -> None:
        self._refs = [want.part.ref for want in wants]
        self._field, self._grounds, self._cells, self._own_ground = field, grounds, cells, own_ground
        self._found: dict[Spot, Verdict] = {}
        self._own: dict[int, BaseGeometry] = {}
        self._nearer: dict[str, Said] = {}
        names: dict[Said, Said] = {}
        self._names = {id(obstacle): names.setdefault(obstacle.name, obstacle.name) for obstacle in field.obstacles}

    def of(self, asked: Sequence[Spot]) -> Mapping[Spot, Verdict]:
        """Verdicts on these spots, among others."""
        fresh = list(dict.fromkeys(spot for spot in asked if spot not in self._found))
        if fresh:
            self._found.update(zip(fresh, self._judged(fresh), strict=True))
        return self._found

    def _judged(self, fresh: Sequence[Spot]) -> list[Verdict]:
        numbers = [int(spot[0]) for spot in fresh]
        table = np.array([spot[1:] for spot in fresh], dtype=np.float64)
        boxes, farthest = table[:, :4], table[:, 4]
        refs = [self._refs[number] for number in numbers]
        for number in set(numbers).difference(self._own):
            self._own[number] = self._own_ground(number)
        grounds = np.array([self._own[number] for number in numbers], dtype=object)
        claims = self._grounds.claims(boxes, refs, grounds, farthest, numbers)
        cells = np.array([self._cells[ref] for ref in refs], dtype=np.float64)
        inside = (cells[:, 0] <= boxes[:, 0] + EVEN) & (boxes[:, 2] <= cells[:, 1] + EVEN)
        blocked = self._field.blockers(boxes)
        return [
            Verdict(self._named(found), claim, ref, not within)
            for found, claim, ref, within in zip(
                blocked, claims.claim.tolist(), claims.ref, inside.tolist(), strict=True
            )
        ]

    def _named(self, obstacles: Sequence[Obstacle]) -> tuple[Said, ...]:
        """The names of what is in the way, each once; a scale has many marks of one name."""
        names = [self._names.get(id(obstacle), obstacle.name) for obstacle in obstacles]
        return tuple({id(name): name for name in names}.values())

    def nearer(self, ref: str) -> Said:
        """What is said of a place that is as near to another part."""
        if ref not in self._nearer:
            self._nearer[ref] = said.nearer_part(ref=ref)
        return self._nearer[ref]
