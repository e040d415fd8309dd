"""Limits of processes that print with a soft tool, on both sides."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from panelart.figure import Figure, Known
from tests.checks.builders import PROCESS, legend, mark, process_figure
from tests.checks.cases import JUST, found, measured
from tests.checks.test_printing import BLUE, RED, ground, in_ink, own, printed

LONG = (mark("S1", (10, 45), (80, 45)), mark("S1", (10, 15), (80, 15)))
"""Two lines of one ink, 70 mm long and 30 mm apart; the boxes of their ink are 0.3 mm larger."""


@pytest.mark.parametrize(
    ("figures", "counted"),
    [
        ({"print_maximum": 70.3 + JUST}, []),
        ({"print_maximum": 70.3 - JUST}, [70.3]),
        ({"cup_maximum": 30.3 + JUST}, []),
        ({"cup_maximum": 30.3 - JUST}, [30.3]),
        ({"print_maximum": 60.0, "cup_maximum": 20.0}, [70.3]),
        ({}, []),
    ],
)
def test_print_too_large(figures: dict[str, float], counted: list[float]) -> None:
    assert measured("print-too-large", printed(*LONG, process=own(**figures))) == pytest.approx(counted, abs=1e-6)


def test_each_ink_is_a_print_of_its_own_and_backgrounds_count() -> None:
    process = own(print_maximum=50.0)
    apart = printed(LONG[0], in_ink(legend("S2", "OFF", (10, 5, 20, 8)), BLUE), process=process)
    assert [finding.subject for finding in found("print-too-large", apart)] == ["white"]
    wide = printed(backgrounds=(ground("red", (10, 10, 61, 20)),), process=process)
    assert [(finding.subject, finding.measured) for finding in found("print-too-large", wide)] == [(RED.name, 51.0)]


@pytest.mark.parametrize(
    ("name", "soft", "times"),
    [
        ("graphite fine texture", 1, 1),
        ("RAL 7016 Feinstruktur", 1, 1),
        ("hammer finish grey", 1, 1),
        ("graphite", 1, 0),
        ("graphite fine texture", 0, 0),
    ],
)
def test_print_on_texture(name: str, soft: int, times: int) -> None:
    made = printed(LONG[0], process=replace(PROCESS, soft_tool=bool(soft)))
    coated = replace(made, panel=replace(made.panel, coat=replace(made.panel.coat, name=name)))
    assert len(found("print-on-texture", coated)) == times


@pytest.mark.parametrize(("spread", "counted"), [(0.15, []), (0.15 + JUST, [0.3])])
def test_ink_that_spreads_closes_gaps_from_both_sides(spread: float, counted: list[float]) -> None:
    """A gap of 0.3 mm, which the process keeps open, is closed by ink that spreads by more than half of it."""
    figure = Figure(name="spread", value=spread, sources=("made up",), known=Known.MEMORY)
    gap = process_figure("gap_minimum", 0.2)
    made = printed(
        mark("S1", (40, 45), (50, 45), 0.3),
        backgrounds=(ground("blue", (30, 30, 60, 60)),),
        process=replace(PROCESS, gap_minimum=gap, own={"spread": figure}),
    )
    assert measured("knockout-too-narrow", made) == pytest.approx(counted)
    for finding in found("knockout-too-narrow", made):
        assert finding.limit == pytest.approx(2 * spread)
        assert "ink spread" in str(finding.origin)
