"""One part of the catalogue on paper: from the front and from the side, every figure with its source, cautions."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from panelart.catalogue import caution, to_measure
from panelart.catalogue.cited import Cited
from panelart.catalogue.facts import facts_of
from panelart.cutouts.envelopes import cable_room
from panelart.drawing.layers import DIMENSIONS, NOTES, PARTS
from panelart.drawing.representation import Drawing, Item
from panelart.drawing.scaling import Scaling
from panelart.figure import Figure, Known
from panelart.geometry import Box, Line, Point, circle, direction, rectangle
from panelart.lettering.outline import open_shape, shape_of
from panelart.messages import Message, Said
from panelart.messages import sheets_catalogue as said
from panelart.model.component import Component, Envelope, EnvelopeRole
from panelart.model.motion import MotionKind
from panelart.sheets.dials import dials, placed
from panelart.sheets.line_key import line_key
from panelart.sheets.measure import across, extent, figure, upright
from panelart.sheets.pages import MARGIN, WIDTH, Pages
from panelart.sheets.paper import (
    BLACK,
    BOLDER,
    FINE,
    GREY,
    HEADING,
    HEAVY,
    LINE_PITCH,
    MEDIUM,
    TEXT,
    WASH,
    lines_of,
    paragraph,
    paragraph_height,
    rule,
    words,
)
from panelart.sheets.part_picture import (
    FRONT,
    FRONT_EDGE,
    FRONT_WIDTH,
    REAR_DASH,
    TRAVEL_DASH,
    bounds_of,
    part_picture,
    standing_mark,
)

SCALES: Final = ((5, 1), (2, 1), (1, 1), (1, 2), (1, 5), (1, 10))
"""Scales of ISO 5455, the largest first."""

ROOM: Final = (146.0, 96.0)
"""What both views may take side by side without their dimensions, mm on paper."""

BETWEEN: Final = 16.0
"""From one view to the other, mm on paper."""

SHEET: Final = 1.5
"""Thickness of the sheet in the view from the side where the part names none, mm."""

STANDINGS: Final = {
    Known.PROVED: said.proved(),
    Known.LOOKED_UP: said.looked_up(),
    Known.TYPICAL: said.typical(),
    Known.MEMORY: said.from_memory(),
    Known.GIVEN: said.given(),
}


def part_sheets(part: Component, made_by: str) -> tuple[Drawing, ...]:
    """The pages, A4 upright: views, then the figures on as many pages as they take."""
    page = Pages()
    # Measured in the plain face, which is narrower than the bold one.
    for line in lines_of(part.title, page.width / BOLDER, HEADING):
        page.add(NOTES, [words(line, page.at(HEADING), height=HEADING, bold=True).item])
        page.down(HEADING * LINE_PITCH + 1.0)
    facts = " · ".join(str(fact) for fact in (part.name, part.standard, _sheet(part)) if fact)
    for line in lines_of(facts, page.width):
        page.add(NOTES, [words(line, page.at(TEXT), paint=GREY).item])
        page.down(TEXT * LINE_PITCH)
    page.add(NOTES, [rule(Point(MARGIN, page.top), Point(WIDTH - MARGIN, page.top), width=HEAVY)])
    page.down(6.0)
    _views(part, page)
    if to_measure(part):
        page.add(NOTES, [words(said.measure_part(), page.at(TEXT), bold=True).item])
        page.down(8.0)
    _dials(part, page)
    sources = Cited()
    _figures(part, page, sources)
    _facts(part, page, sources)
    _remarks(part, page)
    _cited(sources, page)
    return tuple(page.drawings(str(said.part_title(part=part.title)), str(said.part_note(part=part.title)), made_by))


def _sheet(part: Component) -> Said:
    if part.thickness is None:
        return ""
    minimum, maximum = part.thickness
    return said.sheet_thickness(minimum=figure(minimum), maximum=figure(maximum))


def _views(part: Component, page: Pages) -> None:
    box = bounds_of(part)
    out = max((_reach(one, part) for one in part.front), default=0.0)
    deep = out + max((one.height for one in part.rear), default=0.0) + _thick(part)
    drawn, real = next(
        (
            scale
            for scale in SCALES
            if (box.width + deep) * scale[0] / scale[1] <= ROOM[0] and box.height * scale[0] / scale[1] <= ROOM[1]
        ),
        SCALES[-1],
    )
    picture = part_picture(part, drawn / real)
    beside = max(picture.box.width, 40.0) + BETWEEN
    # Drawn about the part's own centre, so that both views stand at one height when they are moved together.
    front = picture.moved(Point(picture.box.width / 2, picture.box.centre.y))
    shift = Scaling(drawn / real, Point(front.box.left - picture.box.left, 0.0))
    views = [
        *front.items,
        *_widths(part, shift, front.box.bottom),
        *_side(part, drawn / real, Point(beside, 0.0)),
    ]
    box = extent(views)
    place = Scaling(1.0, Point(MARGIN, page.top - 6.0 - box.top))
    page.add(PARTS, [place.item(item) for item in views])
    for text, x in ((said.front_view(scale=(drawn, real)), 0.0), (said.side_view(), beside)):
        page.add(NOTES, [words(text, page.at(TEXT, x), paint=GREY).item])
    page.down(box.height + 14.0)
    key, tall = line_key(Point(MARGIN, page.top), page.width)
    page.add(NOTES, key)
    page.down(tall + 6.0)


def _dials(part: Component, page: Pages) -> None:
    """The ways in which a control is turned, in a row of dials."""
    shown = dials(part.motion)
    if not shown:
        return
    page.add(NOTES, [words(said.dials_heading(), page.at(TEXT), bold=True).item])
    page.down(TEXT + 4.0)
    items, box = placed(shown, MARGIN, page.top, page.width)
    page.add(PARTS, items)
    page.down(box.height + 7.0)


def _thick(part: Component) -> float:
    if part.thickness is None:
        return SHEET
    minimum, maximum = part.thickness
    return min(max(SHEET, minimum), maximum)


def _side(part: Component, scale: float, left: Point) -> list[Item]:
    """The part from the right, the face to the left: boxes as high as the outlines and as deep as the envelopes.

    Every height and depth is measured below the sheet, the nearest first; the largest sizes overall at either end.
    """
    out = max((_reach(one, part) for one in part.front), default=0.0)
    face = left.x + out * scale
    back = face + _thick(part) * scale
    box = bounds_of(part)
    scaling = Scaling(scale, Point(0.0, left.y))
    low, high = scaling.box(box).bottom - 4.0, scaling.box(box).top + 4.0
    metal = shape_of(rectangle(back - face, high - low, Point((face + back) / 2, (low + high) / 2)))
    items = [Item(shape=metal, fill=WASH, stroke=BLACK, width=MEDIUM)]
    for one in sorted(part.front, key=lambda one: -one.height):
        items += _moving(one, part, scaling, face)
        bounds = scaling.box(one.contour.bounds)
        items.append(_envelope(one, Box(face - one.height * scale, bounds.bottom, face, bounds.top)))
    for one in sorted(part.rear, key=lambda one: -one.height):
        bounds = scaling.box(one.contour.bounds)
        outline = rectangle(one.height * scale, bounds.height, Point(back + one.height * scale / 2, bounds.centre.y))
        items.append(Item(shape=shape_of(outline), stroke=GREY, width=FRONT_WIDTH, dash=REAR_DASH))
    reached = [*(one.height for one in part.front), *(_reach(one, part) for one in part.front)]
    for number, depth in enumerate(_steps(reached)):
        y = low - 3.5 - number * STEP
        items += across(Point(face - depth * scale, low), Point(face, low), y, figure(depth), leftwards=True)
    for number, depth in enumerate(_steps([one.height for one in part.rear])):
        y = low - 3.5 - number * STEP
        items += across(Point(back, low), Point(back + depth * scale, low), y, figure(depth))
    deep = max((one.height for one in part.rear), default=0.0)
    ends = ((part.front, face - out * scale, -STEP), (part.rear, back + deep * scale, STEP + 3.0))
    for side, end, off in ends:
        items += _overall(side, scaling, end, end + off)
    axis = Line(Point(face - out * scale - 2.0, left.y), Point(back + deep * scale + 2.0, left.y))
    items.append(Item(shape=open_shape((axis,)), stroke=GREY, width=FINE, dash=(2.2, 0.5, 0.5, 0.5)))
    return items


STEP: Final = 4.6
"""From one dimension line to the next, mm on paper."""


def _steps(heights: Sequence[float]) -> list[float]:
    """Heights off the sheet, each once, the smallest first."""
    return sorted({round(height, 2) for height in heights if height > 0})


def _overall(envelopes: Sequence[Envelope], scaling: Scaling, end: float, x: float) -> list[Item]:
    """The largest height of envelopes that end at `end`, measured at `x`; a diameter for what is round."""
    if not envelopes:
        return []
    largest = max(envelopes, key=lambda one: one.contour.bounds.height)
    bounds = largest.contour.bounds
    size = figure(bounds.height)
    text = said.round_in_short(diameter=size) if largest.contour.circle is not None else size
    box = scaling.box(bounds)
    return upright(Point(end, box.bottom), Point(end, box.top), x, text)


def _widths(part: Component, scaling: Scaling, below: float) -> list[Item]:
    """The largest widths in front and behind, measured below the view from the front; a round thing has none."""
    items: list[Item] = []
    for side in (part.front, part.rear):
        largest = max(side, key=lambda one: one.contour.bounds.width, default=None)
        if largest is None or largest.contour.circle is not None:
            continue
        box = scaling.box(largest.contour.bounds)
        text = figure(largest.contour.bounds.width)
        items += across(Point(box.left, box.bottom), Point(box.right, box.bottom), below - STEP, text)
        below -= STEP
    return items


def _reach(one: Envelope, part: Component) -> float:
    """How far an envelope comes off the face, pulled out where the part is pulled."""
    return one.height + _pull(one, part)


def _pull(one: Envelope, part: Component) -> float:
    """How far what is operated comes out of the face beyond where it is drawn, mm."""
    travel = part.motion.travel
    pulled = part.motion.kind is MotionKind.PULL and one.role is EnvelopeRole.ACTUATOR
    return travel.value if pulled and travel is not None else 0.0


def _moving(one: Envelope, part: Component, scaling: Scaling, face: float) -> list[Item]:
    """Where an envelope comes to be as it is operated: swept by a handle, pulled out, or thrown to either side."""
    items: list[Item] = []
    height = one.height * scaling.scale
    if one.sweeps:
        box = scaling.box(circle(one.sweeps).bounds)
        items.append(_travel(Box(face - height, box.bottom, face, box.top)))
    if one.cable_way:
        box = scaling.box(cable_room(one).bounds)
        items.append(_travel(Box(face - height, box.bottom, face, box.top)))
    if _pull(one, part):
        box = scaling.box(one.contour.bounds)
        items.append(_travel(Box(face - _reach(one, part) * scaling.scale, box.bottom, face - height, box.top)))
    throw = part.motion.throw
    if throw is not None and part.motion.kind is MotionKind.LEVER and one.role is EnvelopeRole.ACTUATOR:
        foot = Point(face, scaling.origin.y)
        for deg in (180.0 - throw.value / 2, 180.0 + throw.value / 2):
            end = foot.moved(direction(deg).scaled(height / math.cos(math.radians(throw.value / 2))))
            items.append(rule(foot, end, paint=GREY, width=FINE, dash=TRAVEL_DASH))
    return items


def _travel(box: Box) -> Item:
    shape = shape_of(rectangle(box.width, box.height, box.centre))
    return Item(shape=shape, stroke=GREY, width=FINE, dash=TRAVEL_DASH)


def _envelope(envelope: Envelope, box: Box) -> Item:
    if not envelope.covers:
        return _travel(box)
    shape = shape_of(rectangle(box.width, box.height, box.centre))
    return Item(shape=shape, fill=FRONT, stroke=FRONT_EDGE, width=FRONT_WIDTH)


COLUMNS: Final = (0.0, 50.0, 72.0, 96.0, 122.0, 160.0)
"""Where name, value, tolerance, span, standing and the letters of the sources of a figure begin, mm on paper."""

LETTER: Final = 7.0
"""What the letter of a source takes in the list of them, mm on paper."""


def _figures(part: Component, page: Pages, sources: Cited) -> None:
    page.need(20.0)
    for group, figures in _groups(part):
        distinct = list(dict.fromkeys(one for one in figures if one.name not in ("x", "y")))
        if not distinct:
            continue
        page.need(16.0)
        page.add(NOTES, [words(group, page.at(TEXT), bold=True).item])
        page.down(TEXT + 1.6)
        page.add(NOTES, [rule(Point(MARGIN, page.top), Point(WIDTH - MARGIN, page.top), width=MEDIUM)])
        page.down(1.8)
        for one in distinct:
            _row(one.name.replace("_", " "), _value(one), one, page, sources)
        page.down(3.0)


def _groups(part: Component) -> Iterator[tuple[Message, tuple[Figure, ...]]]:
    told: set[tuple[Message, tuple[Figure, ...]]] = set()
    groups = [(said.opening_group(role=one.role.value), one.figures) for one in part.openings]
    groups += [(said.front_group(feature=one.what), one.figures) for one in part.front]
    groups += [(said.rear_group(feature=one.what), one.figures) for one in part.rear]
    for name, figures in groups:
        key = (name, tuple(one for one in figures if one.name not in ("x", "y")))
        if key not in told:
            told.add(key)
            yield name, figures


def _facts(part: Component, page: Pages, sources: Cited) -> None:
    """What is known besides the shape; facts without figures in plain lines under each other."""
    plain = False
    for fact in facts_of(part):
        if plain and fact.lines:
            page.down(3.0)
        plain = not fact.lines
        page.need(6.0 if plain else 16.0)
        for line in lines_of(_capital(fact.heading), page.width / BOLDER):
            page.add(NOTES, [words(line, page.at(TEXT), bold=not plain).item])
            page.down(TEXT + 1.6)
        if plain:
            continue
        page.add(NOTES, [rule(Point(MARGIN, page.top), Point(WIDTH - MARGIN, page.top), width=MEDIUM)])
        page.down(1.8)
        for one in fact.lines:
            # Millimetres go without saying on a sheet.
            value = _value(one.figure) if one.figure.unit == "mm" else one.value
            _row(one.name, value, one.figure, page, sources)
        page.down(3.0)
    if plain:
        page.down(3.0)


def _capital(text: Said) -> str:
    written = str(text)
    return f"{written[:1].upper()}{written[1:]}"


def _row(name: Said, value: Said, one: Figure, page: Pages, sources: Cited) -> None:
    """A figure in one line: name, value, tolerance, span, standing, and the letters of its sources."""
    tall = TEXT * LINE_PITCH + 1.0
    page.need(tall)
    cells: list[Said] = [name, value, "", "", STANDINGS[one.known], sources.letters(one)]
    if one.tolerance is not None:
        cells[2] = "/".join(f"{'+' if side > 0 else ''}{figure(side)}" for side in reversed(one.tolerance))
    if one.met is not None:
        cells[3] = said.span(minimum=figure(one.met[0]), maximum=figure(one.met[1]))
    for x, cell in zip(COLUMNS, cells, strict=True):
        if cell:
            page.add(DIMENSIONS, [words(cell, page.at(TEXT, x)).item])
    if one.known is not Known.GIVEN:
        page.add(NOTES, standing_mark(one.known, Point(MARGIN + COLUMNS[4] - 2.2, page.top - TEXT / 2)))
    page.down(tall)


def _cited(sources: Cited, page: Pages) -> None:
    """The sources by their letters."""
    if not len(sources):
        return
    page.down(2.5)
    page.need(HEADING + 10.0)
    page.add(NOTES, [words(said.sources(), page.at(TEXT), bold=True).item])
    page.down(TEXT + 1.6)
    page.add(NOTES, [rule(Point(MARGIN, page.top), Point(WIDTH - MARGIN, page.top), width=MEDIUM)])
    page.down(1.8)
    for letter, source in sources:
        lines = lines_of(source, page.width - LETTER)
        page.need(len(lines) * TEXT * LINE_PITCH + 1.0)
        page.add(NOTES, [words(letter, page.at(TEXT)).item])
        for line in lines:
            page.add(NOTES, [words(line, page.at(TEXT, LETTER), paint=GREY).item])
            page.down(TEXT * LINE_PITCH)
        page.down(1.0)


def _value(one: Figure) -> Said:
    value = figure(one.value)
    if one.unit == "mm":
        return value
    return said.value_in_degrees(value=value) if one.unit == "deg" else said.value_in_unit(value=value, unit=one.unit)


def _remarks(part: Component, page: Pages) -> None:
    texts = [*([part.note] if part.note else []), *(caution(key) for key in part.cautions)]
    if not texts:
        return
    page.need(HEADING + 10.0)
    page.add(NOTES, [words(said.notes(), page.at(TEXT), bold=True).item])
    page.down(TEXT + 1.6)
    page.add(NOTES, [rule(Point(MARGIN, page.top), Point(WIDTH - MARGIN, page.top), width=MEDIUM)])
    page.down(2.2)
    for text in texts:
        tall = paragraph_height(text, page.width) + 2.4
        page.need(tall)
        page.add(NOTES, paragraph(text, Point(MARGIN, page.top), page.width))
        page.down(tall)
