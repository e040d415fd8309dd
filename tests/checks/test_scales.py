"""Scales: steps, marks, direction, units."""

from __future__ import annotations

import pytest

from panelart.diagnostics import Severity
from panelart.model.motion import MotionKind
from panelart.model.panel import Law, Scale
from tests.checks.builders import at, control, layout, legend, mark, part, request
from tests.checks.cases import found, measured, refs


def _scale(low=0.0, high=10.0, major=5.0, minor=1.0, unit="", numerals=None, texts=None, legend_text=None, **more):
    scale = Scale(
        low=low, high=high, major=major, minor=minor, sweep=300.0, start_deg=240.0, unit=unit, where=at(14),
        numerals=numerals, **more,
    )  # fmt: skip
    name = None if legend_text is None else request(legend_text)
    pot = part("RV1", control(MotionKind.TURN), scale=scale, legend=name)
    count = round((high - low) / (major or high))
    shown = [f"{low + (major or 0) * n:g}" for n in range(count + 1)] if texts is None else texts
    words = [legend("RV1", text, (20 + 9 * n, 50, 22 + 9 * n, 53), "numeral") for n, text in enumerate(shown)]
    return layout(pot, mark("RV1", (50, 40), (50, 43)), *words)


@pytest.mark.parametrize(
    ("major", "minor", "odd"),
    [(5, 1, False), (2, 0.5, False), (10, 2, False), (0.2, 0.1, False), (50, 10, False), (2.5, 0.5, True),
     (3, 1, True), (4, 2, True), (5, 2.5, True), (25, 5, True)],
)  # fmt: skip
def test_scales_count_by_one_two_five(major, minor, odd):
    # MIL-HDBK-759B, 5.2.2.3.1.3; ASME B40.100.
    assert bool(found("scale-counts-oddly", _scale(high=major * 4, major=major, minor=minor))) is odd


def test_a_scale_of_angles_may_count_by_fifteen():
    assert found("scale-counts-oddly", _scale(high=90, major=30, minor=15, unit="°")) == []
    assert len(found("scale-counts-oddly", _scale(high=90, major=30, minor=15, unit="V"))) == 1


@pytest.mark.parametrize(
    ("high", "major", "minor", "counts"),
    [(20, 10, 1, []), (22, 11, 1, [10.0]), (40, 20, 1, [19.0]), (20, 10, None, [])],
)
def test_nine_marks_between_numerals(high, major, minor, counts):
    # MIL-HDBK-759B, 5.2.2.3.1.4.1.
    assert measured("scale-marks-uncounted", _scale(high=high, major=major, minor=minor)) == counts


def test_a_dial_that_rises_anticlockwise():
    # MIL-STD-1472E, 5.2.3.3.1.
    assert found("scale-runs-backwards", _scale()) == []
    assert refs("scale-runs-backwards", _scale(clockwise=False)) == [("RV1",)]
    assert refs("scale-runs-backwards", _scale(falling=True)) == [("RV1",)]
    assert found("scale-runs-backwards", _scale(clockwise=False, falling=True)) == []
    assert found("scale-runs-backwards", _scale(falling=True, unit="dB")) == []  # attenuation: common practice


def test_a_logarithmic_scale_counts_its_digits():
    log = _scale(low=1, high=100, major=None, minor=None, law=Law.LOGARITHMIC, texts=["1", "10", "100"])
    assert found("scale-counts-oddly", log) == []
    assert found("scale-marks-uncounted", log) == []  # eight between 1 and 10
    ends = _scale(low=1, high=100, major=None, minor=None, law=Law.LOGARITHMIC, texts=["1", "100"])
    assert measured("scale-marks-uncounted", ends) == [17.0]


def test_numerals_that_had_no_room_are_not_counted():
    assert measured("scale-marks-uncounted", _scale(high=20, major=5, minor=1, texts=["0", "20"])) == [19.0]


@pytest.mark.parametrize(
    ("more", "severity"),
    [
        ({"high": 30}, Severity.NOTE),
        ({"high": 30, "unit": "V", "texts": ["0", "5", "V"]}, None),
        ({"high": 30, "unit": "V", "texts": ["0", "5"]}, Severity.WARNING),
        ({"high": 10}, None),
        ({"high": 100}, None),
        ({"low": -5, "high": 5}, None),
        ({"high": 30, "texts": []}, None),
        ({"high": 30, "legend_text": "LEVEL (dB)"}, None),
        ({"high": 30, "legend_text": "RATE [1/min]"}, None),
        ({"high": 30, "legend_text": "FLOW (l/min)"}, None),
        ({"high": 30, "legend_text": "LEVEL (MAIN)"}, Severity.NOTE),
    ],
)
def test_numerals_without_a_unit(more, severity):
    findings = found("scale-without-unit", _scale(**more))
    assert [finding.severity for finding in findings] == ([severity] if severity else [])


# Units of the SI Brochure and of panels by common practice; what is unknown is made up.
@pytest.mark.parametrize(
    ("unit", "told"),
    [
        ("V", False), ("%", False), ("l/min", False), ("rpm", False), ("°C", False), ("mbar", False), ("N m", False),
        ("m³/h", False), ("psi", False), ("dBu", False), ("", False), ("turns", False), ("vlt", True), ("Vlts", True),
        ("xq", True), ("l/mni", True),
    ],
)  # fmt: skip
def test_units_that_nobody_knows(unit, told):
    findings = found("scale-unit-unknown", _scale(high=30, unit=unit))
    assert [finding.severity for finding in findings] == [Severity.NOTE] * told
