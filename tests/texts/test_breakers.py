"""Circuit breakers: what stands beside one is a characteristic of IEC 60898-1 and a current (from memory)."""

from __future__ import annotations

import pytest

from panelart.texts.parse import parse
from panelart.texts.rating_reading import breaker_of


@pytest.mark.parametrize(
    ("text", "characteristic", "amperes"),
    [
        ("C 16 A", "C", 16),
        ("C16", "C", 16),
        ("B10", "B", 10),
        ("CB1 D 6 A", "D", 6),
        ("K 2,5 A", "K", 2.5),
        ("Main 10 A", "", 10),
        ("5 A 250 V", "", 5),
    ],
)
def test_a_breaker_is_read(text: str, characteristic: str, amperes: float) -> None:
    rating = breaker_of(parse(text))
    assert (rating.characteristic, rating.current.base) == (characteristic, amperes)


@pytest.mark.parametrize("text", ["CB1", "Main", "C", "RS-232", "24 V"])
def test_what_says_no_current_is_no_rating(text: str) -> None:
    assert breaker_of(parse(text)) is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("C 16 A", []),
        ("C 17 A", ["'17 A' is not in the current series of IEC 60898; nearest: 16 A or 20 A"]),
        ("B 160 A", ["current '160 A' is above the 125 A of IEC 60898; perhaps '1.6 A'"]),
        ("K 17 A", []),  # of the maker, in no series of a standard
        ("17 A", []),
    ],
)
def test_a_current_is_one_of_the_series(text: str, said: list[str]) -> None:
    assert [str(message) for message in breaker_of(parse(text)).problems] == said
