"""Panels for racks and subracks: what the rails take behind them, and their fixing holes."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.bodies import depth
from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.mends import moved_inwards
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Group, Solid, Survey, shared_place, sharing, zone
from panelart.diagnostics import Severity
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things
from panelart.model.panel import Panel

_FIXINGS = ("rack-slots", "subrack")


def _fixed(panel: Panel) -> bool:
    """Whether the fixing holes of the standard are about the centre of the panel."""
    middle = panel.outline.bounds.centre
    placed = (part for part in panel.parts if part.component.family.startswith(_FIXINGS))
    return any(part.at.distance(middle) < 0.01 for part in placed)


def _for_subrack(panel: Panel) -> bool:
    """Whether the rails run along the width, as those of a subrack do; those of a rack run along the height."""
    return bool(panel.reserved) and panel.reserved[0].contour.bounds.width >= panel.outline.bounds.width - ROUNDING


@rule(
    Severity.ERROR,
    says="{subject} interferes with {other} by {measured}",
    fix="Move the part inwards by {measured}.",
    mends=(moved_inwards,),
)
def part_in_rail_zone(survey: Survey) -> Iterator[Observation]:
    """What a part takes behind a rack or subrack panel collides with the rails.

    Not reported where the fixing holes are on the panel: the catalogue's part brings its rails with it.

    The rails of a rack leave 450.85 mm open between them, those of a subrack 112 mm of the height of 3U. What is
    screwed on from behind the ears, such as a handle, must leave that space clear too.

    Source: EIA-310 (450.85 mm) and a public file of constants that quotes IEC 60297-3-101 (112.0 mm).
    Fix: move the part inwards.
    Fails: the body of a switch 10 mm from the end of a rack panel.
    Passes: the same body 16 mm from it.
    """
    if _fixed(survey.panel):
        return
    rails = things.subrack_rails() if _for_subrack(survey.panel) else things.rack_rails()
    zones = Group(zone(area, rails) for area in survey.panel.reserved)
    worst: dict[str, tuple[float, Solid, Solid]] = {}
    for body, rail in sharing(survey.rear.near(zones)):
        reach = depth(body.body, rail.body)
        if not survey.at_edge_by_standard(body.owner) and reach > worst.get(body.owner, (ROUNDING,))[0]:
            worst[body.owner] = (reach, body, rail)
    for reach, body, rail in worst.values():
        yield Observation(
            refs=(body.owner,),
            place=shared_place(body, rail),
            where=body.where,
            subject=body.words,
            other=rail.words,
            measured=reach,
            limit=Limit(
                name="",
                what=of_limits.rail_reach(),
                value=0.0,
                unit="mm",
                source=of_limits.rail_standards(),
                basis=Basis.LOOKED_UP,
            ),
            bound=Bound.MAXIMUM,
        )


part_in_rail_zone.cases(
    """
    panel: {size: {rack: 2}}
    parts:
      - ref: K1
        part:
          title: Relay
          openings: [{role: body, circle: {diameter: 6}}]
          rear: [{what: body, circle: {diameter: 20}, depth: 30}]
        at: [__, 44]
    """,
    fails="20",
    passes="26",
)


@rule(
    Severity.WARNING,
    says="Standard fixing holes of {subject} panel missing or off centre",
    fix="Place the part for this panel size on the centre: rack-slots-2u, subrack-3u-28hp and so on.",
)
def rack_fixing_missing(survey: Survey) -> Iterator[Observation]:
    """A panel of standard size has no fixing holes to its standard, or has them off its centre.

    Source: IEC 60297-3-100 and -101: slots and holes are symmetrical about the centre of the panel.
    Fix: place the catalogue's part on the centre of the panel.
    Fails: a panel of {rack: 2} without a part rack-slots-2u.
    Passes: the same panel with that part on its centre.
    """
    panel = survey.panel
    if panel.reserved and not _fixed(panel):
        kind = things.subrack() if _for_subrack(panel) else things.rack()
        yield Observation(refs=(), place=panel.outline.bounds, where=panel.reserved[0].where, subject=kind)


rack_fixing_missing.cases(
    """
    panel: {size: {rack: 2}}
    parts: [{ref: FR, part: __, at: [241.3, 44.055]}]
    """,
    fails="screw-m4",
    passes="rack-slots-2u",
)
