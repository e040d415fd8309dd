"""How deviations add up, against simulated panels: errors drawn from normal distributions by numpy."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from panelart.cutouts.held import Held
from panelart.cutouts.uncertainty import (
    SIGMAS,
    Share,
    ink_to_edge,
    ink_to_hole,
    ink_to_part,
    part_to_hole,
    play,
    together,
)
from panelart.geometry import Point, circle, rectangle
from panelart.model.layout import CutOpening, Dimension
from panelart.model.making import Making
from panelart.model.panel import Allowance, Coat, Panel
from tests.checks.builders import layout
from tests.panels import HERE

BARE = Coat(kind="none", thickness=0.0, colour="#303030")


def panel_of(coat: Coat, making: Making) -> Panel:
    """A panel that is marked within 0.3 mm."""
    return replace(layout().panel, coat=coat, making=making)


def shares(*by: float) -> list[Share]:
    return [Share(f"share {number}", one) for number, one in enumerate(by)]


def test_in_the_worst_case_all_shares_work_against_the_panel_at_once() -> None:
    off = together(shares(0.3, 0.25, 0.0), Making())
    assert off.total == pytest.approx(0.55)
    assert [share.by for share in off.shares] == [0.3, 0.25]


@pytest.mark.parametrize("one_in", [20, 100, 370])
@pytest.mark.parametrize("by", [(0.3, 0.25), (0.2, 0.2, 0.1, 0.05)])
def test_one_panel_in_so_many_exceeds_the_root_of_the_sum_of_squares(one_in: int, by: tuple[float, ...]) -> None:
    off = together(shares(*by), Making(one_in=one_in))
    chance = np.random.default_rng(7)
    errors = sum_of([chance.normal(0.0, limit / SIGMAS, 2_000_000) for limit in by])
    exceeded = float((np.abs(errors) > off.total).mean())
    assert exceeded == pytest.approx(1.0 / one_in, rel=0.04)


def sum_of(errors: list[np.ndarray]) -> np.ndarray:
    return np.add.reduce(errors)


def test_one_in_370_is_three_standard_deviations() -> None:
    """0.27 % lie outside three standard deviations: any table of the normal distribution."""
    off = together(shares(0.3, 0.4), Making(one_in=370))
    assert off.total == pytest.approx(0.5, abs=1e-4)


def test_it_is_never_more_than_the_worst_case() -> None:
    assert together(shares(0.3, 0.01), Making(one_in=1_000_000)).total == pytest.approx(0.31)


def opening(contour, passes) -> CutOpening:
    return CutOpening(name="H1", ref="H1", role="body", finished=contour, cut=contour, passes=passes, where=HERE)


def test_the_opening_with_the_least_play_holds_the_part() -> None:
    at = Point(10.0, 10.0)
    body = opening(rectangle(20.4, 12.0, at), rectangle(20.0, 11.0, at))
    screw = opening(circle(3.3, at), circle(3.0, at))
    assert play([body]) == pytest.approx(0.2)
    assert play([body, screw]) == pytest.approx(0.15)
    assert play([opening(circle(3.4, at), None)]) == 0.0


@pytest.mark.parametrize("one_in", [50, 370])
def test_one_panel_in_so_many_has_a_hole_too_small_for_its_part(one_in: int) -> None:
    """Bushings of 12.0 +0.1 in holes of 12.15 +-0.1 as cut, less 2 x the coat of 50 to 110 um over the 80 allowed for.

    Every error is drawn on its own, in the middle of its range and with a sixth of it for its standard deviation; the
    hole is then so much larger that just one panel in so many has none of its clearance left.
    """
    coat = Coat(kind="powder", thickness=0.08, minimum=0.05, maximum=0.11, colour="#101010", allowance=Allowance.NONE)
    one = Held(
        name="diameter", finished=12.0, cut=12.15, finished_by=(-0.16, 0.16), cut_by=(-0.1, 0.1), own=True,
        passes=(12.0, 12.1), coat_by=(-0.06, 0.06),
    )  # fmt: skip
    panel = panel_of(coat, Making(one_in=one_in))
    off = part_to_hole(panel, one)
    assert [share.at_most for share in off.shares] == pytest.approx([0.1, 0.06, 0.1])
    chance = np.random.default_rng(11)
    hole, laid, part = (chance.normal(0.0, 1.0, 4_000_000) for _ in range(3))
    left = off.total + hole * 0.1 / SIGMAS - 2 * laid * 0.03 / SIGMAS - (0.05 + part * 0.05 / SIGMAS)
    assert float((left < 0.0).mean()) == pytest.approx(1.0 / one_in, rel=0.04)
    assert off.total < part_to_hole(panel_of(coat, Making()), one).total == pytest.approx(0.26)


@pytest.mark.parametrize("one_in", [50, 370])
def test_one_panel_in_so_many_has_ink_on_the_screw_it_was_laid_beside(one_in: int) -> None:
    """A screw of 4 in 4.5 +-0.1, register 0.3, position 0.2: all of them may go either way, on either side."""
    at = Point(10.0, 10.0)
    hole = replace(
        opening(circle(4.5, at), circle(4.0, at)),
        dimensions=(Dimension(name="diameter", size=4.5, tolerance=(-0.1, 0.1), passes=(4.0, 4.0)),),
    )
    off = ink_to_part(panel_of(BARE, Making(one_in=one_in, position_error=0.2)), [hole])
    assert {str(share.what): round(share.at_most, 6) for share in off.shares} == {
        "register error": 0.3, "position error of the hole": 0.2, "play of the part in its hole": 0.25,
        "tolerance of the hole": 0.05,
    }  # fmt: skip
    chance = np.random.default_rng(13)
    errors = sum_of([chance.normal(0.0, limit / SIGMAS, 2_000_000) for limit in (0.3, 0.2, 0.25, 0.05)])
    assert float((np.abs(errors) > off.total).mean()) == pytest.approx(1.0 / one_in, rel=0.04)
    assert off.room(1.0) == pytest.approx(1.0 - off.total)


def test_the_tolerance_of_a_hole_to_one_side_takes_its_middle_in_full() -> None:
    """10 H13 is +0.22/0: a wall may be 0.055 +-0.055 farther out (ISO 286-1, table 1)."""
    (register, hole) = ink_to_hole(panel_of(BARE, Making()), opening(circle(10.0, Point(0, 0)), None)).shares
    assert (register.by, register.middle) == (0.3, 0.0)
    assert (hole.by, hole.middle) == pytest.approx((0.055, 0.055))
    squares = ink_to_hole(panel_of(BARE, Making(one_in=370)), opening(circle(10.0, Point(0, 0)), None))
    assert squares.total == pytest.approx(0.055 + np.hypot(0.3, 0.055), abs=1e-4)


def test_a_bare_hole_has_no_range_of_coat() -> None:
    coat = Coat(kind="powder", thickness=0.08, minimum=0.05, maximum=0.11, colour="#101010")
    hole = opening(circle(10.0, Point(0, 0)), None)
    of = {str(share.what) for share in ink_to_hole(panel_of(coat, Making()), hole).shares}
    bare = {str(share.what) for share in ink_to_hole(panel_of(coat, Making()), replace(hole, bare=True)).shares}
    assert of - bare == {"range of coat thickness"}
    assert ink_to_edge(panel_of(coat, Making())).total == pytest.approx(0.33)
