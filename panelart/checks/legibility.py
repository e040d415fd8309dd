"""What a reader of stated eyesight, in stated light, takes one legend for another by."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.checks.findings import Bound, Observation, Spot, place_of
from panelart.checks.marking import height_at
from panelart.checks.misreading import MixUp, Seen, Slip, mix_ups, reading_place, reading_range, seen_words, slips
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.diagnostics import Severity
from panelart.messages import checks as said

_PERCENT: Final = 100.0


@rule(
    Severity.WARNING,
    says="{subject}: {measured} chance of being taken for {other}; maximum {limit}",
    fix="Use a larger cap height, bolder lettering, more contrast, or texts that differ in more characters.",
    limits=("confusion.maximum", "contrast.reflectance.minimum"),
)
def legends_easily_confused(survey: Survey) -> Iterator[Observation]:
    """Two legends of one panel look so alike from where it is read that one is taken for the other.

    Names and titles are compared with each other, and the positions of one part, where they differ in one or two
    characters: CH 3 and CH 8, or 5 and 6 of a switch. Both are blurred as the reader's eye does (`operator: {sight:
    ...}`: acuity, age, illuminance), at the distance and angle that they are read from, with the contrast of the ink on
    its ground; measured is the chance that one is taken for the other where no other could stand there. `panelart
    legibility` lists them all and shows them. Numerals of scales are told by their neighbours and not compared.

    Source: blur and noise so that letters of five times the resolved angle are at the limit of reading; acuity by
    luminance of Ikeda and others, light in the eye by age of Weale (1961).
    Fix: larger or bolder lettering, more contrast or light, or texts that differ in more characters.
    Fails: CH 3 and CH 8 of 3.5 mm, seen from 500 mm by an eye of acuity 0.35.
    Passes: the same names, seen by an eye of acuity 0.7.
    """
    limit = survey.limits["confusion.maximum"]
    seen = _seen(survey)
    for mixed in _each_once(mix_ups(seen)):
        if _PERCENT * mixed.chance > limit.value + ROUNDING:
            one, other = mixed.one, mixed.other
            spots = tuple(Spot(ref=words.owner, place=words.box, where=words.where) for words in (one, other))
            yield Observation(
                refs=tuple(dict.fromkeys((one.owner, other.owner))),
                place=place_of(spots),
                where=other.where,
                subject=survey.named([one]),
                other=survey.named([other]),
                measured=_PERCENT * mixed.chance,
                limit=limit,
                bound=Bound.MAXIMUM,
                each=spots,
            )


legends_easily_confused.cases(
    """
    operator: {sight: {acuity: __}}
    parts:
      - {ref: J1, part: bnc, at: [40, 50], legend: CH 3}
      - {ref: J2, part: bnc, at: [90, 50], legend: CH 8}
    """,
    fails="0.25",
    passes="0.7",
)


@rule(
    Severity.WARNING,
    says="{subject}: {measured} chance of a misread character ({other}); maximum {limit}",
    fix="Use a larger cap height, bolder lettering or more light.",
    limits=("misreading.maximum", "angle.read.minimum", "contrast.reflectance.minimum"),
)
def legend_easily_misread(survey: Survey) -> Iterator[Observation]:
    """A character of a legend looks so like another that the stated reader can hardly distinguish the two.

    Each letter and figure is compared with all that could stand there, as in legends-easily-confused: a figure within a
    number with the other figures, a letter within a word with the other letters, one by itself with all. Measured is
    the chance for the worst character. Cap heights below what the handbook asks for are reported by legend-too-small
    alone, weak contrast by legend-contrast-low; this rule is about acuity, age, light and oblique view. One finding for
    all legends of one style.

    Source: as legends-easily-confused. A chance of 25 percent is where lettering is at the limit of reading.
    Fix: larger or bolder lettering, or more light.
    Fails: a name of 3.5 mm seen from 500 mm by emergency lighting of 1 lux.
    Passes: the same name in 500 lux.
    """
    limit, angle = survey.limits["misreading.maximum"], survey.limits["angle.read.minimum"]
    least = height_at(angle.value, survey.panel.marking.viewing_distance)
    seen = [one for one in _seen(survey) if one.words.cap_height >= least - ROUNDING]
    groups: dict[str, list[Slip]] = {}
    for slip in slips(seen, least=limit.value / _PERCENT):
        groups.setdefault(slip.words.kind, []).append(slip)
    for group in groups.values():
        worst = group[0]
        words = list(dict.fromkeys(slip.words for slip in group))
        spots = tuple(Spot(ref=word.owner, place=word.box, where=word.where) for word in words)
        yield Observation(
            refs=tuple(dict.fromkeys(word.owner for word in words)),
            place=place_of(spots),
            where=worst.words.where,
            subject=survey.named(words),
            other=said.taken_for(character=worst.character, taken=worst.taken),
            measured=_PERCENT * worst.chance,
            limit=limit,
            bound=Bound.MAXIMUM,
            each=spots,
        )


legend_easily_misread.cases(
    """
    operator: {sight: {illuminance: __}}
    parts:
      - {ref: J1, part: bnc, at: [40, 50], legend: Output}
    """,
    fails="1",
    passes="500",
)


def _seen(survey: Survey) -> list[Seen]:
    """The legends as they are seen from where the spec has the eyes; not those that legend-contrast-low reports."""
    panel, contrast = survey.panel, survey.limits["contrast.reflectance.minimum"]
    seen = seen_words(survey, reading_place(panel, reading_range(panel)), panel.operator.sight)
    return [one for one in seen if _PERCENT * one.contrast >= contrast.value - ROUNDING]


def _each_once(mixed: list[MixUp]) -> Iterator[MixUp]:
    """The likeliest for each legend: one that looks like five others is told of once."""
    told: set[int] = set()
    for one in mixed:
        if id(one.other) not in told:
            told.add(id(one.other))
            yield one
