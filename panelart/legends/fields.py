"""Filled fields round parts and their words, with the words left out of the ink.

What is marked inside a field in its own ink is left out of it, so that it shows the colour of the panel; what has
another ink is printed over it. Round every opening the field stays as far off as ink has to. Curves are kept.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from msgspec.structs import replace

from panelart.geometry import Contour, Line, Point, offset, rectangle
from panelart.legends.frames import FIELD, Frame, ink_of
from panelart.legends.obstacles import ground
from panelart.lettering.outline import Loop, Shape, bounds, shape_of
from panelart.lettering.plate import knocked_out
from panelart.model.layout import CutOpening, Mark, PlacedLegend
from panelart.model.panel import FrameForm, Marking, Panel


def filled_fields(
    frames: Sequence[Frame],
    legends: Sequence[PlacedLegend],
    marks: Sequence[Mark],
    openings: Sequence[CutOpening],
    panel: Panel,
) -> tuple[tuple[PlacedLegend, ...], tuple[Mark, ...]]:
    """The legends and marks of a panel, those left out of fields told, and the fields among the marks, first of all."""
    fields = [frame for frame in frames if frame.request.form is FrameForm.FIELD]
    if not fields:
        return tuple(legends), tuple(marks)
    out = {id(one) for field in fields for one in _inside(field, legends, marks, panel)}
    return (
        tuple(replace(legend, left_out=True) if id(legend) in out else legend for legend in legends),
        (
            *(_field(field, legends, marks, openings, panel) for field in fields),
            *(replace(mark, left_out=True) if id(mark) in out else mark for mark in marks),
        ),
    )


def clear_of_openings(marking: Marking) -> float:
    """How far a field stays from the edge of an opening, mm: as ink has to, with the register error."""
    return marking.register + marking.process.opening_margin.value


def _inside(
    field: Frame, legends: Iterable[PlacedLegend], marks: Iterable[Mark], panel: Panel
) -> list[PlacedLegend | Mark]:
    """What is marked inside a field in its ink."""
    ink = ink_of(field, panel)
    found: list[PlacedLegend | Mark] = [
        legend for legend in legends if legend.ink == ink and field.box.contains(legend.box)
    ]
    found += [
        mark for mark in marks if mark.ink == ink and field.box.contains(bounds(mark.shape).grown(mark.width / 2))
    ]
    return found


def _field(
    field: Frame,
    legends: Sequence[PlacedLegend],
    marks: Sequence[Mark],
    openings: Iterable[CutOpening],
    panel: Panel,
) -> Mark:
    """A field without what is left out of it."""
    box = field.box
    corner = min(field.request.corner, box.width / 2, box.height / 2)
    clear = clear_of_openings(panel.marking)
    holes = [
        shape_of(hole)
        for opening in openings
        if opening.finished.bounds.overlaps(box)
        for hole in _grown(opening.finished, clear)
    ]
    words = [
        one.shape if isinstance(one, PlacedLegend) or one.filled else _stroked(one)
        for one in _inside(field, legends, marks, panel)
    ]
    return Mark(
        ref=field.name,
        kind=FIELD,
        shape=knocked_out(shape_of(rectangle(box.width, box.height, box.centre, corner).ccw()), [*holes, *words]),
        width=0.0,
        ink=ink_of(field, panel),
        where=field.request.where,
        filled=True,
    )


def _grown(contour: Contour, by: float) -> tuple[Contour, ...]:
    return offset(contour, by, "round") if by > 0.0 else (contour,)


def _stroked(mark: Mark) -> Shape:
    """What a line covers, as loops."""
    import shapely

    loops: list[Loop] = []
    for piece in shapely.get_parts(ground(mark)):
        for ring in (piece.exterior, *piece.interiors):
            points = [Point(float(x), float(y)) for x, y in shapely.get_coordinates(ring)]
            loops.append(Loop(tuple(Line(a, b) for a, b in pairwise(points) if a != b)))
    return tuple(loops)
