"""Frames and brackets: lines round or beside parts that work together, with the title let into the line.

A frame is drawn round what its parts took when they were placed without it, and round the frames inside it. Placing
again, its own legends keep to that room and nothing else may enter. Drawn again round that answer, no frame reaches
beyond what it was; see `panelart.legends.place` for why this ends.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.geometry import Arc, Box, Line, Point, Segment, Vector
from panelart.legends.candidates import lettered, style_of
from panelart.legends.obstacles import MARK_CLEARANCE
from panelart.lettering.outline import Loop, Shape, open_shape
from panelart.lettering.setting import Setting
from panelart.model.layout import FrameLine, Mark, PlacedLegend
from panelart.model.panel import Anchor, FrameForm, FrameRequest, FrameSide, Panel, Ticks

LINE_WIDTH = 0.1
"""Width of the line over the height of a name's capitals: the stroke of lettering type B, DIN EN ISO 3098-0."""

TITLE_GAP = 0.6
"""White on both sides of the title let into the line, over its capitals: the gap between words of lettering type B,
DIN EN ISO 3098-0:1998-04."""

TITLE_RUN = 1.0
"""Least straight line between a corner and a title at that end, mm. Common practice."""

TICK = 0.6
"""Length of a bracket's ticks over the height of a name's capitals. Common practice."""

SAME_LINE = 6.0
"""Frames beside each other whose tops (or bottoms) differ by no more than this, in mm, are given one height."""

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
        return self.request.form is FrameForm.FRAME

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


def frames_round(panel: Panel, taken: Mapping[str, list[Box]], earlier: Sequence[Frame] = ()) -> tuple[Frame, ...]:
    """A frame for every request, round the boxes that its refs took and round the frames within it.

    `earlier` are the frames that what was taken had to keep to. None of the new ones reaches beyond its earlier one,
    and what stood on one line with its neighbours still does. A bracket stays: others may stand
    between it and its parts.
    """
    before = dict(enumerate(earlier))
    made: dict[int, Frame] = {}
    for level in _levels([request.around for request in panel.frames]):
        drafts = [_draft(number, panel.frames[number], panel, taken, made, before.get(number)) for number in level]
        boxes = _in_line(
            [(draft.box, draft.request.form is FrameForm.FRAME and not made_inside(draft, made)) for draft in drafts],
            [earlier[number].box for number in level] if earlier else None,
        )
        for draft, box in zip(drafts, boxes, strict=True):
            was = before.get(draft.number)
            kept = box if was is None else _cut(box, was.box)
            made[draft.number] = _frame(replace(draft, box=kept), panel)
    return tuple(made[number] for number in range(len(panel.frames)))


def _cut(box: Box, was: Box) -> Box:
    """What of a frame's box lies in the earlier one."""
    return Box(max(box.left, was.left), max(box.bottom, was.bottom), min(box.right, was.right), min(box.top, was.top))


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
    return _Draft(number, request, content, _wide_enough(box, setting, request, earlier), setting)


def _room(request: FrameRequest, title: Setting | None, panel: Panel) -> tuple[float, float, float]:
    """From what a frame holds to the middle of its line: on the left and right, below, and above.

    At least what a legend keeps clear of lines, of a rounded corner and of a title, so that what the frame was drawn
    round has its place in it.
    """
    clear = MARK_CLEARANCE + _width(panel) / 2 + _CHORD
    in_corner = request.corner - (request.corner - clear) / math.sqrt(2.0) if request.corner > clear else 0.0
    around = max(request.margin, clear, in_corner)
    if title is None:
        return around, around, around
    titled = max(around, panel.marking.placing.white * title.cap_height + _SLACK) + title.cap_height / 2
    return (around, around, titled) if request.side is FrameSide.TOP else (around, titled, around)


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


def _frame(draft: _Draft, panel: Panel) -> Frame:
    request, box = draft.request, draft.box
    width = _width(panel)
    name = f"{request.form.value} {draft.number + 1}"
    title = None
    top = request.side is FrameSide.TOP
    if request.title is not None and draft.title is not None:
        title = _title(name, request, box, draft.title, panel)
    if request.form is FrameForm.BRACKET:
        reach = _bracket_room(request, panel) - 1e-6
        inside = Box(-_FAR, -_FAR, _FAR, box.bottom - reach) if top else Box(-_FAR, box.bottom + reach, _FAR, _FAR)
    else:
        sideways, below, above = _room(request, draft.title, panel)
        inside = Box(box.left + sideways, box.bottom + below, box.right - sideways, box.top - above).grown(1e-6)
    return Frame(name=name, request=request, box=box, inside=inside, title=title, width=width)


def _title(name: str, request: FrameRequest, box: Box, setting: Setting, panel: Panel) -> PlacedLegend:
    assert request.title is not None
    style = style_of(request.title, panel.marking)
    run = TITLE_RUN + TITLE_GAP * setting.cap_height + (request.corner if request.form is FrameForm.FRAME else 0.0)
    left = {
        Anchor.LEFT: box.left + run,
        Anchor.CENTRE: box.centre.x - setting.box.width / 2,
        Anchor.RIGHT: box.right - run - setting.box.width,
    }[request.title.align or Anchor.CENTRE]
    line = box.top if request.side is FrameSide.TOP else box.bottom
    base = line - setting.cap_height / 2
    if not _let_in(request, box, setting):
        # Too wide to be let into the bracket's line: it stands beyond it.
        white = TITLE_GAP * setting.cap_height
        base = line + white if request.side is FrameSide.TOP else line - white - setting.cap_height
        left = box.centre.x - setting.box.width / 2
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
    return request.form is FrameForm.FRAME or box.width >= need


def drawn(frames: Iterable[Frame], panel: Panel) -> tuple[Mark, ...]:
    """The lines of the frames, each open where its title stands."""
    return tuple(
        Mark(
            ref=frame.name,
            kind=frame.request.form.value,
            shape=(_line(frame),) if frame.closed else _bracket(frame, panel),
            width=frame.width,
            ink=frame.title.ink if frame.title is not None else panel.marking.styles["title"].ink,
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
