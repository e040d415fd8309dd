"""The text report: its order, its first lines, its width; words themselves are not asserted."""

from __future__ import annotations

import re

import pytest

from panelart.checks import inspect
from panelart.geometry import Point
from panelart.model.component import Known
from panelart.reports import text
from tests.checks.builders import component, knob, layout, legend, part, waiver

FIRST_LINE = re.compile(r"^(\S+?):(\d+):(\d+): (error|warning|note|waived): ([a-z-]+): .+$")
PANEL = layout(
    part("J1", component("inlet", known=Known.MEMORY), line=3),
    knob("RV1", 50, 50, 24),
    knob("RV2", 73, 50, 24),
    knob("RV3", 150, 50, 24),
    legend("RV3", "GAIN", (148, 60, 152, 63), cap_height=1.9),
    waiver("legend-under-knob", "RV3", why="the knob is taken off to read it"),
    datum=Point(0.0, 100.0),
)


def _first_lines(report: str) -> list[tuple[str, ...]]:
    return [match.groups() for line in report.splitlines() if (match := FIRST_LINE.match(line))]


def test_findings_are_grouped_with_the_most_serious_first():
    assert _first_lines(text.text_report(inspect(PANEL))) == [
        ("front.yaml", "10", "5", "error", "parts-collide"),
        ("front.yaml", "12", "5", "warning", "legend-too-small"),
        ("front.yaml", "3", "5", "note", "opening-size-uncertain"),
        ("front.yaml", "12", "5", "waived", "legend-under-knob"),
    ]


def test_every_figure_of_a_finding_is_shown():
    report = text.text_report(inspect(PANEL), width=200)
    for shown in ("1.00 mm", "1.90 mm", "2.18 mm", "NUREG-0700", "the knob is taken off", "front.yaml:40:5"):
        assert shown in report, shown


def test_places_are_measured_from_the_datum():
    # The knobs share what lies between x = 61 and 62, at y = 50; the datum is the upper left corner.
    assert "(61.50, -50.00)" in text.text_report(inspect(PANEL))


@pytest.mark.parametrize("width", [20, 40, 60, 100, 200])
def test_lines_below_the_first_keep_to_the_width(width):
    report = text.text_report(inspect(PANEL), width=width)
    below = [line for line in report.splitlines() if line.startswith("  ")]
    assert below
    assert all(len(line) <= max(width, 40) for line in below)


def test_colour_only_when_asked_for():
    plain = text.text_report(inspect(PANEL))
    coloured = text.text_report(inspect(PANEL), colour=True)
    assert "\x1b" not in plain
    assert "\x1b[31m" in coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == plain


def test_the_last_line_counts():
    assert text.text_report(inspect(PANEL)).splitlines()[-1] == "1 error, 1 warning, 1 note; 1 waived"
    assert text.text_report(inspect(layout())) == "no findings"
    two = layout(knob("A1", -20, 50, 24), knob("A2", 300, 50, 24))
    assert text.summary(inspect(two)) == "2 errors"
