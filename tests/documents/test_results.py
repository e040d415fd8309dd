"""Results are made once, only when asked for, and only from what is given."""

from __future__ import annotations

from typing import Final

import pytest

from panelart.documents.results import Need, Results, need

NUMBER: Final[Need[int]] = Need(name="number")
calls: list[str] = []


@need(NUMBER)
def _twice(number: int) -> int:
    calls.append("twice")
    return 2 * number


@need(NUMBER, _twice)
def _sum_of_both(number: int, twice: int) -> int:
    calls.append("sum")
    return number + twice


def test_a_result_is_made_once_and_what_is_not_asked_for_never() -> None:
    calls.clear()
    results = Results({NUMBER: 7})
    assert (results[_twice], results[_twice]) == (14, 14)
    assert calls == ["twice"]
    assert (results[_sum_of_both], results[_sum_of_both]) == (21, 21)
    assert calls == ["twice", "sum"]
    assert list(results) == ["number", "twice", "sum of both"]


def test_a_result_that_is_falsy_is_kept_too() -> None:
    calls.clear()
    results = Results({NUMBER: 0})
    assert (results[_twice], results[_twice], calls) == (0, 0, ["twice"])


def test_what_cannot_be_made_is_known_beforehand_and_refused() -> None:
    results = Results({})
    assert _sum_of_both.bases == {NUMBER}
    assert not results.can_make(_sum_of_both)
    with pytest.raises(LookupError, match="number"):
        results[_sum_of_both]
    assert Results({NUMBER: 1}).can_make(_sum_of_both)
