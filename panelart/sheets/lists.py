"""Lists for other programs: holes and parts as comma-separated values, UTF-8, one heading row, lines ended by LF.

Positions on the face are from the datum; those in a flange are along its edge from the datum, and back from the outside
of its bend: `on` says where. `board_x_mm` and `board_y_mm` are where the origin of a part's footprint lies behind the
face, '' for a part that is on no board; the footprint is turned as the part is. `fasteners` are those of one part.
Every row ends with what the list was made from: panel, revision and the fingerprint of the spec, so that rows of two
revisions cannot be mixed unseen.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence

from panelart.catalogue.facts import fastener_named
from panelart.cutouts.describe import size_of
from panelart.cutouts.hardware import from_datum, places_of
from panelart.cutouts.held import held, lying
from panelart.marking.separation import Separations
from panelart.model.component import Component
from panelart.model.layout import FACE, CutOpening, Layout
from panelart.model.panel import Panel, Part
from panelart.texts.cells import guarded_row

HOLES = (
    "hole", "ref", "role", "x_mm", "y_mm", "turn_deg", "form",
    "finished_width_mm", "finished_height_mm", "finished_corner_mm",
    "cut_width_mm", "cut_height_mm", "cut_corner_mm", "on",
    "finished_width_minimum_mm", "finished_width_maximum_mm",
    "finished_height_minimum_mm", "finished_height_maximum_mm",
    "cut_width_minimum_mm", "cut_width_maximum_mm", "cut_height_minimum_mm", "cut_height_maximum_mm",
    "finished_key_width_mm", "finished_key_width_minimum_mm", "finished_key_width_maximum_mm",
    "cut_key_width_mm", "cut_key_width_minimum_mm", "cut_key_width_maximum_mm",
)  # fmt: skip
PARTS = (
    "ref", "part", "title", "x_mm", "y_mm", "turn_deg", "legend", "knob_diameter_mm", "knob_height_mm", "knob", "on",
    "board_x_mm", "board_y_mm", "mass_g", "fasteners",
)  # fmt: skip
PLATES = ("plate", "what", "colour", "covered_cm2", "solid_cm2", "pieces")
STATE = ("panel", "revision", "spec")
"""The columns that every list ends with."""


def holes_csv(layout: Layout) -> bytes:
    """Every opening: its middle, its form, finished and cut sizes with the limits of each, and those of its key."""
    rows: list[Sequence[str]] = []
    for opening in layout.every_opening:
        finished, cut = size_of(opening.finished, opening.turn), size_of(opening.sized, opening.turn)
        at = from_datum(layout.panel, opening.on, finished.centre)
        rows.append(
            (
                opening.name,
                opening.ref,
                opening.role.value,
                mm(at.x),
                mm(at.y),
                f"{finished.turn:g}",
                finished.form,
                mm(finished.width),
                mm(finished.height),
                mm(finished.corner),
                mm(cut.width),
                mm(cut.height),
                mm(cut.corner),
                opening.on,
                *_limits(opening, layout.panel),
            )
        )
    return listed(layout.panel, HOLES, rows)


def _limits(opening: CutOpening, panel: Panel) -> Iterator[str]:
    """The limits of width and height, finished and as cut, then the key's width; '' for what has none."""
    known = held(opening, panel.coat, panel.making)
    size = size_of(opening.finished, opening.turn)
    both = lying(known, "width", size.width), lying(known, "height", size.height)
    for one in both:
        yield from _pair(None if one is None else one.finished_limits)
    for one in both:
        yield from _pair(None if one is None else one.cut_limits)
    key = next((one for one in known if one.name.startswith("key")), None)
    yield mm(None if key is None else key.finished)
    yield from _pair(None if key is None else key.finished_limits)
    yield mm(None if key is None else key.cut)
    yield from _pair(None if key is None else key.cut_limits)


def _pair(limits: tuple[float, float] | None) -> tuple[str, str]:
    return ("", "") if limits is None else (mm(limits[0]), mm(limits[1]))


def plates_csv(plates: Separations) -> bytes:
    """Every plate with the area it covers and the area of solid ink it takes, for the price and for the check."""
    rows = [
        (plate.name, plate.what, plate.colour, f"{plate.covered:.3f}", f"{plate.solid:.3f}", f"{plate.pieces}")
        for plate in plates.sizes
    ]
    return listed(plates.layout.panel, PLATES, rows)


def parts_csv(panel: Panel) -> bytes:
    """Every part as placed: those of the face in the order of the spec, then those in flanges."""
    face = [
        (
            part.ref,
            part.component.name,
            part.component.title,
            mm(part.at.x - panel.datum.x),
            mm(part.at.y - panel.datum.y),
            f"{part.turn:g}",
            part.legend.whole if part.legend is not None else "",
            mm(part.knob.diameter if part.knob else None),
            mm(part.knob.height if part.knob else None),
            part.knob.name if part.knob else "",
            FACE,
            *_board_origin(panel, part),
            *_held_by(part.component),
        )
        for part in panel.parts
    ]
    flanges = [
        (
            hole.ref,
            hole.component.name,
            hole.component.title,
            *(mm(each) for each in from_datum(panel, on, hole.at)),
            "0",
            "",
            "",
            "",
            "",
            on,
            "",
            "",
            *_held_by(hole.component),
        )
        for flange in panel.flanges
        for on, holes in places_of(flange)
        for hole in holes
        if hole.component is not None
    ]
    return listed(panel, PARTS, [*face, *flanges])


def _held_by(component: Component) -> tuple[str, str]:
    """What a part weighs, and its fasteners in one cell: '2 nut M4; 1 washer'."""
    fasteners = "; ".join(f"{one.count} {fastener_named(one)}" for one in component.fasteners)
    return mm(None if component.mass is None else component.mass.value), fasteners


def _board_origin(panel: Panel, part: Part) -> tuple[str, str]:
    """Where the origin of a part's footprint lies, from the datum."""
    origin = part.board_origin
    return ("", "") if origin is None else (mm(origin.x - panel.datum.x), mm(origin.y - panel.datum.y))


def mm(value: float | None) -> str:
    """Millimetres to a ten-thousandth, '' for what is not there."""
    if value is None:
        return ""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def listed(panel: Panel, heading: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """A list with what it was made from at the end of every row."""
    state = (panel.number or panel.title, panel.revision, panel.fingerprint)
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow((*heading, *STATE))
    writer.writerows(guarded_row((*row, *state)) for row in rows)
    return text.getvalue().encode("utf-8")
