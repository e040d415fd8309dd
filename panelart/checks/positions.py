"""Positions of switches: what is more is up, right or clockwise; values in order, each once, none left out."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import combinations, groupby, pairwise, zip_longest
from typing import Final, NamedTuple, TypeVar

from msgspec.structs import replace

from panelart.checks.findings import Observation
from panelart.checks.rule import rule
from panelart.checks.survey import ROUNDING, Survey
from panelart.diagnostics import Severity
from panelart.geometry import Box, Vector
from panelart.messages import Message
from panelart.messages import checks as said
from panelart.model.motion import MotionKind, Stops
from panelart.model.panel import Part, Position
from panelart.texts.characters import folded
from panelart.texts.designations import number_of
from panelart.texts.figures import points_part_thousands, without_points
from panelart.texts.opposites import Opposite, at_rest
from panelart.texts.position_names import lies_between, opposite_names, rests
from panelart.texts.quantities import Factor, Number, Quantity, Range, Ratio
from panelart.texts.runs import Designation, LoneUnit, Meaning, Text, Unsure, Word
from panelart.texts.units import UNITS, Unit
from panelart.texts.words import ATTENUATION, listed

# --- opposites


_WAYS: Final = {
    "up": Vector(0.0, 1.0),
    "down": Vector(0.0, -1.0),
    "left": Vector(-1.0, 0.0),
    "right": Vector(1.0, 0.0),
    "centre": Vector(0.0, 0.0),
}
_THROWN: Final = {MotionKind.LEVER, MotionKind.ROCKER, MotionKind.SLIDE}


def _letters(text: str) -> str:
    """A text by its letters, whatever their case."""
    return " ".join(text.casefold().split())


def _way(part: Part, position: Position) -> Vector:
    """Where a position of a lever, rocker or slide lies, on the panel."""
    return _WAYS[str(position.direction)].turned(part.turn)


def _thrown(survey: Survey, part: Part) -> list[tuple[object, Vector]]:
    """What the positions of a lever, rocker or slide say, with the way they lie; none for what turns."""
    if part.component.motion.kind not in _THROWN:
        return []
    return [(_says(survey, position), _way(part, position)) for position in part.positions]


def _says(survey: Survey, position: Position) -> object:
    """What a position says, however it is written: 0.1 A and 100 mA, ENTREE and Entrée."""
    valued = _valued(survey, position)
    text = position.request.text
    return " ".join(folded(text).split()) if valued is None else (valued.kind, valued.value)


def _backwards(survey: Survey, part: Part) -> Message | None:
    """What is said of a control whose positions lie against convention; None where all are in order."""
    told = _reversed(survey, part)
    if told is not None:
        return told
    return next((_values_reversed(part, row) for row, way in _rows_of_throw(survey, part) if way < 0), None)


def _reversed(survey: Survey, part: Part) -> Message | None:
    """What is said of two opposite positions that lie against convention."""
    if part.component.motion.kind in _THROWN:
        return _thrown_backwards(survey, part)
    row, closed = clockwise(part)
    if closed:
        return None
    names = [survey.meaning(position.request) for position in row]
    for first, second in combinations(range(len(row)), 2):
        found = opposite_names(names[first], names[second], survey.panel.language)
        if found is None or found[1] >= 0 or found[0].kind in {"side", "height", "heat"}:
            continue
        if not _about_a_rest(names, first, second, found[0]):
            return said.anticlockwise_of(more=names[first].text, less=names[second].text)
    return None


def _about_a_rest(names: Sequence[Text], first: int, second: int, pair: Opposite) -> bool:
    """Whether two positions have no order, since the control turns both ways from a position at rest.

    So the ends have none with the rest between them (1, 0, 2), names that are there twice none with others (Off, On,
    Off), and forward and reverse none with each other (drum switches: forward, off, reverse).
    """
    texts = [name.text for name in names]
    if texts.count(texts[first]) > 1 or texts.count(texts[second]) > 1:
        return True
    within = len(names) > 2 and any(rests(names[each]) and 0 < each < len(names) - 1 for each in (first, second))
    return within or (pair.kind == "travel" and any(map(rests, names[first + 1 : second])))


def _thrown_backwards(survey: Survey, part: Part) -> Message | None:
    texts = [position.request.text for position in part.positions]
    for one, two in combinations(part.positions, 2):
        names = survey.meaning(one.request), survey.meaning(two.request)
        found = opposite_names(*names, survey.panel.language)
        if found is None or found[1] == 0:
            continue
        less, more = (one, two) if found[1] > 0 else (two, one)
        start, end = _way(part, less), _way(part, more)
        way = Vector(end.x - start.x, end.y - start.y)
        # Of On, Off, On and of Auto, Off, On the middle is the position at rest: neither end is against it.
        central = start.length < ROUNDING or texts.count(less.request.text) + texts.count(more.request.text) > 2
        if not central and way.x + way.y < -ROUNDING and _judged(found[0], way):
            written = {"more": more.request.text, "less": less.request.text}
            return said.below(**written) if abs(way.y) > abs(way.x) else said.left_of(**written)
    return None


def _judged(pair: Opposite, way: Vector) -> bool:
    """Whether a pair has an order along this way: left and right have none one above the other, taps have hot left."""
    upright = abs(way.y) > abs(way.x)
    return not upright if pair.kind == "side" else upright if pair.kind == "heat" else True


def _position_box(survey: Survey, part: Part) -> Box:
    boxes = [word.box for word in survey.words if word.owner == part.ref and word.kind == "position"]
    return Box.around(boxes) if boxes else Box(part.at.x, part.at.y, part.at.x, part.at.y)


def _of_positions(survey: Survey, part: Part, position: Position, other: Message) -> Observation:
    return Observation(
        refs=(part.ref,),
        place=_position_box(survey, part),
        where=position.request.where,
        subject=survey.part(part.ref),
        other=other,
    )


@rule(
    Severity.WARNING,
    says="{subject}: {other} (against convention)",
    fix="Swap the two positions, or turn the part by 180 degrees.",
)
def switch_against_convention(survey: Survey) -> Iterator[Observation]:
    """Moving a switch or a slide down, to the left or anticlockwise switches it on or increases its value.

    The rule looks for opposite words in more than twenty languages: ON and OFF, START and STOP, HIGH and LOW, EIN and
    AUS, and others; where two languages use one word in two ways, the panel's language decides. A position at rest in
    the centre has no order with the ends. Accents, figures, words that both names have and what is in brackets make no
    difference. OPEN and CLOSED, IN and OUT, and the like have no usual direction. Three values of one kind on a lever
    or a slide are held against each other too, unless they are measuring ranges, and so are two factors and two levels
    in decibels.

    Source: MIL-STD-1472E, 5.4.1.2.1, on and more are up, right, forward, clockwise; IEC 60447 the same. In some
    countries wall switches work the other way; the standards apply to equipment.
    Fix: swap the positions.
    Fails: OFF above, ON 24 V below; AUS above, EIN below; x1 above, x10 below.
    Passes: ON above, OFF below.
    """
    for part in survey.panel.parts:
        told = _backwards(survey, part)
        if told is not None:
            yield _of_positions(survey, part, part.positions[0], told)


switch_against_convention.cases(
    """
    parts: [{ref: S1, part: toggle-12, at: [60, 50], legend: Load, positions: {__}}]
    """,
    fails='up: "Off", down: "On"',
    passes='up: "On", down: "Off"',
)
switch_against_convention.cases(
    """
    parts: [{ref: S1, part: toggle-12, at: [60, 50], legend: Pumpe, positions: {__}}]
    """,
    fails="up: Aus, down: Ein",
    passes="up: Ein, down: Aus",
)


@rule(
    Severity.WARNING,
    says="{subject}: same positions as {other}, in the opposite order",
    fix="Use the same order for both parts.",
)
def positions_contradict(survey: Survey) -> Iterator[Observation]:
    """Two switches have the same two positions in opposite order, in whatever letters.

    An operator who is used to one will be wrong with the other. Not reported where a switch is against the convention
    by itself.

    Source: MIL-STD-1472E, 5.4.1.2.1, consistent movement; common practice.
    Fix: the same order for both.
    Fails: LINE above TAPE on one switch, TAPE above LINE on its neighbour.
    Passes: LINE above TAPE on both.
    """
    first: dict[frozenset[object], tuple[Part, dict[object, Vector]]] = {}
    for part in survey.panel.parts:
        words = dict(_thrown(survey, part))
        if len(words) < 2 or _backwards(survey, part) is not None:
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


# --- values


class Valued(NamedTuple):
    """A position with its value; values of one kind can be compared."""

    position: Position
    kind: tuple[object, ...]
    value: float
    unit: Unit | None = None
    divides: bool = False


_NUMBER: Final = ("number",)
_FEWEST: Final = 3
"""Values from which a row has an order."""


_DOWN: Final = 270.0
"""Where dials have their gap, in degrees: at six o'clock of the part (common practice)."""

_HALF: Final = 180.0


def clockwise(part: Part) -> tuple[list[Position], bool]:
    """The positions of a turning control clockwise from its first, and whether any may be the first.

    The first is behind the widest gap; of several, the list of the spec tells it, which is in the order of the
    positions. Any may be the first where positions fill the circle evenly, unless the part is known to have stops.
    """
    as_listed = [position for position in part.positions if not isinstance(position.direction, str)]
    row = sorted(as_listed, key=lambda position: -_angle(position))
    if len(row) < 2:
        return row, False
    if len(row) == 2:
        return _over_the_top(part, row)
    gaps = _gaps_before(row)
    widest = max(gaps)
    starts = [index for index, gap in enumerate(gaps) if gap > widest - ROUNDING]
    begun = row[starts[0] :] + row[: starts[0]]
    stopped = part.component.motion.stops in {Stops.FIXED, Stops.ADJUSTABLE}
    if widest - min(gaps) < ROUNDING and not stopped:
        return begun, True
    rows = _turned(row) if len(starts) > 1 else []
    return next((each for each in rows if each in (as_listed, as_listed[::-1])), begun), False


def _angle(position: Position) -> float:
    return float(position.direction) % 360.0


def _over_the_top(part: Part, pair: Sequence[Position]) -> tuple[list[Position], bool]:
    """Two positions clockwise, and whether either may be the first: a pointer goes over the top from one to the other.

    Of two positions low on either side, the widest gap is where it turns.
    """
    first, second = sorted(((_DOWN + part.turn - _angle(each)) % 360.0, number) for number, each in enumerate(pair))
    apart = second[0] - first[0]
    # From straight down to straight up it may go either way.
    either = apart < ROUNDING or (first[0] < ROUNDING and abs(apart - _HALF) < ROUNDING)
    return [pair[first[1]], pair[second[1]]], either


def _gaps_before(row: Sequence[Position]) -> list[float]:
    """Degrees from the position before to each of a row that is clockwise and closes a circle."""
    angles = [_angle(position) for position in row]
    return [(before - after) % 360.0 for before, after in zip([angles[-1], *angles], angles, strict=False)]


_Each = TypeVar("_Each")


def _turned(row: list[_Each]) -> list[list[_Each]]:
    """The orders in which a row that closes a circle may be read."""
    return [row[start:] + row[:start] for start in range(len(row))]


def _amount(means: Meaning) -> Number | Quantity | Factor | Ratio | None:
    """The one value that a meaning has: the more usual where it is unsure, the first of a range."""
    if isinstance(means, Unsure):
        values = [_amount(each) for each in means.readings]
        return values[0] if None not in values else None
    if isinstance(means, Range):
        return None if means.symmetric else means.low
    if isinstance(means, Designation):
        numbered = number_of(means)
        return None if numbered is None else Number(numbered[1])
    if isinstance(means, Ratio):
        return means if 1 in (means.first, means.second) and 0 not in (means.first, means.second) else None
    return means if isinstance(means, Number | Quantity | Factor) else None


def _word(means: Meaning) -> str:
    """What stands beside a value as a word: one, the symbol of a quantity, the letters of a class; '' for nothing."""
    if isinstance(means, Designation):
        numbered = number_of(means)
        return numbered[0] if numbered is not None else means.text if means.kind == "quantity" else ""
    return means.text if isinstance(means, Word) else ""


def _valued(survey: Survey, position: Position, *, grouped: bool = False) -> Valued | None:
    """The value of a position, if it has one, with the words that stand beside it; `grouped` by points in thousands."""
    of = position.request if position.unit is None else position.text
    of = without_points(position.text) if grouped else of
    meanings = list(survey.meaning(of).meanings())
    amounts = [amount for amount in map(_amount, meanings) if amount is not None]
    words = tuple(word.casefold() for means in meanings if (word := _word(means)))
    if len(amounts) != 1 or any(_amount(means) is None and not _word(means) for means in meanings):
        return None
    return _of_amount(position, amounts[0], words)


def _of_amount(position: Position, amount: Number | Quantity | Factor | Ratio, words: tuple[str, ...]) -> Valued:
    """The value of a position that shows this amount beside these words."""
    if isinstance(amount, Factor):
        value = float(amount.by)
        divides = amount.sign in "÷/"
        return Valued(position, ("factor", *words), 1 / value if divides and value else value, divides=divides)
    if isinstance(amount, Ratio):
        return Valued(position, ("ratio", amount.sign, *words), float(amount.first / amount.second))
    if isinstance(amount, Number):
        return Valued(position, (*_NUMBER, *words), amount.base)
    return Valued(position, (amount.dimension, *words), amount.base, amount.unit)


_ROMAN: Final = dict(zip(listed("I II III IV V VI VII VIII IX X XI XII"), range(1, 13), strict=True))


def _romans(positions: Sequence[Position]) -> list[Valued | None] | None:
    """The values of positions that are numbered in Roman figures, of which one has two letters and more."""
    texts = [position.request.text.strip() for position in positions]
    if not any(len(text) > 1 and text in _ROMAN for text in texts):
        return None
    return [
        Valued(position, _NUMBER, float(_ROMAN[text])) if text in _ROMAN else None
        for position, text in zip(positions, texts, strict=True)
    ]


def _rows(survey: Survey, positions: Sequence[Position]) -> list[list[Valued]]:
    """The runs of values of one kind; a word or another kind ends a run."""
    grouped = points_part_thousands([position.request.text for position in positions], survey.panel.language)
    values = _romans(positions) or _with_units([_valued(survey, position, grouped=grouped) for position in positions])
    runs: list[list[Valued]] = []
    for _, group in groupby(values, key=lambda valued: None if valued is None else valued.kind):
        run = [valued for valued in group if valued is not None]
        if run:
            runs.append(run)
    return runs


def _with_units(values: Sequence[Valued | None]) -> list[Valued | None]:
    """Values where bare numbers among quantities of one unit, and zero among any, have their unit."""
    measured = [valued for valued in values if valued is not None and valued.unit is not None]
    units = {valued.unit.symbol: valued.unit for valued in measured if valued.unit is not None}
    if len({valued.kind for valued in measured}) != 1:
        return list(values)
    kind, unit = measured[0].kind, next(iter(units.values()))
    return [_in_unit(valued, kind, unit, only_zero=len(units) > 1) for valued in values]


def _in_unit(valued: Valued | None, kind: tuple[object, ...], unit: Unit, *, only_zero: bool) -> Valued | None:
    """A bare number with the unit that stands at its neighbours; what is none, as it is."""
    if valued is None or valued.kind != _NUMBER or (only_zero and valued.value != 0):
        return valued
    return valued._replace(kind=kind, value=Quantity(Decimal(f"{valued.value:.12g}"), unit).base, unit=unit)


def _direction(values: Sequence[float]) -> int:
    """1 where each value is more than the one before, -1 where each is less, 0 otherwise."""
    if all(first < second for first, second in pairwise(values)):
        return 1
    return -1 if all(first > second for first, second in pairwise(values)) else 0


def _is_ranges(values: Sequence[float]) -> bool:
    """Whether values are measuring ranges, which may run either way: by half and more each, tenfold in all."""
    if min(values) <= 0:
        return False
    steps = [max(pair) / min(pair) for pair in pairwise(values)]
    return max(values) / min(values) > 10 - ROUNDING and min(steps) > 1.5 - ROUNDING


def _changes_over(row: Sequence[Valued]) -> bool:
    """Whether bare numbers have a zero within: a changeover, 1-0-2."""
    return all(valued.kind == _NUMBER for valued in row) and any(valued.value == 0 for valued in row[1:-1])


def _judged_rows(survey: Survey) -> Iterator[tuple[Part, list[Valued], int]]:
    """Rows of values that have an order, with it: 1 clockwise, -1 anticlockwise, 0 neither."""
    for part in survey.panel.parts:
        positions, closed = clockwise(part)
        for row in _rows(survey, positions):
            if not _is_row(row):
                continue
            whole = len(row) == len(positions) and (closed or (_fills(positions) and _comes_round(row)))
            found = [(order, _direction([valued.value for valued in order])) for order in _orders(row, whole=whole)]
            order, way = max(found, key=lambda each: (each[1] != 0, each[1]))
            if way or whole or not _changes_over(row):
                yield part, order, way


def _fills(positions: Sequence[Position]) -> bool:
    """Whether positions in order fill the circle in even steps."""
    angles = [float(position.direction) for position in positions]
    gaps = [(before - after) % 360.0 for before, after in pairwise([*angles, angles[0]])]
    return max(gaps) - min(gaps) < ROUNDING


def _comes_round(row: Sequence[Valued]) -> bool:
    """Whether after the last value the first comes again: numbers of a clock, hours, angles."""
    return all(valued.kind == _NUMBER if valued.unit is None else valued.unit.symbol in _COME_ROUND for valued in row)


_COME_ROUND: Final = ("h", "°")
"""Units in which a circle is told: hours of a clock, degrees."""


def _is_row(row: Sequence[Valued]) -> bool:
    """Whether values are enough, and each another, so that they have an order."""
    return len(row) >= _FEWEST and len({valued.value for valued in row}) == len(row)


def _rows_of_throw(survey: Survey, part: Part) -> Iterator[tuple[list[Valued], int]]:
    """Rows of values of a lever or a slide from its lower or left end, with their order as in `_judged_rows`.

    Those that may run either way are left out.
    """
    if part.component.motion.kind not in _THROWN:
        return
    for row in _rows(survey, _from_low_end(part)):
        judged = _is_row(row) and not _changes_over(row) and not _may_run_back(survey, part, row)
        if judged or (_is_pair(row) and not _attenuates(survey, part, row)):
            yield row, _direction([valued.value for valued in row])


def _from_low_end(part: Part) -> list[Position]:
    """The positions of a lever, rocker or slide from its lower or left end."""
    along = [(way.x + way.y, position) for position in part.positions for way in (_way(part, position),)]
    return [position for _, position in sorted(along, key=lambda each: each[0])]


def _is_pair(row: Sequence[Valued]) -> bool:
    """Whether two values have an order, which two names or a choice of two have not: factors, and levels."""
    values = {valued.value for valued in row}
    return len(values) == len(row) == 2 and all(_multiplies(valued) or _is_level(valued) for valued in row)


def _multiplies(valued: Valued) -> bool:
    return valued.kind[0] == "factor" and not valued.divides


def _is_level(valued: Valued) -> bool:
    return valued.unit is not None and valued.unit.symbol == "dB"


def _values_reversed(part: Part, row: Sequence[Valued]) -> Message:
    more, less = row[0].position, row[-1].position
    start, end = _way(part, less), _way(part, more)
    written = {"more": more.request.text, "less": less.request.text}
    return said.below(**written) if abs(start.y - end.y) > abs(start.x - end.x) else said.left_of(**written)


def _may_run_back(survey: Survey, part: Part, row: Sequence[Valued]) -> bool:
    """Whether less may be clockwise, up or right: measuring ranges that decrease, and attenuation.

    Attenuation increases as its decibels decrease below zero; and an attenuator that is a volume control has less of it
    clockwise (both common practice).
    """
    values = [valued.value for valued in row]
    multiplied = part.component.motion.kind in _THROWN and all(map(_multiplies, row))
    if _direction(values) < 0 and _is_ranges(values) and not multiplied:
        return True
    if row[0].kind[0] == "ratio" or _is_footage(row):
        return True
    return _attenuates(survey, part, row) or _counts_down(survey, part, row)


_FOOTAGE: Final = frozenset(map(Decimal, ("64", "32", "16", "8", "4", "2", "1")))
"""Feet of the ranks of an organ, where the shorter pipe sounds higher (common practice)."""


def _is_footage(row: Sequence[Valued]) -> bool:
    """Whether values are the lengths of organ pipes: 16', 8', 4', 2'."""
    feet = [round(valued.value / valued.unit.factor, 6) for valued in row if valued.unit == UNITS["ft"] and valued.unit]
    return len(feet) == len(row) and all(Decimal(str(each)) in _FOOTAGE for each in feet)


def _attenuates(survey: Survey, part: Part, row: Sequence[Valued]) -> bool:
    """Whether what increases is what is taken away: decibels from 0 downwards, and what is named so."""
    values = [valued.value for valued in row]
    if values[0] == 0 and max(values) <= 0 and all(map(_is_level, row)):
        return True
    return not ATTENUATION.isdisjoint(_words_of(survey, part))


def _counts_down(survey: Survey, part: Part, row: Sequence[Valued]) -> bool:
    """Whether less is more: AWG 18 is thicker than AWG 24, f/2.8 opens wider than f/8."""
    named = {word for valued in row for word in valued.kind if isinstance(word, str)}
    return not _COUNTED_DOWN.isdisjoint(named | _words_of(survey, part))


_COUNTED_DOWN: Final = frozenset(listed("awg swg gauge ga f aperture blende mesh grit"))
"""Numbers of sizes that fall as the thing grows: of wire, apertures, sieves and abrasives (common practice)."""


def _words_of(survey: Survey, part: Part) -> set[str]:
    """The words of a part's name, in small letters."""
    name = "" if part.legend is None else part.legend.whole
    return {means.text.casefold() for means in survey.meaning(name).meanings() if isinstance(means, Word)}


def _orders(row: list[Valued], *, whole: bool) -> list[list[Valued]]:
    return _turned(row) if whole else [row]


def _listed(row: Sequence[Valued]) -> Message:
    return said.positions_listed(positions=[valued.position.text for valued in row])


@rule(
    Severity.WARNING,
    says="{subject}: position values decrease clockwise: {other}",
    fix="Order the positions by ascending values clockwise.",
)
def positions_run_backwards(survey: Survey) -> Iterator[Observation]:
    """The values at the positions of a rotary control increase anticlockwise.

    Values are compared as quantities: 100 mA is less than 1 A. Measuring ranges may run either way, since clockwise is
    then more sensitive: values that differ by half and more each, and tenfold in all. So may attenuation: decibels from
    0 downwards, and what an attenuator has, fractions and ratios, and the feet of organ pipes. A changeover such as
    1-0-2 has no order.

    Source: MIL-STD-1472E, 5.2.3.3 and 5.4.1.2.1: numbers increase clockwise; valves are the exception.
    Fix: the other order.
    Fails: 3, 2, 1 going clockwise.
    Passes: 1, 2, 3 going clockwise; 1, 0, 2; 10 A, 1 A, 100 mA.
    """
    for part, row, way in _judged_rows(survey):
        if way < 0 and not _may_run_back(survey, part, row):
            yield _of_positions(survey, part, row[0].position, _listed(row))


positions_run_backwards.cases(
    """
    parts:
      - ref: S1
        part: rotary-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Range
        positions: {texts: __, index: 30}
    """,
    fails='["3", "2", "1"]',
    passes='["1", "2", "3"]',
)


@rule(
    Severity.WARNING,
    says="{subject}: position values are in no order: {other}",
    fix="Order the positions by ascending values: clockwise, upwards or to the right.",
)
def positions_unordered(survey: Survey) -> Iterator[Observation]:
    """The values at the positions of a control neither increase nor decrease.

    Values are compared as quantities, over units and prefixes. Three values and more of one kind, side by side, are a
    row; a changeover such as 1-0-2 is none. So are three words of which one belongs between the others: LOW, MEDIUM,
    HIGH; and letters that follow each other in the alphabet. Fractions and ratios count where one side is 1.

    Source: MIL-STD-1472E, 5.4.1.2.1, consistent movement; common practice.
    Fix: an order.
    Fails: 1 A, 10 mA, 100 mA.
    Passes: 10 mA, 100 mA, 1 A; 1, 0, 2.
    """
    for part, row, way in _judged_rows(survey):
        if not way:
            yield _of_positions(survey, part, row[0].position, _listed(row))
    for part in survey.panel.parts:
        for row, way in _rows_of_throw(survey, part):
            if not way:
                yield _of_positions(survey, part, row[0].position, _listed(row))
        words = _words_unordered(survey, part) or _letters_unordered(part)
        if words:
            yield _of_positions(survey, part, part.positions[0], said.positions_listed(positions=words))


def _words_unordered(survey: Survey, part: Part) -> list[str]:
    """Three words of which the one that belongs between the others is at an end; none where all are in order."""
    names = [name for position in _from_first(part) if not rests(name := survey.meaning(position.request))]
    if len(names) != _FEWEST:
        return []
    ends = [pair for pair in combinations(names, 2) if opposite_names(*pair, survey.panel.language) is not None]
    middle = [name for name in names if lies_between(name)]
    strays = len(ends) == len(middle) == 1 and middle[0] != names[1] and middle[0] not in ends[0]
    return [name.text for name in names] if strays else []


def _letters_unordered(part: Part) -> list[str]:
    """Single letters that follow each other in the alphabet and not on the control: A, C, B; none where all do."""
    texts = [text for position in _from_first(part) if not at_rest(text := position.request.text.strip())]
    letters = [ord(text) for text in texts if len(text) == 1 and "A" <= text <= "Z"]
    if len(letters) != len(texts) or len(letters) < _FEWEST:
        return []
    follow = sorted(letters) == list(range(min(letters), min(letters) + len(letters)))
    return texts if follow and _direction(letters) == 0 else []


def _from_first(part: Part) -> list[Position]:
    """The positions of a control from the one that is least by convention; none where any may be the first."""
    if part.component.motion.kind in _THROWN:
        return _from_low_end(part)
    row, closed = clockwise(part)
    return [] if closed else row


positions_unordered.cases(
    """
    parts:
      - ref: S1
        part: rotary-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Range
        positions: {texts: __, index: 30}
    """,
    fails="[1 A, 10 mA, 100 mA]",
    passes="[10 mA, 100 mA, 1 A]",
)


@rule(
    Severity.WARNING,
    says="{subject}: two positions are the same: {other}",
    fix="Name each position differently, or waive this with a reason.",
)
def position_repeated(survey: Survey) -> Iterator[Observation]:
    """Two positions of one control have the same name or the same value.

    Positions at rest may be repeated: Off, 0, Stop. So may numbers on both sides of one, as in 2-1-0-1-2. A number in
    two rows of one dial, each of three values and more, is a note: 5 2 1 .5 50 20 10 5 of an attenuator in V and mV.

    Source: NUREG-0700 Rev. 3, 11.4.1, each label is unique; common practice.
    Fix: other names.
    Fails: Mute and Mute; 10 mA and 0.01 A.
    Passes: Mute and On; 1, 0, 2, 0.
    """
    for part in survey.panel.parts:
        row = [*clockwise(part)[0], *(each for each in part.positions if isinstance(each.direction, str))]
        for (first, one), (second, two) in combinations(enumerate(row), 2):
            if _alike(survey, one, two) and not _may_be_alike(survey, two, row[first + 1 : second]):
                texts = {"first": one.text, "second": two.text}
                observed = _of_positions(survey, part, two, said.between(**texts))
                apart = _in_two_rows(survey, row, first, second)
                yield replace(observed, severity=Severity.NOTE) if apart else observed
                break


position_repeated.cases(
    """
    parts: [{ref: S1, part: toggle-12, at: [60, 50], legend: Strip, positions: {up: Mute, down: __}}]
    """,
    fails="Mute",
    passes="Solo",
)


def _may_be_alike(survey: Survey, position: Position, between: Sequence[Position]) -> bool:
    """Whether a position may be named as another is: it is at rest, says nothing, or is the other side of a rest."""
    text = position.request.text
    if at_rest(text) or not any(map(str.isalnum, text)):
        return True
    valued = _valued(survey, position)
    numbered = valued is not None and valued.kind == _NUMBER
    return numbered and any(at_rest(each.request.text) for each in between)


def _in_two_rows(survey: Survey, row: Sequence[Position], first: int, second: int) -> bool:
    """Whether two bare numbers stand in two rows of a dial, as it has for two units: volts and amperes of a meter."""
    valued = [_valued(survey, position) for position in row]
    if valued[first] is None or valued[second] is None:
        return False
    numbers = [each.value for each in valued if each is not None and each.kind == _NUMBER]
    if len(numbers) < len(row):
        return False
    starts = _starts(numbers)
    longest = [stop - start for start, stop in pairwise([*starts, len(numbers)])]
    return min(longest) >= _FEWEST and any(first < start <= second for start in starts)


def _starts(numbers: Sequence[float]) -> list[int]:
    """Where the stretches begin that each only increase or only decrease."""
    starts, at = [0], 1
    while at < len(numbers):
        if _direction(numbers[starts[-1] : at + 1]) == 0:
            starts.append(at)
        at += 1
    return starts


def _alike(survey: Survey, one: Position, two: Position) -> bool:
    if _letters(one.text) == _letters(two.text):
        return one.text == two.text or not _told_apart(survey, one, two)
    first, second = _valued(survey, one), _valued(survey, two)
    ranges = any(isinstance(means, Range) for means in survey.meaning(one.request).meanings())
    if first is None or second is None or ranges or first.unit is None or second.unit is None:
        return False
    if first.unit.offset != second.unit.offset:
        return False  # 0 °C and 32 °F: the choice is which of the two scales is shown
    return first.kind == second.kind and math.isclose(first.value, second.value, rel_tol=1e-9)


def _told_apart(survey: Survey, one: Position, two: Position) -> bool:
    """Whether texts that differ in capitals alone mean two things for sure: mW and MW, or a unit and a word."""
    pairs = zip_longest(*(survey.meaning(each.request).meanings() for each in (one, two)))
    return any(
        first != second
        and not isinstance(first, Unsure)
        and not isinstance(second, Unsure)
        and (isinstance(first, _MEASURED) or isinstance(second, _MEASURED))
        for first, second in pairs
    )


_MEASURED: Final = (LoneUnit, Quantity, Range)
_GRID: Final = {1: 0, 2: 1, 5: 2}
_DECADE: Final = len(_GRID)
_MOST_OF_DECADES: Final = 4
_MOST_OF_GRID: Final = 5
"""Values from which a row is one of decades, or of 1-2-5, that one may be missing from."""


def _grid(value: float) -> int | None:
    """The number of a value in the row 1-2-5; None for one that is not in it."""
    power = math.floor(math.log10(value) + 1e-9)
    share = value / 10.0**power
    return next((_DECADE * power + at for digit, at in _GRID.items() if math.isclose(share, digit, rel_tol=1e-6)), None)


def _left_out(row: Sequence[Valued]) -> tuple[Valued, Valued] | None:
    """The two values between which the one step is missing that a row of decades or of 1-2-5 lacks."""
    ascending = sorted((valued for valued in row if valued.value > 0), key=lambda valued: valued.value)
    numbers = [_grid(valued.value) for valued in ascending]
    known = [number for number in numbers if number is not None]
    if len(known) < len(numbers):
        return None
    steps = [after - before for before, after in pairwise(known)]
    gap = _gap_in_grid(steps, measured=all(valued.unit is not None for valued in row))
    gap = _gap(steps, _DECADE, _MOST_OF_DECADES) if gap is None else gap
    return None if gap is None else (ascending[gap], ascending[gap + 1])


def _gap_in_grid(steps: Sequence[int], *, measured: bool) -> int | None:
    """Which step of 1-2-5 is missing, of four values only where they have units and three are beside each other."""
    gap = _gap(steps, 1, _MOST_OF_GRID - measured)
    if gap is not None and len(steps) + 1 < _MOST_OF_GRID and 0 < gap < len(steps) - 1:
        return None  # 1, 2, 10, 20 are two ranges a decade
    return gap


def _gap(steps: Sequence[int], step: int, fewest: int) -> int | None:
    """Which of the steps is twice as large as all others, which are `step`; None where that is not so."""
    alike = len(steps) + 1 >= fewest and sorted(steps) == [step] * (len(steps) - 1) + [2 * step]
    return steps.index(2 * step) if alike else None


@rule(
    Severity.NOTE,
    says="{subject}: a step is missing between {other}",
    fix="Add the step, or make sure that the control has none there.",
)
def position_step_missing(survey: Survey) -> Iterator[Observation]:
    """A row of positions in steps of 1, 2 and 5, or of ten, lacks one step.

    Only where all others are such a row: five values of 1-2-5 and more, four with units of which three are beside each
    other, or four of decades.

    Source: common practice of ranges; the steps are those of MIL-HDBK-759B, 5.2.2.3.1.3.
    Fix: the missing step.
    Fails: 1 mA, 10 mA, 1 A, 10 A.
    Passes: 1 mA, 10 mA, 100 mA, 1 A.
    """
    for part, row, way in _judged_rows(survey):
        gap = _left_out(row) if way else None
        if gap is not None:
            texts = {"first": gap[0].position.text, "second": gap[1].position.text}
            yield _of_positions(survey, part, gap[1].position, said.between(**texts))


position_step_missing.cases(
    """
    parts:
      - ref: S1
        part: rotary-m10
        at: [60, 50]
        knob: {diameter: 24, height: 16}
        legend: Range
        positions: {texts: __, index: 30}
    """,
    fails="[1 mA, 10 mA, 1 A, 10 A]",
    passes="[1 mA, 10 mA, 100 mA, 1 A]",
)
