"""The places that come into question for one legend, each with what it costs.

A name stands above its control by house preference; below, right and left cost more, in that order. On each side the
words stand as near as their own part's hardware and scale allow, or on a base line that they may share with their
neighbours. Costs are whole numbers, kept by the reason for each: the smaller the sum the better.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

import numpy as np
import shapely
from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import Box, Point, Vector
from panelart.legends.obstacles import Boxes
from panelart.legends.stand import Stand
from panelart.legends.wanted import EVEN, lies_level
from panelart.lettering.block import Wording, parted, wrapped
from panelart.lettering.cuts import narrowed
from panelart.lettering.hyphenation import divided
from panelart.lettering.look import Align
from panelart.lettering.setting import Setting, set_words
from panelart.model.panel import Anchor, LegendRequest, Marking, Place, Placing, Style

SIDES = (Place.ABOVE, Place.BELOW, Place.RIGHT, Place.LEFT)
"""The sides of a part, the preferred one first: above, so that the hand does not hide the words (MIL-STD-1472, from
memory)."""

CORNERS = (Place.ABOVE_RIGHT, Place.ABOVE_LEFT, Place.BELOW_RIGHT, Place.BELOW_LEFT)

UPRIGHT = (Place.ABOVE, Place.BELOW)

OVER_GAP = 0.6
"""White between a name and the position's name that it stands over, over the name's cap height. Common practice: a
little more than between the position's name and the switch, so that the name is read as belonging to both."""

CENTRED = "centre"
"""Words above or below in the middle of their part."""

FROM_SCALE = 1.0
"""White between a name and the numerals of its own scale, over the name's cap height. Common practice: nearer to them
it would be read with the numeral below it, VOLTAGE 15."""

FARTHEST = 4.0
"""Words stand at most this many of their capitals' heights farther out than they need, to share a line."""

TIGHT = -0.06
"""Space taken from between tight letters, over the cap height. The gap of lettering type B is 0.2, of which DIN EN ISO
3098-0 lets half go (from memory); what is left here is more than a stroke, which is 0.1."""

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
    def key(self) -> tuple[str, str, Point]:
        """What tells it from every other place of its legend: the words as they are broken, their face, where."""
        return self.setting.text, self.setting.font, self.at

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


def wraps(request: LegendRequest, marking: Marking, align: Align) -> tuple[Setting, ...]:
    """All texts of a request as they are written, and on one and two lines more where they may be broken."""
    return wrapped(_wordings(request, marking), align)


def lettered_whole(request: LegendRequest, marking: Marking, align: Align = Align.CENTRE) -> Setting:
    """All texts of a request as they are written, as one block."""
    return wraps(request, marking, align)[0]


def _wordings(request: LegendRequest, marking: Marking) -> tuple[Wording, ...]:
    """What the texts of a request are set by."""
    styles = [(one, style_of(one, marking)) for one in request.texts]
    return tuple(Wording(one.text, style.font, style.cap_height, style.look, one.spans) for one, style in styles)


# --- names


class Near(Struct, frozen=True):
    """A candidate as near as it may be; `shares` whether it may stand farther out on a line of its neighbours.

    `end` says how words above or below lie to their part: `centre`, in line at their `left` or `right` end, or half
    way there; "" beside it and at corners.
    """

    candidate: Candidate
    shares: bool
    end: str = ""

    @property
    def manner(self) -> tuple[str, str, tuple[str, ...]]:
        """What like parts have alike but for the number of lines: side, end, and what was done to make words narrow."""
        return self.candidate.place.value, self.end, tuple(reason for reason, _ in self.candidate.resorts)

    @property
    def is_broken(self) -> bool:
        """Whether there are more lines than were written."""
        return any(reason == "wrap" for reason, _ in self.candidate.looks)

    @property
    def lines(self) -> int:
        """On how many lines the words are set."""
        return self.candidate.setting.text.count("\n") + 1


def near_names(request: LegendRequest, stand: Stand, marking: Marking) -> list[Near]:
    """Every place for a part's name that is as near as it may be, before anything in the way is looked at."""
    return [
        near
        for place in (SIDES if request.place is None else (request.place,))
        for near in _on_side(request, place, stand, marking)
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
    return found if request.offset is None else [offset(candidate, request) for candidate in found]


def _on_side(
    request: LegendRequest, place: Place, stand: Stand, marking: Marking, *, parting: bool | None = False
) -> list[Near]:
    """The places on one side with no number parted from its word, or only those that part one, or both."""
    found: list[Near] = []
    placing = marking.placing
    asked = None if request.align is None else Align(request.align.value)
    align = asked or {Place.RIGHT: Align.LEFT, Place.LEFT: Align.RIGHT}.get(place, Align.CENTRE)
    side = () if request.place is not None else ((place.value, side_cost(place, placing)),)
    settings = wraps(request, marking, align)
    for setting in settings:
        wrap = setting.text.count("\n") - settings[0].text.count("\n")
        if wrap == 0:
            found += _set_there(request, setting, place, stand, placing, side)
        elif parting is None or bool(parted(setting)) is parting:
            broken = (*side, ("wrap", placing.wrap * wrap))
            found += _set_there(request, setting, place, stand, placing, broken)
    return found


def _set_there(
    request: LegendRequest,
    setting: Setting,
    place: Place,
    stand: Stand,
    placing: Placing,
    looks: tuple[tuple[str, int], ...],
) -> Iterator[Near]:
    """The places of words in one setting on one side."""
    if place in UPRIGHT:
        for number, (end, slide) in enumerate(_slides_asked(request, setting, stand)):
            cost = () if number == 0 else (("slide", placing.slide + number // 3),)
            yield Near(stacked(setting, place, stand, placing, slide, (*looks, *cost)), number == 0, end)
    elif place in CORNERS:
        yield Near(_at_corner(setting, place, stand, placing, looks), False)
    else:
        yield Near(beside(setting, place, stand, placing, looks), True)


def side_cost(place: Place, placing: Placing) -> int:
    """What a side costs; a corner costs as the side it is nearest to."""
    if place in (Place.RIGHT, Place.LEFT):
        return placing.right if place is Place.RIGHT else placing.left
    return placing.above if place in (Place.ABOVE, Place.ABOVE_LEFT, Place.ABOVE_RIGHT) else placing.below


def _slides_asked(request: LegendRequest, setting: Setting, stand: Stand) -> list[tuple[str, float]]:
    """How words above or below may lie to their part and how far off its middle: as asked, or all that look tidy."""
    if request.align is None and request.offset is None:
        return _slides(setting, stand)
    align = request.align or Anchor.CENTRE
    return [(align.value, _ranged(setting, stand, align))]


def _slides(setting: Setting, stand: Stand) -> list[tuple[str, float]]:
    """Centred first, then with one end in line with the part, and half way there."""
    centred = [(CENTRED, 0.0)]
    overhang = (stand.box.width - setting.box.width) / 2
    if abs(overhang) <= 0.5:
        return centred
    half = overhang / 2
    middle = stand.box.centre.x - stand.centre.x
    others = [("half-right", half), ("half-left", -half), ("right", middle + overhang), ("left", middle - overhang)]
    return centred + sorted(others, key=lambda slide: (abs(slide[1]), slide[1]))


def _ranged(setting: Setting, stand: Stand, align: Anchor) -> float:
    half = setting.box.width / 2
    if align is Anchor.LEFT:
        return stand.box.left + half - stand.centre.x
    return stand.box.right - half - stand.centre.x if align is Anchor.RIGHT else 0.0


def offset(candidate: Candidate, request: LegendRequest) -> Candidate:
    """A place moved as the designer asked."""
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
    capitals = setting.first_capitals
    beyond = setting.baselines[-1] - setting.box.bottom if place is Place.ABOVE else setting.box.top - capitals
    gap = placing.gap * setting.cap_height
    from_scale = FROM_SCALE * setting.cap_height
    edge = stand.edge(place, left, left + setting.box.width, gap, max(0.0, beyond), from_scale)
    line = edge if place is Place.ABOVE else -edge - capitals
    base = line - setting.baselines[-1] if place is Place.ABOVE else line
    at = Point(left - setting.box.left, base)
    return Candidate(setting, at, place, form or place.value, line, looks)


def _farther(nearest: Candidate, lines: Iterable[float], placing: Placing) -> list[Candidate]:
    """The same words farther out, on lines that they may share."""
    found: list[Candidate] = []
    for line in sorted(set(lines)):
        further = farther_by(nearest, line)
        if 0.01 < further <= FARTHEST * nearest.setting.cap_height + EVEN:
            cost = step_off(further, nearest.setting.cap_height, placing)
            found.append(on_line(nearest, line).dearer("farther-off", cost))
    return found


def farther_by(candidate: Candidate, line: float) -> float:
    """How much farther from its part a line is than that of a candidate, mm; negative when it is nearer."""
    out = 1.0 if candidate.place in (Place.ABOVE, Place.RIGHT) else -1.0
    return (line - candidate.line) * out


def step_off(further: float, cap_height: float, placing: Placing) -> int:
    """What words cost that stand farther out than they need, by so many mm."""
    return placing.step_off * (1 + int(2.0 * (further + EVEN) / cap_height)) if further > 0.01 else 0


def on_line(candidate: Candidate, line: float) -> Candidate:
    """The same words on another base line, or beside the part at another edge."""
    step = line - candidate.line
    x, y = candidate.at
    return Candidate(
        candidate.setting,
        Point(x, y + step) if candidate.place in UPRIGHT else Point(x + step, y),
        candidate.place,
        candidate.form,
        line,
        candidate.looks,
        candidate.resorts,
        candidate.leader,
    )


def beside(
    setting: Setting,
    place: Place,
    stand: Stand,
    placing: Placing,
    looks: tuple[tuple[str, int], ...] = (),
    form: str = "",
) -> Candidate:
    """Right or left of the part, the capitals centred on it."""
    base = stand.centre.y - (setting.baselines[0] + setting.first_capitals + setting.baselines[-1]) / 2
    low = base + setting.box.bottom
    gap = placing.gap * setting.cap_height
    edge = stand.edge(place, low, low + setting.box.height, gap, from_scale=FROM_SCALE * setting.cap_height)
    return _against(setting, place, base, edge, looks, form or place.value)


def _against(
    setting: Setting, side: Place, base: float, edge: float, looks: tuple[tuple[str, int], ...], form: str
) -> Candidate:
    """Words whose near end stands against an upright line at `edge`."""
    line = edge if side is Place.RIGHT else -edge
    x = line - setting.box.left if side is Place.RIGHT else line - setting.box.right
    return Candidate(setting, Point(x, base), side, form, line, looks)


def _at_corner(
    setting: Setting, place: Place, stand: Stand, placing: Placing, looks: tuple[tuple[str, int], ...]
) -> Candidate:
    """Off a corner of the part: the nearest corner of the words on the diagonal, as near as the gap allows."""
    right = place in (Place.ABOVE_RIGHT, Place.BELOW_RIGHT)
    above = place in (Place.ABOVE_RIGHT, Place.ABOVE_LEFT)
    gap = placing.gap * setting.cap_height
    middle = stand.box.centre
    corner = Point(stand.box.right if right else stand.box.left, stand.box.top if above else stand.box.bottom)
    way = corner.minus(middle)
    box = setting.box
    start = Vector(-box.left if right else -box.right, -setting.baselines[-1] if above else -setting.first_capitals)
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
    placing = marking.placing
    found: list[Near] = []
    if request.place is None and request.offset is None:
        for place in CORNERS:
            found += [_dear(near, ("corner", placing.corner)) for near in _on_side(request, place, stand, marking)]
    for place in SIDES if request.place is None else (request.place,):
        apart = _on_side(request, place, stand, marking, parting=True)
        found += [_dear(near, ("parted", placing.parted)) for near in apart if near.is_broken]
    return [*found, *_in_other_ways(request, stand, marking)]


def _in_other_ways(request: LegendRequest, stand: Stand, marking: Marking) -> Iterator[Near]:
    """The places of the words set in less width. Rather a number on a line of its own than one hyphen more."""
    for asked, resorts in _other_ways(request, marking):
        parting = None if resorts[0][0] == "hyphenated" else False
        for place in SIDES if request.place is None else (request.place,):
            for near in _on_side(asked, place, stand, marking, parting=parting):
                yield _dear(near, *resorts)


def _other_ways(request: LegendRequest, marking: Marking) -> list[tuple[LegendRequest, tuple[tuple[str, int], ...]]]:
    """The words set in less width, with what that costs: tight, narrow, with broken words; a block all alike."""
    placing = marking.placing
    tight, narrow = ("tight-letters", placing.tight), ("narrow-face", placing.narrow)
    styles = [style_of(one, marking) for one in request.texts]
    has_narrow = any(narrowed(style.font) is not None for style in styles)

    def closer(one: LegendRequest) -> LegendRequest:
        look = style_of(one, marking).look
        return replace(one, look=replace(look, tracking=look.tracking + TIGHT))

    def narrower(one: LegendRequest) -> LegendRequest:
        font = style_of(one, marking).font
        return replace(one, font=narrowed(font) or font)

    ways: list[tuple[LegendRequest, tuple[tuple[str, int], ...]]] = []
    if tightens := all(style.look.tracking >= 0.0 for style in styles):
        ways.append((request.each(closer), (tight,)))
    if has_narrow:
        ways.append((request.each(narrower), (narrow,)))
        if tightens:
            ways.append((request.each(closer).each(narrower), (narrow, tight)))
    if is_divided(request):
        hyphenated = request.each(lambda one: replace(one, spans=divided(one.spans) or one.spans))
        ways.append((hyphenated, (("hyphenated", placing.hyphenated),)))
    return ways


def is_divided(request: LegendRequest) -> bool:
    """Whether a dictionary lets words of it be broken."""
    return any(divided(one.spans) for one in request.texts)


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
        nearest = stacked(setting, way, stand, placing, form="along")
        found = [nearest, *_farther(nearest, lines.get(way, ()), placing)]
        base = stand.box.top - setting.cap_height if way is Place.ABOVE else stand.box.bottom
        found += _both_sides(setting, base, stand, gap, (8, 10))
    elif way in (Place.LEFT, Place.RIGHT):
        assert way is not None
        found = [beside(setting, way, stand, placing, form="along")]
    elif lies_level(stand.part):
        sides = ((Place.BELOW, 0), (Place.ABOVE, 2))
        found = [
            stacked(setting, side, stand, placing, looks=(("over-the-throw", cost),) if cost else (), form="along")
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
