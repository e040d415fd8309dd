"""Bends against published examples."""

from __future__ import annotations

import math

import pytest

from panelart.cutouts.bending import allowance, allowance_by, deduction, din_6935_k, setback
from panelart.model.metal import Bending, Method, ShopBend


def test_handbook_example_of_two_bends() -> None:
    """Machinery's Handbook, 31st edition, p. 1421: T 1/8 in, R 3/8 by 180 degrees and R 5/8 by 60, straight 3.5 in:
    1.338, 0.707 and in all 5.545 in. The handbook's 0.64 T is K = 0.64 x 2 / pi (its 1.57 is pi / 2)."""
    k = 0.64 * 2 / math.pi
    first, second = allowance(180, 0.375, 0.125, k), allowance(60, 0.625, 0.125, k)
    assert first == pytest.approx(1.338, abs=0.001)
    assert second == pytest.approx(0.707, abs=0.001)
    assert 3.5 + first + second == pytest.approx(5.545, abs=0.001)


@pytest.mark.parametrize(
    ("thickness", "radius", "published", "k"),
    [
        (0.018, 0.030, 0.034, 0.5261), (0.020, 0.030, 0.039, 0.4417), (0.024, 0.030, 0.036, 0.6599),
        (0.030, 0.030, 0.047, 0.5491), (0.030, 0.060, 0.067, 0.3979), (0.030, 0.187, 0.122, 0.3875),
        (0.036, 0.030, 0.054, 0.5460), (0.036, 0.090, 0.085, 0.4532), (0.040, 0.030, 0.065, 0.4437),
        (0.048, 0.030, 0.072, 0.4891), (0.048, 0.060, 0.088, 0.4477), (0.048, 0.090, 0.101, 0.4460),
        (0.048, 0.202, 0.151, 0.4204), (0.060, 0.030, 0.088, 0.4762), (0.060, 0.060, 0.106, 0.4218),
        (0.060, 1.000, 0.510, 0.4160), (0.090, 0.030, 0.131, 0.4377), (0.090, 0.125, 0.172, 0.4361),
        (0.120, 0.030, 0.180, 0.3866),
    ],
)  # fmt: skip
def test_tested_deductions_of_a_fabricator(thickness: float, radius: float, published: float, k: float) -> None:
    """A fabricator's tested deductions in cold-rolled steel at 90 degrees, in inches, with the K they imply."""
    assert deduction(90, radius, thickness, k) == pytest.approx(published, abs=0.0002)


def test_flat_length_of_three_bends() -> None:
    """Sheet Metal Workbook, 6th edition: T 0.050, R 0.032, outside 0.740, 0.420, 1.050 and 1.000 in, three bends with
    an allowance of (0.01743 R + 0.0078 T) A: twice the setback 0.164, deduction 0.079, flat 2.973 in."""
    k = 0.0078 / 0.01743
    taken = deduction(90, 0.032, 0.050, k)
    assert 2 * setback(90, 0.032, 0.050) == pytest.approx(0.164)
    assert taken == pytest.approx(0.079, abs=0.0006)
    assert 0.740 + 0.420 + 1.050 + 1.000 - 3 * round(taken, 3) == pytest.approx(2.973, abs=0.0005)


@pytest.mark.parametrize(("thickness", "expected"), [(0.125, 0.2827), (0.090, 0.2585)])
def test_printed_allowances(thickness: float, expected: float) -> None:
    """Two public calculators' printed examples: R 0.125 in, K 0.44, 90 degrees."""
    assert allowance(90, 0.125, thickness, 0.44) == pytest.approx(expected, abs=0.0001)


def test_setback_of_the_channel() -> None:
    """FAA airframe handbook: T 0.040, R 0.16: setback 0.2, flats 0.8, 1.6, 0.8 of moulds 1, 2, 1 in."""
    back = setback(90, 0.16, 0.040)
    assert [1 - back, 2 - 2 * back, 1 - back] == pytest.approx([0.8, 1.6, 0.8])


def test_din_6935_crosses_zero_where_the_standard_says() -> None:
    """DIN 6935 (English summary): with sheet of no thickness the correction is nothing at an opening angle of
    65 deg 24 min 30 s, that is 114.5917 turned through; above 90 the reference is the outer tangent."""
    opening = 65 + 24 / 60 + 30 / 3600
    low, high = 90.0, 150.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if deduction(middle, 1.0, 0.0, 0.0) > 0 else (low, middle)
    assert 180 - low == pytest.approx(opening, abs=0.0002)


@pytest.mark.parametrize(
    ("radius", "thickness", "angle", "k", "v"),
    [
        (2, 2, 90, 0.325, -3.8374),
        (3, 1.5, 90, None, -3.3445),
        (1.5, 1.5, 90, 0.325, -2.8780),
        (2, 2, 120, 0.325, -2.4499),
    ],
)
def test_din_6935(radius: float, thickness: float, angle: float, k: float | None, v: float) -> None:
    """Worked by hand from the formula of DIN 6935: v = pi/180 A (R + K T) - 2 (R + T) tan(min(A, 90) / 2)."""
    own = din_6935_k(radius, thickness)
    if k is not None:
        assert own == pytest.approx(k)
    assert -deduction(angle, radius, thickness, own) == pytest.approx(v, abs=0.0005)


def test_din_6935_is_half_above_five() -> None:
    assert din_6935_k(10.0, 1.0) == 0.5
    assert din_6935_k(5.0, 1.0) == pytest.approx((0.65 + 0.5 * math.log10(5)) / 2)


def test_a_tested_bend_is_taken_as_it_was_measured() -> None:
    shop = Bending(
        method=Method.TESTED,
        relief_width=1,
        relief_depth=1,
        corner_depth=1,
        tested=(ShopBend(radius=2, angle=90, deduction=3.5),),
    )
    assert 2 * setback(90, 2, 1.5) - allowance_by(shop, 90, 2, 1.5) == pytest.approx(3.5)
    with pytest.raises(KeyError, match="60"):
        allowance_by(shop, 60, 2, 1.5)
