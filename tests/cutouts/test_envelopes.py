"""What parts take in front of the face: the room that the cable of a plug needs to bend."""

from __future__ import annotations

import pytest

import panelart
from panelart.cutouts.envelopes import envelopes_of
from panelart.geometry import Box
from panelart.model.layout import PlacedEnvelope
from panelart.spec.read import panel_from_text

SPEC = """\
panelart: 1
panel: {title: Trial, size: [200, 160], sheet: {material: aluminium 5754, thickness: 2}}
marking: {process: screen-print, ink: {name: black, colour: "#000000"}}
parts:
  - ref: J1
    part:
      title: Socket
      openings: [{role: body, circle: {diameter: 10}}]
      front:
        - {what: flange, circle: {diameter: 14}, projection: 2}
        - {what: plug, rectangle: {width: 20, height: 12}, projection: 30, covers: false, role: plug, cable: CABLE}
    at: [60, 80]
    turn: TURN
  - {ref: S1, part: pushbutton-22, at: [60, 40], legend: Start}
"""


def spec(cable: str, turn: float = 0.0) -> str:
    return SPEC.replace("CABLE", cable).replace("TURN", f"{turn:g}")


def cable_of(cable: str, turn: float = 0.0) -> PlacedEnvelope:
    part = panel_from_text(spec(cable, turn), "trial.yaml").by_ref["J1"]
    (found,) = (one for one in envelopes_of(part) if one.what == "cable")
    return found


def sides(box: Box) -> tuple[float, ...]:
    return box.left, box.bottom, box.right, box.top


def test_a_cable_straight_out_stands_on_its_plug() -> None:
    """30 of the plug and 15 of the bend; no more of the face than the plug takes."""
    cable = cable_of("{bend: 15}")
    assert cable.height == pytest.approx(45.0)
    assert cable.over
    assert not cable.covers
    assert sides(cable.contour.bounds) == pytest.approx((50.0, 74.0, 70.0, 86.0))


@pytest.mark.parametrize(
    ("way", "turn", "box"),
    [
        ("up", 0, (50.0, 80.0, 70.0, 101.0)),
        ("down", 0, (50.0, 59.0, 70.0, 80.0)),
        ("left", 0, (35.0, 74.0, 60.0, 86.0)),
        ("right", 0, (60.0, 74.0, 85.0, 86.0)),
        ("right", 90, (54.0, 80.0, 66.0, 105.0)),
        ("down", 180, (50.0, 80.0, 70.0, 101.0)),
    ],
)
def test_a_cable_that_leaves_sideways_takes_room_beside_its_plug_and_turns_with_the_part(
    way: str, turn: float, box: tuple[float, ...]
) -> None:
    cable = cable_of(f"{{bend: 15, way: {way}}}", turn)
    assert sides(cable.contour.bounds) == pytest.approx(box)
    assert cable.height == pytest.approx(30.0)
    assert not cable.over


@pytest.mark.parametrize(
    ("cable", "turn", "met"),
    [("{bend: 25}", 0, False), ("{bend: 25, way: down}", 0, True), ("{bend: 25, way: down}", 180, False)],
)
def test_what_stands_where_the_cable_bends_collides(cable: str, turn: float, met: bool) -> None:  # noqa: FBT001
    """The bezel of the button ends at 40 + 14.5 = 54.5; the plug begins at 74, and its cable 25 below that, at 49."""
    found = panelart.build(panelart.load(spec(cable, turn))).findings
    assert [one.refs for one in found if one.rule == "parts-collide"] == ([("J1", "S1")] if met else [])
