"""The space behind the panel, and what a panel with mains on it must carry."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from panelart.checks.findings import Bound, Observation
from panelart.checks.limits import Basis, Limit
from panelart.checks.mends import moved_inwards
from panelart.checks.parts import past_edge
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Solid, Survey, Words
from panelart.diagnostics import Severity
from panelart.messages import checks_limits as of_limits
from panelart.model.circuit import CircuitKind
from panelart.model.panel import Part
from panelart.texts.runs import Designation, Symbol, Word
from panelart.texts.words import EARTH

_INLET: Final = "mains-inlet"
_OUTLET: Final = "mains-outlet"
_EARTHED: Final = "protective-earth"
"""Keys of cautions by which the catalogue marks such parts."""

_PLASTIC: Final = ("acryl", "pmma", "plastic", "polycarb", "polyest", "wood", "ply", "fr4", "fr-4", "glass")
"""What the name of a material that does not conduct has in it."""


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
    yield from farthest_beyond(survey.rear, limit)


def farthest_beyond(solids: Iterable[Solid], limit: Limit) -> Iterator[Observation]:
    """Of each part what reaches farthest from the face, where that is beyond a limit."""
    farthest: dict[str, Solid] = {}
    for solid in solids:
        if solid.height > farthest.get(solid.owner, solid).height or solid.owner not in farthest:
            farthest[solid.owner] = solid
    for solid in farthest.values():
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
    named = {word.owner for word in survey.words if _says_earth(survey, word)}
    return [
        part
        for part in survey.panel.parts
        if _bonds(part) or (part.ref in named and not _is_mains(part) and not part.component.positions)
    ]


def _bonds(part: Part) -> bool:
    """Whether a part is a terminal of the protective conductor by its circuit."""
    circuit = part.component.circuit
    return circuit is not None and circuit.kind is CircuitKind.PROTECTIVE_EARTH


def _says_earth(survey: Survey, word: Words) -> bool:
    return any(
        means.text.casefold() in EARTH
        for means in survey.meaning(word).meanings()
        if isinstance(means, Word | Symbol | Designation)
    )


def _conducts(material: str) -> bool:
    name = material.casefold()
    return not any(part in name for part in _PLASTIC) and "abs" not in name.replace("-", " ").replace("/", " ").split()


def _earthed_mains(survey: Survey) -> list[Part]:
    if not _conducts(survey.panel.sheet.material):
        return []
    return [part for part in survey.panel.parts if _is_mains(part) and _EARTHED in part.component.cautions]


def _is_mains(part: Part) -> bool:
    """Whether a part is an inlet or an outlet of the mains."""
    return not {_INLET, _OUTLET}.isdisjoint(part.component.cautions)


@rule(
    Severity.WARNING,
    says="{subject}: mains connector on a panel of {other} without a protective earth terminal",
    fix="Add an earth stud or a screw with an earth legend, or waive this if the panel is bonded to earth elsewhere.",
)
def earth_terminal_missing(survey: Survey) -> Iterator[Observation]:
    """A metal panel with an earthed mains inlet or outlet has no terminal to bond the metal to earth.

    A part counts whose circuit is protective earth, as that of the catalogue's earth studs; and any part whose legend
    reads EARTH, PE or GROUND, or the like in another language, or has the earth symbol.

    Source: IEC 61010-1, 6.5.2, bonding of accessible metal (from memory).
    Fix: an earth stud, or a waiver that says where the bond is.
    Fails: an inlet alone on a steel panel.
    Passes: an inlet and a stud.
    """
    if _earth_terminals(survey):
        return
    for part in _earthed_mains(survey):
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
    says="{subject}: protective earth terminal is {measured} from mains connector {other}; maximum {limit}",
    fix="Move the earth terminal to within {limit} of {other}.",
    limits=("earth.far.maximum",),
)
def earth_terminal_far(survey: Survey) -> Iterator[Observation]:
    """The protective earth terminal is far from the mains inlet or outlet.

    Measured from centre to centre.

    Source: common practice: a short wire, in sight of the inlet.
    Fix: move the terminal.
    Fails: a stud 151 mm from the inlet.
    Passes: a stud 150 mm from the inlet.
    """
    limit = survey.limits["earth.far.maximum"]
    terminals = _earth_terminals(survey)
    for part in _earthed_mains(survey):
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
