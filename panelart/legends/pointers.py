"""Small marks of a part's own that lead the eye: the line from a lamp to its name, the triangle at pin 1."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

import shapely
from msgspec.structs import replace

from panelart.geometry import Line, Point, Vector
from panelart.geometry import polygon as outline
from panelart.geometry.polygons import polygon
from panelart.legends.candidates import style_of
from panelart.lettering.outline import open_shape, shape_of
from panelart.model.layout import CutOpening, Mark, PlacedEnvelope, PlacedLegend
from panelart.model.panel import Panel, Part, Place, Side

GUIDE_WIDTH: Final = 0.08
"""Width of a guide over the cap height of its words: a little less than the lettering's stroke, so that it leads to
the words and is not read as one of them. Common practice."""

PIN_HEIGHT: Final = 0.6
"""Height of the triangle at pin 1 over the cap height of names. Common practice."""

SLIM: Final = 1.1
"""Its width over its height."""

_WAYS: Final = {
    Place.ABOVE: Vector(0.0, 1.0),
    Place.BELOW: Vector(0.0, -1.0),
    Place.LEFT: Vector(-1.0, 0.0),
    Place.RIGHT: Vector(1.0, 0.0),
}

_FAR: Final = 1e5  # mm: beyond any panel


def pointers(
    part: Part, panel: Panel, envelopes: Sequence[PlacedEnvelope], openings: Sequence[CutOpening]
) -> tuple[Mark, ...]:
    """The marks that lead from a part to its name, and to its first pin."""
    found: list[Mark] = []
    if (part.legend is not None and part.legend.guide is not None) or part.pin_1 is not None:
        cover = _cover(part, envelopes, openings)
        if part.legend is not None and part.legend.guide is not None and part.legend.place in _WAYS:
            found.append(_guide(part, part.legend.place, part.legend.guide, cover, panel))
        if part.pin_1 is not None:
            found.append(_pin(part, part.at.moved(part.pin_1.turned(part.turn)), cover, panel))
    return tuple(found)


def reaching(marks: Iterable[Mark], legends: Iterable[PlacedLegend], panel: Panel) -> list[Mark]:
    """The same marks, guides drawn on to words that stand farther off than they need, to share an edge with others."""
    named: dict[str, PlacedLegend] = {}
    for legend in legends:
        name = panel.by_ref[legend.ref].legend
        if name is not None and any(legend.where == one.where for one in name.texts):
            first = named.get(legend.ref, legend)
            named[legend.ref] = replace(first, box=first.box.union(legend.box))
    return [
        _reached(mark, named[mark.ref], panel) if mark.kind == "guide" and mark.ref in named else mark for mark in marks
    ]


def _reached(mark: Mark, words: PlacedLegend, panel: Panel) -> Mark:
    request = panel.by_ref[mark.ref].legend
    (loop,) = mark.shape
    (line,) = loop.curves
    if request is None or request.place not in _WAYS or words.where != request.where:
        return mark
    way, box = _WAYS[request.place], words.box
    edge = {Place.ABOVE: box.bottom, Place.BELOW: -box.top, Place.RIGHT: box.left, Place.LEFT: -box.right}
    more = edge[request.place] - panel.marking.placing.gap * words.cap_height - way.dot(Vector(*line.end))
    if more <= 0.0:
        return mark
    return replace(mark, shape=open_shape((Line(line.start, line.end.moved(way.scaled(more))),)))


def _cover(part: Part, envelopes: Sequence[PlacedEnvelope], openings: Sequence[CutOpening]) -> shapely.Geometry:
    """What the part hides or cuts of the face; its centre where that is nothing."""
    shapes = [polygon(each.contour) for each in envelopes if each.side is Side.FRONT]
    shapes += [polygon(each.finished) for each in openings]
    return shapely.union_all(shapes) if shapes else shapely.Point(part.at.x, part.at.y).buffer(1e-6)


def _edge(cover: shapely.Geometry, place: Place, low: float, high: float) -> float | None:
    """How far out on a side the part reaches between two places along that side; None where it does not."""
    upright = place in (Place.ABOVE, Place.BELOW)
    band = (low, -_FAR, high, _FAR) if upright else (-_FAR, low, _FAR, high)
    here = shapely.clip_by_rect(cover, *band)
    if here.is_empty:
        return None
    left, bottom, right, top = here.bounds
    return float({Place.ABOVE: top, Place.BELOW: -bottom, Place.RIGHT: right, Place.LEFT: -left}[place])


def _clear(panel: Panel) -> float:
    marking = panel.marking
    return marking.register + max(marking.placing.clearance, marking.process.opening_margin.value)


def _guide(part: Part, place: Place, length: float, cover: shapely.Geometry, panel: Panel) -> Mark:
    assert part.legend is not None
    style = style_of(part.legend, panel.marking)
    width = max(GUIDE_WIDTH * style.cap_height, panel.marking.process.line_minimum.value)
    origin = part.component.legend_origin
    centre = part.at.moved(Vector(origin.x, origin.y).turned(part.turn))
    along = centre.x if place in (Place.ABOVE, Place.BELOW) else centre.y
    way = _WAYS[place]
    edge = _edge(cover, place, along - width / 2, along + width / 2)
    out = way.dot(Vector(*centre)) if edge is None else edge
    near = centre.moved(way.scaled(out + _clear(panel) - way.dot(Vector(*centre))))
    return Mark(
        ref=part.ref,
        kind="guide",
        shape=open_shape((Line(near, near.moved(way.scaled(length))),)),
        width=width,
        ink=style.ink,
        where=part.legend.where,
    )


def _pin(part: Part, pin: Point, cover: shapely.Geometry, panel: Panel) -> Mark:
    """A triangle on the side of the part that is nearest to the pin, its tip towards it."""
    height = PIN_HEIGHT * panel.marking.styles["name"].cap_height
    half = SLIM * height / 2
    outs: list[tuple[float, Place]] = []
    for place, way in _WAYS.items():
        along = pin.x if place in (Place.ABOVE, Place.BELOW) else pin.y
        edge = _edge(cover, place, along - half, along + half)
        outs.append((0.0 if edge is None else edge - way.dot(Vector(*pin)), place))
    out, place = min(outs, key=lambda each: round(each[0], 6))
    way = _WAYS[place]
    tip = pin.moved(way.scaled(out + _clear(panel)))
    foot = tip.moved(way.scaled(height))
    side = way.perpendicular.scaled(half)
    return Mark(
        ref=part.ref,
        kind="pin-1",
        shape=shape_of(outline([tip, foot.moved(side), foot.moved(side.scaled(-1.0))]).ccw()),
        width=0.0,
        ink=panel.marking.styles["name"].ink,
        where=part.where,
        filled=True,
    )
