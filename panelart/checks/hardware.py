"""Whether fastened hardware has the metal round it that it needs to hold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panelart.checks.findings import Observation
from panelart.checks.limits import BASES, Basis, Limit
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.cutouts.blank import Bent, bent
from panelart.cutouts.hardware import places_of
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
    bends = bent(survey.panel, survey.layout.cut_outline)
    for part in survey.panel.parts:
        hardware = part.component.hardware
        if hardware is None or hardware.edge is None:
            continue
        gaps = [(point_gap(part.at, outline).distance, "the edge of the sheet")]
        for bend in bends.values():
            left = survey.from_edge(bend.flange.edge, part.at) - bend.setback + bend.flange.radius
            gaps.append((left, f"the bend of the {bend.flange.edge.value} flange"))
        yield from _too_near(part.ref, part.component, part.at, part.where, gaps)
    for bend in bends.values():
        for on, holes in places_of(bend.flange):
            for hole in holes:
                component = hole.component
                if component is not None and component.hardware is not None and component.hardware.edge is not None:
                    place = survey.edge_point(bend.flange.edge, hole.at.x)
                    yield from _too_near(hole.ref, component, place, hole.where, _in_flange(bend, on, hole.at))


def _in_flange(bend: Bent, on: str, at: Point) -> list[tuple[float, str]]:
    """How far a point of a flange or return is from the bends and the edges round it, in mm of metal."""
    flange, second = bend.flange, bend.flange.second
    edge = flange.edge.value
    gaps = [(min(at.x - bend.start, bend.end - at.x), f"the end of the {on} flange")]
    if on == edge:
        back = at.y - bend.film
        gaps.append((back - bend.setback + flange.radius, f"the bend of the {edge} flange"))
        if second is None:
            gaps.append((bend.length - back, f"the edge of the {edge} flange"))
        else:
            gaps.append((bend.length - bend.second_setback - back + second.radius, f"the return of the {edge} flange"))
    elif second is not None:
        back = at.y - bend.second_film
        gaps.append((back - bend.second_setback + second.radius, f"the bend of the {on}"))
        gaps.append((bend.second_length - back, f"the edge of the {on}"))
    return gaps


def _too_near(
    ref: str, component: Component, place: Point, where: Where, gaps: Sequence[tuple[float, str]]
) -> Iterator[Observation]:
    """One observation, of whatever is nearest, when that is nearer than the hardware bears."""
    hardware = component.hardware
    assert hardware is not None
    assert hardware.edge is not None
    distance, other = min(gaps)
    if distance < hardware.edge - ROUNDING:
        yield _near(ref, component, place, where, distance, other)


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
