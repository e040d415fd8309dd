"""Scales: steps, marks, direction, units."""

from __future__ import annotations

import pytest

from panelart.checks.numerals import turned_over
from panelart.checks.registry import BUILT_IN
from panelart.checks.survey import survey
from panelart.diagnostics import Severity
from panelart.lettering.spans import Manner
from panelart.model.motion import MotionKind
from panelart.model.panel import Law, Scale
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text
from tests.checks.builders import at, control, layout, legend, mark, part, request
from tests.checks.cases import found, measured, refs
from tests.checks.making import laid_out


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


SCALED = """\
panelart: 1
panel: {title: Trial, size: [120, 80], sheet: {material: aluminium 5754, thickness: 2}}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
parts:
  - ref: RV1
    part: pot-m10
    at: [60, 40]
    scale: {from: 0, to: 2, major: 1, words: {0: "10 {unit blips}", 2: "X{sub m}"}}
"""


def test_what_braces_say_of_the_words_of_a_scale_reaches_the_rules() -> None:
    """A unit that the writer tells is one for every rule, and lowered letters are lowered."""
    looked_at = survey(lay_out(panel_from_text(SCALED)), BUILT_IN.limits)
    words = {word.text: word for word in looked_at.words if word.owner == "RV1"}
    (means,) = looked_at.meaning(words["10 blips"]).meanings()
    assert means.unit.symbol == "blips"
    assert [span.manner for span in words["Xm"].spans] == [Manner.SUB]


# Digits turned by half a turn: 0, 1 and 8 are themselves, 6 and 9 each other (plane geometry).
@pytest.mark.parametrize(
    ("text", "other"),
    [("6", "9"), ("66", "99"), ("16", "91"), ("1.6", "9.1"), ("60", None), ("100", None), ("8", None), ("11", None),
     ("69", None), ("12", None), ("MIN", None), ("0.6", "9.0"), ("6.0", "0.9")],
)  # fmt: skip
def test_numbers_that_are_others_upside_down(text, other):
    assert turned_over(text) == other


DIAL = """
parts:
  - ref: RV1
    part: pot-m10
    at: [60, 50]
    knob: {diameter: 40, height: 16}
    legend: Level
    scale: {%s}
"""


@pytest.mark.parametrize(
    ("scale", "told"),
    [
        ("from: 6, to: 10, major: 1, sweep: 300, reading: tangential", ["6 (9)"]),
        ("from: 6, to: 10, major: 1, sweep: 180, reading: tangential", []),  # feet to the shaft, heads above level
        ("from: 6, to: 10, major: 1, sweep: 300", []),
        ("from: 6, to: 10, major: 1, sweep: 300, reading: radial", []),
        ("from: 6, to: 16, major: 1, sweep: 300, reading: radial, numerals: [6, 11, 16]", []),
        ("from: 3, to: 9, major: 3, sweep: 300, reading: radial, numerals: [3, 6, 9]", ["6 (9)"]),  # straight up
    ],
)
def test_turned_numerals_that_are_others_upside_down(scale, told):
    findings = found("numeral-upside-down", laid_out(DIAL % scale))
    assert len(findings) == bool(told)
    assert all(each in findings[0].sentence for each in told)


def test_marks_of_ones_own_without_a_numeral():
    scale = 'from: 0, to: 100, unit: "%%", sweep: 300, marks: [0, 9, 10, 11, 50, 100]%s'.replace("%%", "%")
    (finding,) = found("mark-without-numeral", laid_out(DIAL % scale.replace("%s", "")))
    assert "9 and 10" in finding.sentence or "9, 10" in finding.sentence
    assert found("mark-without-numeral", laid_out(DIAL % scale.replace("%s", ", numerals: [0, 50, 100]"))) == []
    assert found("mark-without-numeral", laid_out(DIAL % "from: -20, to: 3, law: vu, unit: VU, sweep: 90")) == []


@pytest.mark.parametrize(
    ("scale", "digits"),
    [
        ("from: 0, to: 1000, major: 500, unit: Hz", []),
        ("from: 0, to: 9000, major: 3000, unit: Hz", []),
        ("from: 0, to: 10000, major: 5000, unit: Hz", [5]),
        ("from: 0, to: 100000, major: 50000, unit: Hz", [6]),
        ("from: 0, to: 100000, major: 50000, unit: Hz, multiplier: 1000", []),
        ("from: 0, to: 0.0005, major: 0.0001, unit: V", [5]),
        ("from: 0, to: 0.0005, major: 0.0001, unit: V, multiplier: 0.001", []),
        ("from: 20, to: 20000, law: logarithmic, unit: Hz", []),  # 20k
        ("from: 0, to: 100000, major: 50000, unit: Hz, words: {100000: MAX}", [5]),
        ("from: 0, to: 100000, major: 50000, unit: Hz, numerals: []", []),
    ],
)
def test_numerals_with_more_digits_than_a_value_up_to_1000(scale, digits):
    findings = found("scale-numerals-long", laid_out(DIAL % f"{scale}, sweep: 300"))
    assert [finding.measured for finding in findings] == digits


@pytest.mark.parametrize(
    ("words", "told"),
    [("{0: OFF, 10: MAXIMUM}", []), ("{0: OFF, 5: MEDIUM, 5.2: MIDDLE, 10: FULL}", ["warning"])],
)
def test_words_of_a_scale_that_are_left_out_are_told(words, told):
    marks = "[0, 5, 5.2, 10]" if "5.2" in words else "[0, 5, 10]"
    scale = f"from: 0, to: 10, marks: {marks}, sweep: 300, words: {words}"
    findings = found("mark-without-numeral", laid_out(DIAL % scale))
    assert [finding.severity.value for finding in findings] == told


def test_a_compass_counts_by_30():
    assert found("scale-counts-oddly", laid_out(DIAL % "from: 0, to: 360, major: 30, sweep: 300")) == []
    assert len(found("scale-counts-oddly", laid_out(DIAL % "from: 0, to: 300, major: 30, sweep: 300"))) == 1


@pytest.mark.parametrize(
    ("scale", "odd"),
    [
        ("from: 4, to: 20, major: 4, unit: mA", False),
        ("from: 20, to: 4, major: 4, unit: mA", False),
        ("from: 4, to: 12, major: 4, unit: mA", False),
        ("from: 12, to: 20, major: 4, unit: mA", False),
        ("from: 0, to: 20, major: 4, unit: mA", False),
        ("from: 4, to: 20, major: 4, minor: 1, unit: mA", False),
        ("from: 4, to: 20, major: 8, unit: mA", True),
        ("from: 0, to: 40, major: 4, unit: mA", True),
        ("from: 4, to: 20, major: 4, unit: V", True),
        ("from: 3, to: 15, major: 3, unit: psi", False),
        ("from: 0, to: 30, major: 3, unit: psi", True),
        ("from: 1, to: 5, major: 1, unit: V", False),
        ("from: 0.2, to: 1, major: 0.2, unit: bar", False),
    ],
)
def test_signals_with_a_live_zero_count_in_quarters(scale: str, *, odd: bool) -> None:
    """IEC 60381-1: 4 mA to 20 mA; IEC 60381-2: 1 V to 5 V; IEC 60382: 20 kPa to 100 kPa (from memory)."""
    assert bool(found("scale-counts-oddly", laid_out(DIAL % f"{scale}, sweep: 270"))) is odd


def test_a_scale_of_words_needs_no_unit() -> None:
    words = "from: 0, to: 2, marks: [0, 1, 2], words: {0: Low, 1: Half, 2: Full}, sweep: 270"
    assert found("scale-without-unit", laid_out(DIAL % words)) == []
    assert len(found("scale-without-unit", laid_out(DIAL % words.replace(", 2: Full", "")))) == 1


def test_a_word_on_two_lines_is_lettered() -> None:
    words = "from: 0, to: 10, marks: [0, 4, 6, 10], words: {4: Normal operation, 6: Increased power}, sweep: 270"
    layout = laid_out(DIAL % words)
    assert "Normal\noperation" in {legend.text for legend in layout.legends}
    assert found("mark-without-numeral", layout) == []
