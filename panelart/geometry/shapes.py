"""The shapes of openings and parts: counter-clockwise contours about a point, in millimetres and degrees.

Every function raises ValueError when the figures make no shape: a size that is not positive, corners larger
than the sides, a flat outside the circle.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise
from typing import Final, Literal, TypeAlias

from panelart.geometry.contour import Arc, Contour, Line, Segment, joined, nearest_on
from panelart.geometry.points import ORIGIN, TOLERANCE, Point, Vector, direction
from panelart.geometry.transforms import Transform
from panelart.messages import geometry as said

Side: TypeAlias = Literal["top", "bottom", "left", "right"]
Corner: TypeAlias = Literal["top-left", "top-right", "bottom-left", "bottom-right"]
Axis: TypeAlias = Literal["x", "y"]

SIDES: Final[tuple[Side, ...]] = ("top", "bottom", "left", "right")
CORNERS: Final[tuple[Corner, ...]] = ("bottom-left", "bottom-right", "top-right", "top-left")
"""Counter-clockwise from the lower left."""

_ALIKE: Final = 1e-4
"""Mm and square mm by which a rectangle drawn elsewhere may differ from an exact one."""

_TURN_FROM_TOP: Final[dict[Side, float]] = {"top": 0.0, "left": 90.0, "bottom": 180.0, "right": 270.0}


def circle(d: float, at: Point = ORIGIN) -> Contour:
    """A circle of diameter d."""
    _require_positive(d=d)
    return Contour((Arc(at, d / 2, 0.0, 360.0),))


def rectangle(w: float, h: float, at: Point = ORIGIN, corner: float = 0.0) -> Contour:
    """An upright rectangle, w wide and h high over all, with corners of a radius."""
    _require_positive(w=w, h=h)
    return polygon(_rectangle_points(w, h, at), corner)


def chamfered_rectangle(
    w: float,
    h: float,
    chamfer: float,
    corners: Collection[Corner] = CORNERS,
    corner: float = 0.0,
    *,
    at: Point = ORIGIN,
) -> Contour:
    """A rectangle with the listed corners cut off at 45 degrees.

    `chamfer` is the length lost along either side; `corner` is the radius of the corners not listed.
    """
    _require_positive(w=w, h=h, chamfer=chamfer)
    unknown = sorted(set(corners) - set(CORNERS))
    if unknown:
        raise ValueError(f"'{unknown[0]}' is not a corner; accepted: {', '.join(CORNERS)}")
    points: list[Point] = []
    radii: list[float] = []
    square = _rectangle_points(w, h, at)
    for index, name in enumerate(CORNERS):
        here = square[index]
        if name not in corners:
            points.append(here)
            radii.append(corner)
            continue
        for neighbour in (square[index - 1], square[(index + 1) % 4]):
            points.append(here.moved(neighbour.minus(here).unit.scaled(chamfer)))
            radii.append(0.0)
    if any(chamfer * _chamfers_on(corners, side) > size + TOLERANCE for side, size in _side_sizes(w, h).items()):
        raise ValueError(said.chamfers_too_large(chamfer=chamfer, width=w, height=h))
    return _rounded(points, radii)


def rectangular(contour: Contour) -> bool:
    """Whether a contour is an upright rectangle, sharp or with four corners of one radius below half its sides."""
    return corner_of(contour) is not None


def corner_of(contour: Contour) -> float | None:
    """The corner radius of an upright rectangle, 0 for sharp corners, None for every other shape."""
    box = contour.bounds
    radius = next((segment.radius for segment in contour.segments if isinstance(segment, Arc)), 0.0)
    if 2 * radius > min(box.width, box.height) + TOLERANCE or contour.circle is not None:
        return None
    same = rectangle(box.width, box.height, box.centre, min(radius, min(box.width, box.height) / 2))
    alike = abs(same.area - abs(contour.area)) < _ALIKE and abs(same.perimeter - contour.perimeter) < _ALIKE
    middles = (segment.point_at(0.5) for segment in same.segments)
    on_it = all(any(nearest_on(side, at).distance(at) < _ALIKE for side in contour.segments) for at in middles)
    return radius if alike and on_it else None


def slot(w: float, h: float, at: Point = ORIGIN) -> Contour:
    """An obround, w x h over all: the ends are half circles of the smaller size."""
    return rectangle(w, h, at, corner=min(w, h) / 2)


def d_hole(d: float, flat_to_opposite: float, flat_side: Side = "bottom", at: Point = ORIGIN) -> Contour:
    """A circle with one flat, centred on the circle.

    `flat_to_opposite` is measured from the flat to the far point of the circle.
    """
    _require_positive(d=d)
    if not 0.0 < flat_to_opposite < d:
        raise ValueError(said.flat_misses_circle(across=flat_to_opposite, diameter=d))
    r = d / 2
    half = math.degrees(math.acos(_cosine((flat_to_opposite - r) / r)))
    arc = Arc(ORIGIN, r, 90.0 + half, 360.0 - 2 * half)
    return _placed(Contour((arc, Line(arc.end, arc.start))), flat_side, at)


def double_d(d: float, flats: float, flats_along: Axis = "x", at: Point = ORIGIN) -> Contour:
    """A circle with two parallel flats; `flats` is the distance between them along the named axis."""
    _require_positive(d=d)
    if not 0.0 < flats < d:
        raise ValueError(said.flats_miss_circle(across=flats, diameter=d))
    if flats_along not in ("x", "y"):
        raise ValueError(f"'{flats_along}' is not an axis; accepted: x, y")
    half = math.degrees(math.acos(_cosine(flats / d)))
    top = Arc(ORIGIN, d / 2, half, 180.0 - 2 * half)
    bottom = Arc(ORIGIN, d / 2, 180.0 + half, 180.0 - 2 * half)
    contour = Contour((top, Line(top.end, bottom.start), bottom, Line(bottom.end, top.start)))
    return _placed(contour, "top" if flats_along == "x" else "left", at)


def keyed_circle(d: float, key_width: float, over_key: float, key_side: Side = "top", at: Point = ORIGIN) -> Contour:
    """A circle with a rectangular key-way outside it, centred on the circle.

    `over_key` is measured from the far point of the circle to the bottom of the key-way.
    """
    _require_positive(d=d, key_width=key_width)
    r = d / 2
    if key_width >= d:
        raise ValueError(said.key_wider_than_circle(width=key_width, diameter=d))
    half = math.degrees(math.asin(key_width / d))
    bottom = over_key - r
    if bottom <= r:
        raise ValueError(said.key_within_circle(over_key=over_key, diameter=d))
    arc = Arc(ORIGIN, r, 90.0 + half, 360.0 - 2 * half)
    left, right = Point(arc.start.x, bottom), Point(arc.end.x, bottom)
    contour = Contour((arc, Line(arc.end, right), Line(right, left), Line(left, arc.start)))
    return _placed(contour, key_side, at)


def trapezoid(
    w: float,
    h: float,
    side_angle_deg: float,
    corner: float = 0.0,
    wide_side: Literal["top", "bottom"] = "top",
    *,
    at: Point = ORIGIN,
) -> Contour:
    """A symmetrical trapezoid h high, centred at half its height, with corners of a radius.

    w is the wide side between the theoretical sharp corners; the sides lean inwards by `side_angle_deg`
    from upright.
    """
    _require_positive(w=w, h=h)
    if not 0.0 <= side_angle_deg < 90.0:
        raise ValueError(said.side_angle_too_large(angle=side_angle_deg))
    if wide_side not in ("top", "bottom"):
        raise ValueError(f"'{wide_side}' is not a wide side; accepted: top, bottom")
    narrow = w - 2 * h * math.tan(math.radians(side_angle_deg))
    if narrow <= 0.0:
        raise ValueError(said.sides_meet(angle=side_angle_deg, height=h))
    top, bottom = (w, narrow) if wide_side == "top" else (narrow, w)
    points = (
        Point(at.x - bottom / 2, at.y - h / 2),
        Point(at.x + bottom / 2, at.y - h / 2),
        Point(at.x + top / 2, at.y + h / 2),
        Point(at.x - top / 2, at.y + h / 2),
    )
    return polygon(points, corner)


def hexagon(across_flats: float, at: Point = ORIGIN, turned: float = 0.0) -> Contour:
    """A regular hexagon; not turned, it stands on a flat: flats at top and bottom, corners left and right."""
    _require_positive(across_flats=across_flats)
    reach = across_flats / math.sqrt(3.0)
    return polygon([at.moved(direction(turned + 60.0 * corner).scaled(reach)) for corner in range(6)])


def polygon(points: Sequence[Point], corner: float | Sequence[float] = 0.0) -> Contour:
    """Straight sides between the points, run counter-clockwise, with corners of a radius, or of one each."""
    return _rounded(points, [corner] * len(points) if isinstance(corner, float | int) else corner)


def _rounded(points: Sequence[Point], radii: Sequence[float]) -> Contour:
    """Straight sides between points, each point with its own corner radius."""
    if len(points) < 3:
        raise ValueError(said.too_few_points(count=len(points)))
    if min(radii) < 0.0:
        raise ValueError(said.negative_radius(radius=min(radii)))
    if _enclosed(points) < 0.0:
        points, radii = points[::-1], radii[::-1]
    count = len(points)
    sides = [points[(index + 1) % count].minus(points[index]) for index in range(count)]
    if any(side.length <= TOLERANCE for side in sides):
        raise ValueError(said.same_points())
    reaches = [_reach(sides[index - 1], sides[index], radii[index]) for index in range(count)]
    for index, side in enumerate(sides):
        taken = reaches[index] + reaches[(index + 1) % count]
        if taken > side.length + TOLERANCE:
            raise ValueError(said.radii_too_large(taken=taken, length=side.length))
    corners = [
        _corner_arc(points[index], sides[index - 1], radii[index], sides[index], reaches[index])
        for index in range(count)
    ]
    return joined(list(_run_round(points, corners)))


def _run_round(points: Sequence[Point], corners: Sequence[Arc | None]) -> Iterator[Segment]:
    """The arc of each corner that has one, and the side to the next."""
    for index, arc in enumerate(corners):
        ahead = (index + 1) % len(corners)
        following = corners[ahead]
        if arc is not None:
            yield arc
        start = points[index] if arc is None else arc.end
        end = points[ahead] if following is None else following.start
        yield Line(start, end)


def _reach(before: Vector, after: Vector, radius: float) -> float:
    """How much of either side a corner of a radius takes."""
    turn = math.atan2(before.cross(after), before.dot(after))
    return abs(radius * math.tan(turn / 2))


def _corner_arc(at: Point, before: Vector, radius: float, after: Vector, reach: float) -> Arc | None:
    if reach <= TOLERANCE:
        return None
    left = before.cross(after) > 0.0
    inwards = before.unit.perpendicular.scaled(radius if left else -radius)
    centre = at.moved(before.unit.scaled(-reach)).moved(inwards)
    out = -90.0 if left else 90.0
    turn = math.degrees(math.atan2(before.cross(after), before.dot(after)))
    return Arc(centre, radius, before.deg + out, turn)


def _placed(contour: Contour, side: Side, at: Point) -> Contour:
    """A contour drawn with its feature at the top, turned to another side and moved into place."""
    if side not in _TURN_FROM_TOP:
        raise ValueError(f"'{side}' is not a side; accepted: {', '.join(SIDES)}")
    return contour.transformed(Transform.turn(_TURN_FROM_TOP[side]).then(Transform.move(at.x, at.y)))


def _rectangle_points(w: float, h: float, at: Point) -> tuple[Point, Point, Point, Point]:
    return (
        Point(at.x - w / 2, at.y - h / 2),
        Point(at.x + w / 2, at.y - h / 2),
        Point(at.x + w / 2, at.y + h / 2),
        Point(at.x - w / 2, at.y + h / 2),
    )


def _side_sizes(w: float, h: float) -> dict[Side, float]:
    return {"top": w, "bottom": w, "left": h, "right": h}


def _chamfers_on(corners: Collection[Corner], side: Side) -> int:
    return sum(side in corner.split("-") for corner in set(corners))


def _enclosed(points: Sequence[Point]) -> float:
    origin = points[0]
    arms = [point.minus(origin) for point in points]
    return math.fsum(first.cross(second) for first, second in pairwise(arms)) / 2


def _cosine(value: float) -> float:
    return min(max(value, -1.0), 1.0)


def _require_positive(**sizes: float) -> None:
    for name, size in sizes.items():
        if not (size > 0.0 and math.isfinite(size)):
            raise ValueError(said.not_positive(name=name, value=size))
