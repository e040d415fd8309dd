"""No function of the program has more ways through it than a reader can follow; the exceptions only shrink."""

from __future__ import annotations

import pytest

from tests.complexity import LARGEST, complexities, found, listed, smaller

pytest.importorskip("radon")

NESTED = """
class Panel:
    def checked(self, parts):
        def fits(part):
            return part.width < 9 and part.height < 9
        return [part for part in parts if fits(part)]
"""


def test_no_function_is_above_the_limit_but_for_the_exceptions() -> None:
    held = listed()
    above = {function: number for function, number in found().items() if number > held.get(function, LARGEST)}
    assert above == {}, "divide it into steps with names of their own"


def test_exceptions_are_taken_off_when_they_are_done() -> None:
    held = listed()
    assert smaller(held, found()) == held, "run: python -m tests.complexity"


def test_methods_and_what_is_defined_within_them_are_counted() -> None:
    assert list(complexities(NESTED)) == [("Panel.checked", 3), ("Panel.checked.fits", 2)]


def test_exceptions_only_shrink() -> None:
    before = {"a.py:done": 20, "a.py:smaller": 20, "a.py:grown": 20}
    assert smaller(before, {"a.py:smaller": 15, "a.py:grown": 21, "a.py:new": 30}) == {
        "a.py:smaller": 15,
        "a.py:grown": 20,
    }
