"""Frames: a line round parts that work together and round their markings, with the title let into the line.

A frame is drawn round what its parts took when they were placed without it; placing again, its own legends may use
all the room inside and nothing else may enter. The first placement fits inside by construction, so there is always an
answer, and the frame need not move again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from panelart.geometry import Arc, Box, Line, Point, Segment
from panelart.legends.candidates import style_of
from panelart.lettering.outline import Loop, bounds
from panelart.lettering.setting import Setting, set_words
from panelart.model.layout import FrameLine, Mark, PlacedLegend
from panelart.model.panel import FrameRequest, Panel

CORNER = 2.0
"""Radius of a frame's corners, mm. Common practice."""

LINE_WIDTH = 0.1
"""Width of the line over the height of a name's capitals: the stroke of lettering type B, DIN EN ISO 3098-0."""

TITLE_GAP = 0.6
"""White on both sides of the title let into the line, over its capitals: the gap between words of lettering type B,
DIN EN ISO 3098-0:1998-04."""

SAME_LINE = 6.0
"""Frames beside each other whose tops (or bottoms) differ by no more than this, in mm, are given one height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A frame as drawn: its request, the middle of its line, and its title if it has one."""

    name: str
    request: FrameRequest
    box: Box
    title: PlacedLegend | None
    width: float

    @property
    def line(self) -> FrameLine:
        """The frame as the layout keeps it."""
        return FrameLine(
            name=self.name, refs=self.request.around, box=self.box, width=self.width, where=self.request.where
        )

    @property
    def inside(self) -> Box:
        """The room for what belongs inside."""
        return self.box.grown(-self.width)


def frames_round(panel: Panel, taken: dict[str, list[Box]]) -> tuple[Frame, ...]:
    """A frame for every request, round the boxes that its refs took."""
    drafts: list[tuple[FrameRequest, Box, Setting | None]] = []
    for request in panel.frames:
        content = Box.around(box for ref in request.around for box in taken[ref])
        setting = None
        above = request.margin
        if request.title is not None:
            style = style_of(request.title, panel.marking)
            setting = set_words(request.title.text, style.font, style.cap_height)
            above += style.cap_height / 2
        box = Box(
            content.left - request.margin,
            content.bottom - request.margin,
            content.right + request.margin,
            content.top + above,
        )
        drafts.append((request, _wide_enough(box, setting), setting))
    boxes = _in_line([box for _, box, _ in drafts])
    return tuple(
        _frame(f"frame {number}", request, box, setting, panel)
        for number, ((request, _, setting), box) in enumerate(zip(drafts, boxes, strict=True), start=1)
    )


def _wide_enough(box: Box, title: Setting | None) -> Box:
    if title is None:
        return box
    need = title.box.width + 2 * (CORNER + 1.0 + TITLE_GAP * title.cap_height)
    short = max(0.0, need - box.width) / 2
    return Box(box.left - short, box.bottom, box.right + short, box.top)


def _in_line(boxes: Sequence[Box]) -> list[Box]:
    """Frames that stand beside each other get one top and one bottom where they nearly share them."""

    def beside(a: Box, b: Box) -> bool:
        return min(a.top, b.top) - max(a.bottom, b.bottom) > 0.5 * min(a.height, b.height)

    levelled: list[Box] = []
    for box in boxes:
        fellows = [other for other in boxes if beside(box, other)]
        top = max(other.top for other in fellows if abs(other.top - box.top) <= SAME_LINE)
        bottom = min(other.bottom for other in fellows if abs(other.bottom - box.bottom) <= SAME_LINE)
        grown = Box(box.left, bottom, box.right, top)
        levelled.append(box if any(grown.overlaps(other) and not box.overlaps(other) for other in boxes) else grown)
    return levelled


def _frame(name: str, request: FrameRequest, box: Box, setting: Setting | None, panel: Panel) -> Frame:
    width = max(panel.marking.styles["name"].cap_height * LINE_WIDTH, panel.marking.process.line_least)
    title = None
    if request.title is not None and setting is not None:
        style = style_of(request.title, panel.marking)
        left = box.centre.x - setting.box.width / 2
        at = Point(left - setting.box.left, box.top - setting.cap_height / 2)
        shape = setting.placed(at)
        title = PlacedLegend(
            ref=name,
            style=request.title.style,
            text=request.title.text,
            shape=shape,
            box=bounds(shape),
            baseline=at,
            cap_height=style.cap_height,
            font=style.font,
            ink=style.ink,
            where=request.title.where,
        )
    return Frame(name=name, request=request, box=box, title=title, width=width)


def drawn(frames: Iterable[Frame], panel: Panel) -> tuple[Mark, ...]:
    """The lines of the frames, each open where its title stands."""
    return tuple(
        Mark(
            ref=frame.name,
            kind="frame",
            shape=(_line(frame),),
            width=frame.width,
            ink=frame.title.ink if frame.title is not None else panel.marking.styles["title"].ink,
            where=frame.request.where,
        )
        for frame in frames
    )


def _line(frame: Frame) -> Loop:
    box = frame.box
    radius = min(CORNER, box.width / 2, box.height / 2)
    left, bottom, right, top = box.left, box.bottom, box.right, box.top
    segments: list[Segment] = [
        Arc(Point(left + radius, top - radius), radius, 90.0, 90.0),
        Line(Point(left, top - radius), Point(left, bottom + radius)),
        Arc(Point(left + radius, bottom + radius), radius, 180.0, 90.0),
        Line(Point(left + radius, bottom), Point(right - radius, bottom)),
        Arc(Point(right - radius, bottom + radius), radius, 270.0, 90.0),
        Line(Point(right, bottom + radius), Point(right, top - radius)),
        Arc(Point(right - radius, top - radius), radius, 0.0, 90.0),
    ]
    start, end = Point(left + radius, top), Point(right - radius, top)
    if frame.title is None:
        return Loop((*segments, Line(end, start)), closed=True)
    white = TITLE_GAP * frame.title.cap_height
    return Loop(
        (
            Line(Point(frame.title.box.left - white, top), start),
            *segments,
            Line(end, Point(frame.title.box.right + white, top)),
        ),
        closed=False,
    )
