"""Engraving: the paths of the cutter's middle, cutter by cutter, in the order in which they are cut.

The rule. A line of letters or marks is cut with the widest cutter there is that is no wider than it, in one pass where
that cutter is at least ONE_PASS of its width, else cleared like any wide shape. Letters of our own fonts are followed
along the centre lines of the pen that drew them; other fonts are wide shapes. A wide shape is cleared with the widest
cutter that reaches all of it but sharp corners. Where even the narrowest cutter is too wide, a line comes out as wide
as the cutter, and of a wide shape the narrow places stay uncut; how much is told.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

import shapely
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import Arc, Line, Point
from panelart.lettering.centreline import letter_lines
from panelart.lettering.motion import Motion, moved
from panelart.lettering.outline import Cubic, Loop, Shape
from panelart.marking.areas import area_of, parted, pen_area, square_cm, united
from panelart.marking.filling import contours, hatching
from panelart.marking.travel import Travelled, short_way
from panelart.model.layout import Layout, Mark, PlacedLegend
from panelart.model.panel import Ink
from panelart.model.printing import Engraving, Filling

ONE_PASS: Final = 0.75
"""Common practice: a quarter of a line's width is not seen, two passes are. Our choice of the limit."""


class Cut(Struct, frozen=True, kw_only=True):
    """All that one cutter cuts for one ink: its paths in order, its way off the work and on it, in mm."""

    cutter: float
    ink: Ink
    paths: tuple[Loop, ...]
    travel: float
    unordered: float
    length: float


class Plan(Struct, frozen=True, kw_only=True):
    """The cuts, the narrowest cutter last; `uncut` is the area in cm2 that no cutter reaches."""

    cuts: tuple[Cut, ...]
    uncut: float


class _Run(Struct, frozen=True, kw_only=True):
    cutter: float
    path: Loop


def engraving_plan(layout: Layout, engraving: Engraving) -> Plan:
    """Every path of a layout's marking."""
    cuts: list[Cut] = []
    uncut: list[shapely.Geometry] = []
    for ink in layout.panel.marking.inks:
        runs: list[_Run] = []
        for mark in layout.inked_marks:
            if mark.ink == ink:
                runs += _mark_runs(mark, engraving, uncut)
        for legend in layout.inked_legends:
            if legend.ink == ink:
                runs += _legend_runs(legend, engraving, uncut)
        for cutter in sorted({run.cutter for run in runs}, reverse=True):
            paths = [run.path for run in runs if run.cutter == cutter]
            cuts.append(_cut(cutter, ink, short_way(paths, Point(0.0, 0.0))))
    return Plan(cuts=tuple(cuts), uncut=square_cm(united(uncut)))


def _cut(cutter: float, ink: Ink, way: Travelled) -> Cut:
    length = math.fsum(curve_length(curve) for path in way.paths for curve in path.curves)
    return Cut(cutter=cutter, ink=ink, paths=way.paths, travel=way.after, unordered=way.before, length=length)


def curve_length(curve: Line | Arc | Cubic) -> float:
    """The length of a line or an arc in mm; of a cubic that of its chords, which no path of a tool has."""
    match curve:
        case Line(start=start, end=end):
            return start.distance(end)
        case Arc(radius=radius, sweep_deg=sweep):
            return radius * math.radians(abs(sweep))
        case Cubic():
            points = [curve.point_at(step / 16) for step in range(17)]
            return math.fsum(a.distance(b) for a, b in pairwise(points))


def cutter_for(width: float, cutters: Sequence[float]) -> float:
    """The widest cutter that is no wider than a line, else the narrowest there is."""
    return max((cutter for cutter in cutters if cutter <= width + 1e-6), default=min(cutters))


def _legend_runs(legend: PlacedLegend, engraving: Engraving, uncut: list[shapely.Geometry]) -> Iterator[_Run]:
    setting = legend.setting
    if setting is None or setting.plate is not None:
        yield from _cleared(area_of(legend.shape), engraving, uncut)
        return
    to_panel = Motion(legend.baseline, legend.turn)
    for letter in setting.letters:
        drawn = letter_lines(letter)
        if drawn is None:
            alone = replace(setting, letters=(letter,), strokes=())
            yield from _cleared(area_of(moved(alone.shape, to_panel)), engraving, uncut)
        else:
            for lines, width in drawn:
                yield from _line_runs(moved(lines, to_panel), width, engraving, uncut)
    for bar in moved(setting.strokes, to_panel):
        middle = _middle_of(bar)
        if middle is None:
            yield from _cleared(area_of((bar,)), engraving, uncut)
        else:
            line, width = middle
            yield from _line_runs((_shortened(line, width / 2),), width, engraving, uncut)


def _mark_runs(mark: Mark, engraving: Engraving, uncut: list[shapely.Geometry]) -> Iterator[_Run]:
    if mark.filled:
        yield from _cleared(area_of(mark.shape), engraving, uncut)
        return
    cutter = cutter_for(mark.width, engraving.cutters)
    # A cutter is round: a line with flat ends is cut shorter by half of it at either end.
    lines = tuple(loop if loop.closed else _shortened(loop, min(cutter, mark.width) / 2) for loop in mark.shape)
    yield from _line_runs(lines, mark.width, engraving, uncut)


def _line_runs(lines: Shape, width: float, engraving: Engraving, uncut: list[shapely.Geometry]) -> Iterator[_Run]:
    cutter = cutter_for(width, engraving.cutters)
    if cutter >= ONE_PASS * width - 1e-9:
        yield from (_Run(cutter=cutter, path=line) for line in lines)
        return
    yield from _cleared(united(pen_area(line, width) for line in lines), engraving, uncut)


def _cleared(ground: shapely.Geometry, engraving: Engraving, uncut: list[shapely.Geometry]) -> Iterator[_Run]:
    """A wide shape, with the widest cutter that reaches all of it."""
    for cutter in sorted(engraving.cutters, reverse=True):
        narrow = parted(ground, cutter)[1]
        if narrow.is_empty:
            break
    else:
        uncut.append(narrow)
    step = cutter * (1.0 - engraving.overlap)
    if engraving.filling is Filling.HATCH:
        paths = hatching(ground, cutter, step, engraving.angle)
    else:
        paths = contours(ground, cutter, step)
    yield from (_Run(cutter=cutter, path=path) for path in paths)


def _shortened(loop: Loop, by: float) -> Loop:
    """An open path that ends short of its ends, where these are straight and long enough."""
    curves = list(loop.curves)
    first, last = curves[0], curves[-1]
    ends_meet = first.start.distance(last.end) < 1e-9
    if ends_meet or any(isinstance(end, Line) and end.start.distance(end.end) <= 2 * by for end in (first, last)):
        return loop
    if isinstance(first, Line):
        curves[0] = Line(first.start.moved(first.end.minus(first.start).unit.scaled(by)), first.end)
    last = curves[-1]
    if isinstance(last, Line):
        curves[-1] = Line(last.start, last.end.moved(last.start.minus(last.end).unit.scaled(by)))
    return Loop(tuple(curves), closed=False)


def _middle_of(bar: Loop) -> tuple[Loop, float] | None:
    """The middle line of a bar, straight or bent, and its width; None where the loop is no bar."""
    if len(bar.curves) != 4:
        return None
    one, end, other, start = bar.curves
    match one, other:
        case Arc(), Arc():
            middle: Line | Arc = replace(one, radius=(one.radius + other.radius) / 2)
            return Loop((middle,), closed=False), abs(one.radius - other.radius)
        case Line(), Line():
            if curve_length(one) < curve_length(end):
                one, end, other, start = end, other, start, one
            return (
                Loop((Line(one.start.middle(other.end), one.end.middle(other.start)),), closed=False),
                curve_length(end),
            )
        case _:
            return None
