"""The legends that a place is looked for, and which of them are neighbours."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from panelart.canonical import Struct
from panelart.model.panel import FrameRequest, LegendRequest, Panel, Part, Place

NEIGHBOUR_REACH = 120.0
"""Parts in one row or column farther apart than this, in mm, need not match. Our choice."""

SAME_LINE = 0.02
"""Lines nearer to each other than this, in mm, are one line to any eye."""

EVEN = 1e-6
"""Millimetres that arithmetic may be off by: what is as far as a limit is so wherever on the panel it is."""


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
    kinds: dict[tuple[str, str, str], list[int]] = {}
    for index, want in enumerate(wants):
        motion = want.part.component.motion.kind.value if want.kind == "position" else ""
        kinds.setdefault((want.kind, str(want.way), motion), []).append(index)
    return [line for members in kinds.values() for line in in_line(wants, members, axis, SAME_LINE)]


def in_line(wants: Sequence[Wanted], members: Iterable[int], axis: int, apart: float) -> list[list[int]]:
    """Legends by the rows (axis 0) or columns (axis 1) of their parts, each in order along it.

    Parts are in one line where each is off the next one by no more than `apart`, mm, wherever on the panel they are.
    """
    lines: list[list[int]] = []
    for index in sorted(members, key=lambda index: (wants[index].part.at[1 - axis], wants[index].name)):
        if lines and wants[index].part.at[1 - axis] - wants[lines[-1][-1]].part.at[1 - axis] <= apart + EVEN:
            lines[-1].append(index)
        else:
            lines.append([index])
    return [sorted(line, key=lambda index: (wants[index].part.at[axis], wants[index].name)) for line in lines]


def are_near(one: Wanted, other: Wanted, axis: int) -> bool:
    """Whether two parts next to each other in a row (axis 0) or column (axis 1) ought to match."""
    return other.part.at[axis] - one.part.at[axis] <= NEIGHBOUR_REACH + EVEN


def neighbours(wants: Sequence[Wanted], axis: int) -> list[tuple[int, int]]:
    """Chains of legends in rows or columns, nearest to nearest."""
    return [
        (first, second)
        for members in rows(wants, axis)
        for first, second in pairwise(members)
        if wants[first].part.at[axis] < wants[second].part.at[axis] and are_near(wants[first], wants[second], axis)
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
    for row in in_line(wants, members, 0, SAME_LINE):
        for index in row:
            beyond = 2 * axis - wants[index].part.at.x
            if beyond <= axis + SAME_LINE:
                continue
            other = next((one for one in row if abs(wants[one].part.at.x - beyond) <= SAME_LINE + EVEN), None)
            if other is not None:
                yield index, other, axis
