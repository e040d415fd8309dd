"""Stroke and gap widths against shapes of known width and against erosion by shapely, another method.

A stroke of width w is gone after an erosion by more than w/2, and a gap after a dilation by as much: the open strokes
of a shape of one pen vanish together, so that bisection over the erosion gives the pen. Faces that are kept are
measured in `test_medial.py`.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.geometry import Arc, Line, Point
from panelart.lettering.fonts import open_font
from panelart.lettering.look import Look, Plate
from panelart.lettering.measures import gap_between, heights, smallest_cap_height, widths
from panelart.lettering.medial import ink
from panelart.lettering.medial import measured as shape_widths
from panelart.lettering.outline import Loop
from panelart.lettering.setting import set_words
from panelart.lettering.spans import Manner, Span
from tests.effort import examples
from tests.lettering.test_shaping import dejavu  # noqa: F401  # a fixture

ERROR = 0.002
"""Of the cap height: what the module states."""


def as_shape(ground) -> tuple[Loop, ...]:
    loops = []
    for piece in shapely.get_parts(ground):
        for ring in (piece.exterior, *piece.interiors):
            points = [Point(*each) for each in shapely.get_coordinates(ring)]
            loops.append(Loop(tuple(Line(a, b) for a, b in pairwise(points))))
    return tuple(loops)


def pen(*lines, width: float, cap: str = "round"):
    return shapely.union_all([
        shapely.LineString(line).buffer(width / 2, cap_style=cap, quad_segs=48) for line in lines
    ])  # fmt: skip


def erased_at(ground) -> float:
    """The width at which the last ink goes: for a shape of one pen, that of the pen. (Bisection over erosion.)"""
    low, high = 0.0, 2.0
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (low, middle) if ground.buffer(-middle / 2).is_empty else (middle, high)
    return low


@settings(max_examples=examples(40), deadline=None)
@given(
    st.lists(st.tuples(st.floats(-0.5, 0.5), st.floats(-0.5, 0.5)), min_size=3, max_size=3, unique=True),
    st.floats(0.05, 0.2),
    st.sampled_from(["round", "flat"]),
)
def test_a_bent_stroke_of_one_pen_is_as_wide_as_the_pen(points, width: float, cap: str) -> None:
    a, b, c = (np.array(point) for point in points)
    if min(np.linalg.norm(a - b), np.linalg.norm(b - c)) < 4 * width:
        return
    turn = np.dot(a - b, c - b) / (np.linalg.norm(a - b) * np.linalg.norm(c - b))
    if turn > math.cos(math.radians(35)):
        return  # strokes that run together are as wide as both
    ground = pen(points, width=width, cap=cap)
    assert shape_widths(as_shape(ground)).stroke == pytest.approx(width, abs=ERROR)


@pytest.mark.parametrize("width", [0.05, 0.1, 0.17])
@pytest.mark.parametrize("gap", [0.04, 0.15, 0.3])
def test_two_bars_have_the_gap_between_them(width: float, gap: float) -> None:
    h = pen([(0, 0), (0, 1)], [(gap + width, 0), (gap + width, 1)], [(0, 0.5), (gap + width, 0.5)], width=width)
    found = shape_widths(as_shape(h))
    assert found.stroke == pytest.approx(width, abs=ERROR)
    assert found.gap == pytest.approx(gap, abs=ERROR)


@pytest.mark.parametrize("opening", [0.06, 0.2])
def test_the_mouth_of_a_c_is_a_gap(opening: float) -> None:
    """A ring of radius 0.4 and pen 0.1, open so that its round ends leave the mouth.

    At 0.04 to either side of their nearest points, 0.8 of the pen apart, the round ends are farther back by what the
    circle falls off there.
    """
    half = math.degrees(math.asin((opening + 0.1) / 0.8))
    angles = np.radians(np.linspace(half, 360 - half, 400))
    c = pen([(0.4 * math.cos(t), 0.4 * math.sin(t)) for t in angles], width=0.1)
    back = 0.05 - math.sqrt(0.05**2 - 0.04**2)
    assert opening - ERROR <= shape_widths(as_shape(c)).gap <= opening + 2 * back + ERROR


@pytest.mark.parametrize("angle", [6, 15, 40])
def test_strokes_that_run_together_leave_no_narrow_gap(angle: float) -> None:
    reach = math.radians(angle)
    v = pen([(0, 0), (1, 0)], [(0, 0), (math.cos(reach), math.sin(reach))], width=0.08)
    found = shape_widths(as_shape(v))
    assert found.gap == math.inf
    assert found.stroke == pytest.approx(0.08, abs=ERROR)


def test_a_taper_ends_and_is_not_thin() -> None:
    wedge = shapely.Polygon([(0, -0.1), (1, 0), (0, 0.1)])
    assert shape_widths(as_shape(wedge)).stroke > 0.1


@pytest.mark.parametrize(("long", "stroke"), [(0.05, 0.2), (0.15, 0.2), (0.25, 0.06), (0.6, 0.06)])
def test_a_neck_counts_where_it_is_as_long_as_the_pen_is_wide(long: float, stroke: float) -> None:
    """Two bars of 0.2 with a neck of 0.06 between them: what is shorter than the pen of 0.2 is held by both."""
    bars = (shapely.box(-1.5, -0.1, -long / 2, 0.1), shapely.box(long / 2, -0.1, 1.5, 0.1))
    dumbbell = shapely.union_all([*bars, shapely.box(-long, -0.03, long, 0.03)])
    assert shape_widths(as_shape(dumbbell)).stroke == pytest.approx(stroke, abs=ERROR)


def test_an_arch_that_leaves_its_stem_by_a_notch_is_as_thick_as_its_pen() -> None:
    """A stem and an arch of one pen, cut at the joint by a wedge that leaves half of the arch there."""
    angles = np.radians(np.linspace(0, 180, 200))
    arch = [(0.3 + 0.3 * math.cos(t), 0.5 + 0.3 * math.sin(t)) for t in angles]
    whole = pen([(0, 0), (0, 0.8)], [(0.6, 0), *arch], width=0.12, cap="flat")
    notch = shapely.Polygon([(0.06, 0.2), (0.06, 0.69), (0.13, 0.2)])
    assert shape_widths(as_shape(whole.difference(notch))).stroke == pytest.approx(0.12, abs=0.006)


def test_dots_and_counters_are_as_wide_as_the_disc_in_them() -> None:
    dot = Loop((Arc(Point(0, 0), 0.08, 0, 360),))
    assert shape_widths((dot,)).stroke == pytest.approx(0.16, abs=ERROR)
    ring = (Loop((Arc(Point(0, 0), 0.2, 0, 360),)), Loop((Arc(Point(0, 0), 0.06, 360, -360),)))
    assert shape_widths(ring).gap == pytest.approx(0.12, abs=ERROR)


@pytest.mark.parametrize("loops", ["as drawn", "turned about"])
@pytest.mark.parametrize("gap", [0.06, 0.12])
def test_what_stands_within_a_frame_is_ink_with_a_gap_around_it(gap: float, loops: str) -> None:
    """A square of pen 0.1 round a bar: the bar is ink again, whichever way the loops run."""
    frame = shapely.box(0, 0, 1, 1).difference(shapely.box(0.1, 0.1, 0.9, 0.9))
    bar = shapely.box(0.1 + gap, 0.3, 0.1 + gap + 0.08, 0.7)
    shape = as_shape(shapely.union(frame, bar))
    if loops == "turned about":
        shape = tuple(Loop(tuple(line.reversed() for line in reversed(loop.curves))) for loop in shape)
    assert shapely.area(ink(shape, 0.001)) == pytest.approx(frame.area + bar.area)
    found = shape_widths(shape)
    assert found.gap == pytest.approx(gap, abs=ERROR)
    assert found.stroke == pytest.approx(0.08, abs=ERROR)


def test_loops_that_overlap_are_one_ground() -> None:
    """Two bars that cross, as the loops of a variable font may: the ground is their union."""
    cross = (*as_shape(shapely.box(0.45, 0, 0.55, 1)), *as_shape(shapely.box(0, 0.45, 1, 0.55)))
    assert shapely.area(ink(cross, 0.001)) == pytest.approx(0.19)
    assert shape_widths(cross).stroke == pytest.approx(0.1, abs=ERROR)


@pytest.mark.parametrize(
    ("font", "share"),
    [("plain-light", 1 / 10), ("plain-medium", 1 / 7.5), ("plain-bold", 1 / 6), ("plain-light-narrow", 1 / 10)],
)
@pytest.mark.parametrize("text", ["H", "O", "S", "8", "K", "W", "e", "g"])
def test_our_own_strokes_are_as_wide_as_their_pen(font: str, share: float, text: str) -> None:
    """The pen is written down in the skeleton; the built outline strays from it by a thousandth."""
    setting = set_words(text, font, 10.0)
    assert widths(setting).stroke == pytest.approx(10 * share, abs=10 * ERROR)
    assert erased_at(ink(setting.shape, 0.005)) >= widths(setting).stroke - 10 * ERROR


@pytest.mark.parametrize("pair", ["HH", "NI", "OO", "AV", "RA", "rn", "ry", "LT", "kH"])
def test_letters_are_as_near_as_the_gap_along_two_pens_of_their_edges(pair: str) -> None:
    """shapely: the length of either edge within the other letter grown by the gap, by buffer and intersection."""
    setting = set_words(pair, "plain-light", 1.0)
    gap = gap_between(setting)
    one, other = shapely.get_parts(ink(setting.shape, 0.0001))
    assert gap >= shapely.distance(one, other) - 0.0001

    def along(within: float) -> float:
        parts = ((one, other), (other, one))
        return math.fsum(a.exterior.intersection(b.buffer(within, quad_segs=64)).length for a, b in parts)

    points = 0.02 * 2  # of either edge, the distance of the points
    assert along(gap - 0.001) <= 2 * 0.2 + points
    assert along(gap + 0.001) >= 2 * 0.2 - points


@pytest.mark.parametrize(("distance", "height"), [(0.1, 1.0), (0.04, 0.3)])
def test_stems_side_by_side_have_the_gap_between_them(distance: float, height: float) -> None:
    """Two I moved together by tracking; a gap along the whole of two edges is what it is anywhere on them."""
    plain = set_words("II", "plain-light", height)
    apart = gap_between(plain) / height
    assert apart == pytest.approx(plain.letters[1].x / height - 0.1, abs=ERROR)
    closer = set_words("II", "plain-light", height, look=Look(tracking=distance - apart))
    assert gap_between(closer) == pytest.approx(distance * height, abs=0.001 * height)


def test_dots_side_by_side_have_the_gap_between_them() -> None:
    """Dots of less than two pens' edge: it is measured over a quarter of the edge that each has."""
    setting = set_words("..", "plain-light", 1.0)
    one, other = shapely.get_parts(ink(setting.shape, 0.0001))
    nearest = shapely.distance(one, other)
    assert nearest - ERROR <= gap_between(setting) <= nearest + 2 * (one.bounds[2] - one.bounds[0]) / 2


def test_a_bar_over_letters_has_its_own_width_and_distance() -> None:
    setting = set_words("RESET", "plain-light", 10.0, spans=(Span(0, 5, Manner.BAR),))
    found = widths(setting)
    assert found.stroke == pytest.approx(1.0, abs=0.02)
    assert found.gap == pytest.approx(min(widths(set_words("RESET", "plain-light", 10.0)).gap, 1.5), abs=0.02)
    turned = widths(setting.bent(60.0, 90.0))
    assert turned.stroke == pytest.approx(found.stroke, abs=0.02)


def test_widths_grow_with_the_letters_and_shrink_in_superscripts() -> None:
    small, large = (widths(set_words("HAB", "plain-light", size)) for size in (2.0, 6.0))
    assert large.stroke == pytest.approx(3 * small.stroke)
    assert large.gap == pytest.approx(3 * small.gap)
    raised = widths(set_words("xa", "plain-light", 2.0, spans=(Span(1, 2, Manner.SUPER),)))
    # Made smaller, and from the next bolder cut, so that it is as heavy as the figure below.
    assert raised.stroke == pytest.approx(0.7 * 2 / 7.5, abs=0.005)
    figures = widths(set_words("x2", "plain-light", 2.0, spans=(Span(1, 2, Manner.SUPER),)))
    assert figures.stroke == pytest.approx(0.85 * 0.2, abs=0.005)  # drawn for it, with a pen a little finer


def test_the_smallest_cap_height_keeps_both_widths_just() -> None:
    setting = set_words("OUTPUT 8", "plain-light", 2.0)
    minimum = smallest_cap_height(setting, stroke_minimum=0.25, gap_minimum=0.3)
    found = widths(set_words("OUTPUT 8", "plain-light", minimum))
    assert min(found.stroke / 0.25, found.gap / 0.3) == pytest.approx(1.0)


def test_a_field_does_not_change_what_its_words_measure() -> None:
    look = Look(plate=Plate(radius=1, padding=1))
    assert widths(set_words("OUT", "plain-light", 3.0, look=look)) == widths(set_words("OUT", "plain-light", 3.0))


def test_heights_of_our_own_letters_are_those_of_type_b() -> None:
    """DIN EN ISO 3098-0:1998-04, type B: lower case 7/10, stem above and tail below 3/10 of h."""
    found = heights(open_font("plain-light"))
    assert (found.figures, found.small) == pytest.approx((1.0, 0.7), abs=0.01)
    assert (found.ascender, found.descender) == pytest.approx((1.0, 0.3), abs=0.01)


@pytest.mark.parametrize("letter", ["H", "E", "L", "T"])
def test_strokes_of_another_font_are_those_of_its_points(letter: str, request: pytest.FixtureRequest) -> None:
    """The corners of a square-cut letter, read by fontTools: the least step between neighbouring edges is a stroke."""
    from fontTools.ttLib import TTFont

    file = request.getfixturevalue("dejavu")
    font = TTFont(file)
    glyf = font["glyf"]
    points = glyf[font.getBestCmap()[ord(letter)]].getCoordinates(glyf)[0]
    capitals = glyf[font.getBestCmap()[ord("H")]].yMax
    edges = [sorted({point[axis] for point in points}) for axis in (0, 1)]
    steps = [after - before for each in edges for before, after in pairwise(each) if after - before > 100]
    assert widths(set_words(letter, file, 1.0)).stroke == pytest.approx(min(steps) / capitals, abs=ERROR)
