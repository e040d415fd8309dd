"""Mating plugs and their cables in front of the panel; plug and bend radius are those of the catalogue's BNC socket."""

from __future__ import annotations

import math

import pytest

from panelart import catalogue
from panelart.checks.limits import Basis
from tests.checks.cases import JUST, found, measured, refs
from tests.checks.making import laid_out

PLUG = next(one for one in catalogue.component("bnc").front if one.cable)
SOCKET = "{ref: J1, part: bnc, at: [60, 50], legend: In}"


def guard(ref: str, x: float, y: float, height: float = 90.0) -> str:
    shape = f"{{what: guard, rectangle: {{width: 10, height: 10}}, projection: {height:.9f}}}"
    part = f"{{title: Guard, openings: [{{role: body, circle: {{diameter: 4}}}}], front: [{shape}]}}"
    return f"{{ref: {ref}, part: {part}, at: [{x:.9f}, {y:.9f}]}}"


def fenced(below: str):
    return laid_out(f"parts: [{SOCKET}, {guard('W1', 35, 50)}, {guard('W2', 85, 50)}, {guard('W3', 60, 75)}, {below}]")


@pytest.mark.parametrize(
    ("room", "high"),
    [(PLUG.height + PLUG.cable, []), (PLUG.height + PLUG.cable - JUST, [PLUG.height + PLUG.cable])],
)
def test_a_cable_that_leaves_straight_out_needs_its_bend_in_front(room: float, high: list[float]) -> None:
    laid = laid_out(f"panel: {{depth_in_front: {room:.9f}}}\nparts: [{SOCKET}]")
    findings = found("front-higher-than-room", laid)
    assert [finding.measured for finding in findings] == pytest.approx(high)
    assert {finding.basis for finding in findings} <= {Basis.GIVEN}


def test_without_a_depth_in_front_nothing_is_measured() -> None:
    assert not found("front-higher-than-room", laid_out(f"parts: [{SOCKET}]"))


def test_a_cable_is_free_where_one_side_is() -> None:
    assert refs("cable-without-way", fenced(guard("W4", 60, 25))) == [("J1", "W4")]
    assert refs("cable-without-way", fenced(guard("W4", 30, 15))) == []


def test_the_widest_side_is_told() -> None:
    """Guards at 20 mm from the middle are 20 - 14.5 / 2 from the plug; the one below is 3 mm farther away."""
    plain = 20 - PLUG.contour.bounds.width / 2
    assert measured("cable-without-way", fenced(guard("W4", 60, 25))) == pytest.approx([plain])
    assert measured("cable-without-way", fenced(guard("W4", 60, 22))) == pytest.approx([plain + 3])


@pytest.mark.parametrize("over", [-JUST, 10 * JUST])
def test_a_part_lower_than_the_bent_cable_is_passed_over(over: float) -> None:
    """The cable rises on a quarter of a circle: sqrt(2 r a - a^2) above the plug's end, at a from the plug."""
    away, bend = 20 - PLUG.contour.bounds.height / 2, PLUG.cable
    rise = math.sqrt(2 * bend * away - away * away)
    laid = fenced(guard("W4", 60, 25, PLUG.height + rise + over))
    assert bool(found("cable-without-way", laid)) is (over > 0)


@pytest.mark.parametrize(("x", "told"), [(60 + PLUG.contour.bounds.width / 2 + 5, 0), (60, 1)])
def test_only_what_stands_in_the_strip_is_in_the_way(x: float, told: int) -> None:
    assert len(found("cable-without-way", fenced(guard("W4", x, 25)))) == told


def test_the_plug_behind_a_feed_through_needs_room_for_its_cable() -> None:
    """The plug is 35 mm beyond a body of 34.55, and its cable bends at 25: what the catalogue has."""
    part = "{ref: J1, part: rj45-flange, at: [60, 50], legend: Net}"
    deep = 34.55 + 35 + 25
    for room, told in ((deep, []), (deep - 0.1, [deep])):
        laid = laid_out(f"panel: {{depth_behind: {room}}}\nparts: [{part}]")
        assert measured("body-deeper-than-room", laid) == pytest.approx(told)
