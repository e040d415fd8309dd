"""The space behind the panel, and what a panel with mains on it must carry."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.mends import moved_inwards
from panelart.checks.parts import past_edge
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Solid, Survey
from panelart.diagnostics import Severity
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.messages import checks_limits as of_limits
from panelart.model.panel import Part

_INLET: Final = "mains-inlet"
_EARTHED: Final = "protective-earth"
_FUSE: Final = "fuse"
"""Keys of cautions by which the catalogue marks such parts."""

_PLASTIC: Final = re.compile(r"acryl|pmma|plastic|abs\b|polycarb|polyest|wood|ply|fr-?4|glass", re.IGNORECASE)
_EARTH: Final = re.compile(r"\b(?:earth|ground|gnd|pe|protective)\b|\u23da", re.IGNORECASE)
_CURRENT: Final = re.compile(r"(?<![\w.,])\d+(?:[.,]\d+)?\s?[mk]?A\b")
_RATINGS: Final[dict[Message, re.Pattern[str]]] = {
    said.voltage(): re.compile(r"\d\s?k?V\b"),
    said.frequency(): re.compile(r"\d\s?Hz\b"),
    said.power_or_current(): re.compile(r"\d\s?(?:[mk]?A|[mk]?W|[mk]?VA)\b"),
}


@rule(
    Severity.ERROR,
    says="{subject} is {measured} deep; maximum {limit}",
    fix="Choose a part at most {limit} deep, or increase the depth behind the panel.",
)
def body_deeper_than_room(survey: Survey) -> Iterator[Observation]:
    """The body of a part is deeper than the space behind the panel.

    Checked only when the spec gives that depth (`panel: {depth_behind: ...}`).

    Source: the depth in the spec; the depth in the part's catalogue entry.
    Fix: a shallower part, or a deeper case.
    Fails: a meter 110 mm deep where there are 100 mm.
    Passes: the same meter where there are 110 mm.
    """
    room = survey.panel.depth_behind
    if room is None:
        return
    opposite = survey.panel.opposite
    own = opposite is None or room < opposite.depth
    given = of_limits.depth_behind_in if own else of_limits.box_depth_in
    limit = Limit(
        name="",
        what=of_limits.body_depth(),
        value=room,
        unit="mm",
        source=given(file=survey.panel.where.name),
        basis=Basis.GIVEN,
    )
    deepest: dict[str, Solid] = {}
    for solid in survey.rear:
        if solid.height > deepest.get(solid.owner, solid).height or solid.owner not in deepest:
            deepest[solid.owner] = solid
    for solid in deepest.values():
        if solid.height > limit.value + ROUNDING:
            yield Observation(
                refs=(solid.owner,),
                place=solid.box,
                where=solid.where,
                subject=solid.words,
                measured=solid.height,
                limit=limit,
                bound=Bound.MAXIMUM,
            )


body_deeper_than_room.cases(
    """
    panel: {depth_behind: __}
    parts: [{ref: M1, part: meter-48x48, at: [60, 50]}]
    """,
    fails="109",
    passes="110",
)


@rule(
    Severity.WARNING,
    says="{subject} extends {measured} beyond the edge of the panel, at the rear",
    fix="Move the part inwards by at least {measured}, or make sure that the case has that space.",
    limits=("beyond_edge.maximum",),
    mends=(moved_inwards,),
)
def body_over_edge(survey: Survey) -> Iterator[Observation]:
    """The body of a part extends beyond the edge of the panel, behind it.

    A case is seldom wider inside than its panel. The rails of rack panels, which IEC 60297 places there, are exempt.

    Source: common practice; the body meets the wall of the case.
    Fix: move the part inwards.
    Fails: a body of 24 mm with its centre 11 mm from the edge.
    Passes: the same body 12 mm from the edge.
    """
    yield from past_edge(survey, survey.rear)


body_over_edge.cases(
    """
    parts:
      - ref: S1
        part:
          title: Relay
          openings: [{role: body, circle: {diameter: 6}}]
          rear: [{what: body, circle: {diameter: 24}, depth: 20}]
        at: [__, 50]
    """,
    fails="11",
    passes="12",
)


# --- mains


def _with_caution(survey: Survey, caution: str) -> list[Part]:
    return [part for part in survey.panel.parts if caution in part.component.cautions]


def _earth_terminals(survey: Survey) -> list[Part]:
    named = {word.owner for word in survey.words if _EARTH.search(word.text)}
    return [
        part
        for part in survey.panel.parts
        if part.component.family == "earth-stud"
        or (part.ref in named and _INLET not in part.component.cautions and not part.component.positions)
    ]


def _earthed_inlets(survey: Survey) -> list[Part]:
    if _PLASTIC.search(survey.panel.sheet.material):
        return []
    return [part for part in _with_caution(survey, _INLET) if _EARTHED in part.component.cautions]


@rule(
    Severity.WARNING,
    says="{subject}: mains inlet on a panel of {other} without a protective earth terminal",
    fix="Add an earth stud or a screw with an earth legend, or waive this if the panel is bonded to earth elsewhere.",
)
def earth_terminal_missing(survey: Survey) -> Iterator[Observation]:
    """A metal panel with an earthed mains inlet has no terminal to bond the metal to earth.

    An earth stud of the catalogue counts, and any part whose legend reads EARTH, PE or GROUND or has the earth symbol.

    Source: IEC 61010-1, 6.5.2, bonding of accessible metal (from memory).
    Fix: an earth stud, or a waiver that says where the bond is.
    Fails: an inlet alone on a steel panel.
    Passes: an inlet and a stud.
    """
    if _earth_terminals(survey):
        return
    for part in _earthed_inlets(survey):
        yield Observation(
            refs=(part.ref,),
            place=part.at,
            where=part.where,
            subject=survey.part(part.ref),
            other=survey.panel.sheet.material,
        )


earth_terminal_missing.cases(
    """
    parts:
      - {ref: J1, part: iec-c14, at: [40, 50]}
      - {ref: E1, part: __, at: [100, 50]}
    """,
    fails="screw-m4",
    passes="earth-stud-m4",
)


@rule(
    Severity.NOTE,
    says="{subject}: protective earth terminal is {measured} from mains inlet {other}; maximum {limit}",
    fix="Move the earth terminal to within {limit} of the inlet.",
    limits=("earth.far.maximum",),
)
def earth_terminal_far(survey: Survey) -> Iterator[Observation]:
    """The protective earth terminal is far from the mains inlet.

    Measured from centre to centre.

    Source: common practice: a short wire, in sight of the inlet.
    Fix: move the terminal.
    Fails: a stud 151 mm from the inlet.
    Passes: a stud 150 mm from the inlet.
    """
    limit = survey.limits["earth.far.maximum"]
    terminals = _earth_terminals(survey)
    for part in _earthed_inlets(survey):
        nearest = min(terminals, key=lambda terminal: part.at.distance(terminal.at), default=None)
        if nearest is not None and part.at.distance(nearest.at) > limit.value + ROUNDING:
            yield Observation(
                refs=(nearest.ref, part.ref),
                place=nearest.at,
                where=nearest.where,
                subject=survey.part(nearest.ref),
                other=survey.part(part.ref),
                measured=part.at.distance(nearest.at),
                limit=limit,
                bound=Bound.MAXIMUM,
            )


earth_terminal_far.cases(
    """
    panel: {size: [260, 100]}
    parts:
      - {ref: J1, part: iec-c14, at: [40, 50]}
      - {ref: E1, part: earth-stud-m4, at: [__, 50]}
    """,
    fails="191",
    passes="190",
)


@rule(
    Severity.WARNING,
    says="{subject}: no legend gives the fuse rating",
    fix="Print type, current and voltage beside the fuse holder, such as T 1 A L 250 V.",
    limits=("rating.near.maximum",),
)
def fuse_rating_missing(survey: Survey) -> Iterator[Observation]:
    """No legend near a fuse holder gives the rating of the fuse.

    A legend of the part itself counts at any distance, any other legend when it is near. The rule looks for a current.

    Source: IEC 61010-1, 5.1.4 (from memory).
    Fix: print the rating.
    Fails: a fuse holder with the legend F1.
    Passes: a fuse holder with the legend T 1 A L 250 V.
    """
    near = survey.limits["rating.near.maximum"].value
    rated = [word for word in survey.words if _CURRENT.search(word.text)]
    for part in _with_caution(survey, _FUSE):
        around = [solid.box for solid in survey.front if solid.owner == part.ref]
        told = any(word.owner == part.ref or any(box.gap(word.box) <= near for box in around) for word in rated)
        if not told:
            yield Observation(refs=(part.ref,), place=part.at, where=part.where, subject=survey.part(part.ref))


fuse_rating_missing.cases(
    """
    parts: [{ref: F1, part: fuse-5x20, at: [60, 50], legend: __}]
    """,
    fails="F1",
    passes="T 1 A L 250 V",
)


@rule(
    Severity.WARNING,
    says="{subject}: mains rating incomplete; no legend gives {other}",
    fix="Print voltage, frequency, and power or current in one legend.",
)
def mains_rating_missing(survey: Survey) -> Iterator[Observation]:
    """No legend on a panel with a mains inlet gives the complete mains rating.

    The three figures must be in one legend, and the legend of a fuse does not count.

    Source: IEC 61010-1, 5.1.3: voltage, frequency, and power or current (from memory).
    Fix: print the rating.
    Fails: an inlet with the legend MAINS.
    Passes: an inlet with the legend 100-240 V ~ 50/60 Hz 40 W.
    """
    fuses = {part.ref for part in _with_caution(survey, _FUSE)} - {part.ref for part in _with_caution(survey, _INLET)}
    told = [_missing(word.text) for word in survey.words if word.owner not in fuses]
    missing = min([*told, list(_RATINGS)], key=len)
    if not missing:
        return
    for part in _with_caution(survey, _INLET):
        yield Observation(
            refs=(part.ref,),
            place=part.at,
            where=part.where,
            subject=survey.part(part.ref),
            other=said.ratings_missing(ratings=missing),
        )


mains_rating_missing.cases(
    """
    parts: [{ref: J1, part: iec-c14, at: [60, 40], legend: __}]
    """,
    fails="MAINS",
    passes="100-240 V ~ 50/60 Hz 40 W",
)


def _missing(text: str) -> list[Message]:
    return [what for what, pattern in _RATINGS.items() if not pattern.search(text)]
