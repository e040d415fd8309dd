"""The questions about a component list on paper: each candidate with its picture, its hole, what is for and against."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from enum import Enum
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drawing.layers import NOTES, PARTS
from panelart.drawing.representation import Drawing, Item
from panelart.drawing.scaling import Scaling
from panelart.geometry import Box, Point
from panelart.lettering.look import Align
from panelart.lists.matching import Candidate
from panelart.lists.questions import Question
from panelart.messages import Message, Said
from panelart.messages import sheets_questions as said
from panelart.model.component import Component
from panelart.sheets.catalogue import opening_facts
from panelart.sheets.measure import extent
from panelart.sheets.measure_table import refs_in
from panelart.sheets.pages import MARGIN, WIDTH, Pages
from panelart.sheets.paper import (
    BLACK,
    GREY,
    HEADING,
    HEAVY,
    LINE_PITCH,
    MEDIUM,
    TEXT,
    WASH,
    lines_of,
    panel_box,
    paragraph,
    paragraph_height,
    rule,
    words,
)
from panelart.sheets.part_picture import PartPicture, outlines, part_picture, sheet_layers

SCALES: Final = ((1, 1), (1, 2), (1, 5), (1, 10), (1, 20))
"""Reductions of ISO 5455, the largest first."""

NUMBER: Final = 9.0
SEEN: Final = (44.0, 60.0)
HOLE: Final = (54.0, 60.0)
GAP: Final = 3.0
"""What the number, the part and its hole take of a row, and white between them, mm on paper."""

LARGE: Final = 3.5
"""Cap height of titles and of the numbers to answer by, mm."""


class _Row(Struct, frozen=True, kw_only=True):
    """One candidate: its number, its two pictures, and what is said of it."""

    number: int
    seen: PartPicture
    hole: PartPicture | None
    part: Component
    lines: tuple[Said, ...]


class _Scales(Struct, frozen=True, kw_only=True):
    """The scales, paper and real, that the candidates of a question are drawn at: parts, and their holes."""

    seen: tuple[int, int]
    hole: tuple[int, int]

    @classmethod
    def for_all(cls, parts: Sequence[Component]) -> _Scales:
        """The largest at which every candidate has room, so that they can be compared."""
        return cls(
            seen=_largest(lambda scale: all(_within(_seen(part, scale), SEEN) for part in parts)),
            hole=_largest(lambda scale: all(_within(_hole(part, scale), HOLE) for part in parts)),
        )


def question_sheets(
    asked: Sequence[Question], parts: Mapping[str, Component], answers: str, file: str, made_by: str
) -> tuple[Drawing, ...]:
    """The pages, A4 upright: a block a question, candidates the best first, none of these last.

    `parts` are those of all candidates by name, `answers` the file to answer in, `file` that of the list.
    """
    page = Pages()
    page.add(NOTES, [words(said.title(), page.at(LARGE), height=LARGE, bold=True).item])
    page.down(LARGE * LINE_PITCH + 0.5)
    for text in (file, said.how_to(answers), said.how_to_print()):
        _say(page, text, 0.0, page.width)
    for number, question in enumerate(asked, start=1):
        _question(number, question, parts, page)
    foot = str(said.foot(made_by=made_by, file=file))
    return tuple(page.drawings(str(said.title()), file, foot))


def scale_for(parts: Sequence[Component]) -> tuple[int, int]:
    """The largest scale, paper and real, at which parts and holes all have room: so they can be compared."""
    scales = _Scales.for_all(parts)
    return min(scales.seen, scales.hole, key=_share)


def candidate_picture(part: Component, scale: tuple[int, int] | None = None) -> Drawing:
    """A part from the front and its hole beside each other as a small page, at the largest scale if none is given."""
    share = _share(scale or scale_for([part]))
    seen, hole = _seen(part, share), _hole(part, share)
    high = max(seen.box.height, 0.0 if hole is None else hole.box.height, 4.0) + 2.0
    left = Point(seen.box.width / 2 + 1.0, high / 2)
    items = list(seen.moved(left).items)
    wide = seen.box.width + 2.0
    if hole is not None:
        items += hole.moved(Point(wide + GAP + hole.box.width / 2, high / 2)).items
        wide += GAP + hole.box.width + 1.0
    paper = Box(0.0, 0.0, max(wide, 4.0), high)
    return Drawing(title=part.name, note="", page=paper, trim=paper, layers=sheet_layers({PARTS: items}))


def _say(page: Pages, text: Said, left: float, width: float, height: float = TEXT) -> None:
    """Running text, and the top of what is left moved below it."""
    page.add(NOTES, paragraph(text, Point(MARGIN + left, page.top), width, height=height))
    page.down(paragraph_height(text, width, height) + height * 0.8)


def _question(number: int, question: Question, parts: Mapping[str, Component], page: Pages) -> None:
    """One question: its number, refs and words over its candidates."""
    scales = _Scales.for_all([parts[one.name] for one in question.candidates])
    rows = [_row(at, one, parts[one.name], scales) for at, one in enumerate(question.candidates, start=1)]
    page.down(3.0)
    page.need(_head_height(question, page.width) + (_height(rows[0]) if rows else 0.0) + 10.0)
    page.add(NOTES, [rule(Point(MARGIN, page.top), Point(WIDTH - MARGIN, page.top), width=HEAVY)])
    page.down(2.6)
    head = words(str(number), page.at(LARGE), height=LARGE, bold=True)
    refs = words(refs_in(question.refs, 80.0), page.at(LARGE, NUMBER), height=HEADING, bold=True)
    in_rows = words(said.in_rows(question.rows[:12]), Point(refs.box.right + 3.0, page.top - LARGE), paint=GREY)
    page.add(NOTES, [head.item, refs.item, in_rows.item])
    page.down(LARGE + 2.4)
    for text in _head_texts(question):
        _say(page, text, NUMBER, page.width - NUMBER)
    if rows:
        hole = page.at(TEXT, NUMBER + SEEN[0] + GAP)
        page.add(NOTES, [words(said.part_seen(*scales.seen), page.at(TEXT, NUMBER), paint=GREY).item])
        page.add(NOTES, [words(said.its_hole(*scales.hole), hole, paint=GREY).item])
        page.down(TEXT * LINE_PITCH)
    for row in rows:
        _need(page, _height(row), number)
        _candidate(row, page)
    _need(page, 16.0, number)
    _last(len(rows) + 1, page)


def _need(page: Pages, height: float, number: int) -> None:
    """Begin a page when less than this is left, and say there which question goes on."""
    before = len(page.pages)
    page.need(height)
    if len(page.pages) > before:
        page.add(NOTES, [words(said.goes_on(number), page.at(TEXT), paint=GREY).item])
        page.down(TEXT * LINE_PITCH)


def _head_texts(question: Question) -> Iterator[Said]:
    """What the rows say, and why the catalogue has no such part."""
    yield from (said.words(text) for text in question.words[:6])
    if question.numbers:
        yield said.order_numbers(question.numbers[:12])
    if question.why:
        yield question.why


def _head_height(question: Question, width: float) -> float:
    texts = math.fsum(paragraph_height(text, width - NUMBER) + TEXT * 0.8 for text in _head_texts(question))
    return LARGE + 5.0 + texts + TEXT * LINE_PITCH


def _row(number: int, candidate: Candidate, part: Component, scales: _Scales) -> _Row:
    seen, hole = _seen(part, _share(scales.seen)), _hole(part, _share(scales.hole))
    return _Row(
        number=number, seen=seen, hole=hole, part=part, lines=tuple(says for _, says in told_of(candidate, part))
    )


class Told(Enum):
    """What a line about a candidate tells."""

    HOLE = "hole"
    FOR = "for"
    AGAINST = "against"
    UNSAID = "unsaid"


def told_of(candidate: Candidate, part: Component) -> tuple[tuple[Told, Said], ...]:
    """The hole in words, what speaks for a part, what against, and what its name has that was not said."""
    holes: list[Message] = list(opening_facts(part)) if part.openings else [said.no_opening()]
    found: list[tuple[Told, Said]] = [(Told.HOLE, says) for says in holes]
    found += [(Told.FOR, said.agrees(candidate.agrees))] if candidate.agrees else []
    found += [(Told.AGAINST, said.differs(candidate.differs))] if candidate.differs else []
    unsaid = unsaid_of(candidate)
    found += [(Told.UNSAID, said.unsaid(unsaid))] if unsaid else []
    return tuple(found)


def outline_box(part: Component) -> Box:
    """What a part covers of the face, mm from its place."""
    return _seen(part, 1.0).box


def unsaid_of(candidate: Candidate) -> tuple[str, ...]:
    """What a part's name has that no word of the list said, but for pieces of its numbers."""
    return tuple(word for word in candidate.unsaid if len(word) > 2 or not word.isdecimal())


def _seen(part: Component, scale: float) -> PartPicture:
    """The part from the front, without its hole."""
    items = outlines(replace(part, openings=()), Scaling(scale, Point(0.0, 0.0)))
    return PartPicture(items=tuple(items), box=extent(items) if items else Box(0.0, 0.0, 0.0, 0.0))


def _hole(part: Component, scale: float) -> PartPicture | None:
    """The openings with their dimensions; None for a part that has none."""
    return part_picture(replace(part, front=(), rear=(), shaft=None, look=None), scale) if part.openings else None


def _largest(has_room: Callable[[float], bool]) -> tuple[int, int]:
    return next((scale for scale in SCALES if has_room(_share(scale))), SCALES[-1])


def _share(scale: tuple[int, int]) -> float:
    return scale[0] / scale[1]


def _within(picture: PartPicture | None, room: tuple[float, float]) -> bool:
    return picture is None or (picture.box.width <= room[0] and picture.box.height <= room[1])


_TEXTS: Final = NUMBER + SEEN[0] + HOLE[0] + 2 * GAP
"""Where the words of a row begin, mm from the margin."""


def _height(row: _Row) -> float:
    """How high a candidate stands, mm."""
    wide = WIDTH - 2 * MARGIN - _TEXTS
    texts = math.fsum(paragraph_height(text, wide) + TEXT * 0.7 for text in (row.part.title, *row.lines))
    hole = 0.0 if row.hole is None else row.hole.box.height
    return max(row.seen.box.height, hole, HEADING + 2.0 + texts) + 2 * GAP


def _candidate(row: _Row, page: Pages) -> None:
    """A candidate between fine lines: number, part, hole, words."""
    tall = _height(row)
    page.add(NOTES, [rule(Point(MARGIN + NUMBER, page.top), Point(WIDTH - MARGIN, page.top), paint=GREY)])
    middle = page.top - tall / 2
    page.add(NOTES, _number_box(row.number, Point(MARGIN + 3.5, page.top - GAP - 3.0)))
    page.add(PARTS, list(row.seen.moved(Point(MARGIN + NUMBER + SEEN[0] / 2, middle)).items))
    if row.hole is not None:
        page.add(PARTS, list(row.hole.moved(Point(MARGIN + NUMBER + SEEN[0] + GAP + HOLE[0] / 2, middle)).items))
    left, wide = MARGIN + _TEXTS, page.width - _TEXTS
    top = page.top - GAP
    name = words(lines_of(row.part.name, wide, HEADING)[0], Point(left, top - HEADING), height=HEADING, bold=True)
    page.add(NOTES, [name.item])
    top -= HEADING + 2.0
    for text in (row.part.title, *row.lines):
        page.add(NOTES, paragraph(text, Point(left, top), wide))
        top -= paragraph_height(text, wide) + TEXT * 0.7
    page.down(tall)


def _number_box(number: int, middle: Point) -> list[Item]:
    """The number of a candidate in a box."""
    box = Box(middle.x - 3.5, middle.y - 3.0, middle.x + 3.5, middle.y + 3.0)
    digits = words(str(number), Point(middle.x, middle.y - HEADING / 2), height=HEADING, align=Align.CENTRE, bold=True)
    return [panel_box(box, fill=WASH, stroke=BLACK, width=MEDIUM), digits.item]


def _last(number: int, page: Pages) -> None:
    """None of these, and not on the panel."""
    page.add(NOTES, [rule(Point(MARGIN + NUMBER, page.top), Point(WIDTH - MARGIN, page.top), paint=GREY)])
    page.down(GAP)
    page.add(NOTES, _number_box(number, Point(MARGIN + 3.5, page.top - 3.0)))
    _say(page, said.none_of_these(), NUMBER, page.width - NUMBER)
    _say(page, said.not_on_panel(), NUMBER, page.width - NUMBER)
    page.down(2.0)
