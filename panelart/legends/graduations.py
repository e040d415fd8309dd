"""What a scale shows: its marks with their share of the way, and its numerals, before any of it has a place."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from itertools import pairwise
from typing import Final

from panelart.canonical import Struct
from panelart.catalogue.laws import travelled
from panelart.catalogue.steps import decimals, long_ends, multiples, odd_ends
from panelart.legends.subdivision import Room, coarse, is_whole, subdivided
from panelart.model.motion import FULL_TURN
from panelart.model.panel import Law, Scale
from panelart.texts.multiples import multiple

MINUS = "\N{MINUS SIGN}"


class Graduation(Struct, frozen=True):
    """One mark: its value, its share of the way from where the scale begins (0) to where it ends (1), and its kind.

    Kinds are major, intermediate, minor and detent.
    """

    value: float
    share: float
    kind: str


def graduations(scale: Scale, room: Room | None = None, numbers: Sequence[float] = ()) -> list[Graduation]:
    """Every mark once, the weightier kind where two would fall together.

    Where the spec leaves the short marks open, they are those that `room` has between the `numbers`.
    """
    open_ = scale.subdivided and room is not None
    found = _open(scale, numbers, room) if open_ and room is not None else _kinds(scale)
    kinds: dict[float, str] = {}
    for value, kind in found:
        kinds.setdefault(round(value, 9), kind)
    for value in odd_ends(scale):
        if _among(value, numbers):
            kinds[round(value, 9)] = "major"
    for value in scale.detents:
        kinds[round(value, 9)] = "detent"
    every = [Graduation(value, travelled(scale, value), kind) for value, kind in sorted(kinds.items())]
    return [one for one in every if not closes(scale, one.share)]


def closes(scale: Scale, share: float) -> bool:
    """Whether this place is where a scale all round comes back to its beginning."""
    return scale.straight is None and scale.sweep >= FULL_TURN and share >= 1.0 - 1e-9


def _open(scale: Scale, numbers: Sequence[float], room: Room) -> Iterator[tuple[float, str]]:
    """The long marks, and what has room between them."""

    def along(value: float) -> float:
        return travelled(scale, value)

    if scale.law is Law.LOGARITHMIC:
        yield from _open_decades(scale, numbers, room, along)
        return
    if odd_ends(scale) and scale.major is not None:
        yield from _clear_of_ends(scale, _open_multiples(scale, scale.major, numbers, room, along), room, along)
        return
    long = list(scale.marks) or _steps(scale, scale.major)
    even = not is_curved(scale)
    if not even:
        long = _apart(scale, long, along, room)
    yield from _between(long, subdivided(long, numbers, along, room, even=even))


def _between(long: Sequence[float], between: Sequence[tuple[float, float, float]]) -> Iterator[tuple[float, str]]:
    """Long marks, and those between them: each with its step and the space that it divides."""
    finer = any((medium := coarse(space)) is not None and step < medium * 0.99 for _, step, space in between)
    yield from ((value, "major") for value in long)
    for value, _, space in between:
        medium = coarse(space)
        yield value, "intermediate" if finer and medium is not None and is_whole(value, medium) else "minor"


def _open_multiples(
    scale: Scale, major: float, numbers: Sequence[float], room: Room, along: Callable[[float], float]
) -> Iterator[tuple[float, str]]:
    """The multiples of the long step and what has room between them, which goes on to ends that are no multiples."""
    long = multiples(scale, major)
    even = not is_curved(scale)
    if not even:
        long = _apart(scale, long, along, room)
    between = subdivided(long, numbers, along, room, even=even)
    if between and even:
        _, step, _ = between[0]
        outside = [value for value in multiples(scale, step) if not long[0] <= value <= long[-1]]
        between = [*between, *((value, step, major) for value in outside)]
    yield from _between(long, between)


def _clear_of_ends(
    scale: Scale, marks: Iterator[tuple[float, str]], room: Room, along: Callable[[float], float]
) -> Iterator[tuple[float, str]]:
    """Marks with those at ends that are no multiples, without the shorter ones that are too near to an end.

    An end too near to a long mark has none of its own.
    """
    found = list(marks)
    own = long_ends(scale, scale.major or 1.0)
    for end in odd_ends(scale):
        near = [
            (value, kind) for value, kind in found if abs(along(value) - along(end)) * room.length < room.apart - 1e-9
        ]
        if all(kind != "major" for _, kind in near):
            found = [one for one in found if one not in near]
            found.append((end, "major" if end in own else "minor"))
    yield from found


def _open_decades(
    scale: Scale, numbers: Sequence[float], room: Room, along: Callable[[float], float]
) -> Iterator[tuple[float, str]]:
    """Ones, twos and fives of each decade, then what has room between them.

    Where some of that is finer than digits, ones, twos and fives have long marks and the other digits middle ones.
    """
    kinds = dict(_digits(scale))
    fixed = _twos_and_fives(kinds, numbers, room, along)
    between = subdivided(fixed, numbers, along, room, even=False)
    finer = any(value not in kinds for value, _, _ in between)
    for value in fixed:
        yield value, "major" if finer else kinds[value]
    for value, _, _ in between:
        yield value, "intermediate" if finer and value in kinds else "minor"


def _twos_and_fives(
    kinds: dict[float, str], numbers: Sequence[float], room: Room, along: Callable[[float], float]
) -> list[float]:
    """Ones and numbered digits, and the twos and fives that stand clear of those and of each other."""
    fixed = sorted(value for value, kind in kinds.items() if kind == "major" or _among(value, numbers))
    for value in sorted(value for value, kind in kinds.items() if kind == "intermediate"):
        near = [abs(along(value) - along(other)) * room.length for other in fixed]
        if value not in fixed and min(near) >= room.apart:
            fixed = sorted([*fixed, value])
    return fixed


def is_curved(scale: Scale) -> bool:
    """Whether equal steps of value are unequal steps on the scale, decades aside."""
    return scale.law not in (Law.LINEAR, Law.LOGARITHMIC) or bool(scale.table or scale.formula)


def resting(scale: Scale) -> float:
    """Where the travel begins: its end for the lowest values."""
    return 1.0 if scale.falling else 0.0


def _apart(scale: Scale, values: list[float], along: Callable[[float], float], room: Room) -> list[float]:
    """Those that an eye can part where a law crowds them: both ends, and from the high end what stands clear.

    Where something else stands at the end of the travel, the lowest has to stand clear of that.
    """
    kept = values[-1:] if scale.rest else values[:1] + values[-1:]
    taken = [along(value) for value in kept] + ([resting(scale)] if scale.rest else [])
    for value in reversed(values[:-1]):
        if all(abs(along(value) - other) * room.length >= room.apart for other in taken):
            kept.append(value)
            taken.append(along(value))
    return sorted(kept)


def _among(value: float, others: Sequence[float]) -> bool:
    return any(math.isclose(value, other, rel_tol=1e-9, abs_tol=1e-9) for other in others)


def _kinds(scale: Scale) -> Iterator[tuple[float, str]]:
    if scale.law is Law.LOGARITHMIC:
        yield from _digits(scale)
        return
    for value in scale.marks or _steps(scale, scale.major):
        yield value, "major"
    yield from _at_odd_ends(scale)
    if scale.intermediate is not None:
        for value in _steps(scale, scale.intermediate):
            yield value, "intermediate"
    yield from _short_marks(scale)


def _at_odd_ends(scale: Scale) -> Iterator[tuple[float, str]]:
    """Marks at the ends that are no multiples of the long step."""
    own = [] if scale.major is None else long_ends(scale, scale.major)
    for value in odd_ends(scale):
        yield value, "major" if value in own else "minor"


def _short_marks(scale: Scale) -> Iterator[tuple[float, str]]:
    """Short marks; every fifth is a middle one where ten are a long step and the spec has no middle ones."""
    tenths = scale.minor is not None and scale.major is not None and round(scale.major / scale.minor) == 10
    for value in _steps(scale, scale.minor):
        medium = tenths and scale.intermediate is None and is_whole(value, 5 * (scale.minor or 0.0))
        yield value, "intermediate" if medium else "minor"


def _steps(scale: Scale, step: float | None) -> list[float]:
    """Every whole multiple of a step from the low end to the high end: 40, 50 ... from 32."""
    return [] if step is None else multiples(scale, step)


def _digits(scale: Scale) -> Iterator[tuple[float, str]]:
    """The ends, and the digits of each decade between: 1 long, 2 and 5 middle, the others short."""
    yield scale.low, "major"
    yield scale.high, "major"
    for decade in range(math.floor(math.log10(scale.low)), math.ceil(math.log10(scale.high)) + 1):
        for digit in range(1, 10):
            value = float(Decimal(digit).scaleb(decade))
            if scale.low < value < scale.high:
                yield value, "major" if digit == 1 else "intermediate" if digit in (2, 5) else "minor"


def numbered(scale: Scale) -> list[list[float]]:
    """The values that may be numbered together, the most first; the last resort is both ends.

    What is left after thinning still counts by one, two or five times a power of ten, and both ends keep their
    numbers: best where such a count comes out even, else with one odd step before the high end, last without the
    number that stands too near to it.
    """
    if scale.numerals is not None:
        return [sorted({*scale.numerals, *worded(scale)})]
    if scale.law is Law.LOGARITHMIC:
        return _counted_by_decades(scale)
    if scale.marks:
        return [sorted({*scale.marks, *worded(scale)})]
    if is_curved(scale):
        own = [] if scale.major is None else long_ends(scale, scale.major)
        return [_once([*_steps(scale, scale.major), *own, *worded(scale)])]
    return _counted_by_multiples(scale, scale.major) if odd_ends(scale) and scale.major else _counted_by_steps(scale)


def _always(scale: Scale) -> set[float]:
    """What is numbered whatever is thinned: both ends, and where words stand."""
    return {scale.low, scale.high, *worded(scale)}


def _counted_by_decades(scale: Scale) -> list[list[float]]:
    """One, two and five of each decade, else one of each, else the ends."""
    digits = dict(_digits(scale))
    by_kind = [{value for value, kind in digits.items() if kind in kinds} for kinds in (_ONE_TWO_FIVE, ("major",))]
    return [sorted({*chosen, *_always(scale)}) for chosen in (*by_kind, set())]


def _counted_by_steps(scale: Scale) -> list[list[float]]:
    """Every long step, then every second or more where that counts well, else the ends."""
    steps = _steps(scale, scale.major)
    strides = _strides(len(steps), scale.major or 0.0)
    even = [steps[::every] for every in strides if (len(steps) - 1) % every == 0]
    odd = [steps[::every] for every in strides if (len(steps) - 1) % every]
    counts = [*even, *([*values, scale.high] for values in odd)]
    counts += [[*values[:-1], scale.high] for values in odd if len(values) > 2]
    return [*(_once([*values, *worded(scale)]) for values in counts), sorted(_always(scale))]


def _counted_by_multiples(scale: Scale, major: float) -> list[list[float]]:
    """Every multiple of the long step, then of two or more of them, each with the ends that stand apart; else the ends.

    For scales with an end that is no multiple.
    """
    own = long_ends(scale, major)
    counts: list[list[float]] = []
    for every in _strides(len(multiples(scale, major)), major):
        apart = [end for end in long_ends(scale, major * every) if end in own]
        counts.append(_once([*multiples(scale, major * every), *apart, *worded(scale)]))
    return [*counts, sorted(_always(scale))]


def _strides(count: int, step: float) -> list[int]:
    """By how many steps so many values may be counted."""
    return [1, *(every for every in range(2, count) if _counts_well(step * every))]


def worded(scale: Scale) -> list[float]:
    """The values at which a word or a symbol stands."""
    return [*(value for value, _ in scale.words), *(value for value, _ in scale.signs)]


def _once(values: list[float]) -> list[float]:
    """In order, each once; steps that are off a value by what sums of decimals are off are that value."""
    return sorted({round(value, 9): value for value in values}.values())


_ONE_TWO_FIVE = ("major", "intermediate")


def _counts_well(step: float) -> bool:
    mantissa = step / 10.0 ** math.floor(math.log10(step) + 1e-9)
    return any(math.isclose(mantissa, good, rel_tol=1e-6) for good in (1.0, 2.0, 5.0, 10.0))


def shown(scale: Scale, value: float) -> str:
    """What stands at a value: its word, or the number with a true minus sign, and with a plus where that is asked for.

    On a scale of even steps all numbers have as many decimals; on a logarithmic one, and at marks that are given one by
    one and not evenly, each has what it needs: 1.4, 2, 2.8, 4. On a logarithmic one thousands are written k, millions
    M, where the unit may have these as its prefix, or there is none.
    """
    for at, word in scale.words:
        if math.isclose(at, value, rel_tol=1e-9, abs_tol=1e-9):
            return word
    number = scale.number(value)
    if scale.law is Law.LOGARITHMIC:
        text = _short(number, scale.unit)
    else:
        text = numeral(number, decimals(number) if _is_uneven(scale.marks) else scale.decimals)
    return f"+{text}" if scale.signed and value > 0 else text


THOUSANDS: Final = (("M", 1e6), ("k", 1e3))
"""The letters behind the numerals of a logarithmic scale, and what each stands for."""


def _is_uneven(marks: Sequence[float]) -> bool:
    """Whether marks are not at equal steps of value."""
    steps = [after - before for before, after in pairwise(marks)]
    return any(not math.isclose(step, steps[0], rel_tol=1e-6) for step in steps)


def _short(value: float, unit: str) -> str:
    for letter, size in THOUSANDS:
        if value >= size and (not unit or multiple(unit, size) == f"{letter}{unit}"):
            return f"{value / size:.6g}{letter}"
    return f"{value:.6g}"


def numeral(value: float, places: int) -> str:
    """A number with so many decimals and a true minus sign."""
    text = f"{abs(value):.{places}f}"
    if not math.isclose(float(text), abs(value), rel_tol=1e-9, abs_tol=1e-9):
        text = f"{abs(value):.9g}"  # an end between the steps: never rounded
    return MINUS + text if value < 0 and float(text) != 0 else text
