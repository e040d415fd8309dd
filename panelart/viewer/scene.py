"""What the page knows of a state of the spec besides its picture: parts, legends, findings, in plain values.

All places are in mm from the panel's lower-left corner, x right and y up.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import Any, Final

from panelart.diagnostics import Problem, Where
from panelart.geometry import Box, Contour
from panelart.geometry.polygons import polygon
from panelart.legends.explain import Place, form_of, stories
from panelart.lettering.breaks import letters_of
from panelart.messages import viewer as said
from panelart.model.layout import Layout, PlacedLegend
from panelart.model.panel import LegendRequest, Panel, Part, Side
from panelart.reports.json import document
from panelart.sheets.picture import MARGIN
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Scalar
from panelart.spec.moves import items_of
from panelart.spec.part_paths import paths_of_parts
from panelart.viewer.stages import Shown

FLATNESS: Final = 0.02
"""How far the outlines that the page measures clearances from may be off the arcs, mm."""


def scene(shown: Shown) -> dict[str, Any]:
    """The state as JSON can carry it."""
    panel, layout = shown.layout.panel, shown.layout
    face = panel.outline.bounds
    own = items_of(shown.text, paths_of_parts(shown.text))
    return {
        "revision": shown.revision,
        "title": panel.title,
        "file": panel.places[panel.where].name,
        "number": panel.number,
        "issue": panel.revision,
        "fingerprint": panel.fingerprint,
        "face": _box(face),
        "page": _box(face.grown(MARGIN)),
        "datum": [panel.datum.x, panel.datum.y],
        "eye": _eye(panel),
        "coat": {"colour": panel.coat.colour, "name": panel.coat.name or panel.coat.kind},
        "placement": "" if layout.proof is None else layout.proof.words,
        "parts": [_part(shown, part, own) for part in panel.parts],
        "legends": [_legend(number, legend, panel) for number, legend in enumerate(layout.legends)],
        "outline": _ring(panel.outline),
        "unplaced": [
            {"ref": one.ref, "text": one.text, "ways_out": [str(way) for way in one.ways_out]}
            for one in layout.unplaced
        ],
        "has_blank": layout.blank is not None,
        "report": document(shown.inspection),
    }


def _eye(panel: Panel) -> dict[str, float]:
    """Where the panel is looked at from: the middle of what the spec says, else straight before it."""
    told = panel.operator.eye
    if told is None:
        return {"distance": panel.marking.viewing_distance, "height": 0.0, "aside": 0.0, "lean": 0.0}
    height, aside = (math.fsum(ends) / 2 for ends in (told.height, told.aside))
    return {"distance": told.distance, "height": height, "aside": aside, "lean": told.lean_deg}


def _line(panel: Panel, where: Where) -> int:
    """The line of the spec that something is written in; 0 for what a file of modules has."""
    place = panel.places[where]
    return place.line if place.file == panel.places[panel.where].file else 0


def _part(shown: Shown, part: Part, own: Mapping[str, MappingNode]) -> dict[str, Any]:
    component = part.component
    outlines = _outlines(shown.layout, part.ref)
    return {
        "ref": part.ref,
        "part": component.name,
        "title": component.title,
        "at": [part.at.x, part.at.y],
        "turn": part.turn,
        "line": _line(shown.layout.panel, part.where),
        "own": part.ref in own,
        "written": None if part.ref not in own else _written_legend(own[part.ref]),
        **_lettering(part.legend),
        "outlines": [_ring(contour) for contour in outlines],
        "box": _box(Box.around(contour.bounds for contour in outlines)) if outlines else None,
    }


def _outlines(layout: Layout, ref: str) -> list[Contour]:
    """What is seen of a part from the front: what covers its openings, else the openings."""
    front = [one for one in layout.envelopes if one.ref == ref and one.side is Side.FRONT]
    openings = [one for one in layout.openings if one.ref == ref]
    return [one.contour for one in front if one.covers] or [one.finished for one in openings]


def _lettering(legend: LegendRequest | None) -> dict[str, Any]:
    """A part's legend as the spec wants it, whether or not it was placed."""
    if legend is None:
        return {"legend": "", "place": None, "cap_height": None}
    place = None if legend.place is None else legend.place.value
    return {"legend": legend.text, "place": place, "cap_height": legend.cap_height}


def _written_legend(part: MappingNode) -> str | None:
    """A part's legend as it stands in the spec, before it is spelled in capitals; None where it has none."""
    legend = part.get("legend")
    words = legend.get("text") if isinstance(legend, MappingNode) else legend
    return words.text if isinstance(words, Scalar) else None


_FREE: Final = "text "
"""What the program calls a text of its own, before its number."""


def _legend(number: int, legend: PlacedLegend, panel: Panel) -> dict[str, Any]:
    """`free` is the number of the words among those with a place of their own in the spec, 0 for any other."""
    free = legend.ref.removeprefix(_FREE)
    numbered = legend.ref.startswith(_FREE) and free.isdecimal()
    own = numbered and legend.ref not in panel.by_ref and legend.place is None
    return {
        "free": int(free) if own else 0,
        "id": number,
        "ref": legend.ref,
        "style": legend.style,
        "text": legend.text,
        "box": _box(legend.box),
        "place": None if legend.place is None else legend.place.value,
        "cap_height": round(legend.cap_height, 3),
        "baseline": round(legend.baseline.y, 4),
        "line": _line(panel, legend.where),
    }


def story(shown: Shown, legend: PlacedLegend) -> dict[str, Any] | None:
    """Why a legend stands where it does: its places, the taken one first, then by cost; None where none was chosen."""
    found = next(
        (
            one
            for one in stories(shown.chosen, legend.ref)
            if one.kind == legend.style and letters_of(one.text) == letters_of(legend.text)
        ),
        None,
    )
    if found is None:
        return None
    return {
        "stands": "" if legend.place is None else legend.place.value,
        "proof": shown.chosen.proof.words,
        "places": [_place(one) for one in _each_form(found.places)],
    }


def _each_form(places: Iterable[Place]) -> list[Place]:
    """The taken place and the best one of each side and state: where it may slide to besides tells nothing more."""
    best: dict[tuple[str, str], Place] = {}
    for one in places:
        best.setdefault((one.state, form_of(one.candidate)), one)
    return list(best.values())


def _place(one: Place) -> dict[str, Any]:
    return {
        "state": one.state,
        "form": str(form_of(one.candidate)),
        "cost": one.cost,
        "reasons": [str(said.reason_with_cost(reason=reason, cost=cost)) for reason, cost in one.reasons],
        "blockers": [str(blocker) for blocker in one.blockers],
    }


def problem(one: Problem) -> dict[str, Any]:
    """One reason why a spec cannot be shown."""
    return {
        "file": one.where.name,
        "line": one.where.line,
        "column": one.where.column,
        "message": one.message,
        "hint": one.hint,
    }


def _box(box: Box) -> list[float]:
    return [round(value, 4) for value in (box.left, box.bottom, box.right, box.top)]


def _ring(contour: Contour) -> list[list[float]]:
    return [[round(x, 3), round(y, 3)] for x, y in polygon(contour, FLATNESS).exterior.coords[:-1]]
