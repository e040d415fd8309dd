"""A stack of shelves spread over the face: white shared out evenly, margins alike on both sides, all on the grid."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from panelart.drafting.shelves import Shelf, Stack, between, between_shelves
from panelart.drafting.spacing import Spacing
from panelart.geometry import Box, Point

_STRETCHES: Final = tuple(1.0 + 0.05 * step for step in range(17))
"""How far steps between parts are stretched: up to 1.8 times; what is left then goes between groups and outside."""

_OUTSIDE: Final = 16.0
"""White between two groups, mm, beyond which the margins take their share too."""


def spread(stack: Stack, area: Box, spacing: Spacing) -> dict[str, Point]:
    """Where each part's centre goes, with the stack in an area of the face."""
    stretch, lines, gaps, edge = _heights(stack, area.height, spacing)
    places: dict[str, Point] = {}
    top = area.top - edge
    for number, one in enumerate(stack.shelves):
        first = _tidy(top - one.above, spacing)
        middles, wider = _middles(one, area, spacing, stretch)
        for group, form, on, middle in zip(one.groups, one.forms, one.rows, middles, strict=True):
            del group
            for row, line, along in zip(form.rows, on, form.places(spacing, wider), strict=True):
                for block, x in zip(row, along, strict=True):
                    places[block.ref] = Point(_on(middle + x), _on(first - lines[number][line]))
        top = first - lines[number][-1] - one.below - (gaps[number] if number < len(gaps) else 0.0)
    return places


def _on(value: float) -> float:
    """A coordinate as it is written: to a hundredth of a millimetre."""
    return round(value, 2) + 0.0


def _heights(stack: Stack, height: float, spacing: Spacing) -> tuple[float, list[list[float]], list[float], float]:
    """The stretch, the lines of each shelf, the gaps between shelves and the margin, for a height."""
    minimum = [between_shelves(upper, lower) for upper, lower in pairwise(stack.shelves)]
    fixed = math.fsum(one.above + one.below for one in stack.shelves)
    stretch, lines = 1.0, [list(one.lines) for one in stack.shelves]
    for more in _STRETCHES:
        wider = [_stretched(one.lines, more, spacing) for one in stack.shelves]
        need = fixed + math.fsum(each[-1] for each in wider) + math.fsum(gap * more for gap in minimum)
        if need <= height + 1e-6:
            stretch, lines = more, wider
    left = height - fixed - math.fsum(each[-1] for each in lines) - math.fsum(minimum)
    shares = len(minimum) + 2
    share = left / shares
    gaps = [spacing.down(gap + share) for gap in minimum]
    edge = (height - fixed - math.fsum(each[-1] for each in lines) - math.fsum(gaps)) / 2
    return stretch, lines, gaps, edge


def _stretched(lines: Sequence[float], stretch: float, spacing: Spacing) -> list[float]:
    found = [0.0]
    for upper, lower in pairwise(lines):
        found.append(found[-1] + spacing.down((lower - upper) * stretch))
    return found


def _middles(one: Shelf, area: Box, spacing: Spacing, maximum: float) -> tuple[list[float], float]:
    """The middle of each group, and how far steps are stretched."""
    minimum = [between(left, right) for left, right in pairwise(one.groups)]
    stretch = _stretch(one, minimum, area.width, spacing, max(maximum, 1.25) + 0.25)
    reaches = _reaches(one, spacing, stretch)
    left = area.width - math.fsum(math.fsum(reach) for reach in reaches) - math.fsum(minimum)
    inner = len(minimum)
    share = left / (inner + 2) if not inner or left / inner > _OUTSIDE else left / inner
    outer = left / 2 if not inner else (left - share * inner) / 2
    middles: list[float] = []
    at = area.left + outer
    for number, (to_left, to_right) in enumerate(reaches):
        middles.append(_tidy(at + to_left, spacing))
        at += to_left + to_right + (minimum[number] + share if number < inner else 0.0)
    return middles, stretch


def _stretch(one: Shelf, minimum: Sequence[float], width: float, spacing: Spacing, maximum: float) -> float:
    """How far the steps of a shelf and the room between its groups can be stretched in a width."""
    stretch = 1.0
    for more in _STRETCHES:
        need = math.fsum(math.fsum(reach) for reach in _reaches(one, spacing, more)) + math.fsum(
            gap * more for gap in minimum
        )
        if more <= maximum and need <= width + 1e-6:
            stretch = more
    return stretch


def _reaches(one: Shelf, spacing: Spacing, stretch: float) -> list[tuple[float, float]]:
    return [group.reach(form, spacing, stretch) for group, form in zip(one.groups, one.forms, strict=True)]


def _tidy(middle: float, spacing: Spacing) -> float:
    """The middle of a group or a first line, on half a step of the grid, so that parts are on the grid or half way."""
    half = spacing.grid / 2
    return round(middle / half) * half
