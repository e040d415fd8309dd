"""How far the figures that a hole is cut by may be trusted, and what is measured where they may not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue.outlines import DIMENSIONS
from panelart.catalogue.spacing import AXES, spacings
from panelart.figure import Figure, Known
from panelart.model.component import COUNTERSINK_ANGLE, COUNTERSINK_DIAMETER, Component, Opening, Role

_CUT_BY: Final = DIMENSIONS | {COUNTERSINK_DIAMETER, COUNTERSINK_ANGLE}
_DOUBTFUL: Final = (Known.MEMORY, Known.TYPICAL)
_PASSES: Final = "passes_"

MEASURED_FIRST: Final = frozenset({"shouldered-bushing", "differing-parts"})
"""Keys of cautions that tell to measure the part before its main hole is cut, whatever its source."""


def is_of_hole(figure: Figure) -> bool:
    """Whether a figure is one of a hole or of what goes through it, and no fact that goes with them."""
    return figure.name.removeprefix(_PASSES) in _CUT_BY


def _cuts(figure: Figure) -> bool:
    """Whether a hole is cut by a figure that one can measure: an upright shape is not measured by its quarter turn."""
    return figure.name in _CUT_BY and not (figure.name == "turn" and figure.value % 90 == 0)


def is_doubtful(figure: Figure) -> bool:
    """Whether a figure is recalled or differs from maker to maker."""
    return figure.known in _DOUBTFUL


def is_in_doubt(component: Component, opening: Opening, figure: Figure) -> bool:
    """Whether a figure of an opening is measured first: it is doubtful, or a caution says so of the main hole's sizes.

    A figure that the designer gave, or that was proved, was measured already.
    """
    if is_doubtful(figure):
        return True
    warned = not MEASURED_FIRST.isdisjoint(component.cautions) and figure.known is Known.LOOKED_UP
    return warned and opening.role is component.openings[0].role and figure.name not in AXES


def to_measure(component: Component) -> tuple[Figure, ...]:
    """The figures of its openings that are recalled, differ from maker to maker, or need measuring by a caution.

    Each is told once. Where there are any, the part in hand is measured before the sheet is cut. What goes through, the
    sheet it fits and facts that go with it do not count: nothing is cut by them.
    """
    cut_by = ((opening, figure) for opening in component.openings for figure in opening.figures if _cuts(figure))
    return tuple(dict.fromkeys(figure for opening, figure in cut_by if is_in_doubt(component, opening, figure)))


class Dimension(Struct, frozen=True, kw_only=True):
    """One dimension to measure, by the keys of a part file: `opening` and `diameter`; its figure has what is known.

    `piece` is '' where part files have no key for it, and the part is defined anew to change it.
    """

    piece: str
    figure: Figure

    @property
    def name(self) -> str:
        """The key of the dimension."""
        return self.figure.name


def dimensions_to_measure(component: Component) -> tuple[Dimension, ...]:
    """The figures `to_measure` as one measures and enters them: holes apart by their pitch, each dimension once.

    Behind a dimension of a hole stands that of what goes through it, where this is doubtful too.
    """
    return tuple(dict.fromkeys(_dimensions(component)))


def _dimensions(component: Component) -> Iterator[Dimension]:
    for role in dict.fromkeys(opening.role for opening in component.openings):
        openings = tuple(opening for opening in component.openings if opening.role is role)
        piece = piece_of(component, role)
        for opening in openings:
            yield from (Dimension(piece=piece, figure=figure) for figure in _sizes(component, opening))
        yield from _places(piece, openings)


def _places(piece: str, openings: Sequence[Opening]) -> Iterator[Dimension]:
    """The doubtful places of openings of one purpose: by their distances, or the first where they lie unevenly."""
    distances = {spacing.axis: spacing for spacing in spacings(openings)}
    for axis in AXES:
        place = _doubtful_place(openings, axis)
        if place is None:
            continue
        if axis in distances:
            yield Dimension(piece=piece, figure=_of_distance(place, distances[axis].key, distances[axis].value))
        elif place.value:
            yield Dimension(piece="", figure=place)


def _doubtful_place(openings: Iterable[Opening], axis: str) -> Figure | None:
    """The first doubtful figure of a place along an axis; None where all are known."""
    placed = (figure for opening in openings for figure in opening.figures if figure.name == axis)
    return next((figure for figure in placed if is_doubtful(figure)), None)


def piece_of(component: Component, role: Role) -> str:
    """The key that dimensions of the openings of one purpose stand under in a part file; '' for none."""
    if role is component.openings[0].role:
        return "opening"
    return role.value if role in (Role.FIXING, Role.LOCATING) else ""


def _sizes(component: Component, opening: Opening) -> Iterator[Figure]:
    """The doubtful sizes of an opening, each followed by that of what goes through where it is doubtful too."""
    through = {figure.name: figure for figure in opening.figures if figure.name.startswith(_PASSES)}
    for figure in opening.figures:
        if figure.name in AXES or not _cuts(figure) or not is_in_doubt(component, opening, figure):
            continue
        yield replace(figure, name=figure.name.replace(" ", "_"))
        passes = through.get(f"{_PASSES}{figure.name}")
        if passes is not None and is_in_doubt(component, opening, passes):
            yield passes


def _of_distance(place: Figure, key: str, distance: float) -> Figure:
    """The figure of a place as that of the distance between places."""
    share = distance / place.value if place.value else 0.0
    span = None if place.span is None or not share else tuple(sorted(round(end * share, 6) for end in place.span))
    return replace(
        place,
        name=key,
        value=round(distance, 6),
        span=span if span is None else (span[0], span[1]),
        tolerance=None,
    )
