"""Scales that turn with their knob, on its skirt or on a disc behind a window, and the index mark on the panel.

The knob turns past a mark that stands still, so that values run on the dial against the way in which it is turned:
anticlockwise where turning clockwise increases. Every numeral is level when it is at the mark.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import Point, Transform, direction, polygon
from panelart.legends.graduations import numbered, shown
from panelart.legends.mark_sizes import mark_size
from panelart.legends.scales import (
    ANGLE_SIGNS,
    NUMERAL_WHITE,
    Round,
    as_legend,
    farthest_within,
    middle_of,
    nearest_clear,
    radial,
    share_of,
    skirt_radius,
)
from panelart.lettering.flat import flattened
from panelart.lettering.outline import shape_of
from panelart.lettering.setting import Setting, set_words
from panelart.model.component import Role
from panelart.model.layout import CutOpening, Mark, PlacedEnvelope, PlacedLegend, TurningDial
from panelart.model.panel import Marking, Part, Scale, Style, TurningScale
from panelart.stages import stage

INDEX_HEIGHT: Final = 0.9
"""Height of the index mark over the height of a name's capitals. Common practice."""

INDEX_WIDTH: Final = 0.6
"""Its width over the same: slender, so that its tip is read against one mark. Common practice."""

_LEVEL: Final = 0.7
"""An index mark whose direction has so great an upright share has level numerals that stand side by side."""


class Turned(Struct, frozen=True):
    """A scale that turns, and what belongs to it on the panel: the index mark or vernier, and the unit if any."""

    dial: TurningDial
    marks: tuple[Mark, ...]
    legends: tuple[PlacedLegend, ...]


@stage
def turned(
    part: Part, marking: Marking, envelopes: tuple[PlacedEnvelope, ...], openings: tuple[CutOpening, ...]
) -> Turned | None:
    """The dial of a part that has these envelopes and openings, or None when its scale does not turn."""
    scale = part.scale
    if scale is None or scale.turning is None:
        return None
    on = scale.turning
    near = _clear_of(part, on, marking, envelopes)
    marks, legends = (
        ((_index(part, scale, marking, near),), ()) if on.vernier is None else _vernier(part, scale, on, marking, near)
    )
    unit = _unit(part, scale, marking, marks, legends)
    return Turned(_OnDial(part, scale, on, marking).dial(_window(openings)), marks, (*legends, *unit))


def _clear_of(part: Part, on: TurningScale, marking: Marking, envelopes: Sequence[PlacedEnvelope]) -> float:
    """How far from the shaft the panel's own marking may begin, mm."""
    clear = marking.register + marking.placing.clearance
    beyond = skirt_radius(part, envelopes) + clear
    if on.window is None:
        return beyond
    margin = marking.register + max(marking.placing.clearance, marking.process.opening_margin.value)
    return max(beyond, on.window_end + margin)


def _window(openings: Sequence[CutOpening]) -> CutOpening | None:
    return next((each for each in reversed(openings) if each.role is Role.APERTURE), None)


def _index(part: Part, scale: Scale, marking: Marking, near: float) -> Mark:
    """A slender triangle on the panel, its tip towards the shaft and `near` mm from it."""
    assert scale.turning is not None
    unit = marking.styles["name"].cap_height
    way = direction(scale.turning.index)
    tip = part.at.moved(way.scaled(near))
    foot = tip.moved(way.scaled(INDEX_HEIGHT * unit))
    side = way.perpendicular.scaled(INDEX_WIDTH * unit / 2)
    return Mark(
        ref=part.ref,
        kind="index-mark",
        shape=shape_of(polygon([tip, foot.moved(side), foot.moved(side.scaled(-1.0))]).ccw()),
        width=0.0,
        ink=marking.styles["numeral"].ink,
        where=scale.where,
        filled=True,
    )


def _vernier(
    part: Part, scale: Scale, on: TurningScale, marking: Marking, near: float
) -> tuple[tuple[Mark, ...], tuple[PlacedLegend, ...]]:
    """Ten divisions of nine tenths of a step each, from the index on in the way in which values run on the dial.

    After n and k tenths of a step the k-th line meets one of the dial: k tenths and nine tenths of k steps are k steps.
    """
    assert on.vernier is not None
    style = marking.styles["numeral"]
    step = 0.9 * on.vernier * (1.0 if scale.clockwise else -1.0)
    marks = tuple(
        radial(part, marking, on.index + step * tenth, near, "minor" if tenth % 5 else "major", scale.where)
        for tenth in range(11)
    )
    clear = near + mark_size(marking, "major").length + NUMERAL_WHITE * style.cap_height
    legends: list[PlacedLegend] = []
    for tenth in (0, 5, 10):
        setting = set_words(f"{tenth}", style.font, style.cap_height, look=style.look)
        centre = nearest_clear(part.at, direction(on.index + step * tenth), setting, clear)
        at = Point(centre.x - setting.box.centre.x, centre.y - middle_of(setting))
        legends.append(as_legend(part, "numeral", style, setting, at, scale.where))
    return marks, tuple(legends)


def _unit(
    part: Part, scale: Scale, marking: Marking, marks: Sequence[Mark], legends: Sequence[PlacedLegend]
) -> tuple[PlacedLegend, ...]:
    """The unit on the panel, beyond the index mark; the sign of an angle is on the dial, behind its highest number."""
    if not scale.unit or scale.unit in ANGLE_SIGNS or scale.turning is None:
        return ()
    style = marking.styles["numeral"]
    setting = set_words(scale.unit, style.font, style.cap_height, look=style.look)
    ends = [end for mark in marks for loop in mark.shape for curve in loop.curves for end in (curve.start, curve.end)]
    ends += [corner for legend in legends for corner in legend.box.corners]
    reach = max(part.at.distance(end) for end in ends)
    centre = nearest_clear(part.at, direction(scale.turning.index), setting, reach + NUMERAL_WHITE * style.cap_height)
    at = Point(centre.x - setting.box.centre.x, centre.y - middle_of(setting))
    return (as_legend(part, "numeral", style, setting, at, scale.where),)


class _OnDial(Round):
    """The marks and numerals of a scale on its skirt or disc, as they stand when it is at the end where it begins."""

    def __init__(self, part: Part, scale: Scale, on: TurningScale, marking: Marking) -> None:
        unit = scale.unit if scale.unit in ANGLE_SIGNS else ""
        super().__init__(part, replace(scale, unit=unit), marking, on.outer, inward=True)
        self.on = on
        self.radius = self._abreast()

    def deg(self, value: float) -> float:
        """The direction of a value on the dial: the other way round than the knob is turned."""
        along = share_of(self.scale, value) * self.scale.sweep
        return self.on.index + (along if self.scale.clockwise else -along)

    def dial(self, window: CutOpening | None) -> TurningDial:
        """The scale as it is made, and the window that it is seen through."""
        made = self.made()
        assert self.part.component.shaft is not None
        edge = [point for legend in made.legends for point in self._edge(legend)]
        return TurningDial(
            ref=self.part.ref,
            scale=self.on,
            at=self.part.at,
            bore=self.part.component.shaft.diameter,
            window=None if window is None else window.finished,
            marks=made.marks,
            legends=made.legends,
            reach=min((self.part.at.distance(point) for point in edge), default=self.outer),
            where=self.scale.where,
        )

    def _edge(self, legend: PlacedLegend) -> list[Point]:
        """Points all along the outline of a numeral."""
        return [point for loop in legend.shape for point in flattened(loop)]

    def _clear(self, style: Style) -> float:
        return self.outer - NUMERAL_WHITE * style.cap_height

    def _abreast(self) -> float | None:
        """How far from the shaft the middle of all numerals is, where they pass the mark side by side; else None."""
        style, way = self.marking.styles["numeral"], direction(self.on.index)
        if abs(way.y) < _LEVEL:
            return None
        texts = [shown(self.scale, value) for value in numbered(self.scale)[0]]
        settings = [set_words(text, style.font, style.cap_height, look=style.look) for text in texts]
        places = [farthest_within(self.part.at, way, setting, self._clear(style)) for setting in settings]
        return min((self.part.at.distance(place) for place in places), default=None)

    def _numeral(
        self, style: Style, text: str, deg: float, *, alone: bool = False, out: float = 0.0, lines: int = 1
    ) -> PlacedLegend:
        """What is lettered in a direction: level at the index mark, and turned from there with the dial."""
        del alone, out, lines
        setting = set_words(text, style.font, style.cap_height, look=style.look)
        turn = deg - self.on.index
        level = self._level(setting, style)
        at = Point(level.x - setting.box.centre.x, level.y - middle_of(setting))
        at = Transform.turn(turn, self.part.at).apply(at)
        return as_legend(self.part, "numeral", style, setting, at, self.scale.where, turn)

    def _level(self, setting: Setting, style: Style) -> Point:
        """The middle of a numeral that is at the index mark."""
        way = direction(self.on.index)
        if self.radius is None:
            return farthest_within(self.part.at, way, setting, self._clear(style))
        return self.part.at.moved(way.scaled(self.radius))
