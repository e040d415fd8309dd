"""Better signs and spaces: each by a convention, none that changes what a text means, and no names or ratings."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelart.texts.parse import parse
from panelart.texts.signs import NO_BREAK, THIN, Convention, better, only_amounts
from tests.effort import examples, some
from tests.texts.test_table import TEXTS

S = THIN

IMPROVED = [
    # SI Brochure, 9th edition, 5.4.3: 'a space is always used to separate the unit from the number'; 5.4.7 for %
    ("10mA", f"10{S}mA", Convention.SPACE),
    ("0,5kΩ", f"0,5{S}kΩ", Convention.SPACE),
    ("20°C", f"20{S}°C", Convention.SPACE),
    ("50%", f"50{S}%", Convention.SPACE),
    ("10ms/div", f"10{S}ms/div", Convention.SPACE),
    ("Trigger 5V", f"Trigger 5{S}V", Convention.SPACE),
    ("-5", "\u22125", Convention.MINUS),
    ("CV -5 V", f"CV \u22125{S}V", Convention.MINUS),
    ("-5...+5 V", f"\u22125...+5{S}V", Convention.MINUS),
    ("3x4", "3×4", Convention.TIMES),
    ("30X20 mm", f"30×20{S}mm", Convention.TIMES),
    ("2 x 5 A", f"2 × 5{S}A", Convention.TIMES),
    ("x10", "×10", Convention.TIMES),
    ("+/-5 %", f"±5{S}%", Convention.PLUS_MINUS),
    ("23 +/- 2 °C", f"23 ± 2{S}°C", Convention.PLUS_MINUS),
    ("5-10 kΩ", f"5–10{S}kΩ", Convention.DASH),
    ("CH 1-4", "CH 1–4", Convention.DASH),
    ("12 V =", f"12{S}V \u2393", Convention.DIRECT_CURRENT),
    ("12V=", f"12{S}V{S}\u2393", Convention.DIRECT_CURRENT),
    ("10 uA", f"10{S}µA", Convention.MICRO),
    ("4.7uF", f"4.7{S}µF", Convention.MICRO),
    ("(uV)", "(µV)", Convention.MICRO),
    ("5 A/mm2", f"5{S}A/mm²", Convention.POWER),
    ("9.81 m/s2", f"9.81{S}m/s²", Convention.POWER),
    ("2 m^3/h", f"2{S}m³/h", Convention.POWER),
    ("10 \u03bcs", f"10{S}µs", Convention.ONE_CODE),
    ("10 k\u2126", f"10{S}kΩ", Convention.ONE_CODE),
]

LEFT = [
    "T1AL250V", "fuse 2A T",  # ratings of fuses
    "230 V~", "100-240V~ 50/60Hz", "24V 2A", "12V=\n2A", "IP65 5V",  # rating plates
    "RS-232", "SW-12", "DB-9", "M4x10", "M12", "XLR-3", "V1.2.3",  # designations
    "74-138", "1-2",  # may be a model's number
    "1-0-2", "A-B", "3D", "10k", "4k7",
    "90°", "5'", '5/8"',  # SI Brochure, 5.4.3: no space before the signs of plane angle
    "-0", "-0.0", "F -1 A", "T -2 A",  # nought has no sign; a fuse with a wrong current is one still
    "um", "us", "UA 741", "3 PH", "M2", "CH2",
    "LINE IN", "ρεύμα", "±5 V".replace(" ", S), f"10{S}mA", "",
]  # fmt: skip


@pytest.mark.parametrize(("text", "wanted", "convention"), IMPROVED)
def test_better_signs_are_offered_by_a_convention(text: str, wanted: str, convention: Convention) -> None:
    offered = better(text)
    assert offered.text == wanted
    assert convention in {each for change in offered.changes for each in change.conventions}
    assert better(wanted).text == wanted


@pytest.mark.parametrize("text", LEFT)
def test_ratings_designations_and_what_is_right_stay(text: str) -> None:
    assert better(text).text == text
    assert not better(text).changes


def test_only_what_the_font_has_is_offered() -> None:
    assert better("10mA", has=lambda character: character != THIN).text == f"10{NO_BREAK}mA"
    assert better("10 mA", has=lambda character: character != THIN).text == "10 mA"
    assert better("12 V =", has=str.isascii).text == "12 V ="
    assert better("-5V", has=lambda character: character == "\u2212").text == "\u22125V"


def test_changes_are_the_difference() -> None:
    text = "A 10mA, -5 V"
    offered = better(text)
    at, pieces = 0, []
    for change in offered.changes:
        assert text[change.start : change.end] == change.written
        pieces += [text[at : change.start], change.meant]
        at = change.end
    assert "".join([*pieces, text[at:]]) == offered.text


def test_every_convention_is_met() -> None:
    assert set(Convention) == {convention for _, _, convention in IMPROVED}


def test_a_text_of_amounts_has_no_words() -> None:
    assert only_amounts("10mA")
    assert only_amounts("3x4")
    assert not only_amounts("Supply 12V")
    assert not only_amounts("SW-12")


@pytest.mark.parametrize("text", some(sorted(map(str, TEXTS)), 120))
def test_no_text_of_the_table_changes_its_meaning(text: str) -> None:
    offered = better(text).text
    assert list(parse(offered).meanings()) == list(parse(text).meanings())
    assert better(offered).text == offered


@settings(max_examples=examples(300), deadline=None)
@given(st.text(alphabet="0123456789 -+/xVAmkΩµ\u2126\u03bc=~°C%.,…–\n", max_size=14))
def test_no_made_up_text_changes_its_meaning(text: str) -> None:
    offered = better(text).text
    assert list(parse(offered).meanings()) == list(parse(text).meanings())
    assert "".join(offered.split()).translate(PLAIN) == "".join(text.replace("+/-", "±").split()).translate(PLAIN)


PLAIN = str.maketrans(
    {"\u2212": "-", "–": "-", "×": "x", "\u2393": "=", "\u2126": "Ω", "\u03bc": "µ", "²": "2", "³": "3"}
)
"""Signs as keyboards have them."""
