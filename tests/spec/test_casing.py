"""Legends in capitals; the symbols of units as the SI Brochure (9th edition) writes them stay as they are."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart.spec.casing import SYMBOLS, capitals, stay_as_written


def in_capitals(text: str) -> str:
    return "".join(capitals(text, stay_as_written(text, (False,) * len(text))))


@pytest.mark.parametrize(
    ("written", "set_as"),
    [
        ("Output", "OUTPUT"),
        ("Output 12 mV", "OUTPUT 12 mV"),
        ("5kHz", "5kHz"),
        ("gain dB", "GAIN dB"),
        ("gain (dB)", "GAIN (dB)"),
        ("pressure (bar)", "PRESSURE (bar)"),
        ("bar", "BAR"),
        ("speed m/s", "SPEED m/s"),
        ("speed m/s²", "SPEED m/s²"),
        ("on/off", "ON/OFF"),
        ("line in", "LINE IN"),
        ("1/2 in.", "1/2 in."),
        ("10 MΩ range", "10 MΩ RANGE"),
        ("0.5 µF", "0.5 µF"),
        ("0.5 uF", "0.5 uF"),
        ("µP reset", "µP RESET"),
        ("°C", "°C"),
        ("10 min max", "10 min MAX"),
        ("2 pm", "2 PM"),
        ("-20dB pad", "-20dB PAD"),
        ("mute", "MUTE"),
        ("Straße", "STRASSE"),
        ("größe", "GRÖSSE"),
        ("ON", "ON"),
        ("two\nlines", "TWO\nLINES"),
        ("a  b", "A  B"),
        ("250 Vac, 50 Hz", "250 Vac, 50 Hz"),
        ("", ""),
    ],
)
def test_capitals(written: str, set_as: str) -> None:
    assert in_capitals(written) == set_as


@given(st.sampled_from(sorted(SYMBOLS)), st.sampled_from(["3 ", "3", "0.5 ", "-10 "]))
def test_a_symbol_after_a_number_stays(symbol: str, number: str) -> None:
    assert in_capitals(number + symbol) == number + symbol


@given(st.text())
def test_setting_in_capitals_again_changes_nothing_and_keeps_the_white_space(text: str) -> None:
    once = in_capitals(text)
    assert in_capitals(once) == once
    assert [letter for letter in once if letter.isspace()] == [letter for letter in text if letter.isspace()]
