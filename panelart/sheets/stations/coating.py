"""The coat: colour, thickness, and how the panel hangs."""

from __future__ import annotations

from panelart.cutouts.describe import coat_thickness
from panelart.cutouts.hanging import hooks
from panelart.cutouts.masks import plugs
from panelart.messages import Message
from panelart.messages import sheets as common
from panelart.messages import sheets_stations as said
from panelart.model.layout import Layout
from panelart.sheets.stations.station import Given, Section, Station, View

_COATS = {
    "powder": said.powder_coat(),
    "wet-paint": said.paint(),
    "anodise": said.anodise(),
    "zinc": said.zinc_plate(),
    "conversion": said.conversion_coat(),
}


def _coat(given: Given) -> Section:
    layout = given.layout
    panel = layout.panel
    coat = panel.coat
    named = said.colour(name=coat.name, colour=coat.colour) if coat.name else said.colour_as_ordered(colour=coat.colour)
    surfaces = said.coat_all_faces() if coat.rear else said.coat_front()
    steps = [
        common.paragraph(sentences=(named, surfaces)),
        common.paragraph(sentences=(said.coat_thickness(thickness=coat_thickness(coat)), said.measure_coat())),
        _hanging(layout),
    ]
    if coat.kind == "powder":
        steps.append(said.cure())
    if layout.masks or plugs(panel):
        steps.append(said.remove_masks())
    return Section(
        name=_COATS.get(coat.kind, said.coat()),
        steps=tuple(steps),
        views=(View.BENT if layout.blank is not None else View.FACE,),
        marked=frozenset(hooks(layout).names),
        cautions=(said.anodising_insulates(),) if coat.kind == "anodise" and layout.masks else (),
    )


def _hanging(layout: Layout) -> Message:
    """Where the panel may hang: as the spec asks, else by what ends up behind or under something."""
    found = hooks(layout)
    if found.asked:
        return said.hang_as_specified(openings=found.names)
    if not found.names and layout.blank is not None:
        return said.hang_by_flange_edge()
    if not found.names:
        return said.no_hidden_opening()
    if layout.blank is not None:
        return said.hang_by_flange_holes(openings=found.names[:4])
    return said.hang_by_covered_openings(openings=found.names[:6])


COAT = Station(key="coat", there=lambda given: given.layout.panel.coat.kind != "none", told=_coat)
