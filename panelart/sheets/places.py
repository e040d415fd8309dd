"""Every place of one part's legends on a picture of the panel: taken, free, occupied, blocked."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from msgspec.structs import replace

from panelart.drawing.layers import PARTS
from panelart.drawing.representation import Drawing, Item, Layer, Paint
from panelart.drawing.scaling import Scaling
from panelart.geometry import ORIGIN, Box, Line, Point, rectangle
from panelart.legends.explain import Place, Story, form_of
from panelart.lettering.look import Align
from panelart.lettering.outline import open_shape, shape_of
from panelart.messages import quoted
from panelart.messages import sheets as said
from panelart.model.layout import Layout
from panelart.sheets.paper import words
from panelart.sheets.picture import picture

COLOURS = {"taken": "#1F9D55", "free": "#2F6DB5", "occupied": "#C97A12", "blocked": "#C5302B"}
"""What the state of a place is drawn in."""

AROUND = 12.0
"""How much of the panel is shown beyond the places, mm."""

LINE = 0.15
ENLARGED = (2, 1)
"""The scale, paper over real (ISO 5455): costs stand in the places, which are as low as the panel's own letters."""


def places_drawing(layout: Layout, stories: Sequence[Story]) -> Drawing:
    """The surroundings of a part with a box for every place of its legends, each with its cost where it is clear."""
    places = [place for story in stories for place in story.places]
    hardware = [envelope.contour.bounds for envelope in layout.envelopes if envelope.ref == stories[0].ref]
    scaling = Scaling(ENLARGED[0] / ENLARGED[1], ORIGIN)
    shown = scaling.box(Box.around([*hardware, *(place.candidate.box for place in places)]).grown(AROUND))
    # Blocked ones first, so that what is of interest lies on top.
    items = [item for place in sorted(places, key=_depth) for item in _items(place, scaling)]
    names = [quoted(story.text) for story in stories]
    return Drawing(
        title=str(said.places_title(panel=layout.panel.title, legends=names, ref=stories[0].ref)),
        note=str(said.paragraph(sentences=(said.places_note(), said.drawn_at(scale=ENLARGED)))),
        page=shown,
        trim=shown,
        layers=(
            Layer(name=PARTS, items=picture(layout, scaling)),
            Layer(name="places", items=tuple(items)),
        ),
        number=layout.panel.number,
        revision=layout.panel.revision,
        spec=layout.panel.fingerprint,
    )


def _depth(place: Place) -> int:
    return ["blocked", "occupied", "free", "taken"].index(place.state)


def _items(place: Place, scaling: Scaling) -> list[Item]:
    paint = Paint(colour=COLOURS[place.state])
    box = scaling.box(place.candidate.box)
    outline = shape_of(rectangle(box.width, box.height, box.centre))
    dash = (0.6, 0.4) if place.state == "blocked" else ()
    label = str(said.place_label(state=place.words, form=form_of(place.candidate)))
    found = [Item(shape=outline, stroke=paint, width=LINE, dash=dash, label=label)]
    leader = place.candidate.leader
    if leader:
        path = tuple(Line(scaling.point(a), scaling.point(b)) for a, b in pairwise(leader))
        found.append(Item(shape=open_shape(path), stroke=paint, width=LINE, dash=dash, label=str(said.leader_line())))
    slid = any(reason == "slide" for reason, _ in place.candidate.looks)
    if place.state == "taken" or (place.state == "free" and not slid):
        at = Point(box.right - 0.4, box.bottom + 0.4)
        cost = words(str(place.cost), at, paint=paint, align=Align.RIGHT).item
        found.append(replace(cost, label=str(said.cost_label(cost=place.cost))))
    return found
