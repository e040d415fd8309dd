"""The cutter: outline and openings at cut size."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from panelart.catalogue import caution
from panelart.catalogue.standing import MEASURED_FIRST
from panelart.checks.materials import material
from panelart.cutouts.describe import Size, allowance, size_of
from panelart.cutouts.hardware import components
from panelart.cutouts.held import as_laid, held
from panelart.cutouts.punching import punch_for
from panelart.geometry import Contour, Point, rectangular
from panelart.messages import Message, Said
from panelart.messages import sheets as common
from panelart.messages import sheets_proof as of_proof
from panelart.messages import sheets_stations as said
from panelart.model.layout import CutOpening, Layout
from panelart.model.making import Cutting, Making
from panelart.model.panel import Panel
from panelart.sheets.listing import Listing
from panelart.sheets.stations.figures import (
    BLANK_CELL,
    cut_features,
    deviation,
    figure_column,
    has_lines,
    listed,
    mm,
    text_column,
    tolerance_told,
    toleranced,
)
from panelart.sheets.stations.station import Given, Section, Station, View, always

_CUT_COLUMNS = (
    text_column(common.column_opening(), 15),
    text_column(common.column_surface(), 20),
    figure_column("x", 14),
    figure_column("y", 14),
    text_column(said.column_cut_size(), 36),
    text_column(common.column_tolerance(), 36),
    text_column(said.column_first_piece(), 16),
)


def _cut(given: Given) -> Section:
    layout = given.layout
    panel = layout.panel
    outline = layout.cut_outline if layout.blank is None else layout.blank.outline
    box = outline.bounds
    rows: list[tuple[Said, ...]] = []
    for opening, contour in cut_features(layout):
        size, words = _cut_size(opening, contour)
        x, y = size.centre.x - box.left, size.centre.y - box.bottom
        known = as_laid(held(opening, panel.coat, panel.making), size.width)
        first, *others = toleranced(known, cut=True)
        rows.append((opening.name, opening.on, mm(x), mm(y), str(words), first, BLANK_CELL))
        rows += [(opening.name, opening.on, "", "", "", allowed, BLANK_CELL) for allowed in others]
    whole = tuple(
        (what, "", "", "", mm(value), deviation(value, panel), BLANK_CELL)
        for what, value in ((said.width(), box.width), (said.height(), box.height))
    )
    file = "cutouts" if layout.blank is None else "blank"
    return Section(
        name=_CUT_NAMES[panel.making.cutting],
        steps=tuple(_cut_steps(panel, f"{file}.dxf")),
        listings=(
            Listing(
                title=said.cut_sizes(),
                columns=_CUT_COLUMNS,
                rows=(*whole, *rows),
                remark=common.paragraph(sentences=(_origin(outline), tolerance_told(panel))),
            ),
            *_punches(layout),
        ),
        cautions=tuple(_cut_cautions(layout)),
        views=(View.FACE if layout.blank is None else View.BLANK,),
        marked=frozenset(opening.name for opening, _ in cut_features(layout)),
        files=(f"{file}.dxf", f"{file}.pdf"),
    )


def _cut_steps(panel: Panel, file: str) -> Iterator[Message]:
    sheet, making = panel.sheet, panel.making
    metal = _SHEETS[making.grain](material=sheet.material, thickness=sheet.thickness)
    yield common.paragraph(sentences=(metal, said.check_thickness()))
    drawn = (said.outline_from(file=panel.drawn_from),) if panel.drawn_from else ()
    yield common.paragraph(sentences=(said.cut_file(file=file), allowance(panel.coat), *drawn))
    yield common.paragraph(sentences=(said.no_kerf_in_file(), said.no_tabs_on_marked_face()))
    yield said.measure_first_cut()
    if making.cutting is Cutting.MILL:
        yield _corners(making)


_SHEETS = {"": said.sheet, "along": said.sheet_grain_along, "across": said.sheet_grain_across}


def _cut_cautions(layout: Layout) -> Iterator[Message]:
    yield from _measured_first(layout.panel)
    if has_lines(layout):
        yield said.layers_not_cut()
    reason = material(layout.panel.sheet.material).laser
    if layout.panel.making.cutting is Cutting.LASER and reason:
        yield said.not_by_laser(reason=reason)


def _measured_first(panel: Panel) -> Iterator[Message]:
    """The cautions by which parts are measured before their holes are cut, with the refs of these parts."""
    refs: dict[str, list[str]] = {}
    for ref, component, _ in components(panel):
        for key in component.cautions:
            if key in MEASURED_FIRST:
                refs.setdefault(key, []).append(ref)
    for key, named in refs.items():
        yield of_proof.caution(refs=named, caution=caution(key))


def _corners(making: Making) -> Message:
    if making.cutter is None:
        return said.corners_keep_radius()
    return (said.cutter_with_relief if making.relieve else said.cutter_without_relief)(diameter=making.cutter)


def _punches(layout: Layout) -> Iterator[Listing]:
    """Which punch makes which openings in one stroke, and which are nibbled, where the shop's punches are known."""
    making = layout.panel.making
    if making.cutting is not Cutting.PUNCH or not making.punches:
        return
    made: dict[str, list[str]] = {}
    nibbled: list[str] = []
    for opening in layout.every_opening:
        punch = punch_for(opening, making.punches)
        (nibbled if punch is None else made.setdefault(str(punch), [])).append(opening.name)
    tools = [tool for tool in dict.fromkeys(map(str, making.punches)) if tool in made]
    rows: list[tuple[Said, ...]] = [(tool, str(len(made[tool])), listed(made[tool])) for tool in tools]
    if nibbled:
        rows.append((said.nibbled(), "–", listed(nibbled)))
    yield Listing(
        title=said.punches(),
        columns=(
            text_column(said.column_punch(), 36),
            figure_column(said.column_strokes(), 18),
            text_column(said.column_openings(), 200),
        ),
        rows=tuple(rows),
        remark=said.outline_tool(),
    )


def _origin(outline: Contour) -> Message:
    """Where positions on the piece are measured from; the corner of a box where the piece has none there."""
    corner = Point(outline.bounds.left, outline.bounds.bottom)
    if any(segment.start.distance(corner) < _CORNER for segment in outline.segments) or rectangular(outline):
        return said.from_corner()
    return said.from_bounding_corner()


_CORNER = 1e-6


_CUT_NAMES = {
    Cutting.LASER: said.cut_by_laser(),
    Cutting.PUNCH: said.punch(),
    Cutting.MILL: said.mill(),
    Cutting.WATERJET: said.cut_by_waterjet(),
    Cutting.HAND: said.cut_by_hand(),
}


def _cut_size(opening: CutOpening, contour: Contour) -> tuple[Size, Message]:
    """The size of an opening where it is cut, and in words; one with relieved corners by its sides."""
    if opening.nominal is None:
        size = size_of(contour, opening.turn)
        return size, size.words
    size = replace(size_of(opening.nominal, opening.turn), centre=contour.bounds.centre)
    return size, said.relieved(size=size.words)


CUT = Station(key="cut", there=always, told=_cut)
