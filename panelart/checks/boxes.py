"""Two panels that close one box: the bodies behind one panel against those behind the other."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.mends import moved_apart
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Solid, Survey
from panelart.cutouts import stand
from panelart.diagnostics import Severity
from panelart.geometry import Contour, Vector, overlaps
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.layout import PlacedEnvelope
from panelart.model.panel import Opposite, Panel, Side


@rule(
    Severity.ERROR,
    says="{subject} meets {other}: combined depth {measured}; maximum {limit}",
    fix="Move the parts apart, choose shallower parts, or make the box deeper.",
    mends=(moved_apart,),
)
def bodies_meet_in_box(survey: Survey) -> Iterator[Observation]:
    """The bodies of two parts on opposite panels of a box collide.

    Checked where the spec says that two of its panels close one box (`box: {front: ..., rear: ..., depth: ...}`). The
    panels are back to back, centre to centre, with their lower edges level; each is seen from its own outside. Bodies
    one behind the other must leave the clearance of the box between them.

    Source: the depth and the clearance in the spec; the depths in the parts' catalogue entries.
    Fix: move a part aside, choose a shallower part, or make the box deeper.
    Fails: a meter 60 mm deep in front of an inlet 45 mm deep in a box of 100 mm.
    Passes: the same parts side by side, or in a box of 110 mm.
    """
    opposite = survey.panel.opposite
    if opposite is None:
        return
    limit = Limit(
        name="",
        what=of_limits.box_depth(),
        value=opposite.depth - opposite.clearance,
        unit="mm",
        source=of_limits.box_depth_in(file=opposite.where.name),
        basis=Basis.GIVEN,
    )
    facing = [(there, _seen_here(there.contour, survey.panel, opposite)) for there in _bodies(opposite.panel)]
    worst: dict[tuple[str, str], tuple[float, Solid, PlacedEnvelope]] = {}
    for here in survey.rear:
        for there, contour in facing:
            both = here.height + there.height
            key = here.owner, there.ref
            if both <= limit.value + ROUNDING or (key in worst and worst[key][0] >= both):
                continue
            if overlaps(here.contour, contour):
                worst[key] = both, here, there
    for both, here, there in worst.values():
        yield Observation(
            refs=(here.owner,),
            place=here.box,
            where=here.where,
            subject=here.words,
            other=things.piece_on_panel(ref=there.ref, what=there.what, panel=opposite.name),
            measured=both,
            limit=limit,
            bound=Bound.MAXIMUM,
        )


bodies_meet_in_box.cases(
    """
    box: {front: front, rear: rear, depth: __}
    panels:
      front: {parts: [{ref: M1, part: meter-48x48, at: [60, 50]}]}
      rear: {parts: [{ref: J1, part: iec-c14, at: [100, 50]}]}
    """,
    fails="100",
    passes="200",
)


def _bodies(panel: Panel) -> Iterator[PlacedEnvelope]:
    return (envelope for envelope in stand(panel) if envelope.side is Side.REAR)


def _seen_here(contour: Contour, panel: Panel, opposite: Opposite) -> Contour:
    """A contour of the opposite panel in this panel's frame: its left is this panel's right."""
    mine, other = panel.outline.bounds, opposite.panel.outline.bounds
    turned = contour.mirrored(other.centre.x).ccw()
    return turned.moved(Vector(mine.centre.x - other.centre.x, mine.bottom - other.bottom))
