"""How much is tried: a few cases of every law in the quick run, all of them with `pytest --full`.

A test marked `few(n)` has n of its cases, spread over all of them, in the quick run; one marked `full` has none. Laws
over made-up cases take their number of examples from `examples`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import TypeVar

import pytest

_full = False
Thing = TypeVar("Thing")


def choose(*, full: bool) -> None:
    """Said once, before any test is read."""
    global _full  # noqa: PLW0603  # the numbers of examples are asked for while modules are imported
    _full = full


def is_full() -> bool:
    return _full


def examples(many: int) -> int:
    """How many made-up cases a law is tried on: a twentieth of `many` in the quick run, and never less than five."""
    return many if _full else min(many, max(5, many // 20))


def spread(count: int, keep: int) -> set[int]:
    """`keep` of the numbers below `count`, the first and the last among them, as evenly as may be."""
    if keep >= count:
        return set(range(count))
    return {round(step * (count - 1) / max(1, keep - 1)) for step in range(keep)}


def some(things: Sequence[Thing], keep: int) -> list[Thing]:
    """All of them in the full run; in the quick one `keep`, spread over them."""
    return [things[number] for number in sorted(spread(len(things), len(things) if _full else keep))]


def mark_long_tails(items: Iterable[pytest.Item]) -> None:
    """Of every test marked `few(n)`, all cases but n are marked `full`."""
    tests: dict[str, list[pytest.Item]] = defaultdict(list)
    for item in items:
        if item.get_closest_marker("few") is not None:
            tests[item.nodeid.partition("[")[0]].append(item)
    for cases in tests.values():
        (keep,) = cases[0].get_closest_marker("few").args
        kept = spread(len(cases), keep)
        for number, case in enumerate(cases):
            if number not in kept:
                case.add_marker(pytest.mark.full)
