"""What legends say, held against cases written by hand; SI symbols by the SI Brochure, 9th edition."""

from __future__ import annotations

import pytest

from panelart.checks.registry import RULES
from panelart.checks.survey import survey
from panelart.diagnostics import Severity
from panelart.model.motion import MotionKind
from panelart.model.panel import FrameRequest
from panelart.texts.spellings import unit_meant
from tests.checks.builders import at, control, layout, legend, part, positions, request
from tests.checks.cases import found, refs
from tests.checks.making import laid_out

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


def test_names_that_differ_in_the_letters_of_a_unit():
    (finding,) = found("name-repeated", layout(legend("J1", "10 mW", BOX), legend("J2", "10 MW", (60, 50, 70, 53))))
    assert str(finding.other).endswith(", but for the letters of a unit: '10 mW' and '10 MW'")


def test_ln_is_in_beside_an_output():
    panel = layout(legend("J1", "ln", BOX), legend("J2", "Out", (60, 50, 70, 53)))
    assert [str(finding.other) for finding in found("name-misread", panel)] == ["'ln' for 'In'"]


BOX = (30, 50, 40, 53)


def test_a_control_that_says_nothing():
    toggle = control(MotionKind.LEVER)
    assert refs("control-without-name", layout(part("S1", toggle))) == [("S1",)]
    assert refs("control-without-name", layout(part("S1", toggle, positions=positions(up="ON")))) == []
    assert refs("control-without-name", layout(part("S1", toggle, legend=request("MODE")))) == []
    assert refs("control-without-name", layout(part("S1", toggle), _frame("S1", "MODE"))) == []
    assert refs("control-without-name", layout(part("H1", control(MotionKind.NONE, "screw")))) == []
    assert refs("control-without-name", layout(part("K1", control(MotionKind.TURN, "cam-lock")))) == []


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("Khz", "kHz"), ("KHZ", "kHz"), ("khz", "kHz"), ("Mhz", "MHz"), ("hz", "Hz"), ("KV", "kV"), ("kv", "kV"),
        ("uF", None), ("uV", None), ("Mbar", "mbar"), ("Kg", "kg"), ("KOHM", "kΩ"), ("ohm", None),
        ("v", "V"), ("w", "W"), ("DB", "dB"), ("db", "dB"), ("KΩ", "kΩ"), ("va", "VA"),
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
        ("10 Khz", 1), ("10Khz", 1), ("10 kHz", 0), ("(KV)", 1), ("(kV)", 0), ("DB", 0), ("4.7 uF", 0),
        ("5 L/MIN", 1), ("5 V/DIV", 0), ("CH 1 V", 0),
        ("T 1 A L 250 V", 0), ("100\u2013240 V ~ 50/60 Hz 40 W", 0), ("100\u2013240 v ~ 50/60 hz", 2), ("RS 232", 0),
        ("5 VA", 0), ("2 WAY", 0), ("3 min", 0), ("12 V =", 0), ("S1 v", 0),
    ],
)  # fmt: skip
def test_units_are_looked_for_behind_numbers_and_in_brackets(text, words):
    findings = found("unit-misspelt", layout(legend("J1", text, (50, 50, 60, 53))))
    assert sum(len(finding.spellings) for finding in findings) == words


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("THRSHLD", True),
        ("TRIG", False),
        ("THRESHOLD", False),
        ("mVpp", False),
        ("CH 12", False),
        ("VCF SQL Ltr", False),
        ("LFT RGHT", True),
    ],
)
def test_abbreviations_outside_the_list(text, told):
    panel = layout(legend("J1", text, (50, 50, 60, 53)))
    findings = found("abbreviation-unlisted", panel)
    assert [finding.severity for finding in findings] == [Severity.NOTE] * told
    known = survey(panel, abbreviations=frozenset({"THRSHLD", "LFT", "RGHT"}))
    assert list(RULES["abbreviation-unlisted"].findings(known)) == []


# Words without a, e, i, o, u of languages as their dictionaries have them; capitals of other scripts have no Latin
# vowels; units and designations are no words.
@pytest.mark.parametrize(
    ("text", "language", "told"),
    [
        ("СТРТ", "", False),
        ("ΡΥΘΜ", "", False),
        ("הספק", "", False),
        ("شغل", "", False),
        ("ČTVRT", "cs", False),
        ("VRT", "hr", False),
        ("VRT", "de", True),
        ("GRÜN", "de", False),
        ("RS-232", "", False),
        ("TX/RX", "", False),
        ("LFT-RGHT", "", True),
        ("kVAr", "", False),
        ("km/h", "", False),
        ("Hızlı", "tr", False),
        ("DŁŃ", "pl", True),
    ],
)
def test_abbreviations_are_of_latin_words(text, language, told):
    panel = layout(legend("J1", text, (50, 50, 60, 53)), language=language)
    assert bool(found("abbreviation-unlisted", panel)) is told


# Letters of one shape after Unicode's confusables.txt; words of other languages that only look near are in order.
@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("lnput", "'lnput' for 'Input'"),
        ("0utput", "'0utput' for 'Output'"),
        ("0UTPUT 2", "'0UTPUT' for 'OUTPUT'"),
        ("Main Ievel", "'Ievel' for 'Level'"),
        ("Alarrn", "'Alarrn' for 'Alarm'"),
        ("P\u043ewer", "'P\u043ewer' has letters of Cyrillic and Latin: '\u043e' (U+043E, Cyrillic)"),
        ("C\u0442\u043e\u043f", "'C\u0442\u043e\u043f' has letters of Cyrillic and Latin: 'C' (U+0043, Latin)"),
        ("N\u0421", "'N\u0421' has letters of Cyrillic and Latin: '\u0421' (U+0421, Cyrillic)"),
        (
            "T 2 \u0410 L 250 V",
            "'T 2 \u0410 L 250 V' has letters of Cyrillic and Latin: '\u0410' (U+0410, Cyrillic)",
        ),
        ("0ff", "'0ff' for 'Off'"),
        ("0N", "'0N' for 'ON'"),
        ("St0p", "'St0p' for 'Stop'"),
        ("5top", "'5top' for 'Stop'"),
        ("Cl0ck", "'Cl0ck' for 'Clock'"),
        ("Phantorn", "'Phantorn' for 'Phantom'"),
        ("lN", "'lN' for 'In'"),
        ("Mic1", None),
        ("In2", None),
        ("USB 5 \u0412", None),
        ("Input", None),
        ("LN", None),
        ("ln", None),
        ("Dock", None),
        ("Dose", None),
        ("CLIM", None),
        ("Clim", None),
        ("Stop", None),
        ("\u0394T", None),
        ("\u03b8JA", None),
        ("\u0394t", None),
        ("\u03bcF", None),
        ("USB-\u043f\u043e\u0440\u0442", None),
        ("\u041c\u041e\u0429\u041d\u041e\u0421\u0422\u042c", None),
        ("L1", None),
        ("I/O", None),
        ("IO", None),
        ("10", None),
    ],
)
def test_letters_that_only_look_right(text, sentence):
    findings = found("name-misread", layout(legend("J1", text, (50, 50, 60, 53))))
    assert [str(finding.other) for finding in findings] == ([sentence] if sentence else [])


@pytest.mark.parametrize(
    ("first", "second", "told"),
    [
        ("Line 1", "Line I", True),
        ("CH1", "CHl", True),
        ("A0", "AO", True),
        ("Line 1", "Line 2", False),
        ("Close", "Dose", False),
        ("Line", "LINE", False),
        ("L", "I", False),
    ],
)
def test_names_of_one_shape(first, second, told):
    names = (legend("J1", first, (20, 50, 30, 53)), legend("J2", second, (60, 50, 70, 53)))
    assert refs("names-look-alike", layout(*names)) == ([("J2", "J1")] if told else [])


def test_an_emergency_stop_needs_no_words() -> None:
    """ISO 13850 (from memory): red on yellow says what it is; words are not asked for."""
    stop = laid_out("parts: [{ref: S1, part: emergency-stop-22, at: [60, 50]}]")
    assert not found("control-without-name", stop)
    assert found("control-without-name", laid_out("parts: [{ref: S1, part: pushbutton-22, at: [60, 50]}]"))
