"""Positions: opposites by IEC 60447 and MIL-STD-1472E, values compared as quantities of the SI."""

from __future__ import annotations

import pytest

from panelart.diagnostics import Severity
from panelart.model.motion import MotionKind
from panelart.pipeline import lay_out
from panelart.spec.read import panel_from_text
from panelart.texts.opposites import LANGUAGES
from tests.checks.builders import control, layout, part, positions
from tests.checks.cases import found, refs


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
    panel = layout(part("S1", control(MotionKind.LEVER), positions=positions(**texts), turn=turn))
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
    toggle = control(MotionKind.LEVER)
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
    panel = layout(part("S1", control(MotionKind.TURN), positions=positions(**texts)))
    assert bool(found("positions-run-backwards", panel)) is told


def _rotary(*texts, first=150.0, step=30.0, language=""):
    """A rotary switch whose positions go clockwise from an angle."""
    ways = {f"a{(first - step * number) % 360:g}": text for number, text in enumerate(texts)}
    return layout(part("S1", control(MotionKind.TURN), positions=positions(**ways)), language=language)


# Off above On, as makers print the words (common practice); less is the first.
REVERSED = [
    ("en", "OFF", "ON"), ("de", "AUS", "EIN"), ("fr", "ARRÊT", "MARCHE"), ("es", "Apagado", "Encendido"),
    ("it", "Spento", "Acceso"), ("pt", "Desligado", "Ligado"), ("nl", "UIT", "AAN"), ("sv", "FRÅN", "TILL"),
    ("da", "FRA", "TIL"), ("nb", "AV", "PÅ"), ("fi", "ALAS", "YLÖS"), ("pl", "WYŁ.", "ZAŁ."), ("cs", "VYP", "ZAP"),
    ("hu", "KI", "BE"), ("tr", "KAPALI", "AÇIK"), ("el", "ΚΆΤΩ", "ΠΆΝΩ"), ("ru", "ВЫКЛ", "ВКЛ"), ("he", "כבוי", "פועל"),
    ("ar", "إيقاف", "تشغيل"), ("ja", "切", "入"), ("zh", "关", "开"), ("uk", "ВИМК", "УВІМК"), ("bg", "ИЗКЛ", "ВКЛ"),
    ("sr", "ИСКЉ", "УКЉ"), ("hr", "ISKLJ", "UKLJ"), ("sl", "DOL", "GOR"), ("sk", "Menej", "Viac"), ("ro", "Jos", "Sus"),
    ("ko", "정지", "시작"), ("fa", "خاموش", "روشن"), ("hi", "नीचे", "ऊपर"),
]  # fmt: skip


def test_the_words_are_of_every_language_that_is_known():
    assert {language for language, _, _ in REVERSED} == set(LANGUAGES)


@pytest.mark.parametrize(("language", "less", "more"), REVERSED)
def test_what_is_reversed_is_found_in_each_language(language, less, more):
    for lower, upper, told in ((more, less, 1), (less, more, 0)):
        switch = part("S1", control(MotionKind.LEVER), positions=positions(up=upper, down=lower))
        findings = found("switch-against-convention", layout(switch, language=language))
        assert [str(finding.other) for finding in findings] == [f"'{more}' is below '{less}'"] * told


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        ({"left": "RIGHT", "right": "LEFT"}, ["'RIGHT' is to the left of 'LEFT'"]),
        ({"up": "LEFT", "down": "RIGHT"}, []),  # has no order one above the other
        ({"left": "HOT", "right": "COLD"}, []),  # as taps have it
        ({"up": "COLD", "down": "HOT"}, ["'HOT' is below 'COLD'"]),
        ({"up": "AUTO", "centre": "OFF", "down": "ON"}, []),
        ({"up": "ON", "centre": "OFF", "down": "ON"}, []),
        ({"up": "IN", "down": "OUT"}, []),
        ({"up": "MIN", "centre": "OFF", "down": "MAX"}, ["'MAX' is below 'MIN'"]),
    ],
)
def test_pairs_that_have_an_order_there_and_those_that_have_none(texts, told):
    panel = layout(part("S1", control(MotionKind.LEVER), positions=positions(**texts)))
    assert [str(finding.other) for finding in found("switch-against-convention", panel)] == told


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        (("Off", "On"), []),
        (("On", "Off"), ["'On' is anticlockwise of 'Off'"]),
        (("Hand", "Off", "Auto"), []),
        (("Shut", "Open"), []),
        (("Open", "Shut"), []),
    ],
)
def test_what_turns_is_more_clockwise(texts, told):
    # IEC 60447: clockwise is an increase.
    assert [str(one.other) for one in found("switch-against-convention", _rotary(*texts, first=120))] == told


RULES = ("positions-run-backwards", "positions-unordered", "position-repeated", "position-step-missing")


# Rows as instruments have them (common practice), and each slip that is told, with the rule's last word.
@pytest.mark.parametrize(
    ("texts", "told"),
    [
        (("1", "2", "3"), {}),
        (("3", "2", "1"), {"backwards": "3, 2, 1"}),
        (("1", "0", "2"), {}),
        (("2", "1", "0", "1", "2"), {}),
        (("10 A", "1 A", "100 mA"), {}),
        (("100 mA", "1 A", "10 A"), {}),
        (("10", "100", "1 k"), {}),
        (("1 k", "100", "10"), {}),
        (("100", "10", "1 k"), {"unordered": "100, 10, 1 k"}),
        (("1 A", "10 mA", "100 mA"), {"unordered": "1 A, 10 mA, 100 mA"}),
        (("5 V/div", "2 V/div", "1 V/div", "500 mV/div"), {}),
        (("30 V", "20 V", "10 V", "0"), {"backwards": "30 V, 20 V, 10 V, 0"}),
        (("0", "-10", "-20"), {"backwards": "0, -10, -20"}),
        (("\u221220 dB", "\u221210 dB", "0 dB"), {}),
        (("Off", "10 °C", "20 °C", "30 °C"), {}),
        (("0", "10 °C", "20 °C"), {}),
        (("×1", "×10", "×100"), {}),
        (("×10", "×1", "×100"), {"unordered": "×10, ×1, ×100"}),
        (("10", "20", "30 V"), {}),
        (("CH 1", "CH 2", "CH 3"), {}),
        (("CH 3", "CH 2", "CH 1"), {"backwards": "CH 3, CH 2, CH 1"}),
        (("1\u20132", "3\u20134", "5\u20136", "Mix"), {}),
        (("5\u20136", "3\u20134", "1\u20132", "Mix"), {"backwards": "5\u20136, 3\u20134, 1\u20132"}),
        (("1", "2", "1+2"), {}),
        (("2 V", "20 V", "200 V", "20 mA", "200 mA", "2 A", "2 k\u03a9"), {}),
        (("10 mA", "100 mA", "0.01 A"), {"repeated": "'10 mA' and '0.01 A'"}),
        (("Off", "On", "Off", "On"), {"repeated": "'On' and 'On'"}),
        (("Off", "Low", "Off", "High"), {}),
        (("1 mA", "10 mA", "1 A", "10 A"), {"missing": "'10 mA' and '1 A'"}),
        (("10 A", "1 A", "10 mA", "1 mA"), {"missing": "'10 mA' and '1 A'"}),
        (("1", "2", "5", "10", "50", "100"), {"missing": "'10' and '50'"}),
        (("1", "2", "5", "10", "20", "50", "100"), {}),
        (("1", "10", "1 k"), {}),  # too few to be sure of decades
        (("1", "2", "10", "20"), {}),
        (("1", "2", "3", "5"), {}),
        (("Line", "Tape", "Phono"), {}),
    ],
)
def test_values_round_a_control(texts, told):
    panel = _rotary(*texts)
    findings = {rule.rpartition("-")[2]: found(rule, panel) for rule in RULES}
    assert {rule: [str(one.other) for one in each] for rule, each in findings.items() if each} == {
        rule: [other] for rule, other in told.items()
    }


def test_a_row_that_closes_a_circle_begins_anywhere():
    for texts, told in ((("2", "3", "4", "1"), False), (("1", "4", "3", "2"), True)):
        panel = _rotary(*texts, first=90, step=90)
        assert bool(found("positions-run-backwards", panel)) is told
        assert found("positions-unordered", panel) == []
    (finding,) = found("positions-run-backwards", _rotary("1", "4", "3", "2", first=90, step=90))
    assert str(finding.other) == "4, 3, 2, 1"


def test_two_positions_are_seen_from_the_foot_of_the_part():
    # The pointer goes over the top of the part: of one that is turned upside down, through the bottom of the panel.
    for turn, told in ((0, []), (180, ["'On' is anticlockwise of 'Off'"])):
        switch = part("S1", control(MotionKind.TURN), positions=positions(a240="Off", a300="On"), turn=turn)
        assert [str(one.other) for one in found("switch-against-convention", layout(switch))] == told
    # From straight down to straight up it may turn either way.
    either = part("S1", control(MotionKind.TURN), positions=positions(a270="On", a90="Off"))
    assert found("switch-against-convention", layout(either)) == []


@pytest.mark.parametrize(("turn", "told"), [(0, 0), (180, 1), (90, 1), (-90, 0)])
def test_values_of_a_lever_are_judged_as_it_is_mounted(turn, told):
    # MIL-STD-1472E, 5.4.1.2.1: more is up and to the right; turned by 90 degrees, up is left.
    lever = control(MotionKind.LEVER)
    switch = part("S1", lever, positions=positions(up="15 V", centre="10 V", down="5 V"), turn=turn)
    assert len(found("switch-against-convention", layout(switch))) == told


def test_one_temperature_in_two_scales_is_no_repeat():
    for texts, told in ((("0 °C", "32 °F"), []), (("0 °C", "273.15 K"), []), (("1 V", "1000 mV"), [("S1",)])):
        assert refs("position-repeated", _rotary(*texts)) == told


def test_two_positions_of_a_lever_alike():
    for lower, told in (("MUTE", [("S1",)]), ("ON", [])):
        switch = part("S1", control(MotionKind.LEVER), positions=positions(up="Mute", down=lower))
        assert refs("position-repeated", layout(switch)) == told


CAPITALS = """\
panelart: 1
panel:
  title: Trial
  size: [120, 100]
  sheet: {material: aluminium 5754, thickness: 2}
  coat: {kind: none, colour: "#FFFFFF"}
marking:
  process: digital-print
  ink: {name: black, colour: "#000000"}
  lettering: {cap_height: 3, case: upper}
  viewing_distance: 500
parts: [{ref: S1, part: toggle-12, at: [60, 50], positions: {up: "UPPER", down: "LOWER"}}]
"""


@pytest.mark.parametrize(
    ("upper", "lower", "told"),
    [
        ("1 mW", "1 MW", False),  # a thousand million apart: SI Brochure, 9th edition, 5.2
        ("ms", "mS", False),  # milliseconds and millisiemens
        ("MS", "ms", True),  # MS may be milliseconds
        ("Mute", "MUTE", True),
        ("{unit ms}", "{word ms}", False),  # printed ms and MS
        ("{unit ms}", "ms", True),
        ("{word ms}", "{word MS}", True),
    ],
)
def test_positions_that_differ_in_capitals_alone(upper, lower, told):
    spec = CAPITALS.replace("UPPER", upper).replace("LOWER", lower)
    assert bool(found("position-repeated", lay_out(panel_from_text(spec)))) is told


def test_a_step_that_is_missing_is_a_note():
    (finding,) = found("position-step-missing", _rotary("1", "10", "1 k", "10 k"))
    assert finding.severity is Severity.NOTE
