"""Parts against parts, keep-outs and edges. Every number can be added up on paper: plane geometry."""

from __future__ import annotations

import pytest

from panelart.messages import checks_things as things
from panelart.model.panel import Side
from tests.checks.builders import block, disc, front, keepout, knob, layout, legend, opening, rear
from tests.checks.cases import JUST, found, measured, refs


@pytest.mark.parametrize(
    ("apart", "overlap"), [(23.0, [1.0]), (24.0 - JUST, [JUST]), (24.0, []), (24.0 + JUST, []), (60.0, [])]
)
def test_round_parts_collide_by_what_their_radii_overlap(apart, overlap):
    panel = layout(knob("RV1", 50, 50, 24), knob("RV2", 50 + apart, 50, 24))
    assert measured("parts-collide", panel) == pytest.approx(overlap, abs=1e-9)


@pytest.mark.parametrize(("apart", "overlap"), [(19.0, [1.0]), (20.0 - JUST, [JUST]), (20.0, [])])
def test_square_parts_collide_along_the_nearer_side(apart, overlap):
    panel = layout(front("S1", block(50, 50, 20, 20)), front("S2", block(50 + apart, 55, 20, 20)))
    assert measured("parts-collide", panel) == pytest.approx(overlap, abs=1e-9)


def test_round_parts_beside_corners_do_not_collide_though_their_boxes_overlap():
    # The corner (10, 10) is 14.14 mm from (20, 20), more than the radius of 14.
    panel = layout(front("S1", block(0, 0, 20, 20)), knob("RV1", 20, 20, 28))
    assert found("parts-collide", panel) == []


def test_a_part_never_collides_with_itself():
    panel = layout(knob("RV1", 50, 50, 24), front("RV1", disc(50, 50, 14), "nut"))
    assert found("parts-collide", panel) == []


def test_one_finding_for_two_parts_with_several_envelopes_and_it_is_the_deepest():
    panel = layout(
        knob("RV1", 50, 50, 24),
        front("RV1", disc(50, 50, 22), "nut"),
        knob("RV2", 71, 50, 24),
        front("RV2", disc(71, 50, 22), "nut"),
    )
    (finding,) = found("parts-collide", panel)
    assert finding.measured == pytest.approx(3.0)
    assert finding.refs == ("RV1", "RV2")
    assert (finding.subject, finding.other) == tuple(things.piece(ref=ref, what="knob") for ref in ("RV1", "RV2"))


def test_a_levers_travel_collides_with_the_next_part_though_it_hides_nothing():
    panel = layout(front("S1", block(50, 50, 6, 30), "lever travel", covers=False), front("S2", block(50, 68, 10, 10)))
    assert measured("parts-collide", panel) == pytest.approx([2.0])


def test_the_place_of_a_collision_is_what_the_two_share():
    panel = layout(front("S1", block(50, 50, 20, 20)), front("S2", block(69, 50, 20, 20)))
    (finding,) = found("parts-collide", panel)
    assert (finding.place.left, finding.place.right) == pytest.approx((59.0, 60.0))


@pytest.mark.parametrize(("apart", "overlap"), [(19.0, [1.0]), (20.0 - JUST, [JUST]), (20.0, [])])
def test_bodies_collide_behind(apart, overlap):
    panel = layout(rear("J1", block(50, 50, 20, 20)), rear("J2", block(50 + apart, 50, 20, 20)))
    assert measured("parts-collide-behind", panel) == pytest.approx(overlap, abs=1e-9)
    assert found("parts-collide", panel) == []


def test_a_body_behind_does_not_meet_a_bezel_in_front():
    panel = layout(rear("J1", block(50, 50, 20, 20)), front("J2", block(55, 50, 20, 20)))
    assert found("parts-collide", panel) == found("parts-collide-behind", panel) == []


@pytest.mark.parametrize(("x", "overlap"), [(60.0, [2.0]), (62.0 - JUST, [JUST]), (62.0, [])])
def test_an_opening_lies_under_another_part(x, overlap):
    panel = layout(front("M1", block(50, 50, 20, 20)), opening("H1", disc(x, 50, 4)))
    assert measured("opening-under-part", panel) == pytest.approx(overlap, abs=1e-9)


def test_an_opening_lies_under_its_own_part_as_it_should():
    panel = layout(front("M1", block(50, 50, 20, 20)), opening("M1", disc(50, 50, 12)))
    assert found("opening-under-part", panel) == []


def test_an_opening_under_a_part_that_collides_anyway_is_not_told_again():
    panel = layout(
        front("M1", block(50, 50, 20, 20)), front("S1", disc(60, 50, 14), "nut"), opening("S1", disc(60, 50, 12))
    )
    assert refs("parts-collide", panel) == [("M1", "S1")]
    assert found("opening-under-part", panel) == []


def test_a_lever_swings_over_an_opening_without_hiding_it():
    panel = layout(front("S1", block(50, 50, 6, 30), "lever travel", covers=False), opening("H1", disc(50, 64, 3)))
    assert found("opening-under-part", panel) == []


@pytest.mark.parametrize(("x", "beyond"), [(11.0, [1.0]), (12.0 - JUST, [JUST]), (12.0, []), (100.0, [])])
def test_a_part_reaches_over_the_edge(x, beyond):
    assert measured("part-over-edge", layout(knob("RV1", x, 50, 24))) == pytest.approx(beyond, abs=1e-9)


def test_a_part_outside_the_panel_is_told_by_how_far_it_must_come_in():
    assert measured("part-over-edge", layout(knob("RV1", -20, 50, 24))) == pytest.approx([32.0])


def test_a_part_reaches_over_a_rounded_corner_that_a_square_corner_would_hold():
    rounded = block(100, 50, 200, 100, corner=10)
    held = front("S1", block(5, 5, 8, 8))
    assert found("part-over-edge", layout(held)) == []
    # From the middle (10, 10) of the corner to the block's own corner (1, 1): 12.728 mm, with 10 mm allowed.
    assert measured("part-over-edge", layout(held, outline=rounded)) == pytest.approx([2.728], abs=0.02)


@pytest.mark.parametrize(("x", "beyond"), [(95.0, [3.0]), (91.0, []), (140.0, [28.0])])
def test_a_part_reaches_over_the_edge_of_a_face_with_a_notch(x, beyond):
    from panelart.geometry import Point, polygon

    corners = ((0, 0), (200, 0), (200, 40), (100, 40), (100, 100), (0, 100))
    notched = polygon([Point(*corner) for corner in corners])
    panel = layout(front("S1", block(x, 60, 16, 16)), outline=notched)
    assert measured("part-over-edge", panel) == pytest.approx(beyond, abs=0.01)


@pytest.mark.parametrize(
    ("make", "side", "reach"),
    [
        (front, Side.FRONT, [2.0]),
        (front, Side.REAR, []),
        (rear, Side.REAR, [2.0]),
        (rear, Side.FRONT, []),
    ],
)
def test_a_part_in_a_keepout_of_its_own_side(make, side, reach):
    panel = layout(make("S1", block(50, 50, 20, 20)), keepout(block(68, 50, 20, 20), side))
    assert measured("part-in-keepout", panel) == pytest.approx(reach)


@pytest.mark.parametrize(("x", "reach"), [(60.0 - JUST, [JUST]), (60.0, [])])
def test_a_part_that_touches_a_keepout(x, reach):
    panel = layout(front("S1", block(50, 50, 20, 20)), keepout(block(x + 10, 50, 20, 20)))
    assert measured("part-in-keepout", panel) == pytest.approx(reach, abs=1e-9)


@pytest.mark.parametrize("side", list(Side))
def test_an_opening_goes_through_and_counts_on_both_sides(side):
    panel = layout(opening("H1", disc(50, 50, 4)), keepout(block(55, 50, 8, 8), side))
    assert measured("opening-in-keepout", panel) == pytest.approx([1.0])


@pytest.mark.parametrize(("x", "reach"), [(56.0 - JUST, [JUST]), (56.0, [])])
def test_an_opening_clear_of_a_keepout(x, reach):
    panel = layout(opening("H1", disc(50, 50, 4)), keepout(block(x, 50, 8, 8)))
    assert measured("opening-in-keepout", panel) == pytest.approx(reach, abs=1e-9)


def test_an_opening_of_a_part_that_is_in_the_keepout_is_not_told_again():
    panel = layout(front("S1", disc(50, 50, 14), "nut"), opening("S1", disc(50, 50, 12)), keepout(block(55, 50, 8, 8)))
    assert refs("part-in-keepout", panel) == [("S1",)]
    assert found("opening-in-keepout", panel) == []


def test_nothing_is_found_on_a_panel_in_order():
    from panelart.checks import inspect

    panel = layout(
        knob("RV1", 50, 50, 24),
        opening("RV1", disc(50, 50, 10)),
        rear("RV1", block(50, 50, 24, 24)),
        legend("RV1", "VOLTAGE", (40, 66, 60, 69)),
        front("J1", disc(90, 50, 14), "nut"),
        opening("J1", disc(90, 50, 12)),
        rear("J1", block(90, 50, 20, 20)),
        keepout(block(150, 50, 20, 20)),
    )
    assert inspect(panel).findings == ()
