"""What legends say, held against cases written by hand; SI symbols by the SI Brochure, 9th edition."""

from __future__ import annotations

import pytest

from panelart.checks.registry import RULES
from panelart.checks.survey import survey
from panelart.checks.wording import unit_meant
from panelart.diagnostics import Severity
from panelart.model.component import Motion
from panelart.model.panel import FrameRequest, Law, Scale
from tests.checks.builders import at, control, layout, legend, mark, part, positions, request
from tests.checks.cases import found, measured, refs

OUT_1 = legend("J1", "OUT", (20, 50, 30, 53))
OUT_2 = legend("J2", "OUT", (60, 50, 70, 53))


def _frame(ref, title):
    return FrameRequest(around=(ref,), title=request(title, "title"), where=at(20), margin=3.0)


def test_two_parts_of_one_name():
    assert refs("name-repeated", layout(OUT_1, OUT_2)) == [("J2", "J1")]
    assert refs("name-repeated", layout(OUT_1, legend("J2", "out", (60, 50, 70, 53)))) == [("J2", "J1")]
    assert refs("name-repeated", layout(OUT_1, legend("J2", "OUT 2", (60, 50, 70, 53)))) == []
    assert refs("name-repeated", layout(OUT_1, OUT_2, _frame("J1", "LEFT"), _frame("J2", "RIGHT"))) == []
    plus = [legend(f"J{n}", "+", (20 * n, 50, 20 * n + 2, 53)) for n in (1, 2)]
    assert refs("name-repeated", layout(*plus)) == []


def test_a_control_that_says_nothing():
    toggle = control(Motion.LEVER)
    assert refs("control-without-name", layout(part("S1", toggle))) == [("S1",)]
    assert refs("control-without-name", layout(part("S1", toggle, positions=positions(up="ON")))) == []
    assert refs("control-without-name", layout(part("S1", toggle, legend=request("MODE")))) == []
    assert refs("control-without-name", layout(part("S1", toggle), _frame("S1", "MODE"))) == []
    assert refs("control-without-name", layout(part("H1", control(Motion.NONE, "screw")))) == []
    assert refs("control-without-name", layout(part("K1", control(Motion.TURN, "cam-lock")))) == []


@pytest.mark.parametrize(
    ("texts", "turn", "wrong"),
    [
        ({"up": "ON", "down": "OFF"}, 0, False),
        ({"up": "OFF", "down": "ON"}, 0, True),
        ({"up": "OFF", "down": "ON"}, 180, False),
        ({"up": "ON", "down": "OFF"}, 180, True),
        ({"up": "ON", "down": "OFF"}, 90, True),  # up goes to the left
        ({"up": "ON", "down": "OFF"}, -90, False),  # up goes to the right
        ({"left": "STOP", "right": "START"}, 0, False),
        ({"left": "START", "right": "STOP"}, 0, True),
        ({"up": "O", "down": "I"}, 0, True),
        ({"up": "TAPE", "down": "LINE"}, 0, False),
    ],
)
def test_on_is_up_and_right(texts, turn, wrong):
    # MIL-STD-1472E, 5.4.1.2.1.
    panel = layout(part("S1", control(Motion.LEVER), positions=positions(**texts), turn=turn))
    assert refs("switch-against-convention", panel) == ([("S1",)] if wrong else [])


@pytest.mark.parametrize(
    ("one", "other", "told"),
    [
        ({"up": "LINE", "down": "TAPE"}, {"up": "LINE", "down": "TAPE"}, False),
        ({"up": "LINE", "down": "TAPE"}, {"up": "TAPE", "down": "LINE"}, True),
        ({"up": "LINE", "down": "TAPE"}, {"up": "TAPE", "down": "OFF"}, False),
        ({"up": "ON", "down": "OFF"}, {"up": "OFF", "down": "ON"}, False),  # told by its own rule
        ({"up": "A", "centre": "B", "down": "C"}, {"up": "C", "centre": "B", "down": "A"}, True),
        ({"up": "A", "centre": "B", "down": "C"}, {"up": "B", "centre": "A", "down": "C"}, False),
    ],
)
def test_switches_that_contradict_each_other(one, other, told):
    toggle = control(Motion.LEVER)
    panel = layout(part("S1", toggle, positions=positions(**one)), part("S2", toggle, positions=positions(**other)))
    assert refs("positions-contradict", panel) == ([("S2", "S1")] if told else [])


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        ({"a150": "1", "a90": "2", "a30": "3"}, False),
        ({"a150": "3", "a90": "2", "a30": "1"}, True),
        ({"a240": "0", "a120": "10", "a0": "20", "a300": "30"}, False),
        ({"a240": "30 V", "a120": "20 V", "a0": "10 V", "a300": "0"}, True),
        ({"a150": "3", "a90": "MIX", "a30": "1"}, False),
        ({"a150": "2", "a30": "1"}, False),
    ],
)
def test_numbers_rise_clockwise(texts, told):
    # MIL-STD-1472E, 5.2.3.3.1.
    panel = layout(part("S1", control(Motion.TURN), positions=positions(**texts)))
    assert bool(found("positions-run-backwards", panel)) is told


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("Khz", "kHz"), ("KHZ", "kHz"), ("khz", "kHz"), ("Mhz", "MHz"), ("hz", "Hz"), ("KV", "kV"), ("kv", "kV"),
        ("uF", "µF"), ("uV", "µV"), ("v", "V"), ("w", "W"), ("DB", "dB"), ("db", "dB"), ("KΩ", "kΩ"), ("va", "VA"),
        ("kHz", None), ("MHz", None), ("mV", None), ("MV", None), ("dB", None), ("µF", None), ("Ω", None), ("V", None),
        ("min", None), ("MIN", None), ("in", None), ("bar", None), ("BAR", None), ("k", None), ("x", None),
        ("OFF", None), ("m", None), ("s", None), ("A", None), ("L", None),
    ],
)  # fmt: skip
def test_symbols_as_the_si_writes_them(written, meant):
    found_ = unit_meant(written)
    # The sign for micro and the Greek letter look alike and count alike.
    assert (found_ or "").replace("\u03bc", "\u00b5") == (meant or "").replace("\u03bc", "\u00b5")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("10 Khz", 1), ("10Khz", 1), ("10 kHz", 0), ("(KV)", 1), ("(kV)", 0), ("DB", 0), ("4.7 uF", 1), ("CH 1 V", 0),
        ("T 1 A L 250 V", 0), ("100\u2013240 V ~ 50/60 Hz 40 W", 0), ("100\u2013240 v ~ 50/60 hz", 2), ("RS 232", 0),
        ("5 VA", 0), ("2 WAY", 0), ("3 min", 0), ("12 V =", 0), ("S1 v", 0),
    ],
)  # fmt: skip
def test_units_are_looked_for_behind_numbers_and_in_brackets(text, words):
    findings = found("unit-misspelt", layout(legend("J1", text, (50, 50, 60, 53))))
    assert sum(len(finding.spellings) for finding in findings) == words


@pytest.mark.parametrize(
    ("text", "told"),
    [("THRSHLD", True), ("TRIG", False), ("THRESHOLD", False), ("mVpp", False), ("CH 12", False), ("LFT RGHT", True)],
)
def test_abbreviations_outside_the_list(text, told):
    panel = layout(legend("J1", text, (50, 50, 60, 53)))
    findings = found("abbreviation-unlisted", panel)
    assert [finding.severity for finding in findings] == [Severity.NOTE] * told
    known = survey(panel, abbreviations=frozenset({"THRSHLD", "LFT", "RGHT"}))
    assert list(RULES["abbreviation-unlisted"].findings(known)) == []


# --- scales


def _scale(low=0.0, high=10.0, major=5.0, minor=1.0, unit="", numerals=None, texts=None, legend_text=None, **more):
    scale = Scale(
        low=low, high=high, major=major, minor=minor, sweep=300.0, start_deg=240.0, unit=unit, where=at(14),
        numerals=numerals, **more,
    )  # fmt: skip
    name = None if legend_text is None else request(legend_text)
    pot = part("RV1", control(Motion.TURN), scale=scale, legend=name)
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
    ],
)
def test_numerals_without_a_unit(more, severity):
    findings = found("scale-without-unit", _scale(**more))
    assert [finding.severity for finding in findings] == ([severity] if severity else [])
