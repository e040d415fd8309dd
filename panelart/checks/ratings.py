"""Ratings that a panel prints: whether complete, plausible, and in agreement with each other and with their parts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import Decimal
from typing import Final, NamedTuple

from panelart.checks.findings import Observation
from panelart.checks.rule import rule
from panelart.checks.survey import Survey, Words
from panelart.diagnostics import Severity
from panelart.figure import Figure
from panelart.geometry import Box
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.model.circuit import Circuit, CircuitKind
from panelart.model.component import EnvelopeRole
from panelart.model.motion import SURE, MotionKind
from panelart.model.panel import Part
from panelart.texts.quantities import Quantity, Size, ends
from panelart.texts.rating_reading import breaker_of, fuse_of, stated_supplies, supply_of
from panelart.texts.ratings import BreakerRating, FuseRating, Nature, SupplyRating, written
from panelart.texts.runs import Designation, Mark, Meaning, Space, Text, Word
from panelart.texts.units import UNITS
from panelart.texts.words import BLOWS, FUSE, MAINS

_INLET: Final = "mains-inlet"
_FUSE: Final = "fuse"
_OUTLET: Final = "mains-outlet"
_BREAKER: Final = "breaker"
"""Keys of cautions by which the catalogue marks such parts."""

_NEAR: Final = 1e-6
_NOT_IN_SERIES: Final = "texts.current-not-in-series"

_COUPLERS: Final = {
    "C6": (2.5, 2.5), "C8": (2.5, 2.5), "C14": (10.0, 15.0), "C16": (10.0, 15.0), "C18": (10.0, 10.0),
    "C20": (16.0, 20.0), "C22": (16.0, 20.0), "C24": (16.0, 20.0),
}  # fmt: skip
"""Amperes of appliance inlets by IEC 60320-1, and at North American voltages by UL 60320-1 (both from memory)."""

_AMERICAN: Final = 130.0
"""Volts up to which a mains is North American, with its tolerance."""

_MAINS_RISES: Final = 1.1
"""A mains rises by 10 % above its nominal voltage (IEC 60038), which a rating at 110 or 240 V allows for."""


def _with_caution(survey: Survey, caution: str) -> list[Part]:
    return [part for part in survey.panel.parts if caution in part.component.cautions]


# --- fuses


class _Fuse(NamedTuple):
    """The rating that is printed at the holder of a fuse, or at a circuit breaker."""

    holder: Part
    word: Words
    rating: FuseRating | BreakerRating
    missing: tuple[Message, ...] = ()


_BREAKING: Final = frozenset("lhe")


def _explicit(text: Text) -> bool:
    return any(isinstance(means, FuseRating) for means in text.meanings())


def _alone(text: Text, ref: str) -> bool:
    """Whether a text says nothing but figures, the word fuse, its characteristic and the ref of the holder."""
    return all(
        isinstance(run.means, Space | Mark | Quantity | FuseRating)
        or (isinstance(run.means, Word) and run.means.text.casefold() in FUSE | BLOWS.keys() | _BREAKING)
        or (isinstance(run.means, Designation) and run.means.text == ref)
        for run in text.runs
    )


def _counts(survey: Survey, part: Part, word: Words, text: Text) -> bool:
    """Whether words that are not the holder's own may be its rating.

    What belongs to another part or has words of its own is the rating of something else, unless it is no mere current.
    """
    owner = survey.panel.by_ref.get(word.owner)
    if owner is not None and _FUSE in owner.component.cautions:
        return False
    return _explicit(text) or (owner is None and _alone(text, part.ref))


def _distance(survey: Survey, ref: str, word: Words) -> float:
    return min((solid.box.gap(word.box) for solid in survey.front if solid.owner == ref), default=math.inf)


def _told(survey: Survey, part: Part, holders: list[Part]) -> _Fuse | None:
    """The most complete rating at a holder: in a legend of its own, else in one near it that is nearer to no other."""
    near = survey.limits["rating.near.maximum"].value
    found: list[FuseRating] = []
    of: list[Words] = []
    for word in survey.words:
        text = survey.meaning(word)
        rating = fuse_of(text)
        if rating is None:
            continue
        if word.owner != part.ref:
            distance = _distance(survey, part.ref, word)
            nearest = all(distance <= _distance(survey, other.ref, word) for other in holders)
            if distance > near or not nearest or not _counts(survey, part, word, text):
                continue
        found.append(rating)
        of.append(word)
    if not found:
        return None
    best = min(range(len(found)), key=lambda each: (of[each].owner != part.ref, len(found[each].missing)))
    return _Fuse(part, of[best], found[best], found[best].missing)


def _fuses(survey: Survey) -> list[_Fuse]:
    holders = _with_caution(survey, _FUSE)
    told = (_told(survey, part, holders) for part in holders)
    return [fuse for fuse in told if fuse is not None]


def _breakers(survey: Survey) -> list[_Fuse]:
    """The circuit breakers whose legends have a rating."""
    found = []
    for part in _with_caution(survey, _BREAKER):
        for word in survey.words:
            rating = breaker_of(survey.meaning(word.text)) if word.owner == part.ref else None
            if rating is not None:
                found.append(_Fuse(part, word, rating))
                break
    return found


def _of_fuse(survey: Survey, fuse: _Fuse, faults: list[Message], severity: Severity | None = None) -> Observation:
    return Observation(
        refs=(fuse.holder.ref,),
        place=fuse.word.box,
        where=fuse.word.where,
        subject=survey.part(fuse.holder.ref),
        other=said.faults(faults=faults),
        severity=severity,
    )


@rule(
    Severity.WARNING,
    says="{subject}: no legend gives the fuse rating",
    fix="Print characteristic, current, breaking capacity and voltage beside the fuse holder, such as T 1 A L 250 V.",
    limits=("rating.near.maximum",),
)
def fuse_rating_missing(survey: Survey) -> Iterator[Observation]:
    """No legend near a fuse holder gives the rating of the fuse.

    A legend of the part itself counts at any distance; any other legend counts for the nearest holder, when it is near
    and is no legend of another part. The mains rating is no fuse rating. Local codes and licensed practice decide what
    must be marked.

    Source: IEC 61010-1, 5.1.4 (from memory); IEC 60127-1, clause 6, for the forms of a rating (from memory).
    Fix: print the rating.
    Fails: a fuse holder with the legend F1; with RS-232 A.
    Passes: a fuse holder with the legend T 1 A L 250 V, T1AL250V or 1 A.
    """
    holders = _with_caution(survey, _FUSE)
    for part in holders:
        if _told(survey, part, holders) is None:
            yield Observation(refs=(part.ref,), place=part.at, where=part.where, subject=survey.part(part.ref))


fuse_rating_missing.cases(
    """
    parts: [{ref: F1, part: fuse-5x20, at: [60, 50], legend: __}]
    """,
    fails="RS-232 A",
    passes="T 1 A L 250 V",
)


@rule(
    Severity.NOTE,
    says="{subject}: fuse rating incomplete: {other}",
    fix="Print the rating as the fuse has it, such as T 1 A L 250 V (IEC 60127), gG 16 A 400 V (IEC 60269) or "
    "32 V 10 A (ISO 8820).",
    limits=("rating.near.maximum",),
)
def fuse_rating_incomplete(survey: Survey) -> Iterator[Observation]:
    """The rating beside a fuse holder lacks a piece.

    A complete rating has characteristic, current, breaking capacity and voltage, so that the right fuse can be bought
    from the panel alone. Fuses of IEC 60269 (gG, aM) have no letter for the breaking capacity, and those of road
    vehicles (32 V, 58 V and 80 V) neither letter; those of American series such as MDL and AGC have neither either, and
    it is said that the series decides. Words for the characteristic count, such as slow-blow. Local codes and licensed
    practice decide what must be marked.

    Source: IEC 61010-1, 5.1.4; IEC 60127-1, clause 6, the marking of fuse-links; IEC 60269-1; ISO 8820 (all from
    memory).
    Fix: print what is missing.
    Fails: T 1 A; T6.3; gG 16 A.
    Passes: T 1 A L 250 V; T1AL250V; gG 16 A 400 V; 32 V 10 A.
    """
    for fuse in _fuses(survey):
        if fuse.missing:
            yield _of_fuse(survey, fuse, list(fuse.missing))


fuse_rating_incomplete.cases(
    """
    parts: [{ref: F1, part: fuse-5x20, at: [60, 50], legend: __}]
    """,
    fails="T 1 A",
    passes="T1AL250V",
)


@rule(
    Severity.WARNING,
    says="{subject}: fuse rating implausible: {other}",
    fix="Print the rating as the fuse or breaker has it, such as T 3.15 A L 250 V (IEC 60127), gG 16 A 400 V "
    "(IEC 60269), 32 V 10 A (ISO 8820) or C 16 A (IEC 60898).",
    limits=("rating.near.maximum",),
)
def fuse_rating_implausible(survey: Survey) -> Iterator[Observation]:
    """The rating beside a fuse holder or circuit breaker is none that such a part has.

    A lost decimal point or prefix makes a fuse that does not protect: T 315 A for T 3.15 A or T 315 mA. A current that
    is only in no series of IEC is a note, since other standards have other series. Beside a breaker, C16 is a current
    with a characteristic, and no appliance coupler. A holder of 5 x 20 or 6.3 x 32 takes no gG or aM, and no current
    above that of its catalogue entry. Local codes and licensed practice decide which fuse is right.

    Source: IEC 60127-2 to -7, IEC 60269-1, ISO 8820-3 to -5 and IEC 60898-1, current series and highest ratings (from
    memory).
    Fix: print the right figure.
    Fails: T 315 A L 250 V; C 17 A beside a breaker.
    Passes: T 3.15 A L 250 V; T 315 mA L 250 V; C 16 A beside a breaker.
    """
    for fuse in (*_fuses(survey), *_breakers(survey)):
        problems = [*fuse.rating.problems, *_against_holder(survey, fuse)]
        if problems:
            mild = all(problem.id == _NOT_IN_SERIES for problem in problems)
            yield _of_fuse(survey, fuse, problems, Severity.NOTE if mild else None)


fuse_rating_implausible.cases(
    """
    parts: [{ref: F1, part: fuse-5x20, at: [60, 50], legend: __}]
    """,
    fails="T 315 A L 250 V",
    passes="T 315 mA L 250 V",
)


@rule(
    Severity.WARNING,
    says="{subject}: {other}",
    fix="Check which of the figures is right, and print that one. Local codes and licensed practice decide.",
    limits=("rating.near.maximum", "fuse.over.maximum"),
)
def fuse_rating_contradictory(survey: Survey) -> Iterator[Observation]:
    """The rating of a mains fuse or breaker contradicts the mains rating, the inlet or the mains switch.

    The fuse must carry the rated current, and at most twenty times that, or it is there for something else; its voltage
    must be at least that of the mains, and its current at most that of the inlet and the switch. Fuses of the mains are
    those in the inlet; else the holders of the panel, when all have one rating; on a panel without fuses so are its
    circuit breakers. The current of an inlet or switch is that of its appliance coupler, else of its circuit where that
    is rated at the voltage of the mains, else of its title or note; for a switch that of its legend where it is more. A
    mains switch is one that is named so. The rule compares figures only: local codes and licensed practice decide which
    fuse is right.

    Source: IEC 60320-1, rated currents of appliance couplers (from memory); common practice.
    Fix: the right figure, or another part.
    Fails: T 100 mA L 250 V on a panel with the rating 230 V ~ 50 Hz 2 A; T 16 A at an inlet C14.
    Passes: T 2.5 A L 250 V there.
    """
    inlets = _with_caution(survey, _INLET)
    if not inlets:
        return
    plate = _plate(survey)
    for fuse in _mains_fuses(survey):
        faults = [*_against_plate(survey, fuse.rating, plate), *_against_parts(survey, fuse, inlets, plate)]
        if faults:
            yield _of_fuse(survey, fuse, faults)


fuse_rating_contradictory.cases(
    """
    parts:
      - {ref: J1, part: iec-c14, at: [50, 50], legend: 230 V ~ 50 Hz 2 A}
      - {ref: F1, part: fuse-5x20, at: [120, 50], legend: T __ L 250 V}
    """,
    fails="100 mA",
    passes="2.5 A",
)
fuse_rating_contradictory.cases(
    """
    parts:
      - {ref: J1, part: iec-c14, at: [50, 50], legend: 230 V ~ 50 Hz 2 A}
      - {ref: F1, part: fuse-5x20, at: [120, 50], legend: T __ H 250 V}
    """,
    fails="16 A",
    passes="10 A",
)


_CARTRIDGES: Final = (frozenset({5.0, 20.0}), frozenset({6.3, 32.0}))
"""Sizes of the fuses of IEC 60127, in mm (from memory)."""


def _against_holder(survey: Survey, fuse: _Fuse) -> Iterator[Message]:
    """What a holder of miniature fuses does not take; that of an inlet is told by `fuse_rating_contradictory`."""
    component, rating = fuse.holder.component, fuse.rating
    sizes = [means.sides for means in survey.meaning(component.title).meanings() if isinstance(means, Size)]
    if not any(frozenset(map(float, sides)) in _CARTRIDGES for sides in sizes):
        return
    part = survey.part(fuse.holder.ref)
    if isinstance(rating, FuseRating) and not rating.miniature:
        yield said.characteristic_not_held(characteristic=rating.characteristic, part=part)
    most = _most(component.circuit.amps) if component.circuit is not None else None
    in_inlet = _INLET in component.cautions
    if not in_inlet and most is not None and rating.current is not None and rating.current.base > most * (1 + _NEAR):
        yield said.current_above_part(current=written(rating.current), limit=f"{most:g} A", part=part)


def _most(figure: Figure | None) -> float | None:
    """The most that a rating of the catalogue is met with; None where nobody has said."""
    return None if figure is None else figure.value if figure.span is None else figure.span[1]


def _mains_fuses(survey: Survey) -> list[_Fuse]:
    fuses = _fuses(survey)
    inside = [fuse for fuse in fuses if _INLET in fuse.holder.component.cautions]
    if inside:
        return inside
    holders = _with_caution(survey, _FUSE)
    protecting = fuses if holders else _breakers(survey)
    every = len(protecting) == len(holders or _with_caution(survey, _BREAKER))
    return protecting if every and len({fuse.rating for fuse in protecting}) == 1 else []


def _against_plate(survey: Survey, rating: FuseRating | BreakerRating, plate: SupplyRating | None) -> Iterator[Message]:
    if plate is None or plate.voltage is None:
        return
    current = _rated(plate)
    if rating.current is not None and current is not None and current.base > 0:
        times, most = rating.current.base / current.base, survey.limits["fuse.over.maximum"].value
        if times < 1 - _NEAR:
            yield said.current_below_rating(current=written(rating.current), rated=written(current))
        elif times > most * (1 + _NEAR) and isinstance(rating, FuseRating):
            yield said.current_far_above_rating(
                current=written(rating.current), times=f"{times:.3g}", rated=written(current), limit=f"{most:g}"
            )
    mains = ends(plate.voltage)[0 if plate.phases == 3 else 1]
    if rating.voltage is not None and rating.voltage.base < mains * (1 - _NEAR):
        yield said.voltage_below_mains(voltage=written(rating.voltage), mains=f"{mains:g} V")


def _rated(plate: SupplyRating) -> Quantity | None:
    """The current that a supply rating gives, or that its power draws at the lowest voltage."""
    if plate.current is not None:
        return Quantity(Decimal(f"{ends(plate.current)[1]:g}"), UNITS["A"])
    if plate.voltage is None or plate.power is None:
        return None
    volts = ends(plate.voltage)[1] * math.sqrt(3) if plate.phases == 3 else ends(plate.voltage)[0]
    return Quantity(Decimal(f"{ends(plate.power)[1] / volts:.3g}"), UNITS["A"]) if volts > 0 else None


def _against_parts(survey: Survey, fuse: _Fuse, inlets: list[Part], plate: SupplyRating | None) -> Iterator[Message]:
    current = fuse.rating.current
    if current is None:
        return
    for part in [*inlets, *_mains_switches(survey)]:
        limit = _limit(survey, part, plate)
        if limit is not None and current.base > limit * (1 + _NEAR):
            yield said.current_above_part(current=written(current), limit=f"{limit:g} A", part=survey.part(part.ref))


def _mains_switches(survey: Survey) -> Iterator[Part]:
    """Switches that are named as those of the mains."""
    switches = {MotionKind.LEVER, MotionKind.ROCKER, MotionKind.PUSH}
    for part in survey.panel.parts:
        if part.component.motion.kind in switches and part.legend is not None and _FUSE not in part.component.cautions:
            meanings = survey.meaning(part.legend).meanings()
            if any(isinstance(means, Word) and means.text.casefold() in MAINS for means in meanings):
                yield part


def _limit(survey: Survey, part: Part, plate: SupplyRating | None) -> float | None:
    """Amperes of a part at the mains of the panel; None where nobody has said.

    Those of an appliance coupler by its standard; else those of the part's circuit, or of its title or note, or what a
    switch has in its own legend where that is more: it is of the switch that was bought.
    """
    american = plate is not None and plate.voltage is not None and ends(plate.voltage)[1] <= _AMERICAN
    inlet = _INLET in part.component.cautions
    meanings = _meanings(survey, part.component.title, part.component.note)
    for means in meanings:
        if inlet and isinstance(means, Designation) and means.text in _COUPLERS:
            return _COUPLERS[means.text][american]
    rated = _rated_at(part.component.circuit, plate)
    given = [rated] if rated is not None else _amperes(meanings)[:1]
    if not inlet and part.legend is not None:
        given += _amperes(_meanings(survey, part.legend.whole))[:1]
    return max(given, default=None)


def _rated_at(circuit: Circuit | None, plate: SupplyRating | None) -> float | None:
    """Amperes of a circuit's rating where it is one at the voltage of the mains; None where it is not.

    Contacts carry more at half the voltage and less at twice it, so that a rating at 250 V says nothing at 120 V.
    """
    if circuit is None or circuit.amps is None or circuit.amps.known not in SURE:
        return None
    if circuit.volts is None or plate is None or plate.voltage is None:
        return circuit.amps.value
    mains = ends(plate.voltage)[1]
    alike = circuit.volts.value >= mains / _MAINS_RISES and (mains > _AMERICAN or circuit.volts.value <= _AMERICAN)
    return circuit.amps.value if alike else None


def _meanings(survey: Survey, *texts: str) -> list[Meaning]:
    return [means for text in texts for means in survey.meaning(text).meanings()]


def _amperes(meanings: list[Meaning]) -> list[float]:
    return [current.base for means in meanings if (current := _ampere(means)) is not None]


def _ampere(means: Meaning) -> Quantity | None:
    """The current that a run gives: 6 A, or 250 V 6 A of a switch."""
    current = means.current if isinstance(means, SupplyRating) else means
    return current if isinstance(current, Quantity) and current.dimension == UNITS["A"].dimension else None


# --- supplies


def _supplies(survey: Survey) -> list[tuple[Words, SupplyRating]]:
    """What legends say of the mains: those of the inlets, and of no fuse, outlet, low voltage or direct current."""
    inlets = {part.ref for part in _with_caution(survey, _INLET)}
    others = {part.ref for part in survey.panel.parts if _has_other_supply(part)} - inlets
    found = []
    for word in survey.words:
        rating = supply_of(survey.meaning(word)) if word.owner not in others else None
        if rating is not None and (word.owner in inlets or _states_mains(survey.meaning(word), rating)):
            found.append((word, rating))
    return found


def _has_other_supply(part: Part) -> bool:
    """Whether what is written at a part is of a fuse, an outlet or a low voltage."""
    return not {_FUSE, _OUTLET}.isdisjoint(part.component.cautions) or _is_low_voltage(part)


def _states_mains(text: Text, rating: SupplyRating) -> bool:
    """Whether a text away from any inlet states the rating of a mains: more than a voltage, no DC, and no output."""
    stated = stated_supplies(text)
    if stated:
        return not stated[0][1] and rating.nature is not Nature.DC
    # A sign that nobody knows stands among the figures; what is there counts all the same.
    more = any(each is not None for each in (rating.frequency, rating.current, rating.power))
    return more and rating.voltage is not None and ends(rating.voltage)[1] >= _LOW_AC


def _plate(survey: Survey) -> SupplyRating | None:
    """The mains rating: the one that lacks least, and none that lacks its kind or frequency."""
    found = [rating for _, rating in _supplies(survey) if rating.frequency is not None or rating.nature is not None]
    return min(found, key=lambda rating: len(rating.missing), default=None)


@rule(
    Severity.WARNING,
    says="{subject}: mains rating incomplete: {other}",
    fix="Print voltage, frequency, and power or current in one legend.",
    limits=("rating.near.maximum",),
)
def mains_rating_missing(survey: Survey) -> Iterator[Observation]:
    """No legend on a panel with a mains inlet gives the complete mains rating, or none at an outlet that of the outlet.

    The figures must be in one legend, and the legend of a fuse does not count, nor one of direct current that is not at
    the inlet, nor away from it one of an output. A frequency says that the current alternates. Local codes and licensed
    practice decide what must be marked. At an outlet its maximum current or power is enough, and without an inlet its
    voltage.

    Source: IEC 61010-1, 5.1.3: voltage, frequency, and power or current; at an outlet voltage and maximum current or
    power (from memory).
    Fix: print the rating.
    Fails: an inlet with the legend MAINS.
    Passes: an inlet with the legend 100-240 V ~ 50/60 Hz 40 W.
    """
    told = [rating.missing for _, rating in _supplies(survey)]
    missing = min([*told, SupplyRating().missing], key=len)
    lacking = [(part, missing) for part in _with_caution(survey, _INLET)]
    lacking += [(part, _lacking_at_outlet(survey, part)) for part in _outlets(survey)]
    for part, faults in lacking:
        if faults:
            yield Observation(
                refs=(part.ref,),
                place=part.at,
                where=part.where,
                subject=survey.part(part.ref),
                other=said.faults(faults=list(faults)),
            )


def _outlets(survey: Survey) -> list[Part]:
    """The outlets that are no inlets as well."""
    return [part for part in _with_caution(survey, _OUTLET) if _INLET not in part.component.cautions]


def _rates_outlet(survey: Survey, word: Words) -> bool:
    """Whether words have a current or power; and a voltage, unless that of an inlet is passed on."""
    text = survey.meaning(word)
    drawn = {figure.dimension for figure in _single_figures(text)}
    if _with_caution(survey, _INLET) and not drawn.isdisjoint((UNITS["A"].dimension, UNITS["W"].dimension)):
        return True
    rating = supply_of(text)
    return rating is not None and rating.voltage is not None and not (rating.current is None and rating.power is None)


def _lacking_at_outlet(survey: Survey, part: Part) -> tuple[Message, ...]:
    """What legends near an outlet lack of its rating: voltage, and power or current."""
    near = survey.limits["rating.near.maximum"].value
    free = [word for word in survey.words if word.owner not in survey.panel.by_ref]
    words = [word for word in survey.words if word.owner == part.ref]
    words += [word for word in free if _distance(survey, part.ref, word) <= near]
    if any(_rates_outlet(survey, word) for word in words):
        return ()
    return (said.outlet_unrated(),)


mains_rating_missing.cases(
    """
    parts: [{ref: J1, part: iec-c14, at: [60, 40], legend: __}]
    """,
    fails="MAINS",
    passes="100-240 V ~ 50/60 Hz 40 W",
)
mains_rating_missing.cases(
    """
    parts:
      - {ref: J1, part: iec-c14, at: [60, 40], legend: 230 V ~ 50 Hz 400 W}
      - {ref: J2, part: iec-f-outlet, at: [100, 40], legend: __}
    """,
    fails="OUT",
    passes="230 V ~ 50 Hz max. 2 A",
)


@rule(
    Severity.WARNING,
    says="{subject} contradicts itself or its part: {other}",
    fix="Check which of the figures is right, and print that one. Local codes and licensed practice decide.",
)
def supply_rating_contradictory(survey: Survey) -> Iterator[Observation]:
    """The rating of a supply contradicts itself, or the inlet that it is of.

    Direct current has no frequency; a range runs from low to high, but that of the current may run against that of the
    voltage; power is at most voltage times current at the lowest voltage, with 10 % for rounding. At an inlet or outlet
    of the mains the voltage alternates, is no extra-low voltage and at most that of the part, the frequency is one of
    mains, and the current is at most that of the inlet by its catalogue entry; what an outlet passes on is part of the
    mains rating. At a socket for extra-low voltage, the voltage is at most 50 V of alternating or 120 V of direct
    current. Away from the mains, only legends with current or power are ratings, and direct current with a frequency;
    but what is written by itself of alternating current is of the nearest inlet or outlet, unless it is of an output,
    or a part of another supply is nearer. The rule compares figures only: local codes and licensed practice decide.

    Source: IEC 61010-1, 5.1.3, and IEC 61293, marking of supplies; IEC 60320-1, rated currents and
    its scope, alternating current; IEC 61140, limits of extra-low voltage; IEC 62368-1, annex F, outlets (from memory).
    Fix: the right figures.
    Fails: 230 V DC 50 Hz 40 W; 240-100 V ~ 50 Hz 1 A; 24 V DC 2 A at a mains inlet; 230 V ~ 5 A at a DC socket.
    Passes: 230 V ~ 50 Hz 40 W; 100-240 V ~ 50/60 Hz 2.0-0.8 A.
    """
    for word in survey.words:
        faults = _faults_at(survey, survey.panel.by_ref.get(word.owner), word)
        if faults:
            yield Observation(
                refs=(word.owner,),
                place=word.box,
                where=word.where,
                subject=survey.named([word]),
                other=said.faults(faults=list(dict.fromkeys(faults))),
            )


supply_rating_contradictory.cases(
    """
    parts: [{ref: J1, part: iec-c14, at: [60, 40], legend: 230 V __ 40 W}]
    """,
    fails="DC 50 Hz",
    passes="~ 50 Hz",
)
supply_rating_contradictory.cases(
    """
    parts: [{ref: J1, part: iec-c14, at: [60, 40], legend: 230 V ~ 50 Hz __}]
    """,
    fails="16 A",
    passes="10 A",
)


supply_rating_contradictory.cases(
    """
    parts: [{ref: J1, part: iec-c14, at: [60, 40], legend: __ 2 A}]
    """,
    fails="24 V DC",
    passes="230 V ~ 50 Hz",
)
supply_rating_contradictory.cases(
    """
    parts: [{ref: J1, part: iec-c14, at: [40, 50]}]
    texts: [{text: __, at: [40, 14], anchor: centre, style: note}]
    """,
    fails="230 V ~ 50 Hz 16 A",
    passes="230 V ~ 50 Hz 10 A",
)
supply_rating_contradictory.cases(
    """
    parts: [{ref: J1, part: dc-jack, at: [60, 40], legend: __ 2 A}]
    """,
    fails="230 V ~",
    passes="24 V DC",
)


def _faults_at(survey: Survey, part: Part | None, word: Words) -> list[Message]:
    """What is wrong with the supplies that words of a part give."""
    text = survey.meaning(word)
    faults: list[Message] = []
    for rating, gives in stated_supplies(text):
        at = part or _nearest_of_mains(survey, word, rating, gives=gives)
        faults += _against_itself(at, rating)
        if at is not None:
            faults += _against_part(survey, at, rating)
    if part is not None and _OUTLET in part.component.cautions and _INLET not in part.component.cautions:
        faults += _above_plate(survey, text)
    return faults


def _nearest_of_mains(survey: Survey, word: Words, rating: SupplyRating, *, gives: bool) -> Part | None:
    """The inlet or outlet whose rating words are that stand by themselves; None where they are of something else.

    A rating of an output is of an outlet only. What has a frequency is of a mains wherever it stands, unless a part of
    another supply is nearer; what says no more than that it alternates has to stand nearer to the inlet than to any
    other part, but for those of earth and the fuses.
    """
    anywhere = rating.frequency is not None
    if rating.nature is Nature.DC or not (rating.nature or anywhere):
        return None
    rated = [part for part in survey.panel.parts if _is_at_mains(part) or _may_be_rated(part, anywhere=anywhere)]
    nearest = min(rated, key=lambda part: _reach(survey, part, word), default=None)
    if nearest is None or not _is_at_mains(nearest):
        return None
    return nearest if not gives or _OUTLET in nearest.component.cautions else None


def _reach(survey: Survey, part: Part, word: Words) -> float:
    """Millimetres from words to a part, to its middle where nothing of it stands out of the panel."""
    middle = Box(part.at.x, part.at.y, part.at.x, part.at.y)
    return min(_distance(survey, part.ref, word), middle.gap(word.box))


def _may_be_rated(part: Part, *, anywhere: bool) -> bool:
    """Whether words near a part may be of its supply; `anywhere` where they are of a mains, unless it has its own."""
    circuit, cautions = part.component.circuit, part.component.cautions
    if circuit is not None and circuit.kind in (CircuitKind.PROTECTIVE_EARTH, CircuitKind.FUNCTIONAL_EARTH):
        return False
    if anywhere or _FUSE in cautions or _BREAKER in cautions:
        return circuit is not None and circuit.kind in _OTHER_SUPPLIES and _FUSE not in cautions
    return True


_OTHER_SUPPLIES: Final = (CircuitKind.LOW_VOLTAGE, CircuitKind.HAZARDOUS)


def _is_at_mains(part: Part) -> bool:
    """Whether a part is an inlet or an outlet of the mains."""
    return not {_INLET, _OUTLET}.isdisjoint(part.component.cautions)


def _against_itself(part: Part | None, rating: SupplyRating) -> Iterator[Message]:
    """Where the figures of a rating contradict each other, or are of no mains although it is at one."""
    if part is not None and _is_at_mains(part):
        yield from rating.problems
    elif _is_rating(rating):
        # It is the output of something: a drive, a heater, ultrasound.
        yield from (each for each in rating.problems if each.id != _NO_FREQUENCY_OF_MAINS)


def _against_part(survey: Survey, part: Part, rating: SupplyRating) -> Iterator[Message]:
    """What a rating says that the part at which it stands does not take or give."""
    if _is_at_mains(part):
        yield from _against_mains(survey, part, rating)
    if _INLET in part.component.cautions:
        yield from _above_inlet(survey, part, rating)
    if _is_low_voltage(part):
        yield from _above_low_voltage(survey, part, rating)


_NO_FREQUENCY_OF_MAINS: Final = "texts.frequency-not-plausible"

_LOW_AC: Final = 50.0
_LOW_DC: Final = 120.0
"""Volts to which extra-low voltage goes, alternating and direct (IEC 61140, from memory)."""


def _is_low_voltage(part: Part) -> bool:
    """Whether a part is a socket that takes a plug, for extra-low voltage."""
    component = part.component
    plugged = any(envelope.role is EnvelopeRole.PLUG for envelope in component.front)
    return plugged and component.circuit is not None and component.circuit.kind is CircuitKind.LOW_VOLTAGE


def _above_low_voltage(survey: Survey, part: Part, rating: SupplyRating) -> Iterator[Message]:
    if rating.voltage is None:
        return
    alternating = rating.nature is Nature.AC or rating.frequency is not None
    limit = _LOW_AC if alternating else _LOW_DC
    assert part.component.circuit is not None
    own = _most(part.component.circuit.volts)
    if ends(rating.voltage)[1] > max(limit, own or 0.0) * (1 + _NEAR):
        kind = "AC" if alternating else "DC"
        yield said.above_extra_low(
            voltage=written(rating.voltage), limit=f"{limit:g} V {kind}", part=survey.part(part.ref)
        )


def _against_mains(survey: Survey, part: Part, rating: SupplyRating) -> Iterator[Message]:
    """What no inlet or outlet of the mains has: direct current, a low voltage, one above its own."""
    if rating.voltage is None:
        return
    voltage, named = written(rating.voltage), survey.part(part.ref)
    high = ends(rating.voltage)[1]
    if rating.nature is Nature.DC and rating.frequency is None:
        yield said.direct_at_mains(voltage=voltage, part=named)
    elif 0 < high < _LOW_AC:
        yield said.voltage_below_any_mains(voltage=voltage, part=named)
    circuit = part.component.circuit
    most = _most(circuit.volts) if circuit is not None else None
    if most is not None and high > most * (1 + _NEAR):
        yield said.voltage_above_part(voltage=voltage, limit=f"{most:g} V", part=named)


def _above_plate(survey: Survey, text: Text) -> Iterator[Message]:
    """What the words of an outlet give that is more than the mains rating, of which it is part."""
    plate = _plate(survey)
    rated = None if plate is None else _rated(plate)
    if plate is None or plate.voltage is None or rated is None:
        return
    phases = math.sqrt(3) if plate.phases == 3 else 1.0
    watts = ends(plate.voltage)[1] * rated.base * phases
    for drawn in _single_figures(text):
        if drawn.dimension == UNITS["A"].dimension and drawn.base > rated.base * (1 + _NEAR):
            yield said.drawn_above_rating(drawn=written(drawn), rated=written(rated))
        if drawn.dimension == UNITS["W"].dimension and drawn.base > watts * _ROUNDED:
            yield said.drawn_above_rating(drawn=written(drawn), rated=f"{watts:.3g} W")


def _single_figures(text: Text) -> Iterator[Quantity]:
    """The quantities of a text that stand alone, and those that are the current or the power of a rating."""
    for means in text.meanings():
        pieces = (means.current, means.power) if isinstance(means, SupplyRating) else (means,)
        yield from (each for each in pieces if isinstance(each, Quantity))


_ROUNDED: Final = 1.1
"""What rounding of the figures on a plate may make of volts by amperes."""


def _is_rating(rating: SupplyRating) -> bool:
    """Whether figures that stand elsewhere than at an inlet are a rating, and no range of an instrument."""
    measured = rating.current is not None or rating.power is not None
    return measured or (rating.nature is Nature.DC and rating.frequency is not None)


def _above_inlet(survey: Survey, inlet: Part, rating: SupplyRating) -> Iterator[Message]:
    limit = _limit(survey, inlet, rating)
    current = _rated(rating) if rating.voltage is not None else None
    if limit is not None and current is not None and current.base > limit * (1 + _NEAR):
        yield said.current_above_part(current=written(current), limit=f"{limit:g} A", part=survey.part(inlet.ref))
