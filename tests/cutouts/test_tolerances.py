"""General tolerances against ISO 2768-1."""

from __future__ import annotations

import itertools
import math

import pytest

from panelart.cutouts.tolerances import hole_grade, linear, opening
from panelart.model.making import Making, serials


@pytest.mark.parametrize(
    ("nominal", "grade", "deviation"),
    [
        (30, "m", 0.2), (30.01, "m", 0.3), (482.6, "m", 0.8), (5, "c", 0.3), (0.5, "f", 0.05), (3, "f", 0.05),
        (3, "v", None), (6, "m", 0.1), (6.01, "m", 0.2), (120, "f", 0.15), (400, "v", 2.5), (2500, "f", None),
        (0.4, "m", None), (5000, "m", None),
    ],
)  # fmt: skip
def test_iso_2768_1(nominal: float, grade: str, deviation: float | None) -> None:
    """ISO 2768-1 table 1: bands are over .. up to and including; below 0.5 the deviation is written at the size."""
    assert linear(nominal, grade) == deviation


@pytest.mark.parametrize(
    ("nominal", "grade", "plus"),
    [
        (3, "m", 0.14), (3.4, "m", 0.18), (6, "m", 0.18), (6.4, "m", 0.22), (12.2, "m", 0.27), (22.3, "m", 0.33),
        (45, "m", 0.39), (92, "m", 0.54), (3.2, "f", 0.12), (12.2, "f", 0.18), (12.2, "c", 0.43), (92, "c", 0.87),
        (12.2, "v", 0.43), (300, "c", 1.3), (400, "m", 0.89),
    ],
)  # fmt: skip
def test_openings_are_to_the_h_classes_of_iso_273(nominal: float, grade: str, plus: float) -> None:
    """ISO 286-1 table 1, IT12 to IT14; ISO 273 has fine H12, medium H13, coarse H14."""
    assert opening(nominal, grade) == (0.0, plus)


def test_the_h_classes_follow_the_formula_of_the_standard() -> None:
    """ISO 286-1: IT12, IT13 and IT14 are 160, 250 and 400 i, with i = 0.45 cbrt(D) + 0.001 D um up to 500 mm and
    I = 0.004 D + 2.1 above, D the geometric mean of the band; the table is that, rounded to steps of up to a tenth."""
    bands = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150]
    for over, up_to in itertools.pairwise(bands):
        mean = math.sqrt(over * up_to)
        unit = 0.45 * mean ** (1 / 3) + 0.001 * mean if up_to <= 500 else 0.004 * mean + 2.1
        for grade, units in (("f", 160), ("m", 250), ("c", 400)):
            (minus, plus), by_formula = opening(up_to, grade), units * unit / 1000
            assert minus == 0.0
            assert plus == pytest.approx(by_formula, rel=0.05)
    assert opening(3151, "m") is None


def test_the_class_of_openings_goes_with_the_general_class() -> None:
    assert [hole_grade(grade) for grade in "fmcv"] == ["H12", "H13", "H14", "H14"]


@pytest.mark.parametrize(
    ("first", "quantity", "last"),
    [("A0007", 25, "A0031"), ("0099", 2, "0100"), ("998", 5, "1002"), ("X", 3, "X"), ("", 3, "")],
)
def test_serial_numbers_count_up(first: str, quantity: int, last: str) -> None:
    assert serials(Making(first_serial=first, quantity=quantity)) == (first, last)
