"""Frames against parts, openings, keep-outs and other frames. Lines are 0.3 mm wide."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.geometry import Box
from panelart.model.layout import FrameLine
from tests.checks.builders import block, disc, frame, front, inked, keepout, knob, layout, opening
from tests.checks.cases import JUST, found, measured, refs
from tests.panels import HERE, SOCKET, part

BOX = (20, 20, 80, 60)


@pytest.mark.parametrize(("y", "is_found"), [(50.0, True), (47.85 + JUST, True), (47.85, False), (40.0, False)])
def test_frame_under_a_part(y, is_found):
    panel = layout(frame("frame 1", BOX), knob("RV1", 50, y, 24))
    assert refs("frame-under-part", panel) == ([("frame 1", "RV1")] if is_found else [])


def test_frame_under_a_part_is_measured_by_the_way_out():
    panel = layout(frame("frame 1", BOX), front("M1", block(50, 50.85, 20, 20)))
    assert measured("frame-under-part", panel) == pytest.approx([1.0], abs=0.31)
    assert measured("frame-under-part", layout(frame("frame 1", BOX), front("M1", block(50, 49.95, 20, 20)))) == (
        pytest.approx([0.1], abs=1e-9)
    )


@pytest.mark.parametrize(("y", "is_found"), [(60.0, True), (57.85 + JUST, True), (57.85, False)])
def test_frame_over_an_opening(y, is_found):
    panel = layout(frame("frame 1", BOX), opening("H1", disc(50, y, 4)))
    assert refs("frame-over-opening", panel) == ([("frame 1", "H1")] if is_found else [])


def test_frame_over_an_opening_that_its_part_covers_is_told_once():
    panel = layout(frame("frame 1", BOX), front("S1", disc(50, 60, 14), "nut"), opening("S1", disc(50, 60, 12)))
    assert len(found("frame-under-part", panel)) == 1
    assert found("frame-over-opening", panel) == []


@pytest.mark.parametrize(("x", "is_found"), [(15.0, True), (14.85 + JUST, True), (14.85, False)])
def test_frame_in_a_keepout(x, is_found):
    panel = layout(frame("frame 1", BOX), keepout(block(x, 40, 10, 10)))
    assert refs("frame-in-keepout", panel) == ([("frame 1",)] if is_found else [])


@pytest.mark.parametrize(
    ("other", "is_found"),
    [
        ((79, 20, 120, 60), True),  # side by side and crossing
        ((80.3 - JUST, 20, 120, 60), True),
        ((80.3, 20, 120, 60), False),
        ((30, 30, 70, 50), False),  # one inside the other
    ],
)
def test_frames_collide(other, is_found):
    panel = layout(frame("frame 1", BOX), frame("frame 2", other))
    assert refs("frames-collide", panel) == ([("frame 1", "frame 2")] if is_found else [])


@pytest.mark.parametrize(
    ("refs_of_frame", "x", "is_found"),
    [
        (("J1",), 50.0, True),  # in the midst of it
        (("J1", "H1"), 50.0, False),  # named
        (("J1",), 90.0, False),  # beside it
        (("J1",), 80.0, False),  # on its line, which other rules tell
    ],
)
def test_a_frame_holds_no_part_that_it_does_not_name(refs_of_frame, x, is_found):
    line = FrameLine(name="frame 1", refs=refs_of_frame, box=Box(20, 20, 80, 60), width=0.3, where=HERE)
    lamp, socket = part("H1", SOCKET, (x, 40)), part("J1", SOCKET, (35, 40))
    things = [front("J1", disc(35, 40, 14)), front("H1", disc(x, 40, 8)), opening("H1", disc(x, 40, 6))]
    panel = layout(line, lamp, socket, *things)
    assert refs("frame-holds-stranger", panel) == ([("frame 1", "H1")] if is_found else [])


@pytest.mark.parametrize(
    ("left", "is_found"),
    [
        (75.0, True),
        (80.0 - JUST, True),
        (80.0, False),
        (70.0, False),  # inside to its right end
        (70.0 + JUST, True),
    ],
)
def test_a_legend_across_the_edge_of_a_field(left, is_found):
    field = replace(frame("field 1", BOX), kind="field", filled=True, width=0.0)
    panel = layout(field, inked("text 1", "FUSE", block(left + 5, 40, 10, 3)))
    assert refs("marking-across-field", panel) == ([("text 1", "field 1")] if is_found else [])
