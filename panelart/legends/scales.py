"""Dials and straight scales, and the names round a rotary switch: fixed markings, which all else keeps clear of.

Marks begin clear of the knob's skirt, or of the part's side. Numerals stand outside them, each as near as its ink
allows, so that the white between mark and numeral is the same all along.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby, pairwise

import numpy as np
import shapely
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.catalogue.laws import travelled
from panelart.diagnostics import Where
from panelart.geometry import Arc, Box, Line, Point, Segment, Vector, circle, direction
from panelart.legends.candidates import style_of, wraps
from panelart.legends.graduations import THOUSANDS, closes, graduations, numbered, resting, shown, worded
from panelart.legends.mark_sizes import mark_size, marks_apart
from panelart.legends.subdivision import Room
from panelart.lettering.block import Wording, wrapped
from panelart.lettering.fonts import open_font
from panelart.lettering.look import PLAIN_LOOK, Align
from panelart.lettering.outline import Loop, Shape, bounds, open_shape, shape_of
from panelart.lettering.setting import Setting, set_words
from panelart.model.layout import CutOpening, Mark, PlacedEnvelope, PlacedLegend
from panelart.model.motion import FULL_TURN
from panelart.model.panel import (
    Ink,
    LegendRequest,
    Marking,
    Part,
    Place,
    Reading,
    Scale,
    Side,
    StraightScale,
    Style,
)
from panelart.stages import stage
from panelart.texts.multiples import multiple

DOT = 0.36
"""Diameter of the dot at a detent, over the height of a name's capitals. Common practice."""

ZONE = 0.25
"""Width of a band of colour, over the height of a name's capitals. Common practice."""

WEDGE = 0.7
"""Greatest width of a growing wedge, over the height of a name's capitals. Common practice."""

BAND_WHITE = 0.15
"""White between a band and the marks, over the height of a name's capitals."""

NUMERAL_WHITE = 0.35
"""White between a mark and its numeral, over the numeral's capitals. Common practice."""

IN_LINE_WHITE = 0.7
"""The same where the numeral stands in line with its mark: a mark that meets a minus sign is read as part of it."""

NAME_WHITE = 0.4
"""White between a mark and a position's name beside it, over its capitals. Common practice."""

APART = 0.3
"""Least white between two numerals, over their capitals. Common practice."""

WIDE_GAP = 120.0
"""Degrees between the ends of a scale beyond which nobody looks for its unit there. Common practice."""

UNIT_WHITE = 1.0
"""Least white between a unit by itself and a numeral, over their capitals: with less it is read with the numeral, as
in kHz 20. Common practice."""

_OUTWARDS = (0.0, 0.5, 1.0)
"""How much farther out than numerals a unit may be, over their capitals."""

_FAR_OUT = (1.5, 2.0)
"""The same where it fits nowhere else."""

STEEP = 0.25
"""A mark whose direction has a smaller sideways share than this has its name centred over it. Common practice."""

MOST_LINES = 3
"""On so many lines at most are words at a mark. Our choice."""

TICK = 0.4
"""Length of the ends of a bracket over positions, over their capitals. Common practice."""

_LEVEL = 0.01
"""A direction with a smaller share than this to a side is straight up, down or level."""

_WEDGE_STEP = 2.0  # degrees: the growing edge is drawn in chords that stray less than 0.005 mm at 30 mm radius


class Dial(Struct, frozen=True):
    """The fixed markings of one part."""

    marks: tuple[Mark, ...]
    legends: tuple[PlacedLegend, ...]


def has_words_to_break(part: Part) -> bool:
    """Whether a word on its scales, or a name of its positions, may be set on several lines."""
    words = [word for scale in _fixed_scales(part) for _, word in scale.words]
    names = [position.request.text for position in part.positions if not isinstance(position.direction, str)]
    return any(" " in word for word in (*words, *names))


@stage
def dial(
    part: Part,
    marking: Marking,
    envelopes: tuple[PlacedEnvelope, ...],
    openings: tuple[CutOpening, ...],
    lines: int = 1,
) -> Dial | None:
    """Scales or position names of a part that has these envelopes and openings, or None when it has neither.

    Words and names that may be broken are on so many `lines` at least, and on more where they would touch.
    """
    angular = [position for position in part.positions if not isinstance(position.direction, str)]
    scales = _fixed_scales(part)
    if not scales and not angular:
        return None
    inner = skirt_radius(part, envelopes) + marking.register + marking.placing.clearance
    found = [*_scales(part, scales, marking, envelopes, openings, lines), _positions(part, marking, inner, lines)]
    return Dial(
        tuple(mark for one in found for mark in one.marks), tuple(legend for one in found for legend in one.legends)
    )


def _fixed_scales(part: Part) -> list[Scale]:
    """The scales of a part that are on the panel, the inner one first."""
    return [scale for scale in (part.scale, part.outer_scale) if scale is not None and scale.turning is None]


def _scales(
    part: Part,
    scales: Sequence[Scale],
    marking: Marking,
    envelopes: tuple[PlacedEnvelope, ...],
    openings: tuple[CutOpening, ...],
    lines: int,
) -> Iterator[Dial]:
    """Its scales, each outside the one before it."""
    clear = marking.register + marking.placing.clearance
    inner = skirt_radius(part, envelopes) + clear
    white = NUMERAL_WHITE * marking.styles["name"].cap_height
    if len(scales) > 1 and scales[1].shares_arc:
        yield _on_one_arc(part, scales[0], scales[1], marking, inner, lines)
        return
    taken: dict[Place, float] = {}
    for scale in scales:
        if scale.straight is None:
            one = Round(part, scale, marking, inner, paired=len(scales) > 1, lines=lines).made()
        else:
            side = scale.straight.side
            beside = taken.get(side) or _beside(part, envelopes, openings, scale.straight, clear)
            one = _Straight(part, scale, scale.straight, marking, beside, lines).made()
            taken[side] = _beyond(part, one, side) + white
        yield one
        inner = max([inner, *(_reach(part.at, legend.box) for legend in one.legends)]) + white


def _positions(part: Part, marking: Marking, inner: float, lines: int) -> Dial:
    """The marks of its positions from `inner` mm outwards, with their names; empty where it has none at angles."""
    angular = [position for position in part.positions if not isinstance(position.direction, str)]
    if not angular:
        return Dial((), ())
    marks = [radial(part, marking, float(position.direction), inner, "major", part.where) for position in angular]
    names = _position_names(part, marking, inner + mark_size(marking, "major").length, lines)
    ranges = _ranges(part, marking, names)
    return Dial((*marks, *ranges.marks), (*names, *ranges.legends))


def _reach(hub: Point, box: Box) -> float:
    return max(hub.distance(corner) for corner in box.corners)


def skirt_radius(part: Part, envelopes: Sequence[PlacedEnvelope]) -> float:
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


def _beyond(part: Part, dial: Dial, side: Place) -> float:
    """How far out to a side of the part's centre the marks and numerals of a straight scale reach, mm."""
    boxes = [bounds(mark.shape) for mark in dial.marks] + [legend.box for legend in dial.legends]
    return _out(part, Box.around([part.at, *boxes]), side)


def _out(part: Part, box: Box, side: Place) -> float:
    """How far out to a side of the part's centre a box reaches, mm."""
    return {
        Place.RIGHT: box.right - part.at.x,
        Place.LEFT: part.at.x - box.left,
        Place.ABOVE: box.top - part.at.y,
        Place.BELOW: part.at.y - box.bottom,
    }[side]


def _beside(
    part: Part,
    envelopes: Sequence[PlacedEnvelope],
    openings: Sequence[CutOpening],
    straight: StraightScale,
    clear: float,
) -> float:
    """How far out from the part's centre a straight scale begins, mm."""
    boxes = [envelope.contour.bounds for envelope in envelopes if envelope.side is Side.FRONT]
    boxes += [opening.finished.bounds for opening in openings]
    return clear + _out(part, Box.around([part.at, *boxes]), straight.side)


# --- dials


def _on_one_arc(part: Part, within: Scale, outside: Scale, marking: Marking, inner: float, lines: int) -> Dial:
    """Two scales with their marks on one arc, as near to the shaft as the numerals inside it let it be."""
    trial = Round(part, within, marking, inner, paired=True, lines=lines)
    style = marking.styles["numeral"]
    # Without marks the numerals of the inner scale would begin at `inner`.
    white = NUMERAL_WHITE * style.cap_height
    trial.outer = inner - white
    _, legends = trial.numerals()
    ring = max((_reach(part.at, legend.box) for legend in legends), default=inner - white)
    radius = ring + white + trial.long
    one = Round(part, within, marking, radius, inward=True, paired=True, lines=lines).made()
    two = Round(part, outside, marking, radius, paired=True, lines=lines).made()
    start, sweep = within.start_deg, -within.sweep if within.clockwise else within.sweep
    width = mark_size(marking, "minor").width
    arc = _mark(part, "arc", open_shape((Arc(part.at, radius, start, sweep),)), width, style.ink, within.where)
    return Dial((arc, *one.marks, *two.marks), (*one.legends, *two.legends))


class Round:
    """One scale round a shaft; `inner` is where its ink may begin, mm from the centre.

    One that goes `inward` has its marks and numerals inside that circle instead. One that is `paired` has another scale
    round the same shaft. Its words that may be broken are on so many `lines` at least.
    """

    def __init__(
        self,
        part: Part,
        scale: Scale,
        marking: Marking,
        inner: float,
        *,
        inward: bool = False,
        paired: bool = False,
        lines: int = 1,
    ) -> None:
        self.part, self.scale, self.marking = part, scale, marking
        self.inward, self.paired, self.lines = inward, paired, lines
        self.unit = marking.styles["name"].cap_height
        self.long = _depth(scale, marking)
        self.band = inner
        self.inner = inner + _band(scale, self.unit)
        self.outer = self.inner - self.long if inward else self.inner + self.long

    def deg(self, value: float) -> float:
        """The direction of a value."""
        turned = share_of(self.scale, value) * self.scale.sweep
        return self.scale.start_deg + (-turned if self.scale.clockwise else turned)

    def made(self) -> Dial:
        """Its marks and numerals."""
        marks = [*self._zones(), *self._wedge()]
        values, numerals = self.numerals()
        near = self.outer if self.inward else self.inner
        way = Room(length=math.radians(self.scale.sweep) * near, apart=marks_apart(self.marking))
        if self.scale.rest:
            marks.append(self._mark(self.deg(RESTING), "major"))
        for graduation in graduations(self.scale, way, values):
            deg = self.deg(graduation.value)
            if graduation.kind == "detent":
                out = (-DOT if self.inward else DOT) * self.unit / 2
                centre = self.part.at.moved(direction(deg).scaled(self.inner + out))
                marks.append(_dot(self.part, self.scale, self.marking, centre))
            else:
                marks.append(self._mark(deg, graduation.kind))
        return Dial(tuple(marks), tuple(numerals))

    def _mark(self, deg: float, kind: str) -> Mark:
        return radial(self.part, self.marking, deg, self.inner, kind, self.scale.where, inward=self.inward)

    def _zones(self) -> list[Mark]:
        width = ZONE * self.unit
        radius = self.band + width / 2
        found: list[Mark] = []
        for zone in self.scale.zones:
            start, end = self.deg(zone.low), self.deg(zone.high)
            arc = Arc(self.part.at, radius, start, end - start)
            found.append(_mark(self.part, "zone", open_shape((arc,)), width, zone.ink, self.scale.where))
        return found

    def _wedge(self) -> list[Mark]:
        if not self.scale.wedge:
            return []
        hub, start = self.part.at, self.scale.start_deg
        sweep = -self.scale.sweep if self.scale.clockwise else self.scale.sweep
        steps = math.ceil(abs(sweep) / _WEDGE_STEP)
        wide = WEDGE * self.unit
        if self.scale.falling:
            start, sweep = start + sweep, -sweep
        edge = [
            hub.moved(direction(start + sweep * step / steps).scaled(self.band + wide * step / steps))
            for step in range(steps + 1)
        ]
        inner = Arc(hub, self.band, start + sweep, -sweep)
        curves: list[Segment] = [Line(a, b) for a, b in pairwise(edge)]
        curves += [Line(edge[-1], inner.start), inner]
        return [_area(self.part, "wedge", (Loop(tuple(curves)),), self.marking, self.scale.where)]

    def numerals(self) -> tuple[list[float], list[PlacedLegend]]:
        """The values with a numeral, and what stands at them, with the unit behind."""
        style = self.marking.styles["numeral"]

        def lettered(value: float, lines: int) -> PlacedLegend:
            return self._numeral(*_said(self.scale, style, value), self.deg(value), lines=lines)

        closed = self.scale.sweep >= FULL_TURN
        values, found = _uncrowded(self.scale, lettered, self.lines, APART * style.cap_height, closed=closed)
        open_ = [
            (value, legend)
            for value, legend in zip(values, found, strict=True)
            if not closes(self.scale, share_of(self.scale, value))
        ]
        values, found = [value for value, _ in open_], [legend for _, legend in open_]
        return values, self._with_unit(values, found) if self.scale.unit else found

    def _with_unit(self, values: list[float], found: list[PlacedLegend]) -> list[PlacedLegend]:
        """The numerals at these values, with the unit between the ends of the scale or behind the highest of them.

        It is behind the highest where between the ends it could be read as that of another scale, or would be on the
        other side of the shaft; and where there is no room between the ends. A multiplier is for all numerals and so is
        behind one of them only where nothing else is left.
        """
        last = _highest_number(self.scale, values)
        if last is None:
            return [*found, self._between(found, (*_OUTWARDS, *_FAR_OUT)) or self._unit(0.0)]
        behind = self._behind(values, found, last)
        if self.scale.unit in ANGLE_SIGNS:
            return behind
        between = None if self._is_far() else self._between(found, self._outwards())
        if between is None and self._meets(behind[last], [*behind[:last], *behind[last + 1 :]], APART):
            between = self._between(found, (*_OUTWARDS, *_FAR_OUT))
        return behind if between is None else [*found, between]

    def _is_far(self) -> bool:
        """Whether between the ends of the scale nobody would look for its unit, or read it as that of another."""
        return self.paired or 360.0 - self.scale.sweep > WIDE_GAP

    def _outwards(self) -> tuple[float, ...]:
        """How far out a unit may be before it is rather behind a numeral."""
        return (*_OUTWARDS, *_FAR_OUT) if self.scale.unit.startswith("×") else _OUTWARDS

    def _between(self, found: Sequence[PlacedLegend], outwards: Sequence[float]) -> PlacedLegend | None:
        """The unit between the ends of the scale, so far out that it is not read as part of a numeral beside it."""
        if self.scale.sweep >= FULL_TURN:
            return None
        cap_height = self.marking.styles["numeral"].cap_height
        ways = (self._unit(step * cap_height) for step in outwards)
        return next((words for words in ways if not self._meets(words, found, UNIT_WHITE)), None)

    def _meets(self, one: PlacedLegend, others: Sequence[PlacedLegend], white: float) -> bool:
        """Whether words have less white to others than so much of their capitals."""
        gap = white * self.marking.styles["numeral"].cap_height
        return any(_near(one, other, gap) for other in others)

    def _unit(self, out: float) -> PlacedLegend:
        """The unit in the middle between the ends of the scale, `out` mm farther out than a numeral."""
        gap = 360.0 - self.scale.sweep
        away = self.scale.start_deg + (gap / 2 if self.scale.clockwise else -gap / 2)
        return self._numeral(self.marking.styles["numeral"], self.scale.unit, away, alone=True, out=out)

    def _behind(self, values: Sequence[float], found: Sequence[PlacedLegend], at: int) -> list[PlacedLegend]:
        """The numerals, that of a number with the unit behind it.

        Where the unit leads away from the shaft the number stays at its mark.
        """
        style, value = self.marking.styles["numeral"], values[at]
        deg = self.deg(value)
        whole = self._numeral(style, with_unit(self.scale, style, value), deg)
        if self.scale.reading is Reading.UPRIGHT and not self.inward and direction(deg).x >= 0 and whole.setting:
            whole = as_legend(self.part, "numeral", style, whole.setting, found[at].baseline, self.scale.where)
        return [*found[:at], whole, *found[at + 1 :]]

    def _middle(self) -> float:
        """The direction of the middle of the scale."""
        half = self.scale.sweep / 2
        return self.scale.start_deg + (-half if self.scale.clockwise else half)

    def _numeral(
        self, style: Style, text: str, deg: float, *, alone: bool = False, out: float = 0.0, lines: int = 1
    ) -> PlacedLegend:
        """What is lettered in a direction; a unit stands `alone`, and `out` mm farther out.

        Numerals along the circle are all turned the same way, as suits the middle of their scale: 80 and 90 side by
        side never turn their heads to opposite sides, as 90 would then read 06. Along the radius those left of the
        shaft read towards it, so that no head is below level; the sides meet straight up and straight down.
        """
        way = direction(deg)
        upright = self.scale.reading is Reading.UPRIGHT
        setting = _word(self.scale, style, text, lines, _towards_mark(way) if upright else Align.CENTRE)
        white = NUMERAL_WHITE * style.cap_height
        clear = self.outer - white - out if self.inward else self.outer + white + out
        reading = self.scale.reading
        flat = reading is Reading.TANGENTIAL
        if upright or (alone and not flat):
            return self._upright(style, setting, way, clear)
        middle = direction(self._middle())
        flipped = (way if alone else middle).y < -_LEVEL if flat else _reads_inwards(way, middle)
        turn = (deg - 90.0 if flat else deg) + (180.0 if flipped else 0.0)
        half = (style.cap_height - setting.baselines[-1]) / 2 if flat else setting.box.width / 2
        centre = self.part.at.moved(way.scaled(clear - half if self.inward else clear + half))
        at = centre.moved(Vector(-setting.box.centre.x, -middle_of(setting)).turned(turn))
        return as_legend(self.part, "numeral", style, setting, at, self.scale.where, turn)

    def _upright(self, style: Style, setting: Setting, way: Vector, clear: float) -> PlacedLegend:
        """Level words in a direction, their ink `clear` mm from the shaft, or within so much of it."""
        centre = (farthest_within if self.inward else nearest_clear)(self.part.at, way, setting, clear)
        at = Point(centre.x - setting.box.centre.x, centre.y - middle_of(setting))
        return as_legend(self.part, "numeral", style, setting, at, self.scale.where)


def _reads_inwards(way: Vector, middle: Vector) -> bool:
    """Whether a numeral along the radius reads towards the shaft: left of it.

    One straight above or below it reads as the half that has the middle of the scale; upwards where that is neither.
    """
    side = way.x if abs(way.x) > _LEVEL else middle.x
    return side < -_LEVEL or (abs(side) <= _LEVEL and way.y < 0)


ANGLE_SIGNS = ("°", "′", "″")
"""The signs of plane angle, before which nothing stands (SI Brochure, 9th edition, 5.4.3)."""


def with_unit(scale: Scale, style: Style, value: float) -> str:
    """A number with the unit of its scale behind it, never at a line's end: the thin space where the face has it."""
    thin = "\N{NARROW NO-BREAK SPACE}"
    space = thin if open_font(style.font).has(thin) else "\N{NO-BREAK SPACE}"
    number, unit = _in_one_unit(shown(scale, value), scale.unit)
    return f"{number}{'' if unit in ANGLE_SIGNS else space}{unit}"


def _in_one_unit(number: str, unit: str) -> tuple[str, str]:
    """A number and its unit; the k or M of a numeral goes with the unit where there is such a one: 20 kHz."""
    for letter, size in THOUSANDS:
        larger = multiple(unit, size) if number.endswith(letter) else None
        if larger is not None:
            return number.removesuffix(letter), larger
    return number, unit


def _highest_number(scale: Scale, values: Sequence[float]) -> int | None:
    """Which of the values with something at them is the highest with a number; None where none has."""
    named = [*worded(scale), RESTING]
    return next((index for index in reversed(range(len(values))) if values[index] not in named), None)


RESTING = -math.inf
"""Stands for the end of the travel, below all values, where something is lettered there."""


def share_of(scale: Scale, value: float) -> float:
    """How far along a value stands, 0 where the scale begins and 1 where it ends."""
    return resting(scale) if value == RESTING else travelled(scale, value)


def _said(scale: Scale, style: Style, value: float) -> tuple[Style, str]:
    """What stands at a value and how it is lettered: a numeral, a word or a symbol."""
    if value == RESTING:
        return style, scale.rest
    for at, sign in scale.signs:
        if math.isclose(at, value, rel_tol=1e-9, abs_tol=1e-9):
            own = replace(
                style,
                font=sign.font or style.font,
                cap_height=sign.cap_height or style.cap_height,
                ink=sign.ink or style.ink,
                look=PLAIN_LOOK,
            )
            return own, sign.text
    return style, shown(scale, value)


def _word(scale: Scale, style: Style, text: str, lines: int, align: Align) -> Setting:
    """What stands at a value; a word that may be broken is on so many lines, or on as many as it can be."""
    spans = scale.spans(text)
    if lines == 1:
        return set_words(text, style.font, style.cap_height, look=style.look, spans=spans)
    ways = wrapped((Wording(text, style.font, style.cap_height, style.look, spans),), align)
    fitting = [way for way in ways if len(way.baselines) <= lines]
    return max(fitting, key=lambda way: len(way.baselines), default=ways[0])


def _towards_mark(way: Vector) -> Align:
    """How the lines of words at the end of a mark are aligned: to the mark, or centred over or under a steep one."""
    return Align.CENTRE if abs(way.x) < STEEP else Align.LEFT if way.x > 0 else Align.RIGHT


def _band(scale: Scale, unit: float) -> float:
    """The room that bands take between the skirt and the marks."""
    widths = [ZONE] if scale.zones else []
    widths += [WEDGE] if scale.wedge else []
    return (max(widths) + BAND_WHITE) * unit if widths else 0.0


def _uncrowded(
    scale: Scale, lettered: Callable[[float, int], PlacedLegend], lines: int, gap: float, *, closed: bool = False
) -> tuple[list[float], list[PlacedLegend]]:
    """The values with a numeral and what is `lettered` at each, words on as few lines as have room, at least `lines`.

    Where none has, as many are as leave most numerals in place, and the fewest of these.
    """
    rest = [RESTING] if scale.rest else []
    ways = [[*rest, *values] for values in numbered(scale)]
    tried = (
        _minimum_crowded(scale, [(way, [lettered(value, many) for value in way]) for way in ways], gap, closed=closed)
        for many in range(lines, (MOST_LINES if scale.words else lines) + 1)
    )
    best: tuple[list[float], list[PlacedLegend]] = ([], [])
    for values, placed in tried:
        if values == ways[0] and not _touching(placed, gap):
            return values, placed
        if not best[0] or (len(values), not _touching(placed, gap)) > (len(best[0]), not _touching(best[1], gap)):
            best = values, placed
    return best


def _touching(placed: Sequence[PlacedLegend], gap: float) -> bool:
    """Whether neighbours have less white between them."""
    return any(_near(a, b, gap) for a, b in pairwise(placed))


def _minimum_crowded(
    scale: Scale, ways: Sequence[tuple[list[float], list[PlacedLegend]]], gap: float, *, closed: bool = False
) -> tuple[list[float], list[PlacedLegend]]:
    """The first of several ways to number a scale in which no two numerals touch; else the last.

    Where there is but one, and the spec does not ask for it, numerals that touch others are left out of it.
    """
    for values, placed in ways:
        if not _touching(placed, gap):
            return values, placed
    values, placed = ways[-1]
    if len(ways) > 1 or scale.numerals is not None:
        return values, placed
    kept = _untouched(values, placed, gap, closed=closed)
    return [values[index] for index in kept], [placed[index] for index in kept]


def _untouched(values: Sequence[float], placed: Sequence[PlacedLegend], gap: float, *, closed: bool) -> list[int]:
    """The numbers of numerals that touch none of more weight: the ends and zero first, then from the high end.

    A scale that is closed has one end, where it begins.
    """
    weighty = {0, *(index for index, value in enumerate(values) if value == 0)}
    weighty |= set() if closed else {len(values) - 1}
    kept: list[int] = []
    for index in sorted(range(len(values)), key=lambda one: (one not in weighty, -one)):
        if not any(_near(placed[index], placed[other], gap) for other in kept):
            kept.append(index)
    return sorted(kept)


def _near(a: PlacedLegend, b: PlacedLegend, gap: float) -> bool:
    if not a.box.overlaps(b.box, gap):
        return False
    return bool(shapely.distance(_hull(a.shape), _hull(b.shape)) < gap)


def _hull(shape: Shape) -> shapely.Geometry:
    points = [tuple(point) for loop in shape for curve in loop.curves for point in (curve.start, curve.end)]
    return shapely.convex_hull(shapely.multipoints(np.array(points)))


def radial(
    part: Part, marking: Marking, deg: float, inner: float, kind: str, where: Where, *, inward: bool = False
) -> Mark:
    """A mark of a kind in a direction, from `inner` mm outwards, or inwards."""
    way = direction(deg)
    length = mark_size(marking, kind).length
    near = part.at.moved(way.scaled(inner))
    far = part.at.moved(way.scaled(inner - length if inward else inner + length))
    return _line(part, marking, near, far, kind, where)


def _line(part: Part, marking: Marking, near: Point, far: Point, kind: str, where: Where) -> Mark:
    width = mark_size(marking, kind).width
    return _mark(part, f"{kind}-mark", open_shape((Line(near, far),)), width, marking.styles["numeral"].ink, where)


def _depth(scale: Scale, marking: Marking) -> float:
    """How far its marks reach: a stepped control with dots at all its values has no long ones."""
    if {graduation.kind for graduation in graduations(scale)} == {"detent"}:
        return DOT * marking.styles["name"].cap_height
    return mark_size(marking, "major").length


def _mark(part: Part, kind: str, shape: Shape, width: float, ink: Ink, where: Where) -> Mark:
    return Mark(ref=part.ref, kind=kind, shape=shape, width=width, ink=ink, where=where)


def _area(part: Part, kind: str, shape: Shape, marking: Marking, where: Where) -> Mark:
    ink = marking.styles["numeral"].ink
    return Mark(ref=part.ref, kind=kind, shape=shape, width=0.0, ink=ink, where=where, filled=True)


def _dot(part: Part, scale: Scale, marking: Marking, centre: Point) -> Mark:
    diameter = DOT * marking.styles["name"].cap_height
    return _area(part, "detent-mark", shape_of(circle(diameter, centre)), marking, scale.where)


# --- straight scales


class _Straight:
    """One scale beside a part; `inner` is where its ink may begin, mm out from the part's middle."""

    def __init__(
        self, part: Part, scale: Scale, straight: StraightScale, marking: Marking, inner: float, lines: int
    ) -> None:
        self.part, self.scale, self.marking, self.lines = part, scale, marking, lines
        self.side, self.length = straight.side, straight.length
        self.unit = marking.styles["name"].cap_height
        self.long = _depth(scale, marking)
        self.band = inner
        self.inner = inner + _band(scale, self.unit)
        self.out = {
            Place.RIGHT: Vector(1.0, 0.0),
            Place.LEFT: Vector(-1.0, 0.0),
            Place.ABOVE: Vector(0.0, 1.0),
            Place.BELOW: Vector(0.0, -1.0),
        }[self.side]
        self.along = Vector(0.0, 1.0) if self.side in (Place.RIGHT, Place.LEFT) else Vector(1.0, 0.0)

    def at(self, part_of_way: float, out: float) -> Point:
        """A point at a share of the way along, and so far out, mm."""
        return self.part.at.moved(self.along.scaled((part_of_way - 0.5) * self.length)).moved(self.out.scaled(out))

    def made(self) -> Dial:
        marks: list[Mark] = []
        width = ZONE * self.unit
        for zone in self.scale.zones:
            ends = [self.at(share_of(self.scale, value), self.band + width / 2) for value in (zone.low, zone.high)]
            shape = open_shape((Line(ends[0], ends[1]),))
            marks.append(_mark(self.part, "zone", shape, width, zone.ink, self.scale.where))
        if self.scale.wedge:
            low, high = (1.0, 0.0) if self.scale.falling else (0.0, 1.0)
            corners = [self.at(low, self.band), self.at(high, self.band), self.at(high, self.band + WEDGE * self.unit)]
            loop = Loop(tuple(Line(a, b) for a, b in pairwise([*corners, corners[0]])))
            marks.append(_area(self.part, "wedge", (loop,), self.marking, self.scale.where))
        values, numerals = self.numerals()
        way = Room(length=self.length, apart=marks_apart(self.marking))
        if self.scale.rest:
            ends = [self.at(resting(self.scale), self.inner + out) for out in (0.0, self.long)]
            marks.append(_line(self.part, self.marking, ends[0], ends[1], "major", self.scale.where))
        for graduation in graduations(self.scale, way, values):
            near = self.at(graduation.share, self.inner)
            if graduation.kind == "detent":
                centre = self.at(graduation.share, self.inner + DOT * self.unit / 2)
                marks.append(_dot(self.part, self.scale, self.marking, centre))
                continue
            far = self.at(graduation.share, self.inner + mark_size(self.marking, graduation.kind).length)
            marks.append(_line(self.part, self.marking, near, far, graduation.kind, self.scale.where))
        return Dial(tuple(marks), tuple(numerals))

    def numerals(self) -> tuple[list[float], list[PlacedLegend]]:
        """The values with a numeral, and what stands at them, with the unit behind."""
        style = self.marking.styles["numeral"]

        def lettered(value: float, lines: int) -> PlacedLegend:
            return self._numeral(*_said(self.scale, style, value), share_of(self.scale, value), lines=lines)

        values, found = _uncrowded(self.scale, lettered, self.lines, APART * style.cap_height)
        if self.scale.unit:
            found = self._with_unit(values, found, style)
        return values, found

    def _with_unit(self, values: Sequence[float], found: Sequence[PlacedLegend], style: Style) -> list[PlacedLegend]:
        """The numerals, with the unit beyond the end of the scale; the sign of an angle is behind the highest."""
        last = _highest_number(self.scale, values)
        if last is not None and self.scale.unit in ANGLE_SIGNS:
            whole = with_unit(self.scale, style, values[last])
            carries = self._numeral(style, whole, share_of(self.scale, values[last]))
            return [*found[:last], carries, *found[last + 1 :]]
        step = 1.7 * style.cap_height / self.length
        upright = self.along.y > 0
        if not upright:
            end = found[0 if self.scale.falling else -1]
            step = (end.box.width / 2 + 1.2 * style.cap_height) / self.length
        return [*found, self._numeral(style, self.scale.unit, 1.0 + step, hang=not upright)]

    def _numeral(
        self, style: Style, text: str, part_of_way: float, *, hang: bool = False, lines: int = 1
    ) -> PlacedLegend:
        """Numbers beside the end of their mark; a unit that `hang`s starts there and runs on."""
        setting = _word(self.scale, style, text, lines, _towards_mark(self.out))
        white = IN_LINE_WHITE if self.side in (Place.LEFT, Place.RIGHT) else NUMERAL_WHITE
        end = self.at(part_of_way, self.inner + self.long + white * style.cap_height)
        middle = Point(end.x - setting.box.centre.x, end.y - middle_of(setting))
        at = {
            Place.RIGHT: Point(end.x - setting.box.left, middle.y),
            Place.LEFT: Point(end.x - setting.box.right, middle.y),
            Place.ABOVE: Point(middle.x, end.y - setting.baselines[-1]),
            Place.BELOW: Point(middle.x, end.y - style.cap_height),
        }[self.side]
        if hang:
            at = Point(end.x - setting.box.left, at.y)
        return as_legend(self.part, "numeral", style, setting, at, self.scale.where)


# --- names of positions


def _position_names(part: Part, marking: Marking, outer: float, lines: int) -> list[PlacedLegend]:
    """The names at the ends of their marks, on so many lines each; broken into more where they would touch."""
    angular = [position for position in part.positions if not isinstance(position.direction, str)]
    ways: list[list[PlacedLegend]] = []
    for maximum in range(lines, MOST_LINES + 1):
        placed = [
            _position_name(part, marking, position.request, float(position.direction), outer, maximum)
            for position in angular
        ]
        ways.append(placed)
    gap = APART * marking.styles["position"].cap_height
    ring = [[*way, way[0]] for way in ways]
    for way, closed in zip(ways, ring, strict=True):
        if len(way) < 2 or not _touching(closed, gap):
            return way
    return ways[0]


def _position_name(
    part: Part, marking: Marking, request: LegendRequest, deg: float, outer: float, lines: int
) -> PlacedLegend:
    """The name of a position at the end of its mark.

    Right of it on the right side, left of it on the left, with the words aligned to the mark; centred over or under a
    mark that points nearly up or down.
    """
    style = style_of(request, marking)
    way = direction(deg)
    align = _towards_mark(way)
    settings = wraps(request, marking, align)
    setting = settings[min(lines, len(settings)) - 1]
    if align is Align.CENTRE:
        centre = nearest_clear(part.at, way, setting, outer + NUMERAL_WHITE * style.cap_height)
        at = Point(centre.x - setting.box.centre.x, centre.y - middle_of(setting))
    else:
        end = part.at.moved(way.scaled(outer))
        white = NAME_WHITE * style.cap_height
        x = end.x + white - setting.box.left if way.x > 0 else end.x - white - setting.box.right
        # Further lines go on outwards, clear of the name at the next mark.
        rise = 0.4 * style.cap_height + (setting.baselines[0] - setting.baselines[-1]) / 2
        at = Point(x, end.y + rise * way.y - middle_of(setting))
    return as_legend(part, request.style, style, setting, at, request.where)


def _ranges(part: Part, marking: Marking, names: Sequence[PlacedLegend]) -> Dial:
    """A bracket over neighbours that have one unit, with the unit outside it; one position has its unit alone."""
    angular = [position for position in part.positions if not isinstance(position.direction, str)]
    marks: list[Mark] = []
    legends: list[PlacedLegend] = []
    style = marking.styles["position"]
    white = NUMERAL_WHITE * style.cap_height
    radius = max((_reach(part.at, name.box) for name in names), default=0.0) + white
    tick = TICK * style.cap_height
    width = mark_size(marking, "minor").width
    for unit, members in groupby(angular, key=lambda position: position.unit):
        if unit is None:
            continue
        angles = [float(position.direction) for position in members]
        first, last = angles[0], angles[-1]
        outer = radius
        if len(angles) > 1:
            turned = -((first - last) % 360.0)
            ends = [part.at.moved(direction(deg).scaled(radius)) for deg in (first, last)]
            arc = Arc(part.at, radius + tick, first, turned)
            shape = open_shape((Line(ends[0], arc.start), arc, Line(arc.end, ends[1])))
            marks.append(_mark(part, "range-bracket", shape, width, style.ink, unit.where))
            outer, last = radius + tick + width / 2, first + turned
        own = style_of(unit, marking)
        setting = set_words(unit.text, own.font, own.cap_height, look=own.look, spans=unit.spans)
        centre = nearest_clear(part.at, direction((first + last) / 2), setting, outer + white)
        at = Point(centre.x - setting.box.centre.x, centre.y - middle_of(setting))
        legends.append(as_legend(part, unit.style, own, setting, at, unit.where))
    return Dial(tuple(marks), tuple(legends))


def as_legend(
    part: Part, style_name: str, style: Style, setting: Setting, at: Point, where: Where, turn: float = 0.0
) -> PlacedLegend:
    """Set words that stand at a place of their own, as a legend of their part."""
    return PlacedLegend(
        ref=part.ref,
        style=style_name,
        text=setting.text,
        box=setting.box.moved(Vector(at.x, at.y)) if turn == 0.0 else bounds(setting.placed(at, turn)),
        baseline=at,
        cap_height=style.cap_height,
        font=style.font,
        ink=style.ink,
        where=where,
        setting=setting,
        turn=turn,
    )


def middle_of(setting: Setting) -> float:
    """The height that looks like the middle of the words: half way up the capitals of all lines together."""
    return (setting.baselines[0] + setting.cap_height + setting.baselines[-1]) / 2


def nearest_clear(hub: Point, way: Vector, setting: Setting, clear: float) -> Point:
    """Where on a ray the middle of the words stands so that their ink is just `clear` mm from the hub."""
    half_width = setting.box.width / 2
    up = setting.box.top - middle_of(setting)
    down = middle_of(setting) - setting.box.bottom

    def inside(out: float) -> bool:
        centre = Point(way.x * out, way.y * out)
        box = Box(centre.x - half_width, centre.y - down, centre.x + half_width, centre.y + up)
        x = max(box.left, 0.0, -box.right)
        y = max(box.bottom, 0.0, -box.top)
        return out <= 0 or math.hypot(x, y) < clear

    return hub.moved(way.scaled(_last(inside, clear - half_width - up - down, clear + half_width + max(up, down))))


def farthest_within(hub: Point, way: Vector, setting: Setting, clear: float) -> Point:
    """Where on a ray the middle of the words stands so that their ink just keeps within `clear` mm of the hub."""
    half_width = setting.box.width / 2
    half_height = max(setting.box.top - middle_of(setting), middle_of(setting) - setting.box.bottom)

    def inside(out: float) -> bool:
        return math.hypot(abs(way.x) * out + half_width, abs(way.y) * out + half_height) < clear

    return hub.moved(way.scaled(_last(inside, 0.0, clear)))


def _last(inside: Callable[[float], bool], near: float, far: float) -> float:
    for _ in range(48):
        mid = (near + far) / 2
        near, far = (mid, far) if inside(mid) else (near, mid)
    return far
