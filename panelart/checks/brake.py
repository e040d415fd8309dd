"""What meets the tool of the press brake: flanges already bent, hardware already in the sheet; and the grain."""

from __future__ import annotations

import math
from collections.abc import Iterator

from msgspec.structs import replace

from panelart.checks.bending import legs, of_edge, words_of
from panelart.checks.findings import Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.materials import material
from panelart.checks.mends import moved_inwards
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.cutouts.blank import Bent, bent
from panelart.cutouts.hardware import Fitted, fitted
from panelart.cutouts.pressing import TOOL, out_of_reach, pressed_before_bending
from panelart.diagnostics import Severity
from panelart.geometry import Box
from panelart.messages import checks_limits as of_limits
from panelart.model.metal import Edge, Flange, Towards
from panelart.model.panel import Side

_OPPOSITE = {Edge.TOP: Edge.BOTTOM, Edge.BOTTOM: Edge.TOP, Edge.LEFT: Edge.RIGHT, Edge.RIGHT: Edge.LEFT}


def _past_punch(along: float, up: float, turned_deg: float) -> float:
    """How far a point stays from the middle of the punch once a bend is made.

    `along` is its distance from the bend on the face, `up` its distance behind the face. The punch comes down on
    the inside; both legs rise by half of what the metal is turned through.
    """
    half = math.radians(turned_deg / 2)
    return along * math.cos(half) - up * math.sin(half)


def _tips(bend: Bent, width: float) -> Iterator[tuple[float, float]]:
    """The end of a flange, and of a return that turns in, as seen from the bend at the other side of the face."""
    turned = math.radians(bend.flange.angle)
    along, up = width + bend.length * math.cos(turned), bend.length * math.sin(turned)
    yield along, up
    second = bend.flange.second
    if second is not None and second.towards is Towards.IN:
        turned += math.radians(second.angle)
        yield along + bend.second_length * math.cos(turned), up + bend.second_length * math.sin(turned)


@rule(
    Severity.WARNING,
    says="Clearance between {subject} and the centre of the punch is {measured} when {other} is bent; minimum {limit}",
    fix="Shorten {subject}, widen the panel, or ask the shop for a gooseneck punch or another bend order.",
    limits=("punch.beside.minimum",),
)
def flange_meets_punch(survey: Survey) -> Iterator[Observation]:
    """A flange that is already bent meets the punch when the flange opposite is bent.

    The two form a channel. The bend order is that of the build sheet: of two opposite flanges the lower comes first.
    Measured is the distance from the flange that is already bent, or from its return, to the centre of the punch when
    the bend is complete.

    Source: plane geometry; half the width of a straight punch is from memory.
    Fix: a shorter flange, a wider panel, a gooseneck punch.
    Fails: a channel 60 mm wide with flanges of 50 mm: the clearance is 7 mm.
    Passes: the same channel with flanges of 45 mm: 10.6 mm.
    """
    limit = survey.limits["punch.beside.minimum"]
    bends = bent(survey.panel, survey.layout.cut_outline)
    blank = survey.layout.blank
    steps = {} if blank is None else {bend.name: bend.step for bend in blank.bends}
    box = survey.layout.cut_outline.bounds
    for edge, bend in bends.items():
        other = bends.get(_OPPOSITE[edge])
        if other is None or steps[edge.value] < steps[other.flange.edge.value]:
            continue
        width = box.height if edge in (Edge.TOP, Edge.BOTTOM) else box.width
        left = min(_past_punch(along, up, bend.flange.angle) for along, up in _tips(other, width))
        if left < limit.value - ROUNDING:
            yield Observation(
                refs=(),
                place=of_edge(survey, other.flange.edge),
                where=other.flange.where,
                subject=words_of(other.flange),
                other=words_of(bend.flange),
                measured=max(left, 0.0),
                limit=limit,
            )


flange_meets_punch.cases(
    """
    panel: {size: [60, 100], flanges: {left: {length: __}, right: {length: __}}}
    """,
    fails="50",
    passes="45",
)


@rule(
    Severity.WARNING,
    says="{subject}: clearance to the punch is {measured} when {other} is bent; minimum {limit}",
    fix="Move the hardware away from the bend, or use lower hardware.",
    limits=("punch.beside.minimum",),
    mends=(moved_inwards,),
)
def hardware_meets_punch(survey: Survey) -> Iterator[Observation]:
    """Hardware that must be pressed into the flat sheet meets the punch when the panel is bent.

    It is pressed in first because a flange or return blocks the press afterwards; tall hardware then obstructs the
    punch. Measured from the edge of the hardware behind the face, once the bend is complete.

    Source: plane geometry; half the width of a straight punch is from memory.
    Fix: move the hardware away from the bend, or use lower hardware.
    Fails: a standoff 20 mm high, 25 mm from a bend of 90 degrees, under a return.
    Passes: a press nut 2 mm high in its place.
    """
    early = pressed_before_bending(survey.layout)
    limit = survey.limits["punch.beside.minimum"]
    for bend in bent(survey.panel, survey.layout.cut_outline).values():
        for body in survey.layout.envelopes:
            if body.ref not in early or body.side is not Side.REAR:
                continue
            along = survey.from_edge(bend.flange.edge, body.contour.bounds)
            left = _past_punch(along, body.height, bend.flange.angle)
            if left < limit.value - ROUNDING:
                yield Observation(
                    refs=(body.ref,),
                    place=body.contour.bounds,
                    where=body.where,
                    subject=survey.part(body.ref),
                    other=words_of(bend.flange),
                    measured=max(left, 0.0),
                    limit=limit,
                )


hardware_meets_punch.cases(
    """
    panel: {flanges: {left: {length: 40, return: {length: 20}}}}
    parts: [{ref: H1, part: press-standoff-m3, at: [__, 50]}]
    """,
    fails="13",
    passes="40",
)


@rule(
    Severity.WARNING,
    says="{subject}: clearance for the press tool is {measured} once {other} is bent; minimum {limit}",
    fix="Move the hardware away from the flange, or use hardware that is fitted by hand.",
    mends=(moved_inwards,),
)
def hardware_out_of_reach(survey: Survey) -> Iterator[Observation]:
    """Hardware that is pressed in after coating, and so after bending, is too close to a flange or under a return.

    Hardware pressed in before coating goes into the flat sheet and is not reported.

    Source: the radius of a press tool, from memory.
    Fix: move the hardware inwards, or fit it by hand.
    Fails: a self-clinch nut 9 mm from the inner edge of a return that covers it, in an anodised tray.
    Passes: the same nut in a powder-coated tray, where it is pressed in before bending.
    """
    for part, bend, room in out_of_reach(survey.layout):
        if fitted(part.component, survey.panel.coat) is Fitted.BEFORE_COAT:
            continue
        yield Observation(
            refs=(part.ref,),
            place=part.at,
            where=part.where,
            subject=survey.part(part.ref),
            other=words_of(bend.flange),
            measured=max(room, 0.0),
            limit=Limit(
                name="",
                what=of_limits.press_tool_clearance(),
                value=TOOL,
                unit="mm",
                source=of_limits.press_tool_radius(),
                basis=Basis.MEMORY,
            ),
        )


hardware_out_of_reach.cases(
    """
    panel:
      coat: {kind: __, thickness: 0.02, colour: "#FFFFFF"}
      flanges: {left: {length: 20, return: {length: 12}}}
    parts: [{ref: H1, part: press-nut-m3, at: [15, 50]}]
    """,
    fails="anodise",
    passes="powder",
)


@rule(
    Severity.NOTE,
    says="Inside bend radius of {subject}, along the grain, is {measured}; minimum {limit} for {other}",
    fix="Turn the grain (`making: grain`), bend at an inside radius of {limit}, or ask the shop for a test bend.",
    limits=("bend.grain.minimum",),
)
def bend_along_grain(survey: Survey) -> Iterator[Observation]:
    """A bend runs along the grain of the sheet at a radius that is safe only across the grain.

    Metal cracks sooner when bent along the grain.

    Source: tables of minimum radii are for bends across the grain; twice the radius along it is from memory.
    Fix: the grain the other way, or a larger radius.
    Fails: mild steel of 2 mm, grain along the width, a top flange bent at R1.5.
    Passes: the same flange with the grain across the width.
    """
    grain = survey.panel.making.grain
    if not grain:
        return
    level = grain == "along"
    share = survey.limits["bend.grain.minimum"]
    minimum = material(survey.panel.sheet.material).minimum_radius(survey.panel.sheet.thickness)
    limit = replace(
        share,
        value=share.value * minimum.value,
        unit="mm",
        source=of_limits.both_sources(one=share.source, other=minimum.source),
    )
    for edge, leg in legs(survey):
        if (edge in (Edge.TOP, Edge.BOTTOM)) is level and leg.bend.radius < limit.value - ROUNDING:
            place: Box = survey.panel.outline.bounds
            yield Observation(
                refs=(),
                place=of_edge(survey, edge) if isinstance(leg.bend, Flange) else place,
                where=leg.bend.where,
                subject=leg.words,
                other=survey.panel.sheet.material,
                measured=leg.bend.radius,
                limit=limit,
            )


bend_along_grain.cases(
    """
    panel: {sheet: {material: mild steel, thickness: 2}, flanges: {top: {length: 20, radius: 1.5}}}
    making: {grain: __}
    """,
    fails="along",
    passes="across",
)
