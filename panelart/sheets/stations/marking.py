"""Legends are printed, cut, burnt or stuck on, as the process says."""

from __future__ import annotations

from panelart.messages import sheets_marking as marked
from panelart.sheets.marking import marking_steps
from panelart.sheets.stations.station import Given, Section, Station, View


def _is_marked(given: Given) -> bool:
    layout = given.layout
    return bool(layout.legends or layout.marks or layout.panel.marking.printing.backgrounds)


def _mark(given: Given) -> Section:
    layout = given.layout
    marking = layout.panel.marking
    work = marking_steps(layout, given.plates)
    return Section(
        name=marking.process.title,
        steps=(*work.steps, marked.register_error(limit=marking.register), marked.read_legends()),
        listings=work.listings,
        cautions=work.cautions,
        views=(View.LOOK,),
        files=work.files,
    )


MARK = Station(key="mark", there=_is_marked, told=_mark)
