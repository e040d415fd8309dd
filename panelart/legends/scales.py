"""Dial scales and the names round a rotary switch: markings at fixed places, so everything else keeps clear of them.

Marks are radial lines that begin clear of the knob's skirt. Numerals stand upright outside them, each as near as its
ink allows, so that the white between mark and numeral is the same all round.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from panelart.diagnostics import Where
from panelart.geometry import Box, Line, Point, Vector, direction
from panelart.legends.candidates import lettered, style_of
from panelart.lettering.outline import open_shape
from panelart.lettering.setting import Setting, set_words
from panelart.model.layout import Mark, PlacedEnvelope, PlacedLegend
from panelart.model.panel import LegendRequest, Marking, Panel, Part, Scale, Side, Style

MINUS = "\N{MINUS SIGN}"

LENGTHS = {"major": 1.0, "intermediate": 0.71, "minor": 0.43}
"""Mark lengths over that of a major mark: 1 : 0.71 : 0.43, the proportion of Grether and Baker, Human Engineering
Guide to Equipment Design (1972), from memory. A major mark is as long as a name's capitals are high."""

WIDTHS = {"major": 0.12, "intermediate": 0.10, "minor": 0.08}
"""Line widths over the height of a name's capitals; common practice: the lettering's own stroke is 0.1."""


STEEP = 0.25
"""A mark whose direction has a smaller sideways share than this has its name centred over it. Common practice."""


@dataclass(frozen=True, slots=True)
class Dial:
    """The fixed markings of one part, and `reach`: how far from the centre its marks end, in mm."""

    marks: tuple[Mark, ...]
    legends: tuple[PlacedLegend, ...]
    reach: float


def dial(part: Part, panel: Panel, envelopes: tuple[PlacedEnvelope, ...]) -> Dial | None:
    """Scale or position names round a turning part, or None when it has neither."""
    angular = [position for position in part.positions if not isinstance(position.direction, str)]
    if part.scale is None and not angular:
        return None
    marking = panel.marking
    inner = skirt_radius(part, envelopes) + marking.register + marking.placing.clearance
    length = marking.styles["name"].cap_height
    marks: list[Mark] = []
    legends: list[PlacedLegend] = []
    if part.scale is not None:
        marks += _graduations(part, part.scale, marking, inner, length)
        legends += _numerals(part, part.scale, marking, inner + length)
    for position in angular:
        deg = float(position.direction)
        marks.append(_mark(part, marking, deg, inner, length, "major"))
        style = style_of(position.request, marking)
        legends.append(_position_name(part, style, position.request, deg, inner + length))
    return Dial(tuple(marks), tuple(legends), inner + length)


def skirt_radius(part: Part, envelopes: tuple[PlacedEnvelope, ...]) -> float:
    """How far from its centre a part's knob, nut or washer reaches over the face, in mm."""
    reach = 0.0
    for envelope in envelopes:
        if envelope.ref == part.ref and envelope.side is Side.FRONT and envelope.covers:
            round_ = envelope.contour.circle
            if round_ is not None:
                reach = max(reach, part.at.distance(round_[0]) + round_[1])
            else:
                reach = max(reach, *(part.at.distance(segment.start) for segment in envelope.contour.segments))
    return reach


def _angle(scale: Scale, value: float) -> float:
    return scale.start_deg - (value - scale.low) / (scale.high - scale.low) * scale.sweep


def steps(scale: Scale, step: float) -> list[float]:
    """Every multiple of a step from the low end to the high end, both ends included when they are steps."""
    span = abs(scale.high - scale.low)
    count = math.floor(span / step + 1e-9)
    sign = 1.0 if scale.high > scale.low else -1.0
    return [scale.low + sign * step * index for index in range(count + 1)]


def _graduations(part: Part, scale: Scale, marking: Marking, inner: float, length: float) -> list[Mark]:
    majors = steps(scale, scale.major)
    marks = [_mark(part, marking, _angle(scale, value), inner, length, "major") for value in majors]
    if scale.minor is None:
        return marks
    per_major = round(scale.major / scale.minor)
    taken = {round(value / scale.minor) for value in majors}
    for index, value in enumerate(steps(scale, scale.minor)):
        if round(value / scale.minor) in taken:
            continue
        kind = "intermediate" if per_major == 10 and index % 5 == 0 else "minor"
        marks.append(_mark(part, marking, _angle(scale, value), inner, length, kind))
    return marks


def _mark(part: Part, marking: Marking, deg: float, inner: float, length: float, kind: str) -> Mark:
    way = direction(deg)
    near = part.at.moved(way.scaled(inner))
    far = part.at.moved(way.scaled(inner + length * LENGTHS[kind]))
    width = max(marking.styles["name"].cap_height * WIDTHS[kind], marking.process.line_least)
    return Mark(
        ref=part.ref,
        kind=f"{kind}-mark",
        shape=open_shape((Line(near, far),)),
        width=width,
        ink=marking.styles["numeral"].ink,
        where=part.scale.where if part.scale else part.where,
    )


def _numerals(part: Part, scale: Scale, marking: Marking, outer: float) -> list[PlacedLegend]:
    style = marking.styles["numeral"]
    wanted = list(scale.numerals) if scale.numerals is not None else steps(scale, scale.major)
    decimals = scale.decimals
    every = 1
    while True:
        placed = [
            _numeral(part, style, numeral(value, decimals), _angle(scale, value), outer) for value in wanted[::every]
        ]
        gap = 0.3 * style.cap_height
        crowded = any(a.box.overlaps(b.box, gap) for a, b in pairwise(placed))
        if not crowded or scale.numerals is not None or len(placed) <= 2:
            break
        # Thinned so that what is left still counts by one, two or five.
        every = {1: 2, 2: 5, 5: 10}.get(every, every * 2)
    if scale.unit:
        bottom = _numeral(part, style, scale.unit, -90.0, outer)
        if scale.sweep < 360 and not any(bottom.box.overlaps(other.box, gap) for other in placed):
            placed.append(bottom)
    return placed


def numeral(value: float, decimals: int) -> str:
    """A number as a scale shows it, with a true minus sign."""
    text = f"{abs(value):.{decimals}f}"
    return MINUS + text if value < 0 and float(text) != 0 else text


def _numeral(part: Part, style: Style, text: str, deg: float, outer: float) -> PlacedLegend:
    setting = set_words(text, style.font, style.cap_height, look=style.look)
    way = direction(deg)
    clear = outer + 0.35 * style.cap_height
    centre = _nearest_clear(part.at, way, setting, clear)
    at = Point(centre.x - setting.box.centre.x, centre.y - _middle(setting))
    return _legend(part, "numeral", style, setting, at, part.scale.where if part.scale else part.where)


def _position_name(part: Part, style: Style, request: LegendRequest, deg: float, outer: float) -> PlacedLegend:
    """The name of a position at the end of its mark.

    Right of it on the right side, left of it on the left, with the words aligned to the mark; centred over or under a
    mark that points nearly up or down.
    """
    setting = lettered(request, style)
    way = direction(deg)
    if abs(way.x) < STEEP:
        centre = _nearest_clear(part.at, way, setting, outer + 0.35 * style.cap_height)
        at = Point(centre.x - setting.box.centre.x, centre.y - _middle(setting))
    else:
        end = part.at.moved(way.scaled(outer))
        white = 0.4 * style.cap_height
        x = end.x + white - setting.box.left if way.x > 0 else end.x - white - setting.box.right
        at = Point(x, end.y + 0.4 * style.cap_height * way.y - _middle(setting))
    return _legend(part, request.style, style, setting, at, request.where)


def _legend(part: Part, style_name: str, style: Style, setting: Setting, at: Point, where: Where) -> PlacedLegend:
    return PlacedLegend(
        ref=part.ref,
        style=style_name,
        text=setting.text,
        shape=setting.placed(at),
        box=setting.box.moved(Vector(at.x, at.y)),
        baseline=at,
        cap_height=style.cap_height,
        font=style.font,
        ink=style.ink,
        where=where,
        setting=setting,
    )


def _middle(setting: Setting) -> float:
    """The height that looks like the middle of the words: half way up the capitals of all lines together."""
    return (setting.baselines[0] + setting.cap_height + setting.baselines[-1]) / 2


def _nearest_clear(hub: Point, way: Vector, setting: Setting, clear: float) -> Point:
    """Where on a ray the middle of the words stands so that their ink is just `clear` mm from the hub."""
    half_width = setting.box.width / 2
    up = setting.box.top - _middle(setting)
    down = _middle(setting) - setting.box.bottom
    near, far = clear - half_width - up - down, clear + half_width + max(up, down)
    for _ in range(48):
        mid = (near + far) / 2
        centre = Point(way.x * mid, way.y * mid)
        box = Box(centre.x - half_width, centre.y - down, centre.x + half_width, centre.y + up)
        x = max(box.left, 0.0, -box.right)
        y = max(box.bottom, 0.0, -box.top)
        inside = mid <= 0 or math.hypot(x, y) < clear
        near, far = (mid, far) if inside else (near, mid)
    return hub.moved(way.scaled(far))
