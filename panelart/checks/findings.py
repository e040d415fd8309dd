"""What a rule sees, and the finding it becomes once the rule's name, severity and words are on it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import Enum

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.checks.limits import Basis, Limit
from panelart.diagnostics import Severity, Where
from panelart.geometry import Box, Point
from panelart.messages import Message, Said, english
from panelart.reprs import brief, some, spot


class Bound(Enum):
    """Which way a limit is meant."""

    MINIMUM = "minimum"
    MAXIMUM = "maximum"


class Spot(Struct, frozen=True, kw_only=True):
    """One of several parts that each have the finding by themselves."""

    ref: str
    place: Point | Box
    where: Where

    def __repr__(self) -> str:
        return brief("Spot", repr(self.ref), spot(*_middle(self.place)))


class Spelling(Struct, frozen=True, kw_only=True):
    """A word as it is written in the spec, and as it must be written."""

    written: str
    meant: str


class Observation(Struct, frozen=True, kw_only=True):
    """What a rule saw, without words: how a rule reports.

    `refs` names what is concerned, the one to be changed first; empty texts and repeats in it do not count.
    `subject` and `other` are the two things by name, `other` empty where there is only one. `measured` is in
    the limit's unit; both are None where the rule has no number. `severity` is given only where this case is
    milder than the rule as a whole. `each` has a spot for every ref when each has the finding by itself, so that
    a waiver may accept it for some of them; `subject` and `other` must then be true of any of them. `spellings` are
    words to be written otherwise, for whoever edits the spec.
    """

    refs: tuple[str, ...]
    place: Point | Box
    where: Where
    subject: Said
    other: Said = ""
    measured: float | None = None
    limit: Limit | None = None
    bound: Bound = Bound.MINIMUM
    severity: Severity | None = None
    each: tuple[Spot, ...] = ()
    spellings: tuple[Spelling, ...] = ()

    def __repr__(self) -> str:
        return brief("Observation", *some(self.refs), spot(*_middle(self.place)), self.measured)


class Finding(Struct, frozen=True, kw_only=True):
    """The result of a check, complete: a reporter needs nothing else.

    `place` is on the panel in mm from its lower-left corner; `where` in the spec. `measured` and `limit` are in
    `unit` and None where the rule has no number; `bound` says whether the limit is a minimum or a maximum,
    `limit_name` is its key in the table ('' for one that comes from elsewhere), `origin` its source and `basis` its
    standing. `says` is what is wrong and `cure` what to do. `refs`, `subject`, `other`, `each` and `spellings` are
    those of the Observation.
    """

    rule: str
    severity: Severity
    refs: tuple[str, ...]
    place: Point | Box
    where: Where
    subject: Said
    other: Said
    measured: float | None
    limit: float | None
    unit: str
    bound: Bound
    limit_name: str
    origin: Said
    basis: Basis | None
    says: Message
    cure: Message
    each: tuple[Spot, ...] = ()
    spellings: tuple[Spelling, ...] = ()

    @property
    def at(self) -> Point:
        """The middle of its place."""
        return _middle(self.place)

    @property
    def sentence(self) -> str:
        """What is wrong, in the language that is spoken."""
        return str(self.says)

    @property
    def fix(self) -> str:
        """What to do, in the language that is spoken."""
        return str(self.cure)

    @property
    def source(self) -> str:
        """Where the limit comes from, in the language that is spoken; '' where there is none."""
        return str(self.origin)

    def only(self, refs: Iterable[str]) -> Finding | None:
        """The finding for some of the parts that each have it by themselves; None when none of these has it."""
        wanted = frozenset(refs)
        spots = tuple(spot for spot in self.each if spot.ref in wanted)
        if not spots:
            return None
        left = refs_of(spots)
        subject = _recounted(self.subject, len(left))
        says, cure = (
            replace(
                said, arguments=tuple((name, subject if name == "subject" else value) for name, value in said.arguments)
            )
            for said in (self.says, self.cure)
        )
        return replace(
            self,
            refs=left,
            place=place_of(spots),
            where=spots[0].where,
            each=spots,
            subject=subject,
            says=says,
            cure=cure,
        )

    @property
    def order(self) -> tuple[object, ...]:
        """Most serious first, then by place in the spec, then by rule; the rest only makes the order total."""
        place = self.place
        spot = (place.left, place.bottom) if isinstance(place, Box) else (place.x, place.y)
        return (self.severity.rank, self.where, self.rule, self.refs, english(self.subject), english(self.other), spot)

    def __lt__(self, other: Finding) -> bool:
        return self.order < other.order

    def __repr__(self) -> str:
        return brief("Finding", self.severity.value, self.rule, *some(self.refs), spot(*_middle(self.place)))


def _recounted(subject: Said, count: int) -> Said:
    """A subject that says how many parts there are, of so many; every other as it is."""
    if isinstance(subject, str) or "count" not in dict(subject.arguments):
        return subject
    arguments = tuple((name, count if name == "count" else value) for name, value in subject.arguments)
    return replace(subject, arguments=arguments)


def refs_of(spots: Iterable[Spot]) -> tuple[str, ...]:
    """The refs, each once, in order."""
    return tuple(dict.fromkeys(spot.ref for spot in spots))


def place_of(spots: Sequence[Spot]) -> Point | Box:
    """The one place, or the box round all of them."""
    return spots[0].place if len(spots) == 1 else Box.around(spot.place for spot in spots)


def _middle(place: Point | Box) -> Point:
    return place.centre if isinstance(place, Box) else place
