"""No two symbols look alike to an eye: the blurred pictures of `tests/benchmarks/symbols.py`, every pair."""

from __future__ import annotations

import pytest

from panelart.lettering.fonts import SYMBOL_FONTS

benchmark = pytest.importorskip("tests.benchmarks.symbols", reason="freetype-py and scipy draw the pictures")

ALIKE = {("centre-positive", "centre-negative"): 0.7}
"""Mirror images but for the signs in them, which is what they say: not closer than this."""


@pytest.mark.parametrize("font", SYMBOL_FONTS)
def test_no_two_symbols_are_taken_for_each_other(font: str) -> None:
    """At 15 minutes of arc, as an eye has them, farther apart than 6 and 8 or 8 and B in faces that are read well.

    Those stand at 3.4 to 8.1 and 1.9 to 4.0 in seven kept faces (`tests/benchmarks/confusability.py`, fonts/README.md).
    """
    for distance, one, other in benchmark.closest(font, 200, fine=3):
        assert distance >= ALIKE.get((one, other), 3.4), (one, other)


def test_one_symbol_twice_is_no_way_apart_and_two_that_never_meet_are_wholly() -> None:
    seen = benchmark.pictures("symbols-light", ("on", "on", "stop"), fine=3)
    found = benchmark.apart(seen, fine=3)
    assert found[0, 1] == pytest.approx(0.0, abs=1e-6)
    assert 50.0 < found[0, 2] < 100.0
