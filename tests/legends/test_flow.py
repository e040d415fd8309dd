"""Lines from part to part: level and upright, clear of everything, with arrows; and shapes of the designer's own."""

from __future__ import annotations

from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.geometry import Point, rectangle
from panelart.geometry.polygons import polygon
from panelart.legends.obstacles import ground
from panelart.model.panel import Arrow, FlowLine, FrameRequest, Keepout, Place, Side
from panelart.pipeline import lay_out
from tests.effort import examples
from tests.panels import HERE, SOCKET, WHITE, panel, part, request


def flow(start: str, end: str, **more) -> FlowLine:
    return FlowLine(start=start, end=end, where=HERE, ink=WHITE, **({"arrow": Arrow.END, "width": None} | more))


def line_of(layout, ref: str = "line 1"):
    (mark,) = [mark for mark in layout.marks if mark.ref == ref and mark.kind == "flow-line"]
    return mark


def bends(mark) -> int:
    return len(mark.shape[0].curves) - 1


def test_parts_level_with_each_other_are_joined_by_one_straight_line_with_its_head_at_the_end() -> None:
    layout = lay_out(panel(part("J1", SOCKET, (40, 50)), part("J2", SOCKET, (120, 50)), lines=(flow("J1", "J2"),)))
    line = line_of(layout)
    (piece,) = line.shape[0].curves
    assert piece.start.y == piece.end.y == 50
    (head,) = [mark for mark in layout.marks if mark.kind == "flow-arrow"]
    tip = max(curve.start.x for curve in head.shape[0].curves)
    # Flange of 7.25 mm, register 0.3, play 0.1, a hole of H13 (0.27), bare face 0.5 and the line's own white.
    assert 120 - 7.25 - tip == pytest.approx(0.3 + 0.1 + 0.27 / 2 + 0.5 + 1.2 + line.width / 2, abs=0.01)


def test_a_part_between_is_gone_round() -> None:
    row = [part("J1", SOCKET, (40, 50)), part("J3", SOCKET, (80, 50), legend="MID"), part("J2", SOCKET, (120, 50))]
    layout = lay_out(panel(*row, lines=(flow("J1", "J2"),)))
    line = line_of(layout)
    assert bends(line) == 2
    for name in layout.legends:
        assert ground(line).distance(shapely.box(name.box.left, name.box.bottom, name.box.right, name.box.top)) > 0.5


@pytest.mark.parametrize("leave", [Place.ABOVE, Place.BELOW, Place.LEFT, Place.RIGHT])
def test_the_sides_that_are_asked_for_are_taken(leave: Place) -> None:
    parts = (part("J1", SOCKET, (40, 50)), part("J2", SOCKET, (120, 70)))
    layout = lay_out(panel(*parts, lines=(flow("J1", "J2", leave=leave, enter=Place.BELOW),)))
    first = line_of(layout).shape[0].curves[0]
    way = first.end.minus(first.start).unit
    assert way == pytest.approx(
        {Place.ABOVE: (0, 1), Place.BELOW: (0, -1), Place.LEFT: (-1, 0), Place.RIGHT: (1, 0)}[leave]
    )


def test_lines_keep_apart() -> None:
    parts = [part("J1", SOCKET, (40, 70)), part("J2", SOCKET, (40, 30)), part("J3", SOCKET, (150, 70)),
             part("J4", SOCKET, (150, 30))]  # fmt: skip
    asked = (flow("J1", "J4"), flow("J2", "J3"), flow("J1", "J3"))
    layout = lay_out(panel(*parts, lines=asked))
    assert not layout.unplaced
    marks = [mark for mark in layout.marks if mark.kind == "flow-line"]
    for one, two in pairwise(marks):
        shared = ground(one).intersection(ground(two))
        assert shared.area < 1.0  # a crossing at most, never along each other


def test_a_line_without_a_way_is_named() -> None:
    wall = Keepout(contour=rectangle(4, 110, Point(80, 55)), side=Side.FRONT, why="rib", where=HERE)
    parts = (part("J1", SOCKET, (40, 50)), part("J2", SOCKET, (120, 50)))
    layout = lay_out(panel(*parts, keepouts=(wall,), lines=(flow("J1", "J2"),)))
    (missing,) = layout.unplaced
    assert (missing.style, missing.text) == ("line", "J1 to J2")


@settings(max_examples=examples(40), deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 5), st.integers(0, 2)), min_size=3, max_size=10, unique=True),
    st.integers(0, 1000),
)
def test_lines_touch_nothing(places, seed) -> None:
    parts = [part(f"J{n}", SOCKET, (25 + 40 * x, 20 + 34 * y)) for n, (x, y) in enumerate(places)]
    ends = [(seed % len(parts), (seed // 7) % len(parts)), (0, len(parts) - 1)]
    asked = tuple(flow(f"J{a}", f"J{b}") for a, b in ends if a != b)
    layout = lay_out(panel(*parts, lines=asked))
    solid = [polygon(envelope.contour) for envelope in layout.envelopes]
    for mark in layout.marks:
        assert all(ground(mark).distance(thing) > 0.3 + 0.5 for thing in solid)
        for curve in mark.shape[0].curves if mark.kind == "flow-line" else ():
            assert curve.start.x == pytest.approx(curve.end.x) or curve.start.y == pytest.approx(curve.end.y)


def test_a_line_does_not_take_the_way_of_one_that_needs_it_more() -> None:
    """J2 stands straight above J1, and J0 aside: whichever is written first, the straight line is the upper one's."""
    parts = [part("J0", SOCKET, (40, 88)), part("J1", SOCKET, (74, 20)), part("J2", SOCKET, (74, 88))]
    for asked in ((flow("J0", "J1"), flow("J2", "J1")), (flow("J2", "J1"), flow("J0", "J1"))):
        layout = lay_out(panel(*parts, lines=asked))
        assert not layout.unplaced
        by_line = {line.start: line_of(layout, f"line {number}") for number, line in enumerate(asked, start=1)}
        assert bends(by_line["J2"]) == 0
        assert bends(by_line["J0"]) == 1


@settings(max_examples=examples(15), deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 4), st.integers(0, 2)), min_size=4, max_size=7, unique=True),
    st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), min_size=2, max_size=5, unique=True),
    st.randoms(use_true_random=False),
)
def test_the_order_in_which_lines_are_written_does_not_matter(places, ends, shuffled) -> None:
    parts = [part(f"J{n}", SOCKET, (25 + 40 * x, 20 + 34 * y)) for n, (x, y) in enumerate(places)]
    asked = [flow(f"J{a}", f"J{b}") for a, b in ends if a != b and max(a, b) < len(parts)]
    again = list(asked)
    shuffled.shuffle(again)

    def shapes(lines):
        layout = lay_out(panel(*parts, lines=tuple(lines)))
        names = {f"line {n}": (line.start, line.end) for n, line in enumerate(lines, start=1)}
        return {(names[mark.ref], mark.kind): mark.shape for mark in layout.marks}

    assert shapes(asked) == shapes(again)


# --- branches, dots, arrows, frames


def kinds(layout, kind: str):
    return [mark for mark in layout.marks if mark.kind == kind]


def tree(**more):
    parts = [part("T1", SOCKET, (40, 55)), *(part(f"P{n}", SOCKET, (130, 25 + 30 * n)) for n in range(3))]
    return lay_out(panel(*parts, lines=(flow("T1", "P0", more_ends=("P1", "P2"), **more),)))


def test_a_line_branches_with_a_dot_at_each_meeting_and_an_arrow_at_each_end() -> None:
    layout = tree()
    assert not layout.unplaced
    ways = [shapely.LineString([mark.shape[0].curves[0].start, *(c.end for c in mark.shape[0].curves)])
            for mark in kinds(layout, "flow-line")]  # fmt: skip
    assert len(ways) == len(kinds(layout, "flow-arrow")) == 3
    # Against shapely: every end of a way that touches the inside of another one has a dot, and nothing else has.
    meetings = {
        (round(x, 3), round(y, 3))
        for number, way in enumerate(ways)
        for x, y in (way.coords[0], way.coords[-1])
        if any(other.distance(shapely.Point(x, y)) < 1e-6 for index, other in enumerate(ways) if index != number)
    }
    dots = {tuple(round(value, 3) for value in ground(mark).centroid.coords[0]) for mark in kinds(layout, "flow-dot")}
    assert dots == meetings
    assert dots


def test_lines_that_cross_have_no_dot() -> None:
    parts = [part("J1", SOCKET, (40, 55)), part("J2", SOCKET, (160, 55)), part("J3", SOCKET, (100, 90)),
             part("J4", SOCKET, (100, 20))]  # fmt: skip
    layout = lay_out(panel(*parts, lines=(flow("J1", "J2"), flow("J3", "J4"))))
    one, two = (ground(mark) for mark in kinds(layout, "flow-line"))
    assert one.intersects(two)
    assert not kinds(layout, "flow-dot")


@pytest.mark.parametrize("width", [0.3, 0.6, 1.2])
def test_arrows_and_dots_grow_with_the_line(width: float) -> None:
    layout = tree(width=width)
    arrow, dot = (ground(kinds(layout, kind)[0]) for kind in ("flow-arrow", "flow-dot"))
    left, bottom, right, top = arrow.bounds
    assert sorted((right - left, top - bottom)) == pytest.approx([3.75 * width, 5 * width])
    assert dot.area == pytest.approx(shapely.Point(0, 0).buffer(2 * width, quad_segs=64).area, rel=0.01)
    assert not arrow.intersects(dot)


def test_several_lines_join_into_one() -> None:
    parts = [part("T1", SOCKET, (160, 55)), *(part(f"P{n}", SOCKET, (60, 25 + 30 * n)) for n in range(3))]
    layout = lay_out(panel(*parts, lines=(flow("P0", "T1", more_starts=("P1", "P2")),)))
    assert not layout.unplaced
    (arrow,) = kinds(layout, "flow-arrow")
    assert ground(arrow).distance(shapely.Point(160, 55)) < 12
    assert len(kinds(layout, "flow-line")) == 3


def framed(**more):
    parts = [part("T1", SOCKET, (100, 90)), *(part(f"P{n}", SOCKET, (60 + 40 * n, 25)) for n in range(3))]
    refs = ("P0", "P1", "P2")
    asked = FrameRequest(around=refs, title=request("FEED PUMPS", "title"), where=HERE, margin=4.0, **more)
    line = flow("T1", "P0", more_ends=("P1", "P2"), leave=Place.BELOW, enter=Place.ABOVE)
    return lay_out(panel(*parts, lines=(line,), frames=(asked,)))


def test_a_title_makes_way_for_a_line() -> None:
    layout = framed()
    (title,) = [legend for legend in layout.legends if legend.style == "title"]
    words = shapely.box(title.box.left, title.box.bottom, title.box.right, title.box.top)
    assert min(ground(mark).distance(words) for mark in layout.marks if mark.kind.startswith("flow")) > 1.0
    # As near to the middle as the line lets it: it stands right beside it.
    assert abs(title.box.centre.x - 100) < title.box.width / 2 + 3.0


def test_no_line_runs_along_a_frame() -> None:
    layout = framed()
    (frame,) = kinds(layout, "frame")
    for mark in layout.marks:
        if mark.kind.startswith("flow"):
            shared = ground(mark).intersection(ground(frame))
            left, bottom, right, top = shared.bounds if not shared.is_empty else (0, 0, 0, 0)
            assert max(right - left, top - bottom) <= max(mark.width, frame.width) + 1e-6
