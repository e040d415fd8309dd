"""Dimensions of an opening as its part gives them, each with its own tolerance, and distances within the part."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from panelart.catalogue.outlines import DIMENSIONS, Outline, outline_of
from panelart.cutouts.describe import Size, size_of
from panelart.figure import Figure
from panelart.geometry import Contour, offset
from panelart.model.component import Opening, Role
from panelart.model.layout import Dimension, Pitch

_NOT_MEASURED: Final = ("radius", "chamfer", "side_angle")
"""Dimensions of shapes that are not from wall to wall: the coat changes them otherwise, gauges do not reach them."""

_PASSES: Final = "passes_"
"""How the names of figures of what must pass begin."""

_PLACING: Final = ("turn", "x", "y")
"""Figures of where a shape is."""

_ACROSS: Final[Mapping[tuple[str, str], Mapping[str, str]]] = {
    ("slot", "circle"): {"width": "diameter"},
    ("slot", "rectangle"): {"length": "width", "width": "height"},
}
"""Which dimension of what passes goes with which of the opening, where it has another name there."""

_EVEN: Final = 1e-6
_STEP: Final = 0.05
"""Millimetres that a contour is moved out by to see what its sizes over all gain, about what a coat is thick."""


def dimensions_of(opening: Opening, turn: float) -> tuple[Dimension, ...]:
    """The dimensions of a component's opening from its figures; of a shape without figures, from its contour.

    `turn` is that of the part in degrees: width and height of an upright rectangle that it lays on its side change
    places, tolerance and all.
    """
    own, through = _figures(opening)
    outline = outline_of([name for name in own if name not in _PLACING])
    if outline is None:
        passes = None if opening.passes is None else opening.passes.turned(turn)
        return tuple(over_all(opening.contour.turned(turn), passes, turn))
    on_side = _on_side(outline, own.get("turn"), turn)
    names = {"width": "height", "height": "width"} if on_side else {}
    found = tuple(
        Dimension(
            name=names.get(name, name).replace("_", " "),
            size=own[name].value,
            tolerance=own[name].tolerance,
            passes=_through(name, outline, through),
            growth=_growth(name, own),
        )
        for name in outline.dimensions
        if name in own and name not in _NOT_MEASURED
    )
    return tuple(reversed(found)) if on_side else found


def _figures(opening: Opening) -> tuple[dict[str, Figure], dict[str, Figure]]:
    """The figures that draw an opening and put it in its place, and those of what passes, by name.

    The first of a name: facts come after them.
    """
    own: dict[str, Figure] = {}
    through: dict[str, Figure] = {}
    for figure in opening.figures:
        if figure.name.startswith(_PASSES):
            through.setdefault(figure.name.removeprefix(_PASSES), figure)
        elif figure.name in DIMENSIONS:
            own.setdefault(figure.name, figure)
    return own, through


def _on_side(outline: Outline, own: Figure | None, turn: float) -> bool:
    """Whether width and height change places, by the turn of the shape in its part and that of the part in degrees.

    As `size_of` has it: of shapes on a turned part only rectangles are told upright again.
    """
    in_part = own is not None and own.value % 180.0 == 90.0 and "height" in outline.dimensions
    by_part = outline.key == "rectangle" and turn % 180.0 == 90.0
    return in_part is not by_part


def _growth(name: str, own: Mapping[str, Figure]) -> float:
    """How many times twice the coat a dimension gains where every wall moves out by it.

    The wide side of a trapezoid gains 1/cos a for its sides, which slope by a, and tan a for its own move.
    """
    slope = own.get("side_angle")
    if slope is None or name != "width":
        return 1.0
    angle = math.radians(slope.value)
    return 1 / math.cos(angle) + math.tan(angle)


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


def over_all(contour: Contour, passes: Contour | None, turn: float) -> Iterator[Dimension]:
    """The dimensions of a contour by itself: the diameter of a round one, length and width or width and height.

    What passes counts where it has the same form. `turn` is that of their axes in degrees.
    """
    size = size_of(contour, turn)
    other = None if passes is None else size_of(passes, turn)
    if other is not None and other.form != size.form:
        other = None
    if size.form == "round":
        yield _over("diameter", size.width, None if other is None else other.width)
        return
    along, across = _names(size)
    wider, higher = _gains(contour, size, turn)
    yield _over(along, size.width, None if other is None else other.width, wider)
    yield _over(across, size.height, None if other is None else other.height, higher)


def _gains(contour: Contour, size: Size, turn: float) -> tuple[float, float]:
    """The growth of width and height of a contour: more than 1 where it has a sharp corner at their ends."""
    if size.form in ("rectangle", "slot"):
        return 1.0, 1.0
    grown = offset(contour, _STEP)
    if len(grown) != 1:
        return 1.0, 1.0
    over = size_of(grown[0], turn)
    return (over.width - size.width) / (2 * _STEP), (over.height - size.height) / (2 * _STEP)


def _names(size: Size) -> tuple[str, str]:
    if size.form != "slot":
        return "width", "height"
    return ("length", "width") if size.width >= size.height else ("width", "length")


def _over(name: str, size: float, passes: float | None, growth: float = 1.0) -> Dimension:
    through = None if passes is None else (_even(passes), _even(passes))
    return Dimension(name=name, size=_even(size), passes=through, growth=_even(growth))


def _even(value: float) -> float:
    return round(value, 6) + 0.0


def pitches_of(openings: Sequence[Opening], names: Sequence[str], turn: float) -> Iterator[tuple[Pitch, ...]]:
    """The distances of each opening of a part from the one that it goes with; none for what nothing is fastened in.

    A second body, a locating pin and the first fixing hole go with the body, the other fixing holes with the first.
    Along x and y of the frame that the part stands in, straight across where it stands askew in it.
    """
    body = _body(openings)
    fixing = next((index for index, one in enumerate(openings) if one.role is Role.FIXING), None)
    for index, one in enumerate(openings):
        first = fixing if one.role is Role.FIXING and index != fixing else body
        if first is None or index == first or one.role is Role.APERTURE:
            yield ()
        else:
            yield tuple(_pitch(one, openings[first], names[first], turn))


def _body(openings: Sequence[Opening]) -> int | None:
    """Which opening the others of a part are measured from: its first body, else its only window."""
    bodies = [index for index, one in enumerate(openings) if one.role is Role.BODY]
    windows = [index for index, one in enumerate(openings) if one.role is Role.APERTURE]
    return bodies[0] if bodies else windows[0] if len(windows) == 1 else None


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
