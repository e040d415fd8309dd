"""Numerals of scales: those that read as other numbers upside down, and marks of one's own that lost theirs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from panelart.catalogue.laws import usual_marks
from panelart.checks.findings import Observation
from panelart.checks.rule import rule
from panelart.checks.scales import scales_of
from panelart.checks.survey import Survey, Words
from panelart.diagnostics import Severity
from panelart.geometry import Box
from panelart.legends.graduations import closes, shown
from panelart.legends.scales import share_of
from panelart.lettering.breaks import letters_of
from panelart.messages import checks as said
from panelart.messages import checks_things as things
from panelart.model.panel import Part, Reading, Scale

ON_ITS_HEAD: Final = 90.0
"""A numeral that is turned by more, in degrees, has its head below level."""

ON_END: Final = 75.0
"""One along the radius that is turned by more stands on end beside one turned the other way. Common practice."""

_TURNED_DIGITS: Final = str.maketrans("01689", "01986")
_NEAR: Final = 1e-6


def turned_over(text: str) -> str | None:
    """The other number that a number is upside down, None where it is none: 66 is 99, 60 is 09, which nobody writes."""
    if set(text) - set("01689."):
        return None
    other = text.translate(_TURNED_DIGITS)[::-1]
    whole, point, tenths = other.partition(".")
    written = whole.isdecimal() and (whole == "0" or whole[0] != "0") and (tenths.isdecimal() or not point)
    return other if other != text and written else None


def _numerals(survey: Survey, part: Part, scale: Scale) -> list[Words]:
    """What is lettered at the marks of a scale."""
    return [
        word
        for word in (*survey.words, *survey.dial_words)
        if word.owner == part.ref and word.kind == "numeral" and word.where == scale.where
    ]


@rule(
    Severity.WARNING,
    says="{subject}: numerals that are other numbers upside down: {other}",
    fix="Set `reading: upright`, or leave these values without a numeral (`numerals`).",
)
def numeral_upside_down(survey: Survey) -> Iterator[Observation]:
    """A turned numeral of a dial is upside down or on end, and is another number upside down.

    Looked at are numerals along the circle that are turned by more than 90°, and numerals along the radius that are
    turned by more than 75°, beside which the next is turned the other way. Numbers with a leading zero are exempt: 60
    is 09 upside down, which nobody takes for a value.

    Source: MIL-STD-1472E, 5.2.3.3.1, upright numerals on fixed scales (from memory); common practice for the angle.
    Fix: level numerals; other numbered values.
    Fails: 6 along the circle below the shaft, which is read as 9.
    Passes: the same dial with level numerals.
    """
    for part in survey.panel.parts:
        for scale in scales_of(part):
            taken = _turned_over(survey, part, scale)
            if taken:
                yield Observation(
                    refs=(part.ref,),
                    place=Box.around([word.box for word, _ in taken]),
                    where=scale.where,
                    subject=things.scale(ref=part.ref),
                    other=said.read_upside_down(numbers=[f"{word.text} ({other})" for word, other in taken]),
                )


numeral_upside_down.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Level
        scale: {from: 6, to: 10, major: 1, sweep: 300, reading: __}
    """,
    fails="tangential",
    passes="upright",
)


def _turned_over(survey: Survey, part: Part, scale: Scale) -> list[tuple[Words, str]]:
    """The numerals of a dial that are on their heads or on end, and are other numbers upside down: those numbers."""
    if scale.turning is not None or scale.straight is not None or scale.reading is Reading.UPRIGHT:
        return []
    most = ON_ITS_HEAD if scale.reading is Reading.TANGENTIAL else ON_END
    return [
        (word, other)
        for word in _numerals(survey, part, scale)
        if abs((word.legend.turn + 180.0) % 360.0 - 180.0) > most + _NEAR
        and (other := turned_over(word.text)) is not None
    ]


@rule(
    Severity.WARNING,
    says="{subject}: no space for the numerals {other}",
    fix="Choose the numbered values with `numerals`, leave out marks, or draw the scale larger.",
)
def mark_without_numeral(survey: Survey) -> Iterator[Observation]:
    """Marks that the spec gives one by one have no numeral, or words of a scale are omitted, since they would touch.

    A word that is omitted is a warning, a numeral a note. Marks are not reported where the spec chooses the numerals
    (`numerals`), or where they are the usual ones of a law.

    Source: common practice.
    Fix: `numerals` with the values to number; fewer marks; a larger scale.
    Fails: marks at 9 and 10 of 0 to 100.
    Passes: marks at 10, 20, 50 and 100.
    """
    for part in survey.panel.parts:
        for scale in scales_of(part):
            lost = _lost(survey, part, scale)
            if lost:
                words = {value for value, _ in scale.words}
                yield Observation(
                    refs=(part.ref,),
                    place=part.at,
                    where=scale.where,
                    subject=things.scale(ref=part.ref),
                    other=said.numerals_left_out(numbers=[shown(scale, value) for value in lost]),
                    severity=None if words & {*lost} else Severity.NOTE,
                )


mark_without_numeral.cases(
    """
    parts:
      - ref: RV1
        part: pot-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Level
        scale: {from: 0, to: 100, unit: "%", sweep: 300, marks: __}
    """,
    fails="[0, 9, 10, 50, 100]",
    passes="[0, 10, 20, 50, 100]",
)


def _lost(survey: Survey, part: Part, scale: Scale) -> list[float]:
    """The values of marks given one by one, and those with a word, that have nothing lettered at them."""
    own = scale.numerals is None and set(scale.marks) - {*usual_marks(scale.law), scale.low, scale.high}
    texts = {word.text for word in _numerals(survey, part, scale)}
    named = {value for value, _ in scale.signs}
    return [
        value
        for value in sorted({*(scale.marks if own else ()), *(value for value, _ in scale.words)})
        if value not in named and not closes(scale, share_of(scale, value)) and not _has(texts, scale, value)
    ]


def _has(texts: set[str], scale: Scale, value: float) -> bool:
    """Whether a value is lettered, alone or with the unit behind it; a word however its lines are broken."""
    text = shown(scale, value)
    if letters_of(text) in {letters_of(each) for each in texts}:
        return True
    behind = [each.removeprefix(text).strip() for each in texts if each.startswith(text)]
    return scale.unit in behind
