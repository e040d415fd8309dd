"""How a control moves: the ways it turns, its stops, its travel, and whether it stays where it is put.

Angles of a turned control are in degrees clockwise from straight up, as on a clock face, seen from the front: -45 is
half past ten, 45 half past one.
"""

from __future__ import annotations

from enum import Enum
from typing import Final

from panelart.canonical import Struct
from panelart.figure import Figure, Known
from panelart.reprs import brief

FULL_TURN: Final = 360.0

SURE: Final = (Known.PROVED, Known.LOOKED_UP, Known.GIVEN)
"""Standings of figures that a mark may be printed by without a question."""


SAME_INDEX: Final = 0.5
"""Degrees by which a stated index may differ from the one a part is made with, and still be it."""


class MotionKind(Enum):
    """What the hand does to a control, which decides where the names of its positions go."""

    NONE = "none"
    LEVER = "lever"  # toggles: the positions lie along the throw
    ROCKER = "rocker"
    SLIDE = "slide"
    TURN = "turn"  # the positions lie round the shaft
    PUSH = "push"
    PULL = "pull"
    TILT = "tilt"  # joysticks: the positions lie round the stick
    WHEEL = "wheel"  # thumbwheels: the value is in a window


class Stops(Enum):
    """What ends a turn."""

    FIXED = "fixed"  # both ends are the part's own
    ADJUSTABLE = "adjustable"  # a stop ring or pin sets the number of positions
    NONE = "none"  # endless


class Action(Enum):
    """Whether a control stays where it is put."""

    MAINTAINED = "maintained"
    MOMENTARY = "momentary"
    EITHER = "either"  # sold both ways


class Way(Struct, frozen=True, kw_only=True):
    """One way in which a turned control is made: marks of its own, or equal steps.

    `angles` are the marks in order, clockwise from straight up; where there are none, `index` is the step in degrees
    and `fewest` and `most` the number of positions. `figures` are where it is from.
    """

    angles: tuple[float, ...] = ()
    index: float | None = None
    fewest: int = 1
    most: int = 1
    figures: tuple[Figure, ...] = ()

    def __repr__(self) -> str:
        return brief("Way", as_written(self).strip("`"))

    @property
    def known(self) -> Known:
        """How far it may be trusted: as far as the weakest of its figures."""
        ranks = list(Known)
        return max((figure.known for figure in self.figures), key=ranks.index, default=Known.GIVEN)

    def makes(self, count: int) -> bool:
        """Whether it can have so many positions."""
        return self.fewest <= count <= self.most

    def marks(self, count: int, phase: float | None) -> tuple[float, ...]:
        """The marks of so many positions, as near to symmetrical about straight up as they can be.

        `phase` is the angle of one of the positions of a body that cannot be turned in its hole; None where it can.
        """
        if self.angles:
            return self.angles
        step = self.index or 0.0
        first = -step * (count - 1) / 2
        if phase is not None and step:
            first = phase + step * round((first - phase) / step)
        return tuple(first + step * number for number in range(count))


def as_written(way: Way) -> str:
    """A way as one writes it in a spec."""
    if way.angles:
        return f"`angles: [{', '.join(f'{angle:g}' for angle in way.angles)}]`"
    return f"`index: {way.index:g}`"


class Motion(Struct, frozen=True, kw_only=True):
    """How a control is operated; None and empty stand for what is not known, or has no meaning for its kind.

    Turned controls: `ways` for those with positions; `phase` the angle of one position of a body that a lug or flat
    holds, None where the body can be turned in its hole; `tab`, in its place, the angle of a tab or lug that lies half
    a step from the positions beside it, whatever the step; `stops`; `rotation` the degrees from stop to stop,
    `electrical` those over which the value changes, `tapers` the same for single laws by name; `turns` of a multi-turn
    control; `detents` in one turn. `travel` in mm for slides, buttons and pulls; `throw` in degrees between the ends
    of a lever.
    """

    kind: MotionKind = MotionKind.NONE
    action: Action | None = None
    ways: tuple[Way, ...] = ()
    phase: float | None = None
    tab: float | None = None
    stops: Stops | None = None
    rotation: Figure | None = None
    electrical: Figure | None = None
    tapers: tuple[tuple[str, Figure], ...] = ()
    turns: Figure | None = None
    detents: Figure | None = None
    travel: Figure | None = None
    throw: Figure | None = None

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Every figure of the motion with its source."""
        single = (self.rotation, self.electrical, self.turns, self.detents, self.travel, self.throw)
        return (
            *(figure for way in self.ways for figure in way.figures),
            *(figure for figure in single if figure is not None),
            *(figure for _, figure in self.tapers),
        )

    @property
    def most(self) -> int | None:
        """The most positions that it is made with; None where that is not known."""
        return max((way.most for way in self.ways), default=None)

    def made_with(self, count: int) -> tuple[Way, ...]:
        """The ways in which it is made with so many positions."""
        return tuple(way for way in self.ways if way.makes(count))

    def phase_of(self, way: Way) -> float | None:
        """The angle of one of the positions that a part made in this way has; None where the body can be turned."""
        if self.phase is not None or self.tab is None or way.index is None:
            return self.phase
        return self.tab + way.index / 2

    def stepped(self, index: float, count: int) -> tuple[float, ...] | None:
        """The marks of so many positions with an index, where a lug or tab decides them; None where nothing does."""
        for way in self.made_with(count):
            if way.index is not None and abs(way.index - index) <= SAME_INDEX and self.phase_of(way) is not None:
                return way.marks(count, self.phase_of(way))
        return None

    def angles(self, count: int) -> tuple[float, ...] | None:
        """The marks of so many positions, clockwise from straight up; None where makers differ or nobody has said."""
        ways = self.made_with(count)
        laid = {way.marks(count, self.phase_of(way)) for way in ways}
        return laid.pop() if len(laid) == 1 and all(way.known in SURE for way in ways) else None

    def swept(self, law: str) -> Figure | None:
        """The angle over which the values of a scale change: of its law, else electrical, else from stop to stop.

        None where it is not known, and for what turns more than once or without end.
        """
        figure = dict(self.tapers).get(law) or self.electrical or self.rotation
        return None if figure is None or figure.value >= FULL_TURN else figure

    def __repr__(self) -> str:
        return brief("Motion", self.kind.value)


STILL = Motion()
"""Not worked by hand, or not known to be."""
