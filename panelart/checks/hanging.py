"""Whether the panel can hang in the coater's plant without a visible mark."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.findings import Observation
from panelart.checks.rule import rule
from panelart.checks.survey import Survey
from panelart.cutouts.hanging import hooks, shows
from panelart.diagnostics import Severity
from panelart.messages import checks_things as things


@rule(
    Severity.NOTE,
    says="No hidden opening available for hanging the panel during coating",
    fix="Add holes in a flange (`making: hanging: on: top`), or agree with the coater where hooks may touch.",
)
def nowhere_to_hang(survey: Survey) -> Iterator[Observation]:
    """The panel has no hidden opening by which it could hang during coating.

    A hook leaves a bare spot with a rim. It does no harm in a flange, or on the rim of an opening that a part covers.

    Source: common practice.
    Fix: separate holes in a flange, or a place agreed with the coater.
    Fails: a flat panel of powder-coated sheet whose openings no nut or bezel covers.
    Passes: the same panel with a hole in a flange.
    """
    if survey.panel.coat.kind == "none" or survey.panel.flanges:
        return
    if not hooks(survey.layout).names:
        outline = survey.panel.outline.bounds
        yield Observation(refs=(), place=outline, where=survey.panel.where, subject=things.panel())


nowhere_to_hang.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, colour: "#FFFFFF"}}
    parts: [{ref: H1, part: __, at: [40, 50]}]
    """,
    fails="{part: opening-circle, opening: {diameter: 4}}",
    passes="toggle-12",
)


@rule(
    Severity.WARNING,
    says="{subject}: hook mark visible, because no part covers the rim",
    fix="Hang the panel by an opening that a part covers, or by holes in a flange.",
)
def hook_mark_seen(survey: Survey) -> Iterator[Observation]:
    """The panel hangs by an opening whose rim no part covers, so that the mark of the hook is visible.

    Source: common practice; a part must cover the rim by a millimetre all round.
    Fix: another opening, or holes in a flange.
    Fails: a panel hung by a screw hole with nothing over it.
    Passes: a panel hung by the opening of a switch under its nut.
    """
    asked = survey.panel.making.hang_by
    for opening in survey.layout.openings:
        if opening.ref in asked and shows(survey.layout, opening):
            yield Observation(
                refs=(opening.ref,),
                place=opening.finished.bounds,
                where=opening.where,
                subject=things.opening(name=opening.name),
            )


hook_mark_seen.cases(
    """
    panel: {coat: {kind: powder, thickness: 0.08, colour: "#FFFFFF"}}
    making: {hanging: {by: [__]}}
    parts:
      - {ref: H1, part: {part: opening-circle, opening: {diameter: 6}}, at: [40, 50]}
      - {ref: S1, part: toggle-12, at: [100, 50]}
    """,
    fails="H1",
    passes="S1",
)
