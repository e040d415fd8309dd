"""Bodies of two panels that close one box: which of them face each other, and on both sides of the depth."""

from __future__ import annotations

import pytest
import shapely
from msgspec.structs import replace

from panelart.geometry import Point, rectangle
from panelart.geometry.polygons import polygon
from panelart.messages import checks_things as things
from panelart.model.panel import Opposite, Panel
from panelart.pipeline import build
from tests.panels import HERE, component, envelope, panel, part


def with_body(at: Point, width: float, height: float, depth: float, ref: str, size=(200.0, 100.0)) -> Panel:
    body = envelope("body", rectangle(width, height), depth)
    return panel(part(ref, component(rear=(body,)), tuple(at)), size=size)


def found(front: Panel, rear: Panel, depth: float, clearance: float = 0.0):
    opposite = Opposite(name="rear", panel=rear, depth=depth, clearance=clearance, where=HERE)
    inspection = build(replace(front, opposite=opposite)).inspection
    return [finding for finding in inspection.findings if finding.rule == "bodies-meet-in-box"]


# depth of the box | clearance | meets: 60 and 45 mm together take 105
@pytest.mark.parametrize(
    ("depth", "clearance", "meets"),
    [(100.0, 0.0, 1), (105.0 - 1e-5, 0.0, 1), (105.0, 0.0, 0), (110.0, 0.0, 0), (115.0, 10.0, 0), (114.9, 10.0, 1)],
)
def test_bodies_behind_each_other(depth: float, clearance: float, meets: int) -> None:
    front = with_body(Point(40, 50), 30, 30, 60, "M1")
    rear = with_body(Point(160, 50), 30, 30, 45, "J1")
    findings = found(front, rear, depth, clearance)
    assert [(finding.refs, finding.measured) for finding in findings] == [(("M1",), 105.0)] * meets
    for finding in findings:
        assert finding.limit == pytest.approx(depth - clearance)
        assert finding.other == things.piece_on_panel(ref="J1", what="body", panel="rear")


@pytest.mark.parametrize("x", [20.0, 60.0, 100.0, 140.0, 160.0, 180.0])
@pytest.mark.parametrize("width", [200.0, 160.0])
def test_the_rear_is_seen_from_its_own_outside(x: float, width: float) -> None:
    """shapely mirrors the rear's body about the middle of its panel and lays the middles on each other."""
    x *= width / 200.0
    front = with_body(Point(40, 50), 30, 30, 60, "M1")
    rear = with_body(Point(x, 50), 20, 20, 45, "J1", size=(width, 100.0))
    there = shapely.affinity.scale(shapely.box(x - 10, 40, x + 10, 60), -1, 1, origin=(width / 2, 0))
    there = shapely.affinity.translate(there, 100.0 - width / 2, 0)
    here = polygon(rectangle(30, 30, Point(40, 50)))
    assert bool(found(front, rear, 100.0)) is (here.intersection(there).area > 0)


def test_a_panel_without_a_box_is_held_against_nothing() -> None:
    assert "bodies-meet-in-box" not in {
        finding.rule for finding in build(with_body(Point(40, 50), 30, 30, 60, "M1")).inspection.findings
    }
