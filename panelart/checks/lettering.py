"""Lettering as it will be marked: the thinnest stroke and the narrowest gap of every legend, against the process."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from panelart.checks.findings import Observation, Spot, place_of, refs_of
from panelart.checks.limits import Basis, Limit
from panelart.checks.marking import gap_limit, of_process
from panelart.checks.mends import enlarged
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey, Words
from panelart.diagnostics import Severity
from panelart.lettering.measures import Widths, widths
from panelart.messages import checks_limits as of_limits
from panelart.messages import checks_things as things

_STEP = 0.05
"""Cap heights are suggested in steps of this, mm."""


def _stroke_limit(survey: Survey) -> Limit:
    """The thinnest stroke of ink, or the width of the cutter that must enter it."""
    cutter = survey.panel.marking.cutter
    if cutter is None:
        return of_process(survey, "line_minimum")
    return Limit(
        name="",
        what=of_limits.line_width(),
        value=cutter,
        unit="mm",
        source=of_limits.engraving_cutter(),
        basis=Basis.GIVEN,
    )


def _narrow(survey: Survey, limit: Limit, measured: Callable[[Words, Widths], float]) -> Iterator[Observation]:
    """One observation for each style, font and height of lettering of which some legend is too fine."""
    kinds: dict[tuple[str, str, float], list[tuple[float, Words]]] = {}
    for words in survey.words:
        setting = words.legend.setting
        if setting is None:
            continue
        width = measured(words, widths(setting))
        if width < limit.value - ROUNDING:
            key = (words.kind, words.legend.font, words.cap_height)
            kinds.setdefault(key, []).append((width, words))
    for (_, _, cap_height), found in kinds.items():
        width, worst = min(found, key=lambda one: one[0])
        spots = tuple(Spot(ref=words.owner, place=words.box, where=words.where) for _, words in found)
        enough = math.ceil(cap_height * limit.value / width / _STEP - ROUNDING) * _STEP
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=worst.where,
            subject=survey.named([words for _, words in found]),
            other=things.length(length=enough),
            measured=width,
            limit=limit,
            each=spots,
        )


def _is_field(words: Words) -> bool:
    setting = words.legend.setting
    return setting is not None and setting.plate is not None


@rule(
    Severity.WARNING,
    says="{subject}: thinnest stroke is {measured} wide; minimum {limit}",
    fix="Raise the cap height to {other}, or choose a bolder font.",
    limits=("process.line_minimum",),
    mends=(enlarged,),
)
def lettering_too_thin(survey: Survey) -> Iterator[Observation]:
    """A stroke of a legend is thinner than the process can hold, or than the cutter that must enter it.

    Measured on the outlines as they will be marked, superscripts and bars included, by the smallest disc that fits
    between the sides of a stroke. For words knocked out of a field the ink between the letters counts. The fix names
    the smallest cap height at which these words meet the limit in this font, in steps of 0.05 mm. A warning, since
    printers publish what they recommend and not what only just holds.

    Source: the process's own figure for a line; the width of the cutter in the spec.
    Fix: a larger cap height, a bolder font, or another process.
    Fails: lettering of the plain face at 2 mm, whose strokes are 0.2 mm, where the process holds 0.25 mm.
    Passes: the same at 2.6 mm.
    """
    yield from _narrow(
        survey,
        _stroke_limit(survey),
        lambda words, found: found.gap if _is_field(words) else found.stroke,
    )


lettering_too_thin.cases(
    """
    marking: {viewing_distance: 300}
    texts: [{text: FUSE, at: [40, 50], style: name, cap_height: __}]
    """,
    fails="2.4",
    passes="3",
)
lettering_too_thin.cases(
    """
    marking: {process: engraving, cutter: 0.4, viewing_distance: 300}
    texts: [{text: FUSE, at: [40, 50], style: name, cap_height: __}]
    """,
    fails="3.5",
    passes="5",
)


@rule(
    Severity.WARNING,
    says="{subject}: narrowest gap is {measured} wide; minimum {limit}",
    fix="Raise the cap height to {other}, or increase the letter spacing (`tracking`).",
    limits=("process.gap_minimum",),
    mends=(enlarged,),
)
def lettering_gap_too_narrow(survey: Survey) -> Iterator[Observation]:
    """A gap within or between letters is narrower than the process can keep open.

    Counters, the openings of letters and the gaps between neighbours count, and so does what stays bare where words are
    knocked out of a field: there the strokes of the letters are the gaps. Where two strokes only meet at a point, as in
    V, no gap counts. The fix names the smallest cap height at which these words meet the limit.

    Source: the process's own figure for a line left bare.
    Fix: a larger cap height, `tracking`, or a font with wider counters.
    Fails: words in a field at 2 mm, with strokes of 0.2 mm, where the process keeps 0.26 mm open.
    Passes: the same at 2.7 mm.
    """
    yield from _narrow(
        survey,
        gap_limit(survey),
        lambda words, found: found.stroke if _is_field(words) else found.gap,
    )


lettering_gap_too_narrow.cases(
    """
    marking: {viewing_distance: 300}
    texts: [{text: FUSE, at: [40, 50], style: name, cap_height: __, reversed: true}]
    """,
    fails="2.55",
    passes="3",
)
