"""A stack of shelves spread over the face: white shared out evenly, margins alike on both sides, all on the grid."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Final

from panelart.drafting.blocks import Level
from panelart.drafting.grid import Line, Lines, Piece, seated
from panelart.drafting.shapes import Shape
from panelart.drafting.shelves import Shelf, Stack, between, between_shelves, steps
from panelart.drafting.spacing import Spacing
from panelart.geometry import Box, Point

_STRETCHES: Final = tuple(1.0 + 0.05 * step for step in range(17))
"""How far steps between parts are stretched: up to 1.8 times; what is left then goes between groups and outside."""

_FAR: Final = 1.4
"""So many times its least distance a lamp stays off the controls under it, on the line of other groups."""

_OUTSIDE: Final = 16.0
"""White between two groups, mm, beyond which the margins take their share too."""


def spread(stack: Stack, area: Box, spacing: Spacing) -> dict[str, Point]:
    """Where each part's centre goes, with the stack in an area of the face."""
    over, under = stack.shelves[0].edges[0], stack.shelves[-1].edges[1]
    stretch, lines, gaps, edge = _heights(stack, area.height - over - under, spacing)
    places: dict[str, Point] = {}
    top = area.top - over - edge
    along = _along(stack, area, spacing, stretch)
    for number, one in enumerate(stack.shelves):
        first = _tidy(top - one.above, spacing)
        middles, wider = along[number]
        for form, on, lift, middle in zip(one.forms, one.rows, one.lifts, middles, strict=True):
            down = _near(form, [lines[number][line] - lift for line in on], spacing)
            for row, below, at in zip(form.rows, down, form.places(spacing, wider), strict=True):
                for block, x in zip(row, at, strict=True):
                    places[block.ref] = Point(_on(middle + x), _on(first - below))
        top = first - lines[number][-1] - one.below - (gaps[number] if number < len(gaps) else 0.0)
    return places


_Along = tuple[list[float], float]
"""The middles of a shelf's groups and how far their steps are stretched."""


def _along(stack: Stack, area: Box, spacing: Spacing, maximum: float) -> list[_Along]:
    """The middles and the stretch of each shelf: those of the widest as they are, the others on its lines.

    Like groups on several shelves are stretched alike.
    """
    found = [_middles(one, area, spacing, maximum) for one in stack.shelves]
    first, *others = sorted(range(len(found)), key=lambda number: (-stack.shelves[number].width, number))
    there: dict[Line, list[float]] = {line: [] for line in Line}
    stretched: dict[tuple[str, ...], float] = {}
    pieces = _note(stack.shelves[first], found[first], there, stretched, spacing)
    middles = found[first][0]
    ends = (middles[0] - pieces[0].before, middles[-1] + pieces[-1].after)
    for number in others:
        one = stack.shelves[number]
        own = [stretched[group.kin] for group in one.groups if group.kin in stretched]
        found[number] = _on_lines(one, found[number], own or _STRETCHES, ends, there, spacing)
        _note(one, found[number], there, stretched, spacing)
    return found


def _note(
    one: Shelf,
    along: _Along,
    there: Mapping[Line, list[float]],
    stretched: dict[tuple[str, ...], float],
    spacing: Spacing,
) -> list[Piece]:
    """Add the lines of a shelf to those that are there, and the stretch of its families; its groups as pieces."""
    middles, wider = along
    stretched |= {group.kin: wider for group in one.groups if group.kin}
    pieces = _pieces(one, middles, spacing, wider)
    for piece, middle in zip(pieces, middles, strict=True):
        for line, off in piece.lines:
            there[line].append(middle + off)
    return pieces


def _on_lines(
    one: Shelf,
    usual: _Along,
    stretches: Sequence[float],
    ends: tuple[float, float],
    there: Lines,
    spacing: Spacing,
) -> _Along:
    """The middles and the stretch, no larger than the usual one, that bring most lines in common with those there."""
    gaps = [between(left, right) for left, right in pairwise(one.groups)]
    best = -math.inf
    found = usual
    for wider in stretches:
        if wider > max(usual[1], 1.0) + 1e-9:
            continue
        middles, _ = usual
        count, places = seated(_pieces(one, middles, spacing, wider), ends, gaps, there, spacing.grid / 2)
        if count > best + 1e-9:
            best, found = count, (places, wider)
    return found


def _pieces(one: Shelf, middles: Sequence[float], spacing: Spacing, stretch: float) -> list[Piece]:
    """The groups of a shelf as they slide along it."""
    found: list[Piece] = []
    for group, form, middle in zip(one.groups, one.forms, middles, strict=True):
        before, after = group.reach(form, spacing, stretch)
        lines = [(Line.CENTRE, x) for row in form.places(spacing, stretch) for x in row]
        if group.beside:
            lines += [(Line.START, -before), (Line.END, after)]
        found.append(Piece(before=before, after=after, usual=middle, lines=tuple(lines)))
    return found


def _near(form: Shape, down: Sequence[float], spacing: Spacing) -> list[float]:
    """How far each row of a group is below the first line: a row of lamps comes down to the controls under it.

    So it does where its own line is far off: a lamp is looked for beside what it tells of.
    """
    found = list(down)
    for upper in range(len(found) - 2, -1, -1):
        apart = form.apart[upper]
        if _tells_of(form, upper) and found[upper + 1] - found[upper] > _FAR * apart:
            found[upper] = found[upper + 1] - spacing.up(apart)
    return found


def _tells_of(form: Shape, row: int) -> bool:
    """Whether a row is of lamps, and the next of no displays."""
    lamps = all(block.lamp for block in form.rows[row])
    return row == 0 and lamps and all(block.level is not Level.DISPLAY for block in form.rows[row + 1])


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
    stretch = _stretch(one, area.width, spacing, max(maximum, 1.25) + 0.25)
    reaches = _reaches(one, spacing, stretch)
    least = steps(one.groups, reaches, spacing)
    left = area.width - reaches[0][0] - math.fsum(least) - reaches[-1][1]
    inner = len(least)
    share = left / (inner + 2) if not inner or left / inner > _OUTSIDE else left / inner
    share = math.floor(2 * share / spacing.grid + 1e-6) * spacing.grid / 2
    at = _tidy(area.left + (left - share * inner) / 2 + reaches[0][0], spacing)
    middles = [at]
    for step in least:
        at += step + share
        middles.append(at)
    return middles, stretch


def _stretch(one: Shelf, width: float, spacing: Spacing, maximum: float) -> float:
    """How far the steps of a shelf and the room between its groups can be stretched in a width."""
    gaps = math.fsum(between(left, right) for left, right in pairwise(one.groups))
    stretch = 1.0
    for more in _STRETCHES:
        reaches = _reaches(one, spacing, more)
        need = reaches[0][0] + math.fsum(steps(one.groups, reaches, spacing)) + reaches[-1][1] + gaps * (more - 1.0)
        if more <= maximum and need <= width + 1e-6:
            stretch = more
    return stretch


def _reaches(one: Shelf, spacing: Spacing, stretch: float) -> list[tuple[float, float]]:
    return [group.reach(form, spacing, stretch) for group, form in zip(one.groups, one.forms, strict=True)]


def _tidy(middle: float, spacing: Spacing) -> float:
    """The middle of a group or a first line, on half a step of the grid, so that parts are on the grid or half way."""
    half = spacing.grid / 2
    return round(middle / half) * half
