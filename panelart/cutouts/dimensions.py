"""Every dimension of an opening with the limits it is held to, finished and as cut.

A tolerance that a part's data give a dimension belongs to the finished opening, which the part goes into; where nobody
allows for the coat the sizes asked for are those as cut, and so is it. What says nothing of its own is held when it is
cut, and the range of the coat comes on top of that when it is finished.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.outlines import DIMENSIONS, Outline, outline_of
from panelart.cutouts.describe import size_of
from panelart.cutouts.tolerances import opening as general
from panelart.figure import Figure
from panelart.geometry import Contour
from panelart.model.component import Opening, Role
from panelart.model.layout import CutOpening, Dimension, Pitch
from panelart.model.making import Making
from panelart.model.panel import Allowance, Coat

Deviations = tuple[float, float]
"""Minus and plus in mm from a nominal size."""

_NOT_MEASURED: Final = ("radius", "chamfer", "side_angle")
"""Dimensions of shapes that are not from wall to wall: the coat changes them otherwise, gauges do not reach them."""

_PASSES: Final = "passes_"
"""How the names of figures of what must pass begin."""

_ACROSS: Final[Mapping[tuple[str, str], Mapping[str, str]]] = {
    ("slot", "circle"): {"width": "diameter"},
    ("slot", "rectangle"): {"length": "width", "width": "height"},
}
"""Which dimension of what passes goes with which of the opening, where it has another name there."""

_EVEN: Final = 1e-6


class Held(Struct, frozen=True, kw_only=True):
    """One dimension of an opening: its nominal sizes in mm, and what each may be off by.

    `own` says that the deviations are the part's; None where not even the general tolerance has any. `passes` is as
    of `Dimension`.
    """

    name: str
    finished: float
    cut: float
    finished_by: Deviations | None
    cut_by: Deviations | None
    own: bool
    passes: tuple[float, float] | None

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
    sizes = opening.dimensions or tuple(_from_contours(asked, opening.passes, opening.turn))
    return tuple(_held(one, wall, making.tolerance) for one in sizes)


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


_BARE: Final = _Wall(allowance=Allowance.DRAWING, takes=0.0, more=0.0, less=0.0)


def _held(one: Dimension, wall: _Wall, grade: str) -> Held:
    as_cut = wall.allowance is Allowance.NONE
    own = one.tolerance
    finished_by: Deviations | None
    cut_by: Deviations | None
    if own is not None and not as_cut:
        finished_by, cut_by = own, own if wall.allowance is Allowance.SHOP else _without(own, wall)
    else:
        cut_by = own if own is not None else general(one.size, grade)
        finished_by = None if cut_by is None else (_even(cut_by[0] - wall.more), _even(cut_by[1] + wall.less))
    return Held(
        name=one.name,
        finished=_even(one.size - (wall.takes if as_cut else 0.0)),
        cut=_even(one.size + (wall.takes if wall.allowance is Allowance.DRAWING else 0.0)),
        finished_by=finished_by,
        cut_by=cut_by,
        own=own is not None,
        passes=one.passes,
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


def lying(known: Sequence[Held], name: str, size: float) -> Held | None:
    """The dimension that is an opening's size over all in one direction: by name, else by its finished size in mm.

    A diameter is its width and its height, flats and keys are either.
    """
    alike = [one for one in known if abs(one.finished - size) < 1e-4]
    return next((one for one in alike if one.name == name), alike[0] if alike else None)


def dimensions_of(opening: Opening, turn: float) -> tuple[Dimension, ...]:
    """The dimensions of a component's opening from its figures; of a shape without figures, from its contour.

    `turn` is that of the part in degrees: width and height of an upright rectangle that it lays on its side change
    places, tolerance and all.
    """
    own: dict[str, Figure] = {}
    through: dict[str, Figure] = {}
    for figure in opening.figures:
        if figure.name.startswith(_PASSES):
            through.setdefault(figure.name.removeprefix(_PASSES), figure)
        elif figure.name in DIMENSIONS:
            own.setdefault(figure.name, figure)
    outline = outline_of([name for name in own if name not in ("turn", "x", "y")])
    if outline is None:
        passes = None if opening.passes is None else opening.passes.turned(turn)
        return tuple(_from_contours(opening.contour.turned(turn), passes, turn))
    on_side = outline.key == "rectangle" and turn % 180.0 == 90.0
    if "turn" in own and own["turn"].value % 180.0 == 90.0 and "height" in outline.dimensions:
        on_side = not on_side
    names = {"width": "height", "height": "width"} if on_side else {}
    found = tuple(
        Dimension(
            name=names.get(name, name).replace("_", " "),
            size=own[name].value,
            tolerance=own[name].tolerance,
            passes=_through(name, outline, through),
        )
        for name in outline.dimensions
        if name in own and name not in _NOT_MEASURED
    )
    return tuple(reversed(found)) if on_side else found


def _through(name: str, outline: Outline, figures: Mapping[str, Figure]) -> tuple[float, float] | None:
    """The nominal and the largest size of what must pass along one dimension; None where none is known for it."""
    passing = outline_of(list(figures))
    if passing is None:
        return None
    pairs = _ACROSS.get((outline.key, passing.key), {name: name})
    figure = figures.get(pairs.get(name, ""))
    if figure is None:
        return None
    return figure.value, figure.value + (0.0 if figure.tolerance is None else figure.tolerance[1])


def _from_contours(contour: Contour, passes: Contour | None, turn: float) -> Iterator[Dimension]:
    size = size_of(contour, turn)
    other = None if passes is None else size_of(passes, turn)
    if size.form == "round":
        through = None if other is None or other.form != "round" else (other.width, other.width)
        yield Dimension(name="diameter", size=_even(size.width), passes=through)
        return
    across = other if other is not None and other.form == size.form else None
    along, over = ("width", "height")
    if size.form == "slot":
        along, over = ("length", "width") if size.width >= size.height else ("width", "length")
    for name, one, through_it in (
        (along, size.width, None if across is None else across.width),
        (over, size.height, None if across is None else across.height),
    ):
        yield Dimension(
            name=name, size=_even(one), passes=None if through_it is None else (_even(through_it), _even(through_it))
        )


def pitches_of(openings: Sequence[Opening], names: Sequence[str], turn: float) -> Iterator[tuple[Pitch, ...]]:
    """The distances of each opening of a part from the one that it goes with; none for what nothing is fastened in.

    A second body, a locating pin and the first fixing hole go with the body, the other fixing holes with the first.
    Along x and y of the frame that the part stands in, straight across where it stands askew in it.
    """
    bodies = [index for index, one in enumerate(openings) if one.role is Role.BODY]
    windows = [index for index, one in enumerate(openings) if one.role is Role.APERTURE]
    fixings = [index for index, one in enumerate(openings) if one.role is Role.FIXING]
    body = bodies[0] if bodies else windows[0] if len(windows) == 1 else None
    for index, one in enumerate(openings):
        first = body
        if one.role is Role.FIXING and index != fixings[0]:
            first = fixings[0]
        if first is None or index == first or one.role is Role.APERTURE:
            yield ()
            continue
        yield tuple(_pitch(one, openings[first], names[first], turn))


def _pitch(one: Opening, other: Opening, to: str, turn: float) -> Iterator[Pitch]:
    here, there = size_of(one.contour).centre, size_of(other.contour).centre
    across, up = abs(here.x - there.x), abs(here.y - there.y)
    tolerance = next((figure.tolerance for figure in one.figures if figure.name == "x"), None)
    if turn % 90.0:
        yield Pitch(to=to, along="", size=_even(here.distance(there)), tolerance=tolerance)
        return
    if turn % 180.0:
        across, up = up, across
    for along, size in (("x", across), ("y", up)):
        if size > _EVEN:
            yield Pitch(to=to, along=along, size=_even(size), tolerance=tolerance)
