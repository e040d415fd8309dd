"""Several parts without place, seated one after the other: first the one that most tells for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from itertools import combinations
from typing import Final

import numpy as np
from msgspec.structs import replace

from panelart.checks.inspection import limits_of
from panelart.drafting.least_moves import Inside, Rule, Task, Unit, least_moves
from panelart.drafting.plan import NoRoomError
from panelart.drafting.put_back import Seat, ideal, seats
from panelart.drafting.separation import Numbers, Surroundings
from panelart.geometry import Point
from panelart.messages import drafting as said
from panelart.model.panel import Panel

WAYS: Final = 5
"""Places of one part that are taken in turn."""

_DEEP: Final = 1e-4
_STEP: Final = 0.01
_HOLDING: Final = 6
"""Parts that are named as what holds the room."""

Cluster = tuple[str, ...]


def seatings(panel: Panel, clusters: Sequence[Cluster]) -> Iterator[Mapping[str, Point]]:
    """Places for parts, each with those that follow it, by the first ref; the best first.

    Raises NoRoomError where openings, hardware and hands leave no room.
    """
    loose = [ref for refs in clusters for ref in refs]
    sure = {refs: _sureness(seats(panel, refs, loose, 1)) for refs in clusters}
    order = sorted(clusters, key=lambda refs: (-sure[refs], loose.index(refs[0])))
    for way in _orders(order):
        found = _in_turn(panel, way, {})
        if found is not None:
            yield found
            yield from _others(panel, way)
            return
    yield _all_at_once(panel, clusters)


def wanted(panel: Panel, clusters: Sequence[Cluster]) -> Mapping[str, Point]:
    """Where each part should be, whatever is in the way."""
    loose = [ref for refs in clusters for ref in refs]
    places: dict[str, Point] = {}
    for refs in clusters:
        places[refs[0]] = ideal(panel, refs, loose)
        panel = seated(panel, refs, places[refs[0]])
        loose = [ref for ref in loose if ref not in refs]
    return places


def _sureness(found: Sequence[Seat]) -> float:
    return found[0].worth if found else float("-inf")


def _orders(order: Sequence[Cluster]) -> Iterator[Sequence[Cluster]]:
    """The order, then each part first."""
    yield order
    for number in range(1, len(order)):
        yield [order[number], *order[:number], *order[number + 1 :]]


def _others(panel: Panel, order: Sequence[Cluster]) -> Iterator[Mapping[str, Point]]:
    """The same with one of the parts in one of its next places."""
    for rank in range(1, WAYS):
        for refs in order:
            found = _in_turn(panel, order, {refs[0]: rank})
            if found is not None:
                yield found


def _in_turn(panel: Panel, order: Sequence[Cluster], ranks: Mapping[str, int]) -> Mapping[str, Point] | None:
    """A place for each, in turn, for each the best or the one of a rank; None where one has none left."""
    places: dict[str, Point] = {}
    loose = [ref for refs in order for ref in refs]
    for refs in order:
        rank = ranks.get(refs[0], 0)
        found = seats(panel, refs, loose, rank + 1)
        if len(found) <= rank:
            return None
        at = found[rank].at
        places[refs[0]] = at
        panel = seated(panel, refs, at)
        loose = [ref for ref in loose if ref not in refs]
    return places


def seated(panel: Panel, refs: Cluster, at: Point) -> Panel:
    """The panel with a part elsewhere, and those that keep their distance from it."""
    by = at.minus(panel.by_ref[refs[0]].at)
    return replace(
        panel, parts=tuple(replace(part, at=part.at.moved(by)) if part.ref in refs else part for part in panel.parts)
    )


def _all_at_once(panel: Panel, clusters: Sequence[Cluster]) -> Mapping[str, Point]:
    """Places that leave each other what they need, wherever they are. Raises NoRoomError."""
    found = least_moves(_task(panel, clusters))
    if found.short:
        raise NoRoomError(no_room(panel, clusters))
    moved = {some[0]: found.by.get(some[0], (0.0, 0.0)) for some in clusters}
    return {ref: Point(panel.by_ref[ref].at.x + x, panel.by_ref[ref].at.y + y) for ref, (x, y) in moved.items()}


def _kept(panel: Panel, loose: AbstractSet[str], around: Surroundings) -> tuple[list[Rule], list[Rule]]:
    """What the loose parts keep of each other and of what stands, and the keep-outs that they stay out of."""
    between = [
        Rule(one=one, two=two, area=area)
        for one, two in combinations([part.ref for part in panel.parts], 2)
        if not loose.isdisjoint((one, two))
        for area in around.between(one, two)
    ]
    fields = [
        Rule(one="", two=ref, area=area)
        for ref in sorted(loose)
        for field in around.fields
        for area in around.out_of(ref, field)
    ]
    return between, fields


def _task(panel: Panel, clusters: Sequence[Cluster]) -> Task:
    """Loose parts that may go anywhere on the face, the others staying where they are."""
    around = Surroundings(panel, limits_of(panel))
    loose = {ref for some in clusters for ref in some}
    between, fields = _kept(panel, loose, around)

    def broken(places: Mapping[str, Numbers]) -> list[Rule]:
        apart = [rule for rule in between if rule.area.depth(places[rule.two] - places[rule.one]) > _DEEP]
        return apart + [rule for rule in fields if rule.area.depth(places[rule.two]) > _DEEP]

    box = panel.outline.bounds
    inside = [around.inside(ref) for ref in sorted(loose)]
    return Task(
        at={part.ref: np.array(part.at) for part in panel.parts},
        units=[Unit(name=some[0], goes=dict.fromkeys(some, (1.0, 1.0))) for some in clusters],
        lines=(),
        inside=[Inside(ref=ref, ways=ways, most=most) for ref, (ways, most) in zip(sorted(loose), inside, strict=True)],
        broken=broken,
        farthest=max(box.width, box.height),
        step=_STEP,
    )


def no_room(panel: Panel, clusters: Sequence[Cluster]) -> object:
    """What holds the room: the largest of what stands."""
    loose = {ref for some in clusters for ref in some}
    around = Surroundings(panel, limits_of(panel))
    standing = [part.ref for part in panel.parts if part.ref not in loose]
    first = clusters[0][0]

    def size(ref: str) -> float:
        return max((float(area.reaches.max()) for area in around.between(ref, first)), default=0.0)

    holding = sorted(standing, key=lambda ref: -size(ref))[:_HOLDING]
    return said.no_room_beside(refs=[some[0] for some in clusters], others=holding)
