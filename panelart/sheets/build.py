"""The build sheet: a traveller that goes with the panel from station to station, one section each.

Every page carries number, revision, fingerprint of the spec and a code to read them by, so that sheets of two
revisions are not mixed unseen.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from panelart.canonical import Struct
from panelart.cutouts.describe import coat_thickness
from panelart.cutouts.tolerances import hole_grade
from panelart.drawing.blanklayer import bend_in_short, bend_words
from panelart.drawing.cutlayer import noted
from panelart.drawing.layers import NOTES
from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.drawing.scaling import Scaling
from panelart.geometry import Box, Contour, Point, circle, rectangle
from panelart.lettering.look import Align
from panelart.lettering.outline import shape_of
from panelart.marking.separation import Separations
from panelart.messages import Message, Said
from panelart.messages import sheets as common
from panelart.messages import sheets_build as said
from panelart.model.layout import FACE, BendLine, CutCountersink, Layout
from panelart.model.making import serials
from panelart.model.panel import Side
from panelart.sheets.coats import coat_in_words
from panelart.sheets.listing import Listing
from panelart.sheets.named import Named, names_beside
from panelart.sheets.packed import packed
from panelart.sheets.paper import (
    BLACK,
    BOLDER,
    CAUTION,
    CAUTION_EDGE,
    FINE,
    GREY,
    HEADING,
    HEAVY,
    LINE_PITCH,
    MEDIUM,
    PALE,
    ROW,
    SIZES,
    TEXT,
    WASH,
    Column,
    heading,
    in_box,
    lines_of,
    panel_box,
    paragraph,
    paragraph_height,
    rule,
    side_by_side,
    table,
    table_height,
    unshortened,
    width_of,
    words,
)
from panelart.sheets.picture import picture
from panelart.sheets.sketch import sketch
from panelart.sheets.stations import Section, View, stations

MARGIN = 10.0
HEAD = 22.0
FOOT = 12.0
GUTTER = 6.0
"""Space between tables set side by side, mm."""

BOX = 3.8
"""Side of a tick box, mm."""

MARKED = Paint(colour="#1B1E22")
MARKED_FILL = Paint(colour="#F2C14E")
FAINT = Paint(colour="#B9BFC5")
BEND = Paint(colour="#0B7A75")
FACTS = 26.0
"""Where the facts of the first page begin behind what they are, mm."""

QR_QUIET = 4
"""Light modules round a QR code: ISO/IEC 18004 asks for 4."""

PICTURE_HEIGHT = 58.0
"""Maximum of a page's height that a picture takes, mm."""

SECOND_HEIGHT = 38.0
"""The same where a station has two, so that its table still stands on the page."""


class BuildSheet(Struct, frozen=True, kw_only=True):
    """What the sheet is made of; `date` as it is to be printed, '' leaves it to the pen; `plates` if parted already."""

    layout: Layout
    date: str
    made_by: str
    plates: Separations | None = None


def build_sheet(sheet: BuildSheet) -> tuple[Drawing, ...]:
    """The pages, A4 lying: an overview, then each station in order."""
    found = stations(sheet.layout, sheet.plates)
    pages = _Pages()
    _overview(sheet, found, pages)
    for number, station in enumerate(found, start=1):
        _section(sheet, number, station, pages)
    width, height = SIZES["A4"]
    paper = Box(0.0, 0.0, width, height)
    panel = sheet.layout.panel
    code = _code(sheet)
    drawings: list[Drawing] = []
    for place, (title, items) in enumerate(pages.filled, start=1):
        frame = _frame(sheet, title, place, len(pages.filled), code)
        drawings.append(
            Drawing(
                title=str(said.title(panel=panel.title, page=place, pages=len(pages.filled))),
                note=noted(panel, said.note(section=title)),
                page=paper,
                trim=paper,
                layers=(Layer(name=NOTES, items=(*items, *frame)),),
                number=panel.number,
                revision=panel.revision,
                spec=panel.fingerprint,
            )
        )
    return tuple(drawings)


class _Pages:
    """Pages filled from the top down, each with the title of its section."""

    def __init__(self) -> None:
        self.filled: list[tuple[Said, list[Item]]] = []
        self.left = MARGIN
        self.width = SIZES["A4"][0] - 2 * MARGIN
        self.floor = MARGIN + FOOT
        self.ceiling = SIZES["A4"][1] - MARGIN - HEAD - 4.0
        self.top = self.ceiling
        self._title: Said = ""

    def begin(self, title: Said) -> None:
        """A new page for a new section."""
        self._title = title
        self.filled.append((title, []))
        self.top = self.ceiling

    def need(self, height: float) -> None:
        """Go on with the section on a new page when less than this is left."""
        if self.top - height < self.floor:
            title = self._title
            self.begin(title)
            self.filled[-1] = (said.continued(section=title), self.filled[-1][1])
            self._title = title

    def add(self, items: Sequence[Item]) -> None:
        """Put items on the page being filled."""
        self.filled[-1][1].extend(items)

    @property
    def corner(self) -> Point:
        """The upper left of the room that is left."""
        return Point(self.left, self.top)


# --- the frame of every page


def known_by(sheet: BuildSheet) -> str:
    """Number, revision and fingerprint, as the code holds them."""
    panel = sheet.layout.panel
    revision = (common.revision(revision=panel.revision),) if panel.revision else ()
    named = (panel.number or panel.title, *revision, common.spec(fingerprint=panel.fingerprint))
    return " · ".join(map(str, named))


def _code(sheet: BuildSheet) -> tuple[tuple[bool, ...], ...]:
    """The modules of the QR code, dark ones true, rows from the top."""
    import segno

    panel = sheet.layout.panel
    text = "\n".join((panel.number or panel.title, panel.revision, panel.fingerprint))
    return tuple(
        tuple(bool(module) for module in row) for row in segno.make_qr(text, error="m", boost_error=False).matrix
    )


def _frame(sheet: BuildSheet, title: Said, page: int, count: int, code: tuple[tuple[bool, ...], ...]) -> list[Item]:
    panel = sheet.layout.panel
    width, height = SIZES["A4"]
    top = height - MARGIN
    items = [rule(Point(MARGIN, top - HEAD), Point(width - MARGIN, top - HEAD), width=MEDIUM)]
    items += in_box(title, Point(MARGIN, top - 8.5), width - 2 * MARGIN - 30, 5.0, bold=True)
    about = f"{panel.title} · {known_by(sheet)}"
    items += in_box(about, Point(MARGIN, top - 14.5), width - 2 * MARGIN - 30, TEXT)
    first, last = serials(panel.making)
    quantity = panel.making.quantity
    batch = said.numbered_batch(quantity=quantity, first=first, last=last) if first else said.batch(quantity=quantity)
    items.append(words(batch, Point(MARGIN, top - 19.5), paint=GREY).item)
    items += _modules(code, Point(width - MARGIN, top))
    y = MARGIN + FOOT - 4.5
    items.append(rule(Point(MARGIN, MARGIN + FOOT - 1.0), Point(width - MARGIN, MARGIN + FOOT - 1.0), width=MEDIUM))
    blanks = (said.done_by(), said.done_on(), said.good_pieces(), said.scrapped_pieces(), said.checked_by())
    items.append(words("  ".join(map(str, blanks)), Point(MARGIN, y - 1.5)).item)
    made = (common.page_of(page=page, pages=count), *((sheet.date,) if sheet.date else ()), sheet.made_by)
    at = Point(width - MARGIN, y - 1.5)
    items.append(words(" · ".join(map(str, made)), at, paint=GREY, align=Align.RIGHT).item)
    return items


@lru_cache(maxsize=8)  # it is the same on all pages
def _modules(code: tuple[tuple[bool, ...], ...], corner: Point) -> tuple[Item, ...]:
    """The code with its upper right corner, quiet zone and all, at a point: runs of dark modules as one shape."""
    rows = len(code)
    side = HEAD / (rows + 2 * QR_QUIET)
    left, top = corner.x - HEAD + QR_QUIET * side, corner.y - QR_QUIET * side
    runs: list[Contour] = []
    for row, modules in enumerate(code):
        start: int | None = None
        for column, dark in enumerate((*modules, False)):
            if dark and start is None:
                start = column
            elif not dark and start is not None:
                wide = (column - start) * side
                middle = Point(left + start * side + wide / 2, top - (row + 0.5) * side)
                runs.append(rectangle(wide, side, middle))
                start = None
    return (Item(shape=shape_of(*runs), fill=BLACK, label=str(common.qr_code())),)


# --- the first page


def _overview(sheet: BuildSheet, found: Sequence[Section], pages: _Pages) -> None:
    layout = sheet.layout
    panel = layout.panel
    pages.begin(said.build_sheet())
    wide = 176.0
    y = pages.top
    for what, fact in _facts(layout):
        pages.add([words(what, Point(pages.left, y - TEXT), paint=GREY).item])
        pages.add(paragraph(fact, Point(pages.left + FACTS, y), wide - FACTS - 2))
        y -= paragraph_height(fact, wide - FACTS - 2) + 2.6
    room = Box(pages.left + wide, pages.top - 52, pages.left + pages.width, pages.top)
    if layout.blank is not None:
        pages.add(sketch(layout, room, rear=False))
    else:
        pages.add(_look(sheet, room))
    pages.top = min(y, room.bottom) - 4
    rows: list[tuple[Said, ...]] = [
        (
            str(number),
            station.name,
            ", ".join(station.files) or "–",
            "",
            "",
            "",
        )
        for number, station in enumerate(found, start=1)
    ]
    columns = (
        Column(heading="", width=10, align=Align.RIGHT),
        Column(heading=said.column_station(), width=70),
        Column(heading=said.column_files(), width=75),
        Column(heading=said.column_good(), width=24),
        Column(heading=said.column_done_by(), width=50),
        Column(heading=common.column_date(), width=48),
    )
    pages.need(table_height(len(rows)))
    pages.add(table(columns, rows, pages.corner))
    pages.top -= table_height(len(rows)) + 5
    states = (said.fingerprint(fingerprint=panel.fingerprint), said.other_fingerprint())
    pages.need(8)
    pages.add(paragraph(common.paragraph(sentences=states), pages.corner, pages.width))


def _facts(layout: Layout) -> Iterator[tuple[Message, Said]]:
    panel, blank = layout.panel, layout.blank
    yield said.size(), said.finished_size(size=panel.size)
    if blank is not None:
        box = blank.outline.bounds
        yield said.blank(), said.blank_size(width=box.width, height=box.height, count=len(blank.bends))
    yield said.sheet(), common.sheet_metal(material=panel.sheet.material, thickness=panel.sheet.thickness)
    yield said.coat(), _coat_words(layout)
    inks = [ink.name for ink in panel.marking.inks]
    yield said.marking(), common.marking(process=panel.marking.process.title, inks=inks)
    yield said.tolerance(), _general(panel.making.tolerance)
    if panel.making.note:
        yield said.note_of_panel(), panel.making.note


def _general(grade: str) -> Message:
    return common.general_tolerance(grade=grade, openings=hole_grade(grade))


def _coat_words(layout: Layout) -> Message:
    coat = layout.panel.coat
    name = coat_in_words(coat)
    if coat.kind == "none":
        return name
    return (said.coat_on_all_faces if coat.rear else said.coat_on_front)(coat=name, thickness=coat_thickness(coat))


# --- a station


def _section(sheet: BuildSheet, number: int, station: Section, pages: _Pages) -> None:
    pages.begin(said.station_heading(number=number, station=station.name))
    if station.files:
        files = said.files(files=station.files)
        for line in lines_of(files, pages.width / BOLDER):
            pages.add([words(line, Point(pages.left, pages.top - TEXT), bold=True).item])
            pages.top -= TEXT * LINE_PITCH
        pages.top -= 2.0
    for view in station.views:
        _picture(sheet, view, station, pages)
    for step in station.steps:
        _tick(step, pages)
    pages.top -= 1.5
    for caution in station.cautions:
        _caution(caution, pages)
    for listing in station.listings:
        _listing(listing, pages)


def _tick(step: Said, pages: _Pages) -> None:
    wide = pages.width - 8
    tall = max(paragraph_height(step, wide), BOX)
    pages.need(tall + 2)
    box = Box(pages.left, pages.top - BOX, pages.left + BOX, pages.top)
    pages.add([panel_box(box, stroke=BLACK, width=MEDIUM)])
    pages.add(paragraph(step, Point(pages.left + 6, pages.top - (BOX - TEXT) / 2), wide))
    pages.top -= tall + 2.0


def _listing(listing: Listing, pages: _Pages) -> None:
    """A table with its heading, carried on over as many pages as it takes; narrow ones side by side."""
    spaced, whole = _spaced(listing)
    columns, broken = unshortened(spaced, whole, pages.width)
    rows = [(number, line) for number, lines in enumerate(broken) for line in lines]
    across = math.fsum(column.width for column in columns) + GUTTER
    maximum = max(1, int((pages.width + GUTTER) // across)) if len(rows) > 6 else 1
    while rows:
        items, tall = heading(listing.title, listing.remark, pages.corner, pages.width)
        pages.need(tall + table_height(min(len(rows), 5)))
        items, tall = heading(listing.title, listing.remark, pages.corner, pages.width)
        pages.add(items)
        pages.top -= tall
        fits = max(1, int((pages.top - pages.floor) // ROW) - 1)
        tables, rows = packed(rows, _whose, fits, maximum)
        shown = [[line for _, line in one] for one in tables]
        pages.add(side_by_side(columns, shown, pages.corner, gutter=GUTTER))
        pages.top -= table_height(max(map(len, tables))) + 5


def _whose(line: tuple[int, Sequence[Said]]) -> int:
    """The row that a line of a table is of."""
    return line[0]


def _spaced(listing: Listing) -> tuple[list[Column], list[tuple[Said, ...]]]:
    """The table with space between figures and words, and without a column that has only the face in it."""
    columns: list[Column] = []
    places: list[int | None] = []
    for place, column in enumerate(listing.columns):
        if column.heading == common.column_surface() and {row[place] for row in listing.rows} <= {"", FACE}:
            continue
        if columns and columns[-1].align is Align.RIGHT and column.align is not Align.RIGHT:
            columns.append(Column(heading="", width=4.0))
            places.append(None)
        columns.append(column)
        places.append(place)
    rows = [tuple("" if place is None else row[place] for place in places) for row in listing.rows]
    return columns, rows


def _caution(told: Said, pages: _Pages) -> None:
    inner = pages.width - 14
    tall = paragraph_height(told, inner) + 5
    pages.need(tall + 2)
    box = Box(pages.left, pages.top - tall, pages.left + pages.width, pages.top)
    pages.add([panel_box(box, fill=CAUTION, stroke=CAUTION_EDGE, width=HEAVY)])
    pages.add([words("⚠", Point(pages.left + 3, pages.top - 5.4), height=HEADING, bold=True).item])
    pages.add(paragraph(told, Point(pages.left + 10, pages.top - 2.6), inner))
    pages.top = box.bottom - 3


# --- pictures


def _picture(sheet: BuildSheet, view: View, station: Section, pages: _Pages) -> None:
    layout = sheet.layout
    pages.need(30)
    high = PICTURE_HEIGHT if len(station.views) == 1 else SECOND_HEIGHT
    marked = station.marked
    room = Box(pages.left + 6, max(pages.top - high, pages.floor), pages.left + pages.width - 6, pages.top - 6)
    pages.add([words(view.caption, Point(pages.left, pages.top - TEXT), paint=GREY).item])
    match view:
        case View.BENT:
            pages.need(high)
            room = Box(pages.left, pages.top - high, pages.left + pages.width, pages.top - 5)
            middle = room.centre.x
            pages.add(sketch(layout, Box(room.left, room.bottom, middle - 4, room.top), rear=False, marked=marked))
            pages.add(sketch(layout, Box(middle + 4, room.bottom, room.right, room.top), rear=True, marked=marked))
            pages.top = room.bottom - 4
            return
        case View.LOOK:
            pages.add(_look(sheet, room))
        case View.FACE | View.BEHIND | View.BLANK:
            shown = _shown_in(layout, station, view, room)
            if shown.crowded:
                room = Box(room.left, pages.floor + 3.0, room.right, room.top)
                room = Box(room.left, room.top - min(room.height, shown.high(room)), room.right, room.top)
                shown = _shown_in(layout, station, view, room)
            pages.add(shown.items)
    pages.top = room.bottom - 5


class _Shown(Struct, frozen=True, kw_only=True):
    """A picture: what it is of, in real mm, and whether its names have no room beside what they name."""

    items: list[Item]
    crowded: bool
    around: Box

    def high(self, room: Box) -> float:
        """What it takes of a room's height when it is as wide as the room, mm."""
        return self.around.height * min(room.width / self.around.width, 1.0) + 2 * NAMES


NAMES = 5.0
"""Room for names above and below a picture, mm."""


def _shown_in(layout: Layout, station: Section, view: View, room: Box) -> _Shown:
    if view is View.BLANK:
        return _blank(layout, station, room)
    return _face(layout, station, room, behind=view is View.BEHIND)


def _scaled(around: Box, room: Box) -> Scaling:
    """As large as fits, at most 1:1, middle on middle."""
    scale = min(room.width / around.width, room.height / around.height, 1.0)
    middle = around.centre
    return Scaling(scale, Point(room.centre.x - middle.x * scale, room.centre.y - middle.y * scale))


def _look(sheet: BuildSheet, room: Box) -> list[Item]:
    return list(picture(sheet.layout, _scaled(sheet.layout.panel.outline.bounds, room), sheet.plates))


def _shown(contour: Contour, scaling: Scaling, *, marked: bool) -> Item:
    return Item(
        shape=scaling.shape(shape_of(contour)),
        fill=MARKED_FILL if marked else None,
        stroke=MARKED if marked else FAINT,
        width=MEDIUM if marked else FINE,
    )


def _names(named: Iterable[tuple[str, Box]], scaling: Scaling, within: Box) -> tuple[list[Item], bool]:
    """The names of features beside them, on the piece if may be."""
    features = [Named(box=scaling.box(box), name=name) for name, box in named]
    return names_beside(features, within=scaling.box(within))


def _face(layout: Layout, station: Section, room: Box, *, behind: bool) -> _Shown:
    """Outline and openings as lines, what this station works on dark; from behind, left and right changed over."""
    about = layout.panel.outline.bounds.centre.x

    def seen(contour: Contour) -> Contour:
        return contour.mirrored(about) if behind else contour

    scaling = _scaled(layout.panel.outline.bounds, room)
    items = [Item(shape=scaling.shape(shape_of(seen(layout.panel.outline))), stroke=BLACK, fill=WASH, width=MEDIUM)]
    things = [(name, ref, seen(contour)) for name, ref, contour in _on_face(layout, behind=behind)]
    dark = [(name, contour) for name, ref, contour in things if name in station.marked or ref in station.marked]
    items += [_shown(contour, scaling, marked=False) for _, _, contour in things]
    items += [_shown(contour, scaling, marked=True) for _, contour in dark]
    if not behind:
        cones = [(opening.name, opening.countersink) for opening in layout.openings if opening.countersink is not None]
        items += _cones(cones, station, scaling)
    # A pad and the hole in it have one name, told at the larger.
    named = {name: contour.bounds for name, contour in sorted(dark, key=lambda thing: abs(thing[1].area))}
    names, crowded = _names(named.items(), scaling, layout.panel.outline.bounds)
    items += names
    items += _corner(scaling.point(Point(layout.panel.outline.bounds.left, layout.panel.outline.bounds.bottom)))
    return _Shown(items=items, crowded=crowded, around=layout.panel.outline.bounds)


def _on_face(layout: Layout, *, behind: bool) -> Iterator[tuple[str, str, Contour]]:
    """What a face shows, by name and ref: openings, the masks of its side, a ring for each part without opening."""
    for opening in layout.openings:
        yield opening.name, opening.ref, opening.finished
    for mask in layout.masks:
        if mask.on == FACE and (mask.side is Side.REAR) is behind:
            yield mask.name, mask.name, mask.contour
    cut = {opening.ref for opening in layout.openings}
    for part in layout.panel.parts:
        if part.ref not in cut:
            yield part.ref, part.ref, circle(4.0, part.at)


def _cones(cones: Sequence[tuple[str, CutCountersink]], station: Section, scaling: Scaling) -> list[Item]:
    """The mouths of the cones as seen from the front, those cut from the rear broken."""
    return [
        Item(
            shape=scaling.shape(shape_of(circle(cone.cut, cone.centre))),
            stroke=MARKED if name in station.marked else FAINT,
            width=FINE,
            dash=() if cone.side is Side.FRONT else (1.0, 0.6),
        )
        for name, cone in cones
    ]


def _blank(layout: Layout, station: Section, room: Box) -> _Shown:
    blank = layout.blank
    assert blank is not None
    scaling = _scaled(blank.outline.bounds, room)
    items = [Item(shape=scaling.shape(shape_of(blank.outline)), stroke=BLACK, fill=WASH, width=MEDIUM)]
    items += [_shown(hole.cut, scaling, marked=hole.name in station.marked) for hole in blank.holes]
    cones = [(hole.name, hole.countersink) for hole in blank.holes if hole.countersink is not None]
    items += _cones(cones, station, scaling)
    for bend in blank.bends:
        start, end = scaling.point(bend.start), scaling.point(bend.end)
        if station.marked:
            items.append(rule(start, end, width=FINE, paint=PALE, dash=(3.0, 1.0)))
        else:
            items.append(rule(start, end, width=MEDIUM, paint=BEND, dash=(3.0, 1.0)))
            items.append(_bend_told(bend, start, end))
    marked = [(hole.name, hole.cut.bounds) for hole in blank.holes if hole.name in station.marked]
    names, crowded = _names(marked, scaling, blank.outline.bounds)
    items += [*names, *_corner(scaling.point(Point(0.0, 0.0)))]
    return _Shown(items=items, crowded=crowded, around=blank.outline.bounds)


def _bend_told(bend: BendLine, start: Point, end: Point) -> Item:
    """A bend in words over its line, or its step and name where the line is short; the table has the rest."""
    told = bend_words(bend)
    if width_of(told, bold=True) > start.distance(end):
        told = bend_in_short(bend)
    upright = abs(start.x - end.x) < 0.01
    middle = start.middle(end)
    at = Point(middle.x - 0.8, middle.y) if upright else Point(middle.x, middle.y + 0.8)
    return words(told, at, paint=BEND, align=Align.CENTRE, turn=90.0 if upright else 0.0, bold=True).item


def _corner(at: Point) -> list[Item]:
    """Where positions are measured from: a cross at the corner of what is measured."""
    return [
        rule(Point(at.x - 3, at.y), Point(at.x + 3, at.y), width=FINE),
        rule(Point(at.x, at.y - 3), Point(at.x, at.y + 3), width=FINE),
    ]
