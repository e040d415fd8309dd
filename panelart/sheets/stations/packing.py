"""Good pieces are counted and wrapped."""

from __future__ import annotations

from panelart.messages import sheets as common
from panelart.messages import sheets_stations as said
from panelart.model.making import serials
from panelart.sheets.stations.station import Given, Section, Station, always


def _pack(given: Given) -> Section:
    layout = given.layout
    making = layout.panel.making
    first, last = serials(making)
    count = [said.count_good(quantity=making.quantity)]
    count += [said.serial_numbers(first=first, last=last)] if first else []
    return Section(
        name=said.pack(),
        steps=(common.paragraph(sentences=count), said.wrap_each(), said.enclose_sheet()),
    )


PACK = Station(key="pack", there=always, told=_pack)
