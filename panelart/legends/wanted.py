"""The legends that a place is looked for, and which of them are neighbours."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from panelart.canonical import Struct
from panelart.model.panel import FrameRequest, LegendRequest, Panel, Part, Place

NEIGHBOUR_REACH = 90.0
"""Parts in one row or column farther apart than this, in mm, need not match. Common practice."""

SAME_LINE = 0.02
"""Lines nearer to each other than this, in mm, are one line to any eye."""


class Wanted(Struct, frozen=True):
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


def wanted(panel: Panel) -> list[Wanted]:
    """Every legend that has a choice of places: positions, then the name, part by part."""
    found: list[Wanted] = []
    for part in panel.parts:
        found += [
            Wanted(part, position.request, "position", way(position.direction, part.turn), order)
            for order, position in enumerate(part.positions)
            if isinstance(position.direction, str)
        ]
        if part.legend is not None and part.legend.at is None:
            found.append(Wanted(part, part.legend, "name"))
    return found


def way(direction: str, turn: float) -> Place | None:
    """Where a direction of the part's own frame points on the panel, to the nearest quarter turn."""
    quarters = {"right": 0, "up": 1, "left": 2, "down": 3}
    if direction not in quarters:
        return None
    turned = (quarters[direction] + round(turn / 90.0)) % 4
    return (Place.RIGHT, Place.ABOVE, Place.LEFT, Place.BELOW)[turned]


def lies_level(part: Part) -> bool:
    """Whether a control's throw goes from left to right on the panel."""
    directions = (position.direction for position in part.positions)
    ways = {way(direction, part.turn) for direction in directions if isinstance(direction, str)}
    return bool(ways & {Place.LEFT, Place.RIGHT}) and not ways & {Place.ABOVE, Place.BELOW}


def rows(wants: Sequence[Wanted], axis: int) -> list[list[int]]:
    """Legends of one kind whose parts stand in one row (axis 0) or column (axis 1), in order along it.

    Positions are of one kind where their controls move alike: a rocker need not name its positions as a lever does.
    """
    lines: dict[tuple[int, str, str, str], list[int]] = {}
    for index, want in enumerate(wants):
        across = round(want.part.at[1 - axis] / SAME_LINE)
        motion = want.part.component.motion.kind.value if want.kind == "position" else ""
        lines.setdefault((across, want.kind, str(want.way), motion), []).append(index)
    return [
        sorted(members, key=lambda index: (wants[index].part.at[axis], wants[index].name)) for members in lines.values()
    ]


def neighbours(wants: Sequence[Wanted], axis: int) -> list[tuple[int, int]]:
    """Chains of legends in rows or columns, nearest to nearest."""
    return [
        (first, second)
        for members in rows(wants, axis)
        for first, second in pairwise(members)
        if 0 < wants[second].part.at[axis] - wants[first].part.at[axis] <= NEIGHBOUR_REACH
    ]


def of_one_control(wants: Sequence[Wanted]) -> list[tuple[int, int]]:
    """Chains of the positions of one control."""
    by_part: dict[str, list[int]] = {}
    for index, want in enumerate(wants):
        if want.kind == "position":
            by_part.setdefault(want.part.ref, []).append(index)
    return [pair for members in by_part.values() for pair in pairwise(members)]


def _names(wants: Sequence[Wanted]) -> dict[str, int]:
    """The numbers of the parts' names, by ref."""
    return {want.part.ref: index for index, want in enumerate(wants) if want.kind == "name"}


def of_one_frame(wants: Sequence[Wanted], frames: Sequence[FrameRequest]) -> list[tuple[int, int]]:
    """Chains of the names of parts in one frame, in reading order: by rows from the top, each from the left."""
    by_ref = _names(wants)
    pairs: dict[tuple[int, int], None] = {}
    for frame in frames:
        members = [by_ref[ref] for ref in frame.around if ref in by_ref]
        members.sort(key=lambda index: (-wants[index].part.at.y, wants[index].part.at.x, wants[index].name))
        pairs.update(dict.fromkeys(pairwise(members)))
    return list(pairs)


def mirrored(wants: Sequence[Wanted], frames: Sequence[FrameRequest]) -> list[tuple[int, int, float]]:
    """Names of parts that mirror each other about the upright middle of their frame's members, and where that is."""
    by_ref = _names(wants)
    pairs: dict[tuple[int, int], float] = {}
    for frame in frames:
        members = [by_ref[ref] for ref in frame.around if ref in by_ref]
        for one, other, axis in _mirrored_among(wants, members):
            pairs.setdefault((one, other), axis)
    return [(one, other, axis) for (one, other), axis in pairs.items()]


def _mirrored_among(wants: Sequence[Wanted], members: Sequence[int]) -> Iterator[tuple[int, int, float]]:
    """Of some names those that mirror each other, the left one first, and the middle of all."""
    if not members:
        return
    across = [wants[index].part.at.x for index in members]
    axis = (min(across) + max(across)) / 2
    at = {(round(wants[index].part.at.x, 2), round(wants[index].part.at.y, 2)): index for index in members}
    for (x, y), index in at.items():
        other = at.get((round(2 * axis - x, 2), y))
        if other is not None and x < axis - SAME_LINE:
            yield index, other, axis
