"""What a control carries: the names of its positions, its scale, its knob, each checked against the component."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from itertools import pairwise, zip_longest
from typing import Any, Final, TypeAlias

from msgspec.structs import replace

from panelart.catalogue.formula import FormulaError
from panelart.catalogue.knobs import KnobEntry
from panelart.catalogue.laws import PUBLISHED, TAPER, taper, travelled, usual_marks
from panelart.catalogue.laws import at as at_value
from panelart.catalogue.steps import decimals, long_ends, odd_ends
from panelart.diagnostics import Where, did_you_mean
from panelart.figure import Figure
from panelart.lettering.spans import Span
from panelart.messages import Message
from panelart.messages import spec_controls as said
from panelart.messages import spec_turning as turning_said
from panelart.model.component import Role, Shaft
from panelart.model.motion import FULL_TURN, Motion, MotionKind, Stops, Way, as_written
from panelart.model.panel import Knob, Law, LegendRequest, Place, Position, Reading, Scale, StraightScale, Zone, over
from panelart.source.nodes import Scalar
from panelart.source.problems import Problems
from panelart.source.schema import Field, Number, Value
from panelart.spec import language
from panelart.spec.control import Control
from panelart.spec.lettered import Letterer, ink_named
from panelart.spec.turning import turning
from panelart.texts.multiples import multiple

MAX_MARKS: Final = 1000
"""The most marks on one scale; a finger's breadth of dial cannot show more."""

UP: Final = 90.0
"""Straight up, in degrees counter-clockwise from the right."""

_TOLERANCE: Final = 1e-9
_STEPPED: Final = 3
"""A control with more detents than this stops at its values; fewer are its middle and ends."""
_BORE_SLACK: Final = 0.05
"""By how much, in mm, a shaft may differ from the bore it goes into and still be the same nominal size."""
_NUMBER: Final = Number()

THIN = "\N{NARROW NO-BREAK SPACE}"
"""What stands between a value and a unit that is put behind it."""


def positions(written: object, where: Where, control: Control, letterer: Letterer) -> tuple[Position, ...]:
    """The named positions, from a list of texts, a record with texts and sweep, or a mapping."""
    problems = letterer.problems
    component = control.component
    turning = component.motion.kind is MotionKind.TURN
    if not turning and not component.positions:
        problems.add(
            where,
            said.no_positions(control.ref, component.name),
            said.remove_positions(),
        )
        return ()
    listed = _is_list(written)
    if turning and listed:
        named = _round(written, where, control, problems)
    elif listed:
        problems.add(
            where,
            said.list_without_turning(control.ref, component.name),
            said.directions_with_text(component.positions),
        )
        return ()
    else:
        assert isinstance(written, tuple)
        named = _named(written, control, problems)
    turned = written if isinstance(written, language.TurningPositions) else None
    units = _units(turned, len(named), control, letterer) if turned else []
    alone = _units_alone(turned) if turned else {}
    return tuple(
        Position(direction=direction, request=request, unit=unit)
        for number, ((direction, text), unit) in enumerate(zip_longest(named, units[: len(named)]))
        if (
            request := letterer.request(
                _with_unit(text.value, alone.get(number)), text.where, "position", control.numbers
            )
        )
        is not None
    )


def _units_alone(fields: language.TurningPositions) -> dict[int, str]:
    """The units of ranges of one position, by its number: such a unit is written behind its value."""
    found: dict[int, str] = {}
    number = 0
    for each in fields.ranges or ():
        if each.value.of == 1 and isinstance(each.value.unit, str):
            found[number] = each.value.unit
        number += each.value.of or 0
    return found


def _with_unit(text: object, unit: str | None) -> Any:
    return text if unit is None or not isinstance(text, str) else f"{text}{THIN}{unit}"


def _is_list(written: object) -> bool:
    """Whether positions are a list of texts or a record with one; a mapping names directions."""
    if isinstance(written, language.TurningPositions):
        return True
    return isinstance(written, tuple) and bool(written) and isinstance(written[0], Value)


def _units(
    fields: language.TurningPositions, count: int, control: Control, letterer: Letterer
) -> list[LegendRequest | None]:
    """The unit of each position's range; none where the spec has no ranges, and of ranges of one position."""
    found: list[LegendRequest | None] = []
    for each in fields.ranges or ():
        if each.value.of is not None and each.value.unit is not None:
            where = each.value.where(language.PositionRange.unit)
            alone = each.value.of == 1 and isinstance(each.value.unit, str)
            unit = None if alone else letterer.request(each.value.unit, where, "position", control.numbers)
            found += [unit] * each.value.of
    if len(found) > count:
        letterer.problems.add(
            fields.where(language.TurningPositions.ranges),
            said.ranges_overrun(len(found), count),
            said.up_to_all(count),
        )
    return found


def _round(written: object, where: Where, control: Control, problems: Problems) -> list[tuple[str | float, Value[Any]]]:
    """Texts with their directions, at the angles that are written or those of the part; none when both are missing."""
    if isinstance(written, language.TurningPositions):
        texts = written.texts or ()
        angles = _written_angles(written, len(texts), control.component.motion, problems)
    else:
        assert isinstance(written, tuple)
        texts, angles = written, None
    if angles is None:
        angles = _angles_of_part(len(texts), where, control, problems)
    if angles is None:
        return []
    return [(UP - angle + control.turn, text) for angle, text in zip(angles, texts, strict=False)]


def _written_angles(
    fields: language.TurningPositions, count: int, motion: Motion, problems: Problems
) -> tuple[float, ...] | None:
    """The angles that a spec states, clockwise from straight up; None where it leaves them to the part."""
    keys = language.TurningPositions
    if fields.written(keys.angles):
        return _each_angle(fields, count, problems)
    if fields.index is not None:
        return _by_index(fields, fields.index, count, motion, problems)
    if fields.written(keys.first):
        problems.add(fields.key_where(keys.first), said.first_without_index(), said.angles_or_index())
    return () if fields.written(keys.index) or fields.written(keys.first) else None


def _each_angle(fields: language.TurningPositions, count: int, problems: Problems) -> tuple[float, ...]:
    """The angles one by one: as many as there are texts, and each once."""
    keys = language.TurningPositions
    for field in (keys.index, keys.first):
        if fields.written(field):
            problems.add(fields.key_where(field), said.angles_and(field.name), said.angles_or_index())
    listed = fields.angles or ()
    refused = fields.misread(keys.angles) or any(angle.value is None for angle in listed)
    if fields.angles is not None and not refused and len(listed) != count:
        problems.add(fields.where(keys.angles), said.angles_miscounted(len(listed), count), said.one_angle_each())
    first: dict[float, Where] = {}
    for angle in listed:
        before = first.setdefault(angle.value % 360, angle.where)
        if before is not angle.where:
            problems.add(angle.where, said.angle_twice(angle.value, before.within), said.each_angle_once())
    return tuple(angle.value for angle in listed)


def _by_index(
    fields: language.TurningPositions, index: float, count: int, motion: Motion, problems: Problems
) -> tuple[float, ...]:
    """Equal steps from the first position, or as near to symmetrical as the part allows where that is not stated."""
    if index * count > 360 + _TOLERANCE:
        where = fields.where(language.TurningPositions.index)
        problems.add(where, said.positions_overrun(count, index), said.index_up_to(360 / count))
        return ()
    if fields.first is None and (held := motion.stepped(index, count)) is not None:
        return held
    start = -index * (count - 1) / 2 if fields.first is None else fields.first
    return tuple(start + index * number for number in range(count))


def _angles_of_part(count: int, where: Where, control: Control, problems: Problems) -> tuple[float, ...] | None:
    """The angles at which the part has so many positions; None, and told, where that is not known for sure.

    A mark at a wrong angle is scrap, so nothing is taken that differs from maker to maker: it is asked for.
    """
    component = control.component
    motion = component.motion
    ways = motion.made_with(count)
    if not motion.ways:
        problems.add(where, said.angles_unknown(control.ref, component.name), said.state_angles())
        return None
    if not ways:
        told = said.positions_not_made(count, component.name, _counts_made(motion))
        problems.add(where, told, said.state_angles())
        return None
    angles = motion.angles(count)
    if angles is None:
        _ask_which_way(count, ways, where, control, problems)
        return None
    if component.held and motion.phase is None and not all(way.angles for way in ways):
        problems.add(where, said.angles_held(control.ref, component.name), said.state_measured())
        return None
    return angles


def _counts_made(motion: Motion) -> str:
    """The numbers of positions with which a control is made."""
    counts = sorted({number for way in motion.ways for number in range(way.fewest, way.most + 1)})
    return f"{counts[0]}" if len(counts) == 1 else f"{counts[0]} to {counts[-1]}"


def _ask_which_way(count: int, ways: tuple[Way, ...], where: Where, control: Control, problems: Problems) -> None:
    """Tells in which ways a control is made with so many positions, of which none is sure, and asks for the angles."""
    name = control.component.name
    made = tuple(dict.fromkeys(as_written(way) for way in ways))
    if len(made) == 1:
        problems.add(where, said.angles_typical(control.ref, name, made[0]), said.state_measured())
    else:
        told = said.angles_differ(control.ref, name, count, made)
        problems.add(where, told, said.state_one_of_them(made[0].strip("`")))


def _named(
    entries: tuple[tuple[Value[str], Value[str]], ...], control: Control, problems: Problems
) -> list[tuple[str | float, Value[str]]]:
    """Texts by the direction of a lever, rocker or slide."""
    found: list[tuple[str | float, Value[str]]] = []
    component = control.component
    if component.motion.kind is MotionKind.TURN and entries:
        first = entries[0][0]
        problems.add(first.where, said.directions_of_turning(control.ref, component.name), said.texts_with_angles())
        return []
    for key, text in entries:
        if key.value in component.positions:
            found.append((key.value, text))
        else:
            near = did_you_mean(key.value, component.positions, said.positions())
            problems.add(key.where, said.unknown_position(component.name, key.value), near)
    return found


def knob(
    written: language.Knob | str, where: Where, control: Control, find: Callable[[str, Where], KnobEntry | None],
    problems: Problems,
) -> Knob | None:  # fmt: skip
    """The knob by its dimensions or its name, if the component has a shaft that goes into it.

    `find` gives the knob of a name, or None when there is none, which it has told.
    """
    shaft = control.component.shaft
    if shaft is None:
        problems.add(
            where,
            said.knob_without_shaft(control.ref, control.component.name),
            said.remove_knob(),
        )
        return None
    if isinstance(written, language.Knob):
        return _knob_of_dimensions(written, shaft, problems)
    entry = find(written, where)
    if entry is None:
        return None
    bores = entry.bores
    if bores is not None and not bores[0] - _BORE_SLACK <= shaft.diameter <= bores[1] + _BORE_SLACK:
        told = _mismatch(entry.name, bores, control.component.name, shaft.diameter)
        problems.add(where, told, said.knob_for_shaft(entry.diameter, entry.height))
        return None
    return Knob(diameter=entry.diameter, height=entry.height, name=entry.name)


def _mismatch(knob_name: str, bores: tuple[float, float], part: str, shaft: float) -> Message:
    if bores[0] == bores[1]:
        return said.bore_mismatch(knob_name, bores[0], part, shaft)
    return said.bore_range_mismatch(knob_name, bores[0], bores[1], part, shaft)


def _knob_of_dimensions(fields: language.Knob, shaft: Shaft, problems: Problems) -> Knob | None:
    diameter, height = fields.diameter, fields.height
    if diameter is None or height is None:
        return None
    if diameter <= shaft.diameter:
        problems.add(
            fields.where(language.Knob.diameter),
            said.knob_too_small(diameter, shaft.diameter),
            said.more_than(shaft.diameter),
        )
    return Knob(diameter=diameter, height=height)


def scales(
    written: language.Scale | tuple[Value[language.Scale], ...],
    control: Control,
    letterer: Letterer,
    fitted: Knob | None = None,
) -> tuple[Scale, ...]:
    """One scale, or the inner and the outer one; `fitted` is the knob."""
    listed = (written,) if isinstance(written, language.Scale) else tuple(item.value for item in written)
    first = scale(listed[0], control, letterer)
    if listed[0].arc == "shared":
        letterer.problems.add(listed[0].key_where(language.Scale.arc), said.first_shares_arc(), said.second_of_two())
    found = [first, *(scale(fields, control, letterer, first) for fields in listed[1:])]
    made = tuple(
        replace(one, turning=turning(fields, one, control, fitted, letterer.problems))
        for fields, one in zip(listed, found, strict=True)
        if one is not None
    )
    if len(made) > 1 and any(one.turning is not None for one in made):
        letterer.problems.add(
            listed[1].begins, turning_said.turning_beside_another(control.ref), turning_said.one_turning_scale()
        )
    return made


_OF_ARC: Final[tuple[Field[Any], ...]] = (
    language.Scale.sweep,
    language.Scale.start,
    language.Scale.direction,
    language.Scale.zones,
    language.Scale.wedge,
)
"""What a scale on the arc of another cannot have of its own."""


def _shares(fields: language.Scale, first: Scale, control: Control, problems: Problems) -> bool:
    """Whether a scale has its marks on the arc of the first one."""
    if fields.arc != "shared":
        return False
    for field in _written(fields, _OF_ARC):
        problems.add(fields.key_where(field), said.shared_arc_and(field.name), said.remove_from_shared(field.name))
    if first.straight is not None or first.zones or first.wedge:
        problems.add(fields.key_where(language.Scale.arc), said.arc_not_shared(control.ref), said.dial_without_bands())
    return True


def scale(fields: language.Scale, control: Control, letterer: Letterer, first: Scale | None = None) -> Scale | None:
    """The scale, if it fits the component, its steps divide its range, and its marks can be counted.

    `first` is the inner scale of a part with two.
    """
    problems = letterer.problems
    straight = _straight(fields, control, problems)
    begin, end = fields.from_, fields.to
    if begin is None or end is None or (control.component.shaft is None) == (straight is None):
        return None
    if not _has_length(fields, begin, end, problems):
        return None
    low, high = _ends(fields)
    law, formula = _law(fields, problems)
    if law is None:
        return None
    numerals, marks, detents = _listed_values(fields, law, problems)
    on = _shared_arc(fields, first, control, problems)
    sweep, figure = _sweep(fields, control, problems) if straight is None and on is None else (0.0, None)
    if sweep is None or not _steps_fit(fields, law, problems):
        return None
    clockwise = fields.direction == "clockwise"
    multiplier = _multiplier(fields, problems)
    words, braced, signs = _words(fields, low, high, letterer, control)
    made = Scale(
        low=low,
        high=high,
        major=fields.major,
        minor=fields.minor,
        sweep=sweep,
        sweep_of_part=figure,
        start_deg=_start(fields, sweep, clockwise=clockwise) + control.turn,
        unit=_unit(fields, control, letterer, multiplier),
        multiplier=multiplier,
        where=fields.begins,
        numerals=numerals,
        decimals=_decimals_of(fields, marks, numerals, multiplier),
        law=law,
        table=_table(fields, begin, end, law, problems),
        marks=marks,
        intermediate=fields.intermediate,
        clockwise=clockwise,
        reading=Reading(fields.reading),
        words=words,
        braced=braced,
        signs=signs,
        zones=_zones(fields, low, high, letterer),
        detents=detents,
        wedge=bool(fields.wedge),
        straight=straight,
        falling=end < begin,
        signed=bool(fields.signed),
        subdivided=_is_open(fields, law, detents),
        formula=formula,
        rest=fields.rest or "",
    )
    _check_rest(made, fields, problems)
    made = _with_decimals(made)
    return made if on is None else _on_arc_of(on, made)


def _shared_arc(fields: language.Scale, first: Scale | None, control: Control, problems: Problems) -> Scale | None:
    """The inner scale, where this one is on the same arc; None for a scale of its own."""
    return first if first is not None and _shares(fields, first, control, problems) else None


def _has_length(fields: language.Scale, begin: float, end: float, problems: Problems) -> bool:
    """Whether a scale begins and ends at two values."""
    if begin == end:
        problems.add(fields.where(language.Scale.to), said.scale_of_nothing(begin, end), said.other_than_from())
    return begin != end


def _multiplier(fields: language.Scale, problems: Problems) -> float:
    """By what its numerals are multiplied; told where that is no power of ten."""
    written = fields.multiplier
    if not written:
        return 1.0
    power = math.log10(written)
    if not math.isclose(power, round(power), abs_tol=_TOLERANCE) or not _POWERS[0] <= round(power) <= _POWERS[1]:
        problems.add(fields.where(language.Scale.multiplier), said.multiplier_odd(written), said.powers_of_ten())
        return 1.0
    return written


_POWERS: Final = (-6, 9)
"""From so small to so large powers of ten: µ to G."""


def _decimals_of(
    fields: language.Scale, marks: tuple[float, ...], numerals: tuple[float, ...] | None, multiplier: float
) -> int:
    """As many decimals as the numerals need, or where they are left to the room, the long marks."""
    low, high = _ends(fields)
    values = (low, fields.major or high, *marks) if numerals is None else numerals
    return _most_decimals(over(value, multiplier) for value in values)


def _with_decimals(made: Scale) -> Scale:
    """A scale with an end that is no multiple of its step: as many decimals as the step and the numbered ends need."""
    if made.major is None or made.numerals is not None or not odd_ends(made):
        return made
    values = (made.major, *long_ends(made, made.major))
    return replace(made, decimals=_most_decimals(made.number(value) for value in values))


def _check_rest(made: Scale, fields: language.Scale, problems: Problems) -> None:
    """A name for the start of the travel is refused where the lowest value is there."""
    if made.rest and travelled(made, made.low) < _TOLERANCE:
        problems.add(fields.where(language.Scale.rest), said.rest_at_value(made.low), said.laws_with_rest())


def _on_arc_of(first: Scale, made: Scale) -> Scale:
    """A second scale on the arc of the first."""
    return replace(
        made,
        sweep=first.sweep,
        sweep_of_part=first.sweep_of_part,
        start_deg=first.start_deg,
        clockwise=first.clockwise,
        shares_arc=True,
    )


def _listed_values(
    fields: language.Scale, law: Law, problems: Problems
) -> tuple[tuple[float, ...] | None, tuple[float, ...], tuple[float, ...]]:
    """The values with numerals, None where that is left to the room; those with long marks; those with detents."""
    numerals = _values(fields, language.Scale.numerals, problems)
    marks = _values(fields, language.Scale.marks, problems) or _usual_marks(fields, law)
    return numerals, marks, _values(fields, language.Scale.detents, problems) or ()


def _law(fields: language.Scale, problems: Problems) -> tuple[Law | None, str]:
    """The law of a scale and its formula, if it has one; None, and told, where the values do not go with it."""
    written = fields.law
    if isinstance(written, language.OwnLaw):
        law, formula = _own_law(written, fields, problems)
    else:
        law, formula = Law(written), ""
    if law is None or not _law_reaches(law, fields, problems):
        return None, ""
    named = law not in (Law.LINEAR, Law.LOGARITHMIC) or bool(formula)
    if named and fields.written(language.Scale.table):
        problems.add(fields.key_where(language.Scale.table), said.law_and_table(), said.law_or_table())
        return None, ""
    return law, formula


def _own_law(written: language.OwnLaw, fields: language.Scale, problems: Problems) -> tuple[Law | None, str]:
    """The law of a formula or of a taper; None, and told, where it is neither, or the formula is no law."""
    keys = language.OwnLaw
    if written.written(keys.formula) == written.written(keys.taper):
        problems.add(fields.where(language.Scale.law), said.law_of_nothing(), said.formula_or_taper())
        return None, ""
    if not written.written(keys.formula):
        return Law.AUDIO, ""
    text = written.formula
    if text is None or not _only_rises_or_falls(text, *_ends(fields), written.where(keys.formula), problems):
        return None, ""
    return Law.LINEAR, text


def _law_reaches(law: Law, fields: language.Scale, problems: Problems) -> bool:
    """Whether a law has a place for every value of the scale; told where it has not."""
    low, high = _ends(fields)
    where = fields.where(language.Scale.law)
    if law in _POSITIVE and low < 0:
        problems.add(where, said.law_below_zero(fields.law, low), said.from_zero_up())
        return False
    published = PUBLISHED.get(law)
    if published is None or (published.low <= low and high <= published.high):
        return True
    accepts = (
        said.law_up_to(published.high, published.source)
        if math.isinf(published.low)
        else said.law_between(published.low, published.high, published.source)
    )
    problems.add(where, said.law_exceeded(fields.law, low, high), accepts)
    return False


_POSITIVE: Final = (Law.SQUARE, Law.SQUARE_ROOT)

_SAMPLES: Final = 1000
"""At so many places between its ends a formula is looked at."""


def _only_rises_or_falls(text: str, low: float, high: float, where: Where, problems: Problems) -> bool:
    """Whether a formula is a law: it has a value at every value, and goes one way only."""
    values = [low + (high - low) * step / _SAMPLES for step in range(_SAMPLES + 1)]
    try:
        found = [at_value(text, value) for value in values]
    except FormulaError as error:
        problems.add(where, error.says, error.accepts or said.one_way(low, high))
        return False
    rises = found[-1] > found[0]
    for (value, one), (_, two) in pairwise(zip(values, found, strict=True)):
        if (two <= one) if rises else (two >= one):
            told = said.formula_flat(text, value) if one == two else said.formula_turns(text, value)
            problems.add(where, told, said.one_way(low, high))
            return False
    return True


def _usual_marks(fields: language.Scale, law: Law) -> tuple[float, ...]:
    """The marks that the dials of a published law have, where the spec asks for no others."""
    usual = usual_marks(law)
    if not usual or _written(fields, (*_STEPS, language.Scale.marks)):
        return ()
    low, high = _ends(fields)
    inside = (value for value in usual if low - _TOLERANCE <= value <= high + _TOLERANCE)
    return tuple(sorted({low, high, *inside}))


def _is_open(fields: language.Scale, law: Law, detents: tuple[float, ...]) -> bool:
    """Whether the short marks are left to the room that there is; a stepped control has none between its steps."""
    if not fields.subdivide or len(detents) > _STEPPED:
        return False
    if _usual_marks(fields, law) or fields.written(language.Scale.marks):
        return fields.written(language.Scale.subdivide) and not _written(fields, _STEPS)
    return law is Law.LOGARITHMIC or not _written(fields, _STEPS[1:])


def _ends(fields: language.Scale) -> tuple[float, float]:
    """The lowest and the highest value."""
    begin, end = fields.from_ or 0.0, fields.to or 0.0
    return min(begin, end), max(begin, end)


def _unit(fields: language.Scale, control: Control, letterer: Letterer, multiplier: float) -> str:
    """The unit as it is lettered: with the prefix that says the multiplier, else behind it."""
    where = fields.where(language.Scale.unit)
    unit = letterer.unit(fields.unit, where, control.numbers) if fields.unit else ""
    if multiplier == 1.0:
        return unit
    factor = f"×{Decimal(repr(multiplier)).normalize():f}"
    return (multiple(unit, multiplier) or f"{factor}\N{NO-BREAK SPACE}{unit}") if unit else factor


def _sweep(fields: language.Scale, control: Control, problems: Problems) -> tuple[float | None, Figure | None]:
    """Degrees from end to end, and the figure of the part that they are from; None, and told, where nobody knows."""
    if fields.written(language.Scale.sweep):
        return fields.sweep, None
    if control.component.motion.stops is Stops.NONE:
        return FULL_TURN, None
    curved = fields.written(language.Scale.table) or fields.law == Law.AUDIO.value
    curved = curved or (isinstance(fields.law, language.OwnLaw) and fields.law.taper is not None)
    figure = control.component.motion.swept("audio" if curved else "linear")
    if figure is None:
        _ask_sweep(fields, control, problems)
        return None, None
    return figure.value, figure


def _ask_sweep(fields: language.Scale, control: Control, problems: Problems) -> None:
    """Tells why the part gives a dial no sweep: it turns too far for one, or nobody knows how far."""
    ref, motion, name = control.ref, control.component.motion, control.component.name
    turn, turns = motion.electrical or motion.rotation, motion.turns
    if turns is not None:
        angle = FULL_TURN * turns.value if turn is None else turn.value
        problems.add(fields.begins, said.turns_often(ref, name, angle, turns.value), said.count_turns())
    elif turn is not None:
        problems.add(fields.begins, said.turns_all_round(ref, name, turn.value), said.count_turns())
    else:
        problems.add(fields.begins, said.sweep_unknown(ref, name), said.state_sweep())


def _start(fields: language.Scale, sweep: float, *, clockwise: bool) -> float:
    """Where a dial begins, as it is written, or half its sweep before straight up; all round it begins there."""
    if fields.start is not None:
        return fields.start
    if sweep >= FULL_TURN:
        return UP
    return UP + (sweep / 2 if clockwise else -sweep / 2)


def _straight(fields: language.Scale, control: Control, problems: Problems) -> StraightScale | None:
    """What makes the scale straight; a part with a shaft has dials, one without has straight scales."""
    if control.component.shaft is None:
        length, figure = _length(fields, control, problems)
        if length is None:
            return None
        _check_cursor(fields, control, problems)
        side = _usual_side(control) if fields.side is None else Place(fields.side)
        return StraightScale(length=length, side=side, length_of_part=figure, cursor=fields.cursor)
    for field in (language.Scale.length, language.Scale.side, language.Scale.cursor):
        if fields.written(field):
            problems.add(
                fields.key_where(field),
                said.straight_scale_on_shaft(control.ref, field.name, control.component.name),
                said.keys_of_dial(),
            )
    return None


def _check_cursor(fields: language.Scale, control: Control, problems: Problems) -> None:
    """Refuses the width of a cursor where no window or slot shows one: a slide has a cap of its own."""
    component = control.component
    slides = component.motion.kind is MotionKind.SLIDE
    if fields.written(language.Scale.cursor) and (
        slides or all(each.role is not Role.APERTURE for each in component.openings)
    ):
        told = said.cursor_on_slide if slides else said.cursor_without_window
        problems.add(fields.key_where(language.Scale.cursor), told(control.ref, component.name), said.remove_cursor())


def _usual_side(control: Control) -> Place:
    """Where a straight scale stands if nobody says: along the way of its slide, above or to the right of it."""
    moved = next((one.contour.bounds for one in control.component.front if one.travel), None)
    if moved is None:
        return Place.RIGHT
    along = math.radians(control.turn + (0.0 if moved.width > moved.height else 90.0))
    return Place.ABOVE if abs(math.cos(along)) > abs(math.sin(along)) + 1e-9 else Place.RIGHT


def _length(fields: language.Scale, control: Control, problems: Problems) -> tuple[float | None, Figure | None]:
    """Mm from end to end, and the figure of the slide that they are from; None, and told, where nobody knows."""
    if fields.written(language.Scale.length):
        return fields.length, None
    ref, component = control.ref, control.component
    if component.motion.kind is not MotionKind.SLIDE:
        problems.add(fields.begins, said.scale_without_shaft(ref, component.name), said.remove_scale())
        return None, None
    travel = component.motion.travel
    if travel is None:
        problems.add(fields.begins, said.travel_unknown(ref, component.name), said.state_length())
        return None, None
    return travel.value, travel


def _steps_fit(fields: language.Scale, law: Law, problems: Problems) -> bool:
    """Whether the marks are given in one way, and the steps divide each other."""
    if law is Law.LOGARITHMIC:
        return _starts_above_zero(fields, problems)
    if fields.written(language.Scale.marks):
        if fields.written(language.Scale.major):
            major = language.Scale.major
            problems.add(fields.key_where(major), said.marks_and_step(major.name), said.marks_or_steps())
        countable = [_is_countable(fields, field, problems) for field in _written(fields, _STEPS[1:])]
        return all(countable)
    return bool(_usual_marks(fields, law)) or _steps_divide(fields, problems)


_STEPS: Final[tuple[Field[Any], ...]] = (language.Scale.major, language.Scale.intermediate, language.Scale.minor)


def _is_countable(fields: language.Scale, field: Field[float | None], problems: Problems) -> bool:
    """Whether a step beside marks of one's own makes no more marks than a scale can show."""
    low, high = _ends(fields)
    step = fields[field]
    if step is None or (high - low) / step <= MAX_MARKS:
        return step is not None
    problems.add(fields.where(field), said.too_many_marks(step, (high - low) / step, MAX_MARKS), said.larger_step())
    return False


def _written(fields: language.Scale, keys: tuple[Field[Any], ...]) -> list[Field[Any]]:
    return [key for key in keys if fields.written(key)]


def _starts_above_zero(fields: language.Scale, problems: Problems) -> bool:
    """Whether a logarithm can be taken of the low end; such a scale makes its marks itself."""
    low, _ = _ends(fields)
    for field in _written(fields, (*_STEPS, language.Scale.marks, language.Scale.table)):
        problems.add(fields.key_where(field), said.logarithmic_marks(field.name), said.remove_marks(field.name))
    if low <= 0:
        falling = low != fields.from_
        where = fields.where(language.Scale.to if falling else language.Scale.from_)
        problems.add(
            where, said.logarithmic_end(low) if falling else said.logarithmic_start(low), said.more_than_zero()
        )
        return False
    return True


def _steps_divide(fields: language.Scale, problems: Problems) -> bool:
    """Whether the long step is within the range; smaller ones that do not go into it are told."""
    low, high = _ends(fields)
    major = fields.major
    if major is None:
        if not fields.written(language.Scale.major) and not fields.misread(language.Scale.law):
            problems.add(fields.begins, said.no_marks(), said.ways_to_mark())
        return False
    if not _is_countable(fields, language.Scale.major, problems):
        return False
    if major > high - low + _TOLERANCE:
        where = fields.where(language.Scale.major)
        problems.add(where, said.step_over_range(major, high - low), said.step_up_to(high - low))
        return False
    for field in (language.Scale.minor, language.Scale.intermediate):
        step = fields[field]
        if step is not None:
            _divides(fields, field, step, major, said.step_of_major, problems)
    return True


def _divides(
    fields: language.Scale,
    field: Field[float | None],
    step: float,
    whole: float,
    refused: Callable[[float, float], Message],
    problems: Problems,
) -> bool:
    """Whether a step goes into what it divides a whole number of times, and not too often."""
    where = fields.where(field)
    low, high = _ends(fields)
    times = whole / step
    if (high - low) / step > MAX_MARKS:
        problems.add(
            where,
            said.too_many_marks(step, (high - low) / step, MAX_MARKS),
            said.larger_step(),
        )
        return False
    if round(times) < 1 or not math.isclose(times, round(times), rel_tol=_TOLERANCE, abs_tol=_TOLERANCE):
        problems.add(where, refused(step, whole), said.step_such_as(_nearest_divisor(step, whole)))
        return False
    return True


def _nearest_divisor(step: float, whole: float) -> float:
    """The part of a whole nearest to a step, of those that are written in full in six digits."""
    parts = [float(f"{whole / count:.6g}") for count in range(1, MAX_MARKS + 1)]
    exact = [part for count, part in enumerate(parts, 1) if math.isclose(part * count, whole, rel_tol=1e-12)]
    return min(exact or [whole], key=lambda part: abs(part - step))


def _values(fields: language.Scale, field: Field[Any], problems: Problems) -> tuple[float, ...] | None:
    """Listed values, in order, each on the scale and once; None when the key was left out."""
    written = fields[field]
    if written is None:
        return None
    low, high = _ends(fields)
    seen: set[float] = set()
    for value in written:
        _on_scale(value.value, value.where, field.name, low, high, problems)
        if value.value in seen:
            problems.add(value.where, said.value_twice(field.name, value.value), said.each_value_once())
        seen.add(value.value)
    return tuple(sorted(seen))


def _on_scale(value: float, where: Where, key: str, low: float, high: float, problems: Problems) -> bool:
    if low - _TOLERANCE <= value <= high + _TOLERANCE:
        return True
    problems.add(where, said.value_off_scale(key, value), said.values_on_scale(low, high))
    return False


def _table(
    fields: language.Scale, begin: float, end: float, law: Law, problems: Problems
) -> tuple[tuple[float, float], ...]:
    """The measured law, from low to high: values and shares both grow, or on a falling scale values fall.

    That of a taper is made here.
    """
    if law is Law.AUDIO:
        stated = fields.law.taper if isinstance(fields.law, language.OwnLaw) else None
        return taper(min(begin, end), max(begin, end), TAPER if stated is None else stated)
    written = fields.table
    if not written:  # left out, or no entry of it could be read, which is told already
        return ()
    pairs = [(value.value[0], value.value[1]) for value in written]
    falls = end < begin
    if not _runs_through(pairs, begin, end):
        problems.add(
            fields.where(language.Scale.table),
            said.table_incomplete(),
            said.complete_falling_table(begin, end) if falls else said.complete_table(begin, end),
        )
        return ()
    return tuple((value, 1.0 - share) for value, share in reversed(pairs)) if falls else tuple(pairs)


def _runs_through(pairs: Sequence[tuple[float, float]], begin: float, end: float) -> bool:
    """Whether pairs of value and share run from one end of a scale to the other, both one way only."""
    way = -1.0 if end < begin else 1.0
    runs = all(way * before[0] < way * after[0] and before[1] < after[1] for before, after in pairwise(pairs))
    return runs and pairs[0] == (begin, 0.0) and pairs[-1] == (end, 1.0)


_Worded: TypeAlias = tuple[tuple[float, str], ...]
_Braced: TypeAlias = tuple[tuple[str, tuple[Span, ...]], ...]


def _words(
    fields: language.Scale, low: float, high: float, letterer: Letterer, control: Control
) -> tuple[_Worded, _Braced, tuple[tuple[float, LegendRequest], ...]]:
    """The words at single values in order, what of them is in braces, and the symbols, which have their own font."""
    found: dict[float, LegendRequest] = {}
    for key, text in fields.words or ():
        value = _NUMBER.parse(Scalar(text=key.value, quoted=False, where=key.where), letterer.problems)
        if value is None or not _on_scale(value, key.where, language.Scale.words.name, low, high, letterer.problems):
            continue
        request = letterer.request(text.value, text.where, "position", control.numbers)
        if request is not None:
            found[value] = request
    return _apart(sorted(found.items(), key=lambda each: each[0]))


def _apart(
    requests: Sequence[tuple[float, LegendRequest]],
) -> tuple[_Worded, _Braced, tuple[tuple[float, LegendRequest], ...]]:
    """The words among requests, what of them is in braces, and the symbols."""
    lettered = [(value, request) for value, request in requests if request.font is None]
    signs = tuple(each for each in requests if each[1].font is not None)
    braced = {request.text: request.spans for _, request in lettered if request.spans}
    return tuple((value, request.text) for value, request in lettered), tuple(braced.items()), signs


def _zones(fields: language.Scale, low: float, high: float, letterer: Letterer) -> tuple[Zone, ...]:
    found: list[Zone] = []
    inks = {ink.name: ink for ink in letterer.marking.inks}
    for item in fields.zones or ():
        zone = item.value
        start, end, name = zone.from_, zone.to, zone.ink
        if start is None or end is None or name is None:
            continue
        ink = ink_named(name, zone.where(language.Zone.ink), inks, letterer.problems)
        inside = [
            _on_scale(value, zone.where(field), language.Scale.zones.name, low, high, letterer.problems)
            for value, field in ((start, language.Zone.from_), (end, language.Zone.to))
        ]
        if all(inside) and end <= start:
            letterer.problems.add(zone.where(language.Zone.to), said.zone_reversed(start, end), said.to_above_from())
        elif all(inside) and ink is not None:
            found.append(Zone(low=start, high=end, ink=ink))
    return tuple(found)


def _most_decimals(values: Iterable[float]) -> int:
    """As many as the number needs that needs the most."""
    return max((decimals(value) for value in values), default=0)
