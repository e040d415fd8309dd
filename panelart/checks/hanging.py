"""Whether the panel can hang on the coater's rack without a mark where it is seen."""

from __future__ import annotations

from collections.abc import Iterator

from panelart.checks.findings import Observation
from panelart.checks.rule import rule
from panelart.checks.survey import Survey
from panelart.cutouts.hanging import hooks, shows
from panelart.diagnostics import Severity


@rule(
    Severity.NOTE,
    says="the panel is coated, and {subject} to hang it by ends up hidden",
    fix="ask for holes in a flange (making: hanging: on: top), or agree with the coater where hooks may touch",
)
def nowhere_to_hang(survey: Survey) -> Iterator[Observation]:
    """Nothing is hidden that the panel could hang by when it is coated.

    A hook leaves a bare spot with a rim. It does no harm in a flange, or on the rim of an opening that a part covers.

    Source: common practice.
    Fix: holes of their own in a flange, or a place agreed with the coater.
    Fails: a flat panel of powder-coated sheet whose openings no nut or bezel covers.
    Passes: the same panel with a hole in a flange.
    """
    if survey.panel.coat.kind == "none" or survey.panel.flanges:
        return
    if not hooks(survey.layout).names:
        outline = survey.panel.outline.bounds
        yield Observation(refs=(), place=outline, where=survey.panel.where, subject="no opening")


@rule(
    Severity.WARNING,
    says="the panel is to hang by {subject}, whose rim is seen",
    fix="hang it by an opening that a part covers, or by holes in a flange",
)
def hook_mark_seen(survey: Survey) -> Iterator[Observation]:
    """The panel is to hang by an opening whose rim nothing covers, so that the hook's mark shows.

    Source: common practice; a part must cover the rim by a millimetre all round.
    Fix: another opening, or holes in a flange.
    Fails: a panel hung by a screw hole with nothing over it.
    Passes: a panel hung by the opening of a switch under its nut.
    """
    asked = survey.panel.making.hang_by
    for opening in survey.layout.openings:
        if opening.ref in asked and shows(survey.layout, opening):
            yield Observation(
                refs=(opening.ref,), place=opening.finished.bounds, where=opening.where, subject=opening.name
            )
