"""Whether fastened hardware has the metal round it that it needs to hold."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.findings import Observation
from panelart.checks.limits import BASES, Basis, Limit
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.cutouts.blank import bent
from panelart.diagnostics import Severity, Where
from panelart.geometry import Point
from panelart.geometry.measures import point_gap
from panelart.model.component import Component


@rule(
    Severity.ERROR,
    says="the centre of {subject} is {measured} from {other}, least {limit}",
    fix="move it until {limit} is left, or hold the edge in a fixture while pressing",
)
def hardware_near_edge(survey: Survey) -> Iterator[Observation]:
    """Hardware is so near an edge or a bend that fastening it pushes the metal out.

    Measured from its centre to the edge of the sheet as cut; beside a flange, to the inside of the bent metal.

    Source: the fastener's own figure in its catalogue entry.
    Fix: move it inwards, or a smaller fastener.
    Fails: a self-clinch stud M4 7.1 mm from the edge.
    Passes: the same stud 7.2 mm from it.
    """
    outline = survey.cut_edge_line
    for part in survey.panel.parts:
        hardware = part.component.hardware
        if hardware is None or hardware.edge is None:
            continue
        distance = point_gap(part.at, outline).distance
        if distance < hardware.edge - ROUNDING:
            yield _near(part.ref, part.component, part.at, part.where, distance, "the edge of the sheet")
            continue
        for bend in bent(survey.panel, survey.layout.cut_outline).values():
            left = survey.from_edge(bend.flange.edge, part.at) - bend.setback + bend.flange.radius
            if left < hardware.edge - ROUNDING:
                other = f"the bend of the {bend.flange.edge.value} flange"
                yield _near(part.ref, part.component, part.at, part.where, left, other)


def _near(ref: str, component: Component, place: Point, where: Where, distance: float, other: str) -> Observation:
    hardware = component.hardware
    assert hardware is not None
    assert hardware.edge is not None
    figure = next((figure for figure in component.figures if figure.name == "centre to edge at least"), None)
    return Observation(
        refs=(ref,),
        place=place,
        where=where,
        subject=ref,
        other=other,
        measured=max(distance, 0.0),
        limit=Limit(
            name="",
            what="from the centre of hardware to the edge",
            value=hardware.edge,
            unit="mm",
            source=f"{component.title}: {figure.source if figure else 'its entry has no source'}",
            basis=BASES[figure.known] if figure else Basis.MEMORY,
        ),
    )
