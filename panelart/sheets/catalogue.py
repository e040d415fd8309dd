"""The picture sheets of the catalogue: every part at a stated scale, by chapter and family, knobs and symbols too.

Pages are A4 upright. A family's heading stands over its own parts, so that small families share a row.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue import KnobEntry, knob, knob_names
from panelart.catalogue.chapters import chapters
from panelart.catalogue.symbols import SymbolEntry, symbol, symbol_names
from panelart.cutouts.describe import size_of
from panelart.drawing.layers import DIMENSIONS, NOTES, PARTS
from panelart.drawing.representation import Drawing, Item
from panelart.figure import Figure, Known
from panelart.geometry import Box, Line, Point, circle, direction
from panelart.lettering.cuts import LIGHT
from panelart.lettering.look import Align
from panelart.lettering.outline import open_shape, shape_of
from panelart.lettering.setting import set_words
from panelart.messages import Message, Said
from panelart.messages import sheets as common
from panelart.messages import sheets_catalogue as said
from panelart.model.component import Component, Opening
from panelart.model.motion import FULL_TURN, Motion, MotionKind, Stops
from panelart.sheets.line_key import front_box, line_key
from panelart.sheets.measure import across, extent, figure
from panelart.sheets.paper import (
    BLACK,
    BOLDER,
    GREY,
    HEADING,
    HEAVY,
    LINE_PITCH,
    MEDIUM,
    SIZES,
    TEXT,
    lines_of,
    rule,
    width_of,
    words,
)
from panelart.sheets.part_picture import (
    FRONT,
    FRONT_EDGE,
    FRONT_WIDTH,
    OPENING_WIDTH,
    PartPicture,
    bounds_of,
    main_opening,
    part_picture,
    sheet_layers,
    size_in_short,
    standing,
    standing_mark,
)

HEIGHT, WIDTH = SIZES["A4"]
MARGIN: Final = 13.0
HEAD: Final = 10.0
FOOT: Final = 20.0
COLUMNS: Final = 12
MINIMUM: Final = 3
"""Columns of a page, and the fewest that an entry takes."""

GUTTER: Final = 4.5
COLUMN: Final = (WIDTH - 2 * MARGIN - (COLUMNS - 1) * GUTTER) / COLUMNS
SCALES: Final = ((1, 1), (1, 2), (1, 5), (1, 10))
"""Reductions of ISO 5455."""

LARGEST: Final = (86.0, 74.0)
"""A part wider or higher than this on paper is drawn smaller, mm."""

SYMBOL_HEIGHT: Final = 8.0

_SIZES: Final = {
    "diameter": said.diameter_range,
    "width": said.width_range,
    "height": said.height_range,
    "length": said.length_range,
    "across_flats": said.across_flats_range,
    "flat_to_opposite": said.across_flat_range,
    "over_key": said.over_key_range,
}
"""The figures of an opening that captions have the range of, and how they say it."""


class _Cell(Struct, frozen=True, kw_only=True):
    """One entry: its picture, its name with what goes before it, and the lines below."""

    picture: PartPicture
    name: str
    mark: Known | None
    lines: tuple[Said, ...]

    @property
    def columns(self) -> int:
        """How many columns it takes."""
        name = width_of(self.name, TEXT, bold=True) + (0.0 if self.mark is None else 2.9)
        wide = max(self.picture.box.width, name)
        for count in range(MINIMUM, COLUMNS):
            if wide <= _span(count):
                return count
        return COLUMNS

    @property
    def caption(self) -> tuple[str, ...]:
        """The lines below the name, broken to the cell's width."""
        width = _span(self.columns)
        return tuple(piece for line in self.lines for piece in lines_of(line, width))


def _span(count: int) -> float:
    return count * COLUMN + (count - 1) * GUTTER


class _Group(Struct, frozen=True, kw_only=True):
    """Cells under one heading."""

    heading: Said
    cells: tuple[_Cell, ...]


class _Section(Struct, frozen=True, kw_only=True):
    """Groups under one title, with a remark beside it."""

    title: Said
    remark: Said
    groups: tuple[_Group, ...]


class _Placed(Struct, frozen=True):
    """A cell in a row: its first column, and the heading that begins over it, if one does."""

    cell: _Cell
    column: int
    heading: Said | None


def catalogue_sheets(made_by: str) -> tuple[Drawing, ...]:
    """The pages. `made_by` names the program and its version. Reads the whole catalogue."""
    book = _Book()
    for section in _sections():
        book.section(section)
    return tuple(book.drawings(made_by))


# --- what there is


def _sections() -> Iterator[_Section]:
    for chapter in chapters():
        groups = tuple(
            _Group(heading=family.title, cells=tuple(map(_part_cell, family.parts))) for family in chapter.families
        )
        count = sum(len(group.cells) for group in groups)
        yield _Section(title=chapter.title, remark=said.parts(count=count), groups=groups)
    knobs = [knob(name) for name in knob_names()]
    families: dict[str, list[KnobEntry]] = {}
    for entry in sorted(knobs, key=lambda entry: (entry.diameter, entry.name)):
        families.setdefault(entry.family, []).append(entry)
    yield _Section(
        title=said.knobs(),
        remark=said.knobs_remark(count=len(knobs)),
        groups=tuple(
            _Group(heading=_knob_family(name), cells=tuple(map(_knob_cell, entries)))
            for name, entries in families.items()
        ),
    )
    entries = [symbol(name) for name in symbol_names()]
    yield _Section(
        title=said.symbols(),
        remark=said.symbols_remark(count=len(entries), height=SYMBOL_HEIGHT),
        groups=(_Group(heading="", cells=tuple(map(_symbol_cell, entries))),),
    )


def _part_cell(part: Component) -> _Cell:
    box = bounds_of(part)
    fitting = (
        (drawn, real)
        for drawn, real in SCALES
        if box.width * drawn / real <= LARGEST[0] and box.height * drawn / real <= LARGEST[1]
    )
    drawn, real = next(fitting, SCALES[-1])
    return _Cell(
        picture=part_picture(part, drawn / real),
        name=part.name if drawn == real else f"{part.name}   {drawn}:{real}",
        mark=standing(part),
        lines=tuple(_facts(part)),
    )


def _facts(part: Component) -> Iterator[Message]:
    if part.openings:
        yield from opening_facts(part)
    covers = [envelope for envelope in part.front if envelope.covers]
    if covers:
        largest = max(covers, key=lambda envelope: abs(envelope.contour.area))
        highest = max(part.front, key=lambda envelope: envelope.height)
        size = size_in_short(size_of(largest.contour))
        yield said.front_body(feature=largest.what, size=size, height=figure(largest.height))
        if highest.height > largest.height:
            yield said.front_reach(feature=highest.what, height=figure(highest.height))
    yield from _turning_facts(part.motion)
    last = [said.behind(depth=figure(max(envelope.height for envelope in part.rear)))] if part.rear else []
    if part.thickness is not None:
        minimum, maximum = map(figure, part.thickness)
        whole = said.sheet_range(minimum=minimum, maximum=maximum)
        last.append(whole if part.thickness[0] else said.sheet_maximum(maximum=maximum))
    if last:
        yield said.facts(facts=last)


def _turning_facts(motion: Motion) -> Iterator[Message]:
    """How many positions a turned control has, or how far it turns."""
    if motion.kind is not MotionKind.TURN:
        return
    if motion.ways:
        fewest, most = min(way.fewest for way in motion.ways), max(way.most for way in motion.ways)
        yield said.positions_up_to(fewest=figure(fewest), most=figure(most))
    elif motion.rotation is not None and motion.rotation.value < FULL_TURN:
        yield said.turns_by(angle=motion.rotation.value)
    elif motion.stops is Stops.NONE:
        yield said.endless()


def opening_facts(part: Component) -> Iterator[Message]:
    """The sizes of a part's openings in words, with their ranges; the part must have one."""
    main = main_opening(part)
    alike = [one for one in part.openings if _alike(one, main)]
    size = size_in_short(size_of(main.contour))
    named = said.openings_size(count=len(alike), size=size) if len(alike) > 1 else said.opening_size(size=size)
    yield from _with_ranges(named, list(_ranges(main.figures)))
    yield from _other_openings([one for one in part.openings if not _alike(one, main)])
    for sunk in {one.countersink for one in part.openings if one.countersink is not None}:
        yield said.countersink(diameter=figure(sunk.diameter), angle=sunk.angle)


def _with_ranges(named: Message, ranges: Sequence[tuple[str, Figure]]) -> Iterator[Message]:
    """An opening in words, with the range that its sizes are met in."""
    if [name for name, _ in ranges] == ["diameter"]:
        yield said.with_range(opening=named, span=_span_of(ranges[0][1]))
        return
    yield named
    if ranges:
        yield said.range_found(ranges=[_SIZES[name](*map(figure, _spanned(one))) for name, one in ranges])


def _alike(one: Opening, other: Opening) -> bool:
    """Whether two openings are of one role and as large as each other."""
    return one.role is other.role and abs(abs(one.contour.area) - abs(other.contour.area)) < 1e-6


def _other_openings(openings: Iterable[Opening]) -> Iterator[Message]:
    """Openings by role and size, those that are alike counted."""
    sizes: dict[tuple[str, Message], int] = {}
    for one in openings:
        key = one.role.value, size_in_short(size_of(one.contour))
        sizes[key] = sizes.get(key, 0) + 1
    for (role, size), count in sizes.items():
        yield (
            said.other_openings(count=count, role=role, size=size)
            if count > 1
            else said.other_opening(role=role, size=size)
        )


def _ranges(figures: Iterable[Figure]) -> Iterator[tuple[str, Figure]]:
    """The sizes of an opening that are met in a range of values, by name."""
    for one in figures:
        if one.name in _SIZES and one.span is not None and one.span[0] != one.span[1]:
            yield one.name, one


def _spanned(one: Figure) -> tuple[float, float]:
    assert one.span is not None
    return one.span


def _span_of(one: Figure) -> Message:
    minimum, maximum = map(figure, _spanned(one))
    return said.span(minimum=minimum, maximum=maximum)


_KNOB_FAMILIES: Final = {
    "knob": said.round_knobs(),
    "knob-skirt": said.skirted_knobs(),
    "knob-bar": said.bar_knobs(),
}


def _knob_family(name: str) -> Said:
    return _KNOB_FAMILIES.get(name, name)


def _knob_cell(entry: KnobEntry) -> _Cell:
    radius, gap = entry.diameter / 2, 5.0
    items = [Item(shape=shape_of(circle(entry.diameter)), fill=FRONT, stroke=FRONT_EDGE, width=OPENING_WIDTH)]
    items += _pointer(entry)
    side = Box(radius + gap, -radius, radius + gap + entry.height, radius)
    items.append(front_box(side))
    items.append(rule(Point(side.left, -radius - 1.2), Point(side.left, radius + 1.2), width=MEDIUM))
    below = -radius - 3.0 - TEXT
    items += across(Point(side.left, side.bottom), Point(side.right, side.bottom), below, figure(entry.height))
    items += across(Point(-radius, -radius), Point(radius, -radius), below, f"Ø{figure(entry.diameter)}")
    bore = [] if entry.bore is None else [said.shaft(diameter=figure(entry.bore))]
    pointer = [] if entry.pointer == "none" else [said.pointer(form=entry.pointer)]
    known = {one.known for one in entry.figures}
    worst = next((one for one in (Known.MEMORY, Known.TYPICAL) if one in known), Known.LOOKED_UP)
    return _Cell(
        picture=PartPicture(items=tuple(items), box=extent(items)),
        name=entry.name,
        mark=worst,
        lines=(said.facts(facts=(*bore, *pointer)),) if bore or pointer else (),
    )


def _pointer(entry: KnobEntry) -> Iterator[Item]:
    """What of a knob shows where it points, as it is seen from the front."""
    radius = entry.diameter / 2
    if entry.pointer == "bar":
        yield front_box(Box(-radius * 0.25, -radius * 0.94, radius * 0.25, radius * 0.94))
    elif entry.pointer == "skirt":
        yield Item(shape=shape_of(circle(entry.diameter * 0.76)), stroke=FRONT_EDGE, width=FRONT_WIDTH)
    if entry.pointer in ("line", "bar", "skirt"):
        centre = Point(0.0, 0.0)
        tip, tail = (direction(90.0).scaled(radius * share) for share in (0.94, 0.55))
        line = Line(centre.moved(tail), centre.moved(tip))
        yield Item(shape=open_shape((line,)), stroke=BLACK, width=0.5)
    elif entry.pointer == "dot":
        yield Item(shape=shape_of(circle(1.6, Point(0.0, radius * 0.78))), fill=BLACK)


def _symbol_cell(entry: SymbolEntry) -> _Cell:
    setting = set_words(entry.name, LIGHT.symbols, SYMBOL_HEIGHT)
    item = Item(shape=setting.shape, fill=BLACK, label=entry.title)
    square = Box(setting.box.left, 0.0, setting.box.right, SYMBOL_HEIGHT)
    from_memory = entry.number and entry.known is Known.MEMORY
    number = said.number_from_memory(number=entry.number) if from_memory else entry.number
    return _Cell(
        picture=PartPicture(items=(item,), box=setting.box.union(square)),
        name=entry.name,
        mark=None,
        lines=(entry.title, *((number,) if number else ())),
    )


# --- pages


class _Book:
    """Pages filled from the top down."""

    def __init__(self) -> None:
        self.pages: list[dict[str, list[Item]]] = [{}]
        self.titles: list[list[Said]] = [[]]
        self.top = HEIGHT - MARGIN - HEAD
        self.floor = MARGIN + FOOT

    def section(self, section: _Section) -> None:
        """A title, then rows of cells."""
        rows = list(_rows(section.groups))
        self._need(14.0 + _row_height(rows[0]))
        self.titles[-1].append(section.title)
        base = self.top - HEADING
        head = words(section.title, Point(MARGIN, base), height=HEADING, bold=True)
        self._add(NOTES, [head.item])
        for number, line in enumerate(lines_of(section.remark, WIDTH - MARGIN - head.box.right - 3.5)):
            at = Point(head.box.right + 3.5, self.top - HEADING - number * TEXT * LINE_PITCH)
            self._add(NOTES, [words(line, at, paint=GREY).item])
            base = at.y
        self._add(NOTES, [rule(Point(MARGIN, base - 2.2), Point(WIDTH - MARGIN, base - 2.2), width=HEAVY)])
        self.top = base - 2.2 - 3.0
        for row in rows:
            height = _row_height(row)
            if self._need(height):
                self.titles[-1].append(section.title)
            self._row(row)
            self.top -= height
        self.top -= 3.0

    def _need(self, height: float) -> bool:
        """Begin a page when less than this is left; whether one was begun."""
        if self.top - height >= self.floor:
            return False
        self.pages.append({})
        self.titles.append([])
        self.top = HEIGHT - MARGIN - HEAD
        return True

    def _add(self, layer: str, items: Iterable[Item]) -> None:
        self.pages[-1].setdefault(layer, []).extend(items)

    def _row(self, row: Sequence[_Placed]) -> None:
        heads = _heads(row)
        tall = max(placed.cell.picture.box.height for placed in row)
        for placed in row:
            left = MARGIN + placed.column * (COLUMN + GUTTER)
            cell = placed.cell
            width = _span(cell.columns)
            if placed.heading:
                self._heading(row, placed, left)
            middle = Point(left + width / 2, self.top - heads - tall / 2)
            self._add(PARTS, cell.picture.moved(middle).items)
            self._caption(cell, Point(left, self.top - heads - tall - 2.6))

    def _heading(self, row: Sequence[_Placed], placed: _Placed, left: float) -> None:
        width = _heading_width(row, placed)
        for number, line in enumerate(_heading_lines(placed, width)):
            base = self.top - TEXT - number * TEXT * LINE_PITCH
            self._add(NOTES, [words(line, Point(left, base), bold=True).item])
        y = self.top - _heads(row) + 2.6
        self._add(NOTES, [rule(Point(left, y), Point(left + width, y), paint=GREY, width=MEDIUM)])

    def _caption(self, cell: _Cell, top_left: Point) -> None:
        x, base = top_left.x, top_left.y - TEXT
        if cell.mark is not None:
            self._add(NOTES, standing_mark(cell.mark, Point(x + 0.85, base + TEXT / 2)))
            x += 2.9
        self._add(NOTES, [words(cell.name, Point(x, base), bold=True).item])
        for number, line in enumerate(cell.caption, start=1):
            at = Point(top_left.x, base - 0.4 - number * TEXT * LINE_PITCH)
            self._add(DIMENSIONS, [words(line, at).item])

    def drawings(self, made_by: str) -> Iterator[Drawing]:
        """The pages with what stands at their heads and feet."""
        paper = Box(0.0, 0.0, WIDTH, HEIGHT)
        for number, (layers, titles) in enumerate(zip(self.pages, self.titles, strict=True), start=1):
            layers.setdefault(NOTES, []).extend(_furniture(titles, number, len(self.pages), made_by))
            yield Drawing(
                title=str(said.title()),
                note=str(said.note()),
                page=paper,
                trim=paper,
                layers=sheet_layers(layers),
            )


def _rows(groups: Sequence[_Group]) -> Iterator[tuple[_Placed, ...]]:
    """Cells in rows of columns; every group begins with its heading, and goes on without in later rows."""
    row: list[_Placed] = []
    column = 0
    for group in groups:
        for number, cell in enumerate(group.cells):
            if column + cell.columns > COLUMNS:
                yield tuple(row)
                row, column = [], 0
            row.append(_Placed(cell, column, group.heading if number == 0 else None))
            column += cell.columns
    if row:
        yield tuple(row)


def _heading_width(row: Sequence[_Placed], placed: _Placed) -> float:
    """Over its own cells of the row, up to the next heading."""
    count = 0
    for other in row[row.index(placed) :]:
        if other is not placed and other.heading:
            break
        count += other.cell.columns
    return _span(count)


def _heading_lines(placed: _Placed, width: float) -> list[str]:
    # Measured in the plain face, which is narrower than the bold one that headings are set in.
    return lines_of(placed.heading or "", width / BOLDER)


def _heads(row: Sequence[_Placed]) -> float:
    """Room for the headings of a row, with the rule below them."""
    heights = [
        TEXT + (len(_heading_lines(placed, _heading_width(row, placed))) - 1) * TEXT * LINE_PITCH
        for placed in row
        if placed.heading
    ]
    return max(heights) + 4.4 if heights else 0.0


def _row_height(row: Sequence[_Placed]) -> float:
    tall = max(placed.cell.picture.box.height for placed in row)
    text = max(len(placed.cell.caption) for placed in row) * TEXT * LINE_PITCH + TEXT + 3.0
    return _heads(row) + tall + text + 6.5


def _furniture(titles: Sequence[Said], number: int, count: int, made_by: str) -> list[Item]:
    """Running head, the key to lines and marks, and the page number."""
    head = HEIGHT - MARGIN - TEXT
    items = [words(said.title(), Point(MARGIN, head), paint=GREY).item]
    if titles:
        named = titles[0] if len(titles) == 1 else said.sections(first=titles[0], last=titles[-1])
        items.append(words(named, Point(WIDTH - MARGIN, head), paint=GREY, align=Align.RIGHT).item)
    top = MARGIN + FOOT - 4.0
    items.append(rule(Point(MARGIN, top), Point(WIDTH - MARGIN, top), paint=GREY, width=MEDIUM))
    key, tall = line_key(Point(MARGIN, top - 1.6), WIDTH - 2 * MARGIN)
    items += key
    note = common.paragraph(sentences=(said.finished_sizes(), said.measure_before_cutting()))
    items.append(words(note, Point(MARGIN, top - 1.6 - tall - TEXT * LINE_PITCH)).item)
    items.append(words(made_by, Point(MARGIN, MARGIN - 2.0), paint=GREY).item)
    page = said.page(page=number, pages=count)
    items.append(words(page, Point(WIDTH - MARGIN, MARGIN - 2.0), height=TEXT, align=Align.RIGHT).item)
    return items
