"""The limits that every dimension of an opening is held to, finished and as cut.

A tolerance that a part's data give a dimension belongs to the finished opening, which the part goes into; where nobody
allows for the coat the sizes asked for are those as cut, and so is it. What says nothing of its own is held when it is
cut, and the range of the coat comes on top of that when it is finished.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.cutouts.dimensions import over_all
from panelart.cutouts.tolerances import opening as general
from panelart.model.layout import CutOpening, Dimension
from panelart.model.making import Making
from panelart.model.panel import Allowance, Coat

Deviations = tuple[float, float]
"""Minus and plus in mm from a nominal size."""

_EVEN: Final = 1e-6
_ALIKE: Final = 1e-4


class Held(Struct, frozen=True, kw_only=True):
    """One dimension of an opening: its nominal sizes in mm, and what each may be off by.

    `own` says that the deviations are the part's; None where not even the general tolerance has any. `coat_by` is what
    of `finished_by` comes from the range of the coat. `passes` is as of `Dimension`.
    """

    name: str
    finished: float
    cut: float
    finished_by: Deviations | None
    cut_by: Deviations | None
    own: bool
    passes: tuple[float, float] | None
    coat_by: Deviations = (0.0, 0.0)

    @property
    def hole_by(self) -> Deviations:
        """What the finished size may be off by but for the range of the coat, in mm; nothing where nobody says."""
        if self.finished_by is None:
            return 0.0, 0.0
        return _even(self.finished_by[0] - self.coat_by[0]), _even(self.finished_by[1] - self.coat_by[1])

    @property
    def finished_limits(self) -> tuple[float, float] | None:
        """The smallest and the largest finished size, in mm."""
        return _limits(self.finished, self.finished_by)

    @property
    def cut_limits(self) -> tuple[float, float] | None:
        """The smallest and the largest size as cut, in mm."""
        return _limits(self.cut, self.cut_by)


def _limits(nominal: float, by: Deviations | None) -> tuple[float, float] | None:
    return None if by is None else (round(nominal + by[0], 6), round(nominal + by[1], 6))


def held(opening: CutOpening, coat: Coat, making: Making) -> tuple[Held, ...]:
    """Each dimension of an opening with its limits; its sizes over all where only its contour is known."""
    wall = _BARE if opening.bare else _Wall.of(coat)
    asked = opening.cut if wall.allowance is Allowance.NONE else opening.finished
    sizes = opening.dimensions or tuple(over_all(asked, opening.passes, opening.turn))
    return tuple(_held(one, wall.along(one), making.tolerance) for one in sizes)


class _Wall(Struct, frozen=True, kw_only=True):
    """What the coat takes off a dimension, at both walls: usually, and how much more and less where it varies, mm."""

    allowance: Allowance
    takes: float
    more: float
    less: float

    @classmethod
    def of(cls, coat: Coat) -> _Wall:
        """The wall of an opening that is coated."""
        return cls(
            allowance=coat.allowance,
            takes=2 * coat.build,
            more=2 * (coat.build_maximum - coat.build),
            less=2 * (coat.build - coat.build_minimum),
        )

    def along(self, one: Dimension) -> _Wall:
        """What the coat takes off one dimension."""
        by = one.growth
        return replace(self, takes=by * self.takes, more=by * self.more, less=by * self.less)


_BARE: Final = _Wall(allowance=Allowance.DRAWING, takes=0.0, more=0.0, less=0.0)


def _held(one: Dimension, wall: _Wall, grade: str) -> Held:
    as_cut = wall.allowance is Allowance.NONE
    own = one.tolerance
    finished_by: Deviations | None
    cut_by: Deviations | None
    coat_by = (0.0, 0.0)
    if own is not None and not as_cut:
        finished_by, cut_by = own, own if wall.allowance is Allowance.SHOP else _without(own, wall)
    else:
        cut_by = own if own is not None else general(one.size, grade)
        coat_by = (_even(-wall.more), _even(wall.less))
        finished_by = None if cut_by is None else (_even(cut_by[0] + coat_by[0]), _even(cut_by[1] + coat_by[1]))
    return Held(
        name=one.name,
        finished=_even(one.size - (wall.takes if as_cut else 0.0)),
        cut=_even(one.size + (wall.takes if wall.allowance is Allowance.DRAWING else 0.0)),
        finished_by=finished_by,
        cut_by=cut_by,
        own=own is not None,
        passes=one.passes,
        coat_by=coat_by,
    )


def _even(value: float) -> float:
    return round(value, 6) + 0.0


def _without(own: Deviations, wall: _Wall) -> Deviations:
    """What is left for the cutter once the coat has had its range.

    Where the range of the coat takes all of it the part must still go in: the hole is cut that much larger, over a
    band as wide as the part's own.
    """
    low, high = own[0] + wall.more, own[1] - wall.less
    return _even(low), _even(high if high > low + _EVEN else low + own[1] - own[0])


def as_laid(known: Sequence[Held], width: float) -> tuple[Held, ...]:
    """The dimensions of an opening on the piece that is cut, where it is so wide as cut, in mm.

    On the blank the sides of a hole in a flange at the left or right change places.
    """
    sides = {one.name: one for one in known}
    upright = set(sides) != {"width", "height"} or abs(sides["width"].cut - width) < _ALIKE
    if upright or abs(sides["height"].cut - width) > _ALIKE:
        return tuple(known)
    return replace(sides["height"], name="width"), replace(sides["width"], name="height")


def lying(known: Sequence[Held], name: str, size: float) -> Held | None:
    """The dimension that is an opening's size over all in one direction: by name, else by its finished size in mm.

    A diameter is its width and its height, flats and keys are either.
    """
    alike = [one for one in known if abs(one.finished - size) < _ALIKE]
    return next((one for one in alike if one.name == name), alike[0] if alike else None)
