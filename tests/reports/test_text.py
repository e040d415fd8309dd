"""The text report: its order, its first lines, its width; words themselves are not asserted."""

from __future__ import annotations

import re

import pytest

from panelart.checks import inspect
from panelart.figure import Known
from panelart.geometry import Point
from panelart.reports import text
from panelart.reports.notes import notes_table
from tests.checks.builders import component, knob, layout, legend, part, waiver
from tests.checks.making import laid_out

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
    assert _first_lines(text.text_report(inspect(PANEL), detail=text.Detail.VERBOSE)) == [
        ("front.yaml", "10", "5", "error", "parts-collide"),
        ("front.yaml", "12", "5", "warning", "legend-too-small"),
        ("front.yaml", "3", "5", "note", "parts-to-measure"),
        ("front.yaml", "12", "5", "waived", "legend-under-knob"),
    ]


def test_every_figure_of_a_finding_is_shown():
    report = text.text_report(inspect(PANEL), width=200)
    for shown in ("1.00 mm", "1.90 mm", "2.18 mm", "NUREG-0700", "the knob is taken off", "front.yaml:40:5"):
        assert shown in report, shown


def test_places_are_measured_from_the_datum():
    # The knobs share what lies between x = 61 and 62, at y = 50; the datum is the upper left corner.
    assert "[61.5, -50]" in text.text_report(inspect(PANEL))


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
    """The first one, since the summary is what is read first."""
    first = text.text_report(inspect(PANEL)).splitlines()[0]
    assert first == "1 error, 1 warning, 1 note in front.yaml (1 waived)"
    assert text.text_report(inspect(layout())) == "No findings in front.yaml"
    two = layout(knob("A1", -20, 50, 24), knob("A2", 300, 50, 24))
    assert str(text.summary(inspect(two))) == "2 errors in front.yaml"
    assert str(text.summary(inspect(two), "box.yaml#rear")) == "2 errors in box.yaml#rear"


def test_what_was_checked_is_told_of_a_clean_panel_and_where_all_is_told():
    checked = "Checked: all"
    assert text.text_report(inspect(layout()), checked=checked).splitlines() == ["No findings in front.yaml", checked]
    assert checked not in text.text_report(inspect(PANEL), checked=checked)
    assert checked in text.text_report(inspect(PANEL), checked=checked, detail=text.Detail.VERBOSE)


def test_quiet_is_a_line_for_each_error_and_warning():
    quiet = text.text_report(inspect(PANEL), detail=text.Detail.QUIET)
    assert [found[3] for found in _first_lines(quiet)] == ["error", "warning"]
    assert len(quiet.splitlines()) == 2
    assert text.text_report(inspect(layout()), detail=text.Detail.QUIET) == ""


def test_the_line_of_the_spec_is_shown_with_a_caret_under_the_place():
    report = text.text_report(inspect(PANEL), source=lambda where: f"line {where.line} of the spec")
    lines = report.splitlines()
    at = next(number for number, line in enumerate(lines) if ": error: parts-collide:" in line)
    assert lines[at + 1 : at + 3] == ["   10 | line 10 of the spec", "      |     ^"]
    assert lines[at + 3].startswith("  place: ")


def test_a_waiver_is_one_line_where_it_stands():
    (line,) = [line for line in text.text_report(inspect(PANEL)).splitlines() if ": waived: " in line]
    assert line == "front.yaml:40:5: waived: legend-under-knob: RV3: the knob is taken off to read it"


@pytest.mark.parametrize("width", [40, 60, 80, 100, 140])
def test_notes_are_one_table_by_rule(width):
    panel = layout(
        *(
            part(f"J{number}", component(f"inlet-{number % 3}", known=Known.MEMORY), line=number)
            for number in range(1, 40)
        )
    )
    inspection = inspect(panel)
    notes = [finding for finding in inspection.findings if finding.rule == "parts-to-measure"]
    table = notes_table(inspection, notes, width)
    assert table[0].split()[:3] == ["rule", "count", "refs"]
    (row,) = [line for line in table if "parts-to-measure" in line]
    assert row.split()[1] == str(len(notes))
    assert "+" in row
    assert all(len(line) <= width for line in table)
    assert str(notes[0].says)[:20] in "\n".join(notes_table(inspection, notes[:1], width))


def test_a_limit_has_the_digits_of_its_sentence():
    """An eighth with a measured value beside it: both are 0.125, not 0.13 below."""
    spec = """
    panel: {coat: {kind: powder, thickness: 0.08, colour: "#202428"}}
    marking: {ink: {name: white, colour: "#F4F4F0"}, lettering: {font: {weight: light}}}
    texts: [{text: FUSE, at: [40, 50], style: name}]
    """
    report = text.text_report(inspect(laid_out(spec)), detail=text.Detail.VERBOSE)
    said = report[report.index("lettering-too-light") :]
    (sentence,) = re.findall(r"minimum ([0-9.]+)$", said.splitlines()[0])
    assert f"limit: minimum {sentence} (" in said
    assert sentence == "0.125"
