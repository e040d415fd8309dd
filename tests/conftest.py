"""Made-up cases are the same in every run, and no case is timed: a suite that passes here passes elsewhere.

`pytest` tries few cases of everything, `pytest --full` all. `HYPOTHESIS_PROFILE=search pytest --full` looks for new
cases instead; what it finds becomes a case of its own.
"""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

from tests import effort

settings.register_profile("few", derandomize=True, deadline=None, max_examples=10)
settings.register_profile("same", derandomize=True, deadline=None)
settings.register_profile("search", deadline=None, print_blob=True)


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


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    effort.mark_long_tails(items)
