"""General tolerances against ISO 2768-1."""

from __future__ import annotations

import pytest

from panelart.cutouts.tolerances import linear
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
    ("first", "quantity", "last"),
    [("A0007", 25, "A0031"), ("0099", 2, "0100"), ("998", 5, "1002"), ("X", 3, "X"), ("", 3, "")],
)
def test_serial_numbers_count_up(first: str, quantity: int, last: str) -> None:
    assert serials(Making(first_serial=first, quantity=quantity)) == (first, last)
