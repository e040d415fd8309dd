"""Lengths and angles as text, against figures that standards define exactly."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelart import units


# An inch is 25.4 mm by the international agreement of 1959; a point is 1/72 inch (ISO 32000); 1U is 44.45 mm and
# 1HP is 5.08 mm (IEC 60297-3-100 and -101). 9.525, 3.175 and 6.35 are the metric sizes of 3/8, 1/8 and 1/4 inch that
# tables of inch threads print (common practice).
@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("3.2 mm", 3.2),
        ("3.2mm", 3.2),
        ("3.2", 3.2),
        (" 3.2 ", 3.2),
        ("-4", -4.0),
        ("+4", 4.0),
        (".5", 0.5),
        ("5.", 5.0),
        ("1e3", 1000.0),
        ("1.5 cm", 15.0),
        ("1/8 in", 3.175),
        ("3/8in", 9.525),
        ('1/4"', 6.35),
        ("1 1/2 in", 38.1),
        ("1-1/2 in", 38.1),
        ('-1 1/2"', -38.1),
        ('0.5"', 12.7),
        ("1 inch", 25.4),
        ("20 thou", 0.508),
        ("20 mil", 0.508),
        ("72 pt", 25.4),
        ("9 pt", 3.175),
        ("1U", 44.45),
        ("2U", 88.9),
        ("2 u", 88.9),
        ("14HP", 71.12),
        ("84 HP", 426.72),
        ("10 MM", 10.0),
        ("2 1/4", 2.25),
    ],
)
def test_a_length_is_read_to_the_nearest_float(text: str, millimetres: float) -> None:
    assert units.length(text) == millimetres


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "not-a-length"),
        ("wide", "not-a-length"),
        ("mm", "not-a-length"),
        ("3 4", "not-a-length"),
        ("3,2 mm", "not-a-length"),
        ("1/2/3 in", "not-a-length"),
        ("nan", "not-a-length"),
        ("inf", "not-a-length"),
        ("-inf mm", "not-a-length"),
        ("3 mm mm", "not-a-length"),
        ("٣ mm", "not-a-length"),
        ("1" * 61, "not-a-length"),
        ("1 1/0 in", "division-by-zero"),
        ("1e999", "too-large"),
        ("3 furlong", "unknown-unit-of-length"),
    ],
)
def test_what_is_no_length_is_refused_and_the_accepted_forms_are_named(text: str, said: str) -> None:
    with pytest.raises(units.UnitError, match="Accepted: a number of millimetres") as refusal:
        units.length(text)
    assert refusal.value.says.id == f"units.{said}"
    assert refusal.value.accepts.id == "units.lengths"
    assert all(value in (text, "furlong") for _, value in refusal.value.says.arguments)


@pytest.mark.parametrize(
    ("text", "nearest"),
    [("3 mmm", "mm"), ("3 inchs", "inches"), ("2 HPs", "HP"), ("5 thous", "thou"), ("5 mils", "mil")],
)
def test_the_nearest_unit_is_suggested(text: str, nearest: str) -> None:
    with pytest.raises(units.UnitError, match=f"Did you mean '{nearest}'") as refusal:
        units.length(text)
    assert dict(refusal.value.accepts.arguments)["name"] == nearest


def test_no_unit_is_suggested_for_a_word_that_resembles_none() -> None:
    with pytest.raises(units.UnitError, match="Accepted") as refusal:
        units.length("3 furlong")
    assert "Did you mean" not in str(refusal.value)


@pytest.mark.parametrize(
    ("value", "degrees"),
    [(30, 30.0), (-12.5, -12.5), ("30", 30.0), ("30 deg", 30.0), ("30°", 30.0), ("1 degree", 1.0), ("22 1/2", 22.5)],
)
def test_an_angle_is_read_in_degrees(value: str | float, degrees: float) -> None:
    assert units.angle(value) == degrees


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, "nan", "30 rad", "", "30 mm"])
def test_what_is_no_angle_is_refused(value: str | float) -> None:
    with pytest.raises(units.UnitError, match="Accepted: a number of degrees"):
        units.angle(value)


def test_the_constants_agree_with_what_is_read() -> None:
    read = [units.length(text) for text in ("1 in", "1 pt", "1U", "1HP")]
    assert read == [units.INCH, units.POINT, units.RACK_UNIT, units.HORIZONTAL_PITCH]


@given(st.floats(-1e6, 1e6))
def test_a_bare_number_comes_back_as_it_was_written(value: float) -> None:
    assert units.length(repr(value)) == value


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    try:
        value = units.length(text)
    except units.UnitError as refusal:
        said = str(refusal)
    else:
        said = f"Accepted: {value}" if math.isfinite(value) else ""
    assert "Accepted: " in said
