"""The bent panel in space, seen from the front or from behind: a picture to check the bends by, not to measure."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from panelart.canonical import Struct
from panelart.cutouts.blank import Bent, bent
from panelart.cutouts.folding import Place, folded, profile_steps
from panelart.drawing.representation import Item, Paint
from panelart.geometry import Box, Contour, Line, Point, Vector, polygon, vertices
from panelart.lettering.outline import shape_of
from panelart.model.layout import Blank, Layout
from panelart.model.metal import Edge
from panelart.sheets.named import Named, names_beside
from panelart.sheets.paper import BLACK, FINE

HOLE = Paint(colour="#2A2E33")
MARKED = Paint(colour="#F2A91E")
CHORD = 0.2
"""How far a drawn chord may lie off its arc, mm: a sketch is small."""

HAIR = 1e-3

LIGHT = (0.35, 0.55, 0.76)
DARKEST, LIGHTEST = 0.62, 0.95


class _Surface(Struct, frozen=True):
    """A piece of the folded sheet with the holes in it by name, as rings of places."""

    ring: tuple[Place, ...]
    holes: tuple[tuple[str, tuple[Place, ...]], ...]
    lined: bool


class _Eye(Struct, frozen=True):
    """Where the sketch is seen from: turned about the upright, then tilted from above; degrees."""

    turned: float
    tilted: float

    def seen(self, place: Place) -> Place:
        """Turned so that x is right, y up and z towards the eye."""
        az, el = math.radians(self.turned), math.radians(self.tilted)
        x = place.x * math.cos(az) + place.z * math.sin(az)
        z = place.z * math.cos(az) - place.x * math.sin(az)
        return Place(x, place.y * math.cos(el) - z * math.sin(el), place.y * math.sin(el) + z * math.cos(el))


class _Paper(Struct, frozen=True):
    """Where places in space come to on the paper: what is seen, its middle laid on the middle of a box."""

    eye: _Eye
    middle: Point
    scale: float
    on: Point

    @classmethod
    def fitting(cls, surfaces: Sequence[_Surface], eye: _Eye, room: Box) -> _Paper:
        """As large as fits a box."""
        seen = (eye.seen(place) for surface in surfaces for place in surface.ring)
        around = Box.around(Point(place.x, place.y) for place in seen)
        scale = min(room.width / around.width, room.height / around.height)
        return cls(eye, around.centre, scale, room.centre)

    def ring(self, places: Sequence[Place]) -> Contour:
        """A ring of places as a closed line."""
        return _ring([self._point(place) for place in places])

    def _point(self, place: Place) -> Point:
        seen = self.eye.seen(place)
        return self.on.moved(Vector((seen.x - self.middle.x) * self.scale, (seen.y - self.middle.y) * self.scale))


FRONT, REAR = _Eye(28.0, 24.0), _Eye(208.0, 24.0)


def sketch(layout: Layout, room: Box, *, rear: bool, marked: frozenset[str] = frozenset()) -> list[Item]:
    """The folded panel as large as fits a box on the paper, middle on middle; `marked` openings stand out, named."""
    eye = REAR if rear else FRONT
    surfaces = sorted(_surfaces(layout), key=lambda surface: _depth(surface, eye))
    paper = _Paper.fitting(surfaces, eye, room)
    outlines = [paper.ring(surface.ring) for surface in surfaces]
    items: list[Item] = []
    names: dict[str, tuple[int, Box]] = {}
    for number, (surface, outline) in enumerate(zip(surfaces, outlines, strict=True)):
        items.append(_sheet(surface, outline))
        for name, hole in surface.holes:
            seen = paper.ring(hole)
            items.append(Item(shape=shape_of(seen), fill=MARKED if name in marked else HOLE))
            if name in marked:
                names[name] = (number, seen.bounds)
    features = [
        Named(box=box, name=name)
        for name, (number, box) in names.items()
        if not any(outline.contains(box.centre) for outline in outlines[number + 1 :])
    ]
    return [*items, *names_beside(features, within=room.grown(4.0))[0]]


def _sheet(surface: _Surface, outline: Contour) -> Item:
    fill = _shade(surface.ring)
    return Item(shape=shape_of(outline), fill=fill, stroke=BLACK if surface.lined else fill, width=FINE)


def _ring(points: Sequence[Point]) -> Contour:
    """A closed line through points, those dropped that fall on their neighbour."""
    kept: list[Point] = []
    for point in points:
        if not kept or point.distance(kept[-1]) > 1e-4:
            kept.append(point)
    while len(kept) > 1 and kept[0].distance(kept[-1]) <= 1e-4:
        kept.pop()
    if len(kept) >= 3:
        try:
            return polygon(kept)
        except ValueError:
            pass
    # Seen on edge: nothing but a speck.
    start = points[0]
    return Contour((Line(start, start.moved(Vector(1e-3, 0.0))), Line(start.moved(Vector(1e-3, 0.0)), start)))


def _depth(surface: _Surface, eye: _Eye) -> float:
    return math.fsum(eye.seen(place).z for place in surface.ring) / len(surface.ring)


def _shade(ring: Sequence[Place]) -> Paint:
    """Grey by how far the piece faces the light, either side alike."""
    x = y = z = 0.0
    for here, there in zip(ring, (*ring[1:], ring[0]), strict=True):
        x += (here.y - there.y) * (here.z + there.z)
        y += (here.z - there.z) * (here.x + there.x)
        z += (here.x - there.x) * (here.y + there.y)
    size = math.sqrt(x * x + y * y + z * z) or 1.0
    lit = abs(x * LIGHT[0] + y * LIGHT[1] + z * LIGHT[2]) / size
    grey = round(255 * (DARKEST + (LIGHTEST - DARKEST) * min(lit, 1.0)))
    return Paint(colour=f"#{grey:02X}{grey:02X}{min(grey + 4, 255):02X}")


def _surfaces(layout: Layout) -> Iterator[_Surface]:
    """The flat of the face, then each flange in strips from the bend outwards."""
    assert layout.blank is not None
    flanges = bent(layout.panel, layout.cut_outline)
    yield from _face(layout, flanges)
    for edge, bend in flanges.items():
        yield from _strips(layout.blank, edge, bend, layout.cut_outline.bounds)


def _strips(blank: Blank, edge: Edge, bend: Bent, box: Box) -> Iterator[_Surface]:
    """A flange and its return in flat strips, each with the holes whose middle lies in it."""
    shift = blank.shift.scaled(-1.0)
    rings = [
        (hole.name, [_along_out(edge, box, point.moved(shift)) for point in vertices(hole.cut, CHORD)])
        for hole in blank.holes
        if hole.on in (edge.value, f"{edge.value} return")
    ]
    steps = profile_steps(bend)
    for low, high in pairwise(steps):
        if high - low < 1e-9:
            continue
        ring = tuple(
            folded(bend, box, along, out)
            for along, out in ((bend.start, low), (bend.end, low), (bend.end, high), (bend.start, high))
        )
        holes = tuple(
            (name, tuple(folded(bend, box, along, out) for along, out in ring_))
            for name, ring_ in rings
            if low <= math.fsum(out for _, out in ring_) / len(ring_) <= high
        )
        flat = high - low > bend.allowance / 4
        yield _Surface(ring, holes, lined=flat)


def _face(layout: Layout, flanges: dict[Edge, Bent]) -> Iterator[_Surface]:
    import shapely

    assert layout.blank is not None
    shift = layout.blank.shift.scaled(-1.0)
    box = layout.cut_outline.bounds
    ground = shapely.Polygon([point.moved(shift) for point in vertices(layout.blank.outline, CHORD)])
    for edge, bend in flanges.items():
        far, near = bend.tip + 1.0, -bend.setback
        # A hair wider than the flange, so that rounding leaves no sliver of it on the face.
        ends = (bend.start - HAIR, bend.end + HAIR)
        corners = [_from_along_out(edge, box, along, out) for along in ends for out in (near, far)]
        around = Box.around(corners)
        ground = ground.difference(shapely.box(around.left, around.bottom, around.right, around.top))
    pieces = list(ground.geoms) if ground.geom_type == "MultiPolygon" else [ground]
    largest = max(pieces, key=lambda piece: piece.area)
    ring = tuple(Place(x, y, 0.0) for x, y in list(largest.exterior.coords)[:-1])
    holes = tuple(
        (opening.name, tuple(Place(point.x, point.y, 0.0) for point in vertices(opening.cut, CHORD)))
        for opening in layout.openings
    )
    yield _Surface(ring, holes, lined=True)


def _along_out(edge: Edge, box: Box, point: Point) -> tuple[float, float]:
    match edge:
        case Edge.TOP:
            return point.x, point.y - box.top
        case Edge.BOTTOM:
            return point.x, box.bottom - point.y
        case Edge.LEFT:
            return point.y, box.left - point.x
        case Edge.RIGHT:
            return point.y, point.x - box.right


def _from_along_out(edge: Edge, box: Box, along: float, out: float) -> Point:
    match edge:
        case Edge.TOP:
            return Point(along, box.top + out)
        case Edge.BOTTOM:
            return Point(along, box.bottom - out)
        case Edge.LEFT:
            return Point(box.left - out, along)
        case Edge.RIGHT:
            return Point(box.right + out, along)
