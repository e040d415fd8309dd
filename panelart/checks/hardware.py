"""Whether fastened hardware has the metal around it that it needs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panelart.checks.bending import words_of, words_of_return
from panelart.checks.findings import Observation
from panelart.checks.limits import BASES, Basis, Limit
from panelart.checks.mends import moved_inwards
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.cutouts.blank import Bent, bent
from panelart.cutouts.hardware import places_of
from panelart.diagnostics import Severity, Where
from panelart.geometry import Point
from panelart.geometry.measures import point_gap
from panelart.messages import Said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.component import EDGE_DISTANCE, Component


@rule(
    Severity.ERROR,
    says="{subject}: distance from centre to {other} is {measured}; minimum {limit}",
    fix="Move the hardware until the distance is {limit}, or support the edge in a fixture while pressing.",
    mends=(moved_inwards,),
)
def hardware_near_edge(survey: Survey) -> Iterator[Observation]:
    """Hardware is so close to an edge or a bend that fastening it pushes the metal out.

    Measured from its centre to the edge of the sheet as cut; beside a flange, to the inside of the bent metal.

    Source: the fastener's own figure in its catalogue entry.
    Fix: move the hardware inwards, or use a smaller fastener.
    Fails: a self-clinch stud M4 7.1 mm from the edge.
    Passes: the same stud 7.2 mm from it.
    """
    outline = survey.cut_edge_line
    bends = bent(survey.panel, survey.layout.cut_outline)
    for part in survey.panel.parts:
        hardware = part.component.hardware
        if hardware is None or hardware.edge is None:
            continue
        gaps: list[tuple[float, Said]] = [(point_gap(part.at, outline).distance, things.sheet_edge())]
        for bend in bends.values():
            left = survey.from_edge(bend.flange.edge, part.at) - bend.setback + bend.flange.radius
            gaps.append((left, things.bend_of(flange=words_of(bend.flange))))
        yield from _too_near(survey.part(part.ref), part.ref, part.component, part.at, part.where, gaps)
    for bend in bends.values():
        for on, holes in places_of(bend.flange):
            for hole in holes:
                component = hole.component
                if component is not None and component.hardware is not None and component.hardware.edge is not None:
                    place = survey.edge_point(bend.flange.edge, hole.at.x)
                    gaps = _in_flange(bend, on, hole.at)
                    yield from _too_near(survey.part(hole.ref), hole.ref, component, place, hole.where, gaps)


hardware_near_edge.cases(
    """
    parts: [{ref: H1, part: press-stud-m4, at: [__, 50]}]
    """,
    fails="7.1",
    passes="7.2",
)


def _in_flange(bend: Bent, on: str, at: Point) -> list[tuple[float, Said]]:
    """How far a point of a flange or return is from the bends and the edges round it, in mm of metal."""
    flange, second = bend.flange, bend.flange.second
    own = words_of(flange) if on == flange.edge.value else words_of_return(flange)
    gaps: list[tuple[float, Said]] = [(min(at.x - bend.start, bend.end - at.x), things.end_of(flange=own))]
    if on == flange.edge.value:
        back = at.y - bend.coat
        gaps.append((back - bend.setback + flange.radius, things.bend_of(flange=own)))
        if second is None:
            gaps.append((bend.length - back, things.free_edge_of(flange=own)))
        else:
            gaps.append((bend.length - bend.second_setback - back + second.radius, words_of_return(flange)))
    elif second is not None:
        back = at.y - bend.second_coat
        gaps.append((back - bend.second_setback + second.radius, things.bend_of(flange=own)))
        gaps.append((bend.second_length - back, things.free_edge_of(flange=own)))
    return gaps


def _too_near(
    subject: Said, ref: str, component: Component, place: Point, where: Where, gaps: Sequence[tuple[float, Said]]
) -> Iterator[Observation]:
    """One observation, of whatever is nearest, when that is nearer than the hardware permits."""
    hardware = component.hardware
    assert hardware is not None
    assert hardware.edge is not None
    distance, other = min(gaps)
    if distance < hardware.edge - ROUNDING:
        yield Observation(
            refs=(ref,),
            place=place,
            where=where,
            subject=subject,
            other=other,
            measured=max(distance, 0.0),
            limit=_edge_limit(component, hardware.edge),
        )


def _edge_limit(component: Component, distance: float) -> Limit:
    figure = next((figure for figure in component.figures if figure.name == EDGE_DISTANCE), None)
    title = component.title
    return Limit(
        name="",
        what=of_limits.hardware_edge_distance(),
        value=distance,
        unit="mm",
        source=of_limits.figure_of(title=title, source=figure.source)
        if figure
        else of_limits.figure_without_source(title=title),
        basis=BASES[figure.known] if figure else Basis.MEMORY,
    )
