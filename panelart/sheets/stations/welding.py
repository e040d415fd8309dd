"""Studs are welded on."""

from __future__ import annotations

from panelart.messages import sheets as common
from panelart.messages import sheets_stations as said
from panelart.model.component import Fastening
from panelart.model.panel import Panel, Part
from panelart.sheets.listing import Listing
from panelart.sheets.stations.figures import (
    figure_column,
    mm,
    text_column,
)
from panelart.sheets.stations.station import Given, Section, Station, View


def _weld(given: Given) -> Section:
    layout = given.layout
    panel = layout.panel
    studs = _studs(panel)
    wide = panel.size[0]
    return Section(
        name=said.weld_studs(),
        steps=(said.weld_square(), said.pull_test()),
        listings=(
            Listing(
                title=said.weld_studs_from_rear(),
                columns=(
                    text_column(said.column_stud(), 20),
                    figure_column("x", 34),
                    figure_column("y", 20),
                    text_column(common.column_description(), 80),
                ),
                rows=tuple((part.ref, mm(wide - part.at.x), mm(part.at.y), part.component.title) for part in studs),
                remark=said.from_rear_corner(),
            ),
        ),
        views=(View.BEHIND,),
        marked=frozenset(part.ref for part in studs),
    )


def _studs(panel: Panel) -> list[Part]:
    return [
        part
        for part in panel.parts
        if part.component.hardware is not None and part.component.hardware.fastening is Fastening.WELDED
    ]


WELD = Station(key="weld", there=lambda given: bool(_studs(given.layout.panel)), told=_weld)
