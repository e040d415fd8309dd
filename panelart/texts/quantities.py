"""Values with units, and what is made of several: ranges, alternatives, sizes, ratios, factors.

A value keeps the figures as they were written: 10.0 V is `Decimal("10.0")`. Values are compared and ordered over mixed
units and prefixes, and only within one dimension.
"""

from __future__ import annotations

import itertools
import math
from decimal import Decimal

from panelart.canonical import Struct
from panelart.texts.units import PREFIXES, Dimension, Unit


class DimensionError(TypeError):
    """Two quantities of different dimensions were compared."""


class Number(Struct, frozen=True):
    """A bare number; 4k7 is 4.7 with the prefix k, of whatever unit the reader knows it to be."""

    value: Decimal
    prefix: str = ""

    @property
    def base(self) -> float:
        """The value with its prefix taken."""
        return _rounded(float(self.value) * (PREFIXES[self.prefix] if self.prefix else 1.0))


class Quantity(Struct, frozen=True):
    """A value with its unit; `count` of 2 in 2 x 5 A, `bound` one of ≤ ≥ < > ≈ or nothing."""

    value: Decimal
    unit: Unit
    count: int = 1
    bound: str = ""

    @property
    def base(self) -> float:
        """The value in the coherent SI unit of its dimension, to twelve figures."""
        return _rounded((float(self.value) + self.unit.offset) * self.unit.factor)

    @property
    def dimension(self) -> Dimension:
        """The dimension of its unit."""
        return self.unit.dimension

    def alike(self, other: Quantity) -> bool:
        """Whether they can be compared."""
        return self.unit.dimension == other.unit.dimension

    def equals(self, other: Quantity) -> bool:
        """Whether they are as much: 0.1 A and 100 mA. False for other dimensions."""
        return self.alike(other) and math.isclose(self.base, other.base, rel_tol=1e-9, abs_tol=0.0)

    def __lt__(self, other: Quantity) -> bool:
        """Whether it is less. Raises DimensionError for another dimension."""
        if not self.alike(other):
            raise DimensionError(f"{self.unit.symbol} and {other.unit.symbol} are of different dimensions")
        return self.base < other.base and not self.equals(other)


def _rounded(value: float) -> float:
    return float(f"{value:.12g}")


class Range(Struct, frozen=True):
    """From low to high, each with its unit or neither; as they were written, so that a reversed one is seen."""

    low: Quantity | Number
    high: Quantity | Number
    symmetric: bool = False
    """Written with one number and ±."""

    @property
    def reversed(self) -> bool:
        """Whether the first end is more than the second."""
        return self.high.base < self.low.base


class Alternatives(Struct, frozen=True):
    """Values of which each is meant: 115/230 V."""

    values: tuple[Quantity, ...]


class Size(Struct, frozen=True):
    """Lengths by each other: 30 x 20 mm; without a unit where none is written."""

    sides: tuple[Decimal, ...]
    unit: Unit | None = None


class Ratio(Struct, frozen=True):
    """Two numbers held against each other: 1:10, 3/4."""

    first: Decimal
    second: Decimal
    sign: str


class Factor(Struct, frozen=True):
    """Multiplied or divided (by `sign`) by a number."""

    sign: str
    by: Decimal


Amount = Quantity | Range | Alternatives
"""What a figure of a rating may be: 230 V, 100–240 V, 115/230 V."""


def ends(amount: Amount) -> tuple[float, float]:
    """The lowest and the highest value of an amount in the SI unit of its dimension."""
    if isinstance(amount, Quantity):
        return amount.base, amount.base
    values = [each.base for each in (amount.values if isinstance(amount, Alternatives) else (amount.low, amount.high))]
    return min(values), max(values)


def ordered(values: tuple[Quantity, ...]) -> int:
    """1 if each is more than the one before, -1 if each is less, 0 if neither or if they cannot be compared."""
    if any(not each.alike(values[0]) for each in values) or len(values) < 2:
        return 0
    bases = [each.base for each in values]
    pairs = list(itertools.pairwise(bases))
    if all(first < second for first, second in pairs):
        return 1
    return -1 if all(first > second for first, second in pairs) else 0
