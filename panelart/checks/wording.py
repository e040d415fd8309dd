"""What legends say: unique names, positions that agree, units as in the SI, scales in round steps."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from panelart.checks.abbreviations import known_abbreviations
from panelart.checks.findings import Bound, Observation, Spelling, Spot, place_of, refs_of
from panelart.checks.mends import respelt
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey, Words
from panelart.diagnostics import Severity, Where
from panelart.geometry import Box, Vector
from panelart.legends.graduations import graduations, shown
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.messages import checks_things as things
from panelart.model.component import Motion
from panelart.model.panel import Law, Part, Position, Scale
from panelart.texts.units import UNITS

# --- names


def _names(survey: Survey) -> dict[str, Words]:
    return {word.owner: word for word in survey.words if word.kind == "name" and word.owner in survey.panel.by_ref}


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())


@rule(
    Severity.WARNING,
    says="{subject}: same name as {other}",
    fix="Give each part its own name, or put the parts in frames with titles.",
)
def name_repeated(survey: Survey) -> Iterator[Observation]:
    """Two parts have the same name, and nothing else distinguishes them.

    Parts in different frames may have the same name, since the frames' titles distinguish them. Names of one or two
    signs that are not letters, such as + and -, may be repeated.

    Source: common practice; NUREG-0700 Rev. 3, 11.4.1, each label is unique.
    Fix: other names, or frames with titles.
    Fails: two sockets that are both OUT.
    Passes: OUT 1 and OUT 2; or one OUT in the frame LEFT and one in the frame RIGHT.
    """
    frames: dict[str, list[str]] = {}
    for frame in survey.panel.frames:
        for ref in frame.around:
            frames.setdefault(ref, []).append(frame.title.text if frame.title is not None else "")
    first: dict[tuple[str, tuple[str, ...]], Words] = {}
    for ref, word in _names(survey).items():
        if not any(letter.isalpha() for letter in word.text):
            continue
        other = first.setdefault((_folded(word.text), tuple(frames.get(ref, ()))), word)
        if other is not word:
            yield Observation(
                refs=(ref, other.owner),
                place=Box.around((word.box, other.box)),
                where=word.where,
                subject=survey.named([word]),
                other=survey.part(other.owner),
            )


name_repeated.cases(
    """
    parts:
      - {ref: J1, part: bnc, at: [40, 50], legend: Out}
      - {ref: J2, part: bnc, at: [90, 50], legend: __}
    """,
    fails="Out",
    passes="In",
)


@rule(
    Severity.WARNING,
    says="{subject} has no legend",
    fix="Add a legend, or waive this with a reason.",
)
def control_without_name(survey: Survey) -> Iterator[Observation]:
    """A control has no legend of any kind.

    Controls are parts that are switched, pushed, turned or slid; locks and trimmers do not count. Positions, a scale,
    and the title of a frame with only this part in it count as legends.

    Source: MIL-STD-1472E, 5.5.1, controls are labelled (from memory); common practice.
    Fix: a legend.
    Fails: a toggle switch without a word.
    Passes: a toggle switch with ON and OFF, or with a name.
    """
    alone = {frame.around[0] for frame in survey.panel.frames if len(frame.around) == 1 and frame.title is not None}
    for part in survey.panel.parts:
        quiet = part.legend is None and not part.positions and not _scales(part) and part.ref not in alone
        worked = part.component.motion is not Motion.NONE and part.component.family not in {"cam-lock", "trimmer"}
        if quiet and worked:
            yield Observation(refs=(part.ref,), place=part.at, where=part.where, subject=survey.part(part.ref))


control_without_name.cases(
    """
    parts: [{ref: S1, part: toggle-12, at: [60, 50], __}]
    """,
    fails="turn: 0",
    passes="legend: Load",
)


# --- positions


_MORE: Final = frozenset({"on", "start", "run", "open", "increase", "more", "max", "high", "up", "raise", "i", "1"})
_LESS: Final = frozenset({"off", "stop", "close", "shut", "decrease", "less", "min", "low", "down", "lower", "o", "0"})
_OPPOSITE: Final = {
    "on": "off", "start": "stop", "run": "stop", "open": "close", "increase": "decrease", "more": "less",
    "max": "min", "high": "low", "up": "down", "raise": "lower", "i": "o", "1": "0",
}  # fmt: skip
_WAYS: Final = {
    "up": Vector(0.0, 1.0),
    "down": Vector(0.0, -1.0),
    "left": Vector(-1.0, 0.0),
    "right": Vector(1.0, 0.0),
    "centre": Vector(0.0, 0.0),
}


def _way(part: Part, position: Position) -> Vector:
    """Where a position of a lever, rocker or slide lies, on the panel."""
    return _WAYS[str(position.direction)].turned(part.turn)


def _thrown(part: Part) -> list[tuple[str, Vector]]:
    """The words of a lever, rocker or slide with the way they lie; none for what turns."""
    if part.component.motion not in {Motion.LEVER, Motion.ROCKER, Motion.SLIDE}:
        return []
    return [(_folded(position.request.text), _way(part, position)) for position in part.positions]


def _against(part: Part) -> bool:
    """Whether more lies below or left of less."""
    words = dict(_thrown(part))
    for more, less in _OPPOSITE.items():
        if more in words and less in words:
            return words[more].x - words[less].x + words[more].y - words[less].y < -ROUNDING
    return False


def _position_box(survey: Survey, part: Part) -> Box:
    boxes = [word.box for word in survey.words if word.owner == part.ref and word.kind == "position"]
    return Box.around(boxes) if boxes else Box(part.at.x, part.at.y, part.at.x, part.at.y)


@rule(
    Severity.WARNING,
    says="{subject}: moving {other} switches on or increases the value (against convention)",
    fix="Swap the two positions, or turn the part by 180 degrees.",
)
def switch_against_convention(survey: Survey) -> Iterator[Observation]:
    """Moving a switch or a slide down or to the left switches it on or increases its value.

    The rule looks for opposite words: ON and OFF, START and STOP, OPEN and CLOSE, HIGH and LOW, and others.

    Source: MIL-STD-1472E, 5.4.1.2.1, on and more are up, right, forward; IEC 60447 the same. In some countries wall
    switches work the other way; the standards apply to equipment.
    Fix: swap the positions.
    Fails: OFF above, ON below.
    Passes: ON above, OFF below.
    """
    for part in survey.panel.parts:
        if _against(part):
            down = any(abs(way.y) > abs(way.x) for _, way in _thrown(part))
            yield Observation(
                refs=(part.ref,),
                place=_position_box(survey, part),
                where=part.positions[0].request.where,
                subject=survey.part(part.ref),
                other=said.down() if down else said.left(),
            )


switch_against_convention.cases(
    """
    parts: [{ref: S1, part: toggle-12, at: [60, 50], legend: Load, positions: {__}}]
    """,
    fails='up: "Off", down: "On"',
    passes='up: "On", down: "Off"',
)


@rule(
    Severity.WARNING,
    says="{subject}: same positions as {other}, in the opposite order",
    fix="Use the same order for both parts.",
)
def positions_contradict(survey: Survey) -> Iterator[Observation]:
    """Two switches have the same two positions in opposite order.

    An operator who is used to one will be wrong with the other. Not reported where a switch is against the convention
    by itself.

    Source: MIL-STD-1472E, 5.4.1.2.1, consistent movement; common practice.
    Fix: the same order for both.
    Fails: LINE above TAPE on one switch, TAPE above LINE on its neighbour.
    Passes: LINE above TAPE on both.
    """
    first: dict[frozenset[str], tuple[Part, dict[str, Vector]]] = {}
    for part in survey.panel.parts:
        words = dict(_thrown(part))
        if len(words) < 2 or _against(part):
            continue
        other, theirs = first.setdefault(frozenset(words), (part, words))
        if other is not part and all(
            words[word].x * way.x + words[word].y * way.y < -ROUNDING
            for word, way in theirs.items()
            if way.length > ROUNDING
        ):
            yield Observation(
                refs=(part.ref, other.ref),
                place=_position_box(survey, part),
                where=part.positions[0].request.where,
                subject=survey.part(part.ref),
                other=survey.part(other.ref),
            )


positions_contradict.cases(
    """
    parts:
      - {ref: S1, part: toggle-12, at: [40, 50], legend: Left, positions: {up: Line, down: Tape}}
      - {ref: S2, part: toggle-12, at: [90, 50], legend: Right, positions: {__}}
    """,
    fails="up: Tape, down: Line",
    passes="up: Line, down: Tape",
)


@rule(
    Severity.WARNING,
    says="{subject}: position numbers decrease clockwise: {other}",
    fix="Number the positions in ascending order clockwise.",
)
def positions_run_backwards(survey: Survey) -> Iterator[Observation]:
    """The numbered positions of a rotary control increase anticlockwise.

    Source: MIL-STD-1472E, 5.2.3.3 and 5.4.1.2.1: numbers increase clockwise; valves are the exception.
    Fix: the other order.
    Fails: 3, 2, 1 going clockwise.
    Passes: 1, 2, 3 going clockwise.
    """
    for part in survey.panel.parts:
        round_ = [position for position in part.positions if not isinstance(position.direction, str)]
        numbers = [_leading_number(position.request.text) for position in round_]
        if len(round_) < 3 or None in numbers:
            continue
        clockwise = _falling(round_)
        if clockwise is not None:
            yield Observation(
                refs=(part.ref,),
                place=_position_box(survey, part),
                where=clockwise[0].request.where,
                subject=survey.part(part.ref),
                other=said.positions_listed(positions=[position.request.text for position in clockwise]),
            )


positions_run_backwards.cases(
    """
    parts:
      - ref: S1
        part: rotary-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Range
        positions: {texts: __, sweep: 90}
    """,
    fails='["3", "2", "1"]',
    passes='["1", "2", "3"]',
)


def _falling(positions: Sequence[Position]) -> list[Position] | None:
    """The positions clockwise from the highest number when they fall all the way round, else None."""
    clockwise = sorted(positions, key=lambda position: -(float(position.direction) % 360.0))
    values = [_leading_number(position.request.text) or 0.0 for position in clockwise]
    rises = [index for index, value in enumerate(values) if value > values[index - 1]]
    if len(rises) != 1 or len(set(values)) < len(values):
        return None
    return clockwise[rises[0] :] + clockwise[: rises[0]]


def _leading_number(text: str) -> float | None:
    found = re.match(r"\s*([-\u2212+]?)(\d+(?:[.,]\d+)?)", text)
    if found is None:
        return None
    value = float(found[2].replace(",", "."))
    return -value if found[1] in {"-", "\u2212"} else value


# --- units and abbreviations


_SIGNS: Final = "\u03a9\u2126\u00b5\u03bc"
_MEGAAMPERES: Final = "MA"
"""On a panel a misspelt milliampere."""

SYMBOLS: Final = UNITS.keys() - {_MEGAAMPERES}
"""Units as they are written."""


def _by_fold() -> dict[str, str]:
    """The symbols that no word in small letters or capitals could be meant by, by their letters."""
    found: dict[str, list[str]] = {}
    for symbol in sorted(SYMBOLS):
        if not symbol.startswith("u"):
            found.setdefault(symbol.casefold(), []).append(symbol)
    return {
        letters: symbols[0]
        for letters, symbols in found.items()
        if all(any(letter.isupper() or letter in _SIGNS for letter in symbol) for symbol in symbols)
    }


_BY_FOLD: Final = _by_fold()

_QUANTITY: Final = re.compile(
    r"(?<![\w.,])[-+\u2212\u00b1]?\d+(?:[.,/\u2013]\d+)*\s?([A-Za-z\u00b5\u03bc\u03a9\u2126]+)(?![\w])"
)
_BRACKETED: Final = re.compile(r"[(\[]([A-Za-z\u00b5\u03bc\u03a9\u2126]+)[)\]]")


def unit_meant(word: str) -> str | None:
    """The symbol that a misspelt one stands for: kHz for Khz, µF for uF; None for what is right or no symbol."""
    if word in SYMBOLS:
        micro = "\u00b5" + word[1:]
        return micro if word.startswith("u") and micro in SYMBOLS else None
    if word.casefold() in {"v", "w"}:
        return word.upper()
    if len(word) < 2:
        return None
    return _BY_FOLD.get(word.casefold())


def _misspelt(text: str) -> list[Spelling]:
    words = [*_QUANTITY.findall(text), *_BRACKETED.findall(text)]
    found = [(word, unit_meant(word)) for word in dict.fromkeys(words)]
    return [Spelling(written=word, meant=meant) for word, meant in found if meant is not None]


@rule(
    Severity.WARNING,
    says="{subject}: unit symbol must be {other}",
    fix="Write {other}.",
    mends=(respelt,),
)
def unit_misspelt(survey: Survey) -> Iterator[Observation]:
    """The symbol of a unit has the wrong small or capital letters, or u for micro.

    The rule checks symbols behind numbers, in brackets and in the units of scales; the case of a letter changes the
    meaning: mW and MW differ by a thousand million.

    Source: SI Brochure, 9th edition, 5.2 and table 7.
    Fix: the right letters.
    Fails: 100 Khz, 4.7 uF, (KV).
    Passes: 100 kHz, 4.7 µF, (kV).
    """
    units = {(part.ref, scale.unit) for part in survey.panel.parts for scale in _scales(part)}
    for word in survey.words:
        found = _misspelt(word.text)
        if word.kind == "numeral" and (word.owner, word.text) in units:
            meant = unit_meant(word.text)
            found = [Spelling(written=word.text, meant=meant)] if meant is not None else []
        if found:
            yield Observation(
                refs=(word.owner,),
                place=word.box,
                where=word.where,
                subject=survey.named([word]),
                other=said.unit_spellings(
                    spellings=[said.unit_spelling(meant=one.meant, written=one.written) for one in found]
                ),
                spellings=tuple(found),
            )


unit_misspelt.cases(
    """
    texts: [{text: 4.7 __, at: [60, 50]}]
    """,
    fails="uF",
    passes="µF",
)


@rule(
    Severity.NOTE,
    says="Could be a unit or a word, so printed as written: {subject}",
    fix="Write units as {{unit ms}}, words as {{word ms}}.",
)
def text_could_be_unit(survey: Survey) -> Iterator[Observation]:
    """A text in capitals has letters that could be the symbol of a unit or a word.

    They are printed as written, since capitals would make another unit of a symbol. The whole panel is one finding.
    Letters that are printed the same either way, such as A and V, are not reported.

    Source: SI Brochure, 9th edition, 5.2: symbols of units keep their letters, whatever the text around them.
    Fix: `{unit ms}` for a unit, `{word ms}` for a word; `case: as-written` changes neither.
    Fails: a position ms.
    Passes: {unit ms}, which is printed as ms; {word ms}, which is printed as MS.
    """
    unsure = survey.panel.unsure
    if not unsure:
        return
    places = {one.where for one in unsure}
    words = [word for word in survey.words if word.where in places]
    yield Observation(
        refs=tuple(dict.fromkeys(word.owner for word in words)),
        place=Box.around([word.box for word in words]) if words else survey.panel.outline.bounds,
        where=unsure[0].where,
        subject=said.texts_unsure(texts=list(dict.fromkeys(one.written for one in unsure))),
    )


text_could_be_unit.cases(
    """
    marking: {lettering: {case: upper}}
    texts: [{text: __, at: [60, 50]}]
    """,
    fails="MS",
    passes='"{unit ms}"',
)


_VOWELS: Final = frozenset("AEIOUYÄÖÜÅÆØÉÈÊ")
_WORD: Final = re.compile(r"[^\W\d_]+(?:[/-][^\W\d_]+)*")


@rule(
    Severity.NOTE,
    says="{subject}: unlisted abbreviation: {other}",
    fix="Write the word in full, or add the abbreviation to the house file.",
)
def abbreviation_unlisted(survey: Survey) -> Iterator[Observation]:
    """A name, position or title has a word without vowels that is in no list of abbreviations.

    Only words of three letters and more without a vowel count as abbreviations; shorter ones are too often symbols.
    Numbers, symbols of units and refs are exempt. A house adds its own abbreviations in its house file.

    Source: MIL-STD-1472E, 5.5.3.3: common abbreviations, one for all forms of a word.
    Fix: the whole word, or the house file.
    Fails: THRSHLD.
    Passes: THRESHOLD, or TRIG, which is in the list.
    """
    known = known_abbreviations() | survey.abbreviations
    for word in survey.words:
        if word.kind not in {"name", "title", "position"}:
            continue
        odd = [
            found
            for found in _WORD.findall(word.text)
            if len(found) >= 3
            and not _VOWELS & set(found.upper())
            and found.upper() not in known
            and found not in SYMBOLS
            and found not in survey.panel.by_ref
        ]
        if odd:
            yield Observation(
                refs=(word.owner,),
                place=word.box,
                where=word.where,
                subject=survey.named([word]),
                other=said.abbreviations_listed(words=tuple(dict.fromkeys(odd))),
            )


abbreviation_unlisted.cases(
    """
    texts: [{text: __, at: [60, 50]}]
    """,
    fails="THRSHLD",
    passes="THRESHOLD",
)


# --- scales


def _scaled(survey: Survey) -> Iterator[tuple[Part, Scale, Box]]:
    for part in survey.panel.parts:
        boxes = [mark.box for mark in survey.scale_marks if mark.owner == part.ref]
        box = Box.around(boxes) if boxes else Box(part.at.x, part.at.y, part.at.x, part.at.y)
        yield from ((part, scale, box) for scale in _scales(part))


def _scales(part: Part) -> list[Scale]:
    return [scale for scale in (part.scale, part.outer_scale) if scale is not None]


def _numerals(survey: Survey, part: Part) -> set[str]:
    return {word.text for word in survey.words if word.owner == part.ref and word.kind == "numeral"}


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

    Source: MIL-STD-1472E, 5.2.3.3.1 and 5.4.1.2.1: circular scales increase clockwise; valves are the exception.
    Fix: remove `clockwise: false`.
    Fails: a level that increases anticlockwise.
    Passes: the same level increasing clockwise.
    """
    for part, scale, box in _scaled(survey):
        if not scale.clockwise and scale.straight is None:
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
    45, 60 or 90 are exempt; so are logarithmic scales and those whose marks are given one by one.

    Source: MIL-HDBK-759B, 5.2.2.3.1.3; ASME B40.100 the same.
    Fix: other steps.
    Fails: 0 to 30 in steps of 2.5 or 3.
    Passes: 0 to 30 in steps of 5 and 1.
    """
    for part, scale, box in _scaled(survey):
        linear = scale.law is Law.LINEAR and not scale.marks
        steps = [
            step for step in (scale.major, scale.intermediate, scale.minor) if linear and step is not None and step > 0
        ]
        round_ = scale.unit.strip() in {"°", "deg", "min", "s", "h", "\u2032", "\u2033"}
        odd = [step for step in steps if not _counts_well(step) and not (round_ and step in _ROUND_STEPS)]
        if odd:
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


_ROUND_STEPS: Final = frozenset({3.0, 6.0, 15.0, 30.0, 45.0, 60.0, 90.0})


@rule(
    Severity.WARNING,
    says="{subject}: {measured} marks between two numbered marks; maximum {limit}",
    fix="Number more marks, or leave out marks.",
    limits=("marks.between.maximum",),
)
def scale_marks_uncounted(survey: Survey) -> Iterator[Observation]:
    """A scale has more marks between two numerals than can be counted at a glance.

    Source: MIL-HDBK-759B, 5.2.2.3.1.4.1: nine at most.
    Fix: more numerals, or fewer marks.
    Fails: marks at every 1, numerals at every 20.
    Passes: marks at every 1, numerals at every 10.
    """
    limit = survey.limits["marks.between.maximum"]
    for part, scale, box in _scaled(survey):
        texts = _numerals(survey, part)
        bare = [shown(scale, mark.value) in texts for mark in graduations(scale) if mark.kind != "detent"]
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
        named = part.legend is not None and _BRACKETED.search(part.legend.text) is not None
        if not texts - {scale.unit} or named:
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


def _has_unit(texts: set[str], unit: str) -> bool:
    """Whether a unit is lettered, by itself or behind a numeral."""
    return any(text == unit or text.endswith(f" {unit}") for text in texts)


def _is_pure(scale: Scale) -> bool:
    """Whether a scale is one of pure numbers: from 0 to 1, 10 or 100, or from -n to +n."""
    return (scale.low == 0 and scale.high in {1.0, 10.0, 100.0}) or scale.low == -scale.high
