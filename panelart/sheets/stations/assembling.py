"""Parts are fitted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from panelart.catalogue import caution
from panelart.catalogue.standing import MEASURED_FIRST
from panelart.cutouts.boards import distance
from panelart.cutouts.hardware import Fitted, components, fitted
from panelart.cutouts.masks import plugs
from panelart.messages import Message, Said
from panelart.messages import sheets as common
from panelart.messages import sheets_stations as said
from panelart.model.component import Component
from panelart.model.layout import FACE
from panelart.model.panel import Panel
from panelart.sheets.fastening import counted, mass_told
from panelart.sheets.listing import Listing
from panelart.sheets.stations.figures import (
    figure_column,
    listed,
    text_column,
)
from panelart.sheets.stations.station import Given, Section, Station, View

_EARLIER: Final = MEASURED_FIRST | {"pressed-in"}
"""Cautions that were told where holes are cut and fasteners pressed in."""


def _assemble(given: Given) -> Section:
    layout = given.layout
    panel = layout.panel
    parts = _fitted_last(panel)
    knobs = list(_knobs(panel))
    cautions = tuple(
        dict.fromkeys(caution(key) for _, component, _ in parts for key in component.cautions if key not in _EARLIER)
    )
    steps = [said.clear_threads()] if plugs(panel) or layout.masks else []
    steps += [said.fit_parts(), *_boards(panel), _tighten(parts)]
    if knobs:
        steps.append(said.knobs_last(knobs=knobs))
    dials = [dial.ref for dial in layout.dials]
    if dials:
        steps.append(said.dials_to_marks(refs=dials))
    return Section(
        name=said.assemble(),
        steps=tuple(steps),
        listings=(
            Listing(
                title=said.parts(),
                columns=(
                    figure_column(common.column_quantity(), 20),
                    text_column(common.column_description(), 110),
                    text_column(common.column_refs(), 140),
                ),
                rows=tuple(_assembly_rows(parts)),
                remark=common.paragraph(sentences=(said.quantities_for_one(), *_mass(parts))),
            ),
            *_fastenings(parts),
        ),
        cautions=cautions,
        views=(View.LOOK,),
    )


def _boards(panel: Panel) -> Iterator[Message]:
    """Where circuit boards stand, and what stands on spacers on them."""
    for board in panel.boards:
        apart = distance(panel, board)
        if apart is not None:
            yield said.board_stands(board=board.name, refs=list(board.refs), distance=apart)
        for ref, height in board.spacers:
            yield said.part_on_spacers(board=board.name, ref=ref, height=height)


def _mass(parts: Sequence[tuple[str, Component, str]]) -> tuple[Said, ...]:
    told = mass_told((ref, component) for ref, component, _ in parts)
    return () if told is None else (told,)


def _tighten(parts: Sequence[tuple[str, Component, str]]) -> Message:
    """Parts whose torque the catalogue has are tightened to that of the table."""
    listed_ = any(one.torque is not None for _, component, _ in parts for one in component.fasteners)
    return said.tighten_to_table() if listed_ else said.tighten()


def _fastenings(parts: Sequence[tuple[str, Component, str]]) -> Iterator[Listing]:
    """Nuts, washers and screws, with the spanner, the torque and the side."""
    found = counted((ref, component) for ref, component, _ in parts)
    if found:
        yield Listing(
            title=said.fasteners(),
            columns=(
                figure_column(common.column_quantity(), 20),
                text_column(common.column_description(), 55),
                text_column(said.column_supply(), 42),
                figure_column(said.column_spanner(), 20),
                text_column(said.column_torque(), 28),
                text_column(said.column_tightened(), 25),
                text_column(common.column_refs(), 80),
            ),
            rows=tuple(
                (
                    str(one.quantity),
                    one.named,
                    one.supply,
                    one.across or "–",
                    one.torque or "–",
                    one.side,
                    listed(one.refs),
                )
                for one in found
            ),
        )


def _knobs(panel: Panel) -> Iterator[Said]:
    """The parts that take a knob, each with the knob that is named."""
    for part in panel.parts:
        if part.knob is not None:
            yield said.knob_of(ref=part.ref, knob=part.knob.name) if part.knob.name else part.ref


def _assembly_rows(parts: Sequence[tuple[str, Component, str]]) -> Iterator[tuple[str, ...]]:
    """How many of each part are fitted, and where: refs, with the surface where that is not the face."""
    refs: dict[str, list[Said]] = {}
    for ref, component, on in parts:
        refs.setdefault(component.title, []).append(ref if on == FACE else said.on_surface(ref=ref, surface=on))
    for title, named in refs.items():
        yield str(len(named)), title, listed(named)


def _fitted_last(panel: Panel) -> list[tuple[str, Component, str]]:
    """What is fitted when all else is done: ref, component, and the surface that it is on."""
    return [
        (ref, component, on)
        for ref, component, on in components(panel)
        if component.hardware is None or fitted(component, panel.coat) is Fitted.ASSEMBLY
    ]


ASSEMBLE = Station(key="assemble", there=lambda given: bool(_fitted_last(given.layout.panel)), told=_assemble)
