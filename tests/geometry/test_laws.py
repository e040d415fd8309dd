"""Laws that hold for every contour, and random contours compared with shapely, which shares no code with this package.

shapely's own `buffer` of a polygon first leaves out corners nearer to a chord than a hundredth of the distance, which
is more than the 0.01 mm compared here. It is therefore asked for the buffer of every side on its own, where there is
nothing to leave out, and the sides are united: that is the definition of a parallel curve.
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from panelart.geometry import (
    CORNERS,
    ORIGIN,
    SIDES,
    Contour,
    Point,
    Transform,
    Vector,
    chamfered_rectangle,
    circle,
    d_hole,
    direction,
    double_d,
    gap,
    hexagon,
    keyed_circle,
    offset,
    overlaps,
    point_gap,
    polygon,
    rectangle,
    self_crossing,
    simple,
    slot,
    trapezoid,
)
from panelart.geometry.polygons import polygon as shapely_polygon
from tests.effort import examples

CHORDS = 1e-3
"""How far, in millimetres, the polygons compared here may stray from their contours."""


def sizes(minimum: float, maximum: float) -> st.SearchStrategy[float]:
    """Round and crooked sizes: round ones meet special cases, such as a neck exactly as wide as twice the distance."""
    steps = st.integers(math.ceil(minimum * 2), math.floor(maximum * 2)).map(lambda half: half / 2)
    return st.one_of(st.floats(minimum, maximum), steps)


@st.composite
def convex_contours(draw: st.DrawFn) -> Contour:
    kind = draw(st.sampled_from(["circle", "rectangle", "slot", "d", "double d", "trapezoid", "hexagon", "chamfered"]))
    w, h = draw(sizes(6, 60)), draw(sizes(6, 40))
    share = draw(st.floats(0.05, 0.95))
    match kind:
        case "circle":
            return circle(w)
        case "rectangle":
            return rectangle(w, h, corner=draw(st.sampled_from([0.0, 0.5, 3.0, share * min(w, h) / 2])))
        case "slot":
            return slot(w, h)
        case "d":
            return d_hole(w, w * share, draw(st.sampled_from(SIDES)))
        case "double d":
            return double_d(w, w * share, draw(st.sampled_from("xy")))
        case "trapezoid":
            return trapezoid(w + 10, h / 4, draw(sizes(0, 30)), draw(st.sampled_from([0.0, h / 48, h / 24])))
        case "hexagon":
            return hexagon(w, turned=draw(sizes(0, 60)))
        case _:
            return chamfered_rectangle(w, h, draw(sizes(0.5, 2.9)), CORNERS[: draw(st.integers(1, 4))], share)


@st.composite
def hollow_contours(draw: st.DrawFn) -> Contour:
    kind = draw(st.sampled_from(["L", "U", "H", "keyed", "star"]))
    w, h = draw(sizes(20, 60)), draw(sizes(20, 50))
    a, b = draw(sizes(2, 8)), draw(sizes(2, 8))
    rounded = draw(st.sampled_from([0.0, 0.25, 0.9]))
    match kind:
        case "L":
            corners = [(0, 0), (w, 0), (w, b), (a, b), (a, h), (0, h)]
        case "U":
            corners = [(0, 0), (w, 0), (w, h), (w - a, h), (w - a, b), (a, b), (a, h), (0, h)]
        case "H":
            low, high, end = h / 2 - a / 2, h / 2 + a / 2, w + b
            corners = [(0, 0), (w, 0), (w, low), (end, low), (end, 0), (end + w, 0)]
            corners += [(end + w, h), (end, h), (end, high), (w, high), (w, h), (0, h)]
        case "keyed":
            return keyed_circle(w, draw(st.floats(0.5, w / 2)), w * draw(st.floats(1.02, 1.3)))
        case _:
            count = draw(st.integers(3, 10))
            reaches = draw(st.lists(st.floats(8, 30), min_size=count, max_size=count))
            return polygon(
                [ORIGIN.moved(direction(360 * i / count).scaled(reach)) for i, reach in enumerate(reaches)],
                0.25 if rounded and count < 8 else 0.0,
            )
    return polygon([Point(*corner) for corner in corners], rounded)


MOTIONS = st.builds(
    lambda deg, x, y, mirrored: (
        Transform.turn(deg).then(Transform.mirror_x() if mirrored else Transform()).then(Transform.move(x, y))
    ),
    st.one_of(st.sampled_from([0.0, 90.0, 45.0]), st.floats(0, 360)),
    st.floats(-900, 900),
    st.floats(-900, 900),
    st.booleans(),
)


def placed(contours: st.SearchStrategy[Contour]) -> st.SearchStrategy[Contour]:
    return st.builds(lambda contour, motion: contour.transformed(motion), contours, MOTIONS)


CONVEX = placed(convex_contours())
CONTOURS = placed(st.one_of(convex_contours(), hollow_contours()))
NEARBY = st.builds(
    lambda contour, deg, x, y: contour.turned(deg).moved(
        Vector(x - contour.turned(deg).bounds.centre.x, y - contour.turned(deg).bounds.centre.y)
    ),
    st.one_of(convex_contours(), hollow_contours()),
    st.floats(0, 360),
    st.floats(-50, 50),
    st.floats(-50, 50),
)
DISTANCES = st.one_of(
    st.floats(-6, 6).filter(lambda d: abs(d) > 1e-3),
    st.sampled_from([-4.0, -3.0, -2.0, -1.5, -1.0, -0.5, -0.08, 0.08, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0]),
)
laws = settings(deadline=None, derandomize=True)


def region(contours: tuple[Contour, ...]) -> shapely.Geometry:
    """What the contours enclose: counter-clockwise ones with the clockwise holes taken out."""
    full = [shapely_polygon(contour, CHORDS, "middle") for contour in contours if contour.area > 0]
    holes = [shapely_polygon(contour, CHORDS, "middle") for contour in contours if contour.area < 0]
    return shapely.union_all(full).difference(shapely.union_all(holes))


def buffered(contour: Contour, d: float) -> shapely.Geometry:
    """The grown or shrunk contour by shapely, side by side."""
    exact = shapely_polygon(contour, CHORDS, "middle")
    ring = list(exact.exterior.coords)
    sides = [shapely.LineString(ends).buffer(abs(d), quad_segs=32) for ends in pairwise(ring)]
    band = shapely.union_all(sides)
    return exact.union(band) if d > 0 else exact.difference(band)


def broad(ground: shapely.Geometry) -> shapely.Geometry:
    """Ground without what is thinner than 0.008: there the chords of the comparison decide, not the curves."""
    return ground.buffer(-0.004).buffer(0.004)


def contour_box(contour: Contour) -> tuple[float, float, float, float]:
    box = contour.bounds
    return box.left, box.bottom, box.right, box.top


def area(contours: tuple[Contour, ...]) -> float:
    return math.fsum(contour.area for contour in contours)


@laws
@given(CONTOURS, st.floats(-900, 900))
def test_mirroring_twice_gives_the_contour_back(contour: Contour, about: float) -> None:
    back = contour.mirrored(about).mirrored(about)
    for here, there in zip(contour.segments, back.segments, strict=True):
        assert type(here) is type(there)
        assert here.start.distance(there.start) <= 1e-9
        assert here.point_at(0.5).distance(there.point_at(0.5)) <= 1e-9
    assert contour.mirrored(about).area == pytest.approx(-contour.area, rel=1e-9)


@laws
@given(CONTOURS, MOTIONS)
def test_a_rigid_motion_keeps_area_and_perimeter(contour: Contour, motion: Transform) -> None:
    moved = contour.transformed(motion)
    assert moved.area == pytest.approx(-contour.area if motion.mirrors else contour.area, rel=1e-9)
    assert moved.perimeter == pytest.approx(contour.perimeter, rel=1e-9)


@laws
@given(CONTOURS)
def test_running_the_other_way_changes_the_sign_of_the_area_only(contour: Contour) -> None:
    assert contour.reversed().area == pytest.approx(-contour.area, rel=1e-12)
    assert contour.reversed().perimeter == pytest.approx(contour.perimeter, rel=1e-12)
    assert contour.reversed().bounds.width == pytest.approx(contour.bounds.width, abs=1e-9)


@laws
@given(CONTOURS)
def test_area_perimeter_and_box_are_those_of_shapely(contour: Contour) -> None:
    exact = shapely_polygon(contour, 1e-5, "middle")
    assert abs(contour.area) == pytest.approx(exact.area, abs=2e-5 * contour.perimeter)
    assert contour.perimeter == pytest.approx(exact.length, abs=1e-2)
    assert contour_box(contour) == pytest.approx(exact.bounds, abs=2e-5)


@laws
@given(NEARBY, st.floats(-40, 40), st.floats(-40, 40))
def test_a_point_is_inside_when_shapely_says_so(contour: Contour, x: float, y: float) -> None:
    exact, here = shapely_polygon(contour, 1e-5, "middle"), shapely.Point(x, y)
    assume(exact.boundary.distance(here) > 1e-4)
    assert contour.contains(Point(x, y)) == exact.contains(here)


@settings(laws, max_examples=examples(250))
@given(CONTOURS, DISTANCES)
def test_round_offsets_are_those_of_shapely_to_a_hundredth_of_a_millimetre(contour: Contour, d: float) -> None:
    found, wanted = offset(contour, d, "round"), buffered(contour, d)
    ours = region(found)
    assert all(simple(piece) for piece in found)
    assert shapely.symmetric_difference(ours, wanted).buffer(-0.005).is_empty
    assert broad(ours).difference(wanted.buffer(0.01)).is_empty
    assert broad(wanted).difference(ours.buffer(0.01)).is_empty


@laws
@given(CONTOURS, DISTANCES)
def test_sharp_offsets_differ_from_round_ones_at_opening_corners_only(contour: Contour, d: float) -> None:
    sharp, rounded = offset(contour, d, "sharp"), offset(contour, d, "round")
    assert all(simple(piece) for piece in sharp)
    outer, inner = (region(sharp), region(rounded)) if d > 0 else (region(rounded), region(sharp))
    assert inner.difference(outer).buffer(-2 * CHORDS).is_empty
    # A mitre of MITRE_LIMIT 4 stands off its corner by no more than 4 d.
    corners = shapely.union_all([shapely.Point(segment.start).buffer(4.01 * abs(d)) for segment in contour.segments])
    assert outer.difference(inner).difference(corners).buffer(-2 * CHORDS).is_empty


@laws
@given(st.data(), st.sampled_from([0.1, 0.5, 0.9]))
def test_sharp_offsets_of_straight_sides_are_mitred_as_by_shapely(data: st.DataObject, d: float) -> None:
    contour = data.draw(
        st.one_of(
            st.builds(rectangle, sizes(6, 60), sizes(6, 40)),
            st.builds(hexagon, sizes(6, 40)),
            st.builds(trapezoid, sizes(30, 60), sizes(4, 10), sizes(0, 30)),
            st.builds(
                lambda w, h, a, b: polygon([Point(*xy) for xy in [(0, 0), (w, 0), (w, b), (a, b), (a, h), (0, h)]]),
                sizes(20, 60),
                sizes(20, 60),
                sizes(4, 8),
                sizes(4, 8),
            ),
        )
    )
    for by in (d, -d):
        wanted = shapely_polygon(contour).buffer(by, join_style="mitre", mitre_limit=4.0)
        assert area(offset(contour, by)) == pytest.approx(wanted.area, rel=1e-9)


# Steiner's formula: a convex shape of area A and perimeter P, grown by d with round corners, has the area
# A + P d + pi d^2 and the perimeter P + 2 pi d.
@laws
@given(CONVEX, st.floats(0.01, 8))
def test_a_grown_convex_shape_has_the_area_of_steiners_formula(contour: Contour, d: float) -> None:
    (grown,) = offset(contour, d, "round")
    expected = abs(contour.area) + contour.perimeter * d + math.pi * d**2
    assert grown.area == pytest.approx(expected, rel=1e-9)
    assert grown.perimeter == pytest.approx(contour.perimeter + 2 * math.pi * d, rel=1e-9)


@laws
@given(CONVEX, st.floats(0.01, 8), st.sampled_from(["sharp", "round"]))
def test_growing_and_shrinking_a_convex_shape_gives_it_back(contour: Contour, d: float, join: str) -> None:
    (grown,) = offset(contour, d, join)
    (back,) = offset(grown, -d, join)
    assert back.area == pytest.approx(abs(contour.area), rel=1e-7)
    assert back.perimeter == pytest.approx(contour.perimeter, rel=1e-6)
    assert len(back.segments) == len(contour.segments)


@laws
@given(CONTOURS, DISTANCES, DISTANCES)
def test_the_area_grows_with_the_distance(contour: Contour, first: float, second: float) -> None:
    less, more = sorted((first, second))
    assert area(offset(contour, less, "round")) <= area(offset(contour, more, "round")) + 1e-6


@laws
@given(CONTOURS, DISTANCES, st.floats(0, 1))
def test_every_point_of_a_round_offset_has_the_distance(contour: Contour, d: float, share: float) -> None:
    for found in offset(contour, d, "round"):
        point = found.point_at(share * found.perimeter)
        assert point_gap(point, contour).distance == pytest.approx(abs(d), abs=2e-6)
        assert contour.contains(point) == (d < 0)


@laws
@given(NEARBY, NEARBY)
def test_a_gap_is_the_same_from_either_side(first: Contour, second: Contour) -> None:
    here, there = gap(first, second), gap(second, first)
    assert here.distance == pytest.approx(there.distance, abs=1e-9)
    assert here.here.distance(here.there) == pytest.approx(here.distance, abs=1e-9)
    assert point_gap(here.here, first).distance <= 1e-8
    assert point_gap(here.there, second).distance <= 1e-8


@laws
@given(NEARBY, NEARBY, MOTIONS)
def test_moving_both_keeps_the_gap(first: Contour, second: Contour, motion: Transform) -> None:
    moved = gap(first.transformed(motion), second.transformed(motion))
    assert moved.distance == pytest.approx(gap(first, second).distance, abs=1e-8)


@settings(laws, max_examples=examples(200))
@given(NEARBY, NEARBY)
def test_gaps_and_overlaps_are_those_of_shapely(first: Contour, second: Contour) -> None:
    here, there = (shapely_polygon(contour, 1e-5, "middle") for contour in (first, second))
    assert gap(first, second).distance == pytest.approx(here.boundary.distance(there.boundary), abs=5e-5)
    shared = here.intersection(there).area
    assume(shared == 0 or shared > 1e-3)
    assert overlaps(first, second) == overlaps(second, first) == (shared > 0)


@laws
@given(CONTOURS)
def test_these_contours_do_not_cross_themselves(contour: Contour) -> None:
    assert self_crossing(contour) is None
    assert shapely_polygon(contour, 1e-3, "inside").is_valid
