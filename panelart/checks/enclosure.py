"""What stands behind the panel, and what a panel with mains on it must carry."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.parts import past_edge
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Solid, Survey
from panelart.diagnostics import Severity
from panelart.model.panel import Part

_INLET: Final = "mains-inlet"
_EARTHED: Final = "protective-earth"
_FUSE: Final = "fuse"
"""Keys of cautions by which the catalogue marks such parts."""

_PLASTIC: Final = re.compile(r"acryl|pmma|plastic|abs\b|polycarb|polyest|wood|ply|fr-?4|glass", re.IGNORECASE)
_EARTH: Final = re.compile(r"\b(?:earth|ground|gnd|pe|protective)\b|\u23da", re.IGNORECASE)
_CURRENT: Final = re.compile(r"(?<![\w.,])\d+(?:[.,]\d+)?\s?[mk]?A\b")
_RATINGS: Final = {
    "the voltage": re.compile(r"\d\s?k?V\b"),
    "the frequency": re.compile(r"\d\s?Hz\b"),
    "the power or the current": re.compile(r"\d\s?(?:[mk]?A|[mk]?W|[mk]?VA)\b"),
}


@rule(
    Severity.ERROR,
    says="{subject} is {measured} deep, the room behind is {limit}",
    fix="choose a part that is at most {limit} deep, or make the room deeper",
)
def body_deeper_than_room(survey: Survey) -> Iterator[Observation]:
    """The body of a part is deeper than the room behind the panel.

    Held only when the spec says how much room there is (`panel: {depth_behind: ...}`).

    Source: the room in the spec; the depth in the part's catalogue entry.
    Fix: a shallower part, or a deeper case.
    Fails: a meter 110 mm deep where there are 100 mm.
    Passes: the same meter where there are 110 mm.
    """
    room = survey.panel.depth_behind
    if room is None:
        return
    opposite = survey.panel.opposite
    given = "depth_behind" if opposite is None or room < opposite.depth else "the depth of the box"
    limit = Limit(
        name="",
        what="depth of a body behind the panel",
        value=room,
        unit="mm",
        source=f"{given} in the spec, {survey.panel.where.name}",
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


@rule(
    Severity.WARNING,
    says="{subject} reaches {measured} past the edge of the panel",
    fix="move the part inwards by at least {measured}, or make sure that the case leaves that room",
)
def body_over_edge(survey: Survey) -> Iterator[Observation]:
    """The body of a part reaches past the edge of the panel, behind it.

    A case is seldom wider inside than its panel. Rails of rack panels, which IEC 60297 puts there, are let be.

    Source: common practice; the body meets the wall of the case.
    Fix: move the part inwards.
    Fails: a body of 24 mm with its middle 11 mm from the edge.
    Passes: the same body 12 mm from the edge.
    """
    yield from past_edge(survey, survey.rear)


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
    says="{subject} brings mains to a panel of {other}, and there is no terminal for protective earth",
    fix="add a stud or a screw with an earth legend, or waive this when the earth is bonded elsewhere",
)
def earth_terminal_missing(survey: Survey) -> Iterator[Observation]:
    """A metal panel with an earthed mains inlet has no terminal to bond the metal to.

    A stud of the catalogue counts, and any part whose legend says EARTH, PE, GROUND or has the earth symbol.

    Source: IEC 61010-1, 6.5.2, bonding of accessible metal, recalled.
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
            subject=f"{part.ref} ({part.component.title})",
            other=survey.panel.sheet.material,
        )


@rule(
    Severity.NOTE,
    says="the earth terminal {other} stands {measured} from the inlet {subject}, most {limit}",
    fix="move it to within {limit} of the inlet",
)
def earth_terminal_far(survey: Survey) -> Iterator[Observation]:
    """The terminal for protective earth stands far from the mains inlet.

    Measured from middle to middle.

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
                subject=part.ref,
                other=nearest.ref,
                measured=part.at.distance(nearest.at),
                limit=limit,
                bound=Bound.MAXIMUM,
            )


@rule(
    Severity.WARNING,
    says="no legend beside {subject} gives the rating of the fuse",
    fix="print type, current and voltage beside it, such as T 1 A L 250 V",
)
def fuse_rating_missing(survey: Survey) -> Iterator[Observation]:
    """No legend near a fuse holder says which fuse goes in.

    A legend of the part itself counts wherever it stands, any other when it is near. A current is looked for.

    Source: IEC 61010-1, 5.1.4, recalled.
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
            yield Observation(
                refs=(part.ref,), place=part.at, where=part.where, subject=f"{part.ref} ({part.component.title})"
            )


@rule(
    Severity.WARNING,
    says="{subject} takes mains in, and no legend gives {other}",
    fix="print the rating: voltage, frequency, and power or current",
)
def mains_rating_missing(survey: Survey) -> Iterator[Observation]:
    """No legend on a panel with a mains inlet says what may be connected.

    The three figures must stand in one legend, and that of a fuse is none.

    Source: IEC 61010-1, 5.1.3: voltage, frequency, and power or current, recalled.
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
            subject=f"{part.ref} ({part.component.title})",
            other=" and ".join(missing) if len(missing) < 3 else "voltage, frequency, and power or current",
        )


def _missing(text: str) -> list[str]:
    return [what for what, pattern in _RATINGS.items() if not pattern.search(text)]
