"""One fault put into a panel in order: the right rule names the right part, and nothing else appears."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from panelart.checks import inspect
from panelart.geometry import Point, Transform, circle, polygon, rectangle
from panelart.geometry.polygons import polygon as polygon_of
from panelart.model.layout import Layout
from panelart.model.panel import Side
from tests.checks.builders import (
    block,
    component,
    disc,
    frame,
    front,
    keepout,
    knob,
    layout,
    legend,
    mark,
    opening,
    part,
    rear,
    unplaced,
)
from tests.checks.cases import refs
from tests.effort import examples


def _panel() -> dict[str, object]:
    """Two dials and a socket in a frame, all in order, each thing by a name."""
    return {
        "RV1": part("RV1", component("pot", thickness=(1.0, 3.0)), line=11),
        "J1": part("J1", component("socket", thickness=(1.0, 3.0)), line=13),
        "knob": knob("RV1", 40, 50, 24),
        "bushing": opening("RV1", disc(40, 50, 10), number=1, passes=disc(40, 50, 9.8)),
        "locating": opening("RV1", disc(40, 59, 3), number=2),
        "body": rear("RV1", block(40, 50, 24, 24)),
        "scale": mark("RV1", (40, 63), (40, 66)),
        "numeral": legend("RV1", "5", (39, 67, 41, 70), "numeral"),
        "name": legend("RV1", "VOLTAGE", (30, 76, 50, 79)),
        "nut": front("J1", disc(100, 50, 14), "nut"),
        "plug": front("J1", disc(100, 50, 18), "mated plug", covers=False),
        "hole": opening("J1", disc(100, 50, 12), passes=disc(100, 50, 11.5)),
        "shell": rear("J1", disc(100, 50, 16)),
        "label": legend("J1", "OUT", (95, 61, 105, 64)),
        "frame": frame("frame 1", (85, 35, 115, 70)),
        "screw": opening("H1", disc(180, 20, 3.2)),
        "plate": keepout(block(160, 80, 20, 10)),
        "bracket": keepout(block(160, 50, 20, 10), Side.REAR, "a bracket"),
    }


def _layout(things: dict[str, object], **kwargs) -> Layout:
    return layout(*things.values(), **kwargs)


def _moved(x: float, y: float):
    """A thing moved by (x, y): its contours, ink and boxes alike."""
    by = Transform.move(x, y)

    def move(thing):
        changes = {}
        for name in ("contour", "finished", "cut", "passes"):
            shape = getattr(thing, name, None)
            if shape is not None:
                changes[name] = shape.transformed(by)
        ink = "given" if hasattr(thing, "given") else "shape"  # a legend's ink, or a mark's line
        if hasattr(thing, ink):
            changes[ink] = tuple(loop.transformed(by) for loop in getattr(thing, ink))
        if hasattr(thing, "box"):
            from panelart.geometry import Vector

            changes["box"] = thing.box.moved(Vector(x, y))
        return replace(thing, **changes)

    return move


def _with(**changes):
    return lambda thing: replace(thing, **changes)


FAULTS = [
    ("name", _moved(0, -17), {("legend-under-knob", ("RV1",))}),
    ("numeral", _moved(0, -6), {("legend-under-knob", ("RV1",)), ("legend-on-mark", ("RV1",))}),
    ("numeral", _moved(0, -1.2), {("legend-on-mark", ("RV1",))}),
    ("scale", _moved(0, -1.5), {("legend-under-knob", ("RV1",))}),
    ("numeral", _moved(0, 7), {("legends-collide", ("RV1",))}),
    ("label", _moved(0, -6), {("legend-under-part", ("J1",))}),
    ("label", _moved(0, 6.5), {("legend-on-frame", ("J1", "frame 1"))}),
    ("label", _moved(60, 18), {("legend-in-keepout", ("J1",))}),
    ("label", _moved(85, -43), {("legend-over-opening", ("J1", "H1"))}),
    ("label", _moved(73, -43), {("legend-near-opening", ("J1", "H1"))}),
    ("label", _moved(0, 35.5), {("legend-off-printable-area", ("J1",))}),
    ("label", _with(cap_height=2.0), {("legend-too-small", ("J1",))}),
    ("scale", _with(width=0.1), {("line-too-thin", ("RV1",))}),
    ("frame", _with(width=0.1), {("line-too-thin", ("frame 1",))}),
    ("frame", lambda _: frame("frame 1", (85, 55, 115, 70)), {("frame-under-part", ("frame 1", "J1"))}),
    ("frame", lambda _: frame("frame 1", (85, 20, 180, 70)), {("frame-over-opening", ("frame 1", "H1"))}),
    ("frame", lambda _: frame("frame 1", (85, 35, 115, 99)), {("frame-off-printable-area", ("frame 1",))}),
    ("frame", lambda _: frame("frame 1", (85, 35, 160, 77)), {("frame-in-keepout", ("frame 1",))}),
    ("plug", _with(contour=disc(100, 50, 100)), {("parts-collide", ("RV1", "J1"))}),
    ("shell", _with(contour=disc(100, 50, 100)), {("parts-collide-behind", ("RV1", "J1"))}),
    ("screw", _moved(-71.6, 30), {("openings-too-close", ("J1", "H1")), ("opening-under-part", ("H1", "J1"))}),
    ("screw", _moved(-75, 32), {("openings-collide", ("J1", "H1")), ("opening-under-part", ("H1", "J1"))}),
    ("screw", _moved(17, 0), {("opening-near-edge", ("H1",))}),
    ("screw", _moved(20, 0), {("opening-over-edge", ("H1",))}),
    ("screw", _moved(-20, 60), {("opening-in-keepout", ("H1",))}),
    ("locating", _moved(0, -0.6), {("thin-web-in-cutout", ("RV1",))}),
    ("hole", _with(finished=disc(100, 50, 11.4)), {("opening-too-small-after-coat", ("J1",))}),
    ("shell", _moved(52, 0), {("part-in-keepout", ("J1",))}),
    ("RV1", _with(component=component("pot", thickness=(1.0, 1.5))), {("sheet-too-thick", ("RV1",))}),
    ("RV1", _with(component=component("pot", thickness=(2.5, 3.0))), {("sheet-too-thin", ("RV1",))}),
    ("name", lambda _: unplaced("RV1", "VOLTAGE", "knob of RV1"), {("legend-unplaced", ("RV1",))}),
]


def test_the_panel_is_in_order_without_a_fault():
    assert inspect(_layout(_panel())).findings == ()


@pytest.mark.parametrize(
    ("name", "fault", "expected"),
    FAULTS,
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_a_fault_is_found_by_its_rule_alone(name, fault, expected):
    things = _panel()
    things[name] = fault(things[name])
    assert {(finding.rule, finding.refs) for finding in inspect(_layout(things)).findings} == expected


def test_a_knob_far_too_large_is_told_once_for_each_kind_of_thing_it_hits():
    things = _panel()
    things["knob"] = replace(things["knob"], contour=disc(40, 50, 90))
    found = [(finding.rule, finding.refs, finding.subject) for finding in inspect(_layout(things)).findings]
    assert len(found) == len(set(found))
    assert {(rule, refs) for rule, refs, _ in found} == {
        ("part-over-edge", ("RV1",)),
        ("frame-under-part", ("frame 1", "RV1")),
        ("legend-under-knob", ("RV1",)),
    }
    assert sum(rule == "legend-under-knob" for rule, _, _ in found) == 3  # name, numeral, mark


def test_a_thicker_sheet_makes_webs_thin():
    found = {finding.rule for finding in inspect(_layout(_panel(), thickness=3.5)).findings}
    assert found == {"sheet-too-thick", "thin-web-in-cutout"}


FORMS = st.one_of(
    st.builds(circle, st.floats(2, 30)),
    st.builds(lambda w, h, deg: rectangle(w, h).turned(deg), st.floats(2, 30), st.floats(2, 30), st.floats(0, 360)),
    st.builds(lambda size: polygon([Point(0, 0), Point(size, 0), Point(0, size)]), st.floats(3, 30)),
)
SPOTS = st.tuples(st.floats(40, 80), st.floats(40, 80))


@settings(max_examples=examples(150), deadline=None)
@given(st.lists(st.tuples(FORMS, SPOTS), min_size=2, max_size=6))
def test_collisions_are_those_that_shapely_finds_pair_by_pair(placed):
    contours = [form.transformed(Transform.move(*spot)) for form, spot in placed]
    panel = layout(*(front(f"S{number}", contour) for number, contour in enumerate(contours)))
    outer = [polygon_of(contour, 0.001, "outside") for contour in contours]
    inner = [polygon_of(contour, 0.001, "inside") for contour in contours]
    surely, perhaps = set(), set()
    for one in range(len(contours)):
        for two in range(one + 1, len(contours)):
            if shapely.intersection(inner[one], inner[two]).area > 0.01:
                surely.add((f"S{one}", f"S{two}"))
            if shapely.intersects(outer[one], outer[two]):
                perhaps.add((f"S{one}", f"S{two}"))
    assert surely <= set(refs("parts-collide", panel)) <= perhaps


@settings(max_examples=examples(80), deadline=None)
@given(st.lists(st.tuples(st.floats(2, 10), SPOTS), min_size=2, max_size=5))
def test_webs_are_those_that_shapely_measures(placed):
    holes = [disc(*spot, d) for d, spot in placed]
    panel = layout(*(opening(f"H{number}", hole) for number, hole in enumerate(holes)))
    grounds = [polygon_of(hole, 0.0005, "middle") for hole in holes]
    webs = {
        (f"H{one}", f"H{two}"): shapely.distance(grounds[one], grounds[two])
        for one in range(len(holes))
        for two in range(one + 1, len(holes))
    }
    told = set(refs("openings-too-close", panel))
    assert {pair for pair, web in webs.items() if 0.002 < web < 1.998} <= told
    assert told <= {pair for pair, web in webs.items() if web < 2.002}
