"""The places that come into question for one legend, each with what it costs.

A name stands above its control by house preference; below, right and left cost more, in that order. On each side the
words stand as near as their own part's hardware and scale allow. Costs are whole numbers: the smaller the better.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from panelart.geometry import Box, Point, Vector
from panelart.legends.obstacles import Field, Obstacle
from panelart.lettering.outline import Shape
from panelart.lettering.setting import Align, Setting, set_words
from panelart.model.panel import LegendRequest, Marking, Part, Place, Style

SIDE_COST = {Place.ABOVE: 0, Place.BELOW: 8, Place.RIGHT: 14, Place.LEFT: 18}
"""House preference: above the control, so that the hand does not hide the words (MIL-STD-1472, from memory)."""

WRAP_COST = 3
SLIDE_COST = 3
ROW_COST = 1
STEP_OFF_COST = 1
AMBIGUOUS_COST = 6
AMBIGUOUS_RATIO = 1.3
"""A legend must lie nearer to its own part than to any other by this factor, or it costs."""

NEAR_GAP = 0.5
"""White between a part and its legend over cap height, where the clearance asks for no more. Common practice."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """One way to set one legend: words `setting` with the first base line starting at `at`.

    `form` names the side and slide for comparing neighbours; `line` is the base line's height, or the near edge
    of words that stand beside their part.
    """

    setting: Setting
    at: Point
    place: Place
    form: str
    line: float
    cost: int

    @property
    def box(self) -> Box:
        """The bounds of the ink on the panel."""
        return self.setting.box.moved(Vector(self.at.x, self.at.y))

    def shape(self) -> Shape:
        """The outlines on the panel."""
        return self.setting.placed(self.at)


def style_of(request: LegendRequest, marking: Marking) -> Style:
    """The style that a request is lettered in, with its own size and ink where it gives them."""
    style = marking.styles[request.style]
    return Style(
        font=style.font,
        cap_height=request.cap_height or style.cap_height,
        case=style.case,
        ink=request.ink or style.ink,
    )


def wraps(text: str, style: Style, align: Align) -> list[Setting]:
    """The words on one line, and broken at spaces into two and three lines of least width."""
    words = text.split(" ")
    found = [set_words(text, style.font, style.cap_height, align)]
    for lines in (2, 3):
        if "\n" in text or len(words) < lines:
            break
        broken = min(
            (set_words("\n".join(parts), style.font, style.cap_height, align) for parts in _splits(words, lines)),
            key=lambda setting: (setting.box.width, setting.text),
        )
        if broken.box.width < found[-1].box.width - 0.5 * style.cap_height:
            found.append(broken)
    return found


def _splits(words: Sequence[str], lines: int) -> Iterable[list[str]]:
    if lines == 1:
        yield [" ".join(words)]
        return
    for first in range(1, len(words) - lines + 2):
        for rest in _splits(words[first:], lines - 1):
            yield [" ".join(words[:first]), *rest]


class Stand:
    """One part as its own legends see it: how far its hardware and fixed markings reach on every side."""

    def __init__(self, part: Part, field: Field) -> None:
        self.part = part
        origin = part.component.legend_origin
        self.centre = part.at.moved(Vector(origin.x, origin.y).turned(part.turn))
        own = field.of(part.ref)
        self.own: list[Obstacle] = own
        self.area: BaseGeometry = (
            shapely.union_all([obstacle.area for obstacle in own]) if own else shapely.Point(part.at.x, part.at.y)
        )
        self.grown = (
            shapely.union_all([obstacle.area.buffer(obstacle.clearance) for obstacle in own]) if own else self.area
        )
        left, bottom, right, top = self.area.bounds
        self.box = Box(left, bottom, right, top)
        self._edges: dict[tuple[Place, float, float, float, float], float] = {}

    def edge(self, place: Place, low: float, high: float, gap: float, beyond: float = 0.0) -> float:
        """How far out words must start that span low..high along one side, keeping `gap` and every clearance.

        Follows the part's true outline, so that short words nestle against a round knob. `beyond` is ink that
        reaches nearer than the line the words stand on: tails below the base line, accents above the capitals.
        """
        key = (place, low, high, gap, beyond)
        if key not in self._edges:
            self._edges[key] = self._reach(*key)
        return self._edges[key]

    def _reach(self, place: Place, low: float, high: float, gap: float, beyond: float) -> float:
        box = self.box.grown(50.0)
        across = place in (Place.LEFT, Place.RIGHT)
        reaches: list[float] = []
        for area, extra in ((self.grown, beyond), (self.area, gap)):
            here = (
                shapely.clip_by_rect(area, box.left, low, box.right, high)
                if across
                else shapely.clip_by_rect(area, low, box.bottom, high, box.top)
            )
            if here.is_empty:
                continue
            bounds = here.bounds
            reaches.append(
                {
                    Place.ABOVE: bounds[3] + extra,
                    Place.BELOW: -(bounds[1] - extra),
                    Place.RIGHT: bounds[2] + extra,
                    Place.LEFT: -(bounds[0] - extra),
                }[place]
            )
        if not reaches:
            centre = self.centre
            return {Place.ABOVE: centre.y, Place.BELOW: -centre.y, Place.RIGHT: centre.x, Place.LEFT: -centre.x}[place]
        return max(reaches)


def name_candidates(
    request: LegendRequest, stand: Stand, marking: Marking, *, inner_row: float, lines: Sequence[float]
) -> list[Candidate]:
    """Every place for a part's name, before anything in the way is looked at.

    `inner_row` is the height of position names that may stand between part and name (0 when there are none);
    `lines` are base lines of neighbours in the same row that the name may share.
    """
    style = style_of(request, marking)
    found: list[Candidate] = []
    places = (request.place,) if request.place is not None else tuple(SIDE_COST)
    for place in places:
        align = {Place.RIGHT: Align.LEFT, Place.LEFT: Align.RIGHT}.get(place, Align.CENTRE)
        for wrap, setting in enumerate(wraps(request.text, style, align)):
            cost = (SIDE_COST[place] if request.place is None else 0) + WRAP_COST * wrap
            if place in (Place.ABOVE, Place.BELOW):
                found += _stacked(setting, place, stand, style, cost, inner_row, lines)
            else:
                found += _beside(setting, place, stand, style, cost)
    return found


def _stacked(
    setting: Setting,
    place: Place,
    stand: Stand,
    style: Style,
    cost: int,
    inner_row: float,
    lines: Sequence[float],
) -> list[Candidate]:
    """Above or below the part: centred, and slid so that one end lines up with the part."""
    found: list[Candidate] = []
    gap = NEAR_GAP * style.cap_height
    centre = stand.centre.x
    width = setting.box.width
    slides = {0.0}
    overhang = (stand.box.width - width) / 2
    slides |= {overhang, -overhang, overhang / 2, -overhang / 2} if abs(overhang) > 0.5 else set()
    for slide in sorted(slides, key=lambda value: (abs(value), value)):
        left = centre + slide - width / 2
        x = left - setting.box.left
        edge = stand.edge(place, left, left + width, gap, _beyond(setting, place))
        slid = 0 if slide == 0.0 else SLIDE_COST + (abs(slide) > abs(overhang) / 2 + 1e-9)
        rows = (0.0, inner_row) if inner_row else (0.0,)
        for out, extra in enumerate(rows):
            base = _base(setting, place, edge, extra)
            found.append(
                Candidate(setting, Point(x, base), place, f"{place.value}", base, cost + slid + ROW_COST * out)
            )
        own = _base(setting, place, edge, 0.0)
        for line in lines if slide == 0.0 else ():
            further = line - own if place is Place.ABOVE else own - line
            if 0.01 < further <= 4 * style.cap_height:
                farther = ROW_COST + int(STEP_OFF_COST * further / style.cap_height)
                found.append(Candidate(setting, Point(x, line), place, f"{place.value}", line, cost + farther))
    return found


def _beyond(setting: Setting, place: Place) -> float:
    if place is Place.ABOVE:
        return max(0.0, setting.baselines[-1] - setting.box.bottom)
    return max(0.0, setting.box.top - setting.cap_height)


def _base(setting: Setting, place: Place, edge: float, extra: float) -> float:
    """The first base line's height for words whose near edge keeps off the part's `edge` by `extra`.

    Words that stand above rest on their last base line and words below hang from their capitals, so that a
    descender does not move a row; what ink lies beyond is part of the clearance test.
    """
    if place is Place.ABOVE:
        return edge + extra - setting.baselines[-1]
    return -edge - extra - setting.cap_height


def _beside(setting: Setting, place: Place, stand: Stand, style: Style, cost: int) -> list[Candidate]:
    """Right or left of the part, the capitals centred on it."""
    middle = stand.centre.y
    base = middle - (setting.baselines[0] + setting.cap_height + setting.baselines[-1]) / 2
    low = base + setting.box.bottom
    edge = stand.edge(place, low, low + setting.box.height, NEAR_GAP * style.cap_height)
    if place is Place.RIGHT:
        x = edge - setting.box.left
        line = edge
    else:
        x = -edge - setting.box.right
        line = -edge
    return [Candidate(setting, Point(x, base), place, place.value, line, cost)]


def position_candidates(request: LegendRequest, way: Place | None, stand: Stand, marking: Marking) -> list[Candidate]:
    """Places for the name of one position: on the side of the throw, else beside the end of the throw.

    `way` is where the control goes on the panel, None for a middle position.
    """
    style = style_of(request, marking)
    setting = set_words(request.text, style.font, style.cap_height)
    gap = NEAR_GAP * style.cap_height
    found: list[Candidate] = []
    asked = request.place
    if way in (Place.ABOVE, Place.BELOW):
        if asked in (None, way):
            found += [
                Candidate(item.setting, item.at, item.place, "along", item.line, item.cost)
                for item in _stacked(setting, way, stand, style, 0, 0.0, ())[:1]
            ]
        reach = stand.box.top if way is Place.ABOVE else stand.box.bottom
        base = reach - setting.cap_height if way is Place.ABOVE else reach
        for side, cost in ((Place.RIGHT, 8), (Place.LEFT, 10)):
            if asked in (None, side):
                found.append(_at_height(setting, side, base, stand, gap, cost, "beside-" + side.value))
    elif way in (Place.LEFT, Place.RIGHT):
        if asked in (None, way):
            found += [
                Candidate(item.setting, item.at, item.place, "along", item.line, item.cost)
                for item in _beside(setting, way, stand, style, 0)
            ]
    else:
        base = stand.centre.y - setting.cap_height / 2
        for side, cost in ((Place.RIGHT, 0), (Place.LEFT, 2)):
            if asked in (None, side):
                found.append(_at_height(setting, side, base, stand, gap, cost, "beside-" + side.value))
    return found


def _at_height(setting: Setting, side: Place, base: float, stand: Stand, gap: float, cost: int, form: str) -> Candidate:
    low = base + setting.box.bottom
    edge = stand.edge(side, low, low + setting.box.height, gap)
    x = edge - setting.box.left if side is Place.RIGHT else -edge - setting.box.right
    return Candidate(setting, Point(x, base), side, form, edge if side is Place.RIGHT else -edge, cost)


def penalised(candidates: Sequence[Candidate], stand: Stand, field: Field) -> list[Candidate]:
    """The same places, dearer where another part's hardware lies about as near as the legend's own."""
    boxes = [candidate.box for candidate in candidates]
    gaps = [float(stand.area.distance(shapely.box(box.left, box.bottom, box.right, box.top))) for box in boxes]
    crowded = field.nearest_foreign(boxes, stand.part.ref, [AMBIGUOUS_RATIO * gap for gap in gaps])
    return [
        Candidate(item.setting, item.at, item.place, item.form, item.line, item.cost + AMBIGUOUS_COST)
        if close
        else item
        for item, close in zip(candidates, crowded, strict=True)
    ]
