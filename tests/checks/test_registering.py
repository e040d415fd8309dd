"""Marking that may be covered, or run into a line, on the finished piece."""

from __future__ import annotations

import math
from statistics import NormalDist

import pytest
from msgspec.structs import replace

from panelart.checks.limits import Basis, Limit, standard
from panelart.lettering.outline import shape_of
from panelart.model.making import Making
from panelart.model.panel import Coat
from panelart.model.printing import Background
from panelart.model.printing import Solid as Flat
from panelart.processes.process import typical
from tests.checks.builders import PROCESS, at, block, disc, front, layout, legend, mark, opening
from tests.checks.cases import JUST, found, measured, refs


def screwed(left: float, making: Making | None = None):
    """A head of 8 mm on a screw of 4 in a hole of 4.5, and a word with its left edge somewhere beside it."""
    hole = replace(opening("H1", disc(50, 50, 4.5)), passes=disc(50, 50, 4.0))
    made = layout(front("H1", disc(50, 50, 8), "head"), hole, legend("S1", "GAIN", (left, 48, left + 10, 52)))
    return made if making is None else replace(made, panel=replace(made.panel, making=making))


HOLE = 0.09
"""What a hole of 4.5 H13 may have at each wall, mm: half of IT13 over 3 up to 6, 0.18 (ISO 286-1, table 1)."""


def test_a_legend_that_the_register_error_and_the_play_of_a_part_may_cover() -> None:
    register = screwed(60.0).panel.marking.register
    worst = register + 0.25 + HOLE  # half of 4.5 less 4
    assert found("legend-near-hardware", screwed(54.0 + worst)) == []
    assert measured("legend-near-hardware", screwed(54.0 + worst - 0.01)) == pytest.approx([worst - 0.01], abs=0.005)
    (finding,) = found("legend-near-hardware", screwed(54.1))
    assert finding.limit == pytest.approx(worst)


def test_added_as_squares_the_same_two_leave_more_room() -> None:
    """Of the hole's tolerance, which is to one side, the middle is taken in full and half of it varies."""
    register = screwed(60.0).panel.marking.register
    squares = HOLE / 2 + (register**2 + 0.25**2 + (HOLE / 2) ** 2) ** 0.5
    making = Making(one_in=370)  # three standard deviations, any table of the normal distribution
    assert found("legend-near-hardware", screwed(54.0 + squares + 0.01, making)) == []
    assert refs("legend-near-hardware", screwed(54.0 + squares - 0.01, making)) == [("S1", "H1")]


def test_a_chain_worked_by_hand() -> None:
    """A screw of 4 in 4.5 under a coat of 60 to 120 um for which 80 were allowed, holes within 0.1 of their place.

    Register 0.3; position 0.1; play (4.5 - 4) / 2 = 0.25; hole 0.18 / 2 = 0.09; coat 0.08 - 0.06 = 0.02: in all 0.76.
    """
    made = screwed(54.7)
    coat = Coat(kind="powder", thickness=0.08, minimum=0.06, maximum=0.12, colour="#101010")
    marking = replace(made.panel.marking, register=0.3)
    panel = replace(made.panel, coat=coat, marking=marking, making=Making(position_error=0.1))
    (finding,) = found("legend-near-hardware", replace(made, panel=panel))
    assert finding.limit == pytest.approx(0.76)
    assert finding.measured == pytest.approx(0.7, abs=0.005)
    for figure in ("register error 0.3", "position error of the hole 0.1", "0.25", "hole 0.09", "thickness 0.02"):
        assert figure in str(finding.origin)


def holed(left: float, register: float, making: Making | None = None):
    """A hole of 8 and a word with its left edge somewhere beside it."""
    made = layout(opening("H1", disc(50, 50, 8)), legend("S1", "GAIN", (left, 48, left + 10, 52)))
    marking = replace(made.panel.marking, register=register)
    return replace(made, panel=replace(made.panel, marking=marking, making=making or Making()))


ONE_IN_370 = NormalDist().inv_cdf(1.0 - 1.0 / 370.0 / 2.0)


@pytest.mark.parametrize(
    ("making", "limit"),
    [
        (Making(), 1.0 + 0.11),  # IT13 over 6 up to 10 is 0.22
        (Making(position_error=0.2), 1.0 + 0.2 + 0.11),
        # 1 in 370 is 2.9997 standard deviations either way, where each share is given at 3
        (Making(position_error=0.2, one_in=370), 0.055 + math.hypot(1.0, 0.2, 0.055) * ONE_IN_370 / 3.0),
        (Making(tolerance="f"), 1.0 + 0.075),  # IT12 is 0.15
    ],
)
def test_ink_that_a_hole_may_take(making: Making, limit: float) -> None:
    assert found("marking-near-cut", holed(54 + limit + 0.01, 1.0, making)) == []
    (finding,) = found("marking-near-cut", holed(54 + limit - 0.01, 1.0, making))
    assert finding.limit == pytest.approx(limit, abs=1e-4)
    assert finding.measured == pytest.approx(limit - 0.01, abs=0.005)


def test_what_the_process_keeps_clear_of_openings_is_told_once() -> None:
    margin = holed(60, 1.0).panel.marking.process.opening_margin.value
    assert found("marking-near-cut", holed(54 + margin - 0.01, 1.0)) == []
    assert refs("legend-near-opening", holed(54 + margin - 0.01, 1.0)) == [("S1", "H1")]
    assert found("marking-near-cut", holed(54 + margin + 0.01, margin - 0.2)) == []


@pytest.mark.parametrize("short", [0.0, 0.01])
def test_ink_that_may_run_off_the_edge(short: float) -> None:
    """By a register error of 3 and 20 um of coat that may be lacking at the edge."""
    coat = Coat(kind="powder", thickness=0.08, minimum=0.06, colour="#101010")
    bottom = 3.02 - short
    made = layout(legend("S1", "GAIN", (40, bottom, 50, bottom + 4)))
    marking = replace(made.panel.marking, register=3.0)
    made = replace(made, panel=replace(made.panel, marking=marking, coat=coat))
    assert measured("marking-near-cut", made) == pytest.approx([3.01] if short else [])


@pytest.mark.parametrize(("bottom", "told"), [(40.19, [0.19]), (40.2, []), (39.9, []), (35.81, [0.19]), (35.8, [])])
def test_ink_that_may_cross_the_edge_of_a_background(bottom: float, told: list[float]) -> None:
    """Words of 4 mm over and under an edge at 40, in a process that lays inks within 0.2 of each other."""
    process = replace(PROCESS, own={"ink_register": typical(0.2, "made up")})
    made = layout(legend("S1", "GAIN", (40, bottom, 50, bottom + 4)))
    ground = Background(colour=Flat(ink="amber"), area=shape_of(block(50, 60, 60, 40)), bleed=None, where=at(1))
    printing = replace(made.panel.marking.printing, backgrounds=(ground,))
    marking = replace(made.panel.marking, process=process, printing=printing)
    made = replace(made, panel=replace(made.panel, marking=marking))
    assert measured("marking-near-ground", made) == pytest.approx(told, abs=1e-6)


def test_what_is_covered_as_drawn_is_not_told_again() -> None:
    assert refs("legend-under-part", screwed(53.0)) == [("S1", "H1")]
    assert found("legend-near-hardware", screwed(53.0)) == []


@pytest.mark.parametrize("short", [0.0, JUST, 0.1])
def test_a_word_too_near_to_a_line(short: float) -> None:
    line = mark("art 1", (30, 40), (60, 40), width=1.0)
    made = layout(line, legend("S1", "GAIN", (40, 40.5 + 0.26 - short, 50, 44)))
    name = f"{made.panel.marking.process.name}.gap_minimum"
    gap = Limit(name=name, what="gap", value=0.26, unit="mm", source="a house's own", basis=Basis.GIVEN)
    limits = {**standard(), name: gap}
    told = [finding.measured for finding in found("legend-near-mark", made, limits)]
    assert told == pytest.approx([0.26 - short] if short else [], abs=1e-9)
