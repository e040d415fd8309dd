"""Taking parts and words elsewhere in the text of a spec, written as their places are written already.

A place keeps its form: a length its unit, a part measured from another its anchor, an axis that is not moved its every
letter. Parts that are measured from one that moves along are not moved twice.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Final, TypeAlias

from panelart.messages import Said
from panelart.messages import spec_places as said
from panelart.source import yaml
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Node, Scalar
from panelart.source.nodes import Sequence as SequenceNode
from panelart.source.written import Written, figure
from panelart.spec import language
from panelart.spec.part_paths import path_of_part, paths_of_parts
from panelart.units import length

Path: TypeAlias = tuple[str | int, ...]

FINEST: Final = 1e-3
"""A place is written to a thousandth of a millimetre, or to what comes next to that in its own unit."""

_STILL: Final = FINEST / 2
_UNIT: Final = re.compile(r"(\s*)([^0-9\s.,+/-]*)\s*$")
_EDGES: Final = frozenset((*language.ACROSS_LINES, *language.UPRIGHT_LINES))
_SIDES: Final = (
    ((language.PlaceAcross.right_of.name, 1.0), (language.PlaceAcross.left_of.name, -1.0)),
    ((language.PlaceUpright.above.name, 1.0), (language.PlaceUpright.below.name, -1.0)),
)
"""For each axis the keys of a part that stands clear of another, and whether a wider gap takes it on or back."""


class NotHereError(Exception):
    """A change that must be made in the spec's text by hand, and why."""

    def __init__(self, says: Said) -> None:
        super().__init__(says)
        self.says: Said = says


def moves(text: str, refs: Sequence[str], by: tuple[float, float]) -> dict[Path, Written]:
    """What is to be put into the text for parts to stand elsewhere by so many mm; empty where nothing changes.

    Raises SpecError for a part without an item of its own, and NotHereError.
    """
    items = items_of(text, paths_of_parts(text))
    values: dict[Path, Written] = {}
    for ref in refs:
        path = path_of_part(text, ref)
        at = items[ref].get(language.Part.at.name)
        if at is None:
            raise NotHereError(said.position_missing(ref=ref))
        for axis in (0, 1):
            due = by[axis] - _carried(ref, axis, refs, by, items)
            if abs(due) >= _STILL:
                values |= _along(at, axis, due, (*path, language.Part.at.name), ref)
    return values


def moves_of_text(text: str, number: int, by: tuple[float, float]) -> dict[Path, Written]:
    """The same for the words at a place of their own, counted from 1. Raises NotHereError."""
    listed = yaml.read(text, "").get(language.Spec.texts.name)
    items = listed.items if isinstance(listed, SequenceNode) else ()
    item = items[number - 1] if 1 <= number <= len(items) else None
    at = item.get(language.FreeSymbol.at.name) if isinstance(item, MappingNode) else None
    if at is None:
        raise NotHereError(said.position_of_text_missing())
    path: Path = (language.Spec.texts.name, number - 1, language.FreeSymbol.at.name)
    values: dict[Path, Written] = {}
    for axis in (0, 1):
        if abs(by[axis]) >= _STILL:
            values |= _along(at, axis, by[axis], path, said.this_text())
    return values


def moved(at: Node, path: Path, by: tuple[float, float]) -> dict[Path, Written]:
    """What is put at a place, whose path is `path`, for it to be elsewhere by so many mm. Raises NotHereError."""
    values: dict[Path, Written] = {}
    for axis in (0, 1):
        if abs(by[axis]) >= _STILL:
            values |= _along(at, axis, by[axis], path, said.this_item())
    return values


def items_of(text: str, paths: Mapping[str, Path]) -> Mapping[str, MappingNode]:
    """The items of parts in the list of parts, by ref. Raises SpecError for no YAML."""
    listed = yaml.read(text, "").get(language.Spec.parts.name)
    items = listed.items if isinstance(listed, SequenceNode) else ()
    found = {ref: items[int(path[-1])] for ref, path in paths.items()}
    return {ref: item for ref, item in found.items() if isinstance(item, MappingNode)}


def further(written: str, by: float) -> Written:
    """A length that is so many mm more, in the unit that it is written in. Raises ValueError for no length."""
    value = length(written)
    space, unit = _UNIT.search(written).groups()  # type: ignore[union-attr]  # it fits at the end of any text
    if not unit:
        return round(value + by, 3) + 0.0
    one = length(f"1 {unit}")
    decimals = max(0, math.ceil(math.log10(one / FINEST) - 1e-9))
    return f"{figure(round((value + by) / one, decimals) + 0.0)}{space}{unit}"


# --- one axis of one place


def _along(at: Node, axis: int, by: float, path: Path, whose: Said) -> dict[Path, Written]:
    """What is put at one number of a place."""
    if isinstance(at, SequenceNode) and len(at.items) == 2:
        return {(*path, axis): _more(at.items[axis], by, whose)}
    if not isinstance(at, MappingNode):
        raise NotHereError(said.position_calculated(what=whose))
    together = at.get(language.RelativePlace.by.name)
    if isinstance(together, SequenceNode) and len(together.items) == 2:
        return {(*path, language.RelativePlace.by.name, axis): _more(together.items[axis], by, whose)}
    name = "xy"[axis]
    place = at.get(name)
    if isinstance(place, Scalar):
        return {(*path, name): _more(place, by, whose)}
    if not isinstance(place, MappingNode):
        raise NotHereError(said.position_calculated(what=whose))
    for side, way in _SIDES[axis]:
        if place.get(side) is not None:
            return {(*path, name, language.PlaceAcross.gap.name): _gap(place, side, way * by, whose)}
    return {(*path, name, language.PlaceAcross.by.name): _more(place.get(language.PlaceAcross.by.name), by, whose)}


def _gap(place: MappingNode, side: str, by: float, whose: Said) -> Written:
    told = place.get(language.PlaceAcross.gap.name)
    if (length(told.text) if isinstance(told, Scalar) else 0.0) + by < 0.0:
        of = place.get(side)
        other = of.text if isinstance(of, Scalar) else said.its_neighbour()
        raise NotHereError(said.gap_negative(what=whose, side=side.replace("_", " "), other=other))
    return _more(told, by, whose)


def _more(told: Node | None, by: float, whose: Said) -> Written:
    if told is None:
        return round(by, 3) + 0.0
    if not isinstance(told, Scalar):
        raise NotHereError(said.position_calculated(what=whose))
    return further(told.text, by)


# --- parts that others are measured from


def _carried(
    ref: str, axis: int, refs: Iterable[str], by: tuple[float, float], items: Mapping[str, MappingNode]
) -> float:
    """How far a part goes along an axis by itself, because what it is measured from does."""
    anchor = _anchor(items[ref], axis) if ref in items else None
    if anchor is None:
        return 0.0
    if anchor in refs:
        return by[axis]
    if anchor not in items:
        others = [one for one in refs if one != ref]
        if others:
            raise NotHereError(said.measured_from_pattern(ref=ref, anchor=anchor))
        return 0.0
    return _carried(anchor, axis, refs, by, items)


def _anchor(item: MappingNode, axis: int) -> str | None:
    """The ref that a part's place on an axis is measured from."""
    at = item.get(language.Part.at.name)
    if not isinstance(at, MappingNode):
        return None
    named = at.get(language.RelativePlace.from_.name)
    if named is None:
        place = at.get("xy"[axis])
        if not isinstance(place, MappingNode):
            return None
        keys = (language.PlaceAcross.from_.name, *(side for side, _ in _SIDES[axis]))
        named = next((found for key in keys if (found := place.get(key)) is not None), None)
    return named.text if isinstance(named, Scalar) and named.text not in _EDGES else None
