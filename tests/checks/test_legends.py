"""Legends against everything. Ink is a rectangle of known size; the sums are plane geometry."""

from __future__ import annotations

import pytest

from panelart.geometry import Point, Transform, rectangle
from panelart.messages import checks as said
from panelart.messages import checks_things as things
from panelart.model.panel import Side
from tests.checks.builders import (
    block,
    disc,
    frame,
    front,
    inked,
    keepout,
    knob,
    layout,
    legend,
    mark,
    opening,
    unplaced,
)
from tests.checks.cases import JUST, found, measured, refs


def test_a_legend_without_room_names_what_stands_in_its_way():
    (finding,) = found("legend-unplaced", layout(unplaced("RV1", "VOLTAGE", "knob of RV2", "edge")))
    assert finding.refs == ("RV1",)
    assert finding.other == said.blocked(blockers=("knob of RV2", "edge"))
    assert finding.place == (50.0, 50.0)
    assert found("legend-unplaced", layout(legend("RV1", "VOLTAGE", (10, 10, 20, 13)))) == []


@pytest.mark.parametrize("owner", ["RV1", "S1"])
@pytest.mark.parametrize(("bottom", "reach"), [(61.0, [1.0]), (62.0 - JUST, [JUST]), (62.0, []), (63.0, [])])
def test_a_legend_under_a_knob_its_own_or_anothers(owner, bottom, reach):
    panel = layout(knob("RV1", 50, 50, 24), legend(owner, "GAIN", (48, bottom, 52, bottom + 3)))
    assert measured("legend-under-knob", panel) == pytest.approx(reach, abs=1e-9)
    assert refs("legend-under-knob", panel) == ([tuple(dict.fromkeys((owner, "RV1")))] if reach else [])


def test_a_numeral_beside_a_round_knob_is_clear_though_their_boxes_overlap():
    # The corner (59, 59) is 12.73 mm from the shaft, the knob's radius is 12.
    panel = layout(knob("RV1", 50, 50, 24), legend("RV1", "5", (59, 59, 61, 62), "numeral"))
    assert found("legend-under-knob", panel) == []


def test_marks_and_numerals_under_one_knob_are_gathered_by_kind():
    panel = layout(
        knob("RV1", 50, 50, 24),
        mark("RV1", (50, 61), (50, 64)),
        mark("RV1", (61, 50), (64, 50)),
        legend("RV1", "5", (48, 60.5, 52, 63), "numeral"),
    )
    findings = found("legend-under-knob", panel)
    assert [finding.subject for finding in findings] == [
        things.legend(owner="RV1", style="numeral", text="5"),
        things.marks(count=2, owner="RV1", kind="major mark"),
    ]
    assert [finding.measured for finding in findings] == pytest.approx([1.5, 1.0], abs=0.01)


def test_under_knob_and_nut_of_one_part_is_one_finding():
    panel = layout(
        knob("RV1", 50, 50, 24), front("RV1", disc(50, 50, 14), "nut"), legend("RV1", "GAIN", (48, 55, 52, 58))
    )
    assert len(found("legend-under-knob", panel)) == 1
    assert found("legend-under-part", panel) == []


@pytest.mark.parametrize(("left", "reach"), [(59.0, [1.0]), (60.0 - JUST, [JUST]), (60.0, [])])
def test_a_legend_under_a_bezel(left, reach):
    panel = layout(front("M1", block(50, 50, 20, 20)), legend("M1", "MAINS", (left, 48, left + 12, 51)))
    assert measured("legend-under-part", panel) == pytest.approx(reach, abs=1e-9)
    assert found("legend-under-knob", panel) == []


@pytest.mark.parametrize(("covers", "count"), [(True, 1), (False, 0)])
def test_a_levers_travel_hides_a_legend_only_where_it_covers(covers, count):
    panel = layout(
        front("S1", block(50, 50, 6, 30), "lever travel", covers=covers), legend("S1", "ON", (48, 60, 52, 63))
    )
    assert len(found("legend-under-part", panel)) == count


@pytest.mark.parametrize(("left", "reach"), [(51.0, [1.0]), (52.0 - JUST, [JUST]), (52.0, [])])
def test_a_legend_over_an_opening(left, reach):
    panel = layout(opening("H1", disc(50, 50, 4)), legend("S1", "OUTPUT", (left, 48.5, left + 10, 51.5)))
    assert measured("legend-over-opening", panel) == pytest.approx(reach, abs=1e-9)


def test_a_legend_over_an_opening_that_its_part_covers_is_told_once():
    panel = layout(
        front("S1", disc(50, 50, 14), "nut"), opening("S1", disc(50, 50, 12)), legend("S1", "ON", (48, 54, 52, 57))
    )
    assert len(found("legend-under-part", panel)) == 1
    assert found("legend-over-opening", panel) == []


@pytest.mark.parametrize(("left", "overlap"), [(59.9, [0.1]), (60.0 - JUST, [JUST]), (60.0, []), (61.0, [])])
def test_legends_collide(left, overlap):
    panel = layout(legend("S1", "ONE", (50, 50, 60, 53)), legend("S2", "TWO", (left, 50, left + 10, 53)))
    assert measured("legends-collide", panel) == pytest.approx(overlap, abs=1e-9)


def test_a_legend_in_the_word_space_of_another_collides_though_no_ink_meets():
    spaced = inked("S1", "TO GO", block(50, 50, 4, 3), block(60, 50, 4, 3))
    panel = layout(spaced, inked("S2", "I", block(55, 50, 1, 3)))
    assert len(found("legends-collide", panel)) == 1


def test_turned_legends_are_clear_though_their_boxes_overlap():
    diagonal = rectangle(20, 3).transformed(Transform.turn(45).then(Transform.move(50, 50)))
    upper = rectangle(3, 3, Point(45, 55))
    panel = layout(inked("S1", "SLANTED", diagonal), inked("S2", "I", upper))
    assert found("legends-collide", panel) == []


def test_ink_is_tested_where_it_is_and_not_where_its_box_is():
    letter_l = inked("S1", "L", block(50.5, 55, 1, 10), block(55, 50.5, 10, 1))
    panel = layout(opening("H1", disc(57, 57, 6)), letter_l)
    assert found("legend-over-opening", panel) == []


@pytest.mark.parametrize(("top", "reach"), [(57.2, [0.2]), (57.0 + JUST, [JUST]), (57.0, [])])
def test_a_legend_on_a_mark(top, reach):
    panel = layout(mark("RV1", (50, 50), (50, top)), legend("RV1", "5", (48, 57, 52, 60), "numeral"))
    # The mark is 0.3 mm wide, so 0.2 mm of its length is the nearer way out.
    assert measured("legend-on-mark", panel) == pytest.approx(reach, abs=1e-9)


@pytest.mark.parametrize(("left", "reach"), [(20.0, [0.15]), (20.15 - JUST, [JUST]), (20.15, [])])
def test_a_legend_on_the_line_of_a_frame(left, reach):
    panel = layout(frame("frame 1", (20, 20, 80, 60)), legend("S1", "GAIN", (left, 30, left + 10, 33)))
    assert measured("legend-on-frame", panel) == pytest.approx(reach, abs=1e-9)


def test_a_scale_on_the_line_of_a_frame():
    panel = layout(frame("frame 1", (20, 20, 80, 60)), mark("RV1", (50, 58), (50, 61)))
    assert refs("legend-on-frame", panel) == [("RV1", "frame 1")]


@pytest.mark.parametrize(
    ("side", "left", "reach"),
    [
        (Side.FRONT, 59.0, [1.0]),
        (Side.FRONT, 60.0 - JUST, [JUST]),
        (Side.FRONT, 60.0, []),
        (Side.REAR, 50.0, []),
    ],
)
def test_a_legend_in_a_keepout(side, left, reach):
    panel = layout(keepout(block(50, 50, 20, 20), side), legend("S1", "GAIN", (left, 48, left + 10, 51)))
    assert measured("legend-in-keepout", panel) == pytest.approx(reach, abs=1e-9)
