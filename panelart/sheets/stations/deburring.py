"""Edges are broken."""

from __future__ import annotations

from panelart.messages import sheets_stations as said
from panelart.sheets.stations.figures import (
    cut_features,
    pressed_refs,
)
from panelart.sheets.stations.station import Given, Section, Station, View, always


def _deburr(given: Given) -> Section:
    layout = given.layout
    pressed = pressed_refs(layout.panel)
    steps = [said.break_edges(), said.no_scratches()]
    if pressed:
        steps.append(said.holes_not_deburred(refs=pressed))
    return Section(
        name=said.deburr(),
        steps=tuple(steps),
        views=(View.FACE if layout.blank is None else View.BLANK,),
        marked=frozenset(opening.name for opening, _ in cut_features(layout) if opening.ref not in pressed),
    )


DEBURR = Station(key="deburr", there=always, told=_deburr)
