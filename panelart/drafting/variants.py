"""The orders and forms of groups that are tried: like groups all in one form, what has no place in the order moved.

Groups go in the order of use. An emergency stop has its place at an edge, not in that order, and parts in no group may
come before or after the others; both are tried at other places of the order too.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product
from typing import Final

from msgspec.structs import replace

from panelart.canonical import Struct
from panelart.drafting.blocks import Level
from panelart.drafting.families import Family
from panelart.drafting.shapes import Shape
from panelart.drafting.shelves import Group
from panelart.drafting.spacing import Spacing

OUT_OF_ORDER: Final = 2.0
"""What it costs that parts in no group come last instead of where the list has them: less than a shelf more."""

MAX_ORDERED: Final = 8
"""With more groups than these only the order of use is looked at."""

MAX_FORMS: Final = 12
FEW_FORMS: Final = 4
"""So many choices of forms for families of like groups are looked at, the cheapest first; so few where there are more
groups than `MAX_ORDERED`."""


class Variant(Struct, frozen=True, kw_only=True):
    """Groups in an order that is tried, and what the order costs."""

    groups: tuple[Group, ...]
    cost: float


def variants(groups: Sequence[Group], alike: Sequence[Family], spacing: Spacing) -> list[Variant]:
    """Every order with every choice of forms for like groups, the order of use and the cheapest forms first."""
    return [
        Variant(groups=tuple(chosen[number] for number in order), cost=cost)
        for chosen in _in_forms(groups, alike, spacing)
        for order, cost in orders(groups)
    ]


def orders(groups: Sequence[Group]) -> list[tuple[tuple[int, ...], float]]:
    """The orders of groups that are tried, by their numbers, with what each costs."""
    base = tuple(range(len(groups)))
    found = {base: 0.0}
    if len(groups) > MAX_ORDERED:
        return [(base, 0.0)]
    stops = [number for number in base if groups[number].emergency]
    loose = [number for number in base if _is_loose(groups[number])]
    for number in loose:
        found.setdefault(_last(base, number, stops), OUT_OF_ORDER)
    for order, cost in list(found.items()):
        for stop in stops:
            for other in _with_stop_elsewhere(order, stop):
                found.setdefault(other, cost)
    for order in _mirrored(groups, stops):
        found.setdefault(order, OUT_OF_ORDER)
    return list(found.items())


def _with_stop_elsewhere(order: Sequence[int], stop: int) -> Iterator[tuple[int, ...]]:
    """An order with an emergency stop at every other place but the first."""
    rest = tuple(number for number in order if number != stop)
    for place in range(1, len(rest)):
        yield (*rest[:place], stop, *rest[place:])


def _mirrored(groups: Sequence[Group], stops: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """The orders with half of a family on either side of what is unlike."""
    numbers = [number for number in range(len(groups)) if number not in stops]
    for kin in dict.fromkeys(group.kin for group in groups if group.kin):
        alike = [number for number in numbers if groups[number].kin == kin]
        others = [number for number in numbers if groups[number].kin != kin]
        half = len(alike) // 2
        if others and len(alike) == 2 * half:
            yield (*alike[:half], *others, *alike[half:], *stops)


def _is_loose(group: Group) -> bool:
    """Whether a group is of parts that the list puts in none, and is neither mains nor read, which come first."""
    seen = all(block.level is Level.DISPLAY and not block.air for block in group.blocks)
    return not group.name and not group.emergency and not group.mains and not seen


def _last(order: Sequence[int], number: int, stops: Sequence[int]) -> tuple[int, ...]:
    """An order with one group after all but emergency stops."""
    rest = [other for other in order if other != number and other not in stops]
    return (*rest, number, *stops)


def _in_forms(groups: Sequence[Group], alike: Sequence[Family], spacing: Spacing) -> Iterator[list[Group]]:
    """The groups with one form for each family of like ones, for the cheapest choices of forms."""
    if not alike:
        yield list(groups)
        return
    forms = [_useful(groups[family.members[0]], spacing) for family in alike]
    choices = sorted(product(*forms), key=lambda chosen: _price(groups, alike, chosen))
    for chosen in choices[: MAX_FORMS if len(groups) <= MAX_ORDERED else FEW_FORMS]:
        found = list(groups)
        for family, number in zip(alike, chosen, strict=True):
            for member in family.members:
                found[member] = replace(groups[member], shapes=(groups[member].shapes[number],))
        yield found


def _price(groups: Sequence[Group], alike: Sequence[Family], chosen: Sequence[int]) -> float:
    """What the forms of families cost, all members counted."""
    return math.fsum(
        groups[member].shapes[number].cost
        for family, number in zip(alike, chosen, strict=True)
        for member in family.members
    )


def _useful(group: Group, spacing: Spacing) -> list[int]:
    """The forms of a group that no other is as small as in both directions, and as cheap."""
    sizes = [(*_extent(group, shape, spacing), shape.cost) for shape in group.shapes]
    return [
        number
        for number, size in enumerate(sizes)
        if not any(
            all(theirs <= own + 1e-6 for theirs, own in zip(other, size, strict=True))
            and (other != size or at < number)
            for at, other in enumerate(sizes)
            if at != number
        )
    ]


def _extent(group: Group, shape: Shape, spacing: Spacing) -> tuple[float, float]:
    """How wide and how high a group is in a form."""
    height = math.fsum(shape.apart) + shape.tops[0] + shape.bottoms[-1]
    return math.fsum(group.reach(shape, spacing)), height
