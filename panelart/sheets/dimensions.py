"""The panel as lines with every hole measured from the datum: one dimension a position, not one a hole."""

from __future__ import annotations

from collections.abc import Sequence

from panelart.canonical import Struct
from panelart.cutouts.describe import size_of
from panelart.drawing.representation import Item
from panelart.drawing.scaling import Scaling
from panelart.geometry import Box, Line, Point, circle
from panelart.lettering.look import Align
from panelart.lettering.outline import open_shape, shape_of
from panelart.messages import sheets as said
from panelart.model.component import Role
from panelart.model.layout import CutOpening, Layout
from panelart.model.panel import Side
from panelart.sheets.named import Named, names_beside
from panelart.sheets.paper import BLACK, FINE, GREY, MEDIUM, TEXT, disc, rule, words

PITCH = 3.6
"""Minimum distance between two dimension figures side by side, mm on paper."""

REACH = 20.0
"""Room that the dimensions take below and left of the panel, mm on paper."""

_SAME = 0.005  # mm on the panel: positions nearer than this are one dimension


class _Tick(Struct, frozen=True):
    """A position to be measured: its value from the datum, where it lies on paper, and where its figure stands."""

    value: float
    at: float
    figure: float


def dimensioned(layout: Layout, scaling: Scaling) -> tuple[Item, ...]:
    """Outline, openings and refs in lines, dimensions of every opening's middle below and left of them."""
    panel = layout.panel
    items = [Item(shape=scaling.shape(shape_of(panel.outline)), stroke=BLACK, width=MEDIUM)]
    items += [
        Item(
            shape=scaling.shape(shape_of(opening.finished)),
            stroke=BLACK,
            width=MEDIUM,
            label=str(said.opening(name=opening.name)),
        )
        for opening in layout.openings
    ]
    items += [
        Item(
            shape=scaling.shape(shape_of(circle(cone.finished, cone.centre))),
            stroke=BLACK,
            width=FINE,
            dash=() if cone.side is Side.FRONT else (1.2, 0.6),
            label=str(said.countersink(name=opening.name)),
        )
        for opening in layout.openings
        if (cone := opening.countersink) is not None
    ]
    face = scaling.box(panel.outline.bounds)
    centres = [size_of(opening.finished, opening.turn).centre for opening in layout.openings]
    items += _cross_lines(layout, scaling)
    items += _across(centres, layout, scaling, face)
    items += _upwards(centres, layout, scaling, face)
    items += _refs(layout, scaling)
    items += _datum(scaling.point(panel.datum))
    return tuple(items)


def spread(positions: Sequence[float], pitch: float) -> list[float]:
    """Places for figures in the order of their positions, at least a pitch apart and as near as can be to them.

    Least squares under the order: neighbours that crowd are pooled and spread evenly about their common middle.
    """
    blocks: list[tuple[float, int]] = []  # mean of (position - index * pitch), count
    for index, position in enumerate(positions):
        mean, count = position - index * pitch, 1
        while blocks and blocks[-1][0] > mean:
            before, many = blocks.pop()
            mean = (before * many + mean * count) / (many + count)
            count += many
        blocks.append((mean, count))
    flat = [mean for mean, count in blocks for _ in range(count)]
    return [mean + index * pitch for index, mean in enumerate(flat)]


def _ticks(values: Sequence[float], origin: float, datum: float, scale: float) -> list[_Tick]:
    distinct: list[float] = []
    for value in sorted(values):
        if not distinct or value - distinct[-1] > _SAME:
            distinct.append(value)
    at = [origin + value * scale for value in distinct]
    figures = spread(at, PITCH)
    return [_Tick(value - datum, place, figure) for value, place, figure in zip(distinct, at, figures, strict=True)]


def _across(centres: Sequence[Point], layout: Layout, scaling: Scaling, face: Box) -> list[Item]:
    outline = layout.panel.outline.bounds
    values = [outline.left, outline.right, layout.panel.datum.x, *(centre.x for centre in centres)]
    items: list[Item] = []
    for tick in _ticks(values, scaling.origin.x, layout.panel.datum.x, scaling.scale):
        top, knee, foot = face.bottom - 1.0, face.bottom - 3.0, face.bottom - 5.5
        items += _leader(Point(tick.at, top), Point(tick.at, knee), Point(tick.figure, foot))
        at = Point(tick.figure + TEXT / 2, foot - 0.8)
        items.append(words(_figure(tick.value), at, turn=90.0, align=Align.RIGHT).item)
    return items


def _upwards(centres: Sequence[Point], layout: Layout, scaling: Scaling, face: Box) -> list[Item]:
    outline = layout.panel.outline.bounds
    values = [outline.bottom, outline.top, layout.panel.datum.y, *(centre.y for centre in centres)]
    items: list[Item] = []
    for tick in _ticks(values, scaling.origin.y, layout.panel.datum.y, scaling.scale):
        right, knee, foot = face.left - 1.0, face.left - 3.0, face.left - 5.5
        items += _leader(Point(right, tick.at), Point(knee, tick.at), Point(foot, tick.figure))
        at = Point(foot - 0.8, tick.figure - TEXT / 2)
        items.append(words(_figure(tick.value), at, align=Align.RIGHT).item)
    return items


def _leader(start: Point, knee: Point, foot: Point) -> list[Item]:
    return [Item(shape=open_shape((Line(start, knee), Line(knee, foot))), stroke=BLACK, width=FINE)]


def _figure(value: float) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "0") else text.replace("-", "\N{MINUS SIGN}")


def _cross_lines(layout: Layout, scaling: Scaling) -> list[Item]:
    """A centre cross through every opening, a little longer than it."""
    items: list[Item] = []
    for opening in layout.openings:
        for arm in _arms(opening, scaling):
            across = arm.width > arm.height
            ends = (
                (Point(arm.left, arm.centre.y), Point(arm.right, arm.centre.y))
                if across
                else (Point(arm.centre.x, arm.bottom), Point(arm.centre.x, arm.top))
            )
            items.append(rule(*ends, paint=GREY, dash=(2.0, 0.5, 0.5, 0.5)))
    return items


def _arms(opening: CutOpening, scaling: Scaling) -> tuple[Box, Box]:
    """The lines of the cross through an opening, as boxes twice as wide as they are."""
    box, over = scaling.box(opening.finished.bounds), 1.2
    middle = scaling.point(size_of(opening.finished, opening.turn).centre)
    return (
        Box(box.left - over, middle.y - FINE, box.right + over, middle.y + FINE),
        Box(middle.x - FINE, box.bottom - over, middle.x + FINE, box.top + over),
    )


def _refs(layout: Layout, scaling: Scaling) -> list[Item]:
    """Each part's ref beside its largest opening, where it covers no line of it."""
    features: list[Named] = []
    for part in layout.panel.parts:
        own = [opening for opening in layout.openings if opening.ref == part.ref]
        main = [opening for opening in own if opening.role is not Role.FIXING] or own
        if not main:
            continue
        largest = max(main, key=lambda opening: abs(opening.finished.area))
        round_ = largest.finished.circle is not None
        features.append(Named(box=_drawn(largest, scaling), name=part.ref, round=round_))
    drawn = [box for opening in layout.openings for box in (_drawn(opening, scaling), *_arms(opening, scaling))]
    return names_beside(features, within=scaling.box(layout.panel.outline.bounds), drawn=drawn)[0]


def _drawn(opening: CutOpening, scaling: Scaling) -> Box:
    """What an opening takes of the drawing, its countersink too."""
    box, cone = opening.finished.bounds, opening.countersink
    return scaling.box(box if cone is None else box.union(circle(cone.finished, cone.centre).bounds))


def _datum(at: Point) -> list[Item]:
    """The datum: a ringed cross."""
    arm = 2.6
    return [
        disc(at, 3.0, stroke=BLACK, width=MEDIUM),
        rule(Point(at.x - arm, at.y), Point(at.x + arm, at.y), width=MEDIUM),
        rule(Point(at.x, at.y - arm), Point(at.x, at.y + arm), width=MEDIUM),
    ]
