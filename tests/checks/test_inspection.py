"""The one door: order, determinism, and the time that many parts take."""

from __future__ import annotations

import random

import pytest
from msgspec.structs import replace

from panelart.checks import RULES, inspect
from panelart.diagnostics import Severity
from panelart.figure import Known
from panelart.geometry import Point, rectangle
from tests.checks.builders import (
    at,
    block,
    component,
    disc,
    front,
    knob,
    layout,
    legend,
    mark,
    opening,
    part,
    rear,
)


def test_most_serious_first_then_place_in_the_spec_then_rule():
    panel = layout(
        part("J1", component("inlet", known=Known.MEMORY, thickness=(3.0, 5.0)), line=3),
        knob("RV1", 50, 50, 24),
        replace(knob("RV2", 60, 50, 24), where=at(5)),
        replace(knob("RV3", -20, 50, 24), where=at(4)),
    )
    findings = inspect(panel).findings
    assert [(finding.severity, finding.where.line) for finding in findings] == [
        (Severity.ERROR, 4),
        (Severity.ERROR, 10),
        (Severity.WARNING, 3),
        (Severity.NOTE, 3),
    ]


def test_the_order_of_the_things_does_not_change_the_findings():
    things = [knob(f"RV{number}", 20 + 20 * number, 50, 24) for number in range(6)]
    things += [legend(f"RV{number}", f"N{number}", (18 + 20 * number, 55, 22 + 20 * number, 58)) for number in range(6)]
    first = inspect(layout(*things)).findings
    random.Random(3).shuffle(things)
    second = inspect(layout(*things)).findings
    assert len(first) == len(second)
    assert [(one.rule, set(one.refs), one.measured) for one in first if one.rule == "legend-under-knob"] == [
        (one.rule, set(one.refs), one.measured) for one in second if one.rule == "legend-under-knob"
    ]


def test_an_empty_panel_has_no_findings():
    assert inspect(layout()).findings == ()


def test_every_rule_that_is_named_in_a_finding_exists():
    panel = layout(knob("RV1", 50, 50, 24), knob("RV2", 60, 50, 24))
    assert {finding.rule for finding in inspect(panel).findings} <= set(RULES)


def _many(parts: int):
    """A wide panel of dials with scales, sockets and names in a grid: everything in order, nothing far apart."""
    things = []
    columns = max(parts // 6, 1)
    for number in range(parts):
        x, y = 25.0 + 40.0 * (number % columns), 25.0 + 40.0 * (number // columns)
        ref = f"P{number}"
        things += [
            knob(ref, x, y, 16),
            front(ref, disc(x, y, 14), "nut"),
            rear(ref, block(x, y, 20, 20)),
            opening(ref, disc(x, y, 9), number=1, passes=disc(x, y, 8.8)),
            opening(ref, disc(x, y + 7, 2), number=2, passes=disc(x, y + 7, 1.9)),
            legend(ref, f"LEVEL {number}", (x - 8, y + 15, x + 8, y + 18)),
        ]
        for step in range(11):
            way = Point(0, 1).turned(150 - 30 * step)
            things.append(mark(ref, (x + 8.6 * way.x, y + 8.6 * way.y), (x + 10.5 * way.x, y + 10.5 * way.y)))
        for step in range(6):
            way = Point(0, 1).turned(150 - 60 * step)
            cx, cy = x + 12.6 * way.x, y + 12.6 * way.y
            things.append(legend(ref, str(step), (cx - 1, cy - 1.2, cx + 1, cy + 1.2), "numeral"))
    width, height = 40.0 * columns + 20, 40.0 * -(-parts // columns) + 20
    return layout(
        *things, thickness=1.5, outline=rectangle(width, height, Point(width / 2, height / 2), 3), viewing_distance=500
    )


@pytest.mark.parametrize("parts", [40, 300])
def test_many_parts_that_are_right_have_no_findings(parts):
    assert inspect(_many(parts)).findings == ()
