"""The proof: what the person who signs looks at.

The finished panel with the findings numbered on it, what was found, the cautions, every hole measured from the datum,
the hole table, and space to sign.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue import caution
from panelart.checks import Inspection
from panelart.checks.measuring import parts_to_measure
from panelart.cutouts.describe import allowance, coat_thickness, size_of
from panelart.cutouts.hardware import from_datum
from panelart.cutouts.held import held
from panelart.diagnostics import Severity
from panelart.drawing.layers import DIMENSIONS, FINDINGS, NOTES, PARTS
from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.drawing.scaling import Scaling
from panelart.geometry import Box, Point, direction
from panelart.lettering.look import Align
from panelart.marking.separation import Separations
from panelart.messages import Message, Said, extensions, reports
from panelart.messages import sheets as common
from panelart.messages import sheets_proof as said
from panelart.model.layout import FACE, Layout
from panelart.sheets.closeups import CAPTION, WINDOW, Window, closeups
from panelart.sheets.coats import coat_in_words
from panelart.sheets.dimensions import REACH, dimensioned
from panelart.sheets.measure_table import measure_columns, measure_rows, thinned
from panelart.sheets.packed import packed
from panelart.sheets.paper import (
    BLACK,
    CAUTION,
    CAUTION_EDGE,
    FINE,
    GREY,
    HEADING,
    HEAVY,
    LINE_PITCH,
    MEDIUM,
    ROW,
    SIZES,
    TEXT,
    WHITE,
    Column,
    disc,
    heading,
    in_box,
    panel_box,
    paragraph,
    paragraph_height,
    rule,
    side_by_side,
    table_height,
    unshortened,
    width_of,
    words,
)
from panelart.sheets.picture import picture
from panelart.sheets.stations.figures import toleranced

MARGIN = 10.0
FOOT = 38.0
BLOCK = 146.0
"""Height of the strip with scale bar, signatures and title block, and width of that block, mm."""

SCALES = ((1, 1), (1, 2), (1, 5), (1, 10))
"""Reductions of ISO 5455."""

BALLOONS = {
    Severity.ERROR: Paint(colour="#C62828"),
    Severity.WARNING: CAUTION_EDGE,
    Severity.NOTE: Paint(colour="#3D6B99"),
}
DISC = 6.0
"""Diameter of the disc that a finding's number stands in, mm."""

GAP = 7.0
GUTTER = 6.0
"""White between the blocks of a page, and between the columns of a table set side by side, mm."""


class Proof(Struct, frozen=True, kw_only=True):
    """What the proof is made of; `date` as it is to be printed, '' leaves it to the pen; `plates` if parted already."""

    layout: Layout
    inspection: Inspection
    date: str
    made_by: str
    plates: Separations | None = None


class _Flow:
    """Pages filled from the top down, between the margins and above the foot."""

    def __init__(self, width: float, height: float) -> None:
        self.left = MARGIN
        self.width = width - 2 * MARGIN
        self.floor = MARGIN + FOOT + 4
        self.ceiling = height - MARGIN
        self.pages: list[dict[str, list[Item]]] = [{}]
        self.top = self.ceiling

    def need(self, height: float) -> None:
        """Begin a new page when less than this is left on the page."""
        if self.top - height < self.floor:
            self.pages.append({})
            self.top = self.ceiling

    def add(self, layer: str, items: Sequence[Item]) -> None:
        """Put items on the page being filled."""
        self.pages[-1].setdefault(layer, []).extend(items)

    def heading(self, title: Said, remark: Said) -> None:
        """A heading with a remark beside it, or below it; what follows begins below both."""
        items, tall = heading(title, remark, self.corner, self.width)
        self.add(NOTES, items)
        self.top -= tall

    @property
    def corner(self) -> Point:
        """The upper left of the room that is left."""
        return Point(self.left, self.top)


def proof(sheet: Proof) -> tuple[Drawing, ...]:
    """The pages, on the smallest sheet of ISO 216 that takes the panel at 1:1, or reduced on A1."""
    width, height, scale = _paper(sheet.layout)
    flow = _filled(sheet, _Flow(width, height), scale)
    paper = Box(0.0, 0.0, width, height)
    panel = sheet.layout.panel
    drawings: list[Drawing] = []
    for number, layers in enumerate(flow.pages, start=1):
        layers.setdefault(NOTES, []).extend(_foot(sheet, width, scale, number, len(flow.pages)))
        drawings.append(
            Drawing(
                title=str(said.title(panel=panel.title, page=number, pages=len(flow.pages))),
                note=str(said.note(panel=panel.title)),
                page=paper,
                trim=paper,
                layers=tuple(
                    Layer(name=name, items=tuple(layers[name]), step=Step.DIMENSIONS if name == DIMENSIONS else None)
                    for name in (PARTS, DIMENSIONS, FINDINGS, NOTES)
                    if name in layers
                ),
                number=panel.number,
                revision=panel.revision,
                spec=panel.fingerprint,
            )
        )
    return tuple(drawings)


def _paper(layout: Layout) -> tuple[float, float, tuple[int, int]]:
    """Sheet width and height in mm, and the scale as (drawn, real)."""
    wide, high = layout.panel.size
    for name in ("A4", "A3", "A2", "A1"):
        width, height = SIZES[name]
        if wide + REACH + 2 * MARGIN + 14 <= width and high + REACH + 26 <= height - 2 * MARGIN - FOOT:
            return width, height, (1, 1)
    width, height = SIZES["A1"]
    for drawn, real in SCALES[1:]:
        share = drawn / real
        if wide * share + REACH + 2 * MARGIN + 14 <= width and high * share + REACH + 26 <= height - 2 * MARGIN - FOOT:
            return width, height, (drawn, real)
    return width, height, SCALES[-1]


def _filled(sheet: Proof, flow: _Flow, scale: tuple[int, int]) -> _Flow:
    layout = sheet.layout
    share = scale[0] / scale[1]
    wide, high = (side * share for side in layout.panel.size)
    middle = flow.left + flow.width / 2

    flow.need(high + 18)
    flow.heading(said.appearance(), said.appearance_remark(scale=scale))
    scaling = Scaling(share, Point(middle - wide / 2, flow.top - 5.5 - high))
    flow.add(PARTS, picture(layout, scaling, sheet.plates))
    flow.add(FINDINGS, _balloons(sheet, scaling))
    flow.top = scaling.origin.y - 8

    _findings(sheet, flow)
    _closeups(sheet, flow)
    _cautions(sheet, flow)

    _to_measure(sheet, flow)

    flow.need(high + 18 + REACH)
    flow.heading(said.positions(), said.positions_remark(scale=scale))
    scaling = Scaling(share, Point(middle - wide / 2 + REACH / 2, flow.top - 5.5 - high))
    flow.add(DIMENSIONS, dimensioned(layout, scaling))
    flow.top = scaling.origin.y - REACH - 6

    _holes(sheet, flow)
    return flow


def _balloons(sheet: Proof, scaling: Scaling) -> list[Item]:
    """A numbered disc beside each finding's place, clear of the discs before it, tied to the place by a line.

    A note speaks of a kind of part, so its disc stands at the first part of that kind and nothing is boxed.
    """
    items: list[Item] = []
    taken: list[Point] = []
    legends = [scaling.box(legend.box) for legend in sheet.layout.legends]
    holes = {opening.ref: opening.finished.bounds.centre for opening in reversed(sheet.layout.openings)}
    for number, finding in enumerate(sheet.inspection.findings, start=1):
        paint = BALLOONS[finding.severity]
        place: Point | Box = finding.place
        if finding.severity is Severity.NOTE and finding.refs and finding.refs[0] in sheet.layout.panel.by_ref:
            place = holes.get(finding.refs[0], sheet.layout.panel.by_ref[finding.refs[0]].at)
        elif len(finding.each) > 1:
            # Each place by itself: a box round all of them would hold half the panel.
            place = finding.each[0].place
            items += [_placed(spot.place, scaling, paint)[0] for spot in finding.each[1:]]
        mark, spot = _placed(place, scaling, paint)
        items.append(mark)
        at = _free_spot(spot, taken, legends)
        taken.append(at)
        items.append(rule(spot, at, paint=paint, width=MEDIUM))
        items += _disc(number, at, paint)
    return items


def _placed(place: Point | Box, scaling: Scaling, paint: Paint) -> tuple[Item, Point]:
    """A box or a small ring at a place, and where the line to the number starts."""
    if isinstance(place, Box):
        boxed = scaling.box(place).grown(0.4)
        return panel_box(boxed, stroke=paint, width=MEDIUM), Point(boxed.right, boxed.top)
    spot = scaling.point(place)
    return disc(spot, 1.4, stroke=paint, width=MEDIUM), spot


def _disc(number: int | str, at: Point, paint: Paint) -> list[Item]:
    figure = words(str(number), Point(at.x, at.y - TEXT / 2), paint=WHITE, align=Align.CENTRE, bold=True)
    return [disc(at, DISC, fill=paint, stroke=WHITE, width=0.3), figure.item]


def _free_spot(spot: Point, taken: Sequence[Point], legends: Sequence[Box]) -> Point:
    """The nearest place for a disc that hides no legend and no other disc, or failing that no other disc."""
    spots = [
        spot.moved(direction(deg).scaled(DISC + 2.0 * ring))
        for ring in range(14)
        for deg in (45, 135, 315, 225, 70, 110, 20, 160, 340, 200, 290, 250, 90, 0, 180, 270)
    ]
    apart = [at for at in spots if all(at.distance(other) >= DISC + 0.6 for other in taken)]
    clear = (at for at in apart if not any(legend.grown(DISC / 2).contains(at) for legend in legends))
    return next(clear, apart[0] if apart else spot)


def _entries(inspection: Inspection) -> Iterator[tuple[str, Paint, Message, Message]]:
    """What was left out, findings, waivers and settings of the house: mark, colour, what it is, what to do or why."""
    if inspection.without:
        left_out = extensions.checked_without(extensions=inspection.without)
        yield "!", BALLOONS[Severity.WARNING], left_out, said.omitted_meaning()
    for number, finding in enumerate(inspection.findings, start=1):
        sentences: list[Message] = [said.rule(rule=finding.rule), finding.cure]
        if finding.source:
            sentences.append(said.limit_source(source=finding.source))
        # A finding that several parts have, each by itself, says what is true of any of them.
        several = len(finding.each) > 1
        says = said.of_each(refs=finding.refs, finding=finding.says) if several else finding.says
        yield str(number), BALLOONS[finding.severity], says, common.paragraph(sentences=sentences)
    for waived in inspection.waived:
        waiver = waived.waiver
        sentences = [said.rule(rule=waived.finding.rule), said.reason(reason=waiver.why)]
        sentences += [said.waived_by(name=waiver.by)] if waiver.by else []
        sentences += [said.waived_until(day=waiver.until)] if waiver.until else []
        yield "–", GREY, said.waived(finding=waived.finding.says), common.paragraph(sentences=sentences)
    for change in inspection.house:
        setting = said.house_limit(limit=change.name, now=change.now, was=change.was)
        yield "–", GREY, setting, said.house_reason(reason=change.why, where=change.where)
    for part in inspection.replaced:
        yield "–", GREY, said.part_replaced(part=part.name, file=part.file), said.refs_of_part(refs=part.refs)


def _findings(sheet: Proof, flow: _Flow) -> None:
    flow.need(22)
    flow.heading(said.findings(), _count(sheet))
    inner = flow.width - 14
    between = TEXT * (LINE_PITCH - 1)
    for mark, paint, sentence, more in _entries(sheet.inspection):
        first = paragraph_height(sentence, inner) + between
        tall = first + paragraph_height(more, inner) + 3.2
        flow.need(tall)
        flow.add(NOTES, _disc(mark, Point(flow.left + DISC / 2, flow.top - TEXT / 2), paint))
        flow.add(NOTES, paragraph(sentence, Point(flow.left + 9, flow.top), inner))
        flow.add(NOTES, paragraph(more, Point(flow.left + 9, flow.top - first), inner, paint=GREY))
        flow.top -= tall
    flow.top -= GAP - 3


def _closeups(sheet: Proof, flow: _Flow) -> None:
    """Small conflicts enlarged, in rows."""
    windows = closeups(sheet.inspection)
    if not windows:
        return
    draw = Window(sheet.layout)
    across = max(1, int((flow.width + GUTTER) // (WINDOW + GUTTER)))
    tall = WINDOW + CAPTION + 3.0
    for start in range(0, len(windows), across):
        flow.need(tall + (18 if start == 0 else 0))
        if start == 0:
            flow.heading(said.close_ups(), said.close_ups_remark())
        for column, closeup in enumerate(windows[start : start + across]):
            corner = Point(flow.left + column * (WINDOW + GUTTER), flow.top - WINDOW)
            flow.add(FINDINGS, draw.items(closeup, corner, BALLOONS[closeup.finding.severity]))
        flow.top -= tall
    flow.top -= GAP - 3


_COUNTED = {Severity.ERROR: reports.errors, Severity.WARNING: reports.warnings, Severity.NOTE: reports.notes}


def _count(sheet: Proof) -> Message:
    counts = [
        _COUNTED[severity](count=count)
        for severity in Severity
        if (count := sum(finding.severity is severity for finding in sheet.inspection.findings))
    ]
    if sheet.inspection.waived:
        counts.append(reports.waived_count(count=len(sheet.inspection.waived)))
    return said.counts(counts=counts)


def _cautions(sheet: Proof, flow: _Flow) -> None:
    refs: dict[str, list[str]] = {}
    for part in sheet.layout.panel.parts:
        for key in part.component.cautions:
            refs.setdefault(key, []).append(part.ref)
    if not refs:
        return
    inner = flow.width - 8
    texts = [said.caution(refs=names, caution=caution(key)) for key, names in refs.items()]
    tall = 12 + math.fsum(paragraph_height(text, inner) + 2.2 for text in texts)
    flow.need(tall + 2)
    box = Box(flow.left, flow.top - tall, flow.left + flow.width, flow.top)
    flow.add(NOTES, [panel_box(box, fill=CAUTION, stroke=CAUTION_EDGE, width=HEAVY)])
    flow.add(NOTES, [words(said.cautions(), Point(flow.left + 4, flow.top - 6.5), height=HEADING, bold=True).item])
    y = flow.top - 10.5
    for text in texts:
        flow.add(NOTES, paragraph(text, Point(flow.left + 4, y), inner))
        y -= paragraph_height(text, inner) + 2.2
    flow.top = box.bottom - GAP


def _holes(sheet: Proof, flow: _Flow) -> None:
    """Every hole with its sizes, those of flanges too, then every countersink."""
    layout = sheet.layout
    panel = layout.panel
    rows: list[tuple[Said, ...]] = []
    cones: list[tuple[Said, ...]] = []
    for opening in layout.every_opening:
        finished, cut = size_of(opening.finished, opening.turn), size_of(opening.sized, opening.turn)
        at = from_datum(panel, opening.on, finished.centre)
        where = (opening.name, opening.on, _number(at.x), _number(at.y))
        first, *others = toleranced(held(opening, panel.coat, panel.making), cut=False)
        rows.append((*where, str(finished), first, str(cut)))
        rows += [(opening.name, opening.on, "", "", "", allowed, "") for allowed in others]
        if (cone := opening.countersink) is not None:
            angle, depth = f"{cone.angle:g}°", f"{cone.depth:.2f}"
            diameters = (said.diameter(diameter=cone.finished), said.diameter(diameter=cone.cut))
            cones.append((opening.name, opening.on, cone.side.value, *map(str, diameters), angle, depth))
    positions = said.hole_positions_with_flanges() if layout.flange_openings else said.hole_positions()
    remark = common.paragraph(sentences=(positions, allowance(panel.coat), said.no_kerf()))
    _table(flow, said.holes(), remark, ("hole", "on", "x", "y", "finished", "tolerance", "cut"), rows)
    remark = said.countersinks_remark(thickness=panel.sheet.thickness)
    _table(flow, said.countersinks(), remark, ("hole", "on", "side", "finished", "cut", "angle", "depth"), cones)


_HEADINGS: Final[Mapping[str, Said]] = {
    "hole": common.column_hole(),
    "on": common.column_surface(),
    "x": "x",
    "y": "y",
    "side": common.column_side(),
    "finished": said.column_finished(),
    "tolerance": common.column_tolerance(),
    "cut": said.column_cut(),
    "angle": common.column_angle(),
    "depth": common.column_depth(),
}


def _table(flow: _Flow, title: Message, remark: Message, keys: Sequence[str], rows: Sequence[tuple[Said, ...]]) -> None:
    """A table over as many pages as it takes, narrow ones side by side; without columns that have nothing to show."""
    if not rows:
        return
    cells = [list(column) for column in zip(*rows, strict=True)]
    named = dict(zip(keys, cells, strict=True))
    if set(named["on"]) == {FACE}:
        del named["on"]
    if named["cut"] == named["finished"]:
        del named["cut"]
    table_columns: list[Column] = []
    filled: list[Sequence[Said]] = []
    for key, column in named.items():
        made = _column(key, column)
        if table_columns and table_columns[-1].align is Align.RIGHT and made.align is not Align.RIGHT:
            table_columns.append(Column(heading="", width=3.0))  # words are set off from the figures before them
            filled.append([""] * len(column))
        table_columns.append(made)
        filled.append(column)
    _paged(flow, title, remark, table_columns, list(zip(*filled, strict=True)))


def _to_measure(sheet: Proof, flow: _Flow) -> None:
    """The figures that are not from a data sheet, with a column to write in."""
    rows = measure_rows(parts_to_measure(sheet.layout.panel))
    if rows:
        columns = measure_columns(rows)
        _paged(flow, said.to_measure(), said.to_measure_remark(), columns, rows, thinned)


def _paged(
    flow: _Flow,
    title: Message,
    remark: Message,
    table_columns: Sequence[Column],
    rows: Sequence[tuple[Said, ...]],
    shown: Callable[[Sequence[Sequence[Said]]], Sequence[Sequence[Said]]] | None = None,
) -> None:
    """Rows over as many pages as they take, narrow tables side by side; `shown` of the rows of a table.

    Rows that begin alike are of one hole, or of one part, and stay in one table.
    """
    table_columns, broken = unshortened(table_columns, rows, flow.width)
    left = [(_begins(row), line) for row, lines in zip(rows, broken, strict=True) for line in lines]
    across = math.fsum(column.width for column in table_columns) + GUTTER
    columns = max(1, int((flow.width + GUTTER) // across))
    while left:
        flow.need(14 + table_height(min(len(left), 6)))
        flow.heading(title, remark)
        maximum = max(1, int((flow.top - flow.floor) // ROW) - 1)
        parted, left = packed(left, _key, maximum, columns)
        tables = [[line for _, line in one] for one in parted]
        filled = tables if shown is None else list(map(shown, tables))
        flow.add(NOTES, side_by_side(table_columns, filled, flow.corner, gutter=GUTTER))
        flow.top -= table_height(max(map(len, tables))) + GAP


def _key(line: tuple[str, Sequence[Said]]) -> str:
    return line[0]


def _begins(row: Sequence[Said]) -> str:
    """The hole or the part that a row is of."""
    return str(row[0])


_FIGURES = ("x", "y", "depth")


def _column(key: str, cells: Sequence[Said]) -> Column:
    """A column as wide as what is in it."""
    heading = _HEADINGS[key]
    wide = max(width_of(heading, bold=True), *map(width_of, cells)) + 4.0
    return Column(heading=heading, width=wide, align=Align.RIGHT if key in _FIGURES else Align.LEFT)


def _number(value: float) -> str:
    """Two decimals, three where two would not say where the hole is."""
    text = f"{value:.3f}".removesuffix("0")
    return ("0.00" if text == "-0.00" else text).replace("-", "\N{MINUS SIGN}")


def _foot(sheet: Proof, width: float, scale: tuple[int, int], number: int, count: int) -> list[Item]:
    panel = sheet.layout.panel
    items = [rule(Point(MARGIN, MARGIN + FOOT), Point(width - MARGIN, MARGIN + FOOT), width=MEDIUM)]
    items += _bar(Point(MARGIN, MARGIN + 0.5))
    block = Box(width - MARGIN - BLOCK, MARGIN, width - MARGIN, MARGIN + FOOT)
    items += _signatures(Point(MARGIN, MARGIN + FOOT), block.left - 8)
    items.append(panel_box(block, stroke=BLACK, width=MEDIUM))
    items += in_box(panel.title, Point(block.left + 3, block.top - 6.5), block.width - 6, HEADING, bold=True)
    cells = (
        (said.number(), panel.number or "–", 0, 46),
        (said.revision(), panel.revision or "–", 50, 18),
        (said.picture_scale(), said.scale(scale=scale), 72, 18),
        (common.column_date(), sheet.date, 94, 24),
        (said.sheet(), common.page_of(page=number, pages=count), 122, 18),
    )
    y = block.top - 9.5
    items.append(rule(Point(block.left, y), Point(block.right, y)))
    items.append(rule(Point(block.left, y - CELL), Point(block.right, y - CELL)))
    for what, text, offset, room in cells:
        x = block.left + 3 + offset
        items.append(words(what, Point(x, y - 1.2 - TEXT), paint=GREY).item)
        items += in_box(text, Point(x, y - 3.0 - 2 * TEXT), room, TEXT)
        if offset:
            items.append(rule(Point(x - 2, y), Point(x - 2, y - CELL)))
    material = common.sheet_metal(material=panel.sheet.material, thickness=panel.sheet.thickness)
    metal = said.metal_and_coat(metal=material, coat=_coat(sheet))
    process = common.marking(process=panel.marking.process.title, inks=[ink.name for ink in panel.marking.inks])
    sentences = [said.made_by(program=sheet.made_by)]
    sentences += [common.made_from(fingerprint=panel.fingerprint)] if panel.fingerprint else []
    made = common.paragraph(sentences=(*sentences, said.needs_signature()))
    top = Point(block.left + 3, y - CELL - 1.5)
    for line, paint in ((metal, BLACK), (process, BLACK), (made, GREY)):
        items += paragraph(line, top, block.width - 6, paint=paint)
        top = Point(top.x, top.y - paragraph_height(line, block.width - 6) - TEXT * (LINE_PITCH - 1.0))
    return items


CELL = 9.5
"""Height of the row of figures in the title block, mm."""


def _coat(sheet: Proof) -> Message:
    coat = sheet.layout.panel.coat
    name = coat_in_words(coat)
    if coat.kind == "none":
        return name
    return said.coat_and_thickness(coat=name, thickness=coat_thickness(coat))


def _bar(at: Point) -> list[Item]:
    """A bar of 100 mm in tenths, to prove that the print is true to scale."""
    items = [panel_box(Box(at.x, at.y, at.x + 100, at.y + 2), fill=WHITE, stroke=BLACK, width=FINE)]
    items += [
        panel_box(Box(at.x + 10 * index, at.y, at.x + 10 * index + 10, at.y + 2), fill=BLACK, stroke=None)
        for index in range(0, 10, 2)
    ]
    items.append(words(said.scale_bar(), Point(at.x, at.y + 3.2)).item)
    return items


def _signatures(top_left: Point, right: float) -> list[Item]:
    roles = (said.drawn(), said.checked(), said.released_for_cutting(), said.released_for_marking())
    each = (right - top_left.x) / 2
    items: list[Item] = []
    for index, role in enumerate(roles):
        down, along = divmod(index, 2)
        x, base = top_left.x + along * each, top_left.y - 9.0 - down * 13.5
        items.append(rule(Point(x, base), Point(x + each - 5, base)))
        items.append(words(role, Point(x, base - 1.0 - TEXT), paint=GREY).item)
    return items
