"""The marks between the numerals of a scale, where the spec leaves them open: as many as an eye can part.

Rank by rank: the space between two marks is divided into steps of one, two or five times a power of ten, each space for
itself, so that a logarithmic scale has tenths between 1 and 2 where there is room and no 7, 8, 9 where there is none.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise

from panelart.canonical import Struct

BETWEEN = 9
"""The most marks between two numerals: MIL-HDBK-759B, 5.2.2.3.1.4.1."""

_PARTS = 10
"""Into how many parts a space may be divided at most: one power of ten."""

_NEAR = 1e-6


class Room(Struct, frozen=True):
    """The way of a scale in mm where its marks are nearest to each other, and the least from mark to mark on it."""

    length: float
    apart: float


class _Space:
    """The space between two neighbouring marks, and the steps that it could be divided into, the coarsest first."""

    def __init__(self, low: float, high: float, share: Callable[[float], float], room: Room) -> None:
        self.low, self.high = low, high
        self.inside: list[float] = []
        self.ways = [
            values
            for step in steps_between(low, high)
            if _fits([low, *(values := list(_within(low, high, step))), high], share, room)
        ]
        self.length = abs(share(high) - share(low)) * room.length

    @property
    def widest(self) -> float:
        """About how far its marks stand apart, mm."""
        return round(self.length / (len(self.inside) + 1), 6)

    @property
    def more(self) -> int:
        """How many marks its next division adds."""
        return len(self.ways[0]) - len(self.inside)


def subdivided(
    marked: Sequence[float], numbered: Iterable[float], share: Callable[[float], float], room: Room, *, even: bool
) -> list[tuple[float, float, float]]:
    """The marks that have room between those that are `marked`: value, step, and the space that it divides.

    Both are in order; never more than nine marks, those of `marked` among them, are between two numerals. `even` asks
    for the same steps all along.
    """
    numerals = list(numbered)
    spaces: list[_Space] = []
    for run in _runs(marked, numerals):
        own = [_Space(low, high, share, room) for low, high in pairwise(run)]
        _divide(own, BETWEEN - (len(run) - 2))
        spaces += own
    if even:
        fewest = min((len(space.inside) for space in spaces), default=0)
        if any(len(space.inside) != fewest for space in spaces):
            for space in spaces:
                space.inside = next(
                    (list(_within(space.low, space.high, step)) for step in steps_between(space.low, space.high)
                     if round((space.high - space.low) / step) == fewest + 1), [],
                )  # fmt: skip
    return [
        (value, (space.high - space.low) / (len(space.inside) + 1), space.high - space.low)
        for space in spaces
        for value in space.inside
    ]


def _divide(spaces: Sequence[_Space], free: int) -> None:
    """Divide the widest spaces further, those that are alike together, while `free` marks are left for it."""
    while able := [space for space in spaces if space.ways]:
        widest = max(space.widest for space in able)
        alike = [space for space in able if space.widest == widest]
        more = sum(space.more for space in alike)
        for space in alike:
            if more <= free:
                space.inside = space.ways.pop(0)
            else:
                space.ways.clear()
        free -= more if more <= free else 0


def _runs(marked: Sequence[float], numerals: Sequence[float]) -> Iterator[list[float]]:
    """The marks from one with a numeral to the next; from mark to mark where none has one."""
    if not any(_among(value, numerals) for value in marked):
        yield from ([low, high] for low, high in pairwise(marked))
        return
    run: list[float] = []
    for value in marked:
        run.append(value)
        if _among(value, numerals) and len(run) > 1:
            yield run
            run = [value]
    if len(run) > 1:
        yield run


def _among(value: float, others: Iterable[float]) -> bool:
    return any(math.isclose(value, other, rel_tol=1e-9, abs_tol=1e-9) for other in others)


def steps_between(low: float, high: float) -> list[float]:
    """The steps of one, two or five times a power of ten that divide a space into 2 to 10 parts, the coarsest first.

    Both ends are whole steps where there are such steps; else the space alone is.
    """
    span = high - low
    top = math.floor(math.log10(span)) + 1
    steps = [mantissa * 10.0**power for power in range(top, top - 4, -1) for mantissa in (5, 2, 1)]
    fitting = [step for step in steps if 2 <= round(span / step) <= _PARTS and _whole(span / step)]
    round_ = [step for step in fitting if _whole(low / step)]
    return round_ or fitting


def _whole(number: float) -> bool:
    return math.isclose(number, round(number), rel_tol=_NEAR, abs_tol=_NEAR)


def _within(low: float, high: float, step: float) -> Iterator[float]:
    count = round((high - low) / step)
    for index in range(1, count):
        yield round(low + step * index, 12)


def _fits(values: Sequence[float], share: Callable[[float], float], room: Room) -> bool:
    places = [share(value) * room.length for value in values]
    return all(abs(b - a) >= room.apart - 1e-9 for a, b in pairwise(places))


def coarse(span: float) -> float | None:
    """The step of the medium marks in a space: halves of 1, thirds of 3 and 4.5, ones of 2, 4 and 5.

    None where it is no such space. 30° so has every ten, 45° every fifteen, and 4 mA every one.
    """
    mantissa = span / 10.0 ** math.floor(math.log10(span) + 1e-9)
    parts = {1.0: 2, 2.0: 2, 3.0: 3, 4.0: 4, 4.5: 3, 5.0: 5}
    return next((span / many for lead, many in parts.items() if math.isclose(mantissa, lead, rel_tol=1e-6)), None)


def is_whole(value: float, step: float) -> bool:
    """Whether a value is a whole number of steps."""
    return _whole(value / step)
