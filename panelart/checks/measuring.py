"""What of a panel's parts is measured before cutting: each kind of part once, with its dimensions."""

from __future__ import annotations

from panelart.canonical import Struct
from panelart.catalogue import Dimension, dimensions_to_measure, is_doubtful
from panelart.cutouts.hardware import components
from panelart.messages import Message
from panelart.messages import checks_things as things
from panelart.model.component import Component
from panelart.model.panel import Panel, Part


class PartToMeasure(Struct, frozen=True, kw_only=True):
    """One kind of part, where it is used, and what is measured on it: its openings first, then its motion."""

    component: Component
    refs: tuple[str, ...]
    dimensions: tuple[Dimension, ...]

    @property
    def of_openings(self) -> bool:
        """Whether a hole is cut by one of the dimensions."""
        return any(dimension.piece not in (MOTION, BOARD) for dimension in self.dimensions)

    @property
    def of_scales(self) -> bool:
        """Whether marks are put by one of the dimensions."""
        return any(dimension.piece == MOTION for dimension in self.dimensions)

    @property
    def of_boards(self) -> bool:
        """Whether a circuit board is placed by one of the dimensions."""
        return any(dimension.piece == BOARD for dimension in self.dimensions)


BOARD = "board"
"""The piece that the height above a circuit board belongs to; it is entered in `heights` of the board."""

MOTION = "motion"
"""The piece that the angle or the length of a scale belongs to."""


def parts_to_measure(panel: Panel) -> tuple[PartToMeasure, ...]:
    """The parts, those of flanges too, that are cut or marked by figures that are recalled or typical.

    The angle of a scale counts where the spec leaves it to the part; the height above a circuit board that the spec
    puts the part on, where it has a range too.
    """
    given = {ref for board in panel.boards for ref, _ in board.heights}
    on_boards = {ref for board in panel.boards for ref in board.refs}.difference(given)
    by_ref = {part.ref: part for part in panel.parts}
    kinds: dict[tuple[str, tuple[Dimension, ...]], tuple[Component, list[str]]] = {}
    for ref, component, _ in components(panel):
        heights = _heights(component) if ref in on_boards else ()
        dimensions = (*dimensions_to_measure(component), *heights, *_sweeps(by_ref.get(ref)))
        if dimensions:
            kinds.setdefault((component.name, dimensions), (component, []))[1].append(ref)
    return tuple(
        PartToMeasure(component=component, refs=tuple(refs), dimensions=dimensions)
        for (_, dimensions), (component, refs) in kinds.items()
    )


def _heights(component: Component) -> tuple[Dimension, ...]:
    """The height above its circuit board where that is doubtful or has a range."""
    height = None if component.board is None else component.board.height
    if height is None or not (is_doubtful(height) or height.span is not None):
        return ()
    return (Dimension(piece=BOARD, figure=height),)


def _sweeps(part: Part | None) -> tuple[Dimension, ...]:
    """The doubtful angles and travels of the part itself that its scales take."""
    scales = () if part is None else (part.scale, part.outer_scale)
    figures = (
        scale.sweep_of_part if scale.straight is None else scale.straight.length_of_part
        for scale in scales
        if scale is not None
    )
    found = (Dimension(piece=MOTION, figure=figure) for figure in figures if figure is not None and is_doubtful(figure))
    return tuple(dict.fromkeys(found))


def in_words(dimension: Dimension) -> Message:
    """A dimension as people read it: "opening: diameter", "fixing: horizontal pitch"."""
    piece, name = dimension.piece or things.no_piece(), dimension.name
    if piece == BOARD:
        return things.height_above_board()
    if piece == MOTION:
        return things.travel_of_scale() if name == "travel" else things.angle_of_scale(name=name)
    if name == "pitch_x":
        return things.dimension_of(piece=piece, name=things.horizontal_pitch())
    if name == "pitch_y":
        return things.dimension_of(piece=piece, name=things.vertical_pitch())
    if name.startswith("passes_"):
        return things.dimension_through(piece=piece, name=name.removeprefix("passes_").replace("_", " "))
    return things.dimension_of(piece=piece, name=name.replace("_", " "))
