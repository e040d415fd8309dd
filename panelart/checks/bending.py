"""What bending does to a panel: holes that tear, flanges too short for the die, parts and legends in the way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.materials import material
from panelart.checks.mends import moved_inwards, moved_texts, other_sides
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.cutouts.blank import Bent, bent, setback_of
from panelart.diagnostics import Severity
from panelart.geometry import Box, Point, circle
from panelart.messages import Message, Said
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.layout import CutOpening
from panelart.model.metal import Edge, Flange, Return, Towards
from panelart.model.panel import Side


def _bends(survey: Survey) -> dict[Edge, Bent]:
    return bent(survey.panel, survey.layout.cut_outline)


_FLANGES: Final = {
    Edge.TOP: things.top_flange(),
    Edge.BOTTOM: things.bottom_flange(),
    Edge.LEFT: things.left_flange(),
    Edge.RIGHT: things.right_flange(),
}


def words_of(flange: Flange) -> Message:
    """A flange as sentences name it."""
    return _FLANGES[flange.edge]


def words_of_return(flange: Flange) -> Message:
    """The return of a flange as sentences name it."""
    return things.return_of(flange=words_of(flange))


def of_edge(survey: Survey, edge: Edge) -> Point:
    """The middle of an edge of the face, where findings about its flange are shown."""
    box = survey.panel.outline.bounds
    return {
        Edge.TOP: Point(box.centre.x, box.top),
        Edge.BOTTOM: Point(box.centre.x, box.bottom),
        Edge.LEFT: Point(box.left, box.centre.y),
        Edge.RIGHT: Point(box.right, box.centre.y),
    }[edge]


def _beside(bend: Bent, box: Box) -> bool:
    """Whether a box on the face is beside a flange, and not beside the piece of edge it leaves out."""
    low, high = (box.left, box.right) if bend.flange.edge in (Edge.TOP, Edge.BOTTOM) else (box.bottom, box.top)
    return high > bend.start and low < bend.end


def _hole_limit(survey: Survey, radius: float) -> Limit:
    """The minimum distance from a hole to the inside of the bent metal: a multiple of the thickness plus the radius."""
    limit, thickness = survey.limits["bend.hole.minimum"], survey.panel.sheet.thickness
    source = of_limits.times_sheet_and_radius(
        factor=limit.value, thickness=thickness, radius=radius, source=limit.source
    )
    return replace(limit, value=limit.value * thickness + radius, unit="mm", source=source)


@rule(
    Severity.ERROR,
    says="{subject}: distance to {other} is {measured}; minimum {limit}",
    fix="Move the opening to at least {limit} from the bend, or cut the opening after bending.",
    limits=("bend.hole.minimum",),
    mends=(moved_inwards,),
)
def hole_near_bend(survey: Survey) -> Iterator[Observation]:
    """An opening is so close to a bend that bending distorts it.

    Measured from the edge of the hole as cut (or of its countersink) to the inside of the bent metal, on the face and
    on the flange alike. Sources measure to different lines; here it is always the inside face.

    Source: several collections of sheet-metal rules: 2.5 times the thickness plus the inside radius (others print 1.5,
    2 and 3 times).
    Fix: move the hole, or cut it after bending.
    Fails: in sheet of 2 mm bent at R2, a hole 6.9 mm from the inside of the flange.
    Passes: the same hole 7 mm from it.
    """
    yield from _face_holes(survey)
    for bend in _bends(survey).values():
        yield from _flange_holes(survey, bend)


hole_near_bend.cases(
    """
    panel: {flanges: {left: 20}}
    parts: [{ref: H1, part: {part: opening-circle, opening: {diameter: 4}}, at: [__, 50]}]
    """,
    fails="10.9",
    passes="11",
)
hole_near_bend.cases(
    """
    panel: {flanges: {left: {length: 20, holes: [{ref: H1, at: [50, __], diameter: 4}]}}}
    """,
    fails="8",
    passes="12",
)


def _face_holes(survey: Survey) -> Iterator[Observation]:
    for bend in _bends(survey).values():
        radius = bend.flange.radius
        limit = _hole_limit(survey, radius)
        for opening in survey.layout.openings:
            box = _mouth(opening)
            # Where the flat ends, and from there to the inside face of metal bent square: the radius.
            distance = survey.from_edge(bend.flange.edge, box) - bend.setback + radius
            if _beside(bend, box) and distance < limit.value - ROUNDING:
                yield Observation(
                    refs=(opening.ref,),
                    place=opening.cut.bounds,
                    where=opening.where,
                    subject=things.opening(name=opening.name),
                    other=things.bend_of(flange=words_of(bend.flange)),
                    measured=max(distance, 0.0),
                    limit=limit,
                )


def _in_flange(survey: Survey, bend: Bent) -> Iterator[tuple[CutOpening, float, float]]:
    """The openings of a flange with their near and far edge as cut, in mm of metal from the outside of the bend."""
    for opening in survey.layout.flange_openings:
        if opening.on == bend.flange.edge.value:
            box = _mouth(opening)
            yield opening, box.bottom - bend.coat, box.top - bend.coat


def _in_return(survey: Survey, bend: Bent) -> Iterator[tuple[CutOpening, float, float]]:
    """The same in its return, from the outside of the return's bend."""
    for opening in survey.layout.flange_openings:
        if opening.on == f"{bend.flange.edge.value} return":
            box = _mouth(opening)
            yield opening, box.bottom - bend.second_coat, box.top - bend.second_coat


def _mouth(opening: CutOpening) -> Box:
    """The box of an opening as cut, or of its countersink, which is wider."""
    cone = opening.countersink
    return opening.cut.bounds if cone is None else circle(cone.cut, cone.centre).bounds


def _flange_holes(survey: Survey, bend: Bent) -> Iterator[Observation]:
    flange, second = bend.flange, bend.flange.second
    for opening, near, far in _in_flange(survey, bend):
        gaps = [(near - bend.setback + flange.radius, flange.radius, things.bend_of(flange=words_of(flange)))]
        if second is not None:
            left = bend.length - bend.second_setback - far + second.radius
            gaps.append((left, second.radius, words_of_return(flange)))
        for distance, radius, other in gaps:
            limit = _hole_limit(survey, radius)
            if distance < limit.value - ROUNDING:
                yield _hole_finding(survey, opening, distance, limit, other)
    if second is None:
        return
    limit = _hole_limit(survey, second.radius)
    for opening, near, _ in _in_return(survey, bend):
        distance = near - bend.second_setback + second.radius
        if distance < limit.value - ROUNDING:
            other = things.bend_of(flange=words_of_return(flange))
            yield _hole_finding(survey, opening, distance, limit, other)


def _hole_finding(survey: Survey, opening: CutOpening, distance: float, limit: Limit, other: Said) -> Observation:
    return Observation(
        refs=(opening.ref,),
        place=survey.place_of(opening),
        where=opening.where,
        subject=things.opening(name=opening.name),
        other=other,
        measured=max(distance, 0.0),
        limit=limit,
    )


@rule(
    Severity.ERROR,
    says="{subject}: distance to the edge of {other} is {measured}; minimum {limit}",
    fix="Move the opening or lengthen the flange until the distance is {limit}.",
    limits=("edge.minimum",),
)
def flange_hole_near_edge(survey: Survey) -> Iterator[Observation]:
    """A hole in a flange is too close to its free edge or to its ends.

    Source: laser-cutting job shops' design rules: at least 1.5 times the sheet thickness, as on the face.
    Fix: move the hole.
    Fails: a hole 2.9 mm from the free edge of a flange of 2 mm sheet.
    Passes: the same hole 3 mm from it.
    """
    limit = survey.limits["edge.minimum"].times(survey.panel.sheet.thickness, of_limits.sheet_thickness())
    for bend in _bends(survey).values():
        flange, second = bend.flange, bend.flange.second
        on_flange = [
            (opening, far, bend.length if second is None else None, words_of(flange))
            for opening, _, far in _in_flange(survey, bend)
        ]
        on_return = [
            (opening, far, bend.second_length, words_of_return(flange)) for opening, _, far in _in_return(survey, bend)
        ]
        for opening, far, end, words in [*on_flange, *on_return]:
            box = _mouth(opening)
            along = box.left - bend.start, bend.end - box.right
            left = min(*along, *(() if end is None else (end - far,)))
            if left < limit.value - ROUNDING:
                yield Observation(
                    refs=(opening.ref,),
                    place=survey.place_of(opening),
                    where=opening.where,
                    subject=things.opening(name=opening.name),
                    other=words,
                    measured=max(left, 0.0),
                    limit=limit,
                )


flange_hole_near_edge.cases(
    """
    panel: {flanges: {left: {length: 20, holes: [{ref: H1, at: [50, __], diameter: 4}]}}}
    """,
    fails="15.1",
    passes="15",
)


class Leg(Struct, frozen=True):
    """A flange or a return as it is bent: its name, outside length, radius and place in the spec."""

    words: Message
    length: float
    bend: Flange | Return


def legs(survey: Survey) -> Iterator[tuple[Edge, Leg]]:
    """Every flange and return with the edge it is on."""
    for edge, bend in _bends(survey).items():
        yield edge, Leg(words_of(bend.flange), bend.length, bend.flange)
        if bend.flange.second is not None:
            yield edge, Leg(words_of_return(bend.flange), bend.second_length, bend.flange.second)


@rule(
    Severity.ERROR,
    says="Outside length of {subject} is {measured}; minimum {limit}",
    fix="Make the flange at least {limit} long, or have the flange bent longer and trimmed.",
    limits=("flange.die.minimum", "flange.length.minimum"),
)
def flange_too_short(survey: Survey) -> Iterator[Observation]:
    """A flange is so short that it slides into the die before it is bent.

    Measured on the metal, outside. Where the shop's die is given, the flange must also reach over its shoulder.

    Source: collections of sheet-metal rules: 3 times the thickness plus the inside radius; for a die that is given, 0.7
    times its opening (from memory).
    Fix: a longer flange, a narrower die, or trimming after bending.
    Fails: a flange of 7.9 mm in sheet of 2 mm bent at R2.
    Passes: a flange of 8 mm.
    """
    thickness = survey.panel.sheet.thickness
    general, by_die = survey.limits["flange.length.minimum"], survey.limits["flange.die.minimum"]
    die = None if survey.panel.bending is None else survey.panel.bending.die
    for _, leg in legs(survey):
        radius = leg.bend.radius
        source = of_limits.times_sheet_and_radius(
            factor=general.value, thickness=thickness, radius=radius, source=general.source
        )
        limit = replace(general, value=general.value * thickness + radius, unit="mm", source=source)
        if leg.length >= limit.value - ROUNDING and die is not None:
            limit = by_die.times(die, of_limits.die_opening())
        if leg.length < limit.value - ROUNDING:
            edge = leg.bend.edge if isinstance(leg.bend, Flange) else None
            yield Observation(
                refs=(),
                place=survey.panel.outline.bounds if edge is None else of_edge(survey, edge),
                where=leg.bend.where,
                subject=leg.words,
                measured=leg.length,
                limit=limit,
            )


flange_too_short.cases(
    """
    panel: {flanges: {left: __}}
    """,
    fails="7.9",
    passes="8",
)
flange_too_short.cases(
    """
    panel: {bending: {die: 16}, flanges: {left: __}}
    """,
    fails="11",
    passes="20",
)


@rule(
    Severity.WARNING,
    says="Inside bend radius of {subject} is {measured}; minimum {limit} for {other}",
    fix="Bend at an inside radius of at least {limit}, or ask the shop for a test bend.",
)
def bend_radius_too_small(survey: Survey) -> Iterator[Observation]:
    """The inside bend radius is smaller than the metal withstands without cracking.

    The minimum radius follows from the kind of sheet and its thickness; hard alloys need several times the thickness.

    Source: design-office tables for aluminium alloys; half the thickness and at least 0.8 mm for low-carbon steel
    (sheet-metal guidelines); for any other sheet the thickness itself, common practice.
    Fix: a larger radius or a softer alloy.
    Fails: aluminium 6061-T6 of 1.6 mm bent at R2.
    Passes: the same sheet bent at R2.4.
    """
    metal = material(survey.panel.sheet.material)
    limit = metal.minimum_radius(survey.panel.sheet.thickness)
    for _, leg in legs(survey):
        if leg.bend.radius < limit.value - ROUNDING:
            edge = leg.bend.edge if isinstance(leg.bend, Flange) else None
            yield Observation(
                refs=(),
                place=survey.panel.outline.bounds if edge is None else of_edge(survey, edge),
                where=leg.bend.where,
                subject=leg.words,
                other=survey.panel.sheet.material,
                measured=leg.bend.radius,
                limit=limit,
            )


bend_radius_too_small.cases(
    """
    panel: {sheet: {material: aluminium 6061-T6, thickness: 1.6}, flanges: {left: {length: 20, radius: __}}}
    """,
    fails="2",
    passes="2.4",
)


@rule(
    Severity.ERROR,
    says="{subject} interferes with {other} by {measured}",
    fix="Move the part inwards by {measured}, or use a shallower part.",
    limits=("overlap.maximum",),
    mends=(moved_inwards,),
)
def part_in_flange(survey: Survey) -> Iterator[Observation]:
    """What a part takes behind the face collides with a flange.

    A flange takes the sheet thickness along the edge, as deep as the flange is long; a return bent inwards takes more
    at its own depth. Measured square to the edge. Flanges bent by less or more than 90 degrees are treated as square.

    Source: two bodies cannot occupy one place.
    Fix: move the part inwards.
    Fails: a body 20 mm deep that reaches the edge of a panel with a flange there.
    Passes: the same body 10 mm from the edge.
    """
    limit = survey.limits["overlap.maximum"]
    thickness = survey.panel.sheet.thickness
    behind = [envelope for envelope in survey.layout.envelopes if envelope.side is Side.REAR]
    for bend in _bends(survey).values():
        second = bend.flange.second
        for body in behind:
            box = body.contour.bounds
            if not _beside(bend, box):
                continue
            into = thickness
            if second is not None and second.towards is Towards.IN:
                reaches_return = body.height + thickness > bend.flange.length - thickness
                into = second.length if reaches_return else thickness
            reach = into - survey.from_edge(bend.flange.edge, box)
            if reach > limit.value + ROUNDING:
                yield Observation(
                    refs=(body.ref,),
                    place=box,
                    where=body.where,
                    subject=things.piece(ref=body.ref, what=body.what),
                    other=words_of(bend.flange),
                    measured=reach,
                    limit=limit,
                    bound=Bound.MAXIMUM,
                )


part_in_flange.cases(
    """
    panel: {flanges: {left: 25}}
    parts:
      - ref: S1
        part:
          title: Relay
          openings: [{role: body, circle: {diameter: 6}}]
          rear: [{what: body, circle: {diameter: 24}, depth: 20}]
        at: [__, 50]
    """,
    fails="13",
    passes="24",
)


@rule(
    Severity.WARNING,
    says="{subject}: overlap with the bend of {other} is {measured}",
    fix="Move the legend inwards by {measured}.",
    limits=("beyond_flat.maximum",),
    mends=(other_sides, moved_texts, moved_inwards),
)
def legend_on_bend(survey: Survey) -> Iterator[Observation]:
    """A legend or frame lies where the face begins to curve into a flange.

    A print head keeps its distance and a screen does not touch there, so the marking breaks up or blurs.

    Source: common practice; the curve begins one setback from the edge.
    Fix: move the legend onto the flat.
    Fails: a name 3 mm from an edge that is bent at R2 in sheet of 2 mm.
    Passes: the same name 5 mm from it.
    """
    limit = survey.limits["beyond_flat.maximum"]
    for flange in survey.panel.flanges:
        flat = setback_of(flange, survey.panel.sheet.thickness)
        for ink in (*survey.legends, *survey.frame_lines, *survey.fields):
            over = flat - survey.from_edge(flange.edge, ink.box)
            if over > limit.value + ROUNDING:
                yield Observation(
                    refs=(ink.owner,),
                    place=ink.box,
                    where=ink.where,
                    subject=survey.named((ink,)),
                    other=words_of(flange),
                    measured=over,
                    limit=limit,
                    bound=Bound.MAXIMUM,
                )


legend_on_bend.cases(
    """
    panel: {flanges: {left: 20}}
    texts: [{text: OUTPUT, at: [__, 50], style: name}]
    """,
    fails="3",
    passes="5",
)


@rule(
    Severity.WARNING,
    says="Length of {subject} is {measured}; maximum {limit}",
    fix="Shorten the return to {limit}, or ask the shop for a punch with more clearance.",
)
def return_too_long_for_tool(survey: Survey) -> Iterator[Observation]:
    """A return bent inwards is so long that it meets the punch when the flange is bent.

    The return comes up beside the punch; a common gooseneck punch clears a return no longer than its flange.

    Source: common practice (from memory); gooseneck punches differ.
    Fix: a shorter return or a longer flange.
    Fails: a return of 16 mm on a flange of 15 mm.
    Passes: a return of 15 mm on it.
    """
    for bend in _bends(survey).values():
        second = bend.flange.second
        if second is None or second.towards is not Towards.IN or second.length <= bend.flange.length + ROUNDING:
            continue
        yield Observation(
            refs=(),
            place=of_edge(survey, bend.flange.edge),
            where=second.where,
            subject=words_of_return(bend.flange),
            measured=second.length,
            limit=Limit(
                name="",
                what=of_limits.return_length(),
                value=bend.flange.length,
                unit="mm",
                source=of_limits.flange_length(),
                basis=Basis.MEMORY,
            ),
            bound=Bound.MAXIMUM,
        )


return_too_long_for_tool.cases(
    """
    panel: {flanges: {left: {length: 15, return: __}}}
    """,
    fails="{length: 16}",
    passes="{length: 15}",
)


@rule(
    Severity.ERROR,
    says="Overlap of {subject} and {other} when bent is {measured}",
    fix="Shorten or inset one of the returns by {measured}.",
    limits=("overlap.maximum",),
)
def returns_collide(survey: Survey) -> Iterator[Observation]:
    """Two returns bent inwards collide, across the panel or at a corner.

    Source: two pieces of metal cannot occupy one place.
    Fix: shorter returns, or insets at the corner.
    Fails: returns of 12 mm on flanges at a corner that are inset by 6 mm.
    Passes: the same returns inset by 12 mm.
    """
    limit = survey.limits["overlap.maximum"]
    face = survey.layout.cut_outline.bounds
    turned = {
        edge: bend
        for edge, bend in _bends(survey).items()
        if bend.flange.second is not None and bend.flange.second.towards is Towards.IN
    }
    edges = list(turned)
    for place, edge in enumerate(edges):
        for other in edges[place + 1 :]:
            one, two = _covered(turned[edge], face), _covered(turned[other], face)
            across = min(one.right, two.right) - max(one.left, two.left)
            up = min(one.top, two.top) - max(one.bottom, two.bottom)
            reach = min(across, up)
            if reach > limit.value + ROUNDING:
                second = turned[other].flange.second
                assert second is not None
                yield Observation(
                    refs=(),
                    place=of_edge(survey, other),
                    where=second.where,
                    subject=words_of_return(turned[edge].flange),
                    other=words_of_return(turned[other].flange),
                    measured=reach,
                    limit=limit,
                    bound=Bound.MAXIMUM,
                )


returns_collide.cases(
    """
    panel:
      flanges:
        left: {length: 20, return: {length: 12}, inset: __}
        bottom: {length: 20, return: {length: 12}, inset: __}
    """,
    fails="6",
    passes="12",
)


def _covered(bend: Bent, face: Box) -> Box:
    """What a return that turns in takes behind the face."""
    deep = bend.second_length
    match bend.flange.edge:
        case Edge.TOP:
            return Box(bend.start, face.top - deep, bend.end, face.top)
        case Edge.BOTTOM:
            return Box(bend.start, face.bottom, bend.end, face.bottom + deep)
        case Edge.LEFT:
            return Box(face.left, bend.start, face.left + deep, bend.end)
        case Edge.RIGHT:
            return Box(face.right - deep, bend.start, face.right, bend.end)
