"""What of a spec can be moved in its text, and which parts go with it.

One item of the list of parts is one unit: a part, a row, a grid, a module, a repeat. Its copies and members keep their
distances. How far each part goes is measured: the text is changed and read again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path as FilePath
from typing import Final

from panelart.canonical import Struct
from panelart.diagnostics import SpecError
from panelart.drafting.blocks import Fixing, fixing_of
from panelart.drafting.least_moves import Line, Unit
from panelart.model.panel import Panel
from panelart.source import edit, yaml
from panelart.source.nodes import Mapping as MappingNode
from panelart.source.nodes import Node, Scalar
from panelart.source.nodes import Sequence as SequenceNode
from panelart.source.written import Written
from panelart.spec import language
from panelart.spec.moves import NotHereError, moved
from panelart.spec.part_paths import paths_of_parts
from panelart.spec.read import panel_from_text

_PROBE: Final = (0.375, 0.625)
"""How far a unit is moved to see what goes with it, mm: across and up told apart."""

_STRAY: Final = 1e-4
_IN_LINE: Final = 0.05
"""Parts whose places differ by no more stand in one row or column, mm."""

_LAYOUTS: Final = ("row", "column", "grid", "ring")
_AT: Final = language.Part.at.name
_PARTS: Final = language.Spec.parts.name
_LEGEND: Final = language.Part.legend.name


class Movable(Struct, frozen=True, kw_only=True):
    """The units of a spec that may be moved, each with the number of its item in the list of parts."""

    units: tuple[Unit, ...]
    items: Mapping[str, int]


def movable(text: str, file: str, folder: FilePath, panel: Panel) -> Movable:
    """The units of a spec without parts that are fixed, stand on a circuit board, or as a standard has them."""
    held = _held(panel)
    own = {path[1]: ref for ref, path in paths_of_parts(text, file).items()}
    listed = _listed(text, file)
    named = set(_named(listed))
    units: list[Unit] = []
    items: dict[str, int] = {}
    for number, item in enumerate(listed):
        ref = own.get(number)
        name = ref or f"{_PARTS}[{number}]"
        goes = None
        if ref is not None and ref not in named and _is_plain(item) and ref in panel.by_ref:
            goes = {ref: (1.0, 1.0)}
        else:
            goes = _measured(text, file, folder, panel, item, number)
        if goes and held.isdisjoint(goes):
            units.append(Unit(name=name, goes=goes))
            items[name] = number
    return Movable(units=tuple(units), items=items)


def _held(panel: Panel) -> set[str]:
    """The parts that stay."""
    on_boards = {ref for board in panel.boards for ref in board.refs}
    by_standard = {part.ref for part in panel.parts if fixing_of(part.component) is Fixing.STANDARD}
    return on_boards | by_standard | {part.ref for part in panel.parts if part.fixed}


def with_moves(text: str, found: Movable, by: Mapping[str, tuple[float, float]], file: str = "") -> str:
    """The text with units moved, in mm; everything else byte for byte as it was."""
    listed = _listed(text, file)
    values: dict[edit.Path, Written] = {}
    for name, move in by.items():
        number = found.items[name]
        values |= _shift(listed[number], (_PARTS, number), move)
    return edit.put_all(text, values, file)


def lines_of(panel: Panel) -> tuple[Line, ...]:
    """The rows and columns that parts stand in, two parts or more in each."""
    found: list[Line] = []
    for axis in (0, 1):
        ordered = sorted(panel.parts, key=lambda part: (part.at[axis], part.ref))
        run: list[str] = []
        last = 0.0
        for part in ordered:
            if run and part.at[axis] - last > _IN_LINE:
                found += [Line(axis=axis, refs=tuple(run))] if len(run) > 1 else []
                run = []
            run.append(part.ref)
            last = part.at[axis]
        found += [Line(axis=axis, refs=tuple(run))] if len(run) > 1 else []
    return tuple(found)


# --- the text


def _listed(text: str, file: str) -> Sequence[Node]:
    parts = yaml.read(text, file).get(_PARTS)
    return parts.items if isinstance(parts, SequenceNode) else ()


def _is_plain(item: Node) -> bool:
    """Whether a part stands at two numbers."""
    at = item.get(_AT) if isinstance(item, MappingNode) else None
    return isinstance(at, SequenceNode) and all(isinstance(one, Scalar) for one in at.items)


def _named(listed: Sequence[Node]) -> Iterator[str]:
    """All texts that places are written with, refs among them."""
    for item in listed:
        yield from _in_places(item, within=False)


def _in_places(node: Node, *, within: bool) -> Iterator[str]:
    match node:
        case Scalar():
            if within:
                yield node.text
        case SequenceNode():
            for one in node.items:
                yield from _in_places(one, within=within)
        case MappingNode():
            for entry in node.entries:
                place = within or entry.key.text in (_AT, "distribute", *_LAYOUTS)
                yield from _in_places(entry.value, within=place and entry.key.text != _PARTS)


def _shift(item: Node, path: edit.Path, by: tuple[float, float]) -> dict[edit.Path, Written]:
    """What is put into the text for an item to stand elsewhere; empty where the spec works its place out."""
    if not isinstance(item, MappingNode):
        return {}
    for name in _LAYOUTS:
        inside = item.get(name)
        if isinstance(inside, MappingNode):
            return _at(inside, (*path, name), by)
    if item.get(_AT) is not None:
        return _at(item, path, by) | _with_legend(item, path, by)
    values: dict[edit.Path, Written] = {}
    if item.get("repeat") is not None or item.get("mirror") is not None:
        inner = item.get(_PARTS)
        for number, one in enumerate(inner.items if isinstance(inner, SequenceNode) else ()):
            if not _follows(one):
                values |= _shift(one, (*path, _PARTS, number), by)
    return values


def _follows(item: Node) -> bool:
    """Whether a member of a copy is measured from another part, which it follows."""
    at = item.get(_AT) if isinstance(item, MappingNode) else None
    return isinstance(at, MappingNode)


def _at(item: MappingNode, path: edit.Path, by: tuple[float, float]) -> dict[edit.Path, Written]:
    at = item.get(_AT)
    return {} if at is None else moved(at, (*path, _AT), by)


def _with_legend(item: MappingNode, path: edit.Path, by: tuple[float, float]) -> dict[edit.Path, Written]:
    """A legend at a place of its own goes with its part."""
    legend = item.get(_LEGEND)
    return _at(legend, (*path, _LEGEND), by) if isinstance(legend, MappingNode) else {}


# --- what goes with it


def _measured(
    text: str, file: str, folder: FilePath, panel: Panel, item: Node, number: int
) -> dict[str, tuple[float, float]] | None:
    """How far each part goes for a move of 1 across and 1 up; None where that cannot be told."""
    try:
        values = _shift(item, (_PARTS, number), _PROBE)
        after = panel_from_text(edit.put_all(text, values, file), file, folder) if values else panel
    except (SpecError, NotHereError):
        return None
    goes: dict[str, tuple[float, float]] = {}
    for part in panel.parts:
        there = after.by_ref.get(part.ref)
        if there is None:
            return None
        way = tuple(round((there.at[axis] - part.at[axis]) / _PROBE[axis], 3) + 0.0 for axis in (0, 1))
        if max(map(abs, way)) > _STRAY:
            goes[part.ref] = way[0], way[1]
    return goes or None
