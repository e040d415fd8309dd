"""Made-up cases are the same in every run, and no case is timed: a suite that passes here passes elsewhere.

`pytest` tries few cases of everything, `pytest --full` all. `HYPOTHESIS_PROFILE=search pytest --full` looks for new
cases instead; what it finds becomes a case of its own.

The built-in sum() of floats rounds otherwise from Python 3.12 on, so the program takes math.fsum() for them; where it
does not, the test that comes by says so.
"""

from __future__ import annotations

import builtins
import gc
import os
import sys
from collections.abc import Iterable

import pytest
from hypothesis import settings

from tests import effort
from tests.installed import forgotten, install

__all__ = ["forgotten", "install"]

settings.register_profile("few", derandomize=True, deadline=None, max_examples=10)
settings.register_profile("same", derandomize=True, deadline=None)
settings.register_profile("search", deadline=None, print_blob=True)
_sum = builtins.sum


def _sum_of_no_floats(items: Iterable, /, start: object = 0) -> object:
    found = _sum(items, start)
    if isinstance(found, float):
        caller = sys._getframe(1)
        module = caller.f_globals.get("__name__", "")
        assert not module.startswith("panelart"), f"{module}, line {caller.f_lineno}: take math.fsum() for floats"
    return found


builtins.sum = _sum_of_no_floats


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--full", action="store_true", help="also the cases marked full: all of every law, as .ci/run does"
    )


def pytest_configure(config: pytest.Config) -> None:
    if config.option.full:
        config.option.markexpr = ""
    full = "not full" not in config.option.markexpr
    effort.choose(full=full)
    settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same" if full else "few"))


def pytest_collection_finish() -> None:
    """The tests themselves are no garbage: it is looked for among what they make."""
    gc.collect()
    gc.freeze()


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    effort.mark_long_tails(items)
