"""Scales: round steps, marks that can be counted, values that increase clockwise, units."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final

from panelart.canonical import Struct
from panelart.checks.findings import Bound, Observation, Spot, place_of, refs_of
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.diagnostics import Severity, Where
from panelart.geometry import Box
from panelart.legends.graduations import THOUSANDS, graduations, numbered, shown
from panelart.lettering.breaks import letters_of
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.messages import checks_things as things
from panelart.model.panel import Law, LegendRequest, Part, Scale
from panelart.texts.multiples import multiple
from panelart.texts.runs import LoneUnit, Unsure
from panelart.texts.scale_units import is_label
from panelart.texts.unit_reading import told
from panelart.texts.words import listed


def _scaled(survey: Survey) -> Iterator[tuple[Part, Scale, Box]]:
    for part in survey.panel.parts:
        boxes = [mark.box for mark in survey.scale_marks if mark.owner == part.ref]
        box = Box.around(boxes) if boxes else Box(part.at.x, part.at.y, part.at.x, part.at.y)
        yield from ((part, scale, box) for scale in scales_of(part))


def scales_of(part: Part) -> list[Scale]:
    """The scales of a part, the inner one first."""
    return [scale for scale in (part.scale, part.outer_scale) if scale is not None]


def _numerals(survey: Survey, part: Part) -> set[str]:
    words = (*survey.words, *survey.dial_words)
    return {word.text for word in words if word.owner == part.ref and word.kind == "numeral"}


def _scale_words(refs: Sequence[str]) -> Message:
    """The scale of each of these parts, as a sentence names it that must be true of any of them."""
    if len(refs) == 1:
        return things.scale(ref=refs[0])
    return things.scales(refs=refs) if len(refs) == 2 else things.copied_scales()


def _counts_well(step: float) -> bool:
    share = step / 10.0 ** math.floor(math.log10(step) + 1e-9)
    return any(math.isclose(share, good, rel_tol=1e-9) for good in (1.0, 2.0, 5.0, 10.0))


@rule(
    Severity.WARNING,
    says="{subject}: values increase anticlockwise",
    fix="Let the values increase clockwise, or waive this with a reason (valves are the usual exception).",
)
def scale_runs_backwards(survey: Survey) -> Iterator[Observation]:
    """The values of a dial increase anticlockwise.

    Falling scales in dB are exempt: they tell attenuation, and what passes increases clockwise.

    Source: MIL-STD-1472E, 5.2.3.3.1 and 5.4.1.2.1: circular scales increase clockwise; valves are the exception.
    Fix: remove `direction: counter-clockwise`, or exchange `from` and `to`.
    Fails: a level that increases anticlockwise.
    Passes: the same level increasing clockwise.
    """
    for part, scale, box in _scaled(survey):
        attenuates = scale.falling and told(scale.unit.strip()).symbol == "dB"
        if scale.clockwise == scale.falling and scale.straight is None and not attenuates:
            yield Observation(refs=(part.ref,), place=box, where=scale.where, subject=things.scale(ref=part.ref))


scale_runs_backwards.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Level
        scale: {from: 0, to: 10, major: 1, direction: __}
    """,
    fails="counter-clockwise",
    passes="clockwise",
)


@rule(
    Severity.WARNING,
    says="{subject}: steps of {other}; must be 1, 2 or 5 times a power of ten",
    fix="Choose steps of 1, 2 or 5 times a power of ten.",
)
def scale_counts_oddly(survey: Survey) -> Iterator[Observation]:
    """The steps of a scale are not 1, 2 or 5 times a power of ten.

    Angles and times have steps of their own: scales in degrees, minutes, seconds and hours with steps of 3, 6, 15, 30,
    45, 60 or 90 are exempt, and those from 0 to 360 without a unit. Signals with a live zero are counted in quarters of
    their span: steps of 4 are exempt on scales of 4 to 20 mA and steps of 3 on those of 3 to 15 psi, on a half of them
    and where they begin at 0. So are logarithmic scales, those whose marks are given one by one, and those without
    numerals.

    Source: MIL-HDBK-759B, 5.2.2.3.1.3; ASME B40.100 the same. IEC 60381-1, 4 to 20 mA, and IEC 60382, 20 to 100 kPa,
    which is 3 to 15 psi (from memory).
    Fix: other steps.
    Fails: 0 to 30 in steps of 2.5 or 3.
    Passes: 0 to 30 in steps of 5 and 1.
    """
    for part, scale, box in _scaled(survey):
        if odd := _odd_steps(scale):
            yield Observation(
                refs=(part.ref,),
                place=box,
                where=scale.where,
                subject=things.scale(ref=part.ref),
                other=said.steps(steps=odd),
            )


scale_counts_oddly.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Voltage
        scale: {from: 0, to: 30, major: __, unit: V}
    """,
    fails="3",
    passes="5",
)


def _odd_steps(scale: Scale) -> list[float]:
    """The steps by which a scale of even steps does not count well."""
    if scale.law is not Law.LINEAR or scale.marks or scale.numerals == ():
        return []
    steps = [step for step in (scale.major, scale.intermediate, scale.minor) if step is not None and step > 0]
    round_ = told(scale.unit.strip()).symbol in _ROUND or (scale.low, scale.high) == _COMPASS
    exempt = _ROUND_STEPS if round_ else _quarters(scale)
    return [step for step in steps if not _counts_well(step) and step not in exempt]


class LiveZero(Struct, frozen=True):
    """A signal that begins above zero, so that a broken line is told from a low value: where it begins and ends."""

    low: float
    high: float


_LIVE_ZERO: Final[Mapping[str, LiveZero]] = {"mA": LiveZero(4.0, 20.0), "psi": LiveZero(3.0, 15.0)}
"""By unit. 4 to 20 mA: IEC 60381-1. 3 to 15 psi: 20 to 100 kPa of IEC 60382, in the older unit (both from memory)."""


def _quarters(scale: Scale) -> frozenset[float]:
    """The step by which a scale of a signal with a live zero counts: a quarter of its span, which is where it begins.

    The scale has all of the signal or one half, as where two valves share it, from its own zero or from 0.
    """
    signal = _LIVE_ZERO.get(told(scale.unit.strip()).symbol or "")
    if signal is None:
        return frozenset()
    middle = (signal.low + signal.high) / 2
    ends = {(low, high) for low in (0.0, signal.low) for high in (middle, signal.high)} | {(middle, signal.high)}
    return frozenset({signal.low}) if (scale.low, scale.high) in ends else frozenset()


_ROUND: Final = frozenset(listed("° deg min s h ′ ″"))
_COMPASS: Final = (0.0, 360.0)
"""From 0 to 360 all round are degrees, whether it says so or not."""

_ROUND_STEPS: Final = frozenset({3.0, 6.0, 15.0, 30.0, 45.0, 60.0, 90.0})


@rule(
    Severity.WARNING,
    says="{subject}: {measured} marks between two numbered marks; maximum {limit}",
    fix="Number more marks, or leave out marks.",
    limits=("marks.between.maximum",),
)
def scale_marks_uncounted(survey: Survey) -> Iterator[Observation]:
    """A scale has more marks between two numerals than can be counted at a glance.

    Looked at are marks that the spec asks for: those that it leaves open are never more.

    Source: MIL-HDBK-759B, 5.2.2.3.1.4.1: nine at most.
    Fix: more numerals, or fewer marks.
    Fails: marks at every 1, numerals at every 20.
    Passes: marks at every 1, numerals at every 10.
    """
    limit = survey.limits["marks.between.maximum"]
    for part, scale, box in _scaled(survey):
        if scale.subdivided:
            continue
        texts = {letters_of(text) for text in _numerals(survey, part)}
        bare = [letters_of(shown(scale, mark.value)) in texts for mark in graduations(scale) if mark.kind != "detent"]
        # Marks before the first numeral and after the last are counted from one side only, and do not count here.
        between = max((len(run) for run in _runs(bare)), default=0)
        if between > limit.value + ROUNDING:
            yield Observation(
                refs=(part.ref,),
                place=box,
                where=scale.where,
                subject=things.scale(ref=part.ref),
                measured=float(between),
                limit=limit,
                bound=Bound.MAXIMUM,
            )


scale_marks_uncounted.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Level
        scale: {from: 0, to: 100, major: 10, minor: 1, numerals: __}
    """,
    fails="[0, 20, 40, 60, 80, 100]",
    passes="[0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100]",
)


def _runs(numbered_marks: Sequence[bool]) -> list[Sequence[bool]]:
    """The runs of marks without a numeral between two with one."""
    places = [index for index, has in enumerate(numbered_marks) if has]
    return [numbered_marks[here + 1 : there] for here, there in pairwise(places)]


@rule(
    Severity.NOTE,
    says="{subject}: numerals of {measured} digits, such as {other}; maximum {limit}",
    fix="Give the scale a `multiplier`: numerals are divided by it, and the unit takes the prefix (kHz) or ×1000.",
    limits=("numeral.digits.maximum",),
)
def scale_numerals_long(survey: Survey) -> Iterator[Observation]:
    """The numerals of a scale have more digits than those of a value from 0.1 to 1000.

    Long numerals crowd a dial, leave marks without a numeral, and are counted rather than read. Counted are the digits
    that are printed, those behind the decimal point too. Copies of one scale are one finding.

    Source: NIST SP 811, 7.9: prefixes are best chosen so that values are between 0.1 and 1000, which is not mandatory.
    Fix: `multiplier: 1000` beside `unit: Hz` prints 20 for 20000 Hz, and kHz; or the spec itself in kHz.
    Fails: 0 to 100000 Hz.
    Passes: the same with `multiplier: 1000`, as 0 to 100 kHz.
    """
    limit = survey.limits["numeral.digits.maximum"]
    groups: dict[Where, list[tuple[Part, Scale, Box]]] = {}
    for part, scale, box in _scaled(survey):
        groups.setdefault(scale.where, []).append((part, scale, box))
    for where, found in groups.items():
        part, scale, _ = found[0]
        longest = max(_printed_numbers(survey, part, scale), key=_digits, default="")
        if _digits(longest) > limit.value + ROUNDING:
            spots = tuple(Spot(ref=one.ref, place=box, where=where) for one, _, box in found)
            yield Observation(
                refs=refs_of(spots),
                place=place_of(spots),
                where=where,
                subject=_scale_words(refs_of(spots)),
                other=said.numeral_named(numeral=longest),
                measured=float(_digits(longest)),
                limit=limit,
                bound=Bound.MAXIMUM,
                each=spots,
            )


scale_numerals_long.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Frequency
        scale: {from: 0, to: 100000, major: 50000, unit: Hz, multiplier: __}
    """,
    fails="1",
    passes="1000",
)


def _printed_numbers(survey: Survey, part: Part, scale: Scale) -> list[str]:
    """The numerals of a scale that are lettered, without its words."""
    texts = _numerals(survey, part)
    named = {value for value, _ in (*scale.words, *scale.signs)}
    numbers = [shown(scale, value) for values in numbered(scale) for value in values if value not in named]
    return [number for number in dict.fromkeys(numbers) if any(text.startswith(number) for text in texts)]


def _digits(text: str) -> int:
    return sum(sign.isdecimal() for sign in text)


@rule(
    Severity.WARNING,
    says="{subject}: numerals from {other} without a unit",
    fix="Give the scale a unit, with space for the unit at the open end of the scale.",
)
def scale_without_unit(survey: Survey) -> Iterator[Observation]:
    """A scale has numerals but no unit.

    Scales of pure numbers are exempt: those from 0 to 1, 10 or 100, and those from -n to +n. A unit that was asked for
    but had no space on the panel is a warning, a scale for which none was asked a note. Not reported when the part's
    name has the unit in brackets, or when no numeral is printed. Copies of one scale are one finding.

    Source: SI Brochure, 9th edition, 5.4.1: a value is a number and a unit; common practice.
    Fix: give the unit.
    Fails: a scale from 0 to 30 without V.
    Passes: the same scale with V; a level from 0 to 10.
    """
    groups: dict[tuple[Where, bool], list[tuple[Part, Scale, Box]]] = {}
    for part, scale, box in _scaled(survey):
        texts = _numerals(survey, part)
        named = any(_names_unit(survey, one) for one in part.names)
        if named or not _printed_numbers(survey, part, scale):
            continue
        left_out = bool(scale.unit) and not _has_unit(texts, scale.unit)
        if left_out or not (scale.unit or _is_pure(scale)):
            groups.setdefault((scale.where, left_out), []).append((part, scale, box))
    for (where, left_out), found in groups.items():
        spots = tuple(Spot(ref=part.ref, place=box, where=where) for part, _, box in found)
        _, scale, _ = found[0]
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=where,
            subject=_scale_words(refs_of(spots)),
            other=things.span(low=scale.low, high=scale.high),
            severity=None if left_out else Severity.NOTE,
            each=spots,
        )


scale_without_unit.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Voltage
        scale: {from: 0, to: 30, major: __}
    """,
    fails="5",
    passes="5, unit: V",
)


def _names_unit(survey: Survey, name: LegendRequest) -> bool:
    """Whether a unit stands in brackets in a name."""
    meant = survey.meaning(name)
    return any(
        isinstance(run.means, LoneUnit)
        or (isinstance(run.means, Unsure) and any(isinstance(each, LoneUnit) for each in run.means.readings))
        for run in meant.runs
        if meant.bracketed(run)
    )


def _has_unit(texts: set[str], unit: str) -> bool:
    """Whether a unit is lettered, by itself or behind a numeral, which may have given it its k or M."""
    units = [unit, *(f"{letter}{unit}" for letter, size in THOUSANDS if multiple(unit, size) == f"{letter}{unit}")]
    return any(
        text == one or (text.endswith(one) and text.removesuffix(one)[-1:] in _BEHIND)
        for text in texts
        for one in units
    )


_BEHIND: Final = frozenset("0123456789 \N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}")
"""What may stand before a unit behind its number."""


def _is_pure(scale: Scale) -> bool:
    """Whether a scale is one of pure numbers: from 0 to 1, 10 or 100, or from -n to +n."""
    return (scale.low == 0 and scale.high in {1.0, 10.0, 100.0}) or scale.low == -scale.high


@rule(
    Severity.NOTE,
    says="{subject}: unit {other} is unknown",
    fix="Write the symbol of a unit, or waive this where the unit is your own.",
)
def scale_unit_unknown(survey: Survey) -> Iterator[Observation]:
    """The unit of a scale looks like the symbol of a unit and is none.

    Words are exempt in any language, such as Turns: they are labels and no symbols. So are multipliers (x10) and forms
    of time (hh:mm), and what says more of a unit: V DC, V peak, bar (g). Copies of one scale are one finding.

    Source: SI Brochure, 9th edition; the other units that panels have, by common practice.
    Fix: the symbol as its standard writes it.
    Fails: a scale in vlt.
    Passes: a scale in V, in l/min or in rpm.
    """
    groups: dict[Where, list[tuple[Part, Scale, Box]]] = {}
    for part, scale, box in _scaled(survey):
        if scale.unit.strip() and not is_label(scale.unit):
            groups.setdefault(scale.where, []).append((part, scale, box))
    for where, found in groups.items():
        spots = tuple(Spot(ref=part.ref, place=box, where=where) for part, _, box in found)
        yield Observation(
            refs=refs_of(spots),
            place=place_of(spots),
            where=where,
            subject=_scale_words(refs_of(spots)),
            other=said.unit_named(unit=found[0][1].unit),
            each=spots,
        )


scale_unit_unknown.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Voltage
        scale: {from: 0, to: 30, major: 5, unit: __}
    """,
    fails="vlt",
    passes="V",
)
