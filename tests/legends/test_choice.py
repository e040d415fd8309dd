"""What the engine prefers, what it turns to when there is no room, and the designer's word."""

from __future__ import annotations

import pytest
import shapely

from panelart.geometry import Point, Vector, rectangle
from panelart.legends.candidates import wraps
from panelart.legends.obstacles import ground
from panelart.lettering.look import Align
from panelart.model.layout import Proof
from panelart.model.panel import Anchor, FrameForm, FrameRequest, FrameSide, Keepout, Place, Placing, Side
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text
from tests.legends.test_place import _fields, names
from tests.panels import HERE, SOCKET, TOGGLE, marking, panel, part, request
from tests.spec.samples import GOOD


def asked(text: str, **more):
    made = part("J1", SOCKET, (60, 50))
    return type(made)(**{**_fields(made), "legend": request(text, **more)})


def keepout(width: float, height: float, at: tuple[float, float]) -> Keepout:
    return Keepout(contour=rectangle(width, height, Point(*at)), side=Side.FRONT, why="badge", where=HERE)


def test_the_white_under_a_name_that_stands_over_a_position_is_even_in_a_row_of_unequal_switches() -> None:
    big = type(TOGGLE)(**{**_fields(TOGGLE), "front": (_fields(TOGGLE)["front"][0],)})
    row = [part("S1", TOGGLE, (40, 50), legend="GAIN", positions={"up": "HI", "down": "LO"}),
           part("S2", big, (80, 50), legend="LOAD", positions={"up": "ON", "down": "OFF"})]  # fmt: skip
    layout = lay_out(panel(*row))
    by_text = {legend.text: legend for legend in layout.legends}
    for name, position in (("GAIN", "HI"), ("LOAD", "ON")):
        white = by_text[name].baseline.y - (by_text[position].baseline.y + by_text[position].cap_height)
        assert white == pytest.approx(0.6 * 3.0, abs=0.01)
    assert by_text["HI"].baseline.y == pytest.approx(by_text["ON"].baseline.y, abs=0.01)


@pytest.mark.parametrize(("align", "edge"), [(Anchor.LEFT, 60 - 7.25), (Anchor.RIGHT, 60 + 7.25)])
def test_align_lines_the_end_of_the_words_up_with_the_part(align: Anchor, edge: float) -> None:
    name = names(lay_out(panel(asked("IN", place=Place.ABOVE, align=align))))["J1"]
    assert (name.box.left if align is Anchor.LEFT else name.box.right) == pytest.approx(edge, abs=0.01)


def test_offset_moves_the_words_from_where_they_would_stand() -> None:
    plain = names(lay_out(panel(asked("INPUT", place=Place.ABOVE))))["J1"]
    moved = names(lay_out(panel(asked("INPUT", place=Place.ABOVE, offset=Vector(2.0, 1.5)))))["J1"]
    assert moved.baseline.minus(plain.baseline) == pytest.approx((2.0, 1.5))


def test_an_offset_into_the_part_is_the_designers_word_and_the_checks_say_what_is_wrong() -> None:
    from panelart.checks import inspect

    layout = lay_out(panel(asked("INPUT", place=Place.ABOVE, offset=Vector(0.0, -6.0))))
    assert names(layout)["J1"]
    assert "legend-under-part" in {finding.rule for finding in inspect(layout).findings}


def test_an_exact_place_is_taken_and_the_others_keep_clear_of_it() -> None:
    pinned = asked("INPUT", at=Point(84.0, 58.0))
    other = part("J2", SOCKET, (84, 48), legend="OUTPUT")
    layout = lay_out(panel(pinned, other))
    by_ref = names(layout)
    assert by_ref["J1"].box.centre.x == pytest.approx(84.0, abs=0.01)
    assert by_ref["J1"].baseline.y == 58.0
    assert not by_ref["J2"].box.overlaps(by_ref["J1"].box)


@pytest.mark.parametrize("place", [Place.ABOVE_LEFT, Place.ABOVE_RIGHT, Place.BELOW_LEFT, Place.BELOW_RIGHT])
def test_a_corner_that_is_asked_for_is_taken_and_clear(place: Place) -> None:
    name = names(lay_out(panel(asked("IN", place=place))))["J1"]
    assert (name.box.centre.y > 50) == place.value.startswith("above")
    assert (name.box.centre.x < 60) == place.value.endswith("left")
    gap = shapely.Point(60, 50).distance(shapely.box(name.box.left, name.box.bottom, name.box.right, name.box.top))
    assert gap == pytest.approx(7.25 + 1.5, abs=0.1)


def test_a_name_that_fits_only_in_the_narrow_face_is_set_in_it_and_no_smaller() -> None:
    wide = names(lay_out(panel(asked("REFERENCE"))))["J1"].box.width
    walls = [keepout(3, 40, (60 - wide / 2 - 1.0, 62)), keepout(3, 40, (60 + wide / 2 + 1.0, 62)),
             keepout(80, 14, (60, 34))]  # fmt: skip
    name = names(lay_out(panel(asked("REFERENCE"), keepouts=tuple(walls))))["J1"]
    assert (name.font, name.cap_height) == ("plain-light-narrow", 3.0)


def test_a_name_that_fits_with_tighter_letters_keeps_its_face_and_size() -> None:
    wide = names(lay_out(panel(asked("REFERENCE"))))["J1"]
    walls = [keepout(3, 40, (60 - wide.box.width / 2 - 1.2, 62)), keepout(3, 40, (60 + wide.box.width / 2 + 1.2, 62)),
             keepout(80, 14, (60, 34))]  # fmt: skip
    # With the register error of 0.3 on both sides 1.2 mm are lacking; eight gaps give 0.06 of 3 mm each.
    name = names(lay_out(panel(asked("REFERENCE"), keepouts=tuple(walls))))["J1"]
    assert (name.font, name.cap_height) == ("plain-light", 3.0)
    assert name.box.width == pytest.approx(wide.box.width - 8 * 0.06 * 3.0, abs=0.01)


@pytest.mark.parametrize(
    ("text", "broken"),
    [
        ("CURRENT LIMIT", ["CURRENT LIMIT", "CURRENT\nLIMIT"]),
        ("BUS 48 V", ["BUS 48 V", "BUS\n48 V"]),  # a figure stays with its unit
        ("48 V", ["48 V"]),
        ("MIC / LINE", ["MIC / LINE", "MIC /\nLINE"]),  # no line begins with a sign that joins
        ("LOW PASS CUTOFF", ["LOW PASS CUTOFF", "LOW PASS\nCUTOFF", "LOW\nPASS\nCUTOFF"]),
        ("AS\nWRITTEN HERE", ["AS\nWRITTEN HERE"]),
    ],
)  # fmt: skip
def test_words_are_broken_where_it_makes_sense_and_narrowest(text: str, broken: list[str]) -> None:
    found = [setting.text for setting in wraps(request(text), marking(), Align.CENTRE)]
    assert set(found) <= set(broken)
    assert found[:2] == broken[:2]


def test_a_leader_is_drawn_where_nothing_else_is_left_and_it_touches_nothing() -> None:
    # Walls all round, with a slit on the left that is too low for words.
    ring = [keepout(34, 5, (60, 63)), keepout(34, 5, (60, 37)), keepout(5, 31, (74.5, 50)),
            keepout(5, 14, (45.5, 58.5)), keepout(5, 14, (45.5, 41.5))]  # fmt: skip
    layout = lay_out(panel(asked("SUPPLY"), keepouts=tuple(ring)))
    (leader,) = [mark for mark in layout.marks if mark.kind == "leader"]
    line = ground(leader)
    name = names(layout)["J1"]
    assert len(leader.shape[0].curves) <= 2
    socket = shapely.Point(60, 50).buffer(7.25, quad_segs=64)
    assert 0.3 < line.distance(socket) < 3.0
    assert line.distance(shapely.box(name.box.left, name.box.bottom, name.box.right, name.box.top)) > 0.3
    for wall in ring:
        box = wall.contour.bounds
        assert line.distance(shapely.box(box.left, box.bottom, box.right, box.top)) >= 0.3 - 1e-6


def test_weights_change_what_is_preferred() -> None:
    below = marking()
    below = type(below)(**{**_fields(below), "placing": Placing(above=20, below=0)})
    assert names(lay_out(panel(asked("INPUT"), marking=below)))["J1"].place is Place.BELOW


def offsets(layout, *refs: str) -> list[float]:
    by_ref = names(layout)
    at = layout.panel.by_ref
    return [by_ref[ref].box.centre.x - at[ref].at.x for ref in refs]


def weighed(**weights: int):
    made = marking()
    return type(made)(**{**_fields(made), "placing": Placing(**weights)})


OTHER_SOCKET = type(SOCKET)(**{**_fields(SOCKET), "name": "other-socket"})
"""The same hole and flange under another name: parts of one name are set alike whatever that costs."""

WIDE = "CURRENT IN"
ONE_LINE_ABOVE = {"right": 40, "left": 40, "below": 40, "wrap": 40}


def wall_at_the_left_of(name: str, x: float, y: float) -> Keepout:
    """A keep-out that reaches 1 mm under the left end of a centred name."""
    left = names(lay_out(panel(asked(name))))["J1"].box.left - 60
    return keepout(4, 12, (x + left - 1, y))


def test_names_in_a_row_are_spaced_as_their_parts_are() -> None:
    """The first must slide out of a keep-out's way. The second, of the same words, slides with it, unless uneven
    spacing costs nothing."""
    row = [part("J1", SOCKET, (60, 50), legend=WIDE), part("J2", OTHER_SOCKET, (110, 50), legend=WIDE)]
    walls = (wall_at_the_left_of(WIDE, 60, 60),)
    even = lay_out(panel(*row, keepouts=walls, marking=weighed(spacing=8, **ONE_LINE_ABOVE)))
    free = lay_out(panel(*row, keepouts=walls, marking=weighed(spacing=0, **ONE_LINE_ABOVE)))
    first, second = offsets(even, "J1", "J2")
    assert first > 0.5
    assert second == pytest.approx(first, abs=0.02)
    assert offsets(free, "J2") == [pytest.approx(0.0, abs=0.02)]


def test_names_in_a_column_share_an_edge_or_the_middle() -> None:
    """As in the row: the lower one takes the edge of the upper, unless that is worth nothing."""
    column = [part("J1", SOCKET, (60, 76), legend=WIDE), part("J2", OTHER_SOCKET, (60, 40), legend=WIDE)]
    walls = (wall_at_the_left_of(WIDE, 60, 86),)
    lined = lay_out(panel(*column, keepouts=walls, marking=weighed(other_line=8, **ONE_LINE_ABOVE)))
    free = lay_out(panel(*column, keepouts=walls, marking=weighed(other_line=0, **ONE_LINE_ABOVE)))
    first, second = offsets(lined, "J1", "J2")
    assert first > 0.5
    assert second == pytest.approx(first, abs=0.02)
    assert offsets(free, "J2") == [pytest.approx(0.0, abs=0.02)]


def test_names_in_a_frame_are_balanced_about_its_middle() -> None:
    """Both short names must slide, either way for the same cost: one goes out to the left and one to the right, and
    not both one way as they do when balance is worth nothing."""
    row = [part("J1", SOCKET, (60, 50), legend="I"), part("J2", OTHER_SOCKET, (170, 50), legend="I")]
    walls = (keepout(2, 6, (60, 61)), keepout(2, 6, (170, 61)))
    around = (FrameRequest(around=("J1", "J2"), title=None, where=HERE, margin=3.0),)
    even = lay_out(panel(*row, keepouts=walls, frames=around, marking=weighed(balance=5, **ONE_LINE_ABOVE)))
    free = lay_out(panel(*row, keepouts=walls, frames=around, marking=weighed(balance=0, **ONE_LINE_ABOVE)))
    one, other = offsets(even, "J1", "J2")
    assert abs(one) > 0.5
    assert one == pytest.approx(-other, abs=0.02)
    one, other = offsets(free, "J1", "J2")
    assert one == pytest.approx(other, abs=0.02)


@pytest.mark.parametrize(("apart", "place"), [(6.3, Place.RIGHT), (7.5, Place.ABOVE)])
def test_no_name_lies_between_two_parts_that_are_about_as_near(apart: float, place: Place) -> None:
    """Above it, the name would lie 1.5 mm off its own socket and 1.8 or 3 off the other; both go to one side."""
    pair = [part("J1", SOCKET, (60, 40), legend="IN"), part("J2", SOCKET, (60, 40 + 14.5 + apart), legend="OUT")]
    assert names(lay_out(panel(*pair)))["J1"].place is place


def test_weights_are_read_from_the_spec() -> None:
    text = GOOD.replace("  process: digital-print", "  process: digital-print\n  placing: {above: 5, clearance: 1}")
    placing = panel_from_text(text).marking.placing
    assert (placing.above, placing.below, placing.clearance) == (5, 8, 1.0)


def test_members_of_a_frame_have_their_names_on_one_side() -> None:
    """Two sockets in no common row; one can be named below only. Alone the other would be named above."""
    low, high = part("J1", SOCKET, (60, 50), legend="IN"), part("J2", SOCKET, (84, 47), legend="OUT")
    block = (keepout(60, 6, (84, 61)),)
    around = FrameRequest(around=("J1", "J2"), title=None, where=HERE, margin=3.0)
    alone = names(lay_out(panel(low, part("J2", SOCKET, (84, 47)), keepouts=(keepout(20, 6, (84, 61)),))))
    assert alone["J1"].place is Place.ABOVE
    both = names(lay_out(panel(low, high, keepouts=block, frames=(around,))))
    assert both["J1"].place is both["J2"].place


def test_a_frame_in_a_frame_lies_inside_it_with_its_title() -> None:
    row = [part(f"J{n}", SOCKET, (40 + 22 * n, 50), legend=f"IN {n}") for n in range(4)]
    inner = FrameRequest(around=("J0", "J1"), title=request("PAIR", "title"), where=HERE, margin=2.0)
    outer = FrameRequest(around=("J0", "J1", "J2", "J3"), title=request("ALL", "title"), where=HERE, margin=3.0)
    layout = lay_out(panel(*row, frames=(outer, inner)))
    big, small = layout.frames
    titles = {legend.text: legend for legend in layout.legends}
    assert big.box.contains(small.box)
    assert big.box.contains(titles["PAIR"].box)
    assert not layout.unplaced


@pytest.mark.parametrize("align", list(Anchor))
@pytest.mark.parametrize("side", list(FrameSide))
def test_the_title_stands_in_a_gap_of_the_line_on_its_side(align: Anchor, side: FrameSide) -> None:
    title = request("OUTPUTS", "title", align=align)
    frame = FrameRequest(around=("J1", "J2"), title=title, where=HERE, margin=3.0, side=side, corner=0.0)
    row = [part(f"J{n}", SOCKET, (40 + 30 * n, 50)) for n in (1, 2)]
    layout = lay_out(panel(*row, frames=(frame,)))
    (drawn,) = layout.frames
    (words,) = layout.legends
    line = drawn.box.top if side is FrameSide.TOP else drawn.box.bottom
    assert words.baseline.y + words.cap_height / 2 == pytest.approx(line)
    (mark,) = layout.marks
    assert ground(mark).distance(shapely.box(*_sides(words.box))) == pytest.approx(0.6 * words.cap_height, abs=0.16)
    # The line goes all round but for the gap: four sides less title and white.
    whole = 2 * (drawn.box.width + drawn.box.height)
    drawn_length = sum(curve.start.distance(curve.end) for curve in mark.shape[0].curves)
    assert drawn_length == pytest.approx(whole - words.box.width - 2 * 0.6 * words.cap_height, abs=1e-6)


def _sides(box):
    return box.left, box.bottom, box.right, box.top


def test_a_bracket_spans_its_members_beyond_their_names() -> None:
    row = [part(f"J{n}", SOCKET, (40 + 22 * n, 50), legend=f"CH {n}") for n in range(1, 5)]
    bracket = FrameRequest(
        around=("J1", "J2", "J3", "J4"), title=request("INPUTS", "title"), where=HERE, margin=2.0,
        form=FrameForm.BRACKET,
    )  # fmt: skip
    layout = lay_out(panel(*row, frames=(bracket,)))
    by_ref = names(layout)
    (line,) = layout.frames
    top = max(name.box.top for name in by_ref.values())
    assert line.box.top > top + 2.0
    assert line.box.left <= 62 - 7.25 + 1e-6
    assert line.box.right >= 128 + 7.25 - 1e-6
    assert not layout.unplaced


def test_the_result_says_that_it_is_optimal() -> None:
    assert lay_out(panel(part("J1", SOCKET, (60, 50), legend="INPUT"))).proof.words == "optimal"


def test_what_is_in_the_way_is_named() -> None:
    (missing,) = lay_out(panel(asked("VOLTAGE"), keepouts=(keepout(258, 106, (130, 55)),))).unplaced
    assert missing.blockers[0] == "keep-out (badge)"


@pytest.mark.parametrize(("cost", "bound", "told"), [(10_000, 1, "100 %"), (200, 199, "0.5 %"), (1000, 877, "12 %")])
def test_how_far_off_a_placement_may_be_is_told_without_powers_of_ten(cost: int, bound: int, told: str) -> None:
    """100 (cost - bound) / cost to two digits, by hand."""
    assert Proof(cost=cost, bound=bound).words == f"within {told} of the optimum"
