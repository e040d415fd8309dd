"""Engraving: a turning cutter takes metal or the cap of a laminate away; colour is filled in and wiped."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.lettering.cuts import LIGHT
from panelart.messages import Complete, Message, Mm, TwoDecimals, message
from panelart.messages import sheets as common
from panelart.processes import inks
from panelart.processes.process import COUNT, CutterPaths, Process, Work, looked_up, recalled


@message
def engrave(depth: Mm) -> None:
    """Engrave engraving.dxf in its order, one layer for each cutter, {depth} deep from the face."""


@message
def not_engraved(area: TwoDecimals) -> None:
    """Not engraved, because too narrow for every cutter: {area} mm²."""


@message
def fill(inks: Complete) -> None:
    """Fill with {inks}. Wipe the face clean."""


def _steps(work: Work) -> Iterator[Message]:
    cutting = work.cutting
    assert cutting is not None, "a process that gives cutters' paths is told what they do"
    told = [engrave(depth=cutting.depth)]
    if cutting.uncut:
        told.append(not_engraved(area=cutting.uncut))
    yield common.paragraph(sentences=told)
    yield fill(inks=inks.named(work.inks))


PROCESS: Final = Process(
    name="engraving",
    title="Engraving",
    cap_height_minimum=looked_up(
        1.8, "smallest letter height of ISO 3098-0, table of type B dimensions in a course handout"
    ),
    line_minimum=recalled(0.2, "trade habit, narrowest usual cutter tip"),
    gap_minimum=recalled(0.2, "trade habit, a wall that does not break out between two cuts"),
    edge_margin=recalled(1.0, "trade habit"),
    opening_margin=recalled(0.5, "trade habit"),
    register=recalled(0.1, "trade habit for parts located on pins"),
    own={
        "inks_maximum": recalled(2.0, "trade habit, each colour is filled and wiped in a run of its own", unit=COUNT),
        "depth": recalled(0.2, "trade habit for filled metal, 0.15 to 0.3; laminates by their cap, 0.18 to 0.3"),
    },
    lays_ink=False,
    weight=LIGHT.name,  # one pass of a cutter as narrow as the pen, as ISO 3098-0 draws it
    outputs=(CutterPaths(file="engraving"),),
    steps=_steps,
)
