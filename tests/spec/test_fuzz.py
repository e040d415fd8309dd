"""Whatever is slipped into a spec, the answer is a panel or problems with places and hints, never another exception."""

from __future__ import annotations

import tracemalloc

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from panelart.diagnostics import SpecError
from panelart.model.panel import Panel
from panelart.spec.read import panel_from_text
from tests.effort import examples
from tests.source.mutations import slips
from tests.spec.samples import EVERYTHING, GOOD


def _read(text: str | bytes) -> Panel | SpecError:
    try:
        return panel_from_text(text)
    except SpecError as error:
        return error


def _judge(text: str | bytes) -> None:
    answer = _read(text)
    if isinstance(answer, Panel):
        return
    lines = (text if isinstance(text, str) else text.decode("utf-8", "replace")).count("\n") + 1
    assert answer.problems
    for problem in answer.problems:
        assert problem.message
        assert problem.hint
        assert "\n" not in problem.message + problem.hint
        assert 1 <= problem.where.line <= lines + 1
        assert problem.where.column >= 1
    assert list(answer.problems) == sorted(answer.problems, key=lambda problem: (problem.where, problem.message))


_SLOW = [HealthCheck.too_slow]


@settings(max_examples=examples(400), deadline=None, suppress_health_check=_SLOW)
@given(slips(GOOD) | slips(EVERYTHING))
def test_slips_are_answered_with_problems(text: str) -> None:
    _judge(text)


@settings(max_examples=examples(100), deadline=None)
@given(st.binary(max_size=200) | st.text(max_size=200))
def test_rubbish_is_answered_with_problems(data: str | bytes) -> None:
    assert isinstance(_read(data), SpecError)
    _judge(data)


def test_slips_do_leave_some_specs_readable() -> None:
    """The law above would hold for a reader that refuses all; this shows that it does not."""
    for text in (GOOD, EVERYTHING, GOOD.replace("title: Bench supply, front", "title: 12:30")):
        assert isinstance(_read(text), Panel)


@pytest.mark.few(1)
@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("repeat: {count: 3, step: [25, 0]}", "repeat: {count: 5000, step: [25, 0]}"),
        ("repeat: {count: 3, step: [25, 0]}", "repeat: {count: 4998, step: [25, 0]}"),
    ],
)
def test_many_copies_cost_bounded_memory(old: str, new: str) -> None:
    tracemalloc.start()
    try:
        assert isinstance(_read(GOOD.replace(old, new)), SpecError)
        assert tracemalloc.get_traced_memory()[1] < 40_000_000
    finally:
        tracemalloc.stop()


def test_repeats_of_repeats_are_counted_before_they_are_made() -> None:
    """5000 to the power of 10 copies: told at once, not tried."""
    inner = '{ref: "J{n}", part: socket-4, at: [1, 1]}'
    for depth in range(10):
        inner = f"{{repeat: {{count: 5000, step: [0, 0], as: a{depth}}}, parts: [{inner}]}}"
    text = GOOD.replace("parts:\n", f"parts:\n  - {inner}\n", 1)
    with pytest.raises(SpecError) as caught:
        panel_from_text(text)
    assert "maximum 5000" in str(caught.value)


def test_a_chain_of_two_thousand_places_is_followed() -> None:
    first = "  - {ref: K0, part: led-3, at: [1, 1]}\n"
    links = "".join(f"  - {{ref: K{n}, part: led-3, at: {{from: K{n - 1}, by: [0.01, 0]}}}}\n" for n in range(1, 2000))
    panel = panel_from_text(GOOD.replace("parts:\n", "parts:\n" + first + links, 1))
    assert panel.by_ref["K1999"].at.x == pytest.approx(1 + 19.99)


def test_a_circle_of_two_thousand_places_is_told_once_and_short() -> None:
    links = "".join(
        f"  - {{ref: K{n}, part: led-3, at: {{from: K{(n - 1) % 2000}, by: [0.01, 0]}}}}\n" for n in range(2000)
    )
    with pytest.raises(SpecError) as caught:
        panel_from_text(GOOD.replace("parts:\n", "parts:\n" + links, 1))
    (problem,) = caught.value.problems
    assert "K0 > K1999 >" in problem.message
    assert len(problem.message) < 200
