"""The reader held against kept lists: truth was set by hand, and committed, before the reader saw them.

The lists are invented in the forms of 110 lists that were counted; see `kept/README.md`.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from tests.lists.judged import LISTS, count_of_questions, counted, judged

PARTS = ("right", "wrong", "asked first", "asked", "absent", "lost")
MOST_QUESTIONS = 15

LOST = {
    "181-lichtkist-dimmer": "a breaker with a bushing, thermische automaat 10A 3/8, is taken for one on a rail",
    "183-hallway-hub": "a module is left inside though slots are asked for in its remark",
    "190-battery-pack-fixture": "self-clinching studs and standoffs are set aside as fasteners",
}
"""Lists of which a row of a panel part is set aside, and which."""


@pytest.fixture(scope="module")
def ends() -> Counter[str]:
    pytest.importorskip("xlrd", reason="the extra spreadsheet is not installed")
    return sum((counted(judged(path)[1]) for path in LISTS), Counter())


@pytest.mark.full
def test_few_rows_are_wrong_and_most_parts_are_taken_without_a_question(ends: Counter[str]) -> None:
    parts = sum(ends[end] for end in PARTS)
    assert ends["wrong"] <= 0.001 * ends.total()
    assert ends["right"] >= 0.60 * parts
    assert ends["right"] + ends["asked first"] >= 0.90 * (parts - ends["absent"])


@pytest.mark.few(6)
@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_every_row_ends_in_the_account(path: Path, request: pytest.FixtureRequest) -> None:
    if path.suffix == ".xls":
        pytest.importorskip("xlrd", reason="the extra spreadsheet is not installed")
    if path.stem in LOST:
        request.applymarker(pytest.mark.xfail(strict=True, reason=LOST[path.stem]))
    listed, rows = judged(path)
    assert not [row for row in rows if row.end == "lost"]
    assert count_of_questions(listed) <= MOST_QUESTIONS
    ended = Counter((row.sheet, row.row) for row in listed.account.rows)
    assert set(ended.values()) == {1}
    assert {(item.sheet, item.row) for item in listed.items} <= set(ended)
