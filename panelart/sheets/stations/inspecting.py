"""Finished sizes are measured."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.cutouts.describe import size_of
from panelart.cutouts.hardware import components, filled, from_datum
from panelart.cutouts.held import held
from panelart.cutouts.tolerances import ANGLE, hole_grade
from panelart.messages import Message, Said
from panelart.messages import sheets as common
from panelart.messages import sheets_stations as said
from panelart.model.layout import CutOpening, Layout
from panelart.model.panel import Panel
from panelart.sheets.inspection import pitch_measure
from panelart.sheets.listing import Listing
from panelart.sheets.stations.figures import (
    BLANK_CELL,
    datum_told,
    deviation,
    figure_column,
    mm,
    text_column,
    tolerance_told,
    toleranced,
)
from panelart.sheets.stations.station import Given, Section, Station, View, always

_INSPECT_COLUMNS = (
    text_column(said.column_feature(), 26),
    text_column(common.column_surface(), 20),
    figure_column("x", 15),
    figure_column("y", 15),
    text_column(said.column_finished_size(), 44),
    text_column(common.column_tolerance(), 36),
    text_column(said.column_must_admit(), 28),
    text_column(said.column_measured(), 20),
)


def _length_row(name: Said, length: float, panel: Panel) -> tuple[Said, ...]:
    return (name, "", "", "", mm(length), deviation(length, panel), "", BLANK_CELL)


def _angle_row(name: Said, angle: float) -> tuple[Said, ...]:
    return (name, "", "", "", said.angle(angle=angle), f"±{ANGLE:g}°", "", BLANK_CELL)


def _opening_rows(opening: CutOpening, where: tuple[Said, ...], size: str, panel: Panel) -> Iterator[tuple[Said, ...]]:
    """The size of an empty opening, its other dimensions, its countersink and its distances within the part."""
    passing = "" if opening.passes is None else str(size_of(opening.passes, opening.turn))
    first, *others = toleranced(held(opening, panel.coat, panel.making), cut=False)
    yield (*where, size, first, passing, BLANK_CELL)
    again: tuple[Said, ...] = (opening.name, opening.on, "", "")
    for allowed in others:
        yield (*again, "", allowed, "", BLANK_CELL)
    for pitch in opening.pitches:
        if pitch.tolerance is not None:
            told = said.pitch(measure=pitch_measure(pitch, opening.on), size=pitch.size)
            yield (*again, told, deviation(pitch.size, panel, pitch.tolerance), "", BLANK_CELL)
    if (cone := opening.countersink) is not None:
        diameter = said.countersink_diameter(diameter=cone.finished)
        yield (*again, diameter, deviation(cone.finished, panel), "", BLANK_CELL)


def _inspected(layout: Layout) -> Iterator[tuple[Said, ...]]:
    panel = layout.panel
    wide, high = panel.size
    yield _length_row(said.width(), wide, panel)
    yield _length_row(said.height(), high, panel)
    hardware = {
        ref: component.hardware
        for ref, component, _ in components(panel)
        if component.hardware is not None and filled(component)
    }
    for opening in layout.every_opening:
        size = size_of(opening.finished, opening.turn)
        at = from_datum(panel, opening.on, size.centre)
        where = (opening.name, opening.on, mm(at.x), mm(at.y))
        if opening.ref in hardware:
            thread = hardware[opening.ref].thread
            yield (*where, thread, "", said.screw() if thread else "", BLANK_CELL)
            continue
        yield from _opening_rows(opening, where, str(size), panel)
    for flange in panel.flanges:
        edge = flange.edge.value
        yield _length_row(said.flange_named(edge=edge), flange.length, panel)
        yield _angle_row(said.bend_named(edge=edge), flange.angle)
        if (second := flange.second) is not None:
            yield _length_row(said.return_named(edge=edge), second.length, panel)
            yield _angle_row(said.return_bend_named(edge=edge), second.angle)


def _coat_told(panel: Panel) -> tuple[Message, ...]:
    coat = panel.coat
    openings = hole_grade(panel.making.tolerance)
    return (said.coat_range_included(openings=openings),) if coat.build_minimum < coat.build_maximum else ()


def _inspect(given: Given) -> Section:
    layout = given.layout
    panel = layout.panel
    return Section(
        name=said.inspect(),
        steps=(said.measure_pieces(), said.try_parts()),
        listings=(
            Listing(
                title=said.finished_sizes(),
                columns=_INSPECT_COLUMNS,
                rows=tuple(_inspected(layout)),
                remark=common.paragraph(sentences=(datum_told(panel), tolerance_told(panel), *_coat_told(panel))),
            ),
        ),
        views=(View.FACE,),
        marked=frozenset(opening.name for opening in layout.openings),
        files=("inspection.csv",),
    )


INSPECT = Station(key="inspect", there=always, told=_inspect)
