"""Closed contours sorted out: which one is the outline, which are holes in it, and what cannot be either."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from panelart.canonical import Struct
from panelart.diagnostics import Problem, Where
from panelart.geometry import Contour, Point, Vector, crossings, overlaps, self_crossing
from panelart.geometry.polygons import polygon, polygons
from panelart.messages import outlines as said
from panelart.outlines.chains import Drawn, closed_contours
from panelart.outlines.limits import MAX_IN_ONE, MAX_SIZE, MAX_TOLD, MIN_SIZE


class DrawnOutline(Struct, frozen=True, kw_only=True):
    """An outline and its holes in mm, counter-clockwise, the lower-left corner of the outline's box at (0, 0).

    `origin` is the drawing's own origin in that frame; `error` the most that a curve was moved to become arcs.
    Holes stand from the top left, row by row.
    """

    outline: Contour
    holes: tuple[Contour, ...]
    origin: Point
    error: float


class Turned(Struct, frozen=True, kw_only=True):
    """How a drawing is laid on the panel: mirrored first where it shows the rear, then turned."""

    deg: float = 0.0
    from_rear: bool = False

    def of(self, contour: Contour) -> Contour:
        """A contour so laid."""
        seen = contour.mirrored() if self.from_rear else contour
        return seen.turned(self.deg) if self.deg else seen


def sort_out(
    drawn: Sequence[Drawn], laid: Turned, error: float, where: Where
) -> tuple[DrawnOutline | None, tuple[Problem, ...]]:
    """The outline and its holes, or what is wrong. `where` stands for the drawing as a whole."""
    if not drawn:
        return None, (Problem(where=where, says=said.nothing_drawn(), accepts=said.accepted_outline()),)
    contours, problems = closed_contours(drawn)
    problems = problems or tuple(_too_long(contours)) or tuple(_crossings(contours))
    if problems:
        return None, problems
    largest = max(range(len(contours)), key=lambda number: (abs(contours[number][0].area), -number))
    outline, at = contours[largest]
    others = [pair for number, pair in enumerate(contours) if number != largest]
    box = outline.bounds
    if max(box.width, box.height) > MAX_SIZE or min(box.width, box.height) < MIN_SIZE:
        message = said.outline_size(size=(box.width, box.height), minimum=MIN_SIZE, maximum=MAX_SIZE)
        return None, (Problem(where=at, says=message, accepts=said.check_the_unit()),)
    problems = tuple(_misplaced(outline, others))
    if problems:
        return None, problems
    return _at_home(outline, [hole for hole, _ in others], laid, error), ()


def _at_home(outline: Contour, holes: Sequence[Contour], laid: Turned, error: float) -> DrawnOutline:
    turned = laid.of(outline).ccw()
    box = turned.bounds
    home = Vector(-box.left, -box.bottom)
    placed = [laid.of(hole).ccw().moved(home) for hole in holes]
    placed.sort(key=_row_by_row)
    return DrawnOutline(
        outline=turned.moved(home), holes=tuple(placed), origin=Point(0.0, 0.0).moved(home), error=error
    )


def _row_by_row(hole: Contour) -> tuple[float, float, float]:
    middle = hole.bounds.centre
    return -round(middle.y, 3), round(middle.x, 3), abs(hole.area)


def _too_long(contours: Sequence[tuple[Contour, Where]]) -> list[Problem]:
    return [
        Problem(
            where=where,
            says=said.contour_too_long(count=len(contour.segments), maximum=MAX_IN_ONE),
            accepts=said.draw_curves_as_curves(),
        )
        for contour, where in contours
        if len(contour.segments) > MAX_IN_ONE
    ]


def _crossings(contours: Sequence[tuple[Contour, Where]]) -> list[Problem]:
    found: list[Problem] = []
    for contour, where in contours:
        crossing = self_crossing(contour)
        if crossing is not None and len(found) < MAX_TOLD:
            message = said.contour_crosses_itself(at=crossing)
            found.append(Problem(where=where, says=message, accepts=said.separate_the_contours()))
    return found


def _misplaced(outline: Contour, others: Sequence[tuple[Contour, Where]]) -> list[Problem]:
    """What lies outside the outline, on it, in another hole or across one."""
    face = polygon(outline, side="outside")
    shapely.prepare(face)
    shapes = polygons([contour for contour, _ in others], side="outside")
    found: list[Problem] = []
    inside: list[int] = []
    for number, (contour, where) in enumerate(others):
        middle = contour.bounds.centre
        if not face.intersects(shapes[number]):
            message, hint = said.second_outline(at=middle), said.one_outline_a_layer()
        elif _meet(outline, contour):
            message, hint = said.hole_meets_outline(at=middle), said.keep_holes_inside()
        else:
            inside.append(number)
            continue
        found.append(Problem(where=where, says=message, accepts=hint))
    if len(inside) < 2:
        return found[:MAX_TOLD]
    holes = [shapes[number] for number in inside]
    pairs = shapely.STRtree(holes).query(holes, predicate="intersects")
    for one, two in zip(*pairs.tolist(), strict=True):
        first, second = inside[one], inside[two]
        if first < second and overlaps(others[first][0], others[second][0]):
            message = said.holes_overlap(at=others[second][0].bounds.centre)
            found.append(Problem(where=others[second][1], says=message, accepts=said.separate_the_holes()))
    return found[:MAX_TOLD]


def _meet(outline: Contour, hole: Contour) -> bool:
    """Whether the lines of two contours come together; of what is left, a hole lies inside or outside."""
    box = hole.bounds
    near = [segment for segment in outline.segments if segment.bounds.gap(box) <= 0.0]
    if any(crossings(segment, other) for segment in near for other in hole.segments):
        return True
    return not outline.contains(hole.segments[0].start)
