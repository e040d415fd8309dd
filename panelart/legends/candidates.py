"""The places that come into question for one legend, each with what it costs.

A name stands above its control by house preference; below, right and left cost more, in that order. On each side the
words stand as near as their own part's hardware and scale allow, or on a base line that they may share with their
neighbours. Costs are whole numbers, kept by the reason for each: the smaller the sum the better.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

import numpy as np
import shapely
from msgspec.structs import replace
from numpy.typing import NDArray

from panelart.canonical import Struct
from panelart.geometry import Box, Point, Vector
from panelart.geometry.distinct import distinct, distinct_with_places
from panelart.legends.obstacles import Boxes, Field
from panelart.legends.stand import SAMPLES, Stand
from panelart.legends.wanted import lies_level
from panelart.lettering.breaks import breaks, broken
from panelart.lettering.hyphenation import divided
from panelart.lettering.look import Align, Look
from panelart.lettering.setting import Setting, set_words
from panelart.lettering.spans import Span
from panelart.model.panel import Anchor, LegendRequest, Marking, Place, Placing, Style

SIDES = (Place.ABOVE, Place.BELOW, Place.RIGHT, Place.LEFT)
"""The sides of a part, the preferred one first: above, so that the hand does not hide the words (MIL-STD-1472, from
memory)."""

CORNERS = (Place.ABOVE_RIGHT, Place.ABOVE_LEFT, Place.BELOW_RIGHT, Place.BELOW_LEFT)

UPRIGHT = (Place.ABOVE, Place.BELOW)

AMBIGUOUS_RATIO = 1.3
"""A legend must lie nearer to its own part than to any other by this factor, or it costs."""

OVER_GAP = 0.6
"""White between a name and the position's name that it stands over, over the name's cap height. Common practice: a
little more than between the position's name and the switch, so that the name is read as belonging to both."""

FARTHEST = 2.5
"""Words stand at most this many of their capitals' heights farther out than they need, to share a line."""

HYPHENATED = 1.0
"""How much narrower, over the cap height, lines must get for each word that is broken, before it is. Our choice."""

TIGHT = -0.06
"""Space taken from between tight letters, over the cap height. The gap of lettering type B is 0.2, of which DIN EN ISO
3098-0 lets half go (from memory); what is left here is more than a stroke, which is 0.1."""

NARROW = {"plain": "plain-narrow"}
"""The narrow face of each font that has one."""

Lines = Mapping[Place, Sequence[float]]
"""Heights of base lines above and below, and near edges right and left, that neighbours in line would take."""


class Candidate(Struct, frozen=True):
    """One way to set one legend: words `setting` with the first base line starting at `at`.

    `form` names the way for comparing neighbours; `line` is the height of the base line nearest to the part, or the
    near edge of words that stand beside it. `looks` and `resorts` are the costs by reason, of the lowest tier and of
    the middle one. `leader` is the line to the part, if there is one.
    """

    setting: Setting
    at: Point
    place: Place
    form: str
    line: float
    looks: tuple[tuple[str, int], ...] = ()
    resorts: tuple[tuple[str, int], ...] = ()
    leader: tuple[Point, ...] = ()

    @property
    def cost(self) -> int:
        """What the looks cost together."""
        return sum(cost for _, cost in self.looks)

    @property
    def resort(self) -> int:
        """What the later resorts cost together."""
        return sum(cost for _, cost in self.resorts)

    @property
    def box(self) -> Box:
        """The bounds of the ink on the panel."""
        return self.setting.box.moved(Vector(self.at.x, self.at.y))

    def dearer(self, reason: str, cost: int) -> Candidate:
        """The same place for more."""
        return replace(self, looks=(*self.looks, (reason, cost))) if cost else self


def style_of(request: LegendRequest, marking: Marking) -> Style:
    """The style that a request is lettered in, with its own size and ink where it gives them."""
    style = marking.styles[request.style]
    if not (request.font or request.cap_height or request.ink or request.look):
        return style
    return replace(
        style,
        font=request.font or style.font,
        cap_height=request.cap_height or style.cap_height,
        ink=request.ink or style.ink,
        look=request.look or style.look,
    )


def lettered(request: LegendRequest, style: Style, align: Align = Align.CENTRE, text: str | None = None) -> Setting:
    """The words of a request in a style; `text` are the same words broken into lines."""
    words = request.text if text is None else text
    return set_words(words, style.font, style.cap_height, align, style.look, request.spans)


def wraps(request: LegendRequest, style: Style, align: Align) -> tuple[Setting, ...]:
    """The words on one line, and broken into two and three lines.

    Of the breaks into as many lines that make sense only the narrowest counts: the others are as high and wider.
    """
    return _wraps(request.text, style.font, style.cap_height, align, style.look, request.spans)


@lru_cache(maxsize=4096)
def _wraps(
    text: str, font: str, cap_height: float, align: Align, look: Look, spans: tuple[Span, ...]
) -> tuple[Setting, ...]:
    found = [set_words(text, font, cap_height, align, look, spans)]
    places = () if "\n" in text else breaks(text, spans, look.language)
    for lines in (2, 3):
        settings: list[tuple[float, str, Setting]] = []
        for ends in itertools.combinations(places, lines - 1):
            words, moved = broken(text, spans, ends)
            setting = set_words(words, font, cap_height, align, look, moved)
            hyphens = sum(end.hyphen for end in ends)
            settings.append((setting.box.width + hyphens * HYPHENATED * cap_height, words, setting))
        if not settings:
            break
        width, _, narrowest = min(settings, key=lambda each: each[:2])
        if width < found[-1].box.width - 0.5 * cap_height:
            found.append(narrowest)
    return tuple(found)


# --- names


class Near(Struct, frozen=True):
    """A candidate as near as it may be; `shares` whether it may stand farther out on a line of its neighbours."""

    candidate: Candidate
    shares: bool


def near_names(request: LegendRequest, stand: Stand, marking: Marking) -> list[Near]:
    """Every place for a part's name that is as near as it may be, before anything in the way is looked at."""
    style = style_of(request, marking)
    return [
        near
        for place in (SIDES if request.place is None else (request.place,))
        for near in _on_side(request, place, stand, style, marking.placing)
    ]


def with_lines(
    near: Iterable[Near], request: LegendRequest, placing: Placing, *, over: Lines, lines: Lines
) -> list[Candidate]:
    """The near places, each followed by those farther out on lines that the words may share.

    `over` are the base lines that clear the names of the part's own positions; `lines` are those of neighbours in
    the same row, and edges of neighbours in the same column.
    """
    found: list[Candidate] = []
    for one in near:
        place = one.candidate.place
        shared = [*(over.get(place, ()) if place in UPRIGHT else ()), *(lines.get(place, ()) if one.shares else ())]
        found.append(one.candidate)
        if shared:
            found += _farther(one.candidate, shared, placing)
    return found if request.offset is None else [_offset(candidate, request) for candidate in found]


def _on_side(request: LegendRequest, place: Place, stand: Stand, style: Style, placing: Placing) -> list[Near]:
    found: list[Near] = []
    asked = None if request.align is None else Align(request.align.value)
    align = asked or {Place.RIGHT: Align.LEFT, Place.LEFT: Align.RIGHT}.get(place, Align.CENTRE)
    side = () if request.place is not None else ((place.value, side_cost(place, placing)),)
    for wrap, setting in enumerate(wraps(request, style, align)):
        looks = (*side, ("wrap", placing.wrap * wrap)) if wrap else side
        if place in UPRIGHT:
            for number, slide in enumerate(_slides_asked(request, setting, stand)):
                cost = () if number == 0 else (("slide", placing.slide + number // 3),)
                nearest = stacked(setting, place, stand, style, placing, slide, (*looks, *cost))
                found.append(Near(nearest, number == 0))
        elif place in CORNERS:
            found.append(Near(_at_corner(setting, place, stand, style, placing, looks), False))
        else:
            found.append(Near(beside(setting, place, stand, style, placing, looks), True))
    return found


def side_cost(place: Place, placing: Placing) -> int:
    """What a side costs; a corner costs as the side it is nearest to."""
    if place in (Place.RIGHT, Place.LEFT):
        return placing.right if place is Place.RIGHT else placing.left
    return placing.above if place in (Place.ABOVE, Place.ABOVE_LEFT, Place.ABOVE_RIGHT) else placing.below


def _slides_asked(request: LegendRequest, setting: Setting, stand: Stand) -> list[float]:
    """How far words above or below may stand off the middle: as asked, or all that look tidy."""
    if request.align is None and request.offset is None:
        return _slides(setting, stand)
    return [_ranged(setting, stand, request.align or Anchor.CENTRE)]


def _slides(setting: Setting, stand: Stand) -> list[float]:
    """Centred first, then with one end in line with the part, and half way there."""
    overhang = (stand.box.width - setting.box.width) / 2
    if abs(overhang) <= 0.5:
        return [0.0]
    half = overhang / 2
    middle = stand.box.centre.x - stand.centre.x
    return [0.0, *sorted((half, -half, middle + overhang, middle - overhang), key=lambda slide: (abs(slide), slide))]


def _ranged(setting: Setting, stand: Stand, align: Anchor) -> float:
    half = setting.box.width / 2
    if align is Anchor.LEFT:
        return stand.box.left + half - stand.centre.x
    return stand.box.right - half - stand.centre.x if align is Anchor.RIGHT else 0.0


def _offset(candidate: Candidate, request: LegendRequest) -> Candidate:
    if request.offset is None:
        return candidate
    x, y = request.offset
    return replace(candidate, at=candidate.at.moved(request.offset), line=_line_moved(candidate, x, y))


def _line_moved(candidate: Candidate, x: float, y: float) -> float:
    return candidate.line + (y if candidate.place in UPRIGHT else x)


def stacked(
    setting: Setting,
    place: Place,
    stand: Stand,
    style: Style,
    placing: Placing,
    slide: float = 0.0,
    looks: tuple[tuple[str, int], ...] = (),
    form: str = "",
) -> Candidate:
    """Above or below the part, as near as it may be, moved `slide` mm to the right of its centre.

    Words that stand above rest on their last base line and words below hang from their first capitals, so that a
    descender does not move a row; what ink lies beyond is part of the clearance test.
    """
    left = stand.centre.x + slide - setting.box.width / 2
    beyond = (
        setting.baselines[-1] - setting.box.bottom if place is Place.ABOVE else setting.box.top - setting.cap_height
    )
    gap = placing.gap * style.cap_height
    edge = stand.edge(place, left, left + setting.box.width, gap, max(0.0, beyond))
    line = edge if place is Place.ABOVE else -edge - setting.cap_height
    base = line - setting.baselines[-1] if place is Place.ABOVE else line
    at = Point(left - setting.box.left, base)
    return Candidate(setting, at, place, form or place.value, line, looks)


def _farther(nearest: Candidate, lines: Iterable[float], placing: Placing) -> list[Candidate]:
    """The same words farther out, on lines that they may share."""
    out = 1.0 if nearest.place in (Place.ABOVE, Place.RIGHT) else -1.0
    found: list[Candidate] = []
    for line in sorted(set(lines)):
        further = (line - nearest.line) * out
        if not 0.01 < further <= FARTHEST * nearest.setting.cap_height:
            continue
        step = line - nearest.line
        by = Vector(0.0, step) if nearest.place in UPRIGHT else Vector(step, 0.0)
        cost = placing.step_off * (1 + int(2.0 * further / nearest.setting.cap_height))
        looks = (*nearest.looks, ("farther-off", cost)) if cost else nearest.looks
        found.append(
            Candidate(
                nearest.setting,
                nearest.at.moved(by),
                nearest.place,
                nearest.form,
                line,
                looks,
                nearest.resorts,
                nearest.leader,
            )
        )
    return found


def beside(
    setting: Setting,
    place: Place,
    stand: Stand,
    style: Style,
    placing: Placing,
    looks: tuple[tuple[str, int], ...] = (),
    form: str = "",
) -> Candidate:
    """Right or left of the part, the capitals centred on it."""
    base = stand.centre.y - (setting.baselines[0] + setting.cap_height + setting.baselines[-1]) / 2
    low = base + setting.box.bottom
    edge = stand.edge(place, low, low + setting.box.height, placing.gap * style.cap_height)
    return _against(setting, place, base, edge, looks, form or place.value)


def _against(
    setting: Setting, side: Place, base: float, edge: float, looks: tuple[tuple[str, int], ...], form: str
) -> Candidate:
    """Words whose near end stands against an upright line at `edge`."""
    line = edge if side is Place.RIGHT else -edge
    x = line - setting.box.left if side is Place.RIGHT else line - setting.box.right
    return Candidate(setting, Point(x, base), side, form, line, looks)


def _at_corner(
    setting: Setting, place: Place, stand: Stand, style: Style, placing: Placing, looks: tuple[tuple[str, int], ...]
) -> Candidate:
    """Off a corner of the part: the nearest corner of the words on the diagonal, as near as the gap allows."""
    right = place in (Place.ABOVE_RIGHT, Place.BELOW_RIGHT)
    above = place in (Place.ABOVE_RIGHT, Place.ABOVE_LEFT)
    gap = placing.gap * style.cap_height
    middle = stand.box.centre
    corner = Point(stand.box.right if right else stand.box.left, stand.box.top if above else stand.box.bottom)
    way = corner.minus(middle)
    box = setting.box
    start = Vector(-box.left if right else -box.right, -setting.baselines[-1] if above else -setting.cap_height)
    near, far = 0.0, 1.0 + (gap + 30.0) / max(way.length, 1e-6)
    for _ in range(16):
        mid = (near + far) / 2
        at = middle.moved(way.scaled(mid)).moved(start)
        words = box.moved(Vector(at.x, at.y))
        shape = shapely.box(words.left, words.bottom, words.right, words.top)
        clear = not stand.grown.intersects(shape) and stand.area.distance(shape) >= gap
        near, far = (near, mid) if clear else (mid, far)
    at = middle.moved(way.scaled(far)).moved(start)
    line = at.y + (setting.baselines[-1] if above else 0.0)
    return Candidate(setting, at, place, place.value, line, looks)


def resort_names(request: LegendRequest, stand: Stand, marking: Marking) -> list[Near]:
    """What is turned to when a name has no near place: corners, tighter letters, the narrow face, broken words."""
    style, placing = style_of(request, marking), marking.placing
    found: list[Near] = []
    if request.place is None and request.offset is None:
        for place in CORNERS:
            found += [
                _dear(near, ("corner", placing.corner)) for near in _on_side(request, place, stand, style, placing)
            ]
    for asked, other, resorts in _other_ways(request, style, placing):
        for place in SIDES if request.place is None else (request.place,):
            found += [_dear(near, *resorts) for near in _on_side(asked, place, stand, other, placing)]
    return found


def _other_ways(
    request: LegendRequest, style: Style, placing: Placing
) -> list[tuple[LegendRequest, Style, tuple[tuple[str, int], ...]]]:
    """The words set in less width, with what that costs: tight, narrow, with broken words."""
    tight = ("tight-letters", placing.tight)
    closer = replace(style, look=replace(style.look, tracking=style.look.tracking + TIGHT))
    ways: list[tuple[LegendRequest, Style, tuple[tuple[str, int], ...]]] = []
    if style.look.tracking >= 0.0:
        ways.append((request, closer, (tight,)))
    if style.font in NARROW:
        face = NARROW[style.font]
        ways.append((request, replace(style, font=face), (("narrow-face", placing.narrow),)))
        if style.look.tracking >= 0.0:
            ways.append((request, replace(closer, font=face), (("narrow-face", placing.narrow), tight)))
    if spans := divided(request.spans):
        ways.append((replace(request, spans=spans), style, (("hyphenated", placing.hyphenated),)))
    return ways


def _dear(near: Near, *resorts: tuple[str, int]) -> Near:
    return replace(near, candidate=replace(near.candidate, resorts=resorts))


# --- positions


def position_candidates(
    request: LegendRequest, way: Place | None, stand: Stand, marking: Marking, *, lines: Lines
) -> list[Candidate]:
    """Places for the name of one position: on the side of the throw, else beside the end of the throw.

    `way` is where the control goes on the panel, None for a middle position. The name of a middle position stands
    beside a throw that goes up and down, and under or over one that lies level. `lines` as for names.
    """
    style, placing = style_of(request, marking), marking.placing
    setting = lettered(request, style)
    gap = placing.gap * style.cap_height
    if way in UPRIGHT:
        assert way is not None
        nearest = stacked(setting, way, stand, style, placing, form="along")
        found = [nearest, *_farther(nearest, lines.get(way, ()), placing)]
        base = stand.box.top - setting.cap_height if way is Place.ABOVE else stand.box.bottom
        found += _both_sides(setting, base, stand, gap, (8, 10))
    elif way in (Place.LEFT, Place.RIGHT):
        assert way is not None
        found = [beside(setting, way, stand, style, placing, form="along")]
    elif lies_level(stand.part):
        sides = ((Place.BELOW, 0), (Place.ABOVE, 2))
        found = [
            stacked(
                setting, side, stand, style, placing, looks=(("over-the-throw", cost),) if cost else (), form="along"
            )
            for side, cost in sides
        ]
    else:
        found = _both_sides(setting, stand.centre.y - setting.cap_height / 2, stand, gap, (0, 2))
    return [candidate for candidate in found if request.place in (None, candidate.place)]


def _both_sides(setting: Setting, base: float, stand: Stand, gap: float, costs: tuple[int, int]) -> list[Candidate]:
    # Clear of the part at its widest, so that the positions of one control begin on one upright line.
    return [
        _against(
            setting,
            side,
            base,
            stand.edge(side, stand.box.bottom, stand.box.top, gap),
            (("beside-the-throw", cost),) if cost else (),
            f"beside-{side.value}",
        )
        for side, cost in zip((Place.RIGHT, Place.LEFT), costs, strict=True)
    ]


def over_position(position: Candidate, way: Place, cap_height: float) -> float:
    """The base line of a name that stands over a position's name: even white between the two."""
    white = OVER_GAP * cap_height
    if way is Place.ABOVE:
        return position.line + position.setting.cap_height + white
    return position.line - white - cap_height


def boxes_of(candidates: Sequence[Candidate]) -> Boxes:
    """The bounds of their ink, one a row."""
    sides = [(c.setting.box, c.at) for c in candidates]
    rows = [(b.left + at.x, b.bottom + at.y, b.right + at.x, b.top + at.y) for b, at in sides]
    return np.array(rows, dtype=np.float64).reshape(-1, 4)


def crowded(boxes: Boxes, stands: Sequence[Stand], counts: Sequence[int], field: Field) -> NDArray[np.bool_]:
    """For each box, whether another part's hardware lies about as near to it as its own part.

    The boxes are those of `counts` places of each stand in turn.
    """
    owner = np.repeat(np.arange(len(stands)), counts)
    samples = np.array([stand.samples for stand in stands]).reshape(-1, SAMPLES, 2)[owner]
    apart = np.maximum(boxes[:, np.newaxis, :2] - samples, samples - boxes[:, np.newaxis, 2:])
    at_most = np.hypot(*np.maximum(apart, 0.0).transpose(2, 0, 1)).min(axis=1)
    refs = [stand.part.ref for stand in stands]
    ones, areas = field.strangers(boxes, [refs[number] for number in owner], AMBIGUOUS_RATIO * at_most)
    near, place = distinct_with_places(ones)
    shapes = shapely.box(*boxes[near].T)
    own = {number: stands[number].area for number in distinct(owner[near]).tolist()}
    gaps = shapely.distance(np.array([own[number] for number in owner[near].tolist()], dtype=object), shapes)
    found = np.zeros(len(boxes), dtype=bool)
    found[ones[shapely.distance(areas, shapes[place]) <= AMBIGUOUS_RATIO * gaps[place]]] = True
    return found
