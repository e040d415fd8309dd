"""Frames and brackets: lines round or beside parts that work together, with the title let into the line.

A frame is drawn round what its parts took when they were placed without it, and round the frames inside it. Placing
again, its own legends keep to that room and nothing else may enter. Drawn again round that answer, no frame reaches
beyond what it was; see `panelart.legends.place` for why this ends.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import Arc, Box, Line, Point, Segment, Vector
from panelart.legends.candidates import lettered, style_of
from panelart.legends.flow_marks import Stretch
from panelart.legends.obstacles import MARK_CLEARANCE
from panelart.lettering.outline import Loop, Shape, open_shape
from panelart.lettering.setting import Setting
from panelart.model.layout import FrameLine, Mark, PlacedLegend
from panelart.model.panel import Anchor, FrameForm, FrameRequest, FrameSide, FrameSize, Ink, Panel, Ticks

LINE_WIDTH = 0.1
"""Width of the line over the height of a name's capitals: the stroke of lettering type B, DIN EN ISO 3098-0."""

TITLE_GAP = 0.6
"""White on both sides of the title let into the line, over its capitals: the gap between words of lettering type B,
DIN EN ISO 3098-0:1998-04."""

UNDER_TITLE = 0.5
"""White between a title and what stands under it in the frame, over its capitals: half a height between lines,
NUREG-0700 Rev. 3, 11.4.1.5-7."""

TITLE_RUN = 1.0
"""Least straight line between a corner and a title at that end, mm. Common practice."""

FIELD = "field"
"""Kind of the marks that fields are."""

FIELD_PADDING = 0.6
"""Ink of a field between its edge and its title, over the cap height of the title; as much as beside a title that is
let into a line."""

TICK = 0.6
"""Length of a bracket's ticks over the height of a name's capitals. Common practice."""

SAME_LINE = 6.0
"""Frames beside each other whose tops (or bottoms) differ by no more than this, in mm, are given one height."""

FROM_LINES = 1.2
"""White between the line of a frame and a line of flow beside it, mm; as much as those keep from what stands."""

_SLACK = 1e-3
"""mm. What differs by no more is the same."""

_CHORD = 0.01
"""mm. More than the chords by which lines are kept clear of stray from a rounded corner."""

_FAR = 1e5  # mm: beyond any panel


class Frame(Struct, frozen=True, kw_only=True):
    """A frame as drawn: its request, the middle of its line, its title if it has one, and the line's width.

    `inside` is the room for its members' legends; `closed` whether it keeps others out.
    """

    name: str
    request: FrameRequest
    box: Box
    inside: Box
    title: PlacedLegend | None
    width: float

    @property
    def closed(self) -> bool:
        """Whether it goes all round."""
        return self.request.closed

    @property
    def extent(self) -> Box:
        """All its ink."""
        own = self.box.grown(self.width / 2)
        return own if self.title is None else own.union(self.title.box)

    @property
    def line(self) -> FrameLine:
        """The frame as the layout keeps it."""
        return FrameLine(
            name=self.name, refs=self.request.around, box=self.box, width=self.width, where=self.request.where
        )


class _Draft(Struct, frozen=True):
    number: int
    request: FrameRequest
    content: Box
    box: Box
    title: Setting | None


def frames_round(
    panel: Panel, taken: Mapping[str, list[Box]], earlier: Sequence[Frame] = (), ways: Sequence[Stretch] = ()
) -> tuple[Frame, ...]:
    """A frame for every request, round the boxes that its refs took and round the frames within it.

    `earlier` are the frames that what was taken had to keep to. None of the new ones reaches beyond its earlier one,
    and what stood on one line with its neighbours still does. A bracket stays: others may stand
    between it and its parts. `ways` is what lines of flow cover: frames are crossed by them but do not run along them,
    and titles make way for them.
    """
    before = dict(enumerate(earlier))
    made: dict[int, Frame] = {}
    for level in _levels([request.around for request in panel.frames]):
        drafts = [
            _draft(number, panel.frames[number], panel, taken, made, before.get(number), ways) for number in level
        ]
        were = [earlier[number].box for number in level] if earlier else None
        boxes = _in_line([(draft.box, _levels_with_others(draft, made)) for draft in drafts], were)
        boxes = _of_one_size([draft.request for draft in drafts], boxes, panel, were)
        for draft, box in zip(drafts, boxes, strict=True):
            was = before.get(draft.number)
            kept = box if was is None else _cut(box, was.box)
            made[draft.number] = _frame(replace(draft, box=kept), panel, ways)
    return tuple(made[number] for number in range(len(panel.frames)))


def _of_one_size(
    requests: Sequence[FrameRequest], boxes: list[Box], panel: Panel, earlier: Sequence[Box] | None
) -> list[Box]:
    """The boxes of frames, those with like parts in like places as large as all of them need to be.

    They keep to themselves where one would meet another frame by that, and where they were not alike before.
    """
    for numbers in _alike(requests, panel):
        origins = {number: panel.by_ref[requests[number].around[0]].at for number in numbers}
        for alike in [numbers] if earlier is None else _alike_before(numbers, earlier, origins):
            boxes = _grown_together(alike, boxes, origins)
    return boxes


def _alike_before(numbers: Sequence[int], earlier: Sequence[Box], origins: Mapping[int, Point]) -> list[list[int]]:
    """Of frames that ought to be of one size those that were so before."""
    sizes: dict[tuple[float, ...], list[int]] = {}
    for number in numbers:
        own = _from(earlier[number], origins[number])
        key = tuple(round(side, 3) for side in (own.left, own.bottom, own.right, own.top))
        sizes.setdefault(key, []).append(number)
    return [alike for alike in sizes.values() if len(alike) > 1]


def _grown_together(numbers: Sequence[int], boxes: list[Box], origins: Mapping[int, Point]) -> list[Box]:
    """The boxes, those of some frames all as large as the largest, but for those too large for the others' room."""
    alike = sorted(numbers, key=lambda number: (-boxes[number].width * boxes[number].height, number))
    while len(alike) > 1:
        whole = Box.around(_from(boxes[number], origins[number]) for number in alike)
        grown = {number: whole.moved(Vector(*origins[number])) for number in alike}
        others = [grown.get(number, box) for number, box in enumerate(boxes)]
        if not _meet(list(grown.values()), others):
            return others
        alike = alike[1:]
    return boxes


def _meet(boxes: Sequence[Box], others: Sequence[Box]) -> bool:
    return any(box.overlaps(other) for box in boxes for other in others if other is not box)


def _alike(requests: Sequence[FrameRequest], panel: Panel) -> list[list[int]]:
    """The numbers of frames that ought to be of one size."""
    kinds: dict[Hashable, list[int]] = {}
    for number, request in enumerate(requests):
        kind = _what_is_in(request, panel)
        if kind is not None:
            kinds.setdefault(kind, []).append(number)
    return list(kinds.values())


def _from(box: Box, origin: Point) -> Box:
    return box.moved(Vector(-origin.x, -origin.y))


def _what_is_in(request: FrameRequest, panel: Panel) -> Hashable | None:
    """What frames of one size have in common; None for one that is by itself."""
    members = [panel.by_ref[ref] for ref in request.around if ref in panel.by_ref]
    if request.size is FrameSize.OWN or not request.closed or not members:
        return None
    first = members[0].at
    return tuple(
        (
            part.component.name,
            round(part.at.x - first.x, 2),
            round(part.at.y - first.y, 2),
            round(part.turn, 2),
        )
        for part in members
    )


def _cut(box: Box, was: Box) -> Box:
    """What of a frame's box lies in the earlier one."""
    return Box(max(box.left, was.left), max(box.bottom, was.bottom), min(box.right, was.right), min(box.top, was.top))


def _levels_with_others(draft: _Draft, made: Mapping[int, Frame]) -> bool:
    return draft.request.closed and not made_inside(draft, made)


def made_inside(draft: _Draft, made: Mapping[int, Frame]) -> bool:
    """Whether frames stand within it already."""
    return any(_within(frame.request.around, draft.request.around) for frame in made.values())


def _within(inner: Sequence[str], outer: Sequence[str]) -> bool:
    return set(inner) <= set(outer)


def _levels(members: Sequence[tuple[str, ...]]) -> list[list[int]]:
    """The frames' numbers, innermost first; a level holds those whose inner frames are all in levels before."""
    left = list(range(len(members)))
    levels: list[list[int]] = []
    while left:
        level = [
            number
            for number in left
            if not any(
                other != number
                and _within(members[other], members[number])
                and (set(members[other]) != set(members[number]) or other < number)
                for other in left
            )
        ]
        levels.append(level)
        left = [number for number in left if number not in level]
    return levels


def _draft(
    number: int,
    request: FrameRequest,
    panel: Panel,
    taken: Mapping[str, list[Box]],
    made: Mapping[int, Frame],
    earlier: Frame | None,
    ways: Sequence[Stretch],
) -> _Draft:
    inner = [frame.extent for frame in made.values() if _within(frame.request.around, request.around)]
    content = Box.around([*(box for ref in request.around for box in taken[ref]), *inner])
    setting = None
    if request.title is not None:
        setting = lettered(request.title, style_of(request.title, panel.marking))
    if request.form is FrameForm.BRACKET:
        reach = _bracket_room(request, panel)
        line = content.top + reach if request.side is FrameSide.TOP else content.bottom - reach
        box = Box(content.left, line, content.right, line) if earlier is None else earlier.box
        return _Draft(number, request, content, box, setting)
    sideways, below, above = _room(request, setting, panel)
    box = Box(content.left - sideways, content.bottom - below, content.right + sideways, content.top + above)
    line = FROM_LINES + _width(panel) / 2
    titled = line if setting is None else max(line, FROM_LINES + setting.cap_height / 2)
    below, above = (line, titled) if request.side is FrameSide.TOP else (titled, line)
    box = _off_lines(_wide_enough(box, setting, request, earlier), ways, (line, below, above))
    return _Draft(number, request, content, box, setting)


def _off_lines(box: Box, ways: Sequence[Stretch], clear: tuple[float, float, float]) -> Box:
    """A frame whose sides are moved outward until no line of flow runs along them, or through its title.

    `clear` is how far off they are then: on the left and right, below, and above.

    A smaller frame among the same lines is never moved beyond a larger one: fewer lines run along its sides, and the
    next place that is free of them comes no later.
    """
    sideways, below, above = clear
    level = _along(ways, lambda way: way.level and way.box.left < box.right and way.box.right > box.left)
    rising = _along(ways, lambda way: way.upright and way.box.bottom < box.top and way.box.top > box.bottom)
    return Box(
        -_beyond(-box.left, [(-way.right, -way.left) for way in rising], sideways),
        -_beyond(-box.bottom, [(-way.top, -way.bottom) for way in level], below),
        _beyond(box.right, [(way.left, way.right) for way in rising], sideways),
        _beyond(box.top, [(way.bottom, way.top) for way in level], above),
    )


def _along(ways: Sequence[Stretch], beside: Callable[[Stretch], bool]) -> list[Box]:
    return [way.box for way in ways if beside(way)]


def _beyond(edge: float, spans: Iterable[tuple[float, float]], clear: float) -> float:
    """The first place from `edge` outward that is at least `clear` from all of these."""
    for low, high in sorted(spans):
        if low - clear + _SLACK < edge < high + clear - _SLACK:
            edge = high + clear
    return edge


def _room(request: FrameRequest, title: Setting | None, panel: Panel) -> tuple[float, float, float]:
    """From what a frame holds to the middle of its line: on the left and right, below, and above.

    At least what a legend keeps clear of lines, of a rounded corner and of a title, so that what the frame was drawn
    round has its place in it.
    """
    clear = MARK_CLEARANCE + _width(panel) / 2 + _CHORD
    in_corner = request.corner - (request.corner - clear) / math.sqrt(2.0) if request.corner > clear else 0.0
    around = max(request.margin, clear, in_corner, _of_openings(request, panel))
    if title is None:
        return around, around, around
    # What a title has below its base line, or above its capitals, takes of the white on the side of the parts.
    inward = -title.box.bottom if request.side is FrameSide.TOP else title.box.top - title.cap_height
    white = max(around, UNDER_TITLE * title.cap_height + _SLACK + max(0.0, inward))
    # The line of a frame runs through the middle of its title; a field has its title inside, over the names.
    in_field = request.form is FrameForm.FIELD
    titled = white + (title.cap_height + FIELD_PADDING * title.cap_height if in_field else title.cap_height / 2)
    return (around, around, titled) if request.side is FrameSide.TOP else (around, titled, around)


def _of_openings(request: FrameRequest, panel: Panel) -> float:
    """What a field has round the openings of its parts at least: what they are kept clear by, and a line of ink."""
    if request.form is not FrameForm.FIELD:
        return 0.0
    process = panel.marking.process
    return panel.marking.register + process.opening_margin.value + process.line_minimum.value


def ink_of(frame: Frame, panel: Panel) -> Ink:
    """The ink of a frame's line, or of a field."""
    asked = frame.request.ink
    return asked or (frame.title.ink if frame.title is not None else panel.marking.styles["title"].ink)


def _bracket_room(request: FrameRequest, panel: Panel) -> float:
    """From what a bracket holds to its line: the length of its ticks, and what keeps clear of them."""
    clear = MARK_CLEARANCE + _width(panel) / 2 + _CHORD
    return max(request.margin, clear) + TICK * panel.marking.styles["name"].cap_height


def _width(panel: Panel) -> float:
    return max(panel.marking.styles["name"].cap_height * LINE_WIDTH, panel.marking.process.line_minimum.value)


def _wide_enough(box: Box, title: Setting | None, request: FrameRequest, earlier: Frame | None) -> Box:
    if title is None:
        return box
    need = title.box.width + 2 * (request.corner + TITLE_RUN + TITLE_GAP * title.cap_height)
    short = max(0.0, need - box.width) / 2
    left, right = box.left - short, box.right + short
    if earlier is not None:
        # The earlier one is wide enough too: there is room inside it for as wide a one.
        back = max(0.0, earlier.box.left - left) - max(0.0, right - earlier.box.right)
        left, right = max(left + back, earlier.box.left), min(right + back, earlier.box.right)
    return Box(left, box.bottom, right, box.top)


def _in_line(drafts: Sequence[tuple[Box, bool]], earlier: Sequence[Box] | None) -> list[Box]:
    """Frames that stand beside each other get one top and one bottom where they nearly share them.

    Where there are earlier ones, it is those that shared them.
    """
    before = [box for box, _ in drafts] if earlier is None else earlier
    nearly = SAME_LINE if earlier is None else _SLACK
    fellows = [(box, was) for (box, levelled), was in zip(drafts, before, strict=True) if levelled]
    found: list[Box] = []
    for (box, levelled), was in zip(drafts, before, strict=True):
        grown = _levelled(box, was, fellows, nearly) if levelled else box
        meets = earlier is None and any(grown.overlaps(other) and not box.overlaps(other) for other, _ in fellows)
        found.append(box if meets else grown)
    return found


def _levelled(box: Box, was: Box, fellows: Sequence[tuple[Box, Box]], nearly: float) -> Box:
    """A frame's box with the highest top and the lowest bottom of those beside it that nearly shared its own.

    `fellows` are the boxes of frames, each with what it was, and hold the frame itself.
    """
    level = [(other, before) for other, before in fellows if _beside(was, before)]
    top = max(other.top for other, before in level if abs(before.top - was.top) <= nearly)
    bottom = min(other.bottom for other, before in level if abs(before.bottom - was.bottom) <= nearly)
    return Box(box.left, bottom, box.right, top)


def _beside(one: Box, other: Box) -> bool:
    """Whether two boxes share more than half the height of the lower one."""
    return min(one.top, other.top) - max(one.bottom, other.bottom) > 0.5 * min(one.height, other.height)


def _frame(draft: _Draft, panel: Panel, ways: Sequence[Stretch]) -> Frame:
    request, box = draft.request, draft.box
    width = _width(panel)
    name = f"{request.form.value} {draft.number + 1}"
    title = None
    top = request.side is FrameSide.TOP
    if request.title is not None and draft.title is not None:
        title = _title(name, request, box, draft.title, panel, ways)
    if request.form is FrameForm.BRACKET:
        reach = _bracket_room(request, panel) - 1e-6
        inside = Box(-_FAR, -_FAR, _FAR, box.bottom - reach) if top else Box(-_FAR, box.bottom + reach, _FAR, _FAR)
    else:
        sideways, below, above = _room(request, draft.title, panel)
        inside = Box(box.left + sideways, box.bottom + below, box.right - sideways, box.top - above).grown(1e-6)
    return Frame(name=name, request=request, box=box, inside=inside, title=title, width=width)


def _out_of_the_way(words: Box, ends: tuple[float, float], ways: Sequence[Stretch], white: float) -> float:
    """The left end of a title as near to its place as it is clear of lines of flow; its place where it never is.

    `ends` are those of the straight line that it is let into.
    """
    spans = [
        (way.left - white - words.width, way.right + white)
        for way in (each.box for each in ways)
        if way.bottom < words.top + FROM_LINES - _SLACK and way.top > words.bottom - FROM_LINES + _SLACK
    ]
    low, high = ends[0], ends[1] - words.width
    places = [words.left, *(place for span in spans for place in span)]
    free = [
        place
        for place in places
        if not any(left + _SLACK < place < right - _SLACK for left, right in spans)
        and (place == words.left or low - _SLACK <= place <= high + _SLACK)
    ]
    return min(free, key=lambda place: (abs(place - words.left), place), default=words.left)


def _title(
    name: str, request: FrameRequest, box: Box, setting: Setting, panel: Panel, ways: Sequence[Stretch]
) -> PlacedLegend:
    assert request.title is not None
    style = style_of(request.title, panel.marking)
    run = TITLE_RUN + TITLE_GAP * setting.cap_height + (request.corner if request.closed else 0.0)
    left = {
        Anchor.LEFT: box.left + run,
        Anchor.CENTRE: box.centre.x - setting.box.width / 2,
        Anchor.RIGHT: box.right - run - setting.box.width,
    }[request.title.align or Anchor.CENTRE]
    line = box.top if request.side is FrameSide.TOP else box.bottom
    base = line - setting.cap_height / 2
    if request.form is FrameForm.FIELD:
        inside = FIELD_PADDING * setting.cap_height
        base = line - inside - setting.cap_height if request.side is FrameSide.TOP else line + inside
    elif not _let_in(request, box, setting):
        # Too wide to be let into the bracket's line: it stands beyond it.
        white = TITLE_GAP * setting.cap_height
        base = line + white if request.side is FrameSide.TOP else line - white - setting.cap_height
        left = box.centre.x - setting.box.width / 2
    words = setting.box.moved(Vector(left - setting.box.left, base))
    left = _out_of_the_way(words, (box.left + run, box.right - run), ways, TITLE_GAP * setting.cap_height)
    at = Point(left - setting.box.left, base)
    return PlacedLegend(
        ref=name,
        style=request.title.style,
        text=request.title.text,
        box=setting.box.moved(Vector(at.x, at.y)),
        baseline=at,
        cap_height=style.cap_height,
        font=style.font,
        ink=style.ink,
        where=request.title.where,
        setting=setting,
    )


def _let_in(request: FrameRequest, box: Box, setting: Setting) -> bool:
    need = setting.box.width + 2 * (TITLE_RUN + TITLE_GAP * setting.cap_height)
    return request.closed or box.width >= need


def drawn(frames: Iterable[Frame], panel: Panel) -> tuple[Mark, ...]:
    """The lines of the frames, each open where its title stands."""
    return tuple(
        Mark(
            ref=frame.name,
            kind=frame.request.form.value,
            shape=(_line(frame),) if frame.closed else _bracket(frame, panel),
            width=frame.width,
            ink=ink_of(frame, panel),
            where=frame.request.where,
        )
        for frame in frames
    )


def _line(frame: Frame) -> Loop:
    """Counter-clockwise from the left end of the side without the title's gap, or round the gap from its left."""
    box = frame.box
    radius = min(frame.request.corner, box.width / 2, box.height / 2)
    left, bottom, right, top = box.left, box.bottom, box.right, box.top
    up = frame.request.side is FrameSide.TOP
    corners: list[Segment] = []
    if radius > 0:
        corners = [
            Arc(Point(left + radius, top - radius), radius, 90.0, 90.0),
            Arc(Point(left + radius, bottom + radius), radius, 180.0, 90.0),
            Arc(Point(right - radius, bottom + radius), radius, 270.0, 90.0),
            Arc(Point(right - radius, top - radius), radius, 0.0, 90.0),
        ]
    down = Line(Point(left, top - radius), Point(left, bottom + radius))
    rise = Line(Point(right, bottom + radius), Point(right, top - radius))
    lower = Line(Point(left + radius, bottom), Point(right - radius, bottom))
    upper = Line(Point(right - radius, top), Point(left + radius, top))
    if radius > 0:
        ring: list[Segment] = [corners[0], down, corners[1], lower, corners[2], rise, corners[3]]
        ring_low: list[Segment] = [corners[2], rise, corners[3], upper, corners[0], down, corners[1]]
    else:
        ring, ring_low = [down, lower, rise], [rise, upper, down]
    sides, gapped = (ring, upper) if up else (ring_low, lower)
    if frame.title is None:
        return Loop((*sides, gapped), closed=True)
    white = TITLE_GAP * frame.title.cap_height
    y = gapped.start.y
    near, far = frame.title.box.left - white, frame.title.box.right + white
    first, last = (near, far) if up else (far, near)
    return Loop((Line(Point(first, y), gapped.end), *sides, Line(gapped.start, Point(last, y))), closed=False)


def _bracket(frame: Frame, panel: Panel) -> Shape:
    """A line along the members with a tick at both ends, and at each member where asked."""
    box, request = frame.box, frame.request
    tick = TICK * panel.marking.styles["name"].cap_height * (-1 if request.side is FrameSide.TOP else 1)
    y = box.bottom
    ends = [Point(box.left, y), Point(box.right, y)]
    feet = [Point(end.x, y + tick) for end in ends]
    paths: list[tuple[Segment, ...]]
    title = _title_in_line(frame)
    if title is not None:
        white = TITLE_GAP * title.cap_height
        paths = [
            (Line(feet[0], ends[0]), Line(ends[0], Point(title.box.left - white, y))),
            (Line(Point(title.box.right + white, y), ends[1]), Line(ends[1], feet[1])),
        ]
    else:
        paths = [(Line(feet[0], ends[0]), Line(ends[0], ends[1]), Line(ends[1], feet[1]))]
    if request.ticks is Ticks.MEMBERS:
        paths += [(Line(Point(x, y), Point(x, y + tick)),) for x in _middles(frame, panel)]
    return open_shape(*paths)


def _title_in_line(frame: Frame) -> PlacedLegend | None:
    """The title of a bracket that is let into its line; None where there is none or it stands beyond it."""
    title = frame.title
    return title if title is not None and title.box.bottom < frame.box.bottom < title.box.top else None


def _middles(frame: Frame, panel: Panel) -> list[float]:
    """Where the members of a bracket stand along it, without those at its ends and at its title."""
    box, title = frame.box, _title_in_line(frame)
    gap = (0.0, 0.0) if title is None else (title.box.left - 0.5, title.box.right + 0.5)
    middles = sorted({panel.by_ref[ref].at.x for ref in frame.request.around if ref in panel.by_ref})
    return [x for x in middles if box.left + 0.5 < x < box.right - 0.5 and not gap[0] < x < gap[1]]
