"""What a rule sees, and the finding it becomes once the rule's name, severity and words are on it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from panelart.checks.limits import Basis, Limit
from panelart.diagnostics import Severity, Where
from panelart.geometry import Box, Point


class Bound(Enum):
    """Which way a limit is meant."""

    LEAST = "least"
    MOST = "most"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One of several parts that have the same trouble, each by itself."""

    ref: str
    place: Point | Box
    where: Where


@dataclass(frozen=True, slots=True, kw_only=True)
class Observation:
    """What a rule saw, without words: how a rule reports.

    `refs` names what is concerned, the one to be changed first; empty texts and repeats in it do not count.
    `subject` and `other` are the two things in words, `other` empty where there is only one. `measured` is in
    the limit's unit; both are None where the rule has no number. `severity` is given only where this case is
    milder than the rule as a whole. `each` has a spot for every ref when each has the trouble by itself, so that
    a waiver may accept it for some of them; `subject` and `other` must then be true of any of them.
    """

    refs: tuple[str, ...]
    place: Point | Box
    where: Where
    subject: str
    other: str = ""
    measured: float | None = None
    limit: Limit | None = None
    bound: Bound = Bound.LEAST
    severity: Severity | None = None
    each: tuple[Spot, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """The result of a check, complete: a reporter needs nothing else.

    `place` is on the panel in mm from its lower-left corner; `where` in the spec. `measured` and `limit` are in
    `unit` and None where the rule has no number; `bound` says whether the limit is the least or the most,
    `limit_name` its key in the table ('' for one that comes from elsewhere), `source` where it comes from and
    `basis` how far it may be trusted. `sentence` says what is wrong and `fix` what to do. `refs`, `subject`,
    `other` and `each` are those of the Observation.
    """

    rule: str
    severity: Severity
    refs: tuple[str, ...]
    place: Point | Box
    where: Where
    subject: str
    other: str
    measured: float | None
    limit: float | None
    unit: str
    bound: Bound
    limit_name: str
    source: str
    basis: Basis | None
    sentence: str
    fix: str
    each: tuple[Spot, ...] = ()

    def only(self, refs: Iterable[str]) -> Finding | None:
        """The finding for some of the parts that each have it by themselves; None when none of them has."""
        wanted = frozenset(refs)
        spots = tuple(spot for spot in self.each if spot.ref in wanted)
        if not spots:
            return None
        return replace(self, refs=refs_of(spots), place=place_of(spots), where=spots[0].where, each=spots)

    @property
    def order(self) -> tuple[object, ...]:
        """Most serious first, then by place in the spec, then by rule; the rest only makes the order total."""
        place = self.place
        spot = (place.left, place.bottom) if isinstance(place, Box) else (place.x, place.y)
        return (self.severity.rank, self.where, self.rule, self.refs, self.subject, self.other, spot)

    def __lt__(self, other: Finding) -> bool:
        return self.order < other.order


def refs_of(spots: Iterable[Spot]) -> tuple[str, ...]:
    """The refs, each once, in order."""
    return tuple(dict.fromkeys(spot.ref for spot in spots))


def place_of(spots: Sequence[Spot]) -> Point | Box:
    """The one place, or the box round all of them."""
    return spots[0].place if len(spots) == 1 else Box.around(spot.place for spot in spots)


_ROUNDING = 1e-7


def amount(value: float, unit: str) -> str:
    """A measured value as it is shown: '2.30 mm', with more decimals where two would say 0.00."""
    return _shown(value, unit, round)


def enough(value: float, unit: str, bound: Bound) -> str:
    """A value to be kept to, rounded to the safe side: up for what is needed at least, down for the most."""
    return _shown(value, unit, _up if bound is Bound.LEAST else _down)


_UNITS = {"ratio": "", "count": "", "percent": " %", "deg": "\N{DEGREE SIGN}"}
"""How a unit is written behind its number, where not by its name."""


def _shown(value: float, unit: str, rounded: Callable[[float], int]) -> str:
    word = _UNITS.get(unit, f" {unit}" if unit else "")
    if unit == "count":
        return f"{rounded(value)}"
    for decimals in (2, 3, 6):
        steps = rounded(value * 10**decimals)
        if steps:
            return f"{steps / 10**decimals:.{decimals}f}{word}"
    return f"0{word}"


def _up(value: float) -> int:
    return math.ceil(value - _ROUNDING)


def _down(value: float) -> int:
    return math.floor(value + _ROUNDING)
