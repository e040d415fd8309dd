"""Lines, arcs, paths and contours, against closed formulas of plane geometry."""

from __future__ import annotations

import math

import pytest

from panelart.geometry import (
    ORIGIN,
    Arc,
    Box,
    Contour,
    Line,
    Path,
    Point,
    Transform,
    Vector,
    circle,
    d_hole,
    joined,
    keyed_circle,
    rectangle,
    slot,
)

HALF_DISC = Contour((Arc(ORIGIN, 5.0, 0.0, 180.0), Line(Point(-5.0, 0.0), Point(5.0, 0.0))))


def near(first: Point | Vector, second: Point | Vector, within: float = 1e-9) -> bool:
    return math.hypot(first.x - second.x, first.y - second.y) <= within


def test_a_line_by_share_of_its_length() -> None:
    line = Line(Point(1, 1), Point(4, 5))
    assert line.length == 5
    assert line.point_at(0.5) == Point(2.5, 3)
    assert line.tangent_at(0.2) == Vector(0.6, 0.8)
    assert line.bounds == Box(1, 1, 4, 5)
    assert line.bulge == 0
    assert line.reversed() == Line(Point(4, 5), Point(1, 1))
    assert line.part(0.2, 0.4).length == pytest.approx(1)
    assert line.share_of(Point(2.5, 3)) == 0.5
    assert line.share_of(Point(-9, -9)) == 0


def test_an_arc_by_share_of_its_sweep() -> None:
    arc = Arc(Point(10, 0), 2.0, 90.0, -90.0)
    assert (arc.start, arc.end) == (Point(10, 2), Point(12, 0))
    assert arc.length == pytest.approx(math.pi)
    assert near(arc.point_at(0.5), Point(10 + math.sqrt(2), math.sqrt(2)))
    assert arc.tangent_at(0) == Vector(1, 0)
    assert arc.tangent_at(1) == Vector(0, -1)
    assert arc.reversed() == Arc(Point(10, 0), 2.0, 0.0, 90.0)
    assert arc.share_of(Point(20, 10)) == pytest.approx(0.5)
    assert arc.share_of(Point(10, -5)) == 1
    assert arc.share_of(Point(5, 0.1)) == 0
    assert arc.part(0.5, 1.0).start == arc.point_at(0.5)


# Bulge as the DXF reference defines it: the tangent of a quarter of the included angle, negative when clockwise.
@pytest.mark.parametrize(
    ("sweep", "bulge"), [(180, 1), (-180, -1), (90, math.sqrt(2) - 1), (120, math.sqrt(3) / 3), (270, math.sqrt(2) + 1)]
)
def test_the_bulge_of_an_arc(sweep: float, bulge: float) -> None:
    assert Arc(ORIGIN, 3.0, 17.0, sweep).bulge == pytest.approx(bulge, rel=1e-12)


def test_a_full_circle_has_no_bulge() -> None:
    with pytest.raises(ValueError, match="no bulge"):
        _ = Arc(ORIGIN, 1.0, 0.0, 360.0).bulge


@pytest.mark.parametrize(
    ("start", "sweep", "bounds"),
    [
        (0, 360, Box(-1, -1, 1, 1)),
        (17, -360, Box(-1, -1, 1, 1)),
        (45, 90, Box(-math.sqrt(0.5), math.sqrt(0.5), math.sqrt(0.5), 1)),
        (135, -90, Box(-math.sqrt(0.5), math.sqrt(0.5), math.sqrt(0.5), 1)),
        (-45, 90, Box(math.sqrt(0.5), -math.sqrt(0.5), 1, math.sqrt(0.5))),
        (0, 90, Box(0, 0, 1, 1)),
        (300, 120, Box(0.5, -math.sqrt(0.75), 1, math.sqrt(0.75))),
        (30, 30, Box(0.5, 0.5, math.sqrt(0.75), math.sqrt(0.75))),
    ],
)
def test_the_exact_box_of_an_arc(start: float, sweep: float, bounds: Box) -> None:
    found = Arc(ORIGIN, 1.0, start, sweep).bounds
    for side in ("left", "bottom", "right", "top"):
        assert getattr(found, side) == pytest.approx(getattr(bounds, side), abs=1e-12)


@pytest.mark.parametrize(
    ("radius", "start", "sweep"),
    [(0, 0, 90), (-1, 0, 90), (1, 0, 0), (1, 0, 361), (math.nan, 0, 90), (1, math.inf, 90), (1, 0, math.nan)],
)
def test_an_arc_that_does_not_exist_is_refused(radius: float, start: float, sweep: float) -> None:
    with pytest.raises(ValueError, match="arc"):
        Arc(ORIGIN, radius, start, sweep)


def test_area_and_perimeter_of_half_a_disc() -> None:
    assert HALF_DISC.area == pytest.approx(25 * math.pi / 2, rel=1e-14)
    assert HALF_DISC.perimeter == pytest.approx(5 * math.pi + 10, rel=1e-14)
    assert HALF_DISC.reversed().area == pytest.approx(-25 * math.pi / 2, rel=1e-14)
    assert HALF_DISC.reversed().ccw().area == HALF_DISC.area


def test_a_hollow_arc_takes_area_away() -> None:
    bitten = joined(
        [
            Line(Point(0, 0), Point(10, 0)),
            Line(Point(10, 0), Point(10, 10)),
            Line(Point(10, 10), Point(7, 10)),
            Arc(Point(5, 10), 2.0, 0.0, -180.0),
            Line(Point(3, 10), Point(0, 10)),
            Line(Point(0, 10), Point(0, 0)),
        ]
    )
    assert bitten.area == pytest.approx(100 - 2 * math.pi, rel=1e-14)
    assert not bitten.contains(Point(5, 9))
    assert bitten.contains(Point(5, 7.999))


def test_far_from_the_origin_no_digits_of_the_area_are_lost() -> None:
    assert circle(1.0, Point(1000, -1000)).area == pytest.approx(math.pi / 4, rel=1e-12)


def test_the_segments_must_meet() -> None:
    corners = [Point(0, 0), Point(10, 0), Point(10, 10)]
    sides = [Line(corners[0], corners[1]), Line(corners[1], corners[2])]
    with pytest.raises(ValueError, match=r"ends at \[10, 10\], the next starts at \[0, 0\]"):
        Contour(tuple(sides))
    assert Path(tuple(sides)).length == 20
    Contour((*sides, Line(Point(10, 10 + 9e-10), Point(0, 0))))
    with pytest.raises(ValueError, match="not connected"):
        Contour((*sides, Line(Point(10, 10 + 2e-9), Point(0, 0))))


@pytest.mark.parametrize("segments", [(), (Line(ORIGIN, ORIGIN),), (Line(ORIGIN, Point(math.nan, 0)),)])
def test_a_chain_of_nothing_is_refused(segments: tuple[Line, ...]) -> None:
    with pytest.raises(ValueError, match="contour"):
        Contour(segments)
    with pytest.raises(ValueError, match="path"):
        Path(segments)


def test_a_path_is_open() -> None:
    path = Path((Line(Point(0, 0), Point(3, 0)), Arc(Point(3, 2), 2.0, -90.0, 90.0)))
    assert (path.start, path.end) == (Point(0, 0), Point(5, 2))
    assert path.length == pytest.approx(3 + math.pi)
    assert path.bounds == Box(0, 0, 5, 2)
    assert path.point_at(1) == Point(1, 0)
    assert path.point_at(99) == Point(5, 2)
    assert path.reversed().start == path.end
    assert path.moved(Vector(1, 1)).bounds == Box(1, 1, 6, 3)
    assert path.transformed(Transform.mirror_x()).end == Point(-5, 2)


def test_a_point_along_the_contour() -> None:
    contour = rectangle(10, 4, corner=1)
    start = contour.segments[0].start
    assert near(contour.point_at(0), start)
    assert near(contour.point_at(contour.perimeter), start)
    assert near(contour.point_at(contour.perimeter * 2.25), contour.point_at(contour.perimeter / 4), 1e-9)
    assert near(contour.point_at(contour.segments[0].length), contour.segments[0].end)


def test_mirrored_arcs_stay_arcs_and_run_the_other_way() -> None:
    mirrored = keyed_circle(22.3, 3.2, 24.1, "left").mirrored(10)
    arc = mirrored.segments[0]
    assert isinstance(arc, Arc)
    assert (arc.centre, arc.radius) == (Point(20, 0), 11.15)
    assert arc.sweep_deg < 0
    assert mirrored.area < 0
    assert mirrored.bounds.right == pytest.approx(20 + 24.1 - 11.15)


def test_a_circle_is_known_as_one() -> None:
    assert circle(22.3, Point(3, 4)).circle == (Point(3, 4), 11.15)
    assert circle(22.3).mirrored(5).circle == (Point(10, 0), 11.15)
    halves = Contour((Arc(ORIGIN, 2.0, 0.0, 180.0), Arc(ORIGIN, 2.0, 180.0, 180.0)))
    assert halves.circle == (ORIGIN, 2.0)
    assert HALF_DISC.circle is None
    assert rectangle(3, 3).circle is None
    assert slot(10, 4).circle is None


def test_pieces_that_belong_together_are_joined() -> None:
    quarters = [Arc(ORIGIN, 2.0, 90.0 * quarter, 90.0) for quarter in range(4)]
    whole = joined(quarters)
    assert len(whole.segments) == 1
    assert whole.circle == (ORIGIN, 2.0)
    corners = [Point(0, 0), Point(5, 0), Point(10, 0), Point(10, 10), Point(0, 10), Point(0, 3)]
    square = joined(Line(first, second) for first, second in zip(corners, corners[1:] + corners[:1], strict=True))
    assert len(square.segments) == 4
    assert square.area == 100


@pytest.mark.parametrize(
    ("point", "inside"),
    [
        (Point(0, 0), True),
        (Point(4.849, 0), True),
        (Point(4.851, 0), False),
        (Point(0, -4.05), True),  # on the flat
        (Point(0, -4.0501), False),
        (Point(0, 4.85), True),  # at the top of the arc
        (Point(0, 4.8501), False),
        (Point(-4.85, 0), True),
        (Point(3.5, -3.5), False),  # in the box, out of the circle
    ],
)
def test_points_in_and_out_of_a_hole_with_a_flat(point: Point, *, inside: bool) -> None:
    contour = d_hole(9.7, 8.9)
    assert contour.contains(point) == inside
    assert contour.reversed().contains(point) == inside


@pytest.mark.parametrize("start", range(0, 360, 15))
def test_a_circle_holds_its_middle_wherever_it_starts(start: float) -> None:
    contour = Contour((Arc(Point(1, 1), 2.0, start, 360.0),))
    assert contour.contains(Point(1, 1))
    assert contour.contains(Point(2.9, 1))
    assert not contour.contains(Point(2.5, 2.5))
    assert not contour.contains(Point(-1.5, 1))


def test_a_ray_through_corners_counts_them_once() -> None:
    diamond = rectangle(10, 10).turned(45)
    assert diamond.contains(Point(-1, 0))
    assert not diamond.contains(Point(-8, 0))
    assert not diamond.contains(Point(-1, math.sqrt(50)))
