"""Inks that touch: the lighter spreads under the darker, by the trap and no farther, never onto bare coat.

Common practice of prepress; the expected areas are of rectangles.
"""

from __future__ import annotations

import pytest
import shapely

from panelart.marking.trap import ColourArea, spreads

LEFT, RIGHT = shapely.box(0, 0, 10, 10), shapely.box(10, 0, 20, 10)


def two(light_left: float, light_right: float, trap: float = 0.2) -> list[float]:
    grounds = [ColourArea(ink="a", area=LEFT, light=light_left), ColourArea(ink="b", area=RIGHT, light=light_right)]
    return [taken.area for taken in spreads(grounds, trap)]


@pytest.mark.parametrize(("lights", "expected"), [((90, 20), [2.0, 0.0]), ((20, 90), [0.0, 2.0])])
def test_the_lighter_spreads_under_the_darker(lights: tuple[float, float], expected: list[float]) -> None:
    assert two(*lights) == pytest.approx(expected, rel=1e-3)


def test_of_two_alike_one_spreads() -> None:
    assert sorted(two(50, 50)) == pytest.approx([0.0, 2.0], rel=1e-3)


def test_no_trap_no_spread() -> None:
    assert two(90, 20, 0.0) == [0.0, 0.0]


def test_inks_that_only_come_near_do_not_bridge_the_coat() -> None:
    apart = [ColourArea(ink="a", area=LEFT, light=90), ColourArea(ink="b", area=shapely.box(10.1, 0, 20, 10), light=20)]
    assert [taken.area for taken in spreads(apart, 0.2)] == [0.0, 0.0]


def test_one_ink_does_not_spread_into_itself() -> None:
    same = [ColourArea(ink="a", area=LEFT, light=90), ColourArea(ink="a", area=RIGHT, light=20)]
    assert [taken.area for taken in spreads(same, 0.2)] == [0.0, 0.0]


def test_a_letter_left_out_of_a_dark_field_gets_wider_by_the_trap_all_round() -> None:
    letter = shapely.box(4, 4, 6, 6)
    grounds = [ColourArea(ink="a", area=letter, light=95), ColourArea(ink="b", area=LEFT - letter, light=10)]
    light, dark = spreads(grounds, 0.15)
    assert (light | letter).bounds == pytest.approx((3.85, 3.85, 6.15, 6.15), abs=1e-6)
    assert dark.is_empty
