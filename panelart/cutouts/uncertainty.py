"""How far off things on a panel may land from each other: one model for placing, checking and fits.

Every pair of ink, hole, part and edge has its *shares*: the register error between ink and metal, that of one ink to
another, the place of a hole, the tolerance of its size, the range of the coat on its wall, the play of a part in it,
and the tolerance of the part. What they leave of a distance is its *room*, one number. By default all shares work
against the panel at once (worst case). Where the spec says so their ranges are added as the root of the sum of their
squares: each is then taken as what a normally distributed error keeps 369 times in 370 (three standard deviations), and
the sum is what one panel in so many exceeds. What a share takes in its middle, as half of a tolerance to one side, is
taken in full either way.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from statistics import NormalDist
from typing import Final

from panelart.canonical import Struct
from panelart.cutouts.held import Deviations, Held, held, lying
from panelart.messages import Said
from panelart.messages import cutouts as said
from panelart.model.layout import CutOpening
from panelart.model.making import Making
from panelart.model.panel import Coat, Marking, Panel
from panelart.processes.process import LabelFilm

SIGMAS: Final = 3.0
"""Standard deviations of one share between its middle and its limit. Common practice of tolerance stacks."""

_EVEN: Final = 1e-9


class Share(Struct, frozen=True):
    """One part of an uncertainty: what it is, how far it varies about its middle, and what the middle takes, in mm."""

    what: Said
    by: float
    middle: float = 0.0

    @property
    def at_most(self) -> float:
        """The most that it takes, in mm; negative where it always leaves more room."""
        return self.middle + self.by


class Uncertainty(Struct, frozen=True):
    """How far two things may be off each other: the shares, and all of them together, mm."""

    shares: tuple[Share, ...]
    total: float
    one_in: int | None

    def room(self, distance: float) -> float:
        """What is left of a distance as drawn once all of this has been taken, in mm; below 0 they may meet."""
        return distance - self.total

    @property
    def words(self) -> Said:
        """What it is made of, for people: each share with the most that it takes."""
        parts = [said.share(what=share.what, by=share.at_most) for share in self.shares]
        return said.worst_case(parts=parts) if self.one_in is None else said.statistical(parts=parts, count=self.one_in)


def together(shares: Iterable[Share], making: Making, *, ways: int = 2) -> Uncertainty:
    """Shares added up as the panel's making says; never more than the worst case.

    `ways` is 2 where being off either way does harm, as of ink round a hole, and 1 where one does, as of a hole that is
    too small.
    """
    kept = tuple(share for share in shares if share.by > _EVEN or abs(share.middle) > _EVEN)
    worst = math.fsum(share.at_most for share in kept)
    varying = [share.by for share in kept if share.by > _EVEN]
    if making.one_in is None or len(varying) < 2:
        return Uncertainty(kept, worst, None)
    sigma = math.sqrt(math.fsum(by**2 for by in varying)) / SIGMAS
    limit = NormalDist().inv_cdf(1.0 - 1.0 / (ways * making.one_in)) * sigma
    return Uncertainty(kept, min(worst, math.fsum(share.middle for share in kept) + limit), making.one_in)


def ink_to_ink(making: Making, register: float | None) -> Uncertainty:
    """How far two inks may be off each other, by the process's own figure in mm; None where it has none."""
    return together((Share(said.ink_register_error(), register or 0.0),), making)


def ink_to_edge(panel: Panel) -> Uncertainty:
    """How far ink may be off the edge of the face, which a thinner coat brings nearer."""
    return together((_register(panel.marking), _coat(_of_wall(panel.coat))), panel.making)


def ink_to_hole(panel: Panel, opening: CutOpening) -> Uncertainty:
    """How far ink may be off the rim of a finished opening."""
    return together((*_placed(panel), *_rim(_widest(opening, panel), said.hole_tolerance())), panel.making)


def ink_to_part(panel: Panel, openings: Sequence[CutOpening]) -> Uncertainty:
    """How far ink may be off a part that sits in some openings with play."""
    return together((*_placed(panel), *_played(panel, openings)), panel.making)


def part_to_hole(panel: Panel, dimension: Held) -> Uncertainty:
    """What may be lacking of one dimension of an opening, from wall to wall, for the part that passes through it.

    An overlay has an opening of its own, which covers part of that in the metal by the register error.
    """
    assert dimension.passes is not None
    nominal, largest = dimension.passes
    film = panel.marking.process.gives(LabelFilm)
    shares = [
        _taken(said.hole_tolerance(), dimension.hole_by, -1.0),
        _coat(dimension.coat_by, -1.0),
        _taken(said.part_tolerance(), (0.0, largest - nominal), 1.0),
    ]
    if film:
        shares.append(_register(panel.marking))
    return together(shares, panel.making, ways=2 if film else 1)


def play(openings: Iterable[CutOpening]) -> float:
    """How far a part may be off the middle of its openings, either way, mm; the opening with the least play holds it.

    Half the difference of the sizes over all of the finished opening and of what passes through it, the smaller one of
    width and height: along a slot things are meant to travel. 0 where nothing is known to pass.
    """
    return min((_play(opening) for opening in openings if opening.passes is not None), default=0.0)


def _play(opening: CutOpening) -> float:
    return max(0.0, min(_plays(opening).values())) / 2.0


def _plays(opening: CutOpening) -> dict[str, float]:
    """By how much the finished opening is larger than what passes, along its width and its height."""
    assert opening.passes is not None
    hole, body = opening.finished.bounds, opening.passes.bounds
    return {"width": hole.width - body.width, "height": hole.height - body.height}


def _register(marking: Marking) -> Share:
    return Share(said.register_error(), marking.register)


def _placed(panel: Panel) -> tuple[Share, Share]:
    return _register(panel.marking), Share(said.position_error(), panel.making.position_error)


def _played(panel: Panel, openings: Sequence[CutOpening]) -> Iterator[Share]:
    """The play of a part in its tightest opening, and what that opening may be larger by."""
    tightest = min((one for one in openings if one.passes is not None), key=_play, default=None)
    if tightest is None:
        return
    yield Share(said.play(), _play(tightest))
    plays = _plays(tightest)
    name = min(plays, key=plays.__getitem__)
    yield from _rim(_lying(tightest, panel, name), said.hole_tolerance())


def _lying(opening: CutOpening, panel: Panel, name: str) -> Held | None:
    box = opening.finished.bounds
    known = held(opening, panel.coat, panel.making)
    return lying(known, name, box.width if name == "width" else box.height)


def _widest(opening: CutOpening, panel: Panel) -> Held | None:
    """The dimension over all of an opening that may be larger than drawn by most."""
    found = [one for name in ("width", "height") if (one := _lying(opening, panel, name)) is not None]
    return max(found, key=lambda one: (one.finished_by or (0.0, 0.0))[1], default=None)


def _rim(one: Held | None, tolerance: Said) -> Iterator[Share]:
    """What a larger opening takes at each of its two walls."""
    if one is not None:
        yield _taken(tolerance, one.hole_by, 0.5)
        yield _coat(one.coat_by, 0.5)


def _coat(by: Deviations, factor: float = 1.0) -> Share:
    return _taken(said.coat_range(), by, factor)


def _taken(what: Said, by: Deviations, factor: float) -> Share:
    """A share that takes so much of each deviation; a negative factor where what is larger leaves more room."""
    low, high = sorted((factor * by[0], factor * by[1]))
    return Share(what, (high - low) / 2.0, (high + low) / 2.0)


def _of_wall(coat: Coat) -> Deviations:
    """How much farther in and out the coat may move a wall than usual, in mm, outwards of the metal being minus."""
    return coat.build - coat.build_maximum, coat.build - coat.build_minimum
