"""Numbers in sentences, held against tables worked by hand and against laws.

Rounding: ISO 80000-1:2009, annex B: rule B for halves, in one step, and in one direction always where a limit must be
kept. Tables on both sides of every half and of every change of digits.
"""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from panelart.messages import figures

NUMBER = re.compile(r"-?\d+(\.\d+)?")
UNITS = st.sampled_from(["mm", "ratio", "percent", "deg", "arcmin"])
LENGTHS = st.floats(-5000.0, 5000.0)
THOUSANDTHS = st.integers(-3_000_000, 3_000_000).map(lambda steps: steps / 1000)
SMALL = st.floats(-1e-3, 1e-3)
VALUES = st.one_of(LENGTHS, THOUSANDTHS, SMALL)
HALF_STEP = Decimal("5e-7")
"""Half a step of the last digit that counts: what differs by no more is the same."""

NOISE = Decimal("1e-8")
"""About the borders of a law: what the computation of a difference may lose."""


def read(text: str) -> Decimal:
    """The number in a text."""
    found = NUMBER.match(text)
    assert found, text
    return Decimal(found[0])


def apart(one: float, other: float) -> Decimal:
    return abs(Decimal(repr(one)) - Decimal(repr(other)))


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (2.0, "2.00 mm"), (2.3, "2.30 mm"), (12.345, "12.35 mm"), (12.3449, "12.34 mm"), (12.3451, "12.35 mm"),
        # Halves, on the number as it is written: its binary neighbour is below (2.675, 1.005) or above (0.285).
        (0.345, "0.35 mm"), (0.355, "0.36 mm"), (2.675, "2.68 mm"), (1.005, "1.01 mm"), (0.285, "0.29 mm"),
        (-0.345, "-0.35 mm"), (-2.675, "-2.68 mm"), (0.125, "0.13 mm"), (0.375, "0.38 mm"), (1e3 + 0.125, "1000.13 mm"),
        # Noise of a computation is no reason to round the other way.
        (0.1 + 0.2, "0.30 mm"), (0.345 - 2e-10, "0.35 mm"), (0.345 - 2e-9, "0.34 mm"),
        (4.35 * 100 / 100, "4.35 mm"), (1.1 * 1.1, "1.21 mm"),
        # A small value keeps one digit at least, and no value is doubled by rounding.
        (0.01, "0.01 mm"), (0.0099, "0.010 mm"), (0.005, "0.005 mm"), (0.0049, "0.005 mm"), (0.0012, "0.001 mm"),
        (0.0009, "0.0009 mm"), (0.00004, "0.00004 mm"), (0.000001, "0.000001 mm"), (0.0000006, "0.0000006 mm"),
        (-0.005, "-0.005 mm"), (-0.0099, "-0.010 mm"),
        # Nothing is nothing, without a sign.
        (0.0, "0 mm"), (-0.0, "0 mm"), (4e-7, "0 mm"), (-4e-7, "0 mm"), (5e-7, "0 mm"),
        (4999.99, "4999.99 mm"), (4999.995, "5000.00 mm"), (123456.789, "123456.79 mm"),
        (float("inf"), "inf mm"),
    ],
)  # fmt: skip
def test_measured(value, shown):
    assert figures.measured(value, "mm") == shown


@pytest.mark.parametrize(
    ("value", "limit", "unit", "shown", "bound"),
    [
        (0.28, 0.3, "mm", "0.28 mm", "0.30 mm"),
        (0.5, 2.0, "mm", "0.50 mm", "2.00 mm"),
        # Two decimals would read the same.
        (0.349, 0.35, "mm", "0.349 mm", "0.350 mm"),
        (0.345, 0.35, "mm", "0.345 mm", "0.350 mm"),
        (0.3449, 0.35, "mm", "0.34 mm", "0.35 mm"),
        (0.351, 0.35, "mm", "0.351 mm", "0.350 mm"),
        (1.9999, 2.0, "mm", "1.9999 mm", "2.0000 mm"),
        (1.99999, 2.0, "mm", "1.99999 mm", "2.00000 mm"),
        (1.999999, 2.0, "mm", "1.999999 mm", "2.000000 mm"),
        (1.9999994, 2.0, "mm", "1.999999 mm", "2.000000 mm"),
        (0.9999996, 1.0000003, "mm", "0.9999996 mm", "1.0000003 mm"),
        (2.0000012, 2.0, "mm", "2.000001 mm", "2.000000 mm"),
        # What is no further apart than half a millionth is the same, on whichever side of a half it lies.
        (1.9999996, 2.0, "mm", "2.00 mm", "2.00 mm"),
        (2.0, 2.0, "mm", "2.00 mm", "2.00 mm"),
        (0.3449998, 0.345, "mm", "0.345 mm", "0.345 mm"),
        (0.3349998, 0.3350001, "mm", "0.34 mm", "0.34 mm"),
        # A limit from a table is not rounded; one that was computed is.
        (0.1, 0.125, "mm", "0.100 mm", "0.125 mm"),
        (3.0, 3.175, "mm", "3.000 mm", "3.175 mm"),
        (2.0, 2.4384, "mm", "2.00 mm", "2.44 mm"),
        (0.1, 1 / 3, "mm", "0.10 mm", "0.33 mm"),
        # Nothing beside something.
        (0.0, 0.4, "mm", "0.00 mm", "0.40 mm"),
        (0.1, 0.0, "mm", "0.10 mm", "0.00 mm"),
        (-0.1, 0.0, "mm", "-0.10 mm", "0.00 mm"),
        (0.003, 0.0, "mm", "0.003 mm", "0.000 mm"),
        (-4e-7, 0.0, "mm", "0 mm", "0 mm"),
        (-6e-7, 0.0, "mm", "-0.0000006 mm", "0.0000000 mm"),
        # Other units.
        (1.0, 1.25, "ratio", "1.00", "1.25"),
        (89.996, 90.0, "deg", "89.996°", "90.000°"),
        (99.99, 100.0, "percent", "99.99 %", "100.00 %"),
        (15.4, 16.0, "arcmin", "15.40 arcmin", "16.00 arcmin"),
        (13, 12, "count", "13", "12"),
        (12, 12, "count", "12", "12"),
        (float("inf"), 5.0, "mm", "inf mm", "5.00 mm"),
        (float("nan"), 5.0, "mm", "nan mm", "5.00 mm"),
        (float("inf"), float("inf"), "mm", "inf mm", "inf mm"),
    ],
)  # fmt: skip
def test_compared(value, limit, unit, shown, bound):
    assert figures.compared(value, limit, unit) == (shown, bound)


@pytest.mark.parametrize(
    ("value", "reached", "kept"),
    [
        (2.0, "2.00 mm", "2.00 mm"), (2.001, "2.01 mm", "2.00 mm"), (2.009, "2.01 mm", "2.00 mm"),
        (0.345, "0.35 mm", "0.34 mm"), (0.125, "0.13 mm", "0.12 mm"), (3.1, "3.10 mm", "3.10 mm"),
        (0.1 + 0.2, "0.30 mm", "0.30 mm"),  # 0.30000000000000004: noise is not a reason for 0.31
        (1.1 * 3, "3.30 mm", "3.30 mm"), (0.7 + 0.1, "0.80 mm", "0.80 mm"), (4.35 / 3, "1.45 mm", "1.45 mm"),
        (-0.341, "-0.34 mm", "-0.35 mm"), (-2.0, "-2.00 mm", "-2.00 mm"),
        (0.0, "0 mm", "0 mm"), (4e-7, "0 mm", "0 mm"), (-4e-7, "0 mm", "0 mm"),
        (0.0042, "0.005 mm", "0.004 mm"), (-0.0042, "-0.004 mm", "-0.005 mm"),
        (0.0000012, "0.000002 mm", "0.000001 mm"),
    ],
)  # fmt: skip
def test_what_must_be_kept_is_rounded_to_the_safe_side(value, reached, kept):
    assert (figures.at_least(value, "mm"), figures.at_most(value, "mm")) == (reached, kept)


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (12.0, "12"), (0.35, "0.35"), (-4.5, "-4.5"), (100.0, "100"), (0.0, "0"), (-0.0, "0"), (1200, "1200"),
        (1 / 3, "0.333333"), (2 / 3, "0.666667"), (0.1 + 0.2, "0.3"), (1e-7, "0"), (-1e-7, "0"), (5e-7, "0.000001"),
        (359.9999999, "360"), (123456.789, "123456.789"), (12345.123456, "12345.123456"),
        (1e10, "10000000000"), (1e-6, "0.000001"), (482.6, "482.6"), (float("inf"), "inf"),
        (123456789012345.5, "123456789012345.5"), (1e15, "1e+15"), (-1e200, "-1e+200"),
    ],
)  # fmt: skip
def test_plain(value, shown):
    assert figures.plain(value) == shown


@pytest.mark.parametrize(
    ("unit", "behind"), [("mm", " mm"), ("percent", " %"), ("deg", "°"), ("ratio", ""), ("count", ""), ("", "")]
)
def test_units(unit, behind):
    assert figures.unit_behind(unit) == behind


@given(VALUES, VALUES, UNITS)
def test_a_value_and_its_limit_read_differently_if_and_only_if_they_differ(value, limit, unit):
    distance = apart(value, limit)
    assume(abs(distance - HALF_STEP) > NOISE)
    shown, bound = figures.compared(value, limit, unit)
    assert (shown != bound) is (distance > HALF_STEP)


@given(VALUES, st.floats(-3e-6, 3e-6), UNITS)
def test_so_do_a_limit_and_a_value_close_to_it(limit, off, unit):
    value = limit + off
    distance = apart(value, limit)
    assume(abs(distance - HALF_STEP) > NOISE)
    shown, bound = figures.compared(value, limit, unit)
    assert (shown != bound) is (distance > HALF_STEP)


@given(VALUES, VALUES)
def test_the_order_of_what_is_shown_is_that_of_the_values(value, limit):
    shown, bound = (read(text) for text in figures.compared(value, limit, "mm"))
    assert shown == bound or (shown < bound) is (value < limit)


@given(VALUES, UNITS)
def test_what_is_shown_is_off_by_half_a_step_and_never_by_half_of_itself(value, unit):
    shown = read(figures.measured(value, unit))
    off = abs(shown - Decimal(repr(value)))
    assert off <= Decimal("0.005") + NOISE
    assert off <= abs(Decimal(repr(value))) / 2 + HALF_STEP + NOISE


@given(VALUES, UNITS)
def test_who_does_what_a_remedy_says_is_on_the_safe_side(value, unit):
    exact = Decimal(repr(value))
    assert exact - Decimal("1e-6") <= read(figures.at_least(value, unit)) < exact + Decimal("0.01") + NOISE
    assert exact + Decimal("1e-6") >= read(figures.at_most(value, unit)) > exact - Decimal("0.01") - NOISE


@given(VALUES)
def test_up_and_down_are_mirror_images(value):
    assert read(figures.at_least(value, "mm")) == -read(figures.at_most(-value, "mm"))
    assert read(figures.measured(value, "mm")) == -read(figures.measured(-value, "mm"))


@given(VALUES)
def test_what_was_rounded_is_not_rounded_again(value):
    for write in (figures.measured, figures.at_least, figures.at_most):
        once = write(value, "mm")
        assert read(write(float(read(once)), "mm")) == read(once)


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-1e12, max_value=1e12))
def test_a_plain_number_reads_back_and_has_no_noise(value):
    text = figures.plain(value)
    assert re.fullmatch(r"-?(0|[1-9]\d*)(\.\d{0,5}[1-9])?", text)
    assert text != "-0"
    assert abs(Decimal(text) - Decimal(repr(value))) <= HALF_STEP + NOISE


@given(VALUES, VALUES, UNITS)
def test_a_negative_zero_is_never_shown(value, limit, unit):
    texts = (*figures.compared(value, limit, unit), figures.at_least(value, unit), figures.at_most(value, unit))
    assert not [text for text in texts if re.match(r"-0(\.0*)?(?![\d.])", text)]
